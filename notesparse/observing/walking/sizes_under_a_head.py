"""Pods or seeds whose place, unit or both are told once before the plants, in one sentence: `Pods at top four: p1 20 mm,
p2 22, p3 none` (guide 4.7, 4.12)."""

from __future__ import annotations

from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing import organs
from notesparse.observing.draft import Length
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.lists import numbered_plant
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.under_a_head import ANSWERS, IS, over
from notesparse.reading.parse import Phrase, phrases_at

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/sizes_under_a_head")

_SOUGHT = {"POD": "pods", "SEED": "seeds", "BEAN": "seeds", "FLOWER": "flowers"}
_BIG = _COMMON.words("biggest") | {"the"}
_SIZE = _LISTED.words("size")
_AT = _COMMON.words("at") | _COMMON.words("of") | {"from", "the"}
_ENDS = frozenset({":", "-", "="})
_IN_BRACKETS = frozenset({"(", ")", ","})
_UNITS = {"MM": (1.0, False), "CM": (10.0, False), "INCH": (25.4, True)}
_BETWEEN = _COMMON.words("and") | {".", ";"}
_FEWEST = 2  # plants
_LAST_LETTER = "L"


@dataclass(frozen=True, slots=True)
class _Head:
    what: str
    places: tuple[Phrase, ...]
    unit: tuple[float, bool] | None  # millimetres, and whether it is one of inches
    end: int


@dataclass(frozen=True, slots=True)
class _Item:
    label: str
    start: int
    end: int
    there: bool = True
    length: Length | None = None
    number: float | None = None  # with no unit of its own
    at: tuple[int, int] = (0, 0)  # the pieces of the number
    place: Phrase | None = None


def sizes_under_a_head(w: Listener, i: int) -> int | None:
    """Gives each plant its own behind the head at piece i; where they end, None where there is no such head."""
    ctx = w.ctx
    head = _head(w, i)
    if head is None:
        return None
    items: list[_Item] = []
    k = head.end
    while (item := _item(w, k)) is not None:
        items.append(item)
        k = item.end
        while ctx.lattice.at(k) in _BETWEEN and _plant_at(w, k + 1) is not None:
            k += 1
    if len(items) < _FEWEST or len({x.label for x in items}) < len(items):
        return None
    unit = head.unit or next(((25.4, True) if x.length.inches else (1.0, False) for x in items if x.length), None)
    if unit is None and any(x.number is not None for x in items):
        return None  # pods: p1 3, p2 4: so many, or so long
    for item in items:
        _put(w, head, _measured(w, item, unit))
    ctx.mark(i, items[-1].end, EVIDENCE)
    ctx.leave_plants()
    return items[-1].end


def answer_of_a_plant(w: Listener, i: int) -> int | None:
    """`no fl p1 p3, pods p2 none`: an organ, one plant with its sign and whether it has any; where it ends."""
    lattice, at = w.ctx.lattice, w.ctx.lattice.at
    if not w.begins(i) or i >= len(lattice.edges):
        return None
    organ = max(((e.end, e.kind) for e in lattice.edges[i] if e.kind in _SOUGHT and e.how == "exact"), default=None)
    head = _Head(_SOUGHT[organ[1]], (), None, organ[0]) if organ is not None else None
    items: list[_Item] = []
    k = head.end if head is not None else i
    while head is not None and (item := _answered(w, k)) is not None:
        items.append(item)
        k = item.end + (at(item.end) in _BETWEEN)
    if head is None or not items:
        return None
    for item in items:
        _put(w, head, item)
    w.ctx.mark(i, items[-1].end, EVIDENCE)
    w.ctx.leave_plants()
    return items[-1].end


def _answered(w: Listener, k: int) -> _Item | None:
    """`p2 none` at piece k."""
    named = numbered_plant(w.ctx.lattice, k)
    answer = ANSWERS.get(w.ctx.lattice.at(named[1])) if named is not None else None
    if named is None or answer is None or not over(w, named[1] + 1):
        return None
    return _Item(named[0], k, named[1] + 1, there=answer)


def _measured(w: Listener, item: _Item, unit: tuple[float, bool] | None) -> _Item:
    """The item with its bare number taken in the unit of the head, or of another plant."""
    if item.number is None or unit is None:
        return item
    return replace(item, length=Length(item.number * unit[0], unit[1], w.ctx.span(*item.at)))


def _put(w: Listener, head: _Head, item: _Item) -> None:
    ctx = w.ctx
    span = ctx.span(item.start, item.end)
    there = ctx.visit.plant(item.label) if ctx.visit is not None else None
    ctx.close()
    ctx.plants, ctx.explicit = [there if there is not None else ctx.begin([item.label], span)[0]], True
    seen = organs.look(ctx, head.what, item.there, span)
    for place in (item.place,) if item.place is not None else head.places:
        organs.attach_place(ctx, organs.place(place, ctx.span(place.start, place.end)), seen)
    if item.length is not None:
        organs.attach_length(ctx, item.length, seen)


def _head(w: Listener, i: int) -> _Head | None:
    """`Longest pod in the top four (mm):`, `Top four pods -`, with a place or a unit in it, or a colon behind it."""
    lattice, at = w.ctx.lattice, w.ctx.lattice.at
    if not (w.begins(i) or w.after_name):
        return None
    what: str | None = None
    places: list[Phrase] = []
    unit: tuple[float, bool] | None = None
    k = i
    while k < len(lattice.edges) and at(k) not in _ENDS:
        if _plant_at(w, k) is not None:
            break
        organ = max(
            (e for e in lattice.edges[k] if e.kind in _SOUGHT and e.how == "exact"), key=lambda e: e.end, default=None
        )
        place = _place(w, k)
        told = next((e for e in lattice.edges[k] if e.kind in _UNITS and e.how == "exact"), None)
        if organ is not None and what is None:
            what, k = _SOUGHT[organ.kind], organ.end
        elif place is not None and not places:
            places, k = [place], place.end
        elif told is not None and unit is None and at(k) != "in":
            unit, k = _UNITS[told.kind], told.end
        elif at(k) in _BIG | _SIZE | _AT | _IN_BRACKETS:
            k += 1
        else:
            return None
    marked = at(k) in _ENDS
    told_once = bool(places or unit) or at(k) == ":"  # beans: p1 1/8 inch, p2 3/16 inch
    k += marked
    if what is None or not told_once or not (marked or k > i) or _plant_at(w, k) is None:
        return None
    return _Head(what, tuple(places), unit, k)


def _plant_at(w: Listener, k: int) -> tuple[str, int] | None:
    """`plant 1`, `p1`, a bare label of a row (1) 20 mm  2) 22 mm), or a capital with a figure behind a blank (A 22 B 17): the
    label, and where it ends."""
    lattice = w.ctx.lattice
    edges = lattice.edges[k] if k < len(lattice.edges) else []
    bare = next((e for e in edges if e.kind == "BARE" and len(e.means) == 1), None)
    named = (str(bare.means[0]), bare.end) if bare is not None else numbered_plant(lattice, k)
    if named is not None or k + 1 >= len(lattice.pieces):
        return named
    letter, figure = lattice.original(k, k + 1), lattice.pieces[k + 1]
    lettered = len(letter) == 1 and "A" <= letter <= _LAST_LETTER and figure.form in {"int", "dec"} and not figure.glued
    return (letter, k + 1) if lettered else None


def _place(w: Listener, k: int) -> Phrase | None:
    """The place on the plant that begins at piece k, or behind `at the`, and goes furthest; a single word is none."""
    here = [p for p in phrases_at(w.ctx.lattice, k) if p.rule == "place" and p.end > k + 1]
    while w.ctx.lattice.at(k) in _AT and k + 1 < len(w.ctx.use):
        k += 1
        here += [p for p in phrases_at(w.ctx.lattice, k) if p.rule == "place" and p.end > k + 1]
    return max(here, key=lambda p: p.end, default=None)


def _item(w: Listener, k: int) -> _Item | None:
    lattice, at = w.ctx.lattice, w.ctx.lattice.at
    named = _plant_at(w, k)
    if named is None:
        return None
    label, i = named
    while at(i) in IS:
        i += 1
    answer = ANSWERS.get(at(i))
    if answer is not None:
        i += 1 + (at(i + 1) == "yet")
        return _Item(label, k, i, there=answer) if over(w, i) else None
    if i >= len(lattice.edges):
        return None
    sizes = [p for p in phrases_at(lattice, i) if p.rule == "length"]
    size = max(sizes, key=lambda p: p.end, default=None)
    length = organs.read_length(size, w.ctx.span(size.start, size.end)) if size is not None else None
    if size is not None and length is not None and length.bare != "whole":
        end, place = _placed(w, size.end)
        done = over(w, end) or _plant_at(w, end) is not None
        return _Item(label, k, end, length=length, place=place) if done else None
    number = next((e for e in lattice.edges[i] if e.kind in {"INT", "DEC"} and e.how in {"number", "exact"}), None)
    if number is None or not (over(w, number.end) or _plant_at(w, number.end)):
        return None
    return _Item(label, k, number.end, number=float(number.means), at=(i, number.end))


def _placed(w: Listener, k: int) -> tuple[int, Phrase | None]:
    """A place behind a size, and where it ends."""
    place = _place(w, k) if k < len(w.ctx.use) else None
    return (place.end, place) if place is not None else (k, None)
