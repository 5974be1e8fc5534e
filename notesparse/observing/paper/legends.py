"""Lines that say how to read a column: `pods in 16ths`, `sizes in mm`, `T = trifoliolates unrolled` (guide 4.21)."""

from __future__ import annotations

from itertools import pairwise

from notesparse.observing.paper.heads import Column, ends_sentence, read_heads
from notesparse.observing.paper.keys import OPENERS
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_TWO = 2  # words that are a head of their own: all sizes


def read_key(lattice: Lattice, line: Line) -> tuple[str, Column] | None:
    """A key line `T = trifoliolates unrolled`: the letter and what it stands for."""
    run = list(range(line.start, line.end))
    texts = [lattice.pieces[i].text for i in run]
    if "=" not in texts:
        return None
    k = texts.index("=")
    if (
        texts.count("=") > 1
        or not 1 <= k <= 4
        or len(texts[k - 1]) > 4
        or (k > 1 and texts[0] not in {"key", "legend", "code", "codes"})
    ):
        return None
    got = read_heads(lattice, [run[k + 1 :]])
    if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label:
        return None
    return texts[k - 1], got[0]


def read_legends(lattice: Lattice, line: Line) -> list[Column]:
    """The legends of a line that holds one a sentence: `(blm T = top two, L = low.  pod, in., best one of top 4)`."""
    a, b = _inside(lattice, line)
    out = one_a_comma(lattice, line)
    if out:
        return out
    start = a
    for i in range(a, b + 1):
        if i == b or ends_sentence(lattice, i):
            one = read_legend(lattice, Line(line.number, start, i, ())) if start < i else None
            if one is None:
                return []
            out.append(one)
            start = i + 1
    return out if len(out) > 1 else []


_BOTH = frozenset({"both", "all", "each"})


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
    start = line.start + (lattice.pieces[line.start].text == "all" and line.end - line.start > _TWO)
    got = read_heads(lattice, [range(start, line.end)])  # all pods and seeds from the upper 4 nodes: no sum of them
    if len(got) != 1:
        return None
    c = got[0]
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


def _basis(c: Column, lattice: Lattice) -> bool:
    """`counts from unifoliate = 1`: how nodes were counted."""
    return bool({"unifoliate", "unif"} & {lattice.pieces[i].text for i in c.pieces})


__all__ = ["one_a_comma", "read_key", "read_legend", "read_legends"]
