"""`limits.toml` as frozen values, read once."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType
from typing import Any

from notesparse.lazy import dataclass

MM_PER_INCH = 25.4  # exact, by definition


@dataclass(frozen=True, slots=True)
class LengthLimit:
    """A published length in its two forms; `slack_inches_mm` and `slack_mm` allow for rounding only."""

    mm: float
    inches: Fraction
    slack_mm: float
    slack_inches_mm: float
    source: str

    def reached(self, length_mm: float, in_inches: bool) -> bool:
        """Whether a length in mm is as long, held against the form of the unit that it was given in."""
        if in_inches:
            return length_mm >= float(self.inches) * MM_PER_INCH - self.slack_inches_mm
        return length_mm >= self.mm - self.slack_mm

    def said(self, in_inches: bool) -> str:
        """The limit in words: ``3/16 in`` or ``5 mm``."""
        return f"{self.inches} in" if in_inches else f"{self.mm:g} mm"


@dataclass(frozen=True, slots=True)
class Counting:
    """One rule of numbering V: the number is unrolled trifoliates + `add`."""

    add: int
    says: str
    source: str


@dataclass(frozen=True, slots=True)
class Limits:
    """All of `limits.toml`. Percents are 0 to 100."""

    pod_r3: LengthLimit
    pod_r4: LengthLimit
    seed_r5: LengthLimit
    flower_nodes: int
    pod_nodes: int
    strict_skip: int
    unifoliate_nodes: int
    mature_r8_percent: float
    field_percent: float
    z: float
    few_plants: int
    counting: Mapping[str, Counting]


def _read(path: Path) -> Limits:
    table: dict[str, Any] = tomllib.loads(path.read_text("utf-8"))
    sources: dict[str, str] = table["sources"]

    def length(entry: dict[str, Any]) -> LengthLimit:
        slack = table["slack"]
        inches = Fraction(entry["inches"])
        return LengthLimit(entry["mm"], inches, slack["mm"], slack["inches_mm"], sources[entry["source"]])

    rules = {name: Counting(r["add"], r["says"], sources[r["source"]]) for name, r in table["counting"].items()}
    return Limits(
        pod_r3=length(table["pod"]["R3"]),
        pod_r4=length(table["pod"]["R4"]),
        seed_r5=length(table["seed"]["R5"]),
        flower_nodes=table["nodes"]["flowers"],
        pod_nodes=table["nodes"]["pods"],
        strict_skip=table["nodes"]["strict_skip"],
        unifoliate_nodes=table["nodes"]["unifoliate"],
        mature_r8_percent=table["mature"]["R8_percent"],
        field_percent=table["field"]["at_least_percent"],
        z=table["interval"]["z"],
        few_plants=table["sample"]["few"],
        counting=MappingProxyType(rules),
    )


LIMITS: Limits = _read(Path(__file__).with_name("limits.toml"))
COUNTING_RULES: tuple[str, ...] = tuple(LIMITS.counting)
DEFAULT_RULE: str = COUNTING_RULES[0]
