"""The only field of a note, named as the place of something: `hail damage at Bell Tower 40, 30% leaf loss`, `calling the
field R7 on the Cooper place`, `Roots at Yellow Barn: 14 nodules per plant`.

So may be the words behind the plants that were pulled, `Two plants out of Mite Hollow, both R6`, `five plants Goose Neck, R4
R4 R3`, and those that end the note's first sentence behind what was found there: `Aphids 60 a plant, Sandpiper.`

So may those behind the weather that the note begins with: `Hail sat nite on Rockpile.`; and one odd word at the head of a
sentence, before the first plant: `Truck got stuck. Rockpile 9 trifs`.

Such words may as well tell where in a field something stands, so they are a name only where the note has no other, where
they are written with capitals, and where nothing else in the note is written so.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import name_words
from notesparse.language.ordinary import common_words
from notesparse.observing.naming.addressed import of_the_neighbor
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import ends_as_talk, odd
from notesparse.observing.naming.surroundings import Surroundings, acres_in_words, kinds, noun_at, upper

_COMMON = cue_page("shared")
_LISTED = cue_page("naming/only_place")

_AT = _LISTED.words("at")
_MAY = frozenset({"FIELDNOUN", "COMPASS", "LETTER", "TURNING", "GREEN", "BROWN", "LOW", "TOP", "INSECT", "WEED"})
_PARTS = _COMMON.words("part_of_a_field") | {"row", "rows"}
_FOUND = frozenset({"INSECT", "WEED", "DISEASE", "DAMAGE", "DEFOL"})
_LONGEST = 4
_LEAST = 2  # words


def only_place(s: Surroundings) -> list[Name]:
    """The name, if there is just one such place."""
    if s.shouted or not s.cased:
        fell = [name for i in range(1, min(_LONGEST_FALL + 1, s.n - 1)) if (name := _fell_on_a_day(s, i)) is not None]
        if s.shouted or fell:
            return fell[:1]
    found = [
        name
        for i in range(1, s.n - 1)
        if (
            name := _place(s, i)
            or _told_in(s, i)
            or _of_the_plants(s, i)
            or _ends_the_first(s, i)
            or _ends_the_note(s, i)
            or _where_it_fell(s, i)
            or _heads_the_plants(s, i)
        )
        is not None
        and not of_the_neighbor(s, name)
    ]
    return found if len({name.text.casefold() for name in found}) == 1 and len(found) == 1 else []


def _place(s: Surroundings, i: int) -> Name | None:
    """The place behind the preposition at piece i."""
    if s.text(i) not in _AT or s.pieces[i].form != "word" or upper(s, i):
        return None
    at = i + 1 + (s.text(i + 1) == "the")
    end = at
    while end < s.n and end - at < _LONGEST and s.pieces[end].form == "word" and upper(s, end):
        end += 1
        end += 2 * (s.text(end) == "'s" and s.pieces[end].glued and upper(s, end + 1)) if end + 1 < s.n else 0
    if end == at or not all(_fits(s, x) for x in range(at, end)):
        return None
    while end < s.n and end - at < _LONGEST and (noun_at(s, end) or s.text(end) == "'s") and not _acres(s, end):
        end += 1  # Bell tower
    end += end < s.n and _acres(s, end)
    if s.text(end) == "half" and end == at + 1 and odd(s.lattice, at):
        return Name(at, end + 1, s.lattice.written(at, end + 1), "only", True, i)
    noun = noun_at(s, end - 1) or _acres(s, end - 1)
    if end - at < _LEAST or not noun or s.text(end - 1) in _PARTS or (end < s.n and s.text(end) in _PARTS):
        return None
    return Name(at, end, s.lattice.written(at, end), "only", True, i)


_NEVER = frozenset(
    "R V MONTH WEEKDAY PLANT VARIETY OTHERCROP GROUP INT TRIF POD SEED BEAN FLOWER NODE NODES STAGENAME COMPASS FIELDCUE".split()
)
_PULLED = _COMMON.words("pulled") | {"cut"}


def _titled(s: Surroundings, at: int) -> int:
    """Where the words with capitals end that begin at piece `at`, if none of them says something of plants."""
    end = at
    while end < s.n and end - at < _LONGEST and s.pieces[end].form == "word" and s.pieces[end].gap < _WIDE:
        own = s.lattice.original(end, end + 1)
        if not (own[0].isupper() and own[1:].islower()):
            break
        if any(e.how == "exact" and e.kind in _NEVER for e in s.lattice.edges[end]) and not (
            end > at and noun_at(s, end)
        ):
            return at
        end += 1
    return end


_WIDE = 2  # blanks


def _of_the_plants(s: Surroundings, i: int) -> Name | None:
    """`Two plants out of Mite Hollow, both R6`, `five plants Goose Neck, R4 R4`: the plants end before piece i."""
    plants = any(p.form == "n_plants" and p.end == i for x in range(max(0, i - 3), i) for p in s.phrases[x])
    if not (plants or s.text(i - 1) in _PULLED):
        return None
    at = i + 2 if s.text(i) == "out" and s.text(i + 1) == "of" else i + (s.text(i) in {"from", "off", "outta"})
    if at == i and not plants:
        return None
    at += s.text(at) == "the"
    end = _titled(s, at)
    least = 1 if at > i and s.text(at - 1) != "from" else _LEAST  # Two plants from Lonnie
    set_off = end >= s.n or s.pieces[end].form in {"mark", "nl"} or any(p.rule == "stage" for p in s.phrases[end])
    if end - at < least or (at == i and not set_off):
        return None
    return Name(at, end, s.lattice.written(at, end), "only", True, i)


def _ends_the_first(s: Surroundings, i: int) -> Name | None:
    """`Aphids 60 a plant, Sandpiper. P1 R3`: set off at the end of the first sentence, behind a finding."""
    if s.text(i - 1) != "," or any(s.text(x) == "." or s.pieces[x].form == "nl" for x in range(i)):
        return None
    end = _titled(s, i)
    stops = end < s.n and (s.text(end) == "." or s.pieces[end].form == "nl")
    if end == i or not stops or not any(kinds(s, x) & _FOUND for x in range(i)):
        return None
    if end - i < _LEAST and (not odd(s.lattice, i) or s.text(i) in s.words.given):
        return None
    return Name(i, end, s.lattice.written(i, end), "only", True, i)


def _ends_the_note(s: Surroundings, i: int) -> Name | None:
    """`R3 all over. Beech Hill.`: the last sentence is nothing but words with capitals, the last of them a noun of places."""
    if not (s.pieces[i - 1].form == "nl" or (s.text(i - 1) == "." and s.lattice.soft[i - 1] is None)):
        return None
    end = i if s.lattice.filler[i] else _titled(s, i)
    over = all(s.pieces[x].form in {"mark", "nl"} for x in range(end, s.n))
    if not over or end - i < _LEAST or not noun_at(s, end - 1) or s.text(end - 1) in _PARTS:
        return None
    seen = any(p.rule in _SEEN for x in range(i) for p in s.phrases[x])
    return Name(i, end, s.lattice.written(i, end), "only", True, i) if seen else None


_SEEN = frozenset({"stage", "trif", "nodes", "flowers", "pods", "seeds", "ratio"})
_FELL = frozenset({"DAMAGE", "WEATHER"})
_OVER_FIELDS = _LISTED.words("over_fields")


def told_right_before(s: Surroundings, i: int) -> bool:
    """`R3 | in Kettle Bottom`, `half blooming | at the Shop`: what was seen ends at the preposition at piece i."""
    if s.text(i) not in _IN or s.pieces[i].form != "word":
        return False
    return any(p.rule in _SEEN - {"seeds"} and p.end == i for x in range(max(0, i - _LONGEST), i) for p in s.phrases[x])


def _told_in(s: Surroundings, i: int) -> Name | None:
    """`half blooming in Quarry`, `R3 in Tobins`: a word with a capital behind what was seen there, that ends the clause."""
    if not told_right_before(s, i):
        return None
    at = i + 1 + (s.text(i + 1) == "the")
    end = _titled(s, at)
    stops = end >= s.n or s.pieces[end].form in {"mark", "nl"}
    word = at < s.n and (noun_at(s, at) or odd(s.lattice, at))
    if end == at or not stops or not word or s.text(end - 1) in _PARTS:
        return None
    return Name(at, end, s.lattice.written(at, end), "only", True, i)


_IN = _COMMON.words("at_in_on")


def _where_it_fell(s: Surroundings, i: int) -> Name | None:
    """`Hail sat nite on Rockpile. p1 5 trifs`: where it hailed or rained, told by the note's first words, or by those behind
    its opening talk: `Truck got stuck. Hail sat nite on Rockpile.`"""
    if s.text(i) not in _OVER_FIELDS:
        return None
    first = i
    while first and i - first <= _LONGEST_FALL and s.pieces[first - 1].form not in {"mark", "nl"}:
        first -= 1
    if i - first > _LONGEST_FALL or not kinds(s, first) & _FELL:
        return None
    if first and (s.text(first - 1) == "," or any(p.rule in _BEGUN for x in range(first) for p in s.phrases[x])):
        return None
    at = i + 1 + (s.text(i + 1) == "the")
    end = _titled(s, at)
    stops = end < s.n and (s.text(end) in {".", ",", ":"} or s.pieces[end].form == "nl")
    if not stops or end == at or s.text(end - 1) in _PARTS or s.text(at) in s.words.given:
        return None
    if end - at < _LEAST and not odd(s.lattice, at):
        return None
    return Name(at, end, s.lattice.written(at, end), "only", True, i)


_LONGEST_FALL = 6  # pieces
_BEGUN = _SEEN | {"label"}


def _heads_the_plants(s: Surroundings, i: int) -> Name | None:
    """`Truck got stuck. Rockpile 9 trifs`, `Morning. Kemp, plant 1 R3`: a word that is none of the trade's and none of the
    ordinary ones, at the head of a sentence and right before the first plant."""
    if s.text(i - 1) != "." or s.lattice.soft[i - 1] is not None or not upper(s, i) or not odd(s.lattice, i):
        return None
    end = _titled(s, i)
    behind = end + (s.text(end) in {",", ":", ".", "-"})
    begins = behind < s.n and any(p.rule in _BEGUN for p in s.phrases[behind])
    if end == i or not begins or any(p.rule in _BEGUN for x in range(i) for p in s.phrases[x]):
        return None
    ordinary = ends_as_talk(s.text(i)) or s.text(i) in s.words.given or s.text(i) in common_words()
    return None if ordinary else Name(i, end, s.lattice.written(i, end), "only", True, i)


_DAYS = frozenset({"WEEKDAY", "MONTH"})
_PLACES = _MAY - {"COMPASS", "LOW", "TOP"}


def _fell_on_a_day(s: Surroundings, i: int) -> Name | None:
    """`hail thurs evening at windmill hollow.`, in a note that has no capitals or nothing else: the day is told, no article
    stands before the place, and its last word is a noun of places."""
    if s.text(i) not in _OVER_FIELDS or not kinds(s, 0) & _FELL or not any(kinds(s, x) & _DAYS for x in range(1, i)):
        return None
    if any(s.pieces[x].form in {"mark", "nl"} for x in range(i)):
        return None
    at = end = i + 1
    while end < s.n and end - at < _LONGEST and s.pieces[end].form == "word":
        end += 1
    stops = end < s.n and (s.text(end) in {".", ",", ":"} or s.pieces[end].form == "nl")
    if not stops or end == at or not noun_at(s, end - 1) or s.text(end - 1) in _PARTS:
        return None
    fits = all({e.kind for e in s.lattice.edges[x] if e.how == "exact"} <= _PLACES for x in range(at, end))
    named = all(odd(s.lattice, x) or noun_at(s, x) for x in range(at, end))
    if not fits or not named or (end == at + 1 and s.text(at) in name_words().terrain):
        return None
    return Name(at, end, s.lattice.written(at, end), "only", True, i)


def _fits(s: Surroundings, x: int) -> bool:
    """The word may stand in a name: it has no meaning, or one that fields are named after."""
    return s.text(x) == "'s" or {e.kind for e in s.lattice.edges[x] if e.how == "exact"} <= _MAY


def _acres(s: Surroundings, x: int) -> bool:
    figures = (
        s.pieces[x].form == "int" and len(s.text(x)) in {2, 3} and s.text(x).endswith("0") and s.pieces[x].gap <= 1
    )
    return bool(figures or (acres_in_words(s, x) and "INT" in kinds(s, x)))
