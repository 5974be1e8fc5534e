"""`none of the others are blooming`, `neither of the other two has a pod`: the plants of which it was not told yet have it
not (guide 4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import organs
from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import EVIDENCE, numbers_of
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.listening import ORGANS, Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/none_of_others")

_OTHERS = frozenset({"group_others", "group_rest", "other_n"})
_HAVE_ANY = _LISTED.words("have_any")
_WHICH = "none of the others: which they are is not said"


def none_of_the_others(w: Listener, ph: Phrase, k: int) -> bool | str | None:
    """Such words begin with the `none` of this phrase: how they were taken; None where they do not."""
    ctx = w.ctx
    after = (s.phrase for s in w.segments[k + 1 : k + 3] if s.phrase is not None)
    group = next((p for p in after if p.form in _OTHERS and p.start - ph.end <= 1), None)
    if group is None:
        return None
    at = next(j for j, s in enumerate(w.segments) if s.phrase is group)
    told = w.in_clause(at, ORGANS)
    what = told.rule if told is not None else ctx.last_what or ""
    others = _without(w, what, group)
    end = group.end
    while told is None and ctx.lattice.at(end) in _HAVE_ANY:
        end += 1
    if others and told is None and w.ends_at(end):
        ctx.close()
        ctx.plants, ctx.explicit, ctx.group = others, True, None
        organs.look(ctx, what, False, ctx.span(ph.start, end))
        ctx.mark(ph.start, end, EVIDENCE)
        w.resume_at = end
        return True
    if not others or told is None:
        bar(w, ph, _WHICH)
        return "barred"
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = others, True, None
    w.negative = (ctx.span(ph.start, group.end), ph.start, group.end)
    ctx.mark(ph.start, group.end, EVIDENCE)
    w.resume_at = group.end
    return True


def _without(w: Listener, what: str, group: Phrase) -> list[PlantDraft]:
    """The plants of which no such organ was told, where one was told of some of them; so many, if a number is said."""
    live = w.ctx.living()
    told = [p for p in live if any(s.what == what for s in p.sightings)]
    others = [p for p in live if p not in told]
    numbers = numbers_of(group)
    return others if told and (not numbers or numbers[0] == len(others)) else []
