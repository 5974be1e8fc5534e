"""Figures and signs as they are said: `V5` is v five, `3/16"` three sixteenths inch, `2.5` two point five."""

from __future__ import annotations

import re
from fractions import Fraction

from notesparse.lazy import pattern
from notesparse.spoken.written import written
from notesparse.text.numbers import ORDINALS, TEENS, TENS, UNITS

_SMALL = ["zero", *UNITS, *TEENS]
_ORDINAL = {n: word for word, n in ORDINALS.items()}
_PARTS = {2: ("half", "halves"), 4: ("quarter", "quarters"), 32: ("thirty second", "thirty seconds")}
_YEARS = range(1950, 2100)  # said in two halves
_FRACTIONS = dict(zip("½¼¾⅓⅔⅛⅜⅝⅞", ("1/2", "1/4", "3/4", "1/3", "2/3", "1/8", "3/8", "5/8", "7/8"), strict=True))

_INSIDE = pattern(r"\s*(?:\d|(?:the|a|an|each|every|my|this|that|these|those|it|them|there|all)\b)", re.IGNORECASE)

_TOKEN = pattern(
    r"""
    (?P<clock>\d{1,2}:\d{2})(?!\d)
  | (?P<iso>\d{4}-\d{1,2}-\d{1,2})(?!\d)
  | (?P<date>\d{1,2}/\d{1,2}/(?:\d{4}|\d{2}))(?!\d)
  | (?P<mixed>\d+[ -]\d{1,2}/\d{1,2})(?!\d)
  | (?P<fraction>\d{1,3}/\d{1,3})(?!\d)(?:ths?|nds?|rds?|s)?(?![^\W\d_])
  | (?P<decimal>\d*\.\d+)
  | (?P<ordinal>\d+)(?:st|nd|rd|th)(?![^\W\d_])
  | (?P<whole>\d{1,3}(?:,\d{3})+|\d+)
  | (?P<word>[^\W\d_]+(?:['’][^\W\d_]+)*|['’][^\W\d_]+)
  | (?P<sign>[^\w\s])
    """,
    re.VERBOSE,
)


def whole(n: int) -> list[str]:
    """A whole number from nothing up: 120 -> one hundred twenty."""
    if n < 20:
        return [_SMALL[n]]
    if n < 100:
        tens, units = divmod(n, 10)
        return [TENS[tens - 2], *([_SMALL[units]] if units else [])]
    if n < 1000:
        hundreds, rest = divmod(n, 100)
        return [_SMALL[hundreds], "hundred", *(whole(rest) if rest else [])]
    if n < 1_000_000:
        thousands, rest = divmod(n, 1000)
        return [*whole(thousands), "thousand", *(whole(rest) if rest else [])]
    return [_SMALL[int(d)] for d in str(n)]


def year(n: int) -> list[str]:
    """2026 -> twenty twenty six, 2005 -> two thousand five."""
    century, rest = divmod(n, 100)
    if n not in _YEARS or rest == 0 or (century == 20 and rest < 10):
        return whole(n)
    return [*whole(century), *(whole(rest) if rest > 9 else ["oh", _SMALL[rest]])]


def ordinal(n: int) -> list[str]:
    """21 -> twenty first."""
    if n in _ORDINAL:
        return [_ORDINAL[n]]
    if n > 20 and n % 10:
        return [*whole(n - n % 10), _ORDINAL[n % 10]]
    head = whole(n)
    last = head[-1]
    return [*head[:-1], last[:-1] + "ieth" if last.endswith("y") else last + "th"]


def decimal(text: str) -> list[str]:
    """2.5 -> two point five, .75 -> point seven five."""
    before, _, behind = text.partition(".")
    return [*(whole(int(before)) if before else []), "point", *(_SMALL[int(d)] for d in behind)]


def fraction(value: Fraction) -> list[str]:
    """3/16 -> three sixteenths, 1/2 -> half, 1/4 -> quarter, 1 1/2 -> one and a half, 1/8 -> one eighth."""
    top, low = value.numerator, value.denominator
    if low == 1:
        return whole(top)
    if top > low:
        rest = fraction(value - top // low)
        return [*whole(top // low), "and", *(["a"] if len(rest) == 1 else []), *rest]
    if low in _PARTS:
        one, many = _PARTS[low]
        said = one.split() if top == 1 else many.split()
        return said if top == 1 and low in {2, 4} else [*whole(top), *said]
    part = ordinal(low)
    return [*whole(top), *(part if top == 1 else [*part[:-1], part[-1] + "s"])]


def _over(text: str) -> list[str]:
    """A fraction as it is written, or a day (7/14: seven fourteen), by whether people measure in such parts."""
    top, low = map(int, text.split("/"))
    if low in {2, 3, 4, 8, 16, 32} and 0 < top < low:
        return fraction(Fraction(top, low))
    return [*whole(top), *whole(low)]


def _word(text: str) -> list[str]:
    word = text.casefold().replace("’", "'")
    return written().said.get(word, word).split()


def _is_inch(text: str, start: int, end: int) -> bool:
    """Whether `in` is the unit: right behind a figure, and not before what something can be in."""
    return text[:start].rstrip()[-1:].isdigit() and not _INSIDE.match(text, end)


def spell(text: str) -> list[str]:
    """The words of a written phrase as they are said, in small letters; a sign that is not said is left out."""
    for sign, plain in _FRACTIONS.items():
        text = re.sub(rf"(?<=\d){sign}", f" {plain}", text).replace(sign, plain)
    out: list[str] = []
    for found in _TOKEN.finditer(text):
        kind, said = found.lastgroup, found[0]
        if kind == "clock":
            hour, minute = map(int, said.split(":"))
            out += [*whole(hour), *(whole(minute) if minute > 9 else ["oh", _SMALL[minute]] if minute else ["o'clock"])]
        elif kind == "iso":
            y, month, day = map(int, said.split("-"))
            out += [*year(y), *whole(month), *whole(day)]
        elif kind == "date":
            first, second, last = map(int, said.split("/"))
            out += [*whole(first), *whole(second), *year(last)]
        elif kind == "mixed":
            before, top, low = map(int, re.split(r"[ \-/]", said))
            if 0 < top < low:
                out += fraction(before + Fraction(top, low))
            else:
                out += [*whole(before), *whole(top), *whole(low)]
        elif kind == "fraction":
            out += _over(found["fraction"])
        elif kind == "decimal":
            out += decimal(said)
        elif kind == "ordinal":
            out += ordinal(int(found["ordinal"]))
        elif kind == "whole":
            n = int(said.replace(",", ""))
            out += year(n) if n in _YEARS and "," not in said else whole(n)
        elif kind == "word" and said.casefold() == "in" and _is_inch(text, found.start(), found.end()):
            out.append("inch")
        elif kind == "word":
            out += _word(said)
        elif said == "-":
            between = text[max(found.start() - 1, 0) : found.start()] + text[found.end() : found.end() + 1]
            out += ["to"] if between.isdigit() and len(between) == 2 else []
        else:
            out += written().said.get(said, "").split()
    return out
