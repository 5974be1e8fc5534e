"""All, both, none of them: one saying about several plants."""

from __future__ import annotations

from typing import Any

from notesparse.language.cues import cue_page
from notesparse.observing import organs, revise, tallies
from notesparse.observing.draft import PlantDraft, Sighting
from notesparse.observing.fold import EVIDENCE, EXCEPT, FILLER, UNREAD, Context, numbers_of
from notesparse.observing.walking import counted, exceptions
from notesparse.observing.walking.bars import bar
from notesparse.observing.walking.clause_ends import close_tally
from notesparse.observing.walking.listening import ORGANS, OWN, Listener
from notesparse.observing.walking.none_of_others import none_of_the_others
from notesparse.observing.walking.places import both_of
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/groups")


def _all_sampled(w: Listener, ph: Phrase, nxt: Phrase, span: Span) -> bool:
    """`looked at 20, all blooming`: all of the plants that were counted."""
    ctx = w.ctx
    many = tallies.sample(ctx)
    if many is None or nxt.start != ph.end or nxt.rule not in ORGANS | {"stage"}:
        return False
    if ctx.lattice.pieces[nxt.start].text.endswith("s") and nxt.rule != "stage":
        return False  # all pods
    t = tallies.start(ctx, Phrase(ph.start, ph.end, "ratio", "all_plants", ph.path, 0.0), span)
    if t is None:
        return False
    t.count, t.of, t.percent = float(many), float(many), 100.0
    return True


def counted_of_all(w: Listener, k: int) -> bool:
    """`All five at 13 trifs`, before any plant is named: the count is of every plant that will be."""
    nxt, _, mark = w.ahead(k)
    w.ctx.every = nxt is not None and nxt.rule in {"trif", "nodes"} and not mark and not w.ctx.plants
    return w.ctx.every


def _begin_the_rest(w: Listener, ph: Phrase, many: int, end: int) -> bool:
    """`plant one's at R4 and the rest of the five are R3`: the plants behind those that were told of."""
    ctx = w.ctx
    told = [p.label for p in ctx.living()]
    if not told or len(told) >= many or not counted.from_one(told):
        return False
    ctx.close()
    ctx.begin([str(n) for n in range(len(told) + 1, many + 1)], ctx.span(ph.start, end))
    ctx.mark(ph.start, end, EVIDENCE)
    counted.cut(w, end)
    w.resume_at = end
    return True


_THEY = _LISTED.words("they")


def _they_all(w: Listener, ph: Phrase) -> bool:
    """`... plant three nine trifs they are all blooming`, in talk without stops."""
    at, i = w.ctx.lattice.at, ph.start - 1
    i -= at(i) in {"are", "'re", "were"}
    return at(i) in _THEY


def _so_many_alike(w: Listener, n: int, live: list[PlantDraft], span: Span) -> bool:
    """`Eight trifs on each of the three`, with no plant named: of three plants, and not of one."""
    ctx = w.ctx
    if len(live) != 1 or live[0].named or not len(live) < n <= _A_FEW or not live[0].facts or live[0].sightings:
        return False
    first = live[0]
    ctx.close()
    for p in ctx.begin([str(x) for x in range(2, n + 1)], span):
        for key, entries in first.facts.items():
            p.put(key, entries[-1].value, entries[-1].span, group=True)
        p.counted = True
    first.counted, first.named = True, True
    ctx.leave_plants()
    return True


def _begin_the_untold(w: Listener, ph: Phrase, k: int) -> bool:
    """`Five plants flagged. Number four is snapped off. The rest have nine trifs`: the plants that were only counted."""
    ctx = w.ctx
    many, nxt = tallies.sample(ctx), w.ahead(k)[0]
    told = [p.label for p in ctx.visit.plants] if ctx.visit is not None else []
    row = [str(n) for n in range(1, (many or 0) + 1)]
    rest = [x for x in row if x not in told]
    if not told or not rest or not set(told) <= set(row) or ctx.living() or nxt is None or nxt.rule not in OWN:
        return False
    ctx.close()
    for p in ctx.begin(rest, ctx.span(ph.start, ph.end)):
        p.counted = True
    return True


def _said_of_them(w: Listener, k: int) -> tuple[Phrase | None, bool]:
    """What all of them are, past a `were`: all four were R2."""
    nxt, _, mark = w.ahead(k)
    if nxt is not None and nxt.rule == "past" and w.ctx.lattice.original(nxt.start, nxt.end).lower() in {"was", "were"}:
        at = next(j for j, s in enumerate(w.segments) if s.phrase is nxt)
        nxt, _, mark = w.ahead(at)
    return nxt, mark


def _except_behind(w: Listener, i: int) -> int | None:
    """The piece of an `except` in this clause: none of the plants had a pod except number 2."""
    while not w.ends_at(i):
        if w.ctx.lattice.at(i) in EXCEPT:
            return i
        i += 1
    return None


_BEHIND_READ_GROUP = _COMMON.words("being_or_having")
_FOR_READ_GROUP = frozenset(_LISTED.phrases("for_read_group"))


def read_group(w: Listener, ph: Phrase, span: Span, k: int) -> bool | str:
    ctx = w.ctx
    visit = ctx.visit
    f = ph.form
    if ph.start in w.groups_done:
        but = left_out(w, ph.end, ctx.living())
        if but is not None:
            all_but(w, ph.start, *but)
        return True
    if f == "group_all" and _of_its_pods(w, ph, k):
        return "filler"
    if f == "group_none" and (taken := none_of_the_others(w, ph, k)) is not None:
        return taken
    if f in {"group_others", "group_rest"} and _of_the_leaves(w, ph):
        bar(w, ph, "of the other leaves")
        return "barred"
    if f == "group_others":
        nxt, _, mark = w.ahead(k)
        if (mark or nxt is None or nxt.rule not in ORGANS | {"stage"}) and not none_said(w, ph):
            return "filler"
        f = "group_rest"
    if f == "group_rest":
        if visit is not None and visit.tallies:
            nxt, _, _ = w.ahead(k)
            close_tally(w)
            if _so_they_do(w, ph):
                return "filler"
            return bool(tallies.rest(ctx, span))
        if (many := counted.of_the_so_many(w, ph.end)) is not None and _begin_the_rest(w, ph, *many):
            return True
        if _begin_the_untold(w, ph, k):
            return True
        nxt, _, _ = w.ahead(k)
        if nxt is not None and nxt.rule == "length":
            nxt = w.in_clause(k, ORGANS) or nxt  # the rest have half inch pods
        what = (nxt.rule if nxt is not None else None) if not none_said(w, ph) else ctx.last_what or w.only_organ()
        has = ph.end < len(ctx.lattice.pieces) and ctx.lattice.pieces[ph.end].text in _BEHIND_READ_GROUP
        others = the_others(w, what, ph) if has or w.begins(ph.start) else []
        if others and what is not None:
            _of_the_others(w, what, ph, others)
            return True
        if counted.the_others(w, nxt, numbers_of(ph)):
            return True
        if ctx.explicit and nxt is not None and nxt.rule in ORGANS | {"stage"}:
            bar(w, ph, "the other plants: how many is not said")
            return "barred"
        return "filler"
    live = _just_named(ctx, ph) or ctx.living()
    but = left_out(w, ph.end, live) if f in {"group_all", "group_both"} else None
    if but is not None:
        all_but(w, ph.start, *but)
        return True
    nums = numbers_of(ph)
    text = ctx.lattice.original(ph.start, ph.end).lower()
    behind = (
        bool(ctx.open)
        and ctx.open_end >= ph.start - 1
        and (ctx.lattice.pieces[ph.start - 1].text in {"on", "in", "of"} or text.startswith(("on ", "in ")))
    )
    if f in {"group_both", "group_none"} and behind and len(live) > 1:  # pods on both, seed in neither
        if f == "group_none":
            for s in ctx.open:
                if s.length is not None or s.fill is not None:
                    return False
                s.present = False
        spread_over(w, ctx.open, live, 2 if text.endswith(("both", "neither")) else None)
        return True
    if f == "group_both":  # both R3; all flowering
        nxt, _, mark = w.ahead(k)
        if not live and text == "all" and nxt is not None and not mark and _all_sampled(w, ph, nxt, span):
            return True
        if not live and text == "all" and w.begins(ph.start):
            counted_of_all(w, k)
        on_the_line = [p for p in live if p.line == ctx.line]
        if text == "both" and len(on_the_line) == 2 and on_the_line == live[-2:]:
            live = on_the_line  # hollis p1 10tf p2 9tf both blooming
        if (
            len(live) < 2
            or mark
            or nxt is None
            or not (nxt.rule in OWN - {"emergence"} | {"stage"} or nxt.form.startswith("uni_"))
            or not (
                w.begins(ph.start) or (text == "both" and len(live) == 2 and nxt.rule in ORGANS) or _they_all(w, ph)
            )
        ):
            if text == "both" and len(live) > 2 and ctx.open and len(ctx.plants) < 2 and w.ends_at(ph.end):
                bar(w, ph, "both of which plants is not said")  # three plants, and: flowers top node both
                return "barred"
            return "filler"
        if nxt.start == ph.end and ctx.lattice.pieces[ph.end].text.endswith("s"):
            return "filler"  # both pods: of one plant
        if text == "both" and _just_named(ctx, ph):
            return True
        if text == "both" and len(live) > 2:
            bar(w, ph, "both of which plants is not said")
            return "barred"
        ctx.group, ctx.group_span, ctx.group_n = "all", span, 2 if text == "both" else None
        ctx.close()
        return True
    if (
        f == "group_none"
        and text == "neither"
        and ph.end < len(ctx.lattice.pieces)
        and any(e.kind in {"FLOWER", "POD", "SEED"} and e.end == ph.end + 1 for e in ctx.lattice.edges[ph.end])
    ):
        w.negative = (span, ph.start, ph.end)  # neither flowers nor pods
        return True
    if f == "group_none" and _just_named(ctx, ph) and w.ahead(k)[0] is not None and not ctx.open:
        w.negative = (span, ph.start, ph.end)  # #1 and #2, neither one has a flower open
        return True
    of_plants = "plant" in text or text in _FOR_READ_GROUP
    if not live and f == "group_all" and of_plants and ctx.tally is None:
        nxt, mark = _said_of_them(w, k)
        if nxt is not None and (
            nxt.rule in ORGANS | {"stage", "emergence"}
            or (nxt.rule in {"length", "place"} and not mark and w.in_clause(k, ORGANS) is not None)
        ):
            ctx.leave_plants()
            return bool(tallies.start(ctx, Phrase(ph.start, ph.end, "ratio", "all_plants", ph.path, 0.0), span))
    if not live and f == "group_n" and nums and text.startswith("of the") and _opens_a_count(w, ph):
        ctx.leave_plants()  # of the 25, 4 in bloom
        ctx.sample, ctx.sample_visit = nums[0], max(len(ctx.visits), 1)
        return True
    if not live and f == "group_n":
        nxt, mark = _said_of_them(w, k)
        if nxt is not None and nxt.rule in ORGANS | {"stage", "emergence"} and nums:
            t = tallies.start(ctx, Phrase(ph.start, ph.end, "ratio", "all_plants", ph.path, 0.0), span)
            if t is not None:
                at = ctx.lattice.at
                any_does = text.startswith("any of") and at(nxt.end) == "?" and at(nxt.end + 1) not in _NONE
                t.count, t.of, t.percent = None if any_does else float(nums[0]), float(nums[0]), None
                t.lots = any_does  # any of the 10 blooming? yes
                return True
    if f == "group_none" and (not live or (nums and nums[0] > len(live))):  # pulled six, none of them podded
        nxt, _, mark = w.ahead(k)
        if any(ph.end <= i <= ph.end + 1 for i in w.names) and w.begins(ph.start):
            tallies.none_of_them(ctx, nums[0] if nums else None, span)  # none of the 15 I pulled at Gravel Pit have
            return True
        if nxt is None or mark or nxt.rule not in ORGANS | {"stage", "emergence"}:
            return False
        if nxt.rule == "stage" and not nums and tallies.sample(ctx) is None and not ctx.here().tallies:
            ctx.mark(ph.start, nxt.end, UNREAD, "a stage that is not reached, or not of this field")
            w.resume_at = nxt.end  # nobody is at R6
            return "barred"
        if tallies.sample(ctx) is None and not nums and (some := _except_behind(w, ph.end)) is not None:
            ctx.mark(ph.start, some, UNREAD, "none but some: of how many is not said")
            w.resume_at = some
            return "barred"
        ctx.leave_plants()
        tallies.none_of_them(ctx, nums[0] if nums else None, span)
        return True
    if not live:
        if of_plants or f == "group_n":
            counted_of_all(w, k)
        return "filler"
    n = (
        nums[0]
        if nums
        else 2
        if text.split()[-1] == "both" or {"either", "both", "neither"} & set(text.split())
        else None
    )
    if f == "group_n" and n is not None and _so_many_alike(w, n, live, span):
        return True
    if f == "group_n" and n is not None and n > len(live) and text.startswith("of the"):
        ctx.leave_plants()  # of the twenty I staked, sixteen are up
        ctx.sample, ctx.sample_visit = n, len(ctx.visits)
        return True
    if f == "group_n" and n is not None and n > len(live) and text.startswith("all") and w.begins(ph.start):
        said, _ = _said_of_them(w, k)
        if said is not None and said.rule in ORGANS | {"stage", "trif", "nodes"}:
            bar(w, ph, "more plants than are told of")  # all five blooming, of four
            return "barred"
    if f == "group_n" and (n is None or n > len(live)):
        return "filler"
    # "on all of them" after the statement reaches back; before it, forward
    last = ctx.statements[-1] if ctx.statements else None
    nxt, _, mark = w.ahead(k)
    text = ctx.lattice.original(ph.start, ph.end).lower()
    backward = (
        text.startswith(("on ", "of "))
        or "any of" in text
        or text in {"all of it", "every one"}
        or nxt is None
        or nxt.rule == "label"
        or (ctx.open and ctx.open_end == ph.start)
    )
    backward = backward and not (f == "group_all" and _have_what_follows(w, ph))
    if f == "group_none" and _none_have_it(w, ph, span):
        spread_over(w, ctx.open, live, n)
        return True
    if backward and ctx.open and last is not None and last.kind in {"flowers", "pods", "seeds"}:
        spread_over(w, ctx.open, live, n)
        return True
    if backward and last is not None and last.plant is not None and last.span.start >= w.clause_start(k):
        key = last.kind
        e = last.plant.last(key)
        if e is not None and key not in {"trifoliates", "nodes"}:
            for p in live:
                if p.last(key) is None:
                    p.put(key, e.value, e.span.cover(span), group=True)
            return True
    if f == "group_all" and nxt is not None and nxt.rule == "place" and not mark and ctx.open and both_of(w, nxt):
        return "filler"  # pods 1 inch, beans small, both of them on the 2nd node
    ctx.group = "none" if f == "group_none" else "all"
    ctx.group_span = span
    ctx.group_n = n
    ctx.close()
    return True


_RIPE = frozenset({"mature_pods", "mature_pods_percent"})


def _of_its_pods(w: Listener, ph: Phrase, k: int) -> bool:
    """`Five: no brown pods yet, every one of them still green`: pods of the plant that they were just told of, and no plants."""
    ctx, (nxt, _, mark) = w.ctx, w.ahead(k)
    if mark or nxt is None or nxt.rule != "state" or not ctx.explicit or len(ctx.plants) != 1:
        return False
    last = ctx.statements[-1] if ctx.statements else None
    pods = last is not None and last.plant is ctx.plants[0] and last.kind in _RIPE | {"pods"}
    here = ctx.lattice.pieces[w.sentence_start(ph.start)].span.start
    return pods and last is not None and last.span.start >= here and ctx.lattice.at(ph.start - 1) in {",", "-", "and"}


def _of_the_leaves(w: Listener, ph: Phrase) -> bool:
    """`a third of the leaves are yellow, the rest still green`: leaves, and no plants."""
    found = w.ctx.visit.findings if w.ctx.visit is not None else []
    told = found[-1] if found else None
    return (
        told is not None
        and told.kind == "leaf"
        and not w.ctx.plants
        and w.sentence_start(ph.start) == w.sentence_start(_piece_of(w, told.span))
    )


def _piece_of(w: Listener, span: Span) -> int:
    """The piece at which a span begins."""
    return next(i for i, p in enumerate(w.ctx.lattice.pieces) if p.span.end > span.start)


def _so_they_do(w: Listener, ph: Phrase) -> bool:
    """`a third have no bloom, the rest do and ...`: what the others have was just told."""
    pieces, at = w.ctx.lattice.pieces, ph.end
    if at >= len(pieces) or pieces[at].text not in {"do", "did"}:
        return False
    return at + 1 >= len(pieces) or pieces[at + 1].text in {"and", ",", ".", ";", "but"} or pieces[at + 1].form == "nl"


def _opens_a_count(w: Listener, group: Phrase) -> bool:
    """`of the 25` begins the clause or stands behind the field's name, or a number stands behind it: `of the 25, 4`."""
    behind = group.end + (w.ctx.lattice.at(group.end) == ",")
    counted = behind < len(w.ctx.use) and any(e.kind == "INT" for e in w.ctx.lattice.edges[behind])
    return counted or w.begins(group.start) or any(name.end == group.start for name in w.names.values())


_ORGAN = frozenset({"flowers", "pods", "seeds"})
_NONE = _COMMON.words("none") | _COMMON.words("no") | _COMMON.words("does_not") | {"not", "without"}


def none_said(w: Listener, ph: Phrase) -> int:
    """Behind `rest`, `others`: where `none` alone ends the clause; 0 elsewhere."""
    i = ph.end
    while i < len(w.ctx.lattice.pieces) and w.ctx.lattice.pieces[i].text in {"had", "have", "has", "-", ":", "=", ","}:
        i += 1
    said = i < len(w.ctx.lattice.pieces) and w.ctx.lattice.pieces[i].text in _NONE and w.ends_at(i + 1)
    return i + 1 if said else 0


def _just_named(ctx: Context, ph: Phrase) -> list[PlantDraft]:
    """`p4 and p5 11 trifs, pods on both`: as many plants as were named last, and no others."""
    words = set(ctx.lattice.original(ph.start, ph.end).lower().split())
    numbers = numbers_of(ph)
    many = 2 if {"both", "neither", "either"} & words else numbers[0] if numbers else 0
    many = len(ctx.plants) if "each" in words and not numbers else many
    return list(ctx.plants) if ctx.explicit and 1 < many == len(ctx.plants) else []


def the_others(w: Listener, what: str | None, ph: Phrase) -> list[PlantDraft]:
    """The plants of the visit of which no flower (pod, seed) was told yet, where one was told of some of them."""
    live = w.ctx.living()
    if what not in _ORGAN:
        return []
    told = {(p.stop, p.label) for p in live if any(s.what == what for s in p.sightings)}
    having = [p for p in live if any(s.what == what and s.present is not False for s in p.sightings)]
    others = [p for p in live if (p.stop, p.label) not in told and p not in w.called_so]
    nums = numbers_of(ph)
    return [] if not having or (nums and nums[0] != len(others)) else others


def _of_the_others(w: Listener, what: str, ph: Phrase, others: list[PlantDraft]) -> None:
    """`Others not blooming`, `rest none`: what follows is of these plants."""
    ctx = w.ctx
    ctx.close()
    ctx.plants, ctx.explicit, ctx.group = others, True, None
    end = none_said(w, ph)
    if end:
        organs.look(ctx, what, False, ctx.span(ph.start, end))
        ctx.mark(ph.end, end, EVIDENCE)
        w.resume_at = end
        ctx.leave_plants()


def others_after(w: Listener, k: int) -> Phrase | None:
    """`no bloom on the others`: the group named right behind this statement, at the end of its clause."""
    for s in w.segments[k + 1 : k + 4]:
        if s.phrase is None:
            if not w.ctx.lattice.filler[s.start]:
                return None
        elif s.phrase.form in {"group_rest", "group_others", "other_n"}:
            return s.phrase if w.ends_at(s.phrase.end) else None
        elif s.phrase.rule != "filler":
            return None
    return None


def _none_have_it(w: Listener, ph: Phrase, span: Span) -> bool:
    """`Pods: none of them`: what was named is on none of the plants."""
    ctx = w.ctx
    between = ctx.lattice.pieces[ctx.open_end : ph.start]
    if not ctx.open or not w.ends_at(ph.end) or not all(p.text in {":", ",", "-", "=", "?"} for p in between):
        return False
    if any(s.present is False or s.places or s.length is not None or s.fill is not None for s in ctx.open):
        return False
    for s in ctx.open:
        s.present = False
        s.spans.append(span)
    return True


_EXCEPT = EXCEPT | _LISTED.words("except")
_BETWEEN = (
    _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number") | _COMMON.words("for_on_the") | {"p"}
)
_HAS_SOME = _LISTED.words("has_some")
_EVERY = _COMMON.words("all")


def left_out(w: Listener, at: int, live: list[PlantDraft]) -> tuple[list[PlantDraft], int] | None:
    """Behind `all`: `but the first`, `except the last one`: which plants these are, and where the words end."""
    pieces, edges = w.ctx.lattice.pieces, w.ctx.lattice.edges
    if at >= len(pieces) or pieces[at].text not in _EXCEPT or len(live) < 2:
        return None
    i = at + 1
    while i < len(pieces) and pieces[i].text in {"for", "the"}:
        i += 1
    nth = max((e.means for e in edges[i] if e.kind == "ORD" and e.end == i + 1), default=0) if i < len(pieces) else 0
    last = i < len(pieces) and pieces[i].text == "last"
    if not last and not 0 < nth <= len(live):
        return None
    end = i + 1
    while end < len(pieces) and pieces[end].text in {"one", "plant"}:
        end += 1
    return [live[-1 if last else nth - 1]], end


def all_but(w: Listener, start: int, out: list[PlantDraft], end: int) -> None:
    """`Flowers on all but the first`: of the others, and the first has none; `all but the last are flowering`."""
    ctx = w.ctx
    others = [p for p in ctx.living() if p not in out]
    span = ctx.span(start, end)
    source = ctx.open[0] if ctx.open and w.ends_at(end) else None
    if source is not None:
        spread_over(w, ctx.open, others, None)
        for p in out:
            p.sightings = [s for s in p.sightings if s not in ctx.open]
            if not source.places and source.length is None:
                p.sightings.append(Sighting(source.what, not source.present, [span], clause=ctx.clause))
        ctx.leave_plants()
    else:
        ctx.close()
        ctx.plants, ctx.explicit, ctx.group, ctx.except_for = others, True, None, out
    if len(out) == 1:
        w.odd_one = out[0], ctx.clause
    ctx.mark(start, end, EVIDENCE)
    w.resume_at = end


def excepted(w: Listener, labels: list[str], start: int, end: int, span: Span) -> str | None:
    """`all blooming except 2`, `none blooming except 3`: the plants at pieces [start, end) are otherwise; `all but 3
    are blooming`: what follows is of the others. How that was taken; None where nothing of the kind is said."""
    ctx, pieces = w.ctx, w.ctx.lattice.pieces
    i = start - 1
    while i >= 0 and pieces[i].text in _BETWEEN:
        i -= 1
    if i < 0 or pieces[i].text not in _EXCEPT or ctx.visit is None:
        return None
    if pieces[i].text == "than":
        if not i or pieces[i - 1].text != "other":
            return None
        i -= 1  # none blooming other than plant 3
    if end < len(pieces) and pieces[end].text == "or":
        return None  # 9 trifs but 2 or 3 short ones
    live = ctx.living()
    named = [p for p in live if p.label in labels]
    if len(named) != len(labels) or len(named) >= len(live):
        return None
    if i and pieces[i - 1].text in _EVERY and not ctx.open:
        ctx.close()
        ctx.plants, ctx.explicit, ctx.group = [p for p in live if p not in named], True, None
        ctx.mark(i - 1, end, EVIDENCE)
        ctx.except_for = named
        return "put right"
    if end < len(pieces) and pieces[end].text in {"which", "that", "who"}:
        ctx.mark(end, end + 1, FILLER)
        end += 1
    first = end
    while end < len(pieces) and pieces[end].text in _HAS_SOME:
        end += 1  # but plant 2 has some
    if not w.ends_at(end):
        end = first
    tells = exceptions.goes_on(w, end)
    figures = not ctx.open and ctx.statements and end < len(pieces) and pieces[end].text == ","
    what = exceptions.said_last(w)
    shared = exceptions.said_of_all(w, named, [p for p in live if p not in named])
    if (not w.ends_at(end) or figures or tells) and len(labels) == 1 and revise.back_to(ctx, labels[0], span):
        if shared:
            exceptions.remember(w, named, what, (i, end))
            if what in {"flowers", "pods", "seeds"}:
                ctx.correcting = None
        ctx.mark(i, end, EVIDENCE)  # all V10 except 3, V9
        return "put right"
    source = next((s for s in ctx.open if s.present is not None), None)
    if source is None or not w.ends_at(end):
        return None
    alone = not source.group and not _opens_a_sentence(w, source)  # p3 ten trifs no pods but p2 has some
    if alone and (end == first or any(p in named for p in ctx.plants)):
        return None
    if not source.group and not alone:  # no pods except on plant 3
        if len(ctx.open) != 1 or ctx.open_end < i - 3:
            return None
        for p in live:
            p.sightings = [s for s in p.sightings if s is not source]
            if p.empty and not p.named:
                p.dropped = True  # a line that names no other plant began it
        spread_over(w, ctx.open, [p for p in live if p not in named and not p.dropped], None)
    if not alone and (
        source.places or source.length is not None
    ):  # flowers top two except on plant 3: it may have some lower
        for p in named:
            p.sightings = [s for s in p.sightings if s not in ctx.open]
        ctx.mark(i, end, UNREAD, "otherwise than the others: how is not said")
        ctx.leave_plants()
        return "put right"
    for p in named:
        p.sightings = [s for s in p.sightings if s not in ctx.open]
        p.sightings.append(Sighting(source.what, not source.present, [span], clause=ctx.clause))
    ctx.mark(i, end, EVIDENCE)
    ctx.leave_plants()
    return "put right"


def _opens_a_sentence(w: Listener, said: Sighting) -> bool:
    """Nothing but fillers stands between the saying and the stop or line end before it: it names no plant."""
    pieces = w.ctx.lattice.pieces
    i = w.ctx.lattice.first_from(said.span.start)
    while i and pieces[i - 1].form == "word" and w.ctx.use[i - 1] != EVIDENCE:
        i -= 1
    return i == 0 or pieces[i - 1].form == "nl" or pieces[i - 1].text in {".", ";"}


def spread_over(w: Listener, sightings: list[Sighting], live: list[Any], n: int | None) -> None:
    import copy

    if len(live) > 2 and _begun_by_it(live[-1], sightings) and w.ctx.visit is not None:
        w.ctx.visit.plants.remove(live[-1])
        live = live[:-1]
        w.ctx.plants = list(live)
    owners = live[-n:] if n and n < len(live) else live
    source = sightings[0]
    source.group = True
    for p in owners:
        if not any(s is source or s in sightings for s in p.sightings):
            c = copy.deepcopy(source)
            c.group = True
            p.sightings.append(c)
            w.ctx.open.append(c)


def _begun_by_it(p: PlantDraft, sightings: list[Sighting]) -> bool:
    """`still blooming at the tip, all of em` on a line of its own: what is said of all is not of one more plant."""
    return not (p.named or p.counted or p.facts) and all(any(s is x for x in sightings) for s in p.sightings)


def which_two(ctx: Context, group: Phrase) -> bool:
    """`both`, where more than two plants were described and no two of them were named last: which ones is not said."""
    both = {"both", "neither"} & set(ctx.lattice.original(group.start, group.end).lower().split())
    live = ctx.living()
    one = len(live) == 1 and live[0].named and not live[0].counted  # flowers on both, where one plant was read
    return bool(both) and (len(live) > 2 or one) and not _just_named(ctx, group)


def which_are_left(ctx: Context, group: Phrase, what: str) -> bool:
    """`no bloom on the two that are left`, `on the three`: fewer than were described, and not just those of which nothing
    was said before: which ones is not said."""
    kinds = {e.kind for _, e in group.path}
    any_of = ctx.lattice.at(group.start + 1) == "any" or ctx.lattice.at(group.start) == "any"  # on any of 2, of three
    if group.form != "group_n" or not (any_of or kinds & {"ONTHE", "STILLTHERE"}) or kinds & {"ORD", "LAST"}:
        return False
    live, n = ctx.living(), numbers_of(group)[0]
    if any_of and n == sum(p.named for p in live):
        return False  # what was said of no plant before them may be there yet
    untold = [p for p in live if not any(s.what == what for s in p.sightings)]
    return n < len(live) and (len(untold) != n or untold != live[-n:])


def more_than_told(ctx: Context, group: Phrase) -> bool:
    """`plant 1 10 trifs. plant 2 11 trifs. no pods on any of 3`: more than were told of by their labels, or counted."""
    live, n = ctx.living(), numbers_of(group)
    told = group.form == "group_n" and len(live) > 1 and all(p.named and not p.counted for p in live)
    return told and bool(n) and n[0] > max(len(live), tallies.sample(ctx) or 0)


_A_FEW = 12  # plants that are counted and told of alike


def ahead_group(w: Listener, group: Phrase) -> None:
    """`no blooms on any of them`: what is said now is of all plants of the visit."""
    ctx = w.ctx
    if group.start in w.groups_done and ctx.open and ctx.open[0].what == "seeds" and "IN" in ctx.link:
        return  # beans in the pods in the top four on both: one saying, and its seeds are of all already
    if _just_named(ctx, group):
        ctx.mark(group.start, group.end, EVIDENCE)
        w.groups_done.add(group.start)
        return
    nums = numbers_of(group)
    if nums and not ctx.living() and 1 < nums[0] <= _A_FEW:  # eight trifs on each of the three
        for p in ctx.begin([str(n) for n in range(1, nums[0] + 1)], ctx.span(group.start, group.end)):
            p.counted = True
    ctx.group = "none" if group.form == "group_none" else "all"
    ctx.group_n = nums[0] if nums else None
    ctx.group_span = ctx.span(group.start, group.end)
    ctx.open = []
    ctx.mark(group.start, group.end, EVIDENCE)
    w.groups_done.add(group.start)


def _have_what_follows(w: Listener, group: Phrase) -> bool:
    """`flower at the top node all of em have twelve trifs`: what they have is told behind."""
    pieces = w.ctx.lattice.pieces
    has = group.end < len(pieces) and pieces[group.end].text in {"have", "had", "got"}
    led = pieces[group.start].text in {"on", "in", "of"} or (
        group.start > 0 and pieces[group.start - 1].text in {"on", "in"}
    )
    return has and not led and not w.ends_at(group.end + 1)


_FAR = (
    16  # pieces to a group at the end: seed is a quarter inch in the pods at the second node down on every one of them
)


def group_after(w: Listener, k: int) -> Phrase | None:
    """A group named at the end of this statement: `flowers clear to the tip on all of them`."""
    for s in w.segments[k + 1 : k + _FAR]:
        if s.phrase is None:
            p = w.ctx.lattice.pieces[s.start]
            if p.text == "." and w.ctx.lattice.soft[s.start] is not None:
                continue  # No fl. on any
            if p.form == "mark" or p.form == "nl" or not w.ctx.lattice.filler[s.start]:
                return None
        elif s.phrase.form == "pod_yes" and w.segments[k].phrase is not None and w.segments[k].phrase.rule == "seeds":  # type: ignore[union-attr]
            pass
        elif s.phrase.rule == "state" and any(e.kind in {"POD", "PODG"} for _, e in s.phrase.path):
            return None  # seed touching third node down and the pods are green on all of them: of the pods
        elif s.phrase.rule == "group":
            behind = s.phrase.form in {"group_all", "group_n"} and not _have_what_follows(w, s.phrase)
            return s.phrase if behind else None
        elif s.phrase.rule not in {"place", "length", "state", "filler"} or s.phrase.form in {"branch", "main_stem"}:
            return None
    return None
