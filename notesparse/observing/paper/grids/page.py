"""A page with what it says of how to read it: its keys, its legends, its footnotes, and what of them tables took."""

from __future__ import annotations

from notesparse.observing.paper.explained import find_explained
from notesparse.observing.paper.footnotes import read_footnotes
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.inside import Inside
from notesparse.observing.paper.keys import Sign
from notesparse.observing.paper.rows import Grid
from notesparse.text.columns import Cell
from notesparse.text.lattice import Lattice


class Page(Inside):
    """The lines of one note, as every room here asks of them."""

    def __init__(self, lattice: Lattice) -> None:
        super().__init__(lattice)
        self.footnotes = read_footnotes(lattice, self.lines)
        self.aside = {note.line for note in self.footnotes}  # lines that are no part of a table

        # Keys: letters, signs and figures that are explained.
        self.keys: dict[str, Column] = {}  # a letter that a key line explains
        self.key_lines: dict[int, str] = {}
        self.signs: list[Sign] = []  # what the page's key explains
        self.sign_spans: list[tuple[int, int, int]] = []  # the key's pieces with the line if it is all of it, else -1
        self.figure: Column | None = None  # what bare figures are, if the key says so
        self.explained = find_explained(lattice, self.lines)
        self.key_used: set[int] = set()  # lines of a key in sentences that told something of a column or a figure
        self.strange_keys: set[int] = set()  # lines of keys that are not understood

        # Legends: how to read a column.
        self.legends: dict[int, Column] = {}
        self.more_legends: dict[int, list[Column]] = {}  # what else a line of legends says
        self.cell_legends: dict[int, list[tuple[Column, Cell]]] = {}  # by line, from left to right
        self.keyed_cells: list[Cell] = []  # keys behind a date on their line
        self.used_legends: set[int] = set()
        self.used_cells: list[Cell] = []
        self.over_all: list[Column] = []  # legends over the first table, which hold for the tables under it too

        # Tables.
        self.heads: list[tuple[int, int]] = []  # pieces [start, end) of heads that stand apart from their rows
        self.more: list[Grid] = []  # further tables that one layout holds

        # What was looked at before.
        self.value_heads: dict[
            int, list[tuple[Column, int]]
        ] = {}  # a line -> its possible heads, and where values begin
        self.known_heads: dict[int, bool] = {}
