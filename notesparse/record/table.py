"""The plants of many notes as one data frame."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from notesparse.facts import PLANT_KEYS
from notesparse.outcome import Outcome
from notesparse.record.lines import plain

FRAME_COLUMNS: tuple[str, ...] = (
    "source",
    "field",
    "date",
    "stop",
    "plant",
    *PLANT_KEYS,
    "v_stage",
    "r_stage",
    "v_basis",
    "r_basis",
    "questions",
)


def to_frame(outcomes: Iterable[Outcome]) -> Any:
    """A pandas data frame with one plant a row and the record's keys as columns; lengths in mm, percents 0 to 100.

    `questions` is the number of open questions about the plant. The columns are there for no plants at all too.
    """
    import pandas  # slow to import, so only where a frame is wanted

    return pandas.DataFrame([row for outcome in outcomes for row in _rows(outcome)], columns=list(FRAME_COLUMNS))


def _rows(outcome: Outcome) -> Iterable[dict[str, Any]]:
    for at, visit in enumerate(outcome.visits):
        for plant in visit.plants:
            yield {
                "source": outcome.note.source,
                "field": visit.field,
                "date": visit.date,
                "stop": plant.stop,
                "plant": plant.label,
                **{key: plain(getattr(plant.facts, key)) for key in PLANT_KEYS},
                "v_stage": plant.v.stage,
                "r_stage": plant.r.stage,
                "v_basis": plant.v.basis,
                "r_basis": plant.r.basis,
                "questions": sum(
                    q.visit == at and q.plant == plant.label and q.answer is None for q in outcome.questions
                ),
            }
