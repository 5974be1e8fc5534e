"""A verb that stands for what was told last: `#3 does, third node down`, `3 and 4 don't`, `the others don't have any` (guide
4.7)."""

from __future__ import annotations

from notesparse.observing import organs
from notesparse.observing.draft import Entry, PlantDraft, Sighting
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.counted import cut, in_turn, labels_at, may_be_new, odd_or_even
from notesparse.observing.walking.listening import Listener

_PLANT = frozenset({"plant", "plants", "plt", "pl", "p", "number", "no", "#", "the"})
_DOES = frozenset({"does", "do", "has", "is", "did"})
_DOES_NOT = frozenset(
    "doesn't doesnt don't dont didn't didnt isn't isnt aren't arent wasn't wasnt weren't werent hasn't haven't not nope no none".split()
)
_NONE = frozenset({"nope", "none", "no"})
_HAVE = frozenset({"have", "got", "show"})
_IT = frozenset({"any", "one", "it", "them", "some", "either", "yet", "though"})
_JOINS = frozenset({"and", "but", "while", "then", "though"})
_TOO = frozenset({"too", "also", "well"})
_BEHIND = frozenset({",", ".", ";", "at", "on", "though", "and", "but", "only", "just", "with"})


def they_do(w: Listener, i: int) -> int | None:
    """At piece i some of the plants, of which what was told last is not so (or is so after all): where the verb ends."""
    ctx, at = w.ctx, w.ctx.lattice.at
    live = ctx.living()
    if ctx.visit is None or not live or not _opens(w, i):
        return None
    last = max((s for p in live for s in p.sightings), key=lambda s: s.span.end, default=None)
    if last is None or last.present is None:
        return None
    got = _subject(w, i, live, last)
    if got is None:
        return None
    labels, verb = got
    if at(verb) in _NONE and at(i) in _PLANT:
        return None  # plant 2 none, top or bottom
    if at(verb) == "do" and len(labels) == 1:
        return None  # B - do.: the same again
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
    placed = (last.places or last.length is not None) and w.stands_for != last.what and at(verb) not in _NONE
    if (says == last.present and not (also_not or too)) or (not says and placed):
        return None  # 1 has one at the top node, 2 doesn't: it may have some lower
    if _something_between(w, last, i):
        return None
    there = [p for p in (ctx.visit.plant(label) for label in labels) if p is not None]
    if any(s.what == last.what for p in there for s in p.sightings):
        return None
    if len(there) < len(labels):
        if len(labels) > 1 and not may_be_new(w, labels):
            return None
        known = {p.label for p in there}
        there += ctx.begin([x for x in labels if x not in known], ctx.span(i, verb))
    clear_waiting(w)
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = there, True, None
    ctx.open = organs.look(ctx, last.what, says, ctx.span(i, end))
    ctx.open_end, w.stands_for = end, last.what
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


_WHY = "otherwise than the others: how is not said"


def not_on(w: Listener, i: int) -> int | None:
    """`Beans touching on 1, 3 and 4. Not on 2, gaps there`, `flowers on 1 and 3, but not on 2`: where the words end; to
    the end of the sentence where it is not told what they have instead."""
    ctx, at = w.ctx, w.ctx.lattice.at
    start = i + (at(i) == "but")
    if at(start) != "not" or at(start + 1) not in {"on", "in"} or ctx.visit is None or not _opens(w, i):
        return None
    live = ctx.living()
    last = max((s for p in live for s in p.sightings), key=lambda s: s.span.end, default=None)
    got = _subject(w, start + 2, live, last) if last is not None and last.present else None
    if got is None or last is None or not (w.ends_at(got[1]) or at(got[1]) in {"and", "but"}):
        return None
    labels, end = got
    there = [p for p in (ctx.visit.plant(label) for label in labels) if p is not None]
    plain = not (last.places or last.length is not None or last.fill is not None)
    full = last.fill is not None and last.fill.value == "full"
    if any(s.what == last.what for p in there for s in p.sightings) or (len(there) < len(labels) and there):
        return None
    if not (plain or full):
        stop = next((x for x in range(end, len(ctx.use)) if w.hard_end(x)), len(ctx.use))
        ctx.mark(i, stop, UNREAD, _WHY)
        return stop
    clear_waiting(w)
    ctx.close()
    span = ctx.span(i, end)
    ctx.plants, ctx.explicit, ctx.group = there or ctx.begin(labels, span), True, None
    ctx.open = organs.look(ctx, last.what, full, span)
    for s in ctx.open if full else []:
        s.fill = Entry("partial", span)
    ctx.open_end = end
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


def _opens(w: Listener, i: int) -> bool:
    return i == 0 or w.ctx.lattice.pieces[i - 1].form in {"mark", "nl"} or w.ctx.lattice.at(i - 1) in _JOINS


def _subject(w: Listener, i: int, live: list[PlantDraft], last: Sighting) -> tuple[list[str], int] | None:
    """`3 and 4`, `the last two`, `the even ones`, `the others`: which plants these are, and where their verb stands."""
    if w.ctx.lattice.at(i) in (_DOES | _DOES_NOT) - _NONE - {"not"}:  # p2 9 trifs, doesn't either
        one = [p.label for p in w.ctx.plants] if w.ctx.explicit else []
        return (one, i) if len(one) == 1 else None
    got = labels_at(w, i, _PLANT)
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
