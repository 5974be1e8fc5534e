"""Made-up notes, spoken by a machine voice and heard for real. What is asserted is the record, not the text."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from notesparse.cli.app import app
from notesparse.listening import models
from tests.listening.conftest import Say, needs_pocketsphinx, needs_voice, needs_whisper, whisper_folder

pytestmark = [needs_voice, needs_pocketsphinx, pytest.mark.slow]

OFF = "The meeting has been moved to four thirty on Thursday, please bring the printed agenda."


@pytest.fixture(autouse=True)
def no_fetched_model(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody's own model: where it is wanted it is named."""
    monkeypatch.setattr(models, "fetched_place", lambda: str(tmp_path / "none"))


def heard(path: Path, *more: str) -> dict[str, Any]:
    result = CliRunner().invoke(app, ["listen", str(path), "--json", "--date", "2026-07-14", *more])
    assert result.exit_code == 0, result.stderr
    record: dict[str, Any] = json.loads(result.stdout)
    return record


def plants(record: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {p["plant"]: p for v in record["visits"] for p in v["plants"]}


def open_values(record: dict[str, Any]) -> Iterator[str]:
    for question in record["questions"]:
        for choice in question["choices"]:
            yield from choice["makes"]


def right_or_asked(record: dict[str, Any], plant: str, key: str, value: Any) -> None:
    """The law: a value is as it was said, or it is asked about, or it is not there and something is told."""
    got = plants(record).get(plant, {}).get(key)
    told = set(open_values(record)) | {u["quote"] for u in record["unread"]}
    assert got == value or key in told or "plants" in told or (got is None and told), (got, record["questions"])


def test_a_clear_note_by_the_small_recogniser_alone(say: Say) -> None:
    record = heard(
        say("plant three, eleven trifs, top leaf unrolled.", "pods three sixteenths of an inch on the third node down.")
    )
    assert plants(record)["3"]["trifoliates"] == 11
    for key, value in {"top_leaf": "unrolled", "pod_mm": 4.7625, "pods_from_top": [3]}.items():
        right_or_asked(record, "3", key, value)
    assert record["heard"]["weak"] is True
    assert record["heard"]["refused"] == []


def test_two_plants_by_the_small_recogniser_alone(say: Say) -> None:
    record = heard(say("plant one, eight trifs, R two.", "plant two, seven trifs, R one.", voice="rms"))
    for plant, trifs, stage in (("1", 8, "R2"), ("2", 7, "R1")):
        right_or_asked(record, plant, "trifoliates", trifs)
        right_or_asked(record, plant, "stated_r", stage)


def test_other_talk_is_refused_and_stays_visible(say: Say) -> None:
    record = heard(say(OFF))
    assert record["visits"] == []
    (refused,) = record["heard"]["refused"]
    assert refused["end"] > refused["start"]
    assert [u["why"] for u in record["unread"]] == [f"not heard: {refused['why']}"]


@pytest.mark.parametrize(
    "text", ["plant four, nine trifs, no flowers yet.", "plant seven, fifteen trifs, pods full length."]
)
def test_wind_that_drowns_the_voice_is_refused(say: Say, text: str) -> None:
    record = heard(say(text, noise=5))
    assert record["visits"] == []
    assert record["heard"]["refused"] and record["unread"]


def test_a_kept_note_is_read_with_its_doubts(say: Say, tmp_path: Path) -> None:
    (tmp_path / "notes").mkdir()
    first = heard(say("plant one, nine trifs.", name="2026-07-14_creek.wav"), "--notes", str(tmp_path / "notes"))
    note = tmp_path / "notes" / "2026-07-14_creek.txt"
    result = CliRunner().invoke(app, ["read", str(note), "--json"])
    assert result.exit_code == 0
    again = json.loads(result.stdout)
    assert again["visits"] == first["visits"]
    assert [q["ask"] for q in again["questions"]] == [q["ask"] for q in first["questions"]]
    assert again["heard"] == first["heard"]


@needs_whisper
@pytest.mark.parametrize("voice", ["slt", "rms"])
def test_a_clear_note_by_both(say: Say, voice: str) -> None:
    said = "plant three, eleven trifs, top leaf unrolled, pods quarter of an inch on the third node down."
    record = heard(say(said, voice=voice), "--model", str(whisper_folder()))
    facts = {"trifoliates": 11, "top_leaf": "unrolled", "pod_mm": 6.35, "pods_from_top": [3]}
    for key, value in facts.items():
        right_or_asked(record, "3", key, value)
    assert sum(plants(record)["3"][key] == value for key, value in facts.items()) >= 2
    assert record["heard"]["weak"] is False
    assert len(record["heard"]["model"]) == 64


@needs_whisper
def test_other_talk_is_refused_by_both(say: Say) -> None:
    record = heard(say(OFF, "plant one, nine trifs."), "--model", str(whisper_folder()))
    talk, note = record["heard"]["utterances"]
    assert talk["refused"] is not None
    assert note["refused"] is not None or plants(record)["1"]["trifoliates"] == 9
