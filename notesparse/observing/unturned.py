"""A no that nobody could read, beside flowers, pods or seed that were read as there: asked (guide 2.3)."""

from __future__ import annotations

from bisect import bisect_left

from notesparse.observing.draft import Ask, VisitDraft
from notesparse.observing.fold import HEADS, UNREAD, Context
from notesparse.observing.settling.questions import Choices
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
        *("many", "much", "just", "only", "counting", "lower", "low", "below", "sure", "bad"),  # not many
    }
)
"""Words behind which the no is another one."""
_NEAR = 5  # words between the two
_ENDS = frozenset({",", ";", ".", "!", "?", "(", ")", "|"})


def ask(ctx: Context) -> None:
    """Asks of every organ that has such a no beside it; it is recorded as read."""
    for visit in ctx.visits:
        _of_plants(ctx, visit)
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
            if no is None or any(a.plant is plant and a.key == s.what for a in ctx.asks):
                continue
            text = f"“{_said(ctx, no)}” stands beside the {s.what} of plant {plant.label}. Are there {s.what}?"
            choices: Choices = [("yes", {s.what: True}), ("no", {s.what: False, f"{s.what}_from_top": None})]
            ctx.ask(Ask("2.3", no.cover(s.span), text, choices, plant, 0, s.what, always=True, visit=visit))


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
