"""Rows of numbers: where they begin, where they end, and what is no part of them."""

from __future__ import annotations

import itertools

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/counts/rows")
_COMMON = cue_page("shared")


def in_order(lattice: Lattice, p: Phrase) -> bool:
    """`plants 1, 2, 3 in order`: no inches."""
    return text(lattice, p.end - 1) == "in" and p.end > p.start + 1 and text(lattice, p.end) == "order"


def same_order(lattice: Lattice, p: Phrase) -> bool:
    """`flowers, same order: no no top`: how values are listed, and no plant as the one before."""
    return text(lattice, p.end) == "order"


def end_of_labels(lattice: Lattice, p: Phrase) -> bool:
    """`plants 1, 3, 5 fl`: the last number of a list of plants counts no flowers."""
    i, many = p.start, 0
    while i > 1 and text(lattice, i - 1) in {",", "and", "&"} and lattice.pieces[i - 2].form == "int":
        i -= 2
        many += 1
    return many > 0 and i > 0 and bool(kinds(lattice, i - 1) & {"PLANT", "PLETTER"})


def over_a_mark(lattice: Lattice, p: Phrase) -> bool:
    """`R2; 2,4 R1`, `on 1,3,5 (9 trifs each)`, `1 2 3 = 9 9 10 trifs`: no list of counts goes over such a mark, or
    begins in a stage."""
    first = lattice.pieces[p.start]
    inside = first.glued and p.start > 0 and lattice.pieces[p.start - 1].text in {"r", "v"}
    return inside or any(
        text(lattice, x) in {";", "("}
        or (text(lattice, x) in {"=", ":"} and "INT" in kinds(lattice, x - 1) and "INT" in kinds(lattice, x + 1))
        for x in range(p.start, p.end)
        if not _of_the_clock(lattice, x)
    )


def _of_the_clock(lattice: Lattice, i: int) -> bool:
    """`6:45`: hours and minutes at the colon of piece i."""
    minutes = lattice.pieces[i + 1] if i + 1 < len(lattice.pieces) else None
    return text(lattice, i) == ":" and minutes is not None and minutes.glued and len(minutes.text) == 2


def of_a_stage(lattice: Lattice, p: Phrase) -> bool:
    """`R eight thirteen one moisture`: the first number is that of a stage."""
    return bool(kinds(lattice, p.start - 1) & {"R", "V"}) and text(lattice, p.start - 1) in {"r", "v"}


def no_commas_between(lattice: Lattice, p: Phrase) -> bool:
    """`13 nodes, 13, 12, 14` goes on over commas; `9 trifs 2 10 trifs` does not."""
    return any(at > p.start + 1 and e.kind == "INT" and text(lattice, at - 1) not in {",", "and"} for at, e in p.path)


def behind_a_number(lattice: Lattice, p: Phrase) -> bool:
    """`13 | nodes, 13, 12`: the first figure stands before the noun."""
    first = p.path[0][1]
    return p.start > 0 and lattice.pieces[p.start - 1].form == "int" and text(lattice, first.end) == ","


def cuts_a_share(lattice: Lattice, p: Phrase) -> bool:
    """`trifs 9 10 9, 3/5 blooming`: a list does not take the first number of a share, nor a count its second."""
    out = text(lattice, p.end) == "out"
    behind = text(lattice, p.end + out) in {"/", "of"} and text(lattice, p.end + out + 1).isdigit()
    behind = behind or (p.form not in _COUNTS and bool(kinds(lattice, p.end) & {"PCT"}))
    behind = behind or (p.form == "sampled" and text(lattice, p.end) == "of")  # the ten flags seven of the ten are up
    before = text(lattice, p.start - 1) == "/" and text(lattice, p.start - 2).isdigit()
    return behind or (before and p.form in _COUNTS)


def plants_and_their_count(lattice: Lattice, p: Phrase) -> bool:
    """`plants 3 4 5 11 trifs`: plants, and what they have."""
    numbers = [int(e.means) for _, e in p.path if e.kind == "INT"]
    rising = all(b == a + 1 for a, b in itertools.pairwise(numbers[:-1]))
    return len(numbers) > 2 and rising and text(lattice, p.start - 1) in {"plants", "plts"}


def last_apart(lattice: Lattice, p: Phrase) -> bool:
    """`trifs 9 10 9 9 8, 3 blooming`: what stands behind the only comma of a row, before a word, is of that word."""
    marks = [x for x in range(p.start, p.end) if text(lattice, x) == ","]
    if len(marks) != 1 or marks[0] != p.end - 2 or p.end - p.start < 5:
        return False
    return p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "word"


_COUNTS = frozenset({"fl_count", "pod_count", "seed_count"})


def range_of_plants(lattice: Lattice, p: Phrase) -> bool:
    """`1-5 9 trifs`: plants one to five, and what they have."""
    return (
        p.start + 3 < p.end
        and text(lattice, p.start) == "1"
        and text(lattice, p.start + 1) == "-"
        and (lattice.pieces[p.start + 1].glued)
    )


_FOR_TOLD_BETWEEN = _COMMON.words("being_or_having")


def told_between(lattice: Lattice, p: Phrase) -> bool:
    """`plants one through three are nine eight and nine`: the numbers after the verb are others."""
    return any(
        text(lattice, x) in _FOR_TOLD_BETWEEN or (text(lattice, x) == ":" and not lattice.pieces[x + 1].glued)
        for x in range(p.start, p.end - 1)
    )


_BEFORE_ONE_OF_A_ROW = _LISTED.words("before_one_of_a_row")


def one_of_a_row(lattice: Lattice, p: Phrase) -> bool:
    """`first one seed an eighth, next one pods`: the first one, and what it bears."""
    before = lattice.pieces[p.start - 1].text if p.start else ""
    ordinal = any(e.kind == "ORD" for e in lattice.edges[p.start - 1]) if p.start else False
    return text(lattice, p.start) == "one" and (ordinal or before in _BEFORE_ONE_OF_A_ROW)


def label_and_beans(lattice: Lattice, p: Phrase) -> bool:
    """`plant 1 beans in the pods`, `1 beans in the pods` on a line: of the plant that the number names."""
    if p.path[-1][1].kind != "POD":
        return False
    opens = p.start == 0 or lattice.pieces[p.start - 1].form == "nl"
    return (opens and lattice.pieces[p.start].form == "int") or bool(
        kinds(lattice, p.start - 1) & {"PLANT", "PLETTER", "NUMBERW", "HASH", "NODOT"}
    )


def now_it_is(lattice: Lattice, p: Phrase) -> bool:
    """`now it's six`: heard for nodes only behind its number."""
    return text(lattice, p.start) == "now" and p.path[0][1].kind in {"NODE", "NODES"}


def behind_a_range(lattice: Lattice, p: Phrase) -> bool:
    """`plants 1-5: 5, 6, 5 trifs`: the first figure is the end of a range."""
    i = p.start - 1
    return text(lattice, i) in {"-", "–"} and lattice.pieces[i].glued and lattice.pieces[p.start].glued
