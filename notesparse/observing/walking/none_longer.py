"""`pods, none over 3/16`, `no pods longer than a quarter inch`: a size that none of them passes. How long they are is not said,
and there may be some: neither a size nor a denial (guide 2.3, 4.12)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.fold import UNREAD
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import phrases_at

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/none_longer")

_NONE = frozenset({"NO", "NONE", "NOT"})
_ORGANS = frozenset({"POD", "SEED", "BEAN", "FLOWER"})
_OVER = _LISTED.words("over")
_COMPARED = _COMMON.words("bigger")
_SMALL = _LISTED.words("small")
_LEADS = _LISTED.words("leads")
_AROUND = _LISTED.words("around")
WHY = "a size that none of them passes: how long they are is not said"


def none_longer(w: Listener, i: int) -> int | None:
    """At piece i such words begin: they are shown as unread; where they end, None where there are none."""
    lattice, at = w.ctx.lattice, w.ctx.lattice.at
    k = i
    while at(k) in _LEADS and k + 1 < len(lattice.edges):
        k += 1
    if not {e.kind for e in lattice.edges[k]} & _NONE:
        return None
    k += 1
    while k < len(lattice.edges) and (at(k) in _SMALL or {e.kind for e in lattice.edges[k]} & _ORGANS):
        k += 1
    if at(k) in _COMPARED and at(k + 1) in {"than", "then"}:
        k += 2
    elif at(k) in _OVER:
        k += 1
    else:
        return None
    while at(k) in _AROUND:
        k += 1
    if k >= len(lattice.edges):
        return None
    end = max((p.end for p in phrases_at(lattice, k) if p.rule == "length" or p.form == "md"), default=0)
    if not end:
        return None
    if {at(x) for x in range(end, end + 4)} & {"that's", "thats", "that"}:
        return None  # no pods bigger than 1/4 inch, and that's the 2nd node down: it is the longest
    places = [p.end for p in phrases_at(lattice, end) if p.rule == "place"] if end < len(lattice.edges) else []
    end = max([end, *places])
    w.ctx.mark(i, end, UNREAD, WHY)
    return end
