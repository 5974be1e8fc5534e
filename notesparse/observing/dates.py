"""Dates as scouts write them, against the note's own date (guide 4.19, 4.22). No clock: what is missing comes from
the note."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date, timedelta

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.reading.parse import Phrase

_LISTED = cue_page("observing/dates")

_ROMAN = _LISTED.table("roman", int)
_DAMAGE = str.maketrans("lios", "1105")


@dataclass(frozen=True, slots=True)
class Day:
    """A day as read, with the other day that it could be."""

    iso: str
    other: str | None = None
    relative: bool = False


def _make(y: int, m: int, d: int) -> date | None:
    try:
        return date(y, m, d)
    except ValueError:
        return None


def century(y: int, base: date | None) -> int:
    """Two figures of a year: the last such year that is not behind that of the note; without the note's day, 69 to 99 are
    19xx (the POSIX rule, from memory)."""
    if y > 99:
        return y
    if base is None:
        return 1900 + y if y >= 69 else 2000 + y
    latest = base.year - base.year % 100 + y
    return latest if latest <= base.year + 1 else latest - 100


def _pair(a: int, b: int, year: int, day_first: bool) -> Day | None:
    first = _make(year, b, a) if day_first else _make(year, a, b)
    second = _make(year, a, b) if day_first else _make(year, b, a)
    if first is None and second is None:
        return None
    if first is None:
        return Day(second.isoformat()) if second else None
    return Day(first.isoformat())


def day_stands_first(written: Sequence[str], base: date | None) -> str | None:
    """The full date (of those `written` on a page) that shows that the day stands before the month: `22/7/06`, or the
    note's own date with the day first and no other way; None where nothing shows it, or another date has the month first.
    """
    shows: str | None = None
    for text in written:
        parts = re.split(r"[-/.]", text)
        if len(parts) != 3 or not all(p.isdigit() for p in parts) or len(parts[2]) not in {2, 4}:
            continue
        a, b, c = (int(p) for p in parts)
        if not (1 <= a <= 31 and 1 <= b <= 31):
            continue
        first, second = _make(century(c, base), b, a), _make(century(c, base), a, b)
        if first is None or (second is not None and second == base != first):
            if second is not None:
                return None  # the month first
        elif second is None or first == base != second:
            shows = shows or text
    return shows


def read_day(ph: Phrase, base: date | None, day_first: bool, *, latest_before: date | None = None) -> Day | None:
    """The day of a date phrase. `base` is the note's own date; `latest_before`: planting and emergence are the
    latest such
    day not after it. None: no possible day."""
    f = ph.form
    ints = [int(e.means) for _, e in ph.path if e.kind in {"INT", "ORD", "ORDSOUND", "INTSOUND"}]
    year = next((int(e.means) for _, e in ph.path if e.kind == "YEAR"), None)
    if year is not None:
        year = century(year, base)
    month = next((int(e.means) for _, e in ph.path if e.kind == "MONTH"), None)
    fixed = year is not None
    y = year if year is not None else base.year if base else None
    got: Day | None = None
    if f == "dmy":
        text = str(next(e.means for _, e in ph.path if e.kind == "DMY"))
        parts = re.split(r"[-/.]", text)
        if len(parts) == 2 and base is not None:  # 7-21, at the head of a line
            return _pair(int(parts[0]), int(parts[1]), base.year, day_first)
        if len(parts) != 3:
            return None
        if parts[1] in _ROMAN and not parts[1].isdigit():
            a, b, c = int(parts[0]), _ROMAN[parts[1]], int(parts[2].translate(_DAMAGE))
            d = _make(century(c, base), b, a)
            return Day(d.isoformat()) if d else None
        try:
            a, b, c = (int(p.translate(_DAMAGE)) for p in parts)
        except ValueError:
            return None
        if a > 31:
            d = _make(a if a > 99 else century(a, base), b, c) if a > 1900 or 32 <= a <= 99 else None
            return Day(d.isoformat()) if d else None
        return _pair(a, b, century(c, base), day_first)
    if f == "mdy":
        return _pair(ints[0], ints[1], century(ints[2], base), day_first)
    if f == "today" or (f == "today_ord" and base is not None and ints == [base.day]):
        if base is None:
            return None
        return Day(base.isoformat(), relative=True)
    if f == "yesterday":
        days = 2 if any(str(e.means).startswith("the day before") for _, e in ph.path) else 1  # the night before last
        return Day((base - timedelta(days=days)).isoformat(), relative=True) if base else None
    if f == "days_ago":
        return Day((base - timedelta(days=ints[0])).isoformat(), relative=True) if base else None
    if f == "weekday":
        if base is None:
            return None
        want = next(int(e.means) for _, e in ph.path if e.kind == "WEEKDAY")
        back = (base.weekday() - want) % 7  # a note of Wednesday that says Wednesday speaks of its own day
        return Day((base - timedelta(days=back)).isoformat(), relative=True)
    if f == "day_of_year":
        if year is None:
            return None
        if not 1 <= ints[0] <= 366:
            return None
        return Day((date(year, 1, 1) + timedelta(days=ints[0] - 1)).isoformat())
    if f in {"ord_day", "wd_ord", "today_ord"}:
        if base is None or not ints:
            return None
        d = _make(base.year, base.month, ints[0])
        if d is None or d > base + timedelta(days=1):
            before = (base.replace(day=1) - timedelta(days=1)).replace(day=1)
            d = _make(before.year, before.month, ints[0])
        return Day(d.isoformat()) if d else None
    if f in {"day_month_yy", "month_day_yy", "run_together"} and len(ints) > 1:
        y, fixed = century(ints[1], base), True
    if y is None:
        return None
    if f in {"md", "wd_md"}:
        got = _pair(ints[0], ints[1], y, day_first)
    elif month is not None and ints:
        d = _make(y, month, ints[0])
        got = Day(d.isoformat()) if d else None
    if got is None:
        return None
    if latest_before is not None and not fixed:
        d = date.fromisoformat(got.iso)
        if d > latest_before:
            e = _make(d.year - 1, d.month, d.day)
            if e:
                got = Day(e.isoformat())
    return got


def long_after(iso: str, note: str) -> bool:
    """A day more than ten days behind that of the note."""
    return (date.fromisoformat(iso) - date.fromisoformat(note)).days > 10
