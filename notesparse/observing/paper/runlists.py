"""Values of several plants in a row under one head, with no plants named: `pods mm, top 4 longest: 6 8 5 9 7` (guide 4.21).

The head stands before the values, behind them, or on a line of its own above lines of a field's name and its values.
"""

from __future__ import annotations

import copy
from collections.abc import Sequence

from notesparse.language.columns import column_words
from notesparse.language.cues import cue_page
from notesparse.lazy import pattern
from notesparse.observing.fold import numbers_of
from notesparse.observing.lists import values_at
from notesparse.observing.paper.heads import Column, ends_sentence, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/runlists")

FEWEST = 3
_PARTS = pattern(r"(?:\d{1,2}/(?:4|8|16|32)[\s,]+){2,}\d{1,2}/(?:4|8|16|32)\.?")
_FEWEST_SIGNS = 5
_LONGEST_HEAD = 14  # pieces
_AROUND = _LISTED.words("around")
_EACH = _LISTED.words("each")
_AS_THEY_STAND = _LISTED.words("as_they_stand")
_OF_THEM = _LISTED.words("of_them")
_OTHER = frozenset({"STANDWORD", "FOOT", "INSECT", "WEED", "DISEASE", "DEFOL", "DAMAGE", "SWEEP", "ROWS", "OTHERFIND"})
_STOPS = {".", ";", "!"}
_BEFORE_LABELS = _COMMON.words("except") | {"on"}
_NEAR = 2  # lines before and after a row


def find_runs(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> tuple[list[Grid], list[tuple[int, int]]]:
    """The lists of a note, and the pieces [start, end) of headings that they stand under. `taken` are pieces of tables."""
    out: list[Grid] = []
    headings: list[tuple[int, int]] = []
    above: tuple[Column, int | None] | None = None
    heading_line = -1
    for line in lines:
        if line.blank and above is not None and line.number == heading_line + 1:
            continue
        if line.blank or any(i in taken for i in range(line.start, line.end)):
            above = None
            continue
        run = _run(lattice, line) or _signs(lattice, line)
        if run is None or (_titled(lattice, line) and run[1] <= line.cells[-1].start):
            got = _heading(lattice, line, _sizes(lattice, lines, line.number + 1))
            if got is not None:
                above = got[0], got[1]
                heading_line = line.number
                pending: tuple[int, int] | None = (got[2], line.end)
            elif above is not None and line.end - line.start > 3:
                above = None
            continue
        values, end = run
        if lattice.pieces[values[0][0] - 1].text in _BEFORE_LABELS and values[0][0] > line.start:
            continue  # seed in top 4 nodes on 1, 2 and 4
        if _named_plants(lattice, values[0][0]) or lattice.at(values[0][0] - 1) in {"r", "v"}:
            continue  # plants 1, 2 and 3 have inch long pods
        grid = _headed(lattice, line, values, end)
        if (
            grid is None
            and not _rows_of_a_table(lattice, lines, line)
            and not _of_something_else(lattice, line.start, values[0][0])
            and not _label_alone(lattice, line.start, values[0][0])
            and above is not None
            and (_to_the_end(lattice, line, end) or lattice.pieces[end].gap >= WIDE)
            and ((above[1] is None and len(values) >= FEWEST) or above[1] == len(values))
        ):
            grid = _grid(copy.copy(above[0]), values, values[0][0], end, [])
            grid.columns[0].pieces = []
            if not _named_before(lattice, line, grid):
                continue
            if pending is not None:
                headings.append(pending)
                pending = None
        if grid is not None:
            out.append(grid)
    return out, headings


def _named_plants(lattice: Lattice, first: int) -> bool:
    """A word for plants stands right before the figures, and no count before it: `plants 1, 2 and 3`."""
    if not first or not any(e.kind == "PLANT" and e.end == first for e in lattice.edges[first - 1]):
        return False
    return lattice.at(first - 1).endswith("s") and not (
        first > 1 and any(e.kind == "INT" and e.end == first - 1 for e in lattice.edges[first - 2])
    )


def _named_before(lattice: Lattice, line: Line, grid: Grid) -> bool:
    """`North end, plants 6 to 10 in order  6 5 5 4 6`: the plants and the stop that stand before values under a heading;
    False where as many plants are named as there are no values."""
    first = grid.start
    ranges = [
        p
        for i in range(line.start, first)
        for p in phrases_at(lattice, i)
        if p.rule == "label" and p.form == "plant_range" and p.end <= first
    ]
    named = max(ranges, key=lambda p: p.end - p.start, default=None)
    low, high = numbers_of(named)[:2] if named is not None else (1, len(grid.rows))
    if high - low + 1 != len(grid.rows):
        return False
    place = max((e.end for e in lattice.edges[line.start] if e.kind == "WHEREWORD" and e.end <= first), default=0)
    stop = (line.start, place) if place else None
    begin = line.start if place else named.start if named is not None else first
    skipped = [*range(place or begin, named.start if named is not None else first)]
    skipped += range(named.end, first) if named is not None else ()
    if any(lattice.pieces[i].text not in _AROUND for i in skipped):
        return named is None  # a field's name, or more that is told
    for n, row in enumerate(grid.rows):
        row.labels, row.stop = (str(low + n),), stop
    grid.start, grid.head = begin, [*range(begin, first)]
    return True


def _grid(column: Column, values: list[tuple[int, int]], start: int, end: int, head: list[int]) -> Grid:
    rows = [Row((str(k),), None, {0: [value]}) for k, value in enumerate(values, 1)]
    return Grid([column], rows, head, start, end, 1, 0, [])


def _run(lattice: Lattice, line: Line) -> tuple[list[tuple[int, int]], int] | None:
    """The first row of values of a line, and where it ends."""
    for i in range(line.start, line.end):
        if i > line.start and lattice.pieces[i].glued:
            continue
        if lattice.pieces[i].form not in {"int", "dec"} and not _begins_damaged(lattice, line, i):
            continue
        if i > line.start and any(e.kind == "MONTH" for e in lattice.edges[i - 1]):
            continue  # June 19 2015
        values, end = values_at(lattice, i)
        values = [v for v in values if v[1] <= line.end]
        figures = next(
            (
                k
                for k, v in enumerate(values)
                if lattice.pieces[v[0]].form not in {"int", "dec"} and not _damaged(lattice, *v)
            ),
            len(values),
        )
        values = values[:figures]
        end = values[-1][1] if values else end
        if len(values) >= 2 and not lattice.pieces[values[0][0] - 1].text == "/":
            return values, end
    return None


def _begins_damaged(lattice: Lattice, line: Line, i: int) -> bool:
    """`l.2  1.8  2.5`, `mm: l9 20`: a damaged figure at the head of the line, or behind the colon of its head."""
    if lattice.pieces[i].form != "word" or (i > line.start and lattice.at(i - 1) != ":"):
        return False
    return any(e.how == "figure" and _damaged(lattice, i, e.end) for e in lattice.edges[i])


def _damaged(lattice: Lattice, a: int, b: int) -> bool:
    """`l0`, `I1`, `O.9`: a figure with letters for figures, and no single letter or word."""
    run = lattice.original(a, b)
    known = any(e.kind in {"INT", "DEC"} and e.how == "figure" and e.end == b for e in lattice.edges[a])
    return known and any(c.isdigit() for c in run)


def _signs(lattice: Lattice, line: Line) -> tuple[list[tuple[int, int]], int] | None:
    """`y n y n`: a row of single signs up to the end of the line, behind a colon or a gap."""
    end = line.end
    a = end
    while a > line.start and column_words().cells.get(lattice.pieces[a - 1].text) in {"yes", "no", "x"}:
        if len(lattice.pieces[a - 1].text) > 1 or lattice.pieces[a - 1].text == ".":
            break
        a -= 1
    if (
        end - a < _FEWEST_SIGNS
        or a == line.start
        or not (lattice.pieces[a - 1].text == ":" or lattice.pieces[a].gap >= 2)
    ):
        return None
    return [(i, i + 1) for i in range(a, end)], end


def _strong(columns: list[Column], signs: bool = False) -> Column | None:
    if len(columns) != 1 or not columns[0].known or columns[0].unknown or len(columns[0].what) != 1:
        return None
    c = columns[0]
    what = c.what[0]
    if (
        (what in {"pods", "seeds"} and (c.unit or c.measure))
        or (what == "brown" and (c.percent or c.count))
        or what in {"trifoliates", "nodes"}
        or (signs and what in {"flowers", "pods", "seeds", "brown", "emerged"})
    ):
        return c
    return None


def _counted(lattice: Lattice, pieces: list[int]) -> tuple[list[int], int | None]:
    """The head's pieces without `5 plants`, and that number."""
    for k in range(len(pieces) - 1):
        i, j = pieces[k], pieces[k + 1]
        if (
            j == i + 1
            and lattice.pieces[i].form in {"int", "word"}
            and any(e.kind == "INT" and e.end == j for e in lattice.edges[i])
            and any(e.kind == "PLANT" for e in lattice.edges[j])
        ):
            n = next(int(e.means) for e in lattice.edges[i] if e.kind == "INT" and e.end == j)
            rest = k + 2
            while rest < len(pieces) and (
                lattice.pieces[pieces[rest]].text in _EACH | _AS_THEY_STAND
                or lattice.pieces[pieces[rest]].text in ",:()-"
            ):
                rest += 1
            first = k
            while first and lattice.pieces[pieces[first - 1]].text in _OF_THEM:
                first -= 1  # trifoliates on each of six plants
            return pieces[:first] + pieces[rest:], n
    return pieces, None


def _in_order(lattice: Lattice, pieces: list[int]) -> tuple[list[int], int | None]:
    """The head's pieces without `1 thru 5 in order`, and how many plants that makes."""
    for k, i in enumerate(pieces):
        for label in phrases_at(lattice, i):
            numbers = numbers_of(label)
            if label.form not in {"plant_range", "range", "count_range"} or len(numbers) < 2 or numbers[0] != 1:
                continue
            rest = [x for x in pieces[k:] if x >= label.end]
            while rest and lattice.pieces[rest[0]].text in _AROUND:
                rest.pop(0)
            return pieces[:k] + rest, numbers[1]
        texts = [lattice.pieces[x].text for x in pieces[k : k + 3]]
        if len(texts) == 3 and texts[0] == "1" and texts[1] in {"thru", "to", "-"} and texts[2].isdigit():
            rest = pieces[k + 3 :]
            while rest and lattice.pieces[rest[0]].text in _AROUND:
                rest.pop(0)
            return pieces[:k] + rest, int(texts[2])
    return pieces, None


_FOR_PLAIN_ORDER = _LISTED.words("for_plain_order")


def _plain_order(lattice: Lattice, head: list[int]) -> list[int]:
    """The head without `same order`, `in the same order`."""
    texts = [lattice.pieces[i].text for i in head]
    if "order" not in texts and texts[-1:] != ["same"]:
        return head
    return [i for i, x in zip(head, texts, strict=True) if x not in _FOR_PLAIN_ORDER]


def _headed(lattice: Lattice, line: Line, values: list[tuple[int, int]], end: int) -> Grid | None:
    """The list whose head stands on the line itself, before the values or behind them or both."""
    start = values[0][0]
    if any(
        e.kind in {"PLANT", "PLETTER", "HASH"}
        and e.end < start
        and any(x.kind == "INT" for x in lattice.edges[e.end])
        and e.cost < 0.5
        for k in range(line.start, start)
        for e in lattice.edges[k]
        if e.end < len(lattice.pieces)
    ):
        return None  # p1 pods 6 8 5: pods of one plant
    first = start
    while first > line.start and start - first < _LONGEST_HEAD and not _stops(lattice, first - 1):
        first -= 1
    last = end
    while last < line.end and last - end < 8 and lattice.pieces[last].text not in _STOPS | {","}:
        last += 1
    for tail in range(last, end - 1, -1):
        for k in range(first, start + 1):
            before = list(range(k, start))
            while before and lattice.pieces[before[-1]].text in _AROUND:
                before.pop()
            if before and lattice.pieces[before[0]].text in _AROUND:
                continue
            head, n = _counted(lattice, before + list(range(end, tail)))
            if not head or (n is not None and n != len(values)) or (n is None and len(values) < FEWEST):
                continue
            signs = (
                all(lattice.pieces[a].form != "int" and b == a + 1 for a, b in values)
                and lattice.pieces[start].form != "dec"
            )
            column = _strong(read_heads(lattice, [_plain_order(lattice, head)]), signs)
            if (
                column is not None
                and column.what[0] in {"trifoliates", "nodes"}
                and not (before and lattice.pieces[start - 1].text == ":" and tail == end)
            ):
                continue  # prose reads these
            counted = column is not None and column.what[0] in {"trifoliates", "nodes"}
            if counted and _other_thing(lattice, first, k):
                continue  # Flower top 2 nodes: 1, 3, 4
            if column is not None:
                while k > first and lattice.pieces[k - 1].text in {"in", "the"}:
                    k -= 1  # in bloom
                return _of_those_behind(lattice, _grid(column, values, k, tail, [*range(k, start), *range(end, tail)]))
    return None


def _of_those_behind(lattice: Lattice, grid: Grid) -> Grid | None:
    """`pods 1/4, 3/8, 5/16 on plants 2 thru 4`: the plants that the values are of, named behind them; None where there are
    more of them or fewer."""
    at = grid.end + (lattice.at(grid.end) in {"on", "for"})
    here = range(grid.end, min(at + 1, len(lattice.pieces)))
    named = [p for i in here for p in phrases_at(lattice, i) if p.rule == "label" and p.form in _NAMED_TOGETHER]
    label = max(named, key=lambda p: p.end, default=None)
    if label is None:
        return grid
    numbers = numbers_of(label)
    labels = [*range(numbers[0], numbers[1] + 1)] if label.form == "plant_range" else numbers
    if len(labels) != len(grid.rows):
        return None
    for row, n in zip(grid.rows, labels, strict=True):
        row.labels = (str(n),)
    grid.head = [*grid.head, *range(grid.end, label.end)]
    grid.end = label.end
    return grid


_NAMED_TOGETHER = frozenset({"plant_range", "plant_list", "plant_commas"})


def _other_thing(lattice: Lattice, a: int, b: int) -> bool:
    """Whether words of the trade stand before the head that it leaves out."""
    kinds = {e.kind for i in range(a, b) for e in lattice.edges[i] if e.how == "exact" and e.end <= b}
    return bool(kinds & {"FLOWER", "POD", "SEED", "TOP", "LOW", "R", "V"})


def _stops(lattice: Lattice, i: int) -> bool:
    """A full stop that ends a sentence, and not `No. of`."""
    before = column_words().heads.get((lattice.pieces[i - 1].text,), ()) if i else ()
    short = lattice.pieces[i].text == "." and any(w.kind == "count" for w in before)
    return lattice.pieces[i].text in _STOPS and not short


def _sizes(lattice: Lattice, lines: Sequence[Line], at: int) -> bool:
    """`5/16 4/16 3/8` on a line: parts of an inch and nothing else, three or more."""
    if at >= len(lines) or lines[at].blank:
        return False
    return _PARTS.fullmatch(lattice.original(lines[at].start, lines[at].end)) is not None


def _heading(lattice: Lattice, line: Line, sizes: bool = False) -> tuple[Column, int | None, int] | None:
    """`pct of pods brown, 4 plants each`: a head on a line of its own, with the number of plants, and where it begins."""
    end = line.end
    while end > line.start and lattice.pieces[end - 1].text in {":", ".", "-", ","}:
        end -= 1
    last = line.cells[-1].start
    if end - last > 20:
        return None
    sentences = [i + 1 for i in range(line.start, end - 1) if _ends_one(lattice, i)]
    for k in (last, *range(line.start, min(line.start + 6, end)), *sentences):
        if any(k < c.start < end for c in line.cells):
            continue  # pods   brown   %: heads of columns
        if k > line.start and (lattice.pieces[k].glued or lattice.pieces[k].form == "mark"):
            continue
        pieces, n = _counted(lattice, list(range(k, end)))
        pieces, ordered = _in_order(lattice, pieces)
        n = n if n is not None else ordered
        if n is None and k == last and len(line.cells) > 1:
            n = _counted(lattice, list(range(line.start, end)))[1]  # 5 plts at each stop.   trif count
        while pieces and lattice.pieces[pieces[-1]].text in _AROUND:
            pieces.pop()
        if not pieces:
            continue
        columns = read_heads(lattice, [pieces])
        if sizes and len(columns) == 1 and columns[0].what in (["pods"], ["seeds"]):
            columns[0].measure = True  # pods, over sizes
        column = _strong(columns)
        if column is not None and (n is not None or k < last or len(line.cells) == 1 or _titled(lattice, line)):
            return column, n, k
    return None


def _ends_one(lattice: Lattice, i: int) -> bool:
    """A full stop behind a word or behind the figures of a day, before another word."""
    behind = lattice.pieces[i + 1]
    year = lattice.pieces[i - 1].form in {"int", "dmy"} and behind.form == "word" and behind.gap > 0
    return ends_sentence(lattice, i) or (lattice.at(i) == "." and year)


def _titled(lattice: Lattice, line: Line) -> bool:
    """`HOME EIGHTY   June 24 1998   Trifoliates open:`: the heading ends the line of name and day."""
    return len(line.cells) > 1 and lattice.pieces[line.end - 1].text == ":"


def _rows_of_a_table(lattice: Lattice, lines: Sequence[Line], line: Line) -> bool:
    """Lines of as many cells, their first figures 1, 2, 3: labels of plants, and no values."""
    firsts: list[int] = []
    for x in lines[max(0, line.number - _NEAR) : line.number + _NEAR + 1]:
        if x.blank or len(x.cells) != len(line.cells) or len(x.cells) < 2 or lattice.pieces[x.start].form != "int":
            firsts.append(-1)
            continue
        firsts.append(int(lattice.pieces[x.start].text))
    here = line.number - max(0, line.number - _NEAR)
    n = firsts[here]
    beside = [firsts[k] - n == k - here for k in (here - 1, here + 1) if 0 <= k < len(firsts) and firsts[k] >= 0]
    return n > 0 and bool(beside) and all(beside) and lattice.pieces[line.start].text == str(n)


def _label_alone(lattice: Lattice, a: int, b: int) -> bool:
    """`B` before the values: they are of one plant, and not of one each."""
    got = read_label(lattice, a, b) if a < b else None
    return got is not None and all(lattice.pieces[i].form == "mark" for i in range(got[1], b))


def _of_something_else(lattice: Lattice, a: int, b: int) -> bool:
    """`Stand, plants in 10 ft of row:` before the values: they are no values of the heading above."""
    return any(e.kind in _OTHER and e.how == "exact" and e.end <= b for i in range(a, b) for e in lattice.edges[i])


def _to_the_end(lattice: Lattice, line: Line, end: int) -> bool:
    return all(lattice.pieces[i].text in ".,;" for i in range(end, line.end))
