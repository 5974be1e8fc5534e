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

_SOME = _LISTED.words("some")
_THEM = cue_page("shared").words("them")
_FAR = 10  # pieces behind what they have


def some_of_a_run(w: Listener, ph: Phrase) -> bool:
    """Such words begin at a phrase of flowers, pods or seed: they are shown as unread, and give the run nothing."""
    ctx = w.ctx
    run = ctx.explicit and len(ctx.plants) > 1 and ctx.group is None and ctx.tally is None and w.owned is None
    if not run:
        return False
    start = ph.start
    if ctx.lattice.at(start - 1) in _SOME and ctx.lattice.at(ph.end - 1).endswith("ing"):
        start, end = start - 1, ph.end
    else:
        found = _so_many_behind(w, ph)
        if found is None:
            return False
        end = found
    clear_waiting(w)
    ctx.mark(start, end, UNREAD, "some of these plants: which is not said")
    ctx.open, w.resume_at = [], end
    return True


def _so_many_behind(w: Listener, ph: Phrase) -> int | None:
    """Where `on two of them`, `, two of them` or a bare `on one` ends that stands behind the phrase."""
    ctx, at = w.ctx, w.ctx.lattice.at
    commas = 0
    for i in range(ph.end, min(ph.end + _FAR, len(ctx.use))):
        commas += at(i) == ","
        if w.hard_end(i) or commas > 1 or (commas and at(i) in {"on", "in"}):
            return None
        number = number_at(w, i)
        if number is None or not 0 < int(number.means) < len(ctx.plants):
            continue
        them = number.end + 1 + (at(number.end + 1) == "'")  # of 'em
        of = at(number.end) == "of" and at(them) in _THEM
        led = at(i - 1) in {"on", "in"}
        if of and (led or at(i - 1) == ",") and (w.ends_at(them + 1) or at(them + 1) == ","):
            return them + 1
        if led and not commas and at(i) == "one" and (w.ends_at(number.end) or at(number.end) == ","):
            return number.end
    return None
