"""Turned tables: `plant 1 2 3`, and under it a line for each thing, `tri 6 7 6` (guide 4.21)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field

from notesparse.lazy import dataclass
from notesparse.observing.paper.blocks import is_stop
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.plant_labels import labels_in_order, turned_head
from notesparse.observing.paper.grids.value_lines import strange_line, value_line
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.rows import Grid, Row
from notesparse.observing.paper.stacked import SEEN, is_where, lone_node, where_column
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Cell, Line, under
from notesparse.text.lattice import Lattice

_FEW = 2  # plants
_LONGEST_GROUP = 5  # pieces of a date or stop at the head of a line
_OVER_TWO = -1_000_000  # below it, the numbers of lines that are put together of two


@dataclass(slots=True)
class _Part:
    """The lines of a turned table under one date or stop, at pieces [start, end)."""

    start: int
    end: int
    stop: Cell | None
    dated: bool
    columns: list[Column] = field(default_factory=list)
    cells: dict[int, dict[int, list[tuple[int, int]]]] = field(default_factory=dict)  # plant -> column -> cells
    unread: list[tuple[int, int, str]] = field(default_factory=list)


def _part_before(parts: Sequence[_Part]) -> Column | None:
    """The column of the line above."""
    return parts[-1].columns[-1] if parts and parts[-1].columns else None


def _of_corner(lattice: Lattice, grids: Sequence[Grid], corner: Cell) -> None:
    """Gives the plants of a table the stop or the field that stands before the line of their labels."""
    span = corner.start, corner.end
    kinds = [{e.kind for e in lattice.edges[i]} for i in range(*span)]
    if is_stop(lattice, corner) or all(k & {"COMPASS", "WHEREWORD"} for k in kinds):
        for grid in grids:
            for row in grid.rows:
                row.stop = row.stop or span
    else:
        grids[0].name = span


def find_turned(page: Page, at: int) -> Grid | None:
    """`plant 1 2 3 4`, and under it a line for each thing: `tri 6 7 6 5`.

    Where dates stand at the head of lines, each begins a table of its own (the date is read as prose between them);
    where stops stand there, their plants are others.
    """
    found, corner = turned_head(page, page.lines[at]), None
    if found is None:
        found, corner = _behind_a_name(page, at)
    if found is None:
        return None
    head_end, labels = found
    parts: list[_Part] = []
    k, last = at + 1, at
    blank = False
    while k < len(page.lines):
        here = page.lines[k]
        if here.blank or page.ruled(here):
            blank = blank or here.blank
            nxt = page.lines[k + 1] if k + 1 < len(page.lines) else None
            if (
                nxt is None
                or nxt.blank
                or (not parts and here.blank)
                or (value_line(page, nxt, len(labels)) is None and _under_a_group(page, nxt, len(labels)) is None)
            ):
                break
            k += 1
            continue
        if turned_head(page, here) is not None or _behind_a_name(page, k)[0] is not None:
            break  # the next table begins
        over_two = _over_two_lines(page, k, len(labels))
        if over_two is not None:
            here, k = over_two, k + 1
        if not _take_line(page, here, labels, parts):
            break
        last = k
        k += 1
    parts = [p for p in parts if p.columns]
    if not parts:
        return None
    grids = [_grid_of_part(page, p, labels, at, last, n == 0, head_end) for n, p in enumerate(parts)]
    if corner is not None:
        _of_corner(page.lattice, grids, corner)
    page.more += grids[1:]
    return grids[0]


def _behind_a_name(page: Page, at: int) -> tuple[tuple[int, list[tuple[Cell, str]]] | None, Cell | None]:
    """`Osage Bend   plt   1   2   3`, `Stop A   plt   1   2   3`: the line of labels begins with a field's name or a
    stop, and nothing stands under it. A name in capitals may stand over the heads of the lines: `HOME 40   A   B   C`."""
    line = page.lines[at]
    nxt = page.lines[at + 1] if at + 1 < len(page.lines) else line
    if len(line.cells) <= _FEW or nxt.blank:
        return None, None
    corner = line.cells[0]
    rest = Line(line.number, line.cells[1].start, line.end, line.cells[1:], line.tabbed)
    words = [page.lattice.original(i, i + 1) for i in range(corner.start, corner.end)]
    free = nxt.cells[0].left >= corner.right or all(w.isupper() or w.isdigit() for w in words)
    if not free or page.pieces[corner.start].form != "word" or len(words) > _LONGEST_GROUP:
        return None, None
    if any(e.kind in {"PLANT", "MONTH"} for i in range(corner.start, corner.end) for e in page.lattice.edges[i]):
        return None, None
    title = all(w[0].isupper() or w.isdigit() or not w.isalpha() for w in words)
    known = any(c.known and c.what != ["stop"] for c in _corner_heads(page, corner))
    if not is_stop(page.lattice, corner) and (known or not title):
        return None, None
    found = turned_head(page, rest)
    if found is None and nxt.cells[0].left < corner.right:
        labels = labels_in_order(page.lattice, rest.cells)
        found = (rest.start, labels) if labels is not None and labels[0][1].casefold() in {"1", "a"} else None
    return (found, corner) if found is not None else (None, None)


def _corner_heads(page: Page, corner: Cell) -> list[Column]:
    return read_heads(page.lattice, [range(corner.start, corner.end)], page.keys)


def _over_two_lines(page: Page, k: int, n: int) -> Line | None:
    """`Flower, node` on a line of its own, and under it `from the top   2 1 4`: one head; as one line."""
    if k + 1 >= len(page.lines):
        return None
    here, under_it = page.lines[k], page.lines[k + 1]
    if len(here.cells) != 1 or len(under_it.cells) != n + 1:
        return None
    first, second = here.cells[0], under_it.cells[0]
    got = read_heads(page.lattice, [range(first.start, first.end)], page.keys)
    own = value_line(page, under_it, n)
    placed = bool(got) and got[0].by_node is not None  # which node, / top being 1     2    1,2    5
    if not ((got and got[0].what) or placed) or got[0].label or (own is not None and own[0].known):
        return None
    head = Cell(first.start, second.end, min(first.left, second.left), max(first.right, second.right))
    line = Line(_OVER_TWO - k, head.start, under_it.end, (head, *under_it.cells[1:]), under_it.tabbed)
    return line if value_line(page, line, n) is not None else None


def _take_line(page: Page, line: Line, labels: list[tuple[Cell, str]], parts: list[_Part]) -> bool:
    """Put one line under the labels into the part that it belongs to; False where the table has ended."""
    n = len(labels)
    got = value_line(page, line, n)
    group = _under_a_group(page, line, n) if got is None else None
    if group is not None:
        stop, dated, got = group
        parts.append(_Part(stop.start if not dated else stop.end, line.end, None if dated else stop, dated))
    if got is None and parts and _where_line(page.lattice, line, n, _part_before(parts)):
        cell, over_it = line.cells[0], _part_before(parts)
        assert over_it is not None
        got = where_column(cell, over_it), list(line.cells[1:])
    if got is None and parts and parts[-1].columns and _more_of_head(page, line, parts[-1].columns[-1]):
        parts[-1].end = line.end
        return True
    if got is None:
        if strange_line(page.lattice, line, n) is None:
            return False
        part = parts[-1] if parts else None
        if part is None:
            parts.append(part := _Part(line.start, line.end, None, False))
        part.unread.append((line.start, line.end, "a thing that is not understood"))
        part.end = line.end
        return True
    if not parts:
        parts.append(_Part(line.start, line.end, None, False))
    part = parts[-1]
    part.end = line.end
    column, cells = got
    over = _part_before(parts)
    lone = lone_node(page.lattice, column) or (column.what == ["nodes"] and column.by_node == "down")
    if lone and over is not None and over.what in SEEN and over.by_node is None:
        column.what, column.where = list(over.what), True  # biggest bean   1/8, and under it node   3
    if not column.known:  # at node: of the thing on the line above
        before = part.columns[-1].what if part.columns else []
        if before not in SEEN:
            part.unread.append((line.start, line.end, "a node of nothing named"))
            return True
        column.what, column.where = list(before), True
    part.columns.append(column)
    extents = [(c.left, c.right) for c, _ in labels]
    if len(cells) == n + 1 and cells[-1].left > extents[-1][1]:
        part.unread.append((cells[-1].start, cells[-1].end, "an average or a sum over the plants"))
        cells = cells[:-1]
    where = under([(c.left, c.right) for c in cells], extents, far=2)
    if len(cells) == n or (len(cells) < n and None not in where):
        for c, j in zip(cells, where, strict=True):
            part.cells.setdefault(j or 0, {}).setdefault(len(part.columns) - 1, []).append((c.start, c.end))
    else:
        part.unread.append((cells[0].start, cells[-1].end, f"{len(cells)} figures for {n} plants"))
    return True


def _where_line(lattice: Lattice, line: Line, n: int, over: Column | None) -> bool:
    """`where   3rd dn   2nd dn   top` under a line of pods: the places of what stands on that line."""
    if over is None or over.what not in SEEN or over.where or len(line.cells) != n + 1:
        return False
    return is_where(lattice, line.cells[0])


def _more_of_head(page: Page, line: Line, column: Column) -> bool:
    """`(top 4)` alone under `Longest pod  5/8  3/4`: it goes on with the head of the line above."""
    if len(line.cells) != 1:
        return False
    got = read_heads(page.lattice, [range(line.start, line.end)], page.keys, bare_measure=True)
    if len(got) != 1 or got[0].unknown or got[0].what or not (got[0].unit or got[0].place or got[0].by_node):
        return False
    column.take(got[0])
    column.pieces = [*column.pieces, *range(line.start, line.end)]
    return True


def _under_a_group(page: Page, line: Line, n: int) -> tuple[Cell, bool, tuple[Column, list[Cell]]] | None:
    """`29 Jun   tri   4 4 5`, `north   tri   4 4 5`: the cell at the head, whether it is a date, and the values."""
    if line.blank or len(line.cells) < 3:
        return None
    first = line.cells[0]
    rest = Line(-1 - line.number, line.cells[1].start, line.end, line.cells[1:], line.tabbed)
    got = value_line(page, rest, n)
    if got is None or first.end - first.start > _LONGEST_GROUP:
        return None
    dated = any(ph.rule == "date" and ph.end == first.end for ph in phrases_at(page.lattice, first.start))
    return first, dated, got


def _grid_of_part(
    page: Page, part: _Part, labels: list[tuple[Cell, str]], at: int, last: int, first: bool, head_end: int
) -> Grid:
    line = page.lines[at]
    joined = first and not part.dated
    if first and part.dated:
        page.heads.append((line.start, line.end))  # the line of labels stands apart
    rows = [
        Row(
            (text,),
            (c.start, c.end),
            part.cells.get(j, {}),
            stop=(part.stop.start, part.stop.end) if part.stop else None,
        )
        for j, (c, text) in enumerate(labels)
    ]
    head = [i for c in part.columns for i in c.pieces]
    if joined:
        head += list(range(line.start, head_end))
    whole = joined and not page.more
    start = line.start if joined else part.start
    return Grid(part.columns, rows, head, start, part.end, at if whole else last + 1, last, part.unread)
