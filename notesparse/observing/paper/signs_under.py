"""Plants across, and under them one line of values with no head of its own (guide 4.21).

`pl  a  b  c  d` over `U  U  C  T`, where the key of the page explains the signs; over `R1  R2  R2  R3`; or over figures,
where the key says what figures are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.columns import column_words
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.plant_labels import turned_head
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.keys import Sign, only_a_place
from notesparse.observing.paper.rows import Grid, Row
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import WIDE, Cell, Line, cut, under

_FEWEST = 3  # plants
_SHARE = 0.6  # of the cells that the key explains
_FEWEST_KINDS = 2


def find_signs_under(rows: Page, at: int, signs: Sequence[Sign], figure: Column | None) -> Grid | None:
    """Such a table, its plants on line `at`."""
    lines = rows.lines
    if at + 1 >= len(lines) or lines[at + 1].blank or turned_head(rows, lines[at]) is None:
        return None
    found = turned_head(rows, lines[at])
    values = lines[at + 1]
    if found is None or len(found[1]) < _FEWEST or (at + 2 < len(lines) and not lines[at + 2].blank):
        return None
    labels = found[1]
    cells = _cells(rows, values, len(labels))
    column = _column(rows, cells, signs, figure) if cells is not None else None
    where = under([(c.left, c.right) for c in cells or ()], [(c.left, c.right) for c, _ in labels], far=2)
    if cells is None or column is None:
        return None
    placed = range(len(labels)) if len(cells) == len(labels) else where
    if None in placed or len(set(placed)) != len(cells):
        return None
    got = {j: [(c.start, c.end)] for c, j in zip(cells, placed, strict=True)}
    table = [Row((name,), (c.start, c.end), {0: got[j]} if j in got else {}) for j, (c, name) in enumerate(labels)]
    head = list(range(lines[at].start, found[0]))
    return Grid([column], table, head, lines[at].start, values.end, at, at + 1)


def _cells(rows: Page, line: Line, many: int) -> list[Cell] | None:
    """A cell for each plant, or fewer that stand under their plants."""
    single = cut(rows.pieces, line.start, line.end, 1)
    wide = cut(rows.pieces, line.start, line.end, WIDE)
    if len(single) == many:
        return single
    return wide if _FEWEST <= len(wide) <= many else None


def _column(rows: Page, cells: Sequence[Cell], signs: Sequence[Sign], figure: Column | None) -> Column | None:
    """What the cells are: signs of the key, stages, or figures that the key explains."""
    codes = {s.text: s.meaning for s in signs if not s.figure and not s.suffix and s.column is None}
    texts = [rows.lattice.original(c.start, c.end).casefold() for c in cells]
    explained = [x for x in texts if x in codes]
    short = all(c.end == c.start + 1 for c in cells)
    if len(explained) >= _SHARE * len(texts) and len(set(explained)) >= _FEWEST_KINDS and short:
        organs = {s.text: s.organ for s in signs if s.organ and _says_nothing_else(rows, s)}
        return Column(["note"], codes=codes, code_organs=organs)
    if all(any(p.rule == "stage" and p.end == c.end for p in phrases_at(rows.lattice, c.start)) for c in cells):
        return Column(["stage"])
    if figure is not None and all(x.isdigit() for x in texts):
        return replace(figure, pieces=[], codes=dict(figure.codes))
    return None


def _says_nothing_else(rows: Page, s: Sign) -> bool:
    """`o = none` behind `x = a flower open`: a place or a no alone, and what it is of was named before."""
    return only_a_place(rows.lattice, s) or column_words().cell(rows.lattice.original(*s.meaning)) is not None
