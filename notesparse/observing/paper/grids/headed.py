"""Tables under heads: in lines of their own, at the end of a title, or with single blanks and drawn lines between the cells."""

from __future__ import annotations

import itertools

from notesparse.observing.paper.grids.corners import named_corner, stop_corner
from notesparse.observing.paper.grids.head_lines import (
    delimited_head,
    mark_between,
    may_be_heads,
    name_between,
    of_no_plant,
    rows_under,
    stands_alone,
    stopped_row,
    unlabelled_row,
    with_places,
)
from notesparse.observing.paper.grids.lines import ends_in_a_day, holds_a_sentence, opens_rows, says_of_a_plant
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.plant_labels import turned_head, worded_labels
from notesparse.observing.paper.grids.told_columns import tell_of_line
from notesparse.observing.paper.grids.values import told_with_its_own
from notesparse.observing.paper.heads import Column, read_heads, split_line
from notesparse.observing.paper.labelled_values import last_sentence
from notesparse.observing.paper.row_labels import follows
from notesparse.observing.paper.rows import Grid, Row
from notesparse.observing.paper.stacked import head_columns
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_LINES_OF_A_PLANT = 4
_LONGEST_LINE = 48  # pieces of a line with heads


def find_titled(page: Page, at: int) -> Grid | None:
    """`OSTBY     9/17/25     brn pods / pods counted` over `pl 1    14/30`: the head ends the line of name and day."""
    line = page.lines[at]
    dated = [k for k, c in enumerate(line.cells) if ends_in_a_day(page.lattice, c)]
    tail = line.cells[dated[-1] + 1 :] if dated else ()
    while tail and not read_heads(page.lattice, [range(tail[0].start, tail[0].end)], page.keys):
        tail = tail[1:]  # read as:
    told = () if tail else last_sentence(page.lattice, line)
    tail = tail or told
    first = at + 1
    first += first < len(page.lines) and page.lines[first].blank
    if tail and first + 1 < len(page.lines) and not page.lines[first].blank and name_between(page, page.lines[first]):
        first += 1  # the field's name stands between
    if not tail or first >= len(page.lines) or not page.is_row(page.lines[first]):
        return None
    down = bool(told) and first + 1 < len(page.lines) and page.is_row(page.lines[first + 1])
    if turned_head(page, page.lines[first]) is not None and not down:
        return None  # pl 1   pl 2   pl 3: the plants stand across
    columns = head_columns(page.lattice, [Line(line.number, tail[0].start, line.end, tail)], page.keys)
    if columns is None or any(c.unknown or not c.known for c in columns):
        return None
    if told and len(columns) == 1:
        columns[0].left = 0  # told in words, and over no column of the page
    grid = rows_under(page, columns, first, False)
    if grid is None:
        return None
    grid.rows = list(itertools.takewhile(lambda row: row.label is not None, grid.rows))
    ends = [cell[-1][1] for row in grid.rows for cell in row.cells.values()]
    if not ends:
        return None
    grid.last = next(x.number for x in page.lines if not x.blank and x.start < max(ends) <= x.end)
    grid.end, grid.head = page.lines[grid.last].end, []
    page.heads.append((tail[0].start, line.end))
    return grid


def find_headed(page: Page, at: int) -> Grid | None:
    """A table whose head begins at line `at`."""
    lines = page.lines
    first_row = at
    head: list[Line] = []
    apart: int | None = None  # the line of a field's name between the head and its rows
    while first_row < len(lines) and len(head) <= 4:
        line = lines[first_row]
        if line.blank or page.ruled(line):
            if not head:
                return None
        elif not head and (opens_rows(page, line) or any(ends_in_a_day(page.lattice, c) for c in line.cells)):
            return None  # a title, and perhaps heads behind the day: find_titled
        elif head and worded_labels(page.lattice, line) is not None:
            return None  # the plants stand across: what was above is a legend
        elif head and (page.is_row(line) or unlabelled_row(page, line, head) or stopped_row(page, line, head)):
            break
        elif (
            line.number in page.legends
            and head
            and line.number not in page.key_lines
            and stands_alone(page, line, head)
        ):
            pass  # a legend between head and rows
        elif head and apart is None and name_between(page, line):
            apart = first_row
        elif line.end - line.start > _LONGEST_LINE or not may_be_heads(page, line):
            return None
        else:
            head.append(line)
        first_row += 1
    else:
        return None
    if not head or len(head) > 4 or first_row >= len(lines):
        return None
    between = [lines[k] for k in range(at, first_row) if lines[k] not in head and lines[k].number in page.legends]
    stroked = mark_between(page, head) == "/"  # plant / trifs / nodes, said once over the tables of several fields
    columns = delimited_head(page, head[0], "/") if stroked else head_columns(page.lattice, head, page.keys)
    if columns is None or of_no_plant(columns) or (len(columns) == 1 and _between_plants(page, at, first_row)):
        return None
    corner = stop_corner(page, columns, lines[first_row])
    columns = with_places(page.lattice, columns, lines[first_row]) if corner is None else columns
    named = named_corner(page, columns, first_row)
    ending = page.label_at_end(columns, first_row)
    columns = [*columns, ending] if ending is not None else columns
    grid = rows_under(page, columns, first_row, False)
    if grid is None or (len(columns) == 1 and _under_a_legend(page.lattice, columns[0], grid.rows)):
        return None
    grid.head = [i for line in (*head, *between) for i in range(line.start, line.end)]
    if apart is not None:
        page.heads.append((lines[at].start, lines[apart - 1].end))
        grid.head = [i for i in grid.head if i >= grid.start]
    else:
        grid.start, grid.first = lines[at].start, at
    for line in between:
        tell_of_line(page, line.number, grid.columns)
        page.used_legends.add(line.number)
    for row in grid.rows if corner is not None else ():
        row.stop = corner
    if named is not None:
        grid.name = named
        grid.head = [i for i in grid.head if not named[0] <= i < named[1]]
    return grid


def _under_a_legend(lattice: Lattice, legend: Column, rows: list[Row]) -> bool:
    """`Pods in 16ths` over `1)  12 tri   pod 4`: the rows say themselves what their figures are of."""
    spans = [spans for row in rows if (spans := [x for cells in row.cells.values() for x in cells])]
    return bool(legend.what) and any(
        told_with_its_own(lattice, legend.what[0], min(a for a, _ in x), max(b for _, b in x)) for x in spans
    )


def _between_plants(page: Page, at: int, below: int) -> bool:
    """`Plant 1: 9 trifs` over `bloom at the top node` over `Plant 2: 10 trifs`: said of the plant above, and no head."""
    nxt = page.labelled(page.lines[below])
    above = at - 1
    while nxt is not None and at - above <= _LINES_OF_A_PLANT and above >= 0:
        here = page.labelled(page.lines[above]) if not page.lines[above].blank else None
        if here is not None:
            return follows(here[0][-1], nxt[0][0])
        above -= 1
    return False


def find_narrow(page: Page, at: int) -> Grid | None:
    """A table without gaps: heads and cells parted by one blank (`pl tf nd fl pd`), by commas or by drawn lines."""
    line = page.lines[at]
    if (
        line.blank
        or line.end - line.start > _LONGEST_LINE
        or says_of_a_plant(page.lattice, line)
        or opens_rows(page, line)
    ):
        return None
    first_row = at + 1
    while first_row < len(page.lines) and not page.lines[first_row].blank and page.ruled(page.lines[first_row]):
        first_row += 1
    if first_row >= len(page.lines) or page.lines[first_row].blank:
        return None
    separator = mark_between(page, [line])
    first = page.pieces[line.start].text, page.pieces[page.lines[first_row].start].text
    open_left = first[0] == separator and first[1] != separator  # the mark behind an empty cell over the labels
    columns = delimited_head(page, line, separator, False if open_left else None) if separator is not None else None
    if separator == "/":
        separator = None  # plant / trifs / nodes, over rows with blanks between
    if columns is None:
        separator = None
        if len(line.cells) > 1 or not may_be_heads(page, line) or holds_a_sentence(page.lattice, line):
            return None
        columns = split_line(page.lattice, line.start, line.end, page.keys)
        if (len(columns) < 3 and not (len(columns) == 2 and columns[0].label)) or of_no_plant(columns):
            return None
    grid = rows_under(page, columns, first_row, separator is None, separator, first[0] == separator and not open_left)
    if grid is None or (separator is None and 2 * sum(not row.loose for row in grid.rows) < max(2, len(grid.rows))):
        return None
    grid.head = list(range(line.start, line.end))
    grid.start, grid.first = line.start, at
    return grid
