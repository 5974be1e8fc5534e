"""Numbers: this pass owns *where* a number is, word2number owns *how much* its words are.

word2number adds up whatever it is given (two three -> 5), so a run of words reaches it only if its shape is that
of one number.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from word2number import w2n

from notesparse.language.cues import cue_page
from notesparse.language.lists import number_slips
from notesparse.lazy import pattern

_LISTED = cue_page("text/numbers")

UNITS = list(_LISTED.ordered("units"))
TEENS = list(_LISTED.ordered("teens"))
TENS = list(_LISTED.ordered("tens"))
_CLASS = dict.fromkeys(UNITS, "u") | dict.fromkeys(TEENS, "t") | dict.fromkeys(TENS, "T")
_CLASS |= {"hundred": "h", "thousand": "k", "and": "a", "point": "p", "zero": "z", "oh": "z", "nought": "z"}
_ONE = r"(?:t|Tu?|u)"
_HUNDREDS = rf"(?:u?h(?:a?{_ONE})?|{_ONE})"
_SHAPE = pattern(rf"(?:{_HUNDREDS}k(?:a?{_HUNDREDS})?|{_HUNDREDS}|z)(?:p[uztT]+)?|p[uztT]+")

ORDINALS = {w: i + 1 for i, w in enumerate(list(_LISTED.ordered("ordinals")))} | {"thirtieth": 30}
_PARTS = _LISTED.table("parts", int)


@lru_cache(maxsize=4096)
def words_to_number(words: tuple[str, ...]) -> Fraction | None:
    """The number that exactly these words are, or None if they are not the shape of one number."""
    slips = number_slips().numbers
    plain = [slips.get(w, w) for w in words]
    letters = "".join(_CLASS.get(w, "?") for w in plain)
    if not _SHAPE.fullmatch(letters):
        return None
    said = [w for w in plain if w != "and"]
    said = ["zero" if w in {"oh", "nought"} else w for w in said]
    if said[0] == "hundred":
        said = ["one", *said]
    if "point" in said:
        k = said.index("point")
        whole = w2n.word_to_num(" ".join(said[:k])) if k else 0
        tail = said[k + 1 :]
        digits = (
            "".join(str(w2n.word_to_num(w)) for w in tail)
            if len(tail) > 1 and all(_CLASS[w] in "uz" for w in tail)
            else str(w2n.word_to_num(" ".join(tail)))
        )
        return Fraction(f"{whole}.{digits}")
    return Fraction(int(w2n.word_to_num(" ".join(said))))


@lru_cache(maxsize=1)
def long_words() -> tuple[str, ...]:
    """Number words and ordinals, misspelled ordinals among them, that are long enough to be told by one letter."""
    words = (*_CLASS, *ORDINALS, *number_slips().ordinals)
    return tuple(w for w in words if len(w) >= 5 and w not in {"hundred", "thousand", "point"})


def is_said_number(word: str) -> bool:
    """Whether a word is a number, an ordinal or a part as it stands."""
    return is_number_word(word) or ordinal(word) is not None or part(word) is not None


def is_number_word(word: str) -> bool:
    return number_slips().numbers.get(word, word) in _CLASS and word not in {"and", "point", "oh"}


def ordinal(word: str) -> int | None:
    """first -> 1; 3rd is read by the lattice."""
    return ORDINALS.get(word) or number_slips().ordinals.get(word)


def part(word: str) -> int | None:
    """quarter -> 4: the denominator that a word names."""
    return _PARTS.get(word) or number_slips().parts.get(word)
