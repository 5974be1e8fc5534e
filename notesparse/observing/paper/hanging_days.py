"""A day at the left of the page with its plants hanging under one another at its right (guide 4.22).

`May 25     1   seed leaves up` over `           2   not up`: the day is on a line of its own, and the first plant is a row
like those under it.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notesparse.observing.paper.row_labels import follows, read_label
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_SLACK = 1  # characters by which the labels may stand aside
_NEAR = 2  # lines below the day that the next plant may stand on


def find_hanging_days(lattice: Lattice, lines: Sequence[Line]) -> list[tuple[int, int, int]]:
    """For each such line the characters where its day ends and where its first plant begins, and how far in that is."""
    return [found for line in lines if not line.blank and (found := _hanging(lattice, lines, line)) is not None]


def _hanging(lattice: Lattice, lines: Sequence[Line], line: Line) -> tuple[int, int, int] | None:
    if len(line.cells) < 2:
        return None
    day, second = line.cells[0], line.cells[1]
    last = day.end - (lattice.at(day.end - 1) in {":", ".", "-", ","})
    if not any(p.rule == "date" and p.end == last for p in phrases_at(lattice, day.start)):
        return None
    label = read_label(lattice, second.start, line.end)
    if label is None or label[1] >= line.end or label[0][0].casefold() not in {"1", "a"}:
        return None
    below = [x for x in itertools.islice(lines, line.number + 1, line.number + 1 + _NEAR) if not x.blank]
    nxt = below[0] if below else None
    if nxt is None or abs(nxt.cells[0].left - second.left) > _SLACK or second.left <= _SLACK:
        return None
    other = read_label(lattice, nxt.start, nxt.end)
    if other is None or not follows(label[0][-1], other[0][0]):
        return None
    pieces = lattice.pieces
    return pieces[day.end - 1].span.end, pieces[second.start].span.start, second.left
