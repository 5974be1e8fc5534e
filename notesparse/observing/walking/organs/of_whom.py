"""Of which plants it is said: of each, of all, of the others."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.fold import EVIDENCE, UNREAD
from notesparse.observing.walking.groups import others_after, the_others
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.organ_answers import asked_of_each, yes_or_no_each
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/organs/of_whom")
_COMMON = cue_page("shared")


def answered_for_each(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`blooming? yes on 1, no on 2`: answers for each plant."""
    if ph.form in {"fl_yes", "pod_yes", "seed_yes", "fl_no", "pod_no", "seed_no"} and yes_or_no_each(w, ph, span):
        return "barred" if w.barred else True
    if ph.form in {"fl_yes", "pod_yes", "seed_yes"} and asked_of_each(w, ph):
        return False
    return None


def take_all(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`no seed in any`, `none of them`, `all`, `both`: what is said is of all the plants before."""
    ctx = w.ctx
    in_any = _in_any(w, ph.end) if ph.form in {"fl_no", "pod_no", "seed_no"} and len(ctx.living()) > 1 else None
    if in_any is not None:
        ctx.close()
        ctx.group, ctx.group_n, ctx.group_span = "all", None, ctx.span(ph.start, in_any)
        ctx.mark(ph.end, in_any, EVIDENCE)
        w.resume_at = in_any
    none_of_them = ph.form == "no_brown" and (
        ph.path[0][1].kind == "NONEOF" or (says_none(w, ph.start) and none_of_all(w, ph.start, "mature"))
    )
    just_named = ctx.explicit and len(ctx.plants) == 1 and ctx.plants[0].empty  # plant five none of the pods are brown
    if none_of_them and len(ctx.living()) > 1 and not just_named:
        ctx.close()
        ctx.group, ctx.group_n, ctx.group_span = "all", None, span  # none of them have a brown pod
    before = ctx.lattice.pieces[ph.start - 1].text if ph.start else ""
    whole = (
        ph.form == "fl_past" and ctx.lattice.pieces[ph.start].text in {"all", "both"} and w.begins(ph.start)
    )  # all done flowering
    if before == "both" and ph.rule != "pods" and w.begins(ph.start - 1) and len(ctx.living()) > 2:
        if not (ctx.explicit and len(ctx.plants) == 2):
            ctx.mark(ph.start - 1, ph.end, UNREAD, "both of which plants is not said")
            return "barred"
        ctx.close()
    elif before == "both" and ph.rule == "flowers" and len(ctx.living()) == 2:
        ctx.close()  # p1 8t p2 9t both blooming: with no mark before
        ctx.group, ctx.group_n, ctx.group_span = "all", None, ctx.span(ph.start - 1, ph.end)
    elif (
        (whole or (before in {"all", "both"} and (before, ph.rule) != ("both", "pods") and w.begins(ph.start - 1)))
        and len(ctx.living()) > 1
        and (w.line_head or not ctx.explicit or (ctx.plants[-1:] and ctx.plants[-1].span.start < w.clause_from))
    ):
        ctx.close()
        ctx.group, ctx.group_n, ctx.group_span = "all", None, ctx.span(ph.start - (not whole), ph.end)
    if ph.form in {"fl_no", "pod_no", "seed_no"} and says_none(w, ph.start) and none_of_all(w, ph.start, ph.rule):
        ctx.close()
        ctx.group, ctx.group_n, ctx.group_span = "all", None, span
    if ph.form == "fl_past" and not another_plant(w, k) and none_of_all(w, _with_the(w, ph.start), ph.rule):
        ctx.close()  # plant 2 ... Bloom is all done.
        ctx.group, ctx.group_n, ctx.group_span = "all", None, span
    return None


def take_the_others(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`flowers on the others`: of all but those that have them."""
    ctx = w.ctx
    rest = others_after(w, k) if ph.rule in {"flowers", "pods", "seeds"} else None
    if rest is not None and ctx.tally is None and not (ctx.visit is not None and ctx.visit.tallies):
        others = the_others(w, ph.rule, rest)
        if others:
            ctx.close()
            ctx.plants, ctx.explicit, ctx.group = others, True, None
            w.groups_done.add(rest.start)
            w.said_behind.add(rest.start)
            ctx.mark(rest.start, rest.end, EVIDENCE)
        elif ctx.living():
            ctx.mark(ph.start, rest.end, UNREAD, "the other plants: which they are is not said")
            w.resume_at = rest.end
            return "barred"
    return None


_FOR_IN_ANY = _COMMON.words("seen") | {"yet"}


def _in_any(w: Listener, at: int) -> int | None:
    """`no seed in any.`, `no bloom seen in any`, `no bloom, any`: of all plants; where the words end."""
    at += w.ctx.lattice.at(at) in _FOR_IN_ANY
    words = [p.text for p in w.ctx.lattice.pieces[at : at + 2]]
    return at + 2 if words in (["in", "any"], ["on", "any"], [",", "any"]) and w.ends_at(at + 2) else None


def says_none(w: Listener, i: int) -> bool:
    """`none`, `nobody`, `not one`, `not a single one`."""
    at = w.ctx.lattice.at
    if at(i) in {"none", "nobody"}:
        return True
    return at(i) == "not" and any(e.kind == "NONE" and at(e.end - 1) == "one" for e in w.ctx.lattice.edges[i])


def none_of_all(w: Listener, i: int, what: str) -> bool:
    """`p1 V8, p2 V8. None blooming`: a sentence that begins so is of all the plants, where none has its own saying."""
    ctx, pieces, live = w.ctx, w.ctx.lattice.pieces, w.ctx.living()
    opens = i == 0 or pieces[i - 1].form == "nl" or pieces[i - 1].text in {".", ";"}
    counted = i > 0 and pieces[i - 1].text == "," and not any(p.named for p in live)  # 8 nodes 9 nodes, none flowering
    alone = len([p for p in live if p.line == ctx.line]) == 1 and len({p.line for p in live}) > 1  # its own line
    return (
        (opens or counted)
        and len(live) > 1
        and not alone
        and not any(s.what == what and not s.group for p in live for s in p.sightings)
        and (not ctx.plants or not ctx.explicit or ctx.plants[-1].span.start < w.clause_from)
    )


def another_plant(w: Listener, k: int) -> bool:
    """Whether another plant is named before the next field is: what is said between is of the one before."""
    for s in w.segments[k + 1 :]:
        if s.start in w.names:
            return False
        if s.phrase is not None and s.phrase.rule == "label":
            return True
    return False


_BEFORE_WITH_THE = _LISTED.words("before_with_the")


def _with_the(w: Listener, i: int) -> int:
    """`the bloom`: where it begins."""
    while i and w.ctx.lattice.pieces[i - 1].text in _BEFORE_WITH_THE:
        i -= 1
    return i


def on_branches(w: Listener, k: int) -> bool:
    """`branches have 3 trifs`: a count of branches, not of the main stem."""
    for s in reversed(w.segments[max(0, k - 4) : k]):
        if s.phrase is None:
            p = w.ctx.lattice.pieces[s.start]
            if p.form != "word" or (
                not w.ctx.lattice.filler[s.start] and not any(e.kind == "HAS" for e in w.ctx.lattice.edges[s.start])
            ):
                return False
        else:
            return s.phrase.form == "branch"
    return False
