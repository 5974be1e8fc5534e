"""What the legends around a table say to its columns."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.grids.lines import is_a_title
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.rows import Grid

_MOST_TITLES = 2  # lines of names between a legend and its table


def _tell_columns(legend: Column, columns: Sequence[Column]) -> bool:
    """Add what a legend says to the columns that it speaks of."""
    hit = False
    if legend.what == ["nodes"] and legend.by_node:  # nodes numbered from the bottom
        for c in columns:
            if c.high and c.by_node is None and c.unit is None:
                c.by_node, hit = legend.by_node, True
    for c in columns:
        if (
            (legend.sizes and ({"pods", "seeds"} & set(c.what)) and not c.plural)
            or set(legend.what) & set(c.what)
            or (legend.sizes and c.measure)
        ):
            c.take(legend)
            hit = True
    return hit


def tell_of_line(page: Page, number: int, columns: Sequence[Column]) -> bool:
    """Add what all legends of a line say."""
    hits = [_tell_columns(x, columns) for x in (page.legends[number], *page.more_legends.get(number, []))]
    return any(hits)


def take_legends_around(page: Page, grid: Grid) -> None:
    """Legends above and below a table, with nothing but blank lines between; and those at the head of the page, over
    the tables of several fields."""
    over: list[Column] = []
    for step, at in ((-1, grid.first - 1), (1, grid.last + 1)):
        k, blanks, titles = at, 0, 0
        while 0 <= k < len(page.lines) and blanks <= 1:
            line = page.lines[k]
            if line.blank:
                blanks += 1
            elif line.number in page.key_lines and (step < 0 or page.key_lines[line.number] == ""):
                pass
            elif (
                line.number in page.legends
                and line.number not in page.used_legends
                and tell_of_line(page, line.number, grid.columns)
            ):
                page.used_legends.add(line.number)
                over += [page.legends[line.number], *page.more_legends.get(line.number, [])] if step < 0 else []
                blanks = 0
            else:
                told = page.cell_legends.get(line.number, [])
                if not told and step < 0 and titles < _MOST_TITLES and is_a_title(page, line):
                    titles += 1
                    k += step
                    continue
                own = step > 0 and k + 1 < len(page.lines) and page.is_row(page.lines[k + 1])  # of the rows under it
                for legend, cell in told if not own else []:
                    if cell.start != grid.start and _tell_columns(legend, grid.columns):
                        page.used_cells.append(cell)
                        over += [legend] if step < 0 else []
                break
            k += step
    page.over_all = over or page.over_all
    for said in page.over_all:
        _tell_columns(said, grid.columns)
