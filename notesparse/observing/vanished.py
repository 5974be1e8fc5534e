"""Counts that were read, and of which nothing came into the record: they are told of as unread (guide 1.4)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from notesparse.observing.draft import VisitDraft
from notesparse.observing.fold import EVIDENCE, UNREAD, Context, numbers_of
from notesparse.reading.parse import Segment
from notesparse.span import Span

_COUNTS = {"trif": "trifoliates", "nodes": "nodes"}
_FIGURES = frozenset({"INT", "DEC"})


def tell(ctx: Context, visits: list[VisitDraft], segments: Iterable[Segment]) -> None:
    """Marks as unread a count that was taken for evidence and is neither in the record, nor asked, nor put right."""
    spans = [*(span for v in visits for span in _of(v)), *_told(ctx)]
    for segment in segments:
        ph = segment.phrase
        if ph is None or ph.rule not in _COUNTS or not any(e.kind in _FIGURES for _, e in ph.path):
            continue
        own = ctx.span(ph.start, ph.end)
        read = all(ctx.use[i] == EVIDENCE for i in range(ph.start, ph.end))
        if (
            read
            and not any(own.overlaps(s) for s in spans)
            and not _said_again(visits, _COUNTS[ph.rule], numbers_of(ph))
        ):
            ctx.mark(ph.start, ph.end, UNREAD, "nothing of it is in the record")


def _of(visit: VisitDraft) -> Iterator[Span]:
    """Every span of what a visit holds, what was set aside included."""
    yield from (entry.span for entry in visit.head.values())
    yield from (tally.span for tally in visit.tallies)
    yield from (said.span for said in visit.stated)
    yield from (found.span for found in visit.findings)
    for plant in visit.plants:
        yield from (entry.span for entries in plant.facts.values() for entry in entries)
        yield from (span for sighting in plant.sightings for span in sighting.spans)


def _told(ctx: Context) -> Iterator[Span]:
    """Every span of what the context tells of beside the visits."""
    yield from (ask.span for ask in ctx.asks)
    yield from (taken.span for taken in ctx.assumptions)
    yield from (old.span for old in ctx.corrected)


def _said_again(visits: list[VisitDraft], key: str, numbers: list[int]) -> bool:
    """`I had those two backwards, one is the nine`: the count stands, in other words."""
    return any(e.value in numbers for v in visits for p in v.plants for e in p.facts.get(key, ()))
