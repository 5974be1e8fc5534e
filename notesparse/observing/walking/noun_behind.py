"""What the numbers count, told once at the end: `plant 1 has 10, plant 2 has 11 and plant 3 has 10 trifoliates`."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_COMMON = cue_page("shared")

_JOINS = _COMMON.words("and") | _COMMON.words("but") | {";"}
_A_PLANT = _COMMON.words("plant") | _COMMON.words("number") | {"no", "p"}
_HAS = _COMMON.words("having_or_with") | {"-", ":", "=", "at"}
_NOUN = {"TRIF": "trifoliates", "NODE": "nodes", "NODES": "nodes"}


def noun_behind(w: Listener, number: Phrase) -> str | None:
    """Of a number behind a plant's label: what the last number of the row counts. None where the row breaks off."""
    at, edges = w.ctx.lattice.at, [*w.ctx.lattice.edges, []]
    i = number.end
    while at(i) in _JOINS:
        while at(i) in _JOINS:
            i += 1
        while at(i) in _A_PLANT:
            i += 1
        label = number_at(w, i) or next((e for e in edges[i] if e.kind == "BARE"), None)
        if label is None or at(label.end) not in _HAS:
            return None
        i = label.end
        while at(i) in _HAS:
            i += 1
        count = number_at(w, i)
        if count is None:
            return None
        i = count.end
        if found := next((_NOUN[e.kind] for e in edges[i] if e.kind in _NOUN), None):
            return found
    return None
