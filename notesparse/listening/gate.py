"""Whether an utterance is part of a note at all. What is mostly noise, or talk of something else, is refused."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.lazy import dataclass
from notesparse.listening.heard import Hearing, Unsure
from notesparse.listening.trade import Trade, key

LEANING = 1.0
"""How far the words have to lean to the trade, against ordinary talk (`spoken/leaning.py`), before any repair. Measured
with machine voices: the large recogniser's hearings of twelve pieces of other talk (144 recordings) have 0.61 and less,
the highest a way to drive; at 1.0 it refuses 2 more of 96 clean notes and 2 more of 97 with wind at 15 dB than at 0.5.
Twelve pieces more, of a farm and written after it was chosen, were then refused in all 144 recordings."""
DOUBTFUL, MUCH = 0.5, 0.75
"""Shares of doubtful key words: above the second an utterance is refused, above the first only where the recogniser
itself is not sure of what it heard. Measured on 24 made-up notes with machine voices: so 96 of 100 utterances are
refused with wind at 5 dB, 29 with wind at 15 dB; without the second look 44 were."""
SURE = 0.6
"""Mean confidence of an utterance that the recogniser is sure of."""


@dataclass(frozen=True, slots=True)
class Limits:
    """What leans less to the trade than `least` is no note; what leans less than `near`, or whose mean confidence is
    under `sure`, is refused where more than `DOUBTFUL` of its key words are in doubt."""

    least: float
    near: float
    sure: float


BOTH = Limits(least=LEANING, near=LEANING, sure=SURE)


def refused(
    heard: Hearing,
    taken: Hearing,
    unsure: Sequence[Unsure],
    trade: Trade,
    limits: Limits = BOTH,
) -> str | None:
    """Why this utterance is not taken, in words; None where it is. `heard` is as it was before any repair."""
    if not heard.words:
        return "no words were heard"
    leaning = trade.lean(heard.says)
    if leaning < limits.least:
        return "most of its words are none of a soybean note"
    if mean_sure(heard) < limits.sure and not any(key(w.say, trade) for w in taken.words):
        return "nothing that matters was heard clearly"
    doubtful = share_doubtful(taken, unsure, trade)
    weak = mean_sure(heard) < limits.sure or leaning < limits.near
    if doubtful > MUCH or (doubtful > DOUBTFUL and weak):
        return "most of the words that matter were not heard clearly"
    return None


def mean_sure(heard: Hearing) -> float:
    return sum(w.sure for w in heard.words) / len(heard.words) if heard.words else 0.0


def share_doubtful(taken: Hearing, unsure: Sequence[Unsure], trade: Trade) -> float:
    """Share of the key words in which there is a doubt; 0 where no word is one."""
    keys = [i for i, w in enumerate(taken.words) if key(w.say, trade)]
    inside = sum(any(u.first <= i < u.last for u in unsure) for i in keys)
    return inside / len(keys) if keys else 0.0
