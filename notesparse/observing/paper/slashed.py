"""Rows parted by strokes, with the heads parted in the same way over or under them (guide 4.21).

`pl 1: 8 / 9 / + / -`, and `(tf / nodes / bloom / pods)` on a line of its own. Without such heads nobody can tell what
the parts are of.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.columns import column_words, squeeze
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import labels_of, read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Cell, Line, cut_at
from notesparse.text.lattice import Lattice

_FEWEST = 2  # rows
_FEWEST_PARTS = 3
_LONGEST_PART = 4  # pieces


def find_slashed(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> tuple[list[Grid], set[int]]:
    """The tables whose heads are told, and the lines of those whose heads are not."""
    grids: list[Grid] = []
    lost: set[int] = set()
    k = 0
    while k < len(lines):
        rows: list[Row] = []
        first = k
        while k < len(lines) and k not in taken:
            row = _row(lattice, lines[k])
            if row is None or (rows and len(row.cells) != len(rows[0].cells)):
                break
            rows.append(row)
            k += 1
        if len(rows) < _FEWEST:
            k = max(k, first + 1)
            continue
        n = len(rows[0].cells)
        found = [(i, h) for i in (first - 1, k) for h in [_heads(lattice, lines, i, n, taken)] if h is not None]
        if not found:
            lost |= set(range(first, k))
            continue
        i, columns = found[0]
        for row in rows:
            _named(lattice, row, columns)
        head = list(range(lines[i].start, lines[i].end))
        a, b = min(first, i), max(k - 1, i)
        grids.append(Grid(columns, rows, head, lines[a].start, lines[b].end, a, b))
        k = b + 1
    return grids, lost


def _named(lattice: Lattice, row: Row, columns: Sequence[Column]) -> None:
    """The label of a row, where it stands in a part of its own."""
    for j, column in enumerate(columns):
        if column.label and j in row.cells:
            (cell,) = row.cells.pop(j)
            found = labels_of(lattice, *cell)
            row.labels, row.label = (found[0] if found is not None else (lattice.original(*cell),)), cell


def _parts(lattice: Lattice, a: int, b: int) -> list[Cell]:
    """Pieces [a, b) cut at strokes with blanks around them; none where strokes stand without."""
    pieces = lattice.pieces
    strokes = [i for i in range(a, b) if pieces[i].text == "/" and pieces[i].gap and i + 1 < b and pieces[i + 1].gap]
    if len(strokes) < _FEWEST_PARTS - 1:
        return []
    return cut_at(pieces, a, b, "/")


def _row(lattice: Lattice, line: Line) -> Row | None:
    """A line of figures and signs between strokes, with its label before them if it has one."""
    if line.blank:
        return None
    found = read_label(lattice, line.start, line.end)
    a = line.start
    if found is not None and found[2] and found[1] < line.end and lattice.pieces[found[1]].text != "/":
        a = found[1]
    cells = _parts(lattice, a, line.end)
    if len(cells) < _FEWEST_PARTS or not all(_bare(lattice, c) for c in cells):
        return None
    label = (line.start, a) if a > line.start and found is not None else None
    labels = found[0] if label is not None and found is not None else ()
    return Row(labels, label, {c.tab: [(c.start, c.end)] for c in cells})


def _bare(lattice: Lattice, c: Cell) -> bool:
    if squeeze(lattice.original(c.start, c.end)) in column_words().cells:
        return True
    return c.end - c.start <= _LONGEST_PART and all(
        lattice.pieces[i].form in {"int", "dec"} or lattice.pieces[i].text in {"/", "-", "@", ",", "r", "v", '"'}
        for i in range(c.start, c.end)
    )


def _heads(lattice: Lattice, lines: Sequence[Line], at: int, n: int, taken: set[int]) -> list[Column] | None:
    """The line `at` as heads of n parts."""
    if not 0 <= at < len(lines) or at in taken or lines[at].blank:
        return None
    a, b = lines[at].start, lines[at].end
    while a < b and lattice.pieces[a].text in "([":
        a += 1
    while b > a and lattice.pieces[b - 1].text in ")].:":
        b -= 1
    cells = cut_at(lattice.pieces, a, b, "/")
    if len(cells) != n:
        return None
    columns: list[Column] = []
    for c in cells:
        got = read_heads(lattice, [range(c.start, c.end)])
        if len(got) != 1 or not got[0].known or got[0].unknown:
            return None
        columns.append(got[0])
    return columns
