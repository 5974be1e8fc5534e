"""Seeds of one plant: where they are, how long, how far they fill the pod (guide 4.13)."""

from __future__ import annotations

from notesparse.observing.draft import PlantDraft, Sighting
from notesparse.observing.fold import Context
from notesparse.observing.settling.places import longest_last, only_low, places
from notesparse.observing.settling.questions import Choices, ask, ask_fill, ask_unusual, asked
from notesparse.observing.settling.settled import Settled
from notesparse.observing.sizes import LONG_SEED, LONGEST_SEED
from notesparse.outcome import Unread

_TOP_NODES = frozenset({"top_n", "top_two", "top_four", "up_top"})
_FULLNESS = {"partial": 1, "almost": 2, "full": 3}


def seeds(ctx: Context, p: PlantDraft, out: Settled, positive: list[Sighting]) -> None:
    """Seeds that were seen."""
    positive = _where_the_stages_look(ctx, positive)
    fullest = max(positive, key=lambda s: _FULLNESS.get(s.fill.value if s.fill else "", 0))
    if fullest.fill is not None and not fullest.places:  # full seed, beans touching at the second node
        alike = (s for s in positive if s.fill is not None and s.fill.value == fullest.fill.value and s.places)
        fullest = next(alike, fullest)
    use = [fullest] if fullest.fill is not None else positive
    if fullest.fill is not None and not fullest.places:
        use = [fullest, *[s for s in positive if s is not fullest and s.places and s.fill is None]]
    out.put("seeds", True, positive[0].span)
    if fullest.fill is not None:
        value = fullest.fill.value
        out.put("seed_fill", "partial" if value == "almost" else value, fullest.fill.span)
        if value == "almost" and not fullest.copied:
            ask_fill(ctx, p, fullest.span.cover(fullest.fill.span))
        else:
            _said_otherwise(ctx, p, out, fullest)
    places(ctx, p, out, "seeds", use)
    for s in sorted(positive, key=longest_last):
        _length(ctx, p, out, s)
    in_pod = next((s for s in positive if s.in_pod), None)
    if in_pod is not None:
        if "pods" not in out.values:
            out.put("pods", True, in_pod.span)
        if "seeds_from_top" in out.values and "pods_from_top" not in out.values:
            out.put("pods_from_top", out.values["seeds_from_top"], out.spans["seeds_from_top"])
    if fullest.fill is not None and "seeds_from_top" in out.values and "pods_from_top" not in out.values:
        _of_the_pods_too(p, out, fullest)
    if "seeds_from_top" not in out.values:
        _where_the_pods_are(ctx, p, out, positive)


def _where_the_stages_look(ctx: Context, positive: list[Sighting]) -> list[Sighting]:
    """`half full in the top four, full down low`: the filling at the top is that of the plant, as with lengths."""
    filled = [s for s in positive if s.fill is not None]
    if not any(s.places and not only_low(s) for s in filled):
        return positive
    for s in filled:
        if only_low(s):
            ctx.unread.append(
                Unread(s.span, s.span.of(ctx.lattice.text), "filled below the nodes that the stages look at")
            )
    return [s for s in positive if not (s.fill is not None and only_low(s))]


def _said_otherwise(ctx: Context, p: PlantDraft, out: Settled, fullest: Sighting) -> None:
    """`pods full, beans not touching`: two fillings, and nothing tells the pods apart (guide 2.3)."""
    told = fullest.fill
    if told is None or fullest.copied:
        return
    others = [
        s for s in p.sightings if s.present and s.fill is not None and s.what in {"pods", "seeds"} and not s.copied
    ]
    other = next((s for s in others if s.fill is not None and s.fill.value != told.value and _doubt(s, fullest)), None)
    if other is None or other.fill is None or asked(ctx, p, "seed_fill"):
        return
    words = told.span.cover(other.fill.span)
    text = f"Plant {p.label} is said to have full pods and pods that are not full. Do the seeds of any of the top four nodes touch?"
    choices: Choices = [("no", {"seed_fill": "partial"}), ("yes", {"seed_fill": "full"})]
    out.put("seed_fill", "partial", words)
    ask(ctx, p, "2.3", words, text, choices, "seed_fill")


def _doubt(other: Sighting, fullest: Sighting) -> bool:
    if other.fill is None or fullest.fill is None or only_low(other):
        return False
    return _FULLNESS[other.fill.value] > _FULLNESS[fullest.fill.value] or _of_the_same(other, fullest)


def _of_the_same(one: Sighting, other: Sighting) -> bool:
    """Whether two sightings may be of the same pods."""
    if only_low(one) or only_low(other):
        return False
    if one.places and other.places:
        return {(x.form, x.numbers) for x in one.places} == {(x.form, x.numbers) for x in other.places}
    then = max(one, other, key=lambda s: s.span.start)
    return not then.places  # half full, full at the third node: that one is


def _of_the_pods_too(p: PlantDraft, out: Settled, fullest: Sighting) -> None:
    """`fat pods, beans tight third node down`: where the seeds are, the pods are (guide 4.12)."""
    pods = [s for s in p.sightings if s.what == "pods" and s.present]
    if fullest.places and pods and all(s.clause == fullest.clause and not s.places and s.length is None for s in pods):
        out.put("pods_from_top", out.values["seeds_from_top"], out.spans["seeds_from_top"])


def _length(ctx: Context, p: PlantDraft, out: Settled, s: Sighting) -> None:
    if s.length is None:
        return
    mm, span = s.length.mm, s.length.span
    mm_high = s.length.high
    if mm_high > LONGEST_SEED:
        ctx.unread.append(Unread(span, span.of(ctx.lattice.text), "longer than a soybean seed"))
        return
    out.put("seed_mm", mm, span)
    if s.length.inches:
        out.inches.add("seed_mm")
    if s.length.bare == "fraction":
        ctx.assume("4.6", span, "a bare fraction is inches")
    if mm_high > LONG_SEED:
        ask_unusual(ctx, p, span, f"A seed of {mm_high:g} mm on plant {p.label}", "seed_mm", mm)


def _where_the_pods_are(ctx: Context, p: PlantDraft, out: Settled, positive: list[Sighting]) -> None:
    """Seed with no place is where the pods are said to be."""
    pods = next((s for s in p.sightings if s.what == "pods" and s.present and s.places), None)
    where = out.values.get("pods_from_top")
    if pods is not None and isinstance(where, tuple) and where and not _looked_for(pods):
        out.put("seeds_from_top", where, pods.span.cover(positive[-1].span))
    else:
        ctx.assume("4.12", positive[0].span, "seed with no place named is taken to be in a pod on the top four nodes")


def _looked_for(pods: Sighting) -> bool:
    """`longest on the 4 top nodes` over a column of pods: where the longest was looked for, and not where the seed was."""
    place = pods.places[0]
    return place.form in _TOP_NODES and not pods.span.start <= place.span.start < pods.span.end
