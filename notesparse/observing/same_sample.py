"""Two counts of one thing in one sample: `10 plants. 6 blooming, 3 had one down low only`, `6 of 10 blooming. 3 of 10 had
one down low` are no two samples (guide 4.16).

Whether the three are among the six is not said, so they are shown unread; `3 more` are told with the six.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.draft import TallyDraft, VisitDraft
from notesparse.observing.fold import UNREAD, Context

_COMMON = cue_page("shared")
_LISTED = cue_page("observing/same_sample")

_OF = _LISTED.words("of")
_MORE = _LISTED.words("more")
_OTHERS = _COMMON.words("rest") | {"other", "stop"}
_LOW = _COMMON.words("low") | {"low", "lower"}
_FEW = 3
_TWO = 2  # tallies


def tell(ctx: Context) -> None:
    """Leaves no such second count in the visits."""
    for visit in ctx.visits:
        if len(visit.tallies) < _TWO:
            continue
        for t in list(visit.tallies[1:]):
            earlier = next((x for x in visit.tallies if x is not t and _again(ctx, visit, x, t)), None)
            if earlier is not None:
                _told_twice(ctx, visit, earlier, t)


def _again(ctx: Context, visit: VisitDraft, x: TallyDraft, t: TallyDraft) -> bool:
    """`t` counts what `x` counted, with no word of how many there were."""
    if x.what != t.what or x.of != t.of or not t.of or x.span.end > t.span.start or t.count is None or x.count is None:
        return False
    if any(y.exclusive or y.negative or y.stops for y in (x, t)):
        return False
    again = _words(ctx, t.span.start, t.span.end)
    if _OF & again and not (_LOW & again | _LOW & _words_behind(ctx, t.span.end) and t.count <= x.count):
        return False
    if any(v is visit and x.span.end <= span.start < t.span.start for v, _, span in ctx.sampled):
        return False
    return not _OTHERS & _words(ctx, x.span.end, t.span.end)


def _words(ctx: Context, start: int, end: int) -> set[str]:
    first, last = ctx.lattice.first_from(start), ctx.lattice.first_from(end)
    return {p.text for p in ctx.lattice.pieces[first:last]}


def _words_behind(ctx: Context, end: int) -> set[str]:
    """Up to three words of the same clause."""
    out: set[str] = set()
    first = ctx.lattice.first_from(end)
    for p in ctx.lattice.pieces[first : first + _FEW]:
        if p.form in {"mark", "nl"}:
            break
        out.add(p.text)
    return out


def _told_twice(ctx: Context, visit: VisitDraft, x: TallyDraft, t: TallyDraft) -> None:
    visit.tallies.remove(t)
    more = _MORE & _words(ctx, x.span.end, t.span.end)
    if more and (x.count or 0) + (t.count or 0) <= (x.of or 0):
        x.count = (x.count or 0) + (t.count or 0)
        return
    ctx.mark_span(t.span, UNREAD, "of the same plants: whether these are among those is not said")
