"""How much room text takes on a terminal, and how a note's lines are broken to fit it."""

from __future__ import annotations

import textwrap
import unicodedata
from collections.abc import Iterator

from notesparse.lazy import dataclass, pattern

WIDTH = 78
"""The widest line of a view, so that nothing touches the edge of 80 columns."""

_LINE_END = pattern(r"\r\n|[\r\n\f\v\x85\u2028\u2029]")
_TAB = 4


@dataclass(frozen=True, slots=True)
class Cell:
    """One code point of a note as it is shown: where it stands in the note, and how many columns it takes."""

    offset: int
    shown: str
    width: int


@dataclass(frozen=True, slots=True)
class Row:
    """One row on the screen: a line of the note (counted from 1), or a part of a long one."""

    line: int
    first: bool  # the row begins the line
    cells: tuple[Cell, ...]

    @property
    def text(self) -> str:
        return "".join(cell.shown for cell in self.cells)

    @property
    def span(self) -> tuple[int, int]:
        """The code points shown; an empty line has none."""
        return (self.cells[0].offset, self.cells[-1].offset + 1) if self.cells else (0, 0)


def width_of(text: str) -> int:
    """The columns that `text` takes: none for accents set over a letter, two for wide letters and pictures."""
    return sum(_width(character) for character in text)


def fit(text: str, width: int, right: bool = False) -> str:
    """`text` filled up with blanks to `width` columns."""
    fill = " " * max(0, width - width_of(text))
    return fill + text if right else text + fill


def fold(text: str, width: int, indent: str = "", hang: str | None = None) -> list[str]:
    """Our own sentence on lines of at most `width` columns; `hang` is the indent of the lines after the first."""
    return textwrap.wrap(
        safe(text),
        width,
        initial_indent=indent,
        subsequent_indent=indent if hang is None else hang,
        break_on_hyphens=False,
    ) or [indent.rstrip()]


def safe(text: str) -> str:
    """Words of a note on one line, with nothing in them that could steer the terminal."""
    return "".join(_shown(character) for character in " ".join(text.split()))


def line_of(text: str, offset: int) -> int:
    """The line, counted from 1, that a code point of a note stands in."""
    return 1 + sum(1 for _ in _LINE_END.finditer(text, 0, max(0, offset)))


def rows_of(text: str, width: int) -> list[Row]:
    """The lines of a note, the long ones broken at blanks; no line is changed but for tabs and control characters."""
    rows: list[Row] = []
    for number, (start, end) in enumerate(_lines(text), 1):
        cells = list(_cells(text, start, end))
        first = True
        while True:
            taken = _take(cells, width)
            rows.append(Row(number, first, tuple(_trim(cells[:taken]))))
            cells, first = cells[taken:], False
            while cells and cells[0].shown.isspace():  # the blank that a break replaces
                cells = cells[1:]
            if not cells:
                break
    return rows


def _lines(text: str) -> Iterator[tuple[int, int]]:
    start = 0
    for end in _LINE_END.finditer(text):
        yield start, end.start()
        start = end.end()
    if start < len(text) or not text:
        yield start, len(text)


def _cells(text: str, start: int, end: int) -> Iterator[Cell]:
    column = 0
    for offset in range(start, end):
        shown = " " * (_TAB - column % _TAB) if text[offset] == "\t" else _shown(text[offset])
        width = width_of(shown)
        column += width
        yield Cell(offset, shown, width)


def _take(cells: list[Cell], width: int) -> int:
    """How many cells go on this row: up to the last blank that fits, or as many as fit where there is none."""
    used = 0
    for at, cell in enumerate(cells):
        used += cell.width
        if used > width:
            blank = next((b for b in range(at, 0, -1) if cells[b].shown.isspace()), 0)
            return blank if any(not c.shown.isspace() for c in cells[:blank]) else max(1, at)
    return len(cells)


def _trim(cells: list[Cell]) -> list[Cell]:
    while cells and cells[-1].shown.isspace():
        cells.pop()
    return cells


def _shown(character: str) -> str:
    kind = unicodedata.category(character)
    if kind == "Cf":  # marks of writing direction and the like: they take no room and could reorder the line
        return ""
    return "." if kind in ("Cc", "Cs", "Zl", "Zp") else character


def _width(character: str) -> int:
    if unicodedata.category(character) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in ("W", "F") else 1
