"""Looking around a phrase: the kinds and the words of the pieces beside it."""

from __future__ import annotations

from notesparse.text.lattice import Lattice


def kinds(lattice: Lattice, i: int) -> set[str]:
    return {e.kind for e in lattice.edges[i]} if 0 <= i < len(lattice.edges) else set()


def text(lattice: Lattice, i: int) -> str:
    return lattice.pieces[i].text if 0 <= i < len(lattice.pieces) else ""
