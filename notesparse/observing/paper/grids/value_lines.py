"""A line of one thing: its head, then a value for each plant (guide 4.21)."""

from __future__ import annotations

from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.values import in_a_name, plain_value
from notesparse.observing.paper.heads import Column, bracketed, read_heads, seen_heads
from notesparse.text.columns import WIDE, Cell, Line, cut
from notesparse.text.lattice import Lattice

_FEW = 2  # plants
_LONGEST_CELL = 4  # pieces
_MOST_OPEN = 2  # words of a head that what follows may explain: four upper, of four upper nodes
_AND_A_TAIL = 2  # the head's cell, and one behind the values


def strange_line(lattice: Lattice, line: Line, n: int) -> bool | None:
    """`height in.   14   15   13`: figures or signs for each plant behind words that are no known head."""
    if (
        len(line.cells) in {n + 1, n + 2}
        and n > 1
        and all(plain_value(lattice, c) for c in line.cells[1:])
        and lattice.pieces[line.start].form == "word"
    ):
        return True
    if len(line.cells) == n + 1 and n > _FEW and lattice.pieces[line.start].form == "word":
        if all(c.end - c.start <= _LONGEST_CELL for c in line.cells[1:]):
            return True
    for a in range(line.start + 1, line.end):
        if not lattice.pieces[a].glued and n > 1:
            cells = cut(lattice.pieces, a, line.end, 1)
            if (
                len(cells) == n
                and all(plain_value(lattice, c) for c in cells)
                and not plain_value(lattice, cut(lattice.pieces, line.start, a, 2)[-1])
            ):
                return True
    return None


def value_line(page: Page, line: Line, n: int) -> tuple[Column, list[Cell]] | None:
    """A head, then a value for each plant: in cells with gaps, or figures and signs with single blanks; codes in a bracket behind."""
    if line.blank:
        return None
    tail = line.cells[-1]
    if len(line.cells) > 1 and page.pieces[tail.start].text == "(" and page.pieces[tail.end - 1].text == ")":
        codes = bracketed(page.lattice, range(tail.start - 1, tail.end))
        if codes is not None:
            got = _cells_of_values(page, Line(line.number, line.start, tail.start, line.cells[:-1], line.tabbed), n)
            if got is None:
                return None
            got[0].codes = {**got[0].codes, **{page.pieces[i].text: (a, b) for i, a, b in codes[1]}}
            got[0].pieces = [*got[0].pieces, *range(tail.start, tail.end)]
            return got
    if len(line.cells) == n + _AND_A_TAIL:
        more = _behind_values(page.lattice, line)
        got = _cells_of_values(page, Line(line.number, line.start, tail.start, line.cells[:-1], line.tabbed), n)
        if more is not None and got is not None:
            got[0].take(more)
            got[0].pieces = [*got[0].pieces, *range(tail.start, tail.end)]
            return got
    return _cells_of_values(page, line, n)


def _behind_values(lattice: Lattice, line: Line) -> Column | None:
    """What stands behind the values of a line: `(x = top two)`, `mm, top 4`."""
    a, b = line.cells[-1].start, line.cells[-1].end
    bracket = lattice.pieces[a].text == "(" and lattice.pieces[b - 1].text == ")"
    got = read_heads(lattice, [range(a + bracket, b - bracket)])
    if not bracket and any(lattice.pieces[i].text == "=" for i in range(a, b)):
        return None
    if got and (len(got) != 1 or got[0].what or got[0].unknown):
        return None
    if not got:
        signs = [i for i in range(a, b) if lattice.pieces[i].text == "="]
        if len(signs) != 1 or not bracket or signs[0] != a + 2 or signs[0] + 1 >= b - 1:
            return None
        return Column(codes={lattice.pieces[a + 1].text: (signs[0] + 1, b - 1)})
    return got[0] if got[0].unit or got[0].place or got[0].by_node or got[0].codes else None


def _cells_of_values(page: Page, line: Line, n: int) -> tuple[Column, list[Cell]] | None:
    if line.number not in page.value_heads:
        page.value_heads[line.number] = _heads_of_values(page, line)
    heads = [(column.copy(), a) for column, a in page.value_heads[line.number]]
    for column, a in heads:
        cells = cut(page.pieces, a, line.end, 2)
        if len(cells) == n and n > 1 and not _in_head(page.lattice, a):
            return column, cells
    for column, a in heads:
        cells = cut(page.pieces, a, line.end, 1)
        if len(cells) != n:
            continue
        odd = [c for c in cells if not (plain_value(page.lattice, c) or c.end == c.start + 1)]
        sized = all(any(page.pieces[i].form in {"int", "dec"} for i in range(c.start, c.end)) for c in odd)
        if not odd or (n >= _FEW and sized and 2 * len(odd) <= n):
            return column, cells  # 1/8  1/8  full 3/16; -  -  3mm@4
    for column, a in reversed(heads):
        cells = cut(page.pieces, a, line.end, 2)
        if 2 <= len(cells) <= n + 1 and page.pieces[a].gap >= 2:
            return column, cells
    return None


def _heads_of_values(page: Page, line: Line) -> list[tuple[Column, int]]:
    heads: list[tuple[Column, int]] = []
    for b in range(line.start + 1, min(line.start + 14, line.end - 1) + 1):
        if page.pieces[b].glued and page.pieces[b].text not in {":", "-", '"'}:
            continue
        if page.pieces[b - 1].text == "-" and page.pieces[b - 1].gap >= WIDE:
            break  # a sign of the first plant, and no part of the head
        over = next((i for i in range(line.start, b) if page.pieces[i].form == "nl"), None)
        runs = [range(line.start, b)] if over is None else [range(line.start, over), range(over + 1, b)]
        got = seen_heads(page.lattice, runs, page.keys)
        if got and len(got[0].unknown) > _MOST_OPEN:
            break  # prose
        only_node = len(got) == 1 and got[0].by_node is not None and not got[0].known
        if len(got) != 1 or not (got[0].known or only_node) or got[0].unknown or got[0].label:
            continue
        if got[0].what == ["finding"] and in_a_name(page.lattice, line.cells[0]):
            break
        a = b
        while a < line.end and page.pieces[a].text in {":", "="}:
            a += 1
        if a < line.end:
            heads.append((got[0], a))
    return heads


def _in_head(lattice: Lattice, a: int) -> bool:
    """Whether a gap of one blank only parts the head from its first value, with no colon: the head may go on."""
    return lattice.pieces[a].gap < 2 and lattice.pieces[a - 1].text not in {":", "=", "."}
