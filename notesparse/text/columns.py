"""The layout of a page: lines, cells by the gaps between them, and which column a cell stands under. No meanings
here."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.lazy import dataclass
from notesparse.text.scan import Piece

WIDE = 2  # blanks that part two cells


@dataclass(frozen=True, slots=True)
class Cell:
    """Pieces [start, end) that stand together, at characters [left, right) of their line; `tab` tabs stand before
    it."""

    start: int
    end: int
    left: int
    right: int
    tab: int = 0


@dataclass(frozen=True, slots=True)
class Line:
    """Line `number` (from 0) at pieces [start, end), the line end not counted."""

    number: int
    start: int
    end: int
    cells: tuple[Cell, ...]
    tabbed: bool = False

    @property
    def blank(self) -> bool:
        return self.start == self.end


def lines_of(text: str, pieces: Sequence[Piece]) -> list[Line]:
    """All lines of a note, each cut into cells at gaps of two blanks or a tab."""
    out: list[Line] = []
    start, number = 0, 0
    for i in range(len(pieces) + 1):
        if i == len(pieces) or pieces[i].form == "nl":
            if i < len(pieces) or start < i or not out:
                out.append(_line(text, pieces, number, start, i))
            start, number = i + 1, number + 1
    return out


def _line(text: str, pieces: Sequence[Piece], number: int, a: int, b: int) -> Line:
    if a == b:
        return Line(number, a, b, ())
    begin = text.rfind("\n", 0, pieces[a].span.start) + 1
    tabbed = "\t" in text[begin : pieces[b - 1].span.end]
    cells = cut(pieces, a, b, WIDE, text if tabbed else None, begin)
    return Line(number, a, b, tuple(off_rule(pieces, cells, a, b)), tabbed)


def off_rule(pieces: Sequence[Piece], cells: Sequence[Cell], a: int, b: int) -> list[Cell]:
    """The cells without the one upright rule that is drawn down a page: it parts cells, and is none."""
    bars = [i for i in range(a, b) if pieces[i].text == "|"]
    if len(bars) != 1 or bars[0] == a or (bars[0] + 1 < b and not pieces[bars[0] + 1].gap):
        return list(cells)
    out: list[Cell] = []
    for c in cells:
        for x, y in ((c.start, min(c.end, bars[0])), (max(c.start, bars[0] + 1), c.end)):
            if x < y:
                out.append(Cell(x, y, pieces[x].column, pieces[y - 1].column + len(pieces[y - 1].text), c.tab))
    return out


def cut(pieces: Sequence[Piece], a: int, b: int, wide: int, text: str | None = None, begin: int = 0) -> list[Cell]:
    """Pieces [a, b) of one line cut at gaps of `wide` blanks or more (at every tab where `text` is given)."""
    cells: list[Cell] = []
    start = a
    for i in range(a, b + 1):
        split = i == b
        if not split and i > a:
            between = text[pieces[i - 1].span.end : pieces[i].span.start] if text is not None else ""
            split = (
                "\t" in between
                if text is not None and "\t" in text[begin : pieces[b - 1].span.end]
                else pieces[i].gap >= wide
            )
        if split and start < i:
            tab = text.count("\t", begin, pieces[start].span.start) if text is not None else 0
            cells.append(Cell(start, i, pieces[start].column, pieces[i - 1].column + len(pieces[i - 1].text), tab))
            start = i
    return cells


def cut_at(pieces: Sequence[Piece], a: int, b: int, mark: str, bordered: bool | None = None) -> list[Cell]:
    """Pieces [a, b) cut at a mark (ruled lines, commas); empty cells between two marks are left out but counted in
    `tab`.

    A mark at the head is the page's border, or (`bordered` False) it ends an empty first cell.
    """
    cells: list[Cell] = []
    start, nth = a, 0
    first = a < b and pieces[a].text == mark and bordered is not False
    for i in range(a, b + 1):
        if i == b or pieces[i].text.strip(mark) == "":
            if start < i:
                cells.append(
                    Cell(start, i, pieces[start].column, pieces[i - 1].column + len(pieces[i - 1].text), nth - first)
                )
            start, nth = i + 1, nth + (len(pieces[i].text) if i < b else 1)  # ,, is one piece with an empty cell in it
    return cells


def apart(a: tuple[int, int], b: tuple[int, int]) -> int:
    """Characters between two stretches of a line; 0 where they overlap."""
    return max(0, a[0] - b[1] + 1, b[0] - a[1] + 1)


def under(cells: Sequence[tuple[int, int]], columns: Sequence[tuple[int, int]], *, far: int = 6) -> list[int | None]:
    """For each cell of a row the column that it stands under: in order, nearest first, each column once.

    As many cells as columns are read by position. Two cells may share a column where there are more cells than columns.
    A cell further than `far` characters from any column left to it has none.
    """
    n, m = len(cells), len(columns)
    if n == m:
        return list(range(n))
    share = n > m
    inf = float("inf")

    def cost(i: int, j: int) -> float:
        middle = abs(sum(cells[i]) - sum(columns[j])) / 2
        return apart(cells[i], columns[j]) + 0.02 * middle

    best = [[inf] * m for _ in range(n)]
    back = [[-1] * m for _ in range(n)]
    for i in range(n):
        for j in range(m):
            if i == 0:
                best[i][j] = cost(i, j)
                continue
            for k in range(j + 1 if share else j):
                c = best[i - 1][k] + cost(i, j) + (2.0 if k == j else 0.0)
                if c < best[i][j]:
                    best[i][j], back[i][j] = c, k
    if not n or not m:
        return [None] * n
    j = min(range(m), key=lambda x: best[n - 1][x])
    found: list[int | None] = [None] * n
    for i in range(n - 1, -1, -1):
        found[i] = j if apart(cells[i], columns[j]) <= far else None
        j = back[i][j]
    return found
