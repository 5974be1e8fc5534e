"""Trifoliates, top leaf, scars, nodes, unifoliates, emergence (guide 4.8, 4.9)."""

from __future__ import annotations

from typing import Any

from notesparse.language.cues import cue_page
from notesparse.observing.draft import Ask, PlantDraft, StatedDraft
from notesparse.observing.fold import EVIDENCE, Context, edges_of, numbers_of
from notesparse.reading.parse import Phrase
from notesparse.span import Span

_LISTED = cue_page("observing/leaves")

TRIFOLIATES_ASK, TRIFOLIATES_REFUSE = 20, 26  # guide section 8
NODES_ASK, NODES_REFUSE = 22, 28
_TEENS = {30: 13, 40: 14, 50: 15, 60: 16, 70: 17, 80: 18, 90: 19}


def _drop(p: PlantDraft, key: str, entry: Any) -> None:
    if entry in p.facts.get(key, []):
        p.facts[key].remove(entry)
        if not p.facts[key]:
            del p.facts[key]


def _put_first(plants: list[PlantDraft], p: PlantDraft, of: PlantDraft) -> None:
    """Of the plant nothing is left where it was told of first: it keeps its place among the plants."""
    plants.remove(p)
    plants.insert(plants.index(of), p)


def put(ctx: Context, key: str, value: Any, span: Span) -> list[PlantDraft]:
    """Write a fact of the current plants; a correction replaces the last value of its kind."""
    group = ctx.group is not None
    plants = ctx.need_plants(span, key if key in {"trifoliates", "nodes"} else None)
    replace_at = ctx.correcting or ctx.taking_back or ctx.star
    made = []
    for p in plants:
        before = ctx.here().told_of(p) if len(plants) == 1 else [p]
        told = [q for q in before if q.last(key) is not None] if replace_at is not None else []
        if told:
            from notesparse.outcome import Correction

            of = told[-1]
            old = of.facts[key].pop()
            if not of.facts[key]:
                del of.facts[key]
            of.asks = [a for a in of.asks if a.key != key]
            ctx.asks = [a for a in ctx.asks if not (a.plant is of and a.key == key)]
            if of is not p and of.empty:
                _put_first(ctx.here().plants, p, of)
            ctx.corrected.append(Correction("4.17", old.span, f"{_say(old.value)} replaced by {_say(value)}"))
        made.append((p, p.put(key, value, span, group=group)))
    if replace_at is not None:
        ctx.correcting = ctx.taking_back = None

    def undo() -> None:
        for p, e in made:
            _drop(p, key, e)

    def again(n: int) -> None:
        for _, e in made:
            e.value = n

    ctx.said(key, span, undo, again if isinstance(value, int) and not isinstance(value, bool) else None)
    return plants


def _say(value: Any) -> str:
    return {True: "yes", False: "no"}.get(value, str(value)) if isinstance(value, bool) else str(value)


def _ask_value(
    ctx: Context,
    plants: list[PlantDraft],
    rule: str,
    span: Span,
    key: str,
    text: str,
    choices: list[tuple[str, dict[str, Any]]],
    taken: int = 0,
) -> None:
    p = plants[-1] if plants else None
    ctx.ask(Ask(rule, span, text, choices, p, taken, key, also=tuple(plants[:-1])))


def _of(plants: list[PlantDraft]) -> str:
    return f"plant {plants[-1].label}" if plants else "this plant"


def count(ctx: Context, key: str, n: int, span: Span) -> list[PlantDraft] | None:
    """A count of trifoliates or nodes, held against what a soybean plant can have. None: refused."""
    ask, refuse = (TRIFOLIATES_ASK, TRIFOLIATES_REFUSE) if key == "trifoliates" else (NODES_ASK, NODES_REFUSE)
    what = "trifoliates" if key == "trifoliates" else "nodes"
    if n > refuse:
        twin = _TEENS.get(n)
        doubled = n % 11 == 0 and 11 < n < 100
        if twin is None and not doubled:
            return None
        plants = ctx.need_plants(span, key)
        if twin is not None:
            ctx.ask(
                Ask(
                    "8",
                    span,
                    f"Are there {twin} or {n} {what} on {_of(plants)}?",
                    [(f"{twin}", {key: twin}), (f"{n}", {key: n})],
                    plants[-1],
                    0,
                    key,
                    also=tuple(plants[:-1]),
                )
            )
            return put(ctx, key, twin, span)
        ctx.ask(
            Ask(
                "8",
                span,
                f"How many {what} has {_of(plants)}? {n} is more than a soybean has.",
                [("not known", {key: None}), (f"{n // 11}", {key: n // 11})],
                plants[-1],
                0,
                key,
                always=True,
                also=tuple(plants[:-1]),
            )
        )
        ctx.said(key, span, lambda: None)
        ctx.correcting = ctx.taking_back = None
        return plants
    plants = put(ctx, key, n, span)
    if n > ask:
        ctx.ask(
            Ask(
                "8",
                span,
                f"{n} {what} on {_of(plants)} is unusually many: is that right?",
                [(f"yes, {n}", {key: n}), ("not known", {key: None})],
                plants[-1],
                0,
                key,
                always=True,
                also=tuple(plants[:-1]),
            )
        )
    return plants


def _low_and_high(ph: Phrase, nums: list[int]) -> tuple[int, int]:
    """The ends of a range; `eleven or ten`, `eleven, maybe ten` is told from above, `11-10` and `11 to 10` are no range."""
    a, b = nums[0], nums[1]
    return (b, a) if b < a and (edges_of(ph, "OR") or ph.form in {"trif_maybe", "nodes_maybe"}) else (a, b)


def between(ctx: Context, key: str, low: int, high: int, span: Span) -> bool:
    """A count told as one of several: the lowest is taken and the choice asked (guide 4.2)."""
    if high > (TRIFOLIATES_REFUSE if key == "trifoliates" else NODES_REFUSE) or high <= low:
        return False
    plants = put(ctx, key, low, span)
    choices: list[tuple[str, dict[str, Any]]] = [(f"{n}", {key: n}) for n in range(low, min(high, low + 3) + 1)]
    _ask_value(ctx, plants, "4.2", span, key, f"Has {_of(plants)} {low} or {high} {key}?", choices)
    return True


def trif(ctx: Context, ph: Phrase, span: Span) -> bool:
    nums = numbers_of(ph)
    f = ph.form
    if f == "trif_dec":
        value = float(next(e.means for _, e in ph.path if e.kind in {"DEC", "FRAC"}))
        low = int(value)
        if low > TRIFOLIATES_REFUSE:
            return False
        plants = put(ctx, "trifoliates", low, span)
        _ask_value(
            ctx,
            plants,
            "4.8",
            span,
            "trifoliates",
            f"{value:g} trifoliates on {_of(plants)}: is the one that is part open to be counted?",
            [(f"no: {low}", {"trifoliates": low}), (f"yes: {low + 1}", {"trifoliates": low + 1})],
        )
        return True
    if f in {"trif_list", "trif_more"}:
        pieces = ctx.lattice.pieces
        if ph.start > 1 and pieces[ph.start - 1].text == "," and pieces[ph.start - 2].form == "int":
            return False  # the first of them was not read
        return in_order(ctx, "trifoliates", nums, span)
    if f in {"trif_n", "trif_nr", "trif_q", "open_n"}:
        return count(ctx, "trifoliates", nums[0], span) is not None
    if f == "trif_zero":
        put(ctx, "trifoliates", 0, span)
    elif f in {"trif_ord", "trif_ord_bare"}:
        return count(ctx, "trifoliates", nums[0], span) is not None
    elif f in {"trif_range", "trif_maybe"}:
        a, b = _low_and_high(ph, nums)
        return between(ctx, "trifoliates", a, b, span)
    elif f == "trif_almost_n":
        plants = put(ctx, "trifoliates", nums[0], span)
        _ask_value(
            ctx,
            plants,
            "4.8",
            span,
            "trifoliates",
            f"Is the trifoliate of {_of(plants)} that is almost open to be counted?",
            [(f"no: {nums[0] - 1}", {"trifoliates": nums[0] - 1}), (f"yes: {nums[0]}", {"trifoliates": nums[0]})],
            1,
        )
    elif f == "trif_scars_in":
        return count(ctx, "trifoliates", nums[0], span) is not None
    return True


def relative(ctx: Context, ph: Phrase, span: Span, than: PlantDraft | None = None) -> bool:
    """`plant three, one more than that`: a count told by that of the plant before, or of the plant that is named."""
    here, visit = ctx.plants, ctx.visit
    if len(here) != 1 or visit is None or ctx.group is not None or not ctx.explicit:
        return False
    earlier = [than] if than is not None else [p for p in visit.plants if p is not here[0] and not p.dropped]
    key = next((x for x in ("trifoliates", "nodes") if earlier and earlier[-1].last(x)), None)
    own = here[0].last(key) if key is not None else None
    if key is None or (own is not None and not own.copied):
        return False
    if key == "nodes" and edges_of(ph, "TRIF", "TRIPS"):
        return False
    last = own or earlier[-1].last(key)  # same less one trif
    n = (numbers_of(ph) or [1])[0] * (1 if ph.form == "one_more" else -1)
    if last is None or not isinstance(last.value, int) or last.value + n < 0:
        return False
    return count(ctx, key, last.value + n, span) is not None


def scars(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ph.form
    plants = ctx.plants
    last = plants[-1].last("trifoliates") if plants else None
    if f == "scar_one":
        if last is None or not _right_behind(ctx, ph, last.span):
            return False
        if any(p.text in {"scars", "stubs"} for p in ctx.lattice.pieces[ph.start : ph.end]):
            f = "leaves_off"  # 7 trifs, scars below: how many is not said
    if f in {"scar_n", "scar_one"}:
        if last is None:
            return False
        n = (numbers_of(ph) or [1])[0]
        total = last.value + n
        if total > TRIFOLIATES_REFUSE:
            return False
        for p in plants:
            e = p.last("trifoliates")
            if e:
                e.value = e.value + n
                e.span = e.span.cover(span)
        ctx.asks = [
            a for a in ctx.asks if not (a.plant in plants and a.key == "trifoliates" and _OF_THE_SCARS in a.text)
        ]
        return True
    if f == "leaves_off":
        if last is None:
            return False
        if _scars_told(ctx, ph, last.span):
            return True  # 5 trifs and 3 scars where lower leaves dropped
        whole = last.span.cover(span)
        n = last.value
        ctx.ask(
            Ask(
                "4.8",
                whole,
                f"Do the {n} trifoliates of {_of(plants)} include {_OF_THE_SCARS}?",
                [(f"yes: {n}", {"trifoliates": n}), ("no: add the scars", {"trifoliates": None})],
                plants[-1],
                0,
                "trifoliates",
                always=True,
                also=tuple(plants[:-1]),
            )
        )
        return True
    return last is not None  # counting the scars


_OF_THE_SCARS = "the lower leaves that have dropped (count their scars)"


def _scars_told(ctx: Context, ph: Phrase, counted: Span) -> bool:
    """The count before takes the scars in: no leaf is left over that could be asked about."""
    i = ph.start
    while i and ctx.lattice.pieces[i - 1].span.start >= counted.start:
        i -= 1
        if ctx.lattice.pieces[i].span.end <= counted.end and any(e.kind == "SCAR" for e in ctx.lattice.edges[i]):
            return True
    return False


_TO_A_SCAR = _LISTED.words("to_a_scar")


def _right_behind(ctx: Context, ph: Phrase, counted: Span) -> bool:
    """`7 trifs and a scar below`: right behind the count."""
    pieces, i = ctx.lattice.pieces, ph.start
    while i and pieces[i - 1].span.start >= counted.end and pieces[i - 1].text in _TO_A_SCAR:
        i -= 1
    return not i or pieces[i - 1].span.start < counted.end


def _said_rolled(plants: list[PlantDraft]) -> bool:
    """The top leaf is said to be rolled, and the count stands after it: saying it again changes nothing."""
    leaf, count_ = plants[-1].last("top_leaf"), plants[-1].last("trifoliates")
    return leaf is not None and leaf.value == "rolled" and count_ is not None and count_.span.start <= leaf.span.start


def _ask_of_the_rolled(ctx: Context, plants: list[PlantDraft], n: int, whole: Span, which: str) -> None:
    """Whether a count includes the leaf that is still rolled (guide 4.8); the lower count is taken."""
    if n < 1:
        return  # none, and the first still rolled
    for p in plants:
        e = p.last("trifoliates")
        if e:
            e.value = n - 1
    ctx.ask(
        Ask(
            "4.8",
            whole,
            f"Do the {n} trifoliates of {_of(plants)} include {which}?",
            [
                (f"yes: {n - 1} are unrolled", {"trifoliates": n - 1}),
                (f"no: {n} are unrolled", {"trifoliates": n}),
            ],
            plants[-1],
            0,
            "trifoliates",
            habit="rolled_tip",
            habits=("counted", "not-counted"),
            also=tuple(plants[:-1]),
        )
    )


def topleaf(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ph.form
    if f in {"n_plus_rolled", "n_with_rolled"}:  # 5 trifs plus one rolled; 6 tf incl the rolled one
        n = numbers_of(ph)[0] - (f == "n_with_rolled")
        if count(ctx, "trifoliates", n, span) is None:
            return False
        put(ctx, "top_leaf", "rolled", span)
        return True
    plants = ctx.plants or (ctx.need_plants(span) if f.startswith("ord_") else [])
    if not plants:
        return False
    last = plants[-1].last("trifoliates")
    corr = bool(edges_of(ph, "NEXT", "ANOTHER", "MORE"))
    if f == "top_open" or f == "ord_open":
        which = numbers_of(ph)
        if f == "ord_open" and which and (last is None or which[0] >= last.value):
            return count(ctx, "trifoliates", which[0], span) is not None
        put(ctx, "top_leaf", "unrolled", span)
    elif f == "top_rolled":
        again = _said_rolled(plants)
        put(ctx, "top_leaf", "rolled", span)
        if last is not None and not corr and not again:
            _ask_of_the_rolled(ctx, plants, last.value, last.span.cover(span), "the top leaf that is still rolled")
    elif f == "plus_rolled":
        put(ctx, "top_leaf", "rolled", span)
    elif f == "ord_rolled":
        n = numbers_of(ph)[0]
        again = _said_rolled(plants)
        put(ctx, "top_leaf", "rolled", span)
        if last is None:
            count(ctx, "trifoliates", n - 1, span)
        elif last.value == n and not again:
            _ask_of_the_rolled(ctx, plants, n, last.span.cover(span), f"number {n}, which is still rolled")
        elif last.value < n - 1:
            ctx.ask(
                Ask(
                    "4.8",
                    last.span.cover(span),
                    f"How many trifoliates of {_of(plants)} are unrolled: {last.value} or {n - 1}?",
                    [(f"{last.value}", {"trifoliates": last.value}), (f"{n - 1}", {"trifoliates": n - 1})],
                    plants[-1],
                    0,
                    "trifoliates",
                    also=tuple(plants[:-1]),
                )
            )
    elif f in {"top_almost", "ord_almost"}:
        put(ctx, "top_leaf", "rolled", span)
        base = last.value if last else None
        nums = numbers_of(ph)
        if base is None and nums:
            base = nums[0] - 1
            count(ctx, "trifoliates", base, span)
        if base is None:
            return True
        low, high = base, base + 1
        if f == "top_almost" and not corr and base > 0:  # none, and the first is unrolling: it may be one
            low, high = base - 1, base
            for p in plants:
                e = p.last("trifoliates")
                if e:
                    e.value = low
        elif nums:
            low, high = nums[0] - 1, nums[0]
        whole = last.span.cover(span) if last else span
        ctx.ask(
            Ask(
                "4.8",
                whole,
                f"Is the leaf of {_of(plants)} that is almost open to be counted?",
                [
                    (f"no: {low} are unrolled", {"trifoliates": low, "top_leaf": "rolled"}),
                    (f"yes: {high} are unrolled", {"trifoliates": high, "top_leaf": "unrolled"}),
                ],
                plants[-1],
                0,
                "trifoliates",
                also=tuple(plants[:-1]),
            )
        )
    return True


def in_order(ctx: Context, key: str, nums: list[int], span: Span) -> bool:
    """Values listed in the order of the plants: `plants 1 thru 5 ..., trifs 11 11 12 10 11` (guide 4.21)."""
    refuse = TRIFOLIATES_REFUSE if key == "trifoliates" else NODES_REFUSE
    if any(n > refuse for n in nums):
        return False
    plants = (
        ctx.plants
        if len(ctx.plants) == len(nums)
        else [p for p in ctx.here().plants if not p.dropped and p.stop == ctx.stop]
    )
    if not plants or (len(plants) != len(nums) and not ctx.explicit and all(key in p.facts for p in plants)):
        plants = ctx.begin([str(i + 1) for i in range(len(nums))], span, named=False)
    if len(plants) != len(nums):
        return False
    pairs = [(p, p.put(key, n, span)) for p, n in zip(plants, nums, strict=True)]

    def undo() -> None:
        for p, e in pairs:
            _drop(p, key, e)

    ctx.said(key, span, undo)
    return True


def nodes(ctx: Context, ph: Phrase, span: Span) -> bool:
    nums = numbers_of(ph)
    if ph.form in {"nodes_list", "nodes_more"}:
        return in_order(ctx, "nodes", nums, span)
    if ph.form in {"nodes_range", "nodes_maybe"}:
        a, b = _low_and_high(ph, nums)
        return between(ctx, "nodes", a, b, span)
    return count(ctx, "nodes", nums[0], span) is not None


def _rolled_behind(ctx: Context, ph: Phrase) -> int:
    """Where a word for shut leaves ends that stands a few words behind, in the same clause; 0 where there is none."""
    pieces = ctx.lattice.pieces
    for i in range(ph.end, min(ph.end + 6, len(pieces))):
        if pieces[i].form in {"mark", "nl"} or any(e.kind in {"PLANT", "TRIF"} for e in ctx.lattice.edges[i]):
            return 0
        shut = [e.end for e in ctx.lattice.edges[i] if e.kind == "ROLLED" and e.how == "exact"]
        if shut:
            return max(shut)
    return 0


def emergence(ctx: Context, ph: Phrase, span: Span) -> bool:
    f = ph.form
    if f == "up" and not ctx.plants and ctx.tally is None:
        return False
    if f in {"cot_up", "up"}:
        put(ctx, "emerged", True, span)
    elif f == "not_up":
        put(ctx, "emerged", False, span)
    elif f == "uni_bare" and (shut := _rolled_behind(ctx, ph)):
        put(ctx, "unifoliates", "rolled", span)
        ctx.mark(ph.end, shut, EVIDENCE)  # unis above em are still folded
    elif f in {"uni_open", "uni_bare"}:
        put(ctx, "unifoliates", "unrolled", span)
    elif f == "uni_rolled":
        put(ctx, "unifoliates", "rolled", span)
    elif f == "uni_almost":
        plants = put(ctx, "unifoliates", "rolled", span)
        _ask_value(
            ctx,
            plants,
            "4.8",
            span,
            "unifoliates",
            f"Are the unifoliates of {_of(plants)} open?",
            [("no, still rolled", {"unifoliates": "rolled"}), ("yes, open", {"unifoliates": "unrolled"})],
        )
    return True


def average(ctx: Context, ph: Phrase, span: Span) -> bool:
    """`averaging 9 trifs`, `most have 7 or 8`: a field statement of V (guide 4.7)."""
    nums = numbers_of(ph)
    if not nums or nums[0] > TRIFOLIATES_REFUSE:
        return False
    shift = {"open-trifoliates": 0, "open-nodes": 1, "developed-trifoliates": -1}[ctx.counting_rule]
    is_nodes = ph.rule == "nodes"
    codes = [f"V{n + shift - (1 if is_nodes else 0)}" for n in nums[:2]]
    value: Any = (
        codes[0]
        if len(codes) == 1 or ph.form not in {"trif_range", "nodes_range", "trif_maybe", "nodes_maybe"}
        else (codes[0], codes[1])
    )
    stated = StatedDraft("v", value, span, average=True)
    visit = ctx.here()
    visit.stated.append(stated)
    ctx.said("stated_v", span, lambda: visit.stated.remove(stated) if stated in visit.stated else None)
    return True
