"""Pods and flowers that are counted off themselves: `3rd pod from top` is no plant 3, and no third node (guide 4.7, 4.10)."""

from __future__ import annotations

from notesparse.observing import organs
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.counted import cut
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_WHAT = {
    "pod": "pods",
    "pd": "pods",
    "flower": "flowers",
    "bloom": "flowers",
    "blossom": "flowers",
    "seed": "seeds",
}
_WHENCE = frozenset({"from", "off", "down", "up"})
_A_PLACE = frozenset("low there high at on in here below".split())  # 3rd flower down low
_END = frozenset("the top tip bottom ground base down up from off of above below".split())


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
