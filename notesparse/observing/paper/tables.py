"""Tables of old paper and of thumbed lists: column heads give meaning, unit and place to every cell (guide 4.21).

`grid` finds where the tables stand, `ticks` the counts by class; here they are read row by row into the current visit.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from notesparse.language.cache import compiled
from notesparse.language.columns import column_words, squeeze
from notesparse.language.unroll import Step
from notesparse.observing import headers
from notesparse.observing.draft import PlantDraft
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.observing.lists import find_lists
from notesparse.observing.naming.names import Name
from notesparse.observing.paper.answers import Answer, find_answers, read_answer
from notesparse.observing.paper.cells import Reader, Said
from notesparse.observing.paper.counts import Counts, find_counts, read_counts
from notesparse.observing.paper.grid import Finder, Grid, Row
from notesparse.observing.paper.guard import WHY as STRANGE
from notesparse.observing.paper.guard import find_strange
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.items import find_beside, find_items
from notesparse.observing.paper.keys import explain
from notesparse.observing.paper.matrix import find_codes
from notesparse.observing.paper.paired import find_paired
from notesparse.observing.paper.runlists import find_runs
from notesparse.observing.paper.ticks import Class, find_classes, read_classes
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Cell, Line
from notesparse.text.lattice import Lattice

_PAGE = re.compile(r"(?:page|sheet|pg\.?|pageno\.?)\d{1,3}(?:(?:of|/)\d{1,3})?")
_OF_ALL = frozenset({"fl_no", "fl_buds", "fl_past", "pod_no", "seed_no"})
_MARK = 3  # a ditto this short is of its own column
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
    at_node: str | None = None  # how the key of the page counts nodes: down, up


def find_tables(lattice: Lattice) -> list[Table]:
    """The tables of a note, in order; the key and legend lines that they use are tables without rows."""
    finder = Finder(lattice)
    counted = find_counts(lattice, finder.lines)
    finder.aside |= {n for c in counted for n in range(c.first, c.last + 1)}
    paired = find_paired(lattice, finder.lines, finder.signs, finder.figure, finder.aside | set(finder.key_lines))
    finder.aside |= {n for g in paired for n in range(g.first, g.last + 1)}
    grids = sorted([*paired, *finder.find()], key=lambda g: g.start)
    counts = [Table(finder.lines[c.first].start, finder.lines[c.last].end, c.first, c.last, counts=c) for c in counted]
    out = counts + [Table(g.start, g.end, g.first, g.last, g) for g in grids]
    taken = {n for t in out for n in range(t.first, t.last + 1)}
    at_node = explain(lattice, finder.signs)
    legends = set(finder.used_legends)
    if grids:
        used = {lattice.pieces[i].text for g in grids for i in g.head}
        legends |= {n for n, letter in finder.key_lines.items() if letter in used}
    for n in sorted(legends - taken):
        line = finder.lines[n]
        out.append(Table(line.start, line.end, n, n))
    for note in finder.footnotes:
        if note.line not in taken:
            why = "" if note.used else "a footnote that is not understood"
            out.append(Table(note.start, note.words[1], note.line, note.line, why=why))
            legends.add(note.line)
    out += [Table(a, b, 1, 0) for a, b in finder.heads]
    for cell in finder.used_cells:
        out.append(Table(cell.start, cell.end, 1, 0))
    for line in finder.lines:
        if line.number not in taken | legends and is_title(lattice, line):
            out.append(Table(line.start, line.end, line.number, line.number, page=True))
            legends.add(line.number)
    for a, b, number in finder.sign_spans:
        if number not in taken | legends and not any(t.start <= a < t.end for t in out):
            out.append(Table(a, b, number if number >= 0 else 1, number if number >= 0 else 0, at_node=at_node))
            legends |= {number} if number >= 0 else set()
    taken |= legends
    for line in finder.lines:
        out += [
            Table(c.start, c.end, 1, 0, page=True)
            for c in line.cells
            if line.number not in taken and is_page_number(lattice, line, c)
        ]
    pieces = {i for t in out for i in range(t.start, t.end)}
    out += [
        Table(g.start, g.end, g.first, g.last, g)
        for g in find_lists(lattice, finder.lines, pieces, finder.keys, finder.figure, finder.signs)
    ]
    out += [Table(g.start, g.end, 1, 0, g) for g in find_items(lattice, finder.lines, _pieces_of(out))]
    out += [Table(g.start, g.end, g.first, g.last, g) for g in find_beside(lattice, finder.lines, _pieces_of(out))]
    out += [Table(g.start, g.end, g.first, g.last, g) for g in find_codes(lattice, finder.lines, _pieces_of(out))]
    runs, headings = find_runs(lattice, finder.lines, {i for t in out for i in range(t.start, t.end)})
    out += [Table(g.start, g.end, g.first, g.last, g) for g in runs] + [Table(a, b, 1, 0) for a, b in headings]
    out += _said_of_all(lattice, finder.lines, out)
    for first, last, classes in find_classes(lattice, finder.lines, taken | legends):
        out.append(Table(finder.lines[first].start, finder.lines[last].end, first, last, None, tuple(classes)))
    taken |= {n for t in out for n in range(t.first, t.last + 1)}
    for n in sorted(finder.strange_keys - taken):
        why = "a key that is not understood"
        out.append(Table(finder.lines[n].start, finder.lines[n].end, n, n, why=why))
        taken.add(n)
    lined = taken | {n for n, line in enumerate(finder.lines) if _pieces_of(out) & set(range(line.start, line.end))}
    for first, last in find_strange(lattice, finder.lines, lined):
        out.append(Table(finder.lines[first].start, finder.lines[last].end, first, last, why=STRANGE))
        taken |= set(range(first, last + 1))
    out += [
        Table(line.start, line.end, line.number, line.number, answer=answer)
        for line, answer in find_answers(lattice, finder.lines, taken)
    ]
    return sorted(out, key=lambda t: t.start)


def _said_of_all(lattice: Lattice, lines: Sequence[Line], tables: list[Table]) -> list[Table]:
    """`no bloom yet` on the line under a table or list: it is said of the plants above, and not of one more."""
    out: list[Table] = []
    taken = _pieces_of(tables)
    ends = {t.end for t in tables if t.grid is not None and len(t.grid.rows) > 1}
    for k, line in enumerate(lines):
        above = next((x for x in reversed(lines[max(0, k - 2) : k]) if not x.blank), None)
        if line.blank or above is None or above.end not in ends or taken & set(range(line.start, line.end)):
            continue
        for ph in phrases_at(lattice, line.start, compiled()[1]):
            rest = range(ph.end, line.end)
            if ph.form in _OF_ALL and all(lattice.pieces[i].text in ".,;!" or lattice.filler[i] for i in rest):
                out.append(Table(line.start, line.end, k, k, of_all=True))
                break
    return out


def _read_of_all(ctx: Context, table: Table, root: Step) -> None:
    plants = ctx.living()
    if plants:
        ctx.plants, ctx.explicit = plants, True
    Reader(ctx, root, {}).walk(table.start, table.end)
    ctx.leave_plants()


def _pieces_of(tables: list[Table]) -> set[int]:
    return {i for t in tables for i in range(t.start, t.end)}


def read_table(ctx: Context, table: Table, root: Step) -> None:
    """Put what a table says into the current visit of `ctx`, and account for each of its pieces."""
    pieces = ctx.lattice.pieces
    ctx.at_node = table.at_node or ctx.at_node
    if table.page:
        ctx.mark(table.start, table.end, FILLER)
        return
    if table.of_all:
        _read_of_all(ctx, table, root)
        return
    if table.answer is not None:
        read_answer(ctx, table.start, table.answer, Reader(ctx, root, {}))
        return
    for i in range(table.start, table.end):
        if pieces[i].form == "nl" or pieces[i].form == "mark":
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
        _read_grid(ctx, table.grid, root)
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


def _read_grid(ctx: Context, grid: Grid, root: Step) -> None:
    for i in grid.head:
        ctx.mark(i, i + 1, EVIDENCE)
    if grid.name is not None:
        a, b = grid.name
        headers.open_visit(ctx, Name(a, b, ctx.lattice.original(a, b), "line", True, a), ctx.span(a, b))
        ctx.mark(a, b, EVIDENCE)
    for a, b, why in grid.unread:
        ctx.mark(a, b, UNREAD, why)
    for c in grid.columns:
        for i in c.unknown:
            ctx.mark(i, i + 1, UNREAD, "a column head that is not understood")
    reader = Reader(ctx, root, _clean(ctx, grid))
    for row in grid.rows:
        for number, cells in row.cells.items():
            reader.signs.setdefault(number, set()).add(reader.sign(cells[0][0], cells[-1][1]) or "words")
    order = sorted(
        range(len(grid.columns)), key=lambda c: grid.columns[c].what in (["scars"], ["fill"])
    )  # scars are added to the leaves of their row, and filling is said of seeds
    whole = _counted_column(ctx, grid)
    above: dict[int, Said] = {}
    by_label: dict[int, dict[str, Said]] = {}
    for row in grid.rows:
        if row.stop is not None:
            if reader.sign(*row.stop) != "same":
                ctx.stop = ctx.lattice.original(*row.stop)
            ctx.mark(*row.stop, EVIDENCE)
        plants = _plants(ctx, row)
        reader.row_of = _whole_of(reader, row, whole)
        _same_row(reader, grid, row)
        for number in sorted(order, key=lambda n: not _again_first(reader, grid, row, n)):
            column = grid.columns[number]
            if column.label:
                continue
            cells = row.cells.get(number, [])
            if not cells:
                above[number] = Said(nothing="nothing said")
                continue
            said = _joined(reader, column, number, cells, plants, above.get(number), by_label.get(number, {}))
            if cells[-1][0] in row.notes:
                reader.footnote(column, number, cells[-1], row.notes[cells[-1][0]], plants[0])
            above[number] = said
            for label in row.labels or (plants[0].label,):
                by_label.setdefault(number, {})[label.casefold()] = said
        for a, b in row.loose:
            ctx.mark(a, b, UNREAD, row.why)
    for beside in grid.then:
        _read_grid(ctx, beside, root)


def _again_first(reader: Reader, grid: Grid, row: Row, number: int) -> bool:
    """`10, ditto but a pod`: the same again is said first, and the figure before it goes over it."""
    cells = row.cells.get(number, [])
    if not cells or grid.columns[number].what != ["note"]:
        return False
    return reader.sign(cells[0][0], cells[0][0] + 1) == "same"


def _same_row(reader: Reader, grid: Grid, row: Row) -> None:
    """`D   as C` and nothing else in the row: the words are of every column."""
    if len(row.cells) != 1 or row.loose:
        return
    (cells,) = row.cells.values()
    a, b = cells[0][0], cells[-1][1]
    told = reader.like(a, b)
    if (told is not None and told[1] == b) or (reader.sign(a, b) == "same" and len(reader.text(a, b)) > _MARK):
        target = [x for x in grid.rows if told is not None and told[0].casefold() in {n.casefold() for n in x.labels}]
        known = {n for x in target or grid.rows for n in x.cells}
        for number, column in enumerate(grid.columns):
            if not column.label and column.what != ["stop"] and number in known:
                row.cells[number] = list(cells)


def _counted_column(ctx: Context, grid: Grid) -> int | None:
    """The column of all pods counted, beside one of ripe pods: in every row at least as many."""
    ripe = [i for i, c in enumerate(grid.columns) if c.what == ["brown"]]
    if len(ripe) != 1 or grid.columns[ripe[0]].percent or grid.columns[ripe[0]].of:
        return None
    for i, c in enumerate(grid.columns):
        if c.what != ["total"] and not (
            c.what == ["pods"] and (c.plural or c.count) and not (c.unit or c.measure or c.by_node or c.place)
        ):
            continue
        pairs = [(_int(ctx, row, ripe[0]), _int(ctx, row, i)) for row in grid.rows]
        told = [(a, b) for a, b in pairs if a is not None and b is not None]
        if told and all(a <= b for a, b in told) and max(b for _, b in told) >= 5:
            return i
    return None


def _int(ctx: Context, row: Row, number: int) -> int | None:
    cells = row.cells.get(number, [])
    if len(cells) != 1 or cells[0][1] != cells[0][0] + 1 or ctx.lattice.pieces[cells[0][0]].form != "int":
        return None
    return int(ctx.lattice.pieces[cells[0][0]].text)


def _whole_of(reader: Reader, row: Row, number: int | None) -> int | None:
    """How many pods were counted on the plant of this row; a ditto stands for the row before."""
    if number is None:
        return None
    cells = row.cells.get(number, [])
    if len(cells) == 1 and reader.sign(*cells[0]) == "same":
        return reader.row_of
    return _int(reader.ctx, row, number)


def _joined(
    reader: Reader,
    column: Column,
    number: int,
    cells: list[tuple[int, int]],
    plants: list[PlantDraft],
    above: Said | None,
    by_label: dict[str, Said],
) -> Said:
    """A column's cell, which may stand in several parts (felt,  with gaps)."""
    a, b = cells[0][0], cells[-1][1]
    if len(cells) > 1 and column.by_node is None and sum(_only_figures(reader.ctx, x, y) for x, y in cells) > 1:
        reader.ctx.mark(a, b, UNREAD, "more than one figure under one head")
        return Said(nothing="cannot be read")
    if len(cells) == 1 or all(x[1] == y[0] for x, y in itertools.pairwise(cells)):
        return reader.cell(column, number, a, b, plants, above, by_label)
    said = Said()
    for x, y in cells:
        part = reader.cell(column, number, x, y, plants, above, by_label)
        said.entries += part.entries
        said.sightings += part.sightings
        said.asks += part.asks
    return said


def _only_figures(ctx: Context, a: int, b: int) -> bool:
    pieces = ctx.lattice.pieces[a:b]
    return any(p.form in {"int", "dec"} for p in pieces) and not any(p.form == "word" for p in pieces)


def _plants(ctx: Context, row: Row) -> list[PlantDraft]:
    """The plants of a row, begun."""
    if row.labels:
        a, b = row.label if row.label is not None else _first_cell(row)
        span = ctx.span(a, b)
        plants = ctx.begin(list(row.labels), span)
        if row.label is not None:
            ctx.mark(a, b, EVIDENCE)
        if row.damaged:
            ctx.assume("4.21", span, f"this row is plant {row.labels[0]}: the order of the rows leaves no other label")
        return plants
    a, b = _first_cell(row)
    return ctx.begin([ctx.next_label()], ctx.span(a, b))


def _first_cell(row: Row) -> tuple[int, int]:
    cells = [c for cs in row.cells.values() for c in cs] + row.loose
    return min(cells)


def _clean(ctx: Context, grid: Grid) -> dict[int, list[Fraction]]:
    """By column the figures that are not damaged: a damaged or odd one is judged by them."""
    out: dict[int, list[Fraction]] = {}
    pieces = ctx.lattice.pieces
    for row in grid.rows:
        for number, cells in row.cells.items():
            a, b = cells[0]
            figures = [p for p in pieces[a:b] if p.form in {"int", "dec"}]
            letters = grid.columns[number].what[:1] in (["stage"], ["r"], ["v"])
            if len(figures) == 1 and (b - a == 1 or (letters and b - a == 2)) and len(figures[0].text) < 6:
                text = figures[0].text
                out.setdefault(number, []).append(Fraction("0" + text if text.startswith(".") else text))
    return out
