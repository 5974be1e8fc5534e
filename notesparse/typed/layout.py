"""Words with their places to lines of text: the gaps between words kept as blanks in proportion, so that the columns of
a table stand under each other as they do on the page."""

from __future__ import annotations

import statistics
from collections.abc import Sequence
from itertools import pairwise

from notesparse.lazy import dataclass
from notesparse.span import Span
from notesparse.typed.recognise import Word

WIDE = 1.7
"""Letters that a gap must be wide to be more than the blank between two words."""

PROSE = 40
"""Letters: a shorter line is not broken because the paper ends."""

MOST_BLANK_LINES = 2
"""Kept of a gap between lines, however high."""


@dataclass(frozen=True, slots=True)
class Laid:
    """A page as text. `spans` are the places of its words, in order, `lines` the numbers (from 0) of their lines."""

    text: str
    spans: tuple[Span, ...]
    lines: tuple[int, ...]


def lay_out(rows: Sequence[Sequence[Word]]) -> Laid:
    """The text of a page from its words, line by line, each line from left to right."""
    if not rows:
        return Laid("", (), ())
    letter = letter_width([w for row in rows for w in row])
    margin = min(row[0].left for row in rows)
    pitch = _pitch(rows)
    goes_on = _going_on(rows, letter)
    text, number = "", 0
    spans: list[Span] = []
    numbers: list[int] = []
    last: float | None = None
    for at_row, row in enumerate(rows):
        middle = statistics.median(w.middle for w in row)
        if last is not None and at_row in goes_on and round((middle - last) / pitch) <= 1:
            text += " "
            number += 1
        elif last is not None:
            blank = min(MOST_BLANK_LINES, max(0, round((middle - last) / pitch) - 1)) if pitch else 0
            text += "\n" * (1 + blank)
            number += 1 + blank
        last = middle
        begin = text.rfind("\n") + 1
        for at, word in enumerate(row):
            column = round((word.left - margin) / letter)
            if at == 0:
                text += " " * (column if column >= 2 and len(text) == begin else 0)
            elif word.left - row[at - 1].right > WIDE * letter:
                text += " " * max(2, begin + column - len(text))
            else:
                text += " "
            spans.append(Span(len(text), len(text) + len(word.text)))
            numbers.append(number)
            text += word.text
    return Laid(text + "\n", tuple(spans), tuple(numbers))


def _going_on(rows: Sequence[Sequence[Word]], letter: float) -> set[int]:
    """The lines that only go on with the line before them, which was full: prose that is broken where the paper ends.

    A line is full where the first word of the next one did not fit on it. Lines with wide gaps, and lines that begin
    with a capital, a figure or a mark, stand for themselves: such a break may mean something.
    """
    edge = max(row[-1].right for row in rows)
    out = set()
    for at, (before, row) in enumerate(pairwise(rows), 1):
        wide = any(b.left - a.right > WIDE * letter for r in (before, row) for a, b in pairwise(r))
        starts = row[0].text
        full = before[-1].right + letter + (row[0].right - row[0].left) > edge
        long = before[-1].right - before[0].left > PROSE * letter
        level = abs(before[0].left - row[0].left) < 2 * letter
        if full and long and level and not wide and starts[0].islower() and not any(c.isdigit() for c in starts):
            out.add(at)
    return out


def rows_of(words: Sequence[Word]) -> list[list[Word]]:
    """The words line by line, each from left to right: two stand on one line where their middles are within half a
    line's height."""
    if not words:
        return []
    height = statistics.median(w.bottom - w.top for w in words)
    rows: list[list[Word]] = []
    for word in sorted(words, key=lambda w: (w.middle, w.left)):
        # A page that bows is straight from one word to the next: the nearest word to the left tells the line.
        near = [r for r in rows[-4:] if abs(_level(r, word) - word.middle) < 0.6 * height]
        if near:
            min(near, key=lambda r: abs(_level(r, word) - word.middle)).append(word)
        else:
            rows.append([word])
    for row in rows:
        row.sort(key=lambda w: w.left)
    rows.sort(key=lambda r: statistics.median(w.middle for w in r))
    return rows


def _level(row: Sequence[Word], word: Word) -> float:
    """Where the line of `row` is at `word`: the middle of the word of it that is nearest sideways."""
    return min(row, key=lambda w: max(w.left - word.right, word.left - w.right)).middle


def letter_width(words: Sequence[Word]) -> float:
    """Pixels from one letter to the next, on average over the words of two letters and more."""
    long = [(w.right - w.left) / (len(w.text) - 0.2) for w in words if len(w.text) >= 3]
    wide = long or [(w.right - w.left) / max(1, len(w.text)) for w in words]
    return max(1.0, statistics.median(wide))


def _pitch(rows: Sequence[Sequence[Word]]) -> float:
    """Pixels from one line to the next where no blank line is between: the lower quarter of all such steps."""
    levels = [statistics.median(w.middle for w in row) for row in rows]
    steps = sorted(b - a for a, b in pairwise(levels))
    return steps[len(steps) // 4] if steps else 0.0
