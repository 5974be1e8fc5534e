"""BBCH codes beside stages: published pairs only (SoyBase conversion table, file of 2023-10-18)."""

from __future__ import annotations

import pytest

from notesparse.staging.bbch import bbch


@pytest.mark.parametrize(
    ("stage", "two", "three"),
    [
        ("VE", 10, 100), ("VC", 11, 101), ("V1", 12, 102), ("V2", 13, 103), ("V3", 14, 104), ("V4", 15, 105),
        ("V5", 16, 106), ("V6", 17, 107), ("V7", 18, 108), ("V8", 19, 109), ("V9", 19, 110), ("V12", 19, 113),
        ("V18", 19, 119), ("R1", 60, 600), ("R3", 71, 701), ("R4", 75, 705),
    ],
)  # fmt: skip
def test_published_pairs(stage: str, two: int, three: int) -> None:
    assert (bbch(stage), bbch(stage, three_digits=True)) == (two, three)


@pytest.mark.parametrize("n", range(1, 19))
def test_formula_of_the_v_stages(n: int) -> None:
    """11 + t in two digits, ending at 19; 101 + t in three (standards, section 5)."""
    assert (bbch(f"V{n}"), bbch(f"V{n}", three_digits=True)) == (min(11 + n, 19), 101 + n)


def test_r8_has_two_digits_only() -> None:
    assert (bbch("R8"), bbch("R8", three_digits=True)) == (89, None)


@pytest.mark.parametrize("stage", ["R2", "R5", "R6", "R7", "V19", "V25", "none", "", None])
def test_left_blank(stage: str | None) -> None:
    assert (bbch(stage), bbch(stage, three_digits=True)) == (None, None)
