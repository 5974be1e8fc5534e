"""The labels of plants across a page, or told in words over it: `plant 1 2 3`, `Plants 5 to 8 in order`."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.heads import seen_heads
from notesparse.observing.paper.row_labels import labels_of, read_label
from notesparse.text.columns import WIDE, Cell, Line, cut
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/grids/plant_labels")
_FEW = 2  # plants
_INDENT = 3  # blanks before labels that stand alone over a table
_IN_ORDER = _LISTED.words("in_order")
_CLAUSE_ENDS = frozenset(",.:;-")
_ROMAN = list(_LISTED.ordered("roman"))


def plants_in_order(lattice: Lattice, line: Line) -> tuple[tuple[str, ...], int, int] | None:
    """`Plants 5 to 8 in order`, at the head of a line, with a comma behind or nothing: the labels and their pieces."""
    if not any(e.kind == "PLANT" for e in lattice.edges[line.start]):
        return None
    k = next((i for i in range(line.start, line.end) if lattice.pieces[i].text in {"in", ":", "."}), line.end)
    found = labels_of(lattice, line.start, k)
    if found is None or len(found[0]) < _FEW:
        return None
    while k < line.end and lattice.pieces[k].text in _IN_ORDER:
        k += 1
    if k < line.end and lattice.pieces[k].text not in _CLAUSE_ENDS:
        return None
    return found[0], line.start, k


def turned_head(page: Page, line: Line) -> tuple[int, list[tuple[Cell, str]]] | None:
    if line.blank:
        return None
    named = [(c, read_label(page.lattice, c.start, c.end)) for c in line.cells]
    labels = worded_labels(page.lattice, line)
    if labels is not None:
        return line.start, labels
    if len(named) >= 2 and all(f is not None and f[1] == c.end for c, f in named):
        labels = labels_in_order(page.lattice, line.cells)  # the labels alone, over the figures of the lines below
        if labels is not None and labels[0][1].casefold() in {"1", "a"} and labels[0][0].left >= _INDENT:
            return line.start, labels
    for b in range(line.start + 1, min(line.start + 5, line.end)):
        got = seen_heads(page.lattice, [range(line.start, b)], page.keys)
        if len(got) != 1 or not got[0].label or got[0].unknown:
            continue
        while b < line.end and page.pieces[b].text in {".", ":", "-", "#"}:
            b += 1
        labels = labels_in_order(page.lattice, cut(page.pieces, b, line.end, 1))
        labels = labels or labels_in_order(page.lattice, cut(page.pieces, b, line.end, WIDE))  # [ 1 ]     [ 2 ]
        if labels is not None:
            return b, labels
    return None


def worded_labels(lattice: Lattice, line: Line) -> list[tuple[Cell, str]] | None:
    """`No. 1   No. 2   No. 3`, `Pl A   Pl B`: nothing but labels, each with its word."""
    for c in line.cells:
        found = read_label(lattice, c.start, c.end) if lattice.pieces[c.start].form == "word" else None
        if found is None or not found[2] or found[1] != c.end:
            return None
    return labels_in_order(lattice, line.cells)


def labels_in_order(lattice: Lattice, cells: Sequence[Cell]) -> list[tuple[Cell, str]] | None:
    labels: list[tuple[Cell, str]] = []
    while len(cells) > 2 and _average_cell(lattice, cells[-1]):
        cells = cells[:-1]  # the average over the plants is none of them
    written = [lattice.original(c.start, c.end) for c in cells]
    if len(written) > 1 and [w.casefold() for w in written] == _ROMAN[: len(written)]:
        return list(zip(cells, written, strict=True))
    for c in cells:
        found = read_label(lattice, c.start, c.end)
        if found is None or found[1] != c.end or len(found[0]) != 1:
            return None
        labels.append((c, found[0][0]))
    names = [n for _, n in labels]
    if len(names) < 2 or len(set(names)) != len(names):
        return None
    steps = [
        (int(y) - int(x)) if x.isdigit() and y.isdigit() else ord(y[0].casefold()) - ord(x[0].casefold())
        for x, y in itertools.pairwise(names)
    ]
    return labels if all(s >= 1 for s in steps) and sum(s == 1 for s in steps) >= len(steps) - 1 else None


def _average_cell(lattice: Lattice, c: Cell) -> bool:
    return column_words().cells.get(squeeze(lattice.original(c.start, c.end))) == "average"
