"""Rows of the next field under the head of the first, and names of fields before a head."""

from __future__ import annotations

from notesparse.observing.paper.blocks import is_stop, stop_at
from notesparse.observing.paper.grids.lines import FOUND, LONGEST_NAME, NO_PLACE, ends_in_a_day, in_capitals
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import follows
from notesparse.observing.paper.rows import Grid
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import under

_NAME_AND_HEAD = 2  # cells of a line


def find_named_again(page: Page, at: int, columns: list[Column]) -> Grid | None:
    """`GRAVEYARD RD.` alone on a line, and under it rows 1, 2 ... of the head above: the next field of the page."""
    line = page.lines[at]
    if len(line.cells) != 1 or line.end - line.start > LONGEST_NAME or at + 1 >= len(page.lines):
        return None
    found = page.labelled(page.lines[at + 1])
    if (
        not in_capitals(page.lattice, range(line.start, line.end))
        or found is None
        or found[0][0] not in {"1", "A", "a"}
    ):
        return None
    if is_stop(page.lattice, line.cells[0]):
        return None  # STOP 2
    grid = find_again(page, at + 1, columns)
    if grid is not None:
        grid.name = (line.start, line.end)
        grid.start, grid.first = line.start, at
    return grid


def take_name_before(page: Page, grid: Grid, first_of_page: bool) -> None:
    """`MILL POND      trif` over the rows of a further field, `North end   trif`: its name or the stop stands before the
    head."""
    line = next(x for x in page.lines[max(0, grid.first - 2) :] if grid.start < x.end)
    first = line.cells[0] if line.cells else None
    if first is None or grid.name is not None or len(line.cells) != _NAME_AND_HEAD or grid.start != line.cells[1].start:
        return
    if is_stop(page.lattice, first):
        for row in grid.rows:
            row.stop = row.stop or stop_at(page.lattice, first)
        grid.start, grid.head = line.start, [*range(first.start, first.end), *grid.head]
        return
    words = [page.lattice.original(i, i + 1) for i in range(first.start, first.end)]
    titled = all(w[:1].isupper() or w.isdigit() or w in {"'s", ".", "'"} for w in words) and words[0].isalpha()
    if not titled or len(words) > LONGEST_NAME or ends_in_a_day(page.lattice, first) or first_of_page:
        return
    kinds = {e.kind for e in page.lattice.edges[first.start] if e.how == "exact"}
    if kinds & (NO_PLACE | FOUND) or page.labelled(line) is not None:
        return
    grid.name = first.start, first.end
    grid.start = line.start


def find_again(
    page: Page, at: int, columns: list[Column], last: Grid | None = None, above: Grid | None = None
) -> Grid | None:
    """Rows of the next field under the head of the first; one row, where its label follows on that of the last."""
    things = [c for c in columns if not c.label]
    if not things:
        return None
    if not page.is_row(page.lines[at]):
        return None
    found = page.labelled(page.lines[at])
    if above is not None and found is not None and _another_page(page, above.last + 1, at, found[1]):
        return None
    before = next((row.labels for row in reversed(last.rows) if row.labels), ()) if last is not None else ()
    on = bool(before) and found is not None and follows(before[-1], found[0][0])
    for line in page.lines[at : at + (1 if on else 2)]:
        if line.blank or not page.is_row(line):
            return None
        found = page.labelled(line)
        if found is None:
            return None
        cells = page.rest_cells(line, found[1], False)
        where = under([(c.left, c.right) for c in cells], [(c.left, c.right) for c in things], far=1)
        if None in where or not cells:
            return None
    return page.rows_from(columns, at, False)


_DATED = "date"
_NAMED = frozenset({"trif", "flowers", "pods", "seeds", "state"})  # rules that name what is told


def _another_page(page: Page, first: int, at: int, behind: int) -> bool:
    """`8-12-09     Pecan Point` over `1)  13 trif, pods 1/2 in. 3rd node down`: a day stands between, and the row names itself
    what it tells of."""
    lattice = page.lattice

    def told(start: int, end: int) -> set[str]:
        return {p.rule for i in range(start, end) for p in phrases_at(lattice, i)}

    if not told(behind, page.lines[at].end) & _NAMED:
        return False
    return any(_DATED in told(line.start, line.end) for line in page.lines[first:at])
