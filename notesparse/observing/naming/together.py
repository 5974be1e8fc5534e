"""Fields told of together: `Dahl and Heron both R4`, `North 40 & South 40 are both V9`, `Dahl, Heron and the bottom forty
are all R5`."""

from __future__ import annotations

from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.placing import Scored
from notesparse.observing.naming.surroundings import (
    NAMEY,
    Surroundings,
    acres_in_words,
    capital,
    kinds,
    noun_at,
    strength,
    title,
    upper,
)

_LISTED = cue_page("naming/together")
_COMMON = cue_page("shared")

_SCORE = 8.0  # before a name of the first words alone
_ALL = _COMMON.words("all")
_BETWEEN = _LISTED.words("between")
_JOIN = _COMMON.words("and") | {"/"}
_WENT = _LISTED.words("went")
_PARTS = _LISTED.words("parts")
_ALSO = _LISTED.words("also")
_SIZED = _COMMON.words("sized")
_LONGEST = 4
_TOLD = frozenset(
    {
        "stage",
        "flowers",
        "pods",
        "seeds",
        "trif",
        "nodes",
        "call",
        "ratio",
        "percent",
        "place",
        "state",
        "planted",
        "emerged",
        "rows",
    }
)


def told_together(s: Surroundings) -> list[Scored]:
    """The fields of every such list, each as a name of its own."""
    found: list[Scored] = []
    for i in range(2, s.n):
        counted = s.text(i) == "all" and s.text(i + 1) in _MANY  # Plum, Quince and Damson: all three R3
        behind = _said_of_both(s, i)  # Block A and Block D, R5 both
        if not behind and (s.text(i) not in _ALL | _ARE | {":"} or not _tells(s, i + 1 + counted)):
            continue
        end = i - (s.text(i) in _ALL and s.text(i - 1) in {",", ":"})
        while end and s.text(end - 1) in _BETWEEN:
            end -= 1
        names = _listed(s, end)
        many = s.text(i) in _ARE | {":"} or behind or (s.text(i) == "all") == (len(names) > 2)
        if _a_crossing(s, names):
            a, b = names[0][0], names[-1][1]
            found.append((_SCORE, Name(a, b, s.lattice.written(a, b), "line", True, a)))
        elif len(names) > 1 and many and (s.text(i) != ":" or s.lattice.opens(names[0][0])):
            told = [Name(a, b, s.lattice.written(a, b), "together", True, a) for a, b in names]
            if counted:
                told[-1] = replace(told[-1], end=i + 2)
            found += [(_SCORE, name) for name in told]
    return found


_ROADS = _LISTED.words("roads")


def _a_crossing(s: Surroundings, names: list[tuple[int, int]]) -> bool:
    """`Rt 9 & Mill: R3`: a field that lies where two roads cross."""
    if len(names) != 2 or {s.text(x) for x in range(names[0][1], names[1][0])} - {"&", "+", "/"}:
        return False
    roads = {s.text(x) for a, b in names for x in (a, b - 1)}
    return bool(roads & _ROADS)


_ARE = _LISTED.words("are")


def _said_of_both(s: Surroundings, i: int) -> bool:
    """A mark stands at piece i, and behind it a stage with `both` or `all` at the clause's end."""
    ends = (
        [p.end for p in s.phrases[i + 1] if p.rule == "stage"] if s.text(i) in {",", ":", "-"} and i + 1 < s.n else []
    )
    at = max(ends, default=s.n)
    over = at + 1 >= s.n or s.pieces[at + 1].form in {"nl", "mark"}
    return s.text(at) in _ALL and over


_MANY = _LISTED.table("many", int)
_LEADS = _LISTED.words("leads")
_FOR_TOLD_BEHIND = _LISTED.words("for_told_behind")
_BEHIND_TOLD_BEHIND = _LISTED.words("behind_told_behind")


def told_behind(s: Surroundings) -> list[Scored]:
    """`The next two are both R2, that's Widow's and Six Acre`: the fields of which that was told, behind it."""
    found: list[Scored] = []
    for i in (x for x in range(s.n) if s.lattice.opens(x)):
        at = i
        while s.text(at) in _FOR_TOLD_BEHIND:
            at += 1
        many = _MANY.get(s.text(at), 0)
        if at == i or not many or s.text(at + 1) not in _BEHIND_TOLD_BEHIND:
            continue
        at += 1
        while s.text(at) in _BETWEEN | _ALL:
            at += 1
        ends = [p.end for p in s.phrases[at] if p.rule == "stage"] if at < s.n else []
        names = _listed_from(s, max(ends)) if ends else []
        if len(names) == many:
            found += [(_SCORE, Name(a, b, s.lattice.written(a, b), "pair", True, a)) for a, b in names]
    return found


_OF_WHICH = _COMMON.words("at_in_on")


def told_at(s: Surroundings) -> list[Scored]:
    """`R4 at Kettle Pond and at Hollow Elm, R3 at the Mill`: the fields of which a stage is told, in a list behind it."""
    found: list[Scored] = [(_SCORE, name) for name in _stage_by_stage(s)]
    for i in range(s.n):
        if i and not (s.pieces[i - 1].form == "nl" or s.text(i - 1) in {".", ";", ",", "still", "and"}):
            continue
        end = max((p.end for p in s.phrases[i] if p.rule == "stage" and s.text(p.end) in _OF_WHICH), default=0)
        names = _listed_after(s, end + 1) if end else []
        written = len(names) == 1 and s.text(end) == "on" and s.cased and _titled(s, *names[0])
        if len(names) > 1 or written:
            found += [(_SCORE, Name(a, b, s.lattice.written(a, b), "pair", True, a)) for a, b in names]
    return found


def _titled(s: Surroundings, a: int, b: int) -> bool:
    """`Jessup place`, `Kern Farm`: a title, the noun of land behind it in small letters or not."""
    return title(s, a, b) or (b - a > 1 and s.text(b - 1) in _OF_LAND and title(s, a, b - 1))


_OF_LAND = _COMMON.words("land")
_SETS_OFF = frozenset({":", "-", "–", "="})
_FEWEST_LINES = 2  # of one field each


def _stage_by_stage(s: Surroundings) -> list[Name]:
    """`VC: Lot 3, Lot 6`, and under it `VE: Lot 5`: a page that lists its fields stage by stage."""
    lines: list[list[tuple[int, int]]] = []
    for i in (x for x in range(s.n) if x == 0 or s.pieces[x - 1].form == "nl"):
        at = i + (s.text(i) in _OF_WHICH and i + 1 < s.n)
        end = max((p.end for p in s.phrases[at] if p.rule == "stage" and s.text(p.end) in _SETS_OFF), default=0)
        names = _listed_after(s, end + 1) if end else []
        if names:
            lines.append(names)
    if len(lines) < _FEWEST_LINES and not any(len(names) > 1 for names in lines):
        return []
    return [Name(a, b, s.lattice.written(a, b), "pair", True, a) for names in lines for a, b in names]


def _listed_after(s: Surroundings, at: int) -> list[tuple[int, int]]:
    """The names from piece `at` on, as far as they are names; nothing where the clause goes on behind the last."""
    names: list[tuple[int, int]] = []
    stop = at
    while at < s.n:
        name = _one_name(s, at)
        if name is None:
            break
        names.append(name)
        stop = at = end = name[1]
        while s.text(at) in _JOIN:
            at += 1
        if at == end:
            break
        at += s.text(at) in _OF_WHICH
    over = stop >= s.n or s.pieces[stop].form == "nl" or s.text(stop) in {".", ";", ","}
    next_stage = s.text(stop) == "and" and strength(s, stop + 1)[1] == "stage"
    return names if over or next_stage else []


def _one_name(s: Surroundings, at: int) -> tuple[int, int] | None:
    """The name that begins at piece `at` and goes on to the next word that joins names, without its article."""
    end = at
    while end < s.n and s.pieces[end].form in {"word", "int"} and s.text(end) not in _JOIN:
        end += 1
    first = at + (s.text(at) == "the")
    if any(p.rule == "stage" and p.end == end for x in range(first + 1, end) for p in s.phrases[x]):
        return None  # R3 at Ames, Orrin R4: the second has a stage of its own
    return (first, end) if 0 < end - first <= _LONGEST and named(s, first, end) else None


def _listed_from(s: Surroundings, at: int) -> list[tuple[int, int]]:
    """The names from piece `at` on to the end of the sentence; nothing where one of them is none."""
    while s.text(at) in _LEADS:
        at += 1
    names: list[tuple[int, int]] = []
    while at < s.n:
        name = _one_name(s, at)
        if name is None:
            return []
        names.append(name)
        end = name[1]
        if end >= s.n or s.text(end) not in _JOIN:
            return names if end >= s.n or s.pieces[end].form == "nl" or s.text(end) in {".", ";"} else []
        at = end
        while s.text(at) in _JOIN:
            at += 1
    return []


def _tells(s: Surroundings, i: int) -> bool:
    """What is told of them stands at piece i, past `at`, `right at`, `about`."""
    while s.text(i) in _BETWEEN:
        i += 1
    begun, rule = strength(s, i)
    return begun >= 0.8 and rule in _TOLD


def _listed(s: Surroundings, end: int) -> list[tuple[int, int]]:
    """The names that end at piece `end`, back to the beginning of the sentence; nothing where one of them is none."""
    names: list[tuple[int, int]] = []
    at = end
    while at > 0:
        start = at
        while start and at - start < _LONGEST and _inside(s, start - 1):
            start -= 1
        first = start
        while first < at and s.text(first) in {"the", *_WENT}:
            first += 1
        if not named(s, first, at) and not _number_of_a_list(s, first, at):
            return []
        names.insert(0, (first, at))
        went = any(s.text(i) in _WENT for i in range(start, first))
        if went or not start or s.text(start - 1) not in _JOIN:
            break
        at = start - 1
        while at and s.text(at - 1) in _JOIN:
            at -= 1
    return names


def _number_of_a_list(s: Surroundings, a: int, b: int) -> bool:
    """`Tracts 4 and 9 both R3`: a number alone, behind a noun of places with its number."""
    if b - a != 1 or s.pieces[a].form != "int" or s.text(a - 1) not in _JOIN:
        return False
    before = a - 1
    while before > 0 and (s.text(before) in _JOIN or s.pieces[before].form == "int"):
        before -= 1
    return noun_at(s, before) or s.text(before) in _FIELDS


_FIELDS = _LISTED.words("fields")


def _inside(s: Surroundings, i: int) -> bool:
    """Piece i may belong to a name, and no day ends with it."""
    day = any(p.rule == "date" and p.end == i + 1 for x in range(max(0, i - 4), i + 1) for p in s.phrases[x])
    return s.pieces[i].form in {"word", "int"} and s.text(i) not in _JOIN and not day


def named(s: Surroundings, a: int, b: int) -> bool:
    """Words that look like a name by themselves, and say nothing of a plant."""
    if a >= b or all(s.text(i) in _PARTS or s.text(i) in s.words.compass for i in range(a, b)):
        return False
    return all(_word(s, i, a) for i in range(a, b)) and (b - a > 1 or odd(s.lattice, a) or capital(s, a))


def _word(s: Surroundings, i: int, first: int) -> bool:
    if "ORD" in kinds(s, i):
        return False  # Second the same: a plant
    meant = {e.kind for e in s.lattice.edges[i] if e.how == "exact" and e.end == i + 1} - {"LETTER", "INT"}
    if s.pieces[i].form == "int":
        return i > first and len(s.text(i)) < 4
    if len(s.text(i)) == 1 and i == first + 1 and (noun_at(s, first) or (upper(s, i) and capital(s, first))):
        return True  # Parcel A and Parcel C
    return (
        odd(s.lattice, i)
        or (s.text(i) == "'s" and i > first)
        or (i == first and bool(kinds(s, i) & {"INT"}) and acres_in_words(s, i + 1))
        or (i > first and s.text(i - 1) == "field" and "INT" in kinds(s, i))
        or (i == first and s.text(i) in _FIELDS and s.pieces[i + 1].form == "int")
        or acres_in_words(s, i)
        or bool(kinds(s, i) & NAMEY)
        or s.text(i) in _ALSO
        or (capital(s, i) and s.text(i) in _SIZED)
        or (i == first and s.text(i) in {"upper", "lower"} and i + 1 < s.n and odd(s.lattice, i + 1))
        or (capital(s, i) and not meant)
        or (capital(s, i) and meant == {"OTHERCROP"} and noun_at(s, i + 1) and capital(s, i + 1))  # Hay Barn
    )
