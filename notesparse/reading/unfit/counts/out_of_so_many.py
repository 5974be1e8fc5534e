"""So many of so many: of nodes, of those that are left, of seeds in the ground, and of no sample."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")


def cuts_a_number(lattice: Lattice, p: Phrase) -> bool:
    """`eleven of the twenty | two are brown`: the number goes on behind the phrase."""
    last = p.path[-1]
    start = last[0]
    return last[1].kind == "INT" and any(
        e.kind == "INT" and e.how == "number" and e.end > p.end and isinstance(e.means, int) and e.means < 100
        for e in lattice.edges[start]
    )


_UP_TOP = _COMMON.words("node") | _COMMON.words("top") | {"upper"}


def of_nodes(lattice: Lattice, p: Phrase) -> bool:
    """`pods on 3 of 4 top nodes`, `3 of the top 4`: so many nodes, and no plants."""
    return text(lattice, p.end) in _UP_TOP


_BORNE = frozenset({"FLOWER", "POD", "SEED", "BROWN"})


def of_no_sample(lattice: Lattice, p: Phrase) -> bool:
    """`of ten, 8 were blooming`: so many of so many where it opens the sentence and is parted by a comma, or where
    they were pulled or looked at."""
    if any(e.kind in {"SAMPLED", "PLANTED"} for _, e in p.path):
        return False
    opens = p.start == 0 or lattice.pieces[p.start - 1].form in {"nl", "mark"}
    parted = any(text(lattice, i) == "," for i in range(p.start, p.end))
    counted = any(text(lattice, i) in {":", "="} for i in range(p.start, p.end))  # in bloom out of 25: 14
    if counted and p.end < len(lattice.pieces) and lattice.pieces[p.end].form not in {"nl", "mark"}:
        return True
    if counted and (
        opens or any(e.end == p.start for i in range(p.start) for e in lattice.edges[i] if e.kind in _BORNE)
    ):
        return False
    whole = next((int(e.means) for _, e in p.path if e.kind == "INT"), 0)
    return not (opens and parted and whole >= 3)


def left_of_all(lattice: Lattice, p: Phrase) -> bool:
    """`all but | two of the twelve`, `all but | 2 in bloom`: those that have it not."""
    return text(lattice, p.start - 1) in {"but", "except"} and "EVERYW" in kinds(lattice, p.start - 2)


def seeds_of_plants(lattice: Lattice, p: Phrase) -> bool:
    """`of 50 seeds flagged, 41 are up`: seed in the ground, where coming up is told of; else it is seed in pods."""
    seed = any(e.kind == "SEED" for _, e in p.path)
    return seed and not any("EMERGED" in kinds(lattice, i) for i in range(p.end, p.end + 4))


def all_got_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`they've all got five trifoliates`: so many leaves, and not so many plants."""
    got = any(text(lattice, x) in {"got", "have", "had"} for x in range(p.start, p.end))
    return got and bool(kinds(lattice, p.end) & {"TRIF", "TRIPS", "NODES"})


def and_another_number(lattice: Lattice, p: Phrase) -> bool:
    """`of the four, 2 and 4 have pods`: two of the plants by their numbers, and no two of four."""
    return text(lattice, p.end) in {"and", "&"} and bool(kinds(lattice, p.end + 1) & {"INT"})
