"""What a line or a cell of a page is by itself: a day, a sentence, a plant, a name in capitals."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.counting import numbered_below
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.heads import ends_sentence
from notesparse.observing.paper.row_labels import follows
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import Cell, Line
from notesparse.text.lattice import Edge, Lattice

FOUND = frozenset({"INSECT", "WEED", "DISEASE"})
_SHORT = 2  # letters of a word that may be a sign
_STOPPED = 2  # pieces of a word cut short, with its stop
LONGEST_NAME = 6  # pieces of a name between heads and rows
_UNITS = frozenset({"MM", "CM", "INCH"})
NO_PLACE = frozenset({"TRIF", "NODES", "NODE", "FLOWER", "POD", "SEED", "BROWN", "R", "V", "MONTH", "PLANT"})


def dated_cell(lattice: Lattice, c: Cell) -> bool:
    return any(
        ph.rule == "date" and ph.end == c.end and ph.form not in {"ord_day", "weekday"}
        for ph in phrases_at(lattice, c.start)
    )


def of_one_plant(page: Page, line: Line) -> bool:
    """`4.  no pods   fl top node`, `north gate   a   9 tf   fl top node`: a label with its mark begins the line, or a
    count stands in a cell before the last."""
    label = page.labelled(line)
    if label is not None and page.pieces[label[1] - 1].text in {".", ")", ":"}:
        return True
    return any(
        e.kind in {"TRIF", "NODES"} and e.how == "exact" and page.pieces[i - 1].form == "int"
        for cell in line.cells[:-1]
        for i in range(cell.start + 1, cell.end)
        for e in page.lattice.edges[i]
    )


def unit_among(lattice: Lattice, line: Line) -> bool:
    """`mm`, `inches`, `16ths`, behind a colon or a comma."""
    texts = [p.text for p in lattice.pieces[line.start : line.end]]
    first = next((k for k, x in enumerate(texts) if x in {":", ","}), len(texts))
    return any(x.endswith("ths") or lattice.kinds(line.start + k) & _UNITS for k, x in enumerate(texts) if k > first)


def day_among(lattice: Lattice, a: int, b: int) -> bool:
    """Whether a day in figures or with its month stands among these pieces, and ends before piece b."""
    return any(
        ph.rule == "date" and ph.end <= b and ph.form not in {"ord_day", "weekday"}
        for i in range(a, b)
        for ph in phrases_at(lattice, i)
    )


def names_a_finding(lattice: Lattice, line: Line) -> bool:
    """`bugs: bean leaf beetle, 4 in a foot of row`: an answer that names what was found."""
    if line.start + 2 >= line.end or lattice.at(line.start + 1) != ":":
        return False
    asked, *said = (
        any(e.kind in FOUND and e.how == "exact" for e in lattice.edges[i]) for i in range(line.start, line.end)
    )
    return asked and any(said)


def titled_words(lattice: Lattice, a: int, b: int) -> bool:
    """`Mill Pond`, `Hobb's Acre`: more than one word, each with its capital."""
    words = [lattice.original(i, i + 1) for i in range(a, b) if lattice.pieces[i].form == "word"]
    return len(words) > 1 and all(w[:1].isupper() or w == "'s" for w in words)


def in_capitals(lattice: Lattice, run: Sequence[int]) -> bool:
    """Words of more than two letters, all of them in capitals."""
    words = [lattice.original(i, i + 1) for i in run if lattice.pieces[i].form == "word"]
    return any(len(w) > _SHORT for w in words) and all(w.isupper() for w in words)


def names_a_side(lattice: Lattice, line: Line) -> bool:
    """`PETRUS NO.`, `Petrus So.`: the north or the south one of two fields, and no number of anything."""
    words = [i for i in range(line.start, line.end) if lattice.pieces[i].form == "word"]
    side = len(words) > 1 and lattice.pieces[words[-1]].text in {"no", "so"}
    return side and not lattice.known[words[0]] and line.end - words[-1] <= _STOPPED


def says_planted(lattice: Lattice, c: Cell) -> bool:
    found = phrases_at(lattice, c.start)
    return any(p.rule in {"planted", "emerged"} and p.end == c.end for p in found)


def says_of_a_plant(lattice: Lattice, line: Line) -> bool:
    """`plant one seeds touching`: what is said of a plant, and no head (`plant 1 2 3` is one, turned)."""
    edges = lattice.edges
    for e in edges[line.start]:
        k = e.end + 1
        if e.kind != "PLANT" or k >= line.end or lattice.pieces[e.end].form not in {"int", "word"}:
            continue
        figures = [n for n in edges[e.end] if n.kind == "INT"]
        if len(line.cells) > 1 and line.cells[0].end == k and any(n.how == "figure" for n in figures):
            if any(n.kind == "TRIF" for n in _behind_a_figure(lattice, line.cells[1].start)):
                return True  # plant I     1O tri.
        if not any(n.how in {"number", "exact"} for n in figures):
            continue
        if lattice.pieces[k].form == "word" or _said_behind_a_comma(lattice, k, line.end):
            return True
        if k + 1 < line.end and len(line.cells) == 1 and any(n.kind == "TRIF" for n in edges[k + 1]):
            return True  # plant 1 6 trifs
    return False


def _said_behind_a_comma(lattice: Lattice, k: int, end: int) -> bool:
    """`plant one, fourteen nodes, inch pods`: behind the label and a comma at piece k, and not `plant one, two, three` or
    `plant 1, plant 2`."""
    if k + 2 >= end or lattice.pieces[k].text not in {",", ":"}:
        return False
    kinds = {e.kind for e in lattice.edges[k + 1]}
    number = bool(kinds & {"INT", "DEC"})
    if number or lattice.pieces[k + 1].form != "word":
        return number and lattice.pieces[k + 2].form == "word"
    return "PLANT" not in kinds


def ends_in_a_day(lattice: Lattice, c: Cell) -> bool:
    """`21 Sept 09`, `Pencil sheets, 21 Sept 09`."""
    return any(
        ph.rule == "date" and ph.end == c.end and ph.form not in {"ord_day", "weekday"}
        for i in (c.start, *(k + 1 for k in range(c.start + 1, c.end - 1) if lattice.pieces[k].text == ","))
        for ph in phrases_at(lattice, i)
    )


def holds_a_sentence(lattice: Lattice, line: Line) -> bool:
    """`Cocklebur waist high in the draw. Beans are 34 inches tall.`: a sentence ends in it, and another begins."""
    return any(
        ends_sentence(lattice, i)
        and lattice.original(i + 1, i + 2)[:1].isupper()
        and lattice.pieces[i + 1].form == "word"
        and len(lattice.pieces[i + 1].text) > _SHORT
        and len(lattice.pieces[i - 1].text) > _SHORT
        and not lattice.original(i - 1, i)[:1].isupper()
        for i in range(line.start + 1, line.end - 2)
        if lattice.pieces[i].text == "."
    )


def opens_rows(page: Page, line: Line) -> bool:
    """`a   seed 1/8 in.` over `b   seed touching`: a row with its label, whatever its words, and no head."""
    if any(numbered_below(page.lattice, c.start) for c in line.cells[1:]):
        return True  # Lot 7     1 - no brown pods, and under it 2 - one brown pod
    below = next((x for x in page.lines[line.number + 1 : line.number + 3] if not x.blank), None)
    here, nxt = page.labelled(line), page.labelled(below) if below is not None else None
    if (
        here is not None
        and here[2]
        and not here[3]
        and (here[0][-1].isdigit() or _says_plant(page.lattice, line))
        and page.pieces[here[1]].form == "word"
    ):
        return True  # #2  no pods brown; Pl. A  pod full
    if here is None or nxt is None or not page.is_row(line):
        return False
    return follows(here[0][-1], nxt[0][0])


def _says_plant(lattice: Lattice, line: Line) -> bool:
    """`Pl. A` in one cell, and not `pl     t     n` over columns."""
    first = line.cells[0]
    return first.end - first.start > 1 and any(e.kind == "PLANT" for e in lattice.edges[line.start])


def _behind_a_figure(lattice: Lattice, at: int) -> list[Edge]:
    """What may stand behind the number at piece `at`."""
    edges = lattice.edges
    return [e for n in edges[at] if n.kind == "INT" and n.end < len(edges) for e in edges[n.end]]


def is_a_title(page: Page, line: Line) -> bool:
    """A line of words, or `HATCHERY 20   8/2/91`: a name with its number, and perhaps a day behind it."""
    if not _has_figures(page.lattice, line):
        return True
    name, *rest = line.cells
    words = page.pieces[name.start : name.end - 1]
    kinds = {e.kind for e in page.lattice.edges[name.start] if e.how == "exact"}
    named = all(p.form == "word" for p in words) and not kinds & NO_PLACE and page.labelled(line) is None
    numbered = page.pieces[name.end - 1].form == "word" or bool(words)
    return (
        named
        and numbered
        and len(words) < LONGEST_NAME
        and all(ends_in_a_day(page.lattice, c) or says_planted(page.lattice, c) for c in rest)
    )


def _has_figures(lattice: Lattice, line: Line) -> bool:
    return any(lattice.pieces[i].form in {"int", "dec", "dmy", "big"} for i in range(line.start, line.end))
