"""The next field in the middle of a line, told by its capitals and its day: `... book is in the truck Hatchery, 8/11. canopy's
closed. #1 12 trif` (guide 1.2, 4.22).

Such a stretch begins where small letters end, a full day stands behind it, and either plants are counted from one behind
the day, or a field's saying follows at once.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.naming.damaged_names import mended
from notesparse.observing.naming.following import OF_THE_HEAD
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import ends_as_talk, odd
from notesparse.observing.naming.placing import Scored
from notesparse.observing.naming.surroundings import (
    Surroundings,
    capital,
    kinds,
    noun_at,
    pass_fillers,
    starts,
    strength,
    upper,
)

_COMMON = cue_page("shared")
_LISTED = cue_page("naming/next_page")

_SCORE = 9.5
_LONGEST = 4  # words
_SOON = 40  # pieces between the day and the first plant
_NO_FULL_DAY = frozenset({"today", "yesterday", "weekday", "ord_day", "today_ord"})
_NO_NAME = frozenset(
    {"R", "V", "MONTH", "WEEKDAY", "PLANT", "INSECT", "DISEASE", "VARIETY", "MG", "PLANTED", "EMERGED", "DAMAGE"}
)
_GOES_ON = frozenset({"FIELDNOUN", "COMPASS", "INT"})
_SAID = frozenset(
    {"label", "stage", "ratio", "percent", "podshare", "planted", "emerged", "rows", "maturity", "sampled"}
)
_FIELD = _COMMON.words("field")
_LEADS = _LISTED.words("leads")
_TIMES = _LISTED.words("times")
_OF_A_PLACE = _LISTED.words("of_a_place")


def next_page(s: Surroundings) -> list[Scored]:
    """Such names, each with its score."""
    if s.shouted:
        return []
    found: list[Scored] = _heads_of_pages(s)
    full = [p for here in s.phrases for p in here if p.rule == "date" and p.form not in _NO_FULL_DAY]
    days = {p.start: p.end for p in sorted(full, key=lambda p: p.end)}
    for day, behind in sorted(days.items()):
        stop = s.text(day - 1) in {",", "."}
        end = day - stop
        if end < 3 or s.pieces[end - 1].form not in {"word", "int"}:
            continue
        field = end - 1 if s.text(end - 1) in _FIELD and s.pieces[end - 1].form == "word" else end
        start = _begins(s, field)
        if s.text(day - 1) == "." and field == end and (start is None or not _a_sentence(s, start, end, behind)):
            continue  # fell in the Ditch. July 3
        if start is not None and _told_before(s, start):
            if _counted_behind(s, start, behind) or _said_at_once(s, start, field, behind, field < end):
                found.append((_SCORE, Name(start, end, s.lattice.written(start, field), "daily", True, start)))
            continue
        small = _small(s, end) if not stop and start is None else None
        if small is not None and (_counted_behind(s, small, behind) or _first_of_all(s, small, behind)):
            found.append(
                (
                    _SCORE if _object_before(s, small) else _SURE_OF_SMALL,
                    Name(small, end, s.lattice.written(small, end), "daily", True, small),
                )
            )
    return found


_KEYS = _LISTED.words("keys")
_NEXT_CELL = 3  # blanks before the next cell of a page


def _heads_of_pages(s: Surroundings) -> list[Scored]:
    """`CUT BANK        8/27/90        30 in. rows`: the head of another page, in capitals or as a title at the left of a line with
    its day beside it, in a note that is not all in capitals."""
    found: list[Scored] = []
    for start in (i for i in range(1, s.n) if s.pieces[i - 1].form == "nl" and s.pieces[i].form == "word"):
        end = start + 1
        while end < s.n and s.pieces[end].form in {"word", "int"} and s.pieces[end].gap < _NEXT_CELL:
            end += 1
        beside = end < s.n and s.pieces[end].gap >= _NEXT_CELL and end - start <= _LONGEST
        day = end + (s.text(end) == "o" and s.text(end + 1) != "" and s.pieces[end + 1].glued)  # O9-25-95
        if not beside or not any(p.rule == "date" and p.form not in _NO_FULL_DAY for p in s.phrases[day]):
            continue
        written = mended(s.lattice.original(start, end))
        words = [w for w in written.split() if not w.isdigit()]
        own = {e.kind for x in range(start, end) for e in s.lattice.edges[x] if e.how == "exact"}
        capitals = all(w.isupper() for w in words) and max(map(len, words)) >= _NEXT_CELL
        if (capitals or _titled(s, start, end, day)) and not own & _NO_NAME and s.text(start) not in _KEYS:
            found.append((_SCORE, Name(start, end, written, "line", True, start)))
    return found


def _titled(s: Surroundings, start: int, end: int, day: int) -> bool:
    """`Ditchbank trial        22.8.2016        MG 1.8`: a word with a capital that nobody knows, and a wide gap or the line's end
    behind the day."""
    behind = max(p.end for p in s.phrases[day] if p.rule == "date")
    over = behind >= s.n or s.pieces[behind].form == "nl" or s.pieces[behind].gap >= _NEXT_CELL
    return over and _plain_capital(s, start) and _strange(s, start)


def _a_sentence(s: Surroundings, start: int, end: int, behind: int) -> bool:
    """`fly it friday North nursery. August twenty second. Thirty inch rows.`: the name and the day end a sentence each."""
    named = bool((kinds(s, start) | kinds(s, end - 1)) & _GOES_ON)
    return end - start > 1 and named and s.text(behind) == "."


_SURE_OF_SMALL = 4.5
_MAY_BE = frozenset({"FIELDNOUN", "COMPASS", "WHEREWORD", "LOW", "TOP", "LETTER", "WEED", "LONG", "UPTOP"})


def _small(s: Surroundings, end: int) -> int | None:
    """`by monday cottonmouth ridge july the eighth`, and at a line's head `terrace seven august fifth`: where the name in small
    letters begins whose last word is a noun of places, a direction or a number."""
    heads = [x for x in range(max(0, end - _LONGEST), end - 1) if x and s.pieces[x - 1].form == "nl"]
    start = heads[0] if heads else end - 2
    if not heads and kinds(s, start - 1) & {"COMPASS", "LOW"} and not s.lattice.filler[start - 1]:
        start -= 1  # lower mill pond
    words = range(start, end)
    if start < 1 or any(s.pieces[x].form != "word" or s.lattice.filler[x] or upper(s, x) for x in words):
        return None
    own = [{e.kind for e in s.lattice.edges[x] if e.how == "exact"} for x in words]
    last = own[-1] & {"FIELDNOUN", "COMPASS", "WHEREWORD"} or (heads and kinds(s, end - 1) & {"INT"})
    if not last or (not any(_strange(s, x) for x in words) and not heads) or s.text(start - 1) in _LEADS:
        return None
    plain = [_strange(s, x) or own[x - start] <= _MAY_BE for x in words[:-1]]
    return start if all(plain) and not _named_off(s, start) else None


_WAY_TO_IT = 4  # words back to the preposition


def _object_before(s: Surroundings, start: int) -> bool:
    """`coming thru by the pivot road | kettle pond`, `standing in water | otter bend`: what the word before the name belongs to
    stands before that."""
    back = range(max(0, start - _WAY_TO_IT), start - 1)
    known = s.lattice.known[start - 1] or s.text(start - 1) in _TIMES
    return (known and any(s.text(x) in _OF_A_PLACE for x in back)) or s.text(start - 1) in _TIMES


def _strange(s: Surroundings, i: int) -> bool:
    return odd(s.lattice, i) and not ends_as_talk(s.text(i))


def _named_off(s: Surroundings, start: int) -> bool:
    """The words go on from what stands before them: a word that nobody knows (old mcdonald | ridge), with no line's end."""
    return s.pieces[start - 1].form == "word" and _strange(s, start - 1) and s.text(start - 1) not in _TIMES


def _begins(s: Surroundings, end: int) -> int | None:
    """Where the words up to piece `end` begin that are written as a name behind small letters: `truck | Kettle pond`."""
    i = end
    if i > 1 and odd(s.lattice, i - 1) and not upper(s, i - 1) and "COMPASS" in kinds(s, i - 2) and upper(s, i - 2):
        i -= 1  # North nursery
    while i > end - 2 and s.pieces[i - 1].form == "word" and not upper(s, i - 1) and kinds(s, i - 1) & _GOES_ON:
        i -= 1
    while i > max(0, end - _LONGEST) and (
        _plain_capital(s, i - 1) or (i > 1 and (_number_inside(s, i - 1) or (i < end and _small_inside(s, i - 1))))
    ):
        i -= 1
    before = i - 1
    if before > 0 and kinds(s, before) & _GOES_ON and _plain_capital(s, before - 1):
        return None  # Long draw | South
    if i == end or before < 1 or not _plain_capital(s, i) or s.lattice.filler[i]:
        return None
    inside = s.pieces[before].form == "word" and not upper(s, before) and s.pieces[i].gap < 2
    return i if inside and s.text(before) not in _LEADS else None


def _plain_capital(s: Surroundings, i: int) -> bool:
    """A word with a capital and small letters behind it that means nothing else when it is written so."""
    own = s.lattice.original(i, i + 1)
    plain = s.pieces[i].form == "word" and own[:1].isupper() and own[1:].islower() and len(own) > 1
    return plain and not any(e.how == "exact" and e.kind in _NO_NAME for e in s.lattice.edges[i])


def _small_inside(s: Surroundings, i: int) -> bool:
    """A word in small letters that nobody knows, or a noun of places, between two with capitals: `Long draw South`."""
    return (
        (_strange(s, i) or noun_at(s, i))
        and not upper(s, i)
        and _plain_capital(s, i - 1)
        and "COMPASS" in kinds(s, i + 1)
    )


def _number_inside(s: Surroundings, i: int) -> bool:
    """The last word of the name is its number: `Cutbank 60`."""
    return s.pieces[i].form == "int" and _plain_capital(s, i - 1)


def _told_before(s: Surroundings, start: int) -> bool:
    """Something was told of another field before."""
    return any(starts(s, x)[1] not in {None, "date"} and starts(s, x)[0] >= 1.0 for x in range(start))


def _counted_behind(s: Surroundings, start: int, behind: int) -> bool:
    """Plants are counted from one behind the day, as they were before the name."""
    anew = any(behind <= x < behind + _SOON for x in s.firsts)
    return anew and s.firsts[0] < start


def _first_of_all(s: Surroundings, start: int, behind: int) -> bool:
    """Plant one stands right behind the day, and of the field before only other things were told."""
    return bool(s.firsts) and s.firsts[0] == pass_fillers(s, behind) and _told_before(s, start)


def _said_at_once(s: Surroundings, start: int, end: int, behind: int, field: bool) -> bool:
    """What is said of a field stands right behind the day; or the words end as names of fields do, and a mark stands there."""
    at = pass_fillers(s, behind, ":-,–.")
    worth, rule = strength(s, at)
    if rule in _SAID and worth >= 1.0 and (end - start > 1 or field or rule in {"label", *OF_THE_HEAD}):
        return True
    land = field or (end - start > 1 and bool(kinds(s, end - 1) & _GOES_ON))
    marked = behind < s.n and s.text(behind) in {".", ":", ","}
    return land and marked and capital(s, start) and (noun_at(s, end - 1) or field or end - start > 1)
