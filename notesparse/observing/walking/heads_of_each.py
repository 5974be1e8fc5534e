"""Whose a planting day, a group or a row width is, where the sentence names its fields: `Silo Flats and Peach Tree planted 5/14,
Oxbarn 5/20`, `planted 5/8 on Wren and 5/19 on Plover`, `all three in 30 inch rows` (guide 4.19).

Without this the words would be of the field that was told of last, and the second day would be taken for the day of a walk.
"""

from __future__ import annotations

from collections.abc import Callable

from notesparse.language.cues import cue_page
from notesparse.observing import headers
from notesparse.observing.dates import read_day
from notesparse.observing.draft import Entry, VisitDraft
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.naming.names import Name
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.together import MANY_FIELDS
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/heads_of_each")
_COMMON = cue_page("shared")

_ON = _COMMON.words("at") | {"for"}
_AND = _COMMON.words("and")
_ARE = _LISTED.words("are")
_BETWEEN = _AND | _ON | _ARE | _LISTED.words("between")
_FIELDS = _LISTED.words("fields")
_ALL = _COMMON.words("all")
_HOW_SOON = _LISTED.words("how_soon")
_SOWN = _COMMON.words("planted") | {"date", "dates"}


def of_the_named(w: Listener, ph: Phrase, put: Callable[[], bool]) -> bool:
    """Puts what the phrase says into the visits of the fields that the sentence names for it; else into that in hand."""
    ctx = w.ctx
    if _of_an_unknown(w, ph):
        return False
    many = _so_many(w, ph)
    fields = _behind(w, ph) or _before(w, ph)
    if many is not None and not fields:
        told = [v for v in ctx.visits if v.name is not None and not v.empty]
        named = [v for v in ctx.visits if v.name is not None]
        told = named if len(told) != many == len(named) else told
        if len(told) != many:
            return False if len(told) > 1 else put()
        fields = told
    if not fields:
        return put()
    here, used = ctx.visit, False
    for visit in fields:
        ctx.visit = visit
        used = put() or used
    ctx.visit = here
    return used


def days_in_order(w: Listener, ph: Phrase) -> bool:
    """`planted 5/6, 5/8 and 5/15 in that order`: a day for each field that the note tells of, in their order. Where there are
    not as many, none of them is taken."""
    ctx, at = w.ctx, w.ctx.lattice.at
    days, end = [], ph.end
    found = {s.start: s.phrase for s in w.segments if s.phrase is not None and s.phrase.rule == "date"}
    k = end
    while at(k) in _AND:
        while at(k) in _AND:
            k += 1
        if k not in found:
            break
        days.append(found[k])
        k = end = found[k].end
    told = [v for v in ctx.visits if v.name is not None and not v.empty]
    ordered = at(end) == "respectively" or [at(x) for x in range(end, end + 3)] in (
        ["in", "that", "order"],
        ["in", "this", "order"],
    )
    if not days or not ordered:
        return False
    here = ctx.visit
    if len(told) == len(days) + 1:
        ctx.visit = told[0]
        headers.planted(ctx, ph, ctx.span(ph.start, ph.end), ph.rule)
        for visit, one in zip(told[1:], days, strict=True):
            day = read_day(one, headers.base(ctx), ctx.day_first, latest_before=headers.base(ctx))
            if day is not None:
                visit.head[ph.rule] = Entry(day.iso, ctx.span(one.start, one.end))
        ctx.visit = here
        ctx.mark(ph.start, end + (1 if at(end) == "respectively" else 3), EVIDENCE)
    else:
        ctx.mark(ph.start, end, UNREAD, "which fields are meant is not said")
    w.resume_at = end + (1 if at(end) == "respectively" else 3)
    return True


def day_of_each(w: Listener, ph: Phrase, span: Span) -> bool:
    """`Silo Flats was planted May 14 and Oxbarn May 20`: in a sentence of sowing or emergence, a day beside a name of its
    own."""
    ctx, start = w.ctx, w.sentence_start(ph.start)
    said = [s.phrase for s in w.segments if s.phrase is not None and start <= s.start < ph.start]
    heads = [(p.end, p.rule) for p in said if p.rule in {"planted", "emerged"}] or _sown_word(w, start, ph.start)
    if not heads or not _only_names_and_days(w, heads[-1][0], ph.start):
        return False
    fields = _behind(w, ph)
    if not fields and _of_an_unknown(w, ph):
        return False
    named = any(start <= name.start < ph.start and name.end > heads[-1][0] for name in w.names.values())
    named = named or w.ctx.lattice.at(heads[-1][0]) in _HOW_SOON
    if not fields and named and ctx.visit is not None:
        fields = _before(w, ph) or [ctx.visit]
    day = read_day(ph, headers.base(ctx), ctx.day_first, latest_before=headers.base(ctx))
    if not fields or day is None:
        return False
    for visit in fields:
        visit.head[heads[-1][1]] = Entry(day.iso, span)
    return True


def of_another_sowing(w: Listener, ph: Phrase) -> bool:
    """`was planted after Silo Flats, May 20`, `Silo Flats was planted 5/14 and oxbarn 5/20`: words that were not understood
    stand between the word for it and this day, which is no day of a walk."""
    pieces, start = w.ctx.lattice.pieces, w.sentence_start(ph.start)
    said = [s.phrase for s in w.segments if s.phrase is not None and start <= s.start < ph.start]
    heads = [p.end for p in said if p.rule in {"planted", "emerged"}]
    if not heads:
        return any(end < ph.start for end, _ in _sown_word(w, start, ph.start))
    between = [p.text for p in pieces[heads[-1] : ph.start]]
    if between in (["and"], ["to"], ["-"], ["thru"], ["or"]):
        return True  # planted between 5/1 and 5/10
    if _of_an_unknown(w, ph):
        return True
    strange = [k for k in range(heads[-1], ph.start) if w.ctx.use[k] == UNREAD and not w.ctx.lattice.filler[k]]
    return bool(strange) and set(between) & {"and", ","} != set()


def _sown_word(w: Listener, a: int, b: int) -> list[tuple[int, str]]:
    """Where a word for planting ends that has no day of its own: `planted last, June 2`, `planting dates: ...`."""
    edges = (e for k in range(a, b) for e in w.ctx.lattice.edges[k] if e.kind == "PLANTED" and e.how == "exact")
    ends = [e.end for e in edges if e.end <= b and w.ctx.lattice.at(e.end - 1) in _SOWN]
    return [(max(ends), "planted")] if ends else []


def _only_names_and_days(w: Listener, a: int, b: int) -> bool:
    pieces, i = w.ctx.lattice.pieces, a
    days = {s.start: s.end for s in w.segments if s.phrase is not None and s.phrase.rule == "date"}
    while i < b:
        if i in w.names:
            i = w.names[i].end
        elif i in days:
            i = days[i]
        elif pieces[i].text in _BETWEEN | _HOW_SOON or w.ctx.lattice.filler[i]:
            i += 1
        else:
            return False
    return True


def _of_an_unknown(w: Listener, ph: Phrase) -> bool:
    """`5/19 on Plover quarter`, where no such field is known: a word with a capital behind `on`, and no name."""
    lattice, i = w.ctx.lattice, ph.end
    if lattice.at(i) not in _ON or w.ctx.visit is None or w.ctx.visit.name is None or lattice.text.isupper():
        return False
    i += 1 + (lattice.at(i + 1) == "the")
    if i >= len(lattice.pieces) or i in w.names or lattice.pieces[i].form != "word" or lattice.known[i]:
        return False
    return lattice.original(i, i + 1)[0].isupper()


def _visit_of(w: Listener, name: Name) -> VisitDraft | None:
    return next((v for v in w.ctx.visits if headers.same_name(v.name, name.text)), None)


def _behind(w: Listener, ph: Phrase) -> list[VisitDraft]:
    """`planted 5/8 on Wren and Plover`, to the end of the clause."""
    at, i = w.ctx.lattice.at, ph.end
    if i in w.names and (w.names[i].end in w.names or w.ends_at(w.names[i].end)):
        visit = _visit_of(w, w.names[i])  # pl 5/14 Silo Flats, 5/20 Oxbarn
        return [visit] if visit is not None and w.ctx.visit is not visit else []
    if at(i) not in _ON:
        return []
    found: list[VisitDraft] = []
    while at(i) in _ON | _AND | {"the"} and i < len(w.ctx.lattice.pieces):
        i += 1
        name = w.names.get(i)
        visit = _visit_of(w, name) if name is not None else None
        if name is not None and visit is None:
            return []
        if name is not None and visit is not None:
            found.append(visit)
            i = name.end
    return found


def _before(w: Listener, ph: Phrase) -> list[VisitDraft]:
    """`Silo Flats and Peach Tree planted 5/14`: two names and more, right before."""
    at, i = w.ctx.lattice.at, ph.start
    ends = {name.end: name for name in w.names.values() if name.seen}
    while i and at(i - 1) in _ARE and i not in ends:
        i -= 1
    found: list[VisitDraft] = []
    while i in ends:
        visit = _visit_of(w, ends[i])
        if visit is None:
            return []
        found.append(visit)
        i = ends[i].start
        while i and at(i - 1) in _AND | {"the"}:
            i -= 1
    opens = i == 0 or w.hard_end(i - 1)
    return found[::-1] if len(found) > 1 and opens else []


def _so_many(w: Listener, ph: Phrase) -> int | None:
    """`both planted May 6`, `all three in 30 inch rows`, `30 inch rows on both`: how many fields are told of."""
    at, i = w.ctx.lattice.at, ph.start
    while i and at(i - 1) in (_ARE | _FIELDS) - {"both", "all"}:
        i -= 1
    many = MANY_FIELDS.get(at(i - 1)) if i else None
    start = i - 1 - (i > 1 and at(i - 2) == "all")
    if i and at(i - 1) in _ALL and (i == 1 or w.hard_end(i - 2)):
        w.ctx.mark(i - 1, ph.start, EVIDENCE)
        return len([v for v in w.ctx.visits if v.name is not None and not v.empty])
    if many is not None and (many == MANY_FIELDS["both"] or at(start) == "all") and w.begins(start):
        w.ctx.mark(start, ph.start, EVIDENCE)
        return many
    i = ph.end
    while at(i) in _ON | {","}:
        i += 1
    i += at(i) == "all"
    many = MANY_FIELDS.get(at(i))
    ends = i + 1
    while at(ends) in _FIELDS:
        ends += 1
    if many is None or i == ph.end or not w.ends_at(ends) or not (at(i) == "both" or at(i - 1) == "all"):
        return None
    w.ctx.mark(ph.end, ends, EVIDENCE)
    w.resume_at = ends
    return many
