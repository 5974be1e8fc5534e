"""Whose stage it is: somebody else's, or one that the scout will not call (guide 4.15)."""

from __future__ import annotations

from itertools import pairwise

from notesparse.language.cues import cue_page
from notesparse.language.lists import claim_words
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/claims")

_FAR = 8  # pieces between the call and its stage
_HAVING = _LISTED.words("having")


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


_WOULD = _LISTED.words("would")
_CALL = _LISTED.words("call")
_BY_THE_WAY = _LISTED.words("by_the_way")
_BIGGER = _LISTED.words("bigger")
_REACH = 16  # pieces from the stage back to the condition


_FOR_IF_IT_WERE = _LISTED.words("for_if_it_were")


def if_it_were(w: Listener, ph: Phrase) -> bool:
    """`if the pods were any longer I'd call it R4`, `any bigger and it'd be R5`: a stage that it would be, and is not."""
    pieces, at = w.ctx.lattice.pieces, w.ctx.lattice.at
    i = ph.start
    while i and at(i - 1) in _CALL | _WOULD:
        i -= 1
    if not any(at(x) in _WOULD for x in range(i, ph.start)):
        return False
    first = i
    while first and i - first < _REACH and not w.hard_end(first - 1) and not _names_a_plant(w, first - 1):
        first -= 1
    words = [p.text for p in pieces[first:i]]
    more = any(a == "any" and b in _BIGGER for a, b in pairwise(words))
    were = any(a in {"were", "had"} and b in _FOR_IF_IT_WERE for a, b in pairwise(words))
    if_so = any(a == "if" and b not in _BY_THE_WAY for a, b in pairwise(words))
    return if_so or more or (were and bool(_BIGGER & set(words)))


def _names_a_plant(w: Listener, i: int) -> bool:
    """The label of the plant in hand ends with piece i."""
    plants = w.ctx.plants
    return bool(plants) and plants[-1].span.end == w.ctx.lattice.pieces[i].span.end


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
