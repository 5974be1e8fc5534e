"""Counts and their units inside a finding, read from the lattice piece by piece (guide 4.1, 4.2, 4.20).

A finding is told in its own order (`two a sweep`, `4 in 25 sweeps`, `nineteen plants in three feet`), so its numbers
are read here and not by the phrases that plants are read by.
"""

from __future__ import annotations

from typing import Any

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.text.lattice import Edge, Lattice
from notesparse.text.net import once

_LISTED = cue_page("finding/units")
_COMMON = cue_page("shared")

NUMBERS = ("INT", "DEC", "FRAC")
UNITS = ("INCH", "FOOT", "CM", "MM")
_TO = _COMMON.words("through") | {"or"}
_PER_MARKS = _LISTED.words("per_marks")
_PLACES = _LISTED.words("places")
_BEFORE_HALF = _LISTED.words("before_half")
_AREA = _LISTED.words("area")
_METRES = _LISTED.words("metres")
_ARTICLES = _LISTED.words("articles")
LOOSE = _LISTED.words("loose")


@dataclass(frozen=True, slots=True)
class Amount:
    """A value that ends at piece `end` (exclusive). `value` is a number, or [low, high] for a range."""

    end: int
    value: Any
    unit: str | None = None
    tall: bool = False
    share: bool = False  # told as a share (half the leaves), in percent

    @property
    def highest(self) -> Any:
        """The value, or the upper end of a range."""
        return max(self.value) if isinstance(self.value, list) else self.value


def tidy(value: Any) -> Any:
    """A number without needless decimals."""
    f = float(value)
    return int(f) if f == int(f) else round(f, 4)


def longest(lattice: Lattice, i: int, *kinds: str, sound: bool = True) -> Edge | None:
    """The longest edge of these kinds at piece i, an exact one before a repair."""
    if not 0 <= i < len(lattice.pieces):
        return None
    found = [
        e
        for e in lattice.edges[i]
        if e.kind in kinds and (sound or (e.how not in {"sound", "figure", "split"} and not e.how.startswith("near")))
    ]
    best = max(found, key=lambda e: (e.cost < 0.3, e.end), default=None)
    if (
        best is not None
        and best.end > i + 1
        and lattice.word(best.end - 1) == "."
        and lattice.soft[best.end - 1] is None
    ):
        return best._replace(end=best.end - 1)  # Pigweed 4 in. Maps are in the truck.
    return best


def text_at(lattice: Lattice, i: int) -> str:
    return lattice.word(i)


def over_doubt(lattice: Lattice, i: int) -> int:
    """The piece after words of doubt: `about`, `maybe`, `around`."""
    while text_at(lattice, i) in LOOSE or text_at(lattice, i) in {"=", ":", "?"}:
        i += 1
    return i


@once
def number(lattice: Lattice, i: int) -> Amount | None:
    """One number in figures or words; a mis-hearing (`for`, `to`) is none, a damaged figure is one."""
    if not 0 <= i < len(lattice.pieces):
        return None
    if text_at(lattice, i) == "a" and text_at(lattice, i + 1) in {"hundred", "thousand"}:
        i += 1  # a hundred and eighteen thousand
    found = [e for e in lattice.edges[i] if e.kind in NUMBERS and e.how != "sound" and not e.how.startswith("near")]
    if not found:
        return _heard(lattice, i)
    edge = max(found, key=lambda e: (e.end, e.kind == "FRAC"))
    if text_at(lattice, i) == "one" and edge.end == i + 1 and text_at(lattice, i - 1) in _POINTING:
        return None  # stink bugs in that one
    if text_at(lattice, i) in _SO_MANY_HUNDRED and (thousands := _hundred_thousand(lattice, i)) is not None:
        return thousands
    if lattice.pieces[i].form == "int" and lattice.at(edge.end) == "s" and lattice.pieces[edge.end].glued:
        return None  # not closed on the 30s
    return Amount(edge.end, tidy(edge.means))


_SO_MANY_HUNDRED = _LISTED.table("so_many_hundred", int)


def _hundred_thousand(lattice: Lattice, i: int) -> Amount | None:
    """`one thirty thousand`, `one oh five thousand`, `between one thirty and one forty thousand`: a stand as it is talked."""
    k = i + 1 + (text_at(lattice, i + 1) == "oh")
    behind = number(lattice, k) if k < len(lattice.pieces) and lattice.pieces[k].form == "word" else None
    if behind is None or not isinstance(behind.value, int):
        return None
    said = behind.value // 1000 if text_at(lattice, behind.end - 1) == "thousand" else behind.value
    if said == behind.value:  # one thirty | to one forty thousand
        joined = _TO | {"and"} if text_at(lattice, i - 1) == "between" else _TO
        other = number(lattice, behind.end + 1) if text_at(lattice, behind.end) in joined else None
        if other is None or other.value < 100_000:
            return None
    low, high = (10, 99) if k == i + 1 else (1, 9)
    if not low <= said <= high:
        return None
    return Amount(behind.end, 1000 * (100 * _SO_MANY_HUNDRED[text_at(lattice, i)] + said))


_POINTING = _LISTED.words("pointing")
_SOUNDS = _LISTED.table("sounds", int)
_COUNTED_BY = frozenset({"SWEEP", "FOOT", "ROWFOOT", "SQFOOT", "PLANT"})


def _heard(lattice: Lattice, i: int) -> Amount | None:
    """`stink bugs to in 25 sweeps`, `beetles ate per foot of row`: a number that was heard as a small word, right behind
    what was found and before what it is counted by (guide 4.4)."""
    heard = _SOUNDS.get(text_at(lattice, i))
    if heard is None or text_at(lattice, i + 1) not in {"in", "per", "a"}:
        return None
    found = any(
        e.kind in {"INSECT", "WEED"} and e.end == i and e.how == "exact"
        for x in range(max(0, i - 4), i)
        for e in lattice.edges[x]
    )
    k = i + 2
    k = max((e.end for e in lattice.edges[k] if e.kind == "INT"), default=k) if k < len(lattice.pieces) else k
    by = k < len(lattice.pieces) and any(e.kind in _COUNTED_BY and e.how == "exact" for e in lattice.edges[k])
    return Amount(i + 1, heard) if found and by else None


@once
def amount(lattice: Lattice, i: int) -> Amount | None:
    """A number or a range: `10-11`, `3 to 5`, `one or two`, `between 3 and 5`."""
    if text_at(lattice, i) == "between":
        low = number(lattice, i + 1)
        high = number(lattice, low.end + 1) if low and text_at(lattice, low.end) == "and" else None
        return Amount(high.end, _thousands(low.value, high.value)) if low and high and low.value < high.value else None
    first = number(lattice, i)
    if first is None:
        return None
    if text_at(lattice, first.end) in _TO:
        second = number(lattice, first.end + 1)
        if (
            second is not None
            and first.value < second.value
            and not (text_at(lattice, first.end) == "or" and text_at(lattice, first.end + 1) == "so")
        ):
            return Amount(second.end, _thousands(first.value, second.value))
    return first


def _thousands(low: Any, high: Any) -> list[Any]:
    """`120 to 130 thousand`: the thousands are of both."""
    both = high % 1000 == 0 and 10 <= low < high // 1000 < 1000
    return [low * 1000 if both else low, high]


_JOINS_COUNTS = _LISTED.words("joins_counts")


def counts(lattice: Lattice, i: int) -> tuple[list[Amount], int]:
    """Several counts in a row, with commas or `and` between them or nothing: `four two and five`."""
    out: list[Amount] = []
    k = i
    end = i
    while True:
        one = amount(lattice, k)
        if one is None:
            break
        out.append(one)
        end = k = one.end
        while text_at(lattice, k) in _JOINS_COUNTS and k < end + 2:
            k += 1
    return out, end


@once
def percent(lattice: Lattice, i: int) -> Amount | None:
    """`15%`, `ten to 15 percent`, `5-10 %`."""
    one = amount(lattice, i)
    if one is None:
        return None
    mark = longest(lattice, one.end, "PCT")
    if mark is None:
        return None
    if isinstance(one.value, list) or text_at(lattice, mark.end) not in {"-", "to", "or"}:
        high = one.value[-1] if isinstance(one.value, list) else one.value
        return Amount(mark.end, one.value, "%") if 0 <= high <= 100 else None
    high_one = number(lattice, mark.end + 1)
    second = longest(lattice, high_one.end, "PCT") if high_one else None
    if high_one and second and one.value < high_one.value <= 100:
        return Amount(second.end, [one.value, high_one.value], "%")
    return Amount(mark.end, one.value, "%") if one.value <= 100 else None


_BEHIND_SHARE = _COMMON.words("parts_in_words")
_FOR_SHARE = _LISTED.table("for_share", int)


@once
def share(lattice: Lattice, i: int) -> Amount | None:
    """`half the`, `a third of the`, `a quarter of the`, `most of the` (no number), `all the`."""
    if not 0 <= i < len(lattice.pieces):
        return None
    half = longest(lattice, i, "HALF", sound=False)
    if half is not None and text_at(lattice, half.end) in {".", "", ",", ";"} and lattice.at(i - 1) not in _BEFORE_HALF:
        return None  # hail on the Antelope half.
    if half is not None:
        return Amount(half.end, 50, "%", share=True)
    found = [e for e in lattice.edges[i] if e.kind == "FRAC" and e.how in {"number", "exact"} and 0 < e.means < 1]
    if found:
        edge = max(found, key=lambda e: e.end)
        if text_at(lattice, edge.end) in {"acre", "acres", "ac"}:
            return None  # in one pocket, a quarter acre
        return Amount(edge.end, tidy(round(float(edge.means) * 100)), "%", share=True)
    if text_at(lattice, i) in {"a", "one", "1"} and text_at(lattice, i + 1) in _BEHIND_SHARE:
        if text_at(lattice, i + 2) in {"acre", "acres", "ac"}:
            return None
        part = _FOR_SHARE[text_at(lattice, i + 1)]
        return Amount(i + 2, part, "%", share=True)
    return None


_FOR_LENGTH = _COMMON.words("towards_a_length")


@once
def length(lattice: Lattice, i: int) -> Amount | None:
    """A length in the scout's own unit: `4 in`, `2-4 in.`, `six to eight inches tall`, `an inch`, `half an inch`."""
    whole = longest(lattice, i, "ANINCH", sound=False)
    if whole is None and longest(lattice, i, "INCH", sound=False) is not None and text_at(lattice, i) == "inch":
        whole = longest(lattice, i, "INCH", sound=False)
    if whole is not None:
        part = _and_part(lattice, whole.end)
        end = part.end if part is not None else whole.end
        return Amount(_after_unit(lattice, end), 1 + part.value if part is not None else 1, "in", _tall(lattice, end))
    one = amount(lattice, i)
    if one is None:
        return _a_foot(lattice, i)
    at = one.end
    if per(lattice, at) is not None and text_at(lattice, at) in _FOR_LENGTH:
        return None  # 4 in 25 sweeps
    unit = longest(lattice, at, *UNITS)
    if unit is None and text_at(lattice, at) in {"of", "an", "a", "1"} | _ARTICLES:
        unit = longest(lattice, at + 1, *UNITS, sound=False)
    if unit is None and text_at(lattice, at) == "in" and text_at(lattice, at + 1) in _PLACES:
        unit = Edge(at + 1, "INCH", "in", 0.0, "exact")  # 14 in at the corner
    if unit is None and text_at(lattice, at) in _METRES and _a_height(lattice, i, at + 1, one.value):
        unit = Edge(at + 1, "METRE", "m", 0.0, "exact")  # ragweed 2 meters tall
    if unit is None:
        return None
    if text_at(lattice, at) == "in" and number(lattice, unit.end) is not None and not isinstance(one.value, list):
        return None  # fourteen in twenty five: so many in so many sweeps
    if text_at(lattice, unit.end) in _TO and not isinstance(one.value, list):
        second = number(lattice, unit.end + 1)
        again = longest(lattice, second.end, *UNITS) if second else None
        if second and again and second.value > one.value:
            return Amount(
                _after_unit(lattice, again.end), [one.value, second.value], str(again.means), _tall(lattice, again.end)
            )
    end = unit.end
    if (
        text_at(lattice, end) == "."
        and lattice.pieces[end].glued
        and (end + 1 < len(lattice.pieces) and lattice.soft[end] is not None)
    ):
        end += 1
    return Amount(_after_unit(lattice, end), one.value, str(unit.means), _tall(lattice, end))


_NO_HEIGHT = _LISTED.words("no_height")
_ABOUT = _LISTED.words("about")


def _a_foot(lattice: Lattice, i: int) -> Amount | None:
    """`(waterhemp) a foot tall`, `about a foot`, `a foot and a half`, `a meter tall`, `half a meter high`; no `3 a foot`."""
    half = text_at(lattice, i) == "half"
    at = i + half
    unit = "ft" if text_at(lattice, at + 1) == "foot" else "m"
    if text_at(lattice, at) != "a" or (unit == "m" and text_at(lattice, at + 1) not in _METRES - {"m"}):
        return None
    part = _and_part(lattice, at + 2)
    end = part.end if part is not None else at + 2
    led = text_at(lattice, i - 1) in _ABOUT and unit == "ft"
    if not (led or _behind_a_weed(lattice, i) or _tall(lattice, end)) or text_at(lattice, end) in _NO_HEIGHT:
        return None
    value = 0.5 if half else 1 + part.value if part is not None else 1
    return Amount(_after_unit(lattice, end), value, unit, _tall(lattice, end))


_TALLEST = 4  # metres that a weed is high, where no word says that it is a height


def _a_height(lattice: Lattice, i: int, end: int, value: Any) -> bool:
    """`ragweed 2 m`, `kochia 1.5 m tall`: a number of metres from piece i to `end` is a height, and no way to go."""
    if _tall(lattice, end):
        return True
    if end < len(lattice.pieces) and lattice.pieces[end].glued and lattice.pieces[end].form == "int":
        return False  # 1 m2
    high = value[-1] if isinstance(value, list) else value
    return high <= _TALLEST and _behind_a_weed(lattice, i) and text_at(lattice, end) not in _NO_HEIGHT


def _behind_a_weed(lattice: Lattice, i: int) -> bool:
    return any(e.kind == "WEED" and e.end == i for x in range(max(0, i - 3), i) for e in lattice.edges[x])


def _and_part(lattice: Lattice, i: int) -> Amount | None:
    """`(an inch) and a quarter`."""
    if text_at(lattice, i) != "and":
        return None
    found = (
        [e for e in lattice.edges[i + 1] if e.kind == "FRAC" and 0 < e.means < 1] if i + 1 < len(lattice.pieces) else []
    )
    return Amount(found[0].end, tidy(found[0].means)) if found else None


def _tall(lattice: Lattice, i: int) -> bool:
    edge = longest(lattice, i, "HEIGHTWORD", sound=False)
    return edge is not None


def _after_unit(lattice: Lattice, i: int) -> int:
    edge = longest(lattice, i, "HEIGHTWORD", "LONG", sound=False)
    return edge.end if edge is not None else i


def area(lattice: Lattice, i: int) -> Amount | None:
    """`3 or 4 acres`."""
    one = amount(lattice, i)
    if one is not None and text_at(lattice, one.end) in _AREA:
        end = one.end + 1
        if text_at(lattice, end) == "of" and text_at(lattice, end + 1) in {"it", "them"}:
            end += 2
        return Amount(end, one.value, "acres")
    return None


@once
def per(lattice: Lattice, i: int) -> Amount | None:
    """What a count is counted by: `per 25 sweeps`, `/ft`, `a plant`, `in three foot of row`, `to the sq. yd.`.

    The unit is in `unit`; `value` is the number that it names, if any."""
    k = i
    marked = False
    if text_at(lattice, i) == "a" and text_at(lattice, i + 1) in {"hundred", "thousand"}:
        return None
    if _heard(lattice, i) is not None:
        return None  # stink bugs to in 25 sweeps
    while text_at(lattice, k) in _PER_MARKS | {"of"} and k < i + 3 and (k > i or text_at(lattice, k) != "of"):
        marked = True
        k += 1
        if text_at(lattice, k) == "the":
            k += 1
    part = longest(lattice, k, "STANDWORD", sound=False) if marked else None
    if part is not None and part.means == "thousandth of an acre":
        return Amount(part.end, None, "per 1/1000 acre")  # 96, 88, 102 in 1/1000 ac.
    count: Any = None
    sets = number(lattice, k)
    mark = longest(lattice, sets.end, "SETS", sound=False) if sets else longest(lattice, k, "SETS", sound=False)
    if mark is not None:
        k, marked = mark.end, True
        if text_at(lattice, k) == "of":
            k += 1
    one = number(lattice, k)
    if one is not None and not isinstance(one.value, list):
        count, k = one.value, one.end
    if not marked and count is None and longest(lattice, k, "SWEEP", sound=False) is None:
        return None
    return _unit(lattice, k, count, marked, text_at(lattice, i) == "per")


_FOR_UNIT = _LISTED.words("for_unit")


def _unit(lattice: Lattice, k: int, count: Any, marked: bool, said_per: bool) -> Amount | None:
    n = f"{count} " if count not in {None, 1} else ""
    edge = longest(lattice, k, "SWEEP")
    if edge is not None and (marked or n):
        return Amount(edge.end, count, f"per {n}sweeps" if n else "per sweep")
    edge = longest(lattice, k, "SQFOOT", sound=False) or _squared(lattice, k)
    if edge is not None:
        return Amount(edge.end, count, f"per {n}{edge.means}")
    edge = longest(lattice, k, "ROWFOOT")
    row = edge is not None
    if edge is None:
        edge = longest(lattice, k, "FOOT", sound=False)
        if edge is not None and edge.end > k and text_at(lattice, k) == "'":
            return None
        if edge is not None:
            end = edge.end + 1 if text_at(lattice, edge.end) == "." and lattice.pieces[edge.end].glued else edge.end
            row_of = longest(lattice, end, "ROWW", sound=False)
            row = row_of is not None
            edge = Edge(row_of.end if row_of else edge.end, "FOOT", "ft", 0.0, "exact")
    if edge is not None:
        if not marked and not n:
            return None
        said = f"per {n}ft of row" if row and n else "per foot of row" if row else f"per {n}ft" if n else "per foot"
        return Amount(edge.end, count, said)
    if not marked:
        return None
    if text_at(lattice, k) in _METRES:
        row_of = longest(lattice, k + 1, "ROWW", sound=False)
        said = f"per {n}m" if n else "per meter"
        return Amount(row_of.end if row_of else k + 1, count, f"{said} of row" if row_of else said)
    edge = longest(lattice, k, "PLANT", sound=False)
    if edge is not None:
        return Amount(edge.end, count, f"per {n}plants" if n else "per plant")
    edge = longest(lattice, k, "CLOTH")
    if edge is not None:
        return Amount(edge.end, count, f"per {edge.means}")
    edge = longest(lattice, k, "TRIF", sound=False)
    if edge is not None and count is None:
        return Amount(edge.end, count, "per trifoliate")
    edge = longest(lattice, k, "LEAF", sound=False)
    if edge is not None and count is None and text_at(lattice, k) not in {"edges"}:
        return Amount(edge.end, count, "per leaflet" if text_at(lattice, k).startswith("leaflet") else "per leaf")
    word = text_at(lattice, k)
    if word in _AREA:
        return Amount(k + 1, count, f"per {n}acres" if n else "per acre")
    if word in _FOR_UNIT and said_per:
        return Amount(k + 1, count, f"per {n}{word}")
    if word in {"yard", "yd"} and marked:
        return Amount(k + 1, count, f"per {n}yard")
    if said_per and count is not None:
        return Amount(k, count, f"per {count}")
    return None


def _squared(lattice: Lattice, k: int) -> Edge | None:
    """`m2`, `m²`, `ft^2`: an area, by the figure stuck to the unit."""
    end = k + 1 + (lattice.at(k + 1) == "^")
    if lattice.at(end) not in {"2", "²"} or not lattice.pieces[k + 1].glued:
        return None
    foot = longest(lattice, k, "FOOT", sound=False) is not None
    means = "square foot" if foot else "square meter" if text_at(lattice, k) in _METRES else None
    return Edge(end + 1, "SQFOOT", means, 0.0, "exact") if means is not None else None


_FOR_PLANTS_IN = _LISTED.ordered("for_plants_in")


def plants_in(lattice: Lattice, i: int) -> Amount | None:
    """`plants in three feet`, `plts to the foot`, `plants a foot`, `plants per metre of row`: what a stand is counted by."""
    plant = longest(lattice, i, "PLANT", sound=False)
    at = plant.end if plant is not None else i
    if plant is not None and text_at(lattice, at) == "." and lattice.pieces[at].glued:
        at += 1  # 22 plts. in 3 ft
    said = per(lattice, at)
    if said is None or said.unit is None:
        return None
    if not said.unit.removesuffix(" of row").endswith(" m") and not any(w in said.unit for w in _FOR_PLANTS_IN):
        return None
    return Amount(said.end, said.value, stand_unit(said.unit))


def stand_unit(unit: str) -> str:
    """`per 3 ft of row` as the trade says it of a stand: `plants in 3 ft`."""
    unit = unit.removesuffix(" of row")
    if unit == "per foot":
        return "plants per foot"
    return f"plants in {unit.removeprefix('per ')}" if unit.endswith((" ft", " m")) else f"plants {unit}"


def weed_unit(unit: str) -> str:
    """A unit of a stand as it is said of weeds: `plants in 3 ft` is `per 3 ft`."""
    return unit.replace("plants in ", "per ").removeprefix("plants ")
