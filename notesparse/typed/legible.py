"""Whether a page is typed: what the recogniser is sure of on type, and is not on handwriting."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.typed.recognise import Word

SURE = 90

MOST_UNSURE = 0.33
"""Share of unsure words, over both readings, above which a page is refused. Measured on drawn pages: 0.32 and less on 37
pages in typewriter fonts, 0.35 and more on 16 of 18 in fonts like handwriting; the other two were in an even comic hand.
The margin is narrow, so where it fails it is to fail towards refusing."""

HOPELESS = 0.6
"""Share of unsure words in the first reading above which there is no need of a second."""

SMALL = 13.0
"""Pixels of height of a small letter, under which the picture is too coarse."""


def unsure(words: Sequence[Word]) -> float:
    """Share of the words with a letter or figure of which the recogniser is not sure; 1 where there is none."""
    said = [w for w in words if any(c.isalnum() for c in w.text)]
    return sum(w.sure < SURE for w in said) / len(said) if said else 1.0


def why_refused(letter: float | None, first: Sequence[Word], second: Sequence[Word] | None = None) -> str | None:
    """Why a page is not taken, in plain words; None where it is legible type. `second` is its second reading, once there
    is one."""
    if letter is None or not any(c.isalnum() for w in first for c in w.text):
        return "no writing is found on it"
    share = unsure(first) if second is None else (unsure(first) + unsure(second)) / 2
    if share <= (HOPELESS if second is None else MOST_UNSURE):
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
