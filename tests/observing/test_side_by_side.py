"""Fields side by side on a page are read one after the other, and every span is one of the page (guide 1.2, 4.21)."""

from __future__ import annotations

import itertools

import pytest

from notesparse.flow import read

SIDES = """7-14-87

BRICKYARD                  |   HALFWAY HOUSE
1   8 tri   fl top 2 nds   |   1   6 tri   no fl
2   9 tri   fl top node    |   2   7 or 8 tri   no fl
3   8 tri   no fl          |   3   7 tri   fl 4th nd down

Gate is wired shut.
"""
COLUMNS = """July 24, 2004
                    HEIFER LOT      SAWMILL TWENTY
rows                   30"               15"
pl 1    trifs          11                12
        flower         2nd node dn       top node
pl 2    trifs          10                13
        flower         none              top node
"""


def test_each_side_is_a_visit_of_its_own() -> None:
    got = read(SIDES, date="1987-07-14")
    assert [(v.field, v.date, [p.facts.trifoliates for p in v.plants]) for v in got.visits] == [
        ("BRICKYARD", "1987-07-14", [8, 9, 8]),
        ("HALFWAY HOUSE", "1987-07-14", [6, 7, 7]),
    ]


def test_each_column_is_a_visit_of_its_own() -> None:
    got = read(COLUMNS, date="2004-07-24")
    told = [(p.facts.trifoliates, p.facts.flowers, p.facts.flowers_from_top) for v in got.visits for p in v.plants]
    assert [v.field for v in got.visits] == ["HEIFER LOT", "SAWMILL TWENTY"]
    assert told == [(11, True, (2,)), (10, False, None), (12, True, (1,)), (13, True, (1,))]


def test_what_stands_under_a_plant_goes_on_with_it() -> None:
    page = (
        "GRANARY LOT              SWALLOW HILL\n"
        "pl 1    9 tri            pl 1    10 tri\n"
        "        fl 4th node dn           no fl\n"
        "pl 2    8 tri            pl 2    11 tri\n"
        "        no fl                    fl 3rd node dn\n"
    )
    got = read(page, date="1987-07-14")
    told = [(p.label, p.facts.trifoliates, p.facts.flowers_from_top) for v in got.visits for p in v.plants]
    assert told == [("1", 9, (4,)), ("2", 8, None), ("1", 10, None), ("2", 11, (3,))]


def test_a_field_of_which_nothing_stands_there() -> None:
    page = (
        "ALDER BENCH      BRICKYARD      CLAY HILL\n"
        "                 1 9 tri        1 8 tri\n"
        "                 2 9 tri        2 8 tri\n"
    )
    got = read(page, date="1987-07-14")
    assert [(v.field, [p.facts.trifoliates for p in v.plants]) for v in got.visits] == [
        ("BRICKYARD", [9, 9]),
        ("CLAY HILL", [8, 8]),
    ]
    assert [u.span.of(page) for u in got.unread] == ["ALDER BENCH"]


def test_two_such_pages_in_one_note() -> None:
    got = read(f"{SIDES}\n{COLUMNS}", date="2004-07-24")
    assert [(v.field, len(v.plants)) for v in got.visits] == [
        ("BRICKYARD", 3),
        ("HALFWAY HOUSE", 3),
        ("HEIFER LOT", 2),
        ("SAWMILL TWENTY", 2),
    ]


@pytest.mark.parametrize("page", [SIDES, COLUMNS, f"{SIDES}\n{COLUMNS}"])
def test_every_character_is_accounted_for_once(page: str) -> None:
    got = read(page, date="2004-07-24")
    parts = sorted([*got.evidence, *got.filler, *(u.span for u in got.unread)])
    assert parts[0].start == 0 and parts[-1].end == len(page)
    assert all(a.end == b.start for a, b in itertools.pairwise(parts))


def test_what_is_asked_quotes_the_page_and_takes_its_answer() -> None:
    got = read(SIDES, date="1987-07-14")
    (asked,) = got.questions
    assert asked.quote == "7 or 8 tri" == asked.span.of(SIDES)
    again = read(SIDES, date="1987-07-14", answers=[asked.chosen(1)])
    assert again.visits[1].plants[1].facts.trifoliates == 8
    assert [q.answer for q in again.questions] == [1]
