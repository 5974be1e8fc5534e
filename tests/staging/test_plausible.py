"""What is asked and what is refused (guide 8), and that real trials lie within it."""

from __future__ import annotations

import pytest

from notesparse.facts import PlantFacts
from notesparse.staging.plausible import QUANTITIES, doubts, verdict


@pytest.mark.parametrize(
    ("quantity", "value", "found"),
    [
        ("trifoliates", 20, "fine"), ("trifoliates", 21, "ask"), ("trifoliates", 26, "ask"),
        ("trifoliates", 27, "refuse"), ("trifoliates", 0, "fine"), ("trifoliates", -1, "refuse"),
        ("nodes", 22, "fine"), ("nodes", 23, "ask"), ("nodes", 28, "ask"), ("nodes", 29, "refuse"),
        ("v_at_first_flower", 2, "ask"), ("v_at_first_flower", 0, "ask"), ("v_at_first_flower", 3, "fine"),
        ("pod_mm", 70, "fine"), ("pod_mm", 70.1, "ask"), ("pod_mm", 100, "ask"), ("pod_mm", 100.1, "refuse"),
        ("seed_mm", 12, "fine"), ("seed_mm", 12.1, "ask"), ("seed_mm", 20, "ask"), ("seed_mm", 20.5, "refuse"),
        ("mature_pods_percent", 100, "fine"), ("mature_pods_percent", 101, "refuse"),
        ("days_planting_to_r1", 24, "ask"), ("days_planting_to_r1", 25, "fine"), ("days_planting_to_r1", 95, "fine"),
        ("days_planting_to_r1", 96, "ask"),
        ("nodes_a_day", 0.7, "fine"), ("nodes_a_day", 0.71, "ask"),
        ("nodes_lost", 1, "fine"), ("nodes_lost", 2, "ask"),
        ("r_stages_back", 0, "fine"), ("r_stages_back", 1, "ask"), ("r_stages_back", -2, "fine"),
    ],
)  # fmt: skip
def test_verdict(quantity: str, value: float, found: str) -> None:
    assert verdict(quantity, value) == found


@pytest.mark.parametrize(
    ("quantity", "low", "high"),
    [
        # open soybean trials, 25 experiments and 131 treatments (standards 4.4: repository DSSAT/dssat-csm-data)
        ("days_planting_to_r1", 33, 87),
        ("v_at_first_flower", 3.3, 12.7),
        ("nodes_a_day", 1 / 6.7, 1 / 2.7),
        # Bastidas et al. 2008, Crop Science 48:727-740
        ("nodes_a_day", 0.26, 0.27),
        # University of Tennessee, July 2011: 12 to 22 nodes
        ("nodes", 12, 22),
        # German handbook of crops: pods of 2 to 6 cm
        ("pod_mm", 20, 60),
    ],
)
def test_what_was_measured_somewhere_is_not_asked(quantity: str, low: float, high: float) -> None:
    assert [verdict(quantity, value) for value in (low, (low + high) / 2, high)] == ["fine"] * 3


def test_the_leafiest_trial_is_asked_and_not_refused() -> None:
    """Final main-stem leaves 7 to 24 in the open trials."""
    assert [verdict("trifoliates", n) for n in (7, 12, 24)] == ["fine", "fine", "ask"]


def test_every_limit_names_its_source() -> None:
    assert all(len(limit.source) > 20 and limit.says for limit in QUANTITIES.values())


def test_unknown_quantity_is_an_error() -> None:
    with pytest.raises(KeyError):
        verdict("leaves", 3)


def test_doubts_of_one_plant() -> None:
    found = doubts(PlantFacts(trifoliates=22, nodes=23, pod_mm=(60, 120), seed_mm=(0, 13), mature_pods_percent=50))
    assert [(d.key, d.value, d.verdict) for d in found] == [
        ("trifoliates", 22, "ask"), ("nodes", 23, "ask"), ("pod_mm", 120, "refuse"), ("seed_mm", 13, "ask"),
    ]  # fmt: skip
    assert found[0].why == "22 unrolled trifoliates is beyond 20"


def test_a_length_below_nothing_is_refused() -> None:
    assert [d.why for d in doubts(PlantFacts(pod_mm=-2))] == ["-2 pod length in mm is under 0"]


def test_an_ordinary_plant_raises_no_doubt() -> None:
    assert doubts(PlantFacts(trifoliates=11, nodes=12, pod_mm=6.4, seed_mm=(1, 3))) == ()
