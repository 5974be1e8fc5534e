"""Values that a person gives, by hand or in an answer: what each fact may be, and what typed words say of it.

Limits beyond which a value is refused are those of the staging core (reading guide, section 8). Lengths are millimetres
in a record; typed, a bare fraction or a number below 3 is inches, as in a note (guide 4.6).
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from notesparse.language.cues import cue_page
from notesparse.lazy import pattern
from notesparse.outcome import INNER_KEYS, Question
from notesparse.staging.limits import COUNTING_RULES
from notesparse.staging.plausible import verdict
from notesparse.staging.scale import read_stage

_COMMON = cue_page("shared")
_LISTED = cue_page("asking/values")

_YES = _LISTED.words("yes")
_NO = _COMMON.words("none") | _COMMON.words("no") | {"false", "n"}
_NOTHING = frozenset(_LISTED.phrases("nothing")) | {""}
_UNITS = _LISTED.table("units", float)
_INCHES = _LISTED.words("inches")
_LENGTH = pattern(r"(?P<whole>\d+)?[ -]?(?P<num>\d+)/(?P<den>\d+)|(?P<dec>\d*\.\d+|\d+)")


class Refused(ValueError):
    """A value that a fact cannot have; the message says what it may be."""


def from_words(key: str, words: str) -> Any:
    """The value of the fact `key` in typed words; None: nothing is known. Raises `Refused`."""
    text = " ".join(words.split()).strip()
    if text.casefold() in _NOTHING:
        return None
    return checked(key, _READERS.get(key, str)(text))


def checked(key: str, value: Any) -> Any:
    """The value itself, if the fact `key` may have it (None always). Raises `Refused` with what it may be."""
    if value is None:
        return None
    check = _CHECKS.get(key)
    if check is None:
        raise Refused(f"There is no fact {key!r}.")
    good, may_be = check(value), MAY_BE[key]
    if not good:
        raise Refused(f"{value!r} is no value of {key}: {may_be}.")
    return value


def checked_all(values: Mapping[str, Any]) -> None:
    """Raises `Refused` for the first of several values that its fact may not have."""
    for key, value in values.items():
        checked(key, value)


def _count(text: str) -> Any:
    return int(text) if text.isdigit() else text


def _number(text: str) -> Any:
    bare = text.removesuffix("%").strip()
    try:
        value = float(bare)
    except ValueError:
        return text
    return int(value) if value.is_integer() else value


def _flag(text: str) -> Any:
    word = text.casefold()
    return True if word in _YES else False if word in _NO else text


def _places(text: str) -> Any:
    if text.casefold() in {"lower", "low", "below"}:
        return "lower"
    if text.casefold() in {"none", "no", "no node"}:
        return []
    found = []
    for part in re.split(r"[ ,;]+|\band\b", text):
        if not part:
            continue
        run = re.fullmatch(r"(\d+)\s*(?:-|to|\.\.)\s*(\d+)", part)
        if run and int(run[2]) - int(run[1]) < 30:
            found += list(range(int(run[1]), int(run[2]) + 1))
        elif part.isdigit():
            found.append(int(part))
        else:
            return text
    return sorted(set(found))


def _length(text: str) -> Any:
    """`3/4`, `3/4 in`, `12 mm`, `1.5 cm`, `1/4 to 3/8 in`: millimetres, a range as [low, high]."""
    parts = re.split(r"\s+(?:to|-)\s+|(?<=\d)-(?=\d+\s*(?:mm|cm))", text)
    ends: list[float | None] = []
    unit = ""
    for part in reversed(parts):  # `1/4 to 3/8 in`: an end without a unit has that of the one behind it
        found = _LENGTH.match(part.strip())
        unit = (part.strip()[found.end() :].strip().casefold() if found else "") or unit
        if not found or unit not in {"", *_UNITS, *_INCHES}:
            return text
        amount = (
            Fraction(int(found["whole"] or 0)) + Fraction(int(found["num"]), int(found["den"]))
            if found["den"] and int(found["den"])
            else Fraction(found["dec"])
            if found["dec"]
            else None
        )
        if amount is None:
            return text
        ends.insert(0, _in_mm(amount, unit or None, fraction=bool(found["den"])))
    if any(end is None for end in ends) or len(ends) > 2:
        return text
    return ends[0] if len(ends) == 1 else ends


def _in_mm(amount: Fraction, unit: str | None, fraction: bool) -> float | None:
    if unit is not None and unit in _UNITS:
        return float(amount) * _UNITS[unit]
    if unit in _INCHES or (unit is None and (fraction or amount < 3)):
        return float(amount * Fraction(254, 10))
    return float(amount) if unit is None else None


def _stage(text: str) -> Any:
    found = read_stage(text)
    return list(found) if isinstance(found, tuple) else found if found is not None else text


def _whole(quantity: str) -> Callable[[Any], bool]:
    return lambda value: (
        isinstance(value, int) and not isinstance(value, bool) and value >= 0 and verdict(quantity, value) != "refuse"
    )


def _mm(quantity: str) -> Callable[[Any], bool]:
    def fits(value: Any) -> bool:
        ends = value if isinstance(value, (list, tuple)) else [value]
        numbers = all(isinstance(end, (int, float)) and not isinstance(end, bool) for end in ends)
        if not numbers or len(ends) not in (1, 2) or list(ends) != sorted(ends):
            return False
        return ends[-1] > 0 and all(end >= 0 and verdict(quantity, end) != "refuse" for end in ends)

    return fits


def _some_places(value: Any) -> bool:
    if value == "lower":
        return True
    return isinstance(value, (list, tuple)) and all(
        isinstance(n, int) and not isinstance(n, bool) and 1 <= n <= 28 for n in value
    )


def _percent(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool) and 0 <= value <= 100


def _staged(letter: str) -> Callable[[Any], bool]:
    def fits(value: Any) -> bool:
        ends = value if isinstance(value, (list, tuple)) else [value]
        return bool(ends) and all(
            isinstance(end, str) and read_stage(end) is not None and letter in end.upper() for end in ends
        )

    return fits


def _day(value: Any) -> bool:
    try:
        return isinstance(value, str) and bool(datetime.date.fromisoformat(value)) and len(value) == 10
    except ValueError:
        return False


def _words(value: Any) -> bool:
    return isinstance(value, str) and bool(value.strip()) and len(value) < 200


def _said(value: Any) -> bool:
    return isinstance(value, str) and len(value) < 500 and not any(ord(c) < 32 and c not in "\t\r\n" for c in value)


def _one_of(*names: str) -> Callable[[Any], bool]:
    return lambda value: isinstance(value, str) and value in names


def _between(low: float, high: float) -> Callable[[Any], bool]:
    return lambda value: isinstance(value, (int, float)) and not isinstance(value, bool) and low <= value <= high


def _a_flag(value: Any) -> bool:
    return isinstance(value, bool)


def _letters(value: Any) -> bool:
    return isinstance(value, (list, tuple, set, frozenset, str)) and set(value) <= {"v", "r"}


def _of(value: Any) -> bool:
    return isinstance(value, str) and (
        bool(re.fullmatch(r"\d+(\.\d+)? of \d+(\.\d+)?", value)) or read_stage(value) is not None
    )


def _label(value: Any) -> bool:
    return _words(value) or (isinstance(value, (list, tuple)) and bool(value) and all(_words(x) for x in value))


_PLACES = "nodes from the top, 1 being the top node, as 1 2 or 1-4; or lower; or none"
_LENGTHS = "a length as 3/4 in, 12 mm or 1.5 cm"
_TABLE: tuple[tuple[str, Callable[[Any], bool], Callable[[str], Any], str], ...] = (
    ("trifoliates", _whole("trifoliates"), _count, "a whole number of unrolled trifoliates, 26 at most"),
    ("nodes", _whole("nodes"), _count, "a whole number of main-stem nodes, 28 at most"),
    ("top_leaf", _one_of("unrolled", "rolled"), str.casefold, "unrolled or rolled"),
    ("emerged", _a_flag, _flag, "yes or no"),
    ("unifoliates", _one_of("unrolled", "rolled"), str.casefold, "unrolled or rolled"),
    ("flowers", _a_flag, _flag, "yes or no"),
    ("flowers_from_top", _some_places, _places, _PLACES),
    ("pods", _a_flag, _flag, "yes or no"),
    ("pods_from_top", _some_places, _places, _PLACES),
    ("pod_mm", _mm("pod_mm"), _length, _LENGTHS),
    ("pods_full_length", _a_flag, _flag, "yes or no"),
    ("seeds", _a_flag, _flag, "yes or no"),
    ("seeds_from_top", _some_places, _places, _PLACES),
    ("seed_mm", _mm("seed_mm"), _length, _LENGTHS),
    ("seed_fill", _one_of("partial", "full"), str.casefold, "partial or full"),
    ("mature_pods", _one_of("one", "none"), str.casefold, "one or none"),
    ("mature_pods_percent", _percent, _number, "a percent from 0 to 100"),
    ("stated_v", _staged("V"), _stage, "a V stage such as V5"),
    ("stated_r", _staged("R"), _stage, "an R stage such as R3"),
    ("date", _day, str, "a day as 2026-07-14"),
    ("planted", _day, str, "a day as 2026-05-10"),
    ("emerged_on", _day, str, "a day as 2026-05-20"),
    ("field", _words, str, "a name"),
    ("variety", _words, str, "a name"),
    ("maturity_group", _between(0, 10), _number, "a number from 0 to 10"),
    ("row_spacing_in", _between(1, 60), _number, "inches, from 1 to 60"),
    ("percent", _percent, _number, "a percent from 0 to 100"),
    ("of", _between(1, 100_000), _number, "a number of plants"),
    ("tally", _of, str, "so many of so many, as 7 of 10"),
    ("counting_rule", _one_of(*COUNTING_RULES), str, "one of " + ", ".join(COUNTING_RULES)),
    ("plant", _label, str, "a plant's label"),
    ("same_as", _words, str, "a plant's label"),
    ("words", _said, str, "the words as they were said or stand there"),
    ("stands", _letters, str, "v, r"),
    ("by_count", _letters, str, "v, r"),
)
_CHECKS = {key: check for key, check, _, _ in _TABLE}
_READERS = {key: reader for key, _, reader, _ in _TABLE}
MAY_BE: Mapping[str, str] = {key: may_be for key, _, _, may_be in _TABLE}
"""What each fact may be, in words for a person."""


def other_keys(question: Question) -> list[str]:
    """The facts that a typed answer can give in the place of the choices."""
    keys = dict.fromkeys(edit.key for choice in question.choices for edit in choice.edits)
    return [key for key in keys if key in MAY_BE and key not in INNER_KEYS]
