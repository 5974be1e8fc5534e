"""Several plants by their labels, or so many of them."""

from __future__ import annotations

from itertools import pairwise

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import edges_at, kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/labels/many")
_COMMON = cue_page("shared")
_MANY = _COMMON.words("plants")


def loose_dash(lattice: Lattice, p: Phrase) -> bool:
    """`4 - 7 trifs`: a dash with blanks is no range of plants, and no date. `p1 - p4` is one, `plant 4 - as plant 1` is not."""
    pieces = lattice.pieces
    if sum(e.kind in {"PLANT", "PLETTER"} for _, e in p.path) > 1:
        return any(e.kind == "DASH" and at > e.end for (_, e), (at, _) in pairwise(p.path))
    return any(
        e.kind == "DASH" and not (pieces[at].glued and at + 1 < len(pieces) and pieces[at + 1].glued)
        for at, e in p.path
    )


def in_a_row_of_labels(lattice: Lattice, p: Phrase) -> bool:
    """`flowers on 1 and 2 not 3 and 4`: plants that have them, and plants that have none; no figure is put right."""
    joined = text(lattice, p.start - 1) in {"and", "&", ","} and bool(kinds(lattice, p.start - 2) & {"INT"})
    on = text(lattice, p.start - 1) == "on" and text(lattice, p.end) in {"and", "or", "&"}
    return (joined and any(text(lattice, x) == "on" for x in range(max(0, p.start - 8), p.start))) or on


_FOR_VERB_BETWEEN = _LISTED.words("for_verb_between")


def verb_between(lattice: Lattice, p: Phrase) -> bool:
    """`on the six plants I got 8, 8, 9 and 9 trifs`: counts, and no labels."""
    if p.path[0][1].kind not in {"PLANT", "PLANTSND"}:
        return False
    first = next((at for at, e in p.path if e.kind in {"INT", "INTSOUND"}), p.start)
    return any(text(lattice, x) in _FOR_VERB_BETWEEN for x in range(p.path[0][1].end, first))


def more_than_are_walked(lattice: Lattice, p: Phrase) -> bool:
    """`stand is 118k plants`: a stand, and no plants that were looked at."""
    return any(e.kind == "INT" and int(e.means) >= _A_STAND for _, e in p.path)


_A_STAND = 1000


def on_plants(lattice: Lattice, p: Phrase) -> bool:
    """`trifs on 1-5: 8 8 9 9 10`: plants, and no day."""
    before = kinds(lattice, p.start - 2) if p.start >= 2 else set()
    return text(lattice, p.start - 1) in {"on", "for"} and bool(
        before & {"TRIF", "TRIPS", "NODES", "FLOWER", "POD", "SEED"}
    )


_PLURAL = _COMMON.words("plants") | {"pts"}
_BEHIND_NOT_ALL_COMMAS = (
    _COMMON.words("being_or_having") | _COMMON.words("all") | _COMMON.words("each") | {":", "at", "same"}
)


def not_all_commas(lattice: Lattice, p: Phrase) -> bool:
    """`plant one, two, three all have nine trifs`, and no `plant 1 12 13`."""
    pieces = [at for at, e in p.path if e.kind in {"INT", "INTSOUND"}]
    ends = [e.end for _, e in p.path if e.kind in {"INT", "INTSOUND"}]
    apart = all(text(lattice, end) == "," and nxt == end + 1 for end, nxt in zip(ends, pieces[1:], strict=False))
    values = [int(e.means) for _, e in p.path if e.kind in {"INT", "INTSOUND"}]
    one_by_one = all(b == a + 1 for a, b in pairwise(values)) and ends[:-1] == pieces[1:]
    apart = apart or (one_by_one and text(lattice, p.start) in {"plants", "plts"})  # plants 3 4 5
    counted = kinds(lattice, p.end) & {
        "TRIF",
        "TRIPS",
        "NODES",
        "NODE",
        "INCH",
        "MM",
        "CM",
        "PCT",
        "OF",
        "OUTOF",
        "SLASH",
    }
    plural = text(lattice, p.start) in _PLURAL or (
        len(text(lattice, p.start)) <= 2 and lattice.pieces[p.start + 1].glued and values[0] < 10
    )
    if apart and plural and not counted and all(a < b for a, b in pairwise(values)):
        return False  # plants 1, 3, 5 fl; p4,5 8tf
    return not apart or text(lattice, p.end) not in _BEHIND_NOT_ALL_COMMAS


def listed(lattice: Lattice, p: Phrase) -> bool:
    """`plants, 4 R3`; `1 plant: 4 trifs`: what is counted stands behind the mark."""
    before = p.start - 1
    return any(
        text(lattice, at) == "," or (text(lattice, at) == ":" and before >= 0 and lattice.pieces[before].form == "int")
        for at in range(p.start, p.path[-1][0])
    )


def so_many_plants(lattice: Lattice, p: Phrase) -> bool:
    """`split 10 plants: 4 R3, 6 R2`; `plants 3 of 10`."""
    i = p.start
    if text(lattice, i) not in _MANY:
        return False
    if kinds(lattice, p.end) & {"OF", "OUTOF"}:
        return True
    counted = any(e.kind == "INT" and e.end == i for j in range(max(0, i - 3), i) for e in lattice.edges[j])
    if text(lattice, i + 1) in {"1", "one"}:
        return False  # bottom eighty plants 1 and 2
    return counted and text(lattice, i - 2) not in {"/", "-"}


def of_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`plant three, and thirty of forty tan`: the last number is a share, and no plant."""
    return bool(kinds(lattice, p.end) & {"OF", "OUTOF"}) and any(
        e.kind == "INT" for x in lattice.edges[p.end] if x.kind in {"OF", "OUTOF"} for e in edges_at(lattice, x.end)
    )


def letters_of_many(lattice: Lattice, p: Phrase) -> bool:
    return text(lattice, p.start) in _MANY


def numbers_of_one(lattice: Lattice, p: Phrase) -> bool:
    """`here are the numbers 8`: only of several plants are there `numbers 1, 2 and 6`."""
    return text(lattice, p.start) == "numbers" or text(lattice, p.start + 1) == "numbers"
