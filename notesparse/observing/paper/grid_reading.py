"""The rows of a table read into the current visit, plant by plant and column by column (guide 4.21)."""

from __future__ import annotations

import itertools
from fractions import Fraction

from notesparse.language.columns import column_words, squeeze
from notesparse.observing import headers, organs, revise, tallies
from notesparse.observing.draft import PlantDraft, StatedDraft, TallyDraft
from notesparse.observing.fold import EVIDENCE, UNREAD, Context
from notesparse.observing.naming.names import Name
from notesparse.observing.paper.cells import Reader, Said
from notesparse.observing.paper.dated_columns import day_at
from notesparse.observing.paper.field_column import AVERAGE
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.keys import BLANK
from notesparse.observing.paper.rows import Grid, Row
from notesparse.observing.paper.stacked import SEEN
from notesparse.observing.paper.ticks import count_ticks
from notesparse.reading.parse import phrases_at
from notesparse.staging.tallies import STAGE_OF

_MARK = 3  # a ditto this short is of its own column


def read_grid(ctx: Context, grid: Grid, counted: int | None = None) -> None:
    """Reads a table. `counted`: so many plants were looked at in each field, said before the first of its blocks."""
    counted = counted if counted is not None else ctx.sample
    for i in grid.head:
        ctx.mark(i, i + 1, EVIDENCE)
    if grid.name is not None and grid.day is not None:
        a, b = grid.name
        name, ph = Name(a, b, ctx.lattice.original(a, b), "line", True, a), day_at(ctx.lattice, *grid.day)
        if ph is None or not headers.visit_of_row(ctx, name, ctx.span(a, b), ph, ctx.span(*grid.day)):
            _of_no_day(ctx, grid)
            for beside in grid.then:
                read_grid(ctx, beside, counted)
            return
    elif grid.name is not None:
        a, b = grid.name
        headers.open_visit(ctx, Name(a, b, ctx.lattice.original(a, b), "line", True, a), ctx.span(a, b))
        ctx.mark(a, b, EVIDENCE)
    if grid.day is not None and grid.name is None:
        ph = day_at(ctx.lattice, *grid.day)
        if ph is None or not headers.day_of_column(ctx, ph, ctx.span(*grid.day)):
            _of_no_day(ctx, grid)
            return
    for a, b, why in grid.unread:
        ctx.mark(a, b, UNREAD, why)
    for c in grid.columns:
        for i in c.unknown:
            ctx.mark(i, i + 1, UNREAD, "a column head that is not understood")
    reader = Reader(ctx, _clean(ctx, grid))
    for row in grid.rows:
        for number, cells in row.cells.items():
            reader.signs.setdefault(number, set()).add(reader.sign(cells[0][0], cells[-1][1]) or "words")
    order = sorted(
        range(len(grid.columns)), key=lambda c: grid.columns[c].what in (["scars"], ["fill"])
    )  # scars are added to the leaves of their row, and filling is said of seeds
    whole = _counted_columns(ctx, grid)
    above: dict[int, Said] = {}
    by_label: dict[int, dict[str, Said]] = {}
    if grid.goes_on and ctx.rows_before is not None and ctx.rows_before[0] is ctx.visit:
        _, above, by_label, columns, known_before = ctx.rows_before
        for number, column in enumerate(columns):
            if column.unit == grid.columns[number].unit:
                reader.known[number] = [*known_before.get(number, []), *reader.known.get(number, [])]
    if _next_field_of_the_table(ctx, grid) and ctx.rows_before is not None:
        above = dict(ctx.rows_before[1])  # Two Ponds   do.   do., under the row of another field
    for row in grid.rows:
        if row.looked_at is not None:
            counted = _int_at(ctx, *row.looked_at)
            ctx.mark(*row.looked_at, EVIDENCE)
        if row.stop is not None:
            if reader.sign(*row.stop) != "same":
                ctx.stop = ctx.lattice.original(*row.stop)
            ctx.mark(*row.stop, EVIDENCE)
        if row.label is None and not (row.cells or row.loose):
            continue  # Windbreak    7/15/26: the page is torn behind the field and its day
        plants = _plants(ctx, row)
        reader.row_of = next((n for w in whole if (n := _whole_of(reader, row, w)) is not None), None)
        lost = bool(above) and all(said.nothing == "cannot be read" for said in above.values())
        known = {label for said in by_label.values() for label in said}
        if _like_but(reader, grid, row, plants, lost, known):
            above = {number: Said(nothing="cannot be read") for number in range(len(grid.columns))}
            continue
        _same_row(reader, grid, row)
        for number in sorted(order, key=lambda n: not _again_first(reader, grid, row, n)):
            column = grid.columns[number]
            if column.label:
                continue
            cells = row.cells.get(number, [])
            if not cells:
                _blank_is_none(reader, column, plants)
                above[number] = Said(nothing="nothing said")
                continue
            if grid.of_fields and (
                _share_of_the_field(reader, column, cells)
                or _two_counts(reader, grid, row, number)
                or _figure_of_the_field(reader, column, cells, counted)
            ):
                continue
            said = _joined(reader, column, number, cells, plants, above.get(number), by_label.get(number, {}))
            if cells[-1][0] in row.notes:
                reader.footnote(column, number, cells[-1], row.notes[cells[-1][0]], plants[0])
            if cells[0][0] in row.without:
                ctx.plants, ctx.explicit = plants, True
                organs.look(ctx, row.without[cells[0][0]], False, ctx.span(cells[0][0], cells[-1][1]))
                ctx.close()
            above[number] = said
            for label in row.labels or (plants[0].label,):
                by_label.setdefault(number, {})[label.casefold()] = said
        for a, b in row.loose:
            ctx.mark(a, b, UNREAD, row.why)
        if grid.of_fields:
            _of_the_field(ctx, plants[0])
        elif row.stop is not None and all(p.empty for p in plants):
            ctx.mark(*row.stop, UNREAD, "a row of which nothing is read")
    ctx.rows_before = ctx.visit, above, by_label, grid.columns, reader.known
    for beside in grid.then:
        read_grid(ctx, beside, counted)


def _blank_is_none(reader: Reader, column: Column, plants: list[PlantDraft]) -> None:
    """An empty cell, where the key says `blank = none`."""
    told = next((column.codes[x] for x in BLANK & column.codes.keys()), None) if column.codes else None
    if told is None or reader.sign(*told) != "no" or column.what[:1] not in SEEN:
        return
    reader.ctx.plants, reader.ctx.explicit = plants, True
    organs.look(reader.ctx, column.what[0], False, reader.ctx.span(*told))
    reader.ctx.close()


def _next_field_of_the_table(ctx: Context, grid: Grid) -> bool:
    """The row is a field, and the row above it was another one, under the same heads."""
    before = ctx.rows_before
    return grid.of_fields and before is not None and [c.what for c in before[3]] == [c.what for c in grid.columns]


def _of_the_field(ctx: Context, p: PlantDraft) -> None:
    """A row that is a field: its stage is stated of all of it. Where more is told, as of one plant, the plant stays."""
    visit = ctx.here()
    for f in visit.findings:
        f.where = None if f.where == f"plant {p.label}" else f.where
    if p.sightings or set(p.facts) - {"stated_v", "stated_r"}:
        return
    for key, entries in p.facts.items():
        visit.stated += [StatedDraft(key[-1], e.value, e.span) for e in entries]
    for ask in ctx.asks:
        if ask.plant is p:
            ask.plant, ask.visit = None, visit
    visit.plants.remove(p)
    ctx.hurt = [(f, plant) for f, plant in ctx.hurt if plant is not p]  # hail, of the field
    ctx.plants, ctx.explicit = [], False


def _share_of_the_field(reader: Reader, column: Column, cells: list[tuple[int, int]]) -> bool:
    """`6 of 10`, `60%` under a head of flowers, pods or seeds, in a row that is a field."""
    ctx, what = reader.ctx, STAGE_OF.get(column.what[0]) if column.known else None
    a, b = cells[0][0], cells[-1][1]
    forms = {"n_of_m", "pct"} | ({"n_slash_m"} if what == "R1" else set())
    share = next((p for p in phrases_at(ctx.lattice, a) if p.end == b and p.form in forms), None)
    t = tallies.start(ctx, share, ctx.span(a, b)) if what is not None and share is not None else None
    ctx.tally = None
    if t is None or (t.of is not None and (t.count or 0) > t.of):
        return False
    t.what = what
    ctx.here().tallies.append(t)
    ctx.mark(a, b, EVIDENCE)
    return True


def _figure_of_the_field(reader: Reader, column: Column, cells: list[tuple[int, int]], many: int | None) -> bool:
    """A figure in a row that is a field: so many of the plants that were looked at, or the average of their leaves."""
    ctx, (a, b) = reader.ctx, cells[0]
    if len(cells) != 1 or b != a + 1 or ctx.lattice.pieces[a].form != "int" or not column.known:
        return False
    n, span = int(ctx.lattice.pieces[a].text), ctx.span(a, b)
    what = STAGE_OF.get(column.what[0])
    if what is not None and many is not None and n <= many and not (column.unit or column.by_node or column.measure):
        ctx.here().tallies.append(TallyDraft(what, n, many, None, span))
    elif column.what == ["trifoliates"] and AVERAGE & {ctx.lattice.pieces[i].text for i in column.pieces} and n < 22:
        ctx.here().stated.append(StatedDraft("v", f"V{n}", span, average=True))
    else:
        return False
    ctx.mark(a, b, EVIDENCE)
    return True


def _two_counts(reader: Reader, grid: Grid, row: Row, number: int) -> bool:
    """`||||| ||   |||` under `in bloom   not yet`: so many plants have it, and so many others have not."""
    ctx = reader.ctx
    first = number - grid.columns[number].others
    if first + 1 >= len(grid.columns) or not grid.columns[first + 1].others:
        return False
    what = STAGE_OF.get(grid.columns[first].what[0])
    pair = [row.cells.get(first, []), row.cells.get(first + 1, [])]
    if number != first and pair[0]:
        return True  # read with the first of the two
    counts = [_counted(ctx, *cells[0]) if len(cells) == 1 else (None if cells else 0) for cells in pair]
    if what is None or counts[0] is None or counts[1] is None or not sum(n or 0 for n in counts):
        return False
    spans = [c for cells in pair for c in cells]
    ctx.here().tallies.append(
        TallyDraft(what, counts[0], counts[0] + counts[1], None, ctx.span(spans[0][0], spans[-1][1]))
    )
    for a, b in spans:
        ctx.mark(a, b, EVIDENCE)
    return True


def _counted(ctx: Context, a: int, b: int) -> int | None:
    """A figure, none, or tally strokes."""
    if column_words().cells.get(squeeze(ctx.lattice.original(a, b))) == "no":
        return 0
    n = _int_at(ctx, a, b)
    strokes = all(ctx.lattice.pieces[i].form == "mark" for i in range(a, b))
    return n if n is not None or not strokes else count_ticks(ctx.lattice.original(a, b))


def _int_at(ctx: Context, a: int, b: int) -> int | None:
    return int(ctx.lattice.pieces[a].text) if b == a + 1 and ctx.lattice.pieces[a].form == "int" else None


def _of_no_day(ctx: Context, grid: Grid) -> None:
    for row in grid.rows:
        for cells in row.cells.values():
            ctx.mark(cells[0][0], cells[-1][1], UNREAD, "of a day that cannot be told")


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
    things = [number for number, c in enumerate(grid.columns) if not c.label and c.what != ["stop"]]
    alone = bool(things) and (things[0] in row.cells or not grid.head)
    first = alone and row.labels != ()  # `4.  do.`, `2 - do.` under no heads: alone behind its label
    if (told is not None and told[1] == b) or (
        reader.sign(a, b) == "same" and (first or len(reader.text(a, b)) > _MARK)
    ):
        target = [x for x in grid.rows if told is not None and told[0].casefold() in {n.casefold() for n in x.labels}]
        known = {n for x in target or grid.rows for n in x.cells}
        for number, column in enumerate(grid.columns):
            if not column.label and column.what != ["stop"] and number in known:
                row.cells[number] = list(cells)


def _like_but(reader: Reader, grid: Grid, row: Row, plants: list[PlantDraft], lost: bool, known: set[str]) -> bool:
    """`4   like 1 but 10 trif.`, and nothing else in the row: all of that plant, and then what goes over it."""
    if len(row.cells) != 1 or row.loose or sum(not c.label for c in grid.columns) < 2:
        return False
    (cells,) = row.cells.values()
    a, b = cells[0][0], cells[-1][1]
    told = reader.like(a, b)
    ctx = reader.ctx
    if lost and reader.sign(a, b) == "same" and ctx.lattice.pieces[a].form == "word" and len(ctx.here().plants) > 1:
        revise.copy_facts(ctx.here().plants[-1 - len(plants)], plants[0], ctx.span(a, b))  # do., of a row like another
        ctx.mark(a, b, EVIDENCE)
        return True
    if told is not None and told[1] == b and told[0].casefold() not in known:
        source = next((p for p in ctx.here().plants if p.label.casefold() == told[0].casefold()), None)
        if source is None or source.empty or source in plants:
            return False
        for p in plants:
            revise.copy_facts(source, p, ctx.span(a, b))  # as D, where D is like B but ...
        ctx.mark(a, b, EVIDENCE)
        return True
    if told is None or told[1] >= b or ctx.lattice.pieces[told[1]].text not in {"but", "except", ",", ";", "with"}:
        return False
    visit = ctx.here()
    source = next(
        (p for p in reversed(visit.plants) if p.label.casefold() == told[0].casefold() and p not in plants), None
    )
    if source is None or source.empty:
        return False
    span = ctx.span(a, told[1])
    for p in plants:
        revise.copy_facts(source, p, span)
    ctx.mark(a, told[1], EVIDENCE)
    ctx.mark(told[1], b, UNREAD, "not understood in this row")
    ctx.plants, ctx.explicit = plants, True
    reader.walk(told[1], b)
    ctx.close()
    return True


def _counted_columns(ctx: Context, grid: Grid) -> list[int]:
    """The columns of all pods counted, each beside one of ripe pods: in every row at least as many. Tables that stand
    side by side have one each."""
    ripe = [i for i, c in enumerate(grid.columns) if c.what == ["brown"]]
    if any(grid.columns[i].percent or grid.columns[i].of for i in ripe):
        return []
    starts = [i for i, c in enumerate(grid.columns) if c.label] if len(ripe) > 1 else []
    found = []
    for i, c in enumerate(grid.columns):
        if c.what != ["total"] and not (
            c.what == ["pods"] and (c.plural or c.count) and not (c.unit or c.measure or c.by_node or c.place)
        ):
            continue
        beside = [k for k in ripe if not any(min(i, k) < s <= max(i, k) for s in starts)]
        if len(beside) != 1:
            continue
        pairs = [(_int(ctx, row, beside[0]), _int(ctx, row, i)) for row in grid.rows]
        told = [(a, b) for a, b in pairs if a is not None and b is not None]
        if told and all(a <= b for a, b in told) and max(b for _, b in told) >= 5:
            found.append(i)
    return found if len(found) == len(ripe) else found[:1] if len(ripe) == 1 else []


def _int(ctx: Context, row: Row, number: int) -> int | None:
    cells = row.cells.get(number, [])
    return _int_at(ctx, *cells[0]) if len(cells) == 1 else None


def _whole_of(reader: Reader, row: Row, number: int) -> int | None:
    """How many pods were counted on the plant of this row; a ditto stands for the row before."""
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
    lost = [(x, y) for x, y in cells[1:] if '"' in reader.text(x, y) and reader.sign(x, y) == "same"]
    if lost:
        for x, y in lost:
            reader.ctx.mark(x, y, UNREAD, "the same again, and it cannot be told of what")
        cells = [c for c in cells if c not in lost]
        a, b = cells[0][0], cells[-1][1]
    elif len(cells) == 1 or all(x[1] == y[0] for x, y in itertools.pairwise(cells)):
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
