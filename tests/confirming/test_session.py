"""A sitting: the order of questions, skip, back, undo, and that every answer is in its file at once."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path

import pytest

from notesparse import flow
from notesparse.answers.file import read_entries
from notesparse.answers.reading import read_answered
from notesparse.confirming.session import Before, Sitting
from notesparse.record.store import load

NOTES = {
    # the first note's question cannot change the field's stage, the second note's can
    "2026-08-05_draw.txt": "Willow Draw\np1 15tf pods 3/4 in 3rd node down\np2 15tf three quarter inch pods top four\n",
    "2026-07-14_low.txt": "Low Ladder\np1 ten or eleven trifs\n",
}


@pytest.fixture
def place(tmp_path: Path) -> Path:
    for name, text in NOTES.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def sitting(place: Path, answers: str | None = None) -> Sitting:
    return Sitting([load(str(place / name)) for name in NOTES], answers=answers)


def test_what_can_change_a_field_comes_first_over_all_notes(place: Path) -> None:
    s = sitting(place)
    assert [(turn.note, turn.question.moves_field) for turn in s.turns()] == [(1, True), (0, False)]


def test_an_answer_is_kept_before_the_next_question(place: Path) -> None:
    s = sitting(place)
    turn = s.next()
    assert turn is not None
    s.choose(turn, 1)
    kept = read_entries(str(place / "2026-07-14_low.answers.toml"))
    assert [(e.words, dict(e.values), e.reading) for e in kept] == [("ten or eleven trifs", {"trifoliates": 11}, "11")]
    assert sitting(place).left == 1  # another sitting does not ask it again
    assert (place / "2026-07-14_low.txt").read_text(encoding="utf-8") == NOTES["2026-07-14_low.txt"]


def test_skip_back_and_a_second_thought(place: Path) -> None:
    s = sitting(place)
    first = s.next()
    assert first is not None
    assert not s.back()
    s.choose(first, 0)
    second = s.next()
    assert second is not None and second.note == 0
    s.skip(second)
    assert s.next() is None and s.left == 0 and len(s.turns()) == 1
    assert s.again()
    assert s.next() == second
    assert s.back()
    again = s.next()
    assert again is not None and (again.key, again.question.answer) == (first.key, 0)
    s.choose(again, 1)  # in the place of the first answer, not beside it
    kept = read_entries(str(place / "2026-07-14_low.answers.toml"))
    assert [e.reading for e in kept] == ["11"]


def test_undo_takes_answers_back_one_after_the_other(place: Path) -> None:
    s = sitting(place)
    for _ in range(2):
        turn = s.next()
        assert turn is not None
        s.choose(turn, 0)
    assert (s.answered, s.left) == (2, 0)
    assert s.undo()
    turn = s.next()
    assert turn is not None and turn.note == 0 and turn.question.answer is None
    s.tell(turn, {"pod_mm": 11})
    assert s.outcomes[0].visits[0].plants[1].facts.pod_mm == 11
    assert s.undo() and s.undo() and not s.undo()
    assert (s.answered, s.left) == (0, 2)
    assert read_entries(str(place / "2026-07-14_low.answers.toml")) == []


def test_undo_of_a_second_thought_brings_the_first_back(place: Path) -> None:
    s = sitting(place)
    turn = s.next()
    assert turn is not None
    s.choose(turn, 0)
    s.again()
    turn = s.next()
    assert turn is not None
    s.choose(turn, 1)
    s.undo()
    assert [e.reading for e in read_entries(str(place / "2026-07-14_low.answers.toml"))] == ["10"]


def test_values_set_by_hand_can_be_set_again_and_undone(place: Path) -> None:
    s = sitting(place)
    s.set_by_hand(0, 0, "1", None, "trifoliates", 14)
    s.set_by_hand(0, 0, "1", None, "trifoliates", 13)
    s.set_by_hand(0, 0, None, None, "field", "Willow Bend")
    visit = s.outcomes[0].visits[0]
    assert (visit.field, visit.plants[0].facts.trifoliates, visit.plants[0].facts.nodes) == ("Willow Bend", 13, 14)
    assert visit.plants[0].told == {"trifoliates": "corrected"}
    assert [c.text for c in s.outcomes[0].corrected] == [
        "by hand: field is Willow Bend, not Willow Draw",
        "by hand: trifoliates is 13, not 15",
    ]
    s.undo()
    s.undo()
    assert s.outcomes[0].visits[0].plants[0].facts.trifoliates == 14


def test_one_file_for_all(place: Path) -> None:
    path = str(place / "all.toml")
    s = sitting(place, path)
    while (turn := s.next()) is not None:
        s.choose(turn, 0)
    assert len(read_entries(path)) == 2
    assert sitting(place, path).left == 0
    assert sitting(place).left == 2


def test_a_habit_answered_for_the_whole_note_answers_all_of_it_and_is_undone(tmp_path: Path) -> None:
    """The question that was answered first is answered again with the others: it stays answered."""
    path = tmp_path / "2026-07-20_low.txt"
    path.write_text("Low Ladder\np1 five trifs, top one still rolled\np2 six trifs, top one still rolled\n", "utf-8")
    s = Sitting([load(str(path))])
    turn = s.next()
    assert turn is not None
    s.choose(turn, 1)
    s.choose_alike(turn, 1)
    assert s.left == 0
    assert [p.facts.trifoliates for p in s.outcomes[0].visits[0].plants] == [5, 6]
    assert s.undo() and s.left == 1
    assert s.undo() and s.left == 2
    assert read_entries(str(tmp_path / "2026-07-20_low.answers.toml")) == []


def test_a_long_doubtful_note_is_not_read_anew_for_each_answer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An answer that what was heard is right leaves the note's text as it was, so all its other readings stand."""
    text = "".join(f"plant {n} fifteen trifs flowers top two nodes\n" for n in range(1, 21))
    starts = [m.start() for m in re.finditer("fifteen", text)]
    note = tmp_path / "2026-07-14_walk.txt"
    note.write_bytes(text.encode())
    doubts = [{"span": [at, at + 7], "others": ["sixteen"], "where": "0:01.0 of walk.wav"} for at in starts]
    told = {"source": "walk.wav", "sha256": "a", "note_sha256": hashlib.sha256(text.encode()).hexdigest()}
    beside = json.dumps({**told, "doubts": doubts, "utterances": []})
    note.with_name("2026-07-14_walk.heard.json").write_text(beside, encoding="utf-8")
    readings = []
    once = flow._read_once
    monkeypatch.setattr(flow, "_read_once", lambda *given: readings.append(given) or once(*given))
    sitting = Sitting([load(str(note))])
    assert len(readings) == 21  # as it is, and with each other hearing
    for at, choice in enumerate((0, 0, 1)):
        turn = sitting.next()
        assert turn is not None
        sitting.choose(turn, choice)
        # with another hearing of one word the nineteen other doubts are weighed in another text
        assert len(readings) == (21 if choice == 0 else 21 + 19), at
        fresh = read_answered(sitting.notes[0])
        assert sitting.outcomes[0].to_json() == fresh.to_json()
        del readings[40 if choice else 21 :]
    assert sitting.undo()
    assert len(readings) == 40


def test_what_was_read_before_does_not_grow_without_end() -> None:
    before = Before()
    outcome = flow.read("plant 1 R3")
    for n in range(2 * Before.MOST):
        before[str(n)] = outcome
    assert len(before) == Before.MOST and str(2 * Before.MOST - 1) in before
