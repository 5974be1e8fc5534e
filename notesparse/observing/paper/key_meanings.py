"""What the words of a note mean once a key has said so: signs in running words, `@ 3`, and letters with a node's number (guide 4.21).

`keys` reads the key; `keyed_cells` gives its signs to the cells of tables.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.observing.paper.heads import ORGANS
from notesparse.observing.paper.keys import DENIALS, ORGAN_KINDS, PLACES, THINGS, TWO_LETTERS, Sign
from notesparse.reading.parse import phrases_at
from notesparse.text.columns import WIDE
from notesparse.text.lattice import Edge, Lattice

_MOST_NODES = 28
_AS_ONE = {"top_1": "TIP", "lower": "LOW", "top_four": "TOPSOUND"}  # a place -> the kind of one word that is that place


def explain(lattice: Lattice, signs: Sequence[Sign]) -> str | None:
    """Let the words of the note mean what the key says of them; returns how `@ 3` counts nodes, if the key says so."""
    at_node: str | None = None
    skip = {i for s in signs for i in range(s.at[0], s.meaning[1])}
    for s in signs:
        _counts_down(lattice, s, skip)
        fill = _fill(lattice, s)
        if fill is not None:
            _mean(lattice, signs, s, skip, fill)
            continue
        place = _one_place(lattice, s)
        if place is not None:
            _mean(lattice, signs, s, skip, place)
            continue
        if s.text == "-" and any(e.kind in DENIALS and e.end == s.meaning[1] for e in lattice.edges[s.meaning[0]]):
            _dash_is_none(lattice, skip)
        if s.column is None or s.figure or s.text.isdigit():
            continue  # a figure may stand for anything
        if s.text == "@":
            at_node = s.column.by_node
            continue
        if s.column.by_node == "down" and s.column.what[:1] and s.column.what[0] in ORGANS:
            number_nodes(lattice, s.text, skip)
        if not s.column.known or s.at[1] - s.at[0] != 1:
            continue
        edge = next(
            (
                e
                for i in range(*s.meaning)
                for e in lattice.edges[i]
                if e.kind in THINGS - {"OPEN", "ROLLED"} and e.how == "exact"
            ),
            None,
        )
        if edge is not None:
            _mean(lattice, signs, s, skip, edge)
    return at_node


def _counts_down(lattice: Lattice, s: Sign, skip: set[int]) -> None:
    """`2d = two nodes down`, `2d = second node down`: a figure with the same letters behind it is a node counted down, whatever
    the figure: `3d` too."""
    first, end = s.at
    tail = lattice.at(end - 1)
    if end - first != TWO_LETTERS or lattice.pieces[first].form != "int" or not tail.isalpha() or s.figure or s.suffix:
        return
    n = int(lattice.at(first))
    if not any(
        p.form in {"ord_down", "num_down"}
        and p.end == s.meaning[1]
        and n in [e.means for _, e in p.path if e.kind in {"INT", "ORD"}]
        for p in phrases_at(lattice, s.meaning[0])
    ):
        return
    for i in range(len(lattice.pieces) - 1):
        here, letter = lattice.pieces[i], lattice.pieces[i + 1]
        if (
            here.form != "int"
            or i in skip
            or letter.text != tail
            or not letter.glued
            or not 1 <= int(here.text) <= _MOST_NODES
        ):
            continue
        after = lattice.pieces[i + 2] if i + 2 < len(lattice.pieces) else None
        if after is not None and after.glued and after.form not in {"mark", "nl"}:
            continue
        lattice.edges[i] = [Edge(i + 2, "NODEFIG", int(here.text), 0.0, "exact")]
        lattice.filler[i], lattice.known[i] = False, True
        lattice.changed()


def _fill(lattice: Lattice, s: Sign) -> Edge | None:
    """`t = touching`, `nt = not touching`: what the whole meaning says of how the seeds lie, where the sign is letters."""
    if s.figure or s.suffix or not s.text.isalpha() or s.at[1] - s.at[0] != 1:
        return None
    return next(
        (
            e
            for e in lattice.edges[s.meaning[0]]
            if e.kind in {"TOUCHING", "GAPS"} and e.end == s.meaning[1] and e.how == "exact"
        ),
        None,
    )


def _one_place(lattice: Lattice, s: Sign) -> Edge | None:
    """`tn = top node`, `lo = low nodes`: the whole meaning is one place, and the sign is letters that nothing else is."""
    if s.column is not None or s.figure or s.suffix or not s.text.isalpha() or len(s.text) < TWO_LETTERS:
        return None
    if s.at[1] - s.at[0] != 1 or any(e.how == "exact" for e in lattice.edges[s.at[0]]):
        return None
    forms = {p.form for p in phrases_at(lattice, s.meaning[0]) if p.rule == "place" and p.end == s.meaning[1]}
    kind = next((k for form, k in _AS_ONE.items() if form in forms), None)
    return Edge(s.at[1], kind, s.text, 0.0, "exact") if kind is not None else None


def _dash_is_none(lattice: Lattice, skip: set[int]) -> None:
    """`f -` at the end of a cell, where the key says `- = none`."""
    pieces = lattice.pieces
    for i in range(1, len(pieces)):
        ends = i + 1 == len(pieces) or pieces[i + 1].form == "nl" or pieces[i + 1].gap >= WIDE
        organ = any(e.kind in ORGAN_KINDS and e.how == "exact" for e in lattice.edges[i - 1])
        if i not in skip and pieces[i].text == "-" and ends and organ and 0 < pieces[i].gap < WIDE:
            lattice.edges[i] = [Edge(i + 1, "NONE", "none", 0.0, "exact")]
            lattice.filler[i], lattice.known[i] = False, True
            lattice.changed()


def _mean(lattice: Lattice, signs: Sequence[Sign], s: Sign, skip: set[int], edge: Edge) -> None:
    """Wherever the sign stands it says what the key says."""
    for i, p in enumerate(lattice.pieces):
        if p.text == s.text and i not in skip and not _longer(lattice, signs, s, i):
            lattice.edges[i] = [e for e in lattice.edges[i] if e.kind in {"LETTER"}] + [
                Edge(i + 1, edge.kind, edge.means, 0.0, "exact")
            ]
            lattice.filler[i], lattice.known[i] = False, True
            lattice.changed()


def number_nodes(lattice: Lattice, sign: str, skip: set[int]) -> bool:
    """`f 3` where the key says that the figure is the node counted down; `f 0` is none. Whether any stands so."""
    found = False
    pieces = lattice.pieces
    for i in range(len(pieces) - 1):
        k = i + 1
        if i in skip or pieces[i].text != sign or pieces[k].form != "int" or pieces[k].gap > 1:
            continue
        if any(e.end > k + 1 for e in lattice.edges[k]):
            continue  # p 1/4: a size
        n = int(pieces[k].text)
        after = lattice.edges[k + 1] if k + 1 < len(pieces) and pieces[k + 1].form != "nl" else []
        if n > _MOST_NODES or any(e.kind in THINGS | PLACES | {"INCH", "MM", "CM", "OF", "PCT"} for e in after):
            continue
        _is_node(lattice, k, n)
        found = True
        while n and (k := _next_figure(lattice, k)):
            _is_node(lattice, k, int(pieces[k].text))
    return found


def _is_node(lattice: Lattice, k: int, n: int) -> None:
    lattice.edges[k] = [Edge(k + 1, "NODEFIG" if n else "NONE", n or "none", 0.0, "exact")]
    lattice.filler[k], lattice.known[k] = False, True
    lattice.changed()


_JOINS = frozenset({",", "&", "+", "-"})


def _next_figure(lattice: Lattice, k: int) -> int:
    """`f 1,2`, `f 1-3`, `f 1, 2` at the end of a line: the next node that bears one; 0 where there is none."""
    pieces = lattice.pieces
    j = k + 2
    if j >= len(pieces) or pieces[k + 1].text not in _JOINS or not pieces[k + 1].glued or pieces[j].form != "int":
        return 0
    higher = int(pieces[k].text) < int(pieces[j].text) <= _MOST_NODES
    last = j + 1 >= len(pieces) or pieces[j + 1].form == "nl" or pieces[j + 1].text in {".", ";"}
    apart = last or pieces[j + 1].gap > 0 or pieces[j + 1].text in _JOINS
    return j if higher and (last or (pieces[j].glued and apart)) else 0


def _longer(lattice: Lattice, signs: Sequence[Sign], s: Sign, i: int) -> bool:
    """`t2` of the key stands here, and not its `t`."""
    text = lattice.text[lattice.pieces[i].span.start :].casefold()
    return any(o is not s and len(o.text) > len(s.text) and text.startswith(o.text) for o in signs)
