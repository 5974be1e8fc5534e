"""The name of a field as the walk comes to it: another visit begins, or it is the place of what was found."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import headers
from notesparse.observing.draft import Ask, FindingDraft, PlantDraft, VisitDraft
from notesparse.observing.finding import units
from notesparse.observing.finding.whereabouts import place
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD
from notesparse.observing.naming.damaged_names import mended
from notesparse.observing.naming.names import Name
from notesparse.observing.walking import together
from notesparse.observing.walking.clause_ends import clear_waiting, orphans_before_label
from notesparse.observing.walking.like_another_field import the_same
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.wrong_field import of_another_field
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/field_names")

_PART_OF_FIELD = _COMMON.words("part_of_a_field")
_WHERE = _LISTED.words("where")
_LONGEST_SAY = 5  # pieces


def open_name(w: Listener, name: Name, k: int) -> None:
    ctx = w.ctx
    span = ctx.span(name.start, name.end)
    if not name.seen:
        w.barred = "a field that was not looked at"
        w.barred_from = name.start
        ctx.mark(name.start, name.end, UNREAD, w.barred)
        return
    written = ctx.lattice.written(name.start, name.end)
    if name.text != written and mended(written).startswith(name.text):  # SANDBAR FlELD
        ctx.assume("4.21", span, f"“{written}” is read as {mended(written)}")
    elif any(p.mended for p in ctx.lattice.pieces[name.start : name.end]):  # Mi1l Creek
        ctx.assume("4.21", span, f"“{written}” is read as {name.text}")
    if name.cue == "same":
        the_same(w, name)
        return
    if name.cue == "which":
        _one_of_several(w, name)
        return
    if name.cue == "only":
        ctx.here().name, ctx.here().name_span = name.text, span  # R7 on the Cooper place
        ctx.mark(name.start, name.end, EVIDENCE)
        ctx.mark(name.cue_start, name.start, FILLER)
        w.after_name = w.begins(name.cue_start)  # R3 all over. Stovepipe 7/12
        return
    if _compared_with(w, name):
        ctx.mark(name.start, name.end, UNREAD, "a field that this one is compared with")
        return
    if w.barred and name.cue not in {
        "go",
        "field",
        "fieldno",
        "note",
        "line",
        "sentence",
        "anew",
        "daily",
        "midway",
        "turn",
        "head",
        "spot",
    }:
        ctx.mark(name.start, name.end, UNREAD, w.barred)
        return
    if w.barred in _NOT_OURS and _of_the_other(w, name):
        ctx.mark(name.start, name.end, UNREAD, w.barred)  # corn at Gravel Lane West is V12
        return
    if of_another_field(w, name):
        return
    clear_waiting(w)
    at = name.start - 1
    if at > 0 and ctx.lattice.pieces[at].text == "the":
        at -= 1  # thick on the Peach orchard east rows
    leading = ctx.lattice.pieces[at].text if at >= 0 else ""
    mid = (
        name.cue in {"again", "go"}
        and ctx.finding is not None
        and (leading in _WHERE or (name.cue == "again" and w.ends_at(name.end)))  # aphids 40/plt Pond lot
        and not (at > 0 and ctx.lattice.pieces[at - 1].text == "back" and not w.ends_at(name.end))  # back at the mill
        and not w.line_head
        and not w.clause_is_fresh(k)
    )
    there = next((v for v in ctx.visits if headers.same_name(v.name, name.text)), None)
    if mid and (there is not None or name.cue == "again"):  # bean leaf beetles 4 per 25 sweeps at Red Gate
        if there is not None and ctx.visit is not None and there is not ctx.visit:
            _hand_over(w, ctx.visit, there, k)
            if ctx.lattice.at(name.end) == ",":
                stop = next((i for i in range(name.end, len(ctx.use)) if w.hard_end(i) or i in w.names), len(ctx.use))
                w.lent.append((there, ctx.visit, ctx.span(name.end, stop)))
        ctx.mark(name.cue_start, name.end, EVIDENCE)
        if not _how_many_there(w, name):
            _which_part(w, name)
        return
    w.barred = None
    before = ctx.visit
    found = _found_there(w, name)
    if there is not None and there is not before and before is not None and _all_over(w, at):
        _hand_over(w, before, there, k)  # lady beetles all over stone arch
    if (
        name.cue == "line"
        and before is not None
        and before.name
        and name.text.lower().split()[-1] in _PART_OF_FIELD
        and before.name.lower().split()[-1] not in _PART_OF_FIELD  # Ek N half, and under it Ek S half
        and w.ends_at(name.end)
        and not _with_its_day(w, name, k)
    ):
        ctx.leave_plants()  # creek end, on a line of its own: a stop
        ctx.stop = name.text
        ctx.mark(name.start, name.end, EVIDENCE)
        return
    if _of_the_plant_just_named(w, leading):  # Plant 1 in Cottonwood 7 has 5 trifs
        ctx.here().name, ctx.here().name_span = name.text, span
        ctx.mark(name.start, name.end, EVIDENCE)
        return
    orphans_before_label(w)  # a place that is still to be used is of the field before
    waits, share = _share_waits(w, name), ctx.tally
    ctx.tally = None if waits else share
    label = _plant_there(w, name, leading)
    headers.open_visit(ctx, name, span)
    if ctx.visit is not before:
        ctx.field_clause = -1  # overall R2 spider mites on the edge redbud terrace september sixteenth plant one R7
    ctx.tally = share if waits else ctx.tally
    if label is not None:
        _go_to_plant(w, label, before)
        ctx.correcting = _put_right_from(w, name)
    _take_along(w, before, found)
    together.named(w.together, ctx, listed=name.cue == "together", span=span)
    ctx.mark(name.start, name.end, EVIDENCE)
    if name.cue == "spot":
        _ask_whether_a_field(w, name, span, before)
    if name.cue_start < name.start:
        ctx.mark(name.cue_start, name.start, FILLER)
        _the_crop_there(w, name)
    if ctx.visit is not before or (ctx.visit and ctx.visit.empty):
        w.at_head = True
    w.after_name = True
    ctx.steps.append((span, "field name", name.text, "evidence", (f"stands at the {name.cue}",)))


_NO_FULL_DAY = frozenset({"today", "yesterday", "weekday", "ord_day"})


def _with_its_day(w: Listener, name: Name, k: int) -> bool:
    """`Gaucho corner, fifth of August.`: a day of its own stands behind the name, so that it is no place in a field."""
    nxt = w.ahead(k)[0]
    day = nxt is not None and nxt.rule == "date" and nxt.form not in _NO_FULL_DAY
    return day and nxt is not None and nxt.start - name.end <= 1


_AS_I_SAY = _LISTED.words("as_i_say")


def _how_many_there(w: Listener, name: Name) -> bool:
    """`leafhoppers are bad at Copper Bend I'd say six a sweep`: how many there were stands behind the field's name."""
    ctx = w.ctx
    finding = ctx.finding
    if (
        finding is None
        or finding.kind not in {"insect", "weed"}
        or finding.value is not None
        or name.end >= len(ctx.lattice.pieces)
    ):
        return False
    at = name.end
    while ctx.lattice.at(at) in _AS_I_SAY and at < name.end + _LONGEST_SAY:
        at += 1
    if finding.kind == "weed" and _how_tall_there(w, name, finding, at):
        return True
    many = units.amount(ctx.lattice, units.over_doubt(ctx.lattice, at))
    by = units.per(ctx.lattice, many.end) if many is not None else None
    if many is None or by is None or by.unit is None:
        return False
    finding.value, finding.unit = many.value, by.unit
    end = by.end
    part = end + (ctx.lattice.at(end) in _WHERE)
    part += part > end and ctx.lattice.at(part) == "the"
    place = (
        max((e.end for e in ctx.lattice.edges[part] if e.kind == "WHEREWORD"), default=0) if part < len(ctx.use) else 0
    )
    if place and w.ends_at(place) and finding.where is None:
        finding.where, end = ctx.lattice.written(part, place), place
    ctx.mark(name.end, end, EVIDENCE)
    w.resume_at = end
    return True


_STANDS = _COMMON.words("being") | {"stands"}


def _how_tall_there(w: Listener, name: Name, finding: FindingDraft, at: int) -> bool:
    """`The foxtail at Copper Bend is 8 inches tall along the ditch`: how tall it is stands behind the field's name."""
    lattice = w.ctx.lattice
    at += lattice.at(at) in _STANDS
    body = max((e.end for e in lattice.edges[at] if e.kind == "BODYHIGH"), default=0) if at < len(lattice.edges) else 0
    if body:
        finding.where = finding.where or lattice.written(at, body)
        w.ctx.mark(name.end, body, EVIDENCE)
        w.resume_at = body
        return True  # is knee high
    tall = units.length(lattice, units.over_doubt(lattice, at))
    if tall is None or tall.unit is None:
        return False
    finding.value, finding.unit, end = tall.value, tall.unit, tall.end
    spot = place(lattice, end, w.ends_at, after_value=True) if finding.where is None and not w.ends_at(end) else None
    if spot is not None:
        end, finding.where = spot
    w.ctx.mark(name.end, end, EVIDENCE)
    w.resume_at = end
    return True


def _which_part(w: Listener, name: Name) -> None:
    """`velvetleaf on the Peach orchard end rows`: the part of the field behind its name is where that was found."""
    ctx = w.ctx
    if name.end >= len(ctx.lattice.pieces) or ctx.finding is None or ctx.finding.where is not None:
        return
    end = max((e.end for e in ctx.lattice.edges[name.end] if e.kind == "WHEREWORD"), default=0)
    if end and w.ends_at(end):
        ctx.finding.where = ctx.lattice.written(name.end, end)
        ctx.mark(name.end, end, EVIDENCE)
        w.resume_at = end


_THE_CROP = _COMMON.words("soybeans")


def _the_crop_there(w: Listener, name: Name) -> None:
    """`Beans at Willow Bend V7`: the crop, at the head of a sentence before the name, is no seed and no remark."""
    crop = name.cue_start - 1
    if crop < 0 or w.ctx.lattice.at(crop) not in _THE_CROP:
        return
    first = crop - (w.ctx.lattice.at(crop - 1) in {"the", "our"} if crop else 0)
    if first == w.sentence_start(crop) or w.ctx.lattice.at(first - 1) == ",":
        w.ctx.mark(first, crop + 1, FILLER)


def _ask_whether_a_field(w: Listener, name: Name, span: Span, before: VisitDraft | None) -> None:
    """`hilltop p1 ...` among heads that are names of fields: the words may as well be a place in the field before."""
    if before is None or before.name is None or before.empty:
        return
    choices: list[tuple[str, dict[str, object]]] = [
        (name.text, {"field": name.text}),
        (before.name, {"field": before.name}),
    ]
    ask = f"Is “{name.text}” a field, or a place in {before.name}?"
    w.ctx.ask(Ask("1.2", span, ask, choices, None, 0, "field", always=True, visit=w.ctx.visit))


_FOR_OF_THE_PLANT_JUST_NAMED = _COMMON.words("at") | {"from"}


def _of_the_plant_just_named(w: Listener, leading: str) -> bool:
    """The visit has no name yet, and nothing in it but the label of the plant that stands before `in` and the name."""
    visit = w.ctx.visit
    if visit is None or visit.name is not None or leading not in _FOR_OF_THE_PLANT_JUST_NAMED:
        return False
    alone = len(visit.plants) == 1 and visit.plants[0].empty and w.ctx.explicit
    return alone and not (visit.tallies or visit.stated or visit.findings)


_FOR_PLANT_THERE = _COMMON.words("at") | {"from", "of"}


def _plant_there(w: Listener, name: Name, leading: str) -> PlantDraft | None:
    """`plant two at Kemp was 12 trifs`: the plant that is named right before the field."""
    ctx, lattice = w.ctx, w.ctx.lattice
    if leading not in _FOR_PLANT_THERE or len(ctx.plants) != 1 or not ctx.explicit:
        return None
    label = next((s for s in reversed(w.segments) if s.end <= name.start and s.phrase is not None), None)
    if label is None or label.phrase is None or label.phrase.form not in {"plant_n", "plant_letter"}:
        return None
    between = range(label.end, name.start)
    return ctx.plants[0] if all(lattice.at(x) in _BETWEEN | {"back", "at"} for x in between) else None


def _put_right_from(w: Listener, name: Name) -> Span | None:
    """The words of a correction at the head of the clause: `Correction, plant two at Kemp was 12 trifs`."""
    said = [s for s in w.segments if s.end <= name.start and s.phrase is not None]
    cue = said[-2].phrase if len(said) > 1 else None
    return w.ctx.span(said[-2].start, said[-2].end) if cue is not None and cue.rule == "correct" else None


def _go_to_plant(w: Listener, label: PlantDraft, before: VisitDraft | None) -> None:
    """Goes on with the plant of that label in the visit in hand; one that was begun for it in the field before is none."""
    ctx, here = w.ctx, w.ctx.here()
    if before is not None and before is not here and label.empty and label in before.plants:
        before.plants.remove(label)
    there = here.plant(label.label)
    if there is None:
        there = PlantDraft(label.label, label.span)
        there.named = True
        here.plants.append(there)
    ctx.plants, ctx.explicit, ctx.group = [there], True, None


def _share_waits(w: Listener, name: Name) -> bool:
    """`Seven of ten at Dutch Oven are R3`: what the share is a share of stands behind the name."""
    t, pieces = w.ctx.tally, w.ctx.lattice.pieces
    if t is None or t.what is not None:
        return False
    between = [p for p in pieces[: name.start] if p.span.start >= t.span.end]
    return all(p.form == "word" for p in between) and len(between) <= _SOON


_THAN = _LISTED.words("than")


def _compared_with(w: Listener, name: Name) -> bool:
    """`is a week behind the Quonset Eighty.`, `ahead of Bell Farm`: no turn to that field."""
    at = w.ctx.lattice.at
    i = name.start - 1 - (at(name.start - 1) == "the")
    compared = at(i) in _THAN or (at(i) == "of" and at(i - 1) == "ahead")
    return compared and w.ctx.visit is not None and w.ends_at(name.end)


_ANOTHER = _LISTED.words("another")
_SOON = 4  # pieces behind such words within which the name stands, if there is one


def another_field(w: Listener, ph: Phrase) -> None:
    """`Okay, last field. Plant one ...`: a visit whose name comes behind its plants, or never."""
    pieces, visit = w.ctx.lattice.pieces, w.ctx.visit
    said = ph.end - ph.start > 1 and pieces[ph.end - 1].text == "field" and pieces[ph.end - 2].text in _ANOTHER
    named = any(i in w.names for i in range(ph.start, ph.end + _SOON))
    if said and not named and visit is not None and not visit.empty and w.begins(ph.start) and w.ends_at(ph.end):
        clear_waiting(w)
        headers.open_unnamed(w.ctx)
        w.at_head = True


def open_pair(w: Listener, names: list[Name], start: int) -> list[int]:
    """`The next two are both R2, that's Widow's and Six Acre`: what follows is of each of the fields that are named
    behind it, from piece `start` on. Gives the pieces of the names."""
    ctx = w.ctx
    clear_waiting(w)
    said = ctx.lattice.pieces[start].span.start
    for name in names:
        headers.open_visit(ctx, name, ctx.span(name.start, name.end))
        together.named(w.together, ctx, listed=True, span=Span(said, said))
        ctx.mark(name.start, name.end, EVIDENCE)
    stage = next(s for s in w.segments if s.start >= start and s.phrase is not None and s.phrase.rule == "stage")
    ctx.mark(start, stage.start, FILLER)
    w.resume_at = stage.start
    return [name.start for name in names]


def _one_of_several(w: Listener, name: Name) -> None:
    """`Ames had hail.`, `Hail at Ames.` behind Ames 40 and Ames 80: which of them is meant is not said, and what the sentence
    tells is of none."""
    ctx, visit = w.ctx, w.ctx.visit
    start = w.sentence_start(name.start)
    since = ctx.lattice.pieces[start].span.start
    if visit is not None:
        visit.findings = [f for f in visit.findings if f.span.start < since]
    w.barred, w.barred_from = "which of the fields is meant is not said", name.start
    ctx.mark(start, name.end, UNREAD, w.barred)


_THERE = _LISTED.words("there")


def _found_there(w: Listener, name: Name) -> list[FindingDraft]:
    """`Corn Crib R4. Frogeye at Dutch Oven.`: what was found, where the sentence tells nothing else and ends with the name
    of a field that was not told of yet."""
    ctx, visit = w.ctx, w.ctx.visit
    if visit is None or visit.name is None or name.cue not in {"go", "field"} or not w.hard_end_or_over(name.end):
        return []
    i = name.start
    while ctx.lattice.at(i - 1) in _THERE:
        i -= 1
    if i == name.start or not {"at", "in", "on"} & {ctx.lattice.at(x) for x in range(i, name.start)}:
        return []
    start = ctx.lattice.pieces[w.sentence_start(i)].span.start
    found = [f for f in visit.findings if f.span.start >= start]
    told = [*(x.span for x in visit.stated), *(x.span for x in visit.tallies), *(x.span for x in visit.plants)]
    if not found or any(x.start >= start for x in told):
        return []
    between = [p for p in ctx.lattice.pieces[:i] if p.span.start >= found[-1].span.end]
    return found if len(between) < _JOINED and all(p.form == "word" for p in between) else []


def _take_along(w: Listener, before: VisitDraft | None, found: list[FindingDraft]) -> None:
    """What was found goes to the field in hand, where that is another one."""
    here = w.ctx.here()
    if before is None or before is here:
        return
    before.findings = [f for f in before.findings if all(f is not x for x in found)]
    here.findings += found


_JOINED = 3  # words between findings that are told together


def give_back(w: Listener) -> None:
    """`few loopers in Kettle Pond, 5% leaf loss`: what was found is of that field up to the end of the sentence."""
    for there, here, span in w.lent:
        theirs = [f for f in here.findings if span.start <= f.span.start < span.end]
        here.findings = [f for f in here.findings if f not in theirs]
        there.findings += theirs


def _hand_over(w: Listener, before: VisitDraft, there: VisitDraft, k: int) -> None:
    """The findings of this clause are of the field that is named behind them; of several, in talk without marks, the
    last one and what is joined to it."""
    pieces, taken = w.ctx.lattice.pieces, [f for f in before.findings if f.span.start >= w.clause_start(k)]
    for n in range(len(taken) - 1, 0, -1):
        between = [p.text for p in pieces if taken[n - 1].span.end <= p.span.start < taken[n].span.start]
        if len(between) > _JOINED or not {"and", "&", ","} & set(between):
            taken = taken[n:]
            break
    for f in taken:
        before.findings.remove(f)
        there.findings.append(f)


_NOT_OURS = frozenset({"another crop", "not this field"})
_BETWEEN = _WHERE | _LISTED.words("between")


def _of_the_other(w: Listener, name: Name) -> bool:
    """Nothing but words for where stands between the other crop and the name: the crop is there."""
    pieces = w.ctx.lattice.pieces
    end = max(
        (e.end for e in w.ctx.lattice.edges[w.barred_from] if e.kind in {"OTHERCROP", "NEIGHBOR", "OTHERFIELD"}),
        default=0,
    )
    words = [p.text for p in pieces[end : name.start]] if end else []
    return bool(words) and words[-1] in _WHERE | {"the"} and all(x in _BETWEEN for x in words)


def _all_over(w: Listener, at: int) -> bool:
    pieces = w.ctx.lattice.pieces
    return at > 0 and pieces[at].text == "over" and pieces[at - 1].text == "all"
