"""Which doubts are asked about, how, and what an answer does: small notes, one thing each."""

from __future__ import annotations

import json
from typing import Any

import pytest

from notesparse import Doubt, Outcome, Span, read
from notesparse.doubts import asked
from notesparse.doubts.fitting import fitting
from notesparse.doubts.instead import NOT_KNOWN, Instead
from notesparse.outcome import Answer, Question
from tests.properties.laws import check_outcome

WHERE = "0:12.4 of walk.wav"
NOTE = "plant 3 fifteen trifs, flowers top two nodes"


def doubt(text: str, words: str, *others: str, how: str = "heard", where: str = WHERE) -> Doubt:
    at = text.index(words)
    return Doubt(Span(at, at + len(words)), others, where, how)


def outcome_of(text: str, *doubts: Doubt, answers: tuple[Answer, ...] = ()) -> Outcome:
    outcome = read(text, date="2026-07-14", doubts=doubts, answers=answers)
    check_outcome(outcome, text)
    return outcome


def asked_of(outcome: Outcome) -> list[Question]:
    return [q for q in outcome.questions if q.rule in ("heard", "typed")]


def makes(question: Question) -> list[dict[str, Any]]:
    return [dict(choice.makes) for choice in question.choices]


# the question ---------------------------------------------------------------------------------------------------------


def test_both_hearings_and_the_place_are_named() -> None:
    (question,) = asked_of(outcome_of(NOTE, doubt(NOTE, "fifteen", "sixteen")))
    assert question.ask == f"“fifteen” was heard, or “sixteen” ({WHERE}): which was said?"
    assert [c.reading for c in question.choices] == ["“fifteen”, as heard", "“sixteen”"]
    assert makes(question) == [
        {"trifoliates": 15, "v_stage": "V15", "r_stage": "R2", "field_v": "V15", "field_r": "R2"},
        {"trifoliates": 16, "v_stage": "V16", "r_stage": "R2", "field_v": "V16", "field_r": "R2"},
    ]
    assert (question.plant, question.key, question.taken, question.moves_field) == ("3", "trifoliates", 0, True)


def test_a_typed_word_is_asked_about_as_it_stands() -> None:
    text = "plant 3 15 trifs"
    (question,) = asked_of(outcome_of(text, doubt(text, "15", "16", how="typed", where="line 1 of page.png")))
    assert question.rule == "typed"
    assert question.ask == "“15” was read, or “16” (line 1 of page.png): which stands there?"
    assert question.choices[0].reading == "“15”, as read"


def test_an_unsure_word_may_be_not_known() -> None:
    (question,) = asked_of(outcome_of(NOTE, doubt(NOTE, "fifteen")))
    assert question.ask == f"“fifteen” was heard, not clearly ({WHERE}): is it right?"
    assert [c.reading for c in question.choices] == ["“fifteen”, as heard", "not known"]
    after = outcome_of(NOTE, doubt(NOTE, "fifteen"), answers=(question.chosen(1),))
    assert after.visits[0].plants[0].facts.trifoliates is None
    assert after.visits[0].plants[0].r.stage == "R2"
    assert [(u.quote, u.why) for u in after.unread] == [("fifteen trifs", "these words are not known")]


@pytest.mark.parametrize(
    ("text", "words", "others"),
    [
        ("uh plant 3 fifteen trifs", "uh", ("er",)),  # neither hearing says anything
        ("uh plant 3 fifteen trifs", "uh", ()),
        (NOTE, "fifteen", ("15",)),  # the same value
        (NOTE, "fifteen", ("fifteen", " fifteen ")),
        (NOTE, "trifs", ("trips",)),  # read as the same word
        (NOTE, "3", ("three",)),
    ],
)
def test_what_changes_nothing_is_not_asked(text: str, words: str, others: tuple[str, ...]) -> None:
    outcome = outcome_of(text, doubt(text, words, *others))
    if others and others[0].strip() != words:
        assert asked_of(outcome) == []
    assert outcome.unapplied == ()
    assert outcome.visits == read(text, date="2026-07-14").visits


def test_hearings_that_come_to_the_same_are_one_choice() -> None:
    (question,) = asked_of(outcome_of(NOTE, doubt(NOTE, "fifteen", "15", "sixteen", "16")))
    assert [c.reading for c in question.choices] == ["“fifteen”, as heard", "“sixteen”"]


def test_a_word_that_may_not_have_been_said() -> None:
    text = "plant 3 no flowers, 9 trifs"
    (question,) = asked_of(outcome_of(text, doubt(text, "no", "")))
    assert question.ask == f"“no” was heard, or nothing ({WHERE}): which was said?"
    after = outcome_of(text, doubt(text, "no", ""), answers=(question.chosen(1),))
    assert after.visits[0].plants[0].facts.flowers is True


def test_a_word_that_may_have_been_lost() -> None:
    """A doubt of no width: another hearing has a word more."""
    text = "plant 3 flowers, 9 trifs"
    (question,) = asked_of(outcome_of(text, Doubt(Span(8, 8), ("no",), WHERE)))
    assert question.ask == f"“flowers,” was heard, or “no flowers,” ({WHERE}): which was said?"
    assert [m["flowers"] for m in makes(question)] == [True, False]


def test_a_hearing_that_is_asked_about_itself_says_so() -> None:
    (question,) = asked_of(outcome_of(NOTE, doubt(NOTE, "fifteen", "fifty")))
    assert [m["then_asked"] for m in makes(question)] == [[], ["Are there 15 or 50 trifoliates on plant 3?"]]
    after = outcome_of(NOTE, doubt(NOTE, "fifteen", "fifty"), answers=(question.chosen(1),))
    assert [q.ask for q in after.questions if q.answer is None] == ["Are there 15 or 50 trifoliates on plant 3?"]
    assert after.visits[0].plants[0].told == {}  # an open value is not confirmed


def test_another_plant() -> None:
    text = "plant 6 nine trifs\nplant 7 ten trifs"
    (question,) = asked_of(outcome_of(text, doubt(text, "7", "8")))
    assert [m["plants"] for m in makes(question)] == [
        {"7": {"trifoliates": 10, "v_stage": "V10", "r_stage": None}, "8": None},
        {"7": None, "8": {"trifoliates": 10, "v_stage": "V10", "r_stage": None}},
    ]
    after = outcome_of(text, doubt(text, "7", "8"), answers=(question.chosen(1),))
    assert [p.label for p in after.visits[0].plants] == ["6", "8"]
    assert [p.told for p in after.visits[0].plants] == [{}, {}]  # the plant was confirmed, and not its count


def test_one_question_about_several_plants_and_their_stages_wait() -> None:
    from notesparse.record.lines import to_dict
    from notesparse.record.status import is_open, open_keys

    text = "plants 1 thru 3 fifteen trifs"
    outcome = outcome_of(text, doubt(text, "fifteen", "sixteen"))
    (question,) = asked_of(outcome)
    assert list(makes(question)[1]["plants"]) == ["1", "2", "3"]
    record = to_dict(outcome)
    assert open_keys(record, 0, record["visits"][0]["plants"][1]) == {"trifoliates", "v_stage"}
    assert is_open(outcome, 0, outcome.visits[0].plants[1], "v_stage")


@pytest.mark.parametrize(
    ("text", "words", "other", "key"),
    [
        ("6 of 10 plants flowering", "6", "3", "tallies"),
        ("3 stink bugs per 25 sweeps, plant 1 nine trifs", "3", "13", "findings"),
        ("Creek bottom\nplanted may 4\nplant 1 nine trifs", "may 4", "may 14", "planted"),
        ("field is V5", "V5", "V9", "stated_v"),
        ("Creek bottom\np1 nine trifs\nWest 40\np1 ten trifs", "West 40", "p2 ten trifs", "visits"),
    ],
)
def test_whatever_differs_is_told(text: str, words: str, other: str, key: str) -> None:
    (question,) = asked_of(outcome_of(text, doubt(text, words, other)))
    first, second = (made[key] for made in makes(question))
    assert first != second


def test_where_there_is_no_visit_without_it() -> None:
    text = "blah fifteen trips"
    outcome = outcome_of(text, doubt(text, "blah", "plant 3"))
    assert all(q.visit == 0 for q in asked_of(outcome))
    from notesparse.views.page import page

    assert page(outcome)


# the answer -----------------------------------------------------------------------------------------------------------


def test_other_words_than_all_hearings() -> None:
    (question,) = asked_of(outcome_of(NOTE, doubt(NOTE, "fifteen", "sixteen")))
    after = outcome_of(NOTE, doubt(NOTE, "fifteen", "sixteen"), answers=(question.told({"words": "eleven"}),))
    assert after.visits[0].plants[0].facts.trifoliates == 11
    assert asked_of(after)[0].answer == "eleven"
    assert [c.text for c in after.corrected] == ["“fifteen” replaced by “eleven”"]
    typed = outcome_of(NOTE, doubt(NOTE, "fifteen", "sixteen"), answers=(question.told({"words": "Sixteen"}),))
    assert asked_of(typed)[0].answer == 1


def test_not_known_though_there_are_two_hearings() -> None:
    (question,) = asked_of(outcome_of(NOTE, doubt(NOTE, "fifteen", "sixteen")))
    after = outcome_of(NOTE, doubt(NOTE, "fifteen", "sixteen"), answers=(question.told({"words": None}),))
    assert after.visits[0].plants[0].facts.trifoliates is None
    (same,) = asked_of(after)
    assert same.choices[same.answer].reading == "not known"  # type: ignore[index]


def test_the_answer_stays_when_the_doubt_is_gone() -> None:
    (question,) = asked_of(outcome_of(NOTE, doubt(NOTE, "fifteen", "sixteen")))
    after = outcome_of(NOTE, answers=(question.chosen(1),))
    assert after.visits[0].plants[0].facts.trifoliates == 16
    assert after.unapplied == ()


@pytest.mark.parametrize(
    "answer",
    [
        Answer(Span(8, 15), "heard", {"words": 5}),
        Answer(Span(8, 15), "heard", {}),
        Answer(Span(10, 12), "heard", {"words": "x"}),  # a part of doubtful words
        Answer(Span(5, 5), "heard", {"words": "x"}),
        Answer(Span(40, 400), "heard", {"words": "x"}),
    ],
)
def test_an_answer_that_fits_no_words_is_told_of(answer: Answer) -> None:
    after = read(NOTE, date="2026-07-14", doubts=[doubt(NOTE, "fifteen", "sixteen")], answers=[answer])
    assert [u.given for u in after.unapplied] == [answer]
    assert after.visits == read(NOTE, date="2026-07-14").visits


def test_two_answers_to_the_same_words() -> None:
    two = (Answer(Span(8, 15), "heard", {"words": "ten"}), Answer(Span(8, 15), "heard", {"words": "nine"}))
    after = outcome_of(NOTE, doubt(NOTE, "fifteen", "sixteen"), answers=two)
    assert after.visits[0].plants[0].facts.trifoliates == 10
    assert [u.given for u in after.unapplied] == [two[1]]


def test_other_answers_find_their_questions_in_the_words_that_hold() -> None:
    text = "plant 1 ten trifs\nplant 2 eleven trifs, top leaf still rolled"
    words = doubt(text, "ten", "nine")
    longer = Answer(words.span, "heard", {"words": "about twelve or so"})
    rolled = next(q for q in outcome_of(text).questions if q.rule == "4.8")
    after = outcome_of(text, words, answers=(longer, rolled.chosen(1)))
    assert after.unapplied == ()
    same = next(q for q in after.questions if q.rule == "4.8")
    assert (same.span, same.quote, same.answer) == (rolled.span, rolled.quote, 1)
    plant = after.visits[0].plants[1]
    assert (plant.facts.trifoliates, plant.spans["trifoliates"].of(text)[:6]) == (11, "eleven")


def test_what_a_question_settles_anyway_is_not_asked_twice() -> None:
    text = "p1 13 trifs\np2 14 trifs\np3 thirty trifs"
    anyway = outcome_of(text).questions
    assert [q.ask for q in anyway] == ["Are there 13 or 30 trifoliates on plant 3?"]
    assert [q.ask for q in outcome_of(text, doubt(text, "thirty", "thirteen")).questions] == [anyway[0].ask]
    after = outcome_of(text, doubt(text, "thirty", "thirteen"), answers=(anyway[0].chosen(0),))
    assert [q.answer for q in after.questions] == [0]


# many, and odd ones ---------------------------------------------------------------------------------------------------


def test_a_note_is_not_read_too_often(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(asked, "MOST_READINGS", 2)
    text = "p1 nine trifs\np2 ten trifs\np3 eleven trifs"
    doubts = (doubt(text, "nine", "five"), doubt(text, "ten", "six"), doubt(text, "eleven", "seven"))
    outcome = outcome_of(text, *doubts)
    assert [q.quote for q in asked_of(outcome)] == ["ten", "nine"]  # ten may move the field's stage
    assert [u.why for u in outcome.unapplied] == [asked.NOT_WEIGHED]
    answers = tuple(q.chosen(0) for q in asked_of(outcome))
    after = outcome_of(text, *doubts, answers=answers)
    assert {(q.quote, q.answer) for q in asked_of(after)} == {("eleven", None), ("ten", 0), ("nine", 0)}
    assert after.unapplied == ()


def test_doubts_that_overlap_are_one() -> None:
    first, second = doubt(NOTE, "fifteen", "fifty"), doubt(NOTE, "fifteen trifs", "sixteen trips")
    (one,), outside = fitting([second, first], NOTE)
    assert (one.span.of(NOTE), one.others, outside) == ("fifteen trifs", ("fifty trifs", "sixteen trips"), [])


def test_the_lines_of_joined_doubts_stay() -> None:
    text = "p1 nine\np2 ten"
    (one,), _ = fitting([doubt(text, "nine\np2", "five\np3"), doubt(text, "p2 ten", "p4  ten")], text)
    assert one.others == ("five p3 ten", "nine\np4 ten")


@pytest.mark.parametrize("span", [(-1, 3), (40, 400), (9, 8)])
def test_a_doubt_outside_of_the_note_is_told_of(span: tuple[int, int]) -> None:
    outcome = outcome_of(NOTE, Doubt(Span(*span), ("x",), WHERE))
    assert [u.why for u in outcome.unapplied] == ["it lies outside of the note"]
    assert json.loads(outcome.to_json())["unapplied"] == [
        {"plant": None, "values": {"words": ["x"]}, "span": None, "why": "it lies outside of the note"}
    ]


@pytest.mark.parametrize("text", ["", " \n "])
def test_a_note_of_nothing(text: str) -> None:
    assert [u.why for u in outcome_of(text, Doubt(Span(0, 0), ("x",), "")).unapplied] == ["it lies outside of the note"]


def test_plain_pairs_serve_as_spans() -> None:
    assert len(asked_of(read(NOTE, date="2026-07-14", doubts=[Doubt((8, 15), ("ten",), "")]))) == 1  # type: ignore[arg-type]


# one text in the other ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("own", "read_as", "back"),
    [
        ((0, 2), (0, 2), (0, 2)),
        ((3, 5), (3, 8), (3, 5)),  # the replaced words
        ((2, 6), (2, 9), (2, 6)),
        ((6, 8), (9, 11), (6, 8)),
        ((3, 4), (3, 8), (3, 5)),  # a part of them covers them whole
        ((4, 7), (3, 10), (3, 7)),
    ],
)
def test_spans_there_and_back(own: tuple[int, int], read_as: tuple[int, int], back: tuple[int, int]) -> None:
    instead = Instead("ab cd efgh", {Span(3, 5): "vwxyz"})
    assert instead.text == "ab vwxyz efgh"
    assert instead.there(Span(*own)) == read_as
    assert instead.back(instead.there(Span(*own))) == back


def test_nothing_in_the_place_of_words() -> None:
    instead = Instead("ab cd ef", {Span(3, 5): "", Span(6, 8): None})
    assert instead.text == f"ab  {NOT_KNOWN}"
    assert instead.back(Span(3, 4)) == (5, 6)
    assert instead.back(Span(2, 3)) == (2, 3)
    assert instead.back(Span(5, 8)) == (6, 8)
