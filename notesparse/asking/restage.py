"""What a field would be if a plant were read another way, without staging the whole field anew for each question."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from notesparse.facts import FieldStage, PlantFacts, Staged, Stated, Tally
from notesparse.staging.field import PlantStage, field_stage
from notesparse.staging.reproductive import below_r, r_stage
from notesparse.staging.vegetative import not_up, v_stage

_Standing = tuple[str | None, str | None, str | None, bool]  # all that the field's stage takes from a plant


class Restaging:
    """The plants of all visits with their stages, and the fields that they make."""

    def __init__(
        self,
        facts: Sequence[Sequence[PlantFacts]],
        tallies: Sequence[Sequence[Tally]],
        stated: Sequence[Stated],
        rule: str,
        strict_top: bool,
    ) -> None:
        self.facts = facts
        self._tallies, self._stated, self._rule, self._strict_top = tallies, stated, rule, strict_top
        self.stages = [[self.plant(f, None) for f in row] for row in facts]
        self._made: dict[tuple[int, str | None, tuple[tuple[_Standing, _Standing], ...]], FieldStage] = {}

    def plant(self, facts: PlantFacts, rule: str | None) -> tuple[Staged, Staged]:
        """V and R of one plant, by another counting rule if one is named."""
        return v_stage(facts, rule or self._rule), r_stage(facts, self._strict_top)

    def field(self, k: int, new: Mapping[int, PlantFacts], rule: str | None = None) -> FieldStage:
        """The field of visit `k` with some of its plants read another way."""
        changed = {i: (f, self.plant(f, rule)) for i, f in new.items()}
        moves = tuple(
            sorted(
                (
                    (_standing(self.facts[k][i], self.stages[k][i]), _standing(f, staged))
                    for i, (f, staged) in changed.items()
                ),
                key=repr,
            )
        )
        key = (k, rule, tuple(move for move in moves if rule or move[0] != move[1]))
        if key not in self._made:
            rows = [
                changed.get(i, (f, self.plant(f, rule) if rule else self.stages[k][i]))
                for i, f in enumerate(self.facts[k])
            ]
            self._made[key] = field_stage(
                [PlantStage(v, r, f) for f, (v, r) in rows], self._tallies[k], self._stated[k], rule or self._rule
            )
        return self._made[key]


def _standing(facts: PlantFacts, staged: tuple[Staged, Staged]) -> _Standing:
    return staged[0].stage, staged[1].stage, below_r(facts), not_up(facts)
