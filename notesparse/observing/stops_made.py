"""So many stops were made, and a share of just so many is told: `5 stops. R5 at 3 of 5 stops` (guide 4.16). The number says nothing
more than the share does. Where the two are not the same it stays unread, and is shown."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.fold import FILLER, UNREAD, Context

_LISTED = cue_page("observing/stops_made")

_MADE = _LISTED.words("made")


def pass_over(ctx: Context) -> None:
    """Takes such a number as said with the share behind it."""
    shares = [(v, t) for v in ctx.visits if not v.plants for t in v.tallies if t.of is not None]
    if not shares:
        return
    lattice = ctx.lattice
    for i in range(1, len(lattice.pieces)):
        if ctx.use[i] != UNREAD or not any(e.kind == "STOPS" and e.how == "exact" for e in lattice.edges[i]):
            continue
        first, many = _number_before(ctx, i)
        at = lattice.pieces[i].span.end
        visit, share = next(((v, t) for v, t in shares if t.span.start >= at), (None, None))
        if many is None or share is None or visit is None or share.of != many:
            continue
        if visit is not ctx.visits[0] and visit.name_span is not None and visit.name_span.start > at:
            continue  # of the field before it
        first -= first > 0 and lattice.at(first - 1) in _MADE and ctx.use[first - 1] == UNREAD
        ctx.mark(first, i + 1, FILLER)


def _number_before(ctx: Context, i: int) -> tuple[int, int | None]:
    """Where the unread number right before piece i begins, and how much it is."""
    for k in range(max(0, i - 2), i):
        for e in ctx.lattice.edges[k]:
            if e.kind == "INT" and e.end == i and all(ctx.use[x] == UNREAD for x in range(k, i)):
                return k, int(e.means)
    return i, None
