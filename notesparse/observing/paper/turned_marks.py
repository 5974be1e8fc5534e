"""Turned tables parted by commas or drawn lines: `plant,A,B,C`, and under it `trif,6,6,5` (guide 4.21).

An empty part between two marks says nothing of its plant.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Line, cut_at
from notesparse.text.lattice import Lattice

_FEWEST = 3  # parts of a line
_FEWEST_LINES = 2


def find_turned_marks(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """The table whose labels stand on line `at`."""
    found = next((x for m in "|;," if (x := _labels(lattice, lines[at], m)) is not None), None)
    if found is None:
        return None
    mark, labels, head_end = found
    columns: list[Column] = []
    cells: dict[int, dict[int, list[tuple[int, int]]]] = {}
    unread: list[tuple[int, int, str]] = []
    k = at + 1
    while k < len(lines) and not lines[k].blank:
        line = lines[k]
        parts = cut_at(lattice.pieces, line.start, line.end, mark, False)
        if len(parts) < _FEWEST_LINES or parts[0].tab or max(c.tab for c in parts) > len(labels):
            break
        got = read_heads(lattice, [range(parts[0].start, parts[0].end)])
        if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label:
            unread.append((line.start, line.end, "a thing that is not understood"))
            k += 1
            continue
        got[0].pieces = list(range(parts[0].start, parts[0].end))
        columns.append(got[0])
        for c in parts[1:]:
            cells.setdefault(c.tab - 1, {})[len(columns) - 1] = [(c.start, c.end)]
        k += 1
    if len(columns) < _FEWEST_LINES:
        return None
    rows = [Row((text,), span, cells.get(j, {})) for j, (text, span) in enumerate(labels)]
    head = [i for c in columns for i in c.pieces] + list(range(lines[at].start, head_end))
    return Grid(columns, rows, head, lines[at].start, lines[k - 1].end, at, k - 1, unread)


def _labels(lattice: Lattice, line: Line, mark: str) -> tuple[str, list[tuple[str, tuple[int, int]]], int] | None:
    """The mark, the labels behind the word for plants, and where that word ends."""
    if line.blank:
        return None
    parts = cut_at(lattice.pieces, line.start, line.end, mark, False)
    if parts and parts[0].tab == 1 and lattice.pieces[line.start].text == mark and len(parts) >= _FEWEST_LINES:
        named = [read_label(lattice, c.start, c.end) for c in parts]  # | Pl.1 | Pl.2
        if all(x is not None and x[2] and x[1] == c.end for x, c in zip(named, parts, strict=True)):
            labels = [(x[0][0], (c.start, c.end)) for x, c in zip(named, parts, strict=True) if x is not None]
            return (mark, labels, line.start + 1) if len({n for n, _ in labels}) == len(labels) else None
    if len(parts) < _FEWEST or [c.tab for c in parts] != list(range(len(parts))):
        return None
    got = read_heads(lattice, [range(parts[0].start, parts[0].end)])
    if len(got) != 1 or not got[0].label or got[0].unknown:
        return None
    out: list[tuple[str, tuple[int, int]]] = []
    for c in parts[1:]:
        label = read_label(lattice, c.start, c.end)
        if label is None or label[1] != c.end or len(label[0]) != 1:
            return None
        out.append((label[0][0], (c.start, c.end)))
    return (mark, out, parts[0].end) if len({x for x, _ in out}) == len(out) else None
