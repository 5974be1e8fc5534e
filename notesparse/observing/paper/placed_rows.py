"""Rows of plants in words, with the place in the field before the first plant of each (guide 4.7).

`sand hill   a   11 tf   no pods`, under it `b   10 tf`, and then `by the tower   a   13 tf`: the labels begin again.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import labels_of
from notesparse.observing.paper.rows import Grid, Row
from notesparse.observing.paper.told_rows import NAMED
from notesparse.text.columns import Cell, Line
from notesparse.text.lattice import Lattice

_FEWEST = 2  # places
_NEAR = 2  # blanks by which labels may stand aside from one another
_LONGEST = 5  # pieces of a place
_SEEN = NAMED | {"PLANT", "DMY", "MONTH", "R", "V"}


def find_placed(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """Such rows from line `at` on."""
    rows: list[Row] = []
    places: list[Cell] = []
    left = -1
    k = at
    while k < len(lines) and not lines[k].blank:
        cells = list(lines[k].cells)
        anew = bool(cells) and _a_place(lattice, cells[0])
        if anew:
            places.append(cells.pop(0))
        label = _label(lattice, cells[0]) if len(cells) > 1 and places else None
        if label is None or (left >= 0 and abs(cells[0].left - left) > _NEAR):
            break
        same = [r.labels[0] for r in rows if r.stop == (places[-1].start, places[-1].end)]
        if label in same or (not anew and not same):
            break
        left = cells[0].left
        rows.append(
            Row(
                (label,),
                (cells[0].start, cells[0].end),
                {0: [(cells[1].start, lines[k].end)]},
                stop=(places[-1].start, places[-1].end),
            )
        )
        k += 1
    different = {r.labels[0] for r in rows}
    if len({r.stop for r in rows}) < _FEWEST or len(rows) <= _FEWEST or len(different) == len(rows):
        return None  # the labels do not begin again
    return Grid([Column(["note"])], rows, [], lines[at].start, lines[k - 1].end, at, k - 1)


def _a_place(lattice: Lattice, cell: Cell) -> bool:
    """Words alone, and none of what is seen on a plant."""
    words = all(lattice.pieces[i].form == "word" for i in range(cell.start, cell.end))
    kinds = {e.kind for i in range(cell.start, cell.end) for e in lattice.edges[i] if e.how == "exact"}
    return (
        words
        and cell.end - cell.start <= _LONGEST
        and len(lattice.original(cell.start, cell.end)) > 2
        and not kinds & _SEEN
    )


def _label(lattice: Lattice, cell: Cell) -> str | None:
    """The label that a cell is."""
    found = labels_of(lattice, cell.start, cell.end)
    return found[0][0] if found is not None and len(found[0]) == 1 else None
