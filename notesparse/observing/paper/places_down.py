"""Plants across and places in the field down, and what the figures are told over the table (guide 4.7, 4.21).

`Fully open tri. only.` over `plant   1   2   3`, and under it `N end   5   5   6` and `S end   6   6   7`.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.heads import Column, ends_sentence, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Cell, Line, under
from notesparse.text.lattice import Lattice

_FEWEST = 2  # places
_NEAR = 4  # lines between what was counted and the table
_LONGEST = 5  # pieces of a place
_COUNTED = (["trifoliates"], ["nodes"], ["flowers"], ["pods"], ["seeds"], ["brown"], ["stage"], ["v"], ["r"])
_NO_PLACE = frozenset(
    {
        "TRIF",
        "NODES",
        "NODE",
        "FLOWER",
        "POD",
        "SEED",
        "BROWN",
        "UNI",
        "COT",
        "SCAR",
        "R",
        "V",
        "MONTH",
        "HEIGHTWORD",
        "LEAF",
    }
)
_PLACES = frozenset({"COMPASS", "WHEREWORD", "FIELDNOUN", "STOP", "ROWS", "ROWW"})


def find_places_down(
    lattice: Lattice,
    lines: Sequence[Line],
    at: int,
    head: tuple[int, list[tuple[Cell, str]]] | None,
    figure: Column | None,
) -> Grid | None:
    """The table whose plants stand on line `at` (`head`: where their labels begin, and each of them)."""
    if head is None:
        return None
    labels = head[1]
    extents = [(c.left, c.right) for c, _ in labels]
    rows: list[Row] = []
    k = at + 1
    while k < len(lines) and not lines[k].blank:
        got = _row(lattice, lines[k], labels, extents)
        if got is None:
            break
        rows += got
        k += 1
    stops = {row.stop for row in rows if row.stop is not None}
    named = sum(any(e.kind in _PLACES for i in range(*stop) for e in lattice.edges[i]) for stop in stops)
    if len(stops) < _FEWEST or 2 * named < len(stops):
        return None
    told = thing_over(lattice, lines, at)
    column = told if told is not None else figure
    if column is None:
        return None
    pieces = list(told.pieces) if told is not None else []
    column = column.copy()
    column.pieces = []
    line = lines[at]
    grid = Grid([column], rows, list(range(line.start, line.end)), line.start, lines[k - 1].end, at, k - 1)
    grid.head = pieces + grid.head
    return grid


def _row(
    lattice: Lattice, line: Line, labels: Sequence[tuple[Cell, str]], extents: Sequence[tuple[int, int]]
) -> list[Row] | None:
    first, *cells = line.cells
    if not _place(lattice, first) or first.right > extents[0][0] or not cells or len(cells) > len(labels):
        return None
    where = under([(c.left, c.right) for c in cells], extents, far=2)
    if None in where or not any(lattice.pieces[c.start].form == "int" for c in cells):
        return None
    stop = (first.start, first.end)
    return [
        Row((labels[j or 0][1],), (labels[j or 0][0].start, labels[j or 0][0].end), {0: [(c.start, c.end)]}, stop=stop)
        for c, j in zip(cells, where, strict=True)
    ]


def _place(lattice: Lattice, c: Cell) -> bool:
    """Words that name nothing that is seen on a plant, and no plant."""
    if (
        c.end - c.start > _LONGEST
        or lattice.pieces[c.start].form != "word"
        or len(lattice.original(c.start, c.end)) < _FEWEST
    ):
        return False
    label = read_label(lattice, c.start, c.end)
    if label is not None and label[1] == c.end:
        return False
    kinds = {e.kind for i in range(c.start, c.end) for e in lattice.edges[i] if e.how == "exact"}
    got = read_heads(lattice, [range(c.start, c.end)])
    return not kinds & _NO_PLACE and not any(x.known and x.what != ["stop"] for x in got)


def thing_over(lattice: Lattice, lines: Sequence[Line], at: int) -> Column | None:
    """What was counted: a sentence or a cell of the lines over a table that names one thing and nothing else."""
    seen = 0
    for k in range(at - 1, -1, -1):
        if lines[k].blank:
            continue
        for a, b in _sentences(lattice, lines[k]):
            got = read_heads(lattice, [range(a, b)])
            if len(got) == _FEWEST and got[1].label and not got[1].unknown:
                got = got[:1]  # open trifs on each plant
            if len(got) == 1 and got[0].what in _COUNTED and not got[0].unknown:
                got[0].pieces = list(range(a, b))
                return got[0]
        seen += 1
        if seen >= _NEAR:
            break
    return None


def _sentences(lattice: Lattice, line: Line) -> list[tuple[int, int]]:
    """The cells of a line, and the sentences of each, without the full stop."""
    out: list[tuple[int, int]] = []
    for c in line.cells:
        a = c.start
        for i in range(c.start, c.end + 1):
            if i == c.end or ends_sentence(lattice, i):
                end = i
                while end > a and lattice.pieces[end - 1].text in ".:":
                    end -= 1
                out += [(a, end)] if a < end else []
                a = i + 1
    return out


__all__ = ["find_places_down", "thing_over"]
