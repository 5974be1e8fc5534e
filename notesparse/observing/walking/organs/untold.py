"""Flowers, pods and seeds of which nothing is told, or not of which: asked, left blank, one or the other, all but some."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import leaves, organs
from notesparse.observing.fold import EVIDENCE, EXCEPT, UNREAD
from notesparse.observing.walking.clause_ends import orphans
from notesparse.observing.walking.hurt_pods import RIPE
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.only_these import WHICH
from notesparse.observing.walking.organ_answers import how_many_asked, left_blank, not_looked_for
from notesparse.observing.walking.share_behind import share_behind
from notesparse.observing.walking.some_of_a_run import some_of_a_run
from notesparse.reading.parse import Phrase
from notesparse.span import Span
from notesparse.staging.tallies import STAGE_OF

_LISTED = cue_page("walking/organs/untold")
_COMMON = cue_page("shared")
_RIPE_CLASSES = frozenset({"R7", "R8"})
_BIGGER = _COMMON.words("bigger") | {"over", "past"}
_COUNTS = _COMMON.words("count")
_SOME_HAVE = frozenset({"fl_yes", "pod_yes", "seed_yes", "brown", "n_brown"})


def asked_and_untold(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """Felt for, left blank on a form, or asked how many of: nothing is told of them here."""
    ctx = w.ctx
    if ph.form in {"fl_sought", "pod_sought", "seed_sought"}:  # felt for seed, nothing there
        ctx.open, ctx.last_what = [], ph.rule
        return False
    if ph.form in {"fl_yes", "pod_yes", "seed_yes", "bean_yes"} and left_blank(w, ph, k):
        ctx.open, ctx.last_what = [], ph.rule
        return "filler"
    if how_many_asked(w, ph, span):
        return "barred"
    return None


def none_so_big(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`no pods that big`: of smaller ones nothing is said."""
    ctx = w.ctx
    at = ctx.lattice.at
    if ph.form in {"pod_no", "seed_no", "fl_no"} and at(ph.end) in {"that", "this", "so"} and at(ph.end + 1) in _BIG:
        ctx.mark(ph.start, ph.end + 2, UNREAD, "none so big: of smaller ones nothing is said")
        ctx.open, w.resume_at = [], ph.end + 2
        return "barred"
    return None


def which_is_not_said(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """All green of a share, one organ or the other, a figure that is a plant or a number of them, some of a run."""
    ctx = w.ctx
    if ph.form == "pods_all_green" and _green_of_a_share(w, ph, k):
        return "barred"
    other = _or_another(w, ph, k)
    if other is not None:
        ctx.mark(ph.start, other.end, UNREAD, "one or the other: which is not said")
        ctx.open, w.resume_at = [], other.end
        return "barred"
    which = _on_a_number(w, ph)
    if which is not None:
        ctx.mark(ph.start, which, UNREAD, WHICH)
        ctx.open, w.resume_at = [], which
        return "barred"
    if (ph.rule in {"flowers", "pods", "seeds"} or ph.form in RIPE) and some_of_a_run(w, ph):
        return "barred"
    return None


def denial_of_a_denial(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`not a pod that is not brown`: all are; other denials of a denial say nothing."""
    ctx = w.ctx
    twice = _denied_twice(w, ph, k)
    if twice is not None:
        said = ctx.span(ph.start, twice.end)
        all_brown = twice.form == "no_brown" and ctx.plants and leaves.put(ctx, "mature_pods_percent", 100.0, said)
        ctx.mark(ph.start, twice.end, EVIDENCE if all_brown else UNREAD, "" if all_brown else "a denial of a denial")
        ctx.open, w.resume_at = [], twice.end
        return True if all_brown else "barred"
    return None


def all_but_some(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`all brown but one pod`: of how many is not said."""
    ctx = w.ctx
    if ph.form == "all_brown" and ctx.explicit and len(ctx.plants) == 1 and _but_some(w, ph):
        stop = next((i for i in range(ph.end + 1, len(ctx.use)) if w.ends_at(i)), len(ctx.use))
        ctx.mark(ph.start, stop, UNREAD, "all but some: of how many is not said")
        ctx.open, w.resume_at = [], stop
        return "barred"
    return None


def only_spoken_of(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`back to the flowers`, `flowering counts:` over a list: a word for what is told next."""
    ctx = w.ctx
    if [p.text for p in ctx.lattice.pieces[max(0, ph.start - 2) : ph.start]] in (["to", "the"], ["back", "to"]):
        if "back" in {p.text for p in ctx.lattice.pieces[max(0, ph.start - 3) : ph.start]}:
            ctx.open, ctx.last_what = [], ph.rule
            return "filler"  # back to the flowers
    counts = ph.end + (ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].text in _COUNTS)
    if ctx.lattice.pieces[counts - 1].text in _COUNTS and not ctx.explicit and share_behind(w, k) is None:
        ctx.open, ctx.last_what, w.count_of = [], ph.rule, STAGE_OF.get(ph.rule)
        w.resume_at = counts
        return "filler"  # I only did the bloom count there; Flowering counts, over a list of fields
    return None


def none_bigger_than(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """`no pods bigger than 1/4 inch`: there are pods."""
    ctx = w.ctx
    nxt = w.ahead(k)[0]
    if ph.form == "pod_no" and ctx.lattice.at(ph.end) in _BIGGER and nxt is not None and nxt.rule == "length":
        ctx.mark(ph.end, nxt.start, EVIDENCE)
        ctx.open = organs.look(ctx, "pods", True, span)  # no pods bigger than 1/4 inch
        w.resume_at = ctx.open_end = nxt.start
        return True
    return None


def left_over_before(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """Lengths and places that wait before a no of seed are of the pods; what nobody looked for is not told."""
    ctx = w.ctx
    if ph.form == "seed_no" and ctx.plants and (ctx.lengths or (ctx.places and "AND" in ctx.link)) and not ctx.open:
        orphans(w)  # plant three it's an inch long at the top node and there's no seed in it
    if ph.form in {"fl_no", "pod_no", "seed_no"} and not_looked_for(w, ph):
        ctx.mark(ph.start, ph.end + 1, UNREAD, "not looked for")
        w.resume_at = ph.end + 1
        return "barred"
    return None


def _green_of_a_share(w: Listener, ph: Phrase, k: int) -> bool:
    """`every pod green, 4 of 20`, with no class of ripe ones before: whether the others are brown or yellow is not said."""
    ctx = w.ctx
    if ctx.visit is not None and any(t.what in _RIPE_CLASSES for t in ctx.visit.tallies):
        return False
    waits = ctx.tally is not None and ctx.tally.what is None
    share = None if waits else share_behind(w, k)
    if not waits and share is None:
        return False
    start = ctx.lattice.first_from(ctx.tally.span.start) if waits and ctx.tally is not None else ph.start
    end = share.end if share is not None else ph.end
    ctx.mark(start, end, UNREAD, "a share of plants that are all green: what the others are is not said")
    ctx.tally, ctx.open, w.resume_at = None, [], end
    return True


def _or_another(w: Listener, ph: Phrase, k: int) -> Phrase | None:
    """`pod or flower at the top node`: the other organ behind `or`."""
    nxt = w.ahead(k)[0]
    if ph.form not in _SOME_HAVE | {"bean_yes"} or nxt is None or nxt.form not in _SOME_HAVE or nxt.rule == ph.rule:
        return None
    between = [w.ctx.lattice.at(i) for i in range(ph.end, nxt.start)]
    return nxt if between[:1] == ["or"] and set(between[1:]) <= {"a", "an", "maybe"} else None


def _number_at(w: Listener, i: int) -> bool:
    return i < len(w.ctx.use) and any(e.kind == "INT" for e in w.ctx.lattice.edges[i])


def _on_a_number(w: Listener, ph: Phrase) -> int | None:
    """`p1 8 trifs, p2 9 trifs, p3 9 trifs, flowers on 2`: on the second of them, or on two; where the words end."""
    ctx, at = w.ctx, w.ctx.lattice.at(ph.end)
    live = ctx.living()
    if at != "on" or len(live) < 2 or ph.rule not in {"flowers", "pods", "seeds"} or ph.end + 1 >= len(ctx.use):
        return None
    figures = [e for e in ctx.lattice.edges[ph.end + 1] if e.kind == "INT" and w.ends_at(e.end)]
    figures = [e for e in figures if not _number_at(w, e.end + 1)]  # no flowers on 3, 4 or 5
    numbers = {str(n) for n in range(2, len(live) + 1)}
    labels = {p.label for p in live}
    listed = sum(ctx.lattice.at(i) == "on" for i in range(w.sentence_start(ph.start), ph.end + 1)) > 1
    if listed:
        return None  # blooming on 1 and 2, nothing open on 3
    return next((e.end for e in figures if str(e.means) in numbers and str(e.means) in labels), None)


_BIG = _LISTED.words("big")
_DENIALS = frozenset({"no_brown", "not_full", "fl_no", "pod_no", "seed_no"})
_FOR_DENIED_TWICE = _LISTED.words("for_denied_twice")


def _denied_twice(w: Listener, ph: Phrase, k: int) -> Phrase | None:
    """`there isn't a pod on it that's not brown`: every pod is; the second denial."""
    if ph.form not in {"pod_no", "fl_no", "seed_no"}:
        return None
    second = next(
        (s.phrase for s in w.segments[k + 1 : k + 6] if s.phrase is not None and s.phrase.rule != "filler"), None
    )
    if second is None or second.form not in _DENIALS or second.start - ph.end > _NEAR_DENIAL:
        return None
    between = {w.ctx.lattice.at(i) for i in range(ph.end, second.start)}
    return second if between & _FOR_DENIED_TWICE and not between & {",", ".", ";", "and"} else None


_ONES = _LISTED.words("ones")
_NEAR_DENIAL = 4  # pieces


def _but_some(w: Listener, ph: Phrase) -> bool:
    """`all brown but one pod`, `every pod brown except 2`."""
    at = ph.end + (w.ctx.lattice.at(ph.end) == ",")
    edges = w.ctx.lattice.edges[at + 1] if at + 1 < len(w.ctx.use) else []
    some = any(e.kind in {"INT", "SOMEW", "FEW"} for e in edges) or (
        w.ctx.lattice.at(at + 1) in {"the", "for"} and w.ctx.lattice.at(at + 2) in _ONES
    )
    return w.ctx.lattice.at(at) in EXCEPT and some and w.ctx.lattice.at(at + 2) not in {"plant", "plants"}
