"""Plants across and places or fields down, and what the figures are told over the table (guide 1.2, 4.7, 4.21).

`Fully open tri. only.` over `plant   1   2   3`, and under it `N end   5   5   6` and `S end   6   6   7`; or under it
`Cane Mill   5   5   6` and `Rattle Bridge   6   6   7`, written like names: each line is a field of its own.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import Column, ends_sentence, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Cell, Line, under
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/places_down")

_FEWEST = 2  # places
_NEAR = 4  # lines between what was counted and the table
_LONGEST = 5  # pieces of a place
_COUNTED = (["trifoliates"], ["nodes"], ["flowers"], ["pods"], ["seeds"], ["brown"], ["stage"], ["v"], ["r"])
_NO_PLACE = frozenset(
    {
        "TRIF",
        "NODES",
        "NODE",
        "FLOWER",
        "POD",
        "SEED",
        "BROWN",
        "UNI",
        "COT",
        "SCAR",
        "R",
        "V",
        "MONTH",
        "HEIGHTWORD",
        "LEAF",
    }
)
_PARTS = _LISTED.words("parts")
_PLACES = frozenset({"COMPASS", "WHEREWORD", "FIELDNOUN", "STOP", "ROWS", "ROWW"})


def find_places_down(
    lattice: Lattice,
    lines: Sequence[Line],
    at: int,
    head: tuple[int, list[tuple[Cell, str]]] | None,
    figure: Column | None,
) -> Grid | None:
    """The table whose plants stand on line `at` (`head`: where their labels begin, and each of them)."""
    if head is None:
        return None
    labels = head[1]
    extents = [(c.left, c.right) for c, _ in labels]
    rows: list[Row] = []
    k = at + 1
    while k < len(lines) and not lines[k].blank:
        got = _row(lattice, lines[k], labels, extents)
        if got is None:
            break
        rows += got
        k += 1
    stops = list(dict.fromkeys(row.stop for row in rows if row.stop is not None))
    named = sum(any(e.kind in _PLACES for i in range(*stop) for e in lattice.edges[i]) for stop in stops)
    fields = all(is_title(lattice, *stop) for stop in stops) and not any(_on_a_side(lattice, *stop) for stop in stops)
    if len(stops) < _FEWEST or (2 * named < len(stops) and not fields):
        return None
    if fields and any(_title_over(lattice, lines[k]) for k in range(at)):
        if 2 * named < len(stops):
            return None  # the page is of one field
        fields = False
    told = thing_over(lattice, lines, at)
    column = told if told is not None else figure
    if column is None:
        return None
    pieces = list(told.pieces) if told is not None else []
    column = column.copy()
    column.pieces = []
    line = lines[at]
    grid = Grid([column], rows, list(range(line.start, line.end)), line.start, lines[k - 1].end, at, k - 1)
    grid.head = pieces + grid.head
    return _of_fields(grid, stops) if fields else grid


def is_title(lattice: Lattice, a: int, b: int) -> bool:
    """`Cane Mill`, `RATTLE BRIDGE`, `Home 80`: every word begins with a capital."""
    words = [lattice.original(i, i + 1) for i in range(a, b) if lattice.pieces[i].form == "word"]
    return len(words[0]) > _FEWEST and all(w[0].isupper() for w in words if w.isalpha()) if words else False


def _on_a_side(lattice: Lattice, a: int, b: int) -> bool:
    """`North end`, `Stop 2`, `NE`: a side or a part of a field, and nothing else."""
    kinds = [{e.kind for e in lattice.edges[i] if e.how == "exact"} for i in range(a, b)]
    sided = any(k & {"COMPASS", "STOP", "LOW", "TOP"} for k in kinds)
    parts = _PARTS | {"field"}
    return sided and all(
        k & _PLACES or lattice.pieces[i].text in parts for i, k in zip(range(a, b), kinds, strict=True)
    )


def _title_over(lattice: Lattice, line: Line) -> bool:
    """A cell of words with capitals that name nothing that is counted, and no day: the name of the page's field."""
    for c in line.cells:
        a, b = without_the_day(lattice, c.start, c.end)
        told = a < b and any(x.known or x.unit for x in read_heads(lattice, [range(a, b)]))
        if a < b and b - a <= _LONGEST and not told and is_title(lattice, a, b):
            return True
    return False


def _of_fields(grid: Grid, names: Sequence[tuple[int, int]]) -> Grid:
    """The lines of the table, each a table of the field that it names."""
    parts: list[Grid] = []
    for name in names:
        rows = [row for row in grid.rows if row.stop == name]
        for row in rows:
            row.stop = None
        part = Grid(grid.columns, rows, [] if parts else grid.head, grid.start, grid.end, grid.first, grid.last)
        part.name = name
        parts.append(part)
    parts[0].then = parts[1:]
    return parts[0]


def _row(
    lattice: Lattice, line: Line, labels: Sequence[tuple[Cell, str]], extents: Sequence[tuple[int, int]]
) -> list[Row] | None:
    first, *cells = line.cells
    beside = len(cells) != len(labels) and first.right > extents[0][0]
    if not _place(lattice, first) or beside or not cells or len(cells) > len(labels):
        return None
    where = under([(c.left, c.right) for c in cells], extents, far=2)
    if None in where or not any(lattice.pieces[c.start].form in {"int", "dec"} for c in cells):
        return None
    stop = (first.start, first.end)
    return [
        Row((labels[j or 0][1],), (labels[j or 0][0].start, labels[j or 0][0].end), {0: [(c.start, c.end)]}, stop=stop)
        for c, j in zip(cells, where, strict=True)
    ]


def _place(lattice: Lattice, c: Cell) -> bool:
    """Words that name nothing that is seen on a plant, and no plant."""
    if (
        c.end - c.start > _LONGEST
        or lattice.pieces[c.start].form != "word"
        or len(lattice.original(c.start, c.end)) < _FEWEST
    ):
        return False
    label = read_label(lattice, c.start, c.end)
    if label is not None and label[1] == c.end:
        return False
    kinds = {e.kind for i in range(c.start, c.end) for e in lattice.edges[i] if e.how == "exact"}
    got = read_heads(lattice, [range(c.start, c.end)])
    named = is_title(lattice, c.start, c.end) and c.end - c.start > 1
    return not kinds & _NO_PLACE and not any(
        x.known and x.what != ["stop"] and not (named and _part_of_a_name(lattice, c, x)) for x in got
    )


def _part_of_a_name(lattice: Lattice, c: Cell, x: Column) -> bool:
    """`Cane Mill`, `Thistle Bottom`: a weed is only the first word of it."""
    return x.what == ["finding"] and not any(e.end == c.end and e.how == "exact" for e in lattice.edges[c.start])


def thing_over(lattice: Lattice, lines: Sequence[Line], at: int) -> Column | None:
    """What was counted: a sentence or a cell of the lines over a table that names one thing and nothing else."""
    seen = 0
    for k in range(at - 1, -1, -1):
        if lines[k].blank:
            continue
        for a, b in _sentences(lattice, lines[k]):
            got = read_heads(lattice, [range(a, b)])
            if len(got) == _FEWEST and got[1].label and not got[1].unknown:
                got = got[:1]  # open trifs on each plant
            if len(got) == 1 and got[0].what in _COUNTED and not got[0].unknown:
                got[0].pieces = list(range(a, b))
                return got[0]
            among = _among_the_plan(lattice, a, b)
            if among is not None:
                return among
        seen += 1
        if seen >= _NEAR:
            break
    return None


def _among_the_plan(lattice: Lattice, a: int, b: int) -> Column | None:
    """`Unrolled trifs, four plants (a to d) at each of three stops`: one part says what was counted, and the others only how
    many plants and stops there are."""
    cuts = [a - 1, *(i for i in range(a, b) if lattice.at(i) in _PARTED), b]
    parts = [(x + 1, y) for x, y in itertools.pairwise(cuts) if x + 1 < y]
    found: list[Column] = []
    for x, y in parts:
        end = next((i for i in range(x + 1, y) if lattice.at(i) in {"on", "of", "at"} and _plan(lattice, i, y)), y)
        got = [] if _plan(lattice, x, y) else read_heads(lattice, [range(x, end)])
        if got and not (len(got) == 1 and got[0].what in _COUNTED and not got[0].unknown):
            return None
        found += got
        if not got and not _plan(lattice, x, y):
            return None
    if len(found) != 1:
        return None
    found[0].pieces = list(range(a, b))
    return found[0]


def _plan(lattice: Lattice, a: int, b: int) -> bool:
    """Words for plants, stops and how many of them, and nothing else."""
    for i in range(a, b):
        text = lattice.at(i)
        kinds = {e.kind for e in lattice.edges[i] if e.how in {"exact", "number"} and e.end <= b}
        letter = len(text) == 1 and text.isalpha()
        if not (text in _OF_THE_PLAN or letter or kinds & {"INT", "PLANT", "STOP"}):
            return False
    return True


def _sentences(lattice: Lattice, line: Line) -> list[tuple[int, int]]:
    """The cells of a line, and the sentences of each, without the full stop."""
    out: list[tuple[int, int]] = []
    for c in line.cells:
        a = c.start
        for i in range(c.start, c.end + 1):
            if i == c.end or ends_sentence(lattice, i):
                end = i
                while end > a and lattice.pieces[end - 1].text in ".:":
                    end -= 1
                a, end = without_the_day(lattice, a, end)
                out += [(a, end)] if a < end else []
                a = i + 1
    return out


def without_the_day(lattice: Lattice, a: int, b: int) -> tuple[int, int]:
    """`8/11/99 trifs`, `trifs, 8/11/99`: the words without the day before or behind them."""
    dates = [p for i in range(a, b) for p in phrases_at(lattice, i) if p.rule == "date" and p.end <= b]
    first = max((p.end for p in dates if p.start == a), default=a)
    while first < b and first > a and lattice.pieces[first].text in ",;:-":
        first += 1
    last = min((p.start for p in dates if p.end == b and p.start > first), default=b)
    while last > first and last < b and lattice.pieces[last - 1].text in ",;:-":
        last -= 1
    return first, last


_PARTED = frozenset({",", ";", "(", ")", ":", "-"})
_OF_THE_PLAN = _LISTED.words("of_the_plan")
