"""Plants that are named between a thing and what is said of it, put first: `Half the pods on the second plant are brown` is
read as `second plant: half the pods are brown` (guide 4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.paper.side_by_side import Unfolded
from notesparse.reading.parse import phrases_at
from notesparse.text.lattice import Lattice

_LISTED = cue_page("observing/owner_first")
_COMMON = cue_page("shared")

_BEFORE = _COMMON.words("in_of_on")
_IS = _LISTED.words("is")
_JOINS = _LISTED.words("joins")
_INSIDE = _LISTED.words("inside")
_ALL = _COMMON.words("all_or_each")
_PLANTS = _COMMON.words("plants")
_THINGS = frozenset({"BEAN", "COT", "COUNTW", "FLOWER", "LEAF", "NODE", "NODES", "POD", "SEED", "TRIF", "UNI"})
_STATES = frozenset({"BROWN", "GREEN", "ROLLED", "TOUCHING", "TURNING"})
_HOW_MUCH = frozenset(
    {"ALMOST", "ANYOF", "EVERYW", "FEW", "FRAC", "HALF", "INT", "LAST", "MOST", "NO", "NONE", "NONEOF", "NOT"}
    | {"OF", "ORD", "OUTOF", "PCT", "SMALL", "THE", "TOP"}
)
_MOST_WORDS = 9  # of what stands before the plant


def owner_first(lattice: Lattice) -> Unfolded | None:
    """The note with such plants before what is said of them; None where there are none."""
    parts: list[tuple[int, int] | str] = []
    behind = 0
    pieces, starts = lattice.pieces, lattice.starts
    for i in range(2, len(pieces) - 2):
        if pieces[i].text not in _BEFORE or not _means(lattice, i - 1, _THINGS):
            continue
        got = _plant(lattice, i + 1)
        first = _first(lattice, i) if got is not None and _is_said(lattice, got[1]) else None
        if got is None or first is None or starts[first] < behind:
            continue
        label, end = got
        own = (starts[label], pieces[end - 1].span.end)
        parts += [(behind, starts[first]), own, ": ", (starts[first], starts[i])]
        behind = starts[end]
    return Unfolded(lattice.text, [*parts, (behind, len(lattice.text))]) if parts else None


def _plant(lattice: Lattice, i: int) -> tuple[int, int] | None:
    """Where the label of a plant, called so, begins and ends, at piece i or behind `the`; or `both plants`."""
    first = i + (lattice.at(i) == "the")
    if first >= len(lattice.pieces):
        return None
    if lattice.at(i + 1) in _PLANTS and lattice.at(i) in _ALL:
        return i, i + 2
    ends = [ph.end for ph in phrases_at(lattice, first) if ph.rule == "label" and ph.form.startswith("plant_")]
    said = any(lattice.kinds(x) & {"PLANT", "PLETTER", "HASH"} for x in range(first, max(ends, default=first)))
    return (first, max(ends)) if said else None


def _is_said(lattice: Lattice, i: int) -> bool:
    """Something is said from piece i on: `is brown`, `brown`."""
    return lattice.at(i) in _IS or bool(lattice.kinds(i) & _STATES)


def _first(lattice: Lattice, on: int) -> int | None:
    """Where the words begin that tell of how many things, and of which, with nothing else in their sentence: `half the`,
    `the longest`, `ninety percent of the`."""
    for first in range(on - 1, max(-1, on - 1 - _MOST_WORDS), -1):
        if not (lattice.at(first) in _INSIDE or _means(lattice, first, _HOW_MUCH | _THINGS)):
            return None
        if lattice.opens(first) or lattice.at(first - 1) in _JOINS or lattice.kinds(first - 1) & _STATES:
            return first
    return None


def _means(lattice: Lattice, i: int, of: frozenset[str]) -> bool:
    """Piece i is a word of such a kind, or the end of one: the quarters of `three quarters`, the count of `node count`."""
    before = lattice.edges[i - 1] if i else []
    return bool(lattice.kinds(i) & of) or any(e.kind in of and e.end == i + 1 for e in before)
