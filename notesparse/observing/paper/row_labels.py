"""The label of a plant, at the head of a row or in its own cell: `3`, `P1`, `plant B`, `1-4`, `1, 2 & 5` (guide 4.7)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.text.columns import WIDE
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/row_labels")

DAMAGED = {
    "l": "1",
    "I": "1",
    "i": "1",
    "|": "1",
    "!": "1",
    "o": "0",
    "O": "0",
    "q": "9",
    "s": "5",
    "S": "5",
    "b": "6",
    "B": "83",
    "g": "9",
    "G": "6",
    "z": "2",
    "Z": "2",
    "A": "4",
    "T": "7",
    "}": "3",
    "&": "8",
}  # what a damaged character may have been

_LETTERS = frozenset("BGSZ")
_PLANT_WORDS = _LISTED.words("plant_words")


def follows(a: str, b: str) -> bool:
    """Whether label b is the next one after label a: 3 after 2, C after b, W2 after W1."""
    if a.isdigit() and b.isdigit():
        return int(b) == int(a) + 1
    letters = a.rstrip("0123456789")
    if letters and letters != a and b.startswith(letters) and b[len(letters) :].isdigit():
        return int(b[len(letters) :]) == int(a[len(letters) :]) + 1
    return len(a) == len(b) == 1 and a.isalpha() and ord(b.casefold()) == ord(a.casefold()) + 1


_FOR_READ_LABEL = _COMMON.words("number") | {".", "no"}
_BEHIND_READ_LABEL = _COMMON.words("ordinal_tails") | {"s", "ths"}


def read_label(lattice: Lattice, a: int, b: int) -> tuple[tuple[str, ...], int, bool, bool] | None:
    """A plant's label at piece a: (labels, where it ends, it cannot be anything else, it is a damaged figure)."""
    pieces = lattice.pieces
    k = a
    while k < b and pieces[k].text in {"(", "*", "•"}:
        k += 1
    sure = k > a and pieces[a].text != "("
    words = 0
    whole = [e.end for e in lattice.edges[k] if e.kind == "PLANT" and e.how == "figure"] if k < b else []
    if whole and max(whole) > k + 1:  # p1ant 3
        k, words, sure = max(whole), 1, True
    while k < b and (
        pieces[k].text in _PLANT_WORDS
        or any(e.kind == "PLANT" and e.end == k + 1 and e.cost < 0.9 for e in lattice.edges[k])
        or (words and pieces[k].text in _FOR_READ_LABEL)
    ):
        stuck = k + 1 < b and pieces[k + 1].glued and (pieces[k + 1].form == "int" or pieces[k + 1].text == "-")
        if pieces[k].text == "p" and not stuck:
            break
        words += 1
        sure = True
        k += 1
    if words and k + 1 < b and pieces[k].text == "-" and pieces[k].glued and pieces[k + 1].glued:
        k += pieces[k + 1].form == "int"  # P-1
    if k >= b or lattice.coded.get(k, k) > b:
        return None
    if pieces[k].text == "[" and k + 2 < b and pieces[k + 1].form == "int" and pieces[k + 2].text == "]":
        return (pieces[k + 1].text,), k + 3, True, False  # [ 1 ], on a printed sheet
    p = pieces[k]
    labels: tuple[str, ...] = ()
    damaged = False
    figure = next((e for e in lattice.edges[k] if e.how == "figure" and e.kind == "INT" and e.end <= b), None)
    if figure is not None and figure.end == k + 1 and lattice.original(k, k + 1) in _LETTERS:
        figure = None  # plt A, plt B: what stands before and after it tells whether it is an 8
    if k in lattice.coded:
        labels, k = (lattice.original(k, lattice.coded[k]),), lattice.coded[k]  # W1, C-2
    elif figure is not None and 0 < figure.means < 100 and (p.form != "int" or figure.end > k + 1):
        labels, k, damaged = (str(figure.means),), figure.end, True
    elif p.form == "int" and len(p.text) <= 3:
        if (
            k + 1 < b
            and pieces[k + 1].glued
            and (
                pieces[k + 1].text in _BEHIND_READ_LABEL
                or (pieces[k + 1].text == "/" and k + 2 < b and pieces[k + 2].glued)
            )
        ):
            return None
        labels, k = (p.text,), k + 1
        if (
            k + 1 < b
            and pieces[k].text in {"-", "thru", "to"}
            and pieces[k + 1].form == "int"
            and max(pieces[k].gap, pieces[k + 1].gap) < WIDE  # 3    -     8 are a label and two cells
            and int(p.text) < int(pieces[k + 1].text) <= int(p.text) + 40
            and not (pieces[k].text == "-" and _counts_on(lattice, a))
        ):
            labels, k = tuple(str(n) for n in range(int(p.text), int(pieces[k + 1].text) + 1)), k + 2
        elif k < b and pieces[k].glued and pieces[k].form == "word" and len(pieces[k].text) == 1:
            labels, k = (p.text + lattice.original(k, k + 1),), k + 1
    elif p.form == "word" and len(p.text) == 1 and p.text.isalpha():
        labels, k = (lattice.original(k, k + 1),), k + 1
    else:
        return None
    if (
        k < b
        and pieces[k].text in {")", ":", ".", "-"}
        and (k + 1 >= b or not pieces[k + 1].glued or pieces[k].text in {")", ":"})
        and not (pieces[k].text == "-" and (k + 1 >= b or pieces[k].gap > 1))
    ):
        sure = sure or pieces[k].text in {")", ":"} or (pieces[k].text == "-" and _counts_on(lattice, a))
        k += 1
    return labels, k, sure, damaged


def _counts_on(lattice: Lattice, a: int) -> bool:
    """The line above or below the one that begins at piece a begins with the number before, or the next: `2 - 12` above
    `3 - 4` is a label and its value, and no plants 2 to 12."""
    pieces = lattice.pieces
    if (a and pieces[a - 1].form != "nl") or pieces[a].form != "int":
        return False
    end = next((x for x in range(a, len(pieces)) if pieces[x].form == "nl"), len(pieces))
    over = a - 1
    while over > 0 and pieces[over - 1].form != "nl":
        over -= 1
    number = int(pieces[a].text)
    below = end + 1 < len(pieces) and pieces[end + 1].text == str(number + 1)
    return below or (0 <= over < a - 1 and number > 1 and pieces[over].text == str(number - 1))


def labels_of(lattice: Lattice, a: int, b: int) -> tuple[tuple[str, ...], tuple[int, int]] | None:
    """The labels of a cell that holds nothing else: `3`, `plant B`, `1-4`, `1, 2 & 5`; with the cell's pieces."""
    out: list[str] = []
    k = a
    while k < b:
        found = read_label(lattice, k, b)
        if found is None:
            return None
        out += found[0]
        k = found[1]
        if k < b and lattice.pieces[k].text in {",", "&", "and", "+", ";"}:
            k += 1
        elif k < b:
            return None
    return (tuple(out), (a, b)) if out and len(set(out)) == len(out) else None
