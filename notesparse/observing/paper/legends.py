"""Lines that say how to read a column: `pods in 16ths`, `sizes in mm`, `T = trifoliolates unrolled` (guide 4.21)."""

from __future__ import annotations

from itertools import pairwise

from notesparse.language.columns import column_words
from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import Column, ends_sentence, read_heads
from notesparse.observing.paper.keys import BLANK, OPENERS, before_nought, colons, first_node, opener
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/legends")
_COMMON = cue_page("shared")

_LONGEST_COUNT = 12  # pieces of words that say how nodes are counted
_COUNTING = {
    "node": _COMMON.words("node"),
    "count": _LISTED.words("counting_count"),
    "equal": _LISTED.words("counting_equal"),
    "top": _COMMON.words("top"),
    "bottom": _COMMON.words("low") | {"ground", "soil"},
    "down": _LISTED.words("counting_down"),
    "up": _LISTED.words("counting_up"),
    "one": _LISTED.words("counting_one"),
}
_BETWEEN = _LISTED.words("between")
_OF_A_COLUMN = _LISTED.words("of_a_column")
_TWO = 2  # words that are a head of their own: all sizes


_FOR_READ_KEY = _LISTED.words("for_read_key")


def read_key(lattice: Lattice, line: Line) -> tuple[str, Column] | None:
    """A key line `T = trifoliolates unrolled`: the letter and what it stands for."""
    first, end = _inside(lattice, line) if lattice.at(line.start) in "([" else (line.start, line.end)
    run = list(range(first, end))
    texts = [lattice.pieces[i].text for i in run]
    named = opener(lattice, first, end) > first
    behind = colons(lattice, first, end, named) if "=" not in texts else []
    if "=" not in texts and len(behind) != 1:
        return None
    k = texts.index("=") if "=" in texts else behind[0] - first
    name = k - 1
    while name > 0 and texts[name] in _OF_A_COLUMN:  # pod col. =
        name -= 1
    if (
        sum(x == "=" and not first_node(lattice, first, i) for i, x in zip(run, texts, strict=True)) > 1
        or not 1 <= k <= 4
        or (len(texts[name]) > 4 and (texts[name],) not in column_words().heads)
        or (name > 0 and texts[0] not in _FOR_READ_KEY)
    ):
        return None
    got = read_heads(lattice, [range(run[k] + 1, before_nought(lattice, run[k] + 1, end))])
    if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label:
        return None
    return texts[name], got[0]


def read_legends(lattice: Lattice, line: Line) -> list[Column]:
    """The legends of a line that holds one a sentence: `(blm T = top two, L = low.  pod, in., best one of top 4)`."""
    a, b = _inside(lattice, line)
    out = one_a_comma(lattice, line)
    if out:
        return out
    start = a
    for i in range(a, b + 1):
        if i == b or ends_sentence(lattice, i):
            part = Line(line.number, start, i, ())
            one = (_of_a_head(lattice, part) or read_legend(lattice, part)) if start < i else None
            if one is None:
                return []
            out.append(one)
            start = i + 1
    return out if len(out) > 1 else []


def _of_a_head(lattice: Lattice, line: Line) -> Column | None:
    """`Flower = open flower at the top two nodes`: what stands before the = is the head itself."""
    key = read_key(lattice, line)
    return key[1] if key is not None and (key[0],) in column_words().heads else None


_BOTH = _COMMON.words("all_or_each")


def _inside(lattice: Lattice, line: Line) -> tuple[int, int]:
    """The pieces of a line without its brackets."""
    a, b = line.start, line.end
    while a < b and lattice.pieces[a].text in "([":
        a += 1
    while b > a and lattice.pieces[b - 1].text in ")].":
        b -= 1
    return a, b


def one_a_comma(lattice: Lattice, line: Line) -> list[Column]:
    """`pod = longest, seed = largest, both from the upper 4 nodes`: a legend a comma, and what is said of all of them."""
    a, b = _inside(lattice, line)
    if a + 1 < b and lattice.pieces[a].text in OPENERS and lattice.pieces[a + 1].text in {":", "-"}:
        a += 2
    texts = [lattice.pieces[i].text for i in range(a, b)]
    cuts = [a - 1, *(a + k for k, x in enumerate(texts) if x == ","), b]
    parts = [(x + 1, y) for x, y in pairwise(cuts) if x + 1 < y]
    told = [(x, y) for x, y in parts if lattice.pieces[x].text not in _BOTH]
    if len(told) < _TWO or not all("=" in texts[x - a : y - a] for x, y in told):
        return []
    columns = [read_heads(lattice, [[i for i in range(x, y) if lattice.pieces[i].text != "="]]) for x, y in told]
    shared = [read_heads(lattice, [range(x + 1, y)]) for x, y in parts if (x, y) not in told]
    if any(len(c) != 1 or c[0].unknown or c[0].label or not c[0].what for c in columns):
        return []
    if any(len(c) != 1 or c[0].unknown or c[0].what or not (c[0].place or c[0].unit) for c in shared):
        return []
    out = [c[0] for c in columns]
    for (of_all,) in shared:
        for c in out:
            c.place, c.unit = c.place or of_all.place, c.unit or of_all.unit
    return out


def read_legend(lattice: Lattice, line: Line) -> Column | None:
    """A line that only says how to read a column: `pods in 16ths`, `pod, cm`, `sizes in mm`, `blm. code: 0 = no open bloom ...`."""
    if line.blank or line.end - line.start > 30:
        return None
    line = _without_the_tool(lattice, _without_blanks(lattice, line))
    if lattice.at(line.start) in _NOTES and lattice.at(line.start + 1) == ":" and line.start + _TWO < line.end:
        line = Line(line.number, line.start + _TWO, line.end, line.cells, line.tabbed)  # NOTE: pods in eighths
    start = line.start + (lattice.pieces[line.start].text == "all" and line.end - line.start > _TWO)
    got = read_heads(lattice, [range(start, line.end)])  # all pods and seeds from the upper 4 nodes: no sum of them
    c = _in_the_best_pod(lattice, line, got) if len(got) == _TWO else got[0] if len(got) == 1 else None
    if c is None:
        return None
    c.sizes = c.sizes or (c.place is not None and _only_a_place(c, lattice))
    if (
        c.unknown
        or not (c.what or c.sizes)
        or c.label
        or not (c.unit or c.place or c.by_node or c.codes or c.percent or c.of or _basis(c, lattice))
    ):
        return None
    if (
        any(lattice.pieces[i].form in {"int", "dec"} for i in range(line.start, line.end))
        and not c.codes
        and not c.place
        and not c.of
        and c.unit not in {"16", "8", "4"}
        and not _basis(c, lattice)
    ):
        return None
    return c


_NOTES = _LISTED.words("notes")
_LOOKED = _LISTED.words("looked")
_OF_A_BLANK = _LISTED.words("of_a_blank")


def _without_blanks(lattice: Lattice, line: Line) -> Line:
    """The line without `, blank where I did not open any`, `, blanks not checked`: a blank cell says nothing by itself."""
    k = next((i for i in range(line.start + 1, line.end) if lattice.at(i) in BLANK), None)
    if k is None or lattice.at(k - 1) not in {",", ";", "("}:
        return line
    said = [lattice.at(i) for i in range(k + 1, line.end) if lattice.at(i) not in ".)"]
    denied = [x for x in said if x == "not" or x.endswith(("n't", "nt"))]
    looked = [x for x in said if x in _LOOKED]
    if not denied or not looked or not set(said) <= {*_LOOKED, *_OF_A_BLANK, *denied}:
        return line
    return Line(line.number, line.start, k - 1, line.cells, line.tabbed)


_MEASURED = _LISTED.words("measured")
_TOOLS = _LISTED.words("tools")


def _without_the_tool(lattice: Lattice, line: Line) -> Line:
    """The line without `, I used the ruler`, `, measured with calipers`: what was measured with says nothing more."""
    _, b = _inside(lattice, line)
    if lattice.at(b - 1) not in _TOOLS:
        return line
    k = next((i for i in range(b - 2, line.start, -1) if lattice.at(i) in {",", ";", "-"}), None)
    if k is None or lattice.at(k + 1) not in _MEASURED:
        return line
    return Line(line.number, line.start, k, line.cells, line.tabbed)


def _in_the_best_pod(lattice: Lattice, line: Line, got: list[Column]) -> Column | None:
    """`beans, best pod on the top 4 nodes`: the pod tells where the seed was looked for."""
    seeds, pods = got
    only_where = pods.place is not None and not (pods.unit or pods.unknown or seeds.place)
    if seeds.what != ["seeds"] or pods.what != ["pods"] or not only_where:
        return None
    pod = next((i for i in range(line.start, line.end) if any(e.kind == "POD" for e in lattice.edges[i])), line.start)
    if not any(w.kind == "measure" for w in column_words().heads.get((lattice.at(pod - 1),), ())):
        return None
    seeds.place = pods.place
    seeds.unit = None if seeds.unit == "in" else seeds.unit  # seed in the longest pod
    return seeds


def _only_a_place(c: Column, lattice: Lattice) -> bool:
    """`upper four nodes only`: where all that is measured was looked for."""
    return not c.what and any(lattice.pieces[i].text == "only" for i in c.pieces)


def _basis(c: Column, lattice: Lattice) -> bool:
    """`counts from unifoliate = 1`: how nodes were counted."""
    return bool({"unifoliate", "unif"} & {lattice.pieces[i].text for i in c.pieces})


def nodes_counted(lattice: Lattice) -> list[tuple[int, int, str]]:
    """`nodes counted down from the top`, `(node 1 = top)`, `I count the nodes from the bottom`: how the page counts nodes in
    every place that gives only a number; the pieces [a, b) of the words that say so, and down or up. None where two of them
    differ."""
    out: list[tuple[int, int, str]] = []
    pieces = lattice.pieces
    if not _said(lattice, "count") and not (_said(lattice, "one") and _said(lattice, "equal")):
        return out
    i = 0
    while i < len(pieces):
        told = _direction(lattice, i)
        if told is not None:
            out.append((i, *told))
        i = told[0] if told is not None else i + 1
    return out if len({how for _, _, how in out}) == 1 else []


def _said(lattice: Lattice, kind: str) -> bool:
    """Whether a word of this kind stands in the note at all."""
    return not lattice.said.isdisjoint(_COUNTING[kind])


def _of_a_plant(lattice: Lattice, k: int) -> bool:
    """`on the third node down. Number two has ...`: the sentence is over, or a plant's number begins."""
    if lattice.at(k) in {".", ";"} and lattice.soft[k] is None and k + 1 < len(lattice.pieces):
        return lattice.pieces[k + 1].form == "word" and not lattice.pieces[k + 1].glued
    numbered = k + 1 < len(lattice.pieces) and any(e.kind == "INT" for e in lattice.edges[k + 1])
    return lattice.at(k) in {"number", "numbers", "no"} and numbered


_FOR_DIRECTION = _LISTED.words("for_direction")


def _direction(lattice: Lattice, i: int) -> tuple[int, str] | None:
    """Where words that say how nodes are counted end, if they begin at piece i: a node, a counting, and from where."""
    pieces = lattice.pieces
    said: set[str] = set()
    if any(e.end == i and e.kind in {"ORD", "ORDSOUND"} for k in range(max(0, i - 2), i) for e in lattice.edges[k]):
        return None  # a flower at the third node counting from the top: a place
    k = i
    while k < len(pieces) and pieces[k].form != "nl" and k - i < _LONGEST_COUNT:
        text = pieces[k].text
        kind = next((x for x, group in _COUNTING.items() if text in group), None)
        if (kind is None and not (text in _BETWEEN and k > i)) or _of_a_plant(lattice, k):
            break
        said |= {kind} if kind is not None else set()
        k += 1
    while k > i and pieces[k - 1].text in _BETWEEN:
        k -= 1
    ways = said & _FOR_DIRECTION
    counted = {"count", "one", "equal"} <= said  # counting down, top is 1
    if not ("node" in said or counted) or not ways or {"top", "bottom"} <= ways:
        return None
    ended = said & {"one", "equal"}  # node 1 is the top one, and no top node that is anything else
    if ended != {"one", "equal"} if ended else "count" not in said:
        return None
    if "one" in said and (not ways & {"top", "bottom"} or (i and pieces[i - 1].text in {"plant", "pl", "plt", "#"})):
        return None
    return k, "up" if "bottom" in ways or ways == {"up"} else "down"
