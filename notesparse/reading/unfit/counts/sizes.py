"""Lengths of pods and seeds: so many plants or pods, and no size."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.reading.unfit.counts.nouns import comma_inside
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/counts/sizes")
_COMMON = cue_page("shared")
_UNITS = frozenset({"MM", "CM", "INCH", "TRIF", "TRIPS", "NODE", "NODES"})


def on_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`pods on two`, `flowers? yes on all ten`: on two plants or nodes, and no length or number of pods."""
    return any(text(lattice, i) == "on" for i in range(p.start + 1, p.path[-1][0]))


_MEANS_NODES = _LISTED.words("means_nodes")


def on_a_plant(lattice: Lattice, p: Phrase) -> bool:
    """`at 4th node from top on 2`, `no pods on 1 or 2`: the figures are plants, and no top two and no lengths."""
    return any(text(lattice, i) == "on" for i in range(p.start + 1, p.end))


def as_long_as_that(lattice: Lattice, p: Phrase) -> bool:
    """`pods 8 top node`: the top node is one, and the figure before it is of the pods."""
    (_, first), (_, last) = p.path[0], p.path[-1]
    one = last.kind == "NODE" and text(lattice, p.end - 1) not in _MEANS_NODES
    of_organs = bool(kinds(lattice, p.start - 1) & {"POD", "SEED", "BEAN"})
    return one and of_organs and first.kind in {"INT", "INTSOUND"} and int(first.means) > 1


def size_on_some(lattice: Lattice, p: Phrase) -> bool:
    """`all have pods, half inch on 1 and 2`: the size behind the comma is that of some of them."""
    behind = text(lattice, p.end) == "on" and "INT" in kinds(lattice, p.end + 1)
    return behind and comma_inside(lattice, p)


def size_of_the_pod(lattice: Lattice, p: Phrase) -> bool:
    """`pod 30, seed 6`: the number behind the pod is its length, and no count of seeds."""
    return comma_inside(lattice, p) and "POD" in kinds(lattice, p.start - 1)


def of_something(lattice: Lattice, p: Phrase) -> bool:
    """`pods on 3 of the top 4 nodes`: no length, and no number of pods."""
    return text(lattice, p.end) in {"of", "outta"} and bool(kinds(lattice, p.end) & {"OF", "OUTOF"})


_BEHIND_WITHOUT_THEM = _LISTED.words("behind_without_them")


def without_them(lattice: Lattice, p: Phrase) -> bool:
    """`3 with pods, 2 without`: plants, and no size of pods."""
    return text(lattice, p.end) in _BEHIND_WITHOUT_THEM


def word_behind_a_comma(lattice: Lattice, p: Phrase) -> bool:
    """`tan pod, one`: how many, and no length."""
    return any(
        e.kind == "INT" and lattice.pieces[at].form == "word" and text(lattice, at - 1) == "," for at, e in p.path
    )


def before_unit(lattice: Lattice, p: Phrase) -> bool:
    """`make that 12 mm`."""
    return (
        any(e.kind in _UNITS and e.how == "exact" for e in lattice.edges[p.end])
        if p.end < len(lattice.edges)
        else False
    )


_PARTS = _LISTED.words("parts")


def part_of_an_inch(lattice: Lattice, p: Phrase) -> bool:
    """`pods in 16ths of an inch`: how they were measured, and no inch; `beans 1/4 in. long`: the unit of the figure."""
    first = p.path[0][1]
    near = range(max(0, p.start - 3), p.start)
    if (
        text(lattice, p.start) in {"in", "inch"}
        and first.kind in {"INCH", "ANINCH"}
        and any(e.kind in {"FRAC", "DEC", "INT"} and e.end == p.start for k in near for e in lattice.edges[k])
    ):
        return True
    at = p.start - 1
    while text(lattice, at) in {"of", "an", "a"}:
        at -= 1
    return text(lattice, at) in _PARTS


def measured_in_parts(lattice: Lattice, p: Phrase) -> bool:
    """`pods in 16ths`, `pods measured in eighths`: how they were measured, and no pods."""
    i = p.end + (text(lattice, p.end) in {"measured", "are", "were"})
    return text(lattice, i) == "in" and bool(_PARTS & {text(lattice, i + 1), text(lattice, i + 2)})


_BEHIND_SO_MANY_WERE = _COMMON.words("being")


def so_many_were(lattice: Lattice, p: Phrase) -> bool:
    """`8 of 10 podded, 2 were brown`: the number begins the next saying, and is no length."""
    return text(lattice, p.end) in _BEHIND_SO_MANY_WERE and comma_inside(lattice, p)
