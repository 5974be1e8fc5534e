"""The interval of a proportion: what a sample of so few plants says of a field."""

from __future__ import annotations

from math import sqrt

from notesparse.staging.limits import LIMITS


def wilson(reached: int, plants: int) -> tuple[float, float]:
    """The 95 % score interval (Wilson 1927) of `reached` of `plants` (at least one), in percent, to 0.1."""
    z2 = LIMITS.z**2
    share = reached / plants
    middle = share + z2 / (2 * plants)
    reach = LIMITS.z * sqrt(share * (1 - share) / plants + z2 / (4 * plants**2))
    low, high = ((middle - reach) / (1 + z2 / plants), (middle + reach) / (1 + z2 / plants))
    return round(100 * max(0.0, low), 1), round(100 * min(1.0, high), 1)
