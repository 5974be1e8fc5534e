"""Where the tables of a note stand: rows of labelled plants under heads, turned tables, lists in order (guide 4.21).

Layout and heads only; what the cells say is read in `cells`. A run of lines is a table only if its head is known word by
word and rows of labelled plants follow, so that prose with wide gaps stays prose.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.columns import column_words, head_tokens
from notesparse.language.cues import cue_page
from notesparse.observing.counting import numbered_below
from notesparse.observing.paper.asked_rows import find_asked_rows
from notesparse.observing.paper.blocks import find_blocks, is_stop, stop_at, titled_blocks
from notesparse.observing.paper.coded_rows import find_coded, find_signed
from notesparse.observing.paper.dated_columns import find_dated
from notesparse.observing.paper.explained import apply_explained, find_explained
from notesparse.observing.paper.field_column import find_field_rows, find_names_beside
from notesparse.observing.paper.filled import find_filled
from notesparse.observing.paper.footnotes import apply_footnotes, read_footnotes
from notesparse.observing.paper.goes_on import follow_on
from notesparse.observing.paper.heads import ORGANS, Column, ends_sentence, own_the_nodes, read_heads, split_line
from notesparse.observing.paper.key_meanings import number_nodes
from notesparse.observing.paper.keyed_cells import apply_codes, in_cells, keyed
from notesparse.observing.paper.keys import (
    Sign,
    colons,
    explains_a_head,
    gap_key,
    is_head_cell,
    letters_told,
    opens_key,
    read_signs,
    used_elsewhere,
)
from notesparse.observing.paper.labelled_cells import find_labelled
from notesparse.observing.paper.labelled_fields import find_labelled_fields
from notesparse.observing.paper.labelled_values import find_labelled_values, last_sentence
from notesparse.observing.paper.legends import one_a_comma, read_key, read_legend, read_legends
from notesparse.observing.paper.letter_keys import letter_key
from notesparse.observing.paper.matrix import find_matrix, find_unlabelled
from notesparse.observing.paper.place_lists import find_place_lists
from notesparse.observing.paper.placed_rows import find_placed
from notesparse.observing.paper.places_down import find_places_down
from notesparse.observing.paper.plants_across import find_plants_across
from notesparse.observing.paper.row_labels import follows, labels_of
from notesparse.observing.paper.rows import Grid, Row
from notesparse.observing.paper.sheets import find_sheet
from notesparse.observing.paper.signs_under import find_signs_under
from notesparse.observing.paper.stacked import SEEN, at_its_node, head_columns, is_where, where_column
from notesparse.observing.paper.ticked import find_ticked
from notesparse.observing.paper.told_by_cells import filled_by_cells, sentences_by_cells
from notesparse.observing.paper.told_heads import find_told_heads, tells_order
from notesparse.observing.paper.told_rows import find_told_rows
from notesparse.observing.paper.turned import Turned
from notesparse.observing.paper.turned_marks import find_turned_marks
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Cell, Line, cut, cut_at, under
from notesparse.text.lattice import Edge, Lattice
from notesparse.text.scan import Piece

_COMMON = cue_page("shared")

_FOUND = frozenset({"INSECT", "WEED", "DISEASE"})
_SHORT = 2  # letters of a word that may be a sign
_STOPPED = 2  # pieces of a word cut short, with its stop
_LONGEST_NAME = 6  # pieces of a name between heads and rows
_UNITS = frozenset({"MM", "CM", "INCH"})
_FIRST = _COMMON.words("first_label") | {"A"}  # labels of the first row
_NAME_AND_HEAD = 2  # cells of a line
_MOST_TITLES = 2  # lines of names between a legend and its table
_PLACES = frozenset({"COMPASS", "WHEREWORD", "FIELDNOUN", "STOP", "ROWS", "ROWW"})
_NO_PLACE = frozenset({"TRIF", "NODES", "NODE", "FLOWER", "POD", "SEED", "BROWN", "R", "V", "MONTH", "PLANT"})
_LINES_OF_A_PLANT = 4
_LONGEST_LINE = 48  # pieces of a line with heads


class Finder(Turned):
    """Finds the grids of one note."""

    def __init__(self, lattice: Lattice) -> None:
        super().__init__(lattice)
        self.signs: list[Sign] = []  # what the page's key explains
        self.sign_spans: list[tuple[int, int, int]] = []  # the key's pieces with the line if it is all of it, else -1
        self.footnotes = read_footnotes(lattice, self.lines)
        aside = {note.line for note in self.footnotes}
        self.aside = set(aside)  # lines that are no part of a table
        self.figure: Column | None = None  # what bare figures are, if the key says so
        self.key_used: set[int] = set()  # lines of a key in sentences that told something of a column or a figure
        self.explained = find_explained(lattice, self.lines)
        self._take_explained()
        self._read_signs()
        self.keyed_cells: list[Cell] = []  # keys behind a date on their line
        self.more_legends: dict[int, list[Column]] = {}  # what else a line of legends says
        for line in self.lines:
            if line.number in self.key_lines or line.number in aside:
                continue
            key = read_key(lattice, line) if not line.blank else None
            if key is not None:
                self.keys[key[0]] = key[1]
                self.key_lines[line.number] = key[0]
        for line in self.lines:
            if line.number not in self.key_lines and not line.blank and line.number not in aside:
                if self._first_of_rows(line):
                    continue
                legend = read_legend(lattice, line)
                if legend is not None and not self._explains_heads(legend):
                    self.legends[line.number] = legend
                elif several := read_legends(lattice, line):
                    self.legends[line.number], self.more_legends[line.number] = several[0], several[1:]
                elif legend is not None:
                    self.legends[line.number] = legend
        for line in self.lines:
            if line.blank or line.number in self.legends or line.number in self.key_lines:
                continue
            in_order = self.plants_in_order(line) is not None
            if len(line.cells) > 1 or in_order:
                if not in_order and (self.is_row(line) or self._of_a_plant(line)):
                    continue  # 1   12 tri   fl top node: what is seen of a plant, and no legend
                cell = line.cells[-1]
                key = read_key(lattice, Line(line.number, cell.start, cell.end, (cell,)))
                if key is not None and self._a_date(line.cells[0]):  # 8/9/23   pod = longest pod on the top four, mm
                    self.keys[key[0]] = key[1]
                    self.keyed_cells.append(cell)
                    continue
                legend = self._legend_of(line, cell) if not in_order else None
                if legend is None and (part := self._behind_a_comma(cell)) is not None:
                    cell = part
                    legend = self._legend_of(line, cell)
                if legend is not None:
                    before = self._legends_before(line) if not in_order else []
                    self.cell_legends[line.number] = [*before, (legend, cell)]
        for line in self.lines:
            if not (line.blank or line.number in self.legends or line.number in self.key_lines or line.number in aside):
                self._legend_before_remarks(line)
                self._legend_in_brackets(line)
                self._legend_behind_a_title(line)
        self.strange_keys = {
            x.number
            for x in self.lines
            if x.number not in self.key_lines
            and not x.blank
            and (
                opens_key(lattice, x)
                or self._in_brackets(x)
                or letters_told(lattice, x)
                or (explains_a_head(lattice, x) and not self._told_of(x))
            )
        } - self.legends.keys()
        self.no_rows = self.aside | self.key_lines.keys() | self.strange_keys
        self.used_legends: set[int] = set()
        self.over_all: list[Column] = []  # legends over the first table, which hold for the tables under it too
        self.used_cells: list[Cell] = [*self.keyed_cells]
        self._headish: dict[int, bool] = {}

    def legends_left(self, used: set[int]) -> list[tuple[int, Column, Cell]]:
        """Legends that no table took, none of their pieces among `used`: line, what it says, and where."""
        whole = [(n, c, Cell(self.lines[n].start, self.lines[n].end, 0, 0)) for n, c in self.legends.items()]
        parts = [(n, c, cell) for n, told in self.cell_legends.items() for c, cell in told]
        return [x for x in [*whole, *parts] if used.isdisjoint(range(x[2].start, x[2].end))]

    def _explains_heads(self, legend: Column) -> bool:
        """`Longest pod in 16ths.  Flower = open flower at the top two nodes.`: what stands before the = is a column, and no
        sign of a cell."""
        return any((sign,) in column_words().heads for sign in legend.codes)

    def _legend_of(self, line: Line, cell: Cell) -> Column | None:
        return read_legend(self.lattice, Line(line.number, cell.start, cell.end, (cell,)))

    def _legends_before(self, line: Line) -> list[tuple[Column, Cell]]:
        """`pods: longest in the top four, inches      seed: mm`: the cells right before the last one that say how to read a
        column too."""
        out: list[tuple[Column, Cell]] = []
        for cell in reversed(line.cells[:-1]):
            legend = self._legend_of(line, cell)
            if legend is None:
                break
            out.insert(0, (legend, cell))
        return out

    def _behind_a_comma(self, cell: Cell) -> Cell | None:
        """`plants 1 to 5 in order, longest pod in 16ths`: the last part of what is told in a cell."""
        comma = next((i for i in range(cell.end - 2, cell.start, -1) if self.pieces[i].text == ","), None)
        if comma is None:
            return None
        return Cell(comma + 1, cell.end, self.pieces[comma + 1].column, cell.right)

    def _of_a_plant(self, line: Line) -> bool:
        """`4.  no pods   fl top node`, `north gate   a   9 tf   fl top node`: a label with its mark begins the line, or a
        count stands in a cell before the last."""
        label = self.labelled(line)
        if label is not None and self.pieces[label[1] - 1].text in {".", ")", ":"}:
            return True
        return any(
            e.kind in {"TRIF", "NODES"} and e.how == "exact" and self.pieces[i - 1].form == "int"
            for cell in line.cells[:-1]
            for i in range(cell.start + 1, cell.end)
            for e in self.lattice.edges[i]
        )

    def _legend_before_remarks(self, line: Line) -> None:
        """`Pods in 16ths of an inch. Velvetleaf on the E side.`: the first sentence of a line says how to read a column."""
        if line.number in self.cell_legends or self.is_row(line):
            return
        end = next((i for i in range(line.start + 1, line.end - 1) if ends_sentence(self.lattice, i)), None)
        if end is None or self._a_plant(line):
            return
        last = self.pieces[end]
        cell = Cell(line.start, end + 1, self.pieces[line.start].column, last.column + len(last.text))
        legend = read_legend(self.lattice, Line(line.number, line.start, end, (cell,)))
        if legend is not None:
            self.cell_legends[line.number] = [(legend, cell)]

    def _legend_in_brackets(self, line: Line) -> None:
        """`Elm Bend (pods in 8ths) 8/6`: brackets among the words of a head say how to read a column."""
        texts = [p.text for p in self.pieces[line.start : line.end]]
        if line.number in self.cell_legends or "(" not in texts[1:] or ")" not in texts or self.is_row(line):
            return
        a, b = line.start + texts.index("("), line.start + texts.index(")")
        if a + 1 >= b or a == line.start or self._of_a_plant(line):
            return
        cell = Cell(a, b + 1, self.pieces[a].column, self.pieces[b].column + 1)
        legend = read_legend(self.lattice, Line(line.number, a + 1, b, (cell,)))
        if legend is not None and legend.unit is not None:
            self.cell_legends[line.number] = [(legend, cell)]

    def _legend_behind_a_title(self, line: Line) -> None:
        """`7/30/91 Hatchery 20: biggest pod on top four in 16ths`, `Mill Pond 8/1, pods in mm:`: behind the field and the day."""
        if line.number in self.cell_legends or len(line.cells) != 1 or line.end - line.start > _LONGEST_LINE:
            return
        if line.number + 1 >= len(self.lines) or self.lines[line.number + 1].blank or not self._unit_among(line):
            return
        marks = [i for i in range(line.start + 1, line.end - 2) if self.pieces[i].text in {":", ","}]
        at = next((i for i in marks if self._day_among(line.start, i)), None)
        if at is None or self.is_row(line):
            return
        before = (e for i in range(line.start, at) for e in self.lattice.edges[i] if e.how == "exact")
        if any(e.kind in _NO_PLACE - {"MONTH"} for e in before):
            return
        cell = Cell(at + 1, line.end, self.pieces[at + 1].column, line.cells[0].right)
        legend = self._legend_of(line, cell)
        if legend is not None and legend.unit is not None:
            self.cell_legends[line.number] = [(legend, replace(cell, start=at))]

    def _unit_among(self, line: Line) -> bool:
        """`mm`, `inches`, `16ths`, behind a colon or a comma."""
        texts = [p.text for p in self.pieces[line.start : line.end]]
        first = next((k for k, x in enumerate(texts) if x in {":", ","}), len(texts))
        return any(
            x.endswith("ths") or self.lattice.kinds(line.start + k) & _UNITS for k, x in enumerate(texts) if k > first
        )

    def _day_among(self, a: int, b: int) -> bool:
        """Whether a day in figures or with its month stands among these pieces, and ends before piece b."""
        return any(
            ph.rule == "date" and ph.end <= b and ph.form not in {"ord_day", "weekday"}
            for i in range(a, b)
            for ph in phrases_at(self.lattice, i)
        )

    def _in_brackets(self, line: Line) -> bool:
        """`(T = top two ...)`: a line in brackets that explains signs, or one with several letters in brackets."""
        first, last = self.pieces[line.start].text, self.pieces[line.end - 1].text
        equals = any(self.pieces[i].text == "=" for i in range(line.start, line.end))
        letters = sum(
            self.pieces[i].text == "(" and len(self.pieces[i + 1].text) == 1 and self.pieces[i + 2].text == ")"
            for i in range(line.start, line.end - 2)
        )
        if letters > 1 and self.pieces[line.end - 1].text == ":":
            return True  # Pod full of bean (F), half (H):
        read = any(line.start <= a < line.end for a, _, _ in self.sign_spans)
        return equals and not read and (first, last) in {("(", ")"), ("[", "]")}

    def _told_of(self, line: Line) -> bool:
        """Whether some part of a line was read as a key or a legend."""
        spans = [*self.sign_spans, *((c.start, c.end, -1) for c in self.keyed_cells)]
        return line.number in self.cell_legends or any(line.start <= a < line.end for a, _, _ in spans)

    def _take_explained(self) -> None:
        for told in self.explained:
            self.signs += [s for s in told.signs if not s.figure and not (s.column is not None and s.column.label)]
            whole = told.start == self.lines[told.line].start
            self.sign_spans.append((told.start, told.end, told.line if whole else -1))
            if whole:
                self.key_lines[told.line] = ""
            for s in told.signs:
                if s.column is not None and s.column.known and not s.figure and not s.column.label:
                    self.keys[s.text] = s.column
            for legend in told.legends:
                if legend.what in (["trifoliates"], ["nodes"]) and told.signs and self.figure is None:
                    self.figure = legend
                    self.key_used.add(told.line)
                if legend.by_node == "down" and legend.what[0] in ORGANS:
                    own = set(range(told.start, told.end))
                    if number_nodes(self.lattice, self.pieces[legend.pieces[0]].text, own):
                        self.key_used.add(told.line)

    def _read_signs(self) -> None:
        told = {x.line for x in self.explained}
        for line, start, sign in letter_key(self.lattice, self.lines):
            if line.number in told:
                continue
            told.add(line.number)
            self.signs += [sign] if sign is not None else []
            self.sign_spans.append((start, line.end, line.number))
            self.key_lines[line.number] = ""
        gaps = gap_key(self.lattice, [line for line in self.lines if not line.blank])
        found = [
            (line, *read_signs(self.lattice, line))
            for line in self.lines
            if not line.blank
            and line.number not in told
            and not one_a_comma(self.lattice, line)
            and (
                any(self.pieces[i].text == "=" for i in range(line.start, line.end))
                or colons(self.lattice, line.start, line.end)
                or opens_key(self.lattice, line)
                or line in gaps
            )
        ]
        skip = {i for _, signs, _ in found for s in signs for i in range(s.at[0], s.meaning[1])}
        for line, signs, start in found:
            single = len(signs) == 1
            if (
                not signs
                or (
                    single
                    and signs[0].column is not None
                    and signs[0].column.known
                    and not (signs[0].figure or start > line.start or in_cells(self.lattice, signs[0]))
                )
                or not any(s.figure or s.suffix or used_elsewhere(self.lattice, s, skip) for s in signs)
            ):
                continue  # one thing explained on a line: read_key
            self.signs += signs
            self.sign_spans.append((start, line.end, line.number if start == line.start else -1))
            if start == line.start:
                self.key_lines[line.number] = ""
            for s in signs:
                if s.figure:
                    self.figure = s.column
                elif s.column is not None and s.column.known:
                    self.keys[s.text] = s.column
                elif s.column is None and not s.suffix and is_head_cell(self.lattice, *s.at):
                    self.keys[s.text] = Column(["note"], codes={s.text: s.meaning})  # x over the column, and x in it

    def headish(self, line: Line) -> bool:
        """Whether the words of a line may be heads at all."""
        if self._a_plant(line) or self._a_finding(line):
            return False
        if line.number not in self._headish:
            got = read_heads(self.lattice, [range(line.start, line.end)], self.keys)
            self._headish[line.number] = sum(len(c.unknown) for c in got) <= 3 and any(
                c.what or c.place or c.unit or c.by_node or c.branch for c in got
            )
        return self._headish[line.number]

    def _a_finding(self, line: Line) -> bool:
        """`bugs: bean leaf beetle, 4 in a foot of row`: an answer that names what was found."""
        if line.start + 2 >= line.end or self.lattice.at(line.start + 1) != ":":
            return False
        asked, *said = (
            any(e.kind in _FOUND and e.how == "exact" for e in self.lattice.edges[i])
            for i in range(line.start, line.end)
        )
        return asked and any(said)

    def names_beside(self, at: int) -> Grid | None:
        """Fields and plants with no heads of their own; what else stands on the line of heads is read as it is."""
        grid = find_names_beside(self.lattice, self.lines, at)
        if grid is not None:
            self.heads.append((grid.head[0], grid.head[-1] + 1))
        return grid

    def places_down(self, at: int) -> Grid | None:
        """Plants across and places down; what is counted stands over it, and apart from it."""
        head = self.turned_head(self.lines[at]) or self._under_fields(self.lines[at])
        if head is None and len(self.lines[at].cells) == 1:  # Open trifs on each plant, and under it the plants
            at = next((k for k in range(at + 1, min(at + 3, len(self.lines))) if not self.lines[k].blank), at)
            head = self.turned_head(self.lines[at])
        grid = find_places_down(self.lattice, self.lines, at, head, self.figure)
        if grid is None:
            return None
        over = [i for i in grid.head if i < grid.start]
        told = any(a <= over[0] < b for a, b, _ in self.sign_spans) if over else True  # it is a part of the key
        self.heads += [] if told else [(over[0], over[-1] + 1)]
        grid.head = [i for i in grid.head if i >= grid.start]
        return grid

    def _under_fields(self, line: Line) -> tuple[int, list[tuple[Cell, str]]] | None:
        """`field   1   2   3`: the plants behind the head of the fields."""
        if len(line.cells) <= _SHORT:
            return None
        corner = line.cells[0]
        if column_words().visits.get(head_tokens(self.lattice.original(corner.start, corner.end))) != "field":
            return None
        labels = self._labels_in_order(line.cells[1:])
        return (line.cells[1].start, labels) if labels is not None else None

    def told_heads(self, at: int) -> Grid | None:
        """Rows under a sentence that tells what their cells are of; what else stands on its line is read as it is."""
        grid = find_told_heads(self, at)
        if grid is not None:
            self.heads.append((grid.head[0], grid.head[-1] + 1))
        return grid

    def labelled_fields(self, at: int) -> Grid | None:
        """Fields with their labelled plants, under a legend that says what is counted."""
        if len(self.lines[at].cells) <= _SHORT:
            return None
        above = next((x for x in reversed(self.lines[max(0, at - 2) : at]) if not x.blank), None)
        if above is None:
            return None
        told = self.cell_legends.get(above.number, [])
        legend = told[-1][0] if told else self.legends.get(above.number)
        head = above.cells[-1]
        if legend is None and all(self._a_date(c) for c in above.cells[:-1]):  # Open trifoliates
            heads = read_heads(self.lattice, [range(head.start, head.end)], self.keys)
            legend = heads[0] if len(heads) == 1 and not heads[0].unknown else None
        grid = find_labelled_fields(self.lattice, self.lines, at, legend)
        if grid is not None and told:
            self.used_cells.append(told[-1][1])
        elif grid is not None and above.number in self.legends:
            self.used_legends.add(above.number)
        elif grid is not None:
            self.heads.append((head.start, head.end))
        return grid

    def titled_head(self, at: int) -> Grid | None:
        """`OSTBY     9/17/25     brn pods / pods counted` over `pl 1    14/30`: the head ends the line of name and day."""
        line = self.lines[at]
        dated = [k for k, c in enumerate(line.cells) if self._a_date(c)]
        tail = line.cells[dated[-1] + 1 :] if dated else ()
        while tail and not read_heads(self.lattice, [range(tail[0].start, tail[0].end)], self.keys):
            tail = tail[1:]  # read as:
        told = () if tail else last_sentence(self.lattice, line)
        tail = tail or told
        first = at + 1
        first += first < len(self.lines) and self.lines[first].blank
        if (
            tail
            and first + 1 < len(self.lines)
            and not self.lines[first].blank
            and self._name_between(self.lines[first])
        ):
            first += 1  # the field's name stands between
        if not tail or first >= len(self.lines) or not self.is_row(self.lines[first]):
            return None
        down = bool(told) and first + 1 < len(self.lines) and self.is_row(self.lines[first + 1])
        if self.turned_head(self.lines[first]) is not None and not down:
            return None  # pl 1   pl 2   pl 3: the plants stand across
        columns = head_columns(self.lattice, [Line(line.number, tail[0].start, line.end, tail)], self.keys)
        if columns is None or any(c.unknown or not c.known for c in columns):
            return None
        if told and len(columns) == 1:
            columns[0].left = 0  # told in words, and over no column of the page
        grid = self.rows_under(columns, first, False)
        if grid is None:
            return None
        grid.rows = list(itertools.takewhile(lambda row: row.label is not None, grid.rows))
        ends = [cell[-1][1] for row in grid.rows for cell in row.cells.values()]
        if not ends:
            return None
        grid.last = next(x.number for x in self.lines if not x.blank and x.start < max(ends) <= x.end)
        grid.end, grid.head = self.lines[grid.last].end, []
        self.heads.append((tail[0].start, line.end))
        return grid

    def headed(self, at: int) -> Grid | None:
        """A table whose head begins at line `at`."""
        lines = self.lines
        first_row = at
        head: list[Line] = []
        apart: int | None = None  # the line of a field's name between the head and its rows
        while first_row < len(lines) and len(head) <= 4:
            line = lines[first_row]
            if line.blank or self.ruled(line):
                if not head:
                    return None
            elif not head and (self._first_of_rows(line) or any(self._a_date(c) for c in line.cells)):
                return None  # a title, and perhaps heads behind the day: titled_head
            elif head and self.worded_labels(line) is not None:
                return None  # the plants stand across: what was above is a legend
            elif head and (self.is_row(line) or self._unlabelled_row(line, head) or self._stopped_row(line, head)):
                break
            elif line.number in self.legends and head and line.number not in self.key_lines and self._alone(line, head):
                pass  # a legend between head and rows
            elif head and apart is None and self._name_between(line):
                apart = first_row
            elif line.end - line.start > _LONGEST_LINE or not self.headish(line):
                return None
            else:
                head.append(line)
            first_row += 1
        else:
            return None
        if not head or len(head) > 4 or first_row >= len(lines):
            return None
        between = [lines[k] for k in range(at, first_row) if lines[k] not in head and lines[k].number in self.legends]
        stroked = self._separator(head) == "/"  # plant / trifs / nodes, said once over the tables of several fields
        columns = self._delimited_head(head[0], "/") if stroked else head_columns(self.lattice, head, self.keys)
        if columns is None or _of_no_plant(columns) or (len(columns) == 1 and self._between_plants(at, first_row)):
            return None
        corner = self._stop_corner(columns, lines[first_row])
        columns = self._with_places(columns, lines[first_row]) if corner is None else columns
        named = self._named_corner(columns, first_row)
        ending = self.label_at_end(columns, first_row)
        columns = [*columns, ending] if ending is not None else columns
        grid = self.rows_under(columns, first_row, False)
        if grid is None or (len(columns) == 1 and self._under_a_legend(columns[0], grid.rows)):
            return None
        grid.head = [i for line in (*head, *between) for i in range(line.start, line.end)]
        if apart is not None:
            self.heads.append((lines[at].start, lines[apart - 1].end))
            grid.head = [i for i in grid.head if i >= grid.start]
        else:
            grid.start, grid.first = lines[at].start, at
        for line in between:
            self._apply_line(line.number, grid.columns)
            self.used_legends.add(line.number)
        for row in grid.rows if corner is not None else ():
            row.stop = corner
        if named is not None:
            grid.name = named
            grid.head = [i for i in grid.head if not named[0] <= i < named[1]]
        return grid

    def _under_a_legend(self, legend: Column, rows: list[Row]) -> bool:
        """`Pods in 16ths` over `1)  12 tri   pod 4`: the rows say themselves what their figures are of."""
        spans = [spans for row in rows if (spans := [x for cells in row.cells.values() for x in cells])]
        return bool(legend.what) and any(
            self._told_with_its_own(legend.what[0], min(a for a, _ in x), max(b for _, b in x)) for x in spans
        )

    def _between_plants(self, at: int, below: int) -> bool:
        """`Plant 1: 9 trifs` over `bloom at the top node` over `Plant 2: 10 trifs`: said of the plant above, and no head."""
        nxt = self.labelled(self.lines[below])
        above = at - 1
        while nxt is not None and at - above <= _LINES_OF_A_PLANT and above >= 0:
            here = self.labelled(self.lines[above]) if not self.lines[above].blank else None
            if here is not None:
                return follows(here[0][-1], nxt[0][0])
            above -= 1
        return False

    def _stop_corner(self, columns: list[Column], row: Line) -> tuple[int, int] | None:
        """`Stop A   tri   fl` over rows 1, 2, 3: the stop stands over the labels, and no column of stops."""
        first = columns[0]
        if first.what != ["stop"] or len(first.pieces) < _SHORT or any(c.label for c in columns):
            return None
        a, b = first.pieces[0], first.pieces[-1] + 1
        found = self.labelled(row)
        if not is_stop(self.lattice, Cell(a, b, first.left, first.right)) or found is None or found[0][0] not in _FIRST:
            return None
        first.what, first.unknown, first.place = ["plant"], [], None
        return stop_at(self.lattice, Cell(a, b, first.left, first.right))

    def _named_corner(self, columns: list[Column], first_row: int) -> tuple[int, int] | None:
        """`TANNERY   tri   pod   fl` over rows 1, 2, 3: the name of the field stands over the labels, in capitals that the heads have not."""
        first = columns[0]
        if first.known or not first.unknown or not first.pieces or any(c.label for c in columns):
            return None
        a, b = first.pieces[0], first.pieces[-1] + 1
        others = [i for c in columns[1:] for i in c.pieces if self.pieces[i].form == "word"]
        rows = [x for x in self.lines[first_row : first_row + 2] if not x.blank]
        labels = [found[0][0] for x in rows if (found := self.labelled(x)) is not None]
        if labels not in (["1", "2"], ["A", "B"], ["a", "b"]):
            return None
        first.what = ["plant"]
        titled = self._capitals(range(a, b)) or self._titled_words(a, b)
        lower = all(self.lattice.original(i, i + 1).islower() for i in others)
        if first.pieces != list(range(a, b)) or not titled or not (lower or not self._capitals(others)):
            return None  # labels under a word that is not understood
        if not self._capitals(range(a, b)) and not lower:
            return None
        first.unknown, first.place = [], None
        return a, b

    def _titled_words(self, a: int, b: int) -> bool:
        """`Mill Pond`, `Hobb's Acre`: more than one word, each with its capital."""
        words = [self.lattice.original(i, i + 1) for i in range(a, b) if self.pieces[i].form == "word"]
        return len(words) > 1 and all(w[:1].isupper() or w == "'s" for w in words)

    def _capitals(self, run: Sequence[int]) -> bool:
        """Words of more than two letters, all of them in capitals."""
        words = [self.lattice.original(i, i + 1) for i in run if self.pieces[i].form == "word"]
        return any(len(w) > _SHORT for w in words) and all(w.isupper() for w in words)

    def named_again(self, at: int, columns: list[Column]) -> Grid | None:
        """`GRAVEYARD RD.` alone on a line, and under it rows 1, 2 ... of the head above: the next field of the page."""
        line = self.lines[at]
        if len(line.cells) != 1 or line.end - line.start > _LONGEST_NAME or at + 1 >= len(self.lines):
            return None
        found = self.labelled(self.lines[at + 1])
        if not self._capitals(range(line.start, line.end)) or found is None or found[0][0] not in {"1", "A", "a"}:
            return None
        grid = self.again(at + 1, columns)
        if grid is not None:
            grid.name = (line.start, line.end)
            grid.start, grid.first = line.start, at
        return grid

    def _name_before(self, grid: Grid, first_of_page: bool) -> None:
        """`MILL POND      trif` over the rows of a further field, `North end   trif`: its name or the stop stands before the
        head."""
        line = next(x for x in self.lines[max(0, grid.first - 2) :] if grid.start < x.end)
        first = line.cells[0] if line.cells else None
        if (
            first is None
            or grid.name is not None
            or len(line.cells) != _NAME_AND_HEAD
            or grid.start != line.cells[1].start
        ):
            return
        if is_stop(self.lattice, first):
            for row in grid.rows:
                row.stop = row.stop or stop_at(self.lattice, first)
            grid.start, grid.head = line.start, [*range(first.start, first.end), *grid.head]
            return
        words = [self.lattice.original(i, i + 1) for i in range(first.start, first.end)]
        titled = all(w[:1].isupper() or w.isdigit() or w in {"'s", ".", "'"} for w in words) and words[0].isalpha()
        if not titled or len(words) > _LONGEST_NAME or self._a_date(first) or first_of_page:
            return
        kinds = {e.kind for e in self.lattice.edges[first.start] if e.how == "exact"}
        if kinds & (_NO_PLACE | _FOUND) or self.labelled(line) is not None:
            return
        grid.name = first.start, first.end
        grid.start = line.start

    def _name_between(self, line: Line) -> bool:
        """One cell of words, and a row right under it: the name of the field or stop whose rows follow."""
        nxt = self.lines[line.number + 1] if line.number + 1 < len(self.lines) else None
        bracket = next((i for i in range(line.start, line.end) if self.pieces[i].text == "("), line.end)
        planted = bracket < line.end and self.pieces[line.end - 1].text == ")"  # Levee 14 (planted 5/24)
        if planted:
            line = Line(line.number, line.start, bracket, line.cells, line.tabbed)
        elif len(line.cells) == 2 and self._planted(line.cells[1]):
            planted = True  # HALL PLACE       pl. 5-18
            line = Line(line.number, line.start, line.cells[0].end, line.cells[:1], line.tabbed)
        return (
            len(line.cells) == 1
            and 0 < line.end - line.start <= _LONGEST_NAME
            and self.pieces[line.start].form == "word"
            and nxt is not None
            and not nxt.blank
            and self.is_row(nxt)
            and (planted or self._of_a_stop(line) or self._on_a_side(line) or not self.headish(line))
        )

    def _on_a_side(self, line: Line) -> bool:
        """`PETRUS NO.`, `Petrus So.`: the north or the south one of two fields, and no number of anything."""
        words = [i for i in range(line.start, line.end) if self.pieces[i].form == "word"]
        side = len(words) > 1 and self.pieces[words[-1]].text in {"no", "so"}
        return side and not self.lattice.known[words[0]] and line.end - words[-1] <= _STOPPED

    def _planted(self, c: Cell) -> bool:
        found = phrases_at(self.lattice, c.start)
        return any(p.rule in {"planted", "emerged"} and p.end == c.end for p in found)

    def _of_a_stop(self, line: Line) -> bool:
        """`Stop 2, far side`: a stop with its number or letter."""
        k = next((e.end for e in self.lattice.edges[line.start] if e.kind == "STOP"), line.end)
        return k < line.end and (self.pieces[k].form == "int" or len(self.pieces[k].text) == 1)

    def narrow(self, at: int) -> Grid | None:
        """A table without gaps: heads and cells parted by one blank (`pl tf nd fl pd`), by commas or by drawn lines."""
        line = self.lines[at]
        if line.blank or line.end - line.start > _LONGEST_LINE or self._a_plant(line) or self._first_of_rows(line):
            return None
        first_row = at + 1
        while first_row < len(self.lines) and not self.lines[first_row].blank and self.ruled(self.lines[first_row]):
            first_row += 1
        if first_row >= len(self.lines) or self.lines[first_row].blank:
            return None
        separator = self._separator([line])
        first = self.pieces[line.start].text, self.pieces[self.lines[first_row].start].text
        open_left = first[0] == separator and first[1] != separator  # the mark behind an empty cell over the labels
        columns = self._delimited_head(line, separator, False if open_left else None) if separator is not None else None
        if separator == "/":
            separator = None  # plant / trifs / nodes, over rows with blanks between
        if columns is None:
            separator = None
            if len(line.cells) > 1 or not self.headish(line) or self._a_sentence(line):
                return None
            columns = split_line(self.lattice, line.start, line.end, self.keys)
            if (len(columns) < 3 and not (len(columns) == 2 and columns[0].label)) or _of_no_plant(columns):
                return None
        grid = self.rows_under(
            columns, first_row, separator is None, separator, first[0] == separator and not open_left
        )
        if grid is None or (separator is None and 2 * sum(not row.loose for row in grid.rows) < max(2, len(grid.rows))):
            return None
        grid.head = list(range(line.start, line.end))
        grid.start, grid.first = line.start, at
        return grid

    def _a_plant(self, line: Line) -> bool:
        """`plant one seeds touching`: what is said of a plant, and no head (`plant 1 2 3` is one, turned)."""
        edges = self.lattice.edges
        for e in edges[line.start]:
            k = e.end + 1
            if e.kind != "PLANT" or k >= line.end or self.pieces[e.end].form not in {"int", "word"}:
                continue
            figures = [n for n in edges[e.end] if n.kind == "INT"]
            if len(line.cells) > 1 and line.cells[0].end == k and any(n.how == "figure" for n in figures):
                if any(n.kind == "TRIF" for n in self._behind_a_figure(line.cells[1].start)):
                    return True  # plant I     1O tri.
            if not any(n.how in {"number", "exact"} for n in figures):
                continue
            if self.pieces[k].form == "word":
                return True
            if k + 1 < line.end and len(line.cells) == 1 and any(n.kind == "TRIF" for n in edges[k + 1]):
                return True  # plant 1 6 trifs
        return False

    def _a_date(self, c: Cell) -> bool:
        """`21 Sept 09`, `Pencil sheets, 21 Sept 09`."""
        return any(
            ph.rule == "date" and ph.end == c.end and ph.form not in {"ord_day", "weekday"}
            for i in (c.start, *(k + 1 for k in range(c.start + 1, c.end - 1) if self.pieces[k].text == ","))
            for ph in phrases_at(self.lattice, i)
        )

    def _a_sentence(self, line: Line) -> bool:
        """`Cocklebur waist high in the draw. Beans are 34 inches tall.`: a sentence ends in it, and another begins."""
        return any(
            ends_sentence(self.lattice, i)
            and self.lattice.original(i + 1, i + 2)[:1].isupper()
            and self.pieces[i + 1].form == "word"
            and len(self.pieces[i + 1].text) > _SHORT
            and len(self.pieces[i - 1].text) > _SHORT
            and not self.lattice.original(i - 1, i)[:1].isupper()
            for i in range(line.start + 1, line.end - 2)
            if self.pieces[i].text == "."
        )

    def _first_of_rows(self, line: Line) -> bool:
        """`a   seed 1/8 in.` over `b   seed touching`: a row with its label, whatever its words, and no head."""
        if any(numbered_below(self.lattice, c.start) for c in line.cells[1:]):
            return True  # Lot 7     1 - no brown pods, and under it 2 - one brown pod
        below = next((x for x in self.lines[line.number + 1 : line.number + 3] if not x.blank), None)
        here, nxt = self.labelled(line), self.labelled(below) if below is not None else None
        if (
            here is not None
            and here[2]
            and not here[3]
            and (here[0][-1].isdigit() or self._says_plant(line))
            and self.pieces[here[1]].form == "word"
        ):
            return True  # #2  no pods brown; Pl. A  pod full
        if here is None or nxt is None or not self.is_row(line):
            return False
        return follows(here[0][-1], nxt[0][0])

    def _says_plant(self, line: Line) -> bool:
        """`Pl. A` in one cell, and not `pl     t     n` over columns."""
        first = line.cells[0]
        return first.end - first.start > 1 and any(e.kind == "PLANT" for e in self.lattice.edges[line.start])

    def _behind_a_figure(self, at: int) -> list[Edge]:
        """What may stand behind the number at piece `at`."""
        edges = self.lattice.edges
        return [e for n in edges[at] if n.kind == "INT" and n.end < len(edges) for e in edges[n.end]]

    def _alone(self, line: Line, head: Sequence[Line]) -> bool:
        """A legend that is no part of a stacked head: it stands under no head cell, or is the whole line from the left."""
        return len(line.cells) == 1 and head_columns(self.lattice, [*head, line], self.keys) is None

    def rows_under(
        self, columns: list[Column], at: int, single: bool, separator: str | None = None, bordered: bool | None = None
    ) -> Grid | None:
        """The rows under known heads, wherever their label stands."""
        if separator is None and self.needs_inside(columns):
            return self.inside_rows(columns, at, single)
        return self._rows(columns, at, single, separator, bordered)

    def _with_places(self, columns: list[Column], line: Line) -> list[Column]:
        """`by gate   1   38/40` under `plant   ripe pods / all pods`: a place stands left of the label, under no head."""
        if len(line.cells) <= _SHORT or not columns[0].label or any(c.what == ["stop"] for c in columns):
            return columns
        first, second = line.cells[:2]
        label = labels_of(self.lattice, second.start, second.end)
        kinds = {e.kind for i in range(first.start, first.end) for e in self.lattice.edges[i] if e.how == "exact"}
        words = self.pieces[first.start].form == "word" and first.end - first.start <= _LONGEST_NAME
        if label is None or not words or first.right > columns[0].left or kinds & _NO_PLACE:
            return columns
        titled = all(self.lattice.original(i, i + 1)[:1].isupper() for i in range(first.start, first.end))
        if titled and not kinds & (_PLACES - {"FIELDNOUN"}):
            return columns  # ELM SPRING   a   1 1/2: a field
        if not (kinds & _PLACES or is_stop(self.lattice, first)):
            return columns
        return [Column(["stop"], [], first.left, max(first.right, columns[0].left - 2)), *columns]

    def _stopped_row(self, line: Line, head: Sequence[Line]) -> bool:
        """A row that begins with the words of a stop, under heads with a column for stops."""
        columns = head_columns(self.lattice, head, self.keys)
        columns = self._with_places(columns, line) if columns is not None else None
        if columns is None or not self.needs_inside(columns):
            return False
        if self.headish(line) and not any(self.pieces[i].form in {"int", "dec"} for i in range(line.start, line.end)):
            return False
        return self._inside_row(line, columns, self._reach(columns, line.number, False), False) is not None

    def _unlabelled_row(self, line: Line, head: Sequence[Line]) -> bool:
        """A row without a label under heads without a column for it."""
        columns = head_columns(self.lattice, head, self.keys)
        if columns is None or any(c.label for c in columns) or len(columns) < 2:
            return False
        if self.headish(line):
            return False
        cells = line.cells if len(head[-1].cells) > 1 else cut(self.pieces, line.start, line.end, 1)
        return len(cells) == len(columns) and any(p.form in {"int", "dec"} for p in self.pieces[line.start : line.end])

    def _separator(self, head: Sequence[Line]) -> str | None:
        if len(head) != 1:
            return None
        here = self.pieces[head[0].start : head[0].end]
        texts = [p.text for p in here]
        marks = "|;," if any(p.form in {"int", "dec"} for p in here) else "|;,/"  # 2/3 is no head
        several = next((m for m in marks if texts.count(m) >= 2), None)
        return several or ("|" if self._one_bar(head[0]) else None)

    def _one_bar(self, line: Line) -> bool:
        """`plt | tf` over `1 | 8`: two columns with one drawn line between them."""
        below = [x for x in self.lines[line.number + 1 : line.number + _SHORT + 1] if not x.blank and not self.ruled(x)]
        bars = [[k for k in range(x.start, x.end) if self.pieces[k].text == "|"] for x in (line, *below[:1])]
        inside = all(len(b) == 1 for b in bars) and line.start < bars[0][0] < line.end - 1
        return inside and len(bars) > 1 and self.pieces[bars[1][0] - 1].form == "int"

    def _delimited_head(self, line: Line, mark: str, bordered: bool | None = None) -> list[Column] | None:
        columns: list[Column] = []
        cells = cut_at(self.pieces, line.start, line.end, mark, bordered)
        if len(cells) > 1 and cells[0].tab == 1:
            columns.append(Column(["plant"]))  # nothing over the labels
        for cell in cells:
            columns += [Column() for _ in range(len(columns), cell.tab)]  # a head that is left out
            got = read_heads(self.lattice, [range(cell.start, cell.end)], self.keys)
            at_its_node(self.lattice, got, columns)
            if len(got) == 1:
                columns.append(got[0])
            elif columns and is_where(self.lattice, cell) and columns[-1].what[:1] in SEEN:
                columns.append(where_column(cell, columns[-1]))
            else:
                columns.append(_strange_column(cell, self.pieces))
        known = [c for c in columns if c.known and not c.unknown]
        return columns if len(known) >= 3 or (len(known) == len(columns) >= 2 and any(c.label for c in known)) else None

    def _apply(self, legend: Column, columns: Sequence[Column]) -> bool:
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

    def _apply_line(self, number: int, columns: Sequence[Column]) -> bool:
        """Add what all legends of a line say."""
        hits = [self._apply(x, columns) for x in (self.legends[number], *self.more_legends.get(number, []))]
        return any(hits)

    def around(self, grid: Grid) -> None:
        """Legends above and below a table, with nothing but blank lines between; and those at the head of the page, over
        the tables of several fields."""
        over: list[Column] = []
        for step, at in ((-1, grid.first - 1), (1, grid.last + 1)):
            k, blanks, titles = at, 0, 0
            while 0 <= k < len(self.lines) and blanks <= 1:
                line = self.lines[k]
                if line.blank:
                    blanks += 1
                elif line.number in self.key_lines and (step < 0 or self.key_lines[line.number] == ""):
                    pass
                elif (
                    line.number in self.legends
                    and line.number not in self.used_legends
                    and self._apply_line(line.number, grid.columns)
                ):
                    self.used_legends.add(line.number)
                    over += [self.legends[line.number], *self.more_legends.get(line.number, [])] if step < 0 else []
                    blanks = 0
                else:
                    told = self.cell_legends.get(line.number, [])
                    if not told and step < 0 and titles < _MOST_TITLES and self._a_title(line):
                        titles += 1
                        k += step
                        continue
                    own = (
                        step > 0 and k + 1 < len(self.lines) and self.is_row(self.lines[k + 1])
                    )  # of the rows under it
                    for legend, cell in told if not own else []:
                        if cell.start != grid.start and self._apply(legend, grid.columns):
                            self.used_cells.append(cell)
                            over += [legend] if step < 0 else []
                    break
                k += step
        self.over_all = over or self.over_all
        for said in self.over_all:
            self._apply(said, grid.columns)

    def _a_title(self, line: Line) -> bool:
        """A line of words, or `HATCHERY 20   8/2/91`: a name with its number, and perhaps a day behind it."""
        if not self._figures(line):
            return True
        name, *rest = line.cells
        words = self.pieces[name.start : name.end - 1]
        kinds = {e.kind for e in self.lattice.edges[name.start] if e.how == "exact"}
        named = all(p.form == "word" for p in words) and not kinds & _NO_PLACE and self.labelled(line) is None
        numbered = self.pieces[name.end - 1].form == "word" or bool(words)
        return (
            named and numbered and len(words) < _LONGEST_NAME and all(self._a_date(c) or self._planted(c) for c in rest)
        )

    def _figures(self, line: Line) -> bool:
        return any(self.pieces[i].form in {"int", "dec", "dmy", "big"} for i in range(line.start, line.end))

    def again(self, at: int, columns: list[Column], last: Grid | None = None) -> Grid | None:
        """Rows of the next field under the head of the first; one row, where its label follows on that of the last."""
        things = [c for c in columns if not c.label]
        if not things:
            return None
        if not self.is_row(self.lines[at]):
            return None
        found = self.labelled(self.lines[at])
        before = next((row.labels for row in reversed(last.rows) if row.labels), ()) if last is not None else ()
        on = bool(before) and found is not None and follows(before[-1], found[0][0])
        for line in self.lines[at : at + (1 if on else 2)]:
            if line.blank or not self.is_row(line):
                return None
            found = self.labelled(line)
            if found is None:
                return None
            cells = self.rest_cells(line, found[1], False)
            where = under([(c.left, c.right) for c in cells], [(c.left, c.right) for c in things], far=1)
            if None in where or not cells:
                return None
        return self._rows(columns, at, False)

    def _blocks(self, at: int) -> Grid | None:
        """Blocks of labels and figures side by side, if they begin here."""
        beside = next(iter(find_blocks(self.lattice, self.lines, at, self.figure)), None)
        return (
            beside
            or find_matrix(self.lattice, self.lines, at, self.figure)
            or find_unlabelled(self.lattice, self.lines, at)
        )

    def find(self) -> list[Grid]:
        out: list[Grid] = []
        columns: list[Column] | None = None
        last: Grid | None = None
        k = 0
        while k < len(self.lines):
            line = self.lines[k]
            if line.blank or k in self.key_lines or k in self.aside:
                k += 1
                continue
            told = find_told_rows(self, k) if columns is None else None
            grid = (
                told
                or find_ticked(self.lattice, self.lines, k)
                or self.told_heads(k)
                or find_dated(self.lattice, self.lines, k)
                or find_plants_across(self.lattice, self.lines, k)
                or find_field_rows(self.lattice, self.lines, k)
                or self.names_beside(k)
                or find_signs_under(self, k, self.signs, self.figure)
                or find_coded(self.lattice, self.lines, k, self.signs)
                or find_signed(self.lattice, self.lines, k, self.signs)
                or find_turned_marks(self.lattice, self.lines, k)
                or find_labelled(self.lattice, self.lines, k)
                or self.labelled_fields(k)
                or find_placed(self.lattice, self.lines, k)
                or self._blocks(k)
                or keyed(self, k, self.signs)
                or find_asked_rows(self.lattice, self.lines, k)
                or find_filled(self.lattice, self.lines, k)
                or find_sheet(self.lattice, self.lines, k)
                or find_place_lists(self.lattice, self.lines, k)
                or self.places_down(k)
                or self.turned(k)
                or self.in_order(k)
                or find_labelled_values(self, k, set(self.key_lines))
                or self.pairs(k)
                or self.pairs_beside(k)
                or self.narrow(k)
                or self.headed(k)
                or self.titled_head(k)
            )
            if grid is None and columns is not None:
                grid = self.named_again(k, columns) or self.again(k, columns, last) or find_told_rows(self, k)
            if grid is None:
                if tells_order(self.lattice, line):
                    self.strange_keys.add(k)
                k += 1
                continue
            follow_on(self.lattice, self.lines, last, grid)
            self._name_before(grid, last is None)
            last = grid
            if grid.columns is not columns and not grid.goes_on:
                self.around(grid)
            self.key_used |= apply_explained(grid.columns, self.explained)
            own_the_nodes(grid.columns)
            if any(c.unknown for c in grid.columns):
                filled_by_cells(self.lattice, grid)
                sentences_by_cells(self.lattice, grid)
            apply_codes(self.lattice, grid, self.signs)
            apply_footnotes(self.lattice, grid, self.footnotes)
            for other in self.more:
                self.around(other)
                self.key_used |= apply_explained(other.columns, self.explained)
                apply_codes(self.lattice, other, self.signs)
                apply_footnotes(self.lattice, other, self.footnotes)
            by_key = bool(self.key_lines) and any(
                i < line.start or i >= grid.end for c in grid.columns for i in c.pieces
            )
            headless = by_key or not any(c.pieces for c in grid.columns)
            if any(c.label for c in grid.columns) or (all(row.labels for row in grid.rows) and not headless):
                columns = grid.columns
            out += [*titled_blocks(self.lattice, self.lines, grid), *self.more]
            self.more = []
            k = grid.last + 1
        for told_of in self.explained:
            if told_of.line not in self.key_used and (told_of.legends or any(s.figure for s in told_of.signs)):
                self.strange_keys.add(told_of.line)  # what it explains was not found
                self.sign_spans = [x for x in self.sign_spans if x[0] != told_of.start]
        return out


def _of_no_plant(columns: Sequence[Column]) -> bool:
    """`Frogeye at stop 3, a few lesions.`: heads of findings and stops alone are words of a sentence."""
    return all(not c.known or c.what[0] in {"finding", "stop", "note"} for c in columns)


def _strange_column(cell: Cell, pieces: Sequence[Piece]) -> Column:
    """A column whose head is not understood: its cells stay unread."""
    own = list(range(cell.start, cell.end))
    words = [i for i in own if pieces[i].form != "mark"]
    return Column([], own, cell.left, cell.right, unknown=words or own)


__all__ = ["Finder", "Grid", "Row"]
