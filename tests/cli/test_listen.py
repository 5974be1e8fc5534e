"""`notesparse listen`: the command line around listening, without any sound."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from notesparse.answers.file import read_entries
from notesparse.confirming.session import Sitting
from notesparse.listening import audio, ears, models
from notesparse.listening.heard import Recording, Unsure, Utterance
from notesparse.record.store import load
from notesparse.spoken.own import Own
from tests.cli.conftest import Run
from tests.listening.conftest import hearing


@pytest.fixture(autouse=True)
def no_fetched_model(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(models, "fetched_place", lambda: str(tmp_path / "none"))


def test_without_a_recording_help_is_given(run: Run) -> None:
    result = run("listen")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "notesparse listen walk.m4a" in result.stderr


def test_json_and_csv_at_once_is_a_wrong_command_line(run: Run) -> None:
    assert run("listen", "a.wav", "--json", "--csv").exit_code == 2


def test_what_is_missing_is_told(run: Run, desk: Path) -> None:
    result = run("listen", "gone.wav", "plant 3.wav", "--json")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr.splitlines() == [
        "gone.wav: there is no such file or folder.",
        "plant 3.wav: there is no such file or folder.",
    ]


def test_a_folder_without_recordings_is_told(run: Run, desk: Path) -> None:
    result = run("listen", ".")
    assert result.exit_code == 1
    assert "there is no recording in this folder; a recording ends in .wav" in result.stderr


def test_a_note_is_no_recording(run: Run, desk: Path) -> None:
    pytest.importorskip("pocketsphinx")
    pytest.importorskip("av")
    result = run("listen", "2026-07-14_creek.txt", "-q")
    assert result.exit_code == 1
    assert "2026-07-14_creek.txt: is no sound file" in result.stderr


def test_no_folder_for_notes_is_told(run: Run, desk: Path) -> None:
    (desk / "a.wav").write_bytes(b"x")
    result = run("listen", "a.wav", "--notes", "nowhere")
    assert result.exit_code == 1
    assert result.stderr == "nowhere: there is no such folder; make it first.\n"


def test_a_folder_that_is_no_model_is_told_before_anything_is_heard(run: Run, desk: Path) -> None:
    (desk / "a.wav").write_bytes(b"x")
    result = run("listen", "a.wav", "--model", ".")
    assert result.exit_code == 1
    assert ".: is no Whisper model for CTranslate2" in result.stderr


def test_a_fetched_model_that_changed_is_told_before_anything_is_heard(
    run: Run, desk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (desk / "a.wav").write_bytes(b"")
    (desk / "model").mkdir()
    monkeypatch.setattr(models, "fetched_place", lambda: "model")
    for name in ("model.bin", "config.json", "vocabulary.json", "tokenizer.json"):
        (desk / "model" / name).write_text("{}")
    (desk / "model" / models.PRINTS).write_text('{"model": "base", "sha256": {"model.bin": "0"}}')
    result = run("listen", "a.wav")
    assert result.exit_code == 1
    assert "model: config.json was not there when the model was fetched" in result.stderr
    assert "fetch the model again with --fetch-model" in result.stderr


def test_the_output_must_not_replace_a_recording(run: Run, desk: Path) -> None:
    (desk / "a.wav").write_bytes(b"x")
    result = run("listen", "a.wav", "-o", "a.wav")
    assert result.exit_code == 1
    assert (desk / "a.wav").read_bytes() == b"x"


def test_without_the_extra_it_is_told_what_to_install(run: Run, desk: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pocketsphinx", None)
    (desk / "a.wav").write_bytes(b"x")
    result = run("listen", "a.wav")
    assert result.exit_code == 1
    assert 'python -m pip install "notesparse[voice]"' in result.stderr


@pytest.fixture
def walk(desk: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """A recording, and what two recognisers would make of it: there is no sound in this file of tests."""
    said = Utterance(0.0, 2.0, hearing("plant 3, fifteen trifs"), (), (Unsure(2, 3, (("sixteen",),), "differs"),))
    recording = Recording("2026-07-14_walk.wav", "ab" * 32, b"\0" * 64_000)
    monkeypatch.setattr("notesparse.cli.listen.ears_with", lambda *_: type("Two", (), {"weak": False}))
    monkeypatch.setattr(audio, "load", lambda path: recording)
    monkeypatch.setattr(ears, "heard", lambda *_: iter([said]))
    (desk / recording.name).write_bytes(b"x")
    (desk / "notes").mkdir()
    return recording.name


def test_a_recording_that_is_heard_again_is_read_with_its_answers(walk: str, run: Run, desk: Path) -> None:
    first = json.loads(run("listen", walk, "--notes", "notes", "--json").stdout)
    assert [(q["quote"], q["answer"]) for q in first["questions"]] == [("fifteen", None)]
    sitting = Sitting([load("notes/2026-07-14_walk.txt")])
    turn = sitting.next()
    assert turn is not None
    sitting.choose(turn, 1)
    assert len(read_entries("notes/2026-07-14_walk.answers.toml")) == 1
    again = json.loads(run("listen", walk, "--notes", "notes", "--json").stdout)
    assert again == json.loads(run("read", "notes/2026-07-14_walk.txt", "--json").stdout)
    assert [q["answer"] for q in again["questions"]] == [1]
    assert again["visits"][0]["plants"][0]["trifoliates"] == 16
    page = run("listen", walk, "--notes", "notes")
    assert (page.exit_code, "which was said" in page.stdout) == (0, False)


def test_what_lies_beside_the_recording_is_not_taken_for_what_was_heard(walk: str, run: Run, desk: Path) -> None:
    """An older note of the recording, made in its own folder: what is heard now is what is read."""
    (desk / "2026-07-14_walk.heard.json").write_text("{}", encoding="utf-8")
    result = run("listen", walk, "--json")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["heard"]["source"] == walk


def test_the_farms_own_names_and_words_are_listened_for(
    walk: str, run: Run, desk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[Own] = []
    with_two = type("Two", (), {"weak": False})
    monkeypatch.setattr("notesparse.cli.listen.ears_with", lambda folder, own: asked.append(own) or with_two)
    (desk / "wagon.txt").write_text("Wagon Gate\nplant 1 nine trifs\n", encoding="utf-8")
    assert run("keep", "wagon.txt", "--season", "season.db").exit_code == 0
    assert run("teach", "jumpers", "thrips").exit_code == 0
    assert run("listen", walk).exit_code == 0
    monkeypatch.setenv("NOTESPARSE_SEASON", "season.db")
    assert run("listen", walk).exit_code == 0
    assert run("listen", walk, "--no-taught").exit_code == 0
    monkeypatch.setenv("NOTESPARSE_SEASON", "none.db")  # not begun yet
    assert run("listen", walk, "--no-taught").exit_code == 0
    assert [(own.names, "jumpers" in own.words) for own in asked] == [
        ((), True),
        (("Wagon Gate",), True),
        (("Wagon Gate",), False),
        ((), False),
    ]
