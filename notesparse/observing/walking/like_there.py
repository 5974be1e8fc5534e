"""A plant that is like one of another field: `plant one same as plant four back at Marigold` (guide 4.18).

The name would turn the talk back to that field, and the plant would be like one of its own.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import headers, revise
from notesparse.observing.draft import PlantDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, numbers_of
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/like_there")

_AT = _LISTED.words("at")
_NUMBERED = frozenset({"same_n", "same_ord", "as_n"})


def like_a_plant_there(w: Listener, ph: Phrase, span: Span) -> bool:
    """Takes the facts of that plant, where such words stand here and the note tells of it."""
    ctx, at = w.ctx, w.ctx.lattice.at
    i = ph.end
    while at(i) in _AT:
        i += 1
    name = w.names.get(i + (at(i) == "the")) if i > ph.end else None
    there = next((v for v in ctx.visits if name is not None and headers.same_name(v.name, name.text)), None)
    if name is None or there is None or there is ctx.visit or not ctx.plants:
        return False
    source = _which(there, ph)
    if source is None:
        return False
    whole = span.cover(ctx.span(name.start, name.end))
    for plant in ctx.plants:
        revise.copy_facts(source, plant, whole)
    ctx.mark(ph.end, name.end, EVIDENCE)
    w.resume_at = name.end
    return True


def _which(there: VisitDraft, ph: Phrase) -> PlantDraft | None:
    if ph.form in _NUMBERED:
        return there.plant(str(numbers_of(ph)[-1]))
    live = [p for p in there.plants if not p.dropped]
    return live[-1] if ph.form == "same_last" and live else None
