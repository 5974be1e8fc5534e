"""Whose `same` it is, and what is the same: `rest of em all like p1 for bloom`, `the others same as 2` (guide 4.18)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import Context
from notesparse.reading.parse import Phrase

_LISTED = cue_page("observing/same_of")
_COMMON = cue_page("shared")

_REST = _COMMON.words("rest")
_OTHER = _LISTED.words("other")
_BETWEEN = _LISTED.words("between")
_FOR = _COMMON.words("for_in_on")
_ORGANS = {"FLOWER": "flowers", "POD": "pods", "SEED": "seeds", "BEAN": "seeds", "TRIF": "trifoliates"}


def the_rest(ctx: Context, ph: Phrase, source: str | None) -> list[PlantDraft]:
    """The plants that were described beside the source, where the words before `same` are of them all."""
    at, i = ctx.lattice.at, ph.start - 1
    while i >= 0 and at(i) in _BETWEEN:
        i -= 1
    while i > 0 and at(i) in _OTHER:
        i -= 1
    if i < 0 or not (at(i) in _REST or (at(i) == "other" and at(i + 1) in _OTHER)):
        return []
    living = ctx.living()
    return [p for p in living if p.label != source] if any(p.label == source for p in living) else []


def only_for(ctx: Context, ph: Phrase) -> str | None:
    """`like p1 for bloom`: the organ or the count that is meant, right behind."""
    lattice = ctx.lattice
    if lattice.at(ph.end) not in _FOR or ph.end + 1 >= len(lattice.pieces):
        return None
    kinds = {e.kind for e in lattice.edges[ph.end + 1]}
    return next((what for kind, what in _ORGANS.items() if kind in kinds), None)
