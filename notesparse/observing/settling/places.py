"""Places on the main stem, counted in nodes from the top (guide 4.10)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.draft import Place, PlantDraft, Sighting
from notesparse.observing.fold import Context
from notesparse.observing.settling.questions import Choices, ask, visit_of
from notesparse.observing.settling.settled import Settled
from notesparse.span import Span, cover_all

_LISTED = cue_page("settling/places")

Ranks = tuple[int, ...] | str | None
WINDOW = {"flowers": 2, "pods": 4, "seeds": 4}  # how many of the top nodes the stages look at
FROM_THE_TOP = frozenset({"ord_down", "num_down", "fig_down"})  # places told by one number, from the top
_FIXED: dict[str, Ranks] = {
    "top_two": (1, 2),
    "top_four": (1, 2, 3, 4),
    "top_1": (1,),
    "all_up": (1,),
    "below_top": (2,),
    "lower": "lower",
    "mid_plant": "lower",
}


def places(ctx: Context, p: PlantDraft, out: Settled, what: str, seen: list[Sighting]) -> None:
    """Where on the plant something was seen."""
    key = f"{what}_from_top"
    found: list[int] = []
    lower = False
    spans: list[Span] = []
    for s in seen:
        for place in s.places:
            if place.form in {"main_stem", "branch"}:
                continue
            r = _same_spot(ctx, p, what, place) if place.form == "same_spot" else _ranks(ctx, p, out, what, place)
            if r == "lower":
                lower = True
                spans.append(place.span)
            elif isinstance(r, tuple):
                found += [x for x in r if x not in found]
                spans.append(place.span)
    if found:
        out.put(key, tuple(sorted(found)), cover_all(spans))
    elif lower:
        out.put(key, "lower", cover_all(spans))


def only_low(s: Sighting) -> bool:
    """Said of the lower nodes alone."""
    return bool(s.places) and all(x.form == "lower" for x in s.places)


def longest_last(s: Sighting) -> tuple[bool, float]:
    """Of several lengths the longest is recorded, of those on the nodes that the stages look at."""
    return not _below(s), s.length.high if s.length is not None else -1.0


def _below(s: Sighting) -> bool:
    """Only where the stages do not look."""
    far = (
        x.form == "lower" or (x.form in FROM_THE_TOP and min(x.numbers, default=0) > WINDOW[s.what]) for x in s.places
    )
    return bool(s.places) and all(far)


def _same_spot(ctx: Context, p: PlantDraft, what: str, same: Place) -> Ranks:
    """`at that same node`: where something was seen on this plant before; else, or `same place as five`, on another.
    A plant that is like the one of which it was said has it where that one has it, whatever was told in between."""
    visit = visit_of(ctx, p)
    if visit is None:
        return None
    named = {str(n) for n in same.numbers}
    own = [] if named else [p]
    for q in [*own, *reversed(visit.plants[: visit.plants.index(p)])]:
        if named and q.label not in named:
            continue
        latest = q.sightings[::-1]
        for s in sorted(latest, key=lambda s: q is not p and s.what != what):
            for place in s.places:
                if place.form != "same_spot" and (named or place.span.start < same.span.start):
                    return _ranks(ctx, q, Settled(), what, place)
    return None


_BY_NUMBER = frozenset(
    {"at_n", "node_n", "nodes_nn", "ord_node"}
)  # which end they count from is told by the page, if it says so


def _ranks(ctx: Context, p: PlantDraft, out: Settled, what: str, place: Place) -> Ranks:
    """Nodes from the top; `lower`; None where that cannot be told (a question, if it matters, is asked)."""
    f, nums = place.form, place.numbers
    if f == "lower" and what != "flowers" and _TWO.intersection(place.span.of(ctx.lattice.text).lower().split()):
        _ask_below_two(ctx, p, what, place)
        return "lower"
    if f in _FIXED:
        return _FIXED[f]
    if f == "top_n":
        return tuple(range(1, min(nums[0], 12) + 1)) if nums and nums[0] >= 1 else None
    if f in FROM_THE_TOP:
        return (nums[0],) if nums else None
    if f == "num_below":
        return (nums[0] + 1,) if nums else None  # two below the top node
    if f in {"ords_down", "nums_down", "thru_down"}:
        return tuple(sorted(set(nums)))
    if f in {"up_top", "bare_top"}:
        words = f"“{place.span.of(ctx.lattice.text)}” is taken to be within the nodes that the stage looks at"
        ctx.assume("4.10", place.span, words)
        return tuple(range(1, WINDOW[what] + 1))
    if f == "ord_up":
        return _counted_up(ctx, out, place)
    if f == "thru_up":
        n = _nodes(out)
        return tuple(sorted(n - x + 1 for x in nums)) if n is not None and all(x <= n for x in nums) else "lower"
    if f in _BY_NUMBER and ctx.at_node == "down":
        return tuple(sorted(set(nums)))
    if f in _BY_NUMBER and ctx.at_node == "up":
        n = _nodes(out)
        return tuple(sorted({n - x + 1 for x in nums})) if n is not None and all(x <= n for x in nums) else "lower"
    if f in {"node_n", "no_n", "ord_node", "nodes_nn", "nodes_thru", "at_n"}:
        return _from_bottom(ctx, p, out, what, place)
    if f == "near_top":
        _ask_near_top(ctx, p, what, place)
    return None


def _nodes(out: Settled) -> int | None:
    n = out.values.get("nodes")
    return int(n) if isinstance(n, int) else None


def _counted_up(ctx: Context, out: Settled, place: Place) -> Ranks:
    """The third node up."""
    n, nums = _nodes(out), place.numbers
    if n is None or not nums or nums[0] > n:
        return "lower"
    if "nodes" in out.derived:
        ctx.assume(
            "4.10",
            place.span,
            "counted up from the unifoliate node; the node count is derived from the trifoliates",
        )
    return (n - nums[0] + 1,)


def _ask_near_top(ctx: Context, p: PlantDraft, what: str, place: Place) -> None:
    window, key = WINDOW[what], f"{what}_from_top"
    ask(
        ctx,
        p,
        "4.10",
        place.span,
        f"Are the {what} of plant {p.label} within the top {'two' if window == 2 else 'four'} nodes?",
        [
            ("below them", {key: tuple(range(window + 1, window + 3))}),
            ("within them", {key: tuple(range(1, window + 1))}),
        ],
        key,
    )


_TWO = _LISTED.words("two")


def _ask_below_two(ctx: Context, p: PlantDraft, what: str, place: Place) -> None:
    """`pods below the top two nodes`: on the third or the fourth they count, further down they do not."""
    key = f"{what}_from_top"
    text = f"Are any {what} of plant {p.label} on the third or the fourth node from the top?"
    ask(ctx, p, "4.10", place.span, text, [("below them", {key: "lower"}), ("on one of them", {key: (3, 4)})], key)


def _from_bottom(ctx: Context, p: PlantDraft, out: Settled, what: str, place: Place) -> Ranks:
    """Node 9: counted from the bottom, from the top, or the same to the stage."""
    n, window, nums, key = _nodes(out), WINDOW[what], place.numbers, f"{what}_from_top"
    if not nums:
        return None
    top = tuple(sorted(nums))
    if n is None or max(nums) > n:
        if n is None and all(x > window for x in nums) and isinstance(out.values.get("stated_r"), str):
            return None
        text = f"Node {nums[0]} of plant {p.label}: counted from the top or from the bottom?"
        choices: Choices = [("from the bottom", {key: "lower"}), ("from the top", {key: top})]
        ask(ctx, p, "4.10", place.span, text, choices, key, always=n is None and what == "flowers")
        return "lower" if n is None and what != "flowers" and all(x > window for x in nums) else None
    bottom = tuple(sorted(n - x + 1 for x in nums))
    inside = any(r <= window for r in bottom)
    if inside == any(r <= window for r in top):
        ctx.assume(
            "4.10",
            place.span,
            f"node {nums[0]} is counted from the bottom (the unifoliate node being the first); "
            "the stage is the same either way",
        )
        return bottom
    ask(
        ctx,
        p,
        "4.10",
        _with_head(p, place),
        f"Node {nums[0]} of plant {p.label}: counted from the bottom or from the top?",
        [
            (f"from the bottom: {bottom[0]} from the top", {key: bottom}),
            (f"from the top: {top[0]} down", {key: top}),
        ],
        key,
        taken=1 if inside else 0,
    )
    return top if inside else bottom


def _with_head(p: PlantDraft, place: Place) -> Span:
    for s in p.sightings:
        if place in s.places:
            return s.spans[0].cover(place.span)
    return place.span
