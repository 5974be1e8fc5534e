"""Trifoliates, unifoliates and cotyledons: places, trips and motors, and no leaves that were seen."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/organs/leaves")
_COMMON = cue_page("shared")


def gone_of_all(lattice: Lattice, p: Phrase) -> bool:
    """`cotyledons have dropped off already`, at the head of what is said of no plant."""
    lost = any(text(lattice, i) in _LOST for i in range(p.end, min(p.end + 4, len(lattice.pieces))))
    before = text(lattice, p.start - 1)
    return (
        lost
        and (p.start == 0 or before in {".", ",", ";", "and"})
        and not any(kinds(lattice, i) & {"PLANT", "PLETTER", "HASH"} for i in range(max(0, p.start - 12), p.start))
    )


_BEFORE_EATEN_THERE = _LISTED.words("before_eaten_there")


def eaten_there(lattice: Lattice, p: Phrase) -> bool:
    """`slug trails on the seed leaves`: where something was found."""
    i = p.start - (text(lattice, p.start - 1) in {"the", "their", "some"})
    if text(lattice, i - 1) not in _BEFORE_EATEN_THERE:
        return False
    found = {"INSECT", "DISEASE", "DAMAGE", "DEFOL", "WEED"}
    return any(kinds(lattice, x) & found for x in range(max(0, i - 7), i - 1))


_LOST = _LISTED.words("lost")


def flat_and_no_pod(lattice: Lattice, p: Phrase) -> bool:
    """`top flat` is the top leaf; `top pods flat` names the pods."""
    return len(p.path) == 2 and p.path[1][1].kind == "FLAT" and p.end - p.start == 2


def not_the_top_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`pods up top flat`: the place of pods, and no leaf."""
    return text(lattice, p.start - 1) == "up" and bool(kinds(lattice, p.start - 2) & {"POD", "SEED", "BEAN", "FLOWER"})


_FOR_PLACE_ON_THE_LEAF = _LISTED.words("for_place_on_the_leaf")


def place_on_the_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`a flower on the third trif`: where it is, and no count of leaves."""
    i = p.start - 1
    while text(lattice, i) in {"the", "that", "this"}:
        i -= 1
    return text(lattice, i) in _FOR_PLACE_ON_THE_LEAF


def share_behind(lattice: Lattice, p: Phrase) -> bool:
    """`1st trif   10 of 10`: so many plants have it, and no count of leaves."""
    return "INT" in kinds(lattice, p.end) and bool(kinds(lattice, p.end + 1) & {"OF", "OUTOF", "SLASH"})


_BEFORE_ON_THE_LEAF = _COMMON.words("at") | {"of"}


def on_the_leaf(lattice: Lattice, p: Phrase) -> bool:
    return text(lattice, p.path[-1][0] - 1) in _BEFORE_ON_THE_LEAF


_BEFORE_OF_A_MOTOR = _COMMON.words("our")


def of_a_motor(lattice: Lattice, p: Phrase) -> bool:
    """`drove the V6 out here`: no six leaves that are out."""
    return (
        lattice.pieces[p.start].glued
        and text(lattice, p.start - 1) == "v"
        and text(lattice, p.start - 2) in _BEFORE_OF_A_MOTOR
    )


def not_yet_open(lattice: Lattice, p: Phrase) -> bool:
    """`the third not yet unrolled`: rolled, and not almost open (guide 4.8)."""
    return any(e.kind == "ALMOST" and text(lattice, at) == "not" and text(lattice, at + 1) == "yet" for at, e in p.path)


_BEHIND_TRIPS_SOMEWHERE = _LISTED.words("behind_trips_somewhere")


def trips_somewhere(lattice: Lattice, p: Phrase) -> bool:
    """`three trips to town`, `class trip 9/23`."""
    said = any(e.kind == "TRIPS" and text(lattice, at) in {"trips", "trip"} for at, e in p.path)
    if said and text(lattice, p.start) == "trip" and "/" in {text(lattice, p.end - 2), text(lattice, p.end)}:
        return True  # a day behind it
    if said and p.form == "trif_ord_bare" and text(lattice, p.end - 1) == "trip":
        return _the_nth_visit(lattice, p)
    last, edge = p.path[-1] if p.path else (0, None)
    if said and edge is not None and edge.kind == "INTSOUND" and text(lattice, last) == "to":
        return p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "word"
    return said and text(lattice, p.end) in _BEHIND_TRIPS_SOMEWHERE


def _the_nth_visit(lattice: Lattice, p: Phrase) -> bool:
    """`third trip here`, `2nd trip this year`: behind no plant, or with the place or time of a visit."""
    if text(lattice, p.end) in _OF_A_VISIT:
        return True
    if text(lattice, p.start - 1) in {"one", "next", "last"}:
        return False
    return not any(kinds(lattice, i) & _A_PLANT for i in range(max(0, p.start - _NEAR_A_PLANT), p.start))


_OF_A_VISIT = _LISTED.words("of_a_visit")
_A_PLANT = frozenset({"PLANT", "PLETTER", "HASH"})
_NEAR_A_PLANT = 6  # pieces


def unis_as_a_place(lattice: Lattice, p: Phrase) -> bool:
    """`cut off below the unis`, `the uni node`: where something is, and nothing of these leaves."""
    i = p.start - 1
    while i > 0 and text(lattice, i) in {"the", "its", "their"}:
        i -= 1
    return text(lattice, i) in _AWAY_FROM or bool(kinds(lattice, p.end) & {"NODE", "NODES"})


_AWAY_FROM = _LISTED.words("away_from")
_FOR_WHERE_ON_THE_LEAF = _LISTED.words("for_where_on_the_leaf")
_FOR_WHERE_ON_THE_LEAF_2 = _LISTED.words("for_where_on_the_leaf_2")


def where_on_the_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`thrips on the unis`."""
    i = p.start - 1
    while text(lattice, i) in _FOR_WHERE_ON_THE_LEAF:
        i -= 1
    return text(lattice, i) in _FOR_WHERE_ON_THE_LEAF_2


_FOR_COUNTED_IN = _LISTED.words("for_counted_in")


def counted_in(lattice: Lattice, p: Phrase) -> bool:
    """`12 nodes not counting the uni`, `nodes w/o the unifoliate one`: how they were counted, and no leaf that was seen."""
    if kinds(lattice, p.end) & {"NODE"} and text(lattice, p.end + 1) in {"=", "is", "as", "counted"}:
        return True  # (uni node = 1st)
    i = p.start - 1
    while text(lattice, i) in {"the", "a"}:
        i -= 1
    if text(lattice, i) == "o" and text(lattice, i - 1) == "/":
        return True  # w/o the unifoliate
    left_out = text(lattice, i) == "counting" and text(lattice, i - 1) == "not"
    out = text(lattice, i) in _FOR_COUNTED_IN or left_out
    return out or lattice.original(p.start, p.end).lower().startswith(("w/o", "without"))


_OWNING = _COMMON.words("having") | {"'", ","}


def ordinal_apart(lattice: Lattice, p: Phrase) -> bool:
    """`11 on the third, trifoliates`; `third's got the first trifoliate open`: the third is a plant, and no leaf."""
    return any(text(lattice, x) in _OWNING for x in range(p.start, p.path[1][0] if len(p.path) > 1 else p.end))


_EDGES = _LISTED.words("edges")


def their_edges(lattice: Lattice, p: Phrase) -> bool:
    """`their edges still touch`: edges of the leaves that were named before, and no third leaf."""
    return text(lattice, p.start) == "their" and text(lattice, p.start + 1) in _EDGES
