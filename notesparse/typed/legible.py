"""Whether a page is typed: what the recogniser is sure of on type, and is not on handwriting."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.typed.recognise import Word

SURE = 90

MOST_UNSURE = 0.42
"""Share of unsure words from which a page is refused."""

FEWEST = 8
"""Words that a share can be taken of; with fewer the bound is `MOST_UNSURE_OF_FEW`."""

SMALL = 13.0
"""Pixels of height of a small letter, under which the picture is too coarse."""


def unsure(words: Sequence[Word]) -> float:
    """Share of the words with a letter or figure of which the recogniser is not sure; 1 where there is none."""
    said = [w for w in words if any(c.isalnum() for c in w.text)]
    return sum(w.sure < SURE for w in said) / len(said) if said else 1.0


def why_refused(words: Sequence[Word], letter: float | None) -> str | None:
    """Why a page is not taken, in plain words; None where it is legible type."""
    said = [w for w in words if any(c.isalnum() for c in w.text)]
    if letter is None or not said:
        return "no writing is found on it"
    share = unsure(words)
    if share <= MOST_UNSURE:
        return None
    if letter < SMALL:
        return (
            f"its letters are only {letter:.0f} pixels high, too coarse to be read safely "
            f"({share:.0%} of the words are unsure); scan it at 300 dots an inch, or go nearer"
        )
    return (
        f"it looks written by hand, or is too blurred: of {share:.0%} of its words the recogniser is not sure. "
        "Only typed or printed pages are read, as figures in handwriting would be misread; type it as a text file"
    )
