"""Cells with one blank between them: a word too long for its column stands close to the next one.

`North 40 V6  -` under `Field    V   R`, `fl   top2 3rd  none` over `pod  -    -    1/4`: where other lines have a cell that
begins at the very same place, and one more place is shared, one blank parts two cells as well.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notesparse.text.columns import WIDE
from notesparse.text.scan import Piece

_FEWEST = 2  # other lines that have a cell begin there
_NEAR = 6  # lines before and behind
_LETTERS = 3  # of a word that goes with the next one


def aligned(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces; those that begin a cell behind one blank have the gap of a cell."""
    lines = _lines(pieces)
    begun = [{pieces[i].column for i in line if pieces[i].gap >= WIDE} for line in lines]
    if sum(map(bool, begun)) <= _FEWEST:
        return list(pieces)
    out = list(pieces)
    for k, line in enumerate(lines):
        beside = [begun[n] for n in _beside(lines, k)] if begun[k] else []
        for i in line[1:] if beside else ():
            p = pieces[i]
            close = p.gap == 1 and not (_plain(p) and _plain(pieces[i - 1]))  # SWALLOW HILL: one title
            there = [others for others in beside if p.column in others] if close else []
            if len(there) >= _FEWEST and any(others & begun[k] for others in there):
                out[i] = replace(p, gap=WIDE)
    return out


def _plain(p: Piece) -> bool:
    return p.text.isalpha() and len(p.text) >= _LETTERS


def _lines(pieces: Sequence[Piece]) -> list[range]:
    """The pieces of each line."""
    ends = [i for i, p in enumerate(pieces) if p.form == "nl"]
    starts = [0, *(e + 1 for e in ends)]
    return [range(a, b) for a, b in zip(starts, [*ends, len(pieces)], strict=True)]


def _beside(lines: Sequence[range], k: int) -> list[int]:
    """The other lines of the same block, near by."""
    out: list[int] = []
    for step in (-1, 1):
        n = k + step
        while 0 <= n < len(lines) and lines[n] and abs(n - k) <= _NEAR:
            out.append(n)
            n += step
    return out
