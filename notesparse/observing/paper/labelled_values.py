"""Plants down, a value behind each, and what it counts told once on the line above (guide 4.7, 4.21).

`Trifs on five:` over `a -- 5`, `b -- 6`, `c -- 6, top one still rolled`. Where the line above is not understood, the bare
figures are of nothing, and none of the lines is read.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.columns import column_words
from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import ORGANS, Column, read_heads
from notesparse.observing.paper.row_labels import follows, read_label
from notesparse.observing.paper.rows import Grid, Row, Rows
from notesparse.text.columns import WIDE, Cell, Line, cut
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/labelled_values")

_FEWEST = 2  # rows
_LONGEST = 10  # pieces of a head
_LONGEST_TOLD = 4 * _LONGEST  # the same with `5 plants`, `on each of the five`
_MARKS = frozenset({"-", "–", "—", "=", ":", ".", ")", ">", "…", "--"})
_ENDS = frozenset({":", "-", "–", "—", ".", ",", ";", "(", ")"})
_OF = _LISTED.words("of")
_COUNTED = frozenset({"trifoliates", "nodes"})
_BEHIND = _COMMON.words("and") | {"(", "-", ";", "but"}


def find_labelled_values(rows: Rows, at: int, key_lines: set[int]) -> Grid | None:
    """Such a list, its head on line `at`."""
    line = rows.lines[at]
    label = rows.labelled(line)
    if line.blank or at in key_lines or (label is not None and label[2]):
        return None
    told = last_sentence(rows.lattice, line)
    start = line.cells[-1].start if rows.lattice.at(line.end - 1) == ":" else line.start
    start = told[0].start if len(told) == 1 else start
    column = _head(rows.lattice, start, line.end)
    if column is None or (start == line.start and len(line.cells) > 1):
        return None
    first = at + 1
    first += first < len(rows.lines) and rows.lines[first].blank
    found = _rows(rows.lattice, rows.lines, first)
    if len(found) < _FEWEST or not _bare(rows.lattice, found[0], rows.lines[first].end):
        return None
    if column.what[0] not in _COUNTED and not all(
        _bare(rows.lattice, row, x.end) for row, x in zip(found, rows.lines[first:], strict=False)
    ):
        return None
    own = start == line.start
    last = first + len(found) - 1
    head = list(range(start, line.end))
    return Grid([column], found, head, start, rows.lines[last].end, at if own else first, last)


def last_sentence(lattice: Lattice, line: Line) -> tuple[Cell, ...]:
    """`Oct 3 '11. Pods brown, per cent:`: what is counted, told behind the title, with a colon at the line's end."""
    ends = [i for i in range(line.start, line.end - 1) if lattice.at(i) in {".", ";"}]
    stops = [i for i in ends if lattice.pieces[i].form == "mark" and lattice.soft[i] is None]
    if not stops or lattice.at(line.end - 1) != ":":
        return ()
    return tuple(cut(lattice.pieces, stops[-1] + 1, line.end, WIDE))


def _head(lattice: Lattice, a: int, b: int) -> Column | None:
    """What is counted, without `on five`, `5 plants` and the colon."""
    while b > a and lattice.at(b - 1) in _ENDS:
        b -= 1
    if b - a > _LONGEST_TOLD:
        return None
    own = list(range(a, b))
    numbers = [i for i in own if any(e.kind == "INT" and e.end == i + 1 for e in lattice.edges[i])]
    for n in numbers:
        around = {lattice.at(n - 1) if n > a else "", lattice.at(n + 1) if n + 1 < b else ""}
        if around & (_OF - {"the", "in", "at", ","}):
            own = [i for i in own if i != n]
    while own and lattice.at(own[-1]) in _OF:
        own.pop()
    while own and lattice.at(own[0]) in _OF:
        own.pop(0)
    own = [i for i in own if lattice.at(i) not in {"plants", "plts", "each"}]
    if not 0 < len(own) <= _LONGEST or any(lattice.pieces[i].form in {"dmy", "big"} for i in own):
        return None
    got = read_heads(lattice, [own])
    one = got[0] if len(got) == 1 else None
    if one is None or not one.known or one.unknown or one.label or len(one.what) != 1:
        return None
    sized = one.what[0] in ORGANS and (one.unit is not None or one.by_node is not None)
    return one if one.what[0] in _COUNTED or sized else None


def _rows(lattice: Lattice, lines: Sequence[Line], first: int) -> list[Row]:
    """The rows from line `first` on: labels that count on, each with a figure or a sign behind it."""
    out: list[Row] = []
    for line in lines[first:]:
        row = None if line.blank else _row(lattice, line)
        if row is None or (out and not follows(out[-1].labels[0], row.labels[0])):
            break
        out.append(row)
    return out if out and out[0].labels[0].casefold() in {"1", "a"} else []


def _row(lattice: Lattice, line: Line) -> Row | None:
    found = read_label(lattice, line.start, line.end)
    if found is None or len(found[0]) != 1:
        return None
    k = found[1]
    while k < line.end and lattice.at(k) in _MARKS:
        k += 1
    parted = k > found[1] or found[2] or (k < line.end and lattice.pieces[k].gap >= WIDE)
    if k >= line.end or not parted:
        return None
    end = k + 1
    if not any(e.kind in {"INT", "DEC", "FRAC"} for e in lattice.edges[k]):
        sign = column_words().cell(lattice.original(k, line.end))
        if sign is None:
            return None
        end = line.end
    if end < line.end and any(
        read_label(lattice, i, line.end) for i in range(end, line.end) if lattice.pieces[i].gap >= WIDE
    ):
        return None  # 1:  .6      3:  .9: the next plant on the same line
    behind = end >= line.end or lattice.at(end) in _BEHIND or lattice.pieces[end].gap >= WIDE or lattice.at(end) == "/"
    return Row(found[0], (line.start, k), {0: [(k, line.end)]}, damaged=found[3]) if behind else None


def _bare(lattice: Lattice, row: Row, end: int) -> bool:
    """Whether a row has a figure or a sign, and no word."""
    a = row.cells[0][0][0]
    alone = all(lattice.pieces[i].form != "word" for i in range(a, end))
    return alone or column_words().cell(lattice.original(a, end)) is not None


def values_of_nothing(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> set[int]:
    """Lines of labels with bare figures behind them, under a line of words that is no head: nobody can tell what they count."""
    out: set[int] = set()
    for n, line in enumerate(lines[:-1]):
        if line.blank or n in taken or n in out or lattice.at(line.end - 1) not in {":", "-"}:
            continue
        found = _rows(lattice, lines, n + 1)
        own = range(n + 1, n + 1 + len(found))
        if len(found) > _FEWEST and taken.isdisjoint(own) and _bare(lattice, found[0], lines[n + 1].end):
            told = any(e.kind in {"TRIF", "NODES"} for i in range(line.start, line.end) for e in lattice.edges[i])
            out |= set() if told else set(own)
    return out
