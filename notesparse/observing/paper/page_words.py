"""Words of a page that tell nothing of plants: its number, a title over remarks, a head that is cut short."""

from __future__ import annotations

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.lazy import pattern
from notesparse.text.columns import Cell, Line
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/page_words")

_PAGE = pattern(
    r"(?:(?:notebook|fieldbook|book|bk|nb|pad|vol)\.?(?:no\.?|#)?\d{0,3},?)?"
    r"(?:page|sheet|card|pg\.?|pageno\.?)\d{1,3}(?:(?:of|/)\d{1,3})?|(?:notebook|fieldbook|book|bk|nb|pad|vol)\.?\d{0,3},?p\.?\d{1,3}"
)
_SHORT_PAGE = pattern(r"p\.\d{1,3}")
_MATURITY = _LISTED.words("maturity")


def is_page_number(lattice: Lattice, line: Line, cell: Cell) -> bool:
    """`Page 7`, `sheet 12`, `p. 31` in a line or a cell of its own: they say nothing."""
    text = squeeze(lattice.original(cell.start, cell.end)).strip("-().")
    if _PAGE.fullmatch(text):
        return True
    return len(line.cells) == 1 and _SHORT_PAGE.fullmatch(text) is not None


def is_title(lattice: Lattice, line: Line) -> bool:
    """`REMARKS` or `NOTES:` alone on a line: what follows is free words."""
    words = [lattice.pieces[i].text for i in range(line.start, line.end) if lattice.pieces[i].form == "word"]
    rest = [lattice.pieces[i].text for i in range(line.start, line.end) if lattice.pieces[i].form != "word"]
    heads = column_words().heads.get(tuple(words), ())
    return bool(words) and any(h.means == "note" for h in heads) and all(x in ":.-_=*" for x in rest)


def heads_cut_short(lattice: Lattice) -> list[tuple[int, int]]:
    """`MAT. GROUP`: the first word of the head, cut short; it is part of the head, and no name of a field."""
    pieces = lattice.pieces
    return [
        (i, i + 2)
        for i in range(len(pieces) - 2)
        if pieces[i].text in _MATURITY
        and pieces[i + 1].text == "."
        and any(e.kind == "GROUP" for e in lattice.edges[i + 2])
    ]
