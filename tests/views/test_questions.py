"""Exact pictures of questions."""

from __future__ import annotations

import dataclasses

from notesparse.outcome import Choice, Question
from notesparse.span import Span
from notesparse.views.answered import answered as views_of_answers
from notesparse.views.cells import width_of
from notesparse.views.questions import one_question, questions
from tests.record import made


def ask(text: str, span: Span, *choices: Choice, **changes: object) -> list[str]:
    values: dict[str, object] = {
        "id": "q1",
        "rule": "4.2",
        "span": span,
        "quote": span.of(text),
        "visit": 0,
        "plant": "2",
        "ask": "Which is it?",
        "choices": choices,
        **changes,
    }
    return questions(made.outcome(text, made.visit(), questions=(Question(**values),)))  # type: ignore[arg-type]


def test_the_picture_of_a_question() -> None:
    assert questions(made.creek()) == [
        "Question 1   plant 2, line 3",
        "",
        "   plant 2 ten or eleven trifs, pods on the third node down 3/16",
        "           ^^^^^^^^^^^^^^^^^^^",
        "",
        "   How many unrolled trifoliates does plant 2 have?",
        "",
        "   a  10   plant V10, field V10   recorded for now",
        "   b  11   plant V11, field V11",
    ]


def test_what_no_answer_changes_is_said_once() -> None:
    text = "plant 2 pods turning"
    assert ask(
        text,
        made.at(text, "pods turning"),
        Choice("no", {"mature_pods": "none", "v_stage": None, "r_stage": "R6", "field_v": "V18", "field_r": "R6"}),
        Choice("yes", {"mature_pods": "one", "v_stage": None, "r_stage": "R7", "field_v": "V18", "field_r": "R6"}),
    )[2:] == [
        "   plant 2 pods turning",
        "           ^^^^^^^^^^^^",
        "",
        "   Which is it?",
        "",
        "   a  no    ripe pods none; plant R6   recorded for now",
        "   b  yes   ripe pods one; plant R7",
        "",
        "   Whichever it is, the field stays at V18, R6.",
    ]


def test_a_stage_that_an_answer_takes_away_is_said() -> None:
    text = "pl 2 seed, no pods"
    lines = ask(
        text,
        made.at(text, "seed, no pods"),
        Choice("not known", {"r_stage": None, "field_r": None}),
        Choice("it has pods", {"pods": True, "r_stage": "R5", "field_r": "R5"}),
    )
    assert lines[-2:] == [
        "   a  not known     plant R not known, field R not known   recorded for now",
        "   b  it has pods   pods; plant R5, field R5",
    ]


def test_long_answers_stand_over_what_they_make() -> None:
    text = "pl 2 7 tri V8"
    lines = ask(
        text,
        made.at(text, "7 tri V8"),
        Choice("7 trifoliates are V7, each unrolled trifoliate counting one", {"v_stage": "V7", "field_v": "V7"}),
        Choice("7 trifoliates are V8, the unifoliate node counting too", {"v_stage": "V8", "field_v": "V8"}),
    )
    assert lines[-5:] == [
        "   a  7 trifoliates are V7, each unrolled trifoliate counting one (recorded",
        "      for now)",
        "        plant V7, field V7",
        "   b  7 trifoliates are V8, the unifoliate node counting too",
        "        plant V8, field V8",
    ]


def test_the_line_is_left_as_it_was_and_marks_follow_over_a_break() -> None:
    text = "Plnt  2   " + "walking in from the road and looking about me " * 2 + "ten or eleven tirfs, pods"
    lines = ask(text, made.at(text, "about me ten or eleven tirfs"), Choice("10", {}), Choice("11", {}))
    assert lines[2:6] == [
        "   road and looking about me ten or eleven tirfs, pods",
        "                    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^",
        "",
        "   Which is it?",
    ]
    text = "Plnt  2   " + "x" * 50 + " ten or eleven tirfs"
    lines = ask(text, made.at(text, "ten or eleven tirfs"), Choice("10", {}), Choice("11", {}))
    assert lines[2:6] == [
        "   Plnt  2   " + "x" * 50 + " ten or eleven",
        " " * 64 + "^^^^^^^^^^^^^",
        "   tirfs",
        "   ^^^^^",
    ]


def test_an_answer_given_is_shown_and_the_reading_meanwhile_no_more() -> None:
    outcome = made.creek()
    answered = dataclasses.replace(outcome.questions[0], answer=1)
    outcome = dataclasses.replace(outcome, questions=(answered,))
    assert questions(outcome) == []
    assert one_question(outcome, answered, 1, 79)[-2:] == [
        "   a  10   plant V10, field V10",
        "   b  11   plant V11, field V11   answered",
    ]
    assert views_of_answers(outcome)[-1] == "     11"


def test_several_are_counted_and_their_visits_named() -> None:
    text = "East R3 ? West R4 ?"
    one = Question("q1", "4.15", made.at(text, "R3 ?"), "R3 ?", 0, None, "R3?", (Choice("yes", {}), Choice("no", {})))
    two = dataclasses.replace(one, span=made.at(text, "R4 ?"), visit=1, ask="R4?")
    lines = questions(made.outcome(text, made.visit(field="East"), made.visit(), questions=(one, two)))
    assert [line for line in lines if line.startswith("Question")] == [
        "Question 1 of 2   East",
        "Question 2 of 2   visit 2",
    ]


def test_lengths_and_places_are_said_as_people_say_them() -> None:
    text = "pl 2 three quarter inch pods"
    lines = ask(
        text,
        made.at(text, "three quarter inch pods"),
        Choice("one way", {"pod_mm": 19.05, "pods_from_top": [1, 2, 3, 4], "date": "2026-07-14"}),
        Choice("the other", {"pod_mm": [5.0, 8.0], "pods_from_top": "lower", "date": None}),
    )
    assert lines[-4:] == [
        "   a  one way (recorded for now)",
        "        pod length 3/4 in, pods at nodes 1-4 from the top, 14 Jul 2026",
        "   b  the other",
        "        pod length 5-8 mm, pods low, date left open",
    ]


def test_words_of_a_note_cannot_steer_the_terminal() -> None:
    text = "pl 2 \x1b[2J ten or eleven"
    lines = ask(text, made.at(text, "\x1b[2J ten"), Choice("\x1b[2J", {}), Choice("b", {}), plant="\x1b[0m")
    assert "\x1b" not in "".join(lines)


def test_nothing_is_wider_than_the_page() -> None:
    text = "word " * 60
    sentence = "Which of these two very long things is it that you saw on this plant " * 3
    lines = ask(text, Span(0, len(text) - 1), Choice("y" * 70, {"pods": True}), Choice("no " * 50, {}), ask=sentence)
    assert max(map(width_of, lines)) <= 78
