"""Where an item of a series begins: a bare number, letter or ordinal that may be the label of a plant (guide 4.7).

`series` says which of these heads make a series.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.counting import behind_a_place, numbered_below
from notesparse.text import numbers
from notesparse.text.lattice import Lattice
from notesparse.text.net import once

_LISTED = cue_page("observing/series_heads")
_COMMON = cue_page("shared")

JOINING = _COMMON.words("and") | {"n"}
MOST_LETTERS = 8  # between the ends of a range of letters
_OF_ONE = _LISTED.words("of_one")
_PARTING = {".", ";", "/", "|", ":"}  # marks behind which an item begins: barn lot. one: 9 tf // two: 10 tf
_NAME = 4  # words of a name
_AFTER_ORDINAL = _LISTED.words("after_ordinal")
PLACES = _COMMON.words("row_or_stop")


@dataclass(frozen=True, slots=True)
class Head:
    """A possible bare label at piece `start`: the labels it names and where the item goes on."""

    start: int
    end: int
    labels: tuple[str, ...]
    sure: bool  # followed by ) or :
    line_head: bool


@once
def item_heads(lattice: Lattice) -> Sequence[tuple[int, bool]]:
    """Pieces where an item may begin: (piece, at a line's head)."""
    heads: list[tuple[int, bool]] = []
    fresh, line = True, True
    for i, p in enumerate(lattice.pieces):
        if p.form == "nl":
            fresh, line = True, True
        elif (
            p.form == "mark"
            and (p.text in ".;,:" or _parting_stroke(lattice, i))
            and not (p.text == "." and i and lattice.pieces[i - 1].text in {"no", "pl", "plt"})
            and not (p.text == "." and lattice.soft[i] is not None and not _ends_item(lattice, i))
        ):
            fresh, line = True, False
        elif p.text == "(" and _bracketed(lattice, i):
            fresh, line = True, line and fresh
        elif p.text == '"' and fresh and line and _numbered_next(lattice, i):
            pass  # Pl. 1. ..., and under it " 2. ...
        elif p.form == "mark" and (not p.text.isascii() or p.text in "-*>(["):
            fresh = fresh or (
                p.text in "-–—"
                and not p.glued
                and i + 2 < len(lattice.pieces)
                and not lattice.pieces[i + 1].glued
                and (lattice.pieces[i + 2].text in {":", ")"} or _lettered_next(lattice, i))
            )
        else:
            if fresh or (p.gap >= 3 and _lone_capital(lattice, i)):
                heads.append((i, line))
            elif (
                p.form == "int"
                and i + 2 < len(lattice.pieces)
                and lattice.pieces[i + 1].text == "-"
                and lattice.pieces[i + 1].glued
                and (lattice.pieces[i + 2].glued and lattice.pieces[i + 2].text in {"r", "v"})
                and not p.glued
            ):
                heads.append((i, False))
            elif (
                p.form == "int"
                and i + 1 < len(lattice.pieces)
                and lattice.pieces[i + 1].text == ")"
                and not bracket_open(lattice, i)
            ):
                heads.append((i, False))
            elif _dotted_on(lattice, i, heads):
                heads.append((i, False))
            elif p.form == "int" and (_marked(lattice, i) or numbered_below(lattice, i)):
                heads.append((i, False))
            elif _lettered_on(lattice, i, heads) or _colon_lettered(lattice, i):
                heads.append((i, False))
            fresh = False
    return heads


def bracket_open(lattice: Lattice, i: int) -> bool:
    """A bracket was opened before piece i on its line, and not closed."""
    while i and lattice.pieces[i - 1].form != "nl":
        i -= 1
        if lattice.at(i) in {"(", ")"}:
            return lattice.at(i) == "("
    return False


def _dotted_on(lattice: Lattice, i: int, heads: list[tuple[int, bool]]) -> bool:
    """`1. nine trifs 2. ten trifs` in one line: the next number with its dot, behind the one before it."""
    pieces = lattice.pieces
    if pieces[i].form != "int" or pieces[i].glued or lattice.at(i + 1) != "." or not lattice.glued(i + 1):
        return False
    if i + 2 >= len(pieces) or pieces[i + 2].glued or pieces[i + 2].form == "nl" or not heads:
        return False
    dotted = [int(lattice.at(x)) for x, _ in heads if pieces[x].form == "int" and lattice.at(x + 1) == "."]
    held = any(e.end == i and e.kind in _NO_LABEL_BEHIND for k in range(max(0, i - 4), i) for e in lattice.edges[k])
    return bool(dotted) and int(pieces[i].text) == dotted[-1] + 1 and not held


def _bracketed(lattice: Lattice, i: int) -> bool:
    """`(a) 12 trif  (b) 11 trif`: a letter in brackets, wherever it stands."""
    letter = lattice.at(i + 1)
    return len(letter) == 1 and "a" <= letter <= "t" and lattice.at(i + 2) == ")"


def _lettered_on(lattice: Lattice, i: int, heads: list[tuple[int, bool]]) -> bool:
    """`a) 9 trifs, bloom at the top node b) 10 trifs`, `a. 4 trif   b. ditto`: the next letter with the same mark,
    wherever it stands."""
    letter, mark = lattice.at(i), lattice.at(i + 1)
    if len(letter) != 1 or mark not in _LETTER_MARKS or not lattice.glued(i + 1) or lattice.glued(i):
        return False
    if mark != ")" and not _gap_behind(lattice, i + 1):
        return False
    if letter == "a" and _second_letter_behind(lattice, i, mark):
        return True  # June 14   a) 3 tri.  b) 3 tri.
    before = {lattice.at(x) for x, _ in heads if lattice.at(x + 1) == mark}
    return "b" <= letter <= "t" and chr(ord(letter) - 1) in before


_LETTER_MARKS = frozenset({")", ".", ":", "-"})


def _colon_lettered(lattice: Lattice, i: int) -> bool:
    """`July 9 A: 9 trif. B: 10 trif.`: a capital with a colon, a gap before and behind it."""
    own = lattice.original(i, i + 1)
    if len(own) != 1 or not "A" <= own <= "J" or lattice.glued(i) or lattice.at(i + 1) != ":":
        return False
    before = lattice.at(i - 1) if i else ""
    named_by_it = i and any(e.end == i and e.kind in _NO_LABEL_BEHIND for e in lattice.edges[i - 1])
    named_by_it = before in PLACES or (named_by_it and before not in PLANTS)  # rep A: R3; plts A: 9 trif B: ...
    return lattice.glued(i + 1) and not lattice.glued(i + 2) and not named_by_it


def _second_letter_behind(lattice: Lattice, i: int, mark: str) -> bool:
    """`b)` stands on the same line, or `b` with the mark of the letter at piece `i`."""
    k = i + 1
    while k + 1 < len(lattice.pieces) and lattice.pieces[k].form != "nl":
        if lattice.at(k) == "b" and lattice.at(k + 1) == mark and lattice.glued(k + 1) and not lattice.glued(k):
            return True
        k += 1
    return False


def _circled(lattice: Lattice, i: int) -> bool:
    """`Ⓐ 10 trifs`, `① 9 trifs`: a letter or a figure in a circle is a label, and nothing else."""
    return unicodedata.name(lattice.original(i, i + 1)[:1], "").startswith("CIRCLED")


def _lone_capital(lattice: Lattice, i: int) -> bool:
    """`A  9t  no fl        B  9t  fl 3 down`: a letter behind a wide gap, with something behind it."""
    own = lattice.original(i, i + 1)
    behind = lattice.pieces[i + 1] if i + 1 < len(lattice.pieces) else None
    return (
        len(own) == 1
        and behind is not None
        and (
            "A" <= own <= "J"
            or ("a" <= own <= "h" and behind.form == "int")
            or ("b" <= own <= "h" and any(e.kind in {"DITTO", "SAME"} for e in lattice.edges[i + 1]))  # d  ditto
        )
        and behind.form in {"int", "word"}
        and not behind.glued
    )


def _lettered_next(lattice: Lattice, i: int) -> bool:
    """` - b 8 tf`, ` - 1 one tan pod`: a letter, or the first plant's number, and a figure behind a stroke."""
    letter, figure = lattice.pieces[i + 1], lattice.pieces[i + 2]
    if letter.text == "1":
        counted = any(e.kind == "INT" and e.how == "number" for e in lattice.edges[i + 2])
        return counted or _second_behind(lattice, i + 2)
    return len(letter.text) == 1 and "a" <= letter.text <= "h" and figure.form == "int" and not figure.glued


def _second_behind(lattice: Lattice, i: int) -> bool:
    """`mulberry - 1 pods green. 2 one tan pod`: on the same line the second item begins with its number."""
    k = i
    while k + 2 < len(lattice.pieces) and lattice.pieces[k].form != "nl":
        if lattice.at(k) in {".", ";", ","} and lattice.at(k + 1) == "2" and lattice.pieces[k + 2].form == "word":
            return not lattice.pieces[k + 1].glued
        k += 1
    return False


def _numbered_next(lattice: Lattice, i: int) -> bool:
    """`" 2.`: the mark for the same again stands for the word for a plant."""
    pieces = lattice.pieces
    return i + 2 < len(pieces) and pieces[i + 1].form == "int" and pieces[i + 2].text in {".", ")", ":", "-"}


_NO_LABEL_BEHIND = {
    "PLANT",
    "PLETTER",
    "PLANTSND",
    "NUMBERW",
    "NODOT",
    "HASH",
    "STOP",
    "FIELDCUE",
    "FIELDNOUN",
    "GROUP",
    "R",
    "V",
    "MONTH",
    "SLASH",
    "DASH",
    "NODE",
    "NODES",
}


def _marked(lattice: Lattice, i: int) -> bool:
    """`1: 10 trifs 2: 11 trifs`, `1=R3 2=R4`: a figure with a mark for a label behind it, wherever it stands."""
    pieces = lattice.pieces
    if (
        pieces[i].glued
        or len(pieces[i].text) > 3
        or i + 2 >= len(pieces)
        or pieces[i + 1].text not in {":", "="}
        or pieces[i + 2].form == "nl"
    ):
        return False
    if pieces[i + 1].text == ":" and pieces[i + 2].glued and pieces[i + 2].form == "int":
        return False  # 7:30
    if i and pieces[i - 1].text in PLACES:
        return False  # row 8: 6 trifs
    if behind_a_place(lattice, i) and pieces[i + 1].text == ":":
        return True  # 1: seed 1/8 top node 2: seed 1/4
    ends = {i, i - 1} if i and pieces[i - 1].text == "." and lattice.soft[i - 1] is not None else {i}  # Stn. 4: ...
    return not any(
        e.end in ends and e.kind in _NO_LABEL_BEHIND for k in range(max(0, i - 4), i) for e in lattice.edges[k]
    )


def _gap_behind(lattice: Lattice, i: int) -> bool:
    return i + 1 < len(lattice.pieces) and not lattice.pieces[i + 1].glued


def _parting_stroke(lattice: Lattice, i: int) -> bool:
    """`9tf fl top nd / 2 10 tf`: a stroke with a gap on both sides parts items; so do two strokes: `one: 9 tf // two: 10`."""
    if lattice.at(i) == lattice.at(i - 1) == "/" and lattice.glued(i) and not lattice.glued(i - 1):
        return _gap_behind(lattice, i)
    return lattice.pieces[i].text == "/" and not lattice.pieces[i].glued and _gap_behind(lattice, i)


_BEFORE_ENDS_ITEM = _LISTED.words("before_ends_item")


def _ends_item(lattice: Lattice, i: int) -> bool:
    """`3rd nd dn. 2 pods`: the dot after an abbreviation that ends an item, since a figure or letter follows."""
    nxt = i + 1
    if i and lattice.pieces[i - 1].text in _BEFORE_ENDS_ITEM:
        return False
    if i and any(e.kind in {"STOP", "MONTH"} for e in lattice.edges[i - 1]):
        return False  # Stn. 4: pl 1 8 tf; Aug. 2, '55
    if i > 1 and any(e.kind == "PLANT" and e.end == i + 1 for e in lattice.edges[i - 2]):
        return False  # P1. 3, for Pl. 3
    if nxt >= len(lattice.pieces) or lattice.pieces[nxt].glued:
        return False
    one = lattice.original(nxt, nxt + 1)  # no sd. B same
    behind = lattice.pieces[nxt + 1] if nxt + 1 < len(lattice.pieces) else None
    letter = (
        len(one) == 1
        and "A" <= one <= "H"
        and behind is not None
        and ((behind.form in {"word", "int"} and not behind.glued) or _colon_lettered(lattice, nxt))
    )
    return lattice.pieces[nxt].form == "int" or letter or _numbered_in_words(lattice, nxt)


def _numbered_in_words(lattice: Lattice, i: int) -> bool:
    """`8 trif. two: 9 trif`: a number in words with a mark for a label behind it."""
    said = [e.end for e in lattice.edges[i] if e.kind == "INT" and e.how == "number"]
    end = max(said, default=i)
    if end == i or lattice.pieces[i].form != "word":
        return False
    return lattice.at(end) in {":", ")"} or _spaced_dash(lattice, end)


def _goes_to_a_field(lattice: Lattice, i: int) -> bool:
    """`second one is gin lot`: the second field, told by a noun of places among the words behind, and no plant."""
    pieces = lattice.pieces
    k = i + 1 + (lattice.at(i + 1) == "one")
    if lattice.at(k) not in {"is", "'s", "was"}:
        return False
    k += 1 + (lattice.at(k + 1) == "the")
    for x in range(k, min(k + _NAME, len(pieces))):
        if pieces[x].form != "word" or (lattice.filler[x] and x > k):
            return False
        if x > k and any(e.kind == "FIELDNOUN" and e.how == "exact" for e in lattice.edges[x]):
            return True
    return False


_BEHIND_READ_HEAD = _COMMON.words("ordinal_tails")
_BEHIND_READ_HEAD_2 = _LISTED.words("behind_read_head_2")


def read_head(lattice: Lattice, i: int, line: bool) -> Head | None:
    pieces = lattice.pieces
    p = pieces[i]

    def text(k: int) -> str:
        return pieces[k].text if k < len(pieces) else ""

    if _circled(lattice, i):
        return Head(i, i + 1, (p.text.upper(),), True, line)
    nth = numbers.ordinal(p.text) if p.form == "word" else None
    first_has = (
        nth is not None and nth <= 20 and text(i + 1) in _AFTER_ORDINAL
    )  # First plant has six ... Second has seven
    if first_has and not _goes_to_a_field(lattice, i):
        return Head(i, i + 2 if text(i + 1) in {"plant", "plt", "one"} else i + 1, (str(nth),), False, line)
    if p.form == "int" and len(p.text) <= 3:
        if text(i + 1) in _BEHIND_READ_HEAD and pieces[i + 1].glued:
            return None
        if text(i + 1) == "of" and text(i + 2).isdigit():
            return None  # 3 of 8 in flower
        labels = [p.text]
        k = i + 1
        tight = k + 1 < len(pieces) and (text(k) != "-" or (pieces[k].glued and pieces[k + 1].glued))
        if (
            text(k) in {"-", "thru", "through", "to"}
            and tight
            and k + 1 < len(pieces)
            and pieces[k + 1].form == "int"
            and int(text(k + 1)) > int(p.text)
            and int(text(k + 1)) - int(p.text) < 40
        ):
            labels = [str(x) for x in range(int(p.text), int(text(k + 1)) + 1)]
            k += 2
        else:
            joined = line or any(
                text(m) in {"and", "&", "n"} for m in range(k, k + 8) if m < len(pieces) and pieces[m].form != "nl"
            )
            joined = joined or rising(lattice, i)
            while joined and _side_by_side(lattice, k, int(labels[-1])):
                labels.append(text(k))  # 7 8 and 9
                k += 1
            while joined and text(k) in JOINING and k + 1 < len(pieces):
                m = k + 1
                if text(k) == "," and text(m) == "and":
                    m += 1
                if m < len(pieces) and pieces[m].form == "int" and text(m + 1) not in _BEHIND_READ_HEAD_2:
                    labels.append(text(m))
                    k = m + 1
                else:
                    break
        sure = text(k) in {")", ":", "=", "]"} and not (
            text(k) == ":" and text(k + 1).isdigit() and len(text(k + 1)) == 2 and pieces[k + 1].glued
        )
        if text(k) in {")", ":", "=", ".", "]"}:
            if text(k) == "." and not (k + 1 < len(pieces) and not pieces[k + 1].glued):
                return None
            k += 1
        elif text(k) == "-" and (not pieces[k].glued or text(k + 1) in {"r", "v"} or _gap_behind(lattice, k)):
            k += 1  # 5 - 10tf; 5- 10tf
        return Head(i, k, tuple(labels), sure, line)
    said = (
        next((e for e in lattice.edges[i] if e.kind == "INT" and e.how == "number" and e.end < len(pieces)), None)
        if p.form == "word"
        else None
    )
    if said is not None and 1 <= int(said.means) <= 40 and text(said.end) in _OF_ONE:  # One is R4, ... Two has ...
        return Head(i, said.end, (str(said.means),), False, line)
    said = said if line or lattice.at(i - 1) in _PARTING else None
    if said is not None and 1 <= int(said.means) <= 40 and _numbered_in_words(lattice, i):  # one: 5 trifs
        return Head(i, said.end + 1, (str(said.means),), text(said.end) in {":", ")"}, line)
    if p.form == "word" and len(p.text) == 1 and p.text.isalpha() and text(i + 1) not in {"'s"}:
        k = i + 1
        names: tuple[str, ...] = (lattice.original(i, i + 1),)
        if line and text(k) == "-" and k + 1 < len(pieces) and pieces[k].glued and pieces[k + 1].glued:
            names, k = _letters(lattice, i, k + 1)
        elif line:
            names, k = _letters_joined(lattice, i)
        stroke = line and text(k) == "/" and pieces[k].glued and _gap_behind(lattice, k)  # A/  nd 14
        sure = text(k) in {")", ":"} or stroke
        if (
            sure
            or (text(k) == "." and k + 1 < len(pieces) and not pieces[k + 1].glued)
            or (text(k) == "-" and (not pieces[k].glued or _gap_behind(lattice, k)))  # b - 9 trif; b- 9 trif
        ):
            k += 1
        return Head(i, k, names, sure, line)
    return None


def _spaced_dash(lattice: Lattice, i: int) -> bool:
    """A dash with a gap on both sides, and more on the line."""
    pieces = lattice.pieces
    dash = i + 1 < len(pieces) and pieces[i].text in {"-", "–", "—"} and not pieces[i].glued
    return dash and not pieces[i + 1].glued and pieces[i + 1].form != "nl"


def _side_by_side(lattice: Lattice, i: int, last: int) -> bool:
    """`7 8 and 9`: at piece i the next figure, with one more behind it or before an `and`."""
    pieces = lattice.pieces
    if i + 1 >= len(pieces) or pieces[i].form != "int" or pieces[i].glued or int(pieces[i].text) != last + 1:
        return False
    return lattice.at(i + 1) in {"and", "&"} or _side_by_side(lattice, i + 1, last + 1)


def _letters(lattice: Lattice, first: int, last: int) -> tuple[tuple[str, ...], int]:
    """`e-g` at a line's head: the plants e, f and g, and where the label ends."""
    a, b = lattice.original(first, first + 1), lattice.original(last, last + 1)
    if len(b) != 1 or not b.isalpha() or a.isupper() != b.isupper() or not 0 < ord(b) - ord(a) <= MOST_LETTERS:
        return (a,), first + 1
    return tuple(chr(c) for c in range(ord(a), ord(b) + 1)), last + 1


def _letters_joined(lattice: Lattice, i: int) -> tuple[tuple[str, ...], int]:
    """`E and F like C` at a line's head: letters that go on, joined, and where the label ends."""
    names, k = [lattice.original(i, i + 1)], i + 1
    while lattice.at(k) in JOINING and k + 2 < len(lattice.pieces):
        k += lattice.at(k) == "," and lattice.at(k + 1) == "and"
        own = lattice.original(k + 1, k + 2)
        if len(own) != 1 or not own.isalpha() or ord(own) != ord(names[-1]) + 1:
            break
        names.append(own)
        k += 2
    return tuple(names), k if len(names) > 1 else i + 1


PLANTS = _COMMON.words("plant") | _COMMON.words("plants")


def rising(lattice: Lattice, i: int) -> bool:
    """`1,3,5 R2`, `2, 4 no fl`: figures that rise, with commas between them, and no count of leaves at their end."""
    pieces, k, last, many = lattice.pieces, i, 0, 0
    if i and (pieces[i - 1].text not in {".", ";", ",", ":", "-"} and pieces[i - 1].form != "nl"):
        return False
    while k < len(pieces) and pieces[k].form == "int" and last < int(pieces[k].text) <= 30:
        last, many = int(pieces[k].text), many + 1
        if k + 2 >= len(pieces) or pieces[k + 1].text != "," or pieces[k + 2].form != "int":
            break
        k += 2
    behind = {e.kind for e in lattice.edges[k + 1]} if k + 1 < len(pieces) else set()
    first = {e.kind for e in lattice.edges[i - 2]} if i > 1 else set()
    return many > 1 and bool(behind & {"R", "V", "FLOWER", "POD", "SEED", "NO", "NOT", "NONE"}) and "TRIF" not in first
