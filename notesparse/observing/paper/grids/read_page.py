"""What a page says of how to read it, taken in order: keys first, which legends may use, then what neither explains."""

from __future__ import annotations

from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.page_keys import (
    keys_not_understood,
    take_explained,
    take_keys_on_their_lines,
    take_signs,
)
from notesparse.observing.paper.grids.page_legends import (
    take_legends_among_words,
    take_legends_in_last_cells,
    take_legends_on_their_lines,
)
from notesparse.text.lattice import Lattice


def read_page(lattice: Lattice) -> Page:
    page = Page(lattice)
    take_explained(page)
    take_signs(page)
    take_keys_on_their_lines(page)
    take_legends_on_their_lines(page)
    take_legends_in_last_cells(page)
    take_legends_among_words(page)
    page.strange_keys = keys_not_understood(page)
    page.no_rows = page.aside | page.key_lines.keys() | page.strange_keys
    page.used_cells = [*page.keyed_cells]
    return page
