"""Where running talk turns to another field with no mark and nothing said of it at once: `okay then uh kessels pond side
um that was planted late`, `lindman south first we planted that on may sixth`.

What follows tells nothing here, so the words have to show by themselves that they are a name: a word of no meaning and
behind it a noun of places, a direction or the acres.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from notesparse.language.cues import cue_page
from notesparse.lazy import pattern
from notesparse.observing.naming.following import past_the_lag
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import ends_as_talk, odd
from notesparse.observing.naming.placing import Scored, not_visited
from notesparse.observing.naming.surroundings import (
    Surroundings,
    acres_in_words,
    found_before,
    kinds,
    noun_at,
    pass_fillers,
    starts,
    upper,
)

_LISTED = cue_page("naming/turning")
_COMMON = cue_page("shared")

_SCORE = 3.2
_HUMS = _COMMON.words("hums")
_THEN = _COMMON.words("then")
_HEAD = _COMMON.words("at") | {"for"}
_TAILS = _LISTED.words("tails")
_LAND = _COMMON.words("land") | _COMMON.words("field")
_WHERE = _LISTED.words("where")
_FIRST_IS = _LISTED.words("first_is")
_EVERYDAY = _LISTED.words("everyday")
_LONGEST = 4
_ORDINALS = _COMMON.words("nth") | {"last", "next"}
_IS = _COMMON.words("being")
_NAME = pattern(r"o{1,2}[nact]{1,2}|nt|n#t|t#c?")
"""Odd words, and nouns, acres, compass or tails behind them; or river side, hwy 9 side, Section 14 southwest."""
_ROAD = pattern(r"n#t")
_CALLED = pattern(r"[oc]{0,2}n[nac#]{0,2}|o{1,2}[nact#]{1,2}|t#c?")
_DIFFERING = pattern(r"(c|o{1,2})[onact]{0,2}|n[nat]")
_OPENING = pattern(r"o{0,2}[nact]{1,2}|nt")


_BEHIND_TURNED = _COMMON.words("at") | {"to"}


def turned(s: Surroundings) -> list[Scored]:
    """The names to which the talk turns."""
    found: list[Scored] = []
    for at, cue in _turns(s):
        if s.text(at) in _LAND and s.text(at + 1) == "over":
            continue  # thinking of the next field over
        end = _named(s, at, _CALLED if s.text(cue) in _ORDINALS else _NAME)
        end = _that_one(s, at) if end is None and s.text(cue) not in _ORDINALS else end
        if end is not None and not _side_of_something(s, cue, end):
            found.append(_scored(s, at, end, cue))
    for at in (i for i in range(s.n) if i and s.text(i - 1) in {".", ";"} and s.pieces[i].form == "word"):
        end = _named(s, at, _ROAD)
        if end is not None:
            found.append(_scored(s, at, end, at))
    for i in range(s.n - 3):
        if s.text(i) == "over" and s.text(i + 1) in _BEHIND_TURNED and _opens(s, i):
            at = i + 2 + (s.text(i + 2) == "the")
            end = _named(s, at, _OPENING)
            if end is not None:
                found.append(_scored(s, at, end, i))
    for end in (i for i in range(2, s.n) if s.text(i) == "first" and s.text(i + 1) in _FIRST_IS):
        for at in range(max(0, end - _LONGEST), end - 1):
            if _opens(s, at) and _named(s, at, _OPENING) == end:
                found.append(_scored(s, at, end, at))
                break
    found += [*_named_stops(s), *_by_acres(s)]
    found += [*_with_acres(s), *_described(s), *_differing(s), *_own_cell(s), *_walked_there(s)]
    return [one for one in found if not _where_it_grows(s, one[1])]


def _by_acres(s: Surroundings) -> Iterator[Scored]:
    """`the twenty is r3 the forty is r4`, `the 80's at V6`: fields by their acres alone, one of them, so that no plants
    are counted."""
    for i in range(s.n - 3):
        if s.text(i) != "the" or s.text(i + 2) not in {"is", "'s"}:
            continue
        if not (acres_in_words(s, i + 1) or (_acres(s, i + 1) and s.text(i + 1) in _SIZES)):
            continue
        after = i + 3 + (s.text(i + 3) in {"at", "still", "about"})
        if after < s.n and starts(s, after)[1] in {"stage", "ratio"}:
            yield _scored(s, i, i + 2, i)


def _named_stops(s: Surroundings) -> list[Scored]:
    """The fields at such stops; where one is surely a name, so is `mud lake` at another."""
    stops = [(i, i + 3 + (s.text(i + 3) == "the")) for i in _stops_that_are(s)]
    ends = [_named(s, i + 3, _CALLED) for i, _ in stops]
    if not any(ends):
        return []
    whole = [end or _up_to_the_plants(s, at) for end, (_, at) in zip(ends, stops, strict=True)]
    return [_scored(s, at, end, i) for end, (i, at) in zip(whole, stops, strict=True) if end]


def _up_to_the_plants(s: Surroundings, at: int) -> int:
    """Where a few words end that stand before a mark or a plant, the last of them a noun of places; 0 where they do not."""
    end = at
    while end < min(s.n, at + _LONGEST) and s.pieces[end].form == "word" and starts(s, end)[1] != "label":
        end += 1
    return end if end > at and noun_at(s, end - 1) else 0


def _stops_that_are(s: Surroundings) -> list[int]:
    """`Stop one is the Harms place.`, `Stop 2 is Willow Bend.`: the stops of the day are fields, where no field is named
    before the first of them."""
    stops = [
        i
        for i in range(s.n - 3)
        if s.text(i) == "stop" and "INT" in kinds(s, i + 1) and (s.text(i + 2) in _IS or s.text(i + 2) == ":")
    ]
    first = stops[0] if stops else 0
    days = {x for k in range(first) for p in s.phrases[k] if p.rule == "date" for x in range(p.start, p.end)}
    plain = all(x in days or s.pieces[x].form != "word" or s.lattice.filler[x] for x in range(first))
    return stops if plain and len(stops) > 1 else []


_SPOTS = _LISTED.words("spots")


def _that_one(s: Surroundings, at: int) -> int | None:
    """`and then uncle orvals that one was drilled june the eleventh`: where the words end that `that one` goes back to."""
    end = at
    while end < min(s.n, at + _LONGEST - 1) and s.pieces[end].form == "word" and s.text(end) not in {"that", "this"}:
        end += 1
    told = s.text(end) in {"that", "this"} and s.text(end + 1) in {"one", "1", "one's"}
    known = any(s.lattice.filler[x] or (s.lattice.known[x] and not odd(s.lattice, x)) for x in range(at, end))
    return end if told and end > at and not known else None


def _where_it_grows(s: Surroundings, name: Name) -> bool:
    """`Palmer 3 ft in the borrow ditch`, `phytophthora in the tile hole`: where something was found."""
    ditch = s.text(name.end - 1) in _SPOTS
    at = name.start - 1 - (s.text(name.start - 1) == "the")
    return ditch and s.text(at) in _HEAD and found_before(s, at)


def _own_cell(s: Surroundings) -> Iterator[Scored]:
    """`Rud's back side     7/17/24`, `Bishop's long rows, July 24`: at the head, all that stands before the day is a name
    where it is somebody's."""
    ends = (
        x
        for x in range(1, min(s.n, _LONGEST + 3))
        if s.pieces[x].gap >= 3 or s.pieces[x].form == "nl" or s.text(x) == ","
    )
    end = next(ends, 0)
    day = end + (s.text(end) == ",")
    own = end > 2 and upper(s, 0) and "'s" in {s.text(1), s.text(2)} and s.pieces[end].form != "nl"
    if own and day < s.n and any(p.rule == "date" for p in s.phrases[day]) and odd(s.lattice, 0):
        yield 9.0, Name(0, end, s.lattice.written(0, end), "note", True, 0)


_I = _LISTED.words("i")
_WALKED = _COMMON.words("looked") | _COMMON.words("visited") | _COMMON.words("pulled") | {"seen"}
_WALKED_SHAPE = pattern(r"[oc#]{1,3}[nat]|o{1,2}'[noat]{0,2}")


_BEFORE_WALKED_THERE = _LISTED.words("before_walked_there")


def _walked_there(s: Surroundings) -> Iterator[Scored]:
    """`turtle creek i walked all of it`, `and the west eighty i only did the one`: who walked it stands behind the name."""
    for i in range(2, s.n - 1):
        at = i + 1 + (s.text(i + 1) in {"only", "just"})
        if s.text(i) not in _I or s.text(at) not in _WALKED:
            continue
        for start in range(max(0, i - _LONGEST), i - 1):
            letters = "".join(_walked_letter(s, x) for x in range(start, i))
            goes_back = bool(start) and s.pieces[start - 1].form == "word" and odd(s.lattice, start - 1)
            led = bool(start) and s.text(start - 1) in _BEFORE_WALKED_THERE
            day = any(e.kind == "ORD" and e.end == i for e in s.lattice.edges[start])  # on the 3rd I pulled two
            if _WALKED_SHAPE.fullmatch(letters) and not goes_back and not led and not day:
                yield _scored(s, start, i, start)
                break


def _walked_letter(s: Surroundings, i: int) -> str:
    """The letter of a word before `i walked`; `'` for somebody's (Harlow's strip i looked at)."""
    if s.text(i) == "'s":
        return "'"
    return _letter(s, i) or ("#" if _begins_a_number(s, i) else ".")


def _begins_a_number(s: Surroundings, i: int) -> bool:
    return s.pieces[i].form == "word" and any(e.kind == "INT" and e.end <= i + 2 for e in s.lattice.edges[i])


def _differing(s: Surroundings) -> Iterator[Scored]:
    """`the mill lot is way ahead it's r four`: how it differs from the field before is said of a field."""
    for end in range(2, s.n):
        if past_the_lag(s, end) is None:
            continue
        for at in range(max(0, end - _LONGEST), end - 1):
            spot = any(e.kind == "WHEREWORD" and e.end >= end for x in range(at, end) for e in s.lattice.edges[x])
            if not spot and _named(s, at, _DIFFERING) == end:
                yield _scored(s, at, end, at)
                break


def _with_acres(s: Surroundings) -> Iterator[Scored]:
    """`R5 in Church 40`, `80% of pods brn in the Miller 80.`: capitals, and the acres or a noun, at a clause's end."""
    for i in range(s.n - 2):
        at = i + 1 + (s.text(i + 1) == "the")
        if s.shouted or s.text(i) not in {"in", "at"} or at + 1 >= s.n or not upper(s, at):
            continue
        end = at + 1
        while end < s.n and end < at + 3 and s.pieces[end].form == "word" and upper(s, end):
            end += 1
        meant = {e.kind for x in range(at, end) for e in s.lattice.edges[x] if e.how == "exact"}
        if meant - {"FIELDNOUN", "COMPASS", "LETTER"}:
            continue
        end += _acres(s, end) or noun_at(s, end)
        if end - at > 1 and (_acres(s, end - 1) or noun_at(s, end - 1)) and _over(s, end):
            yield _SCORE, Name(at, end, s.lattice.written(at, end), "go", True, i)


def _acres(s: Surroundings, i: int) -> bool:
    return i < s.n and s.pieces[i].form == "int" and len(s.text(i)) in {2, 3} and s.text(i).endswith("0")


def _over(s: Surroundings, i: int) -> bool:
    """The clause is over at piece i."""
    while s.text(i) in {"now", "today", "again"}:
        i += 1
    return i >= s.n or s.pieces[i].form in {"mark", "nl"} or s.text(i) in {"and", "but"}


def _described(s: Surroundings) -> Iterator[Scored]:
    """`this is the field behind the machine shed`: before anything is told, where the field lies is its name; further on
    at the head of a sentence (`the eighty by the school is r4`)."""
    told = _told(s)
    for i in range(1, s.n):
        if s.text(i) not in _LAND or s.text(i - 1) != "the" or s.text(i - 2) in {"of", "end", "part"}:
            continue
        later = i >= told
        if later and (s.text(i) in _SOME or not (s.pieces[i - 2].form == "nl" or s.text(i - 2) in {".", ";", "then"})):
            continue
        at = end = i + 1
        while s.text(end) in _WHERE:
            end += 1
        if end == at or s.text(end) != "the":
            continue
        end += 2
        while end < s.n and s.pieces[end].form == "word" and noun_at(s, end):
            end += 1
        after = pass_fillers(s, end + (end < s.n and s.text(end) in _IS))
        if later and (after >= s.n or starts(s, after)[1] not in _OF_A_FIELD):
            continue  # the ground by the creek is wet
        if end <= s.n and s.pieces[end - 1].form == "word":
            yield _scored(s, i if s.text(i) in _ACREAGE else at, end, i)


_SIZES = frozenset({"20", "40", "60", "80", "120", "160", "240", "320"})
_SOME = _LISTED.words("some")
_ACREAGE = _LISTED.words("acreage")
_OF_A_FIELD = frozenset({"stage", "ratio", "percent", "label", "planted", "average", "call"})


def _told(s: Surroundings) -> int:
    """Where the first thing is told, or the end."""
    return next((i for i in range(s.n) if starts(s, i)[1] not in {None, "date"} and starts(s, i)[0] >= 1.2), s.n)


_PARTS = _COMMON.words("part_of_a_field")
_WATER = frozenset({"standing", "water"})


def _side_of_something(s: Surroundings, cue: int, end: int) -> bool:
    """`there's water standing on the land side of the levee`: where something stands, and not where the talk goes on."""
    of_the = s.text(end - 1) in _PARTS and (s.text(end), s.text(end + 1)) == ("of", "the")
    return of_the and s.text(cue) == "on" and bool(_WATER & {s.text(x) for x in range(max(0, cue - 3), cue)})


def _scored(s: Surroundings, at: int, end: int, cue: int) -> Scored:
    while end - at > 1 and any(p.rule == "rows" and p.end > end for p in s.phrases[end - 1]):
        end -= 1  # the Brandt | twenty inch rows
    seen = not not_visited(s, pass_fillers(s, end))
    return _SCORE, Name(at, end, s.lattice.written(at, end), "turn", seen, cue)


def _turns(s: Surroundings) -> Iterator[tuple[int, int]]:
    """Where a name may begin behind words that turn to it, and where those begin."""
    told = _told(s)
    for i, p in enumerate(s.pieces):
        if p.form != "word":
            continue
        if p.text in _ORDINALS and s.text(i + 1) == "one":
            at = i + 2 + (s.text(i + 2) in _IS)  # third one's Section 14, third one heifer pasture
        elif p.text in _THEN or p.text in _HUMS:
            at = _past_the_way(s, i + 1)
        elif p.text in _ORDINALS and s.text(i + 1) in _IS:
            at = i + 2  # second is gin lot
        elif p.text in _HEAD and i < told and not found_before(s, i):
            at = i + 1  # quick one for pappys eighty
        else:
            at = max((e.end for e in s.lattice.edges[i] if e.kind == "GOCUE" and e.end - i > 1), default=-1)
        while 0 < at < s.n and s.text(at) in _HUMS:
            at += 1
        if 0 < at < s.n:
            yield at, i


def _past_the_way(s: Surroundings, i: int) -> int:
    """Behind `across to`, `on over to`."""
    at = i
    while s.text(at) in s.words.ways and s.text(at) not in s.words.compass:
        at += 1
    return at + 1 if at > i and s.text(at) in s.words.arriving else i


def _opens(s: Surroundings, at: int) -> bool:
    """At the note's head, behind a day or a hum."""
    if at == 0 or s.pieces[at - 1].form in {"nl", "mark"} or s.text(at - 1) in _HUMS | {"today"}:
        return True
    return any(p.rule == "date" and p.end == at for x in range(max(0, at - 8), at) for p in s.phrases[x])


def _named(s: Surroundings, at: int, shape: re.Pattern[str]) -> int | None:
    """The end of the longest words from piece `at` on that have the shape of a name."""
    letters, best = "", None
    i = at + (s.text(at) == "the")
    while i < min(s.n, at + 2 * _LONGEST) and len(letters) < _LONGEST:
        if s.text(i) in {"'s", "s"} and i > at and letters.endswith("o"):
            i += 1
            continue
        letter = _letter(s, i)
        if letter is None:
            break
        letters += letter
        i += 1
        if shape.fullmatch(letters) and len(letters) > 1 and not (s.text(at) == "the" and "o" not in letters):
            best = best if _of_a_share(s, i) else i  # and not `the creek side`
    return best


def _of_a_share(s: Surroundings, i: int) -> bool:
    """`then the shoebox eighty | percent flowering`: the number before piece i is of the share."""
    share = i < s.n and any(e.kind == "PCT" and e.how == "exact" for e in s.lattice.edges[i])
    return share and any(e.kind == "INT" and e.end == i for e in s.lattice.edges[i - 1])


def _letter(s: Surroundings, i: int) -> str | None:
    if s.pieces[i].form == "int" and len(s.text(i)) < 4:
        return "#"
    if s.pieces[i].form != "word" or s.text(i) in _ORDINALS | {"one"}:
        return None
    if s.text(i) in _TAILS:
        return "t"
    if noun_at(s, i):
        return "n"
    if acres_in_words(s, i):
        return "a"
    if ("COMPASS" in kinds(s, i) and len(s.text(i)) > 2) or s.text(i) in s.words.before_a_noun:
        return "c"
    plain = s.text(i) in _EVERYDAY or s.text(i) in s.words.never_first or s.text(i) in s.words.never_inside
    return "o" if odd(s.lattice, i) and not (plain or ends_as_talk(s.text(i))) else None
