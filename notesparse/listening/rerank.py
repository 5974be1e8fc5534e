"""Which of several hearings is taken: the recogniser's own score beside that of the trade's language model."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.listening.heard import Hearing
from notesparse.listening.trade import Model

WEIGHT = 0.3
"""Of the language model's logarithms (measured: 0.1 to 0.5 are all alike)."""
WORD = 1.5
"""Given back for each word, as every further word costs the language model about five times `WEIGHT`."""


AT_ONCE = 3
"""So many tokens in a row that take no time at all were made up: with wind Whisper says a whole sentence twice."""


def taken(hearings: Sequence[Hearing], trigram: Model) -> Hearing:
    """The best of `hearings` (at least one); among equals the recogniser's own favourite."""
    return max(hearings, key=lambda h: worth(h, trigram))


def in_the_sound(hearing: Hearing) -> Hearing:
    """The hearing up to where the recogniser went on though nothing was said."""
    took: dict[int, bool] = {}
    for word in hearing.words:
        took[word.token] = took.get(word.token, False) or word.end > word.start
    for first in range(len(hearing.tokens)):
        row = [took.get(at, True) for at in range(first, first + AT_ONCE)]
        if not any(row):
            words = tuple(w for w in hearing.words if w.token < first)
            return Hearing(words, hearing.tokens[:first], hearing.score)
    return hearing


def worth(hearing: Hearing, trigram: Model) -> float:
    return hearing.score + WEIGHT * trigram.score(hearing.says) + WORD * len(hearing.words)
