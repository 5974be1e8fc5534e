"""What holds of the reading of any note at all."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema

from notesparse import Outcome, read

NOTE_DATE = "2026-07-14"
SCHEMA = json.loads((Path(__file__).parents[2] / "notesparse/record/record.schema.json").read_text(encoding="utf-8"))
VALID = jsonschema.Draft202012Validator(SCHEMA)


def outcome_of(text: str) -> Outcome:
    return read(text, date=NOTE_DATE)


def record_of(text: str) -> dict[str, Any]:
    return json.loads(outcome_of(text).to_json())


def _spans(part: Any) -> Iterator[tuple[list[int], str | None]]:
    """Every span of a record, with its quote where it has one."""
    if isinstance(part, dict):
        for key, value in part.items():
            if key == "span" and isinstance(value, list):
                yield value, part.get("quote")
            elif key == "spans":
                yield from ((span, None) for span in value.values())
            else:
                yield from _spans(value)
    elif isinstance(part, list):
        for value in part:
            yield from _spans(value)


def check(text: str) -> dict[str, Any]:
    """All laws of one note; the record, for more."""
    return check_outcome(outcome_of(text), text)


def check_outcome(outcome: Outcome, text: str) -> dict[str, Any]:
    """All laws of what a note gave, whatever else than its text went into it; the record, for more."""
    line = outcome.to_json()
    assert "\n" not in line
    record = json.loads(line)
    assert [e.message for e in VALID.iter_errors(record)] == []

    for (start, end), quote in _spans(record):
        assert 0 <= start < end <= len(text), (start, end)
        assert quote is None or text[start:end] == quote
    for repair in outcome.repairs:
        assert repair.span.of(text) == repair.words

    seen = [0] * len(text)
    unread = [u.span for u in outcome.unread]
    for span in (*outcome.evidence, *outcome.filler, *unread):
        for i in range(*span):
            seen[i] += 1
    assert set(seen) <= {1}, "a character is accounted for twice or not at all"

    for number, here in enumerate(outcome.visits):
        asked = [q for q in outcome.questions if q.visit == number]
        for plant in here.plants:
            doubted = any(q.plant == plant.label or plant.label in re.findall(r"\w+", q.ask) for q in asked)
            assert doubted or not (plant.v.clash or plant.r.clash), f"plant {plant.label} contradicts itself unasked"

    ids = [q["id"] for q in record["questions"]]
    assert ids == [f"q{i}" for i in range(1, len(ids) + 1)]
    for q in record["questions"]:
        assert len(q["choices"]) >= 1
        assert 0 <= q["taken"] < len(q["choices"])
        assert 0 <= q["visit"] < max(1, len(record["visits"]))  # doubtful words may be all that there is
    for visit in record["visits"]:
        for plant in visit["plants"]:
            assert set(plant["spans"]) <= set(plant)
    return record
