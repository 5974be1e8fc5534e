"""A verb that stands for what was told last: `#3 does, third node down`, `3 and 4 don't`, `the others don't have any` (guide
4.7)."""

from __future__ import annotations

from notesparse.observing import organs
from notesparse.observing.draft import PlantDraft, Sighting
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.counted import cut, in_turn, numbers_at, odd_or_even
from notesparse.observing.walking.listening import Listener

_PLANT = frozenset({"plant", "plants", "plt", "pl", "p", "number", "no", "#", "the"})
_DOES = frozenset({"does", "do", "has", "is", "did"})
_DOES_NOT = frozenset(
    "doesn't doesnt don't dont didn't didnt isn't isnt aren't arent wasn't wasnt weren't werent hasn't haven't not".split()
)
_HAVE = frozenset({"have", "got", "show"})
_IT = frozenset({"any", "one", "it", "them", "some", "either", "yet", "though"})
_JOINS = frozenset({"and", "but", "while", "then", "though"})
_TOO = frozenset({"too", "also", "well"})
_BEHIND = frozenset({",", ".", ";", "at", "on", "though", "and", "but"})


def they_do(w: Listener, i: int) -> int | None:
    """At piece i some of the plants, of which what was told last is not so (or is so after all): where the verb ends."""
    ctx, at = w.ctx, w.ctx.lattice.at
    live = ctx.living()
    heads = i == 0 or ctx.lattice.pieces[i - 1].form in {"mark", "nl"} or at(i - 1) in _JOINS
    if ctx.visit is None or not live or not heads:
        return None
    last = max((s for p in live for s in p.sightings), key=lambda s: s.span.end, default=None)
    if last is None or last.present is None:
        return None
    got = _subject(w, i, live, last)
    if got is None:
        return None
    labels, verb = got
    says = at(verb) not in _DOES_NOT
    if says and at(verb) not in _DOES:
        return None
    end = verb + 1
    end += not says and at(end) in _HAVE
    while at(end) in _IT | _TOO | {"as"}:
        end += 1
    too = says and at(end - 1) in _TOO
    if end < len(ctx.use) and not (w.ends_at(end) or at(end) in _BEHIND):
        return None
    also_not = not last.present and not says and "either" in {at(k) for k in range(verb, end)}
    if (says == last.present and not (also_not or too)) or (not says and (last.places or last.length is not None)):
        return None  # 1 has one at the top node, 2 doesn't: it may have some lower
    if _something_between(w, last, i):
        return None
    there = [p for p in (ctx.visit.plant(label) for label in labels) if p is not None]
    if any(s.what == last.what for p in there for s in p.sightings):
        return None
    if len(there) < len(labels):
        if len(labels) > 1:
            return None
        there = ctx.begin(labels, ctx.span(i, verb))
    clear_waiting(w)
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = there, True, None
    ctx.open = organs.look(ctx, last.what, says, ctx.span(i, end))
    ctx.open_end = end
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


def _subject(w: Listener, i: int, live: list[PlantDraft], last: Sighting) -> tuple[list[str], int] | None:
    """`3 and 4`, `the last two`, `the even ones`, `the others`: which plants these are, and where their verb stands."""
    if w.ctx.lattice.at(i) in _DOES | _DOES_NOT:  # p2 9 trifs, doesn't either
        one = [p.label for p in w.ctx.plants] if w.ctx.explicit else []
        return (one, i) if len(one) == 1 else None
    bare = next((e for e in w.ctx.lattice.edges[i] if e.kind == "BARE"), None)
    got = (list(bare.means), bare.end) if bare is not None else numbers_at(w, i, _PLANT)
    if got is not None:
        return got
    at = w.ctx.lattice.at
    verb = i + (at(i) == "the")
    if at(verb) in {"others", "rest"}:
        told = {p.label for p in live if any(s.what == last.what for s in p.sightings)}
        left = [p.label for p in live if p.label not in told]
        return (left, verb + 1) if told and left else None
    return in_turn(w, i, [p.label for p in live]) or odd_or_even(w, i, len(live))


def _something_between(w: Listener, last: Sighting, i: int) -> bool:
    """A stop, a finding or words that were not understood stand between what was told last and piece i; a stop right
    before it does not part them."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    behind = [k for k in range(i) if pieces[k].span.start > last.span.end]
    found = ctx.visit is not None and any(f.span.start >= last.span.end for f in ctx.visit.findings)
    return found or any(pieces[k].text in {".", ";"} for k in behind if k < i - 1)
