"""`Neither 1 nor 3 is blooming`, `neither plant 2 nor plant 4 has a pod`: two plants that have it not (guide 4.7)."""

from __future__ import annotations

from notesparse.observing import organs
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.counted import cut, numbers_at
from notesparse.observing.walking.listening import Listener

_HAVE = frozenset("is are was were has have had shows show got".split())
_PLANT = frozenset({"plant", "plants", "plt", "pl", "p", "number", "no", "#", "the"})
_SMALL = frozenset({"a", "an", "any", "yet", "one", "single", "started", "even"})


def neither(w: Listener, i: int) -> int | None:
    """At piece i stands `neither`, and behind it two plants by their numbers: where what they have not begins."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if at(i) not in {"neither", "nor"} or (at(i) == "nor" and not w.begins(i)):
        return None
    one = numbers_at(w, i + 1, _PLANT)
    if one is None or at(one[1]) not in {"nor", "or", "and"} or len(one[0]) > 1:
        return None
    two = numbers_at(w, one[1] + 1, _PLANT)
    if two is None or len(two[0]) > 1 or at(two[1]) not in _HAVE:
        return None
    labels = one[0] + two[0]
    named = [p for p in ctx.living() if p.label in labels]
    first = not ctx.living() and labels == sorted(set(labels), key=int) and at(i) == "neither"
    if len(named) != 2 and not first:
        return None
    end = two[1] + 1
    while at(end) in _SMALL:
        end += 1
    clear_waiting(w)
    named = named if len(named) == 2 else ctx.begin(labels, ctx.span(i + 1, two[1]))
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = named, True, None
    ctx.statements.clear()
    ctx.mark(i, end, EVIDENCE)
    w.negative = (ctx.span(i, two[1]), i, end)
    cut(w, end)
    return end


_DOES = frozenset({"does", "do", "has", "is", "did"})
_BEHIND = frozenset({",", ".", ";", "at", "on", "though", "and", "but"})


def that_one_does(w: Listener, i: int) -> int | None:
    """`neither one has a flower open. #3 does, third node down`: at piece i a plant that has what the ones before have
    not; where the verb ends."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if ctx.visit is None or not w.begins(i) or not ctx.living():
        return None
    got = numbers_at(w, i, _PLANT)
    end = got[1] + 1 if got is not None else 0
    if got is None or len(got[0]) > 1 or at(got[1]) not in _DOES:
        return None
    if end < len(ctx.use) and not (w.ends_at(end) or at(end) in _BEHIND):
        return None
    last = max((s for p in ctx.living() for s in p.sightings), key=lambda s: s.span.end, default=None)
    between = last is None or any(
        at(k) in {".", ";"} for k in range(i - 1) if ctx.lattice.pieces[k].span.start > last.span.end
    )
    if last is None or last.present is not False or between:
        return None
    there = ctx.visit.plant(got[0][0])
    if there is not None and any(s.what == last.what for s in there.sightings):
        return None
    plant = there or ctx.begin(got[0], ctx.span(i, got[1]))[0]
    clear_waiting(w)
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = [plant], True, None
    ctx.open = organs.look(ctx, last.what, True, ctx.span(i, end))
    ctx.open_end = end
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end
