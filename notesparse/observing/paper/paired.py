"""Labels and signs of the key in running lines: `1 U   2 U   3 C   4 2` (guide 4.21)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.columns import squeeze
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.keys import Sign, only_a_place
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_FEWEST = 3
_BETWEEN = frozenset({",", ";", ":", "-", ".", ")", "=", "#"})
_LONGEST_SIGN = 3  # pieces


def find_paired(
    lattice: Lattice, lines: Sequence[Line], signs: Sequence[Sign], figure: Column | None, aside: set[int]
) -> list[Grid]:
    """Runs of lines that are pairs of a label and a sign from end to end."""
    told = {s.text: s.meaning for s in signs if s.column is None and not s.suffix}
    out: list[Grid] = []
    rows: list[Row] = []
    first = last = -1
    for line in [*lines, None]:
        got = _pairs(lattice, line, told, figure) if told and line is not None and line.number not in aside else None
        if got and line is not None and (not rows or int(got[0].labels[0]) > int(rows[-1].labels[0])):
            first = line.number if not rows else first
            last = line.number
            rows += got
            continue
        if len(rows) >= _FEWEST:
            column = replace(figure, pieces=[]) if figure else Column(["note"])
            column.codes = dict(told)
            column.code_organs = {s.text: s.organ for s in signs if s.organ and only_a_place(lattice, s)}
            out.append(Grid([column], rows, [], lines[first].start, lines[last].end, first, last))
        rows = []
    return out


def _pairs(lattice: Lattice, line: Line, told: dict[str, tuple[int, int]], figure: Column | None) -> list[Row] | None:
    """The pairs of one line; None where anything else stands on it."""
    pieces = lattice.pieces
    rows: list[Row] = []
    k = line.start
    while k < line.end:
        if pieces[k].form != "int" or (rows and int(pieces[k].text) != int(rows[-1].labels[0]) + 1):
            return None
        label = k
        k += 1
        while k < line.end and pieces[k].text in _BETWEEN:
            k += 1
        end = next(
            (b for b in range(min(line.end, k + _LONGEST_SIGN), k, -1) if squeeze(lattice.original(k, b)) in told), None
        )
        if end is None and figure is not None and k < line.end and pieces[k].form == "int":
            end = k + 1
        if end is None:
            return None
        rows.append(Row((pieces[label].text,), (label, k), {0: [(k, end)]}))
        k = end
        while k < line.end and pieces[k].text in _BETWEEN:
            k += 1
    return rows or None
