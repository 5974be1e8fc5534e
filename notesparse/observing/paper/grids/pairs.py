"""Labels with a value each, under one head or behind it on the same line: `Longest pod, cm`, then `1:  .6     4:  .9`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.columns import column_words
from notesparse.language.cues import cue_page
from notesparse.observing.counting import numbered_below
from notesparse.observing.paper.grids.lines import dated_cell
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.values import of_leaves_or_organs, plain_value, told_with_its_own
from notesparse.observing.paper.heads import Column, ends_sentence, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import WIDE, Cell, Line, cut
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/grids/pairs")
_FEW = 2  # plants
_ANSWERS = frozenset({"yes", "no"})
_FILLS = _LISTED.words("fills")
_LONGEST_HEAD = 14  # pieces of a head with its values on the same line


def find_pairs(page: Page, at: int) -> Grid | None:
    """`Longest pod at upper 4 nodes, cm`, then `1:  .6     4:  .9`."""
    legend, start = _pair_head(page, at)
    if legend is None or len(legend.what) != 1 or at in page.key_lines:
        return None
    if any(numbered_below(page.lattice, c.start) for c in page.lines[at].cells[1:]):
        return None  # Lot 7     1 - no brown pods, and under it 2 - one brown pod
    k = at + 1
    while k < len(page.lines) and page.lines[k].blank and k - at <= 1:
        k += 1
    first = k
    rows: list[Row] = []
    while k < len(page.lines) and not page.lines[k].blank:
        got = _pair_line(page.lattice, page.lines[k])
        if got is None:
            break
        rows += got
        k += 1
    if len(rows) < 2 or start is None or any(_labelled_again(page.lattice, *row.cells[0][0]) for row in rows):
        return None
    if len(page.lines[at].cells) > 1 and start == page.lines[at].start:
        if any(len(cut(page.pieces, *row.cells[0][0], 2)) > 1 for row in rows):
            return None  # heads of two columns
    if legend.what == ["finding"] and any(of_leaves_or_organs(page.lattice, *row.cells[0][0]) for row in rows):
        return None  # Septoria on the bottom leaves., and under it plant 1 10 tf
    if any(told_with_its_own(page.lattice, legend.what[0], *row.cells[0][0]) for row in rows):
        return None  # Pods in 16ths, and under it 1) 12 tri   pod 4
    own = start == page.lines[at].start
    plain = at not in page.legends and at not in page.cell_legends
    titled = any(dated_cell(page.lattice, c) for c in page.lines[at].cells[:-1])  # Hobb's Acre   8/1   trif
    if plain and not _plain_pairs(page.lattice, rows, _FEW if titled else _FEW + 1):
        return None
    if any(sum(plain_value(page.lattice, c) for c in cut(page.pieces, *row.cells[0][0], 2)) > 1 for row in rows):
        return None  # more than one figure under one head: what the second is of is not told
    return (
        Grid(
            [replace(legend)],
            rows,
            list(range(start, page.lines[at].end)),
            start,
            page.lines[k - 1].end,
            at if own else at + 1,
            k - 1,
            [],
        )
        if first < k
        else None
    )


def _labelled_again(lattice: Lattice, a: int, b: int) -> bool:
    """`pl 1   pl 2`: a label stands where a value would: these are the heads of columns."""
    found = read_label(lattice, a, b)
    return found is not None and found[1] == b and found[2] and lattice.pieces[a].form == "word"


def find_pairs_beside(page: Page, at: int) -> Grid | None:
    """`Brown pods per 50: 1) 12  2) 25  3) 48`: the head, and the labelled values behind it on the same line."""
    line = page.lines[at]
    if line.blank or at in page.key_lines:
        return None
    colon = next((i for i in range(line.start, line.end) if page.pieces[i].text == ":"), line.start)
    stops = [
        i
        for i in range(line.start + 1, colon)
        if ends_sentence(page.lattice, i) or _says_so_many(page.lattice, i + 1, colon)
    ]
    begin = stops[-1] + 1 if stops else line.start  # Mill Creek. pods brown: p1 95%, p2 100%
    many: int | None = None
    if _says_so_many(page.lattice, begin, colon):  # 5 plts, longest pod in mm: 1) 12  2) 18
        many, begin = int(page.pieces[begin].text), begin + 3
    first, last = (at, at) if begin == line.start else (1, 0)
    for b in range(begin + 1, min(begin + _LONGEST_HEAD, line.end)):
        parted = page.pieces[b - 1].text != ":"
        if parted and page.pieces[b].gap < WIDE:
            continue
        got = read_heads(page.lattice, [range(begin, b - (not parted))], page.keys)
        if len(got) == 2 and got[0].label:
            got = got[1:]  # plants with ripe pod: 1 yes
        if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label or len(got[0].what) != 1:
            return None
        label = read_label(page.lattice, b, line.end)
        answers = _answers_in_order(page.lattice, b, line.end)
        if answers is not None:
            got[0].pieces = list(range(begin, b))
            return Grid(got, answers, got[0].pieces, begin, line.end, first, last)
        if parted:
            return None
        told = _numbered_values(page.lattice, b, line.end, many) if label is not None and label[2] else None
        if told is not None and told[1] < line.end:
            got[0].pieces = list(range(begin, b))
            return Grid(got, told[0], got[0].pieces, begin, told[1], 1, 0)
        rows = _pair_line(page.lattice, replace(line, start=b), 1) if label is not None and label[2] else None
        if rows is None or len(rows) < _FEW or rows[0].labels[0] not in {"1", "a", "A"}:
            return None
        for row in rows:
            x, y = row.cells[0][0]
            row.cells[0] = [(x, y - (page.pieces[y - 1].text in ",;." and y > x + 1))]
        if not all(len(cut(page.pieces, *row.cells[0][0], 1)) == 1 for row in rows):
            return None
        got[0].pieces = list(range(begin, b))
        return Grid(got, rows, got[0].pieces, begin, line.end, first, last)
    return None


def _says_so_many(lattice: Lattice, i: int, end: int) -> bool:
    """`5 plts,` at the head of a sentence: how many plants were looked at."""
    if i + 2 >= end or lattice.pieces[i].form != "int" or lattice.pieces[i + 2].text != ",":
        return False
    head = i == 0 or lattice.pieces[i - 1].text == "." or lattice.pieces[i - 1].form == "nl"
    return head and any(e.kind == "PLANT" and e.end == i + 2 for e in lattice.edges[i + 1])


def _numbered_values(lattice: Lattice, a: int, b: int, many: int | None) -> tuple[list[Row], int] | None:
    """`1) 12  2) 18  3) 21. all still blooming`: as many values as plants are told of, and where the last of them ends."""
    rows: list[Row] = []
    while many is not None and len(rows) < many and a + 2 < b:
        if lattice.pieces[a].text != str(len(rows) + 1) or lattice.pieces[a + 1].text not in {")", ":"}:
            return None
        end = next(
            (x for x in range(a + 3, b) if lattice.pieces[x].text in {",", ";"} or _is_numbered(lattice, x, b)), b
        )
        end = next((x for x in range(a + 3, end) if lattice.pieces[x].text == "."), end)
        if not plain_value(lattice, Cell(a + 2, end, 0, 0)):
            return None
        rows.append(Row((lattice.pieces[a].text,), (a, a + 2), {0: [(a + 2, end)]}))
        a = end
        while a < b and lattice.pieces[a].text in {",", ";"}:
            a += 1
    a += a < b and lattice.pieces[a].text == "."
    return (rows, a) if many is not None and len(rows) == many > _FEW else None


def _is_numbered(lattice: Lattice, x: int, b: int) -> bool:
    return lattice.pieces[x].form == "int" and x + 1 < b and lattice.pieces[x + 1].text in {")", ":"}


def _answers_in_order(lattice: Lattice, a: int, b: int) -> list[Row] | None:
    """`1 yes  2 yes  3 no`: plants that count up from 1, each with an answer, up to the end of the line."""
    rows: list[Row] = []
    while a + 1 < b:
        sign = column_words().cells.get(lattice.pieces[a + 1].text)
        if lattice.pieces[a].text != str(len(rows) + 1) or lattice.pieces[a + 1].form != "word":
            return None
        end = a + 3 if lattice.pieces[a + 1].text == "not" else a + 2
        if end > b or (sign not in _ANSWERS and lattice.pieces[end - 1].text not in _FILLS):
            return None
        rows.append(Row((lattice.pieces[a].text,), (a, a + 1), {0: [(a + 1, end)]}))
        a = end
        while a < b and lattice.pieces[a].text in {",", ";", "."}:
            a += 1
    return rows if a == b and len(rows) > _FEW else None


def _pair_head(page: Page, at: int) -> tuple[Column | None, int | None]:
    """The head of one column over labelled values: a legend, or the last cell of the page's head (..   8/10/05   pod length in inches)."""
    line = page.lines[at]
    if at in page.legends:
        return page.legends[at], line.start
    for cell in line.cells[:-1]:
        other = read_heads(page.lattice, [range(cell.start, cell.end)], page.keys)
        if len(other) == 1 and other[0].known and not other[0].unknown:
            return None, None  # plant    ripe pods: a head of more columns
    if at in page.cell_legends:
        legend, cell = page.cell_legends[at][-1]
        return legend, cell.start
    if line.blank or not line.cells or at in page.key_lines:
        return None, None
    cell = line.cells[-1]
    if cell.end - cell.start > 6 or any(
        page.pieces[i].form in {"int", "dec", "dmy"} for i in range(cell.start, cell.end)
    ):
        return None, None
    got = read_heads(page.lattice, [range(cell.start, cell.end)], page.keys)
    if (
        len(got) != 1
        or not got[0].known
        or got[0].unknown
        or got[0].label
        or got[0].what[0] in {"note", "stop", "finding", "emerged"}
    ):
        return None, None
    return got[0], cell.start


def _plain_pairs(lattice: Lattice, rows: Sequence[Row], fewest: int) -> bool:
    """Labels that count on with a figure or a sign each: under a head that says no more than its thing, nothing else is a table."""
    labels = [row.labels[0] for row in rows]
    if labels[0] not in {"1", "a", "A"} or len(set(labels)) != len(labels) or len(rows) < fewest:
        return False
    return all(
        len(cut(lattice.pieces, *row.cells[0][0], 1)) == 1
        and plain_value(lattice, cut(lattice.pieces, *row.cells[0][0], 1)[0])
        for row in rows
    )


def _stands_apart(lattice: Lattice, k: int) -> bool:
    """A wide gap before piece k, or a blank behind `1.`."""
    return lattice.pieces[k].gap >= WIDE or (lattice.pieces[k].gap > 0 and lattice.pieces[k - 1].text in {".", ")"})


def _pair_line(lattice: Lattice, line: Line, gap: int = WIDE) -> list[Row] | None:
    rows: list[Row] = []
    a = line.start
    while a < line.end:
        found = read_label(lattice, a, line.end)
        if (
            found is None
            or not (found[2] or (found[1] < line.end and _stands_apart(lattice, found[1])))
            or found[1] >= line.end
        ):
            return None
        b = found[1] + 1
        while b < line.end and not (
            lattice.pieces[b].gap >= gap
            and (x := read_label(lattice, b, line.end)) is not None
            and x[2]
            and x[1] < line.end
        ):
            b += 1
        rows.append(Row(found[0], (a, found[1]), {0: [(found[1], b)]}, damaged=found[3]))
        a = b
    return rows
