"""A word of denial or doubt that nobody could read, beside flowers, pods, seed or a share that were read as there.

`flowers I did not see`, `nearly every pod brown`, `no flowers above node 6`: what was read is recorded, and asked about
(guide 2.3).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from notesparse.language.cues import cue_page
from notesparse.language.lists import name_words
from notesparse.observing.draft import Ask, PlantDraft, TallyDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, EXCEPT, HEADS, OF_NO_HEAD, UNREAD, Context
from notesparse.observing.settling.questions import Choices, asked
from notesparse.span import Span

_LISTED = cue_page("observing/unturned")
_COMMON = cue_page("shared")

_NO = frozenset({"NO", "NOT", "NONE"})
_PUT_RIGHT = "make wait sorry scratch strike correction hang hold i that's"  # no, make that 12
_OF_TALK = "let let's worry forget mind care"  # don't let that fool you
_OF_A_PLACE = "above higher else more other longer bigger larger past beyond further lower low below"
_OF_HOW_MANY = "many much just only counting sure bad"  # not many
_OF_THE_WAY = "get go drive reach cross park"  # can't get in
_NO_SUCH = frozenset(f"{_PUT_RIGHT} {_OF_TALK} {_OF_A_PLACE} {_OF_HOW_MANY} {_OF_THE_WAY}".split())
"""Words behind which the no is one of something else."""
_NEAR = 5  # words between the two
_HARDLY = _COMMON.words("hardly")
_NEARLY = _HARDLY | _LISTED.words("nearly")
_BEYOND = _LISTED.words("beyond")
_ENDS = frozenset({",", ";", ".", "!", "?", "(", ")", "|"})


def ask(ctx: Context) -> None:
    """Asks of all that has such a word beside it."""
    for visit in ctx.visits:
        for plant in visit.plants:
            for doubt, said, key, text, choices in (*_organs(ctx, plant), *_ripe_pods(ctx, plant)):
                if not asked(ctx, plant, key):
                    ctx.ask(Ask("2.3", doubt.cover(said), text, choices, plant, 0, key, always=True, visit=visit))
        for t in visit.tallies:
            _share(ctx, visit, t)


_Doubt = tuple[Span, Span, str, str, Choices]  # the word, what it stands beside, the key, the question, its choices


def _organs(ctx: Context, plant: PlantDraft) -> Iterator[_Doubt]:
    for s in plant.sightings:
        if s.what not in HEADS or s.present is None:
            continue
        none: dict[str, Any] = {s.what: False, f"{s.what}_from_top": None}
        if s.present and (answer := _answer(ctx, s.span)) is not None:
            text = f"“{_said(ctx, answer)}” is no answer that is understood. Has plant {plant.label} {s.what}?"
            yield answer, s.span, s.what, text, [("yes", {s.what: True}), ("no", none)]
        elif s.present and (no := _no_beside(ctx, s.span) or _hardly(ctx, s.span)) is not None:
            text = f"“{_said(ctx, no)}” stands beside the {s.what} of plant {plant.label}. Are there {s.what}?"
            yield no, s.span, s.what, text, [("yes", {s.what: True}), ("no", none)]
        elif s.present and not s.copied and (doubt := _may_be(ctx, s.span) or _asks_itself(ctx, s.span)) is not None:
            text = f"“{_said(ctx, doubt)}” stands beside the {s.what} of plant {plant.label}. Are there {s.what}?"
            yield doubt, s.span, s.what, text, [("yes", {s.what: True}), ("no", none)]
        elif not s.present and (no := _no_beside(ctx, s.span, before=True)) is not None:
            text = f"“{_said(ctx, no)}” stands before no {s.what} on plant {plant.label}. Are there {s.what}?"
            yield no, s.span, s.what, text, [("no", {s.what: False}), ("yes", {s.what: True})]
        elif not s.present and (place := _beyond(ctx, s.span)) is not None:
            text = f"No {s.what} “{_said(ctx, place)}” a place: has plant {plant.label} none at all?"
            yield place, s.span, s.what, text, [("none at all", {s.what: False}), ("not known", {s.what: None})]


_MAY = _LISTED.words("may")
_BE = _LISTED.words("be")
_PERHAPS = _LISTED.words("perhaps")
_SMALL = _LISTED.words("small")


def _may_be(ctx: Context, span: Span) -> Span | None:
    """`could be a pod at the top node`, `might be in bloom`, `possibly a flower`: the words of doubt before it."""
    at = ctx.lattice.at
    first = _bounds(ctx, span)[0]
    i = first - 1
    while i >= 0 and at(i) in _SMALL:
        i -= 1
    last = i
    while i >= 0 and at(i) in _BE:
        i -= 1
    maybe = at(i) == "maybe" and at(i + 1) in {"a", "an"}
    if i >= 0 and (maybe or at(i) in _PERHAPS or (at(i) in _MAY and i < last)):
        return ctx.span(i, last + 1)
    return None


def _asks_itself(ctx: Context, span: Span) -> Span | None:
    """`flower at the top node?` at the end of what is told of the plant: the question mark, where no answer follows."""
    pieces = ctx.lattice.pieces
    last = _bounds(ctx, span)[1]
    if last >= len(pieces) or pieces[last].text != "?":
        return None
    behind = pieces[last + 1] if last + 1 < len(pieces) else None
    return ctx.span(last, last + 1) if behind is None or behind.form == "nl" else None


def _ripe_pods(ctx: Context, plant: PlantDraft) -> Iterator[_Doubt]:
    for key in ("mature_pods", "mature_pods_percent"):
        entry = plant.last(key)
        if entry is None or entry.value in {"none", 0}:
            continue
        doubt = _no_beside(ctx, entry.span) or _beside(ctx, entry.span, _NEARLY if entry.value == 100 else _HARDLY)
        if doubt is None:
            continue
        ripe = f"Are {entry.value:g} percent" if isinstance(entry.value, (int, float)) else "Is at least one"
        text = f"“{_said(ctx, doubt)}” stands beside the ripe pods of plant {plant.label}. {ripe} of them ripe?"
        yield doubt, entry.span, key, text, [("yes", {key: entry.value}), ("not known", {key: None})]


_SURELY = _LISTED.words("surely")


def _answer(ctx: Context, span: Span) -> Span | None:
    """`bloom? scant`, `Pods? hard to say`, `Pods? too wet to look`: the words behind the question, where nobody could
    read them or they are about something else."""
    pieces, at = ctx.lattice.pieces, ctx.lattice.at
    first = _bounds(ctx, span)[1] + 1
    if first >= len(pieces) or pieces[first - 1].text != "?" or pieces[first].form != "word" or at(first) in _SURELY:
        return None
    end = first
    while end < len(pieces) and pieces[end].form not in {"mark", "nl"}:
        end += 1
    unread = [ctx.use[k] in {UNREAD, "weak"} for k in range(first, end)]
    nothing = any(unread) and EVIDENCE not in ctx.use[first:end]
    return ctx.span(first, end) if nothing or unread[0] or at(first) == "too" else None


def _share(ctx: Context, visit: VisitDraft, t: TallyDraft) -> None:
    """`8 of 10 blooming`, with a no beside it: so many have, or so many have not."""
    _or_so_many(ctx, visit, t)
    no = None if t.negative else _no_beside(ctx, t.span) or _except_beside(ctx, t.span)
    if no is None or not (t.count or t.percent) or not _said(ctx, no).isascii():
        return  # a picture behind a share is what the scout thinks of it
    choices: Choices
    if t.count is not None and t.of is not None:
        have, not_have = f"{t.count:g} of {t.of:g}", f"{t.of - t.count:g} of {t.of:g}"
        choices = [(f"{have} have", {"tally": have}), (f"{not_have} have", {"tally": not_have})]
    elif t.count is None and t.percent is not None:
        left = 100 - t.percent
        choices = [
            (f"{t.percent:g} percent have", {"percent": t.percent}),
            (f"{left:g} percent have", {"percent": left}),
        ]
    else:
        return
    text = f"“{_said(ctx, no)}” stands beside this share. How many have it?"
    ctx.ask(Ask("2.3", no.cover(t.span), text, choices, None, 0, "tally", always=True, visit=visit))


def _or_so_many(ctx: Context, visit: VisitDraft, t: TallyDraft) -> None:
    """`four or five out of ten`: which of the two."""
    first, _ = _bounds(ctx, t.span)
    if t.count is None or not t.of or first < 2 or ctx.lattice.at(first - 1) != "or":
        return
    other = next((int(e.means) for e in ctx.lattice.edges[first - 2] if e.kind == "INT" and e.end == first - 1), None)
    if other is None or other == t.count:
        return
    span = ctx.span(first - 2, first).cover(t.span)
    have = [f"{n:g} of {t.of:g}" for n in (other, t.count)]
    ctx.ask(
        Ask(
            "4.16",
            span,
            f"How many of the plants: {have[0]}, or {have[1]}?",
            [(x, {"tally": x}) for x in have],
            None,
            1,
            "tally",
            visit=visit,
        )
    )


def _said(ctx: Context, span: Span) -> str:
    return " ".join(span.of(ctx.lattice.text).split())


def _bounds(ctx: Context, span: Span) -> tuple[int, int]:
    """The pieces [first, last) that begin inside a span."""
    first = ctx.lattice.first_from(span.start)
    return first, max(first, ctx.lattice.first_from(span.end))


def _except_beside(ctx: Context, span: Span) -> Span | None:
    """The unread `except` within a few words behind `span`, in the same sentence: `none of the 8 except the one by the
    road`."""
    pieces = ctx.lattice.pieces
    _, last = _bounds(ctx, span)
    for i in range(last, min(len(pieces), last + 1 + _NEAR)):
        if pieces[i].form == "nl" or pieces[i].text in {".", ";", "!", "?"}:
            return None
        if ctx.use[i] == UNREAD and pieces[i].text in EXCEPT - {"but", "save"}:
            return ctx.span(i, i + 1)
    return None


def _no_beside(ctx: Context, span: Span, *, before: bool = False) -> Span | None:
    """The unread no within a few words of `span`, in the same clause; `before`: before it alone."""
    pieces = ctx.lattice.pieces
    first, last = _bounds(ctx, span)
    behind = range(0) if before else range(last, min(len(pieces), last + 1 + _NEAR))
    hummed = 2 * sum(_beside_a_hum(ctx, i) for i in range(max(0, first - _NEAR), first))
    for way in (range(first - 1, max(-1, first - 2 - _NEAR - hummed), -1), behind):
        for i in way:
            if pieces[i].form == "nl" or (pieces[i].text in _ENDS and not _beside_a_hum(ctx, i)):
                break
            no = (
                ctx.use[i] == UNREAD
                and ctx.why.get(i) != OF_NO_HEAD
                and any(e.kind in _NO and e.how == "exact" for e in ctx.lattice.edges[i])
            )
            if no and i >= last and _of_somebody(ctx, last, i):
                continue
            if no and not (i + 1 < len(pieces) and (pieces[i + 1].text in _NO_SUCH or _of_a_stage(ctx, i))):
                return ctx.span(i, i + 1)
    return None


_OUR = _COMMON.words("our")
_OF_A_PLANT = frozenset(
    "FLOWER BUD POD SEED BEAN PLANT PLANTSND NODE NODES TRIF TOP LAST ONE ORD INT OTHERS LEAF".split()
)


def _of_somebody(ctx: Context, last: int, never: int) -> bool:
    """`bloom at the top node and the pump crew never showed up`: the never has a subject of its own, that is no part of a
    plant; what is told ends before piece `last`."""
    at, edges = ctx.lattice.at, ctx.lattice.edges
    if at(never) != "never" or at(last) not in {"and", "but"} or at(last + 1) not in _OUR or never < last + 3:
        return False
    return not any(e.kind in _OF_A_PLANT and e.how != "sound" for x in range(last + 2, never) for e in edges[x])


def _of_a_stage(ctx: Context, i: int) -> bool:
    """`pods half an inch so R3 not R4`: the no at piece i stands between two stages."""
    stages, edges = {"R", "V", "STAGENAME"}, ctx.lattice.edges
    joint = i - (ctx.lattice.at(i - 1) in {"and", "but", ","})
    near = (e for x in range(max(0, joint - 2), joint) for e in edges[x])
    before = any(e.kind in stages and e.how == "exact" for e in near)
    return before and any(e.kind in stages and e.how == "exact" for e in edges[i + 1])


def _beside_a_hum(ctx: Context, i: int) -> bool:
    """The comma of `didn't see, uh, any blooms`: it parts nothing."""
    return ctx.lattice.at(i) == "," and bool({ctx.lattice.at(i - 1), ctx.lattice.at(i + 1)} & name_words().hums)


def _beside(ctx: Context, span: Span, words: frozenset[str]) -> Span | None:
    """One of `words` in `span`, or up to two words before it."""
    first, last = _bounds(ctx, span)
    at = next((i for i in range(max(0, first - 2), last) if ctx.lattice.pieces[i].text in words), None)
    return None if at is None else ctx.span(at, at + 1)


_SCARCELY = frozenset({"hardly", "scarcely"})  # barely a bloom is a bloom


def _hardly(ctx: Context, span: Span) -> Span | None:
    """`hardly flowering`, `pods, scarcely`: right before the word, or behind it at the end of what is said."""
    behind = _bounds(ctx, span)[1]
    behind += ctx.lattice.at(behind) == ","
    ends = behind + 1 >= len(ctx.lattice.pieces) or ctx.lattice.pieces[behind + 1].form in {"mark", "nl"}
    if ends and ctx.lattice.at(behind) in _SCARCELY:
        return ctx.span(behind, behind + 1)
    return _beside(ctx, span, _SCARCELY)


def _beyond(ctx: Context, span: Span) -> Span | None:
    """An unread `above`, `below` in `span` or right behind it."""
    pieces = ctx.lattice.pieces
    first, last = _bounds(ctx, span)
    near = range(first, min(last + 1, len(pieces)))
    at = next((i for i in near if pieces[i].text in _BEYOND and ctx.use[i] == UNREAD), None)
    return None if at is None else ctx.span(at, at + 1)
