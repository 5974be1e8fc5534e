"""Forecasts: the file against what is published, windows that behave, and the backtest on the demo season."""

from __future__ import annotations

import itertools
import sqlite3
from collections.abc import Callable
from datetime import date, timedelta

import pytest

from notesparse.season.forecast import backtest, forecast, next_visit, node_rate
from notesparse.season.intervals import intervals, next_r
from notesparse.season.look import Field, fields
from notesparse.staging.scale import R_CODES

Kept = Callable[..., sqlite3.Connection]

PUBLISHED = [
    # step, low, mean, high, where it was published; None: not held against a page
    ("planted-VE", 5, 10, 21, "Purdue and Iowa State slides: 5 to 21 days; University of Minnesota 2020: average 10"),
    ("planted-R1", 33, 45, 87, "open trial files (DSSAT/dssat-csm-data), 131 treatments: 33 to 87 days, median 45"),
    ("R1-R2", 1, 3, 7, "North Carolina State University 2020: 1 to 7; University of Minnesota 2020: average 3"),
    ("R2-R3", 5, 10, 15, "North Carolina State University 2020: 5 to 15; University of Minnesota 2020: average 10"),
    ("R3-R4", 5, 9, None, "University of Wisconsin 2013: 5 to 8; University of Minnesota 2020: average 9"),
    ("R4-R5", None, 9, None, "Illinois checkoff agronomy article: 9 days"),
    ("R5-R6", 11, 15, 21, "University of Nebraska: 11; Illinois checkoff article: 15; Nebraska radio note: about 21"),
    ("R6-R7", 9, 18, 30, "University of Wisconsin, 14 September 2011: mean 18, range 9 to 30"),
    ("R7-R8", 7, 9, None, "Virginia Tech, 30 August 2013: a week to 10 days; University of Minnesota 2020: average 9"),
    ("R8-harvest", 5, None, 10, "Ohio State University Bulletin 827: 5 to 10 good drying days"),
]


@pytest.mark.parametrize(("step", "low", "mean", "high", "where"), PUBLISHED)
def test_the_file_says_what_is_published(
    step: str, low: float | None, mean: float | None, high: float | None, where: str
) -> None:
    found = intervals().steps[step]
    for name, wanted in (("low", low), ("mean", mean), ("high", high)):
        assert wanted is None or getattr(found, name) == wanted, f"{name} of {step}: {where}"


def test_the_node_rate_is_the_published_one() -> None:
    """Bastidas et al. 2008, Crop Science 48:727-740: 0.27 nodes a day, one in 3.7 days."""
    assert intervals().nodes.mean == pytest.approx(1 / 3.7, abs=0.005)


def test_every_step_has_a_source_and_an_order() -> None:
    for name, step in intervals().steps.items():
        assert step.source, name
        assert 0 < step.low <= step.mean <= step.high, name
    assert {f"{a}-{next_r(a)}" for a in R_CODES[:-1]} <= set(intervals().steps)


def field_of(log: sqlite3.Connection) -> Field:
    return fields(log)[0]


def test_a_stage_seen_begin_gives_the_published_days(kept: Kept) -> None:
    """No flower on 1 July, R1 on 2 July: R2 is 1 to 7 days on, most likely 3."""
    log = kept("Low Ladder 7/1 p1 10 trifs, no flowers", "Low Ladder 7/2 p1 flowers third node down")
    r2 = next(w for w in forecast(field_of(log)) if w.stage == "R2")
    assert (r2.first, r2.likely, r2.last) == (date(2026, 7, 3), date(2026, 7, 5), date(2026, 7, 9))


def test_windows_grow_with_distance_and_stand_in_order(demo: sqlite3.Connection) -> None:
    for field in fields(demo):
        for upto in range(1, len(field.staged) + 1):
            windows = [w for w in forecast(Field(1, "x", field.staged[:upto]), most=8) if w.stage in R_CODES]
            for w in windows:
                assert w.first <= w.likely <= w.last and w.rests_on and w.source
            assert [w.likely for w in windows] == sorted(w.likely for w in windows)
            last = field.staged[upto - 1].day
            assert last is not None
            assert all(w.first > last for w in windows)


def test_two_visits_give_the_field_its_own_rate(kept: Kept) -> None:
    slow = kept("Low Ladder 6/10 p1 3 trifs", "Low Ladder 7/10 p1 9 trifs")
    rate = node_rate(field_of(slow).staged)
    assert rate.own == pytest.approx(0.2)
    assert rate.own < rate.used < intervals().nodes.mean  # between its own and the published one
    alone = node_rate(field_of(slow).staged[:1])
    assert (alone.own, alone.used) == (None, intervals().nodes.mean)


def test_the_next_visit_is_not_after_the_next_stage_may_begin(demo: sqlite3.Connection) -> None:
    for field in fields(demo):
        for upto in range(1, len(field.staged) + 1):
            part = Field(1, "x", field.staged[:upto])
            told = next_visit(part)
            assert told is not None and told[2]
            assert part.staged[-1].day is not None
            assert part.staged[-1].day < told[0] <= told[1] <= part.staged[-1].day + timedelta(days=7)


def test_the_backtest_uses_only_the_visits_before(demo: sqlite3.Connection) -> None:
    """Each past stage of the demo season, forecast from what was known before: at least four of five are met."""
    named = [f for f in fields(demo) if f.id is not None]
    tried = backtest(named)
    assert len(tried) > 20
    assert sum(not t.missed for t in tried) / len(tried) >= 0.8
    for t in tried:
        field = next(f for f in named if f.name == t.field)
        before = tuple(v for v in field.staged if v.day and v.day <= t.after)
        assert t.window in forecast(Field(field.id, field.name, before), most=8)


def test_a_backtest_can_miss(kept: Kept) -> None:
    log = kept(
        "Low Ladder 7/1 p1 no flowers, 9 trifs",
        "Low Ladder 7/2 p1 flowers third node down",
        "Low Ladder 7/3 p1 beans touching top four",
    )
    tried = backtest(fields(log))
    assert [t.missed != 0 for t in tried if t.stage == "R6"] == [True]


def test_a_stage_that_is_late_leaves_the_next_ones_their_least_days(kept: Kept) -> None:
    """R6 to R7 is 9 days at least (University of Wisconsin, 14 September 2011), also where R6 is overdue."""
    log = kept(
        "Low Ladder 8/1 p1 16 trifs, top four: seed 1/8 in", "Low Ladder 8/28 p1 16 trifs, top four: seed 1/4 in"
    )
    windows = [w for w in forecast(field_of(log), most=8) if w.stage in R_CODES]
    assert [w.stage for w in windows] == ["R6", "R7", "R8"]
    for one, two in itertools.pairwise(windows):
        step = intervals().between(one.stage, two.stage)
        assert step is not None
        assert (two.first - one.first).days >= step.low, two.stage
        assert one.first <= one.likely <= one.last


def test_a_visit_in_doubt_is_no_part_of_the_node_rate(kept: Kept) -> None:
    """V16 between V6 and V9 is a misread, and nobody knows yet which: the published rate stands."""
    log = kept("Low Ladder 7/1 p1 6 trifs", "Low Ladder 7/8 p1 16 trifs", "Low Ladder 7/15 p1 9 trifs")
    rate = node_rate(field_of(log).visits)
    assert rate.own is None and rate.used == intervals().nodes.mean
