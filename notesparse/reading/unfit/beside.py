"""Looking around a phrase: the kinds and the words of the pieces beside it."""

from __future__ import annotations

from notesparse.text.lattice import Lattice


def kinds(lattice: Lattice, i: int) -> frozenset[str]:
    return lattice.kinds(i)


def text(lattice: Lattice, i: int) -> str:
    return lattice.word(i)
