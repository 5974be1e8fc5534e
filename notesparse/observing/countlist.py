"""Plants counted class by class in a row: `R2 x7, R1 x3`, `R1 on 8, the other 2 nothing open`, `7x R2` (guide 4.16).

A class is what is seen of some plants; its count stands behind it or before it. The list is a sample of its own where
nobody said how many plants were looked at. What is seen is taken with its place: `four had a flower on the uppermost node and two
only on the lower nodes`.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.draft import TallyDraft
from notesparse.observing.fold import EVIDENCE, Context
from notesparse.observing.organs import read_length
from notesparse.observing.stages import read_stage
from notesparse.observing.tallies import by_length, leave_out, take_out
from notesparse.reading.parse import Phrase, phrases_at
from notesparse.span import Span
from notesparse.staging.scale import NONE
from notesparse.text.columns import WIDE
from notesparse.text.lattice import Edge, Lattice

_LISTED = cue_page("observing/countlist")
_COMMON = cue_page("shared")

_CLASS = {
    "fl_yes": "R1",
    "pod_yes": "R3",
    "seed_yes": "R5",
    "seed_small": "R5",
    "uni_open": "VC",
    "uni_bare": "VC",
    "cot_up": "VE",
    "up": "VE",
    "brown": "R7",
    "n_brown": "R7",
    "all_brown": "R8",
    "pod_flat": "R4",
    "full": "R6",
}
_NO_BLOOM = {"fl_no", "fl_buds", "none"}
_NONE = {
    "fl_no",
    "fl_buds",
    "pod_no",
    "seed_no",
    "no_brown",
    "not_up",
    "pods_green",
    "pods_all_green",
    "green",
    "uni_rolled",
    "fl_past",
    "none",
}
_PLANTS = _COMMON.words("plant") | _COMMON.words("plants")
_BEHIND = _LISTED.words("behind")
_SURE_BEHIND = _LISTED.words("sure_behind")
_BEFORE = _LISTED.words("before")
_JOINS = _LISTED.words("joins")
_HAS = _COMMON.words("having_or_with")
_BETWEEN = _COMMON.words("and") | {")", ".", "/", ";", "but"}
_UNITS = {
    "TRIF",
    "TRIPS",
    "NODE",
    "NODES",
    "PCT",
    "INCH",
    "MM",
    "CM",
    "FOOT",
    "SCAR",
    "MONTH",
    "POD",
    "SEED",
    "FLOWER",
    "INSECT",
    "WEED",
    "SWEEP",
    "BROWN",
    "SLASH",
    "DASH",
    "HEIGHTWORD",
    "ROWSUFFIX",
    "PLANT",
    "PLETTER",
}


@dataclass(frozen=True, slots=True)
class Counted:
    """One class of the list at pieces [start, end). `what` is None for plants without what the other classes have."""

    start: int
    end: int
    what: str | None
    count: int
    of: int | None
    sure: bool  # a word joins count and class
    rest: bool  # the other two
    no_bloom: bool = False  # without a flower
    called: bool = False  # the stage is named


def _number(lattice: Lattice, i: int) -> Edge | None:
    if i >= len(lattice.pieces):
        return None
    fit = [
        e
        for e in lattice.edges[i]
        if e.kind == "INT" and e.how == "number" and isinstance(e.means, int) and 0 <= e.means <= 400
    ]
    number = max(fit, key=lambda e: e.end, default=None)
    if number is not None and _text(lattice, number.end) == "of" and _of_the_top(lattice, i):
        return None  # full seed at one of the top four nodes
    return number


def _of_the_top(lattice: Lattice, i: int) -> bool:
    return any(p.rule == "place" and any(e.kind == "TOP" for _, e in p.path) for p in phrases_at(lattice, i))


def _span(lattice: Lattice, ph: Phrase) -> Span:
    return lattice.pieces[ph.start].span.cover(lattice.pieces[ph.end - 1].span)


def _kinds(lattice: Lattice, i: int) -> set[str]:
    return {e.kind for e in lattice.edges[i]} if i < len(lattice.pieces) else set()


def _text(lattice: Lattice, i: int) -> str:
    return lattice.pieces[i].text if i < len(lattice.pieces) else ""


def _class_at(lattice: Lattice, i: int, leaves: bool = False) -> tuple[str | None, int, Phrase] | None:
    """What is seen at piece i: (stage, end, phrase), the longest reading; stage None: nothing seen.

    `leaves`: a count of trifoliates is a class too.
    """
    best: tuple[str | None, int, Phrase] | None = None
    if i >= len(lattice.pieces):
        return None
    for ph in phrases_at(lattice, i):
        if ph.cost > 0.75:
            continue
        what: str | None
        if ph.rule == "stage" and ph.form in {"r1", "v1", "name"}:
            value = next(iter((read_stage(ph) or {}).values()), None)
            if not isinstance(value, str):
                continue
            what = value.split(".")[0]
        elif ph.form in _CLASS:
            what = _CLASS[ph.form]
        elif leaves and ph.form == "trif_n" and (many := _number(lattice, i)) is not None and 0 < many.means <= 20:
            what = f"V{many.means}"
        elif ph.form in {"pod_len", "pod_frac"}:
            what = "R3"
        elif ph.form in _NONE:
            what = None
        else:
            continue
        if best is None or ph.end > best[1]:
            best = (what, ph.end, ph)
    if best is None:
        return None
    what, end, ph = best
    if ph.rule == "pods" and what is not None:
        what, end = _sized(lattice, ph, what, end)
    return _placed(lattice, ph, what, end)


_BEHIND_SIZED = _LISTED.words("behind_sized")


def _sized(lattice: Lattice, ph: Phrase, what: str, end: int) -> tuple[str, int]:
    """`pods three quarters of an inch or longer`: what pods so long are, and where that ends."""
    at = end + 1 if _text(lattice, end) == "of" else ph.start + 1  # a pod of 5 mm
    lengths = [p for p in phrases_at(lattice, at) if p.rule == "length"] if at < len(lattice.pieces) else []
    longest = max(lengths, key=lambda p: (p.end, -p.cost), default=None)
    if longest is None or longest.end < end:
        return what, end
    size = read_length(longest, _span(lattice, longest))
    if size is None:
        return what, end
    end = longest.end
    while end < len(lattice.pieces) and _text(lattice, end) in _BEHIND_SIZED:
        end += 1
    return by_length(size), end


_TO_A_PLACE = _LISTED.words("to_a_place")
_LOWEST = {"flowers": {"R1": 2, "R2": 2}, "pods": {"R3": 4, "R4": 4}}
"""At which node from the top the stages look last, by what is seen there."""


def _places_behind(lattice: Lattice, ph: Phrase, at: int) -> list[Phrase]:
    """The places that may begin behind what is seen, past the small words that lead to them."""
    while at < len(lattice.pieces):
        found = [p for p in phrases_at(lattice, at) if p.rule == "place" and p.cost <= 0.75]
        if found or ph.rule not in {"pods", "flowers"} or _text(lattice, at) not in _TO_A_PLACE:
            return found
        at += 1
    return []


def _placed(lattice: Lattice, ph: Phrase, what: str | None, end: int) -> tuple[str | None, int, Phrase]:
    """The class with the place on the stem behind it: flowers at the top two nodes, pods in the top four."""
    best = (what, end, ph)
    for place in _places_behind(lattice, ph, end):
        n = [int(e.means) for _, e in place.path if e.kind in {"INT", "ORD"}]
        high = place.form in {"top_n", "top_two", "top_1", "up_top", "top_four", "below_top"}
        if place.form in {"ord_down", "num_down"} and n and what in _LOWEST.get(ph.rule, {}):
            where = what if n[0] <= _LOWEST[ph.rule][what] else "R1"
            best = ("R2" if what == "R1" and n[0] <= _LOWEST[ph.rule][what] else where, place.end, ph)
        elif ph.rule == "pods" and what in {"R3", "R4"} and (high or place.form == "lower"):
            best = (what if high else "R1", place.end, ph)
        elif place.form == "lower" and what == "R1" and ph.rule == "flowers":
            best = ("R1", place.end, ph)
        elif high and what in {"R1", "R2"} and ph.rule == "flowers":
            if place.form != "top_n" or (n and n[0] <= 2):
                best = ("R2", place.end, ph)
    return best


def _of(lattice: Lattice, i: int) -> tuple[int, int] | None:
    """`of 10`, `out of 10`, `/10` at piece i: (how many, end)."""
    if i + 1 >= len(lattice.pieces):
        return None
    for e in lattice.edges[i]:
        if e.kind in {"OF", "OUTOF", "SLASH"}:
            n = _number(lattice, e.end)
            if n is not None and n.means >= 2:
                return int(n.means), n.end
    return None


_BEFORE_CLASS_FIRST = _COMMON.words("low") | _COMMON.words("top") | _COMMON.words("upper_or_lower")
_BEHIND_CLASS_FIRST = _COMMON.words("them") | {"the"}


def _class_first(lattice: Lattice, i: int) -> Counted | None:
    got = _class_at(lattice, i, leaves=True)
    if got is None:
        return None
    what, k, seen = got
    while seen.rule == "trif" and _text(lattice, k) in {".", ","}:
        k += 1  # 9 tri., 3 plts
    link = _text(lattice, k)
    if link in _BEHIND and not (link == "-" and lattice.pieces[k].glued):
        k += 1
        if link == "on" and _text(lattice, k) in {"about", "the"}:
            k += 1
    n = _number(lattice, k)
    if n is None or _text(lattice, k - 1) in _BEFORE_CLASS_FIRST:
        return None  # blooms in the top | two
    end, of = n.end, None
    more = _of(lattice, end)
    if more is not None:
        of, end = more
        if n.means > of:
            return None
    if end < len(lattice.pieces) and _kinds(lattice, end) & {"OF"} and _text(lattice, end + 1) in _BEHIND_CLASS_FIRST:
        end += 2
        if _text(lattice, end - 1) == "the":
            m = _number(lattice, end)
            end = m.end if m is not None else end
    if _text(lattice, end) in _PLANTS or (seen.rule == "trif" and link in {"x", "*"}):
        end += _text(lattice, end) in _PLANTS
        if seen.rule == "trif":
            end += _text(lattice, end) == "." and lattice.soft[end] is not None
            return Counted(i, end, what, int(n.means), of, True, False)
    elif seen.rule == "trif":
        return None  # 9 tri 3: no plants named
    elif link == "(" and _text(lattice, end) == ")":
        end += 1
    elif (
        _kinds(lattice, end) & _UNITS
        and lattice.pieces[end].gap < WIDE  # V4: 6   pigweed 2"
        and not (end < len(lattice.pieces) and _class_at(lattice, end) is not None and _text(lattice, end - 1) != "-")
    ):
        return None
    sure = link in _SURE_BEHIND or of is not None
    called = seen.rule == "stage"
    return Counted(i, end, what, int(n.means), of, sure, rest=False, no_bloom=seen.form in _NO_BLOOM, called=called)


_FOR_COUNT_FIRST = _COMMON.words("rest") | _LISTED.words("behind_count_first_2") | {"last"}
_BEHIND_COUNT_FIRST = _COMMON.words("is_or_has")
_BEHIND_COUNT_FIRST_2 = _LISTED.words("behind_count_first_2")
_FOR_COUNT_FIRST_2 = _LISTED.words("for_count_first_2")


def _count_first(lattice: Lattice, i: int) -> Counted | None:
    k, rest = i, False
    if _text(lattice, k) == "the":
        k += 1
    if _text(lattice, k) in _FOR_COUNT_FIRST:
        rest, k = True, k + 1
    n = _number(lattice, k)
    end, of, count = k, None, -1
    if n is None:
        if not rest and _text(lattice, k) not in {"rest", "remainder", "balance"}:
            return None
        end, rest = k + (not rest), True
        if _text(lattice, end) == "of" and _text(lattice, end + 1) in {"them", "em", "'em"}:
            end += 2
    else:
        end, count = n.end, int(n.means)
        if count > 1 and not rest and _text(lattice, end) in _BEHIND_COUNT_FIRST:
            return None  # 2 is V3, 5 is V5: plants by their numbers
        start_of = _of(lattice, n.end)
        if start_of is not None:
            of, end = start_of
    if _text(lattice, end) in _BEHIND_COUNT_FIRST_2:
        rest, end = True, end + 1
    words: list[str] = []
    while _text(lattice, end) in _BEFORE and len(words) < 4:
        got = _class_at(lattice, end) if _text(lattice, end) not in _JOINS else None
        if got is not None and got[2].rule != "stage":
            break
        words.append(_text(lattice, end))
        end += 1
    got = _class_at(lattice, end, leaves=bool(_PLANTS & set(words)) and of is None)
    if got is None:
        return None
    what, stop, ph = got
    if ph.rule == "trif":
        return Counted(i, stop, what, count, of, True, rest) if count > 0 else None
    noun = ph.rule in {"pods", "seeds"} and not lattice.original(ph.start, ph.end).lower().endswith(("ing", "ed", "in"))
    if noun and not set(words) & _HAS and ph.form in {"pod_yes", "seed_yes"}:
        return None
    if ph.form in {"brown", "n_brown", "full"} and not set(words) & _HAS:
        return None
    if what is None and ph.form in {"green", "pods_green", "pods_all_green"}:
        under = _brown_too(lattice, stop)
        if under is not None:
            what, stop = "R7", under
    sure = rest or bool(set(words) & _FOR_COUNT_FIRST_2 | set(words) & _HAS)
    return Counted(i, stop, what, count, of, sure, rest, no_bloom=ph.form in _NO_BLOOM, called=ph.rule == "stage")


_FOR_BROWN_TOO = _LISTED.words("for_brown_too")
_BEHIND_BROWN_TOO = _LISTED.words("behind_brown_too")


def _brown_too(lattice: Lattice, k: int) -> int | None:
    """`green ones up top but brown under that`: where the brown ends, in the same clause."""
    joined = False
    for i in range(k, min(k + 9, len(lattice.pieces))):
        if lattice.pieces[i].form == "nl" or lattice.pieces[i].text in ".;,":
            return None
        joined = joined or lattice.pieces[i].text in _FOR_BROWN_TOO
        if joined and "BROWN" in _kinds(lattice, i):
            end = max(e.end for e in lattice.edges[i] if e.kind == "BROWN")
            end += _text(lattice, end) in {"under", "below", "beneath"}
            return end + (_text(lattice, end) in _BEHIND_BROWN_TOO)
    return None


_FOR_ONE_OR_MORE = _LISTED.words("for_one_or_more")
_FOR_ONE_OR_MORE_2 = _LISTED.words("for_one_or_more_2")


def _one_or_more(lattice: Lattice, i: int) -> int | None:
    """`other 4 have one or more but not there yet`: of what was counted before."""
    k = i
    if _text(lattice, k) == "the":
        k += 1
    if _text(lattice, k) in _BEHIND_COUNT_FIRST_2:
        k += 1
    n = _number(lattice, k)
    if (
        n is None
        or k == i
        or (_text(lattice, n.end) not in _HAS and _text(lattice, n.end) not in {"got", "just", "only"})
    ):
        return None
    k = n.end + 1
    start = k
    while _text(lattice, k) in _FOR_ONE_OR_MORE:
        k += 1
    if k == start:
        return None
    while k < len(lattice.pieces) and lattice.pieces[k].form == "word" and _text(lattice, k) in _FOR_ONE_OR_MORE_2:
        k += 1
    return k if k >= len(lattice.pieces) or lattice.pieces[k].form in {"nl", "mark"} else None


def _leaves(lattice: Lattice, x: Counted) -> bool:
    """A class of so many trifoliates."""
    return any("TRIF" in _kinds(lattice, i) for i in range(x.start, x.end))


def _on_the_next(lattice: Lattice, item: Counted, k: int) -> bool:
    """`V10 x 4` over `V11 x 5`: a class a line, each joined to its count."""
    if _leaves(lattice, item):
        return True
    nxt = _class_first(lattice, k + 1) if item.sure and item.of is None else None
    return nxt is not None and nxt.sure and nxt.of is None and _crossed(lattice, item) and _crossed(lattice, nxt)


def _crossed(lattice: Lattice, x: Counted) -> bool:
    return any(lattice.pieces[i].text in {"x", "*"} for i in range(x.start, x.end))


_SAMPLES = frozenset({10, 20, 25, 30, 40, 50})  # plants that one counts off: common practice, no source


def _sure_counts(lattice: Lattice, items: list[Counted]) -> bool:
    """Counts beside the names of stages that are no labels of plants: `8 R3 2 R2` falls, `R6 9, R5 1` makes a sample."""
    if len(items) < _SEVERAL or not all(x.called for x in items):
        return False
    counts = [x.count for x in items]
    falls = counts == sorted(set(counts), reverse=True) and all(lattice.pieces[x.start].form == "int" for x in items)
    return falls or (sum(counts) in _SAMPLES and len({x.what for x in items}) == len(items))


_SEVERAL = 2


def counted_list(ctx: Context, i: int) -> int | None:
    """Read the list that begins at piece i into tallies; its end, or None where there is none."""
    lattice = ctx.lattice
    sample = ctx.sample if ctx.sample_visit == len(ctx.visits) or ctx.visit is None else None
    items: list[Counted] = []
    k = i
    while k < len(lattice.pieces) and len(items) < 8:
        behind = _class_first(lattice, k)
        before = _count_first(lattice, k)
        item = behind or before
        last = (
            items[-1].what
            if items
            else ctx.visit.tallies[-1].what
            if ctx.visit is not None and ctx.visit.tallies
            else None
        )
        if item is None and last in {"R7", "R8"}:
            end = _one_or_more(lattice, k)
            if end is not None:
                n = next(e for e in (_number(lattice, x) for x in range(k, end)) if e is not None)
                item = Counted(k, end, "R7", int(n.means), None, True, True)
        if item is None or (item.rest and not items and ctx.visit is not None and not ctx.visit.tallies):
            break
        items.append(item)
        k = item.end
        while (
            k < len(lattice.pieces)
            and (_text(lattice, k) in _BETWEEN or (_on_the_next(lattice, item, k) and lattice.pieces[k].form == "nl"))
            and (_text(lattice, k) != "." or lattice.soft[k] is not None)
        ):
            k += 1
    if not items or len({_leaves(lattice, x) for x in items}) > 1:
        return None
    of = next((x.of for x in items if x.of), None) or sample
    before_it = ctx.visit.tallies[-1] if ctx.visit is not None and ctx.visit.tallies else None
    joined = items[0].rest and before_it is not None and bool(before_it.of) and before_it.count is not None
    if joined and before_it is not None:
        of = int(before_it.of or 0)
    earlier = int(before_it.count or 0) if joined and before_it is not None else 0
    total = earlier + sum(x.count for x in items if x.count >= 0)
    if of is not None and any(x.count < 0 for x in items):
        items = [x if x.count >= 0 else replace(x, count=of - total) for x in items]
        total = of
    if any(x.count < 0 for x in items):
        return None
    if of is None and len({x.what for x in items}) < len(items):
        return None  # 8 R1, 8 R1, 9 R2: a class is counted once
    several = len(items) > 1 or joined
    colons = (len(items) > 1 and all(lattice.pieces[x.end - 2].text == ":" for x in items)) or len(items) > 2
    colons = colons or _sure_counts(lattice, items)
    if of is None and not (
        several
        and (all(x.sure or x.what is None for x in items) or (colons and len({x.what for x in items}) == len(items)))
        and total >= 3
    ):
        return None
    called = len(items) > 1 and all(x.called for x in items)
    if of is not None and ((total > of and not called) or any(x.of not in {None, of} for x in items)):
        return None
    if of is not None and any(x.count > of for x in items):
        return None
    if not several and not (
        (items[0].sure and items[0].what is not None and items[0].of is None)
        or (sample is not None and items[0].what is not None and items[0].start == i and items[0].of is None)
    ):
        return None
    certain = all(x.sure for x in items) or (called and items[0].sure) or total == of or any(x.rest for x in items)
    if of is not None and several and not certain:
        return None
    if (all(x.what is None for x in items) and not joined) or (items[0].what is None and not several):
        return None
    whole = of if of is not None else total
    scales = {x.what[0] for x in items if x.what is not None} if of is None and not joined else set()
    wholes = {x: sum(y.count for y in items if y.what is not None and y.what[0] == x) for x in scales}
    by_scale = len(scales) > 1 and len(set(wholes.values())) == 1  # V9 (7) V10 (3), R1 (6) R2 (4): ten plants
    if by_scale:
        whole = total = next(iter(wholes.values()))
    visit = ctx.here()
    ctx.leave_plants()
    exclusive = several and total == whole and len({x.what for x in items}) == len(items)
    if not several and leave_out(ctx, int(items[0].count), items[0].start):  # 10 plants, all R2 except one R1
        visit.tallies[-1].exclusive = exclusive = True
    if joined and before_it is not None and exclusive:
        before_it.exclusive = True
    having = {x.what for x in items if x.what is not None}
    if joined and before_it is not None:
        having.add(before_it.what or "")
    of_bloom = exclusive and having == {"R2"}  # where some are at R1, those tell that the rest are not
    for x in items:
        ctx.mark(x.start, x.end, EVIDENCE)
        if x.what is None and not (of_bloom and x.no_bloom):
            continue
        t = TallyDraft(x.what or NONE, x.count, whole, None, ctx.span(x.start, x.end), exclusive=exclusive)
        t.called = x.called and not exclusive
        visit.tallies.append(t)
        ctx.said("tally", t.span, partial(take_out, visit, t))
    ctx.tally = None
    return items[-1].end
