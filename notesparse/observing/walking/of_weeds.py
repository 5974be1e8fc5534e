"""Flowers, pods, seed and stages of a weed: no evidence for the beans (guide 4.23)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.fold import UNREAD
from notesparse.observing.walking.listening import ORGANS, Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/of_weeds")

_BETWEEN = _LISTED.words("between")
_RULES = ORGANS | {"state", "stage", "podshare"}
_BORNE = _RULES | {"trif", "nodes", "topleaf"}
_BEFORE_A_WEED = _LISTED.words("before_a_weed")
_PLACES = frozenset({"FIELDNOUN", "WHEREWORD", "COMPASS"})
_PARTS_OF_A_FIELD = _LISTED.words("parts_of_a_field")
_FAR = 9  # pieces between the weed and what is said of it
_MEASURES = frozenset({"INT", "INCH", "FOOT", "CM", "MM", "FRAC", "DEC"})


def of_a_weed(w: Listener, ph: Phrase) -> bool:
    """`waterhemp flowering on the edge`, `ragweed in full bloom`, `velvetleaf has seed pods`, `1st trif on the volunteer
    corn`: shown as unread."""
    on = ph.end - (w.ctx.lattice.at(ph.end - 1) == "on")
    if ph.rule in _BORNE and w.ctx.lattice.at(on) in {"on", "of"} and _weed_behind(w, on + 1):
        w.ctx.mark(ph.start, ph.end, UNREAD, "said of a weed")
        return True
    if ph.rule not in _RULES or not _weed_before(w, ph.start):
        return False
    end = ph.end
    while not w.ends_at(end) and not any(e.kind in {"PLANT", "PLETTER", "HASH"} for e in w.ctx.lattice.edges[end]):
        end += 1
    w.ctx.mark(ph.start, end, UNREAD, "said of a weed")
    w.resume_at = end
    return True


def _weed_before(w: Listener, start: int) -> bool:
    """A weed stands right before, past small words and its size."""
    lattice = w.ctx.lattice
    for i in range(start - 1, max(-1, start - _FAR), -1):
        if any(
            e.kind == "WEED" and e.how == "exact"
            for x in range(max(0, i - 3), i + 1)
            for e in lattice.edges[x]
            if e.end == i + 1
        ):
            return True
        small = lattice.at(i) in _BETWEEN or any(e.kind in _MEASURES and e.end == i + 1 for e in lattice.edges[i])
        if not small or lattice.pieces[i].form in {"mark", "nl"}:
            return False
    return False


def _weed_behind(w: Listener, start: int) -> bool:
    """A weed is named at piece `start`, past an article, and not as a place: `pods on the ragweed side` is none."""
    lattice = w.ctx.lattice
    start += lattice.at(start) in _BEFORE_A_WEED
    if start >= len(lattice.pieces):
        return False
    ends = [e.end for e in lattice.edges[start] if e.kind == "WEED" and e.how == "exact"]
    if not ends or lattice.at(max(ends)) in _PARTS_OF_A_FIELD:
        return False
    return max(ends) >= len(lattice.pieces) or not any(e.kind in _PLACES for e in lattice.edges[max(ends)])
