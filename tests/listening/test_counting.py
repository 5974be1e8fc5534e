"""The benchmark counts what it says: silently wrong, asked, lost, refused, on hearings made by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from notesparse.listening.heard import Hearing, Unsure, Utterance
from notesparse.listening.trade import Trade
from tests.bench.voice import Tally, counted, interval
from tests.listening.conftest import hearing

SAID = "plant three eleven trifs"


def tally(trade: Trade, said: str, *utterances: Utterance) -> dict[str, tuple[int, int]]:
    return counted(said, list(utterances), trade, str.split).of


def utterance(text: str) -> Utterance:
    return Utterance(0.0, 1.0, hearing(text))


def test_all_right(trade: Trade) -> None:
    of = tally(trade, SAID, utterance(SAID))
    assert of == {
        "word": (0, 4), "key": (0, 4), "number": (0, 2), "asked": (0, 4), "silent": (0, 4), "lost": (0, 4),
        "refused": (0, 1),
    }  # fmt: skip


def test_another_number_without_a_question_is_silently_wrong(trade: Trade) -> None:
    of = tally(trade, SAID, utterance("plant three seven trifs"))
    assert (of["silent"], of["number"], of["lost"]) == ((1, 4), (1, 2), (0, 4))


def test_with_a_question_it_is_not(trade: Trade) -> None:
    asked = replace(utterance("plant three seven trifs"), unsure=(Unsure(2, 3, (("eleven",),), "differs"),))
    of = tally(trade, SAID, asked)
    assert (of["silent"], of["asked"], of["number"]) == ((0, 3), (1, 4), (1, 2))


def test_a_missing_word_is_lost_unless_a_question_stands_beside_it(trade: Trade) -> None:
    short = utterance("plant three trifs")
    assert tally(trade, SAID, short)["lost"] == (1, 4)
    assert tally(trade, SAID, replace(short, unsure=(Unsure(2, 3, (), "unclear"),)))["lost"] == (0, 4)


def test_an_added_number_is_silently_wrong(trade: Trade) -> None:
    assert tally(trade, SAID, utterance("plant three eleven trifs fifteen"))["silent"] == (1, 5)


def test_what_is_refused_is_told_but_not_heard(trade: Trade) -> None:
    of = tally(trade, SAID, replace(utterance("plant r seven"), refused="not heard clearly"))
    assert (of["refused"], of["silent"], of["lost"], of["key"]) == ((1, 1), (0, 0), (0, 4), (3, 4))
    of = tally(trade, SAID, Utterance(0.0, 1.0, Hearing((), ()), refused="no words were heard"))
    assert (of["lost"], of["word"]) == ((0, 4), (4, 4))


def test_a_recording_in_which_no_speech_was_found_is_told_of_and_counts_as_refused(trade: Trade) -> None:
    of = tally(trade, SAID)
    assert (of["refused"], of["lost"], of["word"]) == ((1, 1), (0, 4), (4, 4))


def test_other_talk_counts_for_refusal_alone(trade: Trade) -> None:
    of = tally(trade, "", utterance("fifteen trifs"))
    assert of["refused"] == (0, 1)
    assert all(of[c] == (0, 0) for c in of if c != "refused")


def test_intervals_hold_the_share_and_are_the_same_each_time() -> None:
    notes = {str(n): Tally() for n in range(10)}
    for n, one in enumerate(notes.values()):
        one.add("key", n % 2, 4)
    low, high = interval(notes, "key")
    assert Tally().join(notes.values()).share("key") == pytest.approx(12.5)
    assert low < 12.5 < high
    assert interval(notes, "key") == (low, high)
