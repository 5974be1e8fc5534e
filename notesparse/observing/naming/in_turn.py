"""Fields told of sentence by sentence, each with its share or stage: beside them a sentence that begins with a place, or
with a number, is of another field (guide 1.2)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.surroundings import Surroundings, capital, kinds, noun_at, strength

_COMMON = cue_page("shared")

_TOLD = frozenset({"ratio", "percent", "stage"})
_FEWEST = 2  # names that are told of so
_LIES = _COMMON.words("lying")
_LONGEST = 4  # words
_IS = _COMMON.words("being")
_RIPE = frozenset({"BROWN", "POD", "LEAF"})


def told_in_turn(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`Behind the elevator, six of ten blooming.`, `Number Six is sixty percent blooming.` beside `The Vang ground, R one.`
    and `Goat Pasture, two of ten blooming.`"""
    beside = [name for name in chosen if name.seen and s.text(name.end) == "," and _told_or_found(s, name.end + 1)]
    if not beside or len(chosen) < _FEWEST:
        return []
    often = len(beside) >= _FEWEST
    used = {x for name in chosen for x in range(name.start, name.end)}
    more = []
    for i in range(beside[0].end, s.n):
        fresh = s.pieces[i - 1].form == "nl" or s.text(i - 1) in {".", ";"}
        if not fresh or i in used:
            continue
        end = _a_title(s, i) or ((_a_place(s, i) or _a_number(s, i)) if often else 0)
        if end:
            more.append(Name(i, end, s.lattice.written(i, end), "sentence", True, i))
    return more


def _told_or_found(s: Surroundings, i: int) -> bool:
    return _told(s, i) or _found(s, i)


def _found(s: Surroundings, i: int) -> bool:
    """So many of a pest: `seven stink bugs`."""
    if i >= s.n or not kinds(s, i) & {"INT", "NO"}:
        return False
    return any(kinds(s, x) & {"INSECT"} for x in range(i + 1, min(i + _LONGEST, s.n)))


def _a_title(s: Surroundings, i: int) -> int:
    """Where `Spillway` ends: up to two odd words or nouns of places with capitals, before a comma and what is told of a
    field; 0 where none do."""
    end = i
    while end < min(i + 2, s.n) and capital(s, end) and (odd(s.lattice, end) or noun_at(s, end)):
        end += 1
    if end == i or not s.cased or s.text(end) != "," or s.text(i) in s.words.never_first:
        return 0
    return end if _told_or_found(s, end + 1) else 0


def _told(s: Surroundings, i: int) -> bool:
    return strength(s, i)[1] in _TOLD


def _a_place(s: Surroundings, i: int) -> int:
    """Where `Behind the elevator` ends, before a comma and a share or a stage; 0 where none does."""
    if s.text(i) not in _LIES or s.text(i + 1) != "the":
        return 0
    end = next((x for x in range(i + 2, min(i + _LONGEST + 1, s.n)) if s.pieces[x].form != "word"), 0)
    return end if end > i + 2 and s.text(end) == "," and _told(s, end + 1) else 0


def _a_number(s: Surroundings, i: int) -> int:
    """Where `Number Six` ends, of which a share of plants is told, so that it is no plant; 0 where none does."""
    if "NUMBERW" not in kinds(s, i) or "INT" not in kinds(s, i + 1) or not (s.cased and capital(s, i + 1)):
        return 0
    at = i + 2 + (s.text(i + 2) in _IS or s.text(i + 2) == ",")
    if at == i + 2 or strength(s, at)[1] not in {"ratio", "percent"}:
        return 0
    ripe = any(kinds(s, x) & _RIPE for x in range(at, min(at + _LONGEST + 1, s.n)))
    return 0 if ripe else i + 2
