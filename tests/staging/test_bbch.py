"""BBCH codes beside stages: published pairs only (SoyBase conversion table, file of 2023-10-18)."""

from __future__ import annotations

import pytest

from notesparse.staging.bbch import bbch


@pytest.mark.parametrize(
    ("stage", "code"),
    [
        ("VE", 10), ("VC", 11), ("V1", 12), ("V2", 13), ("V3", 14), ("V4", 15), ("V5", 16), ("V6", 17), ("V7", 18),
        ("V8", 19), ("V9", 19), ("V12", 19), ("V18", 19), ("R1", 60), ("R3", 71), ("R4", 75), ("R8", 89),
    ],
)  # fmt: skip
def test_published_pairs(stage: str, code: int) -> None:
    assert bbch(stage) == code


@pytest.mark.parametrize("n", range(1, 19))
def test_formula_of_the_v_stages(n: int) -> None:
    """11 + t in two digits, ending at 19 (standards, section 5)."""
    assert bbch(f"V{n}") == min(11 + n, 19)


@pytest.mark.parametrize("stage", ["R2", "R5", "R6", "R7", "V19", "V25", "none", "", None])
def test_left_blank(stage: str | None) -> None:
    assert bbch(stage) is None
