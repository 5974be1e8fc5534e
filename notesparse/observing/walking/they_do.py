"""A verb that stands for what was told last: `#3 does, third node down`, `3 and 4 don't`, `the others don't have any` (guide
4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import organs
from notesparse.observing.draft import Entry, PlantDraft, Sighting
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.counted import (
    cut,
    in_their_row,
    in_turn,
    labels_at,
    may_be_new,
    odd_or_even,
)
from notesparse.observing.walking.listening import Listener

_LISTED = cue_page("walking/they_do")
_COMMON = cue_page("shared")

_PLANT = _COMMON.words("plant_no")
_DOES = _LISTED.words("does")
_DOES_NOT = _COMMON.words("does_not") | _COMMON.words("is_not") | _COMMON.words("no") | {"none", "not"}
_NONE = _COMMON.words("none") | _COMMON.words("no")
_HAVE = _LISTED.words("have")
_IT = _LISTED.words("it")
_JOINS = _COMMON.words("and") | _COMMON.words("but")
_TOO = _LISTED.words("too")
_BEHIND = _LISTED.words("behind")


def they_do(w: Listener, i: int) -> int | None:
    """At piece i some of the plants, of which what was told last is not so (or is so after all): where the verb ends."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if ctx.visit is None or not _may_open(w, i) or not _may_speak(w, i):
        return None
    live = ctx.living()
    last = max((s for p in live for s in p.sightings), key=lambda s: s.span.end, default=None)
    ripe = _ripe_last(live, last)
    if ripe is not None:
        return _no_ripe_ones(w, i, live, ripe)
    if last is None or last.present is None:
        return None
    got = _subject(w, i, live, last)
    if got is None:
        return None
    labels, verb = got
    at_all = _none_at_all(w, verb)
    if not _opens(w, i) and at_all is None:
        return None
    if at_all is None and ((at(verb) in _NONE and at(i) in _PLANT) or (at(verb) == "do" and len(labels) == 1)):
        return None  # plant 2 none, top or bottom; B - do.: the same again
    end = _does(w, verb, last) if at_all is None else at_all if last.present else None
    if end is None or _something_between(w, last, i):
        return None
    says = at_all is None and at(verb) not in _DOES_NOT
    there = _plants_of(w, labels, last.what, (i, verb))
    if there is None:
        return None
    clear_waiting(w)
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = there, True, None
    ctx.open = organs.look(ctx, last.what, says, ctx.span(i, end))
    ctx.open_end, w.stands_for = end, last.what
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


def _does(w: Listener, verb: int, last: Sighting) -> int | None:
    """Where `does`, `don't`, `does too` ends at piece `verb`, if it says something of these plants."""
    ctx, at = w.ctx, w.ctx.lattice.at
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
    return end


_BEHIND_NONE_AT_ALL = _LISTED.words("behind_none_at_all")
_BEHIND_NONE_AT_ALL_2 = _LISTED.words("behind_none_at_all_2")


def _none_at_all(w: Listener, verb: int) -> int | None:
    """`don't have any`, `haven't got any at all`, `has none`, `do not have one`: none of it at any place; where it ends."""
    ctx, at = w.ctx, w.ctx.lattice.at
    end = verb
    while at(end) in _BEHIND_NONE_AT_ALL:
        end += 1
    if at(end) in _HAVING and at(end + 1) in {"none", "nothing"}:
        end += 2
    else:
        if at(end) in _VERBS and at(end + 1) == "not":
            end += 2
        elif at(end) in _DOES_NOT - _NONE - {"not"}:
            end += 1
        else:
            return None
        end += at(end) in _HAVING
        end += at(end) in _HAVING  # have got
        if at(end) not in {"any", "one", "none"}:
            return None
        end += 1
    while at(end) in _BEHIND_NONE_AT_ALL_2:
        if at(end) == "on" and at(end + 1) not in {"it", "them"}:
            break
        end += 1
    goes_on = end < len(ctx.use) and not (w.ends_at(end) or at(end) in _BEHIND - {"at", "on"})
    named = end < len(ctx.use) and any(e.kind in {"PLANT", "PLETTER"} for e in ctx.lattice.edges[end])
    return None if goes_on and not named else end


_HAVING = _COMMON.words("having") | _COMMON.words("showing")
_VERBS = _LISTED.words("verbs")


def _plants_of(w: Listener, labels: list[str], what: str, at: tuple[int, int]) -> list[PlantDraft] | None:
    """The plants of these labels, begun here if they are the next; None where `what` was told of one of them already."""
    ctx = w.ctx
    row = in_their_row(ctx.living())
    there = [p for p in (row.get(label) for label in labels) if p is not None]
    if any(s.what == what for p in there for s in p.sightings):
        return None
    if len(there) < len(labels):
        if len(labels) > 1 and not may_be_new(w, labels):
            return None
        known = {p.label for p in there}
        there += ctx.begin([x for x in labels if x not in known], ctx.span(*at))
    return there


def _ripe_last(live: list[PlantDraft], last: Sighting | None) -> Sighting | None:
    """What was told last is a ripe pod: as a sighting of them, to ask by; None where it was something else."""
    told = [e for p in live if (e := p.last("mature_pods")) is not None and e.value == "one"]
    newest = max(told, key=lambda e: e.span.end, default=None)
    if newest is None or (last is not None and last.span.start > newest.span.end):
        return None
    return Sighting("mature", True, [newest.span])


def _no_ripe_ones(w: Listener, i: int, live: list[PlantDraft], ripe: Sighting) -> int | None:
    """`plant 1 has one brown pod, plants 3 and 4 haven't got any`: where the words end."""
    ctx = w.ctx
    got = _subject(w, i, live, ripe)
    end = _none_at_all(w, got[1]) if got is not None else None
    if got is None or end is None or _something_between(w, ripe, i):
        return None
    there = _plants_of(w, got[0], "mature", (i, got[1]))
    if there is None or any(p.last("mature_pods") is not None for p in there):
        return None
    clear_waiting(w)
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = there, True, None
    for p in there:
        p.put("mature_pods", "none", ctx.span(i, end))
    ctx.open, ctx.last_what = [], "mature"
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


_WHY = "otherwise than the others: how is not said"


def not_on(w: Listener, i: int) -> int | None:
    """`Beans touching on 1, 3 and 4. Not on 2, gaps there`, `flowers on 1 and 3, but not on 2`: where the words end; to
    the end of the sentence where it is not told what they have instead."""
    ctx, at = w.ctx, w.ctx.lattice.at
    start = i + (at(i) == "but")
    none = at(start) == "none"  # pods on 1, half an inch. None on the other two
    behind = w.owned_to == i and at(start) == "not"  # flowers on 1 and 2 not 3 and 4
    on = at(start + 1) in {"on", "in"}
    if not (none or at(start) == "not") or not (on or behind) or ctx.visit is None or not (behind or _opens(w, i)):
        return None
    live = ctx.living()
    last = max((s for p in live for s in p.sightings), key=lambda s: s.span.end, default=None)
    if none and (last is None or _ripe_last(live, last) is not None or _something_between(w, last, i)):
        return None
    got = _subject(w, start + 1 + on, live, last) if last is not None and last.present else None
    if got is not None and at(got[1]) in {"or", "nor"} and (more := labels_at(w, got[1] + 1, _PLANT)) is not None:
        got = [*got[0], *more[0]], more[1]  # not on 2 or 3
    if got is None or last is None or not (w.ends_at(got[1]) or at(got[1]) in {"and", "but"}):
        return None
    labels, end = got
    there = [p for p in (ctx.visit.plant(label) for label in labels) if p is not None]
    plain = none or not (last.places or last.length is not None or last.fill is not None)
    full = not none and last.fill is not None and last.fill.value == "full"
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


_FOR_MAY_OPEN = _LISTED.words("for_may_open")


def _may_open(w: Listener, i: int) -> bool:
    """With no mark before, only where the words name their plants: `the first two don't have any`."""
    return _opens(w, i) or w.ctx.lattice.at(i) in _FOR_MAY_OPEN


_SPEAKS = _DOES | _DOES_NOT | _HAVING | _VERBS | _LISTED.words("speaks")
_SOME = _LISTED.words("some")


def _may_speak(w: Listener, i: int) -> bool:
    """A cheap look first: a verb, numbers of plants before one, or words that may name some of them."""
    at, edges = w.ctx.lattice.at, w.ctx.lattice.edges
    if at(i) in _DOES | _DOES_NOT:
        return True
    got = labels_at(w, i, _PLANT)
    if got is not None:
        return at(got[1]) in _SPEAKS
    first = i + (at(i) == "the")
    return at(first) in _SOME or (first < len(edges) and any(e.kind == "ORD" for e in edges[first]))


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
    if at(verb) in {"others", "rest", "remaining"} or (at(verb) == "other" and number_at(w, verb + 1) is not None):
        left = _untold(live, last.what)
        many = number_at(w, verb + 1) if at(verb) in {"other", "remaining"} else None
        end = many.end if many is not None else verb + 1
        end += at(end) in {"plants", "ones"}
        fits = many is None or int(many.means) == len(left)
        return (left, end) if fits and 0 < len(left) < len(live) else None
    row = list(in_their_row(live)) if at(verb) in {"first", "last", "other"} else []
    return in_turn(w, i, row) or odd_or_even(w, i, len(live)) or _nth(w, i, live)


def _nth(w: Listener, i: int, live: list[PlantDraft]) -> tuple[list[str], int] | None:
    """`the third doesn't have any`: by its place in the row, that of a plant told of or of the next."""
    at, edges = w.ctx.lattice.at, w.ctx.lattice.edges
    first = i + (at(i) == "the")
    nth = next((e for e in edges[first] if e.kind == "ORD" and e.how != "sound"), None) if first < len(edges) else None
    if nth is None or not 0 < int(nth.means) <= len(live) + 1 or not all(p.label.isdecimal() for p in live):
        return None
    return [str(nth.means)], nth.end + (at(nth.end) in {"one", "plant"})


def _untold(live: list[PlantDraft], what: str) -> list[str]:
    """The plants of which it was not told."""
    if what == "mature":
        return [p.label for p in live if p.last("mature_pods") is None and p.last("mature_pods_percent") is None]
    told = {p.label for p in live if any(s.what == what for s in p.sightings)}
    return [p.label for p in live if p.label not in told]


def _something_between(w: Listener, last: Sighting, i: int) -> bool:
    """A stop, a finding or words that were not understood stand between what was told last and piece i; a stop right
    before it does not part them."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    behind = range(ctx.lattice.first_from(last.span.end + 1), i)
    found = ctx.visit is not None and any(f.span.start >= last.span.end for f in ctx.visit.findings)
    return found or any(pieces[k].text in {".", ";"} for k in behind if k < i - 1)
