"""A sheet for each plant: `PLANT 1` on a line, and under it a line for each thing with its value (guide 4.19, 4.21).

PLANT 1
   trifoliates ............ 14
   bloom .................. gone
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.columns import column_words
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_PARTS = frozenset({":", "=", "?", "-"})
_OTHER = frozenset({"plant", "stop"})


def find_sheet(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """The sheets of two or more plants that begin on line `at`."""
    columns: list[Column] = []
    names: list[tuple[object, ...]] = []
    rows: list[Row] = []
    head: list[int] = []
    k, last = at, at
    while k < len(lines):
        line = lines[k]
        if line.blank:
            k += 1
            continue
        label = _titled(lattice, line)
        if label is not None:
            rows.append(Row(label, (line.start, line.end), {}))
            last, k = k, k + 1
            continue
        got = _entry(lattice, line) if rows else None
        if got is None:
            break
        column, value = got
        name = (tuple(column.what), column.by_node, column.place is not None, column.unit)
        if name not in names:
            names.append(name)
            columns.append(column)
        head += list(range(line.start, value[0] if value else line.end))
        if value is not None:
            rows[-1].cells.setdefault(names.index(name), []).append(value)
        last, k = k, k + 1
    if len(rows) < 2 or sum(bool(r.cells) for r in rows) < 2 or len({r.labels for r in rows}) != len(rows):
        return None
    return Grid(columns, rows, head, lines[at].start, lines[last].end, at, last)


def _titled(lattice: Lattice, line: Line) -> tuple[str, ...] | None:
    """`PLANT 1`, `plt #2:` alone on a line."""
    if lattice.pieces[line.start].form != "word":
        return None
    found = read_label(lattice, line.start, line.end)
    if found is None or len(lattice.pieces[line.start].text) < 2:
        return None
    rest = range(found[1], line.end)
    return found[0] if all(lattice.pieces[i].text in {":", ".", "-", "="} for i in rest) else None


def _entry(lattice: Lattice, line: Line) -> tuple[Column, tuple[int, int] | None] | None:
    """`longest pod, top four nodes   7/8 in.`: the head, parted from its value by a gap or a mark; None: no value."""
    pieces = lattice.pieces
    gaps = [b for b in range(line.start + 1, line.end) if pieces[b].gap >= 2]
    marks = [b for b in range(line.start + 1, line.end) if pieces[b].text in _PARTS]
    for b in (*gaps, *marks, line.end):
        got = read_heads(lattice, [range(line.start, b)])
        if len(got) != 1 or not got[0].known or got[0].unknown or got[0].what[0] in _OTHER:
            continue
        a = b
        while a < line.end and pieces[a].text in _PARTS and pieces[a].text != "-":
            a += 1
        if b == line.end:
            return (got[0], None) if _plain_head(lattice, line) else None
        return (got[0], (a, line.end)) if a < line.end else (got[0], None)
    return None


def _plain_head(lattice: Lattice, line: Line) -> bool:
    """Whether a line without a value is a head alone: it holds no figure and no sign."""
    cells = column_words().cells
    return all(
        (lattice.pieces[i].form == "word" and lattice.pieces[i].text not in cells) or lattice.pieces[i].text in ",:"
        for i in range(line.start, line.end)
    )
