"""Choices that look like chance and are the same in every run: numbers made from a seed."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import accumulate
from typing import Generic, TypeVar

Thing = TypeVar("Thing")

_ALL = (1 << 64) - 1


class Draw:
    """A row of numbers that follows from its seed (splitmix64: Steele, Lea and Flood 2014, section 4; constants from
    memory)."""

    def __init__(self, seed: int) -> None:
        self._state = seed & _ALL

    def number(self) -> float:
        """From 0 up to, and not with, 1."""
        self._state = (self._state + 0x9E3779B97F4A7C15) & _ALL
        z = self._state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & _ALL
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & _ALL
        return ((z ^ (z >> 31)) >> 11) / (1 << 53)

    def whole(self, low: int, high: int) -> int:
        """A whole number, both ends with it."""
        return low + int(self.number() * (high - low + 1))

    def one_of(self, some: Sequence[Thing]) -> Thing:
        return some[int(self.number() * len(some))]


class Weighted(Generic[Thing]):
    """Things to choose among, each with how often it is chosen."""

    def __init__(self, some: Sequence[tuple[Thing, float]]) -> None:
        self.things = [thing for thing, _ in some]
        self._sums = list(accumulate(weight for _, weight in some))

    def drawn(self, draw: Draw) -> Thing:
        at = bisect_right(self._sums, draw.number() * self._sums[-1])
        return self.things[min(at, len(self.things) - 1)]
