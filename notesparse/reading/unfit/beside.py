"""Looking around a phrase: what stands in the pieces beside it."""

from __future__ import annotations

from notesparse.text.lattice import Edge, Lattice


def kinds(lattice: Lattice, i: int) -> frozenset[str]:
    return lattice.kinds(i)


def text(lattice: Lattice, i: int) -> str:
    return lattice.word(i)


def edges_at(lattice: Lattice, i: int) -> list[Edge]:
    return lattice.edges[i] if 0 <= i < len(lattice.edges) else []


def staged(lattice: Lattice, i: int) -> bool:
    """A stage stands at piece i."""
    code = bool(kinds(lattice, i) & {"R", "V"}) and any(e.kind == "INT" for e in lattice.edges[i + 1 : i + 2][0])
    return code or "STAGENAME" in kinds(lattice, i)
