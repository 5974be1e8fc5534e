"""Turned tables (`plant 1 2 3`, `tri 6 7 6`), figures in order, and pairs of label and value under a legend (guide 4.21)."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.observing.counting import numbered_below
from notesparse.observing.paper.blocks import is_stop
from notesparse.observing.paper.heads import Column, bracketed, ends_sentence, read_heads, seen_heads
from notesparse.observing.paper.inside import Inside
from notesparse.observing.paper.row_labels import labels_of, read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.observing.paper.stacked import SEEN, is_where, lone_node, where_column
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import WIDE, Cell, Line, cut, under
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/turned")

_FEW = 2  # plants
_ANSWERS = frozenset({"yes", "no"})
_FILLS = _LISTED.words("fills")
_LONGEST_CELL = 4  # pieces
_LONGEST_HEAD = 14  # pieces of a head with its values on the same line
_INDENT = 3  # blanks before labels that stand alone over a table
_LONGEST_GROUP = 5  # pieces of a date or stop at the head of a line
_A_CODE = 2  # pieces of a stage code
_OWN = frozenset({"TRIF", "NODE", "NODES", "FLOWER", "POD", "SEED", "R", "V"})
_MOST_OPEN = 2  # words of a head that what follows may explain: four upper, of four upper nodes
_OVER_TWO = -1_000_000  # below it, the numbers of lines that are put together of two
_AND_A_TAIL = 2  # the head's cell, and one behind the values
_IN_ORDER = _LISTED.words("in_order")
_CLAUSE_ENDS = frozenset(",.:;-")
_ROMAN = list(_LISTED.ordered("roman"))


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


def part_before(parts: Sequence[_Part]) -> Column | None:
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


_NAMED_BY = {"pods": "POD", "seeds": "SEED", "flowers": "FLOWER", "trifoliates": "TRIF", "nodes": "NODES"}
_NAMES = frozenset(_NAMED_BY.values())


class Turned(Inside):
    """Finds tables whose lines are things and whose columns are plants."""

    def __init__(self, lattice: Lattice) -> None:
        super().__init__(lattice)
        self.keys: dict[str, Column] = {}  # a letter that a key line explains
        self.key_lines: dict[int, str] = {}
        self.more: list[Grid] = []  # further tables that one layout holds
        self.heads: list[tuple[int, int]] = []  # pieces [start, end) of heads that stand apart from their rows
        self.legends: dict[int, Column] = {}
        self.cell_legends: dict[int, list[tuple[Column, Cell]]] = {}  # by line, from left to right
        self._value_heads: dict[
            int, list[tuple[Column, int]]
        ] = {}  # a line -> its possible heads, and where values begin

    def turned(self, at: int) -> Grid | None:
        """`plant 1 2 3 4`, and under it a line for each thing: `tri 6 7 6 5`.

        Where dates stand at the head of lines, each begins a table of its own (the date is read as prose between them);
        where stops stand there, their plants are others.
        """
        found, corner = self.turned_head(self.lines[at]), None
        if found is None:
            found, corner = self._behind_a_name(at)
        if found is None:
            return None
        head_end, labels = found
        parts: list[_Part] = []
        k, last = at + 1, at
        blank = False
        while k < len(self.lines):
            here = self.lines[k]
            if here.blank or self.ruled(here):
                blank = blank or here.blank
                nxt = self.lines[k + 1] if k + 1 < len(self.lines) else None
                if (
                    nxt is None
                    or nxt.blank
                    or (not parts and here.blank)
                    or (self._value_line(nxt, len(labels)) is None and self._grouped(nxt, len(labels)) is None)
                ):
                    break
                k += 1
                continue
            if self.turned_head(here) is not None or self._behind_a_name(k)[0] is not None:
                break  # the next table begins
            over_two = self._over_two_lines(k, len(labels))
            if over_two is not None:
                here, k = over_two, k + 1
            if not self._take_line(here, labels, parts):
                break
            last = k
            k += 1
        parts = [p for p in parts if p.columns]
        if not parts:
            return None
        grids = [self._part_grid(p, labels, at, last, n == 0, head_end) for n, p in enumerate(parts)]
        if corner is not None:
            _of_corner(self.lattice, grids, corner)
        self.more += grids[1:]
        return grids[0]

    def _behind_a_name(self, at: int) -> tuple[tuple[int, list[tuple[Cell, str]]] | None, Cell | None]:
        """`Osage Bend   plt   1   2   3`, `Stop A   plt   1   2   3`: the line of labels begins with a field's name or a
        stop, and nothing stands under it. A name in capitals may stand over the heads of the lines: `HOME 40   A   B   C`."""
        line = self.lines[at]
        nxt = self.lines[at + 1] if at + 1 < len(self.lines) else line
        if len(line.cells) <= _FEW or nxt.blank:
            return None, None
        corner = line.cells[0]
        rest = Line(line.number, line.cells[1].start, line.end, line.cells[1:], line.tabbed)
        words = [self.lattice.original(i, i + 1) for i in range(corner.start, corner.end)]
        free = nxt.cells[0].left >= corner.right or all(w.isupper() or w.isdigit() for w in words)
        if not free or self.pieces[corner.start].form != "word" or len(words) > _LONGEST_GROUP:
            return None, None
        if any(e.kind in {"PLANT", "MONTH"} for i in range(corner.start, corner.end) for e in self.lattice.edges[i]):
            return None, None
        title = all(w[0].isupper() or w.isdigit() or not w.isalpha() for w in words)
        known = any(c.known and c.what != ["stop"] for c in self._corner_heads(corner))
        if not is_stop(self.lattice, corner) and (known or not title):
            return None, None
        found = self.turned_head(rest)
        if found is None and nxt.cells[0].left < corner.right:
            labels = self._labels_in_order(rest.cells)
            found = (rest.start, labels) if labels is not None and labels[0][1].casefold() in {"1", "a"} else None
        return (found, corner) if found is not None else (None, None)

    def _corner_heads(self, corner: Cell) -> list[Column]:
        return read_heads(self.lattice, [range(corner.start, corner.end)], self.keys)

    def _over_two_lines(self, k: int, n: int) -> Line | None:
        """`Flower, node` on a line of its own, and under it `from the top   2 1 4`: one head; as one line."""
        if k + 1 >= len(self.lines):
            return None
        here, under_it = self.lines[k], self.lines[k + 1]
        if len(here.cells) != 1 or len(under_it.cells) != n + 1:
            return None
        first, second = here.cells[0], under_it.cells[0]
        got = read_heads(self.lattice, [range(first.start, first.end)], self.keys)
        own = self._value_line(under_it, n)
        placed = bool(got) and got[0].by_node is not None  # which node, / top being 1     2    1,2    5
        if not ((got and got[0].what) or placed) or got[0].label or (own is not None and own[0].known):
            return None
        head = Cell(first.start, second.end, min(first.left, second.left), max(first.right, second.right))
        line = Line(_OVER_TWO - k, head.start, under_it.end, (head, *under_it.cells[1:]), under_it.tabbed)
        return line if self._value_line(line, n) is not None else None

    def _take_line(self, line: Line, labels: list[tuple[Cell, str]], parts: list[_Part]) -> bool:
        """Put one line under the labels into the part that it belongs to; False where the table has ended."""
        n = len(labels)
        got = self._value_line(line, n)
        group = self._grouped(line, n) if got is None else None
        if group is not None:
            stop, dated, got = group
            parts.append(_Part(stop.start if not dated else stop.end, line.end, None if dated else stop, dated))
        if got is None and parts and self._where_line(line, n, part_before(parts)):
            cell, over_it = line.cells[0], part_before(parts)
            assert over_it is not None
            got = where_column(cell, over_it), list(line.cells[1:])
        if got is None and parts and parts[-1].columns and self._more_of_head(line, parts[-1].columns[-1]):
            parts[-1].end = line.end
            return True
        if got is None:
            if self._strange_line(line, n) is None:
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
        over = part_before(parts)
        lone = lone_node(self.lattice, column) or (column.what == ["nodes"] and column.by_node == "down")
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

    def _where_line(self, line: Line, n: int, over: Column | None) -> bool:
        """`where   3rd dn   2nd dn   top` under a line of pods: the places of what stands on that line."""
        if over is None or over.what not in SEEN or over.where or len(line.cells) != n + 1:
            return False
        return is_where(self.lattice, line.cells[0])

    def _more_of_head(self, line: Line, column: Column) -> bool:
        """`(top 4)` alone under `Longest pod  5/8  3/4`: it goes on with the head of the line above."""
        if len(line.cells) != 1:
            return False
        got = read_heads(self.lattice, [range(line.start, line.end)], self.keys, bare_measure=True)
        if len(got) != 1 or got[0].unknown or got[0].what or not (got[0].unit or got[0].place or got[0].by_node):
            return False
        column.take(got[0])
        column.pieces = [*column.pieces, *range(line.start, line.end)]
        return True

    def _grouped(self, line: Line, n: int) -> tuple[Cell, bool, tuple[Column, list[Cell]]] | None:
        """`29 Jun   tri   4 4 5`, `north   tri   4 4 5`: the cell at the head, whether it is a date, and the values."""
        if line.blank or len(line.cells) < 3:
            return None
        first = line.cells[0]
        rest = Line(-1 - line.number, line.cells[1].start, line.end, line.cells[1:], line.tabbed)
        got = self._value_line(rest, n)
        if got is None or first.end - first.start > _LONGEST_GROUP:
            return None
        dated = any(ph.rule == "date" and ph.end == first.end for ph in phrases_at(self.lattice, first.start))
        return first, dated, got

    def _part_grid(
        self, part: _Part, labels: list[tuple[Cell, str]], at: int, last: int, first: bool, head_end: int
    ) -> Grid:
        line = self.lines[at]
        joined = first and not part.dated
        if first and part.dated:
            self.heads.append((line.start, line.end))  # the line of labels stands apart
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
        whole = joined and not self.more
        start = line.start if joined else part.start
        return Grid(part.columns, rows, head, start, part.end, at if whole else last + 1, last, part.unread)

    def _strange_line(self, line: Line, n: int) -> bool | None:
        """`height in.   14   15   13`: figures or signs for each plant behind words that are no known head."""
        if (
            len(line.cells) in {n + 1, n + 2}
            and n > 1
            and all(self._plain_value(c) for c in line.cells[1:])
            and self.pieces[line.start].form == "word"
        ):
            return True
        if len(line.cells) == n + 1 and n > _FEW and self.pieces[line.start].form == "word":
            if all(c.end - c.start <= _LONGEST_CELL for c in line.cells[1:]):
                return True
        for a in range(line.start + 1, line.end):
            if not self.pieces[a].glued and n > 1:
                cells = cut(self.pieces, a, line.end, 1)
                if (
                    len(cells) == n
                    and all(self._plain_value(c) for c in cells)
                    and not self._plain_value(cut(self.pieces, line.start, a, 2)[-1])
                ):
                    return True
        return None

    def in_order(self, at: int) -> Grid | None:
        """Lines of figures with no line of labels over them (`tf  11  12  11`, `nd  12  13  12`): plants 1, 2, 3 in order."""
        found: list[tuple[Column, list[Cell]]] = []
        unread: list[tuple[int, int, str]] = []
        k = at
        while k < len(self.lines) and not self.lines[k].blank:
            line = self.lines[k]
            n = len(found[0][1]) if found else max(len(line.cells), len(cut(self.pieces, line.start, line.end, 1))) - 1
            got = None
            for count in (n,) if found else range(n, max(2, n - 4), -1):
                got = self._value_line(line, count) if 3 <= count <= 40 else None
                if got is not None and (
                    len(got[1]) != count or not self._in_a_row(got, bool(found)) or len(got[0].what) != 1
                ):
                    got = None
                if got is not None:
                    break
            if got is None:
                if found and self._strange_line(line, n):
                    unread.append((line.start, line.end, "a thing that is not understood"))
                    k += 1
                    continue
                break
            found.append(got)
            k += 1
        if len(found) < 2 or len({c.what[0] for c, _ in found}) != len(found):
            return None
        order = self._order_over(at)
        many = len(found[0][1])
        labels = tuple(str(j + 1) for j in range(many))
        if order is not None and len(order[0]) == many:
            labels = order[0]
            self.heads.append(order[1:])
        rows = [
            Row(
                (labels[j],),
                None,
                {i: [(cells[j].start, cells[j].end)] for i, (_, cells) in enumerate(found)},
                damaged=True,
            )
            for j in range(many)
        ]
        return Grid(
            [c for c, _ in found],
            rows,
            [i for c, _ in found for i in c.pieces],
            self.lines[at].start,
            self.lines[k - 1].end,
            at,
            k - 1,
            unread,
        )

    def _order_over(self, at: int) -> tuple[tuple[str, ...], int, int] | None:
        """The plants that the line above names for the figures of line `at`, and the pieces that do so."""
        over = self.lines[max(0, at - _FEW) : at][::-1]
        above = next((x for x in over if not x.blank and x.number not in self.legends), None)
        return self.plants_in_order(above) if above is not None else None

    def plants_in_order(self, line: Line) -> tuple[tuple[str, ...], int, int] | None:
        """`Plants 5 to 8 in order`, at the head of a line, with a comma behind or nothing: the labels and their pieces."""
        if not any(e.kind == "PLANT" for e in self.lattice.edges[line.start]):
            return None
        k = next((i for i in range(line.start, line.end) if self.pieces[i].text in {"in", ":", "."}), line.end)
        found = labels_of(self.lattice, line.start, k)
        if found is None or len(found[0]) < _FEW:
            return None
        while k < line.end and self.pieces[k].text in _IN_ORDER:
            k += 1
        if k < line.end and self.pieces[k].text not in _CLAUSE_ENDS:
            return None
        return found[0], line.start, k

    def _in_a_row(self, got: tuple[Column, list[Cell]], more: bool) -> bool:
        """Figures, signs and codes; on a further line (`more`) some cells may say more: `-  -  3mm@4`."""
        odd = [c for c in got[1] if not (self._plain_value(c) or self._coded(got[0], c) or self._a_stage(got[0], c))]
        sized = all(any(self.pieces[i].form in {"int", "dec"} for i in range(c.start, c.end)) for c in odd)
        return not odd or (more and sized and 2 * len(odd) <= len(got[1]))

    def _a_stage(self, column: Column, c: Cell) -> bool:
        """`V8` under a head of stages."""
        code = self.pieces[c.start].text in {"v", "r"} and c.end == c.start + _A_CODE
        return code and column.what == ["stage"] and self.pieces[c.start + 1].form == "int"

    def _coded(self, column: Column, c: Cell) -> bool:
        return squeeze(self.lattice.original(c.start, c.end)) in column.codes

    def turned_head(self, line: Line) -> tuple[int, list[tuple[Cell, str]]] | None:
        if line.blank:
            return None
        named = [(c, read_label(self.lattice, c.start, c.end)) for c in line.cells]
        labels = self.worded_labels(line)
        if labels is not None:
            return line.start, labels
        if len(named) >= 2 and all(f is not None and f[1] == c.end for c, f in named):
            labels = self._labels_in_order(line.cells)  # the labels alone, over the figures of the lines below
            if labels is not None and labels[0][1].casefold() in {"1", "a"} and labels[0][0].left >= _INDENT:
                return line.start, labels
        for b in range(line.start + 1, min(line.start + 5, line.end)):
            got = seen_heads(self.lattice, [range(line.start, b)], self.keys)
            if len(got) != 1 or not got[0].label or got[0].unknown:
                continue
            while b < line.end and self.pieces[b].text in {".", ":", "-", "#"}:
                b += 1
            labels = self._labels_in_order(cut(self.pieces, b, line.end, 1))
            labels = labels or self._labels_in_order(cut(self.pieces, b, line.end, WIDE))  # [ 1 ]     [ 2 ]
            if labels is not None:
                return b, labels
        return None

    def worded_labels(self, line: Line) -> list[tuple[Cell, str]] | None:
        """`No. 1   No. 2   No. 3`, `Pl A   Pl B`: nothing but labels, each with its word."""
        for c in line.cells:
            found = read_label(self.lattice, c.start, c.end) if self.pieces[c.start].form == "word" else None
            if found is None or not found[2] or found[1] != c.end:
                return None
        return self._labels_in_order(line.cells)

    def _labels_in_order(self, cells: Sequence[Cell]) -> list[tuple[Cell, str]] | None:
        labels: list[tuple[Cell, str]] = []
        while len(cells) > 2 and self._average_cell(cells[-1]):
            cells = cells[:-1]  # the average over the plants is none of them
        written = [self.lattice.original(c.start, c.end) for c in cells]
        if len(written) > 1 and [w.casefold() for w in written] == _ROMAN[: len(written)]:
            return list(zip(cells, written, strict=True))
        for c in cells:
            found = read_label(self.lattice, c.start, c.end)
            if found is None or found[1] != c.end or len(found[0]) != 1:
                return None
            labels.append((c, found[0][0]))
        names = [n for _, n in labels]
        if len(names) < 2 or len(set(names)) != len(names):
            return None
        steps = [
            (int(y) - int(x)) if x.isdigit() and y.isdigit() else ord(y[0].casefold()) - ord(x[0].casefold())
            for x, y in itertools.pairwise(names)
        ]
        return labels if all(s >= 1 for s in steps) and sum(s == 1 for s in steps) >= len(steps) - 1 else None

    def _average_cell(self, c: Cell) -> bool:
        return column_words().cells.get(squeeze(self.lattice.original(c.start, c.end))) == "average"

    def _value_line(self, line: Line, n: int) -> tuple[Column, list[Cell]] | None:
        """A head, then a value for each plant: in cells with gaps, or figures and signs with single blanks; codes in a bracket behind."""
        if line.blank:
            return None
        tail = line.cells[-1]
        if len(line.cells) > 1 and self.pieces[tail.start].text == "(" and self.pieces[tail.end - 1].text == ")":
            codes = bracketed(self.lattice, range(tail.start - 1, tail.end))
            if codes is not None:
                got = self._values(Line(line.number, line.start, tail.start, line.cells[:-1], line.tabbed), n)
                if got is None:
                    return None
                got[0].codes = {**got[0].codes, **{self.pieces[i].text: (a, b) for i, a, b in codes[1]}}
                got[0].pieces = [*got[0].pieces, *range(tail.start, tail.end)]
                return got
        if len(line.cells) == n + _AND_A_TAIL:
            more = self._tail(line)
            got = self._values(Line(line.number, line.start, tail.start, line.cells[:-1], line.tabbed), n)
            if more is not None and got is not None:
                got[0].take(more)
                got[0].pieces = [*got[0].pieces, *range(tail.start, tail.end)]
                return got
        return self._values(line, n)

    def _tail(self, line: Line) -> Column | None:
        """What stands behind the values of a line: `(x = top two)`, `mm, top 4`."""
        a, b = line.cells[-1].start, line.cells[-1].end
        bracket = self.pieces[a].text == "(" and self.pieces[b - 1].text == ")"
        got = read_heads(self.lattice, [range(a + bracket, b - bracket)])
        if not bracket and any(self.pieces[i].text == "=" for i in range(a, b)):
            return None
        if got and (len(got) != 1 or got[0].what or got[0].unknown):
            return None
        if not got:
            signs = [i for i in range(a, b) if self.pieces[i].text == "="]
            if len(signs) != 1 or not bracket or signs[0] != a + 2 or signs[0] + 1 >= b - 1:
                return None
            return Column(codes={self.pieces[a + 1].text: (signs[0] + 1, b - 1)})
        return got[0] if got[0].unit or got[0].place or got[0].by_node or got[0].codes else None

    def _values(self, line: Line, n: int) -> tuple[Column, list[Cell]] | None:
        if line.number not in self._value_heads:
            self._value_heads[line.number] = self._heads_of_values(line)
        heads = [(column.copy(), a) for column, a in self._value_heads[line.number]]
        for column, a in heads:
            cells = cut(self.pieces, a, line.end, 2)
            if len(cells) == n and n > 1 and not self._in_head(a):
                return column, cells
        for column, a in heads:
            cells = cut(self.pieces, a, line.end, 1)
            if len(cells) != n:
                continue
            odd = [c for c in cells if not (self._plain_value(c) or c.end == c.start + 1)]
            sized = all(any(self.pieces[i].form in {"int", "dec"} for i in range(c.start, c.end)) for c in odd)
            if not odd or (n >= _FEW and sized and 2 * len(odd) <= n):
                return column, cells  # 1/8  1/8  full 3/16; -  -  3mm@4
        for column, a in reversed(heads):
            cells = cut(self.pieces, a, line.end, 2)
            if 2 <= len(cells) <= n + 1 and self.pieces[a].gap >= 2:
                return column, cells
        return None

    def _heads_of_values(self, line: Line) -> list[tuple[Column, int]]:
        heads: list[tuple[Column, int]] = []
        for b in range(line.start + 1, min(line.start + 14, line.end - 1) + 1):
            if self.pieces[b].glued and self.pieces[b].text not in {":", "-", '"'}:
                continue
            if self.pieces[b - 1].text == "-" and self.pieces[b - 1].gap >= WIDE:
                break  # a sign of the first plant, and no part of the head
            over = next((i for i in range(line.start, b) if self.pieces[i].form == "nl"), None)
            runs = [range(line.start, b)] if over is None else [range(line.start, over), range(over + 1, b)]
            got = seen_heads(self.lattice, runs, self.keys)
            if got and len(got[0].unknown) > _MOST_OPEN:
                break  # prose
            only_node = len(got) == 1 and got[0].by_node is not None and not got[0].known
            if len(got) != 1 or not (got[0].known or only_node) or got[0].unknown or got[0].label:
                continue
            if got[0].what == ["finding"] and self._in_a_name(line.cells[0]):
                break
            a = b
            while a < line.end and self.pieces[a].text in {":", "="}:
                a += 1
            if a < line.end:
                heads.append((got[0], a))
        return heads

    def _in_a_name(self, c: Cell) -> bool:
        """`Cane Mill`, `Thistle Bottom`: words with capitals, of which a weed or a bug is only a part."""
        words = range(c.start, c.end)
        whole = any(e.how == "exact" and e.end == c.end for e in self.lattice.edges[c.start])
        return c.end > c.start + 1 and not whole and all(self.lattice.original(i, i + 1)[0].isupper() for i in words)

    def _in_head(self, a: int) -> bool:
        """Whether a gap of one blank only parts the head from its first value, with no colon: the head may go on."""
        return self.pieces[a].gap < 2 and self.pieces[a - 1].text not in {":", "=", "."}

    def _plain_value(self, c: Cell) -> bool:
        """A figure or a sign, no words."""
        sign = column_words().cells.get(squeeze(self.lattice.original(c.start, c.end)))
        return (
            sign is not None
            or self._with_unit(c)
            or any(e.kind in {"INT", "DEC", "FRAC"} and e.end == c.end for e in self.lattice.edges[c.start])
            or (c.end > c.start + 1 and self.pieces[c.end - 1].text == "%")
        )

    def _with_unit(self, c: Cell) -> bool:
        """`5mm`, `1/4"`: a figure with its unit."""
        edges = self.lattice.edges
        return any(
            u.kind in {"INCH", "MM", "CM"} and u.end == c.end
            for e in edges[c.start]
            if e.kind in {"INT", "DEC", "FRAC"} and e.end < c.end
            for u in edges[e.end]
        )

    def _of_leaves_or_organs(self, a: int, b: int) -> bool:
        """`10 tf`, `bloom 2nd node`: what is said of the plant itself."""
        return any(e.kind in _OWN for i in range(a, b) for e in self.lattice.edges[i])

    def _told_with_its_own(self, what: str, a: int, b: int) -> bool:
        """`12 tri   pod 4` under a head of pods: the cell says itself what each figure is of."""
        own = _NAMED_BY.get(what)
        kinds = {e.kind for i in range(a, b) for e in self.lattice.edges[i] if own and e.how != "near"}
        return own in kinds and bool(kinds & (_NAMES - {own}))

    def pairs(self, at: int) -> Grid | None:
        """`Longest pod at upper 4 nodes, cm`, then `1:  .6     4:  .9`."""
        legend, start = self._pair_head(at)
        if legend is None or len(legend.what) != 1 or at in self.key_lines:
            return None
        if any(numbered_below(self.lattice, c.start) for c in self.lines[at].cells[1:]):
            return None  # Lot 7     1 - no brown pods, and under it 2 - one brown pod
        k = at + 1
        while k < len(self.lines) and self.lines[k].blank and k - at <= 1:
            k += 1
        first = k
        rows: list[Row] = []
        while k < len(self.lines) and not self.lines[k].blank:
            got = self._pair_line(self.lines[k])
            if got is None:
                break
            rows += got
            k += 1
        if len(rows) < 2 or start is None or any(self._labelled_again(*row.cells[0][0]) for row in rows):
            return None
        if len(self.lines[at].cells) > 1 and start == self.lines[at].start:
            if any(len(cut(self.pieces, *row.cells[0][0], 2)) > 1 for row in rows):
                return None  # heads of two columns
        if legend.what == ["finding"] and any(self._of_leaves_or_organs(*row.cells[0][0]) for row in rows):
            return None  # Septoria on the bottom leaves., and under it plant 1 10 tf
        if any(self._told_with_its_own(legend.what[0], *row.cells[0][0]) for row in rows):
            return None  # Pods in 16ths, and under it 1) 12 tri   pod 4
        own = start == self.lines[at].start
        plain = at not in self.legends and at not in self.cell_legends
        titled = any(self.dated_cell(c) for c in self.lines[at].cells[:-1])  # Hobb's Acre   8/1   trif
        if plain and not self._plain_pairs(rows, _FEW if titled else _FEW + 1):
            return None
        if any(sum(self._plain_value(c) for c in cut(self.pieces, *row.cells[0][0], 2)) > 1 for row in rows):
            return None  # more than one figure under one head: what the second is of is not told
        return (
            Grid(
                [replace(legend)],
                rows,
                list(range(start, self.lines[at].end)),
                start,
                self.lines[k - 1].end,
                at if own else at + 1,
                k - 1,
                [],
            )
            if first < k
            else None
        )

    def _labelled_again(self, a: int, b: int) -> bool:
        """`pl 1   pl 2`: a label stands where a value would: these are the heads of columns."""
        found = read_label(self.lattice, a, b)
        return found is not None and found[1] == b and found[2] and self.pieces[a].form == "word"

    def pairs_beside(self, at: int) -> Grid | None:
        """`Brown pods per 50: 1) 12  2) 25  3) 48`: the head, and the labelled values behind it on the same line."""
        line = self.lines[at]
        if line.blank or at in self.key_lines:
            return None
        colon = next((i for i in range(line.start, line.end) if self.pieces[i].text == ":"), line.start)
        stops = [
            i for i in range(line.start + 1, colon) if ends_sentence(self.lattice, i) or self._so_many(i + 1, colon)
        ]
        begin = stops[-1] + 1 if stops else line.start  # Mill Creek. pods brown: p1 95%, p2 100%
        many: int | None = None
        if self._so_many(begin, colon):  # 5 plts, longest pod in mm: 1) 12  2) 18
            many, begin = int(self.pieces[begin].text), begin + 3
        first, last = (at, at) if begin == line.start else (1, 0)
        for b in range(begin + 1, min(begin + _LONGEST_HEAD, line.end)):
            parted = self.pieces[b - 1].text != ":"
            if parted and self.pieces[b].gap < WIDE:
                continue
            got = read_heads(self.lattice, [range(begin, b - (not parted))], self.keys)
            if len(got) == 2 and got[0].label:
                got = got[1:]  # plants with ripe pod: 1 yes
            if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label or len(got[0].what) != 1:
                return None
            label = read_label(self.lattice, b, line.end)
            answers = self._answers_in_order(b, line.end)
            if answers is not None:
                got[0].pieces = list(range(begin, b))
                return Grid(got, answers, got[0].pieces, begin, line.end, first, last)
            if parted:
                return None
            told = self._numbered_values(b, line.end, many) if label is not None and label[2] else None
            if told is not None and told[1] < line.end:
                got[0].pieces = list(range(begin, b))
                return Grid(got, told[0], got[0].pieces, begin, told[1], 1, 0)
            rows = self._pair_line(replace(line, start=b), 1) if label is not None and label[2] else None
            if rows is None or len(rows) < _FEW or rows[0].labels[0] not in {"1", "a", "A"}:
                return None
            for row in rows:
                x, y = row.cells[0][0]
                row.cells[0] = [(x, y - (self.pieces[y - 1].text in ",;." and y > x + 1))]
            if not all(len(cut(self.pieces, *row.cells[0][0], 1)) == 1 for row in rows):
                return None
            got[0].pieces = list(range(begin, b))
            return Grid(got, rows, got[0].pieces, begin, line.end, first, last)
        return None

    def _so_many(self, i: int, end: int) -> bool:
        """`5 plts,` at the head of a sentence: how many plants were looked at."""
        if i + 2 >= end or self.pieces[i].form != "int" or self.pieces[i + 2].text != ",":
            return False
        head = i == 0 or self.pieces[i - 1].text == "." or self.pieces[i - 1].form == "nl"
        return head and any(e.kind == "PLANT" and e.end == i + 2 for e in self.lattice.edges[i + 1])

    def _numbered_values(self, a: int, b: int, many: int | None) -> tuple[list[Row], int] | None:
        """`1) 12  2) 18  3) 21. all still blooming`: as many values as plants are told of, and where the last of them ends."""
        rows: list[Row] = []
        while many is not None and len(rows) < many and a + 2 < b:
            if self.pieces[a].text != str(len(rows) + 1) or self.pieces[a + 1].text not in {")", ":"}:
                return None
            end = next((x for x in range(a + 3, b) if self.pieces[x].text in {",", ";"} or self._numbers(x, b)), b)
            end = next((x for x in range(a + 3, end) if self.pieces[x].text == "."), end)
            if not self._plain_value(Cell(a + 2, end, 0, 0)):
                return None
            rows.append(Row((self.pieces[a].text,), (a, a + 2), {0: [(a + 2, end)]}))
            a = end
            while a < b and self.pieces[a].text in {",", ";"}:
                a += 1
        a += a < b and self.pieces[a].text == "."
        return (rows, a) if many is not None and len(rows) == many > _FEW else None

    def _numbers(self, x: int, b: int) -> bool:
        return self.pieces[x].form == "int" and x + 1 < b and self.pieces[x + 1].text in {")", ":"}

    def _answers_in_order(self, a: int, b: int) -> list[Row] | None:
        """`1 yes  2 yes  3 no`: plants that count up from 1, each with an answer, up to the end of the line."""
        rows: list[Row] = []
        while a + 1 < b:
            sign = column_words().cells.get(self.pieces[a + 1].text)
            if self.pieces[a].text != str(len(rows) + 1) or self.pieces[a + 1].form != "word":
                return None
            end = a + 3 if self.pieces[a + 1].text == "not" else a + 2
            if end > b or (sign not in _ANSWERS and self.pieces[end - 1].text not in _FILLS):
                return None
            rows.append(Row((self.pieces[a].text,), (a, a + 1), {0: [(a + 1, end)]}))
            a = end
            while a < b and self.pieces[a].text in {",", ";", "."}:
                a += 1
        return rows if a == b and len(rows) > _FEW else None

    def _pair_head(self, at: int) -> tuple[Column | None, int | None]:
        """The head of one column over labelled values: a legend, or the last cell of the page's head (..   8/10/05   pod length in inches)."""
        line = self.lines[at]
        if at in self.legends:
            return self.legends[at], line.start
        for cell in line.cells[:-1]:
            other = read_heads(self.lattice, [range(cell.start, cell.end)], self.keys)
            if len(other) == 1 and other[0].known and not other[0].unknown:
                return None, None  # plant    ripe pods: a head of more columns
        if at in self.cell_legends:
            legend, cell = self.cell_legends[at][-1]
            return legend, cell.start
        if line.blank or not line.cells or at in self.key_lines:
            return None, None
        cell = line.cells[-1]
        if cell.end - cell.start > 6 or any(
            self.pieces[i].form in {"int", "dec", "dmy"} for i in range(cell.start, cell.end)
        ):
            return None, None
        got = read_heads(self.lattice, [range(cell.start, cell.end)], self.keys)
        if (
            len(got) != 1
            or not got[0].known
            or got[0].unknown
            or got[0].label
            or got[0].what[0] in {"note", "stop", "finding", "emerged"}
        ):
            return None, None
        return got[0], cell.start

    def dated_cell(self, c: Cell) -> bool:
        return any(
            ph.rule == "date" and ph.end == c.end and ph.form not in {"ord_day", "weekday"}
            for ph in phrases_at(self.lattice, c.start)
        )

    def _plain_pairs(self, rows: Sequence[Row], fewest: int) -> bool:
        """Labels that count on with a figure or a sign each: under a head that says no more than its thing, nothing else is a table."""
        labels = [row.labels[0] for row in rows]
        if labels[0] not in {"1", "a", "A"} or len(set(labels)) != len(labels) or len(rows) < fewest:
            return False
        return all(
            len(cut(self.pieces, *row.cells[0][0], 1)) == 1
            and self._plain_value(cut(self.pieces, *row.cells[0][0], 1)[0])
            for row in rows
        )

    def _apart(self, k: int) -> bool:
        """A wide gap before piece k, or a blank behind `1.`."""
        return self.pieces[k].gap >= WIDE or (self.pieces[k].gap > 0 and self.pieces[k - 1].text in {".", ")"})

    def _pair_line(self, line: Line, gap: int = WIDE) -> list[Row] | None:
        rows: list[Row] = []
        a = line.start
        while a < line.end:
            found = read_label(self.lattice, a, line.end)
            if (
                found is None
                or not (found[2] or (found[1] < line.end and self._apart(found[1])))
                or found[1] >= line.end
            ):
                return None
            b = found[1] + 1
            while b < line.end and not (
                self.pieces[b].gap >= gap
                and (x := read_label(self.lattice, b, line.end)) is not None
                and x[2]
                and x[1] < line.end
            ):
                b += 1
            rows.append(Row(found[0], (a, found[1]), {0: [(found[1], b)]}, damaged=found[3]))
            a = b
        return rows
