"""A number and the noun beside it: whose number it is."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/counts/nouns")
_COMMON = cue_page("shared")
_WIDE = 2  # blanks of a gap


def number_of_another(lattice: Lattice, p: Phrase) -> bool:
    """`[smudge] tri           1 bloom`: the number behind a gap counts what stands behind it."""
    at, last = p.path[-1]
    behind = kinds(lattice, last.end) & {"FLOWER", "POD", "SEED", "NODE", "NODES", "TRIF", "BEAN"}
    return last.kind == "INT" and lattice.pieces[at].gap >= _WIDE and bool(behind)


def key_of_the_next(lattice: Lattice, p: Phrase) -> bool:
    """`3 tf9`: the leaf word is written to the count behind it, and the number before it is no count."""
    pieces, last = lattice.pieces, p.end - 1
    return (
        p.end < len(pieces)
        and p.end == p.start + 2
        and pieces[p.end].glued
        and pieces[p.end].form == pieces[p.start].form
        and text(lattice, p.end).isdigit()
        and not pieces[last].glued
    )


def and_between(lattice: Lattice, p: Phrase) -> bool:
    """`from the top and one at the fifth`: the number is of what follows."""
    return any(text(lattice, i) in {"and", "&"} for i in range(p.start + 1, p.path[-1][0]))


def of_the_key_before(lattice: Lattice, p: Phrase) -> bool:
    """`fl=3 pod=no`: the figure is of what stands before it."""
    return text(lattice, p.start - 1) == "=" and text(lattice, p.end) == "=" and lattice.pieces[p.start].form == "int"


def comma_inside(lattice: Lattice, p: Phrase) -> bool:
    """`on node 4 of 6 plants, the rest had`: another sentence begins at the comma."""
    return any(text(lattice, i) == "," for i in range(p.start, p.end))


def has_its_number(lattice: Lattice, p: Phrase) -> bool:
    """`the top 2 nodes, two had them lower`: the noun has its number before it, and another sentence begins."""
    first, last = p.path[0][1], p.path[-1][0]
    if any(e.kind == "OPEN" for _, e in p.path) and p.start and kinds(lattice, p.start - 1) & {"INT"}:
        return True  # five trifoliates open three's only got four
    if p.start == 0 or first.end >= p.end or not any(text(lattice, i) == "," for i in range(first.end, last)):
        return False
    return lattice.pieces[p.start - 1].form == "int" or bool(kinds(lattice, p.start - 1) & {"INT", "ORD", "TOP"})


_FOR_INSIDE_AN_ORDINAL = _COMMON.words("ordinal_tails")


def inside_an_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`2nd 9`: the end of an ordinal is no word for a node."""
    first = lattice.pieces[p.start]
    return (
        first.text in _FOR_INSIDE_AN_ORDINAL
        and first.glued
        and bool(p.start)
        and lattice.pieces[p.start - 1].form == "int"
    )


def heard_as_v(lattice: Lattice, p: Phrase) -> bool:
    """`plant four be | ten flours`: V10 and flowers."""
    return text(lattice, p.start - 1) in {"be", "bee", "vee"} and p.path[0][1].kind == "INT"


def decimal(lattice: Lattice, p: Phrase) -> bool:
    """`rain gauge had point eight`: a figure, and no stop."""
    return text(lattice, p.start) == "point" and p.start > 0 and lattice.pieces[p.start - 1].form in {"word", "int"}


_NOUNS = frozenset({"TRIF", "NODES", "POD", "SEED", "FLOWER"})
_NO_HEAD = _LISTED.words("no_head")


def of_the_noun_before(lattice: Lattice, p: Phrase) -> bool:
    """`pod 14   fl top`, `pod 14 tf 12`, `nd 13 fl top two`: the number is of the noun before it, and no 14 flowers."""
    if p.start == 0 or lattice.pieces[p.start].form != "int":
        return False
    before = {e.kind for e in lattice.edges[p.start - 1] if e.how == "exact" and e.end == p.start} & _NOUNS
    if not before or lattice.pieces[p.start].gap >= _WIDE or text(lattice, p.start - 2) in _NO_HEAD:
        return False
    counted = p.start > 1 and lattice.pieces[p.start - 2].form in {"int", "dec"}
    heads = counted and (p.start == 2 or lattice.pieces[p.start - 3].form == "nl")  # 1 pod 14 tf 12
    labelled = counted and any(
        e.kind in {"PLANT", "PLETTER"} and e.end == p.start - 2 for e in lattice.edges[max(0, p.start - 3)]
    )
    apart = heads and lattice.pieces[p.start - 1].gap >= _WIDE
    if counted and not (heads or labelled):
        return False  # 12 tf 14 pods
    behind = p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "int"
    behind = behind and not kinds(lattice, p.end + 1) & _NOUNS
    if behind and before & {"POD", "SEED"} and p.form in {"trif_n", "nodes_n"}:
        return True
    if heads and not apart:
        return False  # 12 nodes 11 trifs
    return "NODES" in before or lattice.pieces[p.path[-1][0]].gap >= _WIDE


def noun_of_next(lattice: Lattice, p: Phrase) -> bool:
    """`fl=1,2  pd=none`, `15    Nodes: 16`: behind a gap, a noun with a mark behind it is the head of what follows."""
    if len(p.path) < 2 or text(lattice, p.end) not in {":", "="}:
        return False
    at, last = p.path[-1]
    return (
        last.end == p.end
        and lattice.pieces[at].gap >= _WIDE
        and p.path[0][1].kind in {"INT", "DEC", "FRAC"}
        and p.path[0][0] < at
    )


def letter_at_a_figure(lattice: Lattice, p: Phrase) -> bool:
    """`p1 N3 seed touching`: the letter stands at its figure and apart from what is before it, and is no `and`."""
    pieces = lattice.pieces
    return any(
        e.kind == "AND" and pieces[i].text == "n" and not pieces[i].glued and pieces[e.end].glued
        for i, e in p.path[:-1]
        if e.end < len(pieces)
    )
