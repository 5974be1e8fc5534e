"""A value of a list put right by its place: `tf 5 6 5 5, last one 6 not 5`, `the 2nd one should be 7` (guide 4.17)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import EVIDENCE, Context
from notesparse.outcome import Correction

_LISTED = cue_page("observing/listfix")
_COMMON = cue_page("shared")

_KEYS = ("trifoliates", "nodes", "mature_pods_percent")
_SHOULD = _LISTED.words("should")
_HAS = _COMMON.words("being_or_having")
_NOUN = _LISTED.words("noun")


def _number(ctx: Context, i: int) -> tuple[int, int] | None:
    if i >= len(ctx.lattice.pieces):
        return None
    fit = [e for e in ctx.lattice.edges[i] if e.kind == "INT" and e.how == "number"]
    if not fit:
        return None
    e = max(fit, key=lambda e: e.end)
    return int(e.means), e.end


def the_counts(ctx: Context, i: int) -> int | None:
    """`one is the nine and two is the eight`: the counts that were told, each given to its plant; where the words end.
    Nothing where a number is none of those that were told, or a plant is not known."""
    visit, pieces = ctx.visit, ctx.lattice.pieces
    first = _number(ctx, i)
    if first is None or ctx.lattice.at(first[1]) not in _HAS or ctx.lattice.at(first[1] + 1) != "the":
        return None
    live = [p for p in visit.plants if not p.dropped] if visit is not None else []
    told = {e.value: key for p in live for key in _KEYS[:2] if (e := p.last(key)) is not None}
    given: list[tuple[PlantDraft, int, int, int]] = []
    k = i
    while len(live) > 1:
        label = _number(ctx, k)
        plant = next((p for p in live if label is not None and p.label == str(label[0])), None)
        at = label[1] if label is not None else k
        if plant is None or at + 1 >= len(pieces) or pieces[at].text not in _HAS or pieces[at + 1].text != "the":
            break
        value = _number(ctx, at + 2)
        if value is None or value[0] not in told:
            break
        given.append((plant, value[0], k, value[1]))
        k = value[1]
        while k < len(pieces) and pieces[k].text in {",", "and", "&", ";"}:
            k += 1
    if not given:
        return None
    for plant, n, a, b in given:
        key = told[n]
        last = plant.last(key)
        if last is not None and last.value != n:
            ctx.corrected.append(Correction("4.17", last.span, f"{last.value} replaced by {n}"))
            ctx.asks = [x for x in ctx.asks if not (x.plant is plant and x.key == key)]
        plant.facts[key] = []
        plant.put(key, n, ctx.span(a, b))
        ctx.mark(a, b, EVIDENCE)
    return given[-1][3]


_FOR_PUT_RIGHT = _COMMON.words("sorry") | {"*", ",", "make", "the"}
_FOR_PUT_RIGHT_2 = _LISTED.words("for_put_right_2")


def put_right(ctx: Context, i: int) -> int | None:
    """Read such a correction at piece i; its end, or None."""
    visit, pieces = ctx.visit, ctx.lattice.pieces
    live = [p for p in visit.plants if not p.dropped] if visit is not None else []
    if len(live) < 2:
        return None

    def text(k: int) -> str:
        return pieces[k].text if k < len(pieces) else ""

    k = i
    while text(k) in _FOR_PUT_RIGHT:
        k += 1
    target: PlantDraft | None = None
    nth = next((e for e in ctx.lattice.edges[k] if e.kind == "ORD"), None) if k < len(pieces) else None
    if text(k) in {"last", "final"}:
        target, k = live[-1], k + 1
    elif nth is not None and 1 <= nth.means <= len(live):
        target, k = live[int(nth.means) - 1], nth.end
    if target is None:
        return None
    if text(k) in _NOUN:
        k += 1
    sure = False
    while text(k) in _FOR_PUT_RIGHT_2:
        sure = sure or text(k) in _SHOULD | {"really", "actually"}
        k += 1
    got = _number(ctx, k)
    if got is None:
        return None
    value, k = got
    if any(e.kind in {"TRIF", "TRIPS", "NODES", "PCT"} for e in (ctx.lattice.edges[k] if k < len(pieces) else [])):
        k = max(e.end for e in ctx.lattice.edges[k] if e.kind in {"TRIF", "TRIPS", "NODES", "PCT"})
    wrong: int | None = None
    j = k + 1 if text(k) == "," else k
    if text(j) in {"not", "instead"}:
        old = _number(ctx, j + (2 if text(j + 1) == "of" else 1))
        if old is not None:
            wrong, k = old
    if k < len(pieces) and pieces[k].form not in {"nl", "mark"}:
        return None
    for key in _KEYS:
        e = target.last(key)
        if e is not None and ((wrong is not None and e.value == wrong) or (wrong is None and sure)):
            ctx.corrected.append(Correction("4.17", e.span, f"{e.value:g} replaced by {value}"))
            e.value, e.span = float(value) if key == "mature_pods_percent" else value, ctx.span(i, k)
            ctx.mark(i, k, EVIDENCE)
            return k
    return None
