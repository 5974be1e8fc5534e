"""The published numbers, and the two forms of a length that are not equal (standards: 3/16 in is 4.76 mm, not 5)."""

from __future__ import annotations

import pytest

from notesparse.staging.limits import COUNTING_RULES, DEFAULT_RULE, LIMITS, LengthLimit

ALL = {"pod_r3": LIMITS.pod_r3, "pod_r4": LIMITS.pod_r4, "seed_r5": LIMITS.seed_r5}


@pytest.mark.parametrize(
    ("limit", "mm", "inches"),
    [("pod_r3", 5.0, "3/16"), ("pod_r4", 20.0, "3/4"), ("seed_r5", 3.0, "1/8")],
)
def test_published_forms(limit: str, mm: float, inches: str) -> None:
    assert (ALL[limit].mm, str(ALL[limit].inches)) == (mm, inches)
    assert ALL[limit].said(True) == f"{inches} in"
    assert ALL[limit].said(False) == f"{mm:g} mm"


@pytest.mark.parametrize(
    ("limit", "length_mm", "in_inches", "reached"),
    [
        ("pod_r3", 4.7625, True, True),  # 3/16 in
        ("pod_r3", 4.76, True, True),  # the same, rounded on its way
        ("pod_r3", 0.187 * 25.4, True, True),
        ("pod_r3", 4.7, True, False),
        ("pod_r3", 25.4 * 11 / 64, True, False),
        ("pod_r3", 4.7625, False, False),
        ("pod_r3", 4.99, False, False),
        ("pod_r3", 5, False, True),
        ("pod_r3", 0.5 * 10, False, True),
        ("pod_r4", 19.05, True, True),
        ("pod_r4", 19.0, True, False),
        ("pod_r4", 19.05, False, False),
        ("pod_r4", 20, False, True),
        ("seed_r5", 3.175, True, True),
        ("seed_r5", 3.17, True, True),
        ("seed_r5", 3.0, True, False),
        ("seed_r5", 3.0, False, True),
        ("seed_r5", 0.3 * 10, False, True),
        ("seed_r5", 2.99, False, False),
    ],
)
def test_each_unit_against_its_own_form(limit: str, length_mm: float, in_inches: bool, reached: bool) -> None:
    assert ALL[limit].reached(length_mm, in_inches) is reached


def test_rules_and_other_numbers() -> None:
    assert COUNTING_RULES == ("open-trifoliates", "open-nodes", "developed-trifoliates")
    assert DEFAULT_RULE == "open-trifoliates"
    assert [LIMITS.counting[rule].add for rule in COUNTING_RULES] == [0, 1, -1]
    assert (LIMITS.flower_nodes, LIMITS.pod_nodes, LIMITS.mature_r8_percent, LIMITS.field_percent) == (2, 4, 95, 50)


@pytest.mark.parametrize("entry", [*ALL.values(), *LIMITS.counting.values()])
def test_every_number_names_its_source(entry: LengthLimit) -> None:
    assert len(entry.source) > 20
