"""Whom a note is written to, and the way there, are no fields: `Dear Mr Hanks,`, `Respected Sir, plants 1 to 3`, `Driving by |
Dell`, `From the gate | Pine Flat`; nor is where the neighbor's beans stand, nor a road with
its number (guide 1.2)."""

from __future__ import annotations

from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.language.lists import claim_words
from notesparse.lazy import pattern
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import MEALS
from notesparse.observing.naming.surroundings import Surroundings, upper
from notesparse.reading.unfit.heads import HOLDS

_COMMON = cue_page("shared")
_LISTED = cue_page("naming/addressed")

_ON_THE_WAY = _LISTED.words("on_the_way")
_FROM = _LISTED.words("from")
_MOST = 3  # words


def no_field_here(s: Surroundings, name: Name) -> bool:
    """Whether the words name somebody, a way, an hour or another field, by what stands beside them."""
    return any(
        rule(s, name)
        for rule in (
            addressed,
            of_the_neighbor,
            where_somebody_is,
            numbered_way,
            next_to,
            at_a_meal,
            so_full,
            measured,
            a_book,
            a_look,
        )
    )


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


def where_somebody_is(s: Surroundings, name: Name) -> bool:
    """`for the owner out in Tulsa`, `my aunt down in Macon wants this`: where somebody is who has not seen the field."""
    if s.text(name.start - 1) != "in":
        return False
    at = name.start - 2 - (s.text(name.start - 2) in _OUT)
    return s.text(at) in claim_words().people and s.text(at - 1) in _SOMEBODY


_OUT = _LISTED.words("out")
_SOMEBODY = _LISTED.words("somebody")
_BESIDE = _COMMON.words("beside")
_OF_THEIRS = _LISTED.words("of_theirs")
_OWNED = 4  # pieces of `the neighbor's beans`


_NEXT_TO = _LISTED.words("next_to")
_BEFORE_NEXT_TO = _LISTED.words("before_next_to")


def next_to(s: Surroundings, name: Name) -> bool:
    """`next to Dunkirk it's R4`, `beside Dunkirk, R4`: what stands next to a field is not that field."""
    at = name.start
    if s.text(at) not in {"beside", "alongside", "opposite"}:
        at -= 1
        at -= s.text(at) == "the"
        at -= s.text(at) == "to"
    if s.text(at) not in _NEXT_TO or (s.text(at) in {"next", "adjacent"} and s.text(at + 1) != "to"):
        return False
    return at == 0 or s.text(at - 1) not in _BEFORE_NEXT_TO


_BEHIND_SO_FULL = _COMMON.words("being") | {"about"}


def so_full(s: Surroundings, name: Name) -> bool:
    """`bins 1/8`, `tank 3/4 full`: how full what holds grain, water or fuel is, and no field with its day."""
    at, end = s.text, name.end
    end += at(end) in _BEHIND_SO_FULL
    part = at(end).isdigit() and at(end + 1) == "/" and at(end + 2) in {"2", "4", "8"}
    return at(name.end - 1) in HOLDS and part and name.end - name.start - (at(name.start) == "the") == 1


def measured(s: Surroundings, name: Name) -> bool:
    """`River gauge 31 and falling`: how high the water stands, and no field `River`."""
    return any(e.kind == "OTHERFIELD" and e.end > name.end for e in s.lattice.edges[name.start])


_BOOKS = _LISTED.words("books")
_KEPT_OF = _LISTED.words("kept_of")


def a_book(s: Surroundings, name: Name) -> bool:
    """`PIVOT LOG`, `Spray record`, `Log`: what the page was torn from; `Hollow Log` is a name."""
    return s.text(name.end - 1) in _BOOKS and all(s.text(x) in _KEPT_OF for x in range(name.start, name.end - 1))


_LOOKS = _LISTED.words("looks")
_WHICH_LOOK = _LISTED.words("which_look")
_OUR = _COMMON.words("our") | {"a"}
_IS = _COMMON.words("being")


def a_look(s: Surroundings, name: Name) -> bool:
    """`this is the replant look`, `this is my weekly check`: what the visit is for; `this is the Miller place` is a field."""
    at = name.start - (s.text(name.start) not in _OUR)
    if s.text(at) not in _OUR or s.text(at - 1) not in _IS:
        return False
    words = [s.text(x) for x in range(at + 1, name.end + 1) if x < name.end or s.text(x) in _LOOKS]
    return words == ["replant"] or (words[-1] in _LOOKS and all(x in _WHICH_LOOK for x in words[:-1]))


_BY_THE_HOUR = _COMMON.words("about_an_hour")


def at_a_meal(s: Surroundings, name: Name) -> bool:
    """`Hail at Supper`: what fell and when it was, and no field."""
    if name.end != name.start + 1:
        return False
    if s.text(name.start) in MEALS:
        return s.text(name.start - 1) in _BY_THE_HOUR
    fell = any(e.kind in {"DAMAGE", "WEATHER"} and e.how == "exact" for e in s.lattice.edges[name.start])
    return fell and s.text(name.end) in _BY_THE_HOUR and s.text(name.end + 1) in MEALS


_WAYS = _COMMON.words("road") | _COMMON.words("landmark") | {"parcel", "tract"}
_CODE = pattern(r"[rv]-?\d+")


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
