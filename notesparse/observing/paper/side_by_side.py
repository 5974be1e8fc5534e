"""Pages with their fields side by side, unfolded: what stands under a field's name, one field after the other (guide 1.2,
4.21).

`BRICKYARD   |   HALFWAY HOUSE` over `1  8 tri  fl top   |   1  6 tri  no fl`: each side is read as a page of its own; so
is each column under a name where the plants, or the classes that were counted (`R3   ||||   6`), stand at the left. The
outcome is carried back to the page as it was written.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.columns import column_words, head_tokens
from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.paper.blocks import is_stop
from notesparse.observing.paper.hanging_days import find_hanging_days
from notesparse.observing.paper.page_columns import find_page_columns
from notesparse.observing.paper.repeated_heads import find_repeated_heads
from notesparse.observing.paper.ticks import count_ticks, read_class
from notesparse.reading.parse import phrases_at
from notesparse.span import Span
from notesparse.text.columns import Cell, Line, lines_of, under
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/side_by_side")
_COMMON = cue_page("shared")

_LONGEST = 4  # words of a name
_FEWEST = 2  # rows
_OF_MANY = 3  # pieces of 6 of 10
_LEFT = 3  # characters by which a cell may stand out to the left of its head
_IN_A_NAME = frozenset(
    {"FIELDNOUN", "COMPASS", "LETTER", "LOW", "TOP", "WHEREWORD", "INT", "UPTOP", "LONG", "OTHERCROP"}
)
_OWNING = _LISTED.words("owning")
_TOLD = frozenset({"TRIF", "FLOWER", "POD", "SEED", "BEAN", "NODE", "NODES", "R", "V", "UNI", "COT", "BROWN"})
_NO_NAME = _TOLD | {"PLANT", "PLETTER", "STOP", "MONTH", "WEEKDAY", "PCT"}
_ALL = _COMMON.words("all_or_each")
_PARTS = frozenset({"COMPASS", "LOW", "TOP", "UPTOP", "WHEREWORD"})
_NO_STROKES = _LISTED.words("no_strokes")
_PLANT = frozenset({"PLANT", "PLETTER", "HASH"})


class Unfolded:
    """`text` is made of stretches of another text, some of them twice. Spans are in characters. No word of it is another
    than in that text: `words` is empty."""

    def __init__(self, own: str, parts: Sequence[tuple[int, int] | str]) -> None:
        self.words: dict[Span, str | None] = {}
        said: list[str] = []
        origin: list[int] = []
        for part in parts:
            if isinstance(part, str):
                said.append(part)
                origin += [-1] * len(part)
            else:
                said.append(own[part[0] : part[1]])
                origin += range(*part)
        self.text = "".join(said)
        self._origin = origin

    def back(self, span: Span) -> Span:
        """The stretch of the other text from which the span comes, from its first character to its last."""
        told = [x for x in self._origin[span.start : span.end] if x >= 0]
        if told:
            return Span(min(told), max(told) + 1)
        before = max((x for x in self._origin[: span.start] if x >= 0), default=-1) + 1
        return Span(before, before)

    def there(self, span: Span) -> Span:
        """Where a span of the other text stands in `text`; the first of two."""
        found = [i for i, x in enumerate(self._origin) if span.start <= x < span.end]
        last = next((k for k in range(1, len(found)) if found[k] != found[k - 1] + 1), len(found))
        return Span(found[0], found[last - 1] + 1) if found else Span(0, 0)


@dataclass(slots=True)
class _Row:
    """A row: what stands at the left of all fields, and what stands under each of them."""

    stub: list[Cell]
    cells: list[list[Cell]]


@dataclass(slots=True)
class _Fields:
    """Fields side by side: their names, the rows under them, and the last of these as a line of the page."""

    heads: Line
    rows: list[_Row]
    last: Line


def unfolded(lattice: Lattice) -> Unfolded | None:
    """The page with its fields one after the other; None where they do not stand side by side."""
    lines = lines_of(lattice.text, lattice.pieces)
    found: list[_Fields] = []
    behind = 0
    for n, own in enumerate(lines):
        if n < behind:
            continue
        line = _without_the_stub(lattice, own)
        named = [_names_a_field(lattice, c) for c in line.cells]
        if len(named) < 2 or not all(x is not None for x in named) or not any(named):
            continue
        rows = _sides(lattice, lines[n + 1 :], line) or _columns(lattice, lines[n + 1 :], line)
        classes = bool(rows) and all(_class(lattice, row) for row in rows)
        if (line is not own and not classes) or (classes and any(_only_a_place(lattice, c) for c in line.cells)):
            continue
        if rows:
            found.append(_Fields(line, rows, lines[n + len(rows)]))
            behind = n + len(rows) + 1
    if found:
        return _page(lattice, found)
    return _the_heads_again(lattice, lines) or _plants_in_columns(lattice, lines) or _days_over(lattice, lines)


def _the_heads_again(lattice: Lattice, lines: Sequence[Line]) -> Unfolded | None:
    """The page with the parts of a table that stand beside one another as one table."""
    parts: list[tuple[int, int] | str] = []
    behind = 0
    for start, end, table in find_repeated_heads(lattice, lines):
        parts += [(behind, start), *table]
        behind = end
    return Unfolded(lattice.text, [*parts, (behind, len(lattice.text))]) if parts else None


def _only_a_place(lattice: Lattice, cell: Cell) -> bool:
    """`Upper`, `West end`: a part of a field, over plants that were counted there."""
    own = range(cell.start, cell.end)
    return is_stop(lattice, cell) or all(_PARTS & {e.kind for e in lattice.edges[i]} for i in own)


def _without_the_stub(lattice: Lattice, line: Line) -> Line:
    """The line without `stage`, `class` at its left: what stands under that is a class, and no field."""
    if len(line.cells) <= _FEWEST or line.cells[0].end - line.cells[0].start != 1:
        return line
    if column_words().heads.get(head_tokens(lattice.original(line.cells[0].start, line.cells[0].end))) is None:
        return line
    return replace(line, start=line.cells[1].start, cells=line.cells[1:])


def _days_over(lattice: Lattice, lines: Sequence[Line]) -> Unfolded | None:
    """The page with each day that stands at the left of its plants on a line over them."""
    parts: list[tuple[int, int] | str] = []
    behind = 0
    for end, begin, left in find_hanging_days(lattice, lines):
        parts += [(behind, end), "\n" + " " * left]
        behind = begin
    return Unfolded(lattice.text, [*parts, (behind, len(lattice.text))]) if parts else None


def _plants_in_columns(lattice: Lattice, lines: Sequence[Line]) -> Unfolded | None:
    """The page with its columns of plants one after the other."""
    parts: list[tuple[int, int] | str] = []
    behind = 0
    for run, columns in find_page_columns(lattice, lines):
        parts.append((behind, lattice.pieces[run[0].start].span.start))
        for cells in columns:
            for c in cells:
                parts += [(lattice.pieces[c.start].span.start, lattice.pieces[c.end - 1].span.end), "\n"]
        behind = lattice.pieces[run[-1].end - 1].span.end
    return Unfolded(lattice.text, [*parts, (behind, len(lattice.text))]) if parts else None


def _names_a_field(lattice: Lattice, cell: Cell) -> bool | None:
    """Whether the words name a field and mean nothing else; None where they are no name at all."""
    words = [lattice.original(i, i + 1) for i in range(cell.start, cell.end) if lattice.pieces[i].form == "word"]
    if not 0 < len(words) <= _LONGEST or not all(w[0].isupper() or w.casefold() in _OWNING for w in words):
        return None
    said = column_words()
    tokens = head_tokens(lattice.original(cell.start, cell.end))
    if tokens in said.visits or any(tokens[:k] in said.heads for k in range(1, len(tokens) + 1)):
        return None
    meant: set[str] = set()
    for i in range(cell.start, cell.end):
        kinds = {e.kind for e in lattice.edges[i] if e.how == "exact"}
        if "FIELDNOUN" not in kinds and lattice.pieces[i].text not in _OWNING:  # LOWER FLAT, PAINTER'S CORNER
            meant |= kinds
    return None if meant & _NO_NAME else not meant - _IN_A_NAME


def _sides(lattice: Lattice, lines: Sequence[Line], heads: Line) -> list[_Row]:
    """Rows of which each side begins with the same label."""
    rows: list[_Row] = []
    lefts = [c.left for c in heads.cells]
    for line in lines:
        cells: list[list[Cell]] = [[] for _ in lefts]
        of = [max((j for j, left in enumerate(lefts) if c.left >= left - _LEFT), default=None) for c in line.cells]
        if None in of:
            break  # it stands to the left of all names
        for c, k in zip(line.cells, of, strict=True):
            cells[k or 0].append(c)
        firsts = [side[0].start for side in cells if side]
        alike = len({lattice.at(i) for i in firsts}) == 1
        goes_on = bool(rows) and not any(_label(lattice, i) for i in firsts)  # fl top     no fl, under pl 1    pl 1
        if line.blank or len(firsts) < _FEWEST or not (alike or goes_on):
            break
        rows.append(_Row([], cells))
    told = [row for row in rows if _told(lattice, [c for side in row.cells for c in side])]
    numbered = [row for row in rows if all(side and lattice.pieces[side[0].start].form == "int" for side in row.cells)]
    return rows if len(told) >= _FEWEST or (told and len(numbered) >= _FEWEST) else []


def _columns(lattice: Lattice, lines: Sequence[Line], heads: Line) -> list[_Row]:
    """Rows with their plants at the left, and a cell under each field."""
    rows: list[_Row] = []
    plants = classes = 0
    columns = [(c.left, c.right) for c in heads.cells]
    for line in lines:
        stub = [c for c in line.cells if c.right <= columns[0][0] - 1]
        rest = [c for c in line.cells if c not in stub]
        if line.blank or not stub or not rest:
            break
        cells: list[list[Cell]] = [[] for _ in columns]
        for c, at in zip(rest, under([(c.left, c.right) for c in rest], columns), strict=True):
            if at is None:
                return []
            cells[at].append(c)
        plant = _plant(lattice, stub[0])
        plants += plant
        if plant and not _told(lattice, line.cells):
            return []
        rows.append(_Row(stub, cells))
        classes += _class(lattice, rows[-1])
    return rows if plants >= _FEWEST or _FEWEST <= classes == len(rows) else []


def _class(lattice: Lattice, row: _Row) -> bool:
    """`R3   ||||   6`: a class at the left, and under each field strokes or a figure and no more."""
    if len(row.stub) != 1:
        return False
    for side in row.cells:
        words = [lattice.original(c.start, c.end) for c in side]
        if not all(w.isdigit() or w in _NO_STROKES or count_ticks(w) for w in words):
            return False
    first = next((side for side in row.cells if side), None)
    if first is None:
        return False
    counted = Line(0, row.stub[0].start, first[-1].end, ())
    return row.stub[0].end == first[0].start and read_class(lattice, counted) is not None


def _plant(lattice: Lattice, cell: Cell) -> bool:
    """`plant 1`, `pl. 1 trifs`, `plant 1, trifs`."""
    numbered = any(e.kind == "INT" for i in range(cell.start + 1, cell.end) for e in lattice.edges[i])
    return numbered and any(e.kind in _PLANT for e in lattice.edges[cell.start])


def _label(lattice: Lattice, i: int) -> bool:
    """A plant's label may stand here."""
    return lattice.pieces[i].form == "int" or any(e.kind in _PLANT for e in lattice.edges[i])


def _told(lattice: Lattice, cells: Sequence[Cell]) -> bool:
    return any(e.kind in _TOLD for c in cells for i in range(c.start, c.end) for e in lattice.edges[i])


def _page(lattice: Lattice, found: Sequence[_Fields]) -> Unfolded:
    pieces, text = lattice.pieces, lattice.text
    parts: list[tuple[int, int] | str] = []
    behind = 0
    for fields in found:
        parts.append((behind, pieces[fields.heads.start].span.start))
        parts += _one_by_one(lattice, fields)
        behind = pieces[fields.last.end - 1].span.end
    parts.append((behind, len(text)))
    return Unfolded(text, parts)


def _one_by_one(lattice: Lattice, fields: _Fields) -> list[tuple[int, int] | str]:
    """Each name, with what stands in its column under it."""

    def chars(cells: Sequence[Cell]) -> tuple[int, int]:
        return lattice.pieces[cells[0].start].span.start, lattice.pieces[cells[-1].end - 1].span.end

    parts: list[tuple[int, int] | str] = []
    for k, head in enumerate(fields.heads.cells):
        parts += ["Field: ", chars([head])]  # CLAY HILL is no place in the field beside it
        for row in fields.rows:
            if not row.cells[k]:
                continue
            of = _of_so_many(lattice, row)
            if of is not None:
                whole, what = Cell(of, row.stub[0].end, 0, 0), Cell(row.stub[0].start, of, 0, 0)
                parts += ["\n", chars(row.cells[k]), " ", chars([whole]), " ", chars([what])]
                continue  # in flower, of 5     3: as 3 of 5 in flower
            if len(row.stub) == 1 and all(_a_share(lattice, side) for side in row.cells if side):
                parts += ["\n", chars(row.cells[k]), " ", chars(row.stub)]
                continue  # blooming     6 of 10
            parts.append(", " if row is not fields.rows[0] and _goes_on(lattice, row, k) else "\n")
            for c in row.stub:
                parts += [chars([c]), " "]
            parts.append(chars(row.cells[k]))
        for c in _of_all(lattice, fields.heads.start) if k else []:
            parts += ["\n", chars([c])]
        parts.append("\n")
    return parts


def _of_so_many(lattice: Lattice, row: _Row) -> int | None:
    """`in flower, of 5` at the left of figures: where `of 5` begins."""
    if len(row.stub) != 1:
        return None
    at = row.stub[0].end - 2
    figures = all(len(side) == 1 and side[0].end - side[0].start == 1 for side in row.cells if side)
    told = at > row.stub[0].start and lattice.at(at) == "of" and lattice.pieces[at + 1].form == "int"
    return at if told and figures else None


def _a_share(lattice: Lattice, side: Sequence[Cell]) -> bool:
    """`6 of 10`, `60%`, and no more."""
    words = [lattice.at(i) for c in side for i in range(c.start, c.end)]
    of_many = len(words) == _OF_MANY and words[1] == "of" and words[0].isdigit() and words[2].isdigit()
    return of_many or (len(words) == _FEWEST and words[0].isdigit() and words[1] in {"%", "pct"})


def _of_all(lattice: Lattice, end: int) -> list[Cell]:
    """`everything in 30 in. rows` above the fields: what is said there of the rows of all of them."""
    above = [c for line in lines_of(lattice.text, lattice.pieces[:end]) for c in line.cells]
    return [c for c in above if lattice.at(c.start) in _ALL and _in_rows(lattice, c)]


def _in_rows(lattice: Lattice, c: Cell) -> bool:
    return any(p.rule == "rows" for i in range(c.start, c.end) for p in phrases_at(lattice, i))


def _goes_on(lattice: Lattice, row: _Row, k: int) -> bool:
    """The row tells more of the plant above it: `flower` under `pl 1  trifs`, `fl top` under `1  9 tri`."""
    if row.stub:
        return not _plant(lattice, row.stub[0]) and _told(lattice, row.stub) and not _class(lattice, row)
    return not _label(lattice, row.cells[k][0].start)
