"""A share that nobody could read, in the sentence of what the share has: no plant is made of it (guide 1.1, 4.16).

`two thirds of the 30 in bloom`, `a couple in bloom out of 20`, `no. in bloom of 25 = 14`: with the number lost, what is
left would be a plant in bloom. It is kept as a share of an unknown number of plants, which is asked.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.draft import PlantDraft, Sighting, TallyDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, UNREAD, Context
from notesparse.span import Span

_LISTED = cue_page("observing/uncounted")

ENDS = frozenset({".", ";", "!", "?"})
DENIED = _LISTED.words("denied")
_PARTS = frozenset({"HALF", "LESSHALF", "MOST", "PCT"})
_STAGES = {"flowers": "R1", "pods": "R3", "seeds": "R5"}
_WHY = "how many of them is not said"


def leave_out(ctx: Context) -> None:
    """Takes what such a sentence says from the plant that it was given to."""
    for visit in ctx.visits:
        for plant in list(visit.plants):
            for s in [s for s in plant.sightings if not s.copied and _of_a_share(ctx, plant, s)]:
                _take_out(ctx, visit, plant, s)
            if not plant.named and plant.empty and not any(a.plant is plant for a in ctx.asks):
                visit.plants.remove(plant)


def _of_a_share(ctx: Context, plant: PlantDraft, s: Sighting) -> bool:
    """Whether its sentence says of how many, and nothing else of the plant."""
    pieces = ctx.lattice.pieces
    at = ctx.lattice.first_from(s.span.start)
    first, last = around(ctx, at, ENDS)
    sentence = Span(pieces[first].span.start, pieces[last - 1].span.end)
    own = [e.span.start for es in plant.facts.values() for e in es] + [plant.span.start] * plant.named
    if any(sentence.start <= here < sentence.end for here in own):
        return False
    if any(ctx.lattice.at(i) in DENIED for i in range(first, at)):
        return False  # not one of the six was without flowers: asked where the denial is
    last_said = ctx.lattice.first_from(s.span.end) - 1

    def beside(i: int) -> bool:
        """Nothing else is told between the two."""
        return all(ctx.use[x] != EVIDENCE for x in (range(i, at) if i < at else range(last_said + 1, i)))

    if any(_of_so_many(ctx, i) and beside(i) for i in range(first, last)):
        return True
    return any(_a_part(ctx, i) and beside(i) for i in range(*around(ctx, at, ENDS | {","})))


def around(ctx: Context, at: int, ends: frozenset[str]) -> tuple[int, int]:
    """The pieces around one, as far as the marks that end what it stands in, or as talk without stops is listened to.
    The dot of `no.` ends nothing."""
    pieces = ctx.lattice.pieces

    def over(i: int) -> bool:
        shortened = pieces[i].text == "." and ctx.lattice.at(i - 1) in {"no", "nos", "approx"}
        return pieces[i].form == "nl" or (pieces[i].text in ends and not shortened)

    first = last = at
    while first and at - first < _AS_FAR and not over(first - 1):
        first -= 1
    while last < len(pieces) and last - at < _AS_FAR and not over(last):
        last += 1
    return first, last


_AS_FAR = 100  # pieces, to either side


def _of_so_many(ctx: Context, i: int) -> bool:
    """Unread `out of 20`, `of 25`, `every plant`."""
    if ctx.use[i] == EVIDENCE:
        return False
    edges = [e for e in ctx.lattice.edges[i] if e.how in {"exact", "number"}]
    behind = {e.end for e in edges if e.kind in {"OF", "OUTOF"} and e.end < len(ctx.use)}
    behind |= {x + 1 for x in behind if ctx.lattice.at(x) == "the"}
    behind = {x for x in behind if ctx.lattice.at(x - 1) != "every"}  # top two nodes of every one: of them all
    counts = [e for x in behind if x < len(ctx.use) for e in ctx.lattice.edges[x] if e.kind == "INT"]
    number = any(not _sized(ctx, e.end) for e in counts)
    return number or any(e.kind == "EVERYPLANT" for e in edges)


def _sized(ctx: Context, i: int) -> bool:
    """`seed of 3 mm`: a unit of length stands behind the number."""
    return i < len(ctx.use) and any(e.kind in {"MM", "CM", "INCH"} for e in ctx.lattice.edges[i])


def _a_part(ctx: Context, i: int) -> bool:
    """Unread `two thirds of`, `most`, `60 percent`."""
    if ctx.use[i] == EVIDENCE:
        return False
    edges = [e for e in ctx.lattice.edges[i] if e.how in {"exact", "number"}]
    return any(e.kind in _PARTS or (e.kind == "FRAC" and ctx.lattice.at(e.end) == "of") for e in edges)


def _take_out(ctx: Context, visit: VisitDraft, plant: PlantDraft, s: Sighting) -> None:
    plant.sightings.remove(s)
    if s.present:
        visit.tallies.append(TallyDraft(_STAGES[s.what], None, None, None, s.span, lots=True))
        return
    for span in s.spans:
        ctx.mark_span(span, UNREAD, _WHY)
