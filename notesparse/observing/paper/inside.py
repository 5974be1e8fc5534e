"""Rows whose label stands inside or at the end, or behind a stop: `stop  pl  tf  fl`, `B  P  T  N  (A)` (guide 4.21).

A stop that is written once holds for the rows under it until the next one (a merged cell, a blank cell, a ditto).
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notesparse.language.columns import column_words, squeeze
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import labels_of
from notesparse.observing.paper.rows import Grid, Row, Rows
from notesparse.text.columns import Cell, Line, cut, under

_FAR = 8  # characters that a cell may stand from its head
_LONGEST_STOP = 6  # pieces


class Inside(Rows):
    """Reads rows in which the label is not the first thing."""

    def needs_inside(self, columns: Sequence[Column]) -> bool:
        """Whether the rows under these heads have their label elsewhere than at the head, or a stop."""
        labels = [i for i, c in enumerate(columns) if c.label]
        if any(c.what == ["stop"] for c in columns):
            return len(labels) <= 1
        return len(labels) == 1 and labels[0] > 0

    def inside_rows(self, columns: list[Column], at: int, single: bool) -> Grid | None:
        """All rows from line `at` on; None where they are no rows of such a table."""
        rows: list[Row] = []
        unread: list[tuple[int, int, str]] = []
        extents = self.reach(columns, at, single)
        stop: tuple[int, int] | None = None
        k, last = at, at
        while k < len(self.lines):
            line = self.lines[k]
            if k in self.no_rows:
                break
            if line.blank or self.ruled(line):
                nxt = next((x for x in self.lines[k + 1 : k + 3] if not x.blank and not self.ruled(x)), None)
                if not rows or nxt is None or self.inside_row(nxt, columns, extents, single) is None:
                    break
                k += 1
                continue
            row = self.inside_row(line, columns, extents, single)
            if row is None:
                if not rows or len(line.cells) < 3:
                    break
                unread.append((line.start, line.end, "the columns of this row cannot be told"))
            else:
                if row.stop is not None and self._repeats(*row.stop):
                    row.stop = None
                row.stop = stop = row.stop or stop
                if not any(c.label for c in columns):
                    row.labels = (str(len(rows) + 1),)
                rows.append(row)
            last = k
            k += 1
        if not rows or len(unread) > len(rows):
            return None
        return Grid(columns, rows, [], self.lines[at].start, self.lines[last].end, at, last, unread)

    def _repeats(self, a: int, b: int) -> bool:
        """A ditto or a dash in the column of stops: the stop above holds (N is north, and no `no`)."""
        text = squeeze(self.lattice.original(a, b))
        sign = column_words().cells.get(text)
        return sign == "same" or (sign == "no" and not any(c.isalnum() for c in text))

    def _cells(self, line: Line, single: bool) -> list[Cell]:
        return cut(self.pieces, line.start, line.end, 1) if single else list(line.cells)

    def reach(self, columns: Sequence[Column], at: int, single: bool) -> list[tuple[int, int]]:
        """How far each column reaches: its head, widened by the cells of full rows."""
        out = [(c.left, c.right) for c in columns]
        for line in self.lines[at:]:
            if line.blank:
                break
            cells = self._cells(line, single)
            if len(cells) == len(columns):
                wide = [
                    (min(x[0], c.left), max(x[1], min(c.right, c.left + 24))) for x, c in zip(out, cells, strict=True)
                ]
                if all(a[1] <= b[0] for a, b in itertools.pairwise(wide)):
                    out = wide
        return out

    def inside_row(
        self, line: Line, columns: Sequence[Column], extents: list[tuple[int, int]], single: bool
    ) -> Row | None:
        cells = self._cells(line, single)
        if len(cells) < 2 or len(cells) > len(columns) + 2 or (single and len(cells) != len(columns)):
            return None
        if line.tabbed and len({c.tab for c in cells}) == len(cells):
            where: list[int | None] = [c.tab if c.tab < len(columns) else None for c in cells]
        else:
            where = under([(c.left, c.right) for c in cells], extents, far=_FAR)
        row = Row((), None, {})
        has_label = any(c.label for c in columns)
        for c, j in zip(cells, where, strict=True):
            if j is None:
                row.loose.append((c.start, c.end))
            elif columns[j].label:
                labels = labels_of(self.lattice, c.start, c.end)
                if labels is None or row.labels:
                    return None
                row.labels, row.label = labels
            elif columns[j].what == ["stop"]:
                if c.end - c.start > _LONGEST_STOP or row.stop is not None:
                    return None
                row.stop = (c.start, c.end)
            else:
                row.cells.setdefault(j, []).append((c.start, c.end))
        if (has_label and not row.labels) or not (row.cells or row.loose):
            return None
        if not has_label and row.stop is None:
            return None
        return row

    def label_at_end(self, columns: Sequence[Column], at: int) -> Column | None:
        """Labels in order behind the last head, with no head of their own: the column that they make."""
        if any(c.label for c in columns) or not columns:
            return None
        found: list[tuple[str, Cell]] = []
        for line in self.lines[at:]:
            if line.blank or self.ruled(line):
                break
            cell = line.cells[-1]
            got = labels_of(self.lattice, cell.start, cell.end)
            if len(line.cells) != len(columns) + 1 or got is None or len(got[0]) != 1:
                break
            found.append((got[0][0], cell))
        names = [n.casefold() for n, _ in found]
        if len(names) < 3 or names[0] not in {"1", "a"} or cell_left(found) < columns[-1].right:
            return None
        steps = [
            (int(y) - int(x)) if x.isdigit() and y.isdigit() else ord(y[0]) - ord(x[0])
            for x, y in itertools.pairwise(names)
        ]
        if any(s != 1 for s in steps):
            return None
        return Column(["plant"], [], cell_left(found), max(c.right for _, c in found))


def cell_left(found: Sequence[tuple[str, Cell]]) -> int:
    """Where the labels begin on their lines."""
    return min(c.left for _, c in found)
