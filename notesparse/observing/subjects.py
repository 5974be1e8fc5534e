"""A statement whose subject nobody could read: it is of no plant that was told of before (guide 1.1).

`1: 8 trifs. 2: 9 trifs. The borders are podded`, `the tallest has blooms`, `the other two had no bloom`: what stands
before the verb is who has it, and where that is not understood the last plant does not get it.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing.draft import PlantDraft, Sighting
from notesparse.observing.fold import EVIDENCE, UNREAD, Context
from notesparse.observing.uncounted import DENIED, ENDS, around
from notesparse.span import Span

_LISTED = cue_page("observing/subjects")
_COMMON = cue_page("shared")

_VERBS = _COMMON.words("being_or_having") | _COMMON.words("showing") | {"'ve"}
_STANDS_FOR = _LISTED.words("stands_for")
_WITH_THE_VERB = _LISTED.words("with_the_verb")
_WHY = "whose this is was not understood"


def leave_out(ctx: Context) -> None:
    """Takes such statements from the plants that they were given to."""
    for visit in ctx.visits:
        for plant in list(visit.plants):
            if _one_more(visit.plants, plant):
                for s in plant.sightings:
                    for span in s.spans:
                        ctx.mark_span(span, UNREAD, _WHY)
                plant.sightings.clear()
            for s in [s for s in plant.sightings if not s.copied and _given_wrongly(ctx, plant, s)]:
                plant.sightings.remove(s)
                if any(s.spans == t.spans for q in visit.plants if q is not plant for t in q.sightings):
                    continue  # it is read of the plant that it is of
                for span in s.spans:
                    ctx.mark_span(span, UNREAD, _WHY)
            for key in ("stated_v", "stated_r"):
                for e in [e for e in plant.facts.get(key, []) if not (e.copied or e.group) and _nobodys(ctx, e.span)]:
                    plant.facts[key].remove(e)
                    ctx.mark_span(e.span, UNREAD, _WHY)
                if not plant.facts.get(key, [True]):
                    del plant.facts[key]
            if not plant.named and plant.empty and not any(a.plant is plant for a in ctx.asks):
                visit.plants.remove(plant)


def _one_more(plants: Sequence[PlantDraft], plant: PlantDraft) -> bool:
    """`p1 9 trifs p2 8 trifs`, and on the next line `blooming top node`: of which of the plants, or of one more, is not
    said."""
    if plant.named or plant.counted or plant.facts or not plant.sightings or plant is not plants[-1]:
        return False
    return len(plants) > 2 and all(p.named for p in plants[:-1])


def _given_wrongly(ctx: Context, plant: PlantDraft, s: Sighting) -> bool:
    if _behind_others(ctx, plant, s):
        return True
    return _headed_by_another(ctx, plant, s.span) or (not s.group and _not_whose(ctx, plant, s.span))


_NEAR = 6  # pieces between the numbers and what is said
_JOIN = _LISTED.words("join")


def _behind_others(ctx: Context, plant: PlantDraft, s: Sighting) -> bool:
    """`One and three I can feel it`, `all flowering one and three up in the top two nodes`: behind numbers that nobody read,
    joined as plants are, and of which this plant is none."""
    if not plant.label.isdigit():
        return False
    starts = [s.span, *[x for x in s.spans if x.start > s.span.start]]
    return any(_list_before(ctx, plant, said) for said in starts)


def _list_before(ctx: Context, plant: PlantDraft, said: Span) -> bool:
    at = ctx.lattice.first_from(said.start)
    for i in range(at - 1, max(0, at - _NEAR), -1):
        if ctx.use[i] == EVIDENCE or ctx.lattice.at(i) in {".", ";"} or ctx.lattice.pieces[i].form == "nl":
            return False
        if ctx.lattice.at(i) in _JOIN and ctx.use[i - 1] == UNREAD and ctx.use[i + 1] == UNREAD:
            labels = {
                str(e.means) for k in (i - 1, i + 1) for e in ctx.lattice.edges[k] if e.kind == "INT" and e.cost < 1
            }
            return len(labels) > 1 and plant.label not in labels
    return False


_BEHIND_HEADED_BY_ANOTHER = _COMMON.words("is_not")


def _headed_by_another(ctx: Context, plant: PlantDraft, said: Span) -> bool:
    """`Three is the odd one out, half inch pod ...`, `On two I can feel beans`: the number at the head of the sentence is
    a plant's, was not understood, and is not this plant's."""
    at = ctx.lattice.first_from(said.start)
    first = around(ctx, at, ENDS)[0]
    head = first + (ctx.lattice.at(first) in _AT_THE_HEAD)
    number = next((e for e in ctx.lattice.edges[head] if e.kind == "INT" and e.how in {"exact", "number"}), None)
    if number is None or number.end > at or any(ctx.use[i] != UNREAD for i in range(head, number.end)):
        return False
    led = head > first or ctx.lattice.at(number.end) in _VERBS | _BEHIND_HEADED_BY_ANOTHER
    begins = ctx.lattice.pieces[first].span.start
    told = any(begins <= p.span.start < said.start for v in ctx.visits for p in v.plants if p.named)
    return led and not told and plant.label != str(number.means)


_AT_THE_HEAD = _LISTED.words("at_the_head")


def _not_whose(ctx: Context, plant: PlantDraft, said: Span) -> bool:
    return _nobodys(ctx, said) or _of_another(ctx, plant, said)


_OF = _COMMON.words("in_of_on")
_ALL = _COMMON.words("all_or_each") | {"any"}
_WHICH = frozenset({"ORD", "LAST", "OTHER", "HASH", "PLETTER", "PLANT", "INT"})


def _of_another(ctx: Context, plant: PlantDraft, said: Span) -> bool:
    """`Open flower on the top node of the last one, none on the other two`, `at the top node on 1 & 3`: which plants are
    meant stands behind it, and was not understood."""
    pieces = ctx.lattice.pieces
    at = ctx.lattice.first_from(said.start)
    first, last = around(ctx, at, ENDS)
    sentence = Span(pieces[first].span.start, pieces[last - 1].span.end)
    if plant.named and sentence.start <= plant.span.start < sentence.end:
        return False
    for i in range(at + 1, last - 1):
        if ctx.lattice.at(i) not in _OF or ctx.use[i] == EVIDENCE or ctx.lattice.at(i - 1) == "not":
            continue
        k = i + 1 + (ctx.lattice.at(i + 1) == "the")
        if k < last and ctx.use[k] in {UNREAD, "weak"} and _names_one(ctx, k, last):
            return True
    return False


_BEHIND_NAMES_ONE = _LISTED.words("behind_names_one") | {""}


def _names_one(ctx: Context, k: int, last: int) -> bool:
    """The words at piece k name plants: a number at the end of what is told, `the last one`, `the others`, `all six`, `the three
    of them`."""
    if ctx.lattice.at(k) in _ALL or (
        ctx.lattice.at(k + 1) == "of" and ctx.lattice.at(k + 2) in {"them", "these", "those"}
    ):
        return True
    kinds = {e.kind for e in ctx.lattice.edges[k] if e.how in {"exact", "number"}} & _WHICH
    if kinds <= {"INT"}:
        behind = ctx.lattice.at(k + 1) if k + 1 < last else ""
        return bool(kinds) and (not behind or behind in {",", "&", "and", "or", ";"} or behind.isdigit())
    return bool(kinds - {"ORD", "LAST"}) or ctx.lattice.at(k + 1) in _BEHIND_NAMES_ONE


def _nobodys(ctx: Context, said: Span) -> bool:
    """Whether nothing but a verb stands between it and unread words that begin the clause."""
    pieces = ctx.lattice.pieces
    at = ctx.lattice.first_from(said.start)
    verb = at - 1
    while verb > 0 and ctx.lattice.filler[verb] and pieces[verb].text not in _VERBS:
        verb -= 1
    if verb < 1 or pieces[verb].text not in _VERBS or ctx.use[verb] == EVIDENCE:
        return False
    first = around(ctx, at, ENDS | {","})[0]
    while verb > first and pieces[verb - 1].text in _WITH_THE_VERB:
        verb -= 1  # it does have a bloom
    subject = range(first, verb)
    if any(pieces[i].text in DENIED for i in subject):
        return False  # asked where the denial is
    if not subject or pieces[verb - 1].text in _STANDS_FOR or any(ctx.use[i] == EVIDENCE for i in subject):
        return False
    return any(ctx.use[i] in {UNREAD, "weak"} and pieces[i].form == "word" for i in subject)
