"""Names that are put right at once: `Hill forty, scratch that, Mill forty. V7`, `Wilton's. No, Walker's.`

Behind such words stands the field that is meant. Without this all that is told would be of the field that was taken back.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.naming.growing import best_at
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.surroundings import Surroundings

_LISTED = cue_page("naming/put_right")

_CUES = frozenset({"CORRECT", "TAKEBACK"})
_MARKS = frozenset({",", ".", ";", "-", ":"})
_LEADS = _LISTED.words("leads")
_NEED = 1.5  # the score of what stands behind the words
_BONUS = 0.9


def put_right(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names, and those that stand behind words that take the one before back."""
    starts = {x for name in chosen for x in range(name.start, name.end)}
    more: list[Name] = []
    for name in chosen:
        at = _behind_the_words(s, name.end)
        if not at or at >= s.n or at in starts or s.pieces[at].form != "word":
            continue
        found = best_at(s, at, "go", _BONUS)
        end = found[1] if found is not None and found[0] >= _NEED else _somebodys(s, at)
        if end and not starts & set(range(at, end)):
            more.append(Name(at, end, s.lattice.written(at, end), "go", True, at))
    return sorted([*chosen, *more], key=lambda name: name.start)


def _behind_the_words(s: Surroundings, i: int) -> int:
    """Where the name may begin behind `, scratch that,`; 0 where nothing is taken back."""
    while s.text(i) in _MARKS:
        i += 1
    begun = i
    while i < s.n:
        ends = [e.end for e in s.lattice.edges[i] if e.kind in _CUES and e.how == "exact"]
        if s.text(i) == "no" and s.text(i + 1) in {",", "wait", "sorry"}:
            ends.append(i + 1)
        if not ends:
            break
        i = max(ends)
        while s.text(i) in _MARKS:
            i += 1
    if i == begun:
        return 0
    while s.text(i) in _LEADS:
        i += 1
    return i


def _somebodys(s: Surroundings, at: int) -> int:
    """Where `Walker's`, `walkers` ends, alone before a mark; 0 where that does not stand there."""
    end = at + 1
    end += s.text(end) == "'s"
    return end if odd(s.lattice, at) and (end >= s.n or s.text(end) in _MARKS) else 0
