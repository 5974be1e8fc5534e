"""Whether a page is typed: type stands on one line, and the recogniser is sure of most of it; neither holds of
handwriting."""

from __future__ import annotations

import statistics
from collections.abc import Sequence
from typing import TYPE_CHECKING

from notesparse.typed.flatten import DARK
from notesparse.typed.recognise import Word

if TYPE_CHECKING:
    from notesparse.typed.picture import Grey

ONLY_TYPED = "Only typed or printed pages are read, as figures in handwriting would be misread; type it as a text file"

NEAR = 80
"""Letters to the right of one, in the order of their left edges on the whole page, among which its neighbour is."""

SURE = 90

MOST_UNSURE = 0.33
"""Share of unsure words, over both readings, above which a page is refused. Measured on drawn pages: 0.32 and less on
37 pages in typewriter fonts, 0.35 and more on 16 of 18 in fonts like handwriting; the other two were in an even comic
hand. The margin is narrow, so where it fails it is to fail towards refusing."""

HOPELESS = 0.6
"""Share of unsure words in the first reading above which there is no need of a second."""

STEP, FAR_STEP = 0.05, 0.09
"""Heights of a small letter by which neighbouring letters usually stand lower or higher than each other. Measured on
drawn pages: 0.04 and less in typewriter fonts, photographed askew too; 0.07 where the letters were made to jump as of a
worn typewriter; 0.06 to 0.23 in fonts like handwriting whose letters stray. Above the first a page is held to be typed
only where the recogniser is sure of it, above the second it is written by hand."""

MOST_UNSURE_STEPPING = 0.15
"""As `MOST_UNSURE`, of a page whose letters step more than `STEP`."""

FEWEST_STEPS = 20
"""Pairs of neighbours that this is told from."""

SMALL = 13.0
"""Pixels of height of a small letter, under which the picture is too coarse."""


def stepping(flat: Grey, letter: float) -> float | None:
    """The usual step between the feet of neighbouring letters, in heights of a small letter; None where there are too
    few letters. `flat` lies level, its small letters `letter` pixels high."""
    from scipy import ndimage

    marks, _ = ndimage.label(flat < DARK)
    found = sorted(
        (x.start, x.stop, y.stop)
        for y, x in ndimage.find_objects(marks)
        if 0.7 * letter < y.stop - y.start < 2.2 * letter and x.stop - x.start < 3 * letter
    )
    steps = []
    for at, (_, right, foot) in enumerate(found):
        for left, _, other in found[at + 1 : at + NEAR]:
            if left - right > 2.5 * letter:
                break
            if left >= right - 2 and abs(other - foot) < 0.6 * letter:
                steps.append(abs(other - foot) / letter)
                break
    return statistics.median(steps) if len(steps) >= FEWEST_STEPS else None


def unsure(words: Sequence[Word]) -> float:
    """Share of the words with a letter or figure of which the recogniser is not sure; 1 where there is none."""
    said = [w for w in words if any(c.isalnum() for c in w.text)]
    return sum(w.sure < SURE for w in said) / len(said) if said else 1.0


def why_refused(
    letter: float | None, step: float | None, first: Sequence[Word], second: Sequence[Word] | None = None
) -> str | None:
    """Why a page is not taken, in plain words; None where it is legible type. `letter` is the height of its small
    letters in the picture, `step` what `stepping` gives; `second` is its second reading, once there is one."""
    if letter is None or not any(c.isalnum() for w in first for c in w.text):
        return "no writing is found on it"
    share = unsure(first) if second is None else (unsure(first) + unsure(second)) / 2
    uneven = letter >= SMALL and step is not None and step > STEP
    most = HOPELESS if second is None else MOST_UNSURE_STEPPING if uneven else MOST_UNSURE
    if uneven and step is not None and step > FAR_STEP:
        return f"it looks written by hand, as its letters do not stand on one line. {ONLY_TYPED}"
    if share <= most:
        return None
    if letter < SMALL:
        return (
            f"its letters are only {letter:.0f} pixels high, too coarse to be read safely "
            f"({share:.0%} of the words are unsure); scan it at 300 dots an inch, or go nearer"
        )
    doubted = f"of {share:.0%} of its words the recogniser is not sure"
    return f"it looks written by hand, is blurred, or lies upside down: {doubted}. {ONLY_TYPED}"
