"""Which room reads a phrase, by its rule."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import headers, revise, tallies
from notesparse.observing.finding import findings
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context, edges_of, numbers_of
from notesparse.observing.walking.bars import bar, read_cue
from notesparse.observing.walking.corrections import read_correction, read_not_number
from notesparse.observing.walking.day import read_date
from notesparse.observing.walking.field_names import another_field
from notesparse.observing.walking.groups import read_group
from notesparse.observing.walking.heads_of_each import days_in_order, of_the_named
from notesparse.observing.walking.labels import ordinal_label, read_label, whose_was_missed
from notesparse.observing.walking.leaf_words import averages, emergence, leaf_counts
from notesparse.observing.walking.lengths import read_length
from notesparse.observing.walking.like_the_form_before import like_the_form_before, variety_again
from notesparse.observing.walking.like_there import like_a_plant_there
from notesparse.observing.walking.listening import ORGANS, Listener
from notesparse.observing.walking.loose_numbers import read_none, read_number
from notesparse.observing.walking.nth_pod import nth_pod
from notesparse.observing.walking.on_all import of_all_told_of, on_all_of_them
from notesparse.observing.walking.one_each import one_each
from notesparse.observing.walking.organs.read import read_organ
from notesparse.observing.walking.places import read_place
from notesparse.observing.walking.share_behind import share_behind
from notesparse.observing.walking.shares import a_plant_at, read_share
from notesparse.observing.walking.skipped import of_the_hurt, read_lost, skip_current, skip_label
from notesparse.observing.walking.spots import read_where, side_of_the_stop
from notesparse.observing.walking.stage_words import of_this_plant, read_stage
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("walking/dispatch")


def dispatch(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    """The room that reads a phrase: whether its words were used, are filler, or are read no further (`barred`)."""
    if ph.start in w.said_behind:
        return True
    for step in _STEPS:
        done = step(w, ph, span, k)
        if done is not None:
            return done
    return False


def _plants(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """A label, or what is said of all the plants told of; what is skipped, lost, planned, past or put right."""
    ctx = w.ctx
    rule, f = ph.rule, ph.form
    nxt = w.ahead(k)[0]
    if rule == "label":
        return read_label(w, ph, span, k)
    if rule in {"trif", "stage"} and on_all_of_them(w, ph, span):
        return True
    of_all_told_of(w, ph, k)
    if f == "per_plant":
        return a_plant_at(w, ph, span, k)
    if rule in {"past", "plan", "othercrop"}:
        return read_cue(w, ph, span, k)
    if rule == "notvisited":
        prior = w.segments[k - 1].phrase if k else None
        if prior is not None and prior.rule == "label":
            return skip_current(w, ph, k)  # p4 skip
        if of_the_hurt(w, ph):
            return skip_current(w, ph, k)  # p4 broke off, skipped
        if nxt is not None and nxt.rule == "label" and nxt.start - ph.end <= 1:
            w.barred = None
            ctx.close()
            return skip_label(w, nxt, span, k)
        bar(w, ph, "a field that was not looked at")
        return "barred"
    if rule in {"goto", "fieldcue"}:
        another_field(w, ph)
        return "filler"
    if rule in {"filler", "pageno"}:
        return "filler"
    if rule == "lost":
        return read_lost(w, ph, span)
    if rule == "skipit":
        return skip_current(w, ph, k)
    if rule == "correct":
        return read_correction(w, ph, span, k)
    return None


def _calls_and_groups(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """What a stage or a count is called over the field, and groups of plants; a stop."""
    ctx = w.ctx
    rule = ph.rule
    nxt, _, mark = w.ahead(k)
    if rule == "call":
        if not of_this_plant(w, ph, k):
            ctx.field_clause = ctx.clause
        return (
            True
            if (nxt is not None and nxt.rule in {"stage", "average", "trif"}) or w.in_clause(k, {"stage", "trif"}, -1)
            else "filler"
        )
    if (
        rule == "average"
        and nxt is not None
        and (nxt.rule in ORGANS | {"emergence"} or (nxt.rule == "stage" and nxt.form in _R_OF_MOST and not mark))
        and ctx.lattice.original(ph.start, ph.end).lower().startswith("most")
    ):
        ctx.leave_plants()
        return bool(tallies.start(ctx, Phrase(ph.start, ph.end, "ratio", "most", ph.path, 0.0), span))
    if rule == "average":
        ctx.field_clause = ctx.clause
        said = {"trif", "nodes", "stage", "length", "height", "bareint", "ratio", "numlist"}
        return w.in_clause(k, said) is not None or w.in_clause(k, said, -1) is not None
    if rule == "group":
        return read_group(w, ph, span, k)
    if rule == "stop":
        ctx.here()
        ctx.leave_plants()
        ctx.stop = str(ph.path[1][1].means)
        ctx.tally = None
        w.resume_at = side_of_the_stop(w, ph.end) or findings.beside_stop(ctx, w.segments, k, w.names)
        return True
    return None


def _days_and_heads(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """A day, and what stands at the head of a visit: planting, coming up, maturity, rows, variety."""
    ctx = w.ctx
    rule, f = ph.rule, ph.form
    if (rule == "bareint" and ph.path[0][1].kind == "ORD") or f == "ord_day":
        if nth_pod(w, ph):
            return "barred"
        if ordinal_label(w, ph, span, k):
            return True
    if rule == "date":
        day = read_date(w, ph, span, k)
        if day is False and f == "ord_day" and whose_was_missed(w, ph):
            bar(w, ph, "whose this is was not understood")
            return "barred"
        return day
    if rule in {"planted", "emerged"} and days_in_order(w, ph):
        return True if ctx.use[ph.start] == EVIDENCE else "barred"
    if rule == "planted":
        return of_the_named(w, ph, lambda: headers.planted(ctx, ph, span, "planted"))
    if rule == "emerged":
        return of_the_named(w, ph, lambda: headers.planted(ctx, ph, span, "emerged"))
    if rule == "maturity":
        return of_the_named(w, ph, lambda: headers.maturity(ctx, ph, span))
    if rule == "rows":
        if (not w.at_head and ctx.plants and f == "rows" and edges_of(ph, "ROWSUFFIX", "ROWWORD")) or (
            ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].text == "of"
        ):  # 15 rows of waterhemp
            return False
        return of_the_named(w, ph, lambda: headers.rows(ctx, ph, span))
    if rule == "variety":
        end = headers.variety(ctx, ph)
        if end > ph.end:
            ctx.mark(ph.start, end, EVIDENCE)
            w.resume_at = end
            return variety_again(w)
        return False
    return None


def _same(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """The same again."""
    ctx = w.ctx
    rule = ph.rule
    if rule in {"same", "dittomark"}:
        return like_the_form_before(w, ph, span) or like_a_plant_there(w, ph, span) or revise.same(ctx, ph, span)
    return None


def _organs_and_lengths(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """Flowers, pods and seeds, their places and lengths; stages."""
    ctx = w.ctx
    rule, f = ph.rule, ph.form
    before = w.segments[k - 1].phrase if k else None
    before = w.segments[k - 1].phrase if k else None
    if f == "see_alone" and before is not None and before.rule == "stage":
        if ctx.explicit and {"feel", "felt"} & {p.text for p in ctx.lattice.pieces[ph.start : ph.end]}:
            return read_organ(
                w, Phrase(ph.start, ph.end, "seeds", "seed_small", ph.path, 0.0), span, k
            )  # R5 can feel em
        return "filler"  # R1 just barely
    if f == "share_brown" and one_each(w, ph, span, k):  # plants 1-3: 95, 90, 98 percent brown
        return True
    if f == "share_brown" and len(ctx.plants) > 1 and listed_before(ctx, ph.start):
        return False  # the last of several shares is not that of all the plants
    if f == "bean_yes" and not ctx.plants and ctx.tally is None and _the_crop_here(w, ph, k):
        return "filler"  # Oak Savanna beans: plant 1
    if rule in ORGANS:
        return read_organ(w, ph, span, k)
    if rule == "place":
        return read_place(w, ph, span, k)
    if rule == "length":
        return read_length(w, ph, span, k)
    if rule == "stage":
        return read_stage(w, ph, span, k)
    return None


def _shares(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """Shares, samples, and none."""
    ctx = w.ctx
    rule, f = ph.rule, ph.form
    nxt = w.ahead(k)[0]
    before = w.segments[k - 1].phrase if k else None
    if f == "not_all":
        behind = next((j for j, s in enumerate(w.segments) if s.phrase is nxt), None) if nxt is not None else None
        if behind is not None and share_behind(w, behind) is not None:
            return "filler"  # not all blooming, about 8 of 10
        bar(w, ph, "not all of them: no number")
        return "barred"
    if rule in {"ratio", "percent"}:
        return read_share(w, ph, span, k)
    if rule == "sampled" and before is not None and before.rule == "label" and not edges_of(ph, "INT"):
        return "filler"  # the first plant I pulled
    if rule == "sampled" and nxt is not None and nxt.rule == "stage" and nxt.start == ph.end and not ctx.explicit:
        return tallies.of_so_many(ctx, numbers_of(ph)[0], span)  # 3 plts R3, 7 plts R2
    if rule == "sampled":
        ctx.leave_plants()
        return tallies.sampled(ctx, ph, span)
    if rule == "noneword":
        return read_none(w, ph, span, k)
    return None


def _numbers_and_places(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str | None:
    """Bare numbers, where in the field, moisture."""
    ctx = w.ctx
    rule = ph.rule
    if rule == "bareint":
        return read_number(w, ph, span, k)
    if rule == "notnum":
        return read_not_number(w, ph, span)
    if rule == "where":
        return read_where(w, ph, span, k)
    if rule == "moisture":  # soil of which nothing is said
        ctx.mark(ph.start, ph.end, UNREAD if ph.form == "soil_state" else "weak", "nothing said of it")
        return "barred"
    return None


_STEPS = (
    _plants,
    _calls_and_groups,
    _days_and_heads,
    _same,
    averages,
    leaf_counts,
    emergence,
    _organs_and_lengths,
    _shares,
    _numbers_and_places,
)


def plant_next(w: Listener, k: int) -> bool:
    """A mark or a line's end, and then the label of a plant."""
    s = next((x for x in w.segments[k + 1 :] if x.phrase is not None or not w.ends_at(x.start)), None)
    return s is not None and s.start > w.segments[k].end and s.phrase is not None and s.phrase.rule == "label"


_OUR = _LISTED.words("our")


def _the_crop_here(w: Listener, ph: Phrase, k: int) -> bool:
    """`Oak Savanna beans: plant 1`, `corn is V12. beans: p1`, `oak hill beans july sixth`: the crop that is told of next."""
    nxt, _, mark = w.ahead(k)
    if w.after_name and (
        plant_next(w, k) or (nxt is not None and not mark and nxt.start == ph.end and nxt.rule in _HEADS)
    ):
        return True
    at = w.ctx.lattice.at
    first = ph.start - (at(ph.start - 1) in _OUR if ph.start else 0)
    if at(ph.end) not in {":", "-"} or not w.begins(first) or not plant_next(w, k):
        return False
    w.ctx.mark(first, ph.start, FILLER)
    return True


_HEADS = frozenset({"date", "label"})
_R_OF_MOST = frozenset({"r1", "r_mod", "the_r", "name", "name_mod"})  # and no range, which is the field's


def listed_before(ctx: Context, i: int) -> bool:
    """Another figure of the same list stands before piece i."""
    k = i - 1
    while k >= 0 and ctx.lattice.pieces[k].text in {",", "and", "&"}:
        k -= 1
    return 0 <= k < i - 1 and ctx.lattice.pieces[k].form == "int"
