"""A possible phrase of a note."""

from __future__ import annotations

from typing import NamedTuple

from notesparse.text.lattice import Edge


class Phrase(NamedTuple):
    """A possible phrase: pieces [start, end), its rule, the form of the rule, the edges it took, and its cost."""

    start: int
    end: int
    rule: str
    form: str
    path: tuple[tuple[int, Edge], ...]
    cost: float
