"""Rows whose cells say themselves what they are of (guide 4.21).

`1  15t  pd 3/4 @3` and under it `2  -"-  pd 1 @3`: the mark is of its own column, so the rows are a table without
heads. So are bare figures under `11 trif`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row, Rows
from notesparse.text.columns import Cell, Line, under
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/told_rows")

_FEWEST = 2  # rows, and columns
_FEWEST_NAMED = 3  # cells that name what they are of
NAMED = frozenset({"TRIF", "NODES", "FLOWER", "POD", "SEED", "UNI", "COT", "BROWN", "NODE"})
_COUNTED = {"TRIF": "trifoliates", "NODES": "nodes", "NODE": "nodes"}


def find_told_rows(rows: Rows, at: int) -> Grid | None:
    """Such rows from line `at` on; None where no mark for the same again stands among them."""
    lines = rows.lines
    raw: list[tuple[Line, tuple[tuple[str, ...], int, bool, bool], list[Cell]]] = []
    k = at
    while k < len(lines) and not lines[k].blank and k not in rows.no_rows:
        found = rows.labelled(lines[k])
        if found is None or not (rows.is_row(lines[k]) or rows.pieces[found[1] - 1].text == "."):
            break
        cells = _with_places(rows, rows.rest_cells(lines[k], found[1], False))
        if not raw and (len(cells) < _FEWEST or not all(_says(rows.lattice, c) for c in cells)):
            return None
        raw.append((lines[k], found, cells))
        k += 1
    if len(raw) < _FEWEST:
        return None
    extents = [(c.left, c.right) for c in raw[0][2]]
    kinds = [_counted(rows.lattice, c) for c in raw[0][2]]
    below = [
        (c, place)
        for _, _, cells in raw[1:]
        for c, place in zip(cells, under([(c.left, c.right) for c in cells], extents), strict=True)
    ]
    figures = [c for c, j in below if j is not None and kinds[j] is not None and _figure(rows.lattice, c)]
    alike = _alike(rows, raw)
    dotted = not all(rows.is_row(line) for line, _, _ in raw)
    if (dotted and not alike) or (not figures and not alike and not any(ditto(rows.lattice, c) for c, _ in below)):
        return None
    if not all(_says(rows.lattice, c) or ditto(rows.lattice, c) or c in figures for c, _ in below):
        return None
    out: list[Row] = []
    head: list[int] = []
    for line, found, cells in raw:
        row = Row(found[0], (line.start, found[1]), {}, damaged=found[3])
        for c, place in zip(cells, under([(c.left, c.right) for c in cells], extents), strict=True):
            own = _past_noun(rows.lattice, c)
            if place is None or place in row.cells:
                row.loose.append((c.start, c.end))
            elif own > c.start:  # nd "
                row.cells[place] = [(own, c.end)]
                head += range(c.start, own)
            else:
                row.cells[place] = [(c.start, c.end)]
        out.append(row)
    columns = [Column([kind or "note"]) for kind in kinds]
    return Grid(columns, out, head, lines[at].start, lines[k - 1].end, at, k - 1)


def _alike(rows: Rows, raw: Sequence[tuple[Line, object, list[Cell]]]) -> bool:
    """Rows of three or more cells that name the same things in the same order, each cell one of its own; one may be `as 3`."""
    things = [[_things(rows.lattice, c) for c in cells] for _, _, cells in raw]
    whole = [t for (_, _, cells), t in zip(raw, things, strict=True) if not (len(cells) == 1 and _like(rows, cells[0]))]
    if len(whole) < _FEWEST or len(whole[0]) < _FEWEST_NAMED or any(t != whole[0] for t in whole):
        return False
    return all(len(t) == 1 for t in whole[0]) and len({x for t in whole[0] for x in t}) == len(whole[0])


def _things(lattice: Lattice, c: Cell) -> frozenset[str]:
    """What of the trade a cell names."""
    edges = [e for i in range(c.start, c.end) for e in lattice.edges[i] if e.end <= c.end and e.how == "exact"]
    named = {e.kind for e in edges} & NAMED
    named = {"NODES" if kind == "NODE" else kind for kind in named}
    return frozenset(named - {"NODES"} if len(named) > 1 else named)  # pod at the 3rd node


def _with_places(rows: Rows, cells: list[Cell]) -> list[Cell]:
    """The cells, `@ 1 dn` behind a gap put to the one before it."""
    out: list[Cell] = []
    for c in cells:
        if out and rows.pieces[c.start].text == "@":
            out[-1] = replace(out[-1], end=c.end, right=c.right)
        else:
            out.append(c)
    return out


_BEFORE_LIKE = _LISTED.words("before_like")


def _like(rows: Rows, c: Cell) -> bool:
    return rows.pieces[c.start].text in _BEFORE_LIKE


def _past_noun(lattice: Lattice, c: Cell) -> int:
    """Where the mark for the same again begins in `nd "`: behind nouns and nothing else; the cell's start elsewhere."""
    if _noun_first(lattice, c) is not None:
        return c.start + 1
    k = c.end - 1
    if k == c.start or column_words().cells.get(squeeze(lattice.original(k, c.end))) != "same":
        return c.start
    nouns = all(any(e.kind in NAMED and e.how == "exact" for e in lattice.edges[i]) for i in range(c.start, k))
    return k if nouns else c.start


def _noun_first(lattice: Lattice, c: Cell) -> str | None:
    """`nd 15` in a cell of its own: a count, and no node."""
    if c.end != c.start + 2 or lattice.pieces[c.end - 1].form != "int" or lattice.pieces[c.end - 1].glued:
        return None
    return next((_COUNTED[e.kind] for e in lattice.edges[c.start] if e.kind in _COUNTED and e.how == "exact"), None)


def _counted(lattice: Lattice, c: Cell) -> str | None:
    """What `11 trif.` at the head of a column counts, where the figures under it have no noun; `tri 11` and `nd 12` too."""
    first = _noun_first(lattice, c)
    if first is not None:
        return first
    for e in lattice.edges[c.start]:
        if e.kind == "INT" and e.end < c.end:
            for n in lattice.edges[e.end]:
                rest = all(lattice.pieces[i].text == "." for i in range(n.end, c.end))
                if n.kind in _COUNTED and n.how == "exact" and rest:
                    return _COUNTED[n.kind]
    return None


def _figure(lattice: Lattice, c: Cell) -> bool:
    return c.end == c.start + 1 and lattice.pieces[c.start].form == "int"


def _says(lattice: Lattice, c: Cell) -> bool:
    """Whether a cell has a word that tells what it is of."""
    return any(p.form == "word" for p in lattice.pieces[c.start : c.end]) and not ditto(lattice, c)


def ditto(lattice: Lattice, c: Cell) -> bool:
    """`-"-`, `"`, `do.` in a cell of its own."""
    return column_words().cells.get(squeeze(lattice.original(c.start, c.end))) == "same"


def lost_dittos(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[tuple[int, int]]:
    """Marks for the same again (`-"-`) that stand in no table: nobody can tell of what, so they are not passed over. Behind
    nothing but a label (`3.   -"-`) they are all of the plant before."""
    out: list[tuple[int, int]] = []
    for line in lines:
        if len(line.cells) == _LABEL_AND_SIGN and _just_a_label(lattice, line.cells[0]):
            continue
        for c in line.cells[1:]:
            marks = [p.text for p in lattice.pieces[c.start : c.end]]
            if '"' in marks and len(marks) > 1 and ditto(lattice, c) and taken.isdisjoint(range(c.start, c.end)):
                out.append((c.start, c.end))
    return out


_LABEL_AND_SIGN = 2  # cells


def _just_a_label(lattice: Lattice, c: Cell) -> bool:
    """`3.`, `plant 4:`: the label of a plant with its mark or its word, and no more."""
    found = read_label(lattice, c.start, c.end)
    marked = lattice.pieces[c.end - 1].text in {".", ")", ":"}
    return found is not None and found[1] == c.end and (found[2] or marked)
