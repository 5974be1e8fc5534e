"""Whom a note is written to, and the way there, are no fields: `Dear Mr Hanks,`, `Respected Sir, plants 1 to 3`, `Driving by |
Dell`, `From the gate | Pine Flat`; nor is where the neighbor's beans stand, nor a road with
its number (guide 1.2)."""

from __future__ import annotations

import re
from dataclasses import replace

from notesparse.observing.naming.names import Name
from notesparse.observing.naming.surroundings import Surroundings, upper

_ON_THE_WAY = frozenset({"by", "past", "along", "through"})
_FROM = frozenset({"from", "by", "off", "past", "near", "at"})
_MOST = 3  # words


def addressed(s: Surroundings, name: Name) -> bool:
    """A greeting begins the words, or whoever is greeted ends them, and a mark or the line's end stands behind."""
    begins = name.start == 0 or s.pieces[name.start - 1].form == "nl" or s.text(name.start - 1) in s.words.greetings
    over = name.end < s.n and (s.pieces[name.end].form == "nl" or s.text(name.end) in {",", ":", "-", "."})
    if not begins or not over or name.end - name.start > _MOST:
        return False
    greeted = s.text(name.start) in s.words.greetings and name.end - name.start > 1
    return greeted or s.text(name.end - 1) in s.words.greeted


def of_the_neighbor(s: Surroundings, name: Name) -> bool:
    """`neighbor's field at Gypsum Hill is R5`: where somebody else's beans stand."""
    at = name.start - 1 - (s.text(name.start - 1) == "the")
    if s.text(at) not in _BESIDE:
        return False
    led = range(max(0, at - _OWNED), at)
    return any(
        e.kind == "NEIGHBOR" and e.end == at and s.text(at - 1) in _OF_THEIRS for x in led for e in s.lattice.edges[x]
    )


_BESIDE = frozenset({"at", "by", "in", "near", "on"})
_OF_THEIRS = frozenset({"'s", "beans", "field", "fields", "neighbors", "neighbours", "soybeans"})
_OWNED = 4  # pieces of `the neighbor's beans`


_WAYS = frozenset("route rte tract parcel exit road rd highway hwy gate lane levee drive crossing bridge".split())
_CODE = re.compile(r"[rv]-?\d+")


def numbered_way(s: Surroundings, name: Name) -> bool:
    """`Route R7 is closed`, `tract R5, 11 trifs`: the words hold a way with its number, or the half of it, where the number is
    no stage."""
    ways = (x for x in range(max(0, name.start - 1), name.end) if s.text(x) in _WAYS)
    return any(_goes_by_a_code(s, x + 1) for x in ways)


def _goes_by_a_code(s: Surroundings, at: int) -> bool:
    if at >= s.n or s.text(at)[:1] not in {"r", "v"}:
        return False
    end = s.lattice.run_end(at, marks="-")
    code = _CODE.fullmatch(s.lattice.original(at, end).casefold())
    return code is not None and not any(p.rule == "stage" for p in s.phrases[at])


def past_the_way(s: Surroundings, name: Name) -> Name:
    """The name without the words in small letters, or of going, that lead to it."""
    at = _past_going(s, name) or _past_the_spot(s, name)
    if not name.start < at < name.end:
        return name
    return replace(name, start=at, text=s.lattice.written(at, name.end))


def _past_going(s: Surroundings, name: Name) -> int:
    """`Driving by the | Dell place`"""
    at = name.start + 1
    if s.text(name.start) not in s.words.moving or s.text(at) not in s.words.arriving | _ON_THE_WAY:
        return 0
    at += 1 + (s.text(at + 1) == "the")
    return at if upper(s, at) or not s.cased else 0


def _past_the_spot(s: Surroundings, name: Name) -> int:
    """`From the gate | Pine Flat`: what was named with small letters, and behind it a title."""
    led = s.text(name.start - 1) == "the" and s.text(name.start - 2) in _FROM
    if not led or upper(s, name.start) or not s.cased:
        return 0
    at = next((x for x in range(name.start, name.end) if upper(s, x)), name.start)
    return at if name.end - at > 1 and all(upper(s, x) for x in range(at, name.end)) else 0
