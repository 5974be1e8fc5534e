"""What the trade records of soybean plants and fields: plain values, no words, no spans.

Lengths are millimetres. A key that a note says nothing of is ``None``; ``False`` means that the
note says so. The keys are those of the record contract.
"""

from __future__ import annotations

from dataclasses import fields

from notesparse.lazy import dataclass

Places = tuple[int, ...] | str
"""Nodes from the top (1 = the top node) that bear something, or ``"lower"``; ``()``: none of the top ones."""

Millimetres = float | tuple[float, float]
"""A length in mm, or (low, high) for a measured range."""

Stage = str | tuple[str, str]
"""A stage as stated: ``"V5"``, ``"R5.5"``, ``"early R5"``; a range is a pair."""


@dataclass(frozen=True, slots=True)
class PlantFacts:
    """What was seen on one plant (reading guide, section 3)."""

    trifoliates: int | None = None
    nodes: int | None = None
    top_leaf: str | None = None  # "unrolled", "rolled"
    emerged: bool | None = None
    unifoliates: str | None = None  # "unrolled", "rolled"
    flowers: bool | None = None
    flowers_from_top: Places | None = None
    pods: bool | None = None
    pods_from_top: Places | None = None
    pod_mm: Millimetres | None = None
    pods_full_length: bool | None = None
    seeds: bool | None = None
    seeds_from_top: Places | None = None
    seed_mm: Millimetres | None = None
    seed_fill: str | None = None  # "partial", "full"
    mature_pods: str | None = None  # "one", "none"
    mature_pods_percent: float | None = None  # 0 to 100
    stated_v: Stage | None = None
    stated_r: Stage | None = None
    inch_lengths: frozenset[str] = frozenset()  # of "pod_mm", "seed_mm": those given in inches (guide 5.3)


PLANT_KEYS: tuple[str, ...] = tuple(f.name for f in fields(PlantFacts) if f.name != "inch_lengths")


@dataclass(frozen=True, slots=True)
class Tally:
    """So many plants of so many: ``count`` of ``of`` are at ``what``.

    ``what`` is a stage (``"R1"``) or ``flowers``, ``pods``, ``seeds``, ``mature_pods``. ``exclusive`` tallies list classes that
    add up to the sample (8 at R2, the other 2 R1), so they are summed from the top stage down.
    """

    what: str
    count: float | None = None
    of: float | None = None
    percent: float | None = None  # 0 to 100
    more_than_half: bool | None = None  # "most": no number, but a side
    exclusive: bool = False


@dataclass(frozen=True, slots=True)
class Stated:
    """A stage that the scout states for the field as a whole."""

    v: Stage | None = None
    r: Stage | None = None


@dataclass(frozen=True, slots=True)
class Staged:
    """The stage of one plant on one scale.

    ``stage`` is ``"VE"``, ``"VC"``, ``"V5"``, ``"R3"``, ``"none"`` (R only: said to have no open flower) or ``None`` (nothing is
    known). ``basis`` is ``counted`` (V), ``seen`` (R), ``stated`` or ``None``. ``decided_by`` names the keys that decided,
    and ``why`` says it in a sentence. ``clash``: the facts of these keys cannot all hold, and it is to be asked which do
    (guide 5.6).
    """

    stage: str | None
    basis: str | None
    decided_by: tuple[str, ...] = ()
    why: str = ""
    clash: bool = False


@dataclass(frozen=True, slots=True)
class FieldStage:
    """The stage of a field on one day (reading guide, section 6). Percents are 0 to 100."""

    v: str | None
    r: str | None
    basis_v: str | None  # plants, tallies, stated
    basis_r: str | None
    plants: int
    staged_v: int
    staged_r: int
    reached_v_percent: float | None
    reached_r_percent: float | None
    interval_v_percent: tuple[float, float] | None
    interval_r_percent: tuple[float, float] | None
    least: tuple[str | None, str | None]  # (v, r)
    median: tuple[str | None, str | None]
    most: tuple[str | None, str | None]
    mean_v: float | None  # the average of the plants' V numbers: not the field's stage
    counting_rule: str
