"""How sure a recorded value is: read, assumed, derived, open while a question waits, or told by a person."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from notesparse.outcome import Outcome, PlantRecord, Question
from notesparse.span import Span


def status_of(outcome: Outcome, visit: int, plant: PlantRecord | None, key: str, span: Span | None) -> str:
    """`read`, `assumed`, `open`, `derived`, `confirmed` (answered) or `corrected` (set by hand) for the value `key` of a
    plant, or of the visit where `plant` is None.

    An assumption names its words and no key, so every value that rests on those words counts as assumed.
    """
    told = plant.told if plant is not None else outcome.visits[visit].told
    if key in told:
        return told[key]
    if is_open(outcome, visit, plant, key, span):
        return "open"
    if plant is not None and key in plant.derived:
        return "derived"
    if span is not None and any(span.overlaps(assumption.span) for assumption in outcome.assumptions):
        return "assumed"
    return "read"


def is_open(outcome: Outcome, visit: int, plant: PlantRecord | None, key: str, span: Span | None = None) -> bool:
    """Whether an unanswered question turns on this value: by what its answers would change, or by its words."""
    return any(
        _turns_on(question, visit, plant, key) or (span is not None and span.overlaps(question.span))
        for question in outcome.questions
        if question.visit == visit and question.answer is None
    )


def _turns_on(question: Question, visit: int, plant: PlantRecord | None, key: str) -> bool:
    label, stop = (plant.label, plant.stop) if plant else (None, None)
    values: set[str] = set()
    for choice in question.choices:
        if question.plant == label and key in choice.makes:
            values.add(repr(choice.makes[key]))
        elif plant is not None and "plants" in choice.makes:
            values.add(repr(_of_several(choice.makes, label, stop).get(key)))
        for edit in choice.edits:
            same_plant = edit.plant == label and edit.stop in (None, stop)
            if edit.key == key and edit.visit == visit and same_plant:
                return True
    return len(values) > 1


def open_keys(record: Mapping[str, Any], visit: int, plant: Mapping[str, Any]) -> frozenset[str]:
    """The values of a plant of the JSON record (its stages among them) that an unanswered question may change."""
    out: set[str] = set()
    for q in record["questions"]:
        if q["answer"] is None and q["visit"] == visit and q["plant"] is None:
            told = [_of_several(choice["makes"], plant["plant"], plant["stop"]) for choice in q["choices"]]
            keys = {key for one in told for key in one}
            out |= {key for key in keys if len({repr(one.get(key)) for one in told}) > 1}
        if q["answer"] is None and (q["visit"], q["plant"]) == (visit, plant["plant"]):
            if q["stop"] in (None, plant["stop"]):
                makes = [choice["makes"] for choice in q["choices"]]
                keys = {key for one in makes for key in one if key in plant}
                out |= {key for key in keys if len({repr(one.get(key)) for one in makes}) > 1}
    return frozenset(out)


def _of_several(makes: Mapping[str, Any], label: str | None, stop: str | None) -> Mapping[str, Any]:
    """What a choice makes of one plant, where it makes something of several (`plants`); nothing where that is none."""
    several: Mapping[str, Any] = makes.get("plants") or {}
    return several.get(f"{stop} / {label}" if stop else str(label)) or {}
