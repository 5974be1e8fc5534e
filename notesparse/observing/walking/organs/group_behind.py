"""A group of plants or a share that stands behind the organ: `pods on any of the three`, `none on any of the 12 I pulled`."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import organs, tallies
from notesparse.observing.draft import TallyDraft
from notesparse.observing.fold import EVIDENCE, UNREAD, numbers_of
from notesparse.observing.walking.groups import ahead_group, group_after, more_than_told, which_are_left, which_two
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.places import near_top
from notesparse.observing.walking.share_behind import of_the_share, share_behind
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_COMMON = cue_page("shared")
_NO = _COMMON.words("none") | _COMMON.words("no") | {"neither", "not"}


def _answered_no(w: Listener, group: Phrase) -> bool:
    """`pods on any of the three? none`: the question is answered with no."""
    at = w.ctx.lattice.at
    return at(group.end) == "?" and at(group.end + 1) in _NO and w.ends_at(group.end + 2)


def _none_of_them(w: Listener, ph: Phrase, group: Phrase) -> bool:
    """None of the plants that were asked of has it."""
    ctx, end = w.ctx, group.end + 2
    span = ctx.span(ph.start, end)
    live = ctx.living()
    if live:
        ctx.close()
        ctx.plants, ctx.explicit, ctx.group = live, True, None
        organs.look(ctx, ph.rule, False, span)
        ctx.close()
    else:
        ctx.leave_plants()
        tallies.none_of_them(ctx, numbers_of(group)[0] if numbers_of(group) else None, span)
        tallies.finish(ctx, ph, span)
    ctx.mark(ph.start, end, EVIDENCE)
    w.groups_done.add(group.start)
    w.resume_at = end
    return True


def of_a_group_behind(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """A group of plants or a share behind the organ: `pods on any of the three`, `seed in the pods, on all six`."""
    ctx = w.ctx
    group = group_after(w, k)
    if group is not None and _answered_no(w, group) and ph.rule in {"flowers", "pods", "seeds"}:
        return _none_of_them(w, ph, group)
    if (
        group is not None
        and group.start not in w.said_behind
        and not ctx.living()
        and (ctx.tally is None or ctx.tally.what)
        and _of_the_sample(w, ph, span, group)
    ):
        return True
    if group is not None and ctx.visit is not None and any(not q.dropped for q in ctx.visit.plants):
        why = (
            "both of which plants is not said"
            if which_two(ctx, group)
            else "of which plants is not said"
            if which_are_left(ctx, group, ph.rule)
            else "more plants than are told of"
            if more_than_told(ctx, group)
            else ""
        )
        if why:
            ctx.mark(ph.start, group.end, UNREAD, why)
            w.resume_at = group.end
            return "barred"
        ahead_group(w, group)
    else:
        share = share_behind(w, k)
        if share is not None and share.start in w.said_behind:
            tallies.raise_to(ctx, ph, span)  # seed in the pods, on all six
            return True
        if share is not None and of_the_share(w, ph, span, share):
            return True
    return None


def _of_the_sample(w: Listener, ph: Phrase, span: Span, group: Phrase) -> bool:
    """`pulled 12, none blooming on any of them`, `nothing blooming on any of the 12 I pulled`: of plants that were only
    counted."""
    ctx = w.ctx
    if group.form == "group_n" and ctx.lattice.at(group.start) == "of":
        return _so_many_of_the(w, ph, span, group)
    behind = next((s.phrase for s in w.segments if s.start >= group.end and s.phrase is not None), None)
    behind = behind if behind is not None and behind.start <= group.end + 2 else None  # any of the | 12 I pulled
    counted = behind is not None and behind.rule == "sampled"
    many = numbers_of(behind)[0] if behind is not None and counted else tallies.sample(ctx)
    between = [s.phrase for s in w.segments if s.phrase is not None and ph.end <= s.start < group.start]
    if many is None or {p.rule for p in between} & {"state", "podshare", "percent"}:
        return False  # pods 100% brown on all 6
    ctx.tally = TallyDraft(None, many, many, None, span)
    if not tallies.finish(ctx, ph, span):
        ctx.tally = None
        return False
    if ctx.tally.what == "R1" and any(p.rule == "place" and near_top(p, span) for p in between):
        ctx.tally.what = "R2"  # flowers clear to the tip on every one
    sized = next((p for p in between if p.rule == "length"), None)
    long = organs.read_length(sized, ctx.span(sized.start, sized.end)) if sized is not None else None
    if ctx.tally.what == "R3" and not ctx.tally.negative and long is not None:
        ctx.tally.what = tallies.by_length(long)  # pods an inch long on all of them
    end = behind.end if behind is not None and counted else group.end
    ctx.mark(group.start, end, EVIDENCE)
    w.resume_at = end
    return True


def _so_many_of_the(w: Listener, ph: Phrase, span: Span, group: Phrase) -> bool:
    """`in bloom of the 25:  |||| 4`: the number stands behind; without one it is not understood."""
    ctx, i = w.ctx, group.end
    if w.ends_at(i) and ph.form == "fl_count":
        i = ph.start  # 4 in bloom of the 25
    while i < len(ctx.use) and set(ctx.lattice.at(i)) <= _BEFORE_THE_NUMBER:
        i += 1
    said = ctx.lattice.edges[i] if i < len(ctx.use) else []
    got = max((e for e in said if e.kind == "INT"), key=lambda e: e.end, default=None)
    of = numbers_of(group)[0]
    if got is None or not (w.ends_at(got.end) or i == ph.start) or int(got.means) > of:
        ctx.mark(ph.start, group.end, UNREAD, "how many of them is not said")
        w.resume_at = group.end
        return True
    ctx.tally = TallyDraft(None, int(got.means), of, None, span.cover(ctx.span(i, got.end)))
    done = tallies.finish(ctx, ph, span)
    ctx.tally, ctx.open = None, []
    if done:
        w.resume_at = max(got.end, group.end)
        ctx.mark(min(i, ph.start), w.resume_at, EVIDENCE)
    return done


_BEFORE_THE_NUMBER = frozenset("|/:=-–,.")
