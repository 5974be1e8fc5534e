"""Rows without heads whose cells say what they are, with *same again* under some: `2  16t  pd 1`, `3  -"-  -"-`.

Prose knows no cell above, and would let such a mark go by: the rows are a table of free words (guide 4.21).
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.columns import column_words, squeeze
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import WIDE, Cell, Line, cut
from notesparse.text.lattice import Lattice

_FEWEST_ROWS = 2
_FEWEST_CELLS = 2


def find_headless(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[Grid]:
    """Each such block of lines; `taken` are the pieces of tables."""
    out: list[Grid] = []
    run: list[tuple[Line, tuple[str, ...], int, list[Cell]]] = []
    for line in [*lines, None]:
        got = None if line is None or line.blank or line.start in taken else _row(lattice, line)
        if got is not None and line is not None and (not run or _goes_on(run[-1], got)):
            run.append((line, *got))
            continue
        if _is_table(lattice, run):
            columns = [Column(["note"]) for _ in run[0][3]]
            rows = [
                Row(labels, (x.start, end), {k: [(c.start, c.end)] for k, c in enumerate(cells)})
                for x, labels, end, cells in run
            ]
            first, last = run[0][0], run[-1][0]
            grid = Grid(columns, rows, [], first.start, last.end, first.number, last.number)
            out.append(grid)
        run = [(line, *got)] if got is not None and line is not None else []
    return out


def _row(lattice: Lattice, line: Line) -> tuple[tuple[str, ...], int, list[Cell]] | None:
    """A plant's label, then two or more cells parted by wide gaps."""
    found = read_label(lattice, line.start, line.end)
    if found is None or found[1] >= line.end or len(found[0]) != 1 or line.tabbed:
        return None
    if lattice.pieces[found[1]].gap < WIDE:
        return None
    cells = cut(lattice.pieces, found[1], line.end, WIDE)
    return (found[0], found[1], cells) if len(cells) >= _FEWEST_CELLS else None


def _goes_on(
    before: tuple[Line, tuple[str, ...], int, list[Cell]], got: tuple[tuple[str, ...], int, list[Cell]]
) -> bool:
    """The next label, with as many cells."""
    a, b = before[1][0], got[0][0]
    follows = (a.isdigit() and b.isdigit() and int(b) == int(a) + 1) or (
        len(a) == len(b) == 1 and ord(b.casefold()) == ord(a.casefold()) + 1
    )
    return follows and len(before[3]) == len(got[2])


def _is_table(lattice: Lattice, run: Sequence[tuple[Line, tuple[str, ...], int, list[Cell]]]) -> bool:
    """Some cell is the same again, none of the first row is, and all others name what they are of."""
    if len(run) < _FEWEST_ROWS or any(_same(lattice, c) for c in run[0][3]):
        return False
    cells = [c for _, _, _, row in run for c in row]
    return any(_same(lattice, c) for c in cells) and all(_same(lattice, c) or _worded(lattice, c) for c in cells)


def _same(lattice: Lattice, c: Cell) -> bool:
    return column_words().cells.get(squeeze(lattice.original(c.start, c.end))) == "same"


def _worded(lattice: Lattice, c: Cell) -> bool:
    return any(lattice.pieces[i].form == "word" for i in range(c.start, c.end))


__all__ = ["find_headless"]
