"""Rows whose cells say themselves what they are of (guide 4.21).

`1  15t  pd 3/4 @3` and under it `2  -"-  pd 1 @3`: the mark is of its own column, so the rows are a table without
heads. So are bare figures under `11 trif`.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.columns import column_words, squeeze
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.rows import Grid, Row, Rows
from notesparse.text.columns import Cell, Line, under
from notesparse.text.lattice import Lattice

_FEWEST = 2  # rows, and columns
_COUNTED = {"TRIF": "trifoliates", "NODES": "nodes", "NODE": "nodes"}


def find_told_rows(rows: Rows, at: int) -> Grid | None:
    """Such rows from line `at` on; None where no mark for the same again stands among them."""
    lines = rows.lines
    raw: list[tuple[Line, tuple[tuple[str, ...], int, bool, bool], list[Cell]]] = []
    k = at
    while k < len(lines) and not lines[k].blank and rows.is_row(lines[k]) and k not in rows.no_rows:
        found = rows.labelled(lines[k])
        if found is None:
            break
        raw.append((lines[k], found, rows.rest_cells(lines[k], found[1], False)))
        k += 1
    if len(raw) < _FEWEST or len(raw[0][2]) < _FEWEST or not all(_says(rows.lattice, c) for c in raw[0][2]):
        return None
    extents = [(c.left, c.right) for c in raw[0][2]]
    kinds = [_counted(rows.lattice, c) for c in raw[0][2]]
    below = [
        (c, place)
        for _, _, cells in raw[1:]
        for c, place in zip(cells, under([(c.left, c.right) for c in cells], extents), strict=True)
    ]
    figures = [c for c, j in below if j is not None and kinds[j] is not None and _figure(rows.lattice, c)]
    if not figures and not any(ditto(rows.lattice, c) for c, _ in below):
        return None
    if not all(_says(rows.lattice, c) or ditto(rows.lattice, c) or c in figures for c, _ in below):
        return None
    out: list[Row] = []
    for line, found, cells in raw:
        row = Row(found[0], (line.start, found[1]), {}, damaged=found[3])
        for c, place in zip(cells, under([(c.left, c.right) for c in cells], extents), strict=True):
            if place is None or place in row.cells:
                row.loose.append((c.start, c.end))
            else:
                row.cells[place] = [(c.start, c.end)]
        out.append(row)
    columns = [Column([kind or "note"]) for kind in kinds]
    return Grid(columns, out, [], lines[at].start, lines[k - 1].end, at, k - 1)


def _counted(lattice: Lattice, c: Cell) -> str | None:
    """What `11 trif.` at the head of a column counts, where the figures under it have no noun."""
    for e in lattice.edges[c.start]:
        if e.kind == "INT" and e.end < c.end:
            for n in lattice.edges[e.end]:
                rest = all(lattice.pieces[i].text == "." for i in range(n.end, c.end))
                if n.kind in _COUNTED and n.how == "exact" and rest:
                    return _COUNTED[n.kind]
    return None


def _figure(lattice: Lattice, c: Cell) -> bool:
    return c.end == c.start + 1 and lattice.pieces[c.start].form == "int"


def _says(lattice: Lattice, c: Cell) -> bool:
    """Whether a cell has a word that tells what it is of."""
    return any(p.form == "word" for p in lattice.pieces[c.start : c.end]) and not ditto(lattice, c)


def ditto(lattice: Lattice, c: Cell) -> bool:
    """`-"-`, `"`, `do.` in a cell of its own."""
    return column_words().cells.get(squeeze(lattice.original(c.start, c.end))) == "same"


def lost_dittos(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[tuple[int, int]]:
    """Marks for the same again (`-"-`) that stand in no table: nobody can tell of what, so they are not passed over."""
    out: list[tuple[int, int]] = []
    for line in lines:
        for c in line.cells[1:]:
            marks = [p.text for p in lattice.pieces[c.start : c.end]]
            if '"' in marks and len(marks) > 1 and ditto(lattice, c) and taken.isdisjoint(range(c.start, c.end)):
                out.append((c.start, c.end))
    return out


__all__ = ["find_told_rows", "lost_dittos"]
