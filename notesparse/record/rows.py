"""The tidy rows of an outcome: one observed value a row, with its words and how sure it is."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator
from typing import Any

from notesparse.facts import PLANT_KEYS
from notesparse.outcome import Outcome, PlantRecord, Visit
from notesparse.record.columns import COLUMNS, UNIT_OF, ucum
from notesparse.record.lines import percent_of, plain
from notesparse.record.status import is_open, status_of
from notesparse.span import Span

NAMES: tuple[str, ...] = tuple(column.name for column in COLUMNS)

Row = dict[str, str | int | float | None]

_HEAD = {
    "planted": "planted",
    "emerged": "emerged_on",  # a plant has its own `emerged`
    "variety": "variety",
    "maturity_group": "maturity_group",
    "row_spacing_in": "row_spacing_in",
}


def to_rows(outcome: Outcome) -> Iterator[Row]:
    """The rows of one note, visit by visit, plant by plant; every row has all the columns."""
    for at in range(len(outcome.visits)):
        yield from visit_rows(outcome, at)


def visit_rows(outcome: Outcome, at: int) -> Iterator[Row]:
    """The rows of one visit, `at` counting from 0."""
    visit = outcome.visits[at]
    yield from _head(outcome, at, visit)
    for plant in visit.plants:
        yield from _plant(outcome, at, visit, plant)
    yield from _field(outcome, at, visit)


def to_csv(outcomes: Iterable[Outcome], header: bool = True) -> str:
    """The rows as CSV text: comma, quotes where needed, lines ended by LF."""
    out = io.StringIO()
    writer = csv.DictWriter(out, NAMES, lineterminator="\n")
    if header:
        writer.writeheader()
    for outcome in outcomes:
        writer.writerows(to_rows(outcome))
    return out.getvalue()


def _head(outcome: Outcome, at: int, visit: Visit) -> Iterator[Row]:
    for key, variable in _HEAD.items():
        value = getattr(visit, key)
        if value is not None:
            span = visit.spans.get(key)
            yield _row(outcome, visit, None, variable, value, span, status_of(outcome, at, None, key, span))


def _plant(outcome: Outcome, at: int, visit: Visit, plant: PlantRecord) -> Iterator[Row]:
    for key in PLANT_KEYS:
        value = getattr(plant.facts, key)
        if value is None:
            continue
        span = plant.spans.get(key)
        status = status_of(outcome, at, plant, key, span)
        yield _row(outcome, visit, plant, key, value, span, status)
    for key, staged in (("v_stage", plant.v), ("r_stage", plant.r)):
        if staged.stage is not None:
            waits = is_open(outcome, at, plant, key)
            yield _row(outcome, visit, plant, key, staged.stage, None, "open" if waits else "derived")


def _field(outcome: Outcome, at: int, visit: Visit) -> Iterator[Row]:
    for record in visit.tallies:
        value = percent_of(record.tally)
        if value is None and record.tally.more_than_half is not None:
            value_text: Any = "more than half" if record.tally.more_than_half else "less than half"
        else:
            value_text = value
        name = f"tally:{record.tally.what}"
        status = status_of(outcome, at, None, "tally", record.span)
        yield _row(outcome, visit, None, name, value_text, record.span, status, "%" if value is not None else "")
    for statement in visit.stated:
        for key, stage in (("stated_v", statement.stated.v), ("stated_r", statement.stated.r)):
            if stage is not None:
                status = status_of(outcome, at, None, key, statement.span)
                row = _row(outcome, visit, None, key, stage, statement.span, status)
                row["stop"] = statement.where
                yield row
    for finding in visit.findings:
        name = f"{finding.kind}:{finding.name}" if finding.name else finding.kind
        status = status_of(outcome, at, None, "finding", finding.span)
        row = _row(outcome, visit, None, name, finding.value, finding.span, status, ucum(finding.unit))
        row["stop"] = finding.where
        yield row
    for key, found in (("field_v_stage", visit.field_stage.v), ("field_r_stage", visit.field_stage.r)):
        if found is not None:
            waits = any(q.visit == at and q.answer is None and q.moves_field for q in outcome.questions)
            yield _row(outcome, visit, None, key, found, None, "open" if waits else "derived")


def _row(
    outcome: Outcome,
    visit: Visit,
    plant: PlantRecord | None,
    variable: str,
    value: Any,
    span: Span | None,
    status: str,
    unit: str | None = None,
) -> Row:
    low, high = _ends(variable, value)
    return {
        "source": outcome.note.source,
        "sha256": outcome.note.sha256,
        "field": visit.field,
        "date": visit.date,
        "stop": plant.stop if plant else None,
        "plant": plant.label if plant else None,
        "variable": variable,
        "value": None if low is not None else _text(value),
        "value_low": low,
        "value_high": high,
        "unit": UNIT_OF.get(variable, "") if unit is None else unit,
        "status": status,
        "start": span[0] if span else None,
        "end": span[1] if span else None,
        "words": outcome.note.text[span[0] : span[1]] if span else None,
    }


def _ends(variable: str, value: Any) -> tuple[float | None, float | None]:
    """Low and high of a measured range; places on the stem and stages are no ranges."""
    if variable.endswith("_from_top") or not isinstance(value, (tuple, list)) or len(value) != 2:
        return None, None
    if not all(isinstance(end, (int, float)) for end in value):
        return None, None
    low, high = sorted(plain(value))
    return low, high


def _text(value: Any) -> str | None:
    if value is None or isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (tuple, list)):
        if not value:
            return "none"
        joint = "-" if isinstance(value[0], str) else " "  # a stated range of stages, or places on the stem
        return joint.join(str(plain(item)) for item in value)
    return str(plain(value))
