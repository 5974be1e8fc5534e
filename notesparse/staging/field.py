"""Many plants, or tallies, or a statement, to the stage of the field (reading guide, section 6).

A field is at the highest stage that at least half of its staged plants have reached, V and R each for itself.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.facts import FieldStage, PlantFacts, Stage, Staged, Stated, Tally
from notesparse.lazy import dataclass
from notesparse.staging.interval import wilson
from notesparse.staging.limits import DEFAULT_RULE, LIMITS
from notesparse.staging.reproductive import below_r, r_stage
from notesparse.staging.scale import NONE, code_at, is_range, rank, said, v_number, whole_stage
from notesparse.staging.tallies import tallied_stage
from notesparse.staging.vegetative import not_up, v_stage

_NOT_UP = -1  # rank of a plant that is not up yet: below VE


@dataclass(frozen=True, slots=True)
class PlantStage:
    """One plant as the field sees it: its stages, and its facts (for what it is said *not* to have reached)."""

    v: Staged
    r: Staged
    facts: PlantFacts


@dataclass(frozen=True, slots=True)
class _Standing:
    """The outcome on one scale."""

    stage: str | None = None
    basis: str | None = None
    plants: int = 0
    percent: float | None = None
    interval: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class _Place:
    """Where one plant stands on a scale: its rank, or (`rank` None) only that it is below `below`."""

    rank: int | None
    below: int | None = None


def stage_plant(facts: PlantFacts, rule: str = DEFAULT_RULE, strict_top: bool = False) -> PlantStage:
    """Both stages of one plant. `rule` is one of `limits.COUNTING_RULES` (ValueError for another); `strict_top` counts
    the uppermost nodes from the second on (see `r_stage`)."""
    return PlantStage(v_stage(facts, rule), r_stage(facts, strict_top), facts)


def field_stage(
    plants: Sequence[PlantStage], tallies: Sequence[Tally] = (), stated: Stated | None = None, rule: str = DEFAULT_RULE
) -> FieldStage:
    """The stage of a field on one day (guide 6): from plants, else from tallies, else as stated. Shares are percent.

    `rule` is the counting rule by which the plants were staged: it is only written down here.

    `staged_v` and `staged_r` are the plants that the share and its interval rest on: those of which it is known whether
    they have reached the field's stage. Plants not up are among them, and so are plants said to have no pod where the
    stage is R3 or later. Where R is ``"none"``, the share is that of the plants without an open flower.
    """
    v_places, r_places = [_v_place(plant) for plant in plants], [_r_place(plant) for plant in plants]
    v = _standing(v_places, tallies, stated.v if stated else None, "V")
    r = _standing(r_places, tallies, stated.r if stated else None, "R")
    v_order, r_order = _in_order(v_places, "V"), _in_order(r_places, "R")
    numbers = [v_number(plant.v.stage) for plant in plants if plant.v.stage is not None]
    return FieldStage(
        v=v.stage,
        r=r.stage,
        basis_v=v.basis,
        basis_r=r.basis,
        plants=len(plants),
        staged_v=v.plants,
        staged_r=r.plants,
        reached_v_percent=v.percent,
        reached_r_percent=r.percent,
        interval_v_percent=v.interval,
        interval_r_percent=r.interval,
        least=(_at(v_order, 0), _at(r_order, 0)),
        median=(_at(v_order, len(v_order) // 2), _at(r_order, len(r_order) // 2)),
        most=(_at(v_order, len(v_order) - 1), _at(r_order, len(r_order) - 1)),
        mean_v=round(sum(numbers) / len(numbers), 1) if any(numbers) else None,
        counting_rule=rule,
    )


def few_plants(stage: FieldStage) -> bool:
    """Whether the field rests on so few plants that it is to be said (guide 6.3): `few_plants` of `limits.toml`."""
    return 0 < stage.plants < LIMITS.few_plants


def _v_place(plant: PlantStage) -> _Place:
    if plant.v.stage is None:
        return _Place(_NOT_UP if not_up(plant.facts) else None)
    return _Place(rank(plant.v.stage))


def _r_place(plant: PlantStage) -> _Place:
    if plant.r.stage is None:
        below = below_r(plant.facts)
        return _Place(None, None if below is None else rank(below))
    return _Place(rank(plant.r.stage))


def _standing(places: list[_Place], tallies: Sequence[Tally], stated: Stage | None, letter: str) -> _Standing:
    computed = _by_plants(places, letter)
    if computed.stage is not None:
        return computed
    if not any(place.rank is not None and place.rank > _NOT_UP for place in places):  # no plant is staged
        tallied = tallied_stage(tallies, letter)
        if tallied.stage is not None:
            return _Standing(tallied.stage, "tallies", percent=tallied.percent)
        if tallied.missed is not None and _reaches(stated, tallied.missed):
            return computed
    whole = _whole(stated, letter)
    if whole is None or _denied(places, rank(whole)):
        return computed
    return _Standing(whole, "stated")


def _by_plants(places: list[_Place], letter: str) -> _Standing:
    """The highest stage that half of the plants have reached; each stage counts only the plants that tell of it."""
    staged = [place.rank for place in places if place.rank is not None]
    for place in sorted({rank_ for rank_ in staged if rank_ > (0 if letter == "R" else _NOT_UP)}, reverse=True):
        reached, known = _tell(places, place)
        if 100 * reached >= LIMITS.field_percent * known:
            return _Standing(code_at(letter, place), "plants", known, _percent(reached, known), wilson(reached, known))
    told = sum(1 for place in places if place.rank is not None or place.below is not None)
    without = staged.count(0)
    if letter == "R" and without:  # no stage has half of them, so more than half have no open flower
        known = len(staged)
        return _Standing(NONE, "plants", known, _percent(without, known), wilson(without, known))
    return _Standing(plants=told)


def _tell(places: list[_Place], stage: int) -> tuple[int, int]:
    """How many plants have reached the rank `stage`, of how many that tell whether they have."""
    reached = sum(1 for place in places if place.rank is not None and place.rank >= stage)
    short = sum(
        1
        for place in places
        if (place.rank is not None and place.rank < stage) or (place.below is not None and place.below <= stage)
    )
    return reached, reached + short


def _denied(places: list[_Place], stage: int) -> bool:
    """Whether more than half of the plants that tell are said not to have reached the rank `stage`."""
    reached, known = _tell(places, stage)
    return known > 0 and 100 * reached < LIMITS.field_percent * known


def _whole(stated: Stage | None, letter: str) -> str | None:
    """The whole stage of a field statement; of a range, none."""
    if stated is None or is_range(stated):
        return None
    whole = whole_stage(said(stated))
    return whole if whole is not None and whole[0] == letter else None


def _reaches(stated: Stage | None, missed: str) -> bool:
    """Whether a statement names a stage that less than half of the plants have reached."""
    whole = _whole(stated, missed[0])
    return whole is not None and rank(whole) >= rank(missed)


def _in_order(places: list[_Place], letter: str) -> list[str | None]:
    """The plants' stages, least advanced first. A plant not up comes first, and has no stage."""
    ranks = sorted(place.rank for place in places if place.rank is not None)
    return [None if rank_ == _NOT_UP else code_at(letter, rank_) for rank_ in ranks]


def _at(order: list[str | None], index: int) -> str | None:
    """The stage at a place of the order. With an even number of plants the median is the one that half have reached."""
    return order[index] if order else None


def _percent(part: int, whole: int) -> float:
    return round(100 * part / whole, 1)
