"""Marks that were said aloud: `gully forty new line plant one ten trifs comma bloom on top period`.

Some people dictate their commas. One such word alone may be anything (`a dry period`); two and more, the first of them
a comma or a new line, are marks.
"""

from __future__ import annotations

from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.text.scan import Piece

_LISTED = cue_page("text/said_marks")

_ONE = _LISTED.table("one", str)
_TWO = frozenset(_LISTED.rows("two"))
_SURE = _LISTED.words("sure")
_FEWEST = 2


def said_marks(pieces: list[Piece]) -> list[Piece]:
    """The pieces, with the marks that were said as marks; the same list where none were."""
    at: dict[int, str] = {}
    sure = False
    for i, p in enumerate(pieces):
        if p.text in _ONE:
            at[i] = _ONE[p.text]
        elif i and (pieces[i - 1].text, p.text) in _TWO:
            at[i - 1] = at[i] = "."
        else:
            continue
        sure = sure or p.text in _SURE
    if not sure or len(at) < _FEWEST + (len(at) == _FEWEST and all(mark == "." for mark in at.values())):
        return pieces
    return [replace(p, text=at[i], form="mark") if i in at else p for i, p in enumerate(pieces)]
