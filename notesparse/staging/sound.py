"""Facts that no plant can have, and facts that speak against each other (guide 5.6).

What is found here leaves the plant without a stage: it is to be asked, never guessed.
"""

from __future__ import annotations

from typing import NamedTuple

from notesparse.facts import Millimetres, Places, PlantFacts
from notesparse.staging.plausible import doubts

WORDS: dict[str, tuple[str, ...]] = {
    "top_leaf": ("unrolled", "rolled"),
    "unifoliates": ("unrolled", "rolled"),
    "seed_fill": ("partial", "full"),
    "mature_pods": ("one", "none"),
}
PLACES: tuple[str, ...] = ("flowers_from_top", "pods_from_top", "seeds_from_top")

V_KEYS: frozenset[str] = frozenset({"trifoliates", "nodes", "top_leaf", "unifoliates"})


class Fault(NamedTuple):
    """What is wrong with the facts of a plant: the keys, and a sentence."""

    keys: tuple[str, ...]
    why: str


def impossible(facts: PlantFacts, vegetative: bool) -> Fault | None:
    """A value that no plant can have, among the facts of V (`vegetative`) or among those of R."""
    for key, allowed in WORDS.items():
        value = getattr(facts, key)
        if (key in V_KEYS) == vegetative and value is not None and value not in allowed:
            return Fault((key,), f"{key} is {value!r}: it can be {' or '.join(allowed)}")
    for doubt in doubts(facts):
        if (doubt.key in V_KEYS) == vegetative and doubt.verdict == "refuse":
            return Fault((doubt.key,), doubt.why)
    if not vegetative:
        for key in PLACES:
            places: Places | None = getattr(facts, key)
            if isinstance(places, str) and places != "lower":
                return Fault((key,), f"{key} is {places!r}: it can be nodes from the top, or 'lower'")
            if isinstance(places, tuple) and any(place < 1 for place in places):
                return Fault((key,), f"{key} names node {min(places)}: the top node is 1")
    return None


def contradiction(facts: PlantFacts) -> Fault | None:
    """Two facts about flowers, pods, seeds and maturity that cannot both hold, wherever on the stem they are."""
    if facts.flowers is False and facts.flowers_from_top:
        return Fault(("flowers", "flowers_from_top"), "no open flower, and yet a place of one")
    if facts.seeds is False and (key := first_of_seeds(facts)):
        return Fault(("seeds", key), f"no seed, and yet {key}")
    if facts.pods is False:
        seed = "seeds" if facts.seeds else first_of_seeds(facts)
        key = first_of_pods(facts) or seed or first_of_mature(facts)
        if key is not None:
            return Fault(("pods", key), f"no pods, and yet {_KIND.get(key, key)}")
    mature = first_of_mature(facts)
    if mature is not None and (facts.mature_pods == "none" or facts.mature_pods_percent == 0):
        return Fault(("mature_pods", "mature_pods_percent"), "no mature pod, and yet a share of mature pods")
    if mature is not None and facts.seeds is False:
        return Fault(("seeds", mature), "no seed, and yet a mature pod")
    young = _too_young(facts)
    if young is not None and (key := first_reproductive(facts)) is not None:
        return Fault((young, key), f"{_YOUNG[young]}, and yet {_KIND.get(key, key)}")
    return None


_KIND = {
    "flowers": "a flower",
    "flowers_from_top": "a flower",
    "pods": "a pod",
    "pods_from_top": "a place of one",
    "pod_mm": "a length of one",
    "pods_full_length": "full length pods",
    "seeds": "a seed",
    "seeds_from_top": "a seed",
    "seed_mm": "a seed",
    "seed_fill": "a seed",
    "mature_pods": "a mature pod",
    "mature_pods_percent": "mature pods",
}
_YOUNG = {"emerged": "not up", "unifoliates": "unifoliate leaves still rolled"}


def first_of_pods(facts: PlantFacts) -> str | None:
    """The first key that says a pod is there, `pods` itself left out."""
    if facts.pods_from_top:
        return "pods_from_top"
    if facts.pod_mm is not None and longest(facts.pod_mm) > 0:
        return "pod_mm"
    return "pods_full_length" if facts.pods_full_length else None


def first_of_seeds(facts: PlantFacts) -> str | None:
    """The first key that says a seed is there, `seeds` itself left out."""
    if facts.seeds_from_top:
        return "seeds_from_top"
    if facts.seed_mm is not None and longest(facts.seed_mm) > 0:
        return "seed_mm"
    return "seed_fill" if facts.seed_fill is not None else None


def first_of_mature(facts: PlantFacts) -> str | None:
    """The key that says a pod is mature."""
    if facts.mature_pods == "one":
        return "mature_pods"
    return "mature_pods_percent" if facts.mature_pods_percent else None


def first_reproductive(facts: PlantFacts) -> str | None:
    """The first key that says there is a flower, a pod, a seed or a mature pod."""
    if facts.flowers or facts.flowers_from_top:
        return "flowers" if facts.flowers else "flowers_from_top"
    if facts.pods:
        return "pods"
    if facts.seeds:
        return "seeds"
    return first_of_pods(facts) or first_of_seeds(facts) or first_of_mature(facts)


def longest(length: Millimetres) -> float:
    """The upper end of a measured length, in mm: the stage rests on it (guide 4.2)."""
    return max(length) if isinstance(length, tuple) else length


def _too_young(facts: PlantFacts) -> str | None:
    if facts.emerged is False:
        return "emerged"
    return "unifoliates" if facts.unifoliates == "rolled" else None
