"""A day beside a plant or a count."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_WIDE = 2  # blanks of a gap
_STROKE = 3  # pieces of 8/1


def of_a_numbered_plant(lattice: Lattice, p: Phrase) -> bool:
    """`Tern Island 9/26 plant 3 brown`, `9/26 pl A 9 trifs`: a date, and the plant."""
    if not any(e.kind == "PLANT" for _, e in p.path[-1:]):
        return False
    label = text(lattice, p.end)
    lettered = len(label) == 1 and label.isalpha() and not text(lattice, p.end - 1).endswith("s")
    return "INT" in kinds(lattice, p.end) or (lettered and bool(kinds(lattice, p.end + 1) & _OF_A_PLANT))


_OF_A_PLANT = frozenset({"INT", "R", "V", "FLOWER", "POD", "COLON", "DASH"})
_FOR_DAY_AND_PLANT = _COMMON.words("plant") | {"p"}


def day_and_plant(lattice: Lattice, p: Phrase) -> bool:
    """`6/8 pl 1 - two tri`: a day, and the label of a plant."""
    pieces = lattice.pieces
    return (
        text(lattice, p.start + 1) == "/"
        and text(lattice, p.end - 1) in _FOR_DAY_AND_PLANT
        and p.end < len(pieces)
        and pieces[p.end].form == "int"
    )


def day_before_a_gap(lattice: Lattice, p: Phrase) -> bool:
    """`July 2   trifoliates`, `8/1   trif`: the day, and what is counted over the lines below."""
    pieces, i = lattice.pieces, p.start
    if i + 1 >= p.end or pieces[i].form != "int":
        return False
    if text(lattice, i + 1) == "/":
        return i + _STROKE < p.end and pieces[i + _STROKE].gap >= _WIDE
    if not i or pieces[i + 1].gap < _WIDE:
        return False
    return "MONTH" in kinds(lattice, i - 1) and (
        i == 1 or pieces[i - 2].form in {"nl", "mark"} or pieces[i - 1].gap > 1
    )


def day_of_each_line(lattice: Lattice, p: Phrase) -> bool:
    """`Coon Run 6/8 7 of 10 R3`, and on the next line `Gooseneck 6/8 pods 1 in`: the day, and no length of pods."""
    if text(lattice, p.start + 1) != "/":
        return False
    figures = [text(lattice, p.start + x) for x in range(3)]
    lines = 0
    for i in range(len(lattice.pieces) - 2):
        if [text(lattice, i + x) for x in range(3)] != figures:
            continue
        head = i
        while head and lattice.pieces[head - 1].form == "word":
            head -= 1
        lines += head < i and (head == 0 or lattice.pieces[head - 1].form == "nl")
    return lines > 1
