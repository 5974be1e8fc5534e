"""Whose stage it is: somebody else's, or one that the scout will not call (guide 4.15)."""

from __future__ import annotations

from notesparse.language.lists import claim_words
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_FAR = 8  # pieces between the call and its stage
_HAVING = frozenset({"had", "has", "put", "puts", "say"})  # plants and fields have stages too: only people have them so


def claimed(w: Listener, ph: Phrase) -> int | None:
    """The piece where the claim begins: `Dad called this R5`, `wouldn't call any of these R5`; None: it is none."""
    words, at = claim_words(), w.ctx.lattice.at
    v = ph.start - 1
    while v >= 0 and ph.start - v <= _FAR and at(v) in words.object:
        v -= 1
    if v < 0 or at(v) not in words.calling:
        return None
    start = _start(w, v)
    before = [at(i) for i in range(start, v)]
    if set(before) & words.refusing and at(v) not in _HAVING:
        return start
    who = next((x for x in reversed(before) if x not in words.between), "")
    if who in words.people:
        return start
    if at(v) in _HAVING or who in words.own or not before:
        return None
    return start if _a_name(w, start, v) else None


def its_day(w: Listener, ph: Phrase, k: int) -> int:
    """Behind the claim and the day it was made on: `R5 on the 20th`, `R3 a week ago`."""
    nxt, _, mark = w.ahead(k)
    return nxt.end if nxt is not None and nxt.rule in {"date", "past"} and not mark else ph.end


def _start(w: Listener, v: int) -> int:
    """Where the clause of the verb begins; in talk without stops, behind what was told before it."""
    pieces, use = w.ctx.lattice.pieces, w.ctx.use
    i = v
    while i and pieces[i - 1].form not in {"nl", "mark", "int"} and pieces[i - 1].text not in {"but", "so", "because"}:
        if use[i - 1] == EVIDENCE:
            break
        i -= 1
    return i


def _a_name(w: Listener, start: int, v: int) -> bool:
    """`Pete called it R4`: one word that nobody knows, written as a name."""
    lattice = w.ctx.lattice
    if v - start != 1 or start in w.names or lattice.edges[start] or lattice.filler[start]:
        return False
    return lattice.pieces[start].form == "word" and lattice.original(start, v)[:1].isupper()
