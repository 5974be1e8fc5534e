"""Rows that go on behind a remark between them, and a remark that changes the unit: `inches from here` (guide 4.21)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from notesparse.language.cues import cue_page
from notesparse.observing.paper.rows import Grid
from notesparse.text.columns import Line, lines_of
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/goes_on")

_UNITS = {"INCH": "in", "MM": "mm", "CM": "cm"}
_IN_SHORT = _LISTED.words("in_short")
_PARTS = _LISTED.table("parts", str)
_LONGEST = 16  # pieces of a remark


def follow_on(lattice: Lattice, lines: Sequence[Line], before: Grid | None, grid: Grid) -> None:
    """Marks a table that goes on behind a remark, and takes the unit that the remark says."""
    if before is None or before.columns is not grid.columns or not _counts_on(before, grid):
        return
    between = [x for x in lines[before.last + 1 : grid.first] if not x.blank]
    grid.goes_on = True
    for line in between:
        told = _unit_told(lattice, line)
        if told is None:
            continue
        unit, at = told
        grid.columns = [
            replace(c, unit=unit) if {"pods", "seeds"} & set(c.what) and (c.unit or c.measure) else c
            for c in grid.columns
        ]
        grid.head = [*grid.head, at]


def remarks_between(lattice: Lattice, grids: Sequence[Grid]) -> set[int]:
    """The pieces of remarks between rows that go on behind them, set in or in brackets: no field is named there."""
    lines = lines_of(lattice.text, lattice.pieces)
    out: set[int] = set()
    for before, grid in pairwise(grids):
        if not grid.goes_on or not grid.rows or grid.rows[0].label is None:
            continue
        left = lattice.pieces[grid.rows[0].label[0]].column
        for line in lines[before.last + 1 : grid.first]:
            first = "" if line.blank else lattice.original(line.start, line.start + 1)
            if first and (line.cells[0].left > left or first in "([" or first.islower()):
                out |= set(range(line.start, line.end))
    return out


def _counts_on(before: Grid, grid: Grid) -> bool:
    a = next((row.labels[-1] for row in reversed(before.rows) if row.labels), "")
    b = next((row.labels[0] for row in grid.rows if row.labels), "")
    if a.isdigit() and b.isdigit():
        return int(a) < int(b) <= int(a) + 3
    return len(a) == len(b) == 1 and 0 < ord(b.casefold()) - ord(a.casefold()) <= 2


def _unit_told(lattice: Lattice, line: Line) -> tuple[str, int] | None:
    """The one unit named in a short remark with no figure before it, and its piece."""
    if line.end - line.start > _LONGEST:
        return None
    found: list[tuple[str, int]] = []  # the last one is what holds from here
    for i in range(line.start, line.end):
        word = lattice.pieces[i].text
        kind = next((e.kind for e in lattice.edges[i] if e.kind in _UNITS and e.end == i + 1), None)
        behind = lattice.pieces[i + 1].text if i + 1 < line.end else ""
        unit = _PARTS.get(word) or _PARTS.get(word + behind) or (_UNITS[kind] if kind is not None else None)
        if unit is None or (word in _IN_SHORT and i + 1 < line.end):
            continue
        if i > line.start and lattice.pieces[i - 1].form in {"int", "dec", "big"}:
            return None  # rain, 2 inches
        found.append((unit, i))
    return found[-1] if found else None
