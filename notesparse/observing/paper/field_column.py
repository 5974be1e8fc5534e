"""Tables whose rows name their own field or day: a sheet with the columns field, date, plant ... (guide 1.2, 4.21, 4.22).

`field,date,plant,trifs` over `Quail Covert,7/9/2025,1,8`: rows of another field, or of another day, are another visit.
The cells are parted by commas, tabs, strokes or wide gaps. A blank or a ditto in these columns is the row above.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.columns import column_words, head_tokens, squeeze
from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.paper.blocks import is_stop
from notesparse.observing.paper.dated_columns import day_at
from notesparse.observing.paper.heads import ORGANS, Column, read_heads
from notesparse.observing.paper.row_labels import labels_of
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Cell, Line, apart, cut, cut_at, under
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/field_column")

_FEWEST_MARKS = 2  # commas or strokes in a line of heads
AVERAGE = _LISTED.words("average")
_FEWEST_ROWS = 3
_LONGEST_NAME = 8  # pieces of a field's name
OF_THE_VISIT = ("planted", "emerged", "variety", "maturity_group", "row_spacing_in")  # columns of the rest of a head
_WHY = "which field or day this row is of cannot be told"


@dataclass(slots=True)
class _Heads:
    """The columns of the sheet; `field` and `date` are the places of those that open visits."""

    columns: list[Column]
    field: int | None
    date: int | None
    label: int | None  # None: a row is a field, and no plant
    mark: str | None  # what parts the cells; None: tabs or gaps
    tabbed: bool
    bordered: bool  # the mark stands at the head of the line too


@dataclass(slots=True)
class _Part:
    """Rows one under another of one field and one day."""

    name: tuple[int, int] | None
    day: tuple[int, int] | None
    rows: list[Row]
    own: list[int]  # pieces of names and days
    first: int
    last: int
    lost: list[tuple[int, int]]  # rows whose field or day cannot be told


def find_field_rows(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """The table whose heads stand on line `at`, if one of them is for fields or for days."""
    heads = _heads(lattice, lines[at])
    if heads is None:
        return None
    parts: list[_Part] = []
    name: tuple[int, int] | None = None
    day: tuple[int, int] | None = None
    k = at + 1
    while k < len(lines):
        line = lines[k]
        if _ruled(lattice, line):
            k += 1
            continue
        cells = _cells(lattice, line, heads)
        row = _row(lattice, heads, cells) if cells is not None else None
        if cells is None or row is None:
            break
        got_name, own_name = _carried(lattice, cells.get(heads.field), name) if heads.field is not None else (None, [])
        got_day, own_day = _carried(lattice, cells.get(heads.date), day) if heads.date is not None else (None, [])
        lost = (heads.field is not None and (got_name is None or got_name[1] - got_name[0] > _LONGEST_NAME)) or (
            heads.date is not None and (got_day is None or day_at(lattice, *got_day) is None)
        )
        if lost:
            if not parts:
                return None
            parts[-1].lost.append((line.start, line.end))
            parts[-1].last = k
            k += 1
            continue
        same = bool(parts) and _said(lattice, got_name) == _said(lattice, parts[-1].name)
        same = same and _said(lattice, got_day) == _said(lattice, parts[-1].day)
        if not same:
            parts.append(_Part(got_name, got_day, [], [], k, k, []))
        name, day = got_name, got_day
        parts[-1].rows.append(row)
        parts[-1].own += own_name + own_day
        parts[-1].last = k
        k += 1
    if not parts:
        return None
    counted = heads.label is not None and heads.field is not None and _looked_at(parts)
    return _grid(lines, at, heads.columns, parts, heads.label is None or counted)


def find_names_beside(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """`8/19/26   pod, cm   seed` over `BARLOW HILL  A  3.0  n` and `B  2.5  n`: the fields stand beside their first plant,
    and neither they nor the plants have a head. Or there are no plants: `Sauer home   7   8`, a row for each field."""
    line = lines[at]
    if line.blank or line.tabbed:
        return None
    every = [[c] for c in line.cells if day_at(lattice, c.start, c.end) is None]
    plants = _head(lattice, every[0]) if len(every) > 1 else None
    labels = every[:1] if plants is not None and plants.label and not plants.unknown else []
    heads = every[len(labels) :]
    below = _second_heads(lattice, heads, lines[at + 1]) if at + 1 < len(lines) else None
    columns = _columns_of(lattice, below or heads)
    if columns is None or len(line.cells) - len(every) > 1:
        return None
    heads = below or heads
    first = min(c.left for c in heads[0])
    parts: list[_Part] = []
    k = at + 1 + (below is not None)
    while k < len(lines) and lines[k].blank and k < at + 3:
        k += 1  # an empty line under the heads
    stroked = _stroked(lattice, lines, k)
    while k < len(lines) and not lines[k].blank:
        here = cut(lattice.pieces, lines[k].start, lines[k].end, 2) if stroked else list(lines[k].cells)
        before = [c for c in here if c.right < first]
        values = here[len(before) :]
        where = under([(c.left, c.right) for c in values], [(c.left, c.right) for c in columns]) if values else []
        label = labels_of(lattice, before[-1].start, before[-1].end) if before else None
        cells = {j + 1: [(c.start, c.end)] for c, j in zip(values, where, strict=True) if j is not None}
        if None in where or len(set(where)) != len(where):
            break
        if label is None and len(before) == 1 and values and not any(row.labels for p in parts for row in p.rows):
            name = (before[0].start, before[0].end)  # Sauer home   7   8: no plants, and a row for each field
            over_labels = any(
                e.kind == "PLANT" and e.end == name[1] for e in lattice.edges[name[0]]
            )  # Sample   (top 4)
            if not _capital(lattice, name[0]) or name[1] - name[0] > _LONGEST_NAME or over_labels:
                break
            parts.append(_Part(name, None, [Row((), None, cells)], [], k, k, []))
            k += 1
            continue
        if label is None or len(before) > 2:
            break
        if len(before) == 2:
            name = (before[0].start, before[0].end)
            stuck = lattice.pieces[name[1] - 1].glued and lattice.pieces[name[1] - 1].form == "int"
            coded = stuck and len(lattice.pieces[name[0]].text) == 1  # B1, R1 under a head of plants
            if lattice.pieces[name[0]].form != "word" or name[1] - name[0] > _LONGEST_NAME or (coded and labels):
                break
            parts.append(_Part(name, None, [], [], k, k, []))
        if not parts:
            return None
        parts[-1].rows.append(Row(label[0], label[1], cells))
        parts[-1].last = k
        k += 1
    enough = _FEWEST_ROWS if any(row.labels for part in parts for row in part.rows) else max(2, 4 - len(columns))
    if sum(len(part.rows) for part in parts) < enough:
        return None
    of_fields = not any(row.labels for part in parts for row in part.rows)
    if not of_fields:
        _stops(lattice, parts)
    grid = _grid(lines, at, [Column(["plant"]), *columns], parts, of_fields)
    grid.head = [i for group in [*labels, *heads] for c in group for i in range(c.start, c.end)]
    grid.start, grid.first = lines[parts[0].first].start, parts[0].first
    return grid


def _stops(lattice: Lattice, parts: Sequence[_Part]) -> None:
    """`Stop A   1   9   y` and further down `Stop B   1   8   n`: where all the names are stops, no field is named."""
    named = [part.name for part in parts if part.name is not None]
    if not all(is_stop(lattice, Cell(a, b, 0, 0)) for a, b in named):
        return
    for part in parts:
        for row in part.rows:
            row.stop = part.name
        part.name = None


def _second_heads(lattice: Lattice, heads: list[list[Cell]], line: Line) -> list[list[Cell]] | None:
    """`stink bugs   defol.` over `per 25 sw.   pct.`: the heads with what stands under them on a second line of words."""
    if line.blank or line.tabbed or not heads or line.cells[0].right < heads[0][0].left:
        return None
    if not all(any(lattice.pieces[i].form == "word" for i in range(c.start, c.end)) for c in line.cells):
        return None
    columns = [(group[0].left, group[0].right) for group in heads]
    out = [list(group) for group in heads]
    for c in line.cells:
        over = [n for n, x in enumerate(columns) if apart((c.left, c.right), x) == 0]
        if len(over) != 1:
            return None
        out[over[0]].append(c)
    return out


def _columns_of(lattice: Lattice, heads: Sequence[Sequence[Cell]]) -> list[Column] | None:
    """The columns under heads of which each names one thing; `not yet` beside `in bloom` counts the other plants."""
    columns: list[Column] = []
    for group in heads:
        c = group[0]
        no = column_words().cells.get(squeeze(lattice.original(c.start, c.end))) == "no" and len(group) == 1
        if no and columns and columns[-1].what[:1] and columns[-1].what[0] in ORGANS:
            columns.append(Column(list(columns[-1].what), list(range(c.start, c.end)), others=True))
        else:
            column = _head(lattice, group)
            if column is None or not column.known or column.unknown or column.label:
                return None
            columns.append(column)
        columns[-1].left, columns[-1].right = min(c.left for c in group), max(c.right for c in group)
    return columns or None


def _stroked(lattice: Lattice, lines: Sequence[Line], at: int) -> bool:
    """Whether tally strokes stand among the rows: then a single upright line is a stroke too, and no rule of the page."""
    for line in lines[at:]:
        if line.blank:
            return False
        for c in cut(lattice.pieces, line.start, line.end, 2):
            if set(squeeze(lattice.original(c.start, c.end))) == {"|"} and c.right - c.left > 1:
                return True
    return False


def _head(lattice: Lattice, group: Sequence[Cell]) -> Column | None:
    """The one column of a head: `avg trif`, `plts blooming`."""
    got = read_heads(lattice, [range(c.start, c.end) for c in group])
    if len(got) == 2 and got[0].label:
        got = got[1:]
    if len(got) != 1:
        return None
    got[0].pieces = [i for c in group for i in range(c.start, c.end)]
    got[0].unknown = [i for i in got[0].unknown if lattice.pieces[i].text not in AVERAGE]
    return got[0]


def _capital(lattice: Lattice, i: int) -> bool:
    return lattice.pieces[i].form == "word" and lattice.original(i, i + 1)[:1].isupper()


def _looked_at(parts: Sequence[_Part]) -> bool:
    """`FIELD  PLANTS  IN BLOOM` over `Hilltop  20  8`: a row for each field, and how many plants were looked at in it;
    no plants 20, as the same number stands in every row. The rows lose their labels."""
    rows = [row for part in parts for row in part.rows]
    numbers = {row.labels for row in rows}
    if len(rows) < 2 or len(rows) != len(parts) or len(numbers) > 1 or not rows[0].labels[0].isdigit():
        return False
    if int(rows[0].labels[0]) < 4:
        return False
    for row in rows:
        row.looked_at, row.labels, row.label = row.label, (), None
    return True


def _grid(lines: Sequence[Line], at: int, columns: list[Column], parts: Sequence[_Part], of_fields: bool) -> Grid:
    grids: list[Grid] = []
    for n, part in enumerate(parts):
        head = [*part.own] if n else [*part.own, *range(lines[at].start, lines[at].end)]
        grid = Grid(columns, part.rows, head, lines[part.first].start, lines[part.last].end, at, part.last)
        grid.name, grid.day, grid.of_fields = part.name, part.day, of_fields
        grid.unread = [(a, b, _WHY) for a, b in part.lost]
        grids.append(grid)
    first = grids[0]
    first.then = grids[1:]
    first.start, first.end, first.first, first.last = lines[at].start, grids[-1].end, at, grids[-1].last
    return first


def _heads(lattice: Lattice, line: Line) -> _Heads | None:
    """The heads of a line: one of a field or a day, one of plants, and at least one of what was seen."""
    if line.blank:
        return None
    pieces = lattice.pieces
    texts = [p.text for p in pieces[line.start : line.end]]
    mark = None if line.tabbed else next((m for m in "|;," if texts.count(m) >= _FEWEST_MARKS), None)
    if mark == "," and len(line.cells) > texts.count(","):
        mark = None  # LONGEST POD, IN.    SEED, IN.: commas inside of heads that wide gaps part
    cells = list(line.cells) if mark is None else cut_at(pieces, line.start, line.end, mark)
    if len(cells) < _FEWEST_MARKS + (not line.tabbed) or (
        [c.tab for c in cells] != list(range(len(cells))) and (mark or line.tabbed)
    ):
        return None
    of: dict[str, int] = {}
    columns: list[Column] = []
    for j, c in enumerate(cells):
        means = column_words().visits.get(head_tokens(lattice.original(c.start, c.end)))
        got = read_heads(lattice, [range(c.start, c.end)])
        if means in OF_THE_VISIT and not (len(got) == 1 and got[0].known):
            columns.append(Column([str(means)], list(range(c.start, c.end)), c.left, c.right))
        elif means is not None and means not in OF_THE_VISIT and means not in of:
            of[means] = j
            columns.append(Column([], list(range(c.start, c.end)), c.left, c.right))
        elif len(got) == 1:
            columns.append(got[0])
        else:
            own = list(range(c.start, c.end))
            columns.append(Column([], own, c.left, c.right, unknown=own))
    labels = [j for j, c in enumerate(columns) if c.label]
    seen = [
        c
        for c in columns
        if c.known and not c.unknown and not c.label and c.what[0] not in {"note", "stop", *OF_THE_VISIT}
    ]
    if not of or len(labels) > 1 or not seen or not (labels or "field" in of):
        return None
    label = labels[0] if labels else None
    return _Heads(columns, of.get("field"), of.get("date"), label, mark, line.tabbed, texts[0] == mark)


def _cells(lattice: Lattice, line: Line, heads: _Heads) -> dict[int, tuple[int, int]] | None:
    """The cells of a row by column; None where the line is no row of the table."""
    if line.blank:
        return None
    if heads.mark is not None:
        found = cut_at(lattice.pieces, line.start, line.end, heads.mark, heads.bordered)
    else:
        found = list(line.cells)
    if heads.mark is None and not heads.tabbed:
        extents = [(c.left, c.right) for c in heads.columns]
        where = under([(c.left, c.right) for c in found], extents)
    elif heads.mark is None and not line.tabbed:
        return None
    else:
        where = [c.tab for c in found]
    last = len(heads.columns) - 1
    out: dict[int, tuple[int, int]] = {}
    for c, j in zip(found, where, strict=True):
        if j is None:
            return None
        if j >= last and heads.columns[last].what == ["note"]:
            out[last] = (out[last][0] if last in out else c.start, c.end)  # a remark with a comma in it
        elif j > last or j in out:
            return None
        else:
            out[j] = (c.start, c.end)
    return out


def _row(lattice: Lattice, heads: _Heads, cells: dict[int, tuple[int, int]]) -> Row | None:
    """The plant of a row; None where no label stands under the head for labels. Without such a head, what was seen of a
    field: its name, and one thing at least."""
    at = cells.get(heads.label) if heads.label is not None else None
    found = labels_of(lattice, *at) if at is not None else None
    if heads.label is None:
        row = Row((), None, {})
        if heads.field not in cells or len(cells) < _FEWEST_MARKS:
            return None
    elif at is None or found is None:
        return None
    else:
        row = Row(found[0], at, {})
    for j, cell in cells.items():
        if j in {heads.label, heads.field, heads.date}:
            continue
        if heads.columns[j].what == ["stop"]:
            row.stop = cell
        else:
            row.cells[j] = [cell]
    return row


def _carried(
    lattice: Lattice, cell: tuple[int, int] | None, above: tuple[int, int] | None
) -> tuple[tuple[int, int] | None, list[int]]:
    """What a row says of its field or day, and its pieces: its own cell, or that of the row above."""
    if cell is None:
        return above, []
    own = list(range(*cell))
    if column_words().cells.get(squeeze(lattice.original(*cell))) == "same":
        return above, own
    a, b = cell
    if b - a > _FEWEST_MARKS and lattice.pieces[a].text == lattice.pieces[b - 1].text == '"':
        a, b = a + 1, b - 1  # a name in quotation marks
    return (a, b), own


def _said(lattice: Lattice, cell: tuple[int, int] | None) -> str:
    return squeeze(lattice.original(*cell)) if cell is not None else ""


def _ruled(lattice: Lattice, line: Line) -> bool:
    return not line.blank and all(p.text in "-_=|+" for p in lattice.pieces[line.start : line.end])
