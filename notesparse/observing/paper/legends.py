"""Lines that say how to read a column: `pods in 16ths`, `sizes in mm`, `T = trifoliolates unrolled` (guide 4.21)."""

from __future__ import annotations

from notesparse.observing.paper.heads import Column, ends_sentence, read_heads
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
    a, b = line.start, line.end
    while a < b and lattice.pieces[a].text in "([":
        a += 1
    while b > a and lattice.pieces[b - 1].text in ")].":
        b -= 1
    out: list[Column] = []
    start = a
    for i in range(a, b + 1):
        if i == b or ends_sentence(lattice, i):
            one = read_legend(lattice, Line(line.number, start, i, ())) if start < i else None
            if one is None:
                return []
            out.append(one)
            start = i + 1
    return out if len(out) > 1 else []


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


__all__ = ["read_key", "read_legend", "read_legends"]
