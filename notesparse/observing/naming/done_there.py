"""Fields told by what was done there: `pulled one out of Goat Hill, 13 trifs`, `stopped at your Copper Bend`, `Pete counted
Copper Bend for me`, `walked turkey eighty` (guide 1.2).

What stands around the name says that it is one, so its words may mean something else in the trade.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.placing import Scored
from notesparse.observing.naming.surroundings import (
    Surroundings,
    acres_in_words,
    capital,
    kinds,
    noun_at,
    pass_fillers,
    strength,
)

_COMMON = cue_page("shared")
_LISTED = cue_page("naming/done_there")

_SCORE = 3.4
_LONGEST = 4  # words
_FETCHED = _LISTED.words("fetched")
_TOOK = _LISTED.words("took")
_OF_THE_READER = _LISTED.words("of_the_reader")
_LOOKED = _COMMON.words("looked") | _COMMON.words("visited") | {"pulled"}
_FOR_WHOM = _LISTED.words("for_whom")
_CREATURES = frozenset({"INSECT", "DAMAGE", "WEED", "DISEASE", "FIELDNOUN", "COMPASS", "LOW", "TOP", "LETTER"})
_SPOTS = _COMMON.words("row_or_stop")
_COUNTED = _LISTED.words("counted")
_TOLD = frozenset(
    {"trif", "nodes", "stage", "ratio", "percent", "label", "flowers", "pods", "seeds", "planted", "date"}
)


def done_there(s: Surroundings) -> list[Scored]:
    """The names that such words tell of."""
    return [*_fetched(s), *_of_the_reader(s), *_for_somebody(s), *_walked_acres(s), *_came_over(s), *_told_next(s)]


def _name(s: Surroundings, at: int, end: int, cue: int) -> Scored:
    return _SCORE, Name(at, end, s.lattice.written(at, end), "go", True, cue)


def words_of_a_name(s: Surroundings, at: int) -> int:
    """Where the words end that may be a name and begin at piece `at`: capitals, or a noun of places behind them; `at` for
    none."""
    if any(e.kind == "WHEREWORD" and e.end > at + 1 for e in s.lattice.edges[at]) or s.text(at) in s.words.never_first:
        return at
    if s.text(at) in _SPOTS and "INT" in kinds(s, at + 1 if at + 1 < s.n else at):
        return at  # two from Row Nine: a place in the field
    if capital(s, at) and not s.shouted:
        return _titled(s, at)
    end = at
    while end < min(s.n, at + _LONGEST) and s.pieces[end].form == "word" and _may_name(s, end, first=end == at):
        end += 1
        if end - at > 1 and _land(s, end - 1):
            return end
    return at


def _titled(s: Surroundings, at: int) -> int:
    """The words with capitals, and the noun or the acres behind them."""
    end = at
    while end < min(s.n, at + _LONGEST) and capital(s, end) and s.pieces[end].form == "word" and len(s.text(end)) > 1:
        end += 1
    while end > at and _land(s, end):
        end += 1
    return end if end > at and "INT" not in kinds(s, at) else at


def _may_name(s: Surroundings, i: int, *, first: bool) -> bool:
    """A word of no meaning, an animal, a noun of places, and behind it a number of acres."""
    if _land(s, i):
        return not first or noun_at(s, i)
    return odd(s.lattice, i) or (bool(kinds(s, i)) and kinds(s, i) <= _CREATURES)


def _land(s: Surroundings, i: int) -> bool:
    return noun_at(s, i) or acres_in_words(s, i)


def _tells(s: Surroundings, end: int) -> bool:
    """Behind the name the clause ends, or something is told of the field."""
    if end >= s.n or s.pieces[end].form in {"mark", "nl"}:
        return True
    begun, rule = strength(s, pass_fillers(s, end))
    return begun >= 1.0 and rule in _TOLD


def _sure(s: Surroundings, at: int, end: int) -> bool:
    """Two words or more, or one that means nothing."""
    return end - at > 1 or (end > at and odd(s.lattice, at))


def _fetched(s: Surroundings) -> Iterator[Scored]:
    """`pulled one out of Goat Hill, 13 trifs. one out of Mill Forty, 14 trifs`: plants, and the field they are from."""
    for i in range(1, s.n - 1):
        out = s.text(i) == "out" and s.text(i + 1) in {"of", "in", "at"}
        if not (out or s.text(i) == "from") or s.text(i - 1) not in _FETCHED:
            continue
        at = i + 1 + out
        at += s.text(at) in {"the", *_OF_THE_READER}
        end = words_of_a_name(s, at) if at < s.n else at
        counted = any(p.form == "n_plants" and p.end == i for x in range(max(0, i - 3), i) for p in s.phrases[x])
        cue = i if counted else i - 1  # two plants out of Mite Hollow, both R6: so many were looked at
        while cue and not counted and (s.text(cue - 1) in _TOOK | _FETCHED | {"a", "i", "we"}):
            cue -= 1
        if at < s.n and _sure(s, at, end) and _tells(s, end):
            yield _name(s, at, end, cue)


def _of_the_reader(s: Surroundings) -> Iterator[Scored]:
    """`stopped at your Copper Bend`, `swung by ur Raccoon Nine`: a field of whoever gets the note."""
    for i in range(s.n):
        for cue in (e for e in s.lattice.edges[i] if e.kind == "GOCUE" and e.end < s.n - 1):
            at = cue.end + 1
            end = words_of_a_name(s, at) if s.text(cue.end) in _OF_THE_READER else at
            if _sure(s, at, end):
                yield _name(s, at, end, i)


def _for_somebody(s: Surroundings) -> Iterator[Scored]:
    """`Pete counted Copper Bend for me`: who looked, and for whom."""
    for i in (x for x in range(s.n - 2) if s.text(x) in _LOOKED):
        at = i + 1 + (s.text(i + 1) in {"at", "the"})
        at += s.text(at) in {"the", *_OF_THE_READER}
        end = words_of_a_name(s, at) if at < s.n else at
        if _sure(s, at, end) and s.text(end) == "for" and s.text(end + 1) in _FOR_WHOM:
            yield _name(s, at, end, i)


_TELLING = _LISTED.words("telling")
_SHALL = _LISTED.words("shall")
_WHO = _LISTED.words("who")
_AT_ONCE = _LISTED.words("at_once")
_WHILE = _LISTED.words("while")


def _told_next(s: Surroundings) -> Iterator[Scored]:
    """`I'm parked so I will do Mission Hill while I still remember it`, `let me do Silver Creek first`: the field that is
    told of next, and no plan to look at it."""
    for i in (x for x in range(1, s.n - 2) if s.text(x) in _TELLING and s.text(x - 1) in _SHALL):
        at = i + 1 + (s.text(i + 1) == "the")
        end = words_of_a_name(s, at)
        behind = end + 1 if s.text(end) in _AT_ONCE else end
        over = behind >= s.n or s.pieces[behind].form in {"nl", "mark"}
        if _sure(s, at, end) and (s.text(end) in _WHILE or (over and behind > end)):
            cue = i
            while cue and s.text(cue - 1) in _SHALL | _WHO:
                cue -= 1
            if s.text(cue) in _WHO:
                yield _name(s, at, end, cue)


_FOR_WALKED_ACRES = _LISTED.words("for_walked_acres")


def _walked_acres(s: Surroundings) -> Iterator[Scored]:
    """`walked turkey eighty`, `scouted the badger forty`: an animal and the acres, and no count of animals."""
    for i in (x for x in range(s.n - 2) if s.text(x) in _FOR_WALKED_ACRES):
        at = i + 1 + (s.text(i + 1) == "the")
        creature = at < s.n and bool(kinds(s, at) & {"INSECT", "DAMAGE", "WEED"}) and not s.text(at).endswith("s")
        if creature and acres_in_words(s, at + 1) and s.text(at + 2) not in _COUNTED:
            yield _name(s, at, at + 2, i)


_MET = _LISTED.words("met")
_SOME = _LISTED.words("some")
_FAR = 6  # pieces from the verb to what came over the field


def _came_over(s: Surroundings) -> Iterator[Scored]:
    """`Candlestick caught some hail. R3`, `Dunmore missed the rain`: the note begins with the field."""
    end = words_of_a_name(s, 0) if s.n > _FAR // 2 and capital(s, 0) and odd(s.lattice, 0) else 0
    if not end or s.text(end) not in _MET:
        return
    k = end + 1
    while k < min(s.n - 1, end + _FAR) and (s.text(k) in _SOME or s.pieces[k].form in {"int", "dec"}):
        k += 1
    if any(e.kind in {"DAMAGE", "WEATHER"} and e.how == "exact" for x in (end, k) for e in s.lattice.edges[x]):
        yield _name(s, 0, end, 0)
