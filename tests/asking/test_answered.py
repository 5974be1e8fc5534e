"""The law of answers: what the record is after an answer is exactly what the choice said that it would be.

Tried on every question of every golden note. The golden notes' agreed readings serve as the person who saw the plants.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from notesparse import read
from notesparse.asking.given import values_of
from notesparse.outcome import Answer, Choice, Outcome, Question
from tests.golden.judge import Judge

FOLDER = Path(__file__).resolve().parents[1] / "golden"
GOLDS = sorted(FOLDER.glob("*.gold.json"))
NOTES = [path.name.removesuffix(".gold.json") for path in GOLDS]


@cache
def text_of(name: str) -> str:
    return (FOLDER / f"{name}.txt").read_bytes().decode("utf-8")


def outcome_of(name: str, answers: tuple[Answer, ...] = ()) -> Outcome:
    return read(text_of(name), date=name[:10], answers=answers)


ASKED = [(name, q.id) for name in NOTES for q in outcome_of(name).questions]


def stood(outcome: Outcome, question: Question, choice: Choice) -> dict[str, Any]:
    """What the record holds of all that a choice speaks of, by the keys of `makes`."""
    visit = outcome.visits[question.visit]
    found: dict[str, Any] = {"field_v": visit.field_stage.v, "field_r": visit.field_stage.r}
    label = choice.makes.get("plant", question.plant)
    plant = next((p for p in visit.plants if (p.label, p.stop) == (label, question.stop)), None)
    if plant is not None:
        found |= {"v_stage": plant.v.stage, "r_stage": plant.r.stage, "plant": plant.label}
        found |= {key: getattr(plant.facts, key) for key in choice.makes if hasattr(plant.facts, key)}
    elif question.plant is None:
        found |= {key: getattr(visit, key) for key in choice.makes if hasattr(visit, key)}
    return {key: value for key, value in found.items() if key in choice.makes}


@pytest.mark.parametrize(("name", "number"), ASKED)
def test_the_record_is_what_the_choice_made(name: str, number: str) -> None:
    question = next(q for q in outcome_of(name).questions if q.id == number)
    for at, choice in enumerate(question.choices):
        after = outcome_of(name, (question.chosen(at),))
        assert after.unapplied == ()
        same = [
            q for q in after.questions if (q.span, q.rule, q.plant) == (question.span, question.rule, question.plant)
        ]
        assert [q.answer for q in same if q.answer is not None] in ([at], [])
        held = stood(after, question, choice)
        assert {"field_v", "field_r"} <= set(held)
        promised = {key: value for key, value in choice.makes.items() if key in held}
        assert values_of(held) == values_of(promised), choice.reading


@pytest.mark.parametrize("name", [name for name in NOTES if outcome_of(name).questions])
def test_an_answer_changes_no_accounting(name: str) -> None:
    before = outcome_of(name)
    after = outcome_of(name, tuple(q.chosen(len(q.choices) - 1) for q in before.questions))
    assert (after.evidence, after.filler, after.unread) == (before.evidence, before.filler, before.unread)


@pytest.mark.parametrize("name", [name for name in NOTES if outcome_of(name).questions])
def test_all_answered_by_the_agreed_values(name: str) -> None:
    """No question is left open, no fact is wrong, and no stage."""
    gold = json.loads((FOLDER / f"{name}.gold.json").read_text(encoding="utf-8"))
    answers: tuple[Answer, ...] = ()
    for _ in range(20):
        outcome = outcome_of(name, answers)
        still = [q for q in outcome.questions if q.answer is None]
        if not still:
            break
        answers = (*answers, best(name, gold, answers, still[0]))
    assert not still
    judge = Judge(text_of(name), gold, json.loads(outcome.to_json()))
    first = Judge(text_of(name), gold, json.loads(outcome_of(name).to_json()))
    assert judge.count["silent"] <= first.count["silent"]
    assert judge.count["stage silent"] == 0
    assert judge.count["right"] >= first.count["right"]


def best(name: str, gold: Any, answers: tuple[Answer, ...], question: Question) -> Answer:
    """The choice after which most is as was agreed; of equals the one that is recorded meanwhile."""

    def worth(at: int) -> tuple[int, int, bool]:
        record = json.loads(outcome_of(name, (*answers, question.chosen(at))).to_json())
        count = Judge(text_of(name), gold, record).count
        return count["right"] + count["stage right"], -count["silent"] - count["stage silent"], at == question.taken

    return question.chosen(max(range(len(question.choices)), key=worth))


LENGTHS = "Willow Draw\np1 15tf pods 1/2 in 3rd node down\np2 15tf three quarter inch pods top four\n"


def test_another_value_than_the_choices() -> None:
    question = read(LENGTHS, date="2026-08-05").questions[0]
    after = read(LENGTHS, date="2026-08-05", answers=[question.told({"pod_mm": 11.0})])
    plant = after.visits[0].plants[1]
    assert (plant.facts.pod_mm, plant.r.stage, plant.told) == (11.0, "R3", {"pod_mm": "confirmed"})
    assert after.questions[0].answer == "pod_mm 11"


def test_answers_come_one_after_the_other() -> None:
    """The second question is about what is known after the first answer (nine trifoliates are called V8)."""
    text = "plant 1 8 or 9 trifs, V8"
    first = read(text, date="2026-07-06").questions[0]
    after = read(text, date="2026-07-06", answers=[first.chosen(1)])
    second = next(q for q in after.questions if q.answer is None)
    assert second.rule == "7.1"
    done = read(text, date="2026-07-06", answers=[first.chosen(1), second.chosen(1)])
    assert all(q.answer is not None for q in done.questions)
    assert done.visits[0].field_stage.counting_rule == "developed-trifoliates"
    assert done.visits[0].plants[0].v.stage == "V8"


def test_an_answer_to_what_is_not_asked_here_changes_nothing() -> None:
    stray = read(LENGTHS, date="2026-08-05").questions[0].chosen(1)
    clear = "Willow Draw\np1 15tf\n" + " " * 40
    after = read(clear, date="2026-08-05", answers=[stray])
    assert [u.why for u in after.unapplied] == ["this is not asked any more"]
    assert after.visits == read(clear, date="2026-08-05").visits


def test_a_day_behind_a_stage_is_no_share() -> None:
    """`R2 7/10` is seven plants of ten meanwhile; where it was a day, the stage is stated and nothing is left unread."""
    text = "Heron R2 7/10"
    question = read(text, date="2026-07-20").questions[0]
    after = read(text, date="2026-07-20", answers=[question.chosen(1)])
    visit = after.visits[0]
    assert ([x.stated.r for x in visit.stated], visit.tallies, visit.date) == (["R2"], (), "2026-07-10")
    assert not after.unread and after.questions[0].answer is not None


@pytest.mark.parametrize(("figures", "asked"), [("7/18", True), ("7/22", True), ("8/25", False)])
def test_a_day_soon_to_come_may_be_meant_too(figures: str, asked: bool) -> None:
    """A note's own date can be off by a day or two; a day five weeks ahead of it is no day of the visit."""
    text = f"Heron\nR2 {figures}"
    questions = read(text, date="2026-07-20").questions
    assert any(text[q.span.start : q.span.end] == figures for q in questions) is asked
