"""`Fifth, inch long pods on the fourth node`, `Three is like one`, `On three and four there aren't any pods`: the plants
that come next, by their ordinal or their number, with no word for a plant (guide 4.7)."""

from __future__ import annotations

from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.counted import cut, from_one, labels_at, may_be_new
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


_OF_ONE = frozenset({"is", "has", "'s", "s", "was"})
_OF_MANY = frozenset({"had", "have", "are", "were", "both", "all", "got", "don't", "dont", "didn't", "aren't"})
_THERE = frozenset({"the", "there", "it", "its", "it's", "they", "they're", "i", "you"})


def next_by_number(w: Listener, i: int) -> int | None:
    """Where what is said of them begins, if the numbers of plants that come next, or were only counted, and a verb stand at
    piece i."""
    ctx, at, pieces = w.ctx, w.ctx.lattice.at, w.ctx.lattice.pieces
    live = ctx.living()
    opens = i == 0 or pieces[i - 1].form in {"mark", "nl"} or at(i - 1) in {"and", "but"}
    told = any(p.named for p in live) if live else ctx.sample is not None
    if not opens or not told or (ctx.visit is not None and ctx.visit.tallies):
        return None
    on = at(i) == "on"
    got = labels_at(w, i + on)
    if got is None or not may_be_new(w, got[0]) or [int(x) for x in got[0]] != sorted({int(x) for x in got[0]}):
        return None
    known = {p.label: p for p in live}
    new = [x for x in got[0] if x not in known]
    alone = len(got[0]) == 1
    if not new or (alone and (len(live) < _FEWEST or new != [str(len(live) + 1)])):
        return None
    behind = at(got[1])
    verb = behind in (_OF_ONE if alone else _OF_MANY) or (behind == "'" and at(got[1] + 1) == "s")
    if not (behind in _THERE if on else verb):
        return None
    ctx.close()
    made = {p.label: p for p in ctx.begin(new, ctx.span(i, got[1]))}
    ctx.plants = [(known | made)[x] for x in got[0]]
    ctx.mark(i, got[1], EVIDENCE)
    cut(w, got[1])
    return got[1]
