"""Whether an utterance is part of a note at all. What is mostly noise, or talk of something else, is refused."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.listening.heard import Hearing, Unsure
from notesparse.listening.trade import Trade, key

IN_VOCABULARY = 0.55
"""Least share of words that the trade uses (measured before repair: 0.69 is the 5th percentile of notes, 0.44 the 95th
of other talk)."""
LIKELY = -7.6
"""Least mean logarithm of a word's probability by the trade's language model (measured on text: ten sentences of other
talk have -7.9 and less, 98 of 100 dictated lines of notes have more than this)."""
DOUBTFUL, MUCH = 0.5, 0.75
"""Shares of doubtful key words: above the second an utterance is refused, above the first only where the recogniser
itself is not sure of what it heard. Measured on 24 made-up notes with machine voices: so 96 of 100 utterances are
refused with wind at 5 dB, 29 with wind at 15 dB; without the second look 44 were."""
SURE = 0.6
"""Mean confidence of an utterance that the recogniser is sure of."""


def refused(
    heard: Hearing, taken: Hearing, unsure: Sequence[Unsure], trade: Trade, least_likely: float = LIKELY
) -> str | None:
    """Why this utterance is not taken, in words; None where it is. `heard` is as it was before any repair; below the
    likelihood `least_likely` its words are not those of a note."""
    if not heard.words:
        return "no words were heard"
    known = share_known(heard, trade)
    if known < IN_VOCABULARY or likely(heard, trade) < least_likely:
        return "most of its words are none of a soybean note"
    if mean_sure(heard) < SURE and not any(key(w.say, trade) for w in taken.words):
        return "nothing that matters was heard clearly"
    doubtful = share_doubtful(taken, unsure, trade)
    if doubtful > MUCH or (doubtful > DOUBTFUL and mean_sure(heard) < SURE):
        return "most of the words that matter were not heard clearly"
    return None


def share_known(heard: Hearing, trade: Trade) -> float:
    words = heard.words
    return sum(trade.knows(w.say) for w in words) / len(words) if words else 0.0


def likely(heard: Hearing, trade: Trade) -> float:
    """Mean logarithm of a word's probability, the end of the sentence being one more word."""
    return trade.trigram.score(heard.says) / (len(heard.words) + 1)


def mean_sure(heard: Hearing) -> float:
    return sum(w.sure for w in heard.words) / len(heard.words) if heard.words else 0.0


def share_doubtful(taken: Hearing, unsure: Sequence[Unsure], trade: Trade) -> float:
    """Share of the key words in which there is a doubt; 0 where no word is one."""
    keys = [i for i, w in enumerate(taken.words) if key(w.say, trade)]
    inside = sum(any(u.first <= i < u.last for u in unsure) for i in keys)
    return inside / len(keys) if keys else 0.0
