"""Boxes to tick on a form: `[ ] R1   [ ] R2   [x] R3`. What stands behind an empty box is not said (guide 4.21)."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_OPEN, _CLOSE = frozenset({"[", "("}), frozenset({"]", ")"})
_TICKS = frozenset({"x", "v", "*", "✓", "✔", "✗", "√"})
_FEWEST = 2  # boxes of a line


def find_boxes(lattice: Lattice, lines: Sequence[Line]) -> list[tuple[int, int]]:
    """The pieces of boxes, and with them of the words behind the empty ones."""
    out: list[tuple[int, int]] = []
    for line in lines:
        boxes = [b for i in range(line.start, line.end) if (b := box_at(lattice, i, line.end)) is not None]
        if len(boxes) < _FEWEST or not any(ticked for _, _, ticked in boxes):
            continue
        for n, (start, end, ticked) in enumerate(boxes):
            stop = boxes[n + 1][0] if n + 1 < len(boxes) else line.end
            out.append((start, end if ticked else stop))
    return out


def box_at(lattice: Lattice, i: int, stop: int) -> tuple[int, int, bool] | None:
    """A box at piece i: where it begins and ends, and whether it is ticked."""
    if lattice.at(i) not in _OPEN:
        return None
    if i + 1 < stop and lattice.at(i + 1) in _CLOSE:
        return i, i + 2, False
    if i + 2 < stop and lattice.at(i + 1) in _TICKS and lattice.at(i + 2) in _CLOSE:
        return i, i + 3, True
    return None
