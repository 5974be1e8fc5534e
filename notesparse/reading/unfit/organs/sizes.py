"""Lengths and parts: no size of these pods or seeds."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/organs/sizes")
_COMMON = cue_page("shared")
_FOR_BEFORE_A_NODE = _COMMON.words("at") | {"the"}


def before_a_node(lattice: Lattice, p: Phrase) -> bool:
    """`1/4 at the top node, 3/4 third node down`: a size at its place, and no date."""
    i = p.end
    while text(lattice, i) in _FOR_BEFORE_A_NODE:
        i += 1
    if kinds(lattice, i) & {"TOPSOUND", "UPTOP", "TIP"}:
        return True
    return bool(kinds(lattice, i) & {"TOP", "ORD"} and kinds(lattice, i + 1) & {"NODE", "NODES", "DOWN"})


_OF_AN_INCH = frozenset({"2", "4", "8", "16"})


def second_size(lattice: Lattice, p: Phrase) -> bool:
    """`seed 1/8 at the second node, 1/4 at the fourth down`: another size at its place, and no share."""
    if text(lattice, p.end - 1) not in _OF_AN_INCH or not before_a_node(lattice, p):
        return False
    i, sized, first = p.start - 1, False, max(0, p.start - _FAR)
    while i >= first and lattice.pieces[i].form != "nl" and text(lattice, i) not in {".", ";"}:
        sized = sized or (text(lattice, i) == "/" and text(lattice, i + 1) in _OF_AN_INCH)
        if kinds(lattice, i) & {"POD", "SEED", "BEAN"}:
            return sized
        i -= 1
    return False


_GAUGES = _LISTED.words("gauges")


def in_the_gauge(lattice: Lattice, p: Phrase) -> bool:
    """`0.4 in the gauge`, `point nine in my rain gauge`: rain, and no length of a pod, and no stop."""
    i = p.end + (text(lattice, p.end) == "in")
    if text(lattice, i) not in {"the", "my", "our"}:
        return False
    return text(lattice, i + 1 + (text(lattice, i + 1) == "rain")) in _GAUGES


_FOR_SEED_IN_IT = _LISTED.words("for_seed_in_it")


def seed_in_it(lattice: Lattice, p: Phrase) -> bool:
    """`beans in pods 1/8 inch`: how long the beans are is said where the walk is, which knows their length."""
    i = p.start - 1
    while text(lattice, i) in _FOR_SEED_IN_IT:
        i -= 1
    return text(lattice, i) == "in" and bool(kinds(lattice, i - 1) & {"SEED", "BEAN"})


_WHOSE = _LISTED.words("whose")


def a_part_of(lattice: Lattice, p: Phrase) -> bool:
    """`one brown pod about a third of the leaves`, `R6 and a third R5`, `half the pods`: a part of something, and no
    length."""
    if text(lattice, p.start - 1) in {"r", "v"} and lattice.pieces[p.start].glued:
        return True
    if p.path[-1][1].kind != "FRAC":
        return False
    of_them = text(lattice, p.end) in _WHOSE and bool(kinds(lattice, p.end + 1) & {"FLOWER", "LEAF", "POD"})
    return of_them or text(lattice, p.end) == "of"


_SO_MUCH = _LISTED.words("so_much")
_OF_LAND = _LISTED.words("of_land")


def so_much_land(lattice: Lattice, p: Phrase) -> bool:
    """`in the low pocket, half an acre or so`: how much of the field, and no length of a pod."""
    if text(lattice, p.start - 1) in {"the", "this", "that"}:
        return False  # this is the half acre we call ...
    i = p.end
    while text(lattice, i) in _OF_LAND:
        i += 1
    return text(lattice, i) in _SO_MUCH and "ANINCH" not in kinds(lattice, p.end - 1)


_FOR_THE_ONE_THIRD_DOWN = _COMMON.words("parts_in_words")


def the_one_third_down(lattice: Lattice, p: Phrase) -> bool:
    """`seed in the one third from the top`: the pod that hangs there, and no third of an inch."""
    last = p.path[-1][1]
    spoken = last.kind == "FRAC" and text(lattice, last.end - 1) in _FOR_THE_ONE_THIRD_DOWN
    return spoken and text(lattice, p.end) in {"from", "down"}


def inch_behind(lattice: Lattice, p: Phrase) -> bool:
    """`beans are an eighth of an inch`: the length goes on."""
    return (
        text(lattice, p.end) == "of"
        and text(lattice, p.end + 1) in {"an", "a"}
        and "ANINCH" in kinds(lattice, p.end + 1)
    )


def seeds_in_them(lattice: Lattice, p: Phrase) -> bool:
    """`seeds just starting in the top pods, 1/8 inch`: the length behind the comma is no pod's."""
    before = range(max(0, p.start - 7), p.start)
    inside = any(text(lattice, x) == "in" for x in range(max(0, p.start - 3), p.start))
    comma = any(text(lattice, x) == "," for x in range(p.start, p.end))
    return inside and comma and any(kinds(lattice, x) & {"SEED", "BEAN"} for x in before)


_LONGEST = _LISTED.words("longest")
_FAR = 26  # pieces back to the pods of which one is the longest


def is_longest(lattice: Lattice, p: Phrase) -> bool:
    """`longest`, `the biggest ones`, with no noun: of what was spoken of before."""
    return any(
        e.kind == "POD" and text(lattice, at) in _LONGEST and text(lattice, e.end - 1) in _LONGEST | {"ones", "one"}
        for at, e in p.path
    )


def longest_of_no_pods(lattice: Lattice, p: Phrase) -> bool:
    """`longest in top 4 is 3/8` is of pods only where these were spoken of last."""
    one = any(e.kind == "POD" and text(lattice, at) == "longest" and e.end == at + 2 for at, e in p.path)
    if not is_longest(lattice, p) or one:
        return False
    if kinds(lattice, p.end) & {"WEED", "INSECT", "DISEASE", "SEED", "BEAN", "FLOWER", "LEAF", "TRIF", "PLANT"}:
        return True
    for i in range(p.start - 1, max(-1, p.start - _FAR), -1):
        if lattice.pieces[i].form == "nl" or text(lattice, i) in {".", ";"}:
            return True
        here = kinds(lattice, i)
        if "POD" in here:
            return False
        if here & {"SEED", "BEAN", "WEED", "INSECT", "FLOWER", "TRIF"}:
            return True
    return True


def half_of_them_brown(lattice: Lattice, p: Phrase) -> bool:
    """`pods half brown`: a share, and no half inch."""
    return text(lattice, p.end - 1) == "half" and bool(kinds(lattice, p.end) & {"BROWN", "TURNING"})


def no_inch(lattice: Lattice, p: Phrase) -> bool:
    """`pods half an inch, pods ...`, `2 of the inch pods`: only the word itself, of which no part or number was told."""
    before = kinds(lattice, p.start - 1 - (text(lattice, p.start - 1) == "-"))
    return text(lattice, p.start) != "inch" or p.end != p.start + 2 or bool(before & {"INT", "FRAC", "DEC", "ORD"})


def bump_in_the_pod(lattice: Lattice, p: Phrase) -> bool:
    """`small bump in the pod`, `seed small, pod 1 in`: what is small is no pod; `tiny podz` are."""
    first = p.path[0][1]
    return first.kind == "SMALL" and first.end != p.path[1][0]
