"""What is told of several fields together is of each of them: `Dahl and Heron both R4`."""

from __future__ import annotations

import copy
from dataclasses import field, replace

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.draft import StatedDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, UNREAD, Context
from notesparse.span import Span

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/together")

_BETWEEN = _COMMON.words("and") | {"/", "the"}


@dataclass(slots=True)
class Together:
    """Fields named in one list, and from where to where (characters) of the note is told of all of them."""

    visits: list[VisitDraft] = field(default_factory=list)
    since: int = 0
    until: int | None = None


def named(groups: list[Together], ctx: Context, *, listed: bool, span: Span) -> None:
    """A field was named, and its visit begun: the next one of a list (`listed`), or the end of what is told of the list
    before."""
    group = groups[-1] if groups and groups[-1].until is None else None
    between = {p.text for p in ctx.lattice.pieces if group is not None and group.since <= p.span.start < span.start}
    if group is not None and not (listed and between <= _BETWEEN):
        group.until, group = span.start, None
    if not listed:
        return
    if group is None:
        group = Together()
        groups.append(group)
    group.visits.append(ctx.here())
    group.since = span.end


def like_the_last(ctx: Context, last: VisitDraft, span: Span) -> bool:
    """`River 2 same`: what was told of the field before is told of the visit in hand; nothing of its plants, and False
    where they were all that was told."""
    here = ctx.here()
    if here is last or any(not p.dropped for p in last.plants):
        return False
    here.stated += [replace(x, span=span) for x in last.stated]
    here.tallies += [replace(x, span=span) for x in last.tallies]
    here.findings += [replace(x, span=span) for x in last.findings]
    return not here.empty


_BEFORE = _LISTED.words("before")
_FIELDS = _LISTED.words("fields")
MANY_FIELDS = _LISTED.table("many_fields", int)


def of_every_field(ctx: Context) -> None:
    """`5% leaf loss on both`, `no hoppers in either one`, `beetles light, all three`: a finding of as many fields as the
    note tells of is of each of them."""
    told = [v for v in ctx.visits if not v.empty]
    for visit in told:
        for f in list(visit.findings):
            placed = _where_of_many(f.where) if f.where is not None else None
            behind = _of_how_many(ctx, f.span.end) if f.where is None or f.kind in _WHERE_IN_WORDS else None
            words = placed or behind or _how_many_have(ctx, f.span.start, len(visit.plants))
            if words is None or len(told) < 2:
                continue
            if words[0] != len(told):
                ctx.mark(words[1], words[2], UNREAD, "which fields are meant is not said")
                continue
            f.where = f.where if placed is None else None
            if ctx.lattice.at(words[1]) == "neither":
                f.value = 0
            for other in told:
                if other is not visit:
                    other.findings.append(copy.copy(f))
            ctx.mark(words[1], words[2], EVIDENCE)
    if len(told) > 1:
        _none_anywhere(ctx, told)


_WHERE_IN_WORDS = frozenset({"soil moisture", "weather"})

_HAVE = _LISTED.words("have")


def _how_many_have(ctx: Context, start: int, plants: int) -> tuple[int, int, int] | None:
    """`Both fields 10% defoliation`, `All three have a little frogeye`, `Neither had aphids`: before character `start`, from the head of the
    sentence on."""
    pieces = ctx.lattice.pieces
    end = i = ctx.lattice.first_from(start)
    while i and (pieces[i - 1].text in _HAVE | _FIELDS or ctx.lattice.filler[i - 1]) and pieces[i - 1].form == "word":
        i -= 1
    if i < end and pieces[i].text in MANY_FIELDS:
        i += 1
    many = MANY_FIELDS.get(pieces[i - 1].text) if i else None
    if many is None:
        return None
    first = i - 1 - (i > 1 and pieces[i - 2].text == "all")
    opens = first == 0 or pieces[first - 1].form == "nl" or pieces[first - 1].text in {".", ";"}
    opens = opens or (pieces[first - 1].text == "," and plants < 2)  # Dell R3, Heron R4, both had hail
    told = opens and (pieces[i - 1].text in {"both", "neither"} or pieces[first].text == "all")
    return (many, first, end) if told else None


def _none_anywhere(ctx: Context, told: list[VisitDraft]) -> None:
    """`no flowers at either place`: of all plants of as many fields as the note tells of."""
    plants = [p for v in told for p in v.plants if not p.dropped]
    for none in [s for p in plants for s in p.sightings if s.present is False and not s.places]:
        words = _of_how_many(ctx, none.spans[-1].end)
        if words is None or words[0] != len(told):
            continue
        for p in plants:
            if not any(s.what == none.what for s in p.sightings):
                p.sightings.append(copy.copy(none))
        ctx.mark(words[1], words[2], EVIDENCE)


def _where_of_many(where: str) -> tuple[int, int, int] | None:
    """`in either field`, taken for a place."""
    words = [x for x in where.lower().split() if x not in _BEFORE]
    many = MANY_FIELDS.get(words[0]) if words else None
    return (many, 0, 0) if many is not None and set(words[1:]) <= _FIELDS else None


def _of_how_many(ctx: Context, end: int) -> tuple[int, int, int] | None:
    """Behind character `end`: how many fields are named together, and the pieces that say so."""
    pieces = ctx.lattice.pieces
    start = i = ctx.lattice.first_from(end)
    while i < len(pieces) and pieces[i].text in _BEFORE:
        i += 1
    if i < len(pieces) and pieces[i].text == "all":
        i += 1
    many = MANY_FIELDS.get(pieces[i].text) if i < len(pieces) and i > start else None
    if many is None or (many > 2 and pieces[i - 1].text != "all"):
        return None
    i += 1
    while i < len(pieces) and pieces[i].text in _FIELDS:
        i += 1
    return (many, start, i) if i >= len(pieces) or pieces[i].form in {"mark", "nl"} else None


def _one_each(ctx: Context, group: Together) -> bool:
    """`Ames, Orrin, Tully: R3, R4, R5`: as many stages in a row as fields are one for each, in order."""
    last = group.visits[-1]
    row = [p for p in last.plants if not p.dropped and not p.named]
    if len(row) != len(group.visits) or len(row) != len(last.plants) or last.stated or last.tallies:
        return False
    said = [[(key, entry) for key, entries in p.facts.items() for entry in entries] for p in row]
    if any(p.sightings or len(facts) != 1 or facts[0][0] not in _STATED for p, facts in zip(row, said, strict=True)):
        return False
    if len({facts[0][1].span for facts in said}) != len(said):
        return False
    for visit, ((key, entry),) in zip(group.visits, said, strict=True):
        visit.stated.append(StatedDraft(key[-1], entry.value, entry.span))
    ctx.asks = [a for a in ctx.asks if not any(a.plant is p for p in row)]
    last.plants = []
    return True


def _two_in_one(ctx: Context, group: Together) -> None:
    """`Ames and Orrin: R3 and R4`: what would be a range of one field is a stage for each of two."""
    if len(group.visits) != 2:
        return
    first, last = group.visits
    for s in [s for s in last.stated if s.span.start >= group.since and isinstance(s.value, (list, tuple))]:
        words = s.span.of(ctx.lattice.text).lower().replace("&", " and ").split()
        before = {p.text for p in ctx.lattice.pieces if group.since <= p.span.start < s.span.start}
        if "and" not in words or (before | set(words)) & {"both", "all", "between"}:
            continue
        for twin in (x for x in first.stated if x.span == s.span):
            twin.value = s.value[0]
        s.value = s.value[1]


_STATED = frozenset({"stated_v", "stated_r"})


def share(ctx: Context, groups: list[Together]) -> None:
    """Gives every field of a list what was told of them all, which the last one has got."""
    for group in groups:
        *others, last = group.visits
        if _one_each(ctx, group):
            continue
        end = group.until if group.until is not None else len(ctx.lattice.text)
        asked = [a.plant for a in ctx.asks if a.plant is not None]
        for visit in others:
            for kind in ("stated", "tallies", "findings"):
                told = [x for x in getattr(last, kind) if group.since <= x.span.start < end]
                getattr(visit, kind)[:0] = [copy.copy(x) for x in told]
            if not visit.plants and not any(p is q for p in last.plants for q in asked):
                visit.plants += copy.deepcopy([p for p in last.plants if group.since <= p.span.start < end])
            for key, entry in last.head.items():
                visit.head.setdefault(key, copy.copy(entry))
        _two_in_one(ctx, group)
