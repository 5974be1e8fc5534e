"""Which lines are heads of columns, and which are rows under them."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.blocks import is_stop
from notesparse.observing.paper.grids.lines import (
    LONGEST_NAME,
    NO_PLACE,
    names_a_finding,
    names_a_side,
    says_of_a_plant,
    says_planted,
)
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import labels_of
from notesparse.observing.paper.rows import Grid, names_a_stop
from notesparse.observing.paper.stacked import SEEN, at_its_node, head_columns, is_where, where_column
from notesparse.text.columns import Cell, Line, cut, cut_at
from notesparse.text.lattice import Lattice
from notesparse.text.scan import Piece

_SHORT = 2  # letters of a word that may be a sign
_PLACES = frozenset({"COMPASS", "WHEREWORD", "FIELDNOUN", "STOP", "ROWS", "ROWW"})


def may_be_heads(page: Page, line: Line) -> bool:
    """Whether the words of a line may be heads at all."""
    if says_of_a_plant(page.lattice, line) or names_a_finding(page.lattice, line) or _counts_on(page, line):
        return False
    if line.number not in page.known_heads:
        got = read_heads(page.lattice, [range(line.start, line.end)], page.keys)
        page.known_heads[line.number] = sum(len(c.unknown) for c in got) <= 3 and any(
            c.what or c.place or c.unit or c.by_node or c.branch for c in got
        )
    return page.known_heads[line.number]


def _counts_on(page: Page, line: Line) -> bool:
    """`1 can feel beans top 4` over `2 beans touching`: a number before words, and the next one under it: plants."""
    after = next((x for x in page.lines[line.number + 1 :] if not x.blank), None)
    if after is None or line.end - line.start < _SHORT or page.pieces[line.start + 1].form != "word":
        return False
    first, second = page.pieces[line.start], page.pieces[after.start]
    return first.form == second.form == "int" and int(second.text) == int(first.text) + 1


def name_between(page: Page, line: Line) -> bool:
    """One cell of words, and a row right under it: the name of the field or stop whose rows follow."""
    nxt = page.lines[line.number + 1] if line.number + 1 < len(page.lines) else None
    bracket = next((i for i in range(line.start, line.end) if page.pieces[i].text == "("), line.end)
    planted = bracket < line.end and page.pieces[line.end - 1].text == ")"  # Levee 14 (planted 5/24)
    if planted:
        line = Line(line.number, line.start, bracket, line.cells, line.tabbed)
    elif len(line.cells) == 2 and says_planted(page.lattice, line.cells[1]):
        planted = True  # HALL PLACE       pl. 5-18
        line = Line(line.number, line.start, line.cells[0].end, line.cells[:1], line.tabbed)
    return (
        len(line.cells) == 1
        and 0 < line.end - line.start <= LONGEST_NAME
        and page.pieces[line.start].form == "word"
        and nxt is not None
        and not nxt.blank
        and page.is_row(nxt)
        and (
            planted
            or names_a_stop(page.lattice, line)
            or names_a_side(page.lattice, line)
            or is_stop(page.lattice, line.cells[0])  # North end, whose north may be a number's head
            or not may_be_heads(page, line)
        )
    )


def stands_alone(page: Page, line: Line, head: Sequence[Line]) -> bool:
    """A legend that is no part of a stacked head: it stands under no head cell, or is the whole line from the left."""
    return len(line.cells) == 1 and head_columns(page.lattice, [*head, line], page.keys) is None


def rows_under(
    page: Page, columns: list[Column], at: int, single: bool, separator: str | None = None, bordered: bool | None = None
) -> Grid | None:
    """The rows under known heads, wherever their label stands."""
    if separator is None and page.needs_inside(columns):
        return page.inside_rows(columns, at, single)
    return page.rows_from(columns, at, single, separator, bordered)


def with_places(lattice: Lattice, columns: list[Column], line: Line) -> list[Column]:
    """`by gate   1   38/40` under `plant   ripe pods / all pods`: a place stands left of the label, under no head."""
    if len(line.cells) <= _SHORT or not columns[0].label or any(c.what == ["stop"] for c in columns):
        return columns
    first, second = line.cells[:2]
    label = labels_of(lattice, second.start, second.end)
    kinds = {e.kind for i in range(first.start, first.end) for e in lattice.edges[i] if e.how == "exact"}
    words = lattice.pieces[first.start].form == "word" and first.end - first.start <= LONGEST_NAME
    if label is None or not words or first.right > columns[0].left or kinds & NO_PLACE:
        return columns
    titled = all(lattice.original(i, i + 1)[:1].isupper() for i in range(first.start, first.end))
    if titled and not kinds & (_PLACES - {"FIELDNOUN"}):
        return columns  # ELM SPRING   a   1 1/2: a field
    if not (kinds & _PLACES or is_stop(lattice, first)):
        return columns
    return [Column(["stop"], [], first.left, max(first.right, columns[0].left - 2)), *columns]


def stopped_row(page: Page, line: Line, head: Sequence[Line]) -> bool:
    """A row that begins with the words of a stop, under heads with a column for stops."""
    columns = head_columns(page.lattice, head, page.keys)
    columns = with_places(page.lattice, columns, line) if columns is not None else None
    if columns is None or not page.needs_inside(columns):
        return False
    if may_be_heads(page, line) and not any(page.pieces[i].form in {"int", "dec"} for i in range(line.start, line.end)):
        return False
    return page.inside_row(line, columns, page.reach(columns, line.number, False), False) is not None


def unlabelled_row(page: Page, line: Line, head: Sequence[Line]) -> bool:
    """A row without a label under heads without a column for it."""
    columns = head_columns(page.lattice, head, page.keys)
    if columns is None or any(c.label for c in columns) or len(columns) < 2:
        return False
    if may_be_heads(page, line):
        return False
    cells = line.cells if len(head[-1].cells) > 1 else cut(page.pieces, line.start, line.end, 1)
    return len(cells) == len(columns) and any(p.form in {"int", "dec"} for p in page.pieces[line.start : line.end])


def mark_between(page: Page, head: Sequence[Line]) -> str | None:
    if len(head) != 1:
        return None
    here = page.pieces[head[0].start : head[0].end]
    texts = [p.text for p in here]
    marks = "|;," if any(p.form in {"int", "dec"} for p in here) else "|;,/"  # 2/3 is no head
    several = next((m for m in marks if texts.count(m) >= 2), None)
    return several or ("|" if _one_bar(page, head[0]) else None)


def _one_bar(page: Page, line: Line) -> bool:
    """`plt | tf` over `1 | 8`: two columns with one drawn line between them."""
    below = [x for x in page.lines[line.number + 1 : line.number + _SHORT + 1] if not x.blank and not page.ruled(x)]
    bars = [[k for k in range(x.start, x.end) if page.pieces[k].text == "|"] for x in (line, *below[:1])]
    inside = all(len(b) == 1 for b in bars) and line.start < bars[0][0] < line.end - 1
    return inside and len(bars) > 1 and page.pieces[bars[1][0] - 1].form == "int"


def delimited_head(page: Page, line: Line, mark: str, bordered: bool | None = None) -> list[Column] | None:
    columns: list[Column] = []
    cells = cut_at(page.pieces, line.start, line.end, mark, bordered)
    if len(cells) > 1 and cells[0].tab == 1:
        columns.append(Column(["plant"]))  # nothing over the labels
    for cell in cells:
        columns += [Column() for _ in range(len(columns), cell.tab)]  # a head that is left out
        got = read_heads(page.lattice, [range(cell.start, cell.end)], page.keys)
        at_its_node(page.lattice, got, columns)
        if len(got) == 1:
            columns.append(got[0])
        elif columns and is_where(page.lattice, cell) and columns[-1].what[:1] in SEEN:
            columns.append(where_column(cell, columns[-1]))
        else:
            columns.append(_strange_column(cell, page.pieces))
    if mark == "," and any(_a_number(page, i) for c in columns for i in c.unknown):
        return None
    known = [c for c in columns if c.known and not c.unknown]
    return columns if len(known) >= 3 or (len(known) == len(columns) >= 2 and any(c.label for c in known)) else None


def _a_number(page: Page, i: int) -> bool:
    """`First plant, fourteen nodes, inch pods`: a number in words is a count, and no part of a head."""
    return page.pieces[i].form == "word" and any(e.kind == "INT" and e.how == "number" for e in page.lattice.edges[i])


def of_no_plant(columns: Sequence[Column]) -> bool:
    """`Frogeye at stop 3, a few lesions.`: heads of findings and stops alone are words of a sentence."""
    return all(not c.known or c.what[0] in {"finding", "stop", "note"} for c in columns)


def _strange_column(cell: Cell, pieces: Sequence[Piece]) -> Column:
    """A column whose head is not understood: its cells stay unread."""
    own = list(range(cell.start, cell.end))
    words = [i for i in own if pieces[i].form != "mark"]
    return Column([], own, cell.left, cell.right, unknown=words or own)
