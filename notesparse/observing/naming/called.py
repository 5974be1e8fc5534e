"""Fields of which a sentence says that they are at a stage, or how they are called: `The Stubblefield was V six`, `Then the
place they call Poorhouse, V six again`, `Morrow, the one behind the elevator, R2` (guide 1.2).

What is told there stands right behind the name, so that a name that is not seen gives it to the field before.
"""

from __future__ import annotations

from collections.abc import Iterator

from notesparse.language.cues import cue_page
from notesparse.observing.naming.done_there import words_of_a_name
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.placing import Scored
from notesparse.observing.naming.sites import to_the_place, told_behind_it
from notesparse.observing.naming.surroundings import (
    Surroundings,
    acres_in_words,
    capital,
    noun_at,
    pass_fillers,
    strength,
)
from notesparse.observing.naming.worth import ACRES

_LISTED = cue_page("naming/called")
_COMMON = cue_page("shared")

_SCORE = 3.3
_LONGEST = 3  # words
_IS = _COMMON.words("being") | _COMMON.words("looking")
_BEFORE_A_STAGE = _LISTED.words("before_a_stage")
_THEN = _LISTED.words("then")
_CALL = _COMMON.words("call")
_WHAT = _LISTED.words("what")
_OF_A_FIELD = frozenset({"stage", "ratio", "percent", "average"})
_THATS = _LISTED.words("thats")
_WHICH = _COMMON.words("land") | _COMMON.words("field") | {"one"}
_PARTS = _LISTED.words("parts")
_TO_A_STAGE = _LISTED.words("to_a_stage")
_DOTS = 4  # marks between a name and its stage
_FEWEST = 2  # such names on a line
_FAR = 6  # pieces between `the place` and `call`


def called(s: Surroundings) -> list[Scored]:
    """The names that such sentences tell of."""
    if s.shouted:
        return list(_by_its_acres(s))
    return [
        *_by_its_acres(s),
        *_after_an_animal(s),
        *_that_are(s),
        *_as_they_say(s),
        *_known_as(s),
        *_on_a_day(s),
        *_all_of_it_there(s),
        *_the_one(s),
        *_in_a_row(s),
    ]


def _that_are(s: Surroundings) -> list[Scored]:
    """`The Stubblefield was V six`, `Then Kettle was R three`: words with capitals, of which nothing but a stage is told."""
    found: list[Scored] = []
    for i in (x for x in range(s.n) if s.cased and s.lattice.opens(x)):
        at = i
        while s.text(at) in _THEN:
            at += 1
        the = s.text(at) == "the"
        end = _capitals(s, at + the)
        inside = the or at > i  # a capital that is not that of the sentence's beginning
        strange = any(not s.lattice.known[x] for x in range(at + the, end))
        if end > at + the and (inside or strange) and s.text(end) in _IS and _told(s, end + 1):
            found.append((_SCORE, Name(at + the, end, s.lattice.written(at + the, end), "sentence", True, i)))
    return found


_SIDE_OF_THE_FARM = _LISTED.words("side_of_the_farm")
_TOLD_THERE = frozenset(
    {"label", "stage", "ratio", "percent", "sampled", "trif", "nodes", "flowers", "pods", "seeds", "group", "podshare"}
)


def _by_its_acres(s: Surroundings) -> Iterator[Scored]:
    """`home place R3. north forty. five plants, all R8`: a side and so many acres, set off at the head of a sentence or a
    line, and behind it what was seen there."""
    for i in (x for x in range(1, s.n - 2) if s.text(x) in _SIDE_OF_THE_FARM and s.lattice.opens(x)):
        figures = s.text(i + 1) in ACRES and s.pieces[i + 1].gap == 1
        end = i + 2
        if not (figures or acres_in_words(s, i + 1)) or s.pieces[end].form not in {"mark", "nl"}:
            continue
        if s.pieces[end].form == "mark" and s.text(end) not in _SETS_OFF:
            continue
        behind = end + 1
        while behind < s.n and (s.pieces[behind].form == "nl" or s.lattice.filler[behind]):
            behind += 1
        if behind < s.n and any(p.rule in _TOLD_THERE for p in s.phrases[behind]):
            yield _SCORE, Name(i, end, s.lattice.written(i, end), "sentence", True, i)


_SETS_OFF = frozenset({".", ",", ":", ";", "-"})
_LIVES_THERE = frozenset({"INSECT", "WEED"})


def _after_an_animal(s: Surroundings) -> Iterator[Scored]:
    """`drumlin forty, R2. snail flat is still V8`, in talk without capitals: a place that goes by an animal or a weed, of
    which a stage is told."""
    if s.cased:
        return
    for i in (x for x in range(1, s.n - 3) if noun_at(s, x + 1) and s.lattice.opens(x)):
        lives = any(e.kind in _LIVES_THERE and e.how == "exact" and e.end == i + 1 for e in s.lattice.edges[i])
        if lives and s.text(i + 2) in _IS and _told(s, i + 3 + (s.text(i + 3) == "still")):
            yield _SCORE, Name(i, i + 2, s.lattice.written(i, i + 2), "sentence", True, i)


_BEHIND_AS_THEY_SAY = _LISTED.words("behind_as_they_say")


def _as_they_say(s: Surroundings) -> list[Scored]:
    """`the place they call Poorhouse`, `what dad calls Moonshine`: one word or two behind it, in talk without capitals only
    words that nobody knows."""
    found: list[Scored] = []
    if s.lattice.said.isdisjoint(_CALL):
        return found
    for i in (x for x in range(2, s.n - 1) if s.text(x) in _CALL):
        before = range(max(0, i - _FAR), i)
        place = max((x for x in before if s.text(x) in _WHAT), default=-1)
        if place < 0 or any(s.pieces[x].form != "word" for x in range(place, i)):
            continue
        at = i + 1 + (s.text(i + 1) == "the")
        titled = words_of_a_name(s, at) if at < s.n and capital(s, at) else at
        end = _capitals(s, at) if s.cased else _strangers(s, at)
        end = titled if titled - at > 1 else end
        while end < s.n and end > at and (noun_at(s, end) or acres_in_words(s, end)):
            end += 1
        after = end
        while s.text(after) in {",", ":", "-"} | _IS | _BEHIND_AS_THEY_SAY:
            after += 1
        apart = titled - at > 1 and (end >= s.n or s.pieces[end].form in {"mark", "nl"})
        if end > at and (apart or _told(s, after)):
            lead = place - (s.text(place - 1) == "the")
            found.append((_SCORE + (4 if apart else 1), Name(at, end, s.lattice.written(at, end), "turn", True, lead)))
    return found


def _known_as(s: Surroundings) -> Iterator[Scored]:
    """`the field known as Broken Gate`, `the field that the owner lists as Dry Well`, `the one we call hogback`: whatever the
    words with capitals mean, and in talk without capitals words that nobody knows."""
    if s.lattice.said.isdisjoint(_KNOWN | _CALL | {"named"}):
        return
    for i in range(2, s.n - 1):
        known = (s.text(i) in _KNOWN) * (1 if s.text(i + 1) in {"as", "by"} else 2 if s.text(i + 2) == "as" else 0)
        if not known and s.text(i) not in _CALL | {"named"}:
            continue
        before = range(max(0, i - _FAR), i)
        place = max((x for x in before if s.text(x) in _WHAT), default=-1)
        if place < 1 or any(s.pieces[x].form != "word" for x in range(place, i)) or not _picked_out(s, place, i):
            continue
        at = i + 1 + known
        at += s.text(at) == "the"
        end = _any_capitals(s, at) if s.cased else _strangers(s, at)
        if end > at:
            yield _SCORE + 1, Name(at, end, s.lattice.written(at, end), "turn", True, place - 1)


def _on_a_day(s: Surroundings) -> Iterator[Scored]:
    """`recorded at Six Mile Gate on 27 August`, `returned to Old Orchard today`, `At Cold Spring, which was planted June 6`:
    words with capitals, whatever they mean, and behind them the day or the planting."""
    for i in (x for x in range(s.n - 2) if s.cased and s.text(x) in {"at", "to"}):
        if s.text(i) == "to" and s.text(i - 1) not in s.words.moving | _WENT:
            continue  # I spoke to Ed Mills on July 6
        end = _any_capitals(s, i + 1)
        if end - i > 2 and _day_behind(s, end):
            yield _SCORE + 1, Name(i + 1, end, s.lattice.written(i + 1, end), "go", True, i)


_SURE = 9.0
_WERE = _COMMON.words("being")


def _all_of_it_there(s: Surroundings) -> Iterator[Scored]:
    """`All of this is up at Iron Post, planted 5/9`: all the words with capitals, whatever they mean."""
    for i in (x for x in range(s.n - 2) if s.cased and s.text(x) in _WERE and told_behind_it(s.text, x)):
        at = to_the_place(s.text, i + 1)
        end = _any_capitals(s, at) if at is not None else 0
        if at is not None and end - at > 1:
            yield _SURE, Name(at, end, s.lattice.written(at, end), "go", True, i)


_WENT = _LISTED.words("went")


def _day_behind(s: Surroundings, i: int) -> bool:
    """`on 27 August`, `today`, `, which was planted June 6` at piece i."""
    if s.text(i) == "," and s.text(i + 1) == "which":
        return any(e.kind == "PLANTED" for x in (i + 2, i + 3) if x < s.n for e in s.lattice.edges[x])
    at = i + (s.text(i) == "on")
    days = [p for p in s.phrases[at] if p.rule == "date"] if at < s.n else []
    return any(p.form in {"today", "yesterday"} or (at > i and p.form != "ord_day") for p in days)


_KNOWN = _LISTED.words("known")
_SOMEBODY = _COMMON.words("somebody")


def _picked_out(s: Surroundings, place: int, i: int) -> bool:
    """`the field` stands before it, and at once how it is called, or who calls it so."""
    between = {s.text(x) for x in range(place + 1, i)}
    return s.text(place - 1) in {"the", "a", "that"} and (between <= {"is", "was", "that"} or bool(between & _SOMEBODY))


def _any_capitals(s: Surroundings, at: int) -> int:
    """Where the words with capitals end that begin at piece `at`; a stage is none."""
    end = at
    while end < min(s.n, at + _LONGEST) and capital(s, end) and s.pieces[end].form == "word":
        if any(p.rule in {"stage", "date", "label"} for p in s.phrases[end]):
            return end
        end += 1
        if s.text(end) == "'s" and s.pieces[end].glued and end + 1 < s.n and capital(s, end + 1):
            end += 1  # Crow's Nest
    return end


def _the_one(s: Surroundings) -> list[Scored]:
    """`Morrow, the one behind the elevator, R2`: words with capitals, and which field that is set off behind them."""
    found: list[Scored] = []
    for i in (x for x in range(s.n) if s.cased and s.lattice.opens(x)):
        end = _capitals(s, i)
        at = end + 1
        while s.text(at) in _THATS:
            at += 1
        if end == i or s.text(end) not in {",", "("} or s.text(at) not in _WHICH or s.text(i) in s.words.never_first:
            continue
        closing = {",", "-"} if s.text(end) == "," else {")"}
        close = next((x for x in range(at + 1, min(at + _FAR, s.n)) if s.pieces[x].form != "word"), 0)
        if close and s.text(close) in closing and _told(s, close + 1):
            found.append((_SCORE + 1, Name(i, end, s.lattice.written(i, end), "sentence", True, i)))
    return found


def _in_a_row(s: Surroundings) -> list[Scored]:
    """`Ames - R3; Orrin - R4; Tully - R5`, `Ames at R3 and Orrin at R4`: on a line, words with capitals and a stage right
    behind each."""
    lines: dict[int, list[Name]] = {}
    for i in (x for x in range(s.n) if s.lattice.opens(x) or s.text(x - 1) in _PARTS):
        end = _capitals(s, i)
        at = end
        while s.text(at) in _TO_A_STAGE and at < end + _DOTS:
            at += 1
        staged = at < s.n and end > i and any(p.rule == "stage" for p in s.phrases[at])
        if staged and s.text(i) not in s.words.never_first:
            name = Name(i, end, s.lattice.written(i, end), "sentence", True, i)
            lines.setdefault(s.lines[i], []).append(name)
    return [(_SCORE, name) for names in lines.values() if len(names) >= _FEWEST for name in names]


def _capitals(s: Surroundings, at: int) -> int:
    """Where the words with capitals end that begin at piece `at`, none of them of the trade; `at` where there are none."""
    end = at
    while end < min(s.n, at + _LONGEST) and capital(s, end) and (odd(s.lattice, end) or noun_at(s, end)):
        end += 1
        end += s.text(end) == "'s" and s.pieces[end].glued and s.text(end + 1) in {"and", ",", *_IS}
    return end if any(odd(s.lattice, x) or end - at > 1 for x in range(at, end)) else at


def _strangers(s: Surroundings, at: int) -> int:
    end = at
    while end < min(s.n, at + _LONGEST) and odd(s.lattice, end):
        end += 1
    return end


def _told(s: Surroundings, i: int) -> bool:
    while s.text(i) in _BEFORE_A_STAGE:
        i += 1
    begun, rule = strength(s, pass_fillers(s, i))
    return begun >= 1.0 and rule in _OF_A_FIELD
