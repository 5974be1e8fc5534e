"""From utterances to the text of a note, its doubts and what lies beside it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from notesparse.errors import InputError
from notesparse.listening.heard import Change, Hearing, Recording, Unsure, Utterance, Word, clock
from notesparse.listening.keeping import keep
from notesparse.listening.note import NOT_UNDERSTOOD, Heard, note_of, with_names_doubted
from notesparse.listening.sphinx import marked, plain
from notesparse.listening.whisper import joined
from notesparse.span import Span
from tests.listening.conftest import hearing

TAPE = Recording("2026-07-14_walk.wav", "ab" * 32, b"\0\0" * 16000)


def utterance(text: str, start: float = 0.0, end: float = 1.0, **more: object) -> Utterance:
    return Utterance(start, end, hearing(text), **more)  # type: ignore[arg-type]


def note(*said: Utterance) -> Heard:
    return note_of(TAPE, said, "both", weak=False)


def test_a_breath_goes_on_and_a_pause_ends_the_line() -> None:
    made = note(utterance("Plant 3, 11 trifs"), utterance("R3.", 1.5, 2.0), utterance("Plant 4.", 9.0, 10.0))
    assert made.text == "Plant 3, 11 trifs. R3.\nPlant 4.\n"
    assert [s.of(made.text) for s in made.spans] == ["Plant 3, 11 trifs", "R3.", "Plant 4."]


def test_what_is_refused_stays_in_the_text_and_in_the_record() -> None:
    made = note(utterance("Plant 3."), utterance("bla bla", 2.0, 4.5, refused="no note"))
    assert made.text == f"Plant 3.\n{NOT_UNDERSTOOD}\n"
    assert made.as_dict()["refused"] == [{"start": 2.0, "end": 4.5, "span": [9, 20], "why": "no note"}]


def test_behind_a_refused_stretch_it_is_asked_whose_the_words_are() -> None:
    made = note(utterance("Plant 3."), utterance("x", 2, 3, refused="no note"), utterance("no flowers", 4, 5))
    (doubt,) = made.doubts
    assert (doubt.span.of(made.text), doubt.others) == ("no", ("next plant no",))
    assert "0:02.0-0:03.0 of 2026-07-14_walk.wav" in doubt.where
    made = note(utterance("x", 2, 3, refused="no note"), utterance("no flowers", 4, 5))
    assert made.doubts[0].others == ("plant two no",)


def test_a_doubt_stands_on_its_word_without_the_mark_behind_it() -> None:
    made = note(utterance("Fifteen, trifs.", unsure=(Unsure(0, 1, (("fifty",),), ""), Unsure(1, 2, ((),), ""))))
    assert [(d.span.of(made.text), d.others, d.how) for d in made.doubts] == [
        ("Fifteen", ("fifty",), "heard"), ("trifs", ("",), "heard"),
    ]  # fmt: skip
    assert made.doubts[0].where == "0:00.0-0:00.3 of 2026-07-14_walk.wav"


def test_a_doubt_in_a_part_of_a_token_holds_the_rest_of_it() -> None:
    words = tuple(Word(w, 0.0, 1.0, 0.9, 0) for w in ("three", "sixteenths", "inch"))
    said = Utterance(0, 1, Hearing(words, ('3/16"',)), unsure=(Unsure(0, 1, (("five",),), ""),))
    made = note(said)
    assert [(d.span.of(made.text), d.others) for d in made.doubts] == [('3/16"', ("five sixteenths inch",))]


def test_marks_that_the_recogniser_makes_up_do_not_part_an_amount() -> None:
    words = [("pods", 0), ("three", 1), ("sixteenths", 2), ("five", 3), ("percent", 4), ("nine", 5), ("trifs", 6)]
    said = Hearing(
        tuple(Word(w, 0.0, 1.0, 0.9, at) for w, at in words),
        ("Pods", "3,", "sixteenths,", "5.", "percent,", "9,", "trifs."),
    )
    assert note(Utterance(0, 1, said)).text == "Pods three sixteenths, 5 percent, 9, trifs.\n"


def test_files_are_written_and_not_over_another_note(tmp_path: Path) -> None:
    change = Change(("enrolled",), ("unrolled",), 0.2, 0.4)
    made = note(utterance("Plant 3, leaf unrolled.", changes=(change,), second=("plant", "three")))
    kept = keep(made, str(tmp_path), force=False)
    assert (tmp_path / "2026-07-14_walk.txt").read_text() == made.text == kept.text
    assert kept.date == "2026-07-14"
    told = json.loads((tmp_path / "2026-07-14_walk.heard.json").read_text())
    assert (told["source"], told["sha256"], told["note_sha256"]) == (TAPE.name, TAPE.sha256, kept.sha256)
    assert told["utterances"][0]["repairs"] == [{"start": 0.2, "end": 0.4, "heard": "enrolled", "taken": "unrolled"}]
    assert told["utterances"][0]["second"] == "plant three"
    keep(made, str(tmp_path), force=False)  # the same note again
    other = note(utterance("Plant 9."))
    with pytest.raises(InputError, match="another note"):
        keep(other, str(tmp_path), force=False)
    assert (tmp_path / "2026-07-14_walk.txt").read_text() == made.text
    keep(other, str(tmp_path), force=True)
    assert (tmp_path / "2026-07-14_walk.txt").read_text() == other.text
    assert sorted(p.name for p in tmp_path.iterdir()) == ["2026-07-14_walk.heard.json", "2026-07-14_walk.txt"]


def test_pieces_of_writing_are_joined_and_the_least_sure_counts() -> None:
    found = [
        {"word": w, "start": a, "end": a + 1, "probability": p}
        for w, a, p in ((" Pods", 0, 0.9), (" 3", 1, 0.9), ("/16", 2, 0.4), (",", 3, 0.1), (" inch", 4, 0.8))
    ]
    assert [(text, sure) for text, _, _, sure in joined(found)] == [("Pods", 0.9), ("3/16,", 0.4), ("inch", 0.8)]


def test_a_stop_in_speech_is_a_comma_but_not_inside_an_amount() -> None:
    said = [("plant", 0.0, 0.3, 1.0), ("six", 0.6, 1.0, 1.0), ("three", 1.2, 1.5, 1.0), ("trifs", 1.9, 2.0, 1.0)]
    assert marked(said) == ["plant", "six,", "three", "trifs"]


def test_names_of_pronunciations_and_times() -> None:
    assert (plain("trifs(2)"), plain("trifs")) == ("trifs", "trifs")
    assert (clock(62.44), clock(0.96), clock(3600)) == ("1:02.4", "0:01.0", "60:00.0")


def test_a_name_that_the_small_recogniser_heard_is_asked() -> None:
    made = with_names_doubted(note(utterance("Color Bend plant 1 8 trifs")), [Span(0, 10)])
    assert [(d.span, d.others) for d in made.doubts] == [(Span(0, 10), ())]
    assert with_names_doubted(made, [Span(0, 10)]).doubts == made.doubts
