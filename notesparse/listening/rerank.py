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
"""So many words in a row that take no time at all were made up: with wind Whisper says a whole sentence twice. Of the
hearings taken in 528 recordings those with such a row are all of that kind."""


def taken(hearings: Sequence[Hearing], trigram: Model) -> Hearing:
    """The best of `hearings` (at least one); among equals the recogniser's own favourite. One with made-up words only
    where all have some."""
    return max([h for h in hearings if not made_up(h)] or hearings, key=lambda h: worth(h, trigram))


def made_up(hearing: Hearing) -> bool:
    """Whether the recogniser went on where nothing was said."""
    row = 0
    for word in hearing.words:
        row = row + 1 if word.end <= word.start else 0
        if row >= AT_ONCE:
            return True
    return False


def worth(hearing: Hearing, trigram: Model) -> float:
    return hearing.score + WEIGHT * trigram.score(hearing.says) + WORD * len(hearing.words)
