"""Flowers, pods or seeds of one plant: there, not there, said both ways, or only above or on branches."""

from __future__ import annotations

import re
from typing import Any

from notesparse.lazy import pattern
from notesparse.observing.draft import PlantDraft, Sighting
from notesparse.observing.fold import Context
from notesparse.observing.settling.places import only_low, places
from notesparse.observing.settling.pods import pods
from notesparse.observing.settling.questions import Choices, ask, asked
from notesparse.observing.settling.seeds import seeds
from notesparse.observing.settling.settled import Settled
from notesparse.outcome import Unread

_AT_THE_TOP = frozenset({"up_top", "top_n", "top_two", "top_four", "top_1", "near_top", "bare_top", "all_up"})


def organ(ctx: Context, p: PlantDraft, out: Settled, what: str, seen: list[Sighting]) -> None:
    """All that was said of one organ of a plant."""
    for s in seen:
        if s.branch:
            ctx.unread.append(Unread(s.span, s.span.of(ctx.lattice.text), "on branches only: no evidence for a stage"))
    seen = [s for s in seen if not s.branch]
    positive = [s for s in seen if s.present]
    above = [s for s in seen if _top_negative(s)]
    negative = [
        s for s in seen if s.present is False and not _top_negative(s) and not any(x.form == "lower" for x in s.places)
    ]
    if what == "seeds" and positive and all(only_low(s) for s in positive):
        above += [s for s in negative if _in_top_pods(p, s)]
        negative = [s for s in negative if not _in_top_pods(p, s)]
    negative = [s for s in negative if not any(_buds_beside(s, x) for x in positive)]
    for s in negative:
        if s.sound_no is not None:
            _ask_sound(ctx, p, what, s)
    if positive and negative:
        _both_ways(ctx, p, out, what, seen)
        if not seen[0].present:
            return
    if positive:
        _there(ctx, p, out, what, positive, above)
    elif above and not negative:
        if above[0].sound_no is not None:
            _ask_sound(ctx, p, what, above[0])
        low = out.values.get(f"{what}_from_top") == "lower"  # lower pods are full, no seed up top
        out.put(f"{what}_from_top", "lower" if low else (), above[0].span)
    elif negative:
        if what == "seeds" and "seed_fill" in out.values:
            _no_seed_in_them(ctx, p, out, negative[0])
        out.put(what, False, negative[0].span)
        if negative[0].past:
            ctx.assume("4.11", negative[0].span, "past bloom says nothing against later stages")


_NOT_FILLED = pattern(r"\bnot\b|n't\b|\bnowhere\b|\bno\b|\baren?t\b|\bunfilled\b|\bempty\b|\bflat\b", re.IGNORECASE)


def _no_seed_in_them(ctx: Context, p: PlantDraft, out: Settled, no: Sighting) -> None:
    """`pods nowhere near full, no seed`: that they are not full tells of no seed; `pods full, no seed` is asked (5.6)."""
    words, fill = out.spans["seed_fill"], out.values["seed_fill"]
    for key in ("seed_fill", "seeds_from_top"):
        out.values.pop(key, None)
        out.spans.pop(key, None)
    if _NOT_FILLED.search(words.of(ctx.lattice.text)) is None:
        text = f"Plant {p.label} is said to have seed in its pods and to have none. Which is right?"
        none: dict[str, Any] = {"seeds": False, "seed_fill": None}
        choices: Choices = [("none", none), ("seed in them", {"seeds": True, "seed_fill": fill})]
        ask(ctx, p, "5.6", words.cover(no.span), text, choices, "seeds", always=True)


def _in_top_pods(p: PlantDraft, no: Sighting) -> bool:
    """`top four nodes, pods half an inch and no seed in them`: none where those pods are."""
    pods = [s for s in p.sightings if s.what == "pods" and s.present and s.clause == no.clause]
    return any(x.form in _AT_THE_TOP for s in pods for x in s.places)


def _buds_beside(no: Sighting, yes: Sighting) -> bool:
    """`buds. One open bloom third node down`, `a bloom at node 3, buds at the top`: both are there."""
    return no.buds and (bool(no.places) or yes.span.start > no.span.start)


def _top_negative(s: Sighting) -> bool:
    """None at the top, which says nothing of the nodes below."""
    return s.present is False and any(x.form in _AT_THE_TOP for x in s.places)


def _both_ways(ctx: Context, p: PlantDraft, out: Settled, what: str, seen: list[Sighting]) -> None:
    """Said to have some and to have none (guide 5.6): what was said first stands meanwhile."""
    whole, first = seen[0].span.cover(seen[-1].span), seen[0].present
    if not asked(ctx, p, what):
        text = f"Plant {p.label} is said to have {what} and to have none. Which is right?"
        choices: Choices = [("as first said", {what: first}), ("the other", {what: not first})]
        ask(ctx, p, "5.6", whole, text, choices, what, always=True)
    out.put(what, first, whole)


def _there(
    ctx: Context, p: PlantDraft, out: Settled, what: str, positive: list[Sighting], above: list[Sighting]
) -> None:
    out.put(what, True, positive[0].span)
    if what == "seeds":
        seeds(ctx, p, out, positive)
    elif what == "pods":
        pods(ctx, p, out, positive, bool(above))
    else:
        places(ctx, p, out, what, positive)
    if above:
        key = f"{what}_from_top"
        ranks = out.values.get(key)
        if ranks is None or ranks == "lower":
            out.put(key, "lower", above[0].span.cover(positive[-1].span))


def _ask_sound(ctx: Context, p: PlantDraft, what: str, s: Sighting) -> None:
    """`know flowers`: no, or now? (guide 4.4)"""
    span = s.sound_no or s.span
    text = f"“{span.of(ctx.lattice.text)}”: has plant {p.label} no {what}, or {what} now?"
    now = {what: True} if not s.places else {what: True, f"{what}_from_top": (1, 2)}
    ask(ctx, p, "4.4", span, text, [(f"no {what}", {what: False}), (f"{what} now", now)], what)
