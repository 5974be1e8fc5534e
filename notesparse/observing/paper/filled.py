"""A printed form with several blanks on a line, plant by plant (guide 4.19, 4.21).

`Plant no.  1     Trifoliates: 15    Nodes:`, and under it `Pods on upper four nodes (Y/N): Y   longest: 1 1/2 in.`
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.heads import ORGANS, Column, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice

_FEWEST = 3  # blanks of a plant


def find_filled(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """The plants of such a form from line `at` on."""
    columns: list[Column] = []
    names: list[tuple[object, ...]] = []
    rows: list[Row] = []
    head: list[int] = []
    k, last = at, at
    while k < len(lines):
        line = lines[k]
        if line.blank and rows:
            k += 1
            continue
        a = line.start
        opened = None if line.blank else _plant(lattice, line)
        if opened is not None:
            labels, a = opened
            rows.append(Row(labels, (line.start, a), {}))
        got = _entries(lattice, a, line.end) if rows and a < line.end else []
        if not rows or (not got and opened is None):
            break
        before: Column | None = None
        for column, begin, value in got:
            _of_before(column, before)
            before = column
            name = (tuple(column.what), column.by_node, column.place is not None, column.unit, column.measure)
            if name not in names:
                names.append(name)
                columns.append(column)
            if value[0] < value[1]:
                rows[-1].cells.setdefault(names.index(name), []).append(value)
            head += range(begin, value[0])
        last, k = k, k + 1
    if not rows or max(len(r.cells) for r in rows) < _FEWEST or len({r.labels for r in rows}) != len(rows):
        return None
    return Grid(columns, rows, head, lines[at].start, lines[last].end, at, last)


def _plant(lattice: Lattice, line: Line) -> tuple[tuple[str, ...], int] | None:
    """`Plant no. 1` at the head of a line, with a gap or nothing behind it."""
    found = read_label(lattice, line.start, line.end)
    if found is None or not found[2] or lattice.pieces[line.start].form != "word":
        return None
    end = found[1]
    if len(lattice.pieces[line.start].text) < 2 or (end < line.end and lattice.pieces[end].gap < WIDE):
        return None
    return found[0], end


def _entries(lattice: Lattice, a: int, b: int) -> list[tuple[Column, int, tuple[int, int]]]:
    """Each blank of a stretch: its column, where its head begins, the pieces filled in; none if one is not known."""
    pieces = lattice.pieces
    colons = [i for i in range(a, b) if pieces[i].text == ":"]
    out: list[tuple[Column, int, tuple[int, int]]] = []
    start = a
    for n, colon in enumerate(colons):
        nxt = colons[n + 1] if n + 1 < len(colons) else b
        gaps = [i for i in range(colon + 1, nxt) if pieces[i].gap >= WIDE and i > colon + 1]
        if n + 1 < len(colons) and not gaps and pieces[colon + 1].gap < WIDE:
            return []
        end = b if n + 1 == len(colons) else gaps[-1] if gaps else colon + 1
        got = read_heads(lattice, [range(start, colon)], bare_measure=True)
        if len(got) != 1 or got[0].unknown or got[0].label or not (got[0].known or got[0].measure):
            return []
        out.append((got[0], start, (colon + 1, end)))
        start = end
    return out


def _of_before(column: Column, before: Column | None) -> None:
    """`longest:` behind the pods is the longest of them."""
    if not column.what and before is not None and before.what[:1] and before.what[0] in ORGANS:
        column.what, column.place = list(before.what), column.place or before.place
    if not column.what:
        column.what = ["note"]
