"""The Wilson interval against an independent computation."""

from __future__ import annotations

import pytest
from scipy.stats import binomtest

from notesparse.staging.interval import wilson


@pytest.mark.parametrize("plants", [1, 2, 3, 5, 9, 10, 20, 57, 400])
def test_against_scipy(plants: int) -> None:
    for reached in range(plants + 1):
        low, high = wilson(reached, plants)
        expected = binomtest(reached, plants).proportion_ci(0.95, method="wilson")
        assert low == pytest.approx(100 * expected.low, abs=0.0501)
        assert high == pytest.approx(100 * expected.high, abs=0.0501)
        assert 0 <= low <= high <= 100


def test_known_values() -> None:
    assert [wilson(5, 10), wilson(0, 10), wilson(10, 10)] == [(23.7, 76.3), (0.0, 27.8), (72.2, 100.0)]
    assert wilson(1, 1) == (20.7, 100.0)
