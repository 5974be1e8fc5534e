"""Fields down and plants across: `field   A   B   C   lvs yellow` over `Orr N   R6   R7   R6   10%` (guide 1.2, 4.7, 4.21).

Each row is a field, and the cells under the labels are the stages of its plants; what stands under the other heads is told
of the field. A row with no code under the labels (`Tupper   not walked`) ends the table.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notesparse.language.columns import column_words, head_tokens
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import follows, labels_of
from notesparse.observing.paper.rows import Grid, Row
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Cell, Line, cut, cut_at, under
from notesparse.text.lattice import Lattice

_FEWEST = 2  # plants across
_LONGEST_NAME = 5  # pieces
_BESIDE = 3  # heads that are no plants: at most so many


def find_plants_across(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """Such a table whose heads stand on line `at`."""
    return _wide(lattice, lines, at) or _close(lattice, lines, at)


def _wide(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """With gaps or strokes between the plants."""
    texts = [p.text for p in lattice.pieces[lines[at].start : lines[at].end]]
    marked = next((m for m in "|;" if texts.count(m) >= _FEWEST), "")
    heads = _cells(lattice, lines[at], marked)
    labels = [_label(lattice, c) for c in heads]
    plants = [k for k, label in enumerate(labels) if label is not None]
    if len(plants) < _FEWEST or plants != list(range(1, len(plants) + 1)) or len(heads) - len(plants) > _BESIDE + 1:
        return None
    order = [str(labels[k]) for k in plants]
    if not _of_fields(lattice, heads[0]) or not all(follows(a, b) for a, b in itertools.pairwise(order)):
        return None
    others = [_column(lattice, c) for c in heads[len(plants) + 1 :]]
    grids: list[Grid] = []
    k = at + 1
    while k < len(lines) and not lines[k].blank:
        row = _row(lattice, _cells(lattice, lines[k], marked), heads, marked)
        if row is None or not any(_a_stage(lattice, row[n]) for n in plants if n in row):
            break
        grids += _grids(lines[k], at, row, order, others)
        k += 1
    return _joined(lines, at, k, grids)


def _close(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """`field   A B C` over `Orr     R3 R4 R3`: one blank between the plants, and nothing beside them."""
    pieces, line = lattice.pieces, lines[at]
    first = next((c for c in line.cells[:1] if _of_fields(lattice, c)), None)
    words = [] if first is None or line.tabbed else cut(pieces, first.end, line.end, 1)
    labels = [_label(lattice, c) or "" for c in words]
    if len(labels) < _FEWEST or not all(labels) or not all(follows(a, b) for a, b in itertools.pairwise(labels)):
        return None
    grids: list[Grid] = []
    k = at + 1
    while k < len(lines) and not lines[k].blank:
        codes = cut(pieces, lines[k].start, lines[k].end, 1)[-len(labels) :]
        name = (lines[k].start, codes[0].start)
        if not 0 < name[1] - name[0] <= _LONGEST_NAME or not all(_a_stage(lattice, (c.start, c.end)) for c in codes):
            break
        row = {0: name} | {n: (c.start, c.end) for n, c in enumerate(codes, 1)}
        grids += _grids(lines[k], at, row, labels, [])
        k += 1
    return _joined(lines, at, k, grids)


def _joined(lines: Sequence[Line], at: int, k: int, grids: list[Grid]) -> Grid | None:
    """The rows up to line `k` as one table with its heads."""
    if not grids:
        return None
    first = grids[0]
    first.head = list(range(lines[at].start, lines[at].end))
    first.then, first.start, first.end = grids[1:], lines[at].start, lines[k - 1].end
    first.first, first.last = at, k - 1
    return first


def _cells(lattice: Lattice, line: Line, marked: str) -> list[Cell]:
    return cut_at(lattice.pieces, line.start, line.end, marked) if marked else list(line.cells)


def _label(lattice: Lattice, c: Cell) -> str | None:
    """The label of the one plant that a head names."""
    got = labels_of(lattice, c.start, c.end)
    if got is not None and len(got[0]) == 1:
        return got[0][0]
    raw = lattice.original(c.start, c.end)
    return raw if len(raw) == 1 and raw.isalpha() else None


def _of_fields(lattice: Lattice, c: Cell) -> bool:
    return column_words().visits.get(head_tokens(lattice.original(c.start, c.end))) == "field"


def _column(lattice: Lattice, c: Cell) -> Column:
    got = read_heads(lattice, [range(c.start, c.end)])
    own = list(range(c.start, c.end))
    return got[0] if len(got) == 1 and got[0].known else Column([], own, c.left, c.right, unknown=own)


def _row(lattice: Lattice, cells: list[Cell], heads: list[Cell], marked: str) -> dict[int, tuple[int, int]] | None:
    """The cells of a row by the head that each stands under; None where the line is no row of the table."""
    if not cells or lattice.pieces[cells[0].start].form != "word" or cells[0].end - cells[0].start > _LONGEST_NAME:
        return None
    extents = [(c.left, c.right) for c in heads]
    where = [c.tab for c in cells] if marked else under([(c.left, c.right) for c in cells], extents)
    if None in where or len(set(where)) != len(where) or where[0] != 0 or max(n or 0 for n in where) >= len(heads):
        return None
    return {n or 0: (c.start, c.end) for c, n in zip(cells, where, strict=True)}


def _a_stage(lattice: Lattice, cell: tuple[int, int]) -> bool:
    return any(p.rule == "stage" and p.end == cell[1] for p in phrases_at(lattice, cell[0]))


def _grids(line: Line, at: int, row: dict[int, tuple[int, int]], order: list[str], others: list[Column]) -> list[Grid]:
    """The plants of a field, and what is told of the field beside them."""
    plants = [Row((label,), None, {0: [row[n]]}) for n, label in enumerate(order, 1) if n in row]
    grids = [Grid([Column(["stage"])], plants, [], line.start, line.end, at, line.number, name=row[0])]
    beside = {n: [row[k]] for n, k in enumerate(range(len(order) + 1, len(order) + 1 + len(others))) if k in row}
    if beside:
        own = Row((), None, beside)
        grids.append(Grid(others, [own], [], line.start, line.end, at, line.number, of_fields=True))
    return grids
