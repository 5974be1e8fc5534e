"""What was seen of one plant, to facts: places counted from the top, sizes, what is assumed, what contradicts itself."""

from __future__ import annotations

from typing import Any

from notesparse.facts import PlantFacts
from notesparse.observing.draft import Ask, Entry, Place, PlantDraft, Sighting, merged
from notesparse.observing.fold import Context
from notesparse.outcome import Unread
from notesparse.span import Span, cover_all

Ranks = tuple[int, ...] | str | None
_WINDOW = {"flowers": 2, "pods": 4, "seeds": 4}
_SMALL = (0.0, 4.7)  # "match head": below 3/16 in (guide 4.12)
COUNT_OF_PODS = 12  # a bare whole number up to this may be a count of pods (common practice, no source)
_FULLNESS = {"partial": 1, "almost": 2, "full": 3}


class Settled:
    """The facts of one plant with their words."""

    def __init__(self) -> None:
        self.values: dict[str, Any] = {}
        self.spans: dict[str, Span] = {}
        self.derived: list[str] = []
        self.inches: set[str] = set()

    def put(self, key: str, value: Any, span: Span, derived: bool = False) -> None:
        self.values[key] = value
        self.spans[key] = span
        if derived and key not in self.derived:
            self.derived.append(key)

    def facts(self) -> PlantFacts:
        return PlantFacts(**self.values, inch_lengths=frozenset(self.inches))


def settle(ctx: Context, p: PlantDraft) -> Settled:
    """All facts of a plant. Questions go to `ctx`."""
    out = Settled()
    for key, entries in p.facts.items():
        own = [e for e in entries if not e.copied]
        use = own or entries
        if not use:
            continue
        e = use[0]
        if len(use) > 1 and _clash(use):
            _ask_clash(ctx, p, key, use)
        if len(use) > 1 and not _clash(use):
            e = use[0]
        out.put(key, e.value, e.span)
    percent = out.values.get("mature_pods_percent")
    if percent is not None and "mature_pods" in out.values and out.values["mature_pods"] == "one":
        del out.values["mature_pods"]
        out.spans.pop("mature_pods", None)
    _counts(ctx, p, out)
    for what in ("flowers", "pods", "seeds"):
        seen = merged(p, what)
        if seen:
            _organ(ctx, p, out, what, seen)
    _contradiction(ctx, p, out)
    return out


def _clash(entries: list[Entry]) -> bool:
    return any(e.value != entries[0].value for e in entries[1:])


def _ask_clash(ctx: Context, p: PlantDraft, key: str, entries: list[Entry]) -> None:
    if key.startswith("stated"):
        whole = cover_all(e.span for e in entries)
    else:
        whole = entries[-1].span
    if any(a.plant is p and a.key == key for a in ctx.asks):
        return
    values = []
    for e in entries:
        if e.value not in values:
            values.append(e.value)
    word = key.replace("_", " ")
    ctx.ask(
        Ask(
            "4.7",
            whole,
            f"Plant {p.label} has two values of {word}: {' and '.join(_say(v) for v in values)}. Which is right?",
            [(_say(v), {key: v}) for v in values],
            p,
            0,
            key,
            always=True,
            visit=_visit_of(ctx, p),
        )
    )


def _say(value: Any) -> str:
    if value is True:
        return "yes"
    if value is False:
        return "no"
    if isinstance(value, tuple):
        return " to ".join(str(v) for v in value)
    return str(value)


def _visit_of(ctx: Context, p: PlantDraft) -> Any:
    return next((v for v in ctx.visits if p in v.plants), None)


def _counts(ctx: Context, p: PlantDraft, out: Settled) -> None:
    t, n = out.values.get("trifoliates"), out.values.get("nodes")
    if t is not None and n is None:
        out.put("nodes", t + 1, out.spans["trifoliates"], derived=True)
    elif n is not None and t is None and n >= 1:
        out.put("trifoliates", n - 1, out.spans["nodes"], derived=True)
        ctx.assume(
            "4.9", out.spans["nodes"], "nodes are counted from the unifoliate node: one trifoliate less than nodes"
        )


def _top_negative(s: Sighting) -> bool:
    return s.present is False and any(
        x.form in {"up_top", "top_n", "top_two", "top_four", "top_1", "near_top", "bare_top", "all_up"}
        for x in s.places
    )


def _organ(ctx: Context, p: PlantDraft, out: Settled, what: str, seen: list[Sighting]) -> None:
    for s in seen:
        if s.branch:
            ctx.unread.append(Unread(s.span, s.span.of(ctx.lattice.text), "on branches only: no evidence for a stage"))
    seen = [s for s in seen if not s.branch]
    positive = [s for s in seen if s.present]
    above = [s for s in seen if _top_negative(s)]
    below_only = [
        s for s in seen if s.present is False and not _top_negative(s) and any(x.form == "lower" for x in s.places)
    ]
    negative = [s for s in seen if s.present is False and not _top_negative(s) and s not in below_only]
    for s in negative:
        if s.sound_no is not None:
            _ask_sound(ctx, p, what, s)
    if positive and negative:
        own_group = [s for s in negative if s.group] and [s for s in positive if not s.group]
        whole = seen[0].span.cover(seen[-1].span)
        if not any(a.plant is p and a.key == what for a in ctx.asks):
            ctx.ask(
                Ask(
                    "5.6",
                    whole,
                    f"Plant {p.label} is said to have {what} and to have none. Which is right?",
                    [("as first said", {what: seen[0].present}), ("the other", {what: not seen[0].present})],
                    p,
                    0,
                    what,
                    always=True,
                    visit=_visit_of(ctx, p),
                )
            )
        del own_group
        out.put(what, seen[0].present, whole)
        if not seen[0].present:
            return
    if positive:
        out.put(what, True, positive[0].span)
        if what == "seeds":
            _seeds(ctx, p, out, positive)
        elif what == "pods":
            _pods(ctx, p, out, positive, bool(above))
        else:
            _places(ctx, p, out, what, positive)
        if above:
            key = f"{what}_from_top"
            ranks = out.values.get(key)
            if (
                ranks is None
                or ranks == "lower"
                or (isinstance(ranks, tuple) and all(r > _WINDOW[what] for r in ranks))
            ):
                out.put(key, "lower", above[0].span.cover(positive[-1].span))
    elif above and not negative:
        if above[0].sound_no is not None:
            _ask_sound(ctx, p, what, above[0])
        out.put(f"{what}_from_top", (), above[0].span)
    elif negative:
        out.put(what, False, negative[0].span)
        if negative[0].past:
            ctx.assume("4.11", negative[0].span, "past bloom says nothing against later stages")


def _ask_sound(ctx: Context, p: PlantDraft, what: str, s: Sighting) -> None:
    span = s.sound_no or s.span
    ctx.ask(
        Ask(
            "4.4",
            span,
            f"“{span.of(ctx.lattice.text)}”: has plant {p.label} no {what}, or {what} now?",
            [
                (f"no {what}", {what: False}),
                (f"{what} now", {what: True} if not s.places else {what: True, f"{what}_from_top": (1, 2)}),
            ],
            p,
            0,
            what,
            visit=_visit_of(ctx, p),
        )
    )


# places ------------------------------------------------------------------------------------------------------------------


def _nodes(out: Settled) -> int | None:
    n = out.values.get("nodes")
    return int(n) if isinstance(n, int) else None


def ranks(ctx: Context, p: PlantDraft, out: Settled, what: str, place: Place) -> Ranks:
    """Nodes from the top; `lower`; None where that cannot be told (a question, if it matters, is asked)."""
    f, nums = place.form, place.numbers
    window = _WINDOW[what]
    if f == "top_n":
        return tuple(range(1, min(nums[0], 12) + 1)) if nums and nums[0] >= 1 else None
    if f == "top_two":
        return (1, 2)
    if f == "top_four":
        return (1, 2, 3, 4)
    if f in {"top_1", "all_up"}:
        return (1,)
    if f == "below_top":
        return (2,)
    if f in {"ord_down", "num_down"}:
        return (nums[0],) if nums else None
    if f in {"ords_down", "nums_down"}:
        return tuple(sorted(set(nums)))
    if f == "lower":
        return "lower"
    if f in {"up_top", "bare_top"}:
        ctx.assume(
            "4.10",
            place.span,
            f"“{place.span.of(ctx.lattice.text)}” is taken to be within the nodes that the stage looks at",
        )
        return tuple(range(1, window + 1))
    if f == "ord_up":
        n = _nodes(out)
        if n is None or not nums or nums[0] > n:
            return "lower"
        if "nodes" in out.derived:
            ctx.assume(
                "4.10",
                place.span,
                "counted up from the unifoliate node; the node count is derived from the trifoliates",
            )
        return (n - nums[0] + 1,)
    if f == "at_n" and ctx.at_node == "down":
        return tuple(sorted(set(nums)))
    if f == "at_n" and ctx.at_node == "up":
        n = _nodes(out)
        return tuple(sorted({n - x + 1 for x in nums})) if n is not None and all(x <= n for x in nums) else "lower"
    if f in {"node_n", "no_n", "ord_node", "nodes_nn", "at_n"}:
        return _from_bottom(ctx, p, out, what, place)
    if f in {"near_top", "mid_plant"}:
        if f == "near_top":
            low = tuple(range(window + 1, window + 3))
            key = f"{what}_from_top"
            ctx.ask(
                Ask(
                    "4.10",
                    place.span,
                    f"Are the {what} of plant {p.label} within the top {'two' if window == 2 else 'four'} nodes?",
                    [("below them", {key: low}), ("within them", {key: tuple(range(1, window + 1))})],
                    p,
                    0,
                    key,
                    visit=_visit_of(ctx, p),
                )
            )
            return None
        return "lower"
    return None


def _from_bottom(ctx: Context, p: PlantDraft, out: Settled, what: str, place: Place) -> Ranks:
    n = _nodes(out)
    window = _WINDOW[what]
    key = f"{what}_from_top"
    nums = place.numbers
    if not nums:
        return None
    top = tuple(sorted(nums))
    if n is None or max(nums) > n:
        if n is None and all(x > window for x in nums) and _stated_fits(out, what):
            return None
        ctx.ask(
            Ask(
                "4.10",
                place.span,
                f"Node {nums[0]} of plant {p.label}: counted from the top or from the bottom?",
                [("from the bottom", {key: "lower"}), ("from the top", {key: top})],
                p,
                0,
                key,
                visit=_visit_of(ctx, p),
            )
        )
        return None
    bottom = tuple(sorted(n - x + 1 for x in nums))

    def inside(ranks_: tuple[int, ...]) -> bool:
        return any(r <= window for r in ranks_)

    if inside(bottom) == inside(top):
        ctx.assume(
            "4.10",
            place.span,
            f"node {nums[0]} is counted from the bottom (the unifoliate node being the first); the stage is the same either way",
        )
        return bottom
    choices = [
        (f"from the bottom: {bottom[0]} from the top", {key: bottom}),
        (f"from the top: {top[0]} down", {key: top}),
    ]
    taken = 0 if not inside(bottom) else 1
    ctx.ask(
        Ask(
            "4.10",
            _with_head(p, place),
            f"Node {nums[0]} of plant {p.label}: counted from the bottom or from the top?",
            choices,
            p,
            taken,
            key,
            visit=_visit_of(ctx, p),
        )
    )
    return bottom if taken == 0 else top


def _with_head(p: PlantDraft, place: Place) -> Span:
    for s in p.sightings:
        if place in s.places:
            return s.spans[0].cover(place.span)
    return place.span


def _stated_fits(out: Settled, what: str) -> bool:
    stated = out.values.get("stated_r")
    return isinstance(stated, str)


def _places(ctx: Context, p: PlantDraft, out: Settled, what: str, seen: list[Sighting]) -> None:
    key = f"{what}_from_top"
    found: list[int] = []
    lower = False
    spans: list[Span] = []
    for s in seen:
        for place in s.places:
            if place.form in {"main_stem", "branch"}:
                continue
            if place.form == "same_spot":
                r = _same_spot(ctx, p, what)
            else:
                r = ranks(ctx, p, out, what, place)
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
    elif any(s.copied and s.places for s in seen):
        pass


def _same_spot(ctx: Context, p: PlantDraft, what: str) -> Ranks:
    visit = _visit_of(ctx, p)
    if visit is None:
        return None
    for q in reversed(visit.plants[: visit.plants.index(p)]):
        for s in reversed(q.sightings):
            for place in s.places:
                if place.form != "same_spot":
                    return ranks(ctx, q, Settled(), what, place)
    return None


# sizes -------------------------------------------------------------------------------------------------------------------


def _pods(ctx: Context, p: PlantDraft, out: Settled, positive: list[Sighting], above: bool) -> None:
    low = [s for s in positive if any(x.form == "lower" for x in s.places)]
    top = [s for s in positive if s not in low]
    use = top if top and low else positive
    out.put("pods", True, use[0].span)
    _places(ctx, p, out, "pods", use)
    sized = False
    for s in use:
        if s.count_int is not None and s.length is None:
            sized = True
            _bare_whole(ctx, p, out, s)
        if s.length is not None:
            sized = True
            _pod_length(ctx, p, out, s)
        if s.full_length is not None:
            sized = True
            if s.full_length.value == "almost":
                ctx.ask(
                    Ask(
                        "4.12",
                        s.full_length.span,
                        f"Are the pods of plant {p.label} full length (3/4 in)?",
                        [("not yet", {"pods_full_length": False}), ("yes", {"pods_full_length": True})],
                        p,
                        0,
                        "pods_full_length",
                        visit=_visit_of(ctx, p),
                    )
                )
                out.put("pods_full_length", False, s.full_length.span)
            else:
                out.put("pods_full_length", s.full_length.value, s.full_length.span)
        if s.match_head is not None:
            sized = True
            out.put("pod_mm", _SMALL, s.match_head)
        if s.tiny is not None and s.length is None:
            sized = True
            out.put("pod_mm", _SMALL, s.tiny)
            ctx.ask(
                Ask(
                    "4.12",
                    s.tiny,
                    f"Is any of the small pods of plant {p.label} 3/16 in (5 mm) long or longer?",
                    [("no, all under 3/16 in", {"pod_mm": _SMALL}), ("yes", {"pod_mm": 5.0})],
                    p,
                    0,
                    "pod_mm",
                    visit=_visit_of(ctx, p),
                )
            )
        if s.fill is not None and s.with_pods:
            value = "partial" if s.fill.value == "almost" else s.fill.value
            out.put("seeds", True, s.span)
            out.put("seed_fill", value, s.fill.span)
            sized = True
            if s.fill.value == "almost":
                _ask_fill(ctx, p, s.fill.span)
            if "pods_from_top" in out.values:
                out.put("seeds_from_top", out.values["pods_from_top"], out.spans["pods_from_top"])
    places = out.values.get("pods_from_top")
    if places is None and not above:
        ctx.assume("4.12", use[0].span, "pods with no place named are taken to be on the top four nodes")
    if not sized and places != "lower":
        ctx.assume("4.12", use[0].span, "pods with no size are taken to be at least 3/16 in long")


def _bare_whole(ctx: Context, p: PlantDraft, out: Settled, s: Sighting) -> None:
    length = s.count_int
    if length is None:
        return
    n = length.mm[1] if isinstance(length.mm, tuple) else length.mm
    if n < 3:
        mm = n * 25.4
        out.put("pod_mm", mm, length.span)
        out.inches.add("pod_mm")
        ctx.assume("4.6", length.span, "a bare number below 3 is a length in inches")
        return
    if n > 70:
        ctx.unread.append(Unread(length.span, length.span.of(ctx.lattice.text), "no length of a pod"))
        return
    out.put("pod_mm", length.mm, length.span)
    if n <= COUNT_OF_PODS:
        ctx.ask(
            Ask(
                "4.6",
                length.span,
                f"Pods “{n:g}” on plant {p.label}: millimetres, or a number of pods?",
                [
                    (f"{n:g} mm long", {"pod_mm": length.mm}),
                    (f"{n:g} pods, no length", {"pod_mm": None}),
                    (f"{n:g} sixteenths of an inch", {"pod_mm": round(n * 25.4 / 16, 3)}),
                ],
                p,
                0,
                "pod_mm",
                visit=_visit_of(ctx, p),
            )
        )
    else:
        ctx.assume("4.6", length.span, "a bare pod length from 3 up is in millimetres")


def _pod_length(ctx: Context, p: PlantDraft, out: Settled, s: Sighting) -> None:
    length = s.length
    if length is None:
        return
    if length.count is not None:
        three, one = 6.35, 19.05
        out.put("pod_mm", three, s.spans[0].cover(length.span))
        out.inches.add("pod_mm")
        ctx.ask(
            Ask(
                "4.6",
                s.spans[0].cover(length.span),
                f"Plant {p.label}: pods of three quarters of an inch, or three pods of a quarter inch?",
                [("three pods of 1/4 in", {"pod_mm": three}), ("pods of 3/4 in", {"pod_mm": one})],
                p,
                0,
                "pod_mm",
                visit=_visit_of(ctx, p),
            )
        )
        return
    if length.under is not None:
        ctx.ask(
            Ask(
                "4.3",
                length.span,
                f"“{length.span.of(ctx.lattice.text)}”: is the longest pod of plant {p.label} shorter than that, or as long?",
                [("shorter", {"pod_mm": length.mm}), ("as long", {"pod_mm": length.under})],
                p,
                0,
                "pod_mm",
                visit=_visit_of(ctx, p),
            )
        )
    if length.bare == "fraction":
        ctx.assume("4.6", length.span, "a bare fraction is inches")
    high = length.mm[1] if isinstance(length.mm, tuple) else length.mm
    out.put("pod_mm", length.mm, length.span)
    if length.inches:
        out.inches.add("pod_mm")
    if length.bare == "whole" and high <= COUNT_OF_PODS:
        ctx.ask(
            Ask(
                "4.6",
                length.span,
                f"Is “{length.span.of(ctx.lattice.text)}” of plant {p.label} millimetres?",
                [(f"{high:g} mm", {"pod_mm": length.mm}), ("no length", {"pod_mm": None})],
                p,
                0,
                "pod_mm",
                visit=_visit_of(ctx, p),
            )
        )
    if high > 70:
        ctx.ask(
            Ask(
                "8",
                length.span,
                f"A pod of {high:g} mm on plant {p.label} is unusually long: is that right?",
                [("yes", {"pod_mm": length.mm}), ("not known", {"pod_mm": None})],
                p,
                0,
                "pod_mm",
                always=True,
                visit=_visit_of(ctx, p),
            )
        )


def _ask_fill(ctx: Context, p: PlantDraft, span: Span) -> None:
    ctx.ask(
        Ask(
            "4.13",
            span,
            f"Do the seeds of plant {p.label} touch (fill the pod cavity)?",
            [("not quite", {"seed_fill": "partial"}), ("yes", {"seed_fill": "full"})],
            p,
            0,
            "seed_fill",
            visit=_visit_of(ctx, p),
        )
    )


def _seeds(ctx: Context, p: PlantDraft, out: Settled, positive: list[Sighting]) -> None:
    fullest = max(positive, key=lambda s: _FULLNESS.get(s.fill.value if s.fill else "", 0))
    use = [fullest] if fullest.fill is not None else positive
    if fullest.fill is not None and not fullest.places:
        use = [fullest, *[s for s in positive if s is not fullest and s.places and s.fill is None]]
    out.put("seeds", True, positive[0].span)
    if fullest.fill is not None:
        value = fullest.fill.value
        out.put("seed_fill", "partial" if value == "almost" else value, fullest.fill.span)
        if value == "almost" and not fullest.copied:
            _ask_fill(ctx, p, fullest.span.cover(fullest.fill.span))
    _places(ctx, p, out, "seeds", use)
    for s in positive:
        if s.length is not None:
            high = s.length.mm[1] if isinstance(s.length.mm, tuple) else s.length.mm
            if high > 20:
                ctx.unread.append(
                    Unread(s.length.span, s.length.span.of(ctx.lattice.text), "longer than a soybean seed")
                )
                continue
            out.put("seed_mm", s.length.mm, s.length.span)
            if s.length.inches:
                out.inches.add("seed_mm")
            if s.length.bare == "fraction":
                ctx.assume("4.6", s.length.span, "a bare fraction is inches")
            if high > 12:
                ctx.ask(
                    Ask(
                        "8",
                        s.length.span,
                        f"A seed of {high:g} mm on plant {p.label} is unusually long: is that right?",
                        [("yes", {"seed_mm": s.length.mm}), ("not known", {"seed_mm": None})],
                        p,
                        0,
                        "seed_mm",
                        always=True,
                        visit=_visit_of(ctx, p),
                    )
                )
    if any(s.in_pod for s in positive):
        if "pods" not in out.values:
            out.put("pods", True, next(s for s in positive if s.in_pod).span)
        if "seeds_from_top" in out.values and "pods_from_top" not in out.values:
            out.put("pods_from_top", out.values["seeds_from_top"], out.spans["seeds_from_top"])
    if "seeds_from_top" not in out.values:
        pods = next((s for s in p.sightings if s.what == "pods" and s.present and s.places), None)
        if pods is not None and isinstance(out.values.get("pods_from_top"), tuple) and out.values["pods_from_top"]:
            out.put("seeds_from_top", out.values["pods_from_top"], pods.span.cover(positive[-1].span))
        else:
            ctx.assume(
                "4.12", positive[0].span, "seed with no place named is taken to be in a pod on the top four nodes"
            )


def _contradiction(ctx: Context, p: PlantDraft, out: Settled) -> None:
    """Seed but no pods (guide 5.6)."""
    if out.values.get("seeds") is True and out.values.get("pods") is False:
        whole = out.spans["seeds"].cover(out.spans["pods"])
        ctx.ask(
            Ask(
                "5.6",
                whole,
                f"Plant {p.label} is said to have seed but no pods. Which is right?",
                [
                    ("not known", {}),
                    ("it has pods", {"pods": True}),
                    ("it has no seed", {"seeds": False, "seed_mm": None, "seed_fill": None, "seeds_from_top": None}),
                ],
                p,
                0,
                "pods",
                always=True,
                visit=_visit_of(ctx, p),
            )
        )
