"""A stretch of a note that is no prose: a table with its rows, or words that belong to one."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.lazy import dataclass
from notesparse.observing.paper.answers import Answer
from notesparse.observing.paper.counts import Counts
from notesparse.observing.paper.pod_units import PodUnit
from notesparse.observing.paper.rows import Grid
from notesparse.observing.paper.ticks import Class
from notesparse.text.columns import Line


@dataclass(frozen=True, slots=True)
class Table:
    """A table at pieces [start, end) and lines [first, last] of the note (counted from 0)."""

    start: int
    end: int
    first: int
    last: int
    grid: Grid | None = None
    classes: tuple[Class, ...] = ()
    counts: Counts | None = None
    of_all: bool = False  # words under a table that are said of all its plants
    page: bool = False  # a page number
    answer: Answer | None = None
    why: str = ""  # why none of it is read
    signs: frozenset[str] = frozenset()  # letters that the key explains as what a cell says
    at_node: str | None = None  # how the key of the page counts nodes: down, up
    pod_unit: PodUnit | None = None  # in what the page tells its bare lengths of pods


def of_grid(grid: Grid) -> Table:
    return Table(grid.start, grid.end, grid.first, grid.last, grid)


def lines_of(lines: Sequence[Line], t: Table) -> list[int]:
    return [x.number for x in lines if x.start < t.end and t.start < x.end]


def pieces_of(tables: list[Table]) -> set[int]:
    return {i for t in tables for i in range(t.start, t.end)}
