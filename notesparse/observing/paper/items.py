"""Plants in running lines, each behind its number: `(1) 10 tri, no fl  (2) ...`, `1 - 9 trifoliate.  2 - 10, ditto.`

Each item is read like a remark about its plant (guide 4.7). A bare figure at the head of an item counts what the first
item counts (`1 - 9 trifoliate   2 - 10`).
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notesparse.language.columns import column_words
from notesparse.lazy import dataclass
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import read_label
from notesparse.observing.paper.rows import Grid, Row
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice
from notesparse.text.struck import struck_out

_FEWEST = 3  # items of a run
_LONGEST_STRIKE = 12  # pieces
_LONGEST_STOP = 5  # pieces before the first item of a line
_COUNTED = {"TRIF": "trifoliates", "NODES": "nodes"}
_ENDS = frozenset({".", ";", ",", ":"})
_NEAR = frozenset({"BY", "AT", "COMPASS", "SOMEW", "WHEREWORD", "STOP"})


@dataclass(frozen=True, slots=True)
class _Item:
    """The number `n` at pieces [start, body), and what is said of it at [body, end)."""

    n: int
    start: int
    body: int
    end: int


def find_items(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[Grid]:
    """All runs of numbered items that no table has taken."""
    out: list[Grid] = []
    for style in (_bracketed, _dashed, _closed, _dotted):
        found = [
            (i, *got) for i in range(len(lattice.pieces)) if i not in taken and (got := style(lattice, i)) is not None
        ]
        for run in _runs(lattice, found, taken):
            if style is _dotted and any(lattice.pieces[i].form == "nl" for i in range(run[0].start, run[1].start)):
                continue  # an item a line: told in prose
            out.append(_grid(lattice, lines, run))
            taken.update(range(out[-1].start, out[-1].end))
    return out


def find_beside(lattice: Lattice, lines: Sequence[Line], taken: set[int]) -> list[Grid]:
    """Labelled remarks in two or more columns: `A. 12 tf, no fl        D. 11 tf` on each line."""
    out: list[Grid] = []
    rows: list[Row] = []
    held: list[Line] = []
    for line in [*lines, None]:
        got = _beside(lattice, line) if line is not None and not taken & set(range(line.start, line.end)) else None
        if got and line is not None and (rows or len(got) > 1):
            rows += got
            held.append(line)
            continue
        labels = [label for row in rows for label in row.labels]
        if sum(len(x.cells) > 1 for x in held) > 1 and len(set(labels)) == len(labels):
            first, last = held[0], held[-1]
            place = {c.start: n for x in held for n, c in enumerate(x.cells)}
            if not _counts_on(labels):  # a. 9 tf    b. 9 tf, and under it c. 8 tf    d. do.
                rows.sort(key=lambda row: place[(row.label or (0, 0))[0]])  # down each column, then the next
            out.append(Grid([Column(["note"])], rows, [], first.start, last.end, first.number, last.number))
        rows, held = [], []
    return out


def _counts_on(labels: Sequence[str]) -> bool:
    """Whether the labels go on by one, as they stand line by line."""
    at = [int(x) if x.isdigit() else ord(x) if len(x) == 1 else 0 for x in labels]
    return all(0 < a == b - 1 for a, b in itertools.pairwise(at))


def _beside(lattice: Lattice, line: Line) -> list[Row] | None:
    """The labelled remarks of one line; None where a cell has no label of its own."""
    rows: list[Row] = []
    for c in line.cells:
        dashed = _dashed(lattice, c.start)
        if dashed is not None and dashed[1] < c.end and _remark(lattice, dashed[1], c.end):
            rows.append(Row((str(dashed[0]),), (c.start, dashed[1]), {0: [(dashed[1], c.end)]}))
            continue  # 1 - 7 t        6 - 8 t
        got = read_label(lattice, c.start, c.end)
        if got is None or got[1] >= c.end:
            return None
        marked = got[2] or lattice.pieces[got[1] - 1].text in {".", ")", ":"}
        if not marked or lattice.pieces[got[1]].glued or not _remark(lattice, got[1], c.end):
            return None
        rows.append(Row(got[0], (c.start, got[1]), {0: [(got[1], c.end)]}))
    return rows or None


def _remark(lattice: Lattice, a: int, b: int) -> bool:
    """Words about a plant, and no bare figure."""
    return b > a + 1 and any(lattice.pieces[i].form == "word" for i in range(a, b))


def _bracketed(lattice: Lattice, i: int) -> tuple[int, int] | None:
    """`(3)`: the number, and where its item begins."""
    pieces = lattice.pieces
    if pieces[i].text != "(" or i + 3 >= len(pieces) or pieces[i + 1].form != "int" or pieces[i + 2].text != ")":
        return None
    return int(pieces[i + 1].text), i + 3


def _closed(lattice: Lattice, i: int) -> tuple[int, int] | None:
    """`3)` behind a gap or a mark: a run of them that does not begin a line (those are told in prose)."""
    pieces = lattice.pieces
    if pieces[i].form != "int" or i + 2 >= len(pieces) or pieces[i + 1].text != ")" or not pieces[i + 1].glued:
        return None
    if i == 0 or pieces[i - 1].form == "nl" or not (pieces[i].gap >= 2 or pieces[i - 1].text in {":", ",", ";"}):
        return None
    return int(pieces[i].text), i + 2


def _dotted(lattice: Lattice, i: int) -> tuple[int, int] | None:
    """`3. ` at the head of a line or behind a gap: `1. V10 R2   2. V9 R1   3. do.`"""
    pieces = lattice.pieces
    if pieces[i].form != "int" or i + 2 >= len(pieces) or pieces[i + 1].text != "." or not pieces[i + 1].glued:
        return None
    if len(pieces[i].text) > 2 or pieces[i + 2].glued or pieces[i + 2].form == "nl" or pieces[i + 2].gap >= WIDE:
        return None
    head = i == 0 or pieces[i - 1].form == "nl" or pieces[i].gap >= WIDE
    return (int(pieces[i].text), i + 2) if head else None


def _dashed(lattice: Lattice, i: int) -> tuple[int, int] | None:
    """`3 - `: a number and a dash with blanks on both sides, at the head of a line or sentence or behind a gap."""
    pieces = lattice.pieces
    if pieces[i].form != "int" or i + 2 >= len(pieces) or pieces[i + 1].text != "-":
        return None
    if not (pieces[i + 1].gap and pieces[i + 2].gap) or pieces[i + 2].form == "nl":
        return None
    if (
        i > 1
        and pieces[i - 1].text == "."
        and any(
            e.kind in {"PLANT", "PLETTER", "NODOT", "HASH", "NUMBERW"} for k in (i - 2, i - 1) for e in lattice.edges[k]
        )
    ):
        return None  # pl. 1 - : the label is told by its word
    head = i == 0 or pieces[i - 1].form == "nl" or pieces[i].gap >= 2 or pieces[i - 1].text in {".", ":", ";"}
    return (int(pieces[i].text), i + 2) if head else None


def _runs(lattice: Lattice, found: Sequence[tuple[int, int, int]], taken: set[int]) -> list[list[_Item]]:
    """The items that count on from 1, each up to the next or to the end of its line."""
    runs: list[list[_Item]] = []
    run: list[_Item] = []
    for k, (start, n, body) in enumerate(found):
        nxt = found[k + 1] if k + 1 < len(found) else None
        goes_on = nxt is not None and nxt[1] == n + 1 and not _far(lattice, body, nxt[0], taken)
        end = nxt[0] if goes_on and nxt is not None else _line_end(lattice, body)
        if n == 1:
            run = [_Item(n, start, body, end)]
        elif run and n == run[-1].n + 1 and run[-1].end == start:
            run.append(_Item(n, start, body, end))
        else:
            run = []
        if run and not goes_on:
            if len(run) >= _FEWEST:
                runs.append(run)
            run = []
    return runs


def _far(lattice: Lattice, a: int, b: int, taken: set[int]) -> bool:
    """Whether more than one line end, an empty line or a table lies between."""
    ends = [i for i in range(a, b) if lattice.pieces[i].form == "nl"]
    return len(ends) > 2 or any(y == x + 1 for x, y in itertools.pairwise(ends)) or bool(taken & set(range(a, b)))


def _line_end(lattice: Lattice, a: int) -> int:
    """The end of the line, or of the next one where the line breaks off at a comma."""
    k = a
    while k < len(lattice.pieces) and not (lattice.pieces[k].form == "nl" and lattice.pieces[k - 1].text != ","):
        k += 1
    return k


def _grid(lattice: Lattice, lines: Sequence[Line], run: list[_Item]) -> Grid:
    counted = _kind_of_first(lattice, run[0])
    columns = [Column([counted]), Column(["note"])] if counted else [Column(["note"])]
    stop = _stop_before(lattice, lines, run[0].start)
    rows: list[Row] = []
    stops = [stop, *(_stop_of_its_line(lattice, lines, a, b) for a, b in itertools.pairwise(run)), None]
    for nth, item in enumerate(run):
        body, end = item.body, item.end
        stop, behind = stops[nth] or stop, stops[nth + 1]
        end = behind[0] if behind is not None else end
        while end > body and (lattice.pieces[end - 1].form == "nl" or lattice.pieces[end - 1].text in _ENDS):
            end -= 1
        row = Row((str(item.n),), (item.start, item.body), {}, stop=stop)
        figure = _figure(lattice, body, end) if counted else None
        if figure is not None:
            row.cells[0] = [(body, figure)]
            body = figure
            while body < end and lattice.pieces[body].text in _ENDS:
                body += 1
        if body < end:
            row.cells[len(columns) - 1] = [(body, end)]
        rows.append(row)
    start = stops[0][0] if stops[0] is not None else run[0].start
    return Grid(columns, rows, [], start, run[-1].end, 1, 0)


def _kind_of_first(lattice: Lattice, item: _Item) -> str | None:
    """What the figure at the head of the first item counts, where its noun stands behind it."""
    for e in lattice.edges[item.body]:
        if e.kind == "INT" and e.end < item.end:
            kinds = {x.kind for x in lattice.edges[e.end]}
            return next((_COUNTED[k] for k in _COUNTED if k in kinds), None)
    return None


def _figure(lattice: Lattice, a: int, b: int) -> int | None:
    """Where the figure at the head of an item ends, with its noun and a struck-out one before it."""
    k = a + struck_out(lattice.pieces[a : a + _LONGEST_STRIKE]).get(0, 0)
    if k >= b:
        return None
    said = max((e.end for e in lattice.edges[k] if e.kind == "INT" and e.how == "number" and e.end <= b), default=None)
    if said is None:
        return None
    k = said
    after_it = lattice.edges[k] if k < b else []
    noun = next((e.end for e in after_it if e.kind in _COUNTED and e.how == "exact"), k)
    after = lattice.pieces[noun].text if noun < b else ","
    return noun if after in _ENDS | {"and", "&", "+", "with", "but"} else None


def _stop_before(lattice: Lattice, lines: Sequence[Line], at: int) -> tuple[int, int] | None:
    """`By the lane:` before the first item of its line."""
    line = next((x for x in lines if x.start <= at < x.end), None)
    if (
        line is None
        or not 1 < at - line.start <= _LONGEST_STOP
        or not (lattice.pieces[at - 1].text in {":", "-"} or lattice.pieces[at].gap >= 2)
    ):
        return None
    a, b = line.start, at - (lattice.pieces[at - 1].text in {":", "-"})
    kinds = {e.kind for i in range(a, b) for e in lattice.edges[i]}
    if _somebodys(lattice, a, b):
        return None
    said = [lattice.at(i) for i in range(a, b) if i == a or lattice.at(i) != "place"]  # Farris place
    words = [w for word in said for w in column_words().heads.get((word,), ())]
    return (a, b) if kinds & _NEAR or any(w.means == "stop" for w in words) else None


def _stop_of_its_line(lattice: Lattice, lines: Sequence[Line], before: _Item, item: _Item) -> tuple[int, int] | None:
    """`STOP 2 well     (3)  10 trif`: the stop at the head of the item's own line."""
    got = _stop_before(lattice, lines, item.start)
    return got if got is not None and got[0] > before.start else None


def _somebodys(lattice: Lattice, a: int, b: int) -> bool:
    """`Borg's lower 9.`, `Haugen E.`: a field by its owner, and no place in one (By Borg's gate)."""
    if {e.kind for e in lattice.edges[a]} & {"BY", "AT", "STOP"}:
        return False
    strange = not lattice.known[a] and lattice.pieces[a].form == "word" and lattice.original(a, a + 1)[0].isupper()
    return strange or any(lattice.at(i) == "'s" for i in range(a, b))
