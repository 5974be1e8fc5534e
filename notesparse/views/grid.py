"""A table of words on a plain terminal: columns aligned, empty columns left out, wide ones broken to fit."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from notesparse.views.cells import WIDTH, fit, width_of
from notesparse.views.paint import Paint, plain

_GAP = "  "
_LONGEST = 14
"""A column is not made narrower than its longest word, unless the word is longer than this."""


def grid(
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    *,
    right: frozenset[int] = frozenset(),
    indent: int = 3,
    width: int = WIDTH,
    paint: Paint = plain,
) -> list[str]:
    """Lines of a table. `right` names the columns set to the right; a column with no value in any row is left out.

    A row of one text only runs over the whole width, as a heading of the rows under it. Where even narrow columns do
    not fit, the last ones stand on a line of their own under each row.
    """
    full = [row for row in rows if len(row) > 1]
    kept = [c for c in range(len(heads)) if any(row[c] for row in full)]
    margin = " " * indent
    wide = _widths([[heads[c], *(row[c] for row in full)] for c in kept], width - indent)
    beside, below = kept[: len(wide)], kept[len(wide) :]
    to_right = [c in right for c in beside]
    lines: list[str] = []
    if any(heads):
        lines = [paint("quiet", line) for line in _row([heads[c] for c in beside], wide, to_right, margin)]
    for row in rows:
        if len(row) == 1:
            lines.append(margin + row[0])
            continue
        lines += _row([row[c] for c in beside], wide, to_right, margin)
        told = "; ".join(f"{heads[c]} {row[c]}".strip() for c in below if row[c])
        if told:
            lines += textwrap.wrap(told, width, initial_indent=margin + "  ", subsequent_indent=margin + "    ")
    return lines


def _widths(columns: list[list[str]], room: int) -> list[int]:
    """The width of each column; fewer than there are columns where the last ones have no room."""
    natural = [max(map(width_of, cells)) for cells in columns]
    words = [[word for cell in cells for word in cell.split()] for cells in columns]
    narrow = [max((min(_LONGEST, width_of(word)) for word in of_one), default=0) for of_one in words]
    if len(columns) > 1 and sum(narrow) + len(_GAP) * (len(columns) - 1) > room:
        return _widths(columns[:-1], room)
    wide = natural
    while sum(wide) + len(_GAP) * (len(wide) - 1) > room:
        widest = max(range(len(wide)), key=lambda c: (wide[c] > narrow[c], wide[c]))
        if wide[widest] <= narrow[widest]:
            break
        wide[widest] -= 1
    return wide


def _row(cells: list[str], wide: list[int], to_right: list[bool], margin: str) -> list[str]:
    broken = [
        [cell] if width_of(cell) <= w else textwrap.wrap(cell, w, break_on_hyphens=False)
        for cell, w in zip(cells, wide, strict=True)
    ]
    lines = []
    for at in range(max(len(b) for b in broken) if broken else 0):
        parts = [
            fit(b[at] if at < len(b) else "", w, right) for b, w, right in zip(broken, wide, to_right, strict=True)
        ]
        lines.append((margin + _GAP.join(parts)).rstrip())
    return lines
