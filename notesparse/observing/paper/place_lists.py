"""The same plants at each of several places, their values in a row behind the place (guide 4.7, 4.21).

`trifoliates, plants 1, 2, 3 in order at each corner` over `NW   7, 8, 7   |   NE   8, 8, 9`.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.row_labels import labels_of
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import Line, cut_at
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/place_lists")

_FEWEST = 2  # places, and plants
_ROOM = 6  # lines of places
_LONGEST = 4  # pieces of a place
_PLACES = frozenset({"COMPASS", "WHEREWORD", "FIELDNOUN", "STOP", "ROWW"})


def find_place_lists(lattice: Lattice, lines: Sequence[Line], at: int) -> Grid | None:
    """Such lists, their heading on line `at`."""
    heading = _heading(lattice, lines[at])
    if heading is None:
        return None
    column, labels = heading
    rows: list[Row] = []
    k, last = at + 1, at
    while k < len(lines) and k - at <= _ROOM:
        line = lines[k]
        if line.blank or all(lattice.at(i) in {"-", "+", "_", "=", "|"} for i in range(line.start, line.end)):
            k += 1
            continue
        got = _places(lattice, line, labels)
        if got is None:
            break
        rows += got
        last, k = k, k + 1
    if len({row.stop for row in rows}) < _FEWEST:
        return None
    head = list(range(lines[at].start, lines[at].end))
    return Grid([column], rows, head, lines[at].start, lines[last].end, at, last)


_FOR_HEADING = _LISTED.words("for_heading")


def _heading(lattice: Lattice, line: Line) -> tuple[Column, list[str]] | None:
    """What is counted, up to the comma, and the plants that are named behind it, in order."""
    comma = next((i for i in range(line.start, line.end) if lattice.at(i) == ","), None)
    if line.blank or comma is None or not any(lattice.at(i) == "order" for i in range(comma, line.end)):
        return None
    got = read_heads(lattice, [range(line.start, comma)])
    if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label:
        return None
    end = next((i for i in range(comma, line.end) if lattice.at(i) in _FOR_HEADING), line.end)
    plants = labels_of(lattice, comma + 1, end) if comma + 1 < end else None
    return (got[0], list(plants[0])) if plants is not None and len(plants[0]) >= _FEWEST else None


def _places(lattice: Lattice, line: Line, labels: Sequence[str]) -> list[Row] | None:
    """`NW   7, 8, 7   |   NE   8, 8, 9`: a plant for each figure behind a place; None for anything else."""
    rows: list[Row] = []
    for part in cut_at(lattice.pieces, line.start, line.end, "|"):
        first = next((i for i in range(part.start, part.end) if lattice.pieces[i].form == "int"), part.end)
        values = [i for i in range(first, part.end) if lattice.at(i) not in {",", ";"}]
        kinds = {e.kind for i in range(part.start, first) for e in lattice.edges[i]}
        if not part.start < first <= part.start + _LONGEST or not kinds & _PLACES or len(values) != len(labels):
            return None
        if any(lattice.pieces[i].form != "int" for i in values):
            return None
        stop = (part.start, first)
        rows += [Row((name,), None, {0: [(i, i + 1)]}, stop=stop) for name, i in zip(labels, values, strict=True)]
    return rows
