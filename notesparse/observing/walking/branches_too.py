"""`13 trifs if you count the branches, 8 on the main stem`: only the main stem is counted (guide 4.8)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import leaves
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase
from notesparse.text.lattice import Edge

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/branches_too")

_COUNTING = _COMMON.words("counting_in") | _COMMON.words("with") | {"add"}
_SMALL = _LISTED.words("small")
_THEN = _LISTED.words("then")
_STEM = _LISTED.words("stem")


def branches_too(w: Listener, ph: Phrase) -> bool:
    """At the count `ph`: behind it stands that the branches are in it. It is shown as unread, and the count of the main
    stem is taken, where that follows."""
    ctx, at = w.ctx, w.ctx.lattice.at
    i = ph.end
    while at(i) in _COUNTING | _SMALL:
        i += 1
    said = {at(x) for x in range(ph.end, i)}
    ends = [e.end for e in _edges(w, i, "BRANCH")]
    if not ends or not said & _COUNTING:
        return False
    k = end = max(ends)
    ctx.mark(ph.start, end, UNREAD, "branches are counted with it: no evidence for a stage")
    w.resume_at = end
    while at(k) in _THEN:
        k += 1
    got = max(_edges(w, k, "INT"), key=lambda e: e.end, default=None)
    if got is None:
        return True
    stem = max((e.end for e in _edges(w, got.end, "TRIF")), default=got.end)
    while at(stem) in _STEM:
        stem += 1
    main = max((e.end for e in _edges(w, stem, "MAINSTEM")), default=0)
    if main and leaves.count(ctx, "trifoliates", int(got.means), ctx.span(k, main)) is not None:
        ctx.mark(end, k, FILLER)
        ctx.mark(k, main, EVIDENCE)
        w.resume_at = main
    return True


def _edges(w: Listener, i: int, kind: str) -> list[Edge]:
    """The readings of the words at piece i that are of this kind; none behind the note."""
    return [e for e in w.ctx.lattice.edges[i] if e.kind == kind] if i < len(w.ctx.use) else []
