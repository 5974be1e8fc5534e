"""Nodes that go by a letter with their number, told once: `N1 = top node, N2 = next one down, etc.` (guide 4.10, 4.21).

Wherever such a sign stands on the page it is the place, and no plant, field or count.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.parse import phrases_at
from notesparse.text.lattice import Edge, Lattice

_LISTED = cue_page("paper/node_signs")
_COMMON = cue_page("shared")

_LONGEST = 3  # letters
_MOST = 25  # nodes
_IS = _LISTED.words("is")
_BOTTOM = _COMMON.words("low")
_NODE = _COMMON.words("node")
_ON = _LISTED.words("on")


def node_signs(lattice: Lattice) -> tuple[int, int, str] | None:
    """The pieces [a, b) of the key and whether it counts down or up; its signs elsewhere now mean the nodes."""
    for i in range(len(lattice.pieces) - 3):
        how = _opens(lattice, i)
        if how is None:
            continue
        sign, end = lattice.pieces[i].text, _end(lattice, i)
        for k in range(len(lattice.pieces) - 1):
            if not i <= k < end and _sign_at(lattice, k, sign):
                _mean(lattice, k, how)
        return i, end, how
    return None


def _sign_at(lattice: Lattice, k: int, sign: str) -> bool:
    p = lattice.pieces[k]
    if (
        p.text != sign
        or k + 1 >= len(lattice.pieces)
        or (k and p.glued and lattice.pieces[k - 1].form in {"word", "int"})
    ):
        return False
    figure = lattice.pieces[k + 1]
    return figure.form == "int" and figure.glued and 1 <= int(figure.text) <= _MOST


def _opens(lattice: Lattice, i: int) -> str | None:
    """`N1 = top node` at piece i: whether it counts down from the top, or up."""
    p = lattice.pieces[i]
    if p.form != "word" or not p.text.isalpha() or len(p.text) > _LONGEST or not _sign_at(lattice, i, p.text):
        return None
    if lattice.at(i + 1) != "1" or lattice.at(i + 2) not in _IS:
        return None
    k = i + 3 + (lattice.at(i + 3) == "the")
    if k >= len(lattice.pieces):
        return None
    if lattice.at(k) in _BOTTOM:
        return "up" if lattice.at(k + 1) in _NODE else None
    return "down" if any(x.rule == "place" and x.form == "top_1" for x in phrases_at(lattice, k)) else None


def _end(lattice: Lattice, i: int) -> int:
    """Where the key ends that begins at piece i: with its sentence, or before a word that says something else."""
    pieces = lattice.pieces
    sign, k, good = pieces[i].text, i + 2, i + 2
    while k < len(pieces) and pieces[k].form != "nl":
        if _sign_at(lattice, k, sign):
            k += 2
            good = k
            continue
        top = [x.end for x in phrases_at(lattice, k) if x.rule == "place" and x.form == "top_1"]
        if not top and pieces[k].text not in _ON:
            break
        k = max(top, default=k + 1)
        good = k if pieces[k - 1].form == "word" else good
    return good


def _mean(lattice: Lattice, k: int, how: str) -> None:
    """The sign at piece k is a node."""
    number = lattice.pieces[k + 1].text
    if how == "down":
        lattice.edges[k], lattice.edges[k + 1] = [Edge(k + 2, "NODEFIG", number, 0.0, "exact")], []
    else:
        lattice.edges[k] = [Edge(k + 1, "NODE", "node", 0.0, "exact")]
        lattice.edges[k + 1] = [Edge(k + 2, "INT", number, 0.0, "exact")]
    for x in (k, k + 1):
        lattice.filler[x], lattice.soft[x], lattice.known[x] = False, None, True
    lattice.changed()
