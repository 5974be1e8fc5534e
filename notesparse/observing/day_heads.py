"""Days at the heads of lines that look like plants from the one to the other: `7-7: 6 trif` over `7-21: 10 trif` (guide 4.22).

Plants are told one after the other and each once, so ranges that run back or run over each other are days; and one
range alone that does not begin with the first plant is a day where nothing else in the note is.
"""

from __future__ import annotations

from itertools import pairwise

from notesparse.reading.parse import phrases_at
from notesparse.text.lattice import Edge, Lattice

_FIRST_MONTH, _LAST_MONTH = 4, 11  # in which beans stand
_LAST_DAY = 31
_PLANTS = frozenset({"PLANT", "PLETTER", "PLANTSND", "HASH", "NUMBERW", "NODOT"})


def mark_days(lattice: Lattice) -> set[int]:
    """The pieces at which a line begins with a day written `7-21`, which is nothing else from now on."""
    days = _day_heads(lattice)
    for i in days:
        lattice.edges[i] = [Edge(i + 3, "DMY", lattice.original(i, i + 3), 0.0, "exact")]
    if days:
        lattice.changed()
    return days


def _day_heads(lattice: Lattice) -> set[int]:
    """Where a line begins with a day that would pass for plants 7 to 21."""
    heads = [(i, *pair) for i in range(len(lattice.pieces)) if (pair := _pair(lattice, i))]
    pairs = [(a, b) for _, a, b in heads]
    if not pairs or not all(_FIRST_MONTH <= a <= _LAST_MONTH and b <= _LAST_DAY for a, b in pairs):
        return set()
    in_turn = pairs in (sorted(set(pairs)), sorted(set(pairs), reverse=True))
    run_over = any(a >= b for a, b in pairs) or any(c <= b for (_, b), (c, _) in pairwise(pairs))
    if (in_turn and run_over) or (len(pairs) == 1 and _nothing_else(lattice, heads[0][0])):
        return {i for i, _, _ in heads}
    return set()


def _pair(lattice: Lattice, i: int) -> tuple[int, int] | None:
    """Two figures with a stroke between, with no blanks, at the head of a line."""
    pieces = lattice.pieces
    if (i and pieces[i - 1].form != "nl") or i + 3 >= len(pieces):
        return None
    figures = pieces[i].form == "int" and pieces[i + 2].form == "int" and lattice.at(i + 1) == "-"
    tight = pieces[i + 1].glued and pieces[i + 2].glued
    goes_on = (pieces[i + 3].glued and lattice.at(i + 3) not in {":", ",", "."}) or pieces[i + 3].form == "word"
    if not figures or not tight or goes_on or max(len(lattice.at(i)), len(lattice.at(i + 2))) > 2:
        return None
    return int(lattice.at(i)), int(lattice.at(i + 2))


def _nothing_else(lattice: Lattice, i: int) -> bool:
    """No plant was named anywhere, and no day before piece i but that of planting."""
    if lattice.at(i + 3) != ":" or any(e.kind in _PLANTS for edges in lattice.edges for e in edges):
        return False
    dates = [x for x in range(i) if any(p.rule == "date" for p in phrases_at(lattice, x))]
    sown = {
        x for k in range(i) for p in phrases_at(lattice, k) if p.rule in {"planted", "emerged"} for x in range(k, p.end)
    }
    return all(x in sown for x in dates)
