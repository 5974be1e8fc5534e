"""A bare mention of pods or seed that would make a plant of its own: it is of no plant, and is shown unread (guide 1.1).

`velvetleaf over the beans`, `the seed that didn't come was rotted`, `open any pods`, `no pods` behind a count, `tan pods were all up on the
knoll` behind a table of classes: where plants, counts or a stage of
the field are told, a word alone, with no place, size, filling or count, describes nobody's plant. Nor do `cots chewed` beside
`V2`. Neither does what is said
of the plants of a table that nobody could read: `No blossoms on any` under it is of all of those, and of no plant 1.
"""

from __future__ import annotations

from notesparse.observing.draft import PlantDraft, VisitDraft
from notesparse.observing.fold import UNREAD, Context
from notesparse.observing.paper.guard import WHY as STRANGE
from notesparse.span import Span

_WHY = "said of no plant"
_SEVERAL = 2  # plants
_OF_A_TABLE = "said of plants that could not be read"


def leave_out(ctx: Context) -> None:
    """Takes such plants out of all visits."""
    for n, visit in enumerate(ctx.visits):
        asked = any(a.visit is visit and a.rule == "4.15" for a in ctx.asks)
        for plant in [p for p in visit.plants if _nobodys(visit, p, asked) or _over_the_named(ctx, visit, p)]:
            _leave_out(ctx, visit, plant, _WHY)
        for plant in [p for p in visit.plants[:1] if _before_the_named(visit, p)]:
            _leave_out(ctx, visit, plant, _WHY)
        if len(visit.plants) == 1 and _of_a_lost_table(ctx, ctx.visits[n - 1] if n else None, visit.plants[0]):
            _leave_out(ctx, visit, visit.plants[0], _OF_A_TABLE)


def _leave_out(ctx: Context, visit: VisitDraft, plant: PlantDraft, why: str) -> None:
    visit.plants.remove(plant)
    said = [span for sighting in plant.sightings for span in sighting.spans]
    for span in [*said, *(entry.span for entries in plant.facts.values() for entry in entries)]:
        ctx.mark_span(span, UNREAD, why)


def _of_a_lost_table(ctx: Context, before: VisitDraft | None, plant: PlantDraft) -> bool:
    """The only plant of a visit, which the note does not name, behind a table of this visit that was not understood."""
    if plant.named or plant.facts or plant.asks or plant.dropped or not plant.sightings:
        return False
    since = 0 if before is None else _end_of(before)
    return any(
        why == STRANGE and since <= ctx.lattice.pieces[i].span.start < plant.span.start for i, why in ctx.why.items()
    )


def _before_the_named(visit: VisitDraft, plant: PlantDraft) -> bool:
    """`No trifs. Plants 1 to 4 in order R2 R2 R1 R2`: of which plant, or that none were counted, is not said."""
    if plant.named or plant.sightings or plant.asks or plant.dropped or set(plant.facts) != {"trifoliates"}:
        return False
    others = visit.plants[1:]
    return plant.facts["trifoliates"][-1].value == 0 and bool(others) and all(p.named for p in others)


def _end_of(visit: VisitDraft) -> int:
    """The last character that something was said in of a visit."""
    told: list[Span] = [e.span for e in visit.head.values() if not e.copied]
    told += [*(p.span for p in visit.plants), *(t.span for t in visit.tallies), *(s.span for s in visit.stated)]
    return max((span.end for span in told), default=0)


def _below_the_stated(visit: VisitDraft, plant: PlantDraft) -> bool:
    """`V2, cots chewed`, `V3. unis cupped`: leaves that every plant of the stage told has, and no plant that is at VE or VC."""
    if plant.named or plant.sightings or plant.asks or plant.dropped or len(plant.facts) != 1:
        return False
    floor = {"emerged": ("VE",), "unifoliates": ("VE", "VC")}.get(next(iter(plant.facts)))
    if floor is None or next(iter(plant.facts.values()))[-1].value not in {True, "unrolled"}:
        return False
    return any(s.letter == "v" and isinstance(s.value, str) and s.value not in floor for s in visit.stated)


def _over_the_named(ctx: Context, visit: VisitDraft, plant: PlantDraft) -> bool:
    """`seed, ripest pod on top four nodes:` over lines of plants A to D: where it was looked for, in words of which one is
    not known."""
    if plant.named or plant.facts or plant.asks or plant.dropped or not plant.sightings:
        return False
    others = [p for p in visit.plants if p is not plant]
    if len(others) < _SEVERAL or not all(p.named and p.span.start > plant.span.end for p in others):
        return False
    if any(s.length or s.fill or s.count_int or s.present is False for s in plant.sightings):
        return False
    lattice = ctx.lattice
    first = lattice.first_from(plant.span.start)
    while first and lattice.pieces[first - 1].form != "nl":
        first -= 1
    for i in range(first, len(lattice.pieces)):
        if lattice.pieces[i].form == "nl":
            break
        if lattice.pieces[i].form == "word" and not lattice.known[i]:
            return True
    return False


def _nobodys(visit: VisitDraft, plant: PlantDraft, asked: bool) -> bool:
    if _below_the_stated(visit, plant):
        return True
    if not plant.named and not plant.sightings and set(plant.facts) == {"mature_pods"} and not plant.asks:
        return any(t.exclusive for t in visit.tallies)
    if plant.named or plant.facts or plant.asks or plant.dropped or not plant.sightings:
        return False
    named = any(p.named for p in visit.plants)
    others = visit.tallies or visit.stated or asked or named
    return bool(others) and all(
        (s.what in {"pods", "seeds"} or s.present is False or bool(visit.tallies))
        and s.present is not None
        and not (
            s.places
            or s.length
            or (s.full_length and not named)
            or s.tiny
            or s.match_head
            or s.count_int
            or s.past
            or s.copied
        )
        for s in plant.sightings
    )
