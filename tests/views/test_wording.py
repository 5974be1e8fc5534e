"""Values in the trade's words."""

from __future__ import annotations

from typing import Any

import pytest

from notesparse.facts import Millimetres, Places, Tally
from notesparse.options import COUNTING_RULES
from notesparse.views.cells import fold, line_of, safe, width_of
from notesparse.views.grid import grid
from notesparse.views.wording import RULES, day, length, made, many, number, percent, places, stage, tallied


@pytest.mark.parametrize(
    ("millimetres", "inches", "said"),
    [
        (4.7625, True, "3/16 in"),
        (19.05, True, "3/4 in"),
        (31.75, True, "1 1/4 in"),
        (25.4, True, "1 in"),
        (7.62, True, "0.3 in"),
        ((6.35, 9.525), True, "1/4-3/8 in"),
        (20.0, False, "20 mm"),
        (6.35, False, "6.35 mm"),
        ((0.0, 4.7), False, "0-4.7 mm"),
    ],
)
def test_lengths(millimetres: Millimetres, inches: bool, said: str) -> None:
    assert length(millimetres, inches) == said


@pytest.mark.parametrize(
    ("where", "said"),
    [((1,), "1"), ((1, 2), "1-2"), ((4, 2, 1), "1-2, 4"), ((1, 3), "1, 3"), ("lower", "low"), ((), "none up top")],
)
def test_places(where: Places, said: str) -> None:
    assert places(where) == said


@pytest.mark.parametrize(
    ("share", "said"),
    [(66.6667, "67 %"), (100.0, "100 %"), (0.0, "0 %"), (99.7, "99.7 %"), (0.4, "0.4 %"), (50, "50 %")],
)
def test_a_share_is_rounded_and_yet_never_to_all_or_none(share: float, said: str) -> None:
    assert percent(share) == said


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("trifoliates", 1, "1 trifoliate"),
        ("nodes", 12, "12 nodes"),
        ("flowers", False, "no flowers"),
        ("flowers_from_top", [2], "flowers at node 2 from the top"),
        ("pods_from_top", [], "pods none up top"),
        ("pod_mm", [5.0, 6.35], "pod length 5-6.35 mm"),
        ("seed_mm", 3.175, "seed length 1/8 in"),
        ("stated_r", ["R3", "R4"], "stated R3 to R4"),
        ("stated_r", None, "nothing stated"),
        ("seed_fill", "full", "seed fill full"),
        ("mature_pods_percent", 95.0, "ripe pods 95 %"),
        ("date", "2026-07-04", "4 Jul 2026"),
        ("same_as", "2", "same as 2"),
        ("plant", ["3", "4"], "plant 3, 4"),
        ("row_spacing_in", 7.5, "row spacing in 7.5"),
        ("words", "fifty", "“fifty”"),
        ("words", None, "the words are not known"),
        ("then_asked", ["Is it?"], "then asked: Is it?"),
        ("then_asked", [], "nothing further to ask"),
        ("visits", [], "visits: none"),
        ("visits", ["a: V5", "b: no stage"], "visits: a: V5; b: no stage"),
        ("stated_parts", [{"v": "V7", "r": None, "where": "behind the pond"}], "stated V7 behind the pond"),
        ("stated_parts", [], "nothing stated for a part"),
        ("tallies", [{"what": "R1", "count": 6, "of": 10, "percent": 60}], "6 of 10 at R1, 60 %"),
        ("tallies", [], "no such share"),
        (
            "findings",
            [{"kind": "insect", "name": "stink bug", "value": [3, 5], "unit": "per 25 sweeps", "where": None}],
            "stink bug 3-5 per 25 sweeps",
        ),
        ("findings", [{"kind": "weed", "name": None, "value": None, "unit": None, "where": "north"}], "weed north"),
        ("findings", [], "no such finding"),
        (
            "plants",
            {"1": {"trifoliates": 9, "v_stage": "V9"}, "2": {"trifoliates": 9, "v_stage": "V9"}, "60": None},
            "plants 1, 2: 9 trifoliates, V9; no plant 60",
        ),
        ("plants", {"1": {"v_stage": None, "r_stage": None}}, "plant 1: no stage"),
    ],
)
def test_what_an_answer_makes(key: str, value: Any, said: str) -> None:
    assert made(key, value) == said


@pytest.mark.parametrize(
    ("tally", "said"),
    [
        (Tally("flowers", 6.0, 10.0), "6 of 10 with flowers, 60 %"),
        (Tally("R3", percent=60.0), "60 % at R3"),
        (Tally("mature_pods", more_than_half=True), "more than half with a pod of mature colour"),
        (Tally("R1"), "some at R1, with no number"),
    ],
)
def test_tallies(tally: Tally, said: str) -> None:
    assert tallied(tally) == said


def test_small_words() -> None:
    assert (day("2026-07-14"), day("soon")) == ("14 Jul 2026", "soon")
    assert (number(3.80), number(11), number(30.0)) == ("3.8", "11", "30")
    assert (many(1, "plant"), many(0, "plant")) == ("1 plant", "0 plants")
    assert [stage(s) for s in ("V5", None, "none", ("R3", "R4"))] == ["V5", "not known", "not flowering", "R3 to R4"]
    assert set(RULES) == set(COUNTING_RULES)


def test_words_on_one_line() -> None:
    assert safe("a\r\n  b\x1b[0m\u202e") == "a b.[0m"
    assert width_of("cafe\u0301 \u8c46") == 7
    assert [line_of("a\r\nb\rc\n\nd", at) for at in (0, 3, 5, 8)] == [1, 2, 3, 5]
    assert fold("one two three", 9, "  ", "    ") == ["  one two", "    three"]


def test_a_grid_leaves_out_empty_columns_and_breaks_wide_ones() -> None:
    rows = [["1", "", "long words that go on and on"], ["stop 2"], ["10", "", "short"]]
    assert grid(("plant", "nodes", "why"), rows, right=frozenset({0}), width=30) == [
        "   plant  why",
        "       1  long words that go",
        "          on and on",
        "   stop 2",
        "      10  short",
    ]
    assert grid(("a", "b"), []) == []


def test_where_nothing_fits_the_last_column_goes_below() -> None:
    rows = [["1", "wordwordword", "and so"], ["2", "word", ""]]
    assert grid(("", "of words", "because"), rows, width=20) == [
        "      of words",
        "   1  wordwordword",
        "     because and so",
        "   2  word",
    ]
