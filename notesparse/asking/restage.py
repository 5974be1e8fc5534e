"""What a field would be if a plant were read another way, without staging the whole field anew for each question."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from notesparse.facts import FieldStage, PlantFacts, Staged, Stated, Tally
from notesparse.lazy import dataclass
from notesparse.staging.field import PlantStage, field_stage
from notesparse.staging.reproductive import below_r, r_stage
from notesparse.staging.vegetative import not_up, v_stage

_Mark = tuple[str | None, str | None, str | None, bool]  # all that the field's stage takes from a plant

_SEEN = {
    "v": ("trifoliates", "nodes", "top_leaf", "emerged", "unifoliates"),
    "r": (
        *("flowers", "flowers_from_top", "pods", "pods_from_top", "pod_mm", "pods_full_length"),
        *("seeds", "seeds_from_top", "seed_mm", "seed_fill", "mature_pods", "mature_pods_percent"),
    ),
}
"""The facts that each scale rests on, beside what is stated."""


@dataclass(frozen=True, slots=True)
class Plant:
    """The facts of one plant, and the scales (v, r) of which its stated stage stands: so it was answered."""

    facts: PlantFacts
    stands: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Standing:
    """What the stages of one visit are computed from.

    `stands` are the scales of which the stage stated for the field stands, `by_count` those of which its tallies decide
    though plants are described: so it was answered.
    """

    plants: tuple[Plant, ...]
    tallies: tuple[Tally, ...]
    stated: Stated
    stands: frozenset[str] = frozenset()
    by_count: frozenset[str] = frozenset()


class Restaging:
    """The plants of all visits with their stages, and the fields that they make."""

    def __init__(self, visits: Sequence[Standing], rule: str, strict_top: bool) -> None:
        self.visits = list(visits)
        self._rule, self._strict_top = rule, strict_top
        self.stages = [[self.plant(p, None) for p in visit.plants] for visit in visits]
        self._made: dict[tuple[int, str | None, tuple[tuple[_Mark | None, _Mark | None], ...]], FieldStage] = {}

    def plant(self, plant: Plant, rule: str | None) -> tuple[Staged, Staged]:
        """V and R of one plant, by another counting rule if one is named."""
        v = v_stage(_without_seen(plant, "v"), rule or self._rule)
        r = r_stage(_without_seen(plant, "r"), self._strict_top)
        return v, r

    def field(
        self, k: int, new: Mapping[int, Plant | None], rule: str | None = None, added: Sequence[Plant] = ()
    ) -> FieldStage:
        """The field of visit `k` with some of its plants read another way (None: no plant at all), and some more."""
        visit = self.visits[k]
        changed = {i: (p, self.plant(p, rule)) for i, p in new.items() if p is not None}
        more = [(p, self.plant(p, rule)) for p in added]
        moves: list[tuple[_Mark | None, _Mark | None]] = [
            (_mark(visit.plants[i], self.stages[k][i]), None if p is None else _mark(*changed[i]))
            for i, p in new.items()
        ]
        moves += [(None, _mark(*row)) for row in more]
        key = (k, rule, tuple(sorted((move for move in moves if rule or move[0] != move[1]), key=repr)))
        if key not in self._made:
            rows = [
                changed.get(i, (p, self.plant(p, rule) if rule else self.stages[k][i]))
                for i, p in enumerate(visit.plants)
                if i not in new or new[i] is not None
            ]
            self._made[key] = self._field(visit, [*rows, *more], rule)
        return self._made[key]

    def visit(self, standing: Standing, rule: str | None = None) -> tuple[list[tuple[Staged, Staged]], FieldStage]:
        """The plants and the field of a visit that stands otherwise altogether."""
        stages = [self.plant(p, rule) for p in standing.plants]
        return stages, self._field(standing, list(zip(standing.plants, stages, strict=True)), rule)

    def _field(
        self, visit: Standing, rows: Sequence[tuple[Plant, tuple[Staged, Staged]]], rule: str | None
    ) -> FieldStage:
        aside = visit.stands | visit.by_count
        tallies = [t for t in visit.tallies if ("v" if t.what[:1] == "V" else "r") not in visit.stands]
        return field_stage([_seen_by_field(*row, aside) for row in rows], tallies, visit.stated, rule or self._rule)


def _seen_by_field(plant: Plant, staged: tuple[Staged, Staged], aside: frozenset[str]) -> PlantStage:
    """A plant as the field sees it; of the scales in `aside` it tells nothing."""
    v, r = staged
    facts = plant.facts
    for letter in plant.stands | aside:
        facts = without(facts, letter)
    nothing = Staged(None, None)
    return PlantStage(nothing if "v" in aside else v, nothing if "r" in aside else r, facts)


def _without_seen(plant: Plant, letter: str) -> PlantFacts:
    """The facts that the scale `letter` rests on: only what is stated, where that stands."""
    return without(plant.facts, letter) if letter in plant.stands else plant.facts


def without(facts: PlantFacts, letter: str) -> PlantFacts:
    """The facts without what was seen for the scale `letter`; what is stated stays."""
    nothing: dict[str, Any] = dict.fromkeys(_SEEN[letter])
    return replace(facts, **nothing)


def _mark(plant: Plant, staged: tuple[Staged, Staged]) -> _Mark:
    return staged[0].stage, staged[1].stage, below_r(plant.facts), not_up(plant.facts)
