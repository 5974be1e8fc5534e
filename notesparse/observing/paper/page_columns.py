"""Plants in two or more columns of the page, each line of a column a plant: read one column after the other (guide 4.21).

`1  8t  f tn        4  7t  f -` over `2  7t  f -        5  8t  f 3 dn`: the labels count down each column, and go on in the
next one, or they count across. Where they do not, or where the cells are bare figures under heads, the lines are read as they stand.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notesparse.observing.paper.row_labels import follows, read_label
from notesparse.text.columns import Cell, Line
from notesparse.text.lattice import Lattice

_FEWEST = 2  # lines, and columns of the page
_SLACK = 2  # characters by which labels of a column may stand aside


def find_page_columns(lattice: Lattice, lines: Sequence[Line]) -> list[tuple[list[Line], list[list[Cell]]]]:
    """Runs of such lines, with the stretch of each line that belongs to each column of the page."""
    out: list[tuple[list[Line], list[list[Cell]]]] = []
    k = 0
    while k < len(lines):
        run: list[Line] = []
        while k + len(run) < len(lines) and not lines[k + len(run)].blank and _labels(lattice, lines[k + len(run)]):
            run.append(lines[k + len(run)])
        found = _columns(lattice, run) if len(run) >= _FEWEST else None
        if found is not None:
            out.append((run, found))
        k += max(1, len(run))
    return out


def _labels(lattice: Lattice, line: Line) -> list[tuple[Cell, str]]:
    """The cells of a line that are labels, if one begins it and words stand behind each."""
    found: list[tuple[Cell, str]] = []
    for n, c in enumerate(line.cells):
        label = read_label(lattice, c.start, c.end)
        whole = label is not None and label[1] == c.end and (label[0][0].isdigit() or len(label[0][0]) == 1)
        if label is not None and whole and n + 1 < len(line.cells) and _worded(lattice, line.cells[n + 1]):
            found.append((c, label[0][0]))
    return found if found and found[0][0] == line.cells[0] else []


def _worded(lattice: Lattice, c: Cell) -> bool:
    """A cell that begins with a figure and has words: 8t, 9 trif, and no bare figure."""
    own = range(c.start, c.end)
    return any(lattice.pieces[i].form == "word" for i in own) and lattice.pieces[c.start].form in {"int", "word"}


def _columns(lattice: Lattice, run: Sequence[Line]) -> list[list[Cell]] | None:
    labels = [_labels(lattice, line) for line in run]
    n = len(labels[0])
    if n < _FEWEST or any(len(x) > n for x in labels) or any(len(x) < n for x in labels[:-1]):
        return None
    for x in labels:
        if any(abs(c.left - first.left) > _SLACK for (c, _), (first, _) in zip(x, labels[0], strict=False)):
            return None
    down = [x[j][1] for j in range(n) for x in labels if j < len(x)]
    across = [name for x in labels for _, name in x]
    order = next((o for o in (down, across) if all(follows(a, b) for a, b in itertools.pairwise(o))), None)
    if order is None:
        return None
    out: list[list[Cell]] = [[] for _ in range(n)]
    for line, found in zip(run, labels, strict=True):
        starts = [c.start for c, _ in found]
        for j, (a, b) in enumerate(itertools.pairwise([*starts, line.end])):
            out[j].append(Cell(a, b, lattice.pieces[a].column, 0))
    return out if order is down else [[c for x in itertools.zip_longest(*out) for c in x if c is not None]]
