"""How sure a recorded value is: read, assumed, derived, open while a question waits, or told by a person."""

from __future__ import annotations

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
        for edit in choice.edits:
            same_plant = edit.plant == label and edit.stop in (None, stop)
            if edit.key == key and edit.visit == visit and same_plant:
                return True
    return len(values) > 1
