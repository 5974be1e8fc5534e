"""Old paper: l, I, | for 1; O for 0; S for 5; B for 8; a figure inside a word."""

from __future__ import annotations

import itertools
from fractions import Fraction

from notesparse.language.cues import cue_page
from notesparse.language.vocabulary import Vocabulary
from notesparse.lazy import pattern
from notesparse.text import match
from notesparse.text.columns import WIDE
from notesparse.text.net import FIGURE, Edge, Net
from notesparse.text.words import after_plant

_LISTED = cue_page("text/damaged")

_LONE_FIGURES = {"S": 5, "B": 8, "Z": 2, "l": 1, "I": 1, "|": 1, "G": 6}
_FIGURE_LETTERS = str.maketrans("lI|OoSBZ", "11100582")
_DATE = pattern(r"\d{1,2}([-/])\d{1,2}\1(?:\d{2}|\d{4})")
_DOTTED = pattern(r"([\dlIO|]{1,2})\.([\dlIO|]{1,2}|[ivxl1]{1,4})\.(\d{4}|\d{2})")
_DECIMAL = pattern(r"[\dlIO|]{0,2}\.[\dlIO]{1,2}")
_LOW = frozenset({2, 4, 8, 16, 32})
_COUNTED = frozenset({"TRIF", "NODE", "NODES"})
_MEASURED = frozenset({"POD", "SEED"})
_INCH = _LISTED.words("inch")
_MEASURES = frozenset({"INCH", "LONG"})
_ROW_MARKS = frozenset({".", ")", "-", ":"})
_MOST_ROW_MARKS = 3
_LONGEST_DOTTED = 7  # pieces
_OF_A_HEAD = _LISTED.words("of_a_head")
_ELEVEN = frozenset({"II", "Il", "lI"})
_NEAR_ELEVEN = range(8, 16)
_FOUR = 4  # figures are no count
_YEARS = range(1950, 2100)
_MOST_WHOLE = 9  # before a damaged fraction: 1 l/2


def damaged(net: Net, i: int, words: Vocabulary) -> None:
    """What the run of letters and figures at piece i may have been."""
    pieces = net.pieces
    stage = (
        i > 0
        and pieces[i].form in {"int", "word"}
        and pieces[i - 1].text in {"v", "r"}
        and not (pieces[i - 1].glued and pieces[i - 2].form in {"int", "word"})
    )
    if pieces[i].glued and i and pieces[i - 1].form in {"int", "word"} and not stage:
        return
    end = net.run_end(i, marks="|")
    run = net.original(i, end)
    _date(net, i)
    if _short_plant(net, i):
        net.edges[i] = [Edge(i + 3, "PLANT", "plant", FIGURE, "figure")]
        net.soft[i + 2] = 0.05  # the dot of the short word
        return
    if _decimal(net, i):
        return
    figure, j = _figure(net, i, end, words)
    if figure is not None:
        net.add(i, j, "INT", figure, FIGURE, "figure")
        net.known[i] = True
        net.filler[i] = False  # I3 trifol.: not the word I
        if j > i + 1:
            net.soft[i] = None  # 5-I9: no day between the letter and its figure
        if net.at(j) == "/" and j + 1 < len(pieces):
            _fraction_of_a_figure(net, i, j, figure)
        if figure == 1:
            _one_and_a_part(net, i, j)
        if j == end and figure in _YEARS:
            net.add(i, j, "YEAR", figure, FIGURE, "figure")  # l979
    elif run.isdigit() and net.at(j) == "/" and j + 1 < len(pieces) and len(run) <= 2:
        k = net.run_end(j + 1, longest=2)
        low = match.damaged_figure(net.original(j + 1, k)) or _LONE_FIGURES.get(net.original(j + 1, k))  # 3/B
        if low in _LOW and int(run) < low:
            net.add(i, k, "FRAC", Fraction(int(run), low), FIGURE, "figure")
    if run == "I" and net.at(j + 1) == "/" and _length_around(net, i, j + 3, words):
        _one_and_a_part(net, i, j)
    if run == "I" and _so_many_inches(net, i, words):
        net.add(i, i + 1, "INT", 1, FIGURE, "figure")
        net.known[i], net.filler[i] = True, False
    if run.lower() == "p1" and _over_rows(net, i, end):
        net.edges[i] = [e for e in net.edges[i] if e.kind != "PLETTER"]
        net.edges[i + 1] = []
        net.add(i, end, "PLANT", "plant", FIGURE, "figure")
    if (len(run) >= 3 or run.lower() == "f1") and not run.isdigit():
        _word(net, i, j, run, words)


def _short_plant(net: Net, i: int) -> bool:
    """`P1. 3   7 trif` where other lines begin with `Pl. 2`: the l of the short word came out as a figure."""
    if net.pieces[i].text != "p" or net.at(i + 1) != "1" or net.at(i + 2) != "." or not net.opens(i):
        return False
    label, value = net.piece(i + 3), net.piece(i + 4)
    if not (net.glued(i + 1) and net.glued(i + 2)) or label is None or value is None or label.form != "int":
        return False
    counted = value.form == "int" or value.gap >= WIDE
    return counted and any(p.text == "pl" and net.at(k + 1) == "." for k, p in enumerate(net.pieces))


def _date(net: Net, i: int) -> None:
    """`8-2-9l`, `9-3-O8`: a date with letters for figures."""
    j = net.run_end(i, marks="-/|", longest=9)
    run = net.original(i, j)
    plain = run.translate(_FIGURE_LETTERS)
    if plain != run and _DATE.fullmatch(plain):
        net.add(i, j, "DMY", plain.replace("/", "-"), FIGURE, "figure")
    elif i + 1 < len(net.pieces) and net.pieces[i + 1].glued:
        _dotted_date(net, i)


def _dotted_date(net: Net, i: int) -> None:
    """`l4.viii.2001`, `2l.vii.1998`, `14.vlll.2001`: days parted by dots, with letters for figures."""
    pieces = net.pieces
    j = i + 1
    while j < len(pieces) and j < i + _LONGEST_DOTTED and pieces[j].glued and pieces[j].form != "nl":
        j += 1
    found = _DOTTED.fullmatch(net.original(i, j))
    if found is None or (len(found[3]) == 2 and pieces[j - 1].form != "dmy"):
        return
    month = found[2]
    roman = not any(c.isdigit() and c != "1" for c in month) and any(c in "ivx" for c in month)
    month = month.replace("l", "i").replace("1", "i") if roman else month.translate(_FIGURE_LETTERS)
    plain = ".".join((found[1].translate(_FIGURE_LETTERS), month, found[3]))
    if plain != found[0]:
        net.add(i, j, "DMY", plain, FIGURE, "figure")
        net.known[i] = True


def _decimal(net: Net, i: int) -> bool:
    """`I.9`, `3.l`, `O.8`: a decimal with letters for figures; `II.4` may be eleven or a Roman two, and is none."""
    pieces = net.pieces
    j = i + 1
    while (
        j < min(i + 4, len(pieces)) and pieces[j].glued and (pieces[j].form in {"int", "dec"} or _figure_like(net, j))
    ):
        j += 1
    run = net.original(i, j)
    plain = run.translate(_FIGURE_LETTERS)
    if plain == run or not _DECIMAL.fullmatch(run) or not any(c.isdigit() for c in run) or run.startswith("II"):
        return False
    if j < len(pieces) and pieces[j].glued and pieces[j].form == "word" and len(pieces[j].text) == 1:
        return False
    if (i == 0 or pieces[i - 1].form == "nl") and not run.partition(".")[2].isdigit():
        return False  # 1.I: a label, and a word
    net.edges[i] = [e for e in net.edges[i] if e.kind not in {"INT", "LETTER"}]
    net.add(i, j, "DEC", Fraction(plain), FIGURE, "figure")
    net.known[i] = True
    return True


def _figure_like(net: Net, j: int) -> bool:
    return net.pieces[j].text == "." or all(c in "lIO|" for c in net.original(j, j + 1))


def _figure(net: Net, i: int, end: int, words: Vocabulary) -> tuple[int | None, int]:
    """The number that the run up to `end` was, and where it ends."""
    figure = match.damaged_figure(net.original(i, end))
    if figure is not None:
        return figure, end
    for k in range(end - 1, i, -1):  # l0t
        if net.pieces[k].form == "word" and net.pieces[k].text in words.singles:
            figure = match.damaged_figure(net.original(i, k))
            if figure is None and net.original(i, k) in _LONE_FIGURES and _counted_in_a_row(net, i, k, words):
                figure = _LONE_FIGURES[net.original(i, k)]  # #2 Btr
            if figure is not None:
                return figure, k
    run = net.original(i, end)
    if run in _LONE_FIGURES and _of_a_stage(net, i):  # RZ
        return _LONE_FIGURES[run], end
    if run in _LONE_FIGURES and ((net.at(end) == "/" and net.glued(end)) or after_plant(net, i)):  # S/8
        return _LONE_FIGURES[run], end
    if run in _LONE_FIGURES and _counted_in_a_row(net, i, end, words):
        return _LONE_FIGURES[run], end
    if run in {"O", "o"} and _counted_none(net, i, end):
        return 0, end
    behind = net.piece(end)
    ends = behind is None or behind.form == "nl"
    if run in _ELEVEN and _like(net, i - 1, -1) and _like(net, i - 2 if ends else end, -1 if ends else 1):
        return 11, end
    return None, end


_COUNTS = _LISTED.words("counts")


def _counted_none(net: Net, i: int, end: int) -> bool:
    """`Hopper count O.`, `beetle count: O`: what was counted, and the clause is over."""
    at = i - 1 - (net.at(i - 1) in {":", "-", "="})
    return net.at(at) in _COUNTS and (end >= len(net.pieces) or net.pieces[end].form in {"nl", "mark"})


def _of_a_stage(net: Net, i: int) -> bool:
    """`RZ`, which is cut in two where it stands in a cell beside other stages."""
    return net.pieces[i].glued and net.at(i - 1) in {"v", "r"} and net.pieces[i].form == "word"


def _like(net: Net, i: int, step: int) -> bool:
    """`10  II  12`: a count near eleven stands on this side of it in the row."""
    if net.at(i) == ",":
        i += step
    p = net.piece(i)
    if p is None or p.form not in {"int", "word"}:
        return False
    first = i
    while first > 0 and net.pieces[first].glued and net.pieces[first - 1].form in {"int", "word"}:
        first -= 1
    run = net.original(first, net.run_end(first))
    figure = int(run) if run.isdigit() and len(run) < _FOUR else match.damaged_figure(run)
    return figure in _NEAR_ELEVEN


def _counted_in_a_row(net: Net, i: int, end: int, words: Vocabulary) -> bool:
    """`2    S tri.`, `plant 1   S tri.`, `#2 Btr`: between the label of a row and the leaves or nodes that are counted."""
    if not any(kind in _COUNTED for kind, *_ in words.singles.get(net.at(end), ())):
        return False
    k = i - 1
    while k >= 0 and net.at(k) in _ROW_MARKS and k > i - _MOST_ROW_MARKS:
        k -= 1
    if k < 0 or net.pieces[k].form != "int":
        return False
    return k == 0 or net.pieces[k - 1].form == "nl" or net.at(k - 1) == "#" or after_plant(net, k)


def _fraction_of_a_figure(net: Net, i: int, j: int, figure: int) -> None:
    """`l/2`, `3/l6`: the stroke stands at piece j."""
    pieces = net.pieces
    k = j + 2
    if net.run_end(j + 1, longest=2) > k and pieces[k].text not in {"ths", "in"}:
        k += 1
    low = match.damaged_figure(net.original(j + 1, k))
    if low is None and net.at(j + 1).isdigit():
        low, k = int(net.at(j + 1)), j + 2
    if low in _LOW and figure < low:
        net.add(i, k, "FRAC", Fraction(figure, low), FIGURE, "figure")
        before = pieces[i - 1] if i and pieces[i].gap == 1 else None  # 1 l/2
        if before is not None and before.form == "int" and not before.glued and 0 < int(before.text) <= _MOST_WHOLE:
            net.add(i - 1, k, "FRAC", int(before.text) + Fraction(figure, low), FIGURE, "figure")


def _one_and_a_part(net: Net, i: int, j: int) -> None:
    """`l 1/2`, `I l/4"`: a one at piece i with a part of an inch at piece j behind it."""
    pieces = net.pieces
    if net.at(j + 1) != "/" or net.glued(j) or pieces[j].gap != 1:
        return
    top, parts = net.original(j, j + 1).translate(_FIGURE_LETTERS), net.at(j + 2)
    if top.isdigit() and parts in {"2", "4", "8", "16"} and int(top) < int(parts):
        net.add(i, j + 3, "FRAC", 1 + Fraction(int(top), int(parts)), FIGURE, "figure")
        net.known[i] = True
        net.filler[i] = False  # I 3/8 long: not the word I


def _length_around(net: Net, i: int, k: int, words: Vocabulary) -> bool:
    """Whether the figures of pieces [i, k) are a length: a cell of their own, behind `pod` or before `in.`, `long`."""

    def is_one_of(at: int, kinds: frozenset[str]) -> bool:
        return any(kind in kinds for kind, *_ in words.singles.get(net.at(at), ()))

    return net.pieces[i].gap >= WIDE or is_one_of(k, _MEASURES) or (i > 0 and is_one_of(i - 1, _MEASURED))


def _so_many_inches(net: Net, i: int, words: Vocabulary) -> bool:
    """`pod I in., top node`, `pods I"`: one inch; `pods I in` may be talk."""
    unit = net.at(i + 1) in _INCH or (net.at(i + 1) == "in" and net.at(i + 2) == "." and net.glued(i + 2))
    return i > 0 and unit and any(kind in _MEASURED for kind, *_ in words.singles.get(net.at(i - 1), ()))


def _over_rows(net: Net, i: int, end: int) -> bool:
    """`p1.   tri.   pod` over rows that begin with 1 and 2: the head of the plants, and no plant 1."""
    pieces = net.pieces
    k = end
    while net.at(k) in _OF_A_HEAD and pieces[k].gap < WIDE:
        k += 1
    if (i and pieces[i - 1].form != "nl") or k >= len(pieces) or pieces[k].form != "word" or pieces[k].gap < WIDE:
        return False
    first = _next_line(net, k)
    rows = net.at(first) in {"1", "l"} and first + 1 < len(pieces) and pieces[first + 1].gap >= WIDE
    return rows and net.at(_next_line(net, first)) == "2"


def _next_line(net: Net, k: int) -> int:
    while k < len(net.pieces) and net.pieces[k].form != "nl":
        k += 1
    return k + 1


def _numbered(net: Net, i: int) -> bool:
    """`F1` where `F2` and `F4` stand too: a letter that is numbered, and no damaged `fl`."""
    pieces = net.pieces
    letter, own = pieces[i].text, net.at(i + 1)
    if len(letter) != 1 or not own.isdigit():
        return False
    others = {
        b.text
        for a, b in itertools.pairwise(pieces)
        if a.text == letter and b.glued and b.form == "int" and len(b.text) < 3
    }
    return bool(others - {own})


def _word(net: Net, i: int, j: int, run: str, words: Vocabulary) -> None:
    """The first word of the vocabulary that a damaged run may have been."""
    if j == i + 2 and _numbered(net, i):
        return
    for word in match.damaged_words(run):
        senses = words.singles.get(word)
        if senses and word != run.lower():
            for sense in senses:
                if sense[0] != "FILLER":
                    net.add(i, j, sense[0], sense[1], FIGURE, "figure")
            return
