"""So many plants of so many (guide 4.16)."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from notesparse.facts import Tally
from notesparse.language.cues import cue_page
from notesparse.observing.draft import Ask, Length, TallyDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, EXCEPT, Context, numbers_of
from notesparse.observing.organs import read_length
from notesparse.observing.stages import read_stage
from notesparse.reading.parse import Phrase
from notesparse.span import Span
from notesparse.staging.scale import NONE

_LISTED = cue_page("observing/tallies")
_COMMON = cue_page("shared")


def sampled(ctx: Context, ph: Phrase, span: Span) -> bool:
    visit = ctx.here()
    ctx.sample = numbers_of(ph)[0]
    ctx.sample_visit = len(ctx.visits)
    ctx.sampled.append((visit, ctx.sample, span))
    classes = [t for t in visit.tallies if t.exclusive and t.of is None]
    told = sum(t.count or 0 for t in classes)
    if classes and told <= ctx.sample:  # 3 plants R5, 2 plants R4, the rest R3. pulled 10
        for t in classes:
            t.of = ctx.sample
            if t.count is None and t.percent is None and ctx.sample > told:
                t.count = ctx.sample - told
    return True


def sample(ctx: Context) -> int | None:
    """How many plants are spoken of, where that was said."""
    if ctx.sample is not None and ctx.sample_visit == max(len(ctx.visits), 1):
        return ctx.sample
    visit = ctx.visit
    if visit is not None and visit.tallies and visit.tallies[-1].of:
        return int(visit.tallies[-1].of)
    listed = len(ctx.living()) if not ctx.explicit else 0
    return listed if listed > 1 else None


def take_all(ctx: Context) -> None:
    """What is counted next is counted of the plants that were counted before."""
    of = sample(ctx)
    visit = ctx.visit
    if of is None and visit is not None and visit.tallies and all(t.count is not None for t in visit.tallies):
        of = int(sum(t.count or 0 for t in visit.tallies))
    if of is not None:
        ctx.sample, ctx.sample_visit = of, len(ctx.visits)


_EVEN = _LISTED.words("even")
_BEFORE_OF_ALL = _COMMON.words("them") | {"the"}


def _of_all(ctx: Context, ph: Phrase, of: int) -> int:
    """`eight of ten in bloom, four of those eight with a flower up top`: four of ten."""
    last = ctx.visit.tallies[-1] if ctx.visit is not None and ctx.visit.tallies else None
    those = {p.text for p in ctx.lattice.pieces[ph.start : ph.end]} & _BEFORE_OF_ALL
    same = last is not None and last.count == of and bool(last.of) and not last.negative
    return int(last.of or of) if last is not None and same and those else of


def start(ctx: Context, ph: Phrase, span: Span) -> TallyDraft | None:
    """A share that waits for what it is a share of."""
    f = ph.form
    n = numbers_of(ph)
    t = TallyDraft(None, None, None, None, span)
    if f in {"n_of_m", "n_slash_m", "n_in_m"}:
        t.count, t.of = n[0], _of_all(ctx, ph, n[1])
        t.stops = any(e.kind == "STOPS" for _, e in ph.path)
    elif f == "of_m_n":  # of ten flagged nine are up
        t.count, t.of = n[1], n[0]
    elif f == "n_of_them":
        t.count, t.of = n[0], sample(ctx)
    elif f == "group_none":
        if not n:
            return None
        t.count, t.of = 0, n[-1]  # flowers on none of the ten I pulled
    elif f in {"other_n", "other_one"}:
        t.count, t.of, t.exclusive = n[0] if n else 1, sample(ctx), True
        earlier = ctx.visit.tallies if ctx.visit is not None else []
        if n and t.of is None and earlier and sum(x.percent or 0 for x in earlier) + n[0] == 100:
            t.count, t.percent = None, float(n[0])  # forty percent at R5 and the other sixty R4
        _all_told(ctx, t)
    elif f in {"half", "half_of_n"}:
        t.percent = 50.0
        t.of = n[-1] if f == "half_of_n" else None
        t.even = t.exclusive = "".join(p.text for p in ctx.lattice.pieces[ph.start : ph.end]) in _EVEN
    elif f == "pct_of_n":
        if not 0 <= n[0] <= 100:
            return None
        t.percent, t.of = float(n[0]), n[-1]
    elif f in {"most", "less_half"}:
        t.more_than_half = f == "most"
    elif f == "lots":
        t.lots = True
    elif f in {"all_plants", "none_without"}:
        t.percent = 100.0
    elif f == "all_but":
        of = n[1] if len(n) > 1 else sample(ctx)
        if of is None or not 0 < n[0] < of:
            return None
        t.count, t.of = float(of - n[0]), float(of)
    elif f == "n_but":
        if not 0 < n[1] < n[0]:
            return None
        t.count, t.of = float(n[0] - n[1]), float(n[0])
    elif f in {"frac", "frac_doing", "frac_of_n"}:
        part = next(e.means for _, e in ph.path if e.kind == "FRAC")
        if not 0 < part < 1:
            return None
        t.percent = round(100.0 * float(part), 1)
        t.of = n[-1] if f == "frac_of_n" else None
    elif f == "n_all":
        t.count = t.of = float(n[0])
    elif f == "n_plants":
        if n and (ctx.sample is None or _out_of(ctx, ph)):
            ctx.sample, ctx.sample_visit = n[0], len(ctx.visits) or 1
            ctx.sampled.append((ctx.here(), n[0], span))
        return None
    elif f in {"pct", "pct_range"}:
        value = next(float(e.means) for _, e in ph.path if e.kind in {"INT", "DEC", "INTSOUND"})
        if value > 100:
            return None
        t.percent = value
    ctx.tally = t
    return t


def plants_or_day(span: Span, mark: str, count: int, many: int, iso: str | None, date_first: bool = False) -> Ask:
    """Whether `7/10` are seven plants of ten, or a day (guide 4.16); the reading that is taken meanwhile stands first."""
    plants: tuple[str, dict[str, object]] = (f"{count} of {many} plants", {"tally": f"{count} of {many}"})
    day: tuple[str, dict[str, object]] = ("the date", {"date": iso} if date_first else {"date": iso, "tally": None})
    choices = [day, plants] if date_first else [plants, day]
    text = f"Is {count}{mark}{many} {count} plants of {many}, or a date?"
    return Ask("4.16", span, text, choices, None, 0, "tally", always=True)


def _out_of(ctx: Context, ph: Phrase) -> bool:
    """`out of the twenty plants, two`: these are spoken of now."""
    words = [p.text for p in ctx.lattice.pieces[max(0, ph.start - 3) : ph.start]]
    return "of" in words


def none_of_them(ctx: Context, of: int | None, span: Span) -> None:
    """`none of the six podded`: none of the plants that were counted, or of all."""
    ctx.tally = TallyDraft(None, 0, of if of is not None else sample(ctx), 0.0, span)


def _all_told(ctx: Context, t: TallyDraft) -> None:
    """`six of them R2 and the other four R1`: ten in all, though nobody said so."""
    earlier = [x for x in (ctx.visit.tallies if ctx.visit is not None else []) if x.count is not None]
    if t.of is not None or not earlier or any(x.of is not None for x in earlier) or t.count is None:
        return
    t.of = t.count + sum(x.count or 0 for x in earlier)
    for x in earlier:
        x.of = t.of


def rest(ctx: Context, span: Span) -> TallyDraft | None:
    visit = ctx.visit
    if visit is None or not visit.tallies:
        return None
    of = sample(ctx)
    t = TallyDraft(None, None, of, None, span, exclusive=True)
    if of is not None and all(x.count is not None for x in visit.tallies):
        t.count = of - sum(x.count or 0 for x in visit.tallies)
        if t.count <= 0:
            t.count = None
    elif all(x.percent is not None for x in visit.tallies):
        t.percent = 100 - sum(x.percent or 0 for x in visit.tallies)
    elif of is not None:
        return None  # of so many, and nobody said how many the others are
    ctx.tally = t
    return t


def of_the_stage(ctx: Context, ph: Phrase, span: Span, since: int) -> bool:
    """`R1 just barely, 3 of 10`: a share that follows the stage of the field is of plants at that stage."""
    visit = ctx.visit
    if visit is None or ctx.plants or not visit.stated:
        return False
    last = visit.stated[-1]
    if last.where is not None or last.letter != "r" or not isinstance(last.value, str) or last.span.start < since:
        return False
    t = start(ctx, ph, span)
    ctx.tally = None
    if t is None:
        return False
    t.what = last.value.split()[-1].split(".")[0]
    visit.tallies.append(t)
    ctx.said("tally", t.span, partial(take_out, visit, t))
    return True


def of_the_most(ctx: Context, ph: Phrase, span: Span, since: int) -> bool:
    """`R2 mostly, 7 of 10`: how many most are."""
    visit = ctx.visit
    last = visit.tallies[-1] if visit is not None and visit.tallies else None
    n = numbers_of(ph)
    if last is None or not last.more_than_half or last.count is not None or last.span.start < since:
        return False
    if len(n) != 2 or not 2 * n[0] > n[1] >= n[0]:
        return False
    last.count, last.of, last.more_than_half, last.span = n[0], n[1], None, last.span.cover(span)
    return True


def so_many_have(ctx: Context, value: object, span: Span, *, another: bool) -> bool:
    """`ten plants, eight had three trifs`, `another three were blooming`: so many of the plants that were counted."""
    many = sample(ctx)
    if many is None or not isinstance(value, int) or not 0 < value <= many or (ctx.plants and not another):
        return False
    ctx.leave_plants()
    ctx.tally = TallyDraft(None, value, many, None, span)
    return True


def as_many_leaves(ctx: Context, value: object, span: Span) -> bool:
    """`eight had three trifs and the other two had two`: the number behind a share is of leaves too."""
    t, visit = ctx.tally, ctx.visit
    if t is None or t.what is not None or visit is None or not isinstance(value, int) or not 0 < value < 22:
        return False
    if not visit.tallies or not (visit.tallies[-1].what or "").startswith("V"):
        return False
    t.what, t.span = f"V{value}", t.span.cover(span)
    visit.tallies.append(t)
    ctx.said("tally", t.span, partial(take_out, visit, t))
    return True


def and_more(ctx: Context, ph: Phrase) -> None:
    """What stands behind the trifoliates of a share is told of the same plants."""
    t = ctx.tally
    if t is not None and (t.what or "").startswith("V") and not ctx.plants and ph.form in _WHAT:
        ctx.tally = replace(t, what=None)


def raise_to(ctx: Context, ph: Phrase, span: Span) -> None:
    """The same plants have more than was said of them: the later stage is what they were counted for."""
    t = ctx.tally
    if t is None or t.what is None:
        return
    what = _WHAT.get(ph.form)
    if ph.form == "share_brown" and any(e.kind in {"INT", "DEC"} and float(e.means) >= 95 for _, e in ph.path):
        what = "R8"
    if what is not None and what > t.what:
        t.what = what
    t.span = t.span.cover(span)


def of_so_many(ctx: Context, n: int, span: Span) -> bool:
    """`3 plants R5, 2 plants R4`: classes of plants of which it may be said later how many they were in all."""
    visit = ctx.here()
    of = sample(ctx)
    earlier = [t for t in visit.tallies if t.exclusive and t.of == of]
    if of is not None and sum(t.count or 0 for t in earlier) + n > of:
        return False
    ctx.tally = TallyDraft(None, n, of, None, span, exclusive=True)
    return True


def the_others_not(ctx: Context, n: list[int]) -> bool:
    """`two plants had flowers and the other eight didn't`: ten in all."""
    visit = ctx.visit
    earlier = [t for t in (visit.tallies if visit is not None else []) if t.of is None and t.count is not None]
    if not n or len(earlier) != 1:
        return False
    earlier[0].of = (earlier[0].count or 0) + n[0]
    earlier[0].exclusive = False
    return True


def close(visits: list[VisitDraft]) -> None:
    """`3 plants R5, 2 plants R4` and no word of how many there were: five."""
    for visit in visits:
        classes = [t for t in visit.tallies if t.exclusive and t.of is None]
        if len(classes) > 1 and all(t.count is not None for t in classes):
            for t in classes:
                t.of = sum(x.count or 0 for x in classes)
        _all_in_classes(visit)
        _called_apart(visit)


def _called_apart(visit: VisitDraft) -> None:
    """`ten plants. 4 at R3, 4 at R2`: those that are called R3 are not among those called R2."""
    called = [t for t in visit.tallies if t.called and t.count is not None and t.of and not t.stops]
    one_sample = len(called) == len(visit.tallies) > 1 and len({t.of for t in called}) == 1
    apart = len({t.what for t in called}) == len(called) and len({(t.what or "")[:1] for t in called}) == 1
    if one_sample and apart and sum(t.count or 0 for t in called) < (called[0].of or 0):
        for t in called:
            t.exclusive = True


def _all_in_classes(visit: VisitDraft) -> None:
    """Flower at the top two nodes 6 of 10, lower only 3, no flower 1: classes that make up the whole; one that has none
    is not turned round."""
    told = [t for t in visit.tallies if t.count is not None and t.of is not None]
    having, without = [t for t in told if not t.negative], [t for t in told if t.negative]
    one_sample = len(told) == len(visit.tallies) and len({t.of for t in told}) == 1
    if not one_sample or len(without) > 1 or len(having) < 2 or len({t.what for t in having}) != len(having):
        return
    if sum(t.count or 0 for t in told) == told[0].of:
        for t in having:
            t.exclusive, t.called = True, False  # all are told
        for t in without:
            visit.tallies.remove(t)


def of_the_same(ctx: Context, span: Span) -> bool:
    """`four of them had one at the top`: what the share before was of."""
    t, visit = ctx.tally, ctx.visit
    if t is None or t.what is not None or visit is None or not visit.tallies:
        return False
    t.what = "R1" if visit.tallies[-1].what in {"R1", "R2"} else visit.tallies[-1].what
    t.span = t.span.cover(span)
    visit.tallies.append(t)
    ctx.said("tally", t.span, partial(take_out, visit, t))
    return True


def had_one(ctx: Context, value: int, span: Span, nxt: Phrase) -> bool:
    """`ten of ten had a flower, four had one at the top`: so many of the plants that were counted."""
    visit, pieces = ctx.visit, ctx.lattice.pieces
    if visit is None or ctx.plants or not visit.tallies or pieces[nxt.start].text not in {"one", "1"}:
        return False
    last = visit.tallies[-1]
    has = any(e.kind == "HAS" and e.end == nxt.start for k in (1, 2) for e in ctx.lattice.edges[nxt.start - k])
    if not last.of or value > last.of or not has:
        return False
    ctx.tally = TallyDraft(None, value, last.of, None, span)
    return True


_EXCEPT = EXCEPT | {"minus"}


_FOR_LEAVE_OUT = _LISTED.words("for_leave_out")


def leave_out(ctx: Context, how_many: int, i: int) -> bool:
    """`all ten at R3 except number 7`: the share is of the others. Whether piece i follows such a word."""
    visit = ctx.visit
    t = visit.tallies[-1] if visit is not None and visit.tallies else None
    if t is None:
        return False
    everyone = t.of is None and t.count is None and t.percent == 100  # 8 plants, each one with flowers except two
    many = float(sample(ctx) or 0) if everyone else t.of or 0.0
    if not 0 < how_many < many or not (everyone or t.count == many):
        return False
    k = i - 1
    passed = _FOR_LEAVE_OUT
    while k >= 0 and (ctx.lattice.pieces[k].text in passed or ctx.lattice.filler[k]):
        if ctx.lattice.pieces[k].text in _EXCEPT:
            break
        k -= 1
    if k < 0 or ctx.lattice.pieces[k].text not in _EXCEPT or ctx.lattice.pieces[k].span.start < t.span.end:
        return False
    t.count, t.of, t.percent = many - how_many, many, None
    ctx.mark(k, k + 1, EVIDENCE)
    return True


def left_out_by_number(ctx: Context, number: int, i: int) -> bool:
    """`All 5 have brown pods except 4`: more than half would be left out, so it is plant 4, or another word is missing."""
    visit = ctx.visit
    t = visit.tallies[-1] if visit is not None and visit.tallies else None
    if t is None or t.of is None or t.count != t.of or not t.of < 2 * number <= 2 * t.of:
        return False
    return ctx.lattice.at(i - 1) in _EXCEPT and ctx.lattice.pieces[i - 1].span.start >= t.span.end


def more_of_them(ctx: Context, value: int, span: Span, since: int, i: int) -> bool:
    """`8 of 10 R2, 2 R1`: a second class of the same plants; all of them told apart where the counts add up."""
    visit = ctx.visit
    if visit is None or ctx.explicit or ctx.plants or not visit.tallies:
        return False
    last = visit.tallies[-1]
    if not last.of or last.count is None or last.stops or last.span.start < since or not 0 <= value <= last.of:
        return False
    leave_out(ctx, value, i)
    together = [t for t in visit.tallies if t.of == last.of and t.span.start >= since]
    ctx.tally = TallyDraft(
        None, value, last.of, None, span, exclusive=sum(t.count or 0 for t in together) + value == last.of
    )
    return True


_COUNTED = {"fl_count", "pod_count", "seed_count", "n_brown"}


_FOR_COUNTED = _COMMON.words("being")


def counted(ctx: Context, ph: Phrase, span: Span, since: int) -> None:
    """`10 plants, 3 flowering`, `trifs 9 10 9 9 8, 3 blooming`: where plants were counted and none is spoken of, so many
    of them do it."""
    listed = len(ctx.living()) if ctx.plants else 0
    if ph.form not in _COUNTED or ctx.explicit or listed == 1:
        return
    words = ctx.lattice.original(ph.start, ph.end).lower().split()
    n = numbers_of(ph)
    last = ctx.visit.tallies[-1] if ctx.visit is not None and ctx.visit.tallies else None
    of = ctx.sample if ctx.sample_visit == max(len(ctx.visits), 1) else None
    of = listed or of
    if of is None and last is not None and last.of and not last.stops and last.span.start >= since:
        of = int(last.of)
    if (
        not n
        or of is None
        or not 0 <= n[0] <= of
        or not (
            words[-1].endswith(("ing", "in", "ed"))
            or (words[-1] in {"bloom", "flower"} and "in" in words)
            or (ph.form == "n_brown" and set(words) & _FOR_COUNTED)
        )
    ):
        return
    ctx.tally = TallyDraft(None, n[0], of, None, span)


_WHAT = {
    "fl_yes": "R1",
    "fl_count": "R1",
    "fl_no": "R1",
    "fl_buds": "R1",
    "pod_yes": "R3",
    "pod_count": "R3",
    "pod_no": "R3",
    "pod_flat": "R4",
    "seed_yes": "R5",
    "seed_count": "R5",
    "bean_yes": "R5",
    "seed_small": "R5",
    "seed_no": "R5",
    "seed_touch": "R6",
    "seed_apart": "R5",
    "full": "R6",
    "n_brown": "R7",
    "brown": "R7",
    "pods_brown": "R7",
    "no_brown": "R7",
    "pods_all_green": "R7",
    "all_brown": "R8",
    "most_brown": "R7",
    "cot_up": "VE",
    "up": "VE",
    "not_up": "VE",
    "uni_open": "VC",
    "uni_bare": "VC",
    "fl_nosound": "R1",
    "pod_nosound": "R3",
    "share_brown": "R7",
    "pod_tiny": "pods",
    "half_brown": "R7",
    "frac_brown": "R7",
}
PODS_MM = (4.7625, 19.05)  # 3/16 in and 3/4 in: R3 and R4 (guide 4.12)
_NEGATIVE = {
    "fl_no",
    "fl_buds",
    "pod_no",
    "seed_no",
    "no_brown",
    "pods_all_green",
    "not_up",
    "fl_nosound",
    "pod_nosound",
}


LEAVES_COUNTED = frozenset({"trif_n", "trif_ord"})
"""Phrases of so many trifoliates: `five trifs`, `1st trif open`."""


def finish(ctx: Context, ph: Phrase, span: Span) -> bool:
    """The thing that the waiting share is a share of."""
    t, too = ctx.tally, list[TallyDraft]()  # five plants, all V9 R2: a share of each
    if t is None:
        return False
    if t.count is not None and t.of is not None and not 0 <= t.count <= t.of:
        ctx.tally = None
        return False  # the other has 11, no pods: eleven of two
    if ph.rule == "stage":
        value = read_stage(ph)
        if not value:
            return False
        code, *more = value.values()
        if t.even and isinstance(code, tuple):
            code, *more = code  # half and half, R2 and R3
        if not isinstance(code, str) or t.even != bool(more):
            return False
        t.what, t.called = code.split()[-1].split(".")[0], True
        too = [replace(t, what=str(x).split()[-1].split(".")[0], span=t.span.cover(span)) for x in more]
    elif ph.form in {"pod_frac", "pod_len", "pod_under", "pod_inch"}:  # 7 of 10 got a pod 3/16 or better
        length = read_length(ph, span)
        if length is None:
            return False
        t.what = by_length(length)
    elif ph.form in LEAVES_COUNTED:
        t.what = f"V{numbers_of(ph)[0]}"  # half of em have five trifs
    elif ph.form in _WHAT:
        t.what = _WHAT[ph.form]
        t.negative = ph.form in _NEGATIVE
        if ph.form == "share_brown":
            pct = next((float(e.means) for _, e in ph.path if e.kind in {"INT", "DEC"}), 0.0)
            t.what = "R8" if pct >= 95 else "R7"
        elif ph.form == "frac_brown" and not any(e.kind == "FRAC" and 0 < e.means < 0.95 for _, e in ph.path):
            return False  # 1 1/2 brown
    else:
        return False
    if t.what == "R3" and not t.negative and ctx.lengths:  # six of ten had 3/4 inch pods
        long = ctx.lengths[-1]
        if long.high >= (PODS_MM[1] if long.inches else 20):
            t.what = "R4"
        t.span = t.span.cover(long.span)
        ctx.lengths = []
    t.span = t.span.cover(span)
    visit = ctx.here()
    if t.exclusive and t.negative and t.what == "R1" and visit.tallies:
        having = {x.what for x in visit.tallies}
        if "R1" in having:
            return True  # the rest not blooming: told by those that are
        if "R2" in having:
            t.what, t.negative = NONE, False  # nothing else tells that they are not at R1
    if t.exclusive and visit.tallies and not t.negative:
        for x in visit.tallies:
            if x.of == t.of or x.of is None or t.of is None:
                x.exclusive = True
    for one in (t, *too):
        visit.tallies.append(one)
        ctx.said("tally", one.span, partial(take_out, visit, one))
    return True


def take_out(visit: VisitDraft, t: TallyDraft) -> None:
    if t in visit.tallies:
        visit.tallies.remove(t)


def by_length(length: Length) -> str:
    """What plants have reached whose pods are so long."""
    low = length.mm if isinstance(length.mm, float) else length.mm[0]
    least, long = PODS_MM if length.inches else (5, 20)
    return "pods" if low < least else "R3" if low < long else "R4"


def long_as_that(ctx: Context, length: Length) -> bool:
    """`six of ten had pods three quarters of an inch or longer`: the length behind the pods of a share."""
    t = ctx.tally
    if t is None or t.what != "R3" or t.negative or ctx.plants:
        return False
    t.what, t.span = by_length(length), t.span.cover(length.span)
    return True


def counted_up(t: TallyDraft) -> Tally:
    """The tally as it leaves the drafts: negative ones turned round, the percent worked out (guide 4.16)."""
    count, percent = t.count, t.percent
    if t.negative and t.more_than_half is not None:
        t.more_than_half = not t.more_than_half  # most have not podded
    elif t.negative:
        if count is not None and t.of is not None:
            count = t.of - count
        elif percent is not None:
            percent = 100 - percent
    if percent is None and count is not None and t.of:
        percent = round(100.0 * count / t.of, 1)
    return Tally(t.what or "R1", count, t.of, percent, t.more_than_half, t.exclusive and not t.negative)
