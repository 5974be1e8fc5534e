"""The same label twice in a visit: facts that add up are joined, facts that contradict are asked (guide 4.7)."""

from __future__ import annotations

import copy

from notesparse.observing.draft import Ask, PlantDraft, Sighting, VisitDraft
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.span import Span


def join(ctx: Context) -> None:
    """Join or rename the plants that share a label."""
    for visit in ctx.visits:
        _drop_empty(ctx, visit)
        _share_out(visit)
        _one_at_each_stop(visit)
        seen: dict[tuple[str, str | None], PlantDraft] = {}
        for p in list(visit.plants):
            if p.dropped:
                continue
            key = (p.label.casefold(), p.stop)
            first = seen.get(key)
            if first is not None and p.named and not first.named and not {"trifoliates", "nodes"} & set(first.facts):
                _unsay(ctx, first)  # said before any plant was named: of no plant in particular
                visit.plants.remove(first)
                seen[key] = p
                continue
            if first is None:
                seen[key] = p
            elif first.counted and _goes_over(visit, first, p):
                _add(ctx, visit, first, p)
            elif contradict(first, p):
                _rename(ctx, visit, p)
                seen[(p.label.casefold(), p.stop)] = p
            else:
                _add(ctx, visit, first, p)


def _add(ctx: Context, visit: VisitDraft, first: PlantDraft, p: PlantDraft) -> None:
    """What was said of the plant the second time belongs to what was said the first time."""
    for fact, entries in p.facts.items():
        first.facts.setdefault(fact, []).extend(entries)
    first.sightings += p.sightings
    for a in ctx.asks:
        if a.plant is p:
            a.plant = first
    visit.plants.remove(p)


def _goes_over(visit: VisitDraft, first: PlantDraft, p: PlantDraft) -> bool:
    """`Two plants. Neither one has pods. Well, plant one does, a quarter inch`: what is said of one of the plants that were
    counted goes over what was said of them all; so it does where nothing else differs."""
    others = [q for q in visit.plants if q is not first and q is not p]
    shared = {e.span for q in others for es in q.facts.values() for e in es} | {
        x for q in others for s in q.sightings for x in s.spans[:1]
    }
    facts = {k: [e for e in es if not (e.span in shared and k in p.facts)] for k, es in first.facts.items()}
    own = [s for s in first.sightings if not (shared & set(s.spans[:1]) and _told_otherwise(s, p))]
    before = first.facts, first.sightings
    first.facts, first.sightings = {k: es for k, es in facts.items() if es}, own
    if contradict(first, p):
        first.facts, first.sightings = before
        return False
    return True


def _told_otherwise(s: Sighting, p: PlantDraft) -> bool:
    """The plant's own words say whether it has such an organ, or where or how large it is."""
    return any(t.what == s.what and (t.present != s.present or t.places or t.length) for t in p.sightings)


def _one_at_each_stop(visit: VisitDraft) -> None:
    """One plant with no label at each stop: they are numbered over all stops, in order."""
    there = [p for p in visit.plants if not p.dropped]
    stops = [p.stop for p in there]
    if len(there) > 1 and None not in stops and len(set(stops)) == len(stops) and not any(p.named for p in there):
        for n, p in enumerate(there, start=1):
            p.label = str(n)


def _share_out(visit: VisitDraft) -> None:
    """`All five at 13 trifs`, and then the plants: each has what is not said of itself."""
    others = [p for p in visit.plants if p.named and not p.dropped]
    for every in [p for p in visit.plants if p.every and others]:
        for p in others:
            counted = {"trifoliates", "nodes"} & set(p.facts)
            for key, entries in every.facts.items():
                if key not in p.facts and not (counted and key in {"trifoliates", "nodes"}):
                    p.put(key, entries[-1].value, entries[-1].span, group=True)
            told = {s.what for s in p.sightings}
            p.sightings += [copy.deepcopy(s) for s in every.sightings if s.what not in told]
        visit.plants.remove(every)


def _unsay(ctx: Context, p: PlantDraft) -> None:
    spans = [e.span for es in p.facts.values() for e in es] + [x for s in p.sightings for x in s.spans]
    ctx.asks = [a for a in ctx.asks if a.plant is not p]
    head = ctx.pods_brown_head and not p.sightings and set(p.facts) <= {"mature_pods", "mature_pods_percent"}
    for i, piece in enumerate(ctx.lattice.pieces):
        if any(s.start <= piece.span.start < s.end for s in spans):
            ctx.mark(i, i + 1, EVIDENCE if head else UNREAD, "" if head else "said of no plant in particular")


def _drop_empty(ctx: Context, visit: VisitDraft) -> None:
    asked = {id(a.plant) for a in ctx.asks if a.plant is not None}
    found = {(f.where or "").split(",")[0] for f in visit.findings}  # aphids: p1 20, p2 35
    told = {p.label: p.span.start for p in visit.plants if not p.empty}  # the last of each
    announced = {p.span for p in visit.plants} - {p.span for p in visit.plants if told.get(p.label, -1) < p.span.start}
    for p in visit.plants:
        if p.named and p.empty and not p.dropped and id(p) not in asked and f"plant {p.label}" not in found:
            behind = p.label in told and _stands_behind_on(ctx, p.span)  # pods 1/4 and 1/2 inch on plants 1 and 2
            if p.span in announced or behind:  # plants 1 and 2. 1 has 8 trifs, 2 has 7
                _pass(ctx, p.span)
                continue
            for i, piece in enumerate(ctx.lattice.pieces):
                if p.span.start <= piece.span.start < p.span.end and not any(
                    q is not p and q.span == p.span and not q.empty for q in visit.plants
                ):
                    ctx.mark(i, i + 1, UNREAD, "a plant of which nothing is read")
    visit.plants[:] = [p for p in visit.plants if p.dropped or not p.empty or id(p) in asked]


def _stands_behind_on(ctx: Context, span: Span) -> bool:
    first = ctx.lattice.first_from(span.start)
    return ctx.lattice.at(first - 1) in {"on", "for"}


def _pass(ctx: Context, span: Span) -> None:
    """Labels that are told again where each plant is described."""
    for i, piece in enumerate(ctx.lattice.pieces):
        if span.start <= piece.span.start < span.end and ctx.use[i] != EVIDENCE:
            ctx.mark(i, i + 1, FILLER)


def contradict(a: PlantDraft, b: PlantDraft) -> bool:
    for key, entries in b.facts.items():
        if key in a.facts and a.facts[key] and entries and a.facts[key][-1].value != entries[-1].value:
            return True
    for s in b.sightings:
        for t in a.sightings:
            if s.group and t.group and s.spans[:1] == t.spans[:1]:
                continue  # told of all of them at once
            if s.what == t.what and (s.present != t.present or (s.places and t.places) or (s.fill and t.fill)):
                return True
            if s.what == t.what and s.length and t.length and s.length.mm != t.length.mm:
                return True  # an inch, and further down 5/8
    return False


def _rename(ctx: Context, visit: VisitDraft, p: PlantDraft) -> None:
    labels = {q.label for q in visit.plants if q is not p and not q.dropped}
    numbers = sorted(int(x) for x in labels if x.isdigit())
    old = p.label
    missing = None
    if old.isdigit():
        after = int(old) + 1
        if str(after) not in labels:
            missing = str(after)
        elif numbers:
            gaps = [n for n in range(1, numbers[-1] + 2) if str(n) not in labels]
            missing = str(gaps[0]) if gaps else None
    new = missing or f"{old}b"
    p.label = new
    ctx.ask(
        Ask(
            "4.7",
            p.span,
            f"Plant {old} is described twice and the two differ. Is this plant {new}?",
            [(f"yes, plant {new}", {"plant": new}), (f"no, plant {old} again", {"plant": old})],
            p,
            0,
            "plant",
            always=True,
            visit=visit,
        )
    )
