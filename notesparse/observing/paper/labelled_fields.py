"""Fields down, and on the line of each its plants with their labels: `Tannery   pl 1   6   pl 2   7` (guide 1.2, 4.7, 4.21).

What the figures are of is told over them: `Longest pod on the top node, in eighths of an inch`.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.blocks import is_stop, stop_at
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_FEWEST = 2  # fields, and plants of a field
_LONGEST_NAME = 5  # pieces
_OF_NO_PLANT = frozenset({"plant", "finding", "note", "stop", "stand"})
_LONGEST_VALUE = 4  # pieces
_MARKS = frozenset({":", ")"})


def find_labelled_fields(lattice: Lattice, lines: Sequence[Line], at: int, told: Column | None) -> Grid | None:
    """The fields from line `at` on, their plants measured as `told` says."""
    if told is None or not told.what or told.what[0] in _OF_NO_PLANT:
        return None
    grids: list[Grid] = []
    k = at
    while k < len(lines) and not lines[k].blank:
        rows = _plants(lattice, lines[k])
        if rows is None:
            break
        name = lines[k].cells[0]
        column = told.copy()
        column.pieces = []
        grid = Grid([column], rows, [], lines[k].start, lines[k].end, k, k)
        if is_stop(lattice, name):
            for row in rows:
                row.stop = stop_at(lattice, name)
            grid.head = list(range(name.start, name.end))
        else:
            grid.name = name.start, name.end
        grids.append(grid)
        k += 1
    if len(grids) < _FEWEST:
        return None
    first = grids[0]
    first.then, first.end, first.last = grids[1:], lines[k - 1].end, k - 1
    return first


def _plants(lattice: Lattice, line: Line) -> list[Row] | None:
    """The labelled values behind a name, `pl 1   6   pl 2   7` or `pl 1: 6   pl 2: 7`; None for anything else."""
    if len(line.cells) <= _FEWEST or not _named(lattice, line):
        return None
    rows: list[Row] = []
    label: tuple[str, tuple[int, int]] | None = None
    for cell in line.cells[1:]:
        found = read_label(lattice, cell.start, cell.end) if label is None else None
        if found is not None and (len(found[0]) > 1 or not (found[2] or lattice.at(found[1] - 1) in _MARKS)):
            return None
        begin = found[1] if found is not None else cell.start
        label = (found[0][0], (cell.start, begin)) if found is not None else label
        if label is None or cell.end - begin > _LONGEST_VALUE:
            return None
        if begin < cell.end:
            rows.append(Row((label[0],), label[1], {0: [(begin, cell.end)]}))
            label = None
    labels = {row.labels for row in rows}
    return rows if label is None and len(labels) == len(rows) >= _FEWEST else None


def _named(lattice: Lattice, line: Line) -> bool:
    """The first cell is a stop, or a name, each of its words with a capital or in figures, and no head of anything."""
    name = line.cells[0]
    if is_stop(lattice, name):
        return True
    words = [lattice.original(i, i + 1) for i in range(name.start, name.end) if lattice.pieces[i].form != "mark"]
    titled = (
        bool(words) and words[0][:1].isupper() and all(w[:1].isupper() or w[:1].isdigit() or w == "'s" for w in words)
    )
    if not titled or name.end - name.start > _LONGEST_NAME or read_label(lattice, name.start, name.end) is not None:
        return False
    return not any(c.known for c in read_heads(lattice, [range(name.start, name.end)]))
