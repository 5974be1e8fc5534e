"""What is counted or looked for, told once before the plants: `Trifs: plant 1 nine, plant 2 ten`, `Flowers: 1 none, 2 at
the third node down`."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing import leaves, organs
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.lists import numbered_plant
from notesparse.observing.walking.counted import from_one
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase, phrases_at

_LISTED = cue_page("walking/under_a_head")
_COMMON = cue_page("shared")

_COUNTED = {"TRIF": "trifoliates", "NODES": "nodes"}
_SOUGHT = {"FLOWER": "flowers", "POD": "pods", "SEED": "seeds"}
_OF_THE_HEAD = _LISTED.words("of_the_head")
_MARKS = frozenset({":", "-", "=", ",", "?"})
IS = _LISTED.words("is")
_BETWEEN = _COMMON.words("and") | {";"}
ANSWERS = _LISTED.table("answers", bool)
_FEWEST = 2  # plants
_MOST = 30  # trifoliates or nodes


@dataclass(frozen=True, slots=True)
class _Item:
    """A plant, and what is told of it at pieces [at, end)."""

    label: str
    start: int
    at: int
    end: int
    count: int | None = None
    there: bool | None = None
    place: Phrase | None = None


def under_a_head(w: Listener, i: int) -> int | None:
    """Gives each plant its own behind the head at piece i; where they end, None where there is no such head."""
    ctx = w.ctx
    head = _head(w, i)
    if head is None:
        return None
    what, k, marked = head
    items: list[_Item] = []
    while (item := _item(w, k, what, marked)) is not None:
        items.append(item)
        k = item.end
        while ctx.lattice.at(k) in _BETWEEN:
            k += 1
    labels = [x.label for x in items]
    live = {p.label for p in ctx.living()}
    in_order = from_one(labels)
    if len(items) < _FEWEST or len(set(labels)) < len(labels) or not (in_order or set(labels) <= live):
        return None
    for item in items:
        span = ctx.span(item.start, item.end)
        there = ctx.visit.plant(item.label) if ctx.visit is not None else None
        ctx.close()
        ctx.plants, ctx.explicit = [there if there is not None else ctx.begin([item.label], span)[0]], True
        if item.count is not None:
            leaves.count(ctx, what, item.count, ctx.span(item.at, item.end))
            continue
        seen = organs.look(ctx, what, item.there is not False, span)
        if item.place is not None:
            organs.attach_place(ctx, organs.place(item.place, ctx.span(item.place.start, item.place.end)), seen)
    ctx.mark(i, items[-1].end, EVIDENCE)
    ctx.leave_plants()
    return items[-1].end


def _head(w: Listener, i: int) -> tuple[str, int, bool] | None:
    """What is told of at piece i, where its plants begin, and whether a mark stands between."""
    lattice = w.ctx.lattice
    if not (w.begins(i) or w.after_name) or i >= len(lattice.edges):
        return None
    known = {**_COUNTED, **_SOUGHT}
    edge = max((e for e in lattice.edges[i] if e.kind in known and e.how == "exact"), key=lambda e: e.end, default=None)
    if edge is None:
        return None
    k = edge.end
    while lattice.at(k) in _OF_THE_HEAD and numbered_plant(lattice, k) is None:
        k += 1
    marked = lattice.at(k) in _MARKS
    k += marked
    if not marked and (numbered_plant(lattice, k) is None or edge.kind in _SOUGHT):
        return None
    return known[edge.kind], k, marked


def _item(w: Listener, k: int, what: str, marked: bool) -> _Item | None:
    lattice = w.ctx.lattice
    named = numbered_plant(lattice, k) or (_number(w, k) if marked else None)
    if named is None:
        return None
    label, at = named
    while lattice.at(at) in IS:
        at += 1
    if what in _COUNTED.values():
        got = _number(w, at)
        if got is None or not got[0].isdigit() or int(got[0]) > _MOST or not over(w, got[1]):
            return None
        return _Item(label, k, at, got[1], count=int(got[0]))
    answer = ANSWERS.get(lattice.at(at))
    if answer is not None:
        return _Item(label, k, at, at + 1, there=answer) if over(w, at + 1) else None
    here = (
        [p for p in phrases_at(lattice, at) if p.rule == "place" and over(w, p.end)] if at < len(lattice.edges) else []
    )
    place = max(here, key=lambda p: p.end, default=None)
    return _Item(label, k, at, place.end, there=True, place=place) if place is not None else None


def _number(w: Listener, k: int) -> tuple[str, int] | None:
    """The whole number at piece k, as it is written or said, and where it ends."""
    edges = w.ctx.lattice.edges[k] if k < len(w.ctx.lattice.edges) else []
    label = next((e for e in edges if e.kind == "BARE" and len(e.means) == 1), None)  # seen as one of a series
    if label is not None:
        return str(label.means[0]), label.end
    edge = max((e for e in edges if e.kind == "INT" and e.how == "number"), key=lambda e: e.end, default=None)
    return (str(int(edge.means)), edge.end) if edge is not None else None


def over(w: Listener, k: int) -> bool:
    """What is told of a plant is over at piece k: a mark, the end, `and`, or the next plant."""
    return w.ends_at(k) or w.ctx.lattice.at(k) in _BETWEEN or numbered_plant(w.ctx.lattice, k) is not None
