"""Flowers, pods and seeds with their places, lengths, filling and colour (guide 4.10 to 4.14)."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from notesparse.language.cues import cue_page
from notesparse.lazy import pattern
from notesparse.observing.draft import Ask, Entry, Length, Place, PlantDraft, Sighting, TallyDraft
from notesparse.observing.fold import EVIDENCE, Context, edges_of, numbers_of
from notesparse.observing.leaves import put
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("observing/organs")
_COMMON = cue_page("shared")

_FEWEST_COUNTED, _MOST_COUNTED = 5, 300  # pods counted on a plant
_POD_WORD = pattern(r"\b(pods?|pds?)\b")
UNDER = 0.1  # mm by which "just shy of 3/4" is taken to be shorter, so that it does not reach the limit
MM = Fraction(254, 10)
_UNIT = {"INCH": MM, "MM": Fraction(1), "MILSOUND": Fraction(1), "CM": Fraction(10), "FOOT": MM * 12}


def look(ctx: Context, what: str, present: bool | None, span: Span) -> list[Sighting]:
    """A new sighting on each current plant; places and lengths that came before it are its own."""
    group = ctx.group is not None
    if (
        not ctx.explicit
        and ctx.plants
        and not ctx.form
        and ctx.line != ctx.plants[-1].line
        and ctx.group is None
        and any(s.what == what for s in ctx.plants[-1].sightings)
    ):
        ctx.begin([ctx.next_label()], span, named=False)
    if ctx.group == "none" and present is True:
        present = False
    plants = ctx.need_plants(span)
    put_right = ctx.correcting is not None or ctx.star is not None
    if put_right and present is not None:
        for p in ctx.here().told_of(plants[0]) if len(plants) == 1 else plants:
            for s in [s for s in p.sightings if s.what == what and s.present is not None and s.present != present]:
                p.sightings.remove(s)
                ctx.corrected.append(Correction("4.17", s.span, f"{what} put right"))
        ctx.correcting = None
    made = []
    for p in plants:
        s = Sighting(what, present, [span], clause=ctx.clause, group=group)
        s.places, s.put_right = list(ctx.places), put_right
        s.branch = any(pl.form == "branch" for pl in s.places)
        if ctx.lengths and what in {"pods", "seeds"}:
            s.length = ctx.lengths[-1]
        if s.places:
            _over_the_old(ctx, p, s, "places")
        if s.length is not None:
            _over_the_old(ctx, p, s, "length")
        p.sightings.append(s)
        made.append((p, s))
    for pl in ctx.places:
        for _, s in made:
            s.spans.append(pl.span)
    if ctx.lengths and what in {"pods", "seeds"}:
        for _, s in made:
            s.spans.append(ctx.lengths[-1].span)
    ctx.places, ctx.lengths = [], []
    ctx.open = [s for _, s in made]
    ctx.last_what = what

    def undo() -> None:
        for p, s in made:
            if s in p.sightings:
                p.sightings.remove(s)
        ctx.open = []

    ctx.said(what, span, undo)
    return ctx.open


def _over_the_old(ctx: Context, plant: PlantDraft, said: Sighting, key: str) -> None:
    """`sorry, p3 fl is 2nd nd down`: a place or a length that is put right goes over the one that was said before."""
    if not said.put_right:
        return
    for old in plant.sightings:
        if old is said or old.what != said.what or not getattr(old, key):
            continue
        was = old.places[-1].span if key == "places" else old.length.span if old.length is not None else old.spans[0]
        ctx.corrected.append(Correction("4.17", was, f"{'place' if key == 'places' else 'length'} put right"))
        setattr(old, key, [] if key == "places" else None)


def _plant_of(ctx: Context, said: Sighting) -> PlantDraft | None:
    return next((p for p in ctx.plants if any(s is said for s in p.sightings)), None)


def _known(ctx: Context, ph: Phrase) -> bool:
    """`know flowers` is no flowers; `now flowers` may be either (guide 4.4)."""
    return ctx.lattice.pieces[ph.start].text in {"know", "knew", "noh"}


def flowers(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ph.form
    if f in {"fl_almost", "fl_ending"}:
        return False
    if f == "fl_nosound":
        for s in look(ctx, "flowers", False, span):
            s.sound_no = None if _known(ctx, ph) else span
        return True
    found = look(ctx, "flowers", f in {"fl_yes", "fl_count"}, span)
    for s in found:
        s.past = f == "fl_past"
        s.buds = f == "fl_buds" and not edges_of(ph, "ONLY")
    return True


def _flat_unifoliates(ctx: Context) -> bool:
    """Unifoliates were told of in this visit, and no pods: a plant so young has none that are flat."""
    plants = ctx.visit.plants if ctx.visit is not None else []
    told = any("unifoliates" in p.facts for p in plants)
    return told and not any(s.what in {"pods", "seeds"} for p in plants for s in p.sightings)


def pods(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ph.form
    if f in {"pod_almost", "pod_no_flat"}:  # no flat pods: of shorter ones nothing is said
        return False
    if f == "pod_no":
        look(ctx, "pods", False, span)
    elif f == "pod_nosound":
        for s in look(ctx, "pods", False, span):
            s.sound_no = None if _known(ctx, ph) else span
    elif f == "pod_top":  # top pods 3/4 and flat
        if not ctx.plants or (ctx.visit is not None and ctx.visit.tallies):
            return False
        if ctx.link & {"IN"} and ctx.open and ctx.open[0].what == "seeds":
            for s in ctx.open:  # seeds just starting in the top pods
                s.in_pod = True
                s.places.append(Place("bare_top", (), span))
            return True
        flat = edges_of(ph, "FLAT")
        for s in look(ctx, "pods", True, span):
            s.places.append(Place("bare_top", (), span))
            s.full_length = Entry(True, span) if flat else None
    elif f in {"pod_yes", "pod_count"}:
        inside = "inside" in {ctx.lattice.at(i) for i in range(ph.start - 2, ph.start)}
        if f == "pod_yes" and (ctx.link & {"IN"} or inside) and ctx.open and ctx.open[0].what == "seeds":
            for s in ctx.open:  # seed in the pods third node down
                s.in_pod = True
                s.spans.append(span)
            return True
        length = ctx.lengths[-1] if ctx.lengths else None
        for s in look(ctx, "pods", True, span):
            s.qty_one = f == "pod_count" and numbers_of(ph)[:1] == [1]
            if length is not None and length.spoken_quarter and s.length is length:
                length.count = 3
    elif f == "pod_tiny":
        for s in look(ctx, "pods", True, span):
            s.tiny = span
    elif f == "pod_match":
        if ctx.open and ctx.open[0].what == "pods" and not edges_of(ph, "POD"):
            for s in ctx.open:
                s.match_head = span
                s.spans.append(span)
        else:
            for s in look(ctx, "pods", True, span):
                s.match_head = span
    elif f == "pod_flat" and not edges_of(ph, "POD") and _flat_unifoliates(ctx):
        put(ctx, "unifoliates", "unrolled", span)  # unifoliates still folded. On the second they're flat
    elif f in {"pod_flat", "pod_almost_flat", "pod_not_flat"}:
        value: Any = True if f == "pod_flat" else "almost" if f == "pod_almost_flat" else False
        if ctx.open and ctx.open[0].what == "pods" and not edges_of(ph, "POD") and ctx.open[0].present:
            for s in ctx.open:
                s.full_length = Entry(value, span)
                s.spans.append(span)
        else:
            for s in look(ctx, "pods", True, span):
                s.full_length = Entry(value, span)
    elif f in {"pod_int", "pod_int_range"}:
        nums = [int(e.means) for _, e in edges_of(ph, "INT")]
        for s in look(ctx, "pods", True, span):
            s.count_int = Length(
                float(nums[0]) if len(nums) == 1 else (float(nums[0]), float(nums[1])), False, span, bare="whole"
            )
    elif f in {"pod_len", "pod_frac", "pod_under", "pod_inch"}:
        length = read_length(ph, span)
        if length is None:
            return False
        if f == "pod_frac" and ph.path[0][1].kind == "FRAC" and length.spoken_quarter:
            length.count = 3
        if f == "pod_frac":
            i = next(k for k, e in ph.path if e.kind in {"FRAC", "DEC"})
            length.span = ctx.span(i, next(e.end for k, e in ph.path if k == i))
        for s in look(ctx, "pods", True, span):
            s.length = length
    return True


_INTO_THE_PODS = 5  # pieces from `beans` to the pods that they are in


def _in_the_pods(ctx: Context, i: int) -> bool:
    """`beans in the pod`, `beans inside the top pods`: seed, and not the crop (guide 4.13)."""
    at, k = ctx.lattice.at, i + 1
    if at(i) not in {"in", "inside"}:
        return False
    while k < min(i + _INTO_THE_PODS, len(ctx.use)) and ctx.lattice.pieces[k].form in {"word", "int"}:
        if any(e.kind == "POD" and e.how == "exact" for e in ctx.lattice.edges[k]):
            return True
        k += 1
    return False


def seeds(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ph.form
    if f in {"seed_no", "seed_nosound", "seed_nothing"}:
        if f == "seed_nothing" and not ctx.plants:
            return False
        for s in look(ctx, "seeds", False, span):
            if f == "seed_nosound" and not _known(ctx, ph):
                s.sound_no = span
        return True
    if f == "in_pod":
        if ctx.open and ctx.open[0].what == "seeds":
            for s in ctx.open:
                s.in_pod = True
                s.tentative = False
                s.spans.append(span)
            return True
        if ph.path[0][1].kind == "INIT":
            return bool(ctx.open)
        pods_here = ctx.open[0].places if ctx.open and ctx.open[0].what == "pods" else []
        for s in look(ctx, "seeds", True, span):
            s.in_pod = True
            s.places = s.places or list(pods_here)  # bottom ones an inch, with beans in them
        return True
    if f == "bean_yes":
        places, lengths = list(ctx.places), list(ctx.lengths)
        if not ctx.plants and ctx.tally is None:
            return False
        for s in look(ctx, "seeds", True, span):
            s.tentative = not (places or lengths or _in_the_pods(ctx, ph.end))
        ctx.tentative += [(s, ph.start, ph.end) for s in ctx.open]
        return True
    if f == "see_alone" and _felt_after_all(ctx, ph):
        for s in ctx.open:  # can't see the seed, can feel it
            s.present, s.fill = True, Entry("partial", span)
            s.spans.append(span)
        return True
    if f == "see_alone":
        if ctx.open and ctx.open[0].what in {"pods", "seeds"}:
            for s in ctx.open:
                s.spans.append(span)
                s.tentative = False
                if s.what == "seeds" and s.fill is None:
                    s.fill = Entry("partial", span)
                elif (
                    s.what == "pods"
                    and ph.path[0][1].means == "seen"
                    and ctx.lattice.original(ph.start, ph.end).lower().endswith(("starting", "forming", "started"))
                ):
                    s.tiny = s.spans[0].cover(span)
            return True
        return False
    if f == "small_alone":
        if ctx.open and ctx.open[0].what == "seeds":
            for s in ctx.open:
                s.fill = Entry("partial", span)
                s.tentative = False
                s.spans.append(span)
            return True
        return False
    if f == "seed_top" and not ctx.plants:
        return False
    low = _with_low_pods(ctx, ph)
    found = look(ctx, "seeds", True, span)
    for s in found:
        s.places = s.places or list(low)
    for s in found:
        if f == "seed_top":  # the upper beans are only half full
            s.places.append(Place("bare_top", (), span))
        elif f == "seed_small":
            s.fill = Entry("partial", span)
        elif f == "seed_match":
            s.length = Length((0.0, 3.1), False, span)
        elif f in {"seed_len", "seed_frac"}:
            s.length = read_length(ph, span)
            if f == "seed_frac" and s.length is not None:
                i = next(k for k, e in ph.path if e.kind in {"FRAC", "DEC"})
                s.length.span = ctx.span(i, next(e.end for k, e in ph.path if k == i))
        elif f == "seed_touch":
            s.fill = Entry("full", span)
            s.in_pod = bool(_POD_WORD.search(ctx.lattice.original(ph.start, ph.end).lower()))
        elif f in {"seed_apart", "seed_almost"}:
            s.fill = Entry("partial" if f == "seed_apart" else "almost", span)
    return True


def _with_low_pods(ctx: Context, ph: Phrase) -> list[Place]:
    """`bottom pods inch and a half with beans touching`: the beans are where those pods are."""
    pods = ctx.open[0] if ctx.open and ctx.open[0].what == "pods" else None
    low = pods is not None and bool(pods.places) and all(x.form == "lower" for x in pods.places)
    return pods.places if pods is not None and low and ctx.lattice.at(ph.start - 1) in {"with", "w", "/"} else []


def _of_something_else(ctx: Context, ph: Phrase) -> bool:
    """`tile outlet is running full`: words that were not understood stand before it in its sentence."""
    i = ph.start - 1
    while (
        i >= 0 and ctx.use[i] != EVIDENCE and ctx.lattice.pieces[i].form != "nl" and ctx.lattice.at(i) not in {".", ";"}
    ):
        if ctx.lattice.pieces[i].form == "word" and not ctx.lattice.filler[i]:
            return True
        i -= 1
    return False


_FOR_STATE = _LISTED.words("for_state")


def state(ctx: Context, ph: Phrase, span: Span, hurt: bool = False) -> bool:
    f = ph.form
    if f in {"full", "not_full", "almost_full"}:
        value = {"full": "full", "not_full": "partial", "almost_full": "almost"}[f]
        if ctx.open and ctx.open[0].what in {"seeds", "pods"} and ctx.open[0].present is not False:
            in_pod = bool(_POD_WORD.search(ctx.lattice.original(ph.start, ph.end).lower()))
            if _filled_elsewhere(ctx, value):  # half full in the top four, full down low
                for s in look(ctx, "seeds", True, span):
                    s.fill, s.in_pod = Entry(value, span), in_pod
                return True
            for s in ctx.open:
                s.fill = Entry(value, span)
                s.spans.append(span)
                s.tentative = False
                s.in_pod = s.in_pod or (in_pod and s.what == "seeds")
                if s.what == "pods":
                    s.with_pods = True
            return True
        if not ctx.plants and ctx.tally is None:
            return False
        if ctx.correcting is not None and _filled_after_all(ctx, value, span):
            return True
        text = ctx.lattice.original(ph.start, ph.end).lower()
        if not ctx.explicit and ctx.last_what not in {"pods", "seeds"}:
            return False
        if text in _FOR_STATE and ctx.last_what not in {
            "pods",
            "seeds",
        }:
            return False
        if text in {"full", "half full"} and ctx.last_what not in {"pods", "seeds"} and _of_something_else(ctx, ph):
            return False
        for s in look(ctx, "seeds", True, span):
            s.fill = Entry(value, span)
        return True
    podded = bool(edges_of(ph, "POD", "PODG"))
    near_pods = bool(ctx.open) and ctx.open[0].what in {"pods", "seeds"}
    if not ctx.plants and not podded:
        return False
    if f in {"brown", "n_brown", "pods_brown"}:
        n = numbers_of(ph)
        if f == "brown" and ctx.last_what == "mature" and _some_before(ctx, ph):
            _uncolour(ctx)
            _turned_after_all(ctx)
            put(ctx, "mature_pods", "one", span)  # pods yellowing, but one is full brown
            return True
        if f == "brown" and not near_pods:
            return False
        if (
            f == "n_brown"
            and not n
            and not podded
            and not near_pods
            and ctx.last_what not in {"pods", "seeds", "mature", None}
        ):
            return False
        quantity = bool(n) or (
            (near_pods and (ctx.open[0].qty_one or ctx.lattice.original(ph.start, ph.end) != "")) and f == "n_brown"
        )
        if f != "pods_brown" and hurt:
            return False
        _uncolour(ctx)
        _turned_after_all(ctx)
        counted = all_counted(ctx, ph) if f == "n_brown" and n else None
        if counted is not None and 0 <= n[0] <= counted:
            put(ctx, "mature_pods_percent", round(100.0 * n[0] / counted, 1), span)  # 40 pods   12 brown
            ctx.last_what = "mature"
            return True
        plants = put(ctx, "mature_pods", "one", span)
        if (
            f in {"brown", "pods_brown"}
            and not (near_pods and ctx.open and ctx.open[0].qty_one)
            and not quantity
            and not _some_before(ctx, ph)
        ):
            ctx.ask(
                Ask(
                    "4.14",
                    span,
                    f"How many pods of plant {plants[-1].label} are of mature colour?",
                    [
                        ("at least one", {"mature_pods": "one"}),
                        ("95 percent or more", {"mature_pods": "one", "mature_pods_percent": 95.0}),
                    ],
                    plants[-1],
                    0,
                    "mature_pods",
                )
            )
        ctx.last_what = "mature"
    elif f == "no_brown":
        _uncolour(ctx)
        put(ctx, "mature_pods", "none", span)
        ctx.last_what = "mature"
    elif f in {"green", "pods_green", "not_turning"}:
        if f == "green" and not (near_pods or ctx.last_what in {"pods", "seeds", "mature"} or ctx.explicit):
            return False
        if f == "green" and _the_rest_of_the_ripe(ctx, ph, span):
            return True
        if f != "not_turning" and _some_of_it(ctx, ph) and _a_share_is_brown(ctx, span):
            return True  # half its pods brown and half green; 96 percent, there's a green pair at the top
        _uncolour(ctx)
        put(ctx, "mature_pods", "none", span)
        ctx.last_what = "mature"
    elif f == "n_green":
        counted = all_counted(ctx, ph)
        told = bool(ctx.plants) and any(k in ctx.plants[-1].facts for k in ("mature_pods", "mature_pods_percent"))
        if counted is not None and 0 <= numbers_of(ph)[0] <= counted:
            _uncolour(ctx)
            put(ctx, "mature_pods_percent", round(100.0 * (counted - numbers_of(ph)[0]) / counted, 1), span)
            ctx.last_what = "mature"
        elif not told:
            return False  # 2 green: of how many is not said
    elif f in {"turning", "pods_turning"}:
        if f == "turning" and not near_pods:
            return False
        whole = span
        if f == "turning" and ctx.open:
            whole = ctx.open[0].span.cover(span) if span.start - ctx.open[0].span.end < 12 else span
        _uncolour(ctx)
        plants = put(ctx, "mature_pods", "none", whole)
        ctx.ask(
            Ask(
                "4.14",
                whole,
                f"Has at least one pod of plant {plants[-1].label} reached its mature colour?",
                [("no, only turning", {"mature_pods": "none"}), ("yes", {"mature_pods": "one"})],
                plants[-1],
                0,
                "mature_pods",
            )
        )
        ctx.last_what = "mature"
    return True


_NEAR_BY = 40  # characters


_SOME = _LISTED.words("some")


def _some_of_it(ctx: Context, ph: Phrase) -> bool:
    """`half green`, `there's a green pod`: some pods of the plant."""
    return ph.form != "pods_all_green" and any(ctx.lattice.at(x) in _SOME for x in range(ph.start - 1, ph.end))


def _a_share_is_brown(ctx: Context, span: Span) -> bool:
    """Right before it was told what share of the plant's pods is brown."""
    share = ctx.plants[-1].last("mature_pods_percent") if len(ctx.plants) == 1 else None
    return share is not None and 0 <= span.start - share.span.end < _NEAR_BY and 0 < share.value < 100


_FELT = _COMMON.words("felt")


def _felt_after_all(ctx: Context, ph: Phrase) -> bool:
    """Seeds that cannot be seen, and can be felt."""
    if not ctx.open or ctx.open[0].what != "seeds" or ctx.open[0].present is not False or ctx.open[0].places:
        return False
    first = ctx.open[0].spans[0]
    said = first.cover(ctx.open[0].spans[-1])
    words = ctx.lattice.text[said.start : said.end].lower()
    unseen = "see" in words.split() or "visible" in words
    return unseen and any(ctx.lattice.pieces[i].text in _FELT for i in range(ph.start, ph.end))


def _filled_after_all(ctx: Context, value: str, span: Span) -> bool:
    """`beans not touching, third node from the top. Correction, they're touching`: the same beans, in the sentence before."""
    plant = ctx.plants[-1] if len(ctx.plants) == 1 else None
    last = next((s for s in reversed(plant.sightings) if s.what in {"seeds", "pods"}), None) if plant else None
    if ctx.open or last is None or last.fill is None:
        return False
    ctx.corrected.append(Correction("4.17", last.fill.span, f"{last.fill.value} replaced by {value}"))
    last.fill, ctx.correcting = Entry(value, span), None
    return True


def _filled_elsewhere(ctx: Context, value: str) -> bool:
    """Another filling than the one that was just told, and no correction: it is of other pods."""
    told = ctx.open[0].fill
    return ctx.correcting is None and ctx.star is None and told is not None and told.value != value


_FOR_SOME_BEFORE = _LISTED.words("for_some_before")


def _some_before(ctx: Context, ph: Phrase) -> bool:
    k = ph.start - 1
    words: list[str] = []
    while k >= 0 and len(words) < 3 and ctx.lattice.pieces[k].form == "word":
        words.append(ctx.lattice.pieces[k].text)
        k -= 1
    return bool(set(words) & _FOR_SOME_BEFORE)


def _turned_after_all(ctx: Context) -> None:
    """`pods turning, one is brown`: the pod that was asked about is named."""
    asked = [a for a in ctx.asks if a.key == "mature_pods" and a.rule == "4.14" and a.plant in ctx.plants]
    for a in asked:
        ctx.asks.remove(a)
        if a.plant is not None:
            a.plant.facts.pop("mature_pods", None)


def _uncolour(ctx: Context) -> None:
    """`pods brown`: the pods were named only for their colour; a pod's place says nothing of R7."""
    for p in ctx.plants:
        for s in [
            s
            for s in p.sightings
            if s in ctx.open
            and s.what == "pods"
            and s.present
            and not s.places
            and s.length is None
            and s.fill is None
            and s.full_length is None
            and s.tiny is None
        ]:
            p.sightings.remove(s)
    ctx.open = [s for s in ctx.open if any(s in p.sightings for p in ctx.plants)]


_BEFORE_ALL_COUNTED = _LISTED.words("before_all_counted")


def all_counted(ctx: Context, ph: Phrase) -> int | None:
    """How many pods were counted, where that stands right before the ripe ones: `40 pods, 12 brown` (guide 4.14)."""
    pieces, k = ctx.lattice.pieces, ph.start
    while k and pieces[k - 1].text in _BEFORE_ALL_COUNTED:
        k -= 1
    if k < 2 or not any(e.kind == "POD" and e.how == "exact" and e.end == k for e in ctx.lattice.edges[k - 1]):
        return None
    said = [
        int(e.means)
        for x in range(max(0, k - 4), k - 1)
        for e in ctx.lattice.edges[x]
        if e.kind == "INT" and e.how in {"number", "figure"} and e.end == k - 1 and not pieces[x].glued
    ]
    return said[0] if said and _FEWEST_COUNTED <= said[0] <= _MOST_COUNTED else None


def _none_told_of(ctx: Context) -> bool:
    """Plants were counted in this visit, and none of them was told of."""
    return ctx.sample_visit == len(ctx.visits) and not ctx.explicit and not ctx.living()


def podshare(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ph.form
    if f == "pods_all_green":
        if _the_rest_of_the_ripe(ctx, ph, span):
            return True
        put(ctx, "mature_pods", "none", span)
        return True
    percent: Any
    if f == "brown_head":
        ctx.pods_brown_head = True
        return True
    if f == "count_brown":
        a, b = numbers_of(ph)[:2]
        if a > b:
            return False
        if ctx.sample == b and ph.path[-1][1].kind == "INT" and _none_told_of(ctx):
            ctx.here().tallies.append(TallyDraft("R7", a, b, None, span))  # 10 plants. brown pods, 8 of 10
            return True
        percent = round(100.0 * a / b, 1)
    elif f == "counted_brown":  # 30 pods, 12 of them tan
        whole, ripe = numbers_of(ph)[:2]
        if ripe > whole:
            return False
        percent = round(100.0 * ripe / whole, 1)
    elif f in {"all_but_brown", "count_green", "counted_green"}:  # 8 of its 40 pods green; 30 pods, one green
        a, b = numbers_of(ph)[:2]
        a, b = (b, a) if f == "counted_green" else (a, b)
        if a > b:
            return False
        percent = round(100.0 * (b - a) / b, 1)
    elif f == "brown_and_green":  # 38 brown 2 green
        ripe, green = numbers_of(ph)[:2]
        if ripe + green == 0:
            return False
        percent = round(100.0 * ripe / (ripe + green), 1)
    elif f == "none_green":  # whether the others are brown or yellow is not said
        return False
    elif f == "none_of_brown":  # none of 38 pods brown
        percent = 0.0
    elif f == "share_brown":
        percent = float(next(e.means for _, e in ph.path if e.kind in {"INT", "DEC"}))
    elif f == "most_brown":
        put(ctx, "mature_pods", "one", span)
        ctx.last_what = "mature"
        return True
    elif f == "frac_brown":
        part = next(e.means for _, e in ph.path if e.kind == "FRAC")
        if not 0 < part < 1:
            return False
        percent = round(100.0 * float(part), 1)
    elif f == "half_brown":
        percent = 50.0
    else:
        percent = 100.0
    if percent > 100:
        return False
    put(ctx, "mature_pods_percent", percent, span)
    ctx.last_what = "mature"
    return True


# lengths
# ---------------------------------------------------------------------------------------------------------------


def read_length(ph: Phrase, span: Span) -> Length | None:
    """A length phrase in mm."""
    amounts = [(Fraction(e.means), e) for _, e in ph.path if e.kind in {"INT", "FRAC", "DEC"}]
    units = [e.kind for _, e in ph.path if e.kind in _UNIT]
    f = ph.form
    if f in {"len_under", "len_under_inch", "pod_under"}:
        plain = Phrase(
            ph.start,
            ph.end,
            "length",
            "len_an_inch" if f == "len_under_inch" else "len_unit" if units else "len_bare",
            tuple((i, e) for i, e in ph.path if e.kind not in {"ALMOST", "LESSW", "NOT"}),
            0.0,
        )
        whole = read_length(plain, span)
        if whole is None or isinstance(whole.mm, tuple):
            return None
        whole.under = whole.mm
        whole.mm = round(whole.mm - UNDER, 4)
        return whole
    if f in {"len_an_inch", "pod_inch"}:
        return Length(25.4, True, span)
    if f == "len_inch_and":
        return Length(float((1 + amounts[0][0]) * MM), True, span)
    if f in {"len_a_metric", "len_metric_and"}:  # a centimeter, a centimeter and a half
        one = next(e.means for _, e in ph.path if e.kind == "AMETRIC")
        return Length(float(one) * (1 + float(amounts[0][0] if amounts else 0)), False, span)
    if not amounts:
        return None
    spoken = any(e.how == "spoken quarter" for _, e in amounts)
    if f in {"len_bare", "len_range_bare", "pod_frac", "seed_frac"} or not units:
        value = [float(a * MM) for a, _ in amounts]
        if max(a for a, _ in amounts) >= 3:
            value = [float(a) for a, _ in amounts]
            return Length(value[0] if len(value) == 1 else (min(value), max(value)), False, span, bare="whole")
        return Length(
            value[0] if len(value) == 1 else (min(value), max(value)),
            True,
            span,
            bare="fraction",
            spoken_quarter=spoken,
        )
    factor = _UNIT[units[-1]]
    values = []
    for k, (a, _) in enumerate(amounts):
        u = _UNIT[units[k]] if len(units) == len(amounts) else factor
        values.append(float(a * u))
    low_high: Any = values[0] if len(values) == 1 else (min(values[:2]), max(values[:2]))
    return Length(low_high, units[-1] in {"INCH", "FOOT"}, span, spoken_quarter=spoken and len(amounts) == 1)


def place(ph: Phrase, span: Span) -> Place:
    nums = tuple(numbers_of(ph))
    if ph.form.startswith("thru_") or ph.form == "nodes_thru":  # nodes 3 thru 6
        low, high = min(nums[:2]), max(nums[:2])
        nums = tuple(range(low, min(high, low + 24) + 1))
    if ph.form == "rel_down":  # the node below that, the two below that
        nums = tuple(int(x) for _, e in ph.path for x in str(e.means).split())
    return Place(ph.form, nums, span)


def _the_rest_of_the_ripe(ctx: Context, ph: Phrase, span: Span) -> bool:
    """`two pods brown, rest green`: of the same plant, and what was told of it stands."""
    plant = ctx.plants[-1] if ctx.plants else None
    if plant is None or not _the_rest(ctx, ph):
        return False
    told = next((key for key in ("mature_pods", "mature_pods_percent") if plant.last(key) is not None), None)
    if told is not None:
        plant.put(told, plant.facts[told][-1].value, span)
    return told is not None


def _the_rest(ctx: Context, ph: Phrase) -> bool:
    """`rest green`, `the others are still green`."""
    pieces = ctx.lattice.pieces
    return any(pieces[x].text in {"rest", "others", "remainder"} for x in range(max(0, ph.start - 3), ph.end))


_FROM_THE_TOP = frozenset({"top_1", "top_n", "top_two", "top_four", "ord_down", "num_down"})


def attach_place(ctx: Context, pl: Place, sightings: list[Sighting]) -> None:
    for s in sightings:
        s.spans.append(pl.span)
        if ctx.correcting is not None and s.places:
            old = s.places.pop()
            if pl.form == "ord_node" and old.form in _FROM_THE_TOP:
                pl = Place("ord_down", pl.numbers, pl.span)  # at the top node, no wait, second node
            if s is sightings[0]:
                ctx.corrected.append(Correction("4.17", old.span, "place put right"))
        elif s.places and _told_with_the_new(s, pl):
            ctx.corrected.append(Correction("4.17", s.places[-1].span, "place put right"))
            s.places.clear()
        if not s.places and (plant := _plant_of(ctx, s)) is not None:
            _over_the_old(ctx, plant, s, "places")
        s.places.append(pl)
        if pl.form == "branch":
            s.branch = True
        if s.tentative and pl.form not in {"main_stem", "branch"}:
            s.tentative = False
    ctx.correcting = None


def _told_with_the_new(s: Sighting, pl: Place) -> bool:
    """`pod 18 mm second node down, no wait, 20 mm third node down`: size and place are both told anew."""
    anew = s.length_put_right
    before = anew is not None and all(x.span.end <= anew.start for x in s.places)
    return before and anew is not None and anew.end <= pl.span.start and pl.form in _FROM_THE_TOP


def attach_length(ctx: Context, length: Length, sightings: list[Sighting]) -> None:
    if len({s.what for s in sightings}) > 1:
        sightings = [s for s in sightings if s.what == sightings[0].what]
    for s in sightings:
        s.spans.append(length.span)
        if ctx.correcting is not None and s.length is not None:
            s.length_put_right = length.span
            if s is sightings[0]:
                ctx.corrected.append(Correction("4.17", s.length.span, "length put right"))
        if s.length is None and (plant := _plant_of(ctx, s)) is not None:
            _over_the_old(ctx, plant, s, "length")
        s.length = length
        s.tentative = False
    ctx.correcting = None
