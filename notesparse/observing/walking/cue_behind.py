"""The word that puts right stands behind the new value: `12 trifs, 13 I mean`, `R2, R3 rather` (guide 4.17)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import revise
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.corrections import kind_of
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/cue_behind")

_SAID_BEHIND = frozenset(_LISTED.phrases("said_behind"))
_BEFORE = _LISTED.words("before")
_COUNTED = frozenset({"trif", "nodes", "bareint"})


def cue_behind(w: Listener, k: int) -> None:
    """Where the value at segment k is put right by the words behind it, they are taken as if they stood before it."""
    value = w.segments[k].phrase
    cue = w.segments[k + 1].phrase if k + 1 < len(w.segments) else None
    if value is None or cue is None or cue.rule != "correct" or cue.form != "cue" or w.ctx.correcting is not None:
        return
    at = w.ctx.lattice.at
    said = " ".join(at(x) for x in range(cue.start, cue.end))
    if said not in _SAID_BEHIND or not _over(w, value, cue, k) or not _told_before(w, value):
        return
    if not (value.start and at(value.start - 1) in _BEFORE) and value.rule != "bareint":
        return
    w.ctx.correcting = w.ctx.span(cue.start, cue.end)
    w.ctx.mark(cue.start, cue.end, EVIDENCE)
    del w.segments[k + 1]


def _over(w: Listener, value: Phrase, cue: Phrase, k: int) -> bool:
    """Nothing follows the cue that it may put right itself: the clause ends, or goes on with another thing."""
    if w.ends_at(cue.end):
        return True
    after = w.segments[k + 2].phrase if k + 2 < len(w.segments) else None
    return value.rule == "bareint" and after is not None and after.rule in {"flowers", "pods", "seeds", "label"}


def _told_before(w: Listener, value: Phrase) -> bool:
    """A value of that kind was told last."""
    ctx = w.ctx
    last = ctx.statements[-1] if ctx.statements else None
    if value.rule in _COUNTED:
        same = value.rule == "bareint" or (last is not None and last.kind == kind_of(value))
        return last is not None and last.put is not None and same and not ctx.open
    if value.rule == "stage":
        return last is not None and last.kind == kind_of(value)
    told = ctx.open or revise.last_of(ctx, ctx.last_what or "")
    if value.rule in {"length", "date"}:
        return any(s.length is not None for s in told) and value.form != "ord_day"
    return value.rule == "place" and any(s.places for s in told)
