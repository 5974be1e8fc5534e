"""The key of a page: `t2 = top two nodes   t1 = top node`, `pp = pods, inches    @ = node from the top` (guide 4.21).

A sign stands for the thing of a column, or for what a cell says. Lines that only explain signs are no observation.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.paper.heads import ORGANS, Column, bracketed, ends_sentence, read_heads
from notesparse.observing.paper.row_labels import follows
from notesparse.observing.paper.rows import Grid
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/keys")

OPENERS = _LISTED.words("openers")
BLANK = _LISTED.words("blank")
_ENDS = frozenset({";", ":", "."})
_MARKS = frozenset({"x", "xx", "/", "//", "+", "++", "-", "*"})  # what stands in a cell, and never over a column
LONGEST_SIGN = 3  # pieces
_LONGEST_MEANING = 18
LONGEST_AGAIN = 4  # pieces: same as plant 2
THINGS = frozenset(
    {"TRIF", "NODES", "NODE", "FLOWER", "POD", "SEED", "BROWN", "GREEN", "SCAR", "BUD", "UNI", "COT", "ROLLED", "OPEN"}
)
PLACES = frozenset({"TOP", "UPTOP", "LOW", "TOPSOUND", "BELOWTOP", "NEARTOP", "MIDPLANT", "FROM", "DOWN", "UP"})
ORGAN_KINDS = {"FLOWER": "flowers", "POD": "pods", "SEED": "seeds"}
DENIALS = frozenset({"NO", "NONE", "NOT", "NOTHING"})
TWO_LETTERS = 2
_ONLY_KEYS = _LISTED.words("only_keys")
_OTHERWISE = _LISTED.words("otherwise")
_YOUNG = frozenset({"first_trif", "unifoliates", "emerged"})
_MEANS = _LISTED.words("means")
_TO_THEM = _LISTED.words("to_them")
_OF_A_KEY = _LISTED.words("of_a_key")
FEWEST_USES = 2  # of a letter that a key explains with no mark between
_FILLS = frozenset({"TOUCHING", "SMALL", "SEE"})  # filling cavity, felt


@dataclass(frozen=True, slots=True)
class Sign:
    """One pair of a key: the sign in lower case without blanks, its pieces, the pieces of its meaning, and the column where it names one."""

    text: str
    at: tuple[int, int]
    meaning: tuple[int, int]
    column: Column | None
    suffix: bool = False  # it stands behind a figure: `+ after it = next leaf still rolled`
    organ: str | None = None  # what a meaning that is only a place is of: the organ that the key named last
    figure: bool = False  # no sign, but the word for any bare figure
    absent: bool = False  # where it does not stand behind a figure there is none: `* = open bloom, no star = none`
    of: str | None = None  # the thing whose column the sign stands in, where the key names it: `Seed: + felt`


def read_signs(lattice: Lattice, line: Line) -> tuple[list[Sign], int]:
    """The pairs of a key on this line, and the piece where they begin; none where other words stand among them."""
    for cell in line.cells:
        start = cell.start
        if start == line.start or lattice.pieces[start].text in "([":
            found = sign_pairs(lattice, start, line.end)
            if found:
                return found, start
        elif any(lattice.pieces[i].text == "=" for i in range(start, min(start + 4, line.end))):
            found = sign_pairs(lattice, start, line.end)
            if len(found) > 1:
                return found, start
    for i in range(line.start, line.end - 2):  # six flagged plants; r = next leaf rolled
        if lattice.pieces[i].text in _ENDS and lattice.pieces[i + 1].text != "=" and not _number_word(lattice, i):
            found = sign_pairs(lattice, i + 1, line.end)
            if found:
                return found, i + 1
    return [], line.start


def _number_word(lattice: Lattice, i: int) -> bool:
    """The dot at piece i is that of `No. 1 = nine nodes`: a plant's label, and no sign."""
    return i > 0 and any(
        e.kind in {"NODOT", "NUMBERW", "PLETTER", "PLANT"} for k in (i - 1, i) for e in lattice.edges[k]
    )


def sign_pairs(lattice: Lattice, a: int, b: int) -> list[Sign]:
    pieces = lattice.pieces
    while a < b and pieces[a].text in "([":
        a += 1
    while b > a and pieces[b - 1].text in ")].":
        b -= 1
    named = opener(lattice, a, b) > a
    a = _past_the_opener(lattice, a, b)
    signs = [k for k in range(a, b) if pieces[k].text == "=" and not first_node(lattice, a, k)] or colons(
        lattice, a, b, named
    )
    if not signs and named:
        signs = _dashes(lattice, a, b)
    bare = [] if signs else _before_words(lattice, a, b, named)
    signs = signs or bare
    if not signs and _before_a_gap(lattice, a, b):
        signs = [a]
    if not signs:
        return []
    bounds: list[tuple[int, int, int]] = []  # where the sign begins and ends, and its =
    for k in signs:
        if k in bare:  # T trifoliates    P longest pod, mm: nothing stands for the =
            bounds.append((k, k + 1, k))
            continue
        if k == a:  # x   open flower: the gap stands for the =
            bounds.append((a, a + 1, a))
            break
        end = _before_after(lattice, a, k)
        s = end
        while s > a and end - s < LONGEST_SIGN and pieces[s - 1].text not in ",;=(" and (s == end or pieces[s].glued):
            s -= 1
        if s == end:
            return []
        bounds.append((s, end, k))
    if bounds[0][0] != a or _plants_in_order(lattice, bounds):
        return []
    out: list[Sign] = []
    untold: list[Sign] = []  # pairs of which the meaning is none of the trade: no cell says by itself what they say
    for nth, (s, stop, k) in enumerate(bounds):
        end = bounds[nth + 1][0] if nth + 1 < len(bounds) else b
        sentence = next((i for i in range(k + 2, end - 1) if pieces[i].text == "." and ends_sentence(lattice, i)), None)
        if sentence is not None and nth + 1 == len(bounds):
            end = sentence  # L = low. pod, in.
        end = before_nought(lattice, k + 1, end)
        while end > k + 1 and pieces[end - 1].text in ",;.(":
            end -= 1
        end = _before_answers(lattice, k + 1, end)
        if all(pieces[i].text in "()[]" for i in range(s, stop)):
            return []  # ( ) = trifs: a bracket is no sign of its own
        if (
            k + 1 < end
            and pieces[k + 1].text != "0"
            and all(pieces[i].form in {"int", "dec"} for i in range(k + 1, end))
        ):
            return []  # T=14 N=15: what was counted, and no meaning
        figure = column_words().cells.get(squeeze(lattice.original(s, stop))) == "figure"
        codes = bracketed(lattice, range(k + 1, end))  # B = bloom (0 none, L low only)
        plain = codes[0] if codes is not None else end
        if end == k + 1 or plain - k - 1 > _LONGEST_MEANING or (len(lattice.original(s, stop)) > 5 and not figure):
            return []
        got = read_heads(lattice, [range(k + 1, end)])
        one = len(got) == 1 and not got[0].unknown and not got[0].label
        if _stage_like(lattice, s, stop) or _a_plant(lattice, s, stop, k + 1, end) or _counts_on(lattice, s, k):
            return []
        if len(bounds) == 1 and _first_is(lattice, s, stop, k + 1, b):
            return []
        if stop < k:
            out.append(Sign(squeeze(lattice.original(s, stop)), (s, stop), (k + 1, end), None, suffix=True))
            continue
        if figure:
            if not (one and got[0].known):
                return []
            out.append(Sign(squeeze(lattice.original(s, stop)), (s, stop), (k + 1, end), got[0], figure=True))
            continue
        if _thing(lattice, s, stop) and _standing(lattice, s, stop) == 1:
            named_by = read_heads(lattice, [range(s, stop)])[0]
            if len(got) == 1:
                named_by.take(got[0])
            out.append(Sign(squeeze(lattice.original(s, stop)), (s, stop), (k + 1, end), named_by))
            continue
        text = squeeze(lattice.original(s, stop))
        column = (
            got[0]
            if one
            and text not in _MARKS
            and (k > a or bare)
            and not (_only_where(got[0]) and not _standing(lattice, s, stop))
            and not (got[0].place and len(cells_with(lattice, lattice.original(s, stop))) > 1)  # T over no column
            and (
                (got[0].known and not cell_like(lattice, k + 1, plain))
                or (got[0].by_node is not None and not got[0].place)
            )
            else None
        )
        if column is None and _thing(lattice, s, stop) and not named:
            return []
        if column is None and not told(lattice, k + 1, end):
            if any(e.kind in PLACES and e.how == "exact" and e.end == stop for e in lattice.edges[s]):
                out.append(Sign(text, (s, stop), (s, stop), None))  # low = below: a place that speaks for itself
                continue
            untold.append(Sign(text, (s, stop), (k + 1, end), None))
            continue
        seen = organ_named(lattice, s, stop, out[-1].organ if out else None)
        seen = organ_named(lattice, k + 1, end, seen)
        out.append(Sign(text, (s, stop), (k + 1, end), column, organ=seen))
    out = _as_values(lattice, out)
    standing = [s for s in untold if cells_with(lattice, lattice.original(*s.at))]
    return sorted([*out, *standing], key=lambda s: s.at) if out else out


def _counts_on(lattice: Lattice, s: int, k: int) -> bool:
    """`3 = ditto` under `2 = 11 trifs`: the next plant, and no sign 3."""
    pieces = lattice.pieces
    if pieces[s].form != "int" or k != s + 1 or not s or pieces[s - 1].form != "nl":
        return False
    head = s - 1
    while head and pieces[head - 1].form != "nl":
        head -= 1
    return lattice.at(head) == str(int(pieces[s].text) - 1) and lattice.at(head + 1) == "="


def first_node(lattice: Lattice, a: int, k: int) -> bool:
    """`bl = node of the top bloom (top node = 1)`: the = at piece k, in brackets, says how nodes are counted."""
    opened = sum((lattice.at(i) == "(") - (lattice.at(i) == ")") for i in range(a, k))
    return opened > 0 and k > a + 2 and lattice.at(k + 1) == "1"


def before_nought(lattice: Lattice, a: int, b: int) -> int:
    """Where the meaning ends before `0 for none`, `0 means no flower`, `0 if none`: what 0 says in any cell of its column."""
    for i in range(b - 1, a, -1):
        if lattice.at(i) in {"0", "-"} and lattice.at(i - 1) in {",", ";", "("} and lattice.at(i + 1) in _MEANS:
            denied = any(e.kind in DENIALS | {"NO"} for e in lattice.edges[i + 2]) if i + 2 < b else False
            return i if denied else b
    return b


def _before_answers(lattice: Lattice, a: int, b: int) -> int:
    """Where the meaning ends before `, o/x`, `, y or n`: the signs that its cells may hold."""
    k = b
    while k > a and (len(lattice.at(k - 1)) == 1 or lattice.at(k - 1) == "or") and lattice.at(k - 1) != ",":
        k -= 1
    listed = b - k > 1 and bool({"/", "or"} & {lattice.at(i) for i in range(k, b)})
    return k - 1 if listed and k - 1 > a and lattice.at(k - 1) == "," else b


def colons(lattice: Lattice, a: int, b: int, named: bool = False) -> list[int]:
    """`lvs: open trifoliates.   blm: node of the top bloom`: colons behind words that stand over a column elsewhere (in a line
    that says of itself that it is a key, anywhere), where what is behind them is a head, and no answer."""
    pieces = lattice.pieces
    found = [
        i + 1
        for i in range(a, b - 2)
        if pieces[i + 1].text == ":"
        and (i == a or pieces[i].gap >= WIDE or pieces[i - 1].text in _ENDS)
        and pieces[i].form == "word"
        and (_standing(lattice, i, i + 1) == 1 or (named and _twice(lattice, i)))
    ]
    for k, end in zip(found, [*(x - 1 for x in found[1:]), b][: len(found)], strict=True):
        while end > k + 1 and pieces[end - 1].text in ",;.":
            end -= 1
        end = before_nought(lattice, k + 1, end)
        got = read_heads(lattice, [range(k + 1, end)]) if k + 1 < end else []
        if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label:
            return []
        if got[0].what == ["scars"] and named:
            continue
        if (
            cell_like(lattice, k + 1, end)
            or not set(got[0].what) & {"trifoliates", "nodes", *ORGANS}
            or end - k - 1 < TWO_LETTERS
        ):
            return []
    return found


def _twice(lattice: Lattice, i: int) -> bool:
    """Whether the word at piece i stands elsewhere too."""
    return sum(p.text == lattice.at(i) for p in lattice.pieces) > 1


def _as_values(lattice: Lattice, signs: list[Sign]) -> list[Sign]:
    """`C = seed leaves up, U = single leaves flat, T = first trif open`: how far a plant has come, where one of the signs stands
    in several cells: what cells say, and no heads."""
    young = [
        s
        for s in signs
        if s.column is not None
        and (
            (s.column.what[:1] and s.column.what[0] in _YOUNG)
            or (s.column.what == ["trifoliates"] and any(e.kind == "INT" for e in lattice.edges[s.meaning[0]]))
        )
    ]
    if not any(len(cells_with(lattice, lattice.original(*s.at))) > 1 for s in signs if s in young or s.column is None):
        return signs
    return [replace(s, column=None) if s in young else s for s in signs]


def opener(lattice: Lattice, a: int, b: int) -> int:
    """Where a word that opens a key ends, if one stands at piece a: `key`, `Abbrev.`, `K E Y`; else a."""
    if a >= b:
        return a
    if lattice.at(a) in OPENERS:
        return a + 1 + (lattice.at(a + 1) == "." and a + 1 < b)
    if len(lattice.at(a)) > 1 or not lattice.at(a).isalpha():
        return a
    k = a
    while k < b and len(lattice.at(k)) == 1 and lattice.at(k).isalpha():
        k += 1
    word = "".join(lattice.at(i) for i in range(a, k))
    return k if word in OPENERS else a


def _past_the_opener(lattice: Lattice, a: int, b: int) -> int:
    """Where the signs begin behind `key:`, `K E Y`, `key to the signs -`, `Codes I use:`, `codes`."""
    pieces = lattice.pieces
    first = opener(lattice, a, b)
    if first == a:
        return a
    k = first
    while k < b and pieces[k].text in _OF_A_KEY | _TO_THEM | OPENERS:
        k += 1
    if first < k < b and pieces[k].text in ":-" and pieces[k - 1].text not in _TO_THEM:
        return k + 1
    k = first
    while k < b and pieces[k].text in _TO_THEM | OPENERS:
        k += 1
    if k > first and pieces[k - 1].text in _TO_THEM:
        return first
    while a < k < b and pieces[k].text in ":-":
        k += 1
    return k


def _before_words(lattice: Lattice, a: int, b: int, named: bool) -> list[int]:
    """`T trifoliates    P longest pod, mm    N its node`: letters with what they stand for right behind, parted by gaps,
    commas or semicolons; where the line does not say that it is a key, letters that stand before figures elsewhere."""
    pieces = lattice.pieces
    opens = [i for i in range(a, b - 1) if i == a or pieces[i].gap >= WIDE or pieces[i - 1].text in {",", ";"}]
    signs = [i for i in opens if _a_letter(lattice, i) and pieces[i + 1].form == "word" and pieces[i + 1].gap == 1]
    used = [i for i in signs if _before_values(lattice, i, set(range(a, b))) >= FEWEST_USES]
    found = signs if named else used
    if not found:
        return []
    told_all = all(
        read_heads(lattice, [range(i + 1, end)], bare_measure=True)
        for i, end in zip(found, [*found[1:], b], strict=True)
    )
    whole = found[0] == a and len(found) > 1 and len(used) > 1
    return found if whole and told_all and len({pieces[i].text for i in found}) == len(found) else []


def letters_told(lattice: Lattice, line: Line) -> bool:
    """`O open bloom at the top node; L low only; N none`: capitals that stand alone elsewhere, each with words behind it, parted
    by commas, semicolons or gaps: a key, and no observation."""
    pieces = lattice.pieces
    if line.end - line.start < LONGEST_AGAIN or not _a_capital(lattice, line.start):
        return False
    opens = [i for i in range(line.start, line.end - 1) if i == line.start or _parts(lattice, i)]
    letters = [
        i
        for i in range(line.start, line.end - 1)
        if _a_capital(lattice, i) and pieces[i + 1].form == "word" and len(pieces[i + 1].text) > 1
    ]
    own = set(range(line.start, line.end))
    used = [
        i
        for i in letters
        if any(_a_capital(lattice, k) and pieces[k].text == pieces[i].text for k in range(len(pieces)) if k not in own)
    ]
    if any(follows(pieces[a].text, pieces[b].text) for a, b in itertools.pairwise(letters)):
        return False  # B has two more, C none: plants
    others = [i for i in used if pieces[i].text not in _OTHERWISE]
    return len(used) > 1 and bool(others) and 2 * len(letters) >= len(opens)


def _parts(lattice: Lattice, i: int) -> bool:
    return lattice.pieces[i].gap >= WIDE or lattice.pieces[i - 1].text in {",", ";", "."}


def _a_capital(lattice: Lattice, i: int) -> bool:
    """A capital that stands by itself, or with a figure stuck to it."""
    text = lattice.original(i, i + 1)
    after = lattice.pieces[i + 1] if i + 1 < len(lattice.pieces) else None
    alone = after is None or not after.glued or after.form in {"int", "nl"}
    return len(text) == 1 and text.isalpha() and text.isupper() and text not in {"A", "I"} and alone


_FOR_A_LETTER = _LISTED.words("for_a_letter")


def _a_letter(lattice: Lattice, i: int) -> bool:
    text = lattice.pieces[i].text
    return text.isalpha() and len(text) <= TWO_LETTERS and text not in _FOR_A_LETTER


def _before_values(lattice: Lattice, i: int, own: set[int]) -> int:
    """How often the letter at piece i begins a cell elsewhere: `T14`, `S none`."""
    pieces = lattice.pieces
    return sum(
        p.text == pieces[i].text
        and k not in own
        and not p.glued
        and k + 1 < len(pieces)
        and pieces[k + 1].form != "nl"
        and (pieces[k + 1].glued or pieces[k + 1].gap == 1)
        for k, p in enumerate(pieces)
    )


def _before_a_gap(lattice: Lattice, a: int, b: int) -> bool:
    """`x   open flower at the top`: a mark of cells by itself, and words of the trade behind a gap."""
    pieces = lattice.pieces
    mark = a + 2 < b and (pieces[a].text in _MARKS or pieces[a].text in {"o", "0"})
    return mark and pieces[a + 1].gap > 1 and pieces[a + 1].form == "word" and told(lattice, a + 1, b)


def gap_key(lattice: Lattice, lines: Sequence[Line]) -> list[Line]:
    """Lines that explain a mark by what stands behind a gap; none where there is but one."""
    found: dict[int, str] = {}
    for n, line in enumerate(lines):
        cells = line.cells[1:] if line.cells and lattice.pieces[line.start].text in OPENERS else line.cells
        if len(cells) == 2 and _before_a_gap(lattice, cells[0].start, line.end):
            found[n] = lattice.pieces[cells[0].start].text
    return [lines[n] for n in found] if len(set(found.values())) > 1 else []


def _only_where(column: Column) -> bool:
    """`T = flowers, top two`: what a sign says in a cell, where no unit says that a figure stands behind it."""
    sized = column.unit not in {None, "in"}  # open bloom in top two: no inches
    return column.place is not None and not sized and bool(set(column.what) & set(ORGANS))


def _dashes(lattice: Lattice, a: int, b: int) -> list[int]:
    """`Legend: T - trifs, N - nodes`: dashes for =, where the line says of itself that it is a key; those in brackets are none."""
    pieces = lattice.pieces
    out: list[int] = []
    depth = 0
    for k in range(a + 1, b - 1):
        depth += (pieces[k].text == "(") - (pieces[k].text == ")")
        if pieces[k].text == "-" and not depth and pieces[k].gap and pieces[k + 1].gap:
            out.append(k)
    return out


def organ_named(lattice: Lattice, a: int, b: int, before: str | None) -> str | None:
    """The organ that these words of a key name, else the one that was named before."""
    kinds = {e.kind for i in range(a, b) for e in lattice.edges[i] if e.how == "exact" and e.end <= b}
    named = [organ for kind, organ in ORGAN_KINDS.items() if kind in kinds]
    return named[0] if len(named) == 1 else before


def only_a_place(lattice: Lattice, s: Sign) -> bool:
    """`bt = in top two`: a place, and nothing that is there."""
    kinds = {e.kind for i in range(*s.meaning) for e in lattice.edges[i] if e.how == "exact" and e.end <= s.meaning[1]}
    return bool(kinds & PLACES) and not kinds & (THINGS - {"NODE", "NODES"} | DENIALS)


def opens_key(lattice: Lattice, line: Line) -> bool:
    """`KEY: nb = no bloom`, `Legend: ...`: a line that says of itself that it explains signs."""
    texts = [p.text for p in lattice.pieces[line.start : line.end]]
    if not texts or texts[0] == "where" or opener(lattice, line.start, line.end) == line.start:
        return False
    first = _past_the_opener(lattice, line.start, line.end)
    if texts[0] in _ONLY_KEYS and lattice.pieces[first - 1].text == ":" and len(texts) > LONGEST_SIGN:
        if "=" in texts or any(_a_letter(lattice, i) for i in range(first, line.end)):
            return True  # symbols: O open bloom, L low only
    bare = _before_words(lattice, first, line.end, True)
    marked = "=" in texts or len(_dashes(lattice, line.start, line.end)) > 1
    return len(texts) > LONGEST_SIGN and (marked or bool(bare) or bool(colons(lattice, first, line.end, True)))


def _before_after(lattice: Lattice, a: int, k: int) -> int:
    """Where the sign before the = at piece k ends: before `after it`, where the sign stands behind a figure."""
    for b in range(max(a + 1, k - 3), k):
        if column_words().cells.get(squeeze(lattice.original(b, k))) == "after":
            return b
    return k


def is_head_cell(lattice: Lattice, a: int, b: int) -> bool:
    """Whether the sign stands as a cell of its own over others: it is a head, and the key explains the column."""
    return _standing(lattice, a, b) > 0


def explains_a_head(lattice: Lattice, line: Line) -> bool:
    """`blm = whichever node ...`: what stands before an = at the head of a line or sentence is a cell of its own elsewhere."""
    return any(
        lattice.at(k) == "="
        and (
            k == line.start + 1
            or lattice.at(k - 2) in _ENDS
            or lattice.at(k - 2) == ","
            or lattice.pieces[k - 1].gap >= WIDE
        )
        and _standing(lattice, k - 1, k) > 0
        for k in range(line.start + 1, line.end - 1)
    )


def not_explained(lattice: Lattice, line: Line, grids: Sequence[Grid]) -> None:
    """`bloom = how showy, 1 to 5` over a column of figures: the head is explained and nobody understood how, so that nothing is
    read of its figures."""
    signs = {lattice.at(k - 1) for k in range(line.start + 1, line.end - 1) if lattice.at(k) == "="}
    for grid in grids:
        for number, column in enumerate(grid.columns):
            if not set(column.what) & set(ORGANS) or column.unit or column.by_node or column.codes:
                continue
            head = [lattice.at(i) for i in column.pieces]
            cells = [row.cells[number][0] for row in grid.rows if row.cells.get(number)]
            figures = [a for a, _ in cells if lattice.pieces[a].form == "int" and lattice.at(a) != "0"]
            if figures and len(head) == 1 and head[0] in signs:
                column.what, column.unknown = [], list(column.pieces)


def _standing(lattice: Lattice, a: int, b: int) -> int:
    """How often the words stand as a cell of their own outside the key."""
    found = 0
    pieces = lattice.pieces
    want = [p.text for p in pieces[a:b]]
    n = b - a
    for i in range(len(pieces) - n + 1):
        if a <= i < b or [p.text for p in pieces[i : i + n]] != want or pieces[i].form == "nl":
            continue
        left = i == 0 or pieces[i - 1].form == "nl" or pieces[i].gap >= 2 or pieces[i - 1].text == "|"
        after = pieces[i + n] if i + n < len(pieces) else None
        right = after is None or after.form == "nl" or after.gap >= 2 or after.text == "|"
        first = i
        while first and pieces[first - 1].form != "nl":
            first -= 1
        row = pieces[first].form == "int"  # a row of a table, with its label
        found += left and right and not row and not (after is not None and after.text == "=")
    return found


def _stage_like(lattice: Lattice, a: int, b: int) -> bool:
    """`R3 = pods 3/16`: a stage is no sign of a key."""
    return b > a + 1 and any(e.kind in {"R", "V"} for e in lattice.edges[a]) and lattice.pieces[a + 1].form == "int"


def _plants_in_order(lattice: Lattice, bounds: Sequence[tuple[int, int, int]]) -> bool:
    """`p1 = 10 trif, p2 = 9 trif, p3 = same as p1`: labels that count on, each with a word or a sign for a plant."""
    labels = [
        max((e.means for e in lattice.edges[stop - 1] if e.kind == "INT" and e.end == stop), default=None)
        for s, stop, _ in bounds
        if stop > s + 1 and any(e.kind in {"PLANT", "PLETTER", "HASH"} for e in lattice.edges[s])
    ]
    return (
        len(labels) > 1
        and len(labels) == len(bounds)
        and all(a is not None and b == a + 1 for a, b in itertools.pairwise(labels))
    )


def _a_plant(lattice: Lattice, s: int, stop: int, a: int, b: int) -> bool:
    """`2 = 10 trif bloom top node`, `4 = 10, no bloom`: a plant's number, its leaves and its flowers, and no sign with its
    meaning."""
    if stop > s + 1 or lattice.pieces[s].form != "int":
        return False
    counted = [e.end for e in lattice.edges[a] if e.kind == "INT" and e.end < b]
    if lattice.at(a + 1) in {"or", "-", "to"} and a + 2 < b:  # 1 = 9 or 10 trif
        counted = [e.end for e in lattice.edges[a + 2] if e.kind == "INT" and e.end < b]
    if lattice.pieces[a].form == "int" and lattice.pieces[a].text != lattice.pieces[s].text:
        other = any(x.kind in {"TRIF", "NODES"} for end in counted for x in lattice.edges[end])
        if other or lattice.at(a + 1) == ",":
            return True
    leaves = any(x.kind in {"TRIF", "NODES"} for end in counted for x in lattice.edges[end])
    return leaves and any(e.kind in ORGAN_KINDS and e.how == "exact" for i in range(a + 1, b) for e in lattice.edges[i])


def _first_is(lattice: Lattice, s: int, stop: int, a: int, b: int) -> bool:
    """`1 = top node`, with no `2 =` on the next line: from where nodes were counted (legends.nodes_counted)."""
    words = {lattice.pieces[i].text for i in range(a, min(b, a + LONGEST_SIGN))}
    first = lattice.at(s) == "1" and stop == s + 1 and lattice.at(b + 1) != "2" and lattice.at(b + 2) != "2"
    return (
        first
        and bool(words & {"top", "bottom"})
        and any(e.kind == "NODE" for i in range(a, b) for e in lattice.edges[i])
    )


def _thing(lattice: Lattice, a: int, b: int) -> bool:
    """`bloom = none` is an answer, and no sign for nothing."""
    words = tuple(lattice.pieces[i].text for i in range(a, b))
    if b == a + 1 and len(words[0]) == 1:
        return False  # r = next leaf rolled: a letter may stand for anything
    return any(w.kind == "head" for w in column_words().heads.get(words, ())) or any(
        e.kind in THINGS and e.how == "exact" and e.end == b for e in lattice.edges[a]
    )


def used_elsewhere(lattice: Lattice, sign: Sign, skip: set[int]) -> bool:
    """Whether a sign stands anywhere outside its key."""
    n = sign.at[1] - sign.at[0]
    want = [p.text for p in lattice.pieces[sign.at[0] : sign.at[1]]]
    return any(
        i not in skip and [p.text for p in lattice.pieces[i : i + n]] == want
        for i in range(len(lattice.pieces) - n + 1)
    )


def told(lattice: Lattice, a: int, b: int) -> bool:
    """Whether the words of a meaning say something of the trade: a place, a thing, none."""
    if column_words().cell(lattice.original(a, b)) is not None:
        return True
    return any(
        e.kind in THINGS | PLACES | DENIALS | _FILLS | {"R", "V", "STAGENAME"}
        for i in range(a, b)
        for e in lattice.edges[i]
        if e.end <= b
    )


def cells_with(lattice: Lattice, sign: str) -> list[int]:
    """The pieces at which the sign, a single one, stands by itself between gaps, or all alone behind `3 -`."""
    pieces = lattice.pieces
    return [
        i
        for i, p in enumerate(pieces)
        if lattice.original(i, i + 1) == sign
        and (p.gap >= WIDE or _behind_a_label(lattice, i))
        and (i + 1 >= len(pieces) or pieces[i + 1].form == "nl" or pieces[i + 1].gap >= WIDE)
    ]


def _behind_a_label(lattice: Lattice, i: int) -> bool:
    """`3 - C`, `3. C`, `3: C`: piece i stands behind a number that begins the line, and its mark."""
    pieces = lattice.pieces
    if i < TWO_LETTERS or pieces[i - 1].text not in {"-", ".", ":", ")", "="} or pieces[i - 2].form != "int":
        return False
    return i == TWO_LETTERS or pieces[i - 3].form == "nl"


def cell_like(lattice: Lattice, a: int, b: int) -> bool:
    """`no bloom`, `bloom low only`, `pods full`: what a cell says, and no head."""
    words = [i for i in range(a, b) if not _number_sign(lattice, i) and not _yes_or_no(lattice, i)]
    kinds = {e.kind for i in words for e in lattice.edges[i] if e.end <= b}
    return bool(kinds & DENIALS) or bool(kinds & {"LOW", "BELOWTOP", "R", "V", "BUD", "ROLLED"})


def _yes_or_no(lattice: Lattice, i: int) -> bool:
    """`beans felt, yes or no`: what the cells of the column may say."""
    return lattice.at(i) == "no" and lattice.at(i - 1) in {"or", "/"} and lattice.at(i - 2) == "yes"


def _number_sign(lattice: Lattice, i: int) -> bool:
    """`no. 1`: a number, and none of anything."""
    return lattice.at(i) == "no" and (
        lattice.at(i + 1).isdigit() or (lattice.at(i + 1) == "." and lattice.at(i + 2).isdigit())
    )


def behind_counts(lattice: Lattice, line: Line, letter: str, column: Column | None) -> Sign | None:
    """`T = trifoliates open`, on a line of its own under `1   9T   fl. top node`: the letter behind the counts of the rows."""
    if column is None or column.what not in (["trifoliates"], ["nodes"]) or column.unit or column.by_node:
        return None
    equal = next(
        (i for i in range(line.start, line.end) if lattice.at(i) in {"=", ":"} and lattice.at(i - 1) == letter), None
    )
    own = range(line.start, line.end)
    counted = any(
        p.text == letter and i not in own and lattice.pieces[i - 1].form == "int" and p.gap <= 1
        for i, p in enumerate(lattice.pieces)
        if i
    )
    if equal is None or equal + 1 >= line.end or not counted:
        return None
    return Sign(letter, (equal - 1, equal), (equal + 1, line.end), column)
