"""A field that is the same as the one before it: `River 2 same`, `Heron is about the same`, `same at the mill lot`."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.placing import Scored
from notesparse.observing.naming.surroundings import Surroundings
from notesparse.observing.naming.together import named

_LISTED = cue_page("naming/same_field")

_SCORE = 8.0
_IS = _LISTED.words("is")
_FORM_HEADS = _LISTED.words("form_heads")
BUT = _LISTED.words("but")

_AT = _LISTED.words("at")
_ABOUT = _LISTED.words("about")
_ENDS = _LISTED.words("ends")
_LONGEST = 4


def same_as_before(s: Surroundings) -> list[Scored]:
    """Every such name, with the words that say so: a name's cue goes from them or to them."""
    found: list[Scored] = []
    for i in range(s.n):
        like = s.text(i) == "like" and s.text(i - 1) in _ABOUT and _told_before(s, i + 1)
        if s.text(i) != "same" and not like and not _ditto(s, i):
            continue
        end = i + 1
        while s.text(end) in _ENDS:
            end += 1
        name = _before(s, i) if _over(s, _past_which(s, end)) else _behind(s, i, end)
        if name is not None:
            found.append((_SCORE, name))
    return found


def _ditto(s: Surroundings, i: int) -> bool:
    """`Finch ditto, few aphids`, `Ketchum hill.  Ditto, and some shatter`, `Honey Creek. do.`"""
    if s.text(i) not in {"ditto", "do"}:
        return False
    ends = s.text(i + 1) in {".", ",", ";"} or i + 1 >= s.n or s.pieces[i + 1].form == "nl"
    return ends if s.text(i) == "ditto" else s.text(i + 1) == "." and s.text(i - 1) in {".", ","}


def _told_before(s: Surroundings, i: int) -> bool:
    """The words from piece i on to the end of the sentence stand in the note before: `about like Peterson 60`."""
    i += s.text(i) == "the"
    stop = i
    while not _over(s, stop):
        stop += 1
    words = [s.text(x) for x in range(i, stop)]
    return 0 < len(words) <= _LONGEST and any(
        [s.text(x + y) for y in range(len(words))] == words for x in range(i - len(words))
    )


def _past_which(s: Surroundings, end: int) -> int:
    """`same as gatepost`: behind the field that it is like."""
    if s.text(end - 1) not in {"as", "like"}:
        return end
    stop = end
    while stop < s.n and stop - end < _LONGEST and s.pieces[stop].form in {"word", "int"} and s.text(stop) not in BUT:
        stop += 1
    return stop


def _before(s: Surroundings, same: int) -> Name | None:
    """The name from the beginning of the sentence to what says that it is the same."""
    end = same
    while end and s.text(end - 1) in _IS:
        end -= 1
    if (
        end == same
        and end > 1
        and (s.text(end - 1) == "," or (s.text(end - 1) == "." and s.lattice.soft[end - 1] is None))
    ):
        end -= 1  # South Eighty, same as the last one; Ketchum hill.  Ditto
    start = end
    while start and end - start < _LONGEST and s.pieces[start - 1].form in {"word", "int"}:
        start -= 1
        if s.text(start) in {"and", "but"}:
            start += 1
            break
    begins = start == 0 or s.pieces[start - 1].form in {"mark", "nl"} or s.text(start - 1) in {"and", "but"}
    first = start + (s.text(start) == "the")
    if s.text(first) in s.words.never_first | s.words.of_the_form | _FORM_HEADS and s.text(end) == ":":
        return None  # Date: same
    number = first < end and any(
        (e.kind == "INT" and e.end == end) or e.kind == "BARE" for e in s.lattice.edges[first]
    )  # Four: same as two
    letter = end - first == 1 and len(s.text(first)) == 1  # C - ditto: a plant
    own = begins and not number and not letter and first not in s.bare and named(s, first, end)
    return _name(s, first, end, first) if own else None  # Three is like one


def _behind(s: Surroundings, same: int, end: int) -> Name | None:
    """`same at Dahl`, to the end of the sentence."""
    if s.text(end) not in _AT or not (
        same == 0 or s.pieces[same - 1].form in {"mark", "nl"} or s.text(same - 1) == "and"
    ):
        return None
    while s.text(end) in _AT | {"the"}:
        end += 1
    stop = end
    while stop < s.n and stop - end < _LONGEST and s.pieces[stop].form in {"word", "int"}:
        stop += 1
    return _name(s, end, stop, same) if _over(s, stop) and named(s, end, stop) else None


def _over(s: Surroundings, i: int) -> bool:
    return i >= s.n or s.pieces[i].form == "nl" or s.text(i) in {".", ";", ",", "!"} | BUT


def _name(s: Surroundings, a: int, b: int, cue: int) -> Name:
    return Name(a, b, s.lattice.written(a, b), "same", True, cue)
