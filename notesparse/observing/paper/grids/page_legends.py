"""The legends of a page: lines, and parts of lines, that say how to read a column (guide 4.21)."""

from __future__ import annotations

from dataclasses import replace

from notesparse.language.columns import column_words
from notesparse.observing.paper.grids.lines import (
    NO_PLACE,
    day_among,
    ends_in_a_day,
    of_one_plant,
    opens_rows,
    says_of_a_plant,
    unit_among,
)
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.plant_labels import plants_in_order
from notesparse.observing.paper.heads import Column, ends_sentence
from notesparse.observing.paper.legends import read_key, read_legend, read_legends
from notesparse.text.columns import Cell, Line
from notesparse.text.lattice import Lattice

_LONGEST_LINE = 48  # pieces of a line with heads


def legends_left(page: Page, used: set[int]) -> list[tuple[int, Column, Cell]]:
    """Legends that no table took, none of their pieces among `used`: line, what it says, and where."""
    whole = [(n, c, Cell(page.lines[n].start, page.lines[n].end, 0, 0)) for n, c in page.legends.items()]
    parts = [(n, c, cell) for n, told in page.cell_legends.items() for c, cell in told]
    return [x for x in [*whole, *parts] if used.isdisjoint(range(x[2].start, x[2].end))]


def _explains_heads(legend: Column) -> bool:
    """`Longest pod in 16ths.  Flower = open flower at the top two nodes.`: what stands before the = is a column, and no
    sign of a cell."""
    return any((sign,) in column_words().heads for sign in legend.codes)


def _legend_of(lattice: Lattice, line: Line, cell: Cell) -> Column | None:
    return read_legend(lattice, Line(line.number, cell.start, cell.end, (cell,)))


def _legends_before(lattice: Lattice, line: Line) -> list[tuple[Column, Cell]]:
    """`pods: longest in the top four, inches      seed: mm`: the cells right before the last one that say how to read a
    column too."""
    out: list[tuple[Column, Cell]] = []
    for cell in reversed(line.cells[:-1]):
        legend = _legend_of(lattice, line, cell)
        if legend is None:
            break
        out.insert(0, (legend, cell))
    return out


def _behind_a_comma(lattice: Lattice, cell: Cell) -> Cell | None:
    """`plants 1 to 5 in order, longest pod in 16ths`: the last part of what is told in a cell."""
    comma = next((i for i in range(cell.end - 2, cell.start, -1) if lattice.pieces[i].text == ","), None)
    if comma is None:
        return None
    return Cell(comma + 1, cell.end, lattice.pieces[comma + 1].column, cell.right)


def _legend_before_remarks(page: Page, line: Line) -> None:
    """`Pods in 16ths of an inch. Velvetleaf on the E side.`: the first sentence of a line says how to read a column."""
    if line.number in page.cell_legends or page.is_row(line):
        return
    end = next((i for i in range(line.start + 1, line.end - 1) if ends_sentence(page.lattice, i)), None)
    if end is None or says_of_a_plant(page.lattice, line):
        return
    last = page.pieces[end]
    cell = Cell(line.start, end + 1, page.pieces[line.start].column, last.column + len(last.text))
    legend = read_legend(page.lattice, Line(line.number, line.start, end, (cell,)))
    if legend is not None:
        page.cell_legends[line.number] = [(legend, cell)]


def _legend_in_brackets(page: Page, line: Line) -> None:
    """`Elm Bend (pods in 8ths) 8/6`: brackets among the words of a head say how to read a column."""
    texts = [p.text for p in page.pieces[line.start : line.end]]
    if line.number in page.cell_legends or "(" not in texts[1:] or ")" not in texts or page.is_row(line):
        return
    a, b = line.start + texts.index("("), line.start + texts.index(")")
    if a + 1 >= b or a == line.start or of_one_plant(page, line):
        return
    cell = Cell(a, b + 1, page.pieces[a].column, page.pieces[b].column + 1)
    legend = read_legend(page.lattice, Line(line.number, a + 1, b, (cell,)))
    if legend is not None and legend.unit is not None:
        page.cell_legends[line.number] = [(legend, cell)]


def _legend_behind_a_title(page: Page, line: Line) -> None:
    """`7/30/91 Hatchery 20: biggest pod on top four in 16ths`, `Mill Pond 8/1, pods in mm:`: behind the field and the day."""
    if line.number in page.cell_legends or len(line.cells) != 1 or line.end - line.start > _LONGEST_LINE:
        return
    if line.number + 1 >= len(page.lines) or page.lines[line.number + 1].blank or not unit_among(page.lattice, line):
        return
    marks = [i for i in range(line.start + 1, line.end - 2) if page.pieces[i].text in {":", ","}]
    at = next((i for i in marks if day_among(page.lattice, line.start, i)), None)
    if at is None or page.is_row(line):
        return
    before = (e for i in range(line.start, at) for e in page.lattice.edges[i] if e.how == "exact")
    if any(e.kind in NO_PLACE - {"MONTH"} for e in before):
        return
    cell = Cell(at + 1, line.end, page.pieces[at + 1].column, line.cells[0].right)
    legend = _legend_of(page.lattice, line, cell)
    if legend is not None and legend.unit is not None:
        page.cell_legends[line.number] = [(legend, replace(cell, start=at))]


def take_legends_on_their_lines(page: Page) -> None:
    """`pods in 16ths`: lines of one legend, or of several."""
    for line in page.lines:
        if line.number in page.key_lines or line.blank or line.number in page.aside or opens_rows(page, line):
            continue
        legend = read_legend(page.lattice, line)
        if legend is not None and not _explains_heads(legend):
            page.legends[line.number] = legend
        elif several := read_legends(page.lattice, line):
            page.legends[line.number], page.more_legends[line.number] = several[0], several[1:]
        elif legend is not None:
            page.legends[line.number] = legend


def take_legends_in_last_cells(page: Page) -> None:
    """`8/1   pods in mm`: the last cell of a line, or the last part of it, says how to read a column."""
    for line in page.lines:
        if line.blank or line.number in page.legends or line.number in page.key_lines:
            continue
        in_order = plants_in_order(page.lattice, line) is not None
        if len(line.cells) == 1 and not in_order:
            continue
        if not in_order and (page.is_row(line) or of_one_plant(page, line)):
            continue  # 1   12 tri   fl top node: what is seen of a plant, and no legend
        cell = line.cells[-1]
        key = read_key(page.lattice, Line(line.number, cell.start, cell.end, (cell,)))
        if key is not None and ends_in_a_day(page.lattice, line.cells[0]):
            page.keys[key[0]] = key[1]  # 8/9/23   pod = longest pod on the top four, mm
            page.keyed_cells.append(cell)
            continue
        legend = _legend_of(page.lattice, line, cell) if not in_order else None
        if legend is None and (part := _behind_a_comma(page.lattice, cell)) is not None:
            cell = part
            legend = _legend_of(page.lattice, line, cell)
        if legend is not None:
            before = _legends_before(page.lattice, line) if not in_order else []
            page.cell_legends[line.number] = [*before, (legend, cell)]


def take_legends_among_words(page: Page) -> None:
    """Before remarks, in brackets among heads, or behind the title of a field and a day."""
    for line in page.lines:
        if line.blank or line.number in page.legends or line.number in page.key_lines or line.number in page.aside:
            continue
        _legend_before_remarks(page, line)
        _legend_in_brackets(page, line)
        _legend_behind_a_title(page, line)
