"""Next, another, one more: no next plant, or one and no way to a field."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, staged, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/labels/next_ones")
_COMMON = cue_page("shared")
_BEHIND_ONE_MORE_LEAF = _LISTED.words("behind_one_more_leaf")
_BEHIND_ONE_MORE_LEAF_2 = _LISTED.words("behind_one_more_leaf_2")


def one_more_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`one more trif`: a count told by another, and no next plant."""
    leaf = bool(kinds(lattice, p.end) & {"TRIF", "TRIPS", "NODE", "NODES"})
    hidden = text(lattice, p.end) in _BEHIND_ONE_MORE_LEAF
    there_is = text(lattice, p.start - 1) in {"there's", "theres", "missed"} or (
        text(lattice, p.start - 1) in {"is", "'s"} and text(lattice, p.start - 2) == "there"
    )
    added = text(lattice, p.start - 1) in {"plus", "+", "with"} and text(lattice, p.end) in _BEHIND_ONE_MORE_LEAF_2
    if added or (text(lattice, p.end) == "on" and text(lattice, p.end + 1) == "top"):
        return text(lattice, p.end - 1) in {"more", "another"}  # six trifs plus one more on top
    counted = text(lattice, p.start) == "one" and behind_a_label(lattice, p.start)  # P2 one more
    return text(lattice, p.end - 1) in {"more", "another"} and (leaf or counted or (hidden and there_is))


_BEFORE_BEHIND_A_LABEL = _COMMON.words("being_or_having") | _COMMON.words("with") | {"-", ":", "at"}


def behind_a_label(lattice: Lattice, i: int) -> bool:
    """Right before piece i, or before a `has`, stands a plant's label."""
    i -= text(lattice, i - 1) in _BEFORE_BEHIND_A_LABEL
    bare = any(e.kind == "BARE" and e.end == i for k in range(max(0, i - 3), i) for e in lattice.edges[k])
    figure = any(e.kind == "INT" and e.end == i for e in lattice.edges[i - 1]) if i > 1 else False
    marks = {"PLANT", "PLETTER", "HASH", "NUMBERW", "NODOT"}
    return bare or (figure and bool((kinds(lattice, i - 2) | kinds(lattice, i - 3)) & marks))


def another_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`another three were blooming`: more plants of those that were counted, and not the next one."""
    ends = [e.end for e in lattice.edges[p.end] if e.kind == "INT"] if p.end < len(lattice.pieces) else []
    return text(lattice, p.start) == "another" and bool(ends) and text(lattice, max(ends)) in _ARE


_ARE = _LISTED.words("are")


def other_way_round(lattice: Lattice, p: Phrase) -> bool:
    """`plant two is the other way round`: it differs, and no next plant is named."""
    return text(lattice, p.end) == "way"


def so_many_at_once(lattice: Lattice, p: Phrase) -> bool:
    """`next one eleven`: the next plant, and no eleven plants."""
    if any("HAS" in kinds(lattice, x) or text(lattice, x) in {"is", "was"} for x in range(p.start, p.path[-1][0])):
        return True  # the next had 9
    return any(text(lattice, x) == "one" for x in range(p.start, p.path[-1][0])) or (
        any(e.kind == "INT" and int(e.means) > 10 for _, e in p.path)
    )


_BEHIND_NEXT_PLANT = _LISTED.words("behind_next_plant")


def next_plant(lattice: Lattice, p: Phrase) -> bool:
    """`next one is the same way`: where no name stands behind it, the next plant."""
    at = p.start + (text(lattice, p.start) == "the")
    return (
        text(lattice, at) in {"next", "last"}
        and text(lattice, at + 1) in {"one", "plant"}
        and text(lattice, at + 2) not in _BEHIND_NEXT_PLANT
    )


_OF_A_PLANT = frozenset({"EMERGED", "NOTUP", "TRIF", "UNI", "COT", "FLOWER", "POD", "SEED", "NODES", "ROLLED"})
_NTH = _COMMON.words("nth")


def of_a_plant(lattice: Lattice, p: Phrase) -> bool:
    """`first one is up`: a plant, and no way to a field."""
    words = {text(lattice, x) for x in range(p.start, p.end)}
    if "one" in words and kinds(lattice, p.end) & {"SAMEAS", "SAME"}:
        return True  # the fourth one is the same as plant two
    one = "one" in words and text(lattice, p.end - 1) in {"is", "'s", "was"}
    if one and text(lattice, p.start) in _NTH and staged(lattice, p.end):
        return True  # first one is V3
    return one and bool(kinds(lattice, p.end) & _OF_A_PLANT) and "FIELDNOUN" not in kinds(lattice, p.end + 1)


def next_node(lattice: Lattice, p: Phrase) -> bool:
    """`top two nodes bare, next one down has a bloom`: the next node, and no plant."""
    i = p.end - 1 if text(lattice, p.end - 1) in {"down", "up"} else p.end
    i += text(lattice, i) in {"one", "node"}
    if text(lattice, i) not in {"down", "up", "below"}:
        return False
    k = p.start - 1
    while k >= 0 and lattice.pieces[k].form != "nl" and text(lattice, k) not in {".", ";"}:
        if kinds(lattice, k) & {"NODE", "NODES"}:
            return True
        k -= 1
    return False
