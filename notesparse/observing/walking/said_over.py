"""A number that is put right by the next one at once, with only a no between: `it has ten no eleven trifs` (guide 4.17)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.fold import FILLER, numbers_of
from notesparse.observing.walking.listening import Listener
from notesparse.outcome import Correction
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_COMMON = cue_page("shared")

_LEADS = _COMMON.words("being_or_having") | _COMMON.words("with") | {"at"}
_COUNTS = frozenset({"trif", "nodes"})


def said_over(w: Listener, ph: Phrase, span: Span) -> bool:
    """Whether the number is none: a no and a count of leaves or nodes stand right behind it."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if at(ph.end) != "no" or not ctx.explicit or len(ph.path) != 1 or ph.path[0][1].kind != "INT":
        return False
    over = next((s.phrase for s in w.segments if s.start == ph.end + 1), None)
    if over is None or over.rule not in _COUNTS or len(numbers_of(over)) != 1:
        return False
    first = ph.start - (at(ph.start - 1) in _LEADS)
    ctx.corrected.append(Correction("4.17", span, f"{numbers_of(over)[0]} instead"))
    ctx.mark(first, ph.end + 1, FILLER)
    w.resume_at = ph.end + 1
    return True
