"""Heads told in a sentence over the rows: `Each line: trifoliates first, then nodes, then where the bloom is` (guide 4.21).

Also `Order on the line: plant, open trifoliates, bloom` and `first figure trifoliates, second nodes, last the bloom`, and
`(plant / trifoliates / pod, mm / its node)` with no such words, over rows parted in the same way. The rows stand under
nothing, so only the order of their cells tells which is which; a row with more is unread, and one with fewer that does
not end in words (`5 / 10 / no pods`).
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.paper.heads import Column, ends_sentence, read_heads
from notesparse.observing.paper.keys import OPENERS
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row, Rows
from notesparse.observing.paper.stacked import SEEN, is_where, where_column
from notesparse.text.columns import WIDE, Cell, Line, cut, cut_at
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/told_heads")

_ROW_WORDS = _LISTED.words("row_words")
_WITH_THEM = _LISTED.words("with_them")
_NTH = _LISTED.words("nth")
_NTH_OF = _LISTED.words("nth_of")
_LINKS = _LISTED.words("links")
_BETWEEN = frozenset(",;/>|")
_LONGEST_OPENER = 8  # pieces
_FEWEST = 2  # columns, and rows
_LONGEST_AGAIN = 4  # pieces: same as plant 2
_FEWEST_MARKED = 3  # columns of heads that nothing but marks tells of
_NEAR = 4  # lines between the sentence and the rows


@dataclass(slots=True)
class _Told:
    """The columns that a sentence tells, and its pieces [start, end)."""

    columns: list[Column]
    start: int
    end: int
    mark: str = ""  # what parts the heads, where no words say that they are heads


def find_told_heads(rows: Rows, at: int) -> Grid | None:
    """The rows under a sentence on line `at` that tells what their cells are of."""
    told = heads_told(rows.lattice, rows.lines[at])
    if told is None:
        return None
    k = at + 1
    while k < len(rows.lines) and k - at <= _NEAR and (rows.lines[k].blank or k in rows.no_rows):
        k += 1
    items = _items(rows, k, told) if k < len(rows.lines) else None
    if items is not None:
        return items
    lines: list[Line] = []
    while k < len(rows.lines) and not rows.lines[k].blank and k not in rows.no_rows:
        found = _label(rows, rows.lines[k])
        if found is None or (told.mark and not _like_the_heads(rows, rows.lines[k], found, told)):
            break
        lines.append(rows.lines[k])
        k += 1
    things = [c for c in told.columns if not c.label]
    cells = _parted(rows, lines, len(things), told.mark)
    if cells is None:
        return None
    out = [_row(rows, line, mine, told.columns) for line, mine in zip(lines, cells, strict=True)]
    head = list(range(told.start, told.end))
    return Grid(told.columns, out, head, lines[0].start, lines[-1].end, lines[0].number, lines[-1].number)


def under_told_heads(rows: Rows) -> set[int]:
    """The lines of all rows that stand under such a sentence."""
    grids = [find_told_heads(rows, line.number) for line in rows.lines if not line.blank]
    return {n for g in grids if g is not None for n in range(g.first, g.last + 1)}


def _items(rows: Rows, at: int, told: _Told) -> Grid | None:
    """`1. 9T    2. 10T    3. 8N`: several plants a line, each with one figure or sign for each head."""
    things = [k for k, c in enumerate(told.columns) if not c.label]
    found: list[Row] = []
    k = at
    while k < len(rows.lines) and not rows.lines[k].blank and k not in rows.no_rows:
        got = _plants_of(rows, rows.lines[k], len(things))
        if got is None or (found and int(got[0].labels[0]) != int(found[-1].labels[0]) + 1):
            break
        found += got
        k += 1
    if len(found) < 2 * _FEWEST or len(found) == k - at:
        return None
    for row in found:
        row.cells = dict(zip(things, [row.cells[n] for n in range(len(things))], strict=True))
    head = list(range(told.start, told.end))
    return Grid(told.columns, found, head, rows.lines[at].start, rows.lines[k - 1].end, at, k - 1)


def _plants_of(rows: Rows, line: Line, n: int) -> list[Row] | None:
    """The plants of such a line, their labels counting up; None where anything else stands on it."""
    out: list[Row] = []
    k = line.start
    while k < line.end:
        if rows.pieces[k].form != "int" or (out and int(rows.pieces[k].text) != int(out[-1].labels[0]) + 1):
            return None
        label = k
        k += 1
        while k < line.end and rows.pieces[k].text in ".):-":
            k += 1
        if k + n > line.end or any(rows.pieces[i].form not in {"int", "word"} for i in range(k, k + n)):
            return None
        out.append(Row((rows.pieces[label].text,), (label, k), {i: [(k + i, k + i + 1)] for i in range(n)}))
        k += n
        while k < line.end and rows.pieces[k].text in ",;":
            k += 1
    return out or None


def heads_told(lattice: Lattice, line: Line) -> _Told | None:
    """What the sentence of this line that tells the order of the cells says, if there is one and all of it is understood."""
    if line.blank:
        return None
    starts = [line.start, *(c.start for c in line.cells[1:])]
    starts += [i + 1 for i in range(line.start, line.end - 1) if ends_sentence(lattice, i)]
    for a in sorted(set(starts)):
        b = next((i for i in range(a, line.end - 1) if ends_sentence(lattice, i)), line.end)
        opened = _opener(lattice, a, b)
        if opened is None:
            continue
        columns = _columns(lattice, opened, b)
        return _Told(columns, a, b) if columns is not None else None
    return _marked_off(lattice, line)


def _marked_off(lattice: Lattice, line: Line) -> _Told | None:
    """`plant / trif / longest pod, mm / its node from the top`: heads parted by strokes, drawn lines or dashes alone."""
    starts = [line.start, *(c.start for c in line.cells[1:] if lattice.pieces[c.start].text in "([")]
    for start in starts:
        a, b = start, line.end
        while a < b and lattice.pieces[a].text in "([":
            a += 1
        while b > a and lattice.pieces[b - 1].text in ")].:":
            b -= 1
        mark = _mark_of(lattice, a, b)
        columns = _columns(lattice, a, b) if mark else None
        ruled = mark == "|" and columns is not None and columns[0].label  # drawn lines have a room of their own
        if columns is not None and len(columns) >= _FEWEST_MARKED and not ruled:
            return _Told(columns, start, line.end, mark)
    return None


def _mark_of(lattice: Lattice, a: int, b: int) -> str:
    """What parts the heads: two or more of one mark, and no figure that is a value."""
    pieces = lattice.pieces
    if a >= b or any(pieces[i].form in {"dec", "dmy", "big"} for i in range(a, b)) or pieces[a].text == "|":
        return ""  # a drawn table has its own room
    for mark in "/|-":
        loose = [i for i in range(a + 1, b) if pieces[i].text == mark and (mark != "-" or pieces[i].gap)]
        if len(loose) >= _FEWEST:
            return mark
    return ""


def _like_the_heads(rows: Rows, line: Line, found: tuple[tuple[str, ...], int, bool, bool], told: _Told) -> bool:
    """A row parted by the mark of its heads: one mark or more, and no label that may be a cell where they have no head for it."""
    marks = sum(rows.pieces[i].text == told.mark for i in range(line.start, line.end))
    return marks > 0 and (told.columns[0].label or found[2])


def tells_order(lattice: Lattice, line: Line) -> bool:
    """Whether a line says that it tells the order of the cells, and names two things of the trade."""
    if line.blank:
        return False
    opened = _opener(lattice, line.start, line.end)
    if opened is None or _counts(lattice, opened, line.end):
        return False
    parts = _parts(lattice, opened, line.end)
    named = [got for part in parts if (got := read_heads(lattice, [part])) and got[0].known and not got[0].unknown]
    return len(named) >= _FEWEST


def _counts(lattice: Lattice, a: int, b: int) -> bool:
    """`First one, eleven trifs, no pods`: leaves or nodes are counted, and it is a plant that is told of."""
    return any(
        e.kind == "INT" and e.end < b and any(n.kind in {"TRIF", "NODES"} for n in lattice.edges[e.end])
        for i in range(a, b)
        for e in lattice.edges[i]
    )


def _opener(lattice: Lattice, a: int, b: int) -> int | None:
    """Where the heads begin behind `Each line:`, `order on the line is`; `first figure` is the head of the first of them."""
    pieces = lattice.pieces
    k = a
    words: set[str] = set()
    while k < b and k - a < _LONGEST_OPENER and pieces[k].text in _ROW_WORDS | _WITH_THEM:
        words.add(pieces[k].text)
        k += 1
        if pieces[k - 1].text in _VERBS and words & _ROW_WORDS:
            break
    if (words & _ROW_WORDS and k < b and pieces[k].text in ":=-") or (
        words & _ROW_WORDS and pieces[k - 1].text in _VERBS
    ):
        while k < b and pieces[k].text in _BEHIND_IT:
            k += 1
        return k
    if pieces[a].text in OPENERS and a + 1 < b and pieces[a + 1].text == ":":
        then = any(pieces[i].text == "then" for i in range(a + 2, b))  # key: plant no., then trifoliates
        return a + 2 if then and not any(pieces[i].text == "=" for i in range(a + 2, b)) else None
    nth = a + (pieces[a].text == "the")
    if nth + 1 < b and pieces[nth].text in {"first", "1st"} and pieces[nth + 1].text in _NTH_OF - {"the", "is", "are"}:
        return a
    return None


_VERBS = _LISTED.words("verbs")
_BEHIND_IT = _LISTED.words("behind_it")


def _parts(lattice: Lattice, a: int, b: int) -> list[list[int]]:
    """The pieces of each head, without the words of order around it."""
    parts: list[list[int]] = [[]]
    strokes = sum(lattice.pieces[i].text in {"/", "|"} for i in range(a, b)) >= _FEWEST
    between = {"/", "|"} if strokes else _BETWEEN
    depth = 0
    for i in range(a, b):
        text = lattice.pieces[i].text
        depth += (text == "(") - (text == ")")
        if (strokes and text not in between) or depth > 0:
            parts[-1].append(i)
        elif text in between or (text == "-" and lattice.pieces[i].gap) or text in {"then", "followed"}:
            parts.append([])
        elif text == "and" and parts[-1] and i + 1 < b:
            parts.append([])
        else:
            parts[-1].append(i)
    return [part for x in parts if (part := _bare(lattice, x))]


def _bare(lattice: Lattice, part: list[int]) -> list[int]:
    texts = [lattice.pieces[i].text for i in part]
    a, b = 0, len(part)
    while a < b and texts[a] in _LINKS | {"the", "."}:
        a += 1
    if a < b and texts[a] in _NTH:
        a += 1
        while a < b and texts[a] in _NTH_OF:
            a += 1
    while b > a and texts[b - 1] in _NTH | {"."}:
        b -= 1
    return part[a:b]


def _columns(lattice: Lattice, a: int, b: int) -> list[Column] | None:
    out: list[Column] = []
    for part in _parts(lattice, a, b):
        got = read_heads(lattice, [part])
        cell = Cell(part[0], part[-1] + 1, 0, 0)
        if not got and out and out[-1].what in SEEN and is_where(lattice, cell):
            out.append(where_column(cell, out[-1]))  # pod in. / where
            continue
        if len(got) != 1 or got[0].unknown:
            return None
        (here,) = got
        if here.what in ([], ["nodes"]) and here.by_node and out and out[-1].what in SEEN and _sized(out[-1]):
            here.what, here.where = [*out[-1].what], True  # longest pod, mm / its node from the top
        if not here.known and out and (here.place or here.unit or here.by_node or here.measure):
            out[-1].take(here)  # pods, in 16ths
            continue
        if not here.known or (here.label and out):
            return None
        here.left = here.right = 0
        out.append(here)
    things = [c for c in out if not c.label]
    return out if len(things) >= _FEWEST or (things and len(out) > len(things)) else None


def _sized(c: Column) -> bool:
    """A column of lengths: what is told of a node behind it is a column of its own."""
    return c.measure or c.unit is not None


def _parted(rows: Rows, lines: Sequence[Line], n: int, mark: str) -> list[list[Cell]] | None:
    """The cells of each row, parted in the same way in all of them: so that most have one for each head."""
    if len(lines) < _FEWEST:
        return None
    if mark:
        marked = [_cells(rows, line, mark) for line in lines]
        fit = sum(len(c) == n or _again(rows.lattice, c) for c in marked)
        return marked if 2 * fit >= len(lines) else None
    ways = [[_cells(rows, line, way) for line in lines] for way in (",", "/", "gaps", "words")]
    fits = [sum(len(c) == n or _again(rows.lattice, c) for c in cells) for cells in ways]
    best = max(range(len(ways)), key=lambda k: fits[k])
    best = next(k for k in (2, 0, 1, 3) if fits[k] == fits[best])
    return ways[best] if 2 * fits[best] > len(lines) else None


def _label(rows: Rows, line: Line) -> tuple[tuple[str, ...], int, bool, bool] | None:
    """The label at the head of a row; a comma or a stroke may part it from the cells."""
    found = rows.labelled(line)
    if found is not None or line.blank:
        return found
    if rows.pieces[line.start].form == "int" and line.start + 1 < line.end and rows.pieces[line.start + 1].text == "/":
        return (rows.pieces[line.start].text,), line.start + 1, False, False  # 1/11/yes
    found = read_label(rows.lattice, line.start, line.end)
    parted = found is not None and found[1] < line.end and rows.pieces[found[1]].text in ",/|"
    return found if parted else None


def _cells(rows: Rows, line: Line, way: str) -> list[Cell]:
    found = _label(rows, line)
    assert found is not None
    a = found[1]
    while a < line.end and rows.pieces[a].text in ",-/|":
        if rows.pieces[a].text == "-" and rows.pieces[a].gap >= WIDE:
            break  # none of the first thing
        a += 1
    if way in {",", "/", "|", "-"}:
        return cut_at(rows.pieces, a, line.end, way)
    return cut(rows.pieces, a, line.end, WIDE if way == "gaps" else 1)


def _again(lattice: Lattice, cells: Sequence[Cell]) -> bool:
    """`do.`, `same`, `as B` and nothing else in the row."""
    if len(cells) != 1:
        return False
    (c,) = cells
    like = lattice.pieces[c.start].text in {"as", "like", "same"} and c.end - c.start <= _LONGEST_AGAIN
    return like or column_words().cells.get(squeeze(lattice.original(c.start, c.end))) == "same"


def _in_words(rows: Rows, c: Cell) -> bool:
    """`no pods`, `none`: a cell without a figure that says that there is nothing."""
    none = any(e.kind in {"NO", "NONE"} for i in range(c.start, c.end) for e in rows.lattice.edges[i])
    return none and not any(rows.pieces[i].form in {"int", "dec"} for i in range(c.start, c.end))


def _row(rows: Rows, line: Line, cells: Sequence[Cell], columns: Sequence[Column]) -> Row:
    found = _label(rows, line)
    assert found is not None
    row = Row(found[0], (line.start, found[1]), {}, damaged=found[3])
    things = [k for k, c in enumerate(columns) if not c.label]
    if len(cells) == len(things):
        row.cells = {k: [(c.start, c.end)] for k, c in zip(things, cells, strict=True)}
    elif _again(rows.lattice, cells):
        row.cells = {things[0]: [(cells[0].start, cells[0].end)]}
    elif 1 < len(cells) < len(things) and _in_words(rows, cells[-1]):  # 5 / 10 / no pods: nothing more to tell
        row.cells = {k: [(c.start, c.end)] for k, c in zip(things, cells, strict=False)}
    else:
        row.loose = [(c.start, c.end) for c in cells]
        row.why = f"{len(cells)} cells, and {len(things)} are told of"
    return row
