"""What is said on standard error: remarks and faults in sentences, many of one kind cut short, and progress."""

from __future__ import annotations

import sys
from collections import Counter

_MOST = 10
"""How many remarks of one kind are shown before the rest are only counted."""


class Said:
    """Collects what was said, so that a folder of broken files does not fill the screen."""

    def __init__(self, progress: bool = False) -> None:
        self._counts: Counter[str] = Counter()
        self._progress = progress
        self._drawn = 0

    @property
    def failed(self) -> int:
        """How many inputs could not be read."""
        return self._counts["fault"]

    def say(self, kind: str, sentence: str) -> None:
        """One line, if it is not the eleventh of its kind. The kind `fault` makes the run fail."""
        self._counts[kind] += 1
        if self._counts[kind] <= _MOST:
            self.clear()
            print(sentence, file=sys.stderr)

    def step(self, done: int, of: int, name: str) -> None:
        """The one line of progress, drawn over itself; nothing where it is not wanted."""
        if not self._progress:
            return
        line = f"  {done} of {of}  {name[-50:]}"
        print("\r" + line.ljust(self._drawn), end="", file=sys.stderr, flush=True)
        self._drawn = len(line)

    def clear(self) -> None:
        """Takes the line of progress away."""
        if self._drawn:
            print("\r" + " " * self._drawn + "\r", end="", file=sys.stderr, flush=True)
            self._drawn = 0

    def close(self) -> None:
        """Says how many were left out of each kind."""
        self.clear()
        for count in self._counts.values():
            if count > _MOST:
                print(f"... and {count - _MOST} more like these.", file=sys.stderr)
