"""What was counted, told in a sentence of its own: `Nodes this time, no leaf counts.` (guide 4.21).

Bare figures that are listed plant by plant elsewhere in the note are of that thing.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.paper.heads import Column
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/told_apart")

_THINGS = {"TRIF": "trifoliates", "NODES": "nodes", "NODE": "nodes"}
_NOT = _LISTED.words("not")
_AROUND = _LISTED.words("around")
_ENDS = frozenset({".", ";", ":", "!"})


def told_apart(lattice: Lattice) -> tuple[Column, tuple[int, int]] | None:
    """The thing that one sentence of the note says was counted, and its pieces; None where none or several say it."""
    found: list[tuple[Column, tuple[int, int]]] = []
    start = 0
    for i in range(len(lattice.pieces) + 1):
        if i < len(lattice.pieces) and not _ends(lattice, i):
            continue
        what = _said(lattice, start, i)
        if what is not None:
            found.append((Column([what]), (start, i)))
        start = i + 1
    return found[0] if len(found) == 1 else None


def _ends(lattice: Lattice, i: int) -> bool:
    return lattice.pieces[i].form == "nl" or lattice.at(i) in _ENDS


def _said(lattice: Lattice, a: int, b: int) -> str | None:
    """The one thing that is named without a no, where the words say nothing else."""
    yes: set[str] = set()
    turned, named = False, 0
    for i in range(a, b):
        text = lattice.at(i)
        thing = next((_THINGS[e.kind] for e in lattice.edges[i] if e.kind in _THINGS and e.how == "exact"), None)
        if text in {",", "-"}:
            turned = False
        elif text in _NOT:
            turned = True
        elif thing is not None:
            named += 1
            yes |= set() if turned else {thing}
        elif text not in _AROUND:
            return None
    return yes.pop() if len(yes) == 1 and named else None
