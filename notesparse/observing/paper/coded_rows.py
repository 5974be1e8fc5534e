"""Rows of nothing but signs that the key explains, a plant each (guide 4.21).

`U = unifoliates only, 1 = one trif`, and under it `U 1 1 2 1 U`; or `Code  T  T  L` under `Plant  1  2  3`.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.keys import Sign
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/coded_rows")

_HEADS = _LISTED.words("heads")
_FEWEST = 4  # signs of a row
_GAP = 2  # blanks before a sign at the end of a line
_FEWEST_KINDS = 2


def find_coded(lattice: Lattice, lines: Sequence[Line], at: int, signs: Sequence[Sign]) -> Grid | None:
    """The rows of signs from line `at` on; the plants are counted on from row to row."""
    codes = {s.text: s.meaning for s in signs if not s.figure and not s.suffix}
    if len(codes) < _FEWEST_KINDS:
        return None
    below = at + 1 < len(lines) and not lines[at + 1].blank and lattice.pieces[lines[at + 1].start].text in _HEADS
    at += below and any(e.kind == "PLANT" for e in lattice.edges[lines[at].start])
    cells: list[tuple[int, int]] = []
    head = [lines[at].start] if lattice.pieces[lines[at].start].text in _HEADS else []
    k = at
    while k < len(lines) and not lines[k].blank:
        line = lines[k]
        own = [i for i in range(line.start, line.end) if lattice.pieces[i].text != "," and i not in head]
        if not own or any(lattice.pieces[i].text not in codes or lattice.pieces[i].glued for i in own[1:]):
            break
        if lattice.pieces[own[0]].text not in codes:
            break
        cells += [(i, i + 1) for i in own]
        k += 1
    if len(cells) < _FEWEST or len({lattice.pieces[a].text for a, _ in cells}) < _FEWEST_KINDS:
        return None
    labels, above = _named_above(lattice, lines[at - 1], len(cells)) if head and at else ([], [])
    rows = [Row((labels[n] if labels else str(n + 1),), None, {0: [cell]}) for n, cell in enumerate(cells)]
    column = Column(["note"], codes=codes)
    first = at - bool(labels)
    return Grid([column], rows, [*above, *head], lines[first].start, lines[k - 1].end, first, k - 1)


def find_signed(lattice: Lattice, lines: Sequence[Line], at: int, signs: Sequence[Sign]) -> Grid | None:
    """`1.  8 trif   xx` line by line: plants with a count in words, and behind a gap a sign of the key."""
    codes = {s.text: s.meaning for s in signs if not s.figure and not s.suffix}
    rows: list[Row] = []
    seen: set[str] = set()
    k = at
    while k < len(lines) and not lines[k].blank and len(codes) >= _FEWEST_KINDS:
        line = lines[k]
        label = read_label(lattice, line.start, line.end)
        last = line.end - 1
        sign = lattice.pieces[last]
        if label is None or label[1] >= last or sign.text not in codes or sign.gap < _GAP or sign.glued:
            break
        if not any(e.kind == "INT" for e in lattice.edges[label[1]]):
            break
        rows.append(Row(label[0], (line.start, label[1]), {0: [(label[1], last)], 1: [(last, line.end)]}))
        seen.add(sign.text)
        k += 1
    if len(rows) < _FEWEST - 1 or len(seen) < _FEWEST_KINDS:
        return None
    columns = [Column(["note"]), Column(["note"], codes=codes)]
    return Grid(columns, rows, [], lines[at].start, lines[k - 1].end, at, k - 1)


def _named_above(lattice: Lattice, line: Line, many: int) -> tuple[list[str], list[int]]:
    """`Plant  1  2  3` over as many signs: the labels, and the pieces of the line."""
    own = list(range(line.start, line.end))
    plant = bool(own) and any(e.kind == "PLANT" for e in lattice.edges[own[0]])
    labels = [lattice.original(i, i + 1) for i in own[1:]]
    named = plant and len(labels) == many and all(x.isdigit() or (len(x) == 1 and x.isalpha()) for x in labels)
    return (labels, own) if named else ([], [])
