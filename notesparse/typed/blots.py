"""Blots: ink thicker than any stroke of the type. A figure under one is doubtful, however sure the recogniser is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from notesparse.typed.agree import UNSURE, Seen

if TYPE_CHECKING:
    from notesparse.typed.picture import Grey

THICK = 0.5
"""Heights of a small letter: no stroke is as thick. The widest square of ink in a line of type is 0.29 to 0.37 of it in
twelve bold faces (DejaVu and Liberation, measured at 60 pixels), and less in regular ones."""

_INK = 128
"""Grey under which a pixel of a flattened page is ink."""


def under_blots(page: Grey, letter: float, rows: Sequence[Sequence[Seen]]) -> list[list[Seen]]:
    """The words of each row, those that a blot lies on being unsure. `letter`: height of a small letter in pixels."""
    from scipy.ndimage import uniform_filter

    size = max(3, round(THICK * letter))
    full = uniform_filter((page < _INK).astype("float32"), size) > 1 - 0.5 / size**2  # a square of ink around it
    return [
        [
            replace(s, word=replace(s.word, sure=min(s.word.sure, UNSURE)))
            if full[s.word.top : s.word.bottom, s.word.left : s.word.right].any()
            else s
            for s in row
        ]
        for row in rows
    ]
