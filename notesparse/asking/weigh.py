"""Which open choices are worth a question: each choice is staged, and what changes nothing is dropped (guide 2.3,
2.4)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from notesparse.asking.restage import Restaging
from notesparse.facts import PLANT_KEYS, PlantFacts
from notesparse.outcome import Choice, Edit
from notesparse.span import Span

PLACE_KEYS = {"flowers_from_top", "pods_from_top", "seeds_from_top"}


@dataclass(frozen=True, slots=True)
class Open:
    """An open choice as the drafts give it."""

    rule: str
    span: Span
    text: str
    choices: tuple[tuple[str, Mapping[str, Any]], ...]
    visit: int
    plant: int | None  # index among the visit's plants
    label: str | None
    stop: str | None
    taken: int
    always: bool
    key: str | None


@dataclass(frozen=True, slots=True)
class Weighed:
    open: Open
    choices: tuple[Choice, ...]
    moves_field: bool
    moves_stage: bool


def edited(facts: PlantFacts, changes: Mapping[str, Any]) -> PlantFacts:
    """The facts after an answer; a count of trifoliates or nodes moves the other, if that was only derived."""
    known = {k: v for k, v in changes.items() if k in PLANT_KEYS}
    for key, value in list(known.items()):
        if key.endswith("_from_top") and isinstance(value, list):
            known[key] = tuple(value)
    inches = facts.inch_lengths
    for key in ("pod_mm", "seed_mm"):
        if key in known and known[key] != getattr(facts, key) and known[key] == 5.0:
            inches = inches - {key}
    return replace(facts, **known, inch_lengths=inches)


def weigh(
    opens: Sequence[Open],
    staged: Restaging,
    derived: Sequence[Sequence[tuple[str, ...]]],
) -> list[Weighed]:
    """The questions worth asking, those that can change a field's stage first."""
    out: list[Weighed] = []
    for o in opens:
        made: list[Choice] = []
        stages: set[tuple[Any, ...]] = set()
        fields: set[tuple[Any, ...]] = set()
        values: set[str] = set()
        for reading, changes in o.choices:
            makes: dict[str, Any] = {}
            edits: list[Edit] = []
            rule = changes.get("counting_rule")
            new: dict[int, PlantFacts] = {}
            if o.plant is not None and o.plant < len(staged.facts[o.visit]):
                base = staged.facts[o.visit][o.plant]
                after = _with_derived(base, changes, derived[o.visit][o.plant])
                v, r = staged.plant(after, rule)
                new[o.plant] = after
                for key, value in changes.items():
                    makes[key] = list(value) if isinstance(value, tuple) else value
                    edits.append(Edit(o.visit, o.label, key, makes[key], o.stop))
                makes["v_stage"], makes["r_stage"] = v.stage, r.stage
                stages.add((v.stage, r.stage))
            else:
                for key, value in changes.items():
                    makes[key] = list(value) if isinstance(value, tuple) else value
                    edits.append(Edit(o.visit, None, key, makes[key]))
            field = staged.field(o.visit, new, rule)
            fields.add((field.v, field.r))
            makes["field_v"], makes["field_r"] = field.v, field.r
            values.add(repr([(k, v) for k, v in sorted(changes.items()) if k not in PLACE_KEYS]))
            made.append(Choice(reading, makes, tuple(edits)))
        moves_stage = len(stages) > 1
        if not o.always and len(stages) <= 1 and len(fields) <= 1 and len(values) <= 1:
            continue
        out.append(Weighed(o, tuple(made), len(fields) > 1, moves_stage))
    out.sort(key=lambda w: (not w.moves_field, not w.moves_stage, w.open.span))
    return out


def _with_derived(facts: PlantFacts, changes: Mapping[str, Any], derived: tuple[str, ...]) -> PlantFacts:
    after = edited(facts, changes)
    if "trifoliates" in changes and "nodes" in derived:
        t = changes["trifoliates"]
        after = replace(after, nodes=None if t is None else t + 1)
    elif "nodes" in changes and "trifoliates" in derived:
        n = changes["nodes"]
        after = replace(after, trifoliates=None if n is None else n - 1)
    return after
