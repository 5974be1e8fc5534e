"""The tables of old paper and of thumbed lists: where they stand in a note, and the words that belong to them (guide 4.21).

Each step takes what the steps before it left, so that their order counts. What a table says is read in `read_table`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace
from typing import Any

from notesparse.lazy import dataclass
from notesparse.observing.lists import find_lists
from notesparse.observing.paper.answers import find_answers
from notesparse.observing.paper.boxes import find_boxes
from notesparse.observing.paper.classlists import find_class_lists
from notesparse.observing.paper.counts import find_counts
from notesparse.observing.paper.grids.finder import find_grids
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.page_legends import legends_left
from notesparse.observing.paper.grids.read_page import read_page
from notesparse.observing.paper.guard import WHY as STRANGE
from notesparse.observing.paper.guard import (
    above,
    after,
    barred_pairs,
    doubtful,
    find_strange,
    heads_alone,
    heads_in_words,
    listed_heads,
    lost_keys,
    more_rows,
    runs_of,
    signs_alone,
    stroked_rows,
)
from notesparse.observing.paper.items import find_beside, find_items
from notesparse.observing.paper.key_meanings import explain
from notesparse.observing.paper.keys import behind_counts, not_explained, opens_key
from notesparse.observing.paper.labelled_values import values_of_nothing
from notesparse.observing.paper.legends import nodes_counted
from notesparse.observing.paper.matrix import find_codes
from notesparse.observing.paper.node_signs import node_signs
from notesparse.observing.paper.page_words import heads_cut_short, is_page_number, is_title
from notesparse.observing.paper.paired import find_paired
from notesparse.observing.paper.plants_last import find_plants_last
from notesparse.observing.paper.pod_units import find_pod_unit
from notesparse.observing.paper.rows import Grid
from notesparse.observing.paper.runlists import find_runs
from notesparse.observing.paper.said_of_all import said_of_all
from notesparse.observing.paper.slashed import find_slashed
from notesparse.observing.paper.table import Table, lines_of, of_grid, pieces_of
from notesparse.observing.paper.ticks import find_classes, head_over, over_columns, strokes_alone
from notesparse.observing.paper.told_apart import told_apart
from notesparse.observing.paper.told_heads import under_told_heads
from notesparse.observing.paper.told_rows import lost_dittos
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice


@dataclass(slots=True)
class _Found:
    """The tables of a page as far as they are found."""

    lattice: Lattice
    page: Page
    grids: list[Grid]
    unheaded: set[int]  # lines with strokes under no head
    doubt: set[int]  # lines of blocks that were not understood as a table
    tables: list[Table] = field(default_factory=list)
    taken: set[int] = field(default_factory=set)  # lines that are a table's, or part of one
    running: list[Table] = field(default_factory=list)  # values in a row, with no plants named
    parted: set[int] = field(default_factory=set)  # lines of counts by class under columns
    strange: set[int] = field(default_factory=set)  # lines that look like a table, and are none that is understood

    def put_line(self, number: int, **told: Any) -> None:
        line = self.page.lines[number]
        self.tables.append(Table(line.start, line.end, number, number, **told))

    def put_words(self, start: int, end: int, **told: Any) -> None:
        """Words in a line that holds others too."""
        self.tables.append(Table(start, end, 1, 0, **told))

    def put_strange(self, numbers: set[int]) -> None:
        lines = self.page.lines
        for first, last in runs_of(numbers):
            self.tables.append(Table(lines[first].start, lines[last].end, first, last, why=STRANGE))


def find_tables(lattice: Lattice) -> list[Table]:
    """The tables of a note, in order; the key and legend lines that they use are tables without rows."""
    numbered = node_signs(lattice)
    page = read_page(lattice)
    counted = find_counts(lattice, page.lines)
    page.aside |= {n for c in counted for n in range(c.first, c.last + 1)}
    grids, unheaded = _grids_of(page)
    grids, doubt = _without_doubtful(page, grids)
    for line in page.lines:
        if line.number in page.strange_keys:
            not_explained(lattice, line, grids)
    found = _Found(lattice, page, grids, unheaded, doubt)
    for c in counted:
        found.tables.append(Table(page.lines[c.first].start, page.lines[c.last].end, c.first, c.last, counts=c))
    found.tables += [of_grid(g) for g in grids]
    found.put_strange(doubt | unheaded)
    found.taken = {n for t in found.tables for n in range(t.first, t.last + 1)}
    _put_keys_and_legends(found)
    _put_page_numbers(found)
    _put_lists(found)
    _put_running_lines(found)
    _put_classes(found)
    _put_keys_not_understood(found)
    _put_what_no_room_read(found)
    _put_pod_unit(found)
    found.tables = _counting_nodes(lattice, found.tables, numbered)
    _put_words_left(found)
    return sorted(found.tables, key=lambda t: t.start)


def _grids_of(page: Page) -> tuple[list[Grid], set[int]]:
    """Rows under heads and labels, from top to bottom; and lines parted by strokes under no head. What one room took is
    aside for the next."""
    lattice, lines = page.lattice, page.lines
    slashed, unheaded = find_slashed(lattice, lines, page.aside | under_told_heads(page))
    page.aside |= unheaded | _lines_under(slashed)
    paired = find_paired(lattice, lines, page.signs, page.figure, page.aside | set(page.key_lines))
    page.aside |= _lines_under(paired)
    behind = find_plants_last(lattice, lines, page.aside | set(page.key_lines))
    page.aside |= _lines_under(behind)
    grids = sorted([*slashed, *paired, *behind, *find_grids(page)], key=lambda g: g.start)
    return [g for g in grids if not _questions(lattice, lines, g)], unheaded


def _lines_under(grids: Sequence[Grid]) -> set[int]:
    return {n for g in grids for n in range(g.first, g.last + 1)}


def _without_doubtful(page: Page, grids: list[Grid]) -> tuple[list[Grid], set[int]]:
    """The grids without those in blocks that were not understood, whose heads and legends are given up too."""
    aside = page.aside | set(page.key_lines) | set(page.legends)
    doubt = doubtful(page.lattice, page.lines, [g for g in grids if g.first <= g.last], aside)
    dropped = [g for g in grids if g.first <= g.last and g.first in doubt]
    kept = [g for g in grids if g not in dropped]
    page.heads = [(a, b) for a, b in page.heads if not _of_the_dropped(b, kept, dropped)]
    page.used_cells = [c for c in page.used_cells if not _of_the_dropped(c.end, kept, dropped)]
    return kept, doubt


def _put_keys_and_legends(found: _Found) -> None:
    """The lines and words that say how to read the tables, and titles over remarks."""
    lattice, page, taken = found.lattice, found.page, found.taken
    used = {lattice.pieces[i].text for g in found.grids for i in g.head}
    legends = page.used_legends | {n for n, letter in page.key_lines.items() if letter in used}
    for n, letter in page.key_lines.items():
        sign = None if n in legends else behind_counts(lattice, page.lines[n], letter, page.keys.get(letter))
        if sign is not None:
            page.signs.append(sign)
            legends.add(n)
    at_node = explain(lattice, page.signs)
    for n in sorted(legends - taken):
        found.put_line(n)
    for note in page.footnotes:
        if note.line not in taken:
            told = note.used or any(s.at[0] == note.start for s in page.signs)
            why = "" if told else "a footnote that is not understood"
            found.tables.append(Table(note.start, note.words[1], note.line, note.line, why=why))
            legends.add(note.line)
    for a, b in page.heads:
        found.put_words(a, b)
    for cell in page.used_cells:
        found.put_words(cell.start, cell.end)
    for line in page.lines:
        if line.number not in taken | legends and is_title(lattice, line):
            found.put_line(line.number, page=True)
            legends.add(line.number)
    legends |= _put_signs(found, legends, at_node)
    for n, legend in page.legends.items():
        if n not in taken | legends and legend.what == ["nodes"] and legend.by_node:  # nd counted from top
            found.put_line(n, at_node=legend.by_node)
            legends.add(n)
    taken |= legends


def _put_signs(found: _Found, legends: set[int], at_node: str | None) -> set[int]:
    """The keys of signs, each with the letters that it explains; gives the lines that are all key."""
    whole: set[int] = set()
    for a, b, number in found.page.sign_spans:
        if number in found.taken | legends | whole or any(t.start <= a < t.end for t in found.tables):
            continue
        letters = frozenset(
            s.text
            for s in found.page.signs
            if s.column is None and len(s.text) == 1 and s.text.isalpha() and a <= s.at[0] < b
        )
        first, last = (number, number) if number >= 0 else (1, 0)
        found.tables.append(Table(a, b, first, last, signs=letters, at_node=at_node))
        whole |= {number} if number >= 0 else set()
    return whole


def _put_page_numbers(found: _Found) -> None:
    for line in found.page.lines:
        for c in line.cells:
            if line.number not in found.taken and is_page_number(found.lattice, line, c):
                found.put_words(c.start, c.end, page=True)


def _put_lists(found: _Found) -> None:
    """Values in order, of what the page or a sentence of its own says; and boxes and heads that say nothing."""
    lattice, page = found.lattice, found.page
    pieces, figure = pieces_of(found.tables), page.figure
    sentence = told_apart(lattice) if figure is None else None
    listed = find_lists(lattice, page.lines, pieces, page.keys, sentence[0] if sentence else figure, page.signs)
    found.tables += [of_grid(g) for g in listed]
    if sentence is not None and any(g.columns[0].what == sentence[0].what and not g.columns[0].pieces for g in listed):
        found.put_words(*sentence[1])  # Nodes this time, no leaf counts
    held = pieces_of(found.tables)
    for a, b in find_boxes(lattice, page.lines):
        if held.isdisjoint(range(a, b)):
            found.put_words(a, b, page=True)
    for a, b in heads_cut_short(lattice):
        found.put_words(a, b)


def _put_running_lines(found: _Found) -> None:
    """Plants in running lines; and what stands under all of these and is said of all their plants."""
    lattice, lines = found.lattice, found.page.lines
    for g in find_items(lattice, lines, pieces_of(found.tables)):
        found.put_words(g.start, g.end, grid=g)
    for find in (find_class_lists, find_beside, find_codes):
        found.tables += [of_grid(g) for g in find(lattice, lines, pieces_of(found.tables))]
    runs, headings = find_runs(lattice, lines, pieces_of(found.tables))
    found.running = [of_grid(g) for g in runs] + [Table(a, b, 1, 0) for a, b in headings]
    found.tables += found.running
    found.tables += said_of_all(found.page, found.tables)


def _put_classes(found: _Found) -> None:
    """Counts by class; those that stand under columns are no such counts."""
    lattice, lines, taken = found.lattice, found.page.lines, found.taken
    for first, last, classes in find_classes(lattice, lines, taken):
        over_them = over_columns(lattice, lines, first, last)
        if over_them is not None:
            found.parted |= set(range(over_them, last + 1))
            continue
        start, end = lines[first].start, lines[last].end
        if first == last:  # pulled 10 plts: R2 = IIIIII, R1 = IIII. Wet.
            start, end = classes[0].start, classes[-1].end
        found.tables.append(Table(start, end, first, last, None, tuple(classes)))
        head = head_over(lattice, lines, first)
        if head is not None and head.number not in taken:
            found.put_line(head.number)
    taken |= {n for t in found.tables for n in range(t.first, t.last + 1)}


def _put_keys_not_understood(found: _Found) -> None:
    lattice, page, taken = found.lattice, found.page, found.taken
    unused = {n for n in page.legends if n not in taken and opens_key(lattice, page.lines[n])}
    for n in sorted((page.strange_keys | unused | lost_keys(lattice, page.lines, found.grids, taken)) - taken):
        found.put_line(n, why="a key that is not understood")
        taken.add(n)


def _put_what_no_room_read(found: _Found) -> None:
    """Lines that look like parts of a table and were read as none: unread, so that prose takes no cell for a fact."""
    lattice, page, lines, taken = found.lattice, found.page, found.page.lines, found.taken
    pieces = pieces_of(found.tables)
    lined = taken | {n for n, line in enumerate(lines) if not pieces.isdisjoint(range(line.start, line.end))}
    strange = found.parted - taken
    strange |= {n for a, b in find_strange(lattice, lines, lined) for n in range(a, b + 1)}
    strange |= {n for a, b in heads_alone(lattice, lines, lined) for n in range(a, b + 1)}
    strange |= listed_heads(lattice, lines, lined)
    strange |= more_rows(lattice, lines, found.grids, lined) | signs_alone(lattice, lines, lined)
    strange |= strokes_alone(lattice, lines, lined) | values_of_nothing(lattice, lines, lined)
    strange |= barred_pairs(lattice, lines, lined)
    strange |= stroked_rows(lattice, lines, lined, found.unheaded)
    strange |= after(lattice, lines, pieces_of(found.running), lined)
    over = above(lattice, lines, strange, pieces_of(found.running))
    found.tables = [t for t in found.tables if not (t in found.running and any(n in over for n in lines_of(lines, t)))]
    strange |= over
    if strange or found.doubt:  # a line that says how to read a table that nobody could read
        strange |= page.legends.keys() - page.used_legends - taken
        strange |= {n for n, sign in page.key_lines.items() if sign} - taken
    found.put_strange(strange)
    taken |= strange
    found.strange = strange


def _put_pod_unit(found: _Found) -> None:
    """In what the page measures its pods, told once."""
    page = found.page
    unit = find_pod_unit(found.lattice, page.lines, found.taken, legends_left(page, pieces_of(found.tables)))
    if unit is None:
        return
    n = unit.number
    whole = (unit.start, unit.end) == (page.lines[n].start, page.lines[n].end)
    lines = (n, n) if whole else (1, 0)
    found.tables.append(Table(unit.start, unit.end, *lines, at_node=unit.at_node, pod_unit=unit))
    if whole:
        found.taken.add(n)


def _put_words_left(found: _Found) -> None:
    """Heads with no value, dittos of nothing, and answers to questions."""
    lattice, lines = found.lattice, found.page.lines
    for a, b in heads_in_words(lattice, lines, pieces_of(found.tables), found.strange):
        found.put_words(a, b, why="how something was measured, and no value")
    for a, b in lost_dittos(lattice, lines, pieces_of(found.tables)):
        found.put_words(a, b, why="the same again, and it cannot be told of what")
    for line, answer in find_answers(lattice, lines, found.taken):
        found.put_line(line.number, answer=answer)


def _questions(lattice: Lattice, lines: Sequence[Line], g: Grid) -> bool:
    """`bloom? top node` above `plant 2 tf? 11`: questions and answers line by line, and no head with rows."""

    def asks(line: Line) -> bool:
        pieces = lattice.pieces
        marks = [i for i in range(line.start, line.end) if pieces[i].text == "?"]
        return len(marks) == 1 and line.start < marks[0] < line.end - 1 and pieces[marks[0] - 1].form == "word"

    over = [n for n in lines if not n.blank and any(n.start <= i < n.end for i in g.head)]
    rows = [n for n in lines if g.first <= n.number <= g.last and not n.blank and n not in over]
    return bool(over) and any(asks(n) for n in over) and any(asks(n) for n in rows)


def _of_the_dropped(end: int, kept: Sequence[Grid], dropped: Sequence[Grid]) -> bool:
    """Whether words that were taken for the head of a table are that of one that was given up: the next one behind them."""
    behind = min((g.start for g in [*kept, *dropped] if g.start >= end), default=None)
    return behind is not None and any(g.start == behind for g in dropped)


def _counting_nodes(lattice: Lattice, tables: list[Table], numbered: tuple[int, int, str] | None) -> list[Table]:
    """The tables, and the words of the page that say how it counts nodes, wherever they stand: with what holds them, or
    alone. What is said in the head of a column is of that column."""
    out = list(tables)
    for a, b, how in [numbered] if numbered is not None else nodes_counted(lattice):
        holding = [k for k, t in enumerate(out) if t.start < b and a < t.end]
        if not holding:
            out.append(Table(a, b, 1, 0, at_node=how))
        for k in holding:
            if out[k].why and out[k].why != STRANGE:
                out[k] = replace(out[k], at_node=how)
    return out
