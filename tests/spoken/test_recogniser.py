"""The files are such as a recogniser takes, and a machine's voice is heard with them."""

from __future__ import annotations

import shutil
import subprocess
import wave
from pathlib import Path

import pytest

from notesparse.spoken.answers import Answered, answer_of
from notesparse.spoken.compiled import compiled

pocketsphinx = pytest.importorskip("pocketsphinx")
VOICE = shutil.which("flite")
needs_voice = pytest.mark.skipif(VOICE is None, reason="flite, the voice of the tests, is not installed")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("spoken")


@pytest.fixture(scope="module")
def answers(folder: Path):
    """The small ear, that knows answers only."""
    spoken = compiled()
    fsg, words = spoken.answers_fsg(folder), spoken.dictionary(folder)
    return pocketsphinx.Decoder(fsg=str(fsg), dict=str(words), bestpath=False, loglevel="FATAL")


@pytest.fixture(scope="module")
def notes(folder: Path):
    """The ear that knows notes."""
    spoken = compiled()
    return pocketsphinx.Decoder(lm=str(spoken.arpa(folder)), dict=str(spoken.dictionary(folder)), loglevel="FATAL")


def heard(ear, folder: Path, text: str) -> str:
    path = folder / "said.wav"
    subprocess.run([VOICE, "-voice", "slt", "-t", text, "-o", str(path)], check=True)
    with wave.open(str(path)) as sound:
        assert sound.getframerate() == 16_000
        data = sound.readframes(sound.getnframes())
    ear.start_utt()
    ear.process_raw(b"\0" * 6400 + data + b"\0" * 6400, full_utt=True)
    ear.end_utt()
    return ear.hyp().hypstr if ear.hyp() else ""


@needs_voice
@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("eleven", Answered("number", 11)),
        ("seventeen", Answered("number", 17)),
        ("yes", Answered("yes")),
        ("no", Answered("no")),
        ("bravo", Answered("letter", "b")),
        ("go back", Answered("back")),
        ("three sixteenths", None),
    ],
)
def test_an_answer_is_heard(answers, folder: Path, said: str, answer: Answered | None) -> None:
    found = answer_of(heard(answers, folder, said).split())
    assert found == (answer or answer_of(said.split()))


@needs_voice
def test_a_note_is_heard_with_its_figures(notes, folder: Path) -> None:
    found = heard(notes, folder, "plant five, eleven trifoliates, flowers at the top two nodes")
    assert "plant five eleven trifoliates" in found, found
    assert "top two nodes" in found, found


def test_the_recogniser_has_every_word_of_the_model(notes) -> None:
    spoken = compiled()
    assert [w for w in sorted(spoken.trigram.words | spoken.answers.words) if notes.lookup_word(w) is None] == []


def test_the_recogniser_gives_the_same_probabilities(notes, folder: Path) -> None:
    spoken = compiled()
    model = pocketsphinx.NGramModel(
        pocketsphinx.Config(lm=str(spoken.arpa(folder))), pocketsphinx.LogMath(), str(spoken.arpa(folder))
    )
    log = pocketsphinx.LogMath()
    for a, b, c in [
        ("plant", "five", "eleven"),
        ("top", "two", "nodes"),
        ("the", "dog", "pods"),
        ("r", "three", "plant"),
    ]:
        theirs = log.log_to_ln(model.prob([c, b, a]))  # the word first, then what stands before it, backwards
        assert theirs == pytest.approx(spoken.trigram.step((a, b), c), abs=0.02)
