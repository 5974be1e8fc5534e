"""A value of a list put right by its place: `tf 5 6 5 5, last one 6 not 5`, `the 2nd one should be 7` (guide 4.17)."""

from __future__ import annotations

from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import EVIDENCE, Context
from notesparse.outcome import Correction

_KEYS = ("trifoliates", "nodes", "mature_pods_percent")
_SHOULD = {"should", "shoulda", "s/b", "shd", "shld", "shud"}
_NOUN = {"one", "plant", "plt", "1", "number", "value", "figure"}


def _number(ctx: Context, i: int) -> tuple[int, int] | None:
    if i >= len(ctx.lattice.pieces):
        return None
    fit = [e for e in ctx.lattice.edges[i] if e.kind == "INT" and e.how == "number"]
    if not fit:
        return None
    e = max(fit, key=lambda e: e.end)
    return int(e.means), e.end


def put_right(ctx: Context, i: int) -> int | None:
    """Read such a correction at piece i; its end, or None."""
    visit, pieces = ctx.visit, ctx.lattice.pieces
    live = [p for p in visit.plants if not p.dropped] if visit is not None else []
    if len(live) < 2:
        return None

    def text(k: int) -> str:
        return pieces[k].text if k < len(pieces) else ""

    k = i
    while text(k) in {"the", "make", "*", "oops", "sorry", "correction", "wait", ","}:
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
    while text(k) in {
        "is",
        "was",
        "a",
        "=",
        ":",
        "should",
        "be",
        "shd",
        "shld",
        "shud",
        "to",
        "really",
        "actually",
        "have",
        "been",
        "as",
    }:
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
