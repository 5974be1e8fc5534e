"""What the plants are that a share leaves out: `10 plants, all R2 but one, it was R1`: a class of their own (guide 4.16)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import tallies
from notesparse.observing.draft import TallyDraft
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/left_out_class")

_WAS = _LISTED.words("was")


def leave_out(w: Listener, ph: Phrase, how_many: int) -> bool:
    """At the number `ph` behind `but` or `except`: so many are left out of the share before it, and are a class by
    themselves where their stage is told next."""
    ctx = w.ctx
    if tallies.left_out_by_number(ctx, how_many, ph.start) and ctx.visit is not None:
        ctx.visit.tallies[-1].count = (ctx.visit.tallies[-1].of or 0) - 1
        ctx.mark(ph.start - 1, ph.end, UNREAD, "the plant of that number, or so many of them: which is not said")
        w.resume_at = ph.end
        return True
    if not tallies.leave_out(ctx, how_many, ph.start) or ctx.visit is None:
        return False
    share = ctx.visit.tallies[-1]
    k = ph.end
    while ctx.lattice.at(k) in _WAS:
        k += 1
    stage = next((s.phrase for s in w.segments if s.start == k and s.phrase is not None), None)
    if stage is None or stage.rule != "stage" or stage.form != "r1" or not w.ends_at(stage.end):
        return True
    share.exclusive = True
    ctx.tally = TallyDraft(None, how_many, share.of, None, ctx.span(ph.start, ph.end), exclusive=True)
    ctx.mark(ph.start, ph.end, EVIDENCE)
    ctx.mark(ph.end, k, FILLER)
    w.resume_at = k
    return True
