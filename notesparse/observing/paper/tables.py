"""Tables of old paper and of thumbed lists: column heads give meaning, unit and place to every cell (guide 4.21).

`grid` finds where the tables stand, `ticks` the counts by class; here they are read row by row into the current visit.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.observing import organs
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.observing.lists import find_lists
from notesparse.observing.paper.answers import Answer, find_answers, read_answer
from notesparse.observing.paper.boxes import find_boxes
from notesparse.observing.paper.cells import Reader
from notesparse.observing.paper.classlists import find_class_lists
from notesparse.observing.paper.counts import Counts, find_counts, read_counts
from notesparse.observing.paper.grid_reading import read_grid
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
from notesparse.observing.paper.paired import find_paired
from notesparse.observing.paper.plants_last import find_plants_last
from notesparse.observing.paper.pod_units import PodUnit, find_pod_unit
from notesparse.observing.paper.row_labels import follows
from notesparse.observing.paper.rows import Grid
from notesparse.observing.paper.runlists import find_runs
from notesparse.observing.paper.slashed import find_slashed
from notesparse.observing.paper.ticks import Class, find_classes, head_over, over_columns, read_classes, strokes_alone
from notesparse.observing.paper.told_apart import told_apart
from notesparse.observing.paper.told_heads import under_told_heads
from notesparse.observing.paper.told_rows import lost_dittos
from notesparse.reading.parse import Phrase, phrases_at
from notesparse.text.columns import Cell, Line
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/tables")

_PAGE = re.compile(
    r"(?:(?:notebook|fieldbook|book|bk|nb|pad|vol)\.?(?:no\.?|#)?\d{0,3},?)?"
    r"(?:page|sheet|card|pg\.?|pageno\.?)\d{1,3}(?:(?:of|/)\d{1,3})?|(?:notebook|fieldbook|book|bk|nb|pad|vol)\.?\d{0,3},?p\.?\d{1,3}"
)
_OF_ALL = frozenset({"fl_no", "fl_buds", "fl_past", "pod_no", "seed_no", "no_brown", "pods_green"})
_MATURITY = _LISTED.words("maturity")
_OF_ALL_NAMED = frozenset({"top_rolled", "top_unrolled", "top_open"})  # of all only where they are named
_COUNTED = frozenset({"trif", "nodes"})
_EACH = _COMMON.words("each")
_OF_PLANTS = frozenset(
    {"PLANT", "INT", "INTSOUND", "ORD", "POD", "SEED", "BEAN", "FLOWER", "TRIF", "NODES", "NODE", "R", "V"}
)
_EXCEPT = _LISTED.words("except")
_SHORT_PAGE = re.compile(r"p\.\d{1,3}")


@dataclass(frozen=True, slots=True)
class Table:
    """A table at pieces [start, end) and lines [first, last] of the note (counted from 0)."""

    start: int
    end: int
    first: int
    last: int
    grid: Grid | None = None
    classes: tuple[Class, ...] = ()
    counts: Counts | None = None
    of_all: bool = False  # words under a table that are said of all its plants
    page: bool = False  # a page number
    answer: Answer | None = None
    why: str = ""  # why none of it is read
    signs: frozenset[str] = frozenset()  # letters that the key explains as what a cell says
    at_node: str | None = None  # how the key of the page counts nodes: down, up
    pod_unit: PodUnit | None = None  # in what the page tells its bare lengths of pods


def _questions(lattice: Lattice, lines: Sequence[Line], g: Grid) -> bool:
    """`bloom? top node` above `plant 2 tf? 11`: questions and answers line by line, and no head with rows."""

    def asks(line: Line) -> bool:
        pieces = lattice.pieces
        marks = [i for i in range(line.start, line.end) if pieces[i].text == "?"]
        return len(marks) == 1 and line.start < marks[0] < line.end - 1 and pieces[marks[0] - 1].form == "word"

    over = [n for n in lines if not n.blank and any(n.start <= i < n.end for i in g.head)]
    rows = [n for n in lines if g.first <= n.number <= g.last and not n.blank and n not in over]
    return bool(over) and any(asks(n) for n in over) and any(asks(n) for n in rows)


def find_tables(lattice: Lattice) -> list[Table]:
    """The tables of a note, in order; the key and legend lines that they use are tables without rows."""
    numbered = node_signs(lattice)
    page = read_page(lattice)
    counted = find_counts(lattice, page.lines)
    page.aside |= {n for c in counted for n in range(c.first, c.last + 1)}
    slashed, unheaded = find_slashed(lattice, page.lines, page.aside | under_told_heads(page))
    page.aside |= unheaded | {n for g in slashed for n in range(g.first, g.last + 1)}
    paired = find_paired(lattice, page.lines, page.signs, page.figure, page.aside | set(page.key_lines))
    page.aside |= {n for g in paired for n in range(g.first, g.last + 1)}
    behind = find_plants_last(lattice, page.lines, page.aside | set(page.key_lines))
    page.aside |= {n for g in behind for n in range(g.first, g.last + 1)}
    grids = sorted([*slashed, *paired, *behind, *find_grids(page)], key=lambda g: g.start)
    grids = [g for g in grids if not _questions(lattice, page.lines, g)]
    aside = page.aside | set(page.key_lines) | set(page.legends)
    doubt = doubtful(lattice, page.lines, [g for g in grids if g.first <= g.last], aside)
    dropped = [g for g in grids if g.first <= g.last and g.first in doubt]
    grids = [g for g in grids if g not in dropped]
    page.heads = [(a, b) for a, b in page.heads if not _of_the_dropped(b, grids, dropped)]
    page.used_cells = [c for c in page.used_cells if not _of_the_dropped(c.end, grids, dropped)]
    for line in page.lines:
        if line.number in page.strange_keys:
            not_explained(lattice, line, grids)
    counts = [Table(page.lines[c.first].start, page.lines[c.last].end, c.first, c.last, counts=c) for c in counted]
    out = counts + [Table(g.start, g.end, g.first, g.last, g) for g in grids]
    for first, last in runs_of(doubt | unheaded):
        out.append(Table(page.lines[first].start, page.lines[last].end, first, last, why=STRANGE))
    taken = {n for t in out for n in range(t.first, t.last + 1)}
    used = {lattice.pieces[i].text for g in grids for i in g.head}
    legends = page.used_legends | {n for n, letter in page.key_lines.items() if letter in used}
    for n, letter in page.key_lines.items():
        sign = None if n in legends else behind_counts(lattice, page.lines[n], letter, page.keys.get(letter))
        if sign is not None:
            page.signs.append(sign)
            legends.add(n)
    at_node = explain(lattice, page.signs)
    for n in sorted(legends - taken):
        line = page.lines[n]
        out.append(Table(line.start, line.end, n, n))
    for note in page.footnotes:
        if note.line not in taken:
            told = note.used or any(s.at[0] == note.start for s in page.signs)
            why = "" if told else "a footnote that is not understood"
            out.append(Table(note.start, note.words[1], note.line, note.line, why=why))
            legends.add(note.line)
    out += [Table(a, b, 1, 0) for a, b in page.heads]
    for cell in page.used_cells:
        out.append(Table(cell.start, cell.end, 1, 0))
    for line in page.lines:
        if line.number not in taken | legends and is_title(lattice, line):
            out.append(Table(line.start, line.end, line.number, line.number, page=True))
            legends.add(line.number)
    for a, b, number in page.sign_spans:
        if number not in taken | legends and not any(t.start <= a < t.end for t in out):
            letters = frozenset(
                s.text
                for s in page.signs
                if s.column is None and len(s.text) == 1 and s.text.isalpha() and a <= s.at[0] < b
            )
            first, last = (number, number) if number >= 0 else (1, 0)
            out.append(Table(a, b, first, last, signs=letters, at_node=at_node))
            legends |= {number} if number >= 0 else set()
    for n, legend in page.legends.items():
        if n not in taken | legends and legend.what == ["nodes"] and legend.by_node:  # nd counted from top
            out.append(Table(page.lines[n].start, page.lines[n].end, n, n, at_node=legend.by_node))
            legends.add(n)
    taken |= legends
    for line in page.lines:
        out += [
            Table(c.start, c.end, 1, 0, page=True)
            for c in line.cells
            if line.number not in taken and is_page_number(lattice, line, c)
        ]
    pieces = {i for t in out for i in range(t.start, t.end)}
    figure = page.figure
    sentence = told_apart(lattice) if figure is None else None
    listed = find_lists(lattice, page.lines, pieces, page.keys, sentence[0] if sentence else figure, page.signs)
    out += [Table(g.start, g.end, g.first, g.last, g) for g in listed]
    if sentence is not None and any(g.columns[0].what == sentence[0].what and not g.columns[0].pieces for g in listed):
        out.append(Table(*sentence[1], 1, 0))  # Nodes this time, no leaf counts
    held = _pieces_of(out)
    out += [Table(a, b, 1, 0, page=True) for a, b in find_boxes(lattice, page.lines) if held.isdisjoint(range(a, b))]
    out += _abbreviated(lattice)
    out += [Table(g.start, g.end, 1, 0, g) for g in find_items(lattice, page.lines, _pieces_of(out))]
    out += [Table(g.start, g.end, g.first, g.last, g) for g in find_class_lists(lattice, page.lines, _pieces_of(out))]
    out += [Table(g.start, g.end, g.first, g.last, g) for g in find_beside(lattice, page.lines, _pieces_of(out))]
    out += [Table(g.start, g.end, g.first, g.last, g) for g in find_codes(lattice, page.lines, _pieces_of(out))]
    runs, headings = find_runs(lattice, page.lines, {i for t in out for i in range(t.start, t.end)})
    ran = [Table(g.start, g.end, g.first, g.last, g) for g in runs] + [Table(a, b, 1, 0) for a, b in headings]
    out += ran
    out += _said_of_all(lattice, page, out)
    parted: set[int] = set()
    for first, last, classes in find_classes(lattice, page.lines, taken | legends):
        over_them = over_columns(lattice, page.lines, first, last)
        if over_them is not None:
            parted |= set(range(over_them, last + 1))
            continue
        start = classes[0].start if first == last else page.lines[first].start  # pulled 10 plts: R2 = IIIIII, ...
        out.append(Table(start, page.lines[last].end, first, last, None, tuple(classes)))
        head = head_over(lattice, page.lines, first)
        if head is not None and head.number not in taken:
            out.append(Table(head.start, head.end, head.number, head.number))
    taken |= {n for t in out for n in range(t.first, t.last + 1)}
    unused = {n for n in page.legends if n not in taken and opens_key(lattice, page.lines[n])}
    for n in sorted((page.strange_keys | unused | lost_keys(lattice, page.lines, grids, taken)) - taken):
        why = "a key that is not understood"
        out.append(Table(page.lines[n].start, page.lines[n].end, n, n, why=why))
        taken.add(n)
    pieces = _pieces_of(out)
    lined = taken | {n for n, line in enumerate(page.lines) if not pieces.isdisjoint(range(line.start, line.end))}
    strange = parted - taken
    strange |= {n for a, b in find_strange(lattice, page.lines, lined) for n in range(a, b + 1)}
    strange |= {n for a, b in heads_alone(lattice, page.lines, lined) for n in range(a, b + 1)}
    strange |= listed_heads(lattice, page.lines, lined)
    strange |= more_rows(lattice, page.lines, grids, lined) | signs_alone(lattice, page.lines, lined)
    strange |= strokes_alone(lattice, page.lines, lined) | values_of_nothing(lattice, page.lines, lined)
    strange |= barred_pairs(lattice, page.lines, lined)
    strange |= stroked_rows(lattice, page.lines, lined, unheaded)
    strange |= after(lattice, page.lines, _pieces_of(ran), lined)
    over = above(lattice, page.lines, strange, _pieces_of(ran))
    out = [t for t in out if not (t in ran and any(n in over for n in _lines_of(page.lines, t)))]
    strange |= over
    if strange or doubt:  # a line that says how to read a table that nobody could read
        strange |= page.legends.keys() - page.used_legends - taken
        strange |= {n for n, sign in page.key_lines.items() if sign} - taken
    for first, last in runs_of(strange):
        out.append(Table(page.lines[first].start, page.lines[last].end, first, last, why=STRANGE))
        taken |= set(range(first, last + 1))
    unit = find_pod_unit(lattice, page.lines, taken, legends_left(page, _pieces_of(out)))
    if unit is not None:
        n = unit.number
        whole = (unit.start, unit.end) == (page.lines[n].start, page.lines[n].end)
        lines = (n, n) if whole else (1, 0)
        out.append(Table(unit.start, unit.end, *lines, at_node=unit.at_node, pod_unit=unit))
        if whole:
            taken.add(n)
    out = _counting_nodes(lattice, out, numbered)
    for a, b in heads_in_words(lattice, page.lines, _pieces_of(out), strange):
        out.append(Table(a, b, 1, 0, why="how something was measured, and no value"))
    out += [
        Table(a, b, 1, 0, why="the same again, and it cannot be told of what")
        for a, b in lost_dittos(lattice, page.lines, _pieces_of(out))
    ]
    out += [
        Table(line.start, line.end, line.number, line.number, answer=answer)
        for line, answer in find_answers(lattice, page.lines, taken)
    ]
    return sorted(out, key=lambda t: t.start)


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


def _of_the_dropped(end: int, kept: Sequence[Grid], dropped: Sequence[Grid]) -> bool:
    """Whether words that were taken for the head of a table are that of one that was given up: the next one behind them."""
    behind = min((g.start for g in [*kept, *dropped] if g.start >= end), default=None)
    return behind is not None and any(g.start == behind for g in dropped)


def _abbreviated(lattice: Lattice) -> list[Table]:
    """`MAT. GROUP`: the first word of the head, cut short; it is part of the head, and no name of a field."""
    pieces = lattice.pieces
    return [
        Table(i, i + 2, 1, 0)
        for i in range(len(pieces) - 2)
        if pieces[i].text in _MATURITY
        and pieces[i + 1].text == "."
        and any(e.kind == "GROUP" for e in lattice.edges[i + 2])
    ]


def _said_of_all(lattice: Lattice, page: Page, tables: list[Table]) -> list[Table]:
    """`no bloom yet` on the line under a table or list: it is said of the plants above, and not of one more."""
    out: list[Table] = []
    lines = page.lines
    taken = _pieces_of(tables)
    ends = {t.end for t in tables if t.grid is not None and len(t.grid.rows) > 1}
    for k, line in enumerate(lines):
        above = next((x for x in reversed(lines[max(0, k - 2) : k]) if not x.blank), None)
        if line.blank or above is None or taken & set(range(line.start, line.end)):
            continue
        if above.end not in ends and not _under_rows(page, above):
            continue
        for ph in phrases_at(lattice, line.start):
            named = max(
                (g.end for g in _phrases(lattice, ph.end, line.end) if g.form == "group_all"), default=None
            )  # next leaf rolled on all of them
            each = next((i + 1 for i in range(ph.end, line.end) if lattice.pieces[i].text in _EACH), None)
            counted = ph.rule in _COUNTED and (each is not None or named is not None)  # 14 tri each
            named = each if counted and named is None else named
            rest = range(named if named is not None else ph.end, line.end)
            stop = next((i for i in rest if lattice.pieces[i].text == "." and lattice.soft[i] is None), line.end)
            comma = _remark_behind(lattice, rest, line.end)
            stop = comma if comma is not None and comma < stop else stop
            rest = range(rest.start, stop)
            if (counted or ph.form in _OF_ALL or (ph.form in _OF_ALL_NAMED and named is not None)) and all(
                lattice.pieces[i].text in ".,;!" or lattice.filler[i] for i in rest
            ):
                whole = stop + 1 >= line.end
                out.append(Table(line.start, line.end if whole else stop, *((k, k) if whole else (1, 0)), of_all=True))
                break
    return out


def _remark_behind(lattice: Lattice, rest: range, end: int) -> int | None:
    """The comma in `no seed yet, beetles light`: what stands behind it names no plant, and is no exception."""
    comma = next((i for i in rest if lattice.pieces[i].text in ",;"), None)
    if comma is None:
        return None
    behind = {e.kind for i in range(comma + 1, end) for e in lattice.edges[i]} & _OF_PLANTS
    words = {lattice.pieces[i].text for i in range(comma + 1, end)} & _EXCEPT
    return None if behind or words else comma


def _under_rows(page: Page, above: Line) -> bool:
    """Whether a line is the last of several that begin with the labels of plants, which count on."""
    before = next((x for x in reversed(page.lines[: above.number]) if not x.blank), None)
    behind = next((x for x in page.lines[above.number + 1 :] if not x.blank and page.labelled(x) is not None), None)
    counts_on = _counts_on(page, above, behind)  # the words stand between two rows, and may be of the first
    return before is not None and _counts_on(page, before, above) and not counts_on


def _counts_on(page: Page, first: Line, second: Line | None) -> bool:
    """Whether the label of one line is the next after that of the other."""
    last, here = page.labelled(first), page.labelled(second) if second is not None else None
    if here is None or last is None or len(here[0]) != 1 or len(last[0]) != 1:
        return False
    return follows(last[0][0], here[0][0])


def _phrases(lattice: Lattice, at: int, end: int) -> list[Phrase]:
    return [p for p in phrases_at(lattice, at) if p.end <= end] if at < end else []


def _read_of_all(ctx: Context, table: Table) -> None:
    plants = ctx.living()
    if plants:
        ctx.plants, ctx.explicit = plants, True
    Reader(ctx, {}).walk(table.start, table.end)
    ctx.leave_plants()


def _lines_of(lines: Sequence[Line], t: Table) -> list[int]:
    return [x.number for x in lines if x.start < t.end and t.start < x.end]


def _pieces_of(tables: list[Table]) -> set[int]:
    return {i for t in tables for i in range(t.start, t.end)}


def read_table(ctx: Context, table: Table) -> None:
    """Put what a table says into the current visit of `ctx`, and account for each of its pieces."""
    pieces = ctx.lattice.pieces
    ctx.at_node = table.at_node or ctx.at_node
    if table.pod_unit is not None:
        ctx.pod_unit = table.pod_unit.mm, table.pod_unit.inches
        at = table.pod_unit.place
        ctx.pod_place = organs.place(at, ctx.span(at.start, at.end)) if at is not None else None
    if table.page:
        ctx.mark(table.start, table.end, FILLER)
        return
    if table.of_all:
        _read_of_all(ctx, table)
        return
    if table.answer is not None:
        read_answer(ctx, table.start, table.answer, Reader(ctx, {}))
        return
    for i in range(table.start, table.end):
        if pieces[i].form == "nl" or pieces[i].form == "mark" or pieces[i].text == "and":
            ctx.mark(i, i + 1, FILLER)
        else:
            ctx.mark(i, i + 1, UNREAD, "not understood in this table")
    if table.counts is not None:
        read_counts(ctx, table.counts, table.start, table.end)
    elif table.classes:
        read_classes(ctx, table.classes)
    elif table.why:
        ctx.mark(table.start, table.end, UNREAD, table.why)
    elif table.grid is not None:
        read_grid(ctx, table.grid)
    else:
        ctx.mark(table.start, table.end, EVIDENCE)
    ctx.line += sum(pieces[i].form == "nl" for i in range(table.start, table.end))
    ctx.leave_plants()
    ctx.line_labels = False
    ctx.finding = None
    ctx.tally = None


def is_page_number(lattice: Lattice, line: Line, cell: Cell) -> bool:
    """`Page 7`, `sheet 12`, `p. 31` in a line or a cell of its own: they say nothing."""
    text = squeeze(lattice.original(cell.start, cell.end)).strip("-().")
    if _PAGE.fullmatch(text):
        return True
    return len(line.cells) == 1 and _SHORT_PAGE.fullmatch(text) is not None


def is_title(lattice: Lattice, line: Line) -> bool:
    """`REMARKS` or `NOTES:` alone on a line: what follows is free words."""
    words = [lattice.pieces[i].text for i in range(line.start, line.end) if lattice.pieces[i].form == "word"]
    rest = [lattice.pieces[i].text for i in range(line.start, line.end) if lattice.pieces[i].form != "word"]
    heads = column_words().heads.get(tuple(words), ())
    return bool(words) and any(h.means == "note" for h in heads) and all(x in ":.-_=*" for x in rest)
