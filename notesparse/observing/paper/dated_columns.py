"""Tables whose columns are days: the same plants, looked at again and again (guide 4.21, 4.22).

`            6/14    6/21` over `plant 1   1   3`; what was counted stands in words over the table. Each day is a visit.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.reading.parse import Phrase, phrases_at
from notesparse.text.columns import Cell, Line, under
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/dated_columns")

_FEWEST = 2  # days, and rows
_NEAR = 3  # lines between what was counted and the days
_TAGS = _LISTED.words("tags")


def find_dated(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """The table whose days stand on line `at`."""
    days = _days(lattice, lines[at])
    if days is None:
        return None
    thing = next((x for k in range(at - 1, max(-1, at - 1 - _NEAR), -1) if (x := _thing(lattice, lines[k]))), None)
    if thing is None:
        return None
    column, head = thing
    table: list[tuple[tuple[str, ...], tuple[int, int], list[Cell]]] = []
    k = at + 1
    while k < len(lines) and not lines[k].blank:
        named = _named(lattice, lines[k])
        if named is None:
            break
        labels, end = named
        cells = [c for c in lines[k].cells if c.start >= end]
        table.append((labels, (lines[k].start, end), cells))
        k += 1
    if len(table) < _FEWEST:
        return None
    extents = [(c.left, c.right) for c, _ in days]
    values: list[list[tuple[int, int] | None]] = []
    for _, _, cells in table:
        where = under([(c.left, c.right) for c in cells], extents, far=3)
        if None in where or len(set(where)) != len(where):
            return None
        got: list[tuple[int, int] | None] = [None] * len(days)
        for c, j in zip(cells, where, strict=True):
            got[j or 0] = c.start, c.end
        values.append(got)
    grids: list[Grid] = []
    for j, (cell, _) in enumerate(days):
        rows = [
            Row(labels, label, {0: [value]})
            for (labels, label, _), got in zip(table, values, strict=True)
            if (value := got[j]) is not None
        ]
        grid = Grid([replace(column)], rows, list(range(cell.start, cell.end)), head[0], lines[k - 1].end, at, k - 1)
        grid.day = cell.start, cell.end
        grids.append(grid)
    first = grids[0]
    first.then = grids[1:]
    first.head += [*range(*head), *range(lines[at].start, days[0][0].start)]
    first.first = next(x.number for x in lines if x.start <= head[0] < x.end)
    return first


def _days(lattice: Lattice, line: Line) -> list[tuple[Cell, Phrase]] | None:
    """The dates of a line that holds nothing else but the word for plants."""
    out: list[tuple[Cell, Phrase]] = []
    if len(line.cells) < _FEWEST:
        return None
    for n, c in enumerate(line.cells):
        ph = day_at(lattice, c.start, c.end)
        if ph is not None:
            out.append((c, ph))
            continue
        got = read_heads(lattice, [range(c.start, c.end)])
        if n or len(got) != 1 or not got[0].label:
            return None
    return out if len(out) >= _FEWEST else None


def day_at(lattice: Lattice, a: int, b: int) -> Phrase | None:
    """The date that pieces [a, b) are."""
    return next((p for p in phrases_at(lattice, a) if p.rule == "date" and p.end == b), None)


def _thing(lattice: Lattice, line: Line) -> tuple[Column, tuple[int, int]] | None:
    """What was counted: the words of a line, or those up to its first comma."""
    if line.blank or len(line.cells) != 1:
        return None
    comma = next((i for i in range(line.start, line.end) if lattice.pieces[i].text == ","), line.end)
    for end in (line.end, comma):
        got = read_heads(lattice, [range(line.start, end)])
        got = got[:1] if len(got) == _FEWEST and got[1].label and not got[1].unknown else got  # on the tagged plants
        if len(got) == 1 and got[0].known and not got[0].unknown and not got[0].label and len(got[0].what) == 1:
            return got[0], (line.start, end)
    return None


def _named(lattice: Lattice, line: Line) -> tuple[tuple[str, ...], int] | None:
    a = line.start + (lattice.pieces[line.start].text in _TAGS)
    found = read_label(lattice, a, line.end)
    if found is None or found[1] >= line.end or lattice.pieces[found[1]].gap < _FEWEST:
        return None
    return found[0], found[1]
