"""The lines of a page closed up: each line cut out level, its wide gaps made narrow, all set under each other again.

The recogniser reads what stands alone between wide gaps badly (a figure in a column), and reads the same figure well
beside its neighbours. `Strips.place` leads back from a word of the closed-up page to its line and its place on it.
"""

from __future__ import annotations

import statistics
from collections.abc import Sequence
from typing import TYPE_CHECKING

from notesparse.lazy import dataclass
from notesparse.typed.layout import letter_width
from notesparse.typed.recognise import Word

if TYPE_CHECKING:
    from notesparse.typed.picture import Grey

GAP = 2.2
"""Letters: a gap wider than this is closed up."""

CLOSED = 1.8
"""Letters: what is left of it."""

INK = 160
"""Greys darker than this are ink on a flattened page."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A stretch of a line: from `source` on the page to `target` in the strip, `width` pixels of the page."""

    source: int
    target: float
    width: int


@dataclass(frozen=True, slots=True)
class Strip:
    """A line in the closed-up page, at [top, bottom) pixels there."""

    top: int
    bottom: int
    cuts: tuple[Cut, ...]


@dataclass(frozen=True, slots=True)
class Strips:
    """The closed-up page; `strips` are its lines, in the order of the rows that they were cut for."""

    page: Grey
    strips: tuple[Strip, ...]

    def place(self, word: Word) -> tuple[int, float, float] | None:
        """The row of a word found here, and its left and right on the page; None where no line stands."""
        for number, strip in enumerate(self.strips):
            if strip.top <= word.middle < strip.bottom and strip.cuts:
                return number, _back(strip, word.left), _back(strip, word.right)
        return None


def _back(strip: Strip, x: float) -> float:
    cut = max((c for c in strip.cuts if c.target <= x), key=lambda c: c.target, default=strip.cuts[0])
    return cut.source + min(max(x - cut.target, 0.0), float(cut.width))


def close_up(flat: Grey, rows: Sequence[Sequence[Word]]) -> Strips:
    """The page of `rows` closed up. `flat` is white paper with dark ink, the rows those found on it."""
    import numpy

    letter = letter_width([w for row in rows for w in row])
    pad = max(4, round(letter * 0.5))
    between = max(6, round(letter * 0.9))
    made, placed, y = [], [], between
    for row in rows:
        level = _level(flat, row)
        ink = (level < INK).sum(axis=0) > 0
        cuts, x = [], float(between)
        for a, b in _stretches(ink, round(GAP * letter)):
            a, b = max(0, a - pad // 2), min(level.shape[1], b + pad // 2)
            cuts.append(Cut(a, x, b - a))
            x += (b - a) + max(1.0, CLOSED * letter - pad)
        made.append((level, cuts, y))
        placed.append(Strip(y - between // 2, y + level.shape[0] + between // 2, tuple(cuts)))
        y += level.shape[0] + between
    across = max((c.target + c.width for _, cuts, _ in made for c in cuts), default=8.0)
    page = numpy.full((y + between, round(across) + between), 255, dtype=numpy.uint8)
    for level, cuts, top in made:
        for c in cuts:
            at = round(c.target)
            page[top : top + level.shape[0], at : at + c.width] = level[:, c.source : c.source + c.width]
    return Strips(page, tuple(placed))


def _level(flat: Grey, row: Sequence[Word]) -> Grey:
    """The strip of the page in which a line stands, sheared until it lies level."""
    import numpy

    tall = statistics.median(w.bottom - w.top for w in row)
    middles = [(w.left + w.right) / 2 for w in row]
    slope, level = 0.0, statistics.median(w.middle for w in row)
    if len(row) >= 4 and max(middles) - min(middles) > 8 * tall:
        slope, level = (float(v) for v in numpy.polyfit(middles, [w.middle for w in row], 1))
        slope = max(-0.05, min(0.05, slope))
        level = statistics.median(w.middle - slope * x for w, x in zip(row, middles, strict=True))
    half = round(tall * 0.5 + 0.3 * max(tall, 16))
    columns = numpy.arange(flat.shape[1])
    middle = numpy.round(level + slope * columns).astype(int)
    lines = numpy.arange(-half, half + 1)[:, None] + middle[None, :]
    inside = numpy.clip(lines, 0, flat.shape[0] - 1)
    return numpy.where((lines >= 0) & (lines < flat.shape[0]), flat[inside, columns[None, :]], 255).astype(numpy.uint8)


def _stretches(ink: object, gap: int) -> list[tuple[int, int]]:
    """Where ink stands with no gap wider than `gap` in it."""
    import numpy

    at = numpy.flatnonzero(numpy.asarray(ink))
    if not len(at):
        return []
    breaks = numpy.flatnonzero(numpy.diff(at) > gap)
    starts = [at[0], *at[breaks + 1]]
    ends = [*at[breaks], at[-1]]
    return [(int(a), int(b) + 1) for a, b in zip(starts, ends, strict=True)]
