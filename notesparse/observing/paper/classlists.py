"""Plants listed class by class: `R6 - plants 1, 2, 4`, and under it `R5 - plants 3, 5` (guide 4.7, 4.16)."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.rows import Grid, Row
from notesparse.observing.paper.ticks import class_of, placed
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/classlists")
_COMMON = cue_page("shared")

_FEWEST = 2  # lines
_MOST = 60  # the highest label
_PARTS = _LISTED.words("parts")
_PLANTS = _COMMON.words("plant") | _COMMON.words("plants") | _COMMON.words("number") | {".", "no"}
_BETWEEN = _COMMON.words("and") | {";"}


_Class = tuple[tuple[int, int], list[int], bool]
"""The pieces of a class, those of its labels, and whether the word for plants stands before them."""


def find_class_lists(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[Grid]:
    """All such lists of a note; `taken` are the pieces of its tables."""
    out: list[Grid] = []
    run: list[tuple[Line, tuple[int, int], list[int], bool]] = []
    for line in [*lines, None]:
        free = line is not None and not line.blank and taken.isdisjoint(range(line.start, line.end))
        parts = _sentences(lattice, line) if free and line is not None else []
        told = [(part, _class_line(lattice, part)) for part in parts]
        if told and all(got is not None for _, got in told):
            run += [(part, *got) for part, got in told if got is not None]
            continue
        tail = [(part, *got) for part, got in _behind_the_talk(told)]
        inside = _grid(lattice, tail)
        if inside is not None:
            inside.first, inside.last = 1, 0  # a part of its line
        out += [grid for grid in (_grid(lattice, run), inside) if grid is not None]
        run = []
    return out


def _behind_the_talk(told: list[tuple[Line, _Class | None]]) -> list[tuple[Line, _Class]]:
    """`Took 12 plants. R3: 1, 2. R4: 3`: the classes at the end of a line that begins with something else."""
    tail: list[tuple[Line, _Class]] = []
    for part, got in reversed(told):
        if got is None:
            break
        tail.insert(0, (part, got))
    return tail


def _sentences(lattice: Lattice, line: Line) -> list[Line]:
    """The line, or where it holds a class a sentence (`R7 plts: 1, 4. R6: 2, 3`) each of them."""
    if _class_line(lattice, line) is not None:
        return [line]
    out: list[Line] = []
    start = line.start
    for i in range(line.start, line.end + 1):
        stop = i < line.end and (lattice.pieces[i].text in {".", ";"} or _next_class(lattice, i, line.end))
        if i == line.end or (stop and (lattice.pieces[i - 1].form == "int" or lattice.soft[i] is None)):
            if start < i:
                out.append(Line(line.number, start, i, ()))
            start = i + 1
    return out


def _next_class(lattice: Lattice, i: int, end: int) -> bool:
    """`V8: 1 3 5, V9: 2 4`: behind the comma stands another class, and its colon."""
    at = lattice.at
    return (
        at(i) == ","
        and i + 3 < end
        and at(i + 1) in {"r", "v"}
        and at(i + 2).isdigit()
        and at(i + 3) in {":", "-", "="}
    )


def _class_line(lattice: Lattice, line: Line) -> _Class | None:
    """The pieces of the class, those of its labels, and whether the word for plants stands before them."""
    ends = [
        placed(lattice, line, class_of(ph), ph.end)[1]
        for ph in phrases_at(lattice, line.start)
        if ph.end < line.end and class_of(ph) != ""
    ]
    if not ends:
        return None
    end = max(ends)
    k = end
    while k < line.end and lattice.pieces[k].text in _PARTS:
        k += 1
    parted, begin = k > end, k
    while k < line.end and lattice.pieces[k].text in _PLANTS:
        k += 1
    named = any(lattice.pieces[i].form == "word" for i in range(begin, k))
    while named and k < line.end and lattice.pieces[k].text in _PARTS:
        k += 1  # R7 plts: 1, 4
    labels: list[int] = []
    while k < line.end:
        if lattice.pieces[k].form == "int" and 0 < int(lattice.pieces[k].text) <= _MOST:
            labels.append(k)
        elif lattice.pieces[k].text not in _BETWEEN and not (k == line.end - 1 and lattice.pieces[k].text == "."):
            return None
        k += 1
    return ((line.start, end), labels, named) if labels and (parted or named) else None


def _grid(lattice: Lattice, run: Sequence[tuple[Line, tuple[int, int], list[int], bool]]) -> Grid | None:
    if len(run) < _FEWEST:
        return None
    found = [(int(lattice.pieces[i].text), i, words) for _, words, labels, _ in run for i in labels]
    numbers = sorted(n for n, _, _ in found)
    if len(set(numbers)) != len(numbers) or len(numbers) <= len(run):
        return None
    if not all(named for *_, named in run) and numbers != list(range(1, len(numbers) + 1)):
        return None  # R2: 7 may be a count
    rows = [Row((str(n),), (i, i + 1), {0: [words]}) for n, i, words in sorted(found)]
    first, last = run[0][0], run[-1][0]
    inside = {x for n, i, words in found for x in (i, *range(*words))}
    head = [i for i in range(first.start, last.end) if i not in inside and lattice.pieces[i].form != "nl"]
    return Grid([Column(["note"])], rows, head, first.start, last.end, first.number, last.number)
