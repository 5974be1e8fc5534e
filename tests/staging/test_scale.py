"""Stage codes, their order, and stages as people write them (guide 4.15)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesparse.facts import Stage
from notesparse.staging.scale import (
    R_CODES,
    agrees,
    code_at,
    is_range,
    rank,
    read_stage,
    said,
    v_code,
    v_number,
    whole_stage,
)

ASCENDING_V = ["VE", "VC", "V1", "V2", "V9", "V10", "V11", "V20"]


@pytest.mark.parametrize(
    ("text", "whole"),
    [
        ("V5", "V5"), ("v5", "V5"), ("V-5", "V5"), ("V 5", "V5"), (" V5 ", "V5"), ("V05", "V5"), ("V12", "V12"),
        ("R5.5", "R5"), ("R6.5", "R6"), ("r5.8", "R5"), ("early R5", "R5"), ("late R4", "R4"), ("Late R4", "R4"),
        ("mid-R5", "R5"), ("middle R3", "R3"), ("R-3", "R3"), ("R8", "R8"), ("VE", "VE"), ("vc", "VC"), ("V-E", "VE"),
        ("V5.4", "V5"),
        ("R0", None), ("R9", None), ("V0", None), ("V100", None), ("RE", None), ("RC", None), ("VC.5", None),
        ("V", None), ("", None), ("5", None), ("none", None), ("R3ish", None), ("R3 R4", None),
        ("nearly R5", None), ("V5R2", None),
    ],
)  # fmt: skip
def test_whole_stage(text: str, whole: str | None) -> None:
    assert whole_stage(text) == whole


@pytest.mark.parametrize(
    ("text", "stage"),
    [
        ("R5.5", "R5.5"), (" early R5", "early R5"), ("V-5", "V-5"), ("mid-R5", "mid-R5"),
        ("R3-R4", ("R3", "R4")), ("R3 - R4", ("R3", "R4")), ("R3/R4", ("R3", "R4")), ("R3 to R4", ("R3", "R4")),
        ("R3–R4", ("R3", "R4")), ("V5-6", ("V5", "V6")), ("VE-VC", ("VE", "VC")), ("VC to V1", ("VC", "V1")),
        ("late R4 to early R5", ("late R4", "early R5")), ("V-5 to V-6", ("V-5", "V-6")), ("R3-R3", ("R3", "R3")),
        ("R4-R3", None), ("V5-R2", None), ("R3-", None), ("5-6", None), ("R3-R4-R5", None), ("R3 or so", None),
    ],
)  # fmt: skip
def test_read_stage(text: str, stage: Stage | None) -> None:
    assert read_stage(text) == stage


def test_v_goes_up() -> None:
    assert [rank(code) for code in ASCENDING_V] == sorted({rank(code) for code in ASCENDING_V})


def test_r_goes_up_from_none() -> None:
    assert [rank(code) for code in ("none", *R_CODES)] == list(range(9))


@given(st.sampled_from("VR"), st.integers(0, 8))
def test_code_at_is_the_inverse_of_rank(letter: str, place: int) -> None:
    assert rank(code_at(letter, place)) == place
    assert place == 0 or code_at(letter, place)[0] == letter


def test_numbers_of_v() -> None:
    assert [v_code(n) for n in (-2, 0, 1, 14)] == ["VC", "VC", "V1", "V14"]
    assert [v_number(code) for code in ("VE", "VC", "V1", "V14")] == [0, 0, 1, 14]


@pytest.mark.parametrize(
    ("stated", "computed", "same"),
    [
        ("R5", "R5", True), ("R5.5", "R5", True), ("early R5", "R5", True), ("late R4", "R5", False),
        ("R5", "R6", False), ("V-5", "V5", True), ("VC", "VC", True), ("VE", "VC", False),
        (("R3", "R4"), "R3", True), (("R3", "R4"), "R4", True), (("R3", "R4"), "R5", False), (("R3", "R5"), "R4", True),
        (("R3", "R4"), "R2", False), (("V5", "V6"), "V6", True), ("R3", "V3", False), (("V3", "R3"), "V3", False),
        ("R1", "none", False), ("no idea", "R1", False), (("R1", "?"), "R1", False),
    ],
)  # fmt: skip
def test_agrees(stated: Stage, computed: str, same: bool) -> None:
    assert agrees(stated, computed) is same


def test_said_and_is_range() -> None:
    assert (said("R5.5"), is_range("R5.5")) == ("R5.5", False)
    assert (said(("R3", "R4")), is_range(("R3", "R4"))) == ("R3 to R4", True)
