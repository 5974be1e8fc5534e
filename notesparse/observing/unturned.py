"""A no that nobody could read, beside flowers, pods or seed that were read as there: asked (guide 2.3)."""

from __future__ import annotations

from bisect import bisect_left

from notesparse.observing.draft import Ask, VisitDraft
from notesparse.observing.fold import HEADS, UNREAD, Context
from notesparse.observing.settling.questions import Choices, asked
from notesparse.span import Span

_NO = frozenset({"NO", "NOT", "NONE"})
_NO_SUCH = frozenset(
    {
        *(
            "make",
            "wait",
            "sorry",
            "scratch",
            "strike",
            "correction",
            "hang",
            "hold",
            "i",
            "that's",
        ),  # no, make that 12
        *("let", "worry", "forget", "mind", "care", "let's"),  # don't let that fool you
        *("above", "higher", "else", "more", "other", "longer", "bigger", "larger", "past", "beyond", "further"),
        *("many", "much", "just", "only", "counting", "lower", "low", "below", "sure", "bad"),  # not many
    }
)
"""Words behind which the no is another one."""
_NEAR = 5  # words between the two
_HARDLY = frozenset({"hardly", "barely", "scarcely"})
_NEARLY = _HARDLY | {"nearly", "almost", "practically"}
_BEYOND = frozenset({"above", "below", "past", "beyond", "under", "over"})
_ENDS = frozenset({",", ";", ".", "!", "?", "(", ")", "|"})


def ask(ctx: Context) -> None:
    """Asks of every organ that has such a no beside it; it is recorded as read."""
    for visit in ctx.visits:
        _of_plants(ctx, visit)
        _of_ripe_pods(ctx, visit)
        _beyond(ctx, visit)
        for t in visit.tallies:
            no = None if t.negative or (not t.count and not t.percent) else _no_beside(ctx, t.span)
            if no is not None:
                text = f"“{_said(ctx, no)}” stands beside this share. Have so many of them it, or have they not?"
                choices: Choices = [("so many have", {}), ("so many have not", {})]
                ctx.ask(Ask("2.3", no.cover(t.span), text, choices, None, 0, "tally", always=True, visit=visit))


def _of_plants(ctx: Context, visit: VisitDraft) -> None:
    for plant in visit.plants:
        for s in plant.sightings:
            no = _no_beside(ctx, s.span) if s.present and s.what in HEADS else None
            if no is None or asked(ctx, plant, s.what):
                continue
            text = f"“{_said(ctx, no)}” stands beside the {s.what} of plant {plant.label}. Are there {s.what}?"
            choices: Choices = [("yes", {s.what: True}), ("no", {s.what: False, f"{s.what}_from_top": None})]
            ctx.ask(Ask("2.3", no.cover(s.span), text, choices, plant, 0, s.what, always=True, visit=visit))


def _of_ripe_pods(ctx: Context, visit: VisitDraft) -> None:
    """`not quite all the pods are brown`, `nearly every pod brown`, `hardly a brown pod on it`."""
    for plant in visit.plants:
        for key in ("mature_pods", "mature_pods_percent"):
            entry = plant.last(key)
            if entry is None or entry.value in {"none", 0} or asked(ctx, plant, key):
                continue
            doubt = _no_beside(ctx, entry.span) or _beside(ctx, entry.span, _NEARLY if entry.value == 100 else _HARDLY)
            if doubt is None:
                continue
            ripe = f"Are {entry.value:g} percent" if isinstance(entry.value, (int, float)) else "Is at least one"
            text = f"“{_said(ctx, doubt)}” stands beside the ripe pods of plant {plant.label}. {ripe} of them ripe?"
            choices: Choices = [("yes", {key: entry.value}), ("not known", {key: None})]
            ctx.ask(Ask("2.3", doubt.cover(entry.span), text, choices, plant, 0, key, always=True, visit=visit))


def _beyond(ctx: Context, visit: VisitDraft) -> None:
    """`no flowers above node 6`: none there, which does not tell of the others."""
    pieces = ctx.lattice.pieces
    for plant in visit.plants:
        for s in plant.sightings:
            if s.present is not False or s.what not in HEADS or asked(ctx, plant, s.what):
                continue
            first = bisect_left(pieces, s.span.start, key=lambda p: p.span.start)
            last = bisect_left(pieces, s.span.end, key=lambda p: p.span.start)
            near = range(first, min(last + 1, len(pieces)))
            at = next((i for i in near if pieces[i].text in _BEYOND and ctx.use[i] == UNREAD), None)
            if at is None:
                continue
            place = ctx.span(at, at + 1)
            text = f"No {s.what} “{_said(ctx, place)}” a place: has plant {plant.label} none at all?"
            choices: Choices = [("none at all", {s.what: False}), ("not known", {s.what: None})]
            ctx.ask(Ask("2.3", s.span.cover(place), text, choices, plant, 0, s.what, always=True, visit=visit))


def _said(ctx: Context, span: Span) -> str:
    return " ".join(span.of(ctx.lattice.text).split())


def _no_beside(ctx: Context, span: Span) -> Span | None:
    """The unread no within a few words of `span`, in the same clause."""
    pieces = ctx.lattice.pieces
    first = bisect_left(pieces, span.start, key=lambda p: p.span.start)
    last = bisect_left(pieces, span.end, key=lambda p: p.span.start)
    for way in (range(first - 1, max(-1, first - 2 - _NEAR), -1), range(last, min(len(pieces), last + 1 + _NEAR))):
        for i in way:
            if pieces[i].form == "nl" or pieces[i].text in _ENDS:
                break
            behind = pieces[i + 1].text if i + 1 < len(pieces) else ""
            if (
                behind not in _NO_SUCH
                and ctx.use[i] == UNREAD
                and any(e.kind in _NO and e.how == "exact" for e in ctx.lattice.edges[i])
            ):
                return ctx.span(i, i + 1)
    return None


def _beside(ctx: Context, span: Span, words: frozenset[str]) -> Span | None:
    """One of `words` in `span`, or up to two words before it."""
    pieces = ctx.lattice.pieces
    first = bisect_left(pieces, span.start, key=lambda p: p.span.start)
    last = bisect_left(pieces, span.end, key=lambda p: p.span.start)
    at = next((i for i in range(max(0, first - 2), last) if pieces[i].text in words), None)
    return None if at is None else ctx.span(at, at + 1)
