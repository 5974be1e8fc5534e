"""Flowers and pods that nothing says were seen on this plant."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/organs/borne")
_COMMON = cue_page("shared")
_ROUNDS = _LISTED.words("rounds")


def looked_for(lattice: Lattice, p: Phrase) -> bool:
    """`Bloom check, 10 plants to a field`, `pod run`: what somebody went out to look for, and nothing seen yet."""
    last = text(lattice, p.end - 1)
    return p.end == p.start + 1 and not last.endswith("s") and text(lattice, p.end) in _ROUNDS


_FOR_CLEAR_OF_THE_GROUND = _LISTED.words("for_clear_of_the_ground")


def clear_of_the_ground(lattice: Lattice, p: Phrase) -> bool:
    """`the lowest pods are well clear of the dirt`: how high they hang, for the combine."""
    lowest = text(lattice, p.start - 1) in {"lowest", "bottom"}
    behind = {text(lattice, i) for i in range(p.end, p.end + _REACH)}
    return lowest and bool(behind & {"clear", "off"}) and bool(behind & _FOR_CLEAR_OF_THE_GROUND)


def out_of(lattice: Lattice, p: Phrase) -> bool:
    """`two blooming out of 20`, `third one isn't out of the ground yet`: the out is of what stands behind it."""
    return text(lattice, p.end - 1) == "out" and text(lattice, p.end) == "of"


def left_elsewhere(lattice: Lattice, p: Phrase) -> bool:
    return p.path[-1][1].kind == "LEFT" and p.path[-1][0] > p.path[-2][1].end


def out_of_brackets(lattice: Lattice, p: Phrase) -> bool:
    """`9 tri (had 7) bloom top 2`: what stands in brackets goes with nothing behind them."""
    if p.end - p.start < 3:
        return False
    close = next((x for x in range(p.start + 1, p.end - 1) if text(lattice, x) == ")"), None)
    if close is None or any(text(lattice, x) == "(" for x in range(p.start, close)):
        return False
    before = [text(lattice, x) for x in range(max(0, p.start - 6), p.start)]
    return "(" in before and ")" not in before[before.index("(") :]


_REACH = 9  # pieces between the subject and what is said of it


def full_bloom(lattice: Lattice, p: Phrase) -> bool:
    """`beans are in full bloom`: nothing is said of seed."""
    return text(lattice, p.end - 1) == "full" and "FLOWER" in kinds(lattice, p.end)


def of_the_first(lattice: Lattice, p: Phrase) -> bool:
    """`The first has a flower`: a plant, and no first flower."""
    the_first = text(lattice, p.start - 1) == "the" and text(lattice, p.start) == "first"
    return the_first and text(lattice, p.start + 1) in {"has", "had", "got"}


_KNOCKED = _LISTED.words("knocked")
_BEHIND_OFF_THE_PLANT = _LISTED.words("behind_off_the_plant")
_FOR_OFF_THE_PLANT = _LISTED.words("for_off_the_plant")
_BEHIND_OFF_THE_PLANT_2 = _LISTED.words("behind_off_the_plant_2")


def off_the_plant(lattice: Lattice, p: Phrase) -> bool:
    """`about 6 pods I knocked off`, `pods knocked on the ground`: on no plant any more."""
    at = p.end + (text(lattice, p.end) in _BEHIND_OFF_THE_PLANT)
    at += text(lattice, at) in _FOR_OFF_THE_PLANT
    return text(lattice, at) in _KNOCKED and text(lattice, at + 1) in _BEHIND_OFF_THE_PLANT_2


_BEFORE_SOME_THAT_DO = frozenset(_LISTED.phrases("before_some_that_do"))


def some_that_do(lattice: Lattice, p: Phrase) -> bool:
    """`a few blooming`, `some podded`, `a few in bloom`: so many plants, and not so many flowers of one."""
    some = p.path[0][1]
    one = lattice.original(p.start, some.end).lower() in _BEFORE_SOME_THAT_DO
    does = lattice.pieces[p.end - 1].text.endswith(("ing", "in", "ed")) or text(lattice, p.end - 2) == "in"
    return some.kind == "SOMEW" and not one and does


def between_two_values(lattice: Lattice, p: Phrase) -> bool:
    """`pod 31  seed 4`: the number of the word before it, and not so many seeds; the next number is that of the seed."""
    at, edge = p.path[0]
    if edge.kind != "INT" or not p.start or lattice.pieces[at].form != "int":
        return False
    named = kinds(lattice, p.start - 1) & {"POD", "SEED", "FLOWER"}
    singular = text(lattice, p.end - 1) in {"seed", "pod", "bean"}
    return bool(named) and singular and p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "int"


_TYPES = frozenset({"type", "types"})
_OFF_TYPES = _LISTED.words("off_types")
_COLOURS = _COMMON.words("flower_colours")
_BEHIND_OF_A_KIND = _LISTED.words("behind_of_a_kind")


def of_an_off_type(lattice: Lattice, p: Phrase) -> bool:
    """`two purple flower rogues`, `tan-podded off-types`: another kind among what was sown, and none of these plants."""
    at = p.end + (text(lattice, p.end) == "-")
    at += bool(kinds(lattice, at) & {"POD", "PODG"})
    if text(lattice, at) == "off":
        return text(lattice, at + 1) in _TYPES or text(lattice, at + 2) in _TYPES
    return text(lattice, at) in _OFF_TYPES


def of_a_kind(lattice: Lattice, p: Phrase) -> bool:
    """`a purple bloom variety`, `one white-flowered plant`: what is sown there, and nothing seen."""
    return text(lattice, p.end) in _BEHIND_OF_A_KIND or _of_a_colour(lattice, p)


def _of_a_colour(lattice: Lattice, p: Phrase) -> bool:
    """`purple-flowered`, `white flowered`: which kind it is, and not that it is in flower now."""
    at = p.end - 1
    if not text(lattice, at).endswith("ed"):
        return False
    return text(lattice, at - 1 - (text(lattice, at - 1) == "-")) in _COLOURS
