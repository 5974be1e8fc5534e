"""Two parts of one field that are told apart by their stages: `R5.5 in the river bottom, R5 up on the hill` (guide 4.15)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.naming.surroundings import Surroundings, kinds, title

_LISTED = cue_page("naming/two_parts")
_COMMON = cue_page("shared")

_WAY = _COMMON.words("over_there")
_JOINS = _LISTED.words("joins")
_IN = _COMMON.words("at_in_on")
_STAGES = frozenset({"R", "V", "RSOUND", "VSOUND"})


def one_of_two_parts(s: Surroundings, i: int, j: int) -> bool:
    """The words at pieces [i, j), in small letters behind a stage and `in the`, are a part of the field: another stage
    beside them is of the hill, the ridge, the low ground."""
    if i < 3 or s.text(i - 1) != "the" or s.text(i - 2) not in _IN or title(s, i, j):
        return False
    staged = i - 2
    while staged and s.text(staged - 1) in _WAY:
        staged -= 1
    begins = next((x for x in range(max(0, staged - 4), staged) if _stage_ends(s, x) == staged), None)
    if begins is None:
        return False
    k = j
    while s.text(k) in _JOINS:
        k += 1
    behind = _stage_ends(s, k) if k > j else None
    if behind is not None and _place(s, behind) is not None:
        return True
    k = begins
    while k and s.text(k - 1) in _JOINS:
        k -= 1
    return k < begins and any(_place(s, _stage_ends(s, x) or s.n) == k for x in range(max(0, k - 9), k))


def _stage_ends(s: Surroundings, i: int) -> int | None:
    """Where a stage that begins at piece `i` ends."""
    if i >= s.n or not kinds(s, i) & _STAGES:
        return None
    return max((p.end for p in s.phrases[i] if p.rule == "stage"), default=None)


def _place(s: Surroundings, i: int) -> int | None:
    """Where a place in the field that begins at piece `i` ends: `on the hill`, `up on the ridge`."""
    for at in range(i, min(i + 3, s.n)):
        ends = [p.end for p in s.phrases[at] if p.rule == "where"]
        if ends:
            return max(ends)
        if s.text(at) not in _WAY | _IN:
            break
    return None
