"""`Fifth, inch long pods on the fourth node`, `and the sixth, pods three eighths`: the next plant by its ordinal, with no
word for a plant (guide 4.7)."""

from __future__ import annotations

from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.counted import cut, from_one
from notesparse.observing.walking.listening import Listener

_FEWEST = 2  # plants told of before
_NEAR = 5  # pieces behind the comma in which something is told
_TOLD = frozenset({"POD", "FLOWER", "SEED", "BEAN", "TRIF", "TRIPS", "NODES", "NO", "NONE", "BROWN", "R", "V", "SAME"})


def next_in_order(w: Listener, i: int) -> int | None:
    """Where what is said of the next plant begins, if its ordinal and a comma stand at piece i."""
    ctx, at = w.ctx, w.ctx.lattice.at
    live = [p.label for p in ctx.living()]
    wanted = len(live) + 1
    nth = any(e.kind == "ORD" and e.means == wanted and e.end == i + 1 for e in ctx.lattice.edges[i])
    if not nth or at(i + 1) != "," or len(live) < _FEWEST or not from_one(live):
        return None
    first = i - (at(i - 1) == "the")
    first -= at(first - 1) in {"and", "then"}
    if not (w.begins(first) or w.begins(i)):
        return None
    near = range(i + 2, min(i + 2 + _NEAR, len(ctx.use)))
    if not any(e.kind in _TOLD for x in near for e in ctx.lattice.edges[x]):
        return None
    ctx.close()
    ctx.begin([str(wanted)], ctx.span(i, i + 1))
    ctx.mark(i, i + 2, EVIDENCE)
    cut(w, i + 2)
    return i + 2
