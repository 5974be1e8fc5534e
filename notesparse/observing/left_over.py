"""Words of the trade that nobody could read, in the sentence of a plant: what was read of it may not be all.

`plant 3 like 2 with one more trif`, `five trifs, hail took the two below them, scars still there`: the count is
recorded, and asked about (guide 1.4).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from typing import Any

from notesparse.language.cues import cue_page
from notesparse.observing.account import LOOSE
from notesparse.observing.draft import Ask, PlantDraft, VisitDraft
from notesparse.observing.fold import EVIDENCE, NOTHING_TO_TURN, OF_THE_UNREAD, UNREAD, Context
from notesparse.observing.settling.questions import Choices, asked
from notesparse.span import Span

_LISTED = cue_page("observing/left_over")

_KEYS = {
    "TRIF": "trifoliates",
    "NODE": "trifoliates",
    "NODES": "trifoliates",
    "SCAR": "trifoliates",
    "FLOWER": "flowers",
    "POD": "pods",
    "SEED": "seeds",
}
_OUT_OF_PLACE = LOOSE | {"", NOTHING_TO_TURN}
_COUNTS = frozenset({"INT", "NO", "NONE", "NOT"})
_DIFFERING = _LISTED.words("differing")
_ENDS = frozenset({".", ";", "!", "?"})


def ask(ctx: Context) -> None:
    """Asks of each plant once."""
    begun = _begun(ctx)
    for first, last in _runs(ctx):
        key = _key(ctx, first, last)
        of = _before(ctx, first, begun) if key is not None else None
        if key is None or of is None:
            continue
        plant, visit = of
        told = _told(plant, key)
        if told is None or asked(ctx, plant, key):
            continue
        value, own = told
        _ask(ctx, plant, visit, key, value, own, ctx.span(first, last))
    for i in _without_their_verb(ctx):
        of = _before(ctx, i, begun)
        last_told = _told_last(of[0], ctx.lattice.pieces[i].span.start) if of is not None else None
        if of is None or last_told is None or asked(ctx, of[0], last_told[0]):
            continue
        key, value, own = last_told
        _ask(ctx, of[0], of[1], key, value, own, ctx.span(i, i + 1))


def _ask(ctx: Context, plant: PlantDraft, visit: VisitDraft, key: str, value: Any, own: Span, span: Span) -> None:
    said = " ".join(span.of(ctx.lattice.text).split())
    has = f"{value} trifoliates" if key == "trifoliates" else f"{'' if value else 'no '}{key}"
    text = f"“{said}” was not understood. Does plant {plant.label} have {has}?"
    choices: Choices = [("yes", {key: value}), ("not known", {key: None})]
    ctx.ask(Ask("1.4", own.cover(span), text, choices, plant, 0, key, always=True, visit=visit))


_VERBS = _LISTED.words("verbs")
_AFTER = _LISTED.words("after")


def _without_their_verb(ctx: Context) -> Iterator[int]:
    """`the pod on the node below that does, about an eighth`: a verb that stands for what was said before."""
    pieces = ctx.lattice.pieces
    for i, p in enumerate(pieces):
        ends = i + 1 >= len(pieces) or pieces[i + 1].form == "nl" or pieces[i + 1].text in _AFTER
        again = ctx.why.get(i) == OF_THE_UNREAD  # do., of a cell that cannot be read
        if p.text in _VERBS and ends and ctx.use[i] != EVIDENCE and not again:
            yield i


def _told_last(plant: PlantDraft, at: int) -> tuple[str, Any, Span] | None:
    """What was told of the plant last before character `at`: under which key, its value and its words."""
    seen = [(s.span, s.what, s.present) for s in plant.sightings if s.span.end <= at and s.present is not None]
    told = [(es[-1].span, key, es[-1].value) for key, es in plant.facts.items() if es and es[-1].span.end <= at]
    last = max([*seen, *(x for x in told if x[1] == "trifoliates")], key=lambda x: x[0].end, default=None)
    return (last[1], last[2], last[0]) if last is not None else None


def _told(plant: PlantDraft, key: str) -> tuple[Any, Span] | None:
    """What was read of the plant under a key, and its words."""
    entry = plant.last(key)
    if entry is not None:
        return entry.value, entry.span
    seen = [s for s in plant.sightings if s.what == key and s.present is not None]
    return (seen[-1].present, seen[-1].span) if seen else None


def _runs(ctx: Context) -> Iterator[tuple[int, int]]:
    """Stretches of unread words in one sentence."""
    pieces = ctx.lattice.pieces
    i = 0
    while i < len(pieces):
        if ctx.use[i] not in {UNREAD, "weak"} or pieces[i].form in {"nl", "mark"}:
            i += 1
            continue
        j = i
        while j < len(pieces) and ctx.use[j] != EVIDENCE and pieces[j].form != "nl" and pieces[j].text not in _ENDS:
            j += 1
        yield i, j
        i = j


def _key(ctx: Context, first: int, last: int) -> str | None:
    why = {ctx.why.get(i, "") for i in range(first, last)}
    kinds = [{e.kind for e in ctx.lattice.edges[i] if e.how == "exact" and e.end <= last} for i in range(first, last)]
    scars = any("SCAR" in k for k in kinds)  # hail took the two below them, scars still there
    if not scars and not why <= _OUT_OF_PLACE:
        return None
    texts = {ctx.lattice.pieces[i].text for i in range(first, last)}
    if not (scars or any(k & _COUNTS for k in kinds) or texts & _DIFFERING):
        return None
    return next((_KEYS[kind] for k in kinds for kind in sorted(k) if kind in _KEYS), None)


def _begun(ctx: Context) -> list[tuple[int, PlantDraft, VisitDraft]]:
    """Where labels and facts of plants begin, in order."""
    found = [
        (span.start, plant, visit)
        for visit in ctx.visits
        for plant in visit.plants
        for span in (
            plant.span,
            *(e.span for es in plant.facts.values() for e in es),
            *(s.span for s in plant.sightings),
        )
    ]
    return sorted(found, key=lambda one: one[0])


def _before(
    ctx: Context, at: int, begun: list[tuple[int, PlantDraft, VisitDraft]]
) -> tuple[PlantDraft, VisitDraft] | None:
    """The plant whose label or facts stand last before piece `at` in its sentence."""
    pieces = ctx.lattice.pieces
    k = bisect_left(begun, pieces[at].span.start, key=lambda one: one[0]) - 1
    if k < 0:
        return None
    start, plant, visit = begun[k]
    i = at
    while i and pieces[i - 1].span.start >= start:
        i -= 1
        if pieces[i].form == "nl" or pieces[i].text in _ENDS:
            return None
    return plant, visit
