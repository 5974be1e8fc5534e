"""`13 trifs if you count the branches, 8 on the main stem`: only the main stem is counted (guide 4.8)."""

from __future__ import annotations

from notesparse.observing import leaves
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_COUNTING = frozenset({"count", "counted", "counting", "including", "incl", "include", "with", "plus", "add", "w"})
_SMALL = frozenset({"out", "ones", "that", "are", "one", "two", "three", "four", "five", "six", "if", "you", "i", "we", "all", "in", "the", "its", "on", "and", "side", "up"})
_THEN = frozenset({",", "but", "only", "and", "just", ";", "(", "it's", "it", "'s", "so"})
_STEM = frozenset({"on", "up", "the", "its"})


def branches_too(w: Listener, ph: Phrase) -> bool:
    """At the count `ph`: behind it stands that the branches are in it. It is shown as unread, and the count of the main
    stem is taken, where that follows."""
    ctx, at = w.ctx, w.ctx.lattice.at
    i = ph.end
    while at(i) in _COUNTING | _SMALL:
        i += 1
    said = {at(x) for x in range(ph.end, i)}
    ends = [e.end for e in ctx.lattice.edges[i] if e.kind == "BRANCH"] if i < len(ctx.use) else []
    if not ends or not said & _COUNTING:
        return False
    end = max(ends)
    ctx.mark(ph.start, end, UNREAD, "branches are counted with it: no evidence for a stage")
    k = end
    while at(k) in _THEN:
        k += 1
    got = max((e for e in ctx.lattice.edges[k] if e.kind == "INT"), key=lambda e: e.end, default=None) if k < len(ctx.use) else None
    w.resume_at = end
    if got is None:
        return True
    stem = max([got.end, *(e.end for e in ctx.lattice.edges[got.end] if e.kind == "TRIF")]) if got.end < len(ctx.use) else 0
    while at(stem) in _STEM:
        stem += 1
    mains = [e.end for e in ctx.lattice.edges[stem] if e.kind == "MAINSTEM"] if 0 < stem < len(ctx.use) else []
    if mains and leaves.count(ctx, "trifoliates", int(got.means), ctx.span(k, max(mains))) is not None:
        ctx.mark(end, k, FILLER)
        ctx.mark(k, max(mains), EVIDENCE)
        w.resume_at = max(mains)
    return True
