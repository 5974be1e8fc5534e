"""What is out of proportion, by `plausible.toml` (reading guide, section 8)."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Literal

from notesparse.facts import Millimetres, PlantFacts
from notesparse.lazy import dataclass

Verdict = Literal["fine", "ask", "refuse"]


@dataclass(frozen=True, slots=True)
class Plausible:
    """What is plausible for one quantity: beyond `ask` or under `ask_below` it is asked, beyond the others refused."""

    says: str
    source: str
    ask: float | None = None
    ask_below: float | None = None
    refuse: float | None = None
    refuse_below: float | None = None


@dataclass(frozen=True, slots=True)
class Doubt:
    """A fact of one plant that is out of proportion."""

    key: str
    value: float
    verdict: Verdict
    why: str


def _read(path: Path) -> Mapping[str, Plausible]:
    table = tomllib.loads(path.read_text("utf-8"))
    sources: dict[str, str] = table.pop("sources")
    return MappingProxyType(
        {name: Plausible(**{**entry, "source": sources[entry["source"]]}) for name, entry in table.items()}
    )


QUANTITIES: Mapping[str, Plausible] = _read(Path(__file__).with_name("plausible.toml"))
_WORST_FIRST: tuple[Verdict, ...] = ("refuse", "ask")
PLANT_QUANTITIES: tuple[str, ...] = ("trifoliates", "nodes", "pod_mm", "seed_mm", "mature_pods_percent")


def verdict(quantity: str, value: float) -> Verdict:
    """Whether a value of `quantity` is fine, to be asked, or no reading at all. `quantity` is a name in
    `plausible.toml` (KeyError for another), which gives its unit and source; lengths are millimetres."""
    limit = QUANTITIES[quantity]
    if _outside(value, limit.refuse_below, limit.refuse):
        return "refuse"
    return "ask" if _outside(value, limit.ask_below, limit.ask) else "fine"


def doubts(facts: PlantFacts) -> tuple[Doubt, ...]:
    """The facts of one plant that are to be asked or refused. Of a measured range both ends are looked at."""
    found: list[Doubt] = []
    for key in PLANT_QUANTITIES:
        value: Millimetres | None = getattr(facts, key)
        if value is None:
            continue
        judged = [(end, verdict(key, end)) for end in (value if isinstance(value, tuple) else (value,))]
        for wanted in _WORST_FIRST:
            worst = next((end for end, found_so in judged if found_so == wanted), None)
            if worst is not None:
                found.append(Doubt(key, worst, wanted, _why(key, worst, wanted)))
                break
    return tuple(found)


def _why(key: str, value: float, found: str) -> str:
    limit = QUANTITIES[key]
    low, high = (limit.refuse_below, limit.refuse) if found == "refuse" else (limit.ask_below, limit.ask)
    if high is not None and value > high:
        return f"{value:g} {limit.says} is beyond {high:g}"
    return f"{value:g} {limit.says} is under {low:g}"


def _outside(value: float, low: float | None, high: float | None) -> bool:
    return (low is not None and value < low) or (high is not None and value > high)
