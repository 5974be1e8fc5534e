"""The stops that are left of those that were counted: `R4 at 3 of 4 stops, R3 at the other`, `..., R3 at the last one`
(guide 4.16). Such a stage is none of the field's."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.walking.listening import Listener
from notesparse.reading.phrase import Phrase

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/other_stops")

_AT = _COMMON.words("at")
_ONE_LEFT = _LISTED.words("one_left")
_ALL_LEFT = _COMMON.words("rest")
_STOP = _LISTED.words("stop")
_STOPS = _LISTED.words("stops")


def stops_left(w: Listener, ph: Phrase) -> Phrase | None:
    """Behind the stage stand the words for the other stop, or for all others: a share of the stops."""
    ctx, at = w.ctx, w.ctx.lattice.at
    told = ctx.visit.tallies if ctx.visit is not None and not ctx.plants else []
    if not told or not told[-1].stops or told[-1].of is None:
        return None
    left = told[-1].of - sum(t.count or 0 for t in told if t.stops)
    i = ph.end
    if at(i) not in _AT or left < 1:
        return None
    i += 1 + (at(i + 1) == "the")
    nth = any(e.kind == "ORD" and e.means == told[-1].of for e in ctx.lattice.edges[i]) if i < len(ctx.use) else False
    if at(i) not in _ONE_LEFT | _ALL_LEFT and not nth:
        return None
    many = at(i) in _ALL_LEFT or at(i + 1) in _STOPS
    end = i + 1 + (at(i + 1) in _STOP | _STOPS)
    if not w.ends_at(end) or (left > 1 and nth):
        return None
    return Phrase(i, end, *(("group", "group_rest") if many else ("ratio", "other_one")), (), 0.0)
