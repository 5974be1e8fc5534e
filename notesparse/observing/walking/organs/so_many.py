"""So many plants that have them: what goes with the share before, and what a share that waits is of."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import tallies
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.share_behind import share_behind
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/organs/so_many")
_COMMON = cue_page("shared")
_LATER = {"pod_no": "R3", "seed_no": "R5"}
"""What plants have not reached of which this is said: a share at an earlier stage stays as it was told."""
_BEHIND_CAME_UP = _COMMON.words("up_there")


def came_up(w: Listener, k: int) -> bool:
    """What was sown came up, in this clause; `pods up there` is a place."""
    up = w.in_clause(k, {"emergence"})
    pieces = w.ctx.lattice.pieces
    return up is not None and not (up.end < len(pieces) and pieces[up.end].text in _BEHIND_CAME_UP)


_DO = _LISTED.words("do")
_SOME_HAVE = frozenset({"fl_yes", "pod_yes", "seed_yes", "brown", "n_brown"})
_HARDLY = _COMMON.words("hardly")


def some_of_them(w: Listener, ph: Phrase) -> int | None:
    """`a few blooming`, `some of them have a bloom`: the piece where an untold number of plants begins (guide 4.16)."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    if ctx.explicit or ctx.tally is not None or ctx.living() or ph.form not in _SOME_HAVE:
        return None
    i = ph.start - 1
    while i >= 0 and pieces[i].text in _DO:
        i -= 1
    verb = pieces[ph.end - 1].text.endswith(("ing", "in", "ed")) or pieces[ph.start - 1].text in {"have", "had", "a"}
    verb = verb or pieces[max(ph.end - 2, ph.start)].text == "in"  # in bloom
    hardly = i > 0 and pieces[i - 1].text in _HARDLY
    if i < 0 or not (verb or hardly) or ctx.use[i] == EVIDENCE:
        return None
    for a in (i - 1, i):
        edges = [e for e in ctx.lattice.edges[a] if e.how == "exact" and e.end > i] if a >= 0 else []
        if any(e.kind == "LOTS" or (e.kind == "FEW" and pieces[i].text == "handful") for e in edges):
            return a
    return None


def of_the_share_before(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """What the plants of the share before have too, or have not yet: `7 of 12 have seed in the pods`, `9 of 30 had bloom and no pods`."""
    ctx = w.ctx
    if (
        ctx.tally is not None
        and ctx.tally.what == "R5"
        and ph.form == "pod_yes"
        and "IN" in ctx.link
        and not ctx.plants
    ):
        ctx.tally.span = ctx.tally.span.cover(span)
        return True  # 7 of 12 have seed in the pods
    if (
        ctx.tally is not None
        and ctx.tally.what is not None
        and (ctx.tally.what < _LATER.get(ph.form, "") or (ph.form == "fl_no" and "R3" <= ctx.tally.what < "S"))
        and not ctx.plants
        and ph.start
        and ctx.lattice.pieces[ph.start - 1].text in {"and", "but", ",", "&", "with"}
    ):
        ctx.tally.span = ctx.tally.span.cover(span)
        return True  # 9 of 30 had bloom in the top 2 nodes and no pods
    if ctx.tally is not None and ctx.tally.what is None and ctx.tally.percent is not None and of_the(w, ph):
        ctx.mark(ph.start, ph.end, UNREAD, "a share of pods, and not of plants")
        ctx.tally, ctx.open = None, []
        return "barred"  # stung 10% of the pods
    return None


def of_a_share_that_waits(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`3 of 5`, `a few`, `10 plants, 3`: a number of plants that waits for what they have."""
    ctx = w.ctx
    if w.joined((ctx.tally.span if ctx.tally is not None else span).end, ph.start):
        tallies.and_more(ctx, ph)  # 3 of 5 had nine trifs and flowers at the top
    some = some_of_them(w, ph)
    if some is not None and share_behind(w, k) is None:
        ctx.leave_plants()
        tallies.start(ctx, Phrase(some, ph.start, "ratio", "lots", (), 0.0), ctx.span(some, ph.start))
        ctx.mark(some, ph.start, EVIDENCE)
    elif ctx.tally is None or ctx.tally.what is not None:
        tallies.counted(ctx, ph, span, w.clause_from)  # 10 plants, 3 flowering
    if ctx.tally is not None and ctx.tally.what is None:
        if ph.rule == "seeds" and came_up(w, k):
            return "filler"  # 41 of the 50 seeds I flagged are up
        if tallies.finish(ctx, ph, span):
            ctx.open = []
            return True
    return None


def further_along(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """The share that was told is further along than it said: full pods, brown pods, flat pods."""
    ctx = w.ctx
    if (
        ctx.tally is not None
        and ctx.tally.what is not None
        and ph.rule == "state"
        and ph.form == "full"
        and ctx.tally.what in {"R5", "R3"}
    ):
        ctx.tally.what = "R6"
        ctx.tally.span = ctx.tally.span.cover(span)
        return True
    if ctx.tally is not None and ctx.tally.what == "R3" and ph.rule == "state" and ph.form in {"brown", "n_brown"}:
        ctx.tally.what = "R7"
        ctx.tally.span = ctx.tally.span.cover(span)
        return True
    if ctx.tally is not None and ctx.tally.what in {"pods", "R3", "R4"} and ph.form == "seed_no" and not ctx.plants:
        ctx.tally.span = ctx.tally.span.cover(span)
        return True  # the other 3 just inch long pods, no bean yet
    if ctx.tally is not None and ctx.tally.what == "R3" and ph.form == "pod_flat":
        ctx.tally.what = "R4"
        ctx.tally.span = ctx.tally.span.cover(span)
        return True
    return None


_FOR_OF_THE = _LISTED.words("for_of_the")


def of_the(w: Listener, ph: Phrase) -> bool:
    """`of the pods`."""
    pieces, i = w.ctx.lattice.pieces, ph.start - 1
    while i > 0 and pieces[i].text in _FOR_OF_THE:
        i -= 1
    return ph.rule in {"pods", "seeds"} and i >= 0 and pieces[i].text == "of"
