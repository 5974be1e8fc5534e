"""What stands over the labels of a table: the stop, or the name of the field."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.paper.blocks import is_stop, stop_at
from notesparse.observing.paper.grids.lines import in_capitals, titled_words
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.heads import Column
from notesparse.text.columns import Cell, Line

_COMMON = cue_page("shared")
_SHORT = 2  # letters of a word that may be a sign
_FIRST = _COMMON.words("first_label") | {"A"}  # labels of the first row


def stop_corner(page: Page, columns: list[Column], row: Line) -> tuple[int, int] | None:
    """`Stop A   tri   fl` over rows 1, 2, 3: the stop stands over the labels, and no column of stops."""
    first = columns[0]
    if first.what != ["stop"] or len(first.pieces) < _SHORT or any(c.label for c in columns):
        return None
    a, b = first.pieces[0], first.pieces[-1] + 1
    found = page.labelled(row)
    if not is_stop(page.lattice, Cell(a, b, first.left, first.right)) or found is None or found[0][0] not in _FIRST:
        return None
    first.what, first.unknown, first.place = ["plant"], [], None
    return stop_at(page.lattice, Cell(a, b, first.left, first.right))


def named_corner(page: Page, columns: list[Column], first_row: int) -> tuple[int, int] | None:
    """`TANNERY   tri   pod   fl` over rows 1, 2, 3: the name of the field stands over the labels, in capitals that the heads have not."""
    first = columns[0]
    if first.known or not first.unknown or not first.pieces or any(c.label for c in columns):
        return None
    a, b = first.pieces[0], first.pieces[-1] + 1
    others = [i for c in columns[1:] for i in c.pieces if page.pieces[i].form == "word"]
    rows = [x for x in page.lines[first_row : first_row + 2] if not x.blank]
    labels = [found[0][0] for x in rows if (found := page.labelled(x)) is not None]
    if labels not in (["1", "2"], ["A", "B"], ["a", "b"]):
        return None
    first.what = ["plant"]
    titled = in_capitals(page.lattice, range(a, b)) or titled_words(page.lattice, a, b)
    lower = all(page.lattice.original(i, i + 1).islower() for i in others)
    if first.pieces != list(range(a, b)) or not titled or not (lower or not in_capitals(page.lattice, others)):
        return None  # labels under a word that is not understood
    if not in_capitals(page.lattice, range(a, b)) and not lower:
        return None
    first.unknown, first.place = [], None
    return a, b
