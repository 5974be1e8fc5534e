"""The keys of a page: letters, signs and figures that a line explains (guide 4.21)."""

from __future__ import annotations

from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.heads import ORGANS, Column
from notesparse.observing.paper.key_meanings import number_nodes
from notesparse.observing.paper.keyed_cells import in_cells
from notesparse.observing.paper.keys import (
    colons,
    explains_a_head,
    gap_key,
    is_head_cell,
    letters_told,
    opens_key,
    read_signs,
    used_elsewhere,
)
from notesparse.observing.paper.legends import one_a_comma, read_key
from notesparse.observing.paper.letter_keys import letter_key
from notesparse.text.columns import Line


def _in_brackets(page: Page, line: Line) -> bool:
    """`(T = top two ...)`: a line in brackets that explains signs, or one with several letters in brackets."""
    first, last = page.pieces[line.start].text, page.pieces[line.end - 1].text
    equals = any(page.pieces[i].text == "=" for i in range(line.start, line.end))
    letters = sum(
        page.pieces[i].text == "(" and len(page.pieces[i + 1].text) == 1 and page.pieces[i + 2].text == ")"
        for i in range(line.start, line.end - 2)
    )
    if letters > 1 and page.pieces[line.end - 1].text == ":":
        return True  # Pod full of bean (F), half (H):
    read = any(line.start <= a < line.end for a, _, _ in page.sign_spans)
    return equals and not read and (first, last) in {("(", ")"), ("[", "]")}


def _told_of(page: Page, line: Line) -> bool:
    """Whether some part of a line was read as a key or a legend."""
    spans = [*page.sign_spans, *((c.start, c.end, -1) for c in page.keyed_cells)]
    return line.number in page.cell_legends or any(line.start <= a < line.end for a, _, _ in spans)


def take_explained(page: Page) -> None:
    for told in page.explained:
        page.signs += [s for s in told.signs if not s.figure and not (s.column is not None and s.column.label)]
        whole = told.start == page.lines[told.line].start
        page.sign_spans.append((told.start, told.end, told.line if whole else -1))
        if whole:
            page.key_lines[told.line] = ""
        for s in told.signs:
            if s.column is not None and s.column.known and not s.figure and not s.column.label:
                page.keys[s.text] = s.column
        for legend in told.legends:
            if legend.what in (["trifoliates"], ["nodes"]) and told.signs and page.figure is None:
                page.figure = legend
                page.key_used.add(told.line)
            if legend.by_node == "down" and legend.what[0] in ORGANS:
                own = set(range(told.start, told.end))
                if number_nodes(page.lattice, page.pieces[legend.pieces[0]].text, own):
                    page.key_used.add(told.line)


def take_signs(page: Page) -> None:
    told = {x.line for x in page.explained}
    for line, start, sign in letter_key(page.lattice, page.lines):
        if line.number in told:
            continue
        told.add(line.number)
        page.signs += [sign] if sign is not None else []
        page.sign_spans.append((start, line.end, line.number))
        page.key_lines[line.number] = ""
    gaps = gap_key(page.lattice, [line for line in page.lines if not line.blank])
    found = [
        (line, *read_signs(page.lattice, line))
        for line in page.lines
        if not line.blank
        and line.number not in told
        and not one_a_comma(page.lattice, line)
        and (
            any(page.pieces[i].text == "=" for i in range(line.start, line.end))
            or colons(page.lattice, line.start, line.end)
            or opens_key(page.lattice, line)
            or line in gaps
        )
    ]
    skip = {i for _, signs, _ in found for s in signs for i in range(s.at[0], s.meaning[1])}
    for line, signs, start in found:
        single = len(signs) == 1
        if (
            not signs
            or (
                single
                and signs[0].column is not None
                and signs[0].column.known
                and not (signs[0].figure or start > line.start or in_cells(page.lattice, signs[0]))
            )
            or not any(s.figure or s.suffix or used_elsewhere(page.lattice, s, skip) for s in signs)
        ):
            continue  # one thing explained on a line: read_key
        page.signs += signs
        page.sign_spans.append((start, line.end, line.number if start == line.start else -1))
        if start == line.start:
            page.key_lines[line.number] = ""
        for s in signs:
            if s.figure:
                page.figure = s.column
            elif s.column is not None and s.column.known:
                page.keys[s.text] = s.column
            elif s.column is None and not s.suffix and is_head_cell(page.lattice, *s.at):
                page.keys[s.text] = Column(["note"], codes={s.text: s.meaning})  # x over the column, and x in it


def take_keys_on_their_lines(page: Page) -> None:
    """`P = longest pod`: a line that explains one letter."""
    for line in page.lines:
        if line.number in page.key_lines or line.number in page.aside:
            continue
        key = read_key(page.lattice, line) if not line.blank else None
        if key is not None:
            page.keys[key[0]] = key[1]
            page.key_lines[line.number] = key[0]


def keys_not_understood(page: Page) -> set[int]:
    """Lines that open a key, explain letters in brackets or explain a head, and that no room could read."""
    return {
        x.number
        for x in page.lines
        if x.number not in page.key_lines
        and not x.blank
        and (
            opens_key(page.lattice, x)
            or _in_brackets(page, x)
            or letters_told(page.lattice, x)
            or (explains_a_head(page.lattice, x) and not _told_of(page, x))
        )
    } - page.legends.keys()
