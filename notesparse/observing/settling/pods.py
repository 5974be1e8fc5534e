"""Pods of one plant: where they are, how long, how far filled (guide 4.6, 4.12)."""

from __future__ import annotations

from notesparse.observing.draft import Length, PlantDraft, Sighting
from notesparse.observing.fold import Context
from notesparse.observing.settling.places import longest_last, places
from notesparse.observing.settling.questions import Choices, ask, ask_fill, ask_unusual
from notesparse.observing.settling.settled import Settled
from notesparse.observing.sizes import LONG_POD
from notesparse.outcome import Unread
from notesparse.span import Span

_SMALL = (0.0, 4.7)  # "match head": below 3/16 in (guide 4.12)
COUNT_OF_PODS = 12  # a bare whole number up to this may be a count of pods (common practice, no source)


def pods(ctx: Context, p: PlantDraft, out: Settled, positive: list[Sighting], above: bool) -> None:
    """Pods that were seen; `above` where the top is said to have none."""
    if ctx.pod_place is not None:
        for s in positive:
            s.places = s.places or ([ctx.pod_place] if s.count_int is not None else [])
    low = [s for s in positive if any(x.form == "lower" for x in s.places)]
    top = [s for s in positive if s not in low]
    use = top if top and low else positive
    out.put("pods", True, use[0].span)
    places(ctx, p, out, "pods", use)
    sized = False
    for s in sorted(use, key=longest_last):
        sized = _size(ctx, p, out, s) or sized
    if use is top and not any(s.fill for s in top):
        _filled_below(out, low)
    where = out.values.get("pods_from_top")
    if where is None and not above:
        ctx.assume("4.12", use[0].span, "pods with no place named are taken to be on the top four nodes")
    if not sized and where != "lower":
        ctx.assume("4.12", use[0].span, "pods with no size are taken to be at least 3/16 in long")


def _size(ctx: Context, p: PlantDraft, out: Settled, s: Sighting) -> bool:
    """What one sighting says of the pods' size; whether it says anything."""
    if s.length is not None:
        _pod_length(ctx, p, out, s.length, s.spans[0])
    elif s.count_int is not None:
        _bare_whole(ctx, p, out, s.count_int)
    if s.full_length is not None:
        _full_length(ctx, p, out, s)
    if s.match_head is not None:
        out.put("pod_mm", _SMALL, s.match_head)
    tiny = s.tiny if s.length is None else None
    if tiny is not None:
        _tiny(ctx, p, out, tiny)
    filled = s.fill is not None and s.with_pods
    if filled:
        _filled(ctx, p, out, s)
    told = (s.length, s.count_int, s.full_length, s.match_head, tiny)
    return filled or any(x is not None for x in told)


def _full_length(ctx: Context, p: PlantDraft, out: Settled, s: Sighting) -> None:
    if s.full_length is None:
        return
    value, span = s.full_length.value, s.full_length.span
    if value == "almost":
        ask(
            ctx,
            p,
            "4.12",
            span,
            f"Are the pods of plant {p.label} full length (3/4 in)?",
            [("not yet", {"pods_full_length": False}), ("yes", {"pods_full_length": True})],
            "pods_full_length",
        )
        value = False
    out.put("pods_full_length", value, span)


def _tiny(ctx: Context, p: PlantDraft, out: Settled, span: Span) -> None:
    out.put("pod_mm", _SMALL, span)
    ask(
        ctx,
        p,
        "4.12",
        span,
        f"Is any of the small pods of plant {p.label} 3/16 in (5 mm) long or longer?",
        [("no, all under 3/16 in", {"pod_mm": _SMALL}), ("yes", {"pod_mm": 5.0})],
        "pod_mm",
    )


def _filled(ctx: Context, p: PlantDraft, out: Settled, s: Sighting) -> None:
    """Pods that are said to be filled have seed where they are."""
    if s.fill is None:
        return
    almost = s.fill.value == "almost"
    out.put("seeds", True, s.span)
    out.put("seed_fill", "partial" if almost else s.fill.value, s.fill.span)
    if almost:
        ask_fill(ctx, p, s.fill.span)
    if "pods_from_top" in out.values:
        out.put("seeds_from_top", out.values["pods_from_top"], out.spans["pods_from_top"])


def _filled_below(out: Settled, low: list[Sighting]) -> None:
    """`top pods flat, bottom pods full`: there is seed, but not where the stages look."""
    for s in low:
        if s.fill is not None and s.with_pods:
            out.put("seeds", True, s.span)
            out.put("seed_fill", "partial" if s.fill.value == "almost" else s.fill.value, s.fill.span)
            out.put("seeds_from_top", "lower", s.span)


def _bare_whole(ctx: Context, p: PlantDraft, out: Settled, length: Length) -> None:
    """A whole number with no unit."""
    n = length.high
    if ctx.pod_unit is not None and isinstance(length.mm, float):
        mm, inches = ctx.pod_unit
        if n * mm <= LONG_POD:
            out.put("pod_mm", round(n * mm, 4), length.span)
            out.inches |= {"pod_mm"} if inches else set()
            return
    if n < 3 and length.bare != "column":
        out.put("pod_mm", n * 25.4, length.span)
        out.inches.add("pod_mm")
        ctx.assume("4.6", length.span, "a bare number below 3 is a length in inches")
        return
    if n > LONG_POD:
        ctx.unread.append(Unread(length.span, length.span.of(ctx.lattice.text), "no length of a pod"))
        return
    out.put("pod_mm", length.mm, length.span)
    if n > COUNT_OF_PODS:
        ctx.assume("4.6", length.span, "a bare pod length from 3 up is in millimetres")
        return
    ask(
        ctx,
        p,
        "4.6",
        length.span,
        f"Pods “{n:g}” on plant {p.label}: millimetres, or a number of pods?",
        [
            (f"{n:g} mm long", {"pod_mm": length.mm}),
            (f"{n:g} pods, no length", {"pod_mm": None}),
            (f"{n:g} sixteenths of an inch", {"pod_mm": round(n * 25.4 / 16, 4)}),
        ],
        "pod_mm",
        habit="bare_length",
        habits=("mm", "", "16ths"),
    )


def _pod_length(ctx: Context, p: PlantDraft, out: Settled, length: Length, head: Span) -> None:
    """A length; `head` are the words for the pods."""
    if length.count is not None:
        _three_quarter(ctx, p, out, head.cover(length.span))
        return
    words = length.span.of(ctx.lattice.text)
    if length.under is not None:
        text = f"“{words}”: is the longest pod of plant {p.label} shorter than that, or as long?"
        shorter_or_not: Choices = [("shorter", {"pod_mm": length.mm}), ("as long", {"pod_mm": length.under})]
        ask(ctx, p, "4.3", length.span, text, shorter_or_not, "pod_mm")
    if length.bare == "fraction":
        ctx.assume("4.6", length.span, "a bare fraction is inches")
    longest = length.high
    out.put("pod_mm", length.mm, length.span)
    if length.inches:
        out.inches.add("pod_mm")
    if length.bare == "whole" and longest <= COUNT_OF_PODS:
        text = f"Is “{words}” of plant {p.label} millimetres?"
        ask(
            ctx,
            p,
            "4.6",
            length.span,
            text,
            [(f"{longest:g} mm", {"pod_mm": length.mm}), ("no length", {"pod_mm": None})],
            "pod_mm",
        )
    if longest > LONG_POD:
        ask_unusual(ctx, p, length.span, f"A pod of {longest:g} mm on plant {p.label}", "pod_mm", length.mm)


def _three_quarter(ctx: Context, p: PlantDraft, out: Settled, whole: Span) -> None:
    """Three quarter inch pods: one size, or three pods of a quarter?"""
    three, one = 6.35, 19.05
    out.put("pod_mm", three, whole)
    out.inches.add("pod_mm")
    ask(
        ctx,
        p,
        "4.6",
        whole,
        f"Plant {p.label}: pods of three quarters of an inch, or three pods of a quarter inch?",
        [("three pods of 1/4 in", {"pod_mm": three}), ("pods of 3/4 in", {"pod_mm": one})],
        "pod_mm",
    )
