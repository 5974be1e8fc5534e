"""Tokens to phrases: walk the acceptor over the lattice from every piece, then choose the segmentation by named
reasons.

Bounded: from one piece at most `REACH` pieces and `FRONTIER` states are followed, so the work grows with the length of
the note and no faster.
"""

from __future__ import annotations

from notesparse.language.cache import known_phrases
from notesparse.language.cues import cue_page
from notesparse.language.unroll import Step
from notesparse.lazy import dataclass
from notesparse.reading.misfits import misfits
from notesparse.reading.phrase import Phrase
from notesparse.reading.values import holds
from notesparse.reading.weights import WIDE_GAP, phrase_cost, skip_cost
from notesparse.text.lattice import Edge, Lattice

_LISTED = cue_page("reading/parse")

REACH = 22
FRONTIER = 48


_TOGETHER = frozenset(
    {"INT", "FRAC", "DEC", "PLANT", "PLETTER", "SAMPLED", "TRIF", "TRIPS", "NODE", "NODES", "POD", "STOP", "DATE"}
)
_FIGURES = frozenset({"INT", "FRAC", "DEC"})
_HEARD = frozenset({"INTSOUND", "ORDSOUND"})  # a word heard for a number stands beside what it counts
_COPULA = _LISTED.words("copula")


def phrases_at(lattice: Lattice, i: int) -> list[Phrase]:
    """Every phrase that begins at piece i, the cheapest of each rule, form and end; none behind the last piece. The list is
    shared: leave it as it is."""
    found: list[Phrase] | None = lattice.found.get(i)
    if found is None:
        found = lattice.found[i] = _phrases_from(lattice, i)
    return found


_FOR_PHRASES_FROM = _LISTED.words("for_phrases_from")


def _phrases_from(lattice: Lattice, i: int) -> list[Phrase]:
    first = lattice.edges[i] if i < len(lattice.edges) else []
    if not first or (i and any(e.kind == "ATMARK" for e in lattice.edges[i - 1])):
        return []  # the figure behind @ is a node
    best: dict[tuple[int, str, str], Phrase] = {}
    frontier: list[tuple[int, Step, float, tuple[tuple[int, Edge], ...]]] = [(i, known_phrases(), 0.0, ())]
    seen = 0
    pieces = lattice.pieces
    n = len(pieces)
    while frontier:
        at, step, cost, path = frontier.pop()
        seen += 1
        if seen > 600:
            break
        if at < n and at - i < REACH:
            gap = WIDE_GAP if path and pieces[at].gap >= 4 else 0.0
            for edge in lattice.edges[at]:
                nxt = step.get(edge.kind)
                if nxt is None or (path and edge.kind in _HEARD and at > path[-1][1].end + 1):
                    continue
                new_cost = cost + edge.cost + gap
                new_path = (*path, (at, edge))
                for rule, form in nxt.get("", ()):
                    key = (edge.end, rule, form)
                    old = best.get(key)
                    if (old is None or new_cost < old.cost) and holds(form, new_path):
                        best[key] = Phrase(i, edge.end, rule, form, new_path, new_cost)
                if len(frontier) < FRONTIER:
                    frontier.append((edge.end, nxt, new_cost, new_path))
            if path and path[-1][1].kind not in {"INTSOUND", "ORDSOUND"}:
                soft = lattice.soft[at]
                if (
                    soft is not None
                    and path[-1][1].kind in _TOGETHER
                    and pieces[at].form == "word"
                    and pieces[at].text not in _COPULA
                    and not (path[-1][1].kind == "POD" and len(path) > 1 and pieces[at].text in _FOR_PHRASES_FROM)
                ):
                    soft = None  # a number and its noun stand together
                if path[-1][1].kind == "PLANTSND" or (pieces[at].text == '"' and path[-1][1].kind in _FIGURES):
                    soft = None  # 2" pods
                if soft is not None and len(path) > 3 and all(e.kind == "INT" for _, e in path[-3:]):
                    soft = min(soft, 0.02)  # 8, 8, 9, 7, 8, 9, 9, 8, 8, 7 trifs
                if soft is not None and len(frontier) < FRONTIER and cost + soft < 2.5:
                    frontier.append((at + 1, step, cost + soft + gap, path))
    for edge in first:  # a longer filler: bug check, let me see
        if edge.kind == "FILLER" or (edge.kind in {"HEDGE", "FEW", "ONLY", "SOMEW", "HAS"} and edge.end > i + 1):
            best[(edge.end, "filler", "filler")] = Phrase(i, edge.end, "filler", "filler", (), 0.0)
    return [p for p in best.values() if not p.path or not misfits(lattice, p)]


@dataclass(frozen=True, slots=True)
class Segment:
    """One stretch of the chosen reading: a phrase, or a piece that no phrase took."""

    start: int
    end: int
    phrase: Phrase | None


def segment(lattice: Lattice, phrases: list[list[Phrase]], start: int, end: int) -> list[Segment]:
    """The cheapest way to read pieces [start, end) as phrases and loose pieces; `phrases` has those of `start`
    first."""
    size = end - start
    cost = [float("inf")] * (size + 1)
    back: list[tuple[int, Phrase | None]] = [(0, None)] * (size + 1)
    cost[0] = 0.0
    for k in range(size):
        here = cost[k]
        i = start + k
        c = here + skip_cost(lattice, i)
        if c < cost[k + 1]:
            cost[k + 1] = c
            back[k + 1] = (k, None)
        for p in phrases[k]:
            e = p.end - start
            if e > size:
                continue
            c = here + phrase_cost(p)
            if c < cost[e] - 1e-9:
                cost[e] = c
                back[e] = (k, p)
    out: list[Segment] = []
    k = size
    while k:
        b, chosen = back[k]
        out.append(Segment(start + b, start + k, chosen))
        k = b
    out.reverse()
    return out


__all__ = ["FRONTIER", "REACH", "Phrase", "Segment", "phrase_cost", "phrases_at", "segment"]
