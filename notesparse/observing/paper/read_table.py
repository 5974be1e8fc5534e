"""What a table says, read row by row into the current visit (guide 4.21)."""

from __future__ import annotations

from notesparse.observing import organs
from notesparse.observing.fold import EVIDENCE, FILLER, UNREAD, Context
from notesparse.observing.paper.answers import read_answer
from notesparse.observing.paper.cells import Reader
from notesparse.observing.paper.counts import read_counts
from notesparse.observing.paper.grid_reading import read_grid
from notesparse.observing.paper.table import Table
from notesparse.observing.paper.ticks import read_classes


def read_table(ctx: Context, table: Table) -> None:
    """Put what a table says into the current visit of `ctx`, and account for each of its pieces."""
    pieces = ctx.lattice.pieces
    ctx.at_node = table.at_node or ctx.at_node
    if table.pod_unit is not None:
        ctx.pod_unit = table.pod_unit.mm, table.pod_unit.inches
        at = table.pod_unit.place
        ctx.pod_place = organs.place(at, ctx.span(at.start, at.end)) if at is not None else None
    if table.page:
        ctx.mark(table.start, table.end, FILLER)
        return
    if table.of_all:
        _read_of_all(ctx, table)
        return
    if table.answer is not None:
        read_answer(ctx, table.start, table.answer, Reader(ctx, {}))
        return
    for i in range(table.start, table.end):
        if pieces[i].form == "nl" or pieces[i].form == "mark" or pieces[i].text == "and":
            ctx.mark(i, i + 1, FILLER)
        else:
            ctx.mark(i, i + 1, UNREAD, "not understood in this table")
    if table.counts is not None:
        read_counts(ctx, table.counts, table.start, table.end)
    elif table.classes:
        read_classes(ctx, table.classes)
    elif table.why:
        ctx.mark(table.start, table.end, UNREAD, table.why)
    elif table.grid is not None:
        read_grid(ctx, table.grid)
    else:
        ctx.mark(table.start, table.end, EVIDENCE)
    ctx.line += sum(pieces[i].form == "nl" for i in range(table.start, table.end))
    ctx.leave_plants()
    ctx.line_labels = False
    ctx.finding = None
    ctx.tally = None


def _read_of_all(ctx: Context, table: Table) -> None:
    plants = ctx.living()
    if plants:
        ctx.plants, ctx.explicit = plants, True
    Reader(ctx, {}).walk(table.start, table.end)
    ctx.leave_plants()
