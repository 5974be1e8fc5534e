"""What an answer changes in the drafts of a visit, or in the settled facts of a plant.

The same two functions serve twice: on copies, to say what each choice would make, and on the drafts themselves once an
answer is given. So an answer does what its choice said.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping
from typing import Any

from notesparse.facts import PLANT_KEYS
from notesparse.observing.draft import Entry, PlantDraft, StatedDraft, VisitDraft
from notesparse.observing.revise import copy_facts
from notesparse.observing.settling.settled import Settled
from notesparse.span import Span

OF_DRAFTS = frozenset({"plant", "same_as"})
"""Keys of answers that say which plant is meant: they change the drafts, before any plant is settled."""

OF_VISITS = frozenset({"date", "planted", "emerged", "variety", "maturity_group", "row_spacing_in", "field"})
"""Keys of the head of a visit."""


def on_plant(settled: Settled, changes: Mapping[str, Any], span: Span | None) -> Settled:
    """The facts of one plant after an answer. A count of trifoliates or nodes moves the other, if that was derived."""
    out = settled.copy()
    for key, value in changes.items():
        if key in PLANT_KEYS:
            _set(out, key, _frozen(value), span)
    if "trifoliates" in changes and "nodes" not in changes and "nodes" in out.derived:
        t = out.values.get("trifoliates")
        _set(out, "nodes", None if t is None else t + 1, None)
    elif "nodes" in changes and "trifoliates" not in changes and "trifoliates" in out.derived:
        n = out.values.get("nodes")
        _set(out, "trifoliates", None if n is None else n - 1, None)
    if "stands" in changes:
        out.stands = frozenset(changes["stands"])
    return out


def _set(out: Settled, key: str, value: Any, span: Span | None) -> None:
    if value is None:
        out.values.pop(key, None)
        out.spans.pop(key, None)
        return
    before = out.values.get(key)
    out.values[key] = value
    if span is not None and key not in out.spans:
        out.spans[key] = span
    if before != value and key in ("pod_mm", "seed_mm"):
        if _by_the_inch(value):
            out.inches.add(key)
        else:
            out.inches.discard(key)


def _by_the_inch(mm: Any) -> bool:
    """Whether a length is a whole number of 64ths of an inch, and no whole or half millimetre."""
    long = max(mm) if isinstance(mm, tuple) else mm
    sixty_fourths = long / 25.4 * 64
    return bool(abs(sixty_fourths - round(sixty_fourths)) < 1e-6 and abs(2 * long - round(2 * long)) > 1e-6)


def _frozen(value: Any) -> Any:
    return tuple(_frozen(item) for item in value) if isinstance(value, list) else value


def redrawn(
    visit: VisitDraft, plant: PlantDraft, changes: Mapping[str, Any], span: Span
) -> list[tuple[PlantDraft | None, PlantDraft | None]]:
    """Which plant is meant (guide 4.7, 4.18): pairs of a plant as drafted and as it would be; None: there is none."""
    label = changes.get("plant")
    if isinstance(label, str):
        return _relabelled(visit, plant, label)
    if label is not None:
        return [(plant, _called(plant, label[0])), *((None, _called(plant, more)) for more in label[1:])]
    source = next((p for p in visit.plants if p.label == changes.get("same_as") and p is not plant), None)
    if source is None:
        return []
    like = copy.deepcopy(plant)
    copy_facts(source, like, span)
    return [(plant, like)]


def _called(plant: PlantDraft, label: str) -> PlantDraft:
    out = copy.deepcopy(plant)
    out.label = label
    return out


def _relabelled(visit: VisitDraft, plant: PlantDraft, label: str) -> list[tuple[PlantDraft | None, PlantDraft | None]]:
    first = next(
        (p for p in visit.plants if p is not plant and not p.dropped and (p.label, p.stop) == (label, plant.stop)), None
    )
    if first is None:
        return [(plant, _called(plant, label))]
    # one plant after all: what was said later of it goes over what was said before
    one = copy.deepcopy(first)
    for key, entries in plant.facts.items():
        one.facts[key] = list(entries)
    said = {s.what for s in plant.sightings}
    one.sightings = [s for s in one.sightings if s.what not in said] + list(plant.sightings)
    return [(first, one), (plant, None)]


def redraw(visit: VisitDraft, pairs: list[tuple[PlantDraft | None, PlantDraft | None]]) -> PlantDraft | None:
    """Puts the drafts as they were answered to be, and gives the plant that stands in for one that is gone."""
    stands: PlantDraft | None = None
    last = len(visit.plants)
    for old, new in pairs:
        if old is not None and new is not None:
            old.label, old.facts, old.sightings = new.label, new.facts, new.sightings
            stands, last = old, visit.plants.index(old) + 1
        elif new is not None:
            visit.plants.insert(last, new)
            last += 1
        elif old is not None:
            visit.plants.remove(old)
    return stands


def on_visit(visit: VisitDraft, ask_span: Span, changes: Mapping[str, Any]) -> None:
    """The head of a visit, its tallies and its statements after an answer."""
    for key, value in changes.items():
        if key == "field":
            visit.name = value
        elif key in OF_VISITS:
            if value is None:
                visit.head.pop(key, None)
            else:
                visit.head[key] = Entry(value, visit.head[key].span if key in visit.head else ask_span)
        elif key in ("tally", "percent", "of"):
            _tally(visit, ask_span, key, value)
        elif key in ("stated_v", "stated_r"):
            _stated(visit, key[-1], value, ask_span)
    if "stands" in changes:
        visit.stands = frozenset(changes["stands"])
    if "by_count" in changes:
        visit.by_count = frozenset(changes["by_count"])


def _tally(visit: VisitDraft, span: Span, key: str, value: Any) -> None:
    here = [t for t in visit.tallies if t.span.overlaps(span)]
    if key == "of":
        for t in visit.tallies:
            if t.of is not None and not t.stops:
                t.of = value
        return
    if key == "percent":
        for t in here[:1]:
            t.percent, t.lots = value, False
        return
    if value is None:
        visit.tallies = [t for t in visit.tallies if t not in here]
    elif isinstance(value, str) and " of " in value:
        count, of = (float(x) for x in value.split(" of "))
        for t in here[:1]:
            t.count, t.of = count, of


def _stated(visit: VisitDraft, letter: str, value: Any, span: Span) -> None:
    ours = [s for s in visit.stated if s.letter == letter and s.where is None]
    kept = next((s for s in reversed(ours) if s.value == value), None)
    visit.stated = [s for s in visit.stated if s not in ours]
    if value is not None:
        visit.stated.append(kept or StatedDraft(letter, value, ours[-1].span if ours else span))


def tried(visit: VisitDraft, ask_span: Span, changes: Mapping[str, Any]) -> VisitDraft:
    """A copy of the visit's head, tallies and statements with an answer tried on it; the plants are the same."""
    out = copy.copy(visit)
    out.head, out.stated = dict(visit.head), list(visit.stated)
    out.tallies = [copy.copy(t) for t in visit.tallies]
    on_visit(out, ask_span, changes)
    return out
