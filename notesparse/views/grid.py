"""A table of words on a plain terminal: columns aligned, empty columns left out, wide ones broken to fit."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from notesparse.views.cells import WIDTH, fit, width_of
from notesparse.views.paint import Paint, plain

_GAP = "  "
_NARROWEST = 8


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

    A row of one text only runs over the whole width, as a heading of the rows under it.
    """
    full = [row for row in rows if len(row) > 1]
    kept = [c for c in range(len(heads)) if any(row[c] for row in full)]
    wide = [max([width_of(heads[c]), *(width_of(row[c]) for row in full)]) for c in kept]
    room = width - indent - len(_GAP) * (len(kept) - 1)
    while sum(wide) > room and max(wide) > _NARROWEST:
        widest = wide.index(max(wide))
        wide[widest] -= min(sum(wide) - room, wide[widest] - _NARROWEST, max(1, wide[widest] - _second(wide)))
    margin = " " * indent
    to_right = [c in right for c in kept]
    lines = _row([heads[c] for c in kept], wide, to_right, margin) if any(heads) else []
    lines = [paint("quiet", line) for line in lines]
    for row in rows:
        lines += [margin + row[0]] if len(row) == 1 else _row([row[c] for c in kept], wide, to_right, margin)
    return lines


def _second(wide: list[int]) -> int:
    return sorted(wide)[-2] if len(wide) > 1 else 0


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
