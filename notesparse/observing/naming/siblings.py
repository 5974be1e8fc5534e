"""Fields of a kind with their numbers: beside `Section nine south` a clause that begins with `section nine north` is of
another field, whatever stands behind it (guide 1.2).

`Crossed the ditch, section nine north, no hail. Plant one ...`: the way there is told first, and something else than a
plant follows, so that nothing but its likeness to the name before tells of the field.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.placing import not_visited
from notesparse.observing.naming.surroundings import (
    Surroundings,
    acres_in_words,
    kinds,
    noun_at,
    pass_fillers,
    strength,
    upper,
)

_COMMON = cue_page("shared")

_MARKS = frozenset({".", ",", ";", ":", "-"})
_LED = _COMMON.words("hums") | _COMMON.words("then")


def siblings(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names, and those of the same kind with another number or side."""
    chosen = _by_number(s, _lettered(s, [_the_last(s, name) for name in chosen]))
    used = {x for name in chosen for x in range(name.start, name.end)}
    nouns = {s.text(name.start) for name in chosen if name.seen and _numbered(s, name.start) == name.end}
    out = list(chosen)
    for i in (x for x in range(1, s.n) if s.text(x) in nouns and _opens(s, x)):
        end = _numbered(s, i)
        held = set(range(i, end))
        over = [name for name in out if held & set(range(name.start, name.end))]
        inside = all(i <= name.start and name.end < end and name.seen for name in over)
        if not end or (held & used and not inside):
            continue
        seen = not not_visited(s, pass_fillers(s, end))
        out = [name for name in out if name not in over]
        out.append(Name(i, end, s.lattice.written(i, end), "sentence", seen, i))
    return sorted([*out, *_of_one_owner(s, out)], key=lambda name: name.start)


def _lettered(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`Parcel A and Parcel C both R4` beside `Parcel B R3`: the letter behind the same word goes with it."""
    kinds_of = {s.text(name.start) for name in chosen if name.end - name.start == 2 and _letter(s, name.end - 1)}
    return [
        _up_to(s, name, name.end + 1)
        if name.end - name.start == 1
        and (s.text(name.start) in kinds_of or noun_at(s, name.start))
        and _letter(s, name.end)
        and not s.pieces[name.end].glued
        else name
        for name in chosen
    ]


def _letter(s: Surroundings, i: int) -> bool:
    """A single capital letter that begins no stage."""
    alone = i < s.n and s.pieces[i].form == "word" and len(s.text(i)) == 1 and upper(s, i) and s.text(i) not in {"i"}
    if not alone or i + 1 >= s.n:
        return alone
    figure, over = s.pieces[i + 1].form, i + 2 >= s.n or s.pieces[i + 2].form in {"nl", "mark"}
    if s.text(i) in {"r", "v"} and (figure == "dec" or (figure == "int" and over)):
        return False  # Windbreak R 5.5
    return not (figure == "int" and s.pieces[i + 1].glued)


def _up_to(s: Surroundings, name: Name, end: int) -> Name:
    return replace(name, end=end, text=s.lattice.written(name.start, end))


_OF_A_FIELD = frozenset({"stage", "ratio", "percent", "average"})


def _by_number(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`Coulter number one is at R4`, `Coulter number two is at R3`: a name that comes again with another number behind it,
    of which a stage is told, goes by that number; behind one that does not, the number is a plant's."""
    names = {_plain(s, name): name for name in chosen}
    out = list(chosen)
    for words, first in names.items():
        spots = [i for i in range(s.n) if tuple(s.text(x) for x in range(i, i + len(words))) == words]
        ends = {i: end for i in spots if (end := _number_behind(s, i + len(words)))}
        numbers = {s.text(end - 1) for end in ends.values()}
        told = {s.text(end - 1) for end in ends.values() if _told(s, end)}
        if len(numbers) < _FEWEST or told != numbers:
            continue
        for i, end in ends.items():
            text = s.lattice.written(i, end)
            over = [name for name in out if name.start < end and i < name.end]
            cue = over[0] if over else first
            again = any(name.text.casefold() == text.casefold() for name in out if name not in over)
            out = [name for name in out if name not in over]
            out.append(
                Name(i, end, text, "again" if again else cue.cue, True, min(i, over[0].cue_start) if over else i)
            )
    return sorted(out, key=lambda name: name.start)


def _plain(s: Surroundings, name: Name) -> tuple[str, ...]:
    """The words of a name without a number behind them."""
    end = next((x for x in range(name.start + 1, name.end) if _number_behind(s, x) == name.end), name.end)
    return tuple(s.text(x) for x in range(name.start, end))


def _number_behind(s: Surroundings, i: int) -> int:
    """Where `number one`, `no. 2`, `#3` ends that begins at piece i; 0 where none does."""
    at = i + 1 + (s.text(i + 1) == ".")
    said = s.text(i) in {"number", "no", "nr", "#"} and at < s.n
    return at + 1 if said and any(e.kind == "INT" and e.end == at + 1 for e in s.lattice.edges[at]) else 0


def _told(s: Surroundings, i: int) -> bool:
    """A stage or a share is told soon behind piece i, in the same sentence, with nothing else before it; or the plants are
    counted behind its end."""
    for x in range(i, min(i + _SOON, s.n)):
        begun, rule = strength(s, x)
        if s.pieces[x].form == "nl" or (s.text(x) == "." and s.lattice.soft[x] is None):
            return x == i and strength(s, x + 1)[1] == "label"  # Then Coulter number three. Plant one ...
        if rule in _OF_A_FIELD and begun >= 1.0:
            return True
        if begun >= 1.2:
            return False
    return False


_SOON = 7  # pieces
_FEWEST = 2  # fields of one owner, beside which the third is one


def _of_one_owner(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`the Kern forty's a mix`, beside `The Kern quarter` and `the Kern eighty`."""
    held = {x for name in chosen for x in range(name.start, name.end)}
    firsts = [name.start + (s.text(name.start) == "the") for name in chosen if name.seen]
    owners = Counter(s.text(i) for i in firsts if odd(s.lattice, i) and _land(s, i + 1))
    more: list[Name] = []
    for i in (x for x in range(2, s.n - 1) if owners[s.text(x)] >= _FEWEST and _land(s, x + 1)):
        led = i - (s.text(i - 1) == "the")
        if {i, i + 1} & held or not (_opens(s, led) or s.text(led - 1) in {"and", "but"}):
            continue
        seen = not not_visited(s, pass_fillers(s, i + 2))
        more.append(Name(i, i + 2, s.lattice.written(i, i + 2), "sentence", seen, led))
    return more


def _land(s: Surroundings, i: int) -> bool:
    return noun_at(s, i) or acres_in_words(s, i) or (i < s.n and s.text(i) in s.words.compass)


def _the_last(s: Surroundings, name: Name) -> Name:
    """`at Levee 6 Levee 7 calling it R4`: of two such names in one, the second is the field."""
    at = _numbered(s, name.start)
    if not at or at >= name.end or s.text(at) != s.text(name.start) or _numbered(s, at) != name.end:
        return name
    return replace(name, start=at, cue_start=at, text=s.lattice.written(at, name.end))


def _numbered(s: Surroundings, i: int) -> int:
    """Where `section twenty two`, `tract 12 west` ends; 0 where no noun with a number stands at piece i."""
    if not noun_at(s, i) or i + 1 >= s.n:
        return 0
    end = max((e.end for e in s.lattice.edges[i + 1] if e.kind == "INT"), default=0)
    if not end:
        return 0
    while end < s.n and (s.text(end) in s.words.compass or "COMPASS" in kinds(s, end)) and s.pieces[end].form == "word":
        end += 1
    return end


def _opens(s: Surroundings, i: int) -> bool:
    """A clause begins at piece i."""
    before = s.pieces[i - 1]
    return before.form == "nl" or before.text in _MARKS or before.text in _LED
