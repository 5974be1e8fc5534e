"""What is told of several fields together is of each of them: `Dahl and Heron both R4`."""

from __future__ import annotations

import copy
from dataclasses import dataclass, field

from notesparse.observing.draft import VisitDraft
from notesparse.observing.fold import Context
from notesparse.span import Span

_BETWEEN = frozenset({"and", "&", ",", "+", "/", "the"})
"""What stands between the names of a list."""


@dataclass(slots=True)
class Together:
    """Fields named in one list, and from where to where (characters) of the note is told of all of them."""

    visits: list[VisitDraft] = field(default_factory=list)
    since: int = 0
    until: int | None = None


def named(groups: list[Together], ctx: Context, *, listed: bool, span: Span) -> None:
    """A field was named, and its visit begun: the next one of a list (`listed`), or the end of what is told of the list
    before."""
    group = groups[-1] if groups and groups[-1].until is None else None
    between = {p.text for p in ctx.lattice.pieces if group is not None and group.since <= p.span.start < span.start}
    if group is not None and not (listed and between <= _BETWEEN):
        group.until, group = span.start, None
    if not listed:
        return
    if group is None:
        group = Together()
        groups.append(group)
    group.visits.append(ctx.here())
    group.since = span.end


def like_the_last(ctx: Context, last: VisitDraft, span: Span) -> bool:
    """`River 2 same`: what was told of the field before is told of the visit in hand; nothing of its plants, and False
    where they were all that was told."""
    here = ctx.here()
    if here is last or any(not p.dropped for p in last.plants):
        return False
    for kind in ("stated", "tallies", "findings"):
        getattr(here, kind).extend(copy.copy(x) for x in getattr(last, kind))
    for x in (*here.stated, *here.tallies, *here.findings):
        x.span = span
    return not here.empty


def share(ctx: Context, groups: list[Together]) -> None:
    """Gives every field of a list what was told of them all, which the last one has got."""
    for group in groups:
        *others, last = group.visits
        end = group.until if group.until is not None else len(ctx.lattice.text)
        asked = [a.plant for a in ctx.asks if a.plant is not None]
        for visit in others:
            for kind in ("stated", "tallies", "findings"):
                told = [x for x in getattr(last, kind) if group.since <= x.span.start < end]
                getattr(visit, kind)[:0] = [copy.copy(x) for x in told]
            if not visit.plants and not any(p is q for p in last.plants for q in asked):
                visit.plants += copy.deepcopy([p for p in last.plants if group.since <= p.span.start < end])
            for key, entry in last.head.items():
                visit.head.setdefault(key, copy.copy(entry))
