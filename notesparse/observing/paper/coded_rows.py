"""Rows of nothing but signs that the key explains, a plant each (guide 4.21).

`U = unifoliates only, 1 = one trif`, and under it `U 1 1 2 1 U`.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.keys import Sign
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_FEWEST = 4  # signs of a row
_FEWEST_KINDS = 2


def find_coded(lattice: Lattice, lines: Sequence[Line], at: int, signs: Sequence[Sign]) -> Grid | None:
    """The rows of signs from line `at` on; the plants are counted on from row to row."""
    codes = {s.text: s.meaning for s in signs if not s.figure and not s.suffix}
    if len(codes) < _FEWEST_KINDS:
        return None
    cells: list[tuple[int, int]] = []
    k = at
    while k < len(lines) and not lines[k].blank:
        line = lines[k]
        own = [i for i in range(line.start, line.end) if lattice.pieces[i].text != ","]
        if not own or any(lattice.pieces[i].text not in codes or lattice.pieces[i].glued for i in own[1:]):
            break
        if lattice.pieces[own[0]].text not in codes:
            break
        cells += [(i, i + 1) for i in own]
        k += 1
    if len(cells) < _FEWEST or len({lattice.pieces[a].text for a, _ in cells}) < _FEWEST_KINDS:
        return None
    rows = [Row((str(n),), None, {0: [cell]}) for n, cell in enumerate(cells, 1)]
    column = Column(["note"], codes=codes)
    return Grid([column], rows, [], lines[at].start, lines[k - 1].end, at, k - 1)


__all__ = ["find_coded"]
