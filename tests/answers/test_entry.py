"""Kept answers find their words again, or say that they are gone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from notesparse import read
from notesparse.answers.entry import Entry, entry_of, fit, hand_entry, values_of_choice
from notesparse.outcome import Answer, ByHand, Outcome

NOTE = "Willow Draw\r\np1 15tf pods 1/2 in 3rd node down\r\np2 15tf three quarter inch pods top four\r\n"
NAME = "2026-08-05_willow-draw.txt"


def outcome(text: str = NOTE) -> Outcome:
    return read(text, date="2026-08-05", source=f"notes/{NAME}")


def answer(text: str = NOTE, at: int = 1) -> Entry:
    whole = outcome(text)
    question = whole.questions[0]
    return entry_of(whole, question, values_of_choice(question, at), question.choices[at].reading)


def test_an_entry_holds_the_line_and_the_words() -> None:
    kept = answer()
    assert (kept.note, kept.number, kept.nth) == (NAME, 3, 1)
    assert kept.line == "p2 15tf three quarter inch pods top four"
    assert kept.words in kept.line
    assert dict(kept.values) == {"pod_mm": 19.05}


def test_it_finds_its_place_in_the_same_note() -> None:
    found = fit([answer()], NOTE, NAME, outcome().note.sha256)
    assert found.misfits == () and found.by_hand == ()
    assert [a.span for a in found.answers] == [outcome().questions[0].span]


@pytest.mark.parametrize(
    "changed",
    [
        NOTE + "p3 14tf\r\n",
        "Willow Draw\r\nwalked in from the road\r\n" + NOTE.split("\r\n", 1)[1],
        NOTE.replace("\r\n", "\n"),
    ],
)
def test_a_changed_note_keeps_the_answer_while_its_line_stands(changed: str) -> None:
    found = fit([answer()], changed, NAME, "another")
    assert [a.span for a in found.answers] == [read(changed, date="2026-08-05").questions[0].span]


@pytest.mark.parametrize(
    "changed",
    [
        NOTE.replace("p2", "p3"),
        NOTE.replace("three quarter inch", "3/4 in"),
        NOTE + "Red Barn\r\np2 15tf three quarter inch pods top four\r\n" * 2,
        NOTE.replace("top four", "top four nodes"),
        "",
    ],
)
def test_an_answer_whose_words_are_gone_is_told_of(changed: str) -> None:
    elsewhere = replace(answer(), number=99)
    found = fit([elsewhere], changed, NAME, "another")
    assert found.answers == ()
    assert [m.why for m in found.misfits] == [
        'the note has changed, and the words "three quarter inch pods" are gone from their line'
    ]


def test_another_note_takes_nothing() -> None:
    assert fit([answer()], NOTE, "other.txt", "another") == fit([], NOTE, "other.txt", "another")


def test_the_same_text_under_another_name_takes_it() -> None:
    assert len(fit([answer()], NOTE, "copy.txt", answer().sha256).answers) == 1


def test_two_answers_that_differ_settle_nothing() -> None:
    found = fit([answer(at=0), answer(at=1)], NOTE, NAME, answer().sha256)
    assert found.answers == ()
    assert {m.why[:17] for m in found.misfits} == {"it is answered tw"}
    assert len(fit([answer(), answer()], NOTE, NAME, answer().sha256).answers) == 1


def test_of_equal_lines_the_number_decides() -> None:
    text = "A\np1 10 or 11 trifs\nB\np1 10 or 11 trifs\n"
    whole = read(text, date="2026-07-14", source=NAME)
    second = whole.questions[1]
    kept = entry_of(whole, second, values_of_choice(second, 1), second.choices[1].reading)
    assert [a.span for a in fit([kept], text, NAME, whole.note.sha256).answers] == [second.span]
    assert [a.span for a in fit([kept], text + "\n", NAME, "another").answers] == [second.span]
    assert fit([kept], "\n" + text, NAME, "another").answers == ()  # neither line has that number now


def test_the_words_of_an_answer_may_run_over_lines() -> None:
    text = "plant 1 pods on the third\nnode down, can feel seed\nno pods\n"
    whole = read(text, date="2026-08-14", source=NAME)
    for question in whole.questions:
        kept = entry_of(whole, question, {}, None)
        assert [a.span for a in fit([kept], text, NAME, whole.note.sha256).answers] == [question.span]


@pytest.mark.parametrize(
    ("values", "why"),
    [
        ({"pod_mm": "long"}, "'long' is no value of pod_mm: a length as 3/4 in, 12 mm or 1.5 cm."),
        ({"trifoliates": 99}, "99 is no value of trifoliates: a whole number of unrolled trifoliates, 26 at most."),
        ({"colour": "red"}, "There is no fact 'colour'."),
    ],
)
def test_a_value_that_no_plant_can_have_is_told_of(values: dict[str, object], why: str) -> None:
    found = fit([replace(answer(), values=values)], NOTE, NAME, answer().sha256)
    assert found.answers == () and [m.why for m in found.misfits] == [why]


def test_values_set_by_hand() -> None:
    whole = outcome()
    kept = hand_entry(whole, 0, "1", None, "trifoliates", 14, 15)
    found = fit([kept], NOTE, NAME, whole.note.sha256)
    assert found.by_hand == (ByHand(0, "Willow Draw", "1", "trifoliates", 14, None),)
    after = read(NOTE, date="2026-08-05")
    assert after.visits[0].plants[0].facts.trifoliates == 15


def test_an_answer_is_frozen() -> None:
    given = fit([answer()], NOTE, NAME, answer().sha256).answers[0]
    assert isinstance(given, Answer)
    with pytest.raises(AttributeError):
        given.rule = "4.2"  # type: ignore[misc]
