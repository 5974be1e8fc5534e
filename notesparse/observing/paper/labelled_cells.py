"""Lines of one thing each, with every plant's label in its own cell (guide 4.21).

`Trifoliates open?   pl 1: 4   pl 2: 5`, and under it `Flowers?   pl 1: none   pl 2: top node`.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_FEWEST = 2  # plants of a line
_MARKS = frozenset({":", ")"})

_Cell = tuple[str, tuple[int, int], tuple[int, int]]  # the label, its pieces, the pieces of what is said


def find_labelled(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """The lines of that kind from line `at` on, of the same plants."""
    columns: list[Column] = []
    rows: dict[str, Row] = {}
    head: list[int] = []
    k = at
    while k < len(lines) and not lines[k].blank:
        got = _line(lattice, lines[k])
        if got is None or (rows and not set(rows) >= {label for label, _, _ in got[1]}):
            break
        column, cells = got
        if not column.what and not columns:
            break
        column.what = column.what or list(columns[-1].what)  # Longest? under Pods?
        for label, own, said in cells:
            if label in rows:
                head += range(*own)
            row = rows.setdefault(label, Row((label,), own, {}))
            row.cells[len(columns)] = [said]
        columns.append(column)
        k += 1
    if len(columns) < _FEWEST and len(rows) <= _FEWEST:
        return None
    head += [i for c in columns for i in c.pieces]
    return Grid(columns, list(rows.values()), head, lines[at].start, lines[k - 1].end, at, k - 1)


def _line(lattice: Lattice, line: Line) -> tuple[Column, list[_Cell]] | None:
    """The head of a line and its labelled cells; None where a cell has no label, or the head names no thing."""
    if len(line.cells) < 1 + _FEWEST:
        return None
    first = line.cells[0]
    bare = first.end - (lattice.pieces[first.end - 1].text in {":", "?"})
    heads = read_heads(lattice, [range(first.start, bare)], bare_measure=True) if bare < first.end else []
    if len(heads) != 1 or heads[0].unknown or not (heads[0].what or heads[0].measure):
        return None
    heads[0].pieces = [*range(first.start, first.end)]
    cells: list[_Cell] = []
    for cell in line.cells[1:]:
        label = read_label(lattice, cell.start, cell.end)
        if label is None or len(label[0]) != 1 or not cell.start < label[1] < cell.end:
            return None
        if lattice.pieces[label[1] - 1].text not in _MARKS:
            return None
        cells.append((label[0][0], (cell.start, label[1]), (label[1], cell.end)))
    return (heads[0], cells) if len({label for label, _, _ in cells}) == len(cells) else None
