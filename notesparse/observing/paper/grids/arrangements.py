"""Each arrangement of a table, tried at one line in order; what else it takes of the page is noted (guide 4.21)."""

from __future__ import annotations

from notesparse.language.columns import column_words, head_tokens
from notesparse.observing.paper.asked_rows import find_asked_rows
from notesparse.observing.paper.blocks import find_blocks
from notesparse.observing.paper.coded_rows import find_coded, find_signed
from notesparse.observing.paper.dated_columns import find_dated
from notesparse.observing.paper.field_column import find_field_rows, find_names_beside
from notesparse.observing.paper.filled import find_filled
from notesparse.observing.paper.grids.headed import find_headed, find_narrow, find_titled
from notesparse.observing.paper.grids.in_order import find_in_order
from notesparse.observing.paper.grids.lines import ends_in_a_day
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.grids.pairs import find_pairs, find_pairs_beside
from notesparse.observing.paper.grids.plant_labels import labels_in_order, turned_head
from notesparse.observing.paper.grids.turned import find_turned
from notesparse.observing.paper.heads import read_heads
from notesparse.observing.paper.keyed_cells import keyed
from notesparse.observing.paper.labelled_cells import find_labelled
from notesparse.observing.paper.labelled_fields import find_labelled_fields
from notesparse.observing.paper.labelled_values import find_labelled_values
from notesparse.observing.paper.matrix import find_matrix, find_unlabelled
from notesparse.observing.paper.place_lists import find_place_lists
from notesparse.observing.paper.placed_rows import find_placed
from notesparse.observing.paper.places_down import find_places_down
from notesparse.observing.paper.plants_across import find_plants_across
from notesparse.observing.paper.rows import Grid
from notesparse.observing.paper.sheets import find_sheet
from notesparse.observing.paper.signs_under import find_signs_under
from notesparse.observing.paper.ticked import find_ticked
from notesparse.observing.paper.told_heads import find_told_heads
from notesparse.observing.paper.told_rows import find_told_rows
from notesparse.observing.paper.turned_marks import find_turned_marks
from notesparse.text.columns import Cell, Line
from notesparse.text.lattice import Lattice

_SHORT = 2  # letters of a word that may be a sign


def _take_names_beside(page: Page, at: int) -> Grid | None:
    """Fields and plants with no heads of their own; what else stands on the line of heads is read as it is."""
    grid = find_names_beside(page.lattice, page.lines, at)
    if grid is not None:
        page.heads.append((grid.head[0], grid.head[-1] + 1))
    return grid


def _take_places_down(page: Page, at: int) -> Grid | None:
    """Plants across and places down; what is counted stands over it, and apart from it."""
    head = turned_head(page, page.lines[at]) or _under_fields(page.lattice, page.lines[at])
    if head is None and len(page.lines[at].cells) == 1:  # Open trifs on each plant, and under it the plants
        at = next((k for k in range(at + 1, min(at + 3, len(page.lines))) if not page.lines[k].blank), at)
        head = turned_head(page, page.lines[at])
    grid = find_places_down(page.lattice, page.lines, at, head, page.figure)
    if grid is None:
        return None
    over = [i for i in grid.head if i < grid.start]
    told = any(a <= over[0] < b for a, b, _ in page.sign_spans) if over else True  # it is a part of the key
    page.heads += [] if told else [(over[0], over[-1] + 1)]
    grid.head = [i for i in grid.head if i >= grid.start]
    return grid


def _under_fields(lattice: Lattice, line: Line) -> tuple[int, list[tuple[Cell, str]]] | None:
    """`field   1   2   3`: the plants behind the head of the fields."""
    if len(line.cells) <= _SHORT:
        return None
    corner = line.cells[0]
    if column_words().visits.get(head_tokens(lattice.original(corner.start, corner.end))) != "field":
        return None
    labels = labels_in_order(lattice, line.cells[1:])
    return (line.cells[1].start, labels) if labels is not None else None


def _take_told_heads(page: Page, at: int) -> Grid | None:
    """Rows under a sentence that tells what their cells are of; what else stands on its line is read as it is."""
    grid = find_told_heads(page, at)
    if grid is not None:
        page.heads.append((grid.head[0], grid.head[-1] + 1))
    return grid


def _take_labelled_fields(page: Page, at: int) -> Grid | None:
    """Fields with their labelled plants, under a legend that says what is counted."""
    if len(page.lines[at].cells) <= _SHORT:
        return None
    above = next((x for x in reversed(page.lines[max(0, at - 2) : at]) if not x.blank), None)
    if above is None:
        return None
    told = page.cell_legends.get(above.number, [])
    legend = told[-1][0] if told else page.legends.get(above.number)
    head = above.cells[-1]
    if legend is None and all(ends_in_a_day(page.lattice, c) for c in above.cells[:-1]):  # Open trifoliates
        heads = read_heads(page.lattice, [range(head.start, head.end)], page.keys)
        legend = heads[0] if len(heads) == 1 and not heads[0].unknown else None
    grid = find_labelled_fields(page.lattice, page.lines, at, legend)
    if grid is not None and told:
        page.used_cells.append(told[-1][1])
    elif grid is not None and above.number in page.legends:
        page.used_legends.add(above.number)
    elif grid is not None:
        page.heads.append((head.start, head.end))
    return grid


def _take_blocks(page: Page, at: int) -> Grid | None:
    """Blocks of labels and figures side by side, if they begin here."""
    beside = next(iter(find_blocks(page.lattice, page.lines, at, page.figure)), None)
    return (
        beside
        or find_matrix(page.lattice, page.lines, at, page.figure)
        or find_unlabelled(page.lattice, page.lines, at)
    )


def arrangement_at(page: Page, k: int, first: bool) -> Grid | None:
    """The first arrangement that is there at line k; `first`: no table with labels stands above."""
    told = find_told_rows(page, k) if first else None
    return (
        told
        or find_ticked(page.lattice, page.lines, k)
        or _take_told_heads(page, k)
        or find_dated(page.lattice, page.lines, k)
        or find_plants_across(page.lattice, page.lines, k)
        or find_field_rows(page.lattice, page.lines, k)
        or _take_names_beside(page, k)
        or find_signs_under(page, k, page.signs, page.figure)
        or find_coded(page.lattice, page.lines, k, page.signs)
        or find_signed(page.lattice, page.lines, k, page.signs)
        or find_turned_marks(page.lattice, page.lines, k)
        or find_labelled(page.lattice, page.lines, k)
        or _take_labelled_fields(page, k)
        or find_placed(page.lattice, page.lines, k)
        or _take_blocks(page, k)
        or keyed(page, k, page.signs)
        or find_asked_rows(page.lattice, page.lines, k)
        or find_filled(page.lattice, page.lines, k)
        or find_sheet(page.lattice, page.lines, k)
        or find_place_lists(page.lattice, page.lines, k)
        or _take_places_down(page, k)
        or find_turned(page, k)
        or find_in_order(page, k)
        or find_labelled_values(page, k, set(page.key_lines))
        or find_pairs(page, k)
        or find_pairs_beside(page, k)
        or find_narrow(page, k)
        or find_headed(page, k)
        or find_titled(page, k)
    )
