"""Where the tables of a note stand: rows of labelled plants under heads, turned tables, lists in order (guide 4.21).

Layout and heads only; what the cells say is read in `cells`. A run of lines is a table only if its head is known word by
word and rows of labelled plants follow, so that prose with wide gaps stays prose."""

from __future__ import annotations

from notesparse.observing.paper.blocks import titled_blocks
from notesparse.observing.paper.explained import apply_explained
from notesparse.observing.paper.footnotes import apply_footnotes
from notesparse.observing.paper.goes_on import follow_on
from notesparse.observing.paper.grids.arrangements import arrangement_at
from notesparse.observing.paper.grids.next_fields import find_again, find_named_again, take_name_before
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.told_columns import take_legends_around
from notesparse.observing.paper.heads import Column, own_the_nodes
from notesparse.observing.paper.keyed_cells import apply_codes
from notesparse.observing.paper.rows import Grid
from notesparse.observing.paper.told_by_cells import (
    filled_by_cells,
    labels_by_cells,
    nodes_by_cells,
    sentences_by_cells,
)
from notesparse.observing.paper.told_heads import tells_order
from notesparse.observing.paper.told_rows import find_told_rows
from notesparse.text.columns import Line


def find_grids(page: Page) -> list[Grid]:
    """The tables of a page from top to bottom."""
    out: list[Grid] = []
    columns: list[Column] | None = None  # under which rows of a further field may stand
    last: Grid | None = None
    above: Grid | None = None  # the last grid that stands under these columns
    k = 0
    while k < len(page.lines):
        line = page.lines[k]
        if line.blank or k in page.key_lines or k in page.aside:
            k += 1
            continue
        grid = arrangement_at(page, k, columns is None)
        if grid is None and columns is not None:
            grid = (
                find_named_again(page, k, columns)
                or find_again(page, k, columns, last, above)
                or find_told_rows(page, k)
            )
        if grid is None:
            if tells_order(page.lattice, line):
                page.strange_keys.add(k)
            k += 1
            continue
        follow_on(page.lattice, page.lines, last, grid)
        take_name_before(page, grid, last is None)
        last = grid
        _explain(page, grid, grid.columns is not columns and not grid.goes_on)
        if _holds_for_more(page, grid, line):
            columns = grid.columns
        above = grid if grid.columns is columns else above
        out += [*titled_blocks(page.lattice, page.lines, grid), *page.more]
        page.more = []
        k = grid.last + 1
    _leave_unused(page)
    return out


def _explain(page: Page, grid: Grid, own_head: bool) -> None:
    """What the page says of a table and of those beside it: legends, keys, codes and footnotes."""
    if own_head:
        take_legends_around(page, grid)
    page.key_used |= apply_explained(grid.columns, page.explained)
    own_the_nodes(grid.columns)
    labels_by_cells(page.lattice, grid)
    nodes_by_cells(page.lattice, grid)
    if any(c.unknown for c in grid.columns):
        filled_by_cells(page.lattice, grid)
        sentences_by_cells(page.lattice, grid)
    apply_codes(page.lattice, grid, page.signs)
    apply_footnotes(page.lattice, grid, page.footnotes)
    for other in page.more:
        take_legends_around(page, other)
        page.key_used |= apply_explained(other.columns, page.explained)
        apply_codes(page.lattice, other, page.signs)
        apply_footnotes(page.lattice, other, page.footnotes)


def _holds_for_more(page: Page, grid: Grid, line: Line) -> bool:
    """Whether rows of a further field may stand under the same columns: the plants have labels, and the head is here."""
    by_key = bool(page.key_lines) and any(i < line.start or i >= grid.end for c in grid.columns for i in c.pieces)
    headless = by_key or not any(c.pieces for c in grid.columns)
    return any(c.label for c in grid.columns) or (all(row.labels for row in grid.rows) and not headless)


def _leave_unused(page: Page) -> None:
    """Keys in sentences that explain what was not found are not understood."""
    for told_of in page.explained:
        if told_of.line not in page.key_used and (told_of.legends or any(s.figure for s in told_of.signs)):
            page.strange_keys.add(told_of.line)
            page.sign_spans = [x for x in page.sign_spans if x[0] != told_of.start]
