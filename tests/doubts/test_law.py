"""The law of answers for doubtful words: the record after an answer is the one that its choice promised, and every
character is still accounted for once. Tried on notes of the corpus, with words of numbers and stages in doubt."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from notesparse import Doubt, Outcome, Span, read
from notesparse.outcome import Answer
from tests.properties.laws import check_outcome

FOLDER = Path(__file__).resolve().parents[1] / "golden"
NAMES = sorted(path.name.removesuffix(".gold.json") for path in FOLDER.glob("*.gold.json"))
OTHERS = "one two three four five six seven eight nine ten eleven twelve thirteen fifteen fifty".split()
OTHERS += [
    "3",
    "8",
    "13",
    "30",
    "R2",
    "R5",
    "V6",
    "",
    "no",
    "plant",
    "pods",
    "three quarter",
    "not flowering",
    "wait no",
]
DOUBTFUL = re.compile(
    r"\b(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|no|plant|pods?|\d+|[rRvV]\d)\b"
)


@cache
def text_of(name: str) -> str:
    return (FOLDER / f"{name}.txt").read_bytes().decode("utf-8").removeprefix("\ufeff")


def outcome_of(name: str, doubts: Sequence[Doubt], answers: Sequence[Answer] = ()) -> Outcome:
    return read(text_of(name), date=name[:10], doubts=doubts, answers=answers)


@st.composite
def doubted(draw: st.DrawFn) -> tuple[str, list[Doubt]]:
    name = draw(st.sampled_from(NAMES))
    places = [Span(*found.span()) for found in DOUBTFUL.finditer(text_of(name))]
    chosen = draw(st.lists(st.sampled_from(places), min_size=1, max_size=3)) if places else []
    doubts = []
    for place in chosen:
        others = tuple(draw(st.lists(st.sampled_from(OTHERS), max_size=2)))
        wider = draw(st.integers(0, 4))
        end = min(len(text_of(name)), place.end + wider)
        how = draw(st.sampled_from(["heard", "typed"]))
        doubts.append(Doubt(Span(place.start, end), others, "0:12.4 of walk.wav", how))
    return name, doubts


def promised_and_held(outcome: Outcome, visit: int, plant: str | None, stop: str | None, makes: Any) -> tuple[Any, Any]:
    """What a choice promised, and what the record holds of it; read from the JSON line, as other programs do."""
    record = json.loads(outcome.to_json())
    here = record["visits"][visit] if visit < len(record["visits"]) else None
    promised = json.loads(json.dumps(makes))
    held: dict[str, Any] = {}
    for key, value in promised.items():
        if key in ("field_v", "field_r"):
            held[key] = here["field_stage"][key[-1]] if here else None
        elif key == "plants":
            named: dict[str, Any] = {}
            for p in here["plants"] if here else []:
                called = f"{p['stop']} / {p['plant']}" if p["stop"] else p["plant"]
                while called in named:
                    called = f"{called} (2)" if "(" not in called else f"{called[:-3]}({int(called[-2]) + 1})"
                named[called] = p
            held[key] = {
                name: None if name not in named else {k: named[name][k] for k in facts or ()}
                for name, facts in value.items()
            }
        elif key in ("tallies", "findings", "stated_parts"):
            found = here[key] if here else []
            told = ("what", "count", "of") if key == "tallies" else tuple(value[0]) if value else ()
            held[key] = [one for one in value if any(all(one[k] == other[k] for k in told) for other in found)]
        elif key == "visits":
            names = [(v["field"] or "field not named", v["date"]) for v in record["visits"]]
            held[key] = [" ".join(filter(None, name)) for name in names]
            promised[key] = [line.rsplit(": ", 1)[0] for line in value]
        elif key == "then_asked":
            held[key] = sorted(q["ask"] for q in record["questions"] if q["ask"] in value)
            promised[key] = sorted(value)
        elif plant is not None and here is not None:
            same = [p for p in here["plants"] if (p["plant"], p["stop"]) == (plant, stop)]
            held[key] = same[0][key] if key in same[0] else here.get(key)
        elif key in ("stated_v", "stated_r"):
            held[key] = (here["stated"] or {}).get(key[-1]) if here else None
        else:
            held[key] = here[key] if here else None
    return promised, held


@pytest.mark.law
@given(doubted())
@settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow])
def test_the_record_after_an_answer_is_what_its_choice_promised(given_: tuple[str, list[Doubt]]) -> None:
    name, doubts = given_
    before = outcome_of(name, doubts)
    check_outcome(before, text_of(name))
    plain = outcome_of(name, ())
    assert (before.visits, before.evidence, before.unread) == (plain.visits, plain.evidence, plain.unread)
    asked = [q for q in before.questions if q.rule in ("heard", "typed")]
    assert [q for q in plain.questions if q.answer is None and all(q.ask != b.ask for b in before.questions)] == []
    for question in asked:
        assert len(question.choices) > 1
        assert len({repr(dict(c.makes)) for c in question.choices}) == len(question.choices)
        for at, choice in enumerate(question.choices):
            after = outcome_of(name, doubts, [question.chosen(at)])
            check_outcome(after, text_of(name))
            assert after.unapplied == ()
            same = [q for q in after.questions if (q.rule, q.span) == (question.rule, question.span)]
            assert [q.answer for q in same] == [at] or choice.reading == same[0].choices[same[0].answer].reading  # type: ignore[index]
            promised, held = promised_and_held(after, question.visit, question.plant, question.stop, choice.makes)
            assert held == promised


@pytest.mark.law
@given(doubted(), st.data())
@settings(max_examples=20, suppress_health_check=[HealthCheck.too_slow])
def test_answers_to_all_questions_one_after_the_other(given_: tuple[str, list[Doubt]], data: st.DataObject) -> None:
    """No answer is lost on the way, whichever words are read in the end."""
    name, doubts = given_
    answers: list[Answer] = []
    for _ in range(8):
        outcome = outcome_of(name, doubts, answers)
        check_outcome(outcome, text_of(name))
        still = [q for q in outcome.questions if q.answer is None]
        if not still:
            break
        question = data.draw(st.sampled_from(still))
        answers.append(question.chosen(data.draw(st.integers(0, len(question.choices) - 1))))
        doubt_answers = {(a.rule, a.span) for a in answers if a.rule in ("heard", "typed")}
        now = outcome_of(name, doubts, answers)
        assert doubt_answers <= {(q.rule, q.span) for q in now.questions if q.answer is not None}
