"""A printed form with the same questions behind every plant, several on a line (guide 4.19, 4.21).

`Plant one.   Trifoliates open?  8.   Next one?  still rolled.   Bloom?  none.`, and under it the same for plant two. What
a question is of is told by its words; `next one` is a leaf there, and no plant.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice

_FEWEST = 2  # lines, and questions of each
_LONGEST = 8  # pieces of a question
_ASKS = frozenset({"?", ":"})
_PARTS = frozenset({".", ",", ";", ":", "-", ")"})

_Asked = list[tuple[tuple[int, int], tuple[int, int]]]
"""The pieces of each question of a line, and of its answer."""


def find_asked_rows(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """The rows of such a form from line `at` on."""
    rows: list[Row] = []
    columns: list[Column] = []
    head: list[int] = []
    first: list[str] = []
    k = last = at
    while k < len(lines):
        if lines[k].blank:
            k += 1
            continue
        got = _row(lattice, lines[k])
        names = [lattice.original(*question).casefold() for question, _ in got[2]] if got is not None else []
        if got is None or (first and names != first) or len(set(names)) != len(names):
            break
        label, begin, asked = got
        if not first:
            first, columns = names, [_column(lattice, *question) for question, _ in asked]
        answers = {n: [answer] for n, (_, answer) in enumerate(asked) if answer[0] < answer[1]}
        rows.append(Row(label, (lines[k].start, begin), answers))
        head += [i for question, answer in asked for i in range(question[0], answer[0])]
        last, k = k, k + 1
    labels = [row.labels for row in rows]
    if not rows or len(set(labels)) != len(labels) or not any(c.known for c in columns):
        return None
    if len(rows) < _FEWEST and not any(c.what == ["top_leaf"] for c in columns):
        return None  # one plant alone is read in prose, but for `next one?`, which is no plant
    if not any(lattice.at(i) == "?" for i in head):
        return None  # colons alone are read in prose
    return Grid(columns, rows, head, lines[at].start, lines[last].end, at, last)


def _row(lattice: Lattice, line: Line) -> tuple[tuple[str, ...], int, _Asked] | None:
    """The label of a line, where it ends, and two or more questions with their answers; None for anything else."""
    label = _label(lattice, line)
    if label is None:
        return None
    k = label[1]
    while k < line.end and lattice.at(k) in _PARTS:
        k += 1
    marks = [i for i in range(k, line.end) if lattice.at(i) in _ASKS]
    asked: _Asked = []
    for n, mark in enumerate(marks):
        start = asked[-1][1][1] if asked else k
        while start < mark and lattice.at(start) in _PARTS:
            start += 1
        end = line.end if n + 1 == len(marks) else _answer_ends(lattice, mark + 1, marks[n + 1])
        if end is None or not 0 < mark - start <= _LONGEST:
            return None
        asked.append(((start, mark), (mark + 1, end - (lattice.at(end - 1) == "." and end > mark + 1))))
    return (label[0], k, asked) if len(asked) >= _FEWEST else None


def _label(lattice: Lattice, line: Line) -> tuple[tuple[str, ...], int] | None:
    """`Plant 1.`, `Plant one.`: a word for a plant and its number."""
    if line.blank or not any(e.kind == "PLANT" for e in lattice.edges[line.start]):
        return None
    found = read_label(lattice, line.start, line.end)
    if found is not None:
        return found[0], found[1]
    spoken = [e for e in lattice.edges[line.start + 1] if e.kind == "INT"] if line.start + 1 < line.end else []
    return ((str(spoken[0].means),), spoken[0].end) if spoken else None


def _answer_ends(lattice: Lattice, a: int, b: int) -> int | None:
    """Where the answer that begins at piece a ends before the next question: at its stop, else at a gap."""
    stops = [i + 1 for i in range(a, b) if lattice.at(i) in {".", ";"} and i + 1 < b and lattice.pieces[i + 1].gap]
    gaps = [i for i in range(a + 1, b) if lattice.pieces[i].gap >= WIDE]
    ends = gaps or stops
    return ends[-1] if ends else None


def _column(lattice: Lattice, a: int, b: int) -> Column:
    got = read_heads(lattice, [range(a, b)], bare_measure=True)
    if len(got) == 1 and not got[0].label and got[0].known and not got[0].unknown:
        return got[0]
    return Column([], list(range(a, b)), unknown=list(range(a, b)))
