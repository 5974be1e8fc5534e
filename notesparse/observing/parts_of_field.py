"""Statements that hold for a part of the field: `R4 on the hill and R5 in the low ground` (guide 4.15).

The places that the word files know are taken while the note is walked. Others are seen here, once it is known that the
note states more than one stage of a kind: what differs from place to place is no statement for the whole field."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing.draft import StatedDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, Context
from notesparse.observing.headers import same_name

_LISTED = cue_page("observing/parts_of_field")

_BEFORE = _LISTED.words("before")
_SMALL = _LISTED.words("small")
_PLACES = frozenset({"FIELDNOUN", "WHEREWORD", "COMPASS", "LOW", "TOP", "UPTOP"})
_NO_PLACE = frozenset({"NODE", "NODES", "PLANT", "POD", "FLOWER", "SEED", "TRIF", "WEEKDAY", "MONTH", "INT", "DEC"})
_LONGEST = 5  # pieces


def place(ctx: Context, visits: Sequence[VisitDraft]) -> None:
    """Gives each of several statements of a kind the place that stands behind it."""
    for visit in visits:
        for letter in "vr":
            said = [s for s in visit.stated if s.letter == letter and not s.average]
            if len({s.value for s in said}) < 2:
                continue
            for s in said:
                s.where = s.where or _behind(ctx, s)
            _out_of_the_name(ctx, visit, said)
    _of_their_fields(visits)


def _out_of_the_name(ctx: Context, visit: VisitDraft, said: Sequence[StatedDraft]) -> None:
    """`Quail Run east side R3, west side R2`: the side behind the name is a part of the field, as the other one is. So is
    the side at the head of `south end R3, north end R2`; in `south end R3 north end still R2` each stands before its stage."""
    if all(s.where is None for s in said):
        return
    whole = [s for s in said if s.where is None]
    first = said[0]
    at = _before(ctx, first)
    if len(whole) != 1 or at is None:
        return
    if first.where is not None and len(said) == 2 and said[1] is whole[0]:
        whole[0].where = first.where
    elif whole[0] is not first:
        return
    end = ctx.lattice.first_from(first.span.start)
    first.where = ctx.lattice.written(at, end)
    ctx.mark(at, end, EVIDENCE)
    if visit.name_span is not None and visit.name_span.end > ctx.lattice.pieces[at].span.start:
        begun = ctx.lattice.first_from(visit.name_span.start)
        visit.name, visit.name_span = ctx.lattice.written(begun, at), ctx.span(begun, at)


def _before(ctx: Context, s: StatedDraft) -> int | None:
    """Where the side of the field begins that stands right before a statement, behind the field's name or its mark."""
    end = ctx.lattice.first_from(s.span.start)
    for i in range(max(0, end - _LONGEST), end - 1):
        if any(e.kind == "WHEREWORD" and e.end == end for e in ctx.lattice.edges[i]):
            return i
    return None


def _of_their_fields(visits: Sequence[VisitDraft]) -> None:
    """`Beacon R4. Windlass R5. R3 at Beacon.`: what was taken for a part of a field is a field that the note names."""
    for visit in visits:
        for s in [s for s in visit.stated if s.where is not None]:
            there = [v for v in visits if v.name is not None and same_name(v.name, s.where)]
            if there and visit not in there:
                visit.stated.remove(s)
                there[-1].stated.append(s)
            s.where = None if there else s.where


def _behind(ctx: Context, s: StatedDraft) -> str | None:
    """The place named right behind a statement, up to a mark, `and` or `but`."""
    pieces = ctx.lattice.pieces
    start = ctx.lattice.first_from(s.span.end)
    if start >= len(pieces) or pieces[start].text not in _BEFORE:
        return None
    end = start
    while end < len(pieces) and pieces[end].form == "word" and pieces[end].text not in {"and", "but", "while"}:
        end += 1
    first = start
    while first < end and pieces[first].text in _BEFORE | _SMALL:
        first += 1
    if not first < end <= start + _LONGEST:
        return None
    named = [v.name_span for v in ctx.visits if v.name_span is not None]
    if any(span.start < pieces[end - 1].span.end and pieces[first].span.start < span.end for span in named):
        return None  # V5 at Beggar's Bench: a field of its own
    kinds = {e.kind for i in range(first, end) for e in ctx.lattice.edges[i]}
    if kinds & _NO_PLACE or not kinds & _PLACES:
        return None
    ctx.mark(start, end, EVIDENCE)
    return ctx.lattice.original(first, end)
