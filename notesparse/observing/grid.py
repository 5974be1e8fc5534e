"""Where the tables of a note stand: rows of labelled plants under heads, turned tables, lists in order (guide 4.21).

Layout and heads only; what the cells say is read in `cells`. A run of lines is a table only if its head is known word by
word and rows of labelled plants follow, so that prose with wide gaps stays prose.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from notesparse.language.columns import column_words, squeeze
from notesparse.observing.heads import Column, head_columns, read_heads, read_key, read_legend, split_line
from notesparse.text.columns import Cell, Line, apart, cut, cut_at, lines_of, under
from notesparse.text.lattice import Lattice

_PLANT_WORDS = {"plant", "plants", "pl", "plt", "plts", "p", "no", "#", "sample", "№", "nr"}
_LONGEST_LINE = 48  # pieces of a line with heads


@dataclass(slots=True)
class Row:
    """One row: labels with their pieces (None: the note gives none), and the cells by column."""

    labels: tuple[str, ...]
    label: tuple[int, int] | None
    cells: dict[int, list[tuple[int, int]]]
    loose: list[tuple[int, int]] = field(default_factory=list)  # under no column that can be told
    damaged: bool = False
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


def read_label(lattice: Lattice, a: int, b: int) -> tuple[tuple[str, ...], int, bool, bool] | None:
    """A plant's label at piece a: (labels, where it ends, it cannot be anything else, it is a damaged figure)."""
    pieces = lattice.pieces
    k = a
    while k < b and pieces[k].text in {"(", "*", "•"}:
        k += 1
    sure = k > a
    words = 0
    while k < b and (pieces[k].text in _PLANT_WORDS or any(e.kind == "PLANT" and e.end == k + 1 and e.cost < 0.9 for e in lattice.edges[k])
                     or words and pieces[k].text in {".", "#", "no"}):
        if pieces[k].text == "p" and not (k + 1 < b and pieces[k + 1].glued and pieces[k + 1].form == "int"):
            break
        words += 1
        sure = True
        k += 1
    if k >= b:
        return None
    p = pieces[k]
    labels: tuple[str, ...] = ()
    damaged = False
    figure = next((e for e in lattice.edges[k] if e.how == "figure" and e.kind == "INT" and e.end <= b), None)
    if figure is not None and 0 < figure.means < 100 and (p.form != "int" or figure.end > k + 1):
        labels, k, damaged = (str(figure.means),), figure.end, True
    elif p.form == "int" and len(p.text) <= 3:
        if k + 1 < b and pieces[k + 1].text in {"st", "nd", "rd", "th"} and pieces[k + 1].glued:
            return None
        labels, k = (p.text,), k + 1
        if k + 1 < b and pieces[k].text in {"-", "thru", "to"} and pieces[k + 1].form == "int" and int(p.text) < int(pieces[k + 1].text) <= int(p.text) + 40:
            labels, k = tuple(str(n) for n in range(int(p.text), int(pieces[k + 1].text) + 1)), k + 2
        elif k < b and pieces[k].glued and pieces[k].form == "word" and len(pieces[k].text) == 1:
            labels, k = (p.text + lattice.original(k, k + 1),), k + 1
    elif p.form == "word" and len(p.text) == 1 and p.text.isalpha():
        labels, k = (lattice.original(k, k + 1),), k + 1
    else:
        return None
    if k < b and pieces[k].text in {")", ":", ".", "-"} and (k + 1 >= b or not pieces[k + 1].glued or pieces[k].text in {")", ":"}) and not (
            pieces[k].text == "-" and (k + 1 >= b or pieces[k].gap > 1)):
        sure = sure or pieces[k].text in {")", ":"}
        k += 1
    return labels, k, sure, damaged


class Finder:
    """Finds the grids of one note."""

    def __init__(self, lattice: Lattice) -> None:
        self.lattice = lattice
        self.pieces = lattice.pieces
        self.lines = lines_of(lattice.text, lattice.pieces)
        self.keys: dict[str, Column] = {}
        self.key_lines: dict[int, str] = {}
        self.legends: dict[int, Column] = {}
        for line in self.lines:
            key = read_key(lattice, line) if not line.blank else None
            if key is not None:
                self.keys[key[0]] = key[1]
                self.key_lines[line.number] = key[0]
        for line in self.lines:
            if line.number not in self.key_lines and not line.blank:
                legend = read_legend(lattice, line)
                if legend is not None:
                    self.legends[line.number] = legend
        self.cell_legends: dict[int, tuple[Column, Cell]] = {}
        for line in self.lines:
            if len(line.cells) > 1 and line.number not in self.legends and line.number not in self.key_lines:
                cell = line.cells[-1]
                legend = read_legend(lattice, Line(line.number, cell.start, cell.end, (cell,)))
                if legend is not None:
                    self.cell_legends[line.number] = legend, cell
        self.used_legends: set[int] = set()
        self.used_cells: list[Cell] = []
        self._headish: dict[int, bool] = {}

    # rows ------------------------------------------------------------------------------------------------------------

    def ruled(self, line: Line) -> bool:
        """A line drawn with dashes, or an empty one."""
        return all(p.text in "-_=|+*." for p in self.pieces[line.start : line.end])

    def labelled(self, line: Line) -> tuple[tuple[str, ...], int, bool, bool] | None:
        """The label at a row's head, if a cell stands after it."""
        if line.blank:
            return None
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
        return cut(self.pieces, a, line.end, 2)

    def headish(self, line: Line) -> bool:
        """Whether the words of a line may be heads at all."""
        if line.number not in self._headish:
            got = read_heads(self.lattice, [range(line.start, line.end)], self.keys)
            self._headish[line.number] = sum(len(c.unknown) for c in got) <= 3 and any(c.what or c.place or c.unit or c.by_node for c in got)
        return self._headish[line.number]

    # a table under heads ---------------------------------------------------------------------------------------------

    def headed(self, at: int) -> Grid | None:
        """A table whose head begins at line `at`."""
        lines = self.lines
        first_row = at
        head: list[Line] = []
        while first_row < len(lines) and len(head) <= 4:
            line = lines[first_row]
            if line.blank or self.ruled(line):
                if not head:
                    return None
            elif head and self.is_row(line) or head and self._unlabelled_row(line, head):
                break
            elif line.number in self.legends and head and line.number not in self.key_lines and self._alone(line, head):
                pass  # a legend between head and rows
            elif line.end - line.start > _LONGEST_LINE or not self.headish(line):
                return None
            else:
                head.append(line)
            first_row += 1
        else:
            return None
        if not head or len(head) > 4 or first_row >= len(lines):
            return None
        between = [lines[k] for k in range(at, first_row) if lines[k] not in head and lines[k].number in self.legends]
        columns = head_columns(self.lattice, head, self.keys)
        if columns is None:
            return None
        grid = self._rows(columns, first_row, False)
        if grid is None:
            return None
        grid.head = [i for line in (*head, *between) for i in range(line.start, line.end)]
        grid.start, grid.first = lines[at].start, at
        for line in between:
            self._apply(self.legends[line.number], grid.columns)
            self.used_legends.add(line.number)
        return grid

    def narrow(self, at: int) -> Grid | None:
        """A table without gaps: heads and cells parted by one blank (`pl tf nd fl pd`), by commas or by drawn lines."""
        line = self.lines[at]
        if line.blank or line.end - line.start > _LONGEST_LINE:
            return None
        first_row = at + 1
        while first_row < len(self.lines) and not self.lines[first_row].blank and self.ruled(self.lines[first_row]):
            first_row += 1
        if first_row >= len(self.lines) or self.lines[first_row].blank:
            return None
        separator = self._separator([line])
        columns = self._delimited_head(line, separator) if separator is not None else None
        if columns is None:
            separator = None
            if len(line.cells) > 1 or not self.headish(line):
                return None
            columns = split_line(self.lattice, line.start, line.end, self.keys)
            if len(columns) < 3 and not (len(columns) == 2 and columns[0].label):
                return None
        grid = self._rows(columns, first_row, separator is None, separator)
        if grid is None or separator is None and 2 * sum(not row.loose for row in grid.rows) < max(2, len(grid.rows)):
            return None
        grid.head = list(range(line.start, line.end))
        grid.start, grid.first = line.start, at
        return grid

    def _alone(self, line: Line, head: Sequence[Line]) -> bool:
        """A legend that is no part of a stacked head: it stands under no head cell, or is the whole line from the left."""
        return len(line.cells) == 1 and head_columns(self.lattice, [*head, line], self.keys) is None

    def _unlabelled_row(self, line: Line, head: Sequence[Line]) -> bool:
        """A row without a label under heads without a column for it."""
        columns = head_columns(self.lattice, head, self.keys)
        if columns is None or any(c.label for c in columns) or len(columns) < 2:
            return False
        if self.headish(line):
            return False
        cells = line.cells if len(head[-1].cells) > 1 else cut(self.pieces, line.start, line.end, 1)
        return len(cells) == len(columns) and any(p.form in {"int", "dec"} for p in self.pieces[line.start : line.end])

    def _separator(self, head: Sequence[Line]) -> str | None:
        if len(head) != 1:
            return None
        texts = [p.text for p in self.pieces[head[0].start : head[0].end]]
        return next((m for m in "|,;" if texts.count(m) >= 2), None)

    def _delimited_head(self, line: Line, mark: str) -> list[Column] | None:
        columns: list[Column] = []
        for cell in cut_at(self.pieces, line.start, line.end, mark):
            got = read_heads(self.lattice, [range(cell.start, cell.end)], self.keys)
            if len(got) != 1:
                return None
            columns.append(got[0])
        known = [c for c in columns if c.known and not c.unknown]
        return columns if len(known) >= 3 or len(known) == len(columns) >= 2 and any(c.label for c in known) else None

    def _rows(self, columns: list[Column], at: int, single: bool, separator: str | None = None) -> Grid | None:
        """All rows from line `at` on."""
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
            if line.blank or self.ruled(line):
                nxt = next((x for x in lines[k + 1 : k + 3] if not x.blank and not self.ruled(x)), None)
                if nxt is None or not (self.is_row(nxt) and self._next_label(raw, nxt)):
                    break
                k += 1
                continue
            if separator is not None:
                cells = cut_at(self.pieces, line.start, line.end, separator)
                if len(cells) < 2:
                    break
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
            elif not has_label and self._bare_row(line, columns, single):
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
        for line, found, cells in raw:
            if blocks > 1:
                made = self._block_row(line, columns)
                if made is None:
                    unread.append((line.start, line.end, "the columns of this row cannot be told"))
                else:
                    rows += made
                continue
            rows.append(self._row(found, cells, columns, things, extents, single, line))
        self._lost_labels(rows)
        return Grid(columns, rows, [], raw[0][0].start, lines[last].end, at, last, unread)

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
        return column_words().cells.get(squeeze(self.lattice.original(cell.start, cell.end))) == "average" and len(line.cells) > 1

    def _continues(self, line: Line, columns: Sequence[Column]) -> bool:
        """A remark that runs over to the next line, under its own column."""
        last = columns[-1]
        if last.what not in (["note"], ["stage"]) or len(line.cells) != 1 or len(columns) < 2:
            return False
        return line.cells[0].left >= max(c.right for c in columns[:-1])

    def _bare_row(self, line: Line, columns: Sequence[Column], single: bool) -> bool:
        cells = cut(self.pieces, line.start, line.end, 1) if single else line.cells
        return len(cells) == len(columns) and any(p.form in {"int", "dec", "word"} for p in self.pieces[line.start : line.end])

    def _label_lost(self, line: Line, columns: Sequence[Column]) -> bool:
        if line.tabbed or len(line.cells) < 2 or not columns[0].label or len(columns) < 3:
            return False
        first = line.cells[0].left, line.cells[0].right
        return apart(first, (columns[0].left, columns[0].right)) > 0 and apart(first, (columns[1].left, columns[1].right)) == 0

    def _extents(self, things: Sequence[Column], raw: Sequence[tuple[Line, object, list[Cell]]], single: bool) -> list[tuple[int, int]]:
        """How far each column reaches: its head, widened by the cells of full rows."""
        out = [(c.left, c.right) for c in things]
        if single:
            return out
        for _, found, cells in raw:
            if len(cells) == len(things) and found is not None:
                wide = [(min(x[0], c.left), max(x[1], min(c.right, c.left + 24))) for x, c in zip(out, cells, strict=True)]
                if all(a[1] <= b[0] for a, b in zip(wide, wide[1:], strict=False)):
                    out = wide
        return out

    def _row(self, found: tuple[tuple[str, ...], int, bool, bool] | None, cells: list[Cell], columns: Sequence[Column],
             things: Sequence[Column], extents: list[tuple[int, int]], single: bool, line: Line) -> Row:
        has_label = any(c.label for c in columns)
        labels = found[0] if found else ()
        label = (line.start, found[1]) if found else None
        row = Row(labels, label, {}, damaged=bool(found and found[3]))
        if found is not None and not has_label and len(cells) + 1 == len(columns) and not found[2] and not single:
            row.labels, row.label = (), None  # the first figure is a value: there is no column for labels
            cells = [Cell(line.start, found[1], self.pieces[line.start].column, self.pieces[found[1] - 1].column + 1), *cells]
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
        for c, j in zip(cells, under([(c.left, c.right) for c in cells], extents), strict=True):
            if j is None:
                row.loose.append((c.start, c.end))
            else:
                row.cells.setdefault(columns.index(things[j]), []).append((c.start, c.end))
        return row

    def _delimited_row(self, cells: Sequence[Cell], columns: Sequence[Column]) -> Row:
        row = Row((), None, {})
        for c in cells:
            if c.tab >= len(columns):
                row.loose.append((c.start, c.end))
            elif columns[c.tab].label:
                found = read_label(self.lattice, c.start, c.end)
                if found is not None and found[1] == c.end:
                    row.labels, row.label = found[0], (c.start, c.end)
                else:
                    row.labels, row.label = (self.lattice.original(c.start, c.end),), (c.start, c.end)
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
            if row.labels or not a.labels or not a.labels[-1].isdigit():
                continue
            want = int(a.labels[-1]) + 1
            if b is None or (b.labels and b.labels[0].isdigit() and int(b.labels[0]) == want + 1):
                row.labels, row.damaged = (str(want),), True

    # legends -----------------------------------------------------------------------------------------------------------

    def _apply(self, legend: Column, columns: Sequence[Column]) -> bool:
        """Add what a legend says to the columns that it speaks of."""
        hit = False
        for c in columns:
            if legend.sizes and ({"pods", "seeds"} & set(c.what)) and not c.plural or set(legend.what) & set(c.what) or (
                    legend.sizes and c.measure):
                c.take(legend)
                hit = True
        return hit

    def around(self, grid: Grid) -> None:
        """Legends above and below a table, with nothing but blank lines between."""
        for step, at in ((-1, grid.first - 1), (1, grid.last + 1)):
            k, blanks = at, 0
            while 0 <= k < len(self.lines) and blanks <= 1:
                line = self.lines[k]
                if line.blank:
                    blanks += 1
                elif line.number in self.key_lines and step < 0:
                    pass
                elif line.number in self.legends and line.number not in self.used_legends and self._apply(self.legends[line.number], grid.columns):
                    self.used_legends.add(line.number)
                    blanks = 0
                else:
                    legend = self.cell_legends.get(line.number)
                    if legend is not None and self._apply(legend[0], grid.columns):
                        self.used_cells.append(legend[1])
                    break
                k += step

    # a turned table ------------------------------------------------------------------------------------------------------

    def turned(self, at: int) -> Grid | None:
        """`plant 1 2 3 4`, and under it a line for each thing: `tri 6 7 6 5`."""
        line = self.lines[at]
        found = self._turned_head(line)
        if found is None:
            return None
        head_end, labels = found
        columns: list[Column] = []
        rows = [Row((text,), (c.start, c.end), {}) for c, text in labels]
        extents = [(c.left, c.right) for c, _ in labels]
        head = list(range(line.start, head_end))
        unread: list[tuple[int, int, str]] = []
        k, last = at + 1, at
        while k < len(self.lines):
            here = self.lines[k]
            if here.blank or self.ruled(here):
                nxt = self.lines[k + 1] if k + 1 < len(self.lines) else None
                if not columns or nxt is None or nxt.blank or self._value_line(nxt, len(labels)) is None:
                    break
                k += 1
                continue
            got = self._value_line(here, len(labels))
            if got is None:
                break
            column, cells = got
            columns.append(column)
            head += column.pieces
            where = under([(c.left, c.right) for c in cells], extents, far=2)
            if len(cells) == len(labels) or len(cells) < len(labels) and None not in where:
                for c, j in zip(cells, where, strict=True):
                    rows[j or 0].cells.setdefault(len(columns) - 1, []).append((c.start, c.end))
            else:
                unread.append((cells[0].start, cells[-1].end, f"{len(cells)} figures for {len(labels)} plants"))
            last = k
            k += 1
        if not columns:
            return None
        return Grid(columns, rows, head, line.start, self.lines[last].end, at, last, unread)

    def in_order(self, at: int) -> Grid | None:
        """Lines of figures with no line of labels over them (`tf  11  12  11`, `nd  12  13  12`): plants 1, 2, 3 in order."""
        found: list[tuple[Column, list[Cell]]] = []
        k = at
        while k < len(self.lines) and not self.lines[k].blank:
            line = self.lines[k]
            n = len(found[0][1]) if found else len(line.cells) - 1
            got = self._value_line(line, n) if 3 <= n <= 40 and len(line.cells) == n + 1 else None
            if got is None or len(got[1]) != n or not all(self._plain_value(c) for c in got[1]) or len(got[0].what) != 1:
                break
            found.append(got)
            k += 1
        if len(found) < 2 or len({c.what[0] for c, _ in found}) != len(found):
            return None
        rows = [Row((str(j + 1),), None, {i: [(cells[j].start, cells[j].end)] for i, (_, cells) in enumerate(found)}, damaged=True)
                for j in range(len(found[0][1]))]
        return Grid([c for c, _ in found], rows, [i for c, _ in found for i in c.pieces], self.lines[at].start, self.lines[k - 1].end, at, k - 1)

    def _turned_head(self, line: Line) -> tuple[int, list[tuple[Cell, str]]] | None:
        if line.blank:
            return None
        named = [(c, read_label(self.lattice, c.start, c.end)) for c in line.cells]
        if len(named) >= 2 and all(f is not None and f[2] and f[1] == c.end and self.pieces[c.start].form == "word" for c, f in named):
            labels = self._labels_in_order(line.cells)
            if labels is not None:
                return line.start, labels
        for b in range(line.start + 1, min(line.start + 5, line.end)):
            got = read_heads(self.lattice, [range(line.start, b)], self.keys)
            if len(got) != 1 or not got[0].label or got[0].unknown:
                continue
            while b < line.end and self.pieces[b].text in {".", ":", "-", "#"}:
                b += 1
            labels = self._labels_in_order(cut(self.pieces, b, line.end, 1))
            if labels is not None:
                return b, labels
        return None

    def _labels_in_order(self, cells: Sequence[Cell]) -> list[tuple[Cell, str]] | None:
        labels: list[tuple[Cell, str]] = []
        for c in cells:
            found = read_label(self.lattice, c.start, c.end)
            if found is None or found[1] != c.end or len(found[0]) != 1:
                return None
            labels.append((c, found[0][0]))
        names = [n for _, n in labels]
        if len(names) < 2 or len(set(names)) != len(names):
            return None
        steps = [(int(y) - int(x)) if x.isdigit() and y.isdigit() else ord(y[0].casefold()) - ord(x[0].casefold()) for x, y in zip(names, names[1:], strict=False)]
        return labels if all(s >= 1 for s in steps) and sum(s == 1 for s in steps) >= len(steps) - 1 else None

    def _value_line(self, line: Line, n: int) -> tuple[Column, list[Cell]] | None:
        """A head, then a value for each plant: in cells with gaps, or figures and signs with single blanks."""
        if line.blank:
            return None
        heads: list[tuple[Column, int]] = []
        for b in range(line.start + 1, min(line.start + 14, line.end - 1) + 1):
            if self.pieces[b].glued and self.pieces[b].text not in {":", "-", '"'}:
                continue
            got = read_heads(self.lattice, [range(line.start, b)], self.keys)
            if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label:
                continue
            a = b
            while a < line.end and self.pieces[a].text in {":", "="}:
                a += 1
            if a < line.end:
                heads.append((got[0], a))
        for column, a in heads:
            cells = cut(self.pieces, a, line.end, 2)
            if len(cells) == n and n > 1 and not self._in_head(a):
                return column, cells
        for column, a in heads:
            cells = cut(self.pieces, a, line.end, 1)
            if len(cells) == n and all(self._plain_value(c) for c in cells):
                return column, cells
        for column, a in reversed(heads):
            cells = cut(self.pieces, a, line.end, 2)
            if 2 <= len(cells) <= n + 1 and self.pieces[a].gap >= 2:
                return column, cells
        return None

    def _in_head(self, a: int) -> bool:
        """Whether a gap of one blank only parts the head from its first value, with no colon: the head may go on."""
        return self.pieces[a].gap < 2 and self.pieces[a - 1].text not in {":", "=", "."}

    def _plain_value(self, c: Cell) -> bool:
        """A figure or a sign, no words."""
        sign = column_words().cells.get(squeeze(self.lattice.original(c.start, c.end)))
        return sign is not None or any(e.kind in {"INT", "DEC", "FRAC"} and e.end == c.end for e in self.lattice.edges[c.start]) or (
            c.end > c.start + 1 and self.pieces[c.end - 1].text == "%")

    # a legend over pairs of label and value ---------------------------------------------------------------------------------

    def pairs(self, at: int) -> Grid | None:
        """`Longest pod at upper 4 nodes, cm`, then `1:  .6     4:  .9`."""
        legend = self.legends.get(at)
        if legend is None or len(legend.what) != 1 or at in self.key_lines:
            return None
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
        if len(rows) < 2:
            return None
        column = replace(legend)
        return Grid([column], rows, list(range(self.lines[at].start, self.lines[at].end)), self.lines[at].start, self.lines[k - 1].end, at, k - 1,
                    []) if first < k else None

    def _pair_line(self, line: Line) -> list[Row] | None:
        rows: list[Row] = []
        a = line.start
        while a < line.end:
            found = read_label(self.lattice, a, line.end)
            if found is None or not (found[2] or found[1] < line.end and self.pieces[found[1]].gap >= 2) or found[1] >= line.end:
                return None
            b = found[1] + 1
            while b < line.end and not (self.pieces[b].gap >= 2 and (x := read_label(self.lattice, b, line.end)) is not None and x[2] and x[1] < line.end):
                b += 1
            rows.append(Row(found[0], (a, found[1]), {0: [(found[1], b)]}, damaged=found[3]))
            a = b
        return rows

    # the same columns again -------------------------------------------------------------------------------------------------

    def again(self, at: int, columns: list[Column]) -> Grid | None:
        """Rows of the next field under the head of the first."""
        things = [c for c in columns if not c.label]
        if not things or not any(c.label for c in columns):
            return None
        if not self.is_row(self.lines[at]):
            return None
        for line in self.lines[at : at + 2]:
            if line.blank or not self.is_row(line):
                return None
            found = self.labelled(line)
            if found is None:
                return None
            cells = self.rest_cells(line, found[1], False)
            where = under([(c.left, c.right) for c in cells], [(c.left, c.right) for c in things], far=1)
            if None in where or not cells:
                return None
        return self._rows(columns, at, False)

    # all ----------------------------------------------------------------------------------------------------------------------

    def find(self) -> list[Grid]:
        out: list[Grid] = []
        columns: list[Column] | None = None
        k = 0
        while k < len(self.lines):
            line = self.lines[k]
            if line.blank or k in self.key_lines:
                k += 1
                continue
            grid = self.turned(k) or self.in_order(k) or self.pairs(k) or self.narrow(k) or self.headed(k)
            if grid is None and columns is not None:
                grid = self.again(k, columns)
            if grid is None:
                k += 1
                continue
            if grid.columns is not columns:
                self.around(grid)
            if any(c.label for c in grid.columns):
                columns = grid.columns
            out.append(grid)
            k = grid.last + 1
        return out


__all__ = ["Finder", "Grid", "Row", "read_label"]
