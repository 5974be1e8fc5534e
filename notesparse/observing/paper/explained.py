"""Keys in sentences, and keys that put no = between a sign and its meaning (guide 4.21).

`+ felt, - none`, `✓ seen   blank, did not look`, `Pod = biggest on the top four nodes.  Seed: + felt, - none`,
`fl 1, 2, 3 = node down from the top`.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import field, replace

from notesparse.language.columns import column_words, squeeze
from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass, pattern
from notesparse.observing.paper.heads import ORGANS, Column, read_heads
from notesparse.observing.paper.keys import (
    BLANK,
    OPENERS,
    Sign,
    cell_like,
    cells_with,
    organ_named,
    sign_pairs,
    told,
    used_elsewhere,
)
from notesparse.observing.paper.row_labels import follows, read_label
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/explained")

_ARTICLES = _LISTED.words("articles")
_BEHIND = frozenset("*+^°'")
_MARKS = frozenset("+-✓√✔*•xo/·")
_SAYS = _LISTED.words("says")
_LONGEST_BEHIND = 6  # pieces of `r after a figure`
_LONGEST_HEAD = 4  # pieces before a colon
_LONGEST_LINE = 48
_IN_CELLS = 2  # cells that hold a sign of a key with no = in it
_FOR = ("no", "none")  # the fewest words for a figure without a mark
_OPEN, _SHUT = frozenset("(["), frozenset(")].;,")


@dataclass(slots=True)
class Explained:
    """What one line of a key tells: signs, and what columns are of."""

    line: int
    start: int
    end: int
    signs: list[Sign] = field(default_factory=list)
    legends: list[Column] = field(default_factory=list)


_OF_A_PLANT = pattern(r"(p|pl|plt|plant|#)\d+")  # p1 9 trifs, p2 10 trifs: plants, and no signs of a key


def find_explained(lattice: Lattice, lines: Sequence[Line]) -> list[Explained]:
    """The lines, or the last cells of lines, that are such keys from end to end."""
    out: list[Explained] = []
    for line in lines:
        if line.blank or line.end - line.start > _LONGEST_LINE:
            continue
        opened = [c.start for c in line.cells[1:] if lattice.pieces[c.start].text in _OPEN]
        opened += [line.start + 1] if lattice.at(line.start) in OPENERS else []  # code  + felt  - none
        starts = [line.start, *opened, *(c.start for c in line.cells[1:] if _behind_figures(lattice, c.start, c.end))]
        for a in starts:
            got = _explained(lattice, line, a)
            if got is not None and sum(bool(_OF_A_PLANT.fullmatch(sign.text)) for sign in got.signs) < 2:
                got.start = line.start if got.start == line.start + 1 else got.start
                out.append(got)
                break
    out = [one for one in out if not _of_rows(lattice, lines, one)]
    return [one for one in out if not any(_plants_again(one, other) for other in out if other is not one)]


def _of_rows(lattice: Lattice, lines: Sequence[Line], one: Explained) -> bool:
    """`C blooming, A not` under rows A, B, C: more of those plants, and no signs."""
    if any(lattice.pieces[i].text in {"=", ":"} for i in range(one.start, one.end)):
        return False
    heads = [x for x in lines if not x.blank and x.number != one.line]
    found = [read_label(lattice, x.start, x.end) for x in heads]
    names = [label[0][0].casefold() if label is not None else "" for label in found]
    rows = {n for a, b in itertools.pairwise(names) if a and b and follows(a, b) for n in (a, b)}
    return any(s.text in rows for s in one.signs)


def _plants_again(one: Explained, other: Explained) -> bool:
    """`a 9 trifs, b 10 trifs`, and further down `a 11 trifs, b 12 trifs`: plants of two fields, and no signs."""
    again = {s.text for s in one.signs if s.text.isalnum()} & {s.text for s in other.signs}
    return one.line != other.line and len(again) > 1


def _explained(lattice: Lattice, line: Line, a: int) -> Explained | None:
    out = Explained(line.number, a, line.end)
    own = set(range(a, line.end))
    parts = _sentences(lattice, a, line.end)
    new = False
    for x, y in parts:
        alone = bool(out.signs) or _in_cells(lattice, x, own)
        signs, legend, plain = _sentence(lattice, x, y, own, 1 if alone else 2)
        if not signs and legend is None:
            return None
        out.signs += signs
        out.legends += [legend] if legend is not None else []
        new = new or plain or (legend is not None and len(parts) > 1)
    return out if new else None  # one sentence of pairs is a key as `keys` reads it


def _in_cells(lattice: Lattice, i: int, own: set[int]) -> bool:
    """`P seed in pod but not touching.`: a capital that stands by itself between gaps elsewhere."""
    sign = lattice.original(i, i + 1)
    if len(sign) != 1 or not sign.isupper():
        return False
    return len([k for k in cells_with(lattice, sign) if k not in own]) >= _IN_CELLS


def _sentences(lattice: Lattice, a: int, b: int) -> list[tuple[int, int]]:
    pieces = lattice.pieces
    out: list[tuple[int, int]] = []
    start = a
    for i in range(a, b + 1):
        stop = i < b and pieces[i].text in ".;" and i + 1 < b and pieces[i + 1].gap and i > start
        if i == b or (stop and not (pieces[i - 1].text in {"no", "nos"} and pieces[i + 1].text == "of")):
            x, y = start, i
            while x < y and pieces[x].text in _OPEN:
                x += 1
            while y > x and pieces[y - 1].text in _SHUT:
                y -= 1
            if x < y:
                out.append((x, y))
            start = i + 1
    return out


def _sentence(lattice: Lattice, a: int, b: int, own: set[int], fewest: int) -> tuple[list[Sign], Column | None, bool]:
    """The signs or the legend of one sentence, and whether it needs this room to be read."""
    pieces = lattice.pieces
    equals = [i for i in range(a, b) if pieces[i].text == "="]
    behind = _behind_figures(lattice, a, b)
    if behind is not None:
        return [behind], None, True
    colon = next((i for i in range(a + 1, min(a + _LONGEST_HEAD, b - 1)) if pieces[i].text == ":"), None)
    if colon is not None and (not equals or colon < equals[0]):
        got = read_heads(lattice, [range(a, colon)])
        if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label:
            return [], None, False
        signs = sign_pairs(lattice, colon + 1, b) if equals else _plain(lattice, colon + 1, b, own, 1)
        return [replace(s, of=got[0].what[0]) for s in signs], None, True
    if len(equals) == 1:
        legend = _legend(lattice, a, equals[0], b)
        if legend is not None:
            return [], legend, pieces[equals[0] - 1].form == "int" or _measured(lattice, equals[0] + 1, b)
        end = _without_none(lattice, equals[0] + 1, b)
        sign = _made(lattice, a, equals[0], end, None, equals[0] + 1) if end < b and equals[0] == a + 1 else None
        if sign is not None and sign.column is not None:
            return [sign], None, True
    if equals:
        end = _without_mark(lattice, a, b)
        signs = sign_pairs(lattice, a, end)
        if end < b:  # a mark behind figures: it says something, and is no head
            signs = [
                replace(s, absent=True, column=None if pieces[s.at[0]].text in _BEHIND else s.column) for s in signs
            ]
        return signs, None, end < b
    if fewest == 1 or not _plain(lattice, a, b, own, 2):
        figures = _of_figures(lattice, a, b)
        if figures is not None:
            return [], figures, False
    return _plain(lattice, a, b, own, fewest), None, True


def _behind_figures(lattice: Lattice, a: int, b: int) -> Sign | None:
    """`r after a figure: the next one up is still rolled`, `a + behind the number means next leaf rolled`."""
    pieces = lattice.pieces
    while a + 1 < b and (pieces[a].text in OPENERS or pieces[a].text == ":"):
        a += 1
    a += a + 1 < b and pieces[a].text in _ARTICLES and not pieces[a + 1].glued and len(pieces[a + 1].text) == 1
    if a + 1 >= b or len(pieces[a].text) != 1 or pieces[a].form == "int":
        return None
    for k in range(a + 2, min(a + _LONGEST_BEHIND, b - 1)):
        if column_words().cells.get(squeeze(lattice.original(a + 1, k))) != "after":
            continue
        if pieces[k].text in _SAYS and told(lattice, k + 1, b):
            return Sign(pieces[a].text, (a, a + 1), (k + 1, b), None, suffix=True)
    return None


def _without_mark(lattice: Lattice, a: int, b: int) -> int:
    """Where the pairs end before `, no star = none`: a figure with no mark behind it."""
    cells = column_words().cells
    for i in range(b - 1, a, -1):
        if lattice.pieces[i].text == ",":
            words = [lattice.pieces[k].text for k in range(i + 1, b) if lattice.pieces[k].text != "="]
            absent = words[:1] in (["no"], ["without"], ["unmarked"], ["plain"], ["bare"]) and len(words) >= len(_FOR)
            return i if absent and cells.get(words[-1]) == "no" else b
    return b


def _of_figures(lattice: Lattice, a: int, b: int) -> Column | None:
    """`Trifoliates on main stem.`: what the figures of the page are."""
    got = read_heads(lattice, [range(a, b)])
    if len(got) != 1 or got[0].unknown or got[0].what not in (["trifoliates"], ["nodes"]):
        return None
    return got[0] if got[0].by_node is None and got[0].unit is None else None


def _legend(lattice: Lattice, a: int, k: int, b: int) -> Column | None:
    """`Pod = biggest on the top four nodes`, `fl 1, 2, 3 = node down from the top`."""
    left = k
    while left > a and (lattice.pieces[left - 1].form == "int" or lattice.pieces[left - 1].text in {",", "&", "etc"}):
        left -= 1
    named, meant = read_heads(lattice, [range(a, left)]), read_heads(lattice, [range(k + 1, b)], bare_measure=True)
    if len(named) != 1 or len(meant) != 1 or not named[0].known or named[0].label:
        return None
    own, more = named[0], meant[0]
    if own.unknown or more.unknown or more.label or not set(more.what) <= set(own.what):
        return None
    if not (more.place or more.by_node or more.unit or more.measure) or (left < k and not more.by_node):
        return None
    own.take(more)
    return own


def _measured(lattice: Lattice, a: int, b: int) -> bool:
    """`longest on the 4 upper nodes, in 16ths`: what was measured, where or in what, and the thing is named before."""
    got = read_heads(lattice, [range(a, b)], bare_measure=True)
    return len(got) == 1 and not got[0].what and (got[0].measure or got[0].unit is not None)


def _plain(lattice: Lattice, a: int, b: int, own: set[int], fewest: int) -> list[Sign]:
    """`+ felt, - none`: a sign that stands elsewhere in the note, a blank, and what it means; and so on."""
    pieces = lattice.pieces
    cuts = [i for i in range(a, b) if pieces[i].text == "," or (i > a and pieces[i].gap >= WIDE)]
    bounds = [a, *cuts, b]
    out: list[Sign] = []
    others = 0  # parts that explain a blank cell or a bare figure
    last = ""
    blank: Sign | None = None  # blank none
    for x, y in itertools.pairwise(bounds):
        x += x < y and pieces[x].text == ","
        if x >= y:
            continue
        end = _sign_end(lattice, x, y, own)
        if end is not None:
            sign = _made(lattice, x, end, y, out[-1].organ if out else None)
            if sign is None:
                return []
            out.append(sign)
            last = "sign"
            continue
        if pieces[x].text in BLANK:
            others, last = others + 1, "blank"
            if out and x + 1 < y and column_words().cell(lattice.original(x + 1, y)) == "no":
                blank = Sign(pieces[x].text, (x, x + 1), (x + 1, y), None, organ=out[-1].organ)
        elif _figure_at(lattice, x, y) is not None and out:
            sign = _figure(lattice, x, y, out[-1].organ)
            if sign is None:
                return []
            out.append(sign)
            others, last = others + 1, "figure"
        elif last == "sign":  # highest node with a flower, counted down from the tip
            longer = _made(lattice, *out[-1].at, y, out[-2].organ if len(out) > 1 else None)
            if longer is None:
                return []
            out[-1] = longer
        elif last != "blank":
            return []
    signs = sum(not s.figure for s in out)
    marks = sum(not s.figure and pieces[s.at[0]].text in _MARKS for s in out)
    alone = marks or any(lattice.original(s.at[0], s.at[1]).isupper() for s in out)
    enough = signs >= max(2, fewest) or (signs >= 1 and others) or (fewest == 1 and alone)
    out += [blank] if blank is not None else []
    return out if enough else []


def _sign_end(lattice: Lattice, a: int, b: int, own: set[int]) -> int | None:
    """Where the sign at the head of a part ends; None where none stands there."""
    pieces = lattice.pieces
    if pieces[a].text not in _MARKS and not (pieces[a].form == "word" and len(pieces[a].text) == 1):
        return None
    end = a + 1
    if end < b and pieces[end].glued and pieces[end].form == "int" and pieces[a].form == "word":
        end += 1  # f0
    if end >= b or pieces[end].glued:
        return None
    here = Sign(squeeze(lattice.original(a, end)), (a, end), (end, b), None)
    return end if used_elsewhere(lattice, here, own) else None


def _without_none(lattice: Lattice, a: int, b: int) -> int:
    """Where a meaning ends before `, 0 none`, `, 0 or - none`: what such cells say of themselves."""
    cells = column_words().cells
    for i in range(b - 1, a, -1):
        if lattice.pieces[i].text == ",":
            words = [lattice.pieces[k].text for k in range(i + 1, b)]
            if words and all(w in {"or", "=", "for"} or cells.get(w) == "no" for w in words):
                return i
            return b
    return b


def _made(lattice: Lattice, a: int, end: int, b: int, organ: str | None, begin: int | None = None) -> Sign | None:
    """The sign with its meaning (from piece `begin` on), if that is of the trade word for word."""
    sign_end, end = end, begin if begin is not None else end
    got = read_heads(lattice, [range(end, b)])
    text = squeeze(lattice.original(a, sign_end))
    if len(got) > 1 or any(c.unknown for c in got):
        if not told(lattice, end, b):
            return None
        got = []
    column = got[0] if got and got[0].known and not cell_like(lattice, end, b) else None
    if column is not None and lattice.pieces[a].text in _MARKS and not (column.label or column.by_node):
        column = None  # + open bloom: what the cell says
    return Sign(text, (a, sign_end), (end, b), column, organ=organ_named(lattice, end, b, organ))


def _figure_at(lattice: Lattice, a: int, b: int) -> int | None:
    """Where `the figure` ends at the head of a part."""
    k = a
    while k < b and lattice.pieces[k].text in _ARTICLES:
        k += 1
    if k < b and column_words().cells.get(lattice.pieces[k].text) == "figure":
        return k + 1
    return None


def _figure(lattice: Lattice, a: int, b: int, organ: str | None) -> Sign | None:
    k = _figure_at(lattice, a, b)
    assert k is not None
    end = k
    while k < b and lattice.pieces[k].text in _ARTICLES:
        k += 1
    got = read_heads(lattice, [range(k, b)])
    if len(got) != 1 or got[0].unknown or got[0].label or not got[0].by_node:
        return None
    return Sign("", (a, end), (k, b), got[0], organ=organ, figure=True)


def apply_explained(columns: Sequence[Column], found: Sequence[Explained]) -> set[int]:
    """Give columns what the key says of them; returns the lines that said something."""
    used: set[int] = set()
    for told_of in found:
        for legend in told_of.legends:
            for c in columns:
                if set(legend.what) & set(c.what):
                    c.take(legend)
                    used.add(told_of.line)
        for s in told_of.signs:
            if not s.figure or s.column is None:
                continue
            for c in columns:
                if c.what[:1] == [s.organ] or (s.organ is None and c.what[:1] and c.what[0] in ORGANS):
                    c.by_node = c.by_node or s.column.by_node
                    used.add(told_of.line)
    return used
