"""So many plants were counted, and another number is told of: `4 plants: 9 10 11 trifs`. Which of them is missing, or whether
the count is wrong, is not said, so the count is shown unread (guide 1.4)."""

from __future__ import annotations

from notesparse.observing.draft import VisitDraft
from notesparse.observing.fold import UNREAD, Context

_SEVERAL = 2  # plants


def tell(ctx: Context) -> None:
    """Shows the counts that the plants of their visit do not come to."""
    for visit, many, span in ctx.sampled:
        told = _only_listed(visit, span.end)
        if told is not None and _SEVERAL <= told != many:
            ctx.mark_span(span, UNREAD, f"{many} plants were counted, and {told} are told of")


def _only_listed(visit: VisitDraft, end: int) -> int | None:
    """How many plants the visit has, where all are told behind the count with no label of their own."""
    if visit.tallies or any(p.named or p.dropped or p.span.start < end for p in visit.plants):
        return None
    return len(visit.plants)
