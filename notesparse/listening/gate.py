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
DOUBTFUL = 0.5
"""Most share of key words that may be doubtful."""


def refused(heard: Hearing, taken: Hearing, unsure: Sequence[Unsure], trade: Trade) -> str | None:
    """Why this utterance is not taken, in words; None where it is. `heard` is as it was before any repair."""
    if not heard.words:
        return "no words were heard"
    known = share_known(heard, trade)
    if known < IN_VOCABULARY or likely(heard, trade) < LIKELY:
        return "most of its words are none of a soybean note"
    doubtful = share_doubtful(taken, unsure, trade)
    if doubtful > DOUBTFUL:
        return "most of the words that matter were not heard clearly"
    return None


def share_known(heard: Hearing, trade: Trade) -> float:
    words = heard.words
    return sum(trade.knows(w.say) for w in words) / len(words) if words else 0.0


def likely(heard: Hearing, trade: Trade) -> float:
    """Mean logarithm of a word's probability, the end of the sentence being one more word."""
    return trade.trigram.score(heard.says) / (len(heard.words) + 1)


def share_doubtful(taken: Hearing, unsure: Sequence[Unsure], trade: Trade) -> float:
    """Share of the key words in which there is a doubt; 0 where no word is one."""
    keys = [i for i, w in enumerate(taken.words) if key(w.say, trade)]
    inside = sum(any(u.first <= i < u.last for u in unsure) for i in keys)
    return inside / len(keys) if keys else 0.0
