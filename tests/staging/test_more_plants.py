"""How many more plants would settle whether half of a field have reached a stage."""

from __future__ import annotations

import pytest

from notesparse.staging.interval import more_plants, wilson


@pytest.mark.parametrize("plants", range(1, 31))
def test_the_fewest_settle_it_and_one_less_does_not(plants: int) -> None:
    for reached in range(plants + 1):
        low, high = wilson(reached, plants)
        found = more_plants(reached, plants)
        if not low < 50 < high:
            assert found is None
            continue
        assert found is not None
        fewest, alike = found
        best = [wilson(reached + m * (2 * reached >= plants), plants + m) for m in (fewest, fewest - 1)]
        assert not best[0][0] < 50 < best[0][1]
        assert best[1][0] < 50 < best[1][1]
        assert alike is None or alike >= fewest


def test_against_scipy() -> None:
    """The interval that decides is Wilson's, as scipy has it."""
    stats = pytest.importorskip("scipy.stats")
    fewest, _ = more_plants(3, 4) or (0, 0)
    interval = stats.binomtest(3 + fewest, 4 + fewest).proportion_ci(method="wilson")
    assert interval.low >= 0.5
