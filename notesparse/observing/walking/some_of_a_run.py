"""`plants 1 thru 3: 9 trifs, bloom on two of them`, `some blooming`, `pods half inch on one`: so many of the plants that
were named together, and which of them is not said (guide 1.4)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.fold import UNREAD
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.clause_ends import clear_waiting
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/some_of_a_run")
_COMMON = cue_page("shared")

_SOME = _LISTED.words("some")
_HARDLY = _COMMON.words("hardly")
_MOST = _LISTED.words("most")
_ON = _COMMON.words("of")
_THEM = _COMMON.words("them")
_FAR = 10  # pieces behind what they have


def some_of_a_run(w: Listener, ph: Phrase) -> bool:
    """Such words begin at a phrase of flowers, pods or seed: they are shown as unread, and give the run nothing."""
    ctx = w.ctx
    run = ctx.explicit and len(ctx.plants) > 1 and ctx.group is None and ctx.tally is None and w.owned is None
    if not run:
        return False
    start = _some_before(w, ph)
    end = ph.end if start is not None else _some_behind(w, ph)
    if end is None:
        return False
    clear_waiting(w)
    ctx.mark(ph.start if start is None else start, end, UNREAD, "some of these plants: which is not said")
    ctx.open, w.resume_at = [], end
    return True


def _some_before(w: Listener, ph: Phrase) -> int | None:
    """Where `some`, `some of them`, `hardly any` begins that stands before `blooming`; `a couple blooming`."""
    at = w.ctx.lattice.at
    if not at(ph.end - 1).endswith(("ing", "in")):
        return None
    if at(ph.start) in _SOME:
        return ph.start
    k = ph.start - 1
    if at(k) in _THEM and at(k - 1) == "of":
        k -= 2
    if at(k) == "any" and at(k - 1) in _HARDLY:
        return k - 1
    return k if at(k) in _SOME else None


def _some_behind(w: Listener, ph: Phrase) -> int | None:
    """Where `on two of them`, `, two of them`, `on most` or a bare `on one` ends that stands behind the phrase."""
    ctx, at = w.ctx, w.ctx.lattice.at
    commas = 0
    for i in range(ph.end, min(ph.end + _FAR, len(ctx.use))):
        commas += at(i) == ","
        led = at(i - 1) in _ON
        if w.hard_end(i) or commas > 1 or (commas and at(i) in _ON):
            return None
        if led and at(i) in _MOST:
            end = i + 3 if at(i + 1) == "of" and at(i + 2) in _THEM else i + 1
            return end if _over(w, end) else None
        number = number_at(w, i)
        if number is None or not 0 < int(number.means) < len(ctx.plants):
            continue
        them = number.end + 1 + (at(number.end + 1) == "'")  # of 'em
        of = at(number.end) == "of" and at(them) in _THEM
        if of and (led or at(i - 1) == ",") and _over(w, them + 1):
            return them + 1
        if led and not commas and at(i) == "one" and _over(w, number.end):
            return number.end
    return None


def _over(w: Listener, i: int) -> bool:
    return w.ends_at(i) or w.ctx.lattice.at(i) == ","
