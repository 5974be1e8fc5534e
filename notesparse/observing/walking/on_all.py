"""`7 trifs on all five plants`, `V8 on all 5 plants`: so many plants of so many, where none is named (guide 4.16)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import tallies
from notesparse.observing.draft import TallyDraft
from notesparse.observing.fold import EVIDENCE, numbers_of
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.counted import cut
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.organs.of_whom import another_plant, none_of_all
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_COMMON = cue_page("shared")

_SAID = frozenset({"trif_n", "r1", "v1"})
_PLANTS = _COMMON.words("plants")
_GROUPS = frozenset({"group_all", "group_both"})
_NONE = frozenset({"fl_no", "pod_no", "seed_no"})
_FEWEST = 2  # plants


def of_all_told_of(w: Listener, ph: Phrase, k: int) -> None:
    """`plant 1 pods. plant 2 flowers. 12 trifs on all`, `12 trifs each`: a count in a clause of its own, of all plants that
    were told of."""
    ctx = w.ctx
    if ph.form in _NONE and ctx.lattice.at(ph.end) == "anywhere":
        _none_anywhere(w, ph, k)
        return
    if ph.rule not in {"trif", "nodes"} or not (ctx.explicit and w.begins(ph.start)) or w.owned is not None:
        return
    group = next((s.phrase for s in w.segments[k + 1 : k + 2]), None)
    group = group if group is not None and group.form in _GROUPS and group.start == ph.end else None
    if group is None and ctx.lattice.at(ph.end) != "each":
        return
    end = group.end if group is not None else ph.end + 1
    live, many = ctx.living(), numbers_of(group) if group is not None else []
    if len(live) <= max(1, len(ctx.plants)) or (many and many[0] != len(live)) or not w.ends_at(end):
        return
    if group is not None and group.form == "group_both" and len(live) != _FEWEST:
        return
    _of_each(w, ph.end, end)


def _none_anywhere(w: Listener, ph: Phrase, k: int) -> None:
    """`plant 1 10 trifs. plant 2 11 trifs. No blooms anywhere.`: the last sentence of a visit that told of each plant in one,
    and nothing of blooms before."""
    ctx = w.ctx
    if w.owned is not None or not w.hard_end_or_over(ph.end + 1) or not none_of_all(w, ph.start, ph.rule):
        return
    last = max(p.span.start for p in ctx.living())
    told = ctx.lattice.pieces[w.sentence_start(max(ph.start - 1, 0))].span.start
    if told <= last and not another_plant(w, k):
        _of_each(w, ph.end, ph.end + 1)


def _of_each(w: Listener, start: int, end: int) -> None:
    """What is said now is of all plants that were told of; the words at pieces [start, end) say so."""
    ctx = w.ctx
    ctx.close()
    ctx.group, ctx.group_n, ctx.group_span = "all", None, ctx.span(start, end)
    ctx.mark(start, end, EVIDENCE)
    w.resume_at = end
    cut(w, end)


def on_all_of_them(w: Listener, ph: Phrase, span: Span) -> bool:
    """Counts what is said by the phrase for all plants, if their number stands behind it. Where as many were told of, it
    is left to be read of each of them."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if at(ph.end) != "on" or at(ph.end + 1) != "all" or ph.form not in _SAID or w.owned is not None:
        return False
    number = number_at(w, ph.end + 2 + (at(ph.end + 2) == "the"))
    if number is None or int(number.means) < _FEWEST or at(number.end) not in _PLANTS:
        return False
    end, many = number.end + 1, int(number.means)
    live = ctx.living()
    if not (w.ends_at(end) or at(end) == ",") or (live and len(live) != many):
        return False
    if live:
        _of_each(w, ph.end, end)
        return False
    ctx.leave_plants()
    ctx.tally = TallyDraft(None, many, many, None, span.cover(ctx.span(ph.end, end)))
    told = tallies.finish(ctx, ph, span)
    ctx.tally = None
    if told:
        ctx.sample, ctx.sample_visit = many, len(ctx.visits)
        ctx.mark(ph.end, end, EVIDENCE)
        w.resume_at = end
        cut(w, end)
    return told
