"""The signs of a key in the cells of tables, and rows of nothing but such signs (guide 4.21).

`keys` reads the key itself.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from notesparse.language.columns import column_words, squeeze
from notesparse.observing.paper.heads import ORGANS, Column, read_heads
from notesparse.observing.paper.keys import BLANK, FEWEST_USES, LONGEST_AGAIN, LONGEST_SIGN, Sign, only_a_place
from notesparse.observing.paper.rows import Grid, Row, Rows
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice


def apply_codes(lattice: Lattice, grid: Grid, signs: Sequence[Sign]) -> set[int]:
    """Give the columns of a table the signs that stand in their cells; returns which signs are used."""
    used: set[int] = set()
    if not signs:
        return used
    _apply_suffixes(lattice, grid, [s for s in signs if s.suffix or _behind_figures(lattice, grid, s)])
    _apply_node_signs(lattice, grid, signs)
    for number, column in enumerate(grid.columns):
        if column.codes or not set(column.what) & {
            *ORGANS,
            "fill",
            "stage",
            "r",
            "v",
            "top_leaf",
            "unifoliates",
            "brown",
            "note",
            "trifoliates",
            "nodes",
        }:
            continue
        cells = {
            squeeze(lattice.original(cs[0][0], cs[-1][1]))
            for row in grid.rows
            for cs in [row.cells.get(number, [])]
            if cs
        }
        mine = {
            k
            for k, s in enumerate(signs)
            if (s.column is None or s.of is not None or _its_thing(s, column))
            and not s.suffix
            and (s.text in cells or (s.text in BLANK and s.organ in column.what))
            and _fits(lattice, s, column)
        }
        if mine:
            mine |= {k for k, s in enumerate(signs) if s.text in BLANK and s.organ is None}
        figures = any(signs[k].text.isdigit() for k in mine)
        if figures and any(c not in {s.text for s in signs} and c not in column_words().cells for c in cells):
            continue
        for k in mine:
            column.codes[signs[k].text] = signs[k].meaning
            if only_a_place(lattice, signs[k]) and signs[k].organ is not None:
                column.code_organs[signs[k].text] = signs[k].organ or ""
        if mine and column.by_node is not None:
            column.by_node = None if figures else column.by_node
        used |= mine
    return used


def in_cells(lattice: Lattice, s: Sign) -> bool:
    """`o = flower` on a line of its own, and `o` at the end of rows: what a cell says, and no head."""
    if s.column is None or not set(s.column.what) & set(ORGANS) or s.at[1] != s.at[0] + 1:
        return False
    pieces, n = lattice.pieces, len(lattice.pieces)
    ends = [i for i, p in enumerate(pieces) if p.text == s.text and (i + 1 >= n or pieces[i + 1].form == "nl")]
    return any(i > 1 and pieces[i - 1].form == "int" and not pieces[i].glued for i in ends)


def _its_thing(s: Sign, column: Column) -> bool:
    """`o = open flower` under `fl`: the sign of a thing in a cell of that thing's own column says that it is there."""
    return s.column is not None and bool(set(s.column.what) & set(column.what) & set(ORGANS))


def _apply_node_signs(lattice: Lattice, grid: Grid, signs: Sequence[Sign]) -> None:
    """`N2` under bloom, where the key says `N = node from top`."""
    for s in signs:
        if s.column is None or s.column.by_node is None or s.column.what not in ([], ["nodes"]):
            continue
        for number, column in enumerate(grid.columns):
            firsts = [row.cells[number][0][0] for row in grid.rows if row.cells.get(number)]
            borne = [a for a in firsts if lattice.pieces[a].text == s.text and lattice.pieces[a + 1].form == "int"]
            if borne and set(column.what) & set(ORGANS):
                column.by_node = column.by_node or s.column.by_node
                column.node_signs.add(s.text)


def _behind_figures(lattice: Lattice, grid: Grid, s: Sign) -> bool:
    """`9*`: a mark of the key that stands behind figures in the cells."""
    n = s.at[1] - s.at[0]
    if s.column is not None or n > LONGEST_SIGN or any(x.isalnum() for x in s.text):
        return False
    ends = [cells[-1] for row in grid.rows for cells in row.cells.values()]
    behind = [(a, b) for a, b in ends if b - a == n + 1 and squeeze(lattice.original(b - n, b)) == s.text]
    return bool(behind) and all(lattice.pieces[a].form == "int" for a, _ in behind)


def _apply_suffixes(lattice: Lattice, grid: Grid, signs: Sequence[Sign]) -> None:
    """`4+`: the sign is cut off the cell, and what the key says of it is said of the plant."""
    for row in grid.rows:
        for cells in row.cells.values():
            a, b = cells[-1]
            for s in sorted(signs, key=lambda s: s.at[0] - s.at[1]):  # ** before *
                if cells[-1] != (a, b):
                    break
                n = s.at[1] - s.at[0]
                if s.absent and s.organ is not None and lattice.pieces[a].form == "int":
                    row.without[a] = s.organ
                if b - a > n and squeeze(lattice.original(b - n, b)) == s.text:
                    row.without.pop(a, None)
                    cells[-1] = (a, b - n)
                    row.notes[a] = s.meaning


def _fits(lattice: Lattice, s: Sign, column: Column) -> bool:
    """A meaning that names a thing belongs to that thing's column alone."""
    if s.of is not None:
        return s.of in column.what
    got = read_heads(lattice, [range(*s.meaning)])
    named = {w for c in got for w in c.what} & {*ORGANS, "brown"}
    return not named or bool(named & ({"seeds"} if column.what == ["fill"] else set(column.what)))


def keyed(rows: Rows, at: int, signs: Sequence[Sign]) -> Grid | None:
    """Rows that say by signs of the key what each figure is, where the key gives a unit or a place too: `1  T 11  B 2  P 6`."""
    keys = {s.text: c for s in signs if (c := _of_its_thing(s)) is not None and s.at[1] == s.at[0] + 1}
    if len(keys) < FEWEST_USES and not any(c.by_node or c.unit or c.measure or c.place for c in keys.values()):
        return None
    columns: list[Column] = []
    names: list[str] = []
    found: list[Row] = []
    head: list[int] = []
    k = at
    while k < len(rows.lines):
        line = rows.lines[k]
        if k in rows.no_rows:
            break
        begun = _begins_signed(rows, line, keys)
        label = rows.labelled(line) if not (line.blank or begun) else None
        cells = _signed(rows, label[1], line.end, keys) if label is not None else None
        if found and label is not None and cells is None and rows.pieces[label[1] - 1].text != "=":
            row = Row(label[0], (line.start, label[1]), {}, damaged=label[3])
            if _again(rows.lattice, label[1], line.end):
                row.cells[0] = [(label[1], line.end)]
            else:  # 3  tl3 n14 among t13 n14: a row that cannot be cut is read by nobody
                row.loose, row.why = [(label[1], line.end)], "the signs of the key are not all found in this row"
            found.append(row)
            k += 1
            continue
        if label is None and (begun or (not line.blank and _sets_equal(rows, line))):
            cells = _signed(rows, line.start, line.end, keys)  # T=14 N=15, t14 n15: a plant a line
        if (label is None and (line.blank or rows.pieces[line.start].text not in keys)) or cells is None:
            break
        row = Row((), None, {})
        if label is not None:
            row = Row(label[0], (line.start, label[1]), {}, damaged=label[3])
        for i, a, b in cells:
            name = rows.pieces[i].text
            if name not in names:
                names.append(name)
                columns.append(replace(keys[name] or Column()))
            row.cells[names.index(name)] = [(a, b)]
            head.append(i)
        found.append(row)
        k += 1
    if 2 * sum(not row.loose for row in found) < max(len(found), 4):
        return None
    return Grid(columns, found, head, rows.lines[at].start, rows.lines[k - 1].end, at, k - 1)


def _of_its_thing(s: Sign) -> Column | None:
    """What a sign says of the figures behind it; `N = its node, down from the top` is the node of what the key named last."""
    if s.column is None or s.column.known or s.column.by_node is None or s.organ is None:
        return s.column if s.column is not None and s.column.known else None
    return replace(s.column, what=[s.organ], where=True)


def _begins_signed(rows: Rows, line: Line, keys: Mapping[str, Column | None]) -> bool:
    """`t12 f1 p6`: a sign of the key with its figure stuck to it, and no label, begins the line; more of them follow."""
    if line.blank or line.end - line.start < LONGEST_AGAIN:
        return False
    stuck = [
        i
        for i in range(line.start, line.end - 1)
        if rows.pieces[i].text in keys and rows.pieces[i + 1].glued and rows.pieces[i + 1].form == "int"
    ]
    return bool(stuck) and stuck[0] == line.start and len(stuck) > 1


def _sets_equal(rows: Rows, line: Line) -> bool:
    return rows.pieces[min(line.start + 1, line.end - 1)].text == "="


def _again(lattice: Lattice, a: int, b: int) -> bool:
    """`ditto`, `like 1`, and nothing else in the row."""
    if column_words().cells.get(squeeze(lattice.original(a, b))) == "same":
        return True
    texts = [lattice.pieces[i].text for i in range(a, b)]
    return texts[0] in {"as", "like", "same"} and len(texts) <= LONGEST_AGAIN


def _signed(rows: Rows, a: int, b: int, keys: Mapping[str, Column | None]) -> list[tuple[int, int, int]] | None:
    """`T 11  B 2`: (sign, where its value begins, where it ends) one after the other; None for anything else."""
    starts = [i for i in range(a, b) if rows.pieces[i].text in keys and not (i > a and rows.pieces[i].glued)]
    if a + 1 < b and rows.pieces[a + 1].text == "=":
        starts = [i for i in starts if i + 1 < b and rows.pieces[i + 1].text == "="]
    if not starts or starts[0] != a or len({rows.pieces[i].text for i in starts}) != len(starts):
        return None
    out: list[tuple[int, int, int]] = []
    for i, end in zip(starts, [*starts[1:], b], strict=True):
        first = i + 1
        while first < end and rows.pieces[first].text in "=:":
            first += 1
        while end > first and rows.pieces[end - 1].text in ",;":
            end -= 1
        own = keys[rows.pieces[i].text]
        organ = own is not None and len(own.what) == 1 and own.what[0] in ORGANS
        alone = i + 1 == b or rows.pieces[i + 1].gap >= WIDE
        if first >= end and not (organ and alone and len(starts) > 1):
            return None
        out.append((i, first, end) if first < end else (i, i, i + 1))  # b   p 12: in bloom
    return out
