"""Answers by voice: synthesised answers are taken once they are accepted; noise, talk and mumbling never are."""

from __future__ import annotations

import random
import shutil
import subprocess
import sys
import wave
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from notesparse.answers.file import read_entries
from notesparse.cli.hear import meant
from notesparse.errors import InputError
from notesparse.flow import read
from notesparse.listening import microphone
from notesparse.listening.answers import Ear, loop, recordings
from notesparse.listening.heard import RATE, Recording
from notesparse.spoken.answers import Answered
from tests.cli.conftest import surroundings

NOTE = "Low Ladder\np1 ten or eleven trifs\np3 three quarter inch pods top four\n"
OFF_TOPIC = (
    "the tractor needs a new battery before friday",
    "we should get some lunch in town",
    "turn left at the church and keep going",
    "my knee has been hurting all week",
    "um let me see now where was i",
    "mm hmm well you know",
)


@pytest.fixture(scope="module")
def ear() -> Ear:
    pytest.importorskip("pocketsphinx")
    return Ear()


@pytest.fixture(scope="module")
def say(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Path]:
    if not (shutil.which("flite") and shutil.which("sox")):
        pytest.skip("flite and sox are needed")
    folder = tmp_path_factory.mktemp("said")

    def said(words: str, voice: str = "rms") -> Path:
        raw, path = folder / "raw.wav", folder / f"{words.replace(' ', '_')}-{voice}.wav"
        if not path.exists():
            subprocess.run(["flite", "-voice", voice, "-t", words, str(raw)], check=True)
            shape = ["-r", str(RATE), "-c", "1", "-b", "16"]
            subprocess.run(["sox", "-D", str(raw), *shape, str(path), "pad", "0.3", "0.3"], check=True)
        return path

    return said


def sound(path: Path) -> Recording:
    with wave.open(str(path)) as file:
        return Recording(path.name, "", file.readframes(file.getnframes()))


def noise(loud: int, smooth: int, seed: int, seconds: float = 2.0) -> Recording:
    """Noise; with `smooth` it is a rumble, as wind is in a microphone."""
    chance = random.Random(seed)
    state, samples = 0.0, bytearray()
    for _ in range(int(seconds * RATE)):
        state += (chance.gauss(0, loud) - state) / smooth
        samples += max(-32768, min(32767, int(state * smooth**0.5))).to_bytes(2, "little", signed=True)
    return Recording("noise", "", bytes(samples))


@pytest.mark.parametrize(
    ("words", "answer"),
    [
        ("five", Answered("number", Fraction(5))),
        ("fifteen", Answered("number", Fraction(15))),
        ("half an inch", Answered("length", Fraction(1, 2), "in")),
        ("twelve millimeters", Answered("length", Fraction(12), "mm")),
        ("r three", Answered("stage", "R3")),
        ("v five", Answered("stage", "V5")),
        ("bravo", Answered("letter", "b")),
        ("charlie", Answered("letter", "c")),
        ("back", Answered("back")),
        ("undo", Answered("undo")),
    ],
)
def test_an_answer_is_heard(ear: Ear, say: Callable[..., Path], words: str, answer: Answered) -> None:
    said = ear.hear(sound(say(words)))
    assert said.answer == answer, said


@pytest.mark.parametrize("words", OFF_TOPIC)
@pytest.mark.parametrize("voice", ["rms", "slt"])
def test_talk_is_no_answer(ear: Ear, say: Callable[..., Path], words: str, voice: str) -> None:
    said = ear.hear(sound(say(words, voice)))
    assert said.answer is None and said.why


@pytest.mark.parametrize("loud", [300, 3000])
@pytest.mark.parametrize("smooth", [1, 40])
def test_noise_is_no_answer(ear: Ear, loud: int, smooth: int) -> None:
    for seed in range(3):
        said = ear.hear(noise(loud, smooth, seed))
        assert said.answer is None and said.why


@pytest.mark.parametrize(
    ("words", "meant"), [("five", ("number",)), ("bravo", ("letter", "b")), ("r three", ("stage", "R3"))]
)
def test_mumbling_is_no_other_answer(
    ear: Ear, say: Callable[..., Path], tmp_path: Path, words: str, meant: tuple[str, ...]
) -> None:
    """What is mumbled may be heard rightly, or asked again, and is never another answer."""
    dull = tmp_path / "dull.wav"
    subprocess.run(["sox", "-D", str(say(words)), str(dull), "lowpass", "350", "lowpass", "350"], check=True)
    answer = ear.hear(sound(dull)).answer
    assert answer is None or (answer.kind, str(answer.value))[: len(meant)] == meant


def test_silence_is_no_answer(ear: Ear) -> None:
    assert ear.hear(Recording("silence", "", bytes(2 * RATE))).why == "nothing was heard"


class Passes:
    """Stands for a decoder: it hears the same whatever is said."""

    def __init__(self, hears: str) -> None:
        self.hypstr = hears

    def __getattr__(self, name: str) -> Callable[..., object]:
        return lambda *_, **__: self if self.hypstr else None


@pytest.mark.parametrize(
    ("answers", "trigram", "free", "clear"),
    [
        ("five", "five", "beef", True),
        ("five", "fine", "five", True),
        ("five", "nine", "fine", False),
        ("five", "", "five", False),  # wind: one of them finds no words in it
        ("five", "five five", "fine", False),
        ("", "five", "five", False),
    ],
)
def test_a_second_pass_must_agree(
    monkeypatch: pytest.MonkeyPatch, answers: str, trigram: str, free: str, clear: bool
) -> None:
    monkeypatch.setattr("notesparse.listening.answers.utterances", lambda recording: [(0.0, 1.0)])
    ear = object.__new__(Ear)
    ear._answers, ear._trigram, ear._free = Passes(answers), Passes(trigram), Passes(free)
    assert (ear.hear(Recording("x", "", bytes(2 * RATE))).answer is not None) is clear


def test_a_loop_knows_no_order() -> None:
    assert loop(["no", "yes"]).count("TRANSITION 0 1 0.5") == 2


def test_what_an_answer_means() -> None:
    count, length = sorted(read(NOTE).questions, key=lambda q: q.plant or "")
    assert [c.reading for c in count.choices] == ["10", "11"]

    def key(question: object, answer: Answered) -> object:
        found = meant(question, answer)  # type: ignore[arg-type]
        return found and (found.key, found.values)

    assert key(count, Answered("number", Fraction(11))) == ("b", None)
    assert key(count, Answered("number", Fraction(12))) == ("o", {"trifoliates": 12})
    assert key(count, Answered("number", Fraction(99))) is None  # beyond what a plant has
    assert key(count, Answered("number", Fraction(3, 4))) is None
    assert key(count, Answered("letter", "c")) is None
    assert key(count, Answered("yes")) is None
    assert key(count, Answered("stage", "R3")) is None
    assert key(length, Answered("length", Fraction(3, 4), "in")) == ("b", None)
    assert key(length, Answered("number", Fraction(10))) is None  # ten what
    assert key(length, Answered("unknown")) == ("s", None)


def confirm(note: Path, sounds: Path) -> str:
    done = subprocess.run(
        [sys.executable, "-m", "notesparse", "confirm", note.name, "--recordings", str(sounds)],
        cwd=note.parent, env=surroundings(PYTHONUTF8="1"), capture_output=True, text=True, timeout=120,
        stdin=subprocess.DEVNULL,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.fixture
def note(tmp_path: Path) -> Path:
    path = tmp_path / "low.txt"
    path.write_text(NOTE, encoding="utf-8")
    return path


def in_order(folder: Path, files: list[Path]) -> Path:
    folder.mkdir()
    for at, path in enumerate(files):
        shutil.copy(path, folder / f"{at:02}.wav")
    return folder


def kept(note: Path) -> list[object]:
    path = note.with_name("low.answers.toml")
    return [dict(e.values) for e in read_entries(str(path))] if path.exists() else []


def test_an_answer_is_taken_after_it_is_accepted(note: Path, say: Callable[..., Path], tmp_path: Path) -> None:
    pytest.importorskip("pocketsphinx")
    said = [say("bravo"), say("yes", "slt"), say("skip", "slt"), say("yes", "slt")]
    told = confirm(note, in_order(tmp_path / "said", said))
    assert "Heard “bravo”:  b  11" in told
    assert kept(note) == [{"trifoliates": 11}]


@pytest.mark.parametrize("then", [(), ("no",), ("five",), (OFF_TOPIC[0], "yes")])
def test_nothing_is_taken_without_it(
    note: Path, say: Callable[..., Path], tmp_path: Path, then: tuple[str, ...]
) -> None:
    pytest.importorskip("pocketsphinx")
    told = confirm(note, in_order(tmp_path / "said", [say("bravo"), *(say(words, "slt") for words in then)]))
    assert "Heard “bravo”:  b  11" in told and "no more recordings" in told
    assert kept(note) == []


def test_a_folder_without_recordings(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no sound files"):
        recordings(str(tmp_path))
    with pytest.raises(InputError, match="no such folder"):
        recordings(str(tmp_path / "none"))


def test_no_library_for_the_microphone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "sounddevice", None)
    with pytest.raises(InputError, match="pip install"):
        microphone.answers()


class Deaf:
    """A sound library on a computer without a microphone."""

    class PortAudioError(Exception):
        pass

    def check_input_settings(self, **_: object) -> None:
        raise self.PortAudioError("Error querying device -1")


class Chirping(Deaf):
    """One that hears silence for a second, then a voice (frames of ones) for one, then silence."""

    def check_input_settings(self, **_: object) -> None:
        self.at = 0

    def RawInputStream(self, **_: object) -> Chirping:
        return self

    def __enter__(self) -> Chirping:
        return self

    def __exit__(self, *_: object) -> None:
        pass

    def read(self, count: int) -> tuple[bytes, bool]:
        self.at += 1
        return (b"\1" if 33 <= self.at < 66 else b"\0") * 2 * count, False


def test_no_microphone(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("pocketsphinx")
    monkeypatch.setattr(microphone, "_library", Deaf)
    with pytest.raises(InputError, match="There is no microphone"):
        microphone.answers()


def test_an_answer_ends_at_the_pause() -> None:
    class Listens:
        def is_speech(self, frame: bytes) -> bool:
            return frame[0] == 1

    library = Chirping()
    library.check_input_settings()
    sounds: Iterator[Recording] = microphone._spoken(library, Listens())
    assert 2.7 < next(sounds).seconds < 2.9  # a second before, one of speech, and the pause


def test_when_an_answer_is_over() -> None:
    assert not microphone.ended([])
    assert microphone.ended([False] * 167)
    assert not microphone.ended([True] * 100)
    assert microphone.ended([True] * 267)
