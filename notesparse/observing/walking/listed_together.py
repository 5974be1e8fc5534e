"""`Plants 1 thru 4: trifs 12 12 11 13, bloom on the second node from top`: what goes on behind a list is of all its plants."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.paper.table import Table
from notesparse.observing.walking.listening import Listener

_LISTED = cue_page("walking/listed_together")

_SOME = _LISTED.words("some")


def go_on_with_the_listed(w: Listener, table: Table) -> None:
    """The plants of a list in running words are those that are spoken of, where its sentence goes on."""
    ctx, grid = w.ctx, table.grid
    if grid is None or ctx.visit is None or ctx.lattice.at(table.end) not in {",", ";"} or _of_some(w, table.end):
        return
    named = {row.label for row in grid.rows}  # plants named together: one label for all rows
    if len(grid.rows) < 2 or len(named) != 1 or None in named or any(len(row.labels) != 1 for row in grid.rows):
        return
    labels = [row.labels[0] for row in grid.rows]
    there = {p.label: p for p in ctx.visit.plants if p.label in labels and p.stop == ctx.stop and not p.dropped}
    if len(there) == len(labels):
        ctx.plants, ctx.explicit, ctx.group = [there[x] for x in labels], True, None


def _of_some(w: Listener, i: int) -> bool:
    """`trifs 12 12 11 13, one blooming`, `bloom on two of them`, `most with pods`: what follows is of some of them."""
    at, k = w.ctx.lattice.at, i + 1
    while k < len(w.ctx.use) and not w.hard_end(k):
        kinds = w.ctx.lattice.kinds(k)
        if at(k) in _SOME or "ROLLED" in kinds or ("INT" in kinds and (at(k + 1) == "of" or k == i + 1)):
            return True
        k += 1
    return False
