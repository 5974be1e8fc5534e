"""The interval of a proportion: what a sample of so few plants says of a field."""

from __future__ import annotations

from math import sqrt

from notesparse.staging.limits import LIMITS


def wilson(reached: int, plants: int) -> tuple[float, float]:
    """The 95 % score interval (Wilson 1927) of `reached` of `plants` in percent, to 0.1. `plants` is at least 1."""
    z2 = LIMITS.z**2
    share = reached / plants
    middle = share + z2 / (2 * plants)
    reach = LIMITS.z * sqrt(share * (1 - share) / plants + z2 / (4 * plants**2))
    low, high = ((middle - reach) / (1 + z2 / plants), (middle + reach) / (1 + z2 / plants))
    return round(100 * max(0.0, low), 1), round(100 * min(1.0, high), 1)


_MOST = 200  # plants


def more_plants(reached: int, plants: int) -> tuple[int, int | None] | None:
    """How many more plants would settle whether half of a field have reached a stage: the fewest that can, if all of
    them go the likelier way, and how many it takes if they go as the plants so far did (None: more than anyone looks at).

    None where the interval of `reached` of `plants` leaves nothing open.
    """
    if not _open(reached, plants):
        return None
    ahead = 2 * reached >= plants
    fewest = next(m for m in range(1, _MOST + 1) if not _open(reached + (m if ahead else 0), plants + m))
    share = reached / plants
    alike = next((m for m in range(fewest, _MOST + 1) if not _open(round(share * (plants + m)), plants + m)), None)
    return fewest, alike


def _open(reached: int, plants: int) -> bool:
    low, high = wilson(reached, plants)
    return low < 50 < high
