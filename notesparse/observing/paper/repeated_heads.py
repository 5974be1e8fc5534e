"""The same heads twice or more on a line, parted by drawn lines or with strokes in them: rows of one table, the next part of
it beside the first, read one part after the other (guide 4.21).

`plt  t.f.  |  plt  t.f.` over `1  8  |  5  7`: plants 1 to 4 at the left and 5 to 8 at the right. Where a plant stands in two
of the parts they are of several fields or stops, and the page is read as it stands.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import read_heads
from notesparse.observing.paper.row_labels import labels_of, read_label
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/repeated_heads")

_MOST = 4  # parts of a line
_FEWEST_ROWS = 2
_SLACK = 3  # characters by which a row may begin to the left of its head
_PAD = 6  # blanks before all rows, so that none begins to the left of the first
_LABEL_HEADS = _LISTED.words("label_heads")


def find_repeated_heads(lattice: Lattice, lines: Sequence[Line]) -> list[tuple[int, int, list[tuple[int, int] | str]]]:
    """For each such table the characters that it takes, and the same as one table with its parts one after the other."""
    out: list[tuple[int, int, list[tuple[int, int] | str]]] = []
    for n, line in enumerate(lines):
        heads = _heads(lattice, line)
        if not heads or _titled(lattice, lines, n, len(heads)):
            continue
        rows: list[list[tuple[int, int]]] = []
        last = line
        for row in lines[n + 1 :]:
            parts = None if row.blank else _row(lattice, line, heads, row)
            if parts is None and not row.blank and _ruled(lattice, row):
                continue
            if parts is None:
                break
            rows.append(parts)
            last = row
        if len(rows) >= _FEWEST_ROWS and _each_once(lattice, rows):
            stretch = lattice.pieces[line.start].span.start, lattice.pieces[last.end - 1].span.end
            out.append((*stretch, _one_after_the_other(lattice, heads, rows)))
    return out


def _heads(lattice: Lattice, line: Line) -> list[tuple[int, int]]:
    """The pieces of each of the parts of a line of heads that is the same heads again and again."""
    if line.blank:
        return []
    bars = [i for i in range(line.start, line.end) if lattice.at(i) == "|"]
    own = [i for i in range(line.start, line.end) if i not in bars]
    words = [lattice.at(i) for i in own]
    if not bars and "/" not in words:
        return []
    for n in range(2, _MOST + 1):
        size = len(own) // n
        if size < 2 or size * n != len(own) or words != words[:size] * n or words[0] not in _LABEL_HEADS:
            continue
        known = read_heads(lattice, [range(own[1], own[size - 1] + 1)])
        if any(lattice.pieces[i].form in {"int", "dec", "dmy"} for i in own) or not any(c.known for c in known):
            return []
        return [(own[k * size], own[(k + 1) * size - 1] + 1) for k in range(n)]
    return []


def _titled(lattice: Lattice, lines: Sequence[Line], n: int, parts: int) -> bool:
    """Stops or fields stand over the parts."""
    if not n or lines[n - 1].blank:
        return False
    over = lines[n - 1]
    figures = any(lattice.pieces[i].form in {"int", "dmy"} for i in range(over.start, over.end))
    return len(over.cells) >= parts and not figures


def _row(lattice: Lattice, line: Line, heads: list[tuple[int, int]], row: Line) -> list[tuple[int, int]] | None:
    """The pieces of a row under each of the parts; None where it is no row of such a table."""
    bars = [i for i in range(row.start, row.end) if lattice.at(i) == "|"]
    drawn = [i for i in range(line.start, line.end) if lattice.at(i) == "|"]
    if drawn and len(bars) == len(drawn):
        parting = [max((k for k, i in enumerate(drawn) if i < a), default=-1) for a, _ in heads]
        first = [bars[k] + 1 if k >= 0 else row.start for k in parting]
    elif bars and not drawn:
        return None
    else:
        lefts = [lattice.pieces[a].column - _SLACK for a, _ in heads[1:]]
        own = list(range(row.start, row.end))
        first = [row.start, *(next((i for i in own if lattice.pieces[i].column >= x), row.end) for x in lefts)]
    out: list[tuple[int, int]] = []
    for a, b in zip(first, [*first[1:], row.end], strict=True):
        while a < b and lattice.at(a) == "|":
            a += 1
        while b > a and lattice.at(b - 1) == "|":
            b -= 1
        out.append((a, b))
    if out[0][0] == out[0][1] or any(a < b and _label(lattice, a, b) is None for a, b in out):
        return None
    return out


def _label(lattice: Lattice, a: int, b: int) -> str | None:
    """The plant that stands before one value or more."""
    got = read_label(lattice, a, b)
    if got is None or got[1] >= b or len(got[0]) != 1:
        return None
    return got[0][0] if labels_of(lattice, a, got[1]) is not None else None


def _ruled(lattice: Lattice, row: Line) -> bool:
    return all(set(lattice.at(i)) <= set("-=_+|–—") for i in range(row.start, row.end))


def _each_once(lattice: Lattice, rows: list[list[tuple[int, int]]]) -> bool:
    found = [_label(lattice, a, b) for row in rows for a, b in row if a < b]
    return len(set(found)) == len(found) and len(found) > len(rows)


def _one_after_the_other(
    lattice: Lattice, heads: list[tuple[int, int]], rows: list[list[tuple[int, int]]]
) -> list[tuple[int, int] | str]:
    """The heads once, and under them the rows of the first part, of the second, and so on, each in its column."""

    def chars(a: int, b: int) -> tuple[int, int]:
        return lattice.pieces[a].span.start, lattice.pieces[b - 1].span.end

    def spaced(a: int, b: int) -> list[tuple[int, int] | str]:
        """A label with a gap behind it, then its values."""
        got = read_label(lattice, a, b)
        end = got[1] if got is not None else a + 1
        if lattice.at(end) == "|" or lattice.pieces[end].gap >= WIDE:
            return [chars(a, b)]
        return [chars(a, end), " " * (WIDE + 1), chars(end, b)]

    parts: list[tuple[int, int] | str] = ["\n", " " * _PAD, chars(*heads[0])]
    for n, head in enumerate(heads):
        left = lattice.pieces[head[0]].column
        for row in rows:
            a, b = row[n]
            if a < b:
                aside = max(0, _PAD + lattice.pieces[a].column - left)
                parts += ["\n", " " * aside, *spaced(a, b)]
    return [*parts, "\n"]
