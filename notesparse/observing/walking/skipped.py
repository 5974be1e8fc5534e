"""Plants that were skipped, lost or taken back."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import revise
from notesparse.observing.finding import findings
from notesparse.observing.fold import EVIDENCE, UNREAD, numbers_of
from notesparse.observing.walking.counted import numbers_at
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/skipped")


def skip_label(w: Listener, nxt: Phrase, span: Span, k: int) -> bool | str:
    if damage_ahead(w, k) and numbers_of(nxt):  # skip plant 2, it's cut off
        for left_out in w.ctx.begin([str(n) for n in numbers_of(nxt)], w.ctx.span(nxt.start, nxt.end)):
            left_out.dropped = True
        w.ctx.mark(nxt.start, nxt.end, EVIDENCE)
        w.resume_at = nxt.end
        return "filler"
    w.barred = "a plant that was skipped"
    w.resume_at = nxt.end
    w.ctx.mark(nxt.start, nxt.end, UNREAD, w.barred)
    w.ctx.mark_span(span, UNREAD, w.barred)
    return "barred"


def skip_current(w: Listener, ph: Phrase, k: int) -> bool | str:
    """`skip it`: the plant just named is no plant."""
    ctx = w.ctx
    if not ctx.plants:
        return "filler"
    pod = _a_part(w, ph, k)
    if pod is not None:
        at = ctx.lattice.pieces[pod].span.start
        for s in [s for s in ctx.statements if s.kind in {"mature_pods", "trifoliates"} and s.span.start >= at]:
            s.undo()
            ctx.statements.remove(s)
        ctx.mark(pod, ph.end, UNREAD, "a part of the plant that was left out: no evidence for a stage")
        return "barred"
    last = ctx.visit.findings[-1] if ctx.visit is not None and ctx.visit.findings else None
    if (
        last is not None
        and last.kind == "damage"
        and last.span.start > ctx.plants[-1].span.start
        and all(p.empty for p in ctx.plants)
    ):
        for p in ctx.plants:
            p.dropped = True
        ctx.leave_plants()
        return "filler"  # it is told by what happened to it
    for p in ctx.plants:
        p.dropped = True
        ctx.mark_span(p.span, UNREAD, "a plant that was skipped")
    ctx.asks = [a for a in ctx.asks if a.plant not in ctx.plants or a.rule == "8"]
    ctx.leave_plants()
    ctx.mark(ph.start, ph.end, UNREAD, "a plant that was skipped")
    return "barred"


def of_the_hurt(w: Listener, ph: Phrase) -> bool:
    """`plant 3 broke off, skipped`: behind what happened to the plant it stands that nobody looked."""
    ctx = w.ctx
    if not ctx.hurt or ctx.plants != [ctx.hurt[-1][1]] or not w.ends_at(ph.end):
        return False
    i = ph.start - (ctx.lattice.at(ph.start - 1) in {",", "-", ";"})
    return i > 0 and ctx.lattice.pieces[i - 1].span.end <= ctx.hurt[-1][0].span.end


_LEAVING = _COMMON.words("strike") | {"leave"}
_COUNTING = _LISTED.words("counting")
_NAMING = _LISTED.words("naming")
_BEHIND_LEFT_OUT = _LISTED.words("behind_left_out")


def left_out(w: Listener, i: int) -> int | None:
    """`Leave 3 out`, `toss number 3`, `don't count 3`, of plants that were told of: none of them is a plant; where the
    words end."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if ctx.visit is None or not w.begins(i):
        return None
    if at(i) in _LEAVING:
        k = i + 1
    elif at(i) in {"don't", "dont", "not"} and at(i + 1) in _COUNTING:
        k = i + 2
    else:
        return None
    got = numbers_at(w, k, _NAMING)
    if got is None:
        return None
    labels, end = got
    if at(end - 1) == "one" and at(end - 2) in {"that", "this"}:
        return None  # don't count that one: the last one
    gone = [p for p in ctx.living() if p.label in labels]
    if len(gone) != len(labels) or len(gone) == len(ctx.living()):
        return None
    end += at(end) in {"out", "away"}
    if not (w.ends_at(end) or at(end) in _BEHIND_LEFT_OUT):
        return None
    for p in gone:
        p.dropped = True
        if not any(q.span == p.span for q in ctx.living()):
            ctx.mark_span(p.span, UNREAD, "a plant that was skipped")
    ctx.asks = [a for a in ctx.asks if a.plant not in gone]
    ctx.mark(i, end, UNREAD, "a plant that was skipped")
    ctx.leave_plants()
    return end


_COLOURED = frozenset({"n_brown", "brown", "pods_brown"})


def _a_part(w: Listener, ph: Phrase, k: int) -> int | None:
    """`p6 only brown pod has pod blight so I left it out`, `9 trifs, 10th leaf was torn so I left it out`: it is the pod
    or the leaf, and no plant; the piece where it begins."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    i = ph.start
    while i and pieces[i - 1].form not in {"mark", "nl"}:
        i -= 1
    said = {e.kind for j in range(i, ph.start) for e in ctx.lattice.edges[j]}
    if any(not p.empty for p in ctx.plants) and said & {"LEAF", "TRIF"} and "PLANT" not in said:
        return i
    coloured = None
    for s in reversed(w.segments[:k]):
        if s.phrase is None:
            if w.hard_end(s.start):
                break
        elif s.phrase.rule == "label":
            break
        elif s.phrase.rule == "state" and s.phrase.form in _COLOURED:
            coloured = s.phrase.start
    if coloured is None or not any(pieces[j].text in {"pod", "one", "pd"} for j in range(coloured, ph.start)):
        return None
    return coloured


def damage_ahead(w: Listener, k: int) -> bool:
    """Before the next plant or the end of the clause it is said what happened to the plant."""
    labels = 0
    for s in w.segments[k + 1 : k + 12]:
        if s.phrase is None:
            if w.hard_end(s.start):
                return False
        elif s.phrase.rule == "lost" or (s.phrase.rule == "findhead" and s.phrase.path[0][1].kind == "DAMAGE"):
            return True
        elif s.phrase.rule == "label":
            labels += 1
            if labels > 1:
                return False
    return False


_BEHIND_READ_LOST = _LISTED.words("behind_read_lost")


def read_lost(w: Listener, ph: Phrase, span: Span) -> bool:
    """`plant 2 dead`: no plant, and a finding of damage (guide 4.17)."""
    ctx = w.ctx
    if not ctx.plants or not ctx.explicit or not all(p.empty for p in ctx.plants):
        return False
    if not w.ends_at(ph.end) and ctx.lattice.pieces[ph.end].text not in _BEHIND_READ_LOST:
        return False  # plant 2 missing the top
    findings.add(ctx, "damage", str(ph.path[0][1].means), span)
    revise.hurt(ctx, ph.start)
    return True
