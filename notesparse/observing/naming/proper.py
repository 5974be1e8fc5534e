"""Names told by their capitals alone, in the middle of talk: `it's R five Crazy Woman stink bugs are up`, `Ditch Sixty is
still R two`.

Two words with capitals where no sentence begins are a field, where a field's saying follows them and they do not stand
behind a preposition (`ran past Gravel Pit`).
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.placing import Scored
from notesparse.observing.naming.surroundings import (
    Surroundings,
    capital,
    kinds,
    noun_at,
    noun_in,
    pass_fillers,
    strength,
)
from notesparse.reading.weights import phrase_cost

_LISTED = cue_page("naming/proper")
_COMMON = cue_page("shared")

_SCORE = 2.6
_NO_NAME = frozenset({"R", "V", "MONTH", "WEEKDAY", "INSECT", "DISEASE", "WEED", "PLANT", "VARIETY", "OTHERFIND", "MG"})
_LEADS = _LISTED.words("leads")
_LINKS = _LISTED.words("links")
_SEEN = frozenset(
    {"stage", "ratio", "percent", "findhead", "label", "sampled", "flowers", "pods", "seeds", "trif", "group"}
)
_FOUND = frozenset({"INSECT", "DISEASE", "WEED", "STANDWORD"})
_MARKS = frozenset({".", "!", "?", ";", ":", "(", "-", "–", ",", '"', "/", "|"})
_SURELY = 1.8


def proper(s: Surroundings) -> list[Scored]:
    """Such names, each with its score."""
    if s.shouted:
        return []
    ends = {p.end for here in s.phrases for p in here if p.rule != "filler" and phrase_cost(p) < _SURELY}
    found: list[Scored] = []
    i = 1
    while i < s.n:
        j = i
        while j < s.n and _capital(s, j):
            j += 1
        if j == i:
            i += 1
            continue
        behind = s.text(i - 1) in _LEADS or i in ends
        inside = s.pieces[i - 1].form == "word" or i in ends
        if j - i > 1 and behind and inside and s.text(i - 1) not in _MARKS and _told(s, j):
            found.append((_SCORE, Name(i, j, s.lattice.written(i, j), "turn", True, i)))
        elif s.cased and inside:
            end = _before_a_share(s, i, j)
            if end > i:
                text = s.lattice.written(i, end - (s.text(end - 1) in _FIELD))
                found.append((_SCORE, Name(i, end, text, "turn", True, i)))
        i = j
    return found


_NO_WAY_TO_IT = _COMMON.words("beside") | _COMMON.words("lying") | _LISTED.words("before_a_part")
_FIELD = _COMMON.words("field")
_SHARES = frozenset({"ratio", "percent", "podshare", "group"})
_SURE_SHARE = 0.9


def _before_a_share(s: Surroundings, i: int, j: int) -> int:
    """`no bloom yet Kettle hole six of ten podded`, `in the canopy Creamery field 4 of 10 blooming`, in a note that goes from
    field to field, or has told a share before, and drops its stops: where the name ends that begins with the capitals
    [i, j), if a share follows it."""
    on = j < s.n and s.pieces[j].form == "word" and s.pieces[j].gap < 2 and (noun_at(s, j) or _strange(s, j))
    end = j + on
    if (end - i == 1 and not _strange(s, i)) or s.text(i) in s.words.never_first or s.lattice.filler[i]:
        return i
    if capital(s, i - 1) or s.text(i - 1) in _NO_WAY_TO_IT or not _a_share(s, pass_fillers(s, end, ",")):
        return i
    second = noun_in(s, i + 1, end) and any(_a_share(s, x) for x in range(i - 1))
    return end if s.several or second else i


def _strange(s: Surroundings, i: int) -> bool:
    return not s.lattice.known[i] and not s.lattice.filler[i]


def _a_share(s: Surroundings, i: int) -> bool:
    worth, rule = strength(s, i)
    return rule in _SHARES and worth >= _SURE_SHARE


def _capital(s: Surroundings, i: int) -> bool:
    """A word with a capital and small letters behind it, that means nothing that is written so anyway; not across a wide
    gap, which parts the heads of columns."""
    own = s.lattice.original(i, i + 1)
    plain = s.pieces[i].form == "word" and own[0].isupper() and own[1:].islower()
    return (
        plain and s.pieces[i].gap < 2 and not any(e.how == "exact" and e.kind in _NO_NAME for e in s.lattice.edges[i])
    )


_FOR_TOLD = _LISTED.words("for_told")


def _told(s: Surroundings, at: int) -> bool:
    """What stands behind the name is said of a field."""
    at = pass_fillers(s, at)
    last = at + 5
    while at < min(last, s.n) and s.text(at) in _LINKS:
        at += 1
    at = pass_fillers(s, at)
    if at >= s.n:
        return False
    no = s.text(at) in _FOR_TOLD and at + 1 < s.n
    return strength(s, at)[1] in _SEEN or bool(kinds(s, at + no) & _FOUND)
