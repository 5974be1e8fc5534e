"""The rows of a table: the label at the head, and which column each cell stands under (guide 4.21)."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import field, replace

from notesparse.language.columns import column_words, squeeze
from notesparse.lazy import dataclass
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import DAMAGED, labels_of, read_label
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Cell, Line, apart, cut, cut_at, lines_of, off_rule, under
from notesparse.text.lattice import Lattice

_FULL_DAYS = frozenset({"day_month_year", "dmy", "month_day_year"})


@dataclass(slots=True)
class Row:
    """One row: labels with their pieces (None: the note gives none), and the cells by column."""

    labels: tuple[str, ...]
    label: tuple[int, int] | None
    cells: dict[int, list[tuple[int, int]]]
    loose: list[tuple[int, int]] = field(default_factory=list)  # under no column that can be told
    damaged: bool = False
    notes: dict[int, tuple[int, int]] = field(default_factory=dict)  # first piece of a cell -> its footnote's words
    without: dict[int, str] = field(
        default_factory=dict
    )  # first piece of a cell with no mark behind -> what is not there
    stop: tuple[int, int] | None = None  # the pieces of the stop where these plants stood
    looked_at: tuple[int, int] | None = None  # the pieces of how many plants of a field were looked at
    why: str = "which column this stands under cannot be told"


@dataclass(slots=True)
class Grid:
    """Rows of plants under columns; `head` are the pieces of heads and legends."""

    columns: list[Column]
    rows: list[Row]
    head: list[int]
    start: int
    end: int
    first: int
    last: int
    unread: list[tuple[int, int, str]] = field(default_factory=list)
    name: tuple[int, int] | None = None  # the field's name over a block of the table
    day: tuple[int, int] | None = None  # the date over a column: its cells are of that visit
    then: list[Grid] = field(default_factory=list)  # the blocks beside it
    of_fields: bool = False  # a row is a field, and no plant
    goes_on: bool = False  # its first row follows on the last one of the table before, behind a remark


def names_a_stop(lattice: Lattice, line: Line) -> bool:
    """`Stop 2, far side`: a stop with its number or letter."""
    k = next((e.end for e in lattice.edges[line.start] if e.kind == "STOP"), line.end)
    return k < line.end and (lattice.pieces[k].form == "int" or len(lattice.pieces[k].text) == 1)


class Rows:
    """Reads rows under known columns."""

    def __init__(self, lattice: Lattice) -> None:
        self.lattice = lattice
        self.pieces = lattice.pieces
        self.lines = lines_of(lattice.text, lattice.pieces)
        self._labels: dict[int, tuple[tuple[str, ...], int, bool, bool] | None] = {}  # by the line's first piece
        self.no_rows: set[int] = set()  # lines of keys and footnotes, which no table goes on over

    def ruled(self, line: Line) -> bool:
        """A line drawn with dashes, or an empty one."""
        return all(p.text in "-_=|+*." for p in self.pieces[line.start : line.end])

    def labelled(self, line: Line) -> tuple[tuple[str, ...], int, bool, bool] | None:
        """The label at a row's head, if a cell stands after it."""
        if line.blank:
            return None
        if line.start not in self._labels:
            self._labels[line.start] = self._labelled(line)
        return self._labels[line.start]

    def _labelled(self, line: Line) -> tuple[tuple[str, ...], int, bool, bool] | None:
        found = read_label(self.lattice, line.start, line.end)
        if found is None or found[1] >= line.end:
            return None
        nxt = self.pieces[found[1]]
        if nxt.glued and not found[2]:
            return None
        return found

    def is_row(self, line: Line) -> bool:
        """A label in a cell of its own, then more cells."""
        found = self.labelled(line)
        if found is None:
            return False
        return self.pieces[found[1]].gap >= 2 or self.pieces[found[1]].text in {"|", ","} or found[2]

    def rest_cells(self, line: Line, a: int, single: bool) -> list[Cell]:
        if single:
            return cut(self.pieces, a, line.end, 1)
        if line.tabbed:
            return [c if c.start >= a else replace(c, start=a) for c in line.cells if c.end > a]
        return off_rule(self.pieces, cut(self.pieces, a, line.end, 2), a, line.end)

    def rows_from(
        self, columns: list[Column], at: int, single: bool, separator: str | None = None, bordered: bool | None = None
    ) -> Grid | None:
        """All rows from line `at` on; `bordered`: the head line begins with the mark that parts the cells."""
        lines = self.lines
        has_label = any(c.label for c in columns)
        blocks = sum(c.label for c in columns)
        rows: list[Row] = []
        unread: list[tuple[int, int, str]] = []
        last = at
        k = at
        raw: list[tuple[Line, tuple[tuple[str, ...], int, bool, bool] | None, list[Cell]]] = []
        while k < len(lines):
            line = lines[k]
            if k in self.no_rows:
                break
            if line.blank or self.ruled(line):
                nxt = next((x for x in lines[k + 1 : k + 3] if not x.blank and not self.ruled(x)), None)
                goes_on = nxt is not None and (
                    self.is_row(nxt) and self._next_label(raw, nxt)
                    if separator is None
                    else not line.blank and self._barred(nxt, separator)
                )
                if not goes_on:
                    break
                k += 1
                continue
            if separator is not None:
                cells = cut_at(self.pieces, line.start, line.end, separator, bordered)
                if len(cells) < 2 or not self._fits_bars(cells, columns):
                    break
                if self._average(Line(line.number, cells[0].start, line.end, tuple(cells))):
                    unread.append((line.start, line.end, "an average or a sum over the column"))
                    last = k
                    k += 1
                    continue
                raw.append((line, None, cells))
                last = k
                k += 1
                continue
            found = self.labelled(line)
            if raw and has_label and not single and line.cells and self._label_lost(line, columns):
                raw.append((line, None, list(line.cells)))
            elif found is not None and (self.is_row(line) or single):
                raw.append((line, found, self.rest_cells(line, found[1], single)))
            elif self._average(line):
                unread.append((line.start, line.end, "an average or a sum over the column"))
            elif raw and self._continues(line, columns):
                raw[-1][2].extend(line.cells)
            elif (
                not has_label
                and self._bare_row(line, columns, single)
                and not (
                    raw and raw[-1][1] and (self._remarks_on(line) or self._next_title(line) or self._next_head(line))
                )
            ):
                raw.append((line, None, cut(self.pieces, line.start, line.end, 1) if single else list(line.cells)))
            else:
                break
            last = k
            k += 1
        if not raw:
            return None
        if separator is not None:
            for _, _, cells in raw:
                rows.append(self._delimited_row(cells, columns))
            return Grid(columns, rows, [], raw[0][0].start, raw[-1][0].end, at, last, unread)
        things = [c for c in columns if not c.label]
        extents = self._extents(things, raw, single)
        unlabelled = not has_label and not single and self._no_labels(raw, columns)
        values = not has_label and not single and self._first_values(raw, columns)
        for line, found, cells in raw:
            if blocks > 1:
                made = self._block_row(line, columns)
                if made is None:
                    unread.append((line.start, line.end, "the columns of this row cannot be told"))
                else:
                    rows += made
                continue
            rows.append(self._row(found, cells, columns, things, extents, single, line, unlabelled, values))
        if blocks > 1:
            rows.sort(
                key=lambda row: max(i for i, c in enumerate(columns) if c.label and i < min(row.cells, default=1))
            )
        self._lost_labels(rows)
        if 2 * sum(self._crowded(row) for row in rows) > len(rows):
            return None  # more figures than heads: what the others are of is not told
        return Grid(columns, rows, [], raw[0][0].start, lines[last].end, at, last, unread)

    def _fits_bars(self, cells: Sequence[Cell], columns: Sequence[Column]) -> bool:
        """Whether cells between marks are a row under these heads, and no remark that has such a mark in it."""
        number = next((i for i, c in enumerate(columns) if c.label), None)
        if number is None:
            return len(cells) == len(columns) or 2 * len(cells) > len(columns) > 2
        label = next((c for c in cells if c.tab == number), None)
        if label is None:
            return 2 * len(cells) >= len(columns)
        if labels_of(self.lattice, label.start, label.end) is not None:
            return True
        sign = column_words().cells.get(squeeze(self.lattice.original(label.start, label.end)))
        return sign == "average" or (label.end - label.start <= 3 and len(cells) == len(columns))

    def _barred(self, line: Line, mark: str) -> bool:
        """A row drawn with marks between its cells."""
        return sum(p.text == mark for p in self.pieces[line.start : line.end]) >= 1

    def _next_label(self, raw: Sequence[tuple[Line, object, list[Cell]]], line: Line) -> bool:
        """After a gap the table goes on if the label follows on."""
        found = self.labelled(line)
        before = next((f for _, f, _ in reversed(raw) if f is not None), None)
        if found is None or before is None or not isinstance(before, tuple):
            return False
        a, b = before[0][-1], found[0][0]
        if a.isdigit() and b.isdigit():
            return int(a) < int(b) <= int(a) + 3
        return len(a) == len(b) == 1 and 0 < ord(b.casefold()) - ord(a.casefold()) <= 2

    def _average(self, line: Line) -> bool:
        cell = line.cells[0]
        return (
            column_words().cells.get(squeeze(self.lattice.original(cell.start, cell.end))) == "average"
            and len(line.cells) > 1
        )

    def _continues(self, line: Line, columns: Sequence[Column]) -> bool:
        """A remark that runs over to the next line, under its own column."""
        last = columns[-1]
        if last.what not in (["note"], ["stage"]) or len(line.cells) != 1 or len(columns) < 2:
            return False
        return line.cells[0].left >= max(c.right for c in columns[:-1])

    def _bare_row(self, line: Line, columns: Sequence[Column], single: bool) -> bool:
        cells = cut(self.pieces, line.start, line.end, 1) if single else line.cells
        if single and sum(self._plain_word(c) for c in cells) > 1:
            return False  # Field is at R5.
        return len(cells) == len(columns) and any(
            p.form in {"int", "dec", "word"} for p in self.pieces[line.start : line.end]
        )

    def _remarks_on(self, line: Line) -> bool:
        """A sentence behind the rows: `Aphids 30-50/plt at Post Oak.  Back tire low.`"""
        ended = [self.pieces[c.end - 1].text == "." and c.end - c.start > 2 for c in line.cells]
        return all(ended) and any(self._plain_word(Cell(i, i + 1, 0, 0)) for i in range(line.start, line.end))

    def _next_title(self, line: Line) -> bool:
        """`UPPER FERN` behind labelled rows, and row 1 right under it: the next field; `Stop 2 - road end`: the next stop."""
        nxt = self.lines[line.number + 1] if line.number + 1 < len(self.lines) else line
        found = self.labelled(nxt) if nxt is not line and not nxt.blank and len(line.cells) == 1 else None
        if found is not None and names_a_stop(self.lattice, line):
            return True
        words = [self.lattice.original(i, i + 1) for i in range(line.start, line.end)]
        return (
            found is not None and found[0][0] in {"1", "A", "a"} and all(w[:1].isupper() or w.isdigit() for w in words)
        )

    def _next_head(self, line: Line) -> bool:
        """`SPRING HOUSE      15 July 1998      30 in. rows` behind labelled rows: the head of the next page."""
        return len(line.cells) > 1 and any(
            p.rule == "date" and p.form in _FULL_DAYS and p.end >= c.end
            for c in line.cells[1:]
            for p in phrases_at(self.lattice, c.start)
        )

    def _plain_word(self, c: Cell) -> bool:
        """A word of two letters and more that is no sign of a cell."""
        word = self.lattice.original(c.start, c.end)
        return word.isalpha() and len(word) > 1 and squeeze(word) not in column_words().cells

    def _label_lost(self, line: Line, columns: Sequence[Column]) -> bool:
        if line.tabbed or len(line.cells) < 2 or not columns[0].label or len(columns) < 3:
            return False
        first = line.cells[0].left, line.cells[0].right
        return (
            apart(first, (columns[0].left, columns[0].right)) > 0
            and apart(first, (columns[1].left, columns[1].right)) == 0
        )

    def _extents(
        self, things: Sequence[Column], raw: Sequence[tuple[Line, object, list[Cell]]], single: bool
    ) -> list[tuple[int, int]]:
        """How far each column reaches: its head, widened by the cells of full rows."""
        out = [(c.left, c.right) for c in things]
        if single:
            return out
        for _, found, cells in raw:
            if len(cells) == len(things) and found is not None:
                wide = [
                    (min(x[0], c.left), max(x[1], min(c.right, c.left + 24))) for x, c in zip(out, cells, strict=True)
                ]
                if all(a[1] <= b[0] for a, b in itertools.pairwise(wide)):
                    out = wide
        return out

    def _crowded(self, row: Row) -> bool:
        """Whether two bare figures or signs stand under one head."""
        return any(
            sum(all(p.form != "word" for p in self.pieces[a:b]) and b - a <= 3 for a, b in cells) > 1
            for cells in row.cells.values()
        )

    def _no_labels(self, raw: Sequence[tuple[Line, object, list[Cell]]], columns: Sequence[Column]) -> bool:
        """Whether the first cells of the rows stand under the first head, and no row has a cell more than there are heads."""
        most = max(len(line.cells) for line, _, _ in raw)
        first = [line.cells[0] for line, _, _ in raw]
        over = all(apart((c.left, c.right), (columns[0].left, columns[0].right)) == 0 for c in first)
        if self._letters_in_order(raw):
            return False  # A, B, C under a word that stands over the whole table
        return over and most <= len(columns)

    def _letters_in_order(self, raw: Sequence[tuple[Line, object, list[Cell]]]) -> bool:
        """Labels A, B, C at the heads of the rows."""
        firsts = [f[0][0].casefold() for _, f, _ in raw if isinstance(f, tuple)]
        return len(firsts) > 1 and firsts == [chr(ord("a") + n) for n in range(len(firsts))]

    def _first_values(self, raw: Sequence[tuple[Line, object, list[Cell]]], columns: Sequence[Column]) -> bool:
        """Whether first figures may be values: no row has more cells than heads, no labels count up left of them."""
        if max(len(line.cells) for line, _, _ in raw) > len(columns):
            return False
        if self._letters_in_order(raw):
            return False
        firsts = [f[0][0] for _, f, _ in raw if isinstance(f, tuple)]
        counting = firsts == [str(n) for n in range(1, len(firsts) + 1)]
        return not (counting and all(line.cells[0].right < columns[0].left for line, _, _ in raw))

    def _row(
        self,
        found: tuple[tuple[str, ...], int, bool, bool] | None,
        cells: list[Cell],
        columns: Sequence[Column],
        things: Sequence[Column],
        extents: list[tuple[int, int]],
        single: bool,
        line: Line,
        unlabelled: bool,
        values: bool,
    ) -> Row:
        has_label = any(c.label for c in columns)
        if found is not None and not has_label and unlabelled and not found[2]:
            found, cells = None, list(line.cells)  # the first figure is a value: there is no column for labels
        labels = found[0] if found else ()
        label = (line.start, found[1]) if found else None
        row = Row(labels, label, {}, damaged=bool(found and found[3]))
        if (
            found is not None
            and values
            and len(cells) + 1 == len(columns)
            and not (found[2] or single or self._beside_heads(line, found[1], cells, columns))
        ):
            row.labels, row.label = (), None  # the first figure is a value: there is no column for labels
            cells = [
                Cell(line.start, found[1], self.pieces[line.start].column, self.pieces[found[1] - 1].column + 1),
                *cells,
            ]
        if single:
            if len(cells) != len(things):
                row.loose = [(c.start, c.end) for c in cells]
                row.why = f"{len(cells)} figures under {len(things)} heads"
                return row
            row.cells = {columns.index(t): [(c.start, c.end)] for t, c in zip(things, cells, strict=True)}
            return row
        if line.tabbed and len({c.tab for c in cells}) == len(cells) and any(c.tab for c in cells):
            shift = 1 if row.label is not None else 0
            for c in cells:
                j = c.tab - shift
                if 0 <= j < len(things):
                    row.cells.setdefault(columns.index(things[j]), []).append((c.start, c.end))
                else:
                    row.loose.append((c.start, c.end))
            return row
        cells = self._parted(cells, extents)
        for c, place in zip(cells, under([(c.left, c.right) for c in cells], extents), strict=True):
            if place is None:
                row.loose.append((c.start, c.end))
            else:
                row.cells.setdefault(columns.index(things[place]), []).append((c.start, c.end))
        return row

    def _parted(self, cells: Sequence[Cell], extents: Sequence[tuple[int, int]]) -> list[Cell]:
        """`3rd from top do.` with one blank before the mark, which stands under the next head: two cells."""
        out: list[Cell] = []
        for n, c in enumerate(cells):
            k = next((i for i in range(c.start + 1, c.end) if self._again(i, c.end)), None)
            at = self.pieces[k].column if k is not None else 0
            over = next((x for x in extents if x[0] <= at + 1 and at <= x[1]), None)
            free = n + 1 == len(cells) or (
                over is not None and apart((cells[n + 1].left, cells[n + 1].right), over) > 0
            )
            if k is None or over is None or over[0] <= c.left or not free:
                out.append(c)
                continue
            last = self.pieces[k - 1]
            out.append(replace(c, end=k, right=last.column + len(last.text)))
            out.append(replace(c, start=k, left=at))
        return out

    def _again(self, a: int, b: int) -> bool:
        """`do.`, `ditto`, `-"-`, `"` behind a blank, and nothing behind it."""
        word = self.lattice.original(a, b)
        return (
            self.pieces[a].gap > 0
            and not word.startswith("same")
            and column_words().cells.get(squeeze(word)) == "same"
            and not all(x in ",'" for x in word)
        )

    def _beside_heads(self, line: Line, end: int, cells: Sequence[Cell], columns: Sequence[Column]) -> bool:
        """Whether a row's first figure stands left of all heads, and the next cell under the first of them: a label."""
        if line.tabbed or not cells:
            return False
        last = self.pieces[end - 1]
        figure = self.pieces[line.start].column, last.column + len(last.text)
        first = columns[0].left, columns[0].right
        return apart(figure, first) > 0 and apart((cells[0].left, cells[0].right), first) == 0

    def _delimited_row(self, cells: Sequence[Cell], columns: Sequence[Column]) -> Row:
        row = Row((), None, {})
        for c in cells:
            if c.tab >= len(columns):
                row.loose.append((c.start, c.end))
            elif columns[c.tab].label:
                found = labels_of(self.lattice, c.start, c.end)
                names = found[0] if found is not None else (self.lattice.original(c.start, c.end),)
                row.labels, row.label = names, (c.start, c.end)
            elif columns[c.tab].what == ["stop"]:
                row.stop = (c.start, c.end)
            else:
                row.cells[c.tab] = [(c.start, c.end)]
        return row

    def _block_row(self, line: Line, columns: Sequence[Column]) -> list[Row] | None:
        """Two tables side by side: each label column begins a row of its own."""
        cells = list(line.cells)
        where = under([(c.left, c.right) for c in cells], [(c.left, c.right) for c in columns])
        rows: list[Row] = []
        for c, j in zip(cells, where, strict=True):
            if j is None:
                return None
            if columns[j].label:
                found = read_label(self.lattice, c.start, c.end)
                if found is None or found[1] != c.end:
                    return None
                rows.append(Row(found[0], (c.start, c.end), {}, damaged=found[3]))
            elif not rows:
                return None
            else:
                rows[-1].cells.setdefault(j, []).append((c.start, c.end))
        return rows

    def _lost_labels(self, rows: list[Row]) -> None:
        """A row whose label is missing between two others has the number between them."""
        for a, row, b in zip(rows, rows[1:], [*rows[2:], None], strict=False):
            letter = row.labels and len(row.labels) == 1 and row.labels[0] in DAMAGED and b is not None
            if (row.labels and not letter) or not a.labels or not a.labels[-1].isdigit():
                continue
            want = int(a.labels[-1]) + 1
            if letter and str(want) not in DAMAGED[row.labels[0]]:
                continue
            if b is None or (b.labels and b.labels[0].isdigit() and int(b.labels[0]) == want + 1):
                row.labels, row.damaged = (str(want),), True
