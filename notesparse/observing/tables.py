"""Tables of old paper and of thumbed lists: column heads give meaning, unit and place to every cell (guide 4.21)."""

from __future__ import annotations

from dataclasses import dataclass

from notesparse.language.unroll import Step
from notesparse.observing.fold import Context
from notesparse.text.lattice import Lattice


@dataclass(frozen=True, slots=True)
class Table:
    """A table at pieces [start, end) and lines [first, last] of the note (counted from 0)."""

    start: int
    end: int
    first: int
    last: int


def find_tables(lattice: Lattice) -> list[Table]:
    """The tables of a note, in order."""
    return []


def read_table(ctx: Context, table: Table, root: Step) -> None:
    """Put what a table says into the current visit of `ctx`, and account for each of its pieces."""
