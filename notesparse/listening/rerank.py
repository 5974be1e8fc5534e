"""Which of several hearings is taken: the recogniser's own score beside that of the trade's language model."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.listening.heard import Hearing
from notesparse.listening.trade import Model

WEIGHT = 0.3
"""Of the language model's logarithms (measured: 0.1 to 0.5 are all alike)."""
WORD = 1.5
"""Given back for each word, as every further word costs the language model about five times `WEIGHT`."""


def taken(hearings: Sequence[Hearing], trigram: Model) -> Hearing:
    """The best of `hearings` (at least one); among equals the recogniser's own favourite."""
    return max(hearings, key=lambda h: worth(h, trigram))


def worth(hearing: Hearing, trigram: Model) -> float:
    return hearing.score + WEIGHT * trigram.score(hearing.says) + WORD * len(hearing.words)
