"""The note with its marks: exact pictures, aligned whatever the words are made of."""

from __future__ import annotations

import pytest

from notesparse.outcome import Choice, Question, Unread
from notesparse.span import Span
from notesparse.views.cells import width_of
from notesparse.views.note_marks import note_marks
from tests.record import made


def asked(span: Span, number: int = 1) -> Question:
    choices = (Choice("ten", {"trifoliates": 10}), Choice("eleven", {"trifoliates": 11}))
    return Question(f"q{number}", "4.2", span, "", 0, "1", "Ten or eleven?", choices)


def test_the_picture_of_a_whole_note() -> None:
    assert note_marks(made.creek()) == [
        "   1  Creek bottom, July 14. 30s, group 3.8",
        "      ''''''''''''  '''''''  ''''''''''''''",
        "   2  plant 1 nine trips, flowers all the way up",
        "      ''''''''''''''''''''''''''''''''''''''''''",
        "   3  plant 2 ten or eleven trifs, pods on the third node down 3/16",
        "      ''''''''1??????????????????''''''''''''''''''''''''''''''''''",
        "   4  plant 3 thirteen trifs no wait 12, flowers top two nodes",
        "      ''''''' --------------         '''''''''''''''''''''''''",
        "   5  calling the field R2. six of ten flowering. 3 stink bugs per 25 sweeps,",
        "      ''''''''''''''''''''  ''''''''''''''''''''  ''''''''''''''''''''''''''",
        "      deer been in here",
        "      xxxxxxxxxxxxxxxxx",
        "",
        "      ''' read   1?? question 1   xxx not understood   --- taken back",
        "      no mark: nothing to record",
    ]


def picture(text: str, *spans: Span, width: int = 78) -> list[str]:
    outcome = made.outcome(text, unread=tuple(Unread(span, span.of(text), "") for span in spans))
    lines = note_marks(outcome, width)
    return lines[: lines.index("")]


def test_a_note_of_one_line_has_no_number_and_an_unmarked_line_no_marks() -> None:
    assert picture("pl 1 ok") == ["   pl 1 ok"]


def test_marks_stay_under_their_words_when_a_line_is_broken() -> None:
    text = "one two three four five six seven"
    assert picture(text, made.at(text, "four five"), width=24) == [
        "   one two three four",
        "                 xxxx",
        "   five six seven",
        "   xxxx",
    ]


def test_marks_take_the_room_that_the_words_take() -> None:
    text = "a\tbean \u5927\u8c46 cafe\u0301 \u00bd end"
    wide = picture(text, made.at(text, "\u5927\u8c46"), made.at(text, "end"))
    assert wide == ["   a   bean \u5927\u8c46 cafe\u0301 \u00bd end", "            xxxx        xxx"]
    assert width_of(wide[0]) == width_of(wide[1])


def test_what_could_steer_the_terminal_is_shown_as_a_dot() -> None:
    text = "pl 1 \x1b[31m \u202egnol\x07"
    (line,) = picture(text)
    assert line == "   pl 1 .[31m gnol."
    assert "\x1b" not in line and "\u202e" not in line


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
def test_every_kind_of_line_end_ends_a_line(ends: str) -> None:
    text = f"pl 1{ends}{ends}pl 2{ends}"
    assert picture(text, made.at(text, "pl 2")) == ["   1  pl 1", "   2", "   3  pl 2", "      xxxx"]


def test_a_word_longer_than_the_line_is_cut_and_its_marks_with_it() -> None:
    text = "x" * 45
    assert picture(text, Span(10, 30), width=26) == [
        "   " + "x" * 20,
        " " * 13 + "x" * 10,
        "   " + "x" * 20,
        "   " + "x" * 10,
        "   xxxxx",
    ]


def test_two_questions_show_their_numbers() -> None:
    text = "pl 1 ten or eleven trifs, pods 5"
    questions = (asked(made.at(text, "ten or eleven")), asked(made.at(text, "pods 5"), 2))
    assert note_marks(made.outcome(text, questions=questions))[:2] == [
        "   pl 1 ten or eleven trifs, pods 5",
        "        1????????????        2?????",
    ]


def test_a_question_of_one_character_shows_its_number_alone() -> None:
    outcome = made.outcome("pl 1 6", questions=(asked(Span(5, 6)),))
    assert note_marks(outcome)[1] == "        1"


def test_colour_is_an_addition() -> None:
    outcome = made.creek()
    bare = "\n".join(note_marks(outcome))
    painted = "\n".join(note_marks(outcome, paint=lambda part, text: f"<{part}>{text}</>"))
    assert "<unread>deer been in here</>" in painted
    for tag in ("title", "read", "asked", "unread", "taken-back", "quiet"):
        painted = painted.replace(f"<{tag}>", "")
    assert painted.replace("</>", "") == bare


def test_nothing_is_wider_than_the_page() -> None:
    outcome = made.outcome(made.CREEK.replace("\n", " ") * 3)
    assert max(map(width_of, note_marks(outcome))) <= 78
