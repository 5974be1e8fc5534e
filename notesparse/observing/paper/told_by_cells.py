"""Columns whose head nobody understands, and whose cells say what it is: `fit` over `touching`, `not touching` (guide 4.21)."""

from __future__ import annotations

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import ORGANS
from notesparse.observing.paper.rows import Grid
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/told_by_cells")

_FILLING = frozenset({"TOUCHING", "GAPS"})
_BEFORE = frozenset({"NOT", "ALMOST", "STILL"})
_ORGANS = frozenset({"FLOWER", "POD", "SEED", "TRIF", "NODES"})
_LOOKED = _LISTED.words("looked")
_FEWEST = 2  # cells that say it


_ONE_BEAN = "bean"
_IN_A_ROW = 3  # labels that count on


def labels_by_cells(lattice: Lattice, grid: Grid) -> None:
    """`bean` at the left over 1, 2, 3, and no other column for the plants: a bean is a plant."""
    first = grid.columns[0]
    if first.what != ["seeds"] or [lattice.pieces[i].text for i in first.pieces] != [_ONE_BEAN]:
        return
    if any(row.label is not None for row in grid.rows) or any(c.label for c in grid.columns):
        return
    cells = [row.cells.get(0, []) for row in grid.rows]
    told = [lattice.original(*cell[0]) if len(cell) == 1 else "" for cell in cells]
    if len(told) < _IN_A_ROW or told != [str(n + 1) for n in range(len(told))]:
        return
    first.what = ["plant"]
    for row, label in zip(grid.rows, told, strict=True):
        row.labels, row.label = (label,), row.cells.pop(0)[0]


def filled_by_cells(lattice: Lattice, grid: Grid) -> None:
    """Beside seeds or pods, words in every cell of how far the seed fills the pod: the column is of that."""
    for number, c in enumerate(grid.columns):
        if c.what or not c.unknown or number == 0 or grid.columns[number - 1].what not in (["seeds"], ["pods"]):
            continue
        cells = [cells[0] for row in grid.rows if (cells := row.cells.get(number))]
        told = [(a, b) for a, b in cells if column_words().cells.get(squeeze(lattice.original(a, b))) != "same"]
        if len(told) >= _FEWEST and all(_tells_filling(lattice, a, b) for a, b in told):
            c.what, c.unknown = ["fill"], []


def sentences_by_cells(lattice: Lattice, grid: Grid) -> None:
    """Cells that name what they are of and where it is, or how long, need no head: `seed 1/8 in. at top node`. A head
    that says more than that somebody looked is told of."""
    for number, c in enumerate(grid.columns):
        if c.what or c.label or not c.unknown or c.finding:
            continue
        cells = [cells for row in grid.rows if (cells := row.cells.get(number))]
        told = [
            (a, b)
            for one in cells
            for a, b in one
            if column_words().cells.get(squeeze(lattice.original(a, b))) not in {"same", "no"}
        ]
        if len(told) >= _FEWEST and all(_tells_organ(lattice, a, b) for a, b in told):
            strange = [i for i in c.unknown if lattice.pieces[i].text not in _LOOKED]
            grid.unread += [(i, i + 1, "a column head that is not understood") for i in strange]
            c.what, c.unknown = ["note"], []


def nodes_by_cells(lattice: Lattice, grid: Grid) -> None:
    """`node` beside `seed`, over `2nd dn`, `top`: no counts of nodes, and where the thing of the next column, or of the one
    before it, was seen."""
    for number, c in enumerate(grid.columns):
        if c.what != ["nodes"] or c.by_node is not None or c.unknown:
            continue
        organ = _organ_beside(grid, number)
        told = [
            cells[0]
            for row in grid.rows
            if (cells := row.cells.get(number))
            and column_words().cells.get(squeeze(lattice.original(*cells[0]))) not in {"same", "no", "nothing"}
        ]
        surely = any(_tells_node(lattice, a, b) for a, b in told)
        if organ is not None and surely and all(_tells_node(lattice, *x) or _ordinal(lattice, *x) for x in told):
            c.what, c.where, c.by_node = [organ], True, "down"


def _organ_beside(grid: Grid, number: int) -> str | None:
    """What the next column is of, or the one before it."""
    for at in (number + 1, number - 1):
        beside = grid.columns[at].what if 0 <= at < len(grid.columns) else []
        organ = "seeds" if beside == ["fill"] else next((w for w in beside if w in ORGANS), None)
        if organ is not None:
            return organ
    return None


def _tells_node(lattice: Lattice, a: int, b: int) -> bool:
    """`2nd dn`, `3 down`, `top`: a node, counted from the top."""
    if any(e.kind == "TOP" and e.end == b for e in lattice.edges[a]):
        return True
    numbers = {e.end for e in lattice.edges[a] if e.kind in {"ORD", "INT"} and e.end < b}
    return any(e.kind == "DOWN" and e.end == b for k in numbers for e in lattice.edges[k])


def _ordinal(lattice: Lattice, a: int, b: int) -> bool:
    """`2nd`, `low`: beside cells that say from where."""
    return any(e.kind in {"ORD", "LOW"} and e.end == b for e in lattice.edges[a])


def _tells_organ(lattice: Lattice, a: int, b: int) -> bool:
    """`pods full, 2nd node down`, `no seed`, `flower at the top`: an organ in the first two words, and no bare noun."""
    kinds = [{e.kind for e in lattice.edges[i] if e.how == "exact"} for i in range(a, min(a + 2, b))]
    return b - a > 1 and bool(set().union(*kinds) & _ORGANS)


def _tells_filling(lattice: Lattice, a: int, b: int) -> bool:
    """`touching`, `not touching`, `seed apart`."""
    if any(e.kind in _FILLING and e.end == b and e.how == "exact" for e in lattice.edges[a]):
        return True
    return a + 1 < b and any(
        e.kind in _BEFORE and e.end < b and _tells_filling(lattice, e.end, b) for e in lattice.edges[a]
    )
