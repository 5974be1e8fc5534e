"""Tables of boxes to tick: what a ticked box says stands in words over its column, or at the head of its line (guide 4.21).

`plant 1   [ ]   [x]` under `seeds touching   tan pod`; what stands over or before an empty box is not said.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.columns import squeeze
from notesparse.lazy import dataclass
from notesparse.observing.paper.boxes import box_at
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Cell, Line, cut, under
from notesparse.text.lattice import Lattice

_TICK = "[x]"
_FEWEST = 2  # lines of boxes
_MOST_HEADS = 3  # lines of heads
_MANY_PIECES = 10  # of one head
_OF_THE_PAGE = frozenset({"MONTH", "DMY", "FIELDCUE"})
_BARS = frozenset({"|"})


@dataclass(frozen=True, slots=True)
class _Boxes:
    """A line of boxes: the pieces [start, end) before them, and each box with whether it is ticked."""

    line: Line
    head: tuple[int, int]
    cells: tuple[tuple[Cell, bool], ...]


def find_ticked(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """The table whose heads begin on line `at`."""
    first = at
    while (
        first < len(lines)
        and first - at < _MOST_HEADS
        and not lines[first].blank
        and _boxes(lattice, lines[first]) is None
    ):
        first += 1
    while first < len(lines) and first > at and lines[first].blank:
        first += 1
    rows: list[_Boxes] = []
    k = first
    while k < len(lines) and not lines[k].blank and (got := _boxes(lattice, lines[k])) is not None:
        rows.append(got)
        k += 1
    heads = [x for x in lines[at:first] if not x.blank]
    n = len(rows[0].cells) if rows else 0
    if len(rows) < _FEWEST or not heads or any(len(r.cells) != n for r in rows):
        return None
    if any(e.kind in _OF_THE_PAGE for x in heads for i in range(x.start, x.end) for e in lattice.edges[i]):
        return None  # the name and the day of the page
    labels = [read_label(lattice, *r.head) for r in rows]
    if all(x is not None and x[1] == r.head[1] for x, r in zip(labels, rows, strict=True)):
        return _down(lattice, heads, rows)
    return _across(lattice, heads, rows)


def _boxes(lattice: Lattice, line: Line) -> _Boxes | None:
    """A line that is words and then boxes up to its end."""
    if line.blank:
        return None
    first = next((i for i in range(line.start + 1, line.end) if box_at(lattice, i, line.end) is not None), None)
    if first is None:
        return None
    cells: list[tuple[Cell, bool]] = []
    k = first
    while k < line.end:
        box = box_at(lattice, k, line.end)
        if box is None:
            if lattice.pieces[k].text not in _BARS:
                return None
            k += 1
            continue
        a, b, ticked = box
        last = lattice.pieces[b - 1]
        cells.append((Cell(a, b, lattice.pieces[a].column, last.column + len(last.text)), ticked))
        k = b
    head = first
    while head > line.start and lattice.pieces[head - 1].text in _BARS:
        head -= 1
    return _Boxes(line, (line.start, head), tuple(cells))


def _down(lattice: Lattice, heads: Sequence[Line], rows: Sequence[_Boxes]) -> Grid | None:
    """A plant a line, and what is ticked in the heads of the columns."""
    told = _over(lattice, heads, [c for c, _ in rows[0].cells])
    if told is None:
        return None
    columns = [_column(cells) for cells in told]
    out: list[Row] = []
    for r in rows:
        label = read_label(lattice, *r.head)
        assert label is not None
        row = Row(label[0], r.head, {}, damaged=label[3])
        row.cells = {j: [(c.start, c.end)] for j, (c, ticked) in enumerate(r.cells) if ticked}
        out.append(row)
    return _grid(lattice, columns, out, heads, rows)


def _across(lattice: Lattice, heads: Sequence[Line], rows: Sequence[_Boxes]) -> Grid | None:
    """A plant a column, and what is ticked at the heads of the lines."""
    told = _over(lattice, heads[-1:], [c for c, _ in rows[0].cells])
    labels = [read_label(lattice, cells[0].start, cells[0].end) if len(cells) == 1 else None for cells in told or ()]
    if not labels or any(x is None for x in labels):
        return None
    columns = [_column([Cell(*r.head, 0, 0)]) for r in rows]
    out: list[Row] = []
    for j, (label, cells) in enumerate(zip(labels, told or (), strict=True)):
        assert label is not None
        row = Row(label[0], (cells[0].start, cells[0].end), {}, damaged=label[3])
        row.cells = {n: [(r.cells[j][0].start, r.cells[j][0].end)] for n, r in enumerate(rows) if r.cells[j][1]}
        out.append(row)
    return _grid(lattice, columns, out, heads[-1:], rows)


def _over(lattice: Lattice, heads: Sequence[Line], boxes: Sequence[Cell]) -> list[list[Cell]] | None:
    """The cells of the heads over each box; None where one stands over none, or a box has no head."""
    out: list[list[Cell]] = [[] for _ in boxes]
    places = [(c.left, c.right) for c in boxes]
    for line in heads:
        cells = [part for c in cut(lattice.pieces, line.start, line.end, 2) for part in _between_bars(lattice, c)]
        where = under([(c.left, c.right) for c in cells[-len(boxes) :]], places, far=12)
        before = cells[: -len(boxes)]
        if len(before) > 1 or (before and before[0].left > places[0][0]):
            return None
        for c, j in zip(cells[-len(boxes) :], where, strict=True):
            if j is None:
                if c.right < places[0][0] and not any(out):
                    continue  # plant, over the labels
                return None
            out[j].append(c)
    return out if all(out) else None


def _between_bars(lattice: Lattice, c: Cell) -> list[Cell]:
    out: list[Cell] = []
    a = c.start
    for i in range(c.start, c.end + 1):
        if i == c.end or lattice.pieces[i].text in _BARS:
            if a < i:
                last = lattice.pieces[i - 1]
                out.append(Cell(a, i, lattice.pieces[a].column, last.column + len(last.text)))
            a = i + 1
    return out


def _column(cells: Sequence[Cell]) -> Column:
    """The column of a statement that a tick makes; one over two lines is not understood."""
    (first, *more) = cells
    if more or first.end - first.start > _MANY_PIECES:
        own = [i for c in cells for i in range(c.start, c.end)]
        return Column([], own, unknown=own)
    column = Column(["note"], list(range(first.start, first.end)))
    column.codes = {_TICK: (first.start, first.end)}
    return column


def _grid(
    lattice: Lattice, columns: list[Column], out: list[Row], heads: Sequence[Line], rows: Sequence[_Boxes]
) -> Grid:
    boxes = [(c, ticked) for r in rows for c, ticked in r.cells]
    for c, ticked in boxes:
        for column in columns if ticked else ():
            if _TICK in column.codes:
                column.codes[squeeze(lattice.original(c.start, c.end))] = column.codes[_TICK]
    head = [i for x in heads for i in range(x.start, x.end)] + [i for r in rows for i in range(*r.head)]
    head += [i for c, ticked in boxes if not ticked for i in range(c.start, c.end)]
    first, last = heads[0], rows[-1].line
    return Grid(columns, out, head, first.start, last.end, first.number, last.number)
