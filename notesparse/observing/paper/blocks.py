"""Two or more tables side by side, under titles: `STOP A        STOP B`, or the names of two fields (guide 4.21).

Under titles of stops the plants of a block stood at that stop; under names of fields each is a table of its field.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.columns import column_words
from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import labels_of
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Cell, Line
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/blocks")

_SLACK = 3  # characters that a block may begin left of its title
_FEWEST = 2
_LONGEST_TITLE = 5  # pieces
_IN_NAMES = _LISTED.words("in_names")
_WHERE = frozenset({"COMPASS", "WHEREWORD", "LOW", "TOP", "UPTOP", "MIDPLANT"})


def find_blocks(lattice: Lattice, lines: Sequence[Line], at: int, figure: Column | None) -> list[Grid]:
    """Blocks of bare labels and figures under titles of stops; the key of the page says what a figure is."""
    titles = _titles(lattice, lines[at])
    if figure is None or titles is None or not all(is_stop(lattice, c) for c in titles):
        return []
    rows: list[Row] = []
    k, last = at + 1, at
    while k < len(lines) and not lines[k].blank:
        got = _row(lattice, lines[k], titles)
        if got is None:
            break
        rows += got
        last, k = k, k + 1
    if len(rows) < 2 * _FEWEST or len({r.stop for r in rows}) < _FEWEST:
        return []
    column = replace(figure, pieces=[], codes=dict(figure.codes))
    head = list(range(lines[at].start, lines[at].end))
    return [Grid([column], rows, head, lines[at].start, lines[last].end, at, last)]


def _titles(lattice: Lattice, line: Line) -> list[Cell] | None:
    cells = list(line.cells)
    words = all(lattice.pieces[c.start].form == "word" and c.end - c.start <= _LONGEST_TITLE for c in cells)
    return cells if len(cells) >= _FEWEST and words else None


_A_NUMBERED = 2  # pieces of `Stop 2`


def is_stop(lattice: Lattice, c: Cell) -> bool:
    """`STOP A`, `spot 2`, `north end`: a word for a place in the field stands at one end of the title. `Smith Corner` is a name."""
    for i in (c.start, c.end - 1):
        words = column_words().heads.get((lattice.pieces[i].text,), ())
        if any(w.means == "stop" for w in words) or any(e.kind == "STOP" for e in lattice.edges[i]):
            return c.end - c.start > 1 and not _a_name(lattice, c, i)
    return False


def stop_at(lattice: Lattice, c: Cell) -> tuple[int, int]:
    """The pieces that name a stop: `2` of `Stop 2`, all of `north end`."""
    numbered = c.end == c.start + _A_NUMBERED and any(
        e.kind == "STOP" and e.end == c.start + 1 for e in lattice.edges[c.start]
    )
    return (c.start + 1, c.end) if numbered else (c.start, c.end)


def _a_name(lattice: Lattice, c: Cell, i: int) -> bool:
    """Whether the words around a word for a place, at piece i, make a name of it."""
    others = [k for k in range(c.start, c.end) if k != i]
    if lattice.pieces[i].text not in _IN_NAMES or any(lattice.pieces[k].form != "word" for k in others):
        return False
    told = any(e.kind in _WHERE or len(lattice.pieces[k].text) == 1 for k in others for e in lattice.edges[k])
    return not told and all(lattice.original(k, k + 1)[:1].isupper() for k in range(c.start, c.end))


def _row(lattice: Lattice, line: Line, titles: Sequence[Cell]) -> list[Row] | None:
    """One plant for each block of a line: a label, and its figure."""
    out: list[Row] = []
    for n, title in enumerate(titles):
        right = titles[n + 1].left - _SLACK if n + 1 < len(titles) else 10**6
        left = title.left - _SLACK if n else -1
        cells = [c for c in line.cells if left <= c.left < right]
        if not cells:
            continue
        labels = labels_of(lattice, cells[0].start, cells[0].end)
        if labels is None or len(cells) != 2:
            return None
        value = (cells[1].start, cells[1].end)
        out.append(Row(labels[0], labels[1], {0: [value]}, stop=(title.start, title.end)))
    return out or None


def titled_blocks(lattice: Lattice, lines: Sequence[Line], grid: Grid) -> list[Grid]:
    """A table with several columns of labels, under titles: each plant at its stop, or a table for each field."""
    blocks = [i for i, c in enumerate(grid.columns) if c.label]
    if grid.of_fields:
        return [grid]  # its fields are named row by row
    if len(blocks) == 1 and blocks[0] == 0:
        return _shared_labels(lattice, lines, grid)
    k = grid.first - 1
    while k >= 0 and lines[k].blank and grid.first - k < 2:
        k -= 1
    titles = _titles(lattice, lines[k]) if len(blocks) > 1 and k >= 0 and not lines[k].blank else None
    if titles is None or len(titles) != len(blocks) or _of_the_page(lattice, lines[k]):
        return [grid]
    parts: list[list[Row]] = [[] for _ in blocks]
    for row in grid.rows:
        if row.label is None:
            return [grid]
        place = lattice.pieces[row.label[0]].column
        n = max((j for j, b in enumerate(blocks) if grid.columns[b].left - _SLACK <= place), default=0)
        parts[n].append(row)
    stops = all(is_stop(lattice, c) for c in titles)
    for title, rows in zip(titles, parts, strict=True):
        for row in rows:
            row.stop = (title.start, title.end) if stops else row.stop
    head = list(range(lines[k].start, grid.start)) if stops else []
    if stops:
        grid.start, grid.first, grid.head = lines[k].start, k, head + grid.head
        return [grid]
    grid.start, grid.first = lines[k].start, k
    made = [
        replace(
            grid, rows=rows, name=(title.start, title.end), head=[] if n else grid.head, unread=[] if n else grid.unread
        )
        for n, (title, rows) in enumerate(zip(titles, parts, strict=True))
    ]
    made[0].then = made[1:]
    return made[:1]


def _shared_labels(lattice: Lattice, lines: Sequence[Line], grid: Grid) -> list[Grid]:
    """One column of labels before the same heads again and again, each time under another stop or field."""
    k = grid.first - 1
    titles = _titles(lattice, lines[k]) if k >= 0 and not lines[k].blank else None
    things = [i for i, c in enumerate(grid.columns) if not c.label]
    size = len(things) // len(titles) if titles else 0
    if titles is None or size * len(titles) != len(things) or not size or _of_the_page(lattice, lines[k]):
        return [grid]
    groups = [things[n * size : (n + 1) * size] for n in range(len(titles))]
    if any([_alike(grid.columns[i]) for i in g] != [_alike(grid.columns[i]) for i in groups[0]] for g in groups):
        return [grid]
    stops = all(is_stop(lattice, c) for c in titles)
    grid.start, grid.first = lines[k].start, k
    made: list[Grid] = []
    for n, (title, group) in enumerate(zip(titles, groups, strict=True)):
        span = (title.start, title.end)
        rows = [
            replace(row, cells={i: c for i, c in row.cells.items() if i in group}, stop=span if stops else row.stop)
            for row in grid.rows
            if any(i in group for i in row.cells)
        ]
        named = None if stops else span
        made.append(replace(grid, rows=rows, name=named, head=[] if n else grid.head, unread=[] if n else grid.unread))
    made[0].then = made[1:]
    return made[:1]


def _alike(c: Column) -> tuple[object, ...]:
    return tuple(c.what), c.unit, c.by_node, c.percent, c.of, c.place.form if c.place is not None else None


def _of_the_page(lattice: Lattice, line: Line) -> bool:
    """A line with a date or figures, or with heads: it is the head of the page, and no titles."""
    if any(lattice.pieces[i].form in {"int", "dec", "dmy"} for i in range(line.start, line.end)) and line.number == 0:
        return True
    if any(
        e.kind in {"MONTH", "PLANTED", "ROWS", "GROUP"} for i in range(line.start, line.end) for e in lattice.edges[i]
    ):
        return True
    got = read_heads(lattice, [range(line.start, line.end)])
    return (
        bool(got) and all(c.known and not c.unknown for c in got) and not all(is_stop(lattice, c) for c in line.cells)
    )
