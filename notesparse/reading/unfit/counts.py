"""Shares, numbers and corrections: what looks like one and is none."""

from __future__ import annotations

from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_SHARED = frozenset({"FLOWER", "R", "PLANT", "HAS", "AT", "STAGENAME", "EMERGED"})
_WIDE = 2  # blanks of a gap
_UNITS = frozenset({"MM", "CM", "INCH", "TRIF", "TRIPS", "NODE", "NODES"})


def sweeps(lattice: Lattice, p: Phrase) -> bool:
    """`3/25sw`."""
    return "SWEEP" in kinds(lattice, p.end)


def not_shared(lattice: Lattice, p: Phrase) -> bool:
    """Only before what may be told of a share of plants: 6 in 10 flowering, 3 in 10 have pods."""
    i = p.end
    if i >= len(lattice.pieces):
        return True
    return not (
        any(e.kind in _SHARED and e.how == "exact" for e in lattice.edges[i])
        or text(lattice, i) in {"are", "is", "were", "showing", "with", "podded", "podding"}
    )


def before_unit(lattice: Lattice, p: Phrase) -> bool:
    """`make that 12 mm`."""
    return (
        any(e.kind in _UNITS and e.how == "exact" for e in lattice.edges[p.end])
        if p.end < len(lattice.edges)
        else False
    )


def half_inch(lattice: Lattice, p: Phrase) -> bool:
    """`half an inch` is no share of the plants."""
    return bool(kinds(lattice, p.end) & {"INCH", "ANINCH"}) or (
        text(lattice, p.end) in {"a", "an"} and "INCH" in kinds(lattice, p.end + 1)
    )


def told_between(lattice: Lattice, p: Phrase) -> bool:
    """`plants one through three are nine eight and nine`: the numbers after the verb are others."""
    return any(text(lattice, x) in {"are", "is", "had", "have", "were"} for x in range(p.start, p.end))


def decimal(lattice: Lattice, p: Phrase) -> bool:
    """`rain gauge had point eight`: a figure, and no stop."""
    return text(lattice, p.start) == "point" and p.start > 0 and lattice.pieces[p.start - 1].form in {"word", "int"}


def noun_of_next(lattice: Lattice, p: Phrase) -> bool:
    """`fl=1,2  pd=none`, `15    Nodes: 16`: behind a gap, a noun with a mark behind it is the head of what follows."""
    if len(p.path) < 2 or text(lattice, p.end) not in {":", "="}:
        return False
    at, last = p.path[-1]
    return (
        last.end == p.end
        and lattice.pieces[at].gap >= _WIDE
        and p.path[0][1].kind in {"INT", "DEC", "FRAC"}
        and p.path[0][0] < at
    )
