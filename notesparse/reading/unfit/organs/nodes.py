"""Nodes that are no count of all, or none at all."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/organs/nodes")
_COMMON = cue_page("shared")


def colon(lattice: Lattice, p: Phrase) -> bool:
    """`nd:9 fl:n`: a count, and no place."""
    return text(lattice, p.path[0][1].end) in {":", "="} and p.path[0][1].kind == "NODE"


def no_colon(lattice: Lattice, p: Phrase) -> bool:
    return not colon(lattice, p)


_BEHIND_THOSE_NODES = _LISTED.words("behind_those_nodes")


def those_nodes(lattice: Lattice, p: Phrase) -> bool:
    """`same four nodes`, `the four nodes above it have blooms`: nodes told of, and no count of all."""
    before, behind = text(lattice, p.start - 1), text(lattice, p.end)
    return before in {"same", "those", "these"} or (before == "the" and behind in _BEHIND_THOSE_NODES)


def on_so_many_nodes(lattice: Lattice, p: Phrase) -> bool:
    """`blooms on three nodes`, `pods on nodes 3 thru 6`, `two nodes blooming`: nodes that bear something, and no count of
    all."""
    few = all(e.means <= _FEW_NODES for _, e in p.path if e.kind == "INT")
    bearing = few and text(lattice, p.end) in _BEARING
    return text(lattice, p.start - 1) in {"on", "across"} or (bearing and _borne_at(lattice, p.end))


_FEW_NODES = 4
_WITH = _LISTED.words("with")
_BEARING = _WITH | _COMMON.words("blooming") | {"bearing"}


def _borne_at(lattice: Lattice, i: int) -> bool:
    """A word for what nodes bear stands at piece i, or behind `in`, `with open`, `of`."""
    i += text(lattice, i) in _WITH
    i += text(lattice, i) == "open"
    return text(lattice, i) == "bearing" or bool(kinds(lattice, i) & {"FLOWER", "POD", "SEED", "BLOOMING"})


_SOUND_SO_MANY = _LISTED.words("sound_so_many")


def of_the_top(lattice: Lattice, p: Phrase) -> bool:
    """`flours in the top to | notes are two`: the nodes of a place, and no count of all."""
    if text(lattice, p.start - 1) not in _SOUND_SO_MANY or text(lattice, p.start - 2) != "top":
        return False
    return text(lattice, p.end - 2) in {"are", "our"}


def notes_of_a_day(lattice: Lattice, p: Phrase) -> bool:
    """`8/9 notes. combine head needs ...` at the head of a line: what was noted that day, and no nodes."""
    pieces = lattice.pieces
    begins = p.start == 0 or pieces[p.start - 1].form == "nl"
    parted = any(text(lattice, x) in {"/", "-"} for x in range(p.start, p.end))
    ends = p.end >= len(pieces) or pieces[p.end].form in {"mark", "nl"}
    return begins and parted and ends and text(lattice, p.end - 1) == "notes" and pieces[p.start].form == "int"


def heard_as_a_stage(lattice: Lattice, p: Phrase) -> bool:
    """`flowers at the top node are two`: R2, and no node 2."""
    return any(text(lattice, x) in {"are", "our", "or"} for x in range(p.start + 1, p.end - 1))


def node_of(lattice: Lattice, p: Phrase) -> bool:
    """`node 11 of 14`, and no `bloom in the top 2 nodes 11 of 20`, no `Sec 27N 4 of 10`."""
    if text(lattice, p.start - 1) == "n" and lattice.pieces[p.start - 1].glued:
        return False
    if "INT" in kinds(lattice, p.start - 2) and "TOP" in kinds(lattice, p.start - 3):
        return False
    return bool(kinds(lattice, p.start - 1) & {"NODE", "NODES"})


_FOR_ORDINAL_OF_A_NODE = _COMMON.words("ordinal_tails")


def ordinal_of_a_node(lattice: Lattice, p: Phrase) -> bool:
    """`@ 4th nd frm top`: the ordinal belongs to the words behind it."""
    return text(lattice, p.end - 1)[-2:] in _FOR_ORDINAL_OF_A_NODE and bool(kinds(lattice, p.end) & {"NODE", "NODES"})


def side_of_a_number(lattice: Lattice, p: Phrase) -> bool:
    """`Sec 27N 4 of 10 blooming`: the letter belongs to the number that it is stuck to, and counts no nodes."""
    pieces, behind = lattice.pieces, p.start + 1
    if behind >= len(pieces) or text(lattice, p.start) != "n" or not pieces[p.start].glued or not pieces[behind].gap:
        return False
    return p.start > 0 and pieces[p.start - 1].form == "int"


def number_of_a_field(lattice: Lattice, p: Phrase) -> bool:
    """`Sec 27N 4 of 10 blooming`, `Elm 12N 6/10 podded` at the head of a line: a field by its number and side, behind a word
    that means nothing here, and a share behind it."""
    end, pieces = p.end, lattice.pieces
    if text(lattice, end - 1) != "n" or text(lattice, end + 1) not in {"of", "/"} or not p.start:
        return False
    if pieces[end].form != "int" or lattice.original(end - 1, end) != "N" or lattice.known[p.start - 1]:
        return False
    return p.start == 1 or pieces[p.start - 2].form in {"nl", "mark"}
