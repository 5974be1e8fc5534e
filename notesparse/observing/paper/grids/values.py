"""What one cell of values holds: figures, signs and units, words of organs, answers."""

from __future__ import annotations

from notesparse.language.columns import column_words, squeeze
from notesparse.text.columns import Cell
from notesparse.text.lattice import Lattice

_OWN = frozenset({"TRIF", "NODE", "NODES", "FLOWER", "POD", "SEED", "R", "V"})
_NAMED_BY = {"pods": "POD", "seeds": "SEED", "flowers": "FLOWER", "trifoliates": "TRIF", "nodes": "NODES"}
_NAMES = frozenset(_NAMED_BY.values())


def in_a_name(lattice: Lattice, c: Cell) -> bool:
    """`Cane Mill`, `Thistle Bottom`: words with capitals, of which a weed or a bug is only a part."""
    words = range(c.start, c.end)
    whole = any(e.how == "exact" and e.end == c.end for e in lattice.edges[c.start])
    return c.end > c.start + 1 and not whole and all(lattice.original(i, i + 1)[0].isupper() for i in words)


def plain_value(lattice: Lattice, c: Cell) -> bool:
    """A figure or a sign, no words."""
    sign = column_words().cells.get(squeeze(lattice.original(c.start, c.end)))
    return (
        sign is not None
        or _with_unit(lattice, c)
        or any(e.kind in {"INT", "DEC", "FRAC"} and e.end == c.end for e in lattice.edges[c.start])
        or (c.end > c.start + 1 and lattice.pieces[c.end - 1].text == "%")
    )


def _with_unit(lattice: Lattice, c: Cell) -> bool:
    """`5mm`, `1/4"`: a figure with its unit."""
    edges = lattice.edges
    return any(
        u.kind in {"INCH", "MM", "CM"} and u.end == c.end
        for e in edges[c.start]
        if e.kind in {"INT", "DEC", "FRAC"} and e.end < c.end
        for u in edges[e.end]
    )


def of_leaves_or_organs(lattice: Lattice, a: int, b: int) -> bool:
    """`10 tf`, `bloom 2nd node`: what is said of the plant itself."""
    return any(e.kind in _OWN for i in range(a, b) for e in lattice.edges[i])


def told_with_its_own(lattice: Lattice, what: str, a: int, b: int) -> bool:
    """`12 tri   pod 4` under a head of pods: the cell says itself what each figure is of."""
    own = _NAMED_BY.get(what)
    kinds = {e.kind for i in range(a, b) for e in lattice.edges[i] if own and e.how != "near"}
    return own in kinds and bool(kinds & (_NAMES - {own}))
