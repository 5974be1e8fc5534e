"""Pods and flowers that are counted off themselves: `3rd pod from top` is no plant 3, and no third node (guide 4.7, 4.10)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import organs
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.counted import cut
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/nth_pod")

_WHAT = _LISTED.table("what", str)
_WHENCE = _LISTED.words("whence")
_A_PLACE = _LISTED.words("a_place")
_END = _LISTED.words("end")


def nth_pod(w: Listener, ph: Phrase) -> bool:
    """Takes the pod behind the ordinal; which of the pods it is stays unread."""
    ctx, at = w.ctx, w.ctx.lattice.at
    what = _WHAT.get(at(ph.end))
    if (
        what is None
        or at(ph.end + 1) not in _WHENCE
        or at(ph.end + 2) in _A_PLACE
        or w.negative is not None
        or w.barred
    ):
        return False
    end = ph.end + 2
    while at(end) in _END:
        end += 1
    why = "counted off among themselves: at which node is not said"
    ctx.mark(ph.start, ph.end, UNREAD, why)
    ctx.mark(ph.end, ph.end + 1, EVIDENCE)
    ctx.mark(ph.end + 1, end, UNREAD, why)
    ctx.open = organs.look(ctx, what, True, ctx.span(ph.end, ph.end + 1))
    ctx.last_what = what
    ctx.open_end = w.resume_at = end
    cut(w, end)
    return True
