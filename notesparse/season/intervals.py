"""`intervals.toml`: days between stages, rates and visits, each with its source, as frozen values."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from notesparse.lazy import dataclass
from notesparse.staging.scale import R_CODES


@dataclass(frozen=True, slots=True)
class Step:
    """Days from one stage to the next: the first likely, the likely, the last likely day."""

    low: float
    mean: float
    high: float
    source: str


@dataclass(frozen=True, slots=True)
class Rate:
    """New nodes a day: the published mean with its spread (one standard deviation), and the range."""

    mean: float
    spread: float
    low: float
    high: float
    source: str


@dataclass(frozen=True, slots=True)
class Intervals:
    """All published intervals. `steps` are keyed `R1-R2`, `planted-R1` ...; `visits` by the stage they hold from."""

    steps: Mapping[str, Step]
    nodes: Rate
    v_at_r1: Step
    visits: Mapping[str, tuple[int, int]]
    visit_source: str

    def between(self, one: str, two: str) -> Step | None:
        """The step between two neighbours of the R scale; None where nothing is published."""
        return self.steps.get(f"{one}-{two}")


@lru_cache(maxsize=1)
def intervals() -> Intervals:
    """The intervals of `intervals.toml`."""
    data = tomllib.loads((files("notesparse") / "season" / "intervals.toml").read_text(encoding="utf-8"))
    sources: dict[str, str] = data["sources"]
    told = {name: _step(entry, sources) for name, entry in data["step"].items()}
    rate = {**data["nodes"], "source": sources[data["nodes"]["source"]]}
    visits = {name: tuple(days) for name, days in data["visit"].items() if name != "source"}
    return Intervals(
        MappingProxyType(told),
        Rate(**rate),
        _step(data["v_at_r1"], sources),
        MappingProxyType(visits),
        sources[data["visit"]["source"]],
    )


def _step(entry: Mapping[str, Any], sources: Mapping[str, str]) -> Step:
    return Step(entry["low"], entry["mean"], entry["high"], sources[entry["source"]])


def next_r(stage: str) -> str | None:
    """The R stage after a stage; None after R8."""
    at = R_CODES.index(stage) + 1
    return R_CODES[at] if at < len(R_CODES) else None
