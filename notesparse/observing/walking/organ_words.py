"""Flowers, pods and seeds as the walk meets them, and what they are of."""

from __future__ import annotations

import itertools

from notesparse.language.cues import cue_page
from notesparse.observing import leaves, organs, tallies
from notesparse.observing.draft import Entry, Sighting, TallyDraft
from notesparse.observing.fold import EVIDENCE, EXCEPT, NOTHING_TO_TURN, UNREAD, numbers_of
from notesparse.observing.sizes import LONG_SEED
from notesparse.observing.walking.clause_ends import orphans
from notesparse.observing.walking.groups import (
    ahead_group,
    group_after,
    more_than_told,
    others_after,
    the_others,
    which_are_left,
    which_two,
)
from notesparse.observing.walking.hurt_pods import NOT_SO, RIPE, hurt_here
from notesparse.observing.walking.listening import Listener
from notesparse.observing.walking.only_these import WHICH
from notesparse.observing.walking.organ_answers import (
    asked_of_each,
    how_many_asked,
    left_blank,
    not_looked_for,
    yes_or_no_each,
)
from notesparse.observing.walking.places import near_top
from notesparse.observing.walking.ripe_pods import asked_and_told
from notesparse.observing.walking.share_behind import of_the_share, share_behind
from notesparse.observing.walking.some_of_a_run import some_of_a_run
from notesparse.reading.parse import Phrase
from notesparse.span import Span
from notesparse.staging.tallies import STAGE_OF

_LISTED = cue_page("walking/organ_words")
_COMMON = cue_page("shared")

_RIPE_CLASSES = frozenset({"R7", "R8"})
_BIGGER = _COMMON.words("bigger") | {"over", "past"}
_COUNTS = _COMMON.words("count")
_SOME = frozenset({"fl_yes", "pod_yes", "seed_yes", "seed_count", "bean_yes", "seed_small"})
_LATER = {"pod_no": "R3", "seed_no": "R5"}
"""What plants have not reached of which this is said: a share at an earlier stage stays as it was told."""


_BEHIND_CAME_UP = _COMMON.words("up_there")


def came_up(w: Listener, k: int) -> bool:
    """What was sown came up, in this clause; `pods up there` is a place."""
    up = w.in_clause(k, {"emergence"})
    pieces = w.ctx.lattice.pieces
    return up is not None and not (up.end < len(pieces) and pieces[up.end].text in _BEHIND_CAME_UP)


_HIGH = frozenset({"up_top", "top_n", "top_two", "top_four", "top_1"})


def _full_down_low(w: Listener, nxt: Phrase | None, mark: bool) -> bool:
    """Full pods are told of a place below that of the pods that were just named."""
    said = w.ctx.open
    low = nxt is not None and not mark and nxt.form == "lower"
    return low and bool(said) and said[0].what == "pods" and any(x.form in _HIGH for x in said[0].places)


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
    verb = pieces[ph.end - 1].text.endswith(("ing", "ed")) or pieces[ph.start - 1].text in {"have", "had", "a"}
    verb = verb or pieces[max(ph.end - 2, ph.start)].text == "in"  # in bloom
    hardly = i > 0 and pieces[i - 1].text in _HARDLY
    if i < 0 or not (verb or hardly) or ctx.use[i] == EVIDENCE:
        return None
    for a in (i - 1, i):
        edges = [e for e in ctx.lattice.edges[a] if e.how == "exact" and e.end > i] if a >= 0 else []
        if any(e.kind == "LOTS" or (e.kind == "FEW" and pieces[i].text == "handful") for e in edges):
            return a
    return None


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


_LOOKED = _LISTED.words("looked")


def _not_looked(w: Listener, start: int, end: int) -> bool:
    """`I have not opened a single pod`: nobody looked, and nothing is told."""
    return any(w.ctx.lattice.at(i) in _LOOKED for i in range(start, end))


def read_organ(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    nxt, _links, _mark = w.ahead(k)
    if ph.form in {"fl_sought", "pod_sought", "seed_sought"}:  # felt for seed, nothing there
        ctx.open, ctx.last_what = [], ph.rule
        return False
    if ph.form in {"fl_yes", "pod_yes", "seed_yes", "bean_yes"} and left_blank(w, ph, k):
        ctx.open, ctx.last_what = [], ph.rule
        return "filler"
    if how_many_asked(w, ph, span):
        return "barred"
    at = ctx.lattice.at
    if ph.form in {"pod_no", "seed_no", "fl_no"} and at(ph.end) in {"that", "this", "so"} and at(ph.end + 1) in _BIG:
        ctx.mark(ph.start, ph.end + 2, UNREAD, "none so big: of smaller ones nothing is said")
        ctx.open, w.resume_at = [], ph.end + 2
        return "barred"
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
    twice = _denied_twice(w, ph, k)
    if twice is not None:
        said = ctx.span(ph.start, twice.end)
        all_brown = twice.form == "no_brown" and ctx.plants and leaves.put(ctx, "mature_pods_percent", 100.0, said)
        ctx.mark(ph.start, twice.end, EVIDENCE if all_brown else UNREAD, "" if all_brown else "a denial of a denial")
        ctx.open, w.resume_at = [], twice.end
        return True if all_brown else "barred"
    if ph.form == "all_brown" and ctx.explicit and len(ctx.plants) == 1 and _but_some(w, ph):
        stop = next((i for i in range(ph.end + 1, len(ctx.use)) if w.ends_at(i)), len(ctx.use))
        ctx.mark(ph.start, stop, UNREAD, "all but some: of how many is not said")
        ctx.open, w.resume_at = [], stop
        return "barred"
    if [p.text for p in ctx.lattice.pieces[max(0, ph.start - 2) : ph.start]] in (["to", "the"], ["back", "to"]):
        if "back" in {p.text for p in ctx.lattice.pieces[max(0, ph.start - 3) : ph.start]}:
            ctx.open, ctx.last_what = [], ph.rule
            return "filler"  # back to the flowers
    counts = ph.end + (ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].text in _COUNTS)
    if ctx.lattice.pieces[counts - 1].text in _COUNTS and not ctx.explicit and share_behind(w, k) is None:
        ctx.open, ctx.last_what, w.count_of = [], ph.rule, STAGE_OF.get(ph.rule)
        w.resume_at = counts
        return "filler"  # I only did the bloom count there; Flowering counts, over a list of fields
    if ph.form == "pod_no" and ctx.lattice.at(ph.end) in _BIGGER and nxt is not None and nxt.rule == "length":
        ctx.mark(ph.end, nxt.start, EVIDENCE)
        ctx.open = organs.look(ctx, "pods", True, span)  # no pods bigger than 1/4 inch
        w.resume_at = ctx.open_end = nxt.start
        return True
    if ph.form == "seed_no" and ctx.plants and (ctx.lengths or (ctx.places and "AND" in ctx.link)) and not ctx.open:
        orphans(w)  # plant three it's an inch long at the top node and there's no seed in it
    if ph.form in {"fl_no", "pod_no", "seed_no"} and not_looked_for(w, ph):
        ctx.mark(ph.start, ph.end + 1, UNREAD, "not looked for")
        w.resume_at = ph.end + 1
        return "barred"
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
    if ph.form in {"fl_yes", "pod_yes", "seed_yes", "fl_no", "pod_no", "seed_no"} and yes_or_no_each(w, ph, span):
        return "barred" if w.barred else True
    if ph.form in {"fl_yes", "pod_yes", "seed_yes"} and asked_of_each(w, ph):
        return False
    in_any = _in_any(w, ph.end) if ph.form in {"fl_no", "pod_no", "seed_no"} and len(ctx.living()) > 1 else None
    if in_any is not None:
        ctx.close()
        ctx.group, ctx.group_n, ctx.group_span = "all", None, ctx.span(ph.start, in_any)
        ctx.mark(ph.end, in_any, EVIDENCE)
        w.resume_at = in_any
    none_of_them = ph.form == "no_brown" and (
        ph.path[0][1].kind == "NONEOF"
        or (ctx.lattice.pieces[ph.start].text in {"none", "nobody"} and none_of_all(w, ph.start, "mature"))
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
    if (
        ctx.lattice.pieces[ph.start].text in {"none", "nobody"}
        and ph.form in {"fl_no", "pod_no", "seed_no"}
        and none_of_all(w, ph.start, ph.rule)
    ):
        ctx.close()
        ctx.group, ctx.group_n, ctx.group_span = "all", None, span
    if ph.form == "fl_past" and not another_plant(w, k) and none_of_all(w, _with_the(w, ph.start), ph.rule):
        ctx.close()  # plant 2 ... Bloom is all done.
        ctx.group, ctx.group_n, ctx.group_span = "all", None, span
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
    negative = w.negative
    if negative is not None and ph.form == "bean_yes" and nxt is not None and nxt.rule == "emergence":
        ctx.mark(negative[1], nxt.end, UNREAD, NOTHING_TO_TURN)
        w.negative, w.resume_at = None, nxt.end
        return "barred"  # no beans emerged yet: soybeans, and no seed
    if negative is not None and ph.rule in {"flowers", "pods", "seeds"} and _of_another_verb(w, negative, ph):
        ctx.mark(negative[1], ph.start, UNREAD, NOTHING_TO_TURN)
        w.negative = negative = None  # it doesn't count, pods 1 in.
    if negative is not None and ph.rule in {"flowers", "pods", "seeds"} and _not_looked(w, negative[2], ph.start):
        ctx.mark(negative[1], ph.end, UNREAD, NOTHING_TO_TURN)
        w.negative = None
        return "barred"
    if negative is not None and ph.rule in {"flowers", "pods", "seeds"}:
        w.negative = None
        if ph.form in _SOME or (ph.form in {"fl_count", "pod_count"} and numbers_of(ph)[:1] == [1]):
            ctx.mark(negative[1], negative[2], EVIDENCE)
            organs.look(ctx, ph.rule, False, negative[0].cover(span))
            ctx.open_end = ph.end
            return True
        ctx.mark(negative[1], negative[2], UNREAD, NOTHING_TO_TURN)
    if w.number is not None and ph.rule in {"flowers", "pods", "seeds"} and w.number[3] == ph.start:
        ctx.mark(w.number[2], w.number[3], EVIDENCE)
        w.number = None
    if (
        ph.rule == "seeds"
        and (ph.form == "bean_yes" or _the_crop_there(w, ph))
        and nxt is not None
        and nxt.rule in {"height", "findhead", "moisture", "stage", "call"}
    ):
        return "filler"
    if ctx.group == "none" and ph.rule in {"flowers", "pods", "seeds"}:
        organs.look(ctx, ph.rule, False, (ctx.group_span or span).cover(span))
        ctx.open_end = ph.end
        return True
    if ph.form == "brown_head" and not any(s.phrase is not None for s in w.segments[k + 1 :]):
        return False  # percent have a brown pod: a head over nothing
    if ph.rule == "podshare" and ph.form != "pods_all_green" and hurt_here(w, k):
        ctx.mark(ph.start, ph.end, UNREAD, "not a normal pod: no evidence for a stage")
        return "barred"
    if (
        ph.rule == "state"
        and ph.form in _OF_A_CAVITY
        and not (ctx.open and ctx.open[0].what in {"pods", "seeds"})
        and leaf_before(w, ph)
    ):
        return False
    if (
        ph.rule == "state"
        and ph.form == "green"
        and not (ctx.open and ctx.open[0].what in {"pods", "seeds"})
        and any(e.kind == "MAINSTEM" for i in range(max(0, ph.start - 3), ph.start) for e in ctx.lattice.edges[i])
    ):
        return False  # the stem is still green
    if ph.rule == "state":
        if ph.form == "pods_brown" and not ctx.plants and shares_follow(w, k):
            ctx.pods_brown_head = True
            return True
        if (
            ph.form == "pods_brown"
            and ph.end < len(ctx.lattice.pieces)
            and ctx.lattice.pieces[ph.end].text in {":", "-"}
            and nxt is not None
            and nxt.rule == "label"
        ):
            ctx.pods_brown_head = True
            return True
        if ph.form == "full" and _full_down_low(w, nxt, _mark):
            ctx.close()  # flat in the top four but full down low
            for s in organs.look(ctx, "seeds", True, span):
                s.fill = Entry("full", span)
            ctx.open_end = ph.end
            return True
        if asked_and_told(w, ph, span):
            return True
        hurt = hurt_here(w, k)
        used = organs.state(ctx, ph, span, hurt)
        if hurt and not used and ph.form in {"brown", "n_brown"}:
            ctx.mark(ph.start, ph.end, UNREAD, "not a normal pod: no evidence for a stage")
            return "barred"
        ctx.open_end = ph.end
        return used
    if (
        ph.form == "pod_yes"
        and nxt is not None
        and nxt.rule == "length"
        and "IN" in ctx.link
        and ctx.open
        and ctx.open[0].what == "seeds"
        and not _long_as_a_seed(w, ph, nxt)
    ):
        seeds = ctx.open  # seed of 2 mm in a pod of 3 cm: two things, and what place follows is of both
        ctx.link.discard("IN")
        if ctx.lengths:
            organs.attach_length(ctx, ctx.lengths.pop(), seeds)
        organs.pods(ctx, ph, span)
        ctx.open = [*ctx.open, *seeds]
        ctx.open_end = ph.end
        return True
    handler = {
        "flowers": organs.flowers,
        "pods": organs.pods,
        "seeds": organs.seeds,
        "state": organs.state,
        "podshare": organs.podshare,
    }[ph.rule]
    low = _but_down_low(w, ph) if ph.form in {"pod_no", "fl_no", "seed_no"} and ctx.explicit and ctx.plants else None
    if low is not None:  # no pods except at the bottom
        organs.attach_place(ctx, organs.place(low, ctx.span(low.start, low.end)), organs.look(ctx, ph.rule, True, span))
        ctx.mark(ph.end, low.end, EVIDENCE)
        w.resume_at = ctx.open_end = low.end
        return True
    used = handler(ctx, ph, span)
    if used and ctx.except_for and ctx.open and ctx.open[0].present is not None:
        for p in ctx.except_for:  # all but 3 are blooming
            p.sightings.append(Sighting(ph.rule, not ctx.open[0].present, [span], clause=ctx.clause))
        ctx.except_for = []
    ctx.open_end = ph.end
    return used


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


_FOR_LONG_AS_A_SEED = _COMMON.words("being")


def _long_as_a_seed(w: Listener, pod: Phrase, nxt: Phrase) -> bool:
    """`seed in the pod is an eighth`, `beans in pods 1/8 inch`: the length is the seed's, which has none yet; pods with
    seed in them are longer."""
    ctx = w.ctx
    length = organs.read_length(nxt, ctx.span(nxt.start, nxt.end))
    if length is None or ctx.lengths or any(s.length is not None for s in ctx.open):
        return False
    verb = any(ctx.lattice.at(i) in _FOR_LONG_AS_A_SEED for i in range(pod.end, nxt.start))
    return verb or length.high < LONG_SEED


_BEHIND_THE_CROP_THERE = _COMMON.words("being") | _COMMON.words("looking")


def _the_crop_there(w: Listener, ph: Phrase) -> bool:
    """`beans there are R4`: the crop of that field, and no seed that is there."""
    beans = ph.form == "seed_small" and ph.path[0][1].kind == "BEAN" and w.ctx.lattice.at(ph.end - 1) == "there"
    return beans and w.ctx.lattice.at(ph.end) in _BEHIND_THE_CROP_THERE


def _but_down_low(w: Listener, ph: Phrase) -> Phrase | None:
    """The place behind `no pods except`: these it has."""
    at = ph.end + 1
    if w.ctx.lattice.at(ph.end) not in EXCEPT - {"but", "save"}:
        return None
    behind = next((s.phrase for s in w.segments if s.start >= at and s.phrase is not None), None)
    near = behind is not None and behind.rule == "place" and behind.start <= at + 2
    return behind if near and behind is not None and w.ends_at(behind.end) else None


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


_FOR_IN_ANY = _COMMON.words("seen") | {"yet"}


def _in_any(w: Listener, at: int) -> int | None:
    """`no seed in any.`, `no bloom seen in any`, `no bloom, any`: of all plants; where the words end."""
    at += w.ctx.lattice.at(at) in _FOR_IN_ANY
    words = [p.text for p in w.ctx.lattice.pieces[at : at + 2]]
    return at + 2 if words in (["in", "any"], ["on", "any"], [",", "any"]) and w.ends_at(at + 2) else None


_FOR_OF_THE = _LISTED.words("for_of_the")


def of_the(w: Listener, ph: Phrase) -> bool:
    """`of the pods`."""
    pieces, i = w.ctx.lattice.pieces, ph.start - 1
    while i > 0 and pieces[i].text in _FOR_OF_THE:
        i -= 1
    return ph.rule in {"pods", "seeds"} and i >= 0 and pieces[i].text == "of"


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


def shares_follow(w: Listener, k: int) -> bool:
    """`pods brown at Saltworks east - 1: 98, 2: 100`: plants and figures of which no thing is named."""
    ahead = [s.phrase for s in w.segments[k + 1 : k + 14] if s.phrase is not None and s.phrase.rule != "filler"]
    labelled = [(a, b) for a, b in itertools.pairwise(ahead) if a.rule == "label" and b.rule == "bareint"]
    return len(labelled) >= 2


def _of_another_verb(w: Listener, negative: tuple[Span, int, int], ph: Phrase) -> bool:
    """`doesn't matter, pods 1 in.`: the no has its own verb, and a comma stands behind that."""
    at, pieces = w.ctx.lattice.at, w.ctx.lattice.pieces
    between = pieces[negative[2] : ph.start]
    return at(negative[1]) in NOT_SO and len(between) > 1 and between[-1].text == "," and between[0].form == "word"


_OF_A_CAVITY = frozenset({"full", "not_full"})


def leaf_before(w: Listener, ph: Phrase) -> bool:
    """Leaf edges that touch are no seeds that touch."""
    pieces = w.ctx.lattice.pieces
    for i in range(ph.start - 1, max(-1, ph.start - 9), -1):
        if pieces[i].form == "nl" or pieces[i].text in {".", ";"}:
            return False
        if any(e.kind in {"LEAF", "TRIF", "TRIPS", "UNI"} for e in w.ctx.lattice.edges[i]):
            return True
    return False


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
