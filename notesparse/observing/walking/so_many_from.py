"""A bare number before the name of a field, of plants that are told of together behind it: `two from Tipton, 12 trifs both`,
`pulled three at Dell. All R5` (guide 4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.counted import MOST, cut
from notesparse.observing.walking.field_names import open_name
from notesparse.observing.walking.listening import Listener

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/so_many_from")

_FROM = _LISTED.words("from")
_TOGETHER = _COMMON.words("all_or_each") | {"either", "neither"}
_FAR = 14  # pieces behind the name
_PAIR = 2


def so_many_from(w: Listener, i: int) -> int | None:
    """At piece i stands such a number: opens the field and begins its plants; where the name ends."""
    ctx, at = w.ctx, w.ctx.lattice.at
    number = number_at(w, i) if w.begins(i) else None
    if number is None or at(number.end) not in _FROM or not 1 < int(number.means) <= MOST:
        return None
    first = number.end + 1 + (at(number.end + 1) == "the")
    name = w.names.get(first)
    many = int(number.means)
    if name is None or not name.seen or not _together(w, name.end, many) or ctx.tally is not None:
        return None
    opened = ctx.visit is not None and ctx.visit.name_span == ctx.span(name.start, name.end)
    if not opened:
        k = next(n for n, s in enumerate(w.segments) if s.start == name.start)
        open_name(w, name, k)
    if ctx.visit is None or not ctx.visit.empty:
        return None
    ctx.sample, ctx.sample_visit = many, max(len(ctx.visits), 1)
    for p in ctx.begin([str(n) for n in range(1, many + 1)], ctx.span(i, number.end)):
        p.counted = True
    ctx.leave_plants()
    ctx.mark(i, name.end, EVIDENCE)
    w.counted_to = name.end
    w.after_name = True
    cut(w, name.end)
    return name.end


def _together(w: Listener, k: int, many: int) -> bool:
    """Behind piece k, before another field and within two sentences, a word says something of so many plants together."""
    marks = 0
    for x in range(k, min(k + _FAR, len(w.ctx.use))):
        if x in w.names:
            return False
        marks += w.hard_end(x)
        word = w.ctx.lattice.at(x)
        if word in _TOGETHER and marks < _PAIR:
            return word in {"all", "each"} or many == _PAIR
    return False
