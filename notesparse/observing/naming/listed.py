"""Names in a list behind a first one, and words that stand for one of a list: `Looked at Amber Mill and Slate Mill. The first
is R5, the latter R6.`, `Wren quarter first. ... The other quarter.` (guide 1.2).

The list may tell nothing of its fields; without it what follows would be of the first one alone.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.surroundings import Surroundings, title
from notesparse.observing.naming.together import named

_LISTED = cue_page("naming/listed")
_COMMON = cue_page("shared")

_AND = _COMMON.words("and")
_BEHIND = _LISTED.words("behind")
_LONGEST = 4
_FIRST = _LISTED.table("first", int)
_STANDS = frozenset({"other", *_FIRST})
_SAID = _LISTED.words("said")
_TWO = 2


def with_their_lists(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names, and those that go on their lists."""
    out = list(chosen)
    if not s.shouted:
        for name in chosen:
            if name.seen and title(s, name.start, name.start + 1):
                out += _going_on(s, name, out)
        for i in range(s.n - 1):
            out += _gone_through(s, i, out)
    return sorted(out, key=lambda name: name.start)


_WENT = _COMMON.words("looked") | _COMMON.words("visited")


def _gone_through(s: Surroundings, i: int, chosen: list[Name]) -> list[Name]:
    """`Did Plum Hollow, Gooseberry, Quince and Damson Tuesday.`: a list of names behind a verb that begins the sentence."""
    if s.text(i) not in _WENT or not s.lattice.opens(i):
        return []
    at = i + 1 + (s.text(i + 1) == "at")
    end = _written_to(s, at)
    if end == at or not named(s, at, end) or any(x.start < end and i < x.end for x in chosen):
        return []
    first = Name(at, end, s.lattice.written(at, end), "comma", True, i)
    others = _going_on(s, first, chosen)
    return [first, *others] if others else []


def with_what_stands_for_them(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names, and the words that stand for one of those before: the former, the other quarter."""
    stands = _standing_for(s, chosen)
    out = [name for name in chosen if not any(x.start < name.end and name.start < x.end for x in stands)]
    return sorted([*out, *stands], key=lambda name: name.start)


def _going_on(s: Surroundings, name: Name, chosen: list[Name]) -> list[Name]:
    """`..., Gooseberry, Quince and Damson`, each word with a capital, to the end of the clause."""
    found: list[Name] = []
    at = name.end
    while s.text(at) in _AND:
        while s.text(at) in _AND | {"the"}:
            at += 1
        end = _written_to(s, at)
        alike = end > at and s.text(end) == s.text(name.end - 1) and name.end - name.start > 1  # and Plover quarter
        fits = named(s, at, end) or (alike and s.pieces[at].form == "word")
        if end < s.n and end > at and (s.pieces[end].form == "int" or alike):
            end += 1
        day = at < s.n and any(p.rule == "date" for p in s.phrases[at])  # Kingbird 20, May 20
        if any(x.start < end and at < x.end for x in chosen) or not fits or day or not _over(s, end):
            break
        found.append(Name(at, end, s.lattice.written(at, end), "comma", True, at))
        at = end
    joined = bool(found) and {"and", "&"} & {s.text(x) for x in range(name.end, found[-1].end)}
    return found if joined else []


def _written_to(s: Surroundings, at: int) -> int:
    """Where the words with capitals end that begin at piece `at`, before a day (Damson Tuesday)."""
    end = at
    while end < min(s.n, at + _LONGEST) and s.pieces[end].form == "word" and title(s, end, end + 1):
        if end > at and any(p.rule == "date" for p in s.phrases[end]):
            break
        end += 1
    return end


def _over(s: Surroundings, i: int) -> bool:
    if i >= s.n or s.pieces[i].form in {"nl", "mark"} or s.text(i) in _BEHIND:
        return True
    return any(p.rule == "date" for p in s.phrases[i])


def _lists(s: Surroundings, names: list[Name]) -> list[list[Name]]:
    """Names that nothing but `and` and commas part."""
    groups: list[list[Name]] = []
    for name in names:
        last = groups[-1][-1] if groups else None
        between = {s.text(x) for x in range(last.end, name.start)} if last is not None else {"-"}
        if last is not None and between and between <= _AND | {"the"}:
            groups[-1].append(name)
        else:
            groups.append([name])
    return [g for g in groups if len(g) >= _TWO]


def _standing_for(s: Surroundings, names: list[Name]) -> list[Name]:
    lists = _lists(s, names)
    held = {x for n in names for x in range(n.start, n.end) if not _STANDS & set(n.text.lower().split()[:2])}
    found: list[Name] = []
    for i in range(s.n):
        if s.text(i) != "the" or not _begins(s, i):
            continue
        group = next((g for g in reversed(lists) if g[-1].end <= i), None) or _the_two(names, i)
        if group is None:
            continue
        one = _which(s, i, group, [*names, *found])
        if one is None or held & set(range(i, one[1])):
            continue
        found.append(Name(i, one[1], one[0].text, "again", True, i))
    return found


def _the_two(names: list[Name], i: int) -> list[Name] | None:
    """The only two fields that are named before piece i."""
    told = {name.text.casefold(): name for name in reversed(names) if name.end <= i and name.seen}
    two = sorted(told.values(), key=lambda name: name.start)
    return two if len(two) == _TWO else None


def _which(s: Surroundings, i: int, group: list[Name], names: list[Name]) -> tuple[Name, int] | None:
    """The name that the words at piece i stand for, and where they end."""
    at, end = _FIRST.get(s.text(i + 1)), i + 2
    if any(p.rule == "label" for x in range(group[0].start, i) for p in s.phrases[x]) and at is not None:
        return None  # the first may be a plant
    if at is not None and at < len(group) and (at < _TWO or s.text(i + 1) not in {"former", "latter"}):
        end += s.text(end) in {"one", "field"}
        return (group[at], end) if s.text(end) in _SAID else None
    nouns = {s.text(name.end - 1) for name in group} | {s.text(name.start) for name in group} | {"one", "field"}
    noun = s.text(i + 2)
    if s.text(i + 1) != "other" or noun not in nouns or len(group) != _TWO:
        return None
    labels = any(p.rule == "label" for x in range(group[0].start, i) for p in s.phrases[x])
    if noun == "one" and labels:
        return None  # the other one may be a plant
    if noun not in {"one", "field"} and not all(noun in {s.text(x) for x in range(g.start, g.end)} for g in group):
        return None  # the other quarter, and not that of Gunder
    told = [x for x in sorted(names, key=lambda n: n.start) if group[-1].end <= x.start < i]
    last = next((x.text for x in reversed(told) if x.text in {g.text for g in group}), None)
    other = [g for g in group if g.text != last]
    return (other[0], i + 3) if last is not None and len(other) == 1 else None


_BEFORE_BEGINS = _LISTED.words("before_begins")


def _begins(s: Surroundings, i: int) -> bool:
    before = s.text(i - 1)
    return i == 0 or s.pieces[i - 1].form in {"nl", "mark"} or before in _BEFORE_BEGINS
