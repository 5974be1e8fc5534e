"""Which open choices are worth a question: each choice is staged, and what changes nothing is dropped (guide 2.3,
2.4)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from notesparse.asking.restage import Plant, Restaging, Standing
from notesparse.facts import FieldStage, Staged
from notesparse.lazy import dataclass
from notesparse.outcome import INNER_KEYS, Choice, Edit
from notesparse.span import Span

PLACE_KEYS = {"flowers_from_top", "pods_from_top", "seeds_from_top"}


@dataclass(frozen=True, slots=True)
class After:
    """What stands after one choice: plants that are read another way (None: it is no plant of its own), plants more,
    or the visit's tallies and statements another way. `plant` is the asked plant, where it is another one then."""

    plants: Mapping[int, Plant | None]
    added: tuple[Plant, ...] = ()
    visit: Standing | None = None
    plant: Plant | None = None


@dataclass(frozen=True, slots=True)
class Open:
    """An open choice as the drafts give it: for each choice its words, what it changes, and what stands after it."""

    rule: str
    span: Span
    text: str
    choices: tuple[tuple[str, Mapping[str, Any], After], ...]
    visit: int
    plant: int | None  # index among the visit's plants
    label: str | None
    stop: str | None
    taken: int
    always: bool
    key: str | None
    habit: str = ""
    habits: tuple[str, ...] = ()
    answer: int | str | None = None


@dataclass(frozen=True, slots=True)
class Weighed:
    open: Open
    choices: tuple[Choice, ...]
    moves_field: bool
    moves_stage: bool


def weigh(opens: Sequence[Open], staged: Restaging) -> list[Weighed]:
    """The questions worth asking: the open ones first, of these the ones that can change a field's stage first."""
    out: list[Weighed] = []
    for o in opens:
        made: list[Choice] = []
        stages: set[tuple[Any, ...]] = set()
        fields: set[tuple[Any, ...]] = set()
        values: set[str] = set()
        for reading, changes, after in o.choices:
            plant, field = _staged(staged, o, changes.get("counting_rule"), after)
            makes = {key: plain(value) for key, value in changes.items() if key not in INNER_KEYS}
            edits = tuple(Edit(o.visit, o.label, key, plain(value), o.stop) for key, value in changes.items())
            if plant is not None:
                makes["v_stage"], makes["r_stage"] = plant[0].stage, plant[1].stage
                stages.add((plant[0].stage, plant[1].stage))
            makes["field_v"], makes["field_r"] = field.v, field.r
            fields.add((field.v, field.r))
            values.add(repr([(k, v) for k, v in sorted(changes.items()) if k not in PLACE_KEYS]))
            made.append(Choice(reading, makes, edits))
        moves_stage = len(stages) > 1
        if not o.always and o.answer is None and len(stages) <= 1 and len(fields) <= 1 and len(values) <= 1:
            continue
        out.append(Weighed(o, tuple(made), len(fields) > 1, moves_stage))
    out.sort(key=lambda w: (w.open.answer is not None, not w.moves_field, not w.moves_stage, w.open.span))
    return out


def _staged(
    staged: Restaging, o: Open, rule: str | None, after: After
) -> tuple[tuple[Staged, Staged] | None, FieldStage]:
    """The asked plant, if there is one, and the field, as they would be."""
    if after.visit is not None:
        return None, staged.visit(after.visit, rule)[1]
    field = staged.field(o.visit, after.plants, rule, after.added)
    plant = after.plant
    if plant is None and o.plant is not None:
        plant = after.plants.get(o.plant, staged.visits[o.visit].plants[o.plant])
    return (staged.plant(plant, rule) if plant is not None else None), field


def plain(value: Any) -> Any:
    """A value as a record holds it: lists, no tuples."""
    return [plain(item) for item in value] if isinstance(value, (tuple, list)) else value
