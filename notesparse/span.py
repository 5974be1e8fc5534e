"""A stretch of a note: half-open offsets in Unicode code points of the note's own text."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple


class Span(NamedTuple):
    """``[start, end)`` in code points."""

    start: int
    end: int

    def of(self, text: str) -> str:
        """The words themselves."""
        return text[self.start : self.end]

    def overlaps(self, other: tuple[int, int]) -> bool:
        """Whether the two share a character."""
        return self.start < other[1] and other[0] < self.end

    def inside(self, others: Iterable[tuple[int, int]]) -> bool:
        """Whether one of `others` holds all of it."""
        return any(start <= self.start and self.end <= end for start, end in others)

    def cover(self, other: tuple[int, int]) -> Span:
        """The smallest span that holds both."""
        return Span(min(self.start, other[0]), max(self.end, other[1]))


def cover_all(spans: Iterable[tuple[int, int]]) -> Span:
    """The smallest span that holds all of `spans` (at least one)."""
    items = list(spans)
    return Span(min(s[0] for s in items), max(s[1] for s in items))
