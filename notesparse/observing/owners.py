"""Plants named behind what is said of them: `no flowers on plants A and B`, `14 trifoliates on number one` (guide
4.7)."""

from __future__ import annotations

from dataclasses import dataclass

from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import Context

_BEFORE = {"on", "for", "of"}
_JOIN = {",", "and", "&", "+", "or"}
_RUN = {"-", "–", "thru", "through", "to"}
_AS_LABEL = {"INT", "LETTER"}


@dataclass(frozen=True, slots=True)
class Owners:
    """The plants named at pieces [start, end), which are the owners of what stands before."""

    start: int
    end: int
    plants: list[PlantDraft]


_AFTER = {"only", "too", "just", "alone", "either", "also", "tho", "though", "yet", "so", "far"}


def _label(ctx: Context, i: int) -> tuple[str, int] | None:
    if i + 1 < len(ctx.lattice.pieces) and any(e.kind in {"HASH", "PLANT", "PLETTER"} for e in ctx.lattice.edges[i]):
        i += 1  # #2 & #5
    if i >= len(ctx.lattice.pieces):
        return None
    edges = [e for e in ctx.lattice.edges[i] if e.kind == "INT"]
    if edges:
        e = max(edges, key=lambda e: e.end)
        return str(e.means), e.end
    p = ctx.lattice.pieces[i]
    if p.form == "word" and len(p.text) == 1 and p.text.isalpha():
        return ctx.lattice.original(i, i + 1), i + 1
    return None


def _ends(ctx: Context, i: int) -> bool:
    while i < len(ctx.lattice.pieces) and ctx.lattice.pieces[i].text in _AFTER:
        i += 1  # flowers on 1 and 4 only
    if i >= len(ctx.lattice.pieces):
        return True
    p = ctx.lattice.pieces[i]
    if p.form == "mark" and p.text in ".,":  # no point or comma of a number
        return i + 1 >= len(ctx.lattice.pieces) or not ctx.lattice.pieces[i + 1].glued
    return p.form == "nl" or (p.form == "mark" and p.text in ";!?)")


def _listed(ctx: Context, i: int) -> list[tuple[list[str], int]]:
    """The lists of labels that begin at piece i, each with its end."""
    first = _label(ctx, i)
    if first is None:
        return []
    labels, at = [first[0]], first[1]
    out = [(labels[:], at)]
    pieces = ctx.lattice.pieces
    while at < len(pieces) and (pieces[at].text in _JOIN | _RUN or pieces[at].form == "int"):
        run = pieces[at].text in _RUN
        at += pieces[at].form != "int"  # blooms on 1 3 5
        while at < len(pieces) and pieces[at].text in _JOIN and not run:
            at += 1
        nxt = _label(ctx, at)
        if nxt is None:
            break
        if run and labels[-1].isdigit() and nxt[0].isdigit() and 0 < int(nxt[0]) - int(labels[-1]) < 60:
            labels += [str(n) for n in range(int(labels[-1]) + 1, int(nxt[0]))]
        labels.append(nxt[0])
        at = nxt[1]
        out.append((labels[:], at))
    return out


def _one_only(ctx: Context, start: int, on: int, end: int) -> bool:
    """`flowers on 3 only`, a sentence of its own: one plant, and no node."""
    pieces = ctx.lattice.pieces
    alone = start == 0 or pieces[start - 1].form == "nl" or pieces[start - 1].text == "."
    return pieces[on].text == "on" and (alone or (end < len(pieces) and pieces[end].text in {"only", "alone"}))


def ahead(ctx: Context, start: int) -> Owners | None:
    """The plants named at the end of the clause whose first word stands at piece `start`."""
    visit = ctx.visit
    if visit is None or not visit.plants:
        return None
    pieces = ctx.lattice.pieces
    known = {p.label.lower(): p for p in visit.plants if not p.dropped}
    for i in range(start, min(start + 16, len(pieces))):
        if _ends(ctx, i):
            return None
        if pieces[i].text not in _BEFORE:
            continue
        at = i + 1
        said = False  # that these are plants
        while at < len(pieces) and (
            any(e.kind in {"PLANT", "NUMBERW", "HASH"} for e in ctx.lattice.edges[at])
            or pieces[at].text in {"the", "both"}
        ):
            said = said or pieces[at].text != "the"
            at += 1
        for labels, end in reversed(_listed(ctx, at)):
            if not _ends(ctx, end) or not (
                said or (len(known) > 1 and (len(labels) > 1 or _one_only(ctx, start, i, end)))
            ):
                continue
            if all(label.lower() in known for label in labels):
                return Owners(i, end, [known[label.lower()] for label in labels])
    return None
