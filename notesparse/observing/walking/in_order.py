"""`Trifs in order 10 10 9 11`, behind plants that were named together: a count for each of them (guide 4.21)."""

from __future__ import annotations

from notesparse.observing import leaves
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.lists import FEWEST, values_at
from notesparse.observing.walking.listening import Listener

_HEADS = {"TRIF": "trifoliates", "NODES": "nodes"}
_BETWEEN = frozenset(
    {
        "in",
        "order",
        "left",
        "to",
        "right",
        "were",
        "are",
        "by",
        "plant",
        "respectively",
        "as",
        "follows",
        ":",
        "-",
        ",",
        "=",
        "for",
        "them",
        "each",
        "counts",
        "count",
        "was",
        "is",
        "ran",
        "run",
        "went",
        "go",
    }
)
_ORDERED = frozenset({"order", "respectively", "follows", "plant", "each"})


def counts_in_order(w: Listener, i: int) -> int | None:
    """Puts the counts that begin behind the word at piece i; where they end, None where there are none."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    key = next(
        (_HEADS[e.kind] for e in ctx.lattice.edges[i] if e.kind in _HEADS and e.end == i + 1 and e.cost < 0.9), None
    )
    if key is None:
        return None
    live = ctx.living()
    if len(live) < FEWEST or any(p.last(key) is not None for p in live):
        return None
    k = i + 1
    while k < len(pieces) and pieces[k].text in _BETWEEN:
        k += 1
    values, end = values_at(ctx.lattice, k)
    told = {p.text for p in pieces[i:k]} & _ORDERED
    if len(values) < FEWEST or len(values) != len(live) or not (told or w.ends_at(end)):
        return None
    numbers = [_whole(w, a, b) for a, b in values]
    if any(n is None for n in numbers):
        return None
    ctx.close()
    before = ctx.plants
    for plant, (a, b), n in zip(live, values, numbers, strict=True):
        ctx.plants, ctx.explicit, ctx.group = [plant], True, None
        if n is not None:
            leaves.count(ctx, key, n, ctx.span(a, b))
    ctx.plants = before
    ctx.mark(i, end, EVIDENCE)
    return end


def _whole(w: Listener, a: int, b: int) -> int | None:
    return next((int(e.means) for e in w.ctx.lattice.edges[a] if e.kind == "INT" and e.end == b), None)
