"""What stands between a finding and its counts: `Defoliation by stop 15, 10, 10 and 25`, `stink bugs at 3 spots 6, 2, 11 per
25 sweeps`, `stink bugs I saw 5 in 10 sweeps`; the plants that bear it: `frogeye on 8 plants of 20`; and the stop where it
was counted: `stand 6 per ft stop 1, 4 per ft stop 2`.
"""

from __future__ import annotations

from typing import Any

from notesparse.language.cues import cue_page
from notesparse.observing.finding import units
from notesparse.observing.finding.findwords import Item
from notesparse.observing.finding.units import longest, text_at
from notesparse.text.lattice import Lattice

_LISTED = cue_page("finding/at_stops")

_STOPS = _LISTED.words("stops")
_SEEN = _LISTED.words("seen")
_PARTS = _LISTED.words("parts")
_NYMPHS = _LISTED.words("nymphs")
_LARVAE = _LISTED.words("larvae")
_WITH_LARVAE = ("beetle", "weevil", "borer", "fly", "midge", "bug", "colaspis")


_FOR_COUNTS_BEHIND = _LISTED.words("for_counts_behind")


def counts_behind(lattice: Lattice, j: int) -> tuple[int, str | None] | None:
    """At piece j `by stop` or `at 3 spots` before counts, as many as were told: where the counts begin, and the place."""
    by = text_at(lattice, j) == "by" and text_at(lattice, j + 1) in _STOPS
    if by:
        start = _past(lattice, j + 2)
        return (start, None) if len(units.counts(lattice, start)[0]) > 1 else None
    many = units.number(lattice, j + 1) if text_at(lattice, j) in _FOR_COUNTS_BEHIND else None
    if many is None or text_at(lattice, many.end) not in _STOPS:
        return None
    start = _past(lattice, many.end + 1)
    told = units.counts(lattice, start)[0]
    return (start, lattice.written(j, many.end + 1)) if len(told) == many.value and len(told) > 1 else None


def stop_behind(lattice: Lattice, j: int) -> tuple[int, str] | None:
    """At piece j `st 2`, `at stop 3` behind a count, and nothing more of the sentence: where it ends, and the stop."""
    k = j + (text_at(lattice, j) in {"at", "@", "on", "in"})
    stop = longest(lattice, k, "STOP", sound=False)
    n = units.number(lattice, stop.end) if stop is not None else None
    if n is None or not isinstance(n.value, int):
        return None
    over = n.end >= len(lattice.pieces) or lattice.pieces[n.end].form == "nl"
    joined = text_at(lattice, n.end) in {",", ";", ".", "and", "&"}
    return (n.end, f"stop {n.value}") if over or joined else None


def at_another_stop(lattice: Lattice, j: int, cur: Item) -> tuple[int, Any, str] | None:
    """At piece j `, 4 per ft st 2`, `and 10% at stop 2`: where it ends, how many there are, and the stop."""
    k = j
    while text_at(lattice, k) in {",", "and", "&", ";"}:
        k += 1
    many = units.percent(lattice, k) if cur.unit == "%" else units.number(lattice, k)
    if many is None or k == j:
        return None
    of = units.per(lattice, many.end)
    where = stop_behind(lattice, of.end if of is not None else many.end)
    return (where[0], many.value, where[1]) if where is not None else None


def _past(lattice: Lattice, k: int) -> int:
    while text_at(lattice, k) in _PARTS:
        k += 1
    return k


def who_saw(lattice: Lattice, j: int) -> int | None:
    """`I saw 5 in 10 sweeps`: where the count begins."""
    said = text_at(lattice, j) in {"i", "we"} and text_at(lattice, j + 1) in _SEEN
    k = units.over_doubt(lattice, j + 2)
    return k if said and units.number(lattice, k) is not None else None


def on_some_plants(lattice: Lattice, j: int, cur: Item) -> int | None:
    """`on 8 plants`, `on 3 plants of 20`: where the words end."""
    bears = cur.kind in {"disease", "damage", "insect"} and cur.value is None
    some = units.number(lattice, j + 1) if bears and text_at(lattice, j) in {"on", "in"} else None
    plants = longest(lattice, some.end, "PLANT", sound=False) if some is not None else None
    if plants is None or text_at(lattice, plants.end - 1) not in {"plants", "plts", "plant"}:
        return None
    k = plants.end + (text_at(lattice, plants.end) == "out")
    of = units.number(lattice, k + 1) if text_at(lattice, k) == "of" else None
    end = of.end if of is not None else plants.end
    over = end >= len(lattice.pieces) or lattice.pieces[end].form == "nl" or text_at(lattice, end) in {".", ";", ","}
    return end if over else None


_BEHIND_OF_THE_WEED_TOO = _LISTED.words("behind_of_the_weed_too")


def of_the_weed_too(lattice: Lattice, j: int, cur: Item) -> bool:
    """`waterhemp 3 in and 8 per sq ft`, `8 per sq ft and 3 in tall`: behind `and` its density, or its height."""
    if cur.kind != "weed" or cur.value in {None, 0} or cur.unit is None:
        return False
    if cur.unit.startswith("per"):
        tall = units.length(lattice, j)
        behind = text_at(lattice, tall.end) if tall is not None else ""
        return tall is not None and behind not in _BEHIND_OF_THE_WEED_TOO
    many = units.number(lattice, j)
    of = units.per(lattice, many.end) if many is not None else None
    return of is not None and of.unit is not None and of.unit.startswith("per")


def young(lattice: Lattice, j: int, cur: Item) -> str | None:
    """`green stink bug nymphs`, `bean leaf beetle larvae`: the name of the young, right behind that of the animal."""
    word = text_at(lattice, j)
    right_behind = cur.kind == "insect" and cur.name is not None and cur.value is None and cur.head_end == j
    if not right_behind or cur.name is None or not cur.name.endswith(_WITH_LARVAE):
        return None
    return f"{cur.name} nymph" if word in _NYMPHS else f"{cur.name} larva" if word in _LARVAE else None


_VISITING = _LISTED.words("visiting")
_FOR_VISITS_FLOWERS = _LISTED.words("for_visits_flowers")


def visits_flowers(lattice: Lattice, j: int) -> int | None:
    """`bees working the blossoms`, `honeybees all over the blooms`: where the words for the flowers end."""
    if text_at(lattice, j) not in _VISITING:
        return None
    k = j + 1
    while text_at(lattice, k) in _FOR_VISITS_FLOWERS:
        k += 1
    flower = longest(lattice, k, "FLOWER", sound=False)
    return flower.end if flower is not None and k > j + 1 else None
