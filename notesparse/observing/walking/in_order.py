"""`Trifs in order 10 10 9 11`, `trifs? 8 8 7 in that order`, behind plants that were named together or only counted: a count
for each of them (guide 4.21)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import leaves
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.lists import FEWEST, values_at
from notesparse.observing.walking.listening import Listener

_LISTED = cue_page("walking/in_order")
_COMMON = cue_page("shared")

_HEADS = {"TRIF": "trifoliates", "NODES": "nodes", "NODE": "nodes"}
_COUNTS = _COMMON.words("count")
_BETWEEN = _LISTED.words("between")
_ORDERED = _LISTED.words("ordered")


def counts_in_order(w: Listener, i: int) -> int | None:
    """Puts the counts that begin behind the word at piece i; where they end, None where there are none."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    key = next(
        (_HEADS[e.kind] for e in ctx.lattice.edges[i] if e.kind in _HEADS and e.end == i + 1 and e.cost < 0.9), None
    )
    of_one = any(e.kind == "NODE" for e in ctx.lattice.edges[i]) and ctx.lattice.at(i + 1) not in _COUNTS
    if key is None or of_one:
        return None
    live = ctx.living()
    looked_at = ctx.sample if not live and ctx.sample is not None else len(live)
    if looked_at < FEWEST or any(p.last(key) is not None for p in live):
        return None
    k = i + 1
    while k < len(pieces) and pieces[k].text in _BETWEEN:
        k += 1
    values, end = values_at(ctx.lattice, k)
    told = {p.text for p in pieces[i:k]} & _ORDERED
    behind = _in_that_order(w, end)
    if len(values) < FEWEST or len(values) != looked_at or not (told or behind > end or (live and w.ends_at(end))):
        return None
    numbers = [_whole(w, a, b) for a, b in values]
    if any(n is None for n in numbers):
        return None
    ctx.close()
    if not live:
        live = ctx.begin([str(n) for n in range(1, looked_at + 1)], ctx.span(i, k))
    before = ctx.plants
    for plant, (a, b), n in zip(live, values, numbers, strict=True):
        ctx.plants, ctx.explicit, ctx.group = [plant], True, None
        if n is not None:
            leaves.count(ctx, key, n, ctx.span(a, b))
    ctx.plants = before
    ctx.mark(i, behind, EVIDENCE)
    return behind


_FOR_IN_THAT_ORDER = _LISTED.words("for_in_that_order")


def _in_that_order(w: Listener, end: int) -> int:
    """Where `in that order`, `in the same order` ends that stands behind the counts; `end` where it does not."""
    at, k = w.ctx.lattice.at, end + (w.ctx.lattice.at(end) == ",")
    if at(k) != "in":
        return end
    k += 1
    while at(k) in _FOR_IN_THAT_ORDER:
        k += 1
    return k + 1 if at(k) == "order" else end


def _whole(w: Listener, a: int, b: int) -> int | None:
    return next((int(e.means) for e in w.ctx.lattice.edges[a] if e.kind == "INT" and e.end == b), None)
