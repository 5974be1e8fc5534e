"""Fields of a kind with their numbers: beside `Section nine south` a clause that begins with `section nine north` is of
another field, whatever stands behind it (guide 1.2).

`Crossed the ditch, section nine north, no hail. Plant one ...`: the way there is told first, and something else than a
plant follows, so that nothing but its likeness to the name before tells of the field.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.placing import not_visited
from notesparse.observing.naming.surroundings import Surroundings, acres_in_words, kinds, noun_at, pass_fillers

_MARKS = frozenset({".", ",", ";", ":", "-"})
_LED = frozenset({"now", "then", "next", "okay", "ok", "uh", "um"})


def siblings(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names, and those of the same kind with another number or side."""
    chosen = [_the_last(s, name) for name in chosen]
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
        out.append(Name(i, end, " ".join(s.lattice.original(i, end).split()), "sentence", seen, i))
    return sorted([*out, *_of_one_owner(s, out)], key=lambda name: name.start)


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
        more.append(Name(i, i + 2, " ".join(s.lattice.original(i, i + 2).split()), "sentence", seen, led))
    return more


def _land(s: Surroundings, i: int) -> bool:
    return noun_at(s, i) or acres_in_words(s, i) or (i < s.n and s.text(i) in s.words.compass)


def _the_last(s: Surroundings, name: Name) -> Name:
    """`at Levee 6 Levee 7 calling it R4`: of two such names in one, the second is the field."""
    at = _numbered(s, name.start)
    if not at or at >= name.end or s.text(at) != s.text(name.start) or _numbered(s, at) != name.end:
        return name
    return replace(name, start=at, cue_start=at, text=" ".join(s.lattice.original(at, name.end).split()))


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
