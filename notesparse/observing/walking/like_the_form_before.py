"""Lines of a form that are as on the form before, of another field: `Date: same`, `Rows: as above`, `Stage: do.` (guide 4.18)."""

from __future__ import annotations

from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.observing.draft import Entry
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/like_the_form_before")

_HEADS = _LISTED.table("heads", str)
_DITTO = frozenset(_LISTED.phrases("ditto"))
_STAGES = _COMMON.words("stage") | {"growth"}


def like_the_form_before(w: Listener, ph: Phrase, span: Span) -> bool:
    """Takes what stands there from the visit before, where the line begins with its label and a colon."""
    ctx, at = w.ctx, w.ctx.lattice.at
    start = w.sentence_start(ph.start)
    here = ctx.visit
    if here is None or here.plants or at(ph.start - 1) not in {":", "="} or ph.start - start not in {2, 3}:
        return False
    before = next((v for v in reversed(ctx.visits[: ctx.visits.index(here)]) if v.name is not None), None)
    if before is None or here.name is None:
        return False
    if at(start) in _STAGES:
        here.stated += [replace(s, span=span) for s in before.stated if s.where is None]
        ctx.mark(start, ph.start, EVIDENCE if before.stated else UNREAD)
        return bool(before.stated)
    key = _HEADS.get(at(start))
    entry = before.head.get(key) if key is not None else None
    if key is None or entry is None:
        return False
    here.head[key] = Entry(entry.value, span)
    ctx.mark(start, ph.start, EVIDENCE)
    return True


def variety_again(w: Listener) -> bool:
    """`Variety: "`, which is no variety: that of the visit before; False where there is none."""
    here = w.ctx.visit
    entry = here.head.get("variety") if here is not None else None
    if here is None or entry is None or str(entry.value).casefold().strip(".") not in _DITTO:
        return True
    said = [v.head["variety"] for v in w.ctx.visits if v is not here and "variety" in v.head]
    if not said:
        del here.head["variety"]
        return False
    here.head["variety"] = Entry(said[-1].value, entry.span)
    return True
