"""Fractions in figures, and `and a half` behind a whole number."""

from __future__ import annotations

from fractions import Fraction

from notesparse.language.cues import cue_page
from notesparse.text import numbers
from notesparse.text.net import Net

_LISTED = cue_page("text/parts")

_LOW = frozenset({"2", "3", "4", "8", "16", "32", "64"})  # denominators that people write

_WORDS = _LISTED.table("words", int)
_HEARD = _LISTED.words("heard")
_FOR_FRACTION_END = _LISTED.words("for_fraction_end")
_FOR_FRACTION_END_2 = _LISTED.words("for_fraction_end_2")


def fraction_end(net: Net, i: int) -> tuple[int, Fraction, float, str] | None:
    """`3/16`, `3-16s`, `3 16ths`, `3 sixteenths`, `3/ 16` at piece i: (end, value, cost, how)."""
    p = net.pieces[i]
    if p.form != "int" or len(p.text) > 2 or p.text == "0":
        return None
    top, sep, low = int(p.text), net.at(i + 1), net.at(i + 2)
    if sep in {"/", "\\"} and i + 2 < len(net.pieces) and net.pieces[i + 2].form == "int":
        if low in _LOW and top < int(low):
            tail = net.at(i + 3) in _FOR_FRACTION_END and net.glued(i + 3)
            return i + 4 if tail else i + 3, Fraction(top, int(low)), 0.0, "exact"
    part = _WORDS.get(sep, 0)
    if top < part and (sep.endswith("s") or top == 1 or low in {"inch", "in", "of"}):
        return i + 2, Fraction(top, part), 0.0, "exact"  # 3 sixteenths of an inch
    heard = numbers.part(sep) if sep in _HEARD or (sep == "eight" and low == "inch") else None
    if heard and top < heard:
        return i + 2, Fraction(top, heard), 0.2, "sound"  # 3 eights of an inch
    if sep == "-" and low in {"4", "8", "16"} and top < int(low) and top % 2:
        if net.at(i + 3) in _FOR_FRACTION_END_2 and net.glued(i + 3):
            return i + 4, Fraction(top, int(low)), 0.3, "sound"
        if low == "16":
            return i + 3, Fraction(top, 16), 0.9, "sound"
    if sep in {"4", "8", "16"} and net.pieces[i + 1].form == "int" and top < int(sep) and not net.glued(i + 1):
        if low in {"ths", "th"} and net.glued(i + 2):
            return i + 3, Fraction(top, int(sep)), 0.3, "sound"
    return None


def and_fraction(net: Net, i: int, j: int, whole: Fraction) -> None:
    """`and a half`, `and three quarters` after a whole number that ends at piece j."""
    k = j + 1 if net.at(j) in {"and", "&"} else j
    if net.at(k) in {"a", "an", "one"}:
        part = numbers.part(net.at(k + 1))
        if part:
            net.add(i, k + 2, "FRAC", whole + Fraction(1, part))
    elif net.at(k) == "half":
        net.add(i, k + 1, "FRAC", whole + Fraction(1, 2), 0.1)
    elif numbers.is_number_word(net.at(k)):
        top = numbers.words_to_number((net.at(k),))
        part = numbers.part(net.at(k + 1))
        if top and part and top < part:
            net.add(i, k + 2, "FRAC", whole + top / part)
