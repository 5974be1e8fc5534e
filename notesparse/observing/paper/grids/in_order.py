"""Lines of figures with no line of labels over them: `tf  11  12  11` over `nd  12  13  12` (guide 4.21)."""

from __future__ import annotations

from notesparse.language.columns import squeeze
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.plant_labels import plants_in_order
from notesparse.observing.paper.grids.value_lines import strange_line, value_line
from notesparse.observing.paper.grids.values import plain_value
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Cell, cut
from notesparse.text.lattice import Lattice

_FEW = 2  # plants
_A_CODE = 2  # pieces of a stage code


def find_in_order(page: Page, at: int) -> Grid | None:
    """Lines of figures with no line of labels over them (`tf  11  12  11`, `nd  12  13  12`): plants 1, 2, 3 in order."""
    found: list[tuple[Column, list[Cell]]] = []
    unread: list[tuple[int, int, str]] = []
    k = at
    while k < len(page.lines) and not page.lines[k].blank:
        line = page.lines[k]
        n = len(found[0][1]) if found else max(len(line.cells), len(cut(page.pieces, line.start, line.end, 1))) - 1
        got = None
        for count in (n,) if found else range(n, max(2, n - 4), -1):
            got = value_line(page, line, count) if 3 <= count <= 40 else None
            if got is not None and (
                len(got[1]) != count or not _fit_in_a_row(page.lattice, got, bool(found)) or len(got[0].what) != 1
            ):
                got = None
            if got is not None:
                break
        if got is None:
            if found and strange_line(page.lattice, line, n):
                unread.append((line.start, line.end, "a thing that is not understood"))
                k += 1
                continue
            break
        found.append(got)
        k += 1
    if len(found) < 2 or len({c.what[0] for c, _ in found}) != len(found):
        return None
    order = _order_over(page, at)
    many = len(found[0][1])
    labels = tuple(str(j + 1) for j in range(many))
    if order is not None and len(order[0]) == many:
        labels = order[0]
        page.heads.append(order[1:])
    rows = [
        Row(
            (labels[j],),
            None,
            {i: [(cells[j].start, cells[j].end)] for i, (_, cells) in enumerate(found)},
            damaged=True,
        )
        for j in range(many)
    ]
    return Grid(
        [c for c, _ in found],
        rows,
        [i for c, _ in found for i in c.pieces],
        page.lines[at].start,
        page.lines[k - 1].end,
        at,
        k - 1,
        unread,
    )


def _order_over(page: Page, at: int) -> tuple[tuple[str, ...], int, int] | None:
    """The plants that the line above names for the figures of line `at`, and the pieces that do so."""
    over = page.lines[max(0, at - _FEW) : at][::-1]
    above = next((x for x in over if not x.blank and x.number not in page.legends), None)
    return plants_in_order(page.lattice, above) if above is not None else None


def _fit_in_a_row(lattice: Lattice, got: tuple[Column, list[Cell]], more: bool) -> bool:
    """Figures, signs and codes; on a further line (`more`) some cells may say more: `-  -  3mm@4`."""
    odd = [
        c
        for c in got[1]
        if not (plain_value(lattice, c) or _is_coded(lattice, got[0], c) or _is_stage(lattice, got[0], c))
    ]
    sized = all(any(lattice.pieces[i].form in {"int", "dec"} for i in range(c.start, c.end)) for c in odd)
    return not odd or (more and sized and 2 * len(odd) <= len(got[1]))


def _is_stage(lattice: Lattice, column: Column, c: Cell) -> bool:
    """`V8` under a head of stages."""
    code = lattice.pieces[c.start].text in {"v", "r"} and c.end == c.start + _A_CODE
    return code and column.what == ["stage"] and lattice.pieces[c.start + 1].form == "int"


def _is_coded(lattice: Lattice, column: Column, c: Cell) -> bool:
    return squeeze(lattice.original(c.start, c.end)) in column.codes
