"""The field told of last had the wrong name: `Beacon. Plant 1 ... Wait, this is Windlass not Beacon.` (guide 4.17)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import headers
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.naming.names import Name
from notesparse.observing.walking.listening import Listener
from notesparse.outcome import Correction

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/wrong_field")

_SORRY = _LISTED.words("sorry")
_NAMES_IT = _LISTED.words("names_it")
_NOT = _COMMON.words("is_not") | {"n't", "not"}
_FOR_OF_ANOTHER_FIELD = _LISTED.words("for_of_another_field")


def of_another_field(w: Listener, name: Name) -> bool:
    """`Beacon. Plant 1 ... Wait, this is Windlass not Beacon.`: the field told of last had the wrong name (guide 4.17)."""
    ctx, at = w.ctx, w.ctx.lattice.at
    visit = ctx.visit
    if visit is None or visit.name is None or visit.name_span is None or visit.empty:
        return False
    if any(headers.same_name(v.name, name.text) for v in ctx.visits):
        return False
    start, end = w.sentence_start(name.start), name.end
    if ctx.lattice.pieces[start].span.start <= visit.name_span.start:
        return False
    own = [n for n in w.names.values() if headers.same_name(n.text, visit.name)]
    denied = next((n for n in own if n.start - end in {1, 2, 3} and at(n.start - 1) in _NOT | {"the"}), None)
    before = any(start < n.start < name.start and _NOT & {at(n.start - 1), at(n.start - 2)} for n in own)
    words = {at(x) for x in range(start, name.start)}
    said = bool(words & _NAMES_IT) and bool(words & _SORRY) and _nothing_told(w, start, name.start)
    end = denied.end if denied is not None else end
    if not (denied is not None or before or (said and words & _FOR_OF_ANOTHER_FIELD)) or not w.ends_at(end):
        return False
    span = ctx.span(start, end)
    ctx.corrected.append(Correction("4.17", span, f"the field is {name.text}, not {visit.name}"))
    visit.name, visit.name_span = name.text, ctx.span(name.start, name.end)
    ctx.mark(start, end, EVIDENCE)
    w.resume_at = max(w.resume_at, end)
    return True


def _nothing_told(w: Listener, a: int, b: int) -> bool:
    return not any(
        s.phrase is not None and s.phrase.rule in {"stage", "label", "ratio"} for s in w.segments if a <= s.start < b
    )
