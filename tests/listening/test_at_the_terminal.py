"""`confirm --listen` at a terminal: Space listens, Enter takes what was heard. The microphone is a stand-in.

It plays files in the place of the sound library; the detector of speech, the end of an answer, the recogniser are real.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import pytest

from notesparse.answers.file import read_entries
from tests.cli.conftest import surroundings
from tests.listening.conftest import Say, needs_pocketsphinx, needs_voice

pytestmark = [
    needs_voice,
    needs_pocketsphinx,
    pytest.mark.slow,
    pytest.mark.skipif(sys.platform == "win32", reason="a pseudo-terminal is needed"),
]

STAND_IN = """
import os, pathlib, wave
sounds = iter(sorted(pathlib.Path(os.environ["SAID"]).glob("*.wav")))
class PortAudioError(Exception): pass
def check_input_settings(**settings):
    assert settings == {"channels": 1, "dtype": "int16", "samplerate": 16000}
class RawInputStream:
    def __init__(self, **settings): pass
    def __enter__(self):
        path = next(sounds, None)
        if path is None:
            raise PortAudioError("the microphone was unplugged")
        with wave.open(str(path)) as file:
            self.left = file.readframes(file.getnframes())
        return self
    def __exit__(self, *fault): pass
    def read(self, count):
        here, self.left = self.left[: 2 * count], self.left[2 * count :]
        return here + bytes(2 * count - len(here)), False
"""


@pytest.fixture
def terminal(tmp_path: Path, say: Say) -> Any:
    """``terminal("eleven", "yes")``: the program at a terminal, with what will be said into its microphone in order."""
    pexpect = pytest.importorskip("pexpect")
    (tmp_path / "low.txt").write_text("Low Ladder\np1 ten or eleven trifs\n", encoding="utf-8")
    (tmp_path / "stand_in").mkdir()
    (tmp_path / "stand_in" / "sounddevice.py").write_text(STAND_IN, encoding="utf-8")
    (tmp_path / "said").mkdir()
    started = []

    def start(*words: str) -> Any:
        for at, word in enumerate(words):
            say(word, voice="rms", name=f"said/{at:02}.wav")
        env = surroundings(TERM="xterm", NO_COLOR="1", PYTHONUTF8="1", SAID=str(tmp_path / "said"))
        env["PYTHONPATH"] = f"{tmp_path / 'stand_in'}:{env['PYTHONPATH']}"
        t = pexpect.spawn(
            sys.executable,
            ["-m", "notesparse", "confirm", "low.txt", "--listen"],
            cwd=str(tmp_path),
            env=env,
            dimensions=(30, 90),
            encoding="utf-8",
            timeout=40,
        )
        started.append(t)
        t.expect_exact("Space: speak")
        return t

    yield start
    for t in started:
        t.close(force=True)


def kept(folder: Path) -> list[dict[str, Any]]:
    path = folder / "low.answers.toml"
    return [dict(e.values) for e in read_entries(str(path))] if path.exists() else []


def test_space_listens_and_enter_takes_it(terminal: Any, tmp_path: Path) -> None:
    t = terminal("eleven")
    t.send(" ")
    t.expect_exact("Heard “eleven”:  b  11   Right? Enter, or “yes”, takes it.")
    assert kept(tmp_path) == []  # heard, and not taken yet
    t.send("\r")
    t.expect_exact("That was the last question")
    assert kept(tmp_path) == [{"trifoliates": 11}]
    t.send("\r")
    t.expect_exact("1 answer given")


def test_another_key_than_enter_does_not_take_what_was_heard(terminal: Any, tmp_path: Path) -> None:
    t = terminal("eleven")
    t.send(" ")
    t.expect_exact("Heard “eleven”:  b  11")
    t.send("a")  # the key counts, not what was heard
    t.expect_exact("That was the last question")
    assert kept(tmp_path) == [{"trifoliates": 10}]


def test_enter_takes_nothing_where_nothing_was_heard(terminal: Any, tmp_path: Path) -> None:
    t = terminal("the tractor needs a new battery before friday")
    t.send("\r")
    t.send(" ")
    t.expect_exact("nothing is taken. Say the answer again.")
    t.send("\r")
    t.send("q")
    t.expect_exact("0 answers given")
    assert kept(tmp_path) == []


def test_a_microphone_that_goes_away_costs_no_answer(terminal: Any, tmp_path: Path) -> None:
    t = terminal("eleven")
    t.send(" ")
    t.expect_exact("Heard “eleven”:  b  11")
    t.send(" ")
    t.expect_exact("There is no microphone that can be used (the microphone was unplugged).")
    assert kept(tmp_path) == []
