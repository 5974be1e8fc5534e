"""Footnotes of a page: a star behind a head or a cell, and a line `* eighths of an inch, on the four upper nodes`.

A footnote is a line that begins with a mark that stands behind a head or a figure elsewhere on the page (guide 4.21).
It adds to its head, or says what the column of a head that says nothing holds: `LEAVES *`, and `* trifoliates unrolled`.
Its words are said of that column or that plant alone, so prose never reads them.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.lazy import dataclass
from notesparse.observing.paper.heads import ORGANS, Column, read_heads
from notesparse.observing.paper.rows import Grid
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice

MARKS = frozenset({"*", "†", "‡", "^", "§"})
_MOST_STRANGE = 2  # words of a footnote that may be unknown


@dataclass(slots=True)
class Footnote:
    """The mark (`*`, `**`), its line, the pieces of its words, and how the words read as an addition to a head."""

    mark: str
    line: int
    start: int
    words: tuple[int, int]
    column: Column | None
    used: bool = False


def read_footnotes(lattice: Lattice, lines: Sequence[Line]) -> list[Footnote]:
    """The footnotes of a page: their mark stands elsewhere behind something."""
    out: list[Footnote] = []
    for line in lines:
        if line.blank or lattice.pieces[line.start].text not in MARKS:
            continue
        told = _each(lattice, line)
        if len(told) > 1 and any(lattice.at(i) == "=" for i in range(line.start, line.end)):
            continue  # * = bloom at the top node; ** = at the second: a key
        for start, end in told:
            a = start
            while a < end and lattice.pieces[a].text == lattice.pieces[start].text:
                a += 1
            mark = lattice.pieces[start].text * (a - start)
            a += a < end and lattice.pieces[a].text == "="  # * = bloom at the top node
            if end - a < 2 or not _borne(lattice, line, mark):
                continue
            got = read_heads(lattice, [range(a, end)])
            one = got[0] if len(got) == 1 and len(got[0].unknown) <= _MOST_STRANGE and _adds(got[0]) else None
            out.append(Footnote(mark, line.number, start, (a, end), one))
    return out


def _each(lattice: Lattice, line: Line) -> list[tuple[int, int]]:
    """`* bloom at the top node; ** at the second`: the footnotes of one line, parted by a semicolon, a comma or a gap before
    the next mark."""
    starts = [line.start]
    for i in range(line.start + 1, line.end - 1):
        parted = lattice.pieces[i - 1].text in {";", ","} or lattice.pieces[i].gap >= WIDE
        if parted and lattice.pieces[i].text in MARKS:
            starts.append(i)
    ends = [*(i - (lattice.pieces[i - 1].text in {";", ","}) for i in starts[1:]), line.end]
    return list(zip(starts, ends, strict=True))


def _adds(c: Column) -> bool:
    return bool(c.unit or c.place or c.by_node or c.percent or c.of or c.codes or (c.what and not c.unknown))


def _name(c: Column, told: Column, columns: Sequence[Column]) -> None:
    """`LEAVES *` and `* trifoliates unrolled`: what a head holds that says nothing itself. `NODE *` behind `POD, mm`, and
    `* counting down from the top`: the node of that pod, and no count of nodes."""
    at = next(k for k, x in enumerate(columns) if x is c)
    if told.by_node and c.what in ([], ["nodes"]):
        before = columns[at - 1].what if at else []
        organs = [w for w in told.what if w in ORGANS] or [w for w in before if w in ORGANS]
        if organs:
            c.what, c.where, c.unknown = organs, True, []
    elif not c.what and told.what and not told.unknown and not told.label:
        c.what, c.unknown = [*told.what], []


def _borne(lattice: Lattice, line: Line, mark: str) -> bool:
    """Whether something outside this line bears the mark: it stands behind a word or figure."""
    pieces = lattice.pieces
    return any(
        marked(lattice, i) == mark and i > 0 and pieces[i - 1].form != "nl"
        for i in range(len(pieces))
        if not line.start <= i < line.end
    )


def marked(lattice: Lattice, i: int) -> str:
    """The run of marks that begins at piece i; an empty string where there is none, or where it goes on from before."""
    pieces = lattice.pieces
    if pieces[i].text not in MARKS or (i and pieces[i - 1].text == pieces[i].text and pieces[i].glued):
        return ""
    k = i
    while k < len(pieces) and pieces[k].text == pieces[i].text and (k == i or pieces[k].glued):
        k += 1
    return pieces[i].text * (k - i)


def apply_footnotes(lattice: Lattice, grid: Grid, notes: Sequence[Footnote]) -> None:
    """Give the heads and the cells of a table what their footnotes say."""
    for note in notes:
        if any(note.start >= a and note.start < b for a, b in [(grid.start, grid.end)]):
            continue
        for c in grid.columns:
            if note.column is None or not any(marked(lattice, i) == note.mark for i in c.pieces):
                continue
            _name(c, note.column, grid.columns)
            c.take(note.column)
            c.measure = c.measure or note.column.measure
            note.used = True
        for row in grid.rows:
            for cells in row.cells.values():
                a, b = cells[-1]
                if b - a > len(note.mark) and marked(lattice, b - len(note.mark)) == note.mark:
                    cells[-1] = (a, b - len(note.mark))
                    row.notes.setdefault(a, note.words)
                    note.used = True
