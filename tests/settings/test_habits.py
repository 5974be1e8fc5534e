"""A habit that is known is not asked, and gives what its answer would have given (guide 4.6, 4.8, 7.1, 7.2)."""

from __future__ import annotations

import pytest

from notesparse.flow import read
from notesparse.options import Options

CASES = [
    ("p1 five trifs, top one still rolled", "rolled_tip", "counted", {"trifoliates": 4}),
    ("p1 five trifs, top one still rolled", "rolled_tip", "not-counted", {"trifoliates": 5}),
    ("p1 10 trifs, pods 6", "bare_length", "mm", {"pod_mm": 6.0}),
    ("p1 10 trifs, pods 6", "bare_length", "16ths", {"pod_mm": 9.525}),
    ("p1 10 trifs 12 nodes\np2 9 trifs 11 nodes", "node_start", "cotyledon", {"trifoliates": 10, "nodes": 12}),
]


@pytest.mark.parametrize(("text", "name", "value", "facts"), CASES)
def test_a_habit_answers_its_question(text: str, name: str, value: str, facts: dict[str, object]) -> None:
    assert [q.habit for q in read(text).questions if q.habit == name], "it is asked where the habit is not known"
    known = read(text, options=Options(**{name: value}))  # type: ignore[arg-type]
    assert not [q for q in known.questions if q.habit == name]
    plant = known.visits[0].plants[0]
    assert {key: getattr(plant.facts, key) for key in facts} == facts


@pytest.mark.parametrize(("text", "name", "value", "facts"), CASES)
def test_the_habit_gives_what_the_answer_gives(text: str, name: str, value: str, facts: dict[str, object]) -> None:
    question = next(q for q in read(text).questions if q.habit == name)
    at = question.habits.index(value)
    answered = read(text, answers=[question.chosen(at)])
    known = read(text, options=Options(**{name: value}))  # type: ignore[arg-type]
    assert [p.facts for p in answered.visits[0].plants] == [p.facts for p in known.visits[0].plants]
