"""Numbers: this pass owns *where* a number is, word2number owns *how much* its words are.

word2number adds up whatever it is given (two three -> 5), so a run of words reaches it only if its shape is that
of one number.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from word2number import w2n

UNITS = "one two three four five six seven eight nine".split()
TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split()
TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
_CLASS = dict.fromkeys(UNITS, "u") | dict.fromkeys(TEENS, "t") | dict.fromkeys(TENS, "T")
_CLASS |= {"hundred": "h", "thousand": "k", "and": "a", "point": "p", "zero": "z", "oh": "z", "nought": "z"}
_MISSPELT = {
    "fourty": "forty",
    "ninty": "ninety",
    "tweleve": "twelve",
    "twelv": "twelve",
    "elevin": "eleven",
    "elven": "eleven",
    "elevn": "eleven",
    "sevn": "seven",
    "seveteen": "seventeen",
    "forteen": "fourteen",
    "fourtenn": "fourteen",
    "thirten": "thirteen",
    "thirtheen": "thirteen",
    "fiften": "fifteen",
    "fivteen": "fifteen",
    "eigth": "eighth",
    "eightteen": "eighteen",
    "twentey": "twenty",
    "thre": "three",
    "tree": "three",
}
_ONE = r"(?:t|Tu?|u)"
_HUNDREDS = rf"(?:u?h(?:a?{_ONE})?|{_ONE})"
_SHAPE = re.compile(rf"(?:{_HUNDREDS}k(?:a?{_HUNDREDS})?|{_HUNDREDS}|z)(?:p[uztT]+)?|p[uztT]+")

ORDINALS = {
    w: i + 1
    for i, w in enumerate(
        "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth "
        "fifteenth sixteenth seventeenth eighteenth nineteenth twentieth".split()
    )
} | {
    "thirtieth": 30,
    "ninteenth": 19,
    "ninth": 9,
    "nineth": 9,
    "twelth": 12,
    "fourthe": 4,
    "fith": 5,
    "secnd": 2,
    "secon": 2,
    "scond": 2,
    "seond": 2,
    "secodn": 2,
    "thrid": 3,
    "thrd": 3,
    "thid": 3,
    "tird": 3,
    "forth": 4,
    "fouth": 4,
    "fourht": 4,
    "foruth": 4,
    "frist": 1,
    "fisrt": 1,
    "firts": 1,
    "fist": 1,
    "fifht": 5,
    "sixht": 6,
    "sith": 6,
    "sevnth": 7,
    "sevneth": 7,
    "eigth": 8,
    "eighht": 8,
    "ninht": 9,
}
_PARTS = {
    "half": 2,
    "halves": 2,
    "third": 3,
    "thirds": 3,
    "quarter": 4,
    "quarters": 4,
    "fourth": 4,
    "fourths": 4,
    "eighth": 8,
    "eighths": 8,
    "eights": 8,
    "sixteenth": 16,
    "sixteenths": 16,
    "sixteens": 16,
    "eight": 8,
    "qtr": 4,
    "qtrs": 4,
    "quater": 4,
    "quaters": 4,
    "sixteenthes": 16,
}


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with how it was written: int, dec, frac or ord."""

    value: Fraction
    form: str
    spoken: bool = False

    @property
    def whole(self) -> bool:
        return self.value.denominator == 1


@lru_cache(maxsize=4096)
def words_to_number(words: tuple[str, ...]) -> Fraction | None:
    """The number that exactly these words are, or None if they are not the shape of one number."""
    plain = [_MISSPELT.get(w, w) for w in words]
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


LONG_WORDS = tuple(w for w in (*_CLASS, *ORDINALS) if len(w) >= 5 and w not in {"hundred", "thousand", "point"})


def is_said_number(word: str) -> bool:
    """Whether a word is a number, an ordinal or a part as it stands."""
    return is_number_word(word) or word in ORDINALS or word in _PARTS


def is_number_word(word: str) -> bool:
    return _MISSPELT.get(word, word) in _CLASS and word not in {"and", "point", "oh"}


def ordinal(word: str) -> int | None:
    """first -> 1; 3rd is read by the lattice."""
    return ORDINALS.get(word)


def part(word: str) -> int | None:
    """quarter -> 4: the denominator that a word names."""
    return _PARTS.get(word)
