"""A bare mention of pods or seed that would make a plant of its own: it is of no plant, and is shown unread (guide 1.1).

`velvetleaf over the beans`, `the seed that didn't come was rotted`, `open any pods`, `no pods` behind a count, `tan pods were all up on the
knoll` behind a table of classes: where plants, counts or a stage of
the field are told, a word alone, with no place, size, filling or count, describes nobody's plant.
"""

from __future__ import annotations

from notesparse.observing.draft import PlantDraft, VisitDraft
from notesparse.observing.fold import UNREAD, Context

_WHY = "said of no plant"


def leave_out(ctx: Context) -> None:
    """Takes such plants out of all visits."""
    for visit in ctx.visits:
        asked = any(a.visit is visit and a.rule == "4.15" for a in ctx.asks)
        for plant in [p for p in visit.plants if _nobodys(visit, p, asked)]:
            visit.plants.remove(plant)
            said = [span for sighting in plant.sightings for span in sighting.spans]
            for span in [*said, *(entry.span for entries in plant.facts.values() for entry in entries)]:
                ctx.mark_span(span, UNREAD, _WHY)


def _nobodys(visit: VisitDraft, plant: PlantDraft, asked: bool) -> bool:
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
