"""Dates as scouts write them, against python-dateutil where a form can only be read in one way."""

from __future__ import annotations

import json
from datetime import date, timedelta

import pytest
from dateutil.parser import parse as dateutil_parse

from notesparse import read

NOTE = date(2026, 7, 20)  # a Monday


def visit_date(text: str, **how: object) -> str | None:
    record = json.loads(read(f"{text}\nplant 1 5 trifs", date=NOTE.isoformat(), **how).to_json())
    return record["visits"][0]["date"] if record["visits"] else None


def unread(text: str) -> list[str]:
    return [u["quote"] for u in json.loads(read(f"{text}\nplant 1 5 trifs", date=NOTE.isoformat()).to_json())["unread"]]


SAMPLE_DAYS = [date(2026, 5, 13) + timedelta(days=7 * n) for n in range(10)] + [
    date(1998, 7, 14),
    date(2007, 8, 31),
    date(2024, 2, 29),
]


@pytest.mark.parametrize("day", SAMPLE_DAYS, ids=str)
@pytest.mark.parametrize("form", ["%m/%d/%Y", "%m/%d/%y", "%Y-%m-%d", "%d %b %Y", "%b %d, %Y", "%B %d, %Y", "%d %B %Y"])
def test_the_same_day_as_dateutil(day: date, form: str) -> None:
    text = day.strftime(form)
    want = dateutil_parse(text).date()
    assert want == day  # the form can only be read in one way
    assert visit_date(text) == day.isoformat()


@pytest.mark.parametrize("day", [date(2026, 7, n) for n in range(1, 21)], ids=str)
@pytest.mark.parametrize("form", ["%m/%d", "%b %d", "%B %d", "%d %b"])
def test_a_day_of_the_notes_year(day: date, form: str) -> None:
    assert visit_date(day.strftime(form)) == day.isoformat()


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("7/14", "2026-07-14"),
        ("7/14/98", "1998-07-14"),
        ("July the fourteenth", "2026-07-14"),
        ("yesterday", "2026-07-19"),
        ("14 Jul 98", "1998-07-14"),
        ("Tuesday", "2026-07-14"),
        ("13/7", "2026-07-13"),
        ("14.7.26", "2026-07-14"),
        ("sat", "2026-07-18"),
        ("July fourteenth", "2026-07-14"),
        ("the fourteenth", "2026-07-14"),
        ("14th of July", "2026-07-14"),
        ("Jul 14th", "2026-07-14"),
        ("today", "2026-07-20"),
        ("3 days ago", "2026-07-17"),
        ("22.vi.2013", "2013-06-22"),
        ("last Tuesday", "2026-07-14"),
        ("two days ago", "2026-07-18"),
        ("the 14th", "2026-07-14"),
    ],
)
def test_forms_that_general_readers_get_wrong(text: str, day: str) -> None:
    assert visit_date(text) == day


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("day 195", "2026-07-14"),
    ],
)
@pytest.mark.xfail(strict=True, reason="not yet read at the head of a note")
def test_forms_that_are_still_read_wrongly(text: str, day: str) -> None:
    assert visit_date(text) == day


def test_month_first_unless_the_setting_says_otherwise() -> None:
    assert visit_date("7/8") == "2026-07-08"
    assert visit_date("8/7", day_first=True) == "2026-07-08"
    assert visit_date("7/8/25") == "2025-07-08"
    assert visit_date("7/8/25", day_first=True) == "2025-08-07"


@pytest.mark.parametrize("text", ["6/31", "2/30/26", "June 31"])
def test_a_day_that_is_none_is_unread(text: str) -> None:
    assert visit_date(text) == NOTE.isoformat()
    assert unread(text) == [text]


@pytest.mark.parametrize(
    "text",
    ["1/2 inch pods", "pods 1-2 in", "pods 3/4 inch", "may have rust", "12 trifs", "6/10 flowering", "sun is out"],
)
def test_what_is_no_date(text: str) -> None:
    record = json.loads(read(f"plant 1 {text}", date=NOTE.isoformat()).to_json())
    assert [v["date"] for v in record["visits"]] == [NOTE.isoformat()]


@pytest.mark.parametrize(
    ("written", "note", "day"),
    [
        ("July 9, 1998", "1957-07-24", "1998-07-09"),  # all four figures: as it stands
        ("9 July 1998", "1961-08-01", "1998-07-09"),
        ("day 190, 1998", "1961-08-01", "1998-07-09"),
        ("July 9 '61", "1961-08-01", "1961-07-09"),  # two: the last such year
        ("9 July 61", "2026-07-14", "1961-07-09"),
    ],
)
def test_a_year_of_four_figures_is_never_another(written: str, note: str, day: str) -> None:
    record = json.loads(read(f"Kemp {written}\nplant 1 5 trifs", date=note).to_json())
    assert record["visits"][0]["date"] == day
