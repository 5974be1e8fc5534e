"""Stops across and plants down: `Stop A   Stop B` over rows of a label and a cell for each stop (guide 4.7, 4.21).

What the cells say stands in them (`V9 R1`), or the key of the page says what a figure is. The same for rows of stage
codes with no plants named: `north   VC VC V1` are three plants in order.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notesparse.observing.paper.blocks import is_stop
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import labels_of
from notesparse.observing.paper.rows import Grid, Row
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Cell, Line, under
from notesparse.text.lattice import Lattice

_FEWEST = 2  # rows of a matrix, stops of its head, lines of stage codes
_FEWEST_CODES = 3
_LONGEST_NAME = 3  # pieces of a title
_LONGEST_PREFIX = 4  # pieces before the codes of a line


def find_matrix(lattice: Lattice, lines: Sequence[Line], at: int, figure: Column | None) -> Grid | None:
    """A matrix whose line of stops is line `at`."""
    head = lines[at]
    titles = list(head.cells)
    named = figure is not None and len(titles) >= _FEWEST and all(_plain_words(lattice, c) for c in titles)
    if named:
        pass  # Gate   Slough   Hill, where the key says what the figures are
    elif titles and labels_of(lattice, titles[0].start, titles[0].end) is None and not is_stop(lattice, titles[0]):
        titles = titles[1:] if _plant_head(lattice, titles[0].start, titles[0].end) else []
    if len(titles) < _FEWEST or not (named or all(is_stop(lattice, c) for c in titles)):
        return None
    rows: list[Row] = []
    k, last = at + 1, at
    while k < len(lines) and not lines[k].blank:
        cells = list(lines[k].cells)
        labels = labels_of(lattice, cells[0].start, cells[0].end)
        if labels is None or not 1 < len(cells) <= len(titles) + 1:
            break
        where = under([(c.left, c.right) for c in cells[1:]], [(c.left, c.right) for c in titles])
        if None in where or not all(_worded(lattice, c.start, c.end, figure) for c in cells[1:]):
            break
        rows += [
            Row(labels[0], labels[1], {0: [(c.start, c.end)]}, stop=(titles[j or 0].start, titles[j or 0].end))
            for c, j in zip(cells[1:], where, strict=True)
        ]
        last, k = k, k + 1
    if last - at < _FEWEST:
        return None
    column = replace(figure, pieces=[], codes=dict(figure.codes)) if figure is not None else Column(["note"])
    return Grid([column], rows, list(range(head.start, head.end)), head.start, lines[last].end, at, last)


def find_unlabelled(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """Remarks about plants under titles of stops, a plant on each line: they are numbered down each column."""
    titles = list(lines[at].cells)
    if len(titles) < _FEWEST or not all(is_stop(lattice, c) for c in titles):
        return None
    rows: list[Row] = []
    k = at + 1
    while k < len(lines) and not lines[k].blank:
        cells = list(lines[k].cells)
        where = under([(c.left, c.right) for c in cells], [(c.left, c.right) for c in titles])
        if len(cells) > len(titles) or None in where or not all(_counting(lattice, c.start, c.end) for c in cells):
            break
        n = str(k - at)
        rows += [
            Row((n,), None, {0: [(c.start, c.end)]}, stop=(titles[j or 0].start, titles[j or 0].end))
            for c, j in zip(cells, where, strict=True)
        ]
        k += 1
    if k - at <= _FEWEST:
        return None
    head = lines[at]
    return Grid([Column(["note"])], rows, list(range(head.start, head.end)), head.start, lines[k - 1].end, at, k - 1)


def _plain_words(lattice: Lattice, c: Cell) -> bool:
    """Words that are no head of a table: a name for a place."""
    if c.end - c.start > _LONGEST_NAME or any(lattice.pieces[i].form != "word" for i in range(c.start, c.end)):
        return False
    got = read_heads(lattice, [range(c.start, c.end)])
    return not any(x.known for x in got)


def _counting(lattice: Lattice, a: int, b: int) -> bool:
    """A remark that counts the leaves or nodes of a plant."""
    return any(e.kind in {"TRIF", "NODES"} and e.end <= b for i in range(a, b) for e in lattice.edges[i])


def _plant_head(lattice: Lattice, a: int, b: int) -> bool:
    return any(e.kind in {"PLANT", "PLETTER"} for i in range(a, b) for e in lattice.edges[i])


def _worded(lattice: Lattice, a: int, b: int, figure: Column | None) -> bool:
    return figure is not None or any(lattice.pieces[i].form == "word" for i in range(a, b))


def find_codes(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[Grid]:
    """Lines of stage codes one after the other, at least two of them: each code is a plant, in order."""
    out: list[Grid] = []
    run: list[tuple[Line, int, list[tuple[int, int]]]] = []
    for line in [*lines, None]:
        got = None if line is None or line.blank or taken & set(range(line.start, line.end)) else _codes(lattice, line)
        if got is not None and line is not None:
            run.append((line, *got))
            continue
        named = [(x.start, _name_end(lattice, x.start, a)) for x, a, _ in run if a > x.start]
        if len(run) >= _FEWEST and len(named) == len(run) and any(_of_a_field(lattice, *x) for x in named):
            for (x, _, cells), name in zip(run, named, strict=True):
                rows = [Row((str(n),), None, {0: [cell]}) for n, cell in enumerate(cells, 1)]
                out.append(Grid([Column(["stage"])], rows, [], x.start, x.end, x.number, x.number, name=name))
        elif len(run) >= _FEWEST:
            rows = [
                Row(
                    (str(n),),
                    None,
                    {0: [cell]},
                    stop=(x.start, _name_end(lattice, x.start, a)) if a > x.start else None,
                )
                for x, a, cells in run
                for n, cell in enumerate(cells, 1)
            ]
            first, last = run[0][0], run[-1][0]
            out.append(Grid([Column(["stage"])], rows, [], first.start, last.end, first.number, last.number))
        run = []
    return out


def _name_end(lattice: Lattice, a: int, b: int) -> int:
    return b - (b > a + 1 and lattice.at(b - 1) in {":", "-", "."})


def _of_a_field(lattice: Lattice, a: int, b: int) -> bool:
    """`Voight 1: R3, R3, R2`, and no `north   VC VC V1`: a word before the codes that means no place in a field."""
    plain = lattice.pieces[a].form == "word" and len(lattice.at(a)) > 1
    return plain and not lattice.known[a] and not is_stop(lattice, Cell(a, b, 0, 0))


def _codes(lattice: Lattice, line: Line) -> tuple[int, list[tuple[int, int]]] | None:
    """Where the codes of a line begin, and each of them; the line ends with them."""
    for a in range(line.start, min(line.start + _LONGEST_PREFIX + 1, line.end)):
        found: list[tuple[int, int]] = []
        k = a
        while k < line.end:
            ends = [p.end for p in phrases_at(lattice, k) if p.rule == "stage" and p.end <= line.end]
            short = [e for e in ends if e - k <= 2]
            if not short:
                break
            found.append((k, min(short)))
            k = min(short)
            while k < line.end and lattice.pieces[k].text in {",", ";"}:
                k += 1
        if k >= line.end and len(found) >= _FEWEST_CODES:
            named = (a > line.start and lattice.pieces[a].gap >= 2) or lattice.pieces[a - 1].text == ":"
            return (a, found) if a == line.start or named else None
    return None
