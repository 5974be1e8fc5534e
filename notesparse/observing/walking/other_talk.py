"""Numbers of other talk, that count nothing on a plant: `the bin holds forty`, `heading for the next one around 10`."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import claim_words, name_words
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/other_talk")
_COMMON = cue_page("shared")

_OWN_CALL = _LISTED.words("own_call")
_ABOUT = _COMMON.words("about_an_hour")
_CLOCK = _COMMON.words("behind_an_hour")
_GOING = 6  # words between the verb and where it goes


def of_other_talk(w: Listener, at: int) -> bool:
    """`plant 2 same as 1. The bin holds forty`: words that nobody knows stand between what was read and the number at
    piece `at`, and are no call of the scout's own (`I'd say ten`, `plant 2 measured ten`)."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    called = _OWN_CALL | claim_words().calling
    strange = 0
    i = at - 1
    while i >= 0 and pieces[i].form == "word" and ctx.use[i] != EVIDENCE:
        known = ctx.lattice.known[i] or ctx.lattice.filler[i] or pieces[i].text in called
        strange += not known
        i -= 1
    behind_label = i >= 0 and bool(ctx.plants) and pieces[i].span.end == ctx.plants[-1].span.end
    return strange > 1 or (strange == 1 and not (behind_label and at - i == _ONE_VERB))


_ONE_VERB = 2


def going_on(w: Listener, ph: Phrase) -> bool:
    """`Heading for the next one around 10`: where the walk goes on to, and at what time of the day."""
    pieces, at = w.ctx.lattice.pieces, w.ctx.lattice.at
    if at(ph.end) not in _ABOUT or ph.end + 1 >= len(pieces) or pieces[ph.end + 1].form not in {"int", "word", "time"}:
        return False
    end = max((e.end for e in w.ctx.lattice.edges[ph.end + 1] if e.kind == "INT"), default=ph.end + 2)
    if not (w.ends_at(end) or at(end) in _CLOCK):
        return False
    before = [pieces[i] for i in range(max(0, ph.start - _GOING), ph.start)]
    moving = [k for k, p in enumerate(before) if p.text in name_words().moving]
    return bool(moving) and all(p.form == "word" for p in before[moving[-1] :])
