"""So many plants of so many (guide 4.16, 6.2)."""

from __future__ import annotations

import pytest

from notesparse.facts import Tally
from notesparse.staging.tallies import UNKNOWN, Share, share_of, stage_of, tallied_stage

HALF_AND_MORE, UNDER_HALF = Tally("R2", more_than_half=True), Tally("R1", more_than_half=False)


def listed(what: str, count: float | None = None, of: float | None = None, **more: object) -> Tally:
    return Tally(what, count, of, exclusive=True, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("tallies", "stage", "percent"),
    [
        ([], None, None),
        ([Tally("R1", 6, 10)], "R1", 60.0),
        ([Tally("R1", 5, 10)], "R1", 50.0),
        ([Tally("R1", 7, 12)], "R1", 58.3),
        ([Tally("R1", 7, 12, 58.3)], "R1", 58.3),
        ([Tally("R1", 3, 10)], "none", 70.0),
        ([Tally("flowers", 3, 10)], "none", 70.0),
        ([Tally("flowers", percent=60)], "R1", 60.0),
        ([Tally("pods", percent=60)], "R3", 60.0),
        ([Tally("seeds", percent=60)], "R5", 60.0),
        ([Tally("mature_pods", percent=60)], "R7", 60.0),
        ([Tally("R5.5", percent=60)], "R5", 60.0),
        ([Tally("R2", 3, 10)], None, None),  # nothing is said of R1
        ([Tally("R3", 4, 10), Tally("R2", 9, 10)], "R2", 90.0),
        ([Tally("R3", 6, 10), Tally("R2", 9, 10)], "R3", 60.0),
        ([Tally("flowers", 3, 10), Tally("pods", 4, 10)], None, None),  # podded plants may be past bloom
        ([Tally("flowers", 1, 10), Tally("pods", 2, 10)], "none", None),
        ([HALF_AND_MORE], "R2", None),
        ([UNDER_HALF], "none", None),
        ([Tally("R1")], None, None),  # lots of them
        ([Tally("R1", percent=None), Tally("R2", percent=80)], "R2", 80.0),
        ([Tally("none", 2, 10)], "R1", 80.0),  # turned round
        ([Tally("none", 6, 10)], "none", 60.0),
        # lists of classes, added up from the top stage down
        ([listed("R2", 8, 10), listed("R1", 2, 10)], "R2", 80.0),
        ([listed("R2", 4, 10), listed("R1", 5, 10), listed("none", 1, 10)], "R1", 90.0),
        ([listed("R2", 4, 10), listed("R1", 5)], "R1", 90.0),  # the sample is the same
        ([listed("R3", 3, 10), listed("R2", 2, 10), listed("R1", 5, 10)], "R2", 50.0),
        ([listed("R2", 2, 10), listed("R1", 2, 10), listed("none", 6, 10)], "none", 60.0),
        ([listed("R1", 5, 10), listed("none", 5, 10)], "R1", 50.0),
        ([listed("R1", 2, 10), listed("R2", 2, 10)], "none", 60.0),
        ([listed("R2", 4, 10), listed("R1")], "R1", 100.0),  # the rest R1
        ([listed("none", percent=60), listed("R1")], "none", 60.0),
        ([listed("R2", more_than_half=True), listed("R1")], "R2", None),
        ([listed("R1")], None, None),
        ([listed("R2"), listed("R1")], None, None),
        ([listed("R3", 1, 10), listed("R2", 3, 10)], None, None),
        ([listed("R2", 33.4, 100), listed("R1", 33.4, 100), listed("none", 33.4, 100)], "R1", 66.8),
        # more than all: no list of classes after all
        ([listed("R3", 3, 10), listed("R2", 4, 10), listed("R1", 6, 10)], "R1", 60.0),
        # several stops
        ([Tally("R1", 6, 10), Tally("R1", 2, 10)], "none", 60.0),
        ([Tally("R1", 9, 10), Tally("R1", 2, 10)], "R1", 55.0),
        ([Tally("R1", percent=60), Tally("R1", percent=40)], "none", 60.0),  # the lower one
        ([listed("R2", 8, 10), listed("R1", 2, 10), listed("R2", 5, 10), listed("R1", 5, 10)], "R2", 65.0),
        # no share at all
        ([Tally("R1", 12, 10)], None, None),
        ([Tally("R1", percent=130)], None, None),
        ([Tally("R1", 3, 10, 60)], None, None),
        ([Tally("R1", 3, 0)], None, None),
        ([Tally("stand", percent=80)], None, None),
        ([Tally("V5", percent=80)], None, None),
    ],
)  # fmt: skip
def test_r(tallies: list[Tally], stage: str | None, percent: float | None) -> None:
    found = tallied_stage(tallies, "R")
    assert (found.stage, found.percent) == (stage, percent)


@pytest.mark.parametrize(
    ("tallies", "stage", "percent"),
    [
        ([Tally("VE", 8, 10)], "VE", 80.0),
        ([Tally("VE", 4, 10)], None, None),
        ([Tally("V4", 4, 10), Tally("V3", 8, 10)], "V3", 80.0),
        ([listed("V4", 4, 10), listed("V3", 6, 10)], "V3", 100.0),
        ([Tally("none", 8, 10)], None, None),
    ],
)
def test_v(tallies: list[Tally], stage: str | None, percent: float | None) -> None:
    found = tallied_stage(tallies, "V")
    assert (found.stage, found.percent) == (stage, percent)


def test_what_less_than_half_have_reached() -> None:
    assert tallied_stage([Tally("R3", 3, 10)], "R").missed == "R3"
    assert tallied_stage([Tally("R3", 3, 10), Tally("R2", 4, 10), Tally("R1", 9, 10)], "R").missed == "R3"
    assert tallied_stage([Tally("R4", 1, 10), Tally("R3", 2, 10)], "R").missed == "R3"
    assert tallied_stage([Tally("R3", 6, 10)], "R").missed is None


def test_a_list_and_a_lone_tally_together() -> None:
    found = tallied_stage([listed("R2", 4, 10), listed("R1", 6, 10), Tally("R3", 6, 10)], "R")
    assert (found.stage, found.percent) == ("R3", 60.0)


def test_shares() -> None:
    assert share_of(Tally("R1", 1, 4)) == Share(25, 25)
    assert share_of(Tally("R1")) == UNKNOWN
    assert share_of(Tally("R1", 3)) == UNKNOWN  # of how many?
    most = share_of(HALF_AND_MORE)
    assert most.low > 50 and most.known is None and most.rest.high < 50


def test_what_a_tally_speaks_of() -> None:
    said = ("flowers", "R-3", "late R4", "none", "stand")
    assert [stage_of(what) for what in said] == ["R1", "R3", "R4", "none", None]
