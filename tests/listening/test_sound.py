"""Sound files in, pauses found, and the folders of models."""

from __future__ import annotations

import hashlib
import importlib.util
import json
import sys
import wave
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import pytest

from notesparse.errors import InputError
from notesparse.listening import audio, models
from notesparse.listening.heard import RATE, Recording
from notesparse.listening.pauses import LONGEST, PAD, _capped, islands, outside
from tests.listening.conftest import tone

needs_av = pytest.mark.skipif(importlib.util.find_spec("av") is None, reason="PyAV is not installed")


def test_a_plain_wav_needs_no_library(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "av", None)
    made = audio.load(str(tone(tmp_path / "a.wav")))
    assert (made.name, made.seconds, len(made.sha256)) == ("a.wav", 1.0, 64)
    with pytest.raises(InputError, match=r"b\.wav: without PyAV .*notesparse\[voice\]"):
        audio.load(str(tone(tmp_path / "b.wav", rate=44100)))


@needs_av
@pytest.mark.parametrize(("rate", "channels"), [(8000, 1), (44100, 2), (48000, 1)])
def test_other_rates_and_channels_are_evened_out(tmp_path: Path, rate: int, channels: int) -> None:
    made = audio.load(str(tone(tmp_path / "a.wav", rate=rate, channels=channels)))
    assert made.seconds == pytest.approx(1.0, abs=0.02)


@needs_av
@pytest.mark.parametrize(
    ("ending", "codec"), [("mp3", "mp3"), ("m4a", "aac"), ("ogg", "libvorbis"), ("flac", "flac"), ("webm", "libopus")]
)
def test_usual_containers_are_read(tmp_path: Path, ending: str, codec: str) -> None:
    import av

    path = tmp_path / f"a.{ending}"
    try:
        with av.open(str(path), "w") as out, av.open(str(tone(tmp_path / "a.wav", rate=48000))) as source:
            stream = out.add_stream(codec, rate=48000)
            even = av.AudioResampler(format=stream.format, layout="mono", rate=48000)
            stream.layout = "mono"
            fifo = av.AudioFifo()
            for frame in source.decode(audio=0):
                for piece in even.resample(frame):
                    fifo.write(piece)
            size = stream.codec_context.frame_size or 1024
            while (piece := fifo.read(size, partial=True)) is not None:
                out.mux(stream.encode(piece))
            out.mux(stream.encode(None))
    except (av.error.FFmpegError, ValueError, TypeError) as fault:
        pytest.skip(f"{codec} cannot be written here ({fault})")
    assert audio.load(str(path)).seconds == pytest.approx(1.0, abs=0.1)


def test_what_cannot_be_heard_is_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "empty.wav").write_bytes(b"")
    (tmp_path / "text.mp3").write_text("plant 3 eleven trifs\n" * 50)
    tone(tmp_path / "short.wav", seconds=0.05)
    with wave.open(str(tmp_path / "silent.wav"), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(b"\0\0" * RATE)
    cases = {
        "gone.wav": "there is no such file",
        "empty.wav": "it is empty",
        "short.wav": "less than 0.2 seconds",
        "silent.wav": "nothing but silence",
        ".": "is a folder",
        "a\0b": "cannot be read",
    }
    if importlib.util.find_spec("av") is not None:
        cases["text.mp3"] = "is no sound file"
    for name, why in cases.items():
        with pytest.raises(InputError, match=why) as fault:
            audio.load(str(tmp_path / name))
        assert "\n" not in str(fault.value)


@needs_av
def test_a_picture_has_no_sound(tmp_path: Path) -> None:
    import av
    import numpy

    with av.open(str(tmp_path / "a.mp4"), "w") as out:
        stream = out.add_stream("mpeg4", rate=5)
        stream.width = stream.height = 64
        frame = av.VideoFrame.from_ndarray(numpy.zeros((64, 64, 3), "uint8"), format="rgb24")
        out.mux(stream.encode(frame))
        out.mux(stream.encode(None))
    with pytest.raises(InputError, match="there is no sound in this file"):
        audio.load(str(tmp_path / "a.mp4"))


def test_too_long_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(audio, "LONGEST", 0.5)
    with pytest.raises(InputError, match="too long for a note"):
        audio.load(str(tone(tmp_path / "a.wav")))


def test_runs_of_speech_are_joined_over_short_gaps() -> None:
    flags = [False] * 40 + [True] * 30 + [False] * 10 + [True] * 30 + [False] * 40 + [True] * 20 + [False] * 40
    found = islands(flags, 0.03, 6.3)
    assert len(found) == 2
    assert found[0] == (pytest.approx(1.2 - PAD, abs=0.15), pytest.approx(3.3 + PAD, abs=0.15))


def test_one_crackle_is_no_word() -> None:
    assert islands([False] * 50 + [True] * 2 + [False] * 50, 0.03, 3.06) == []


def test_what_lies_outside_of_what_was_found() -> None:
    assert outside(0.0, 10.0, [(2.0, 3.0), (8.0, 12.0)]) == [(0.0, 2.0), (3.0, 8.0)]
    assert outside(2.0, 3.0, [(1.0, 4.0)]) == []
    assert outside(0.0, 1.0, []) == [(0.0, 1.0)]


def test_long_speech_is_cut_where_it_is_quiet() -> None:
    import numpy

    loud = numpy.full(RATE * 60, 5000, numpy.int16)
    loud[RATE * 20 : RATE * 20 + 4000] = 0
    parts = _capped(Recording("a", "", loud.tobytes()), 0.0, 60.0)
    assert parts[0] == (0.0, pytest.approx(20.1, abs=0.1))
    assert all(b - a <= LONGEST + 0.1 for a, b in parts)
    assert [a for a, _ in parts[1:]] == [b for _, b in parts[:-1]]


def test_a_folder_is_a_model_or_it_is_told_what_is_missing(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such folder"):
        models.checked(str(tmp_path / "gone"))
    (tmp_path / "model.bin").write_bytes(b"x")
    with pytest.raises(InputError, match=r"it has no config\.json, vocabulary\.json \(or \.txt\), tokenizer\.json"):
        models.checked(str(tmp_path))
    for name in ("config.json", "vocabulary.txt", "tokenizer.json"):
        (tmp_path / name).write_text("{}")
    assert models.checked(str(tmp_path)) == str(tmp_path)
    assert models.fingerprint(str(tmp_path)).startswith("2d711642b726b044")  # SHA-256 of "x"


def _stand_in(files: tuple[str, ...]) -> SimpleNamespace:
    """In the place of the library: it "downloads" these files. (Nothing here has a network.)"""

    def download_model(name: str, output_dir: str) -> str:
        assert name == models.WANTED
        for file in files:
            (Path(output_dir) / file).write_text("{}")
        return output_dir

    return SimpleNamespace(download_model=download_model)


WHOLE = ("model.bin", "config.json", "vocabulary.json", "tokenizer.json")


def test_a_model_is_fetched_whole_or_not_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place, loaded = str(tmp_path / "whisper"), []
    monkeypatch.setitem(sys.modules, "faster_whisper", _stand_in(WHOLE[:2]))
    with pytest.raises(InputError, match="is no Whisper model"):
        models.fetch(place, loaded.append)
    assert (loaded, Path(place).exists()) == ([], False)
    monkeypatch.setitem(sys.modules, "faster_whisper", _stand_in(WHOLE))
    assert models.fetch(place, loaded.append) == place
    assert sorted(p.name for p in Path(place).iterdir()) == sorted([*WHOLE, models.PRINTS])
    assert (len(loaded), [p.name for p in tmp_path.iterdir()]) == (1, ["whisper"])
    with pytest.raises(InputError, match="there is something already"):
        models.fetch(place, loaded.append)


@pytest.fixture
def fetched(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setitem(sys.modules, "faster_whisper", _stand_in(WHOLE))
    return Path(models.fetch(str(tmp_path / "whisper"), len))


def test_a_fetched_model_has_the_print_of_each_file_beside_it(fetched: Path) -> None:
    kept = json.loads((fetched / models.PRINTS).read_text())
    empty = hashlib.sha256(b"{}").hexdigest()
    assert kept == {"model": models.WANTED, "sha256": dict.fromkeys(sorted(WHOLE), empty)}
    (fetched / ".lock").write_text("")
    (fetched / "notes.md").write_text("nothing that is read")
    assert models.checked(str(fetched)) == str(fetched)


def _changed(folder: Path) -> None:
    (folder / "model.bin").write_text("{} ")


def _taken_away(folder: Path) -> None:
    (folder / "extra.json").write_text("{}")
    prints = json.loads((folder / models.PRINTS).read_text())
    prints["sha256"]["extra.json"] = hashlib.sha256(b"{}").hexdigest()
    (folder / models.PRINTS).write_text(json.dumps(prints))
    models.checked(str(folder))
    (folder / "extra.json").unlink()


def _added(folder: Path) -> None:
    (folder / "preprocessor_config.json").write_text("{}")


def _no_prints(folder: Path) -> None:
    (folder / models.PRINTS).write_text('{"sha256": ["model.bin"]}')


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (_changed, r"model\.bin is not as it was fetched: its SHA-256 is another"),
        (_taken_away, r"extra\.json was fetched and is gone"),
        (_added, r"preprocessor_config\.json was not there when the model was fetched"),
        (_no_prints, r"fetched\.json cannot be read"),
    ],
)
def test_a_fetched_model_that_changed_is_refused(fetched: Path, change: Callable[[Path], None], says: str) -> None:
    change(fetched)
    with pytest.raises(InputError, match=rf"{says}.*fetch the model again with --fetch-model"):
        models.checked(str(fetched))


def test_no_network_is_one_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def download_model(name: str, output_dir: str) -> str:
        raise ConnectionError("no route\nand more")

    monkeypatch.setitem(sys.modules, "faster_whisper", SimpleNamespace(download_model=download_model))
    with pytest.raises(InputError, match=r"could not be fetched: no route$"):
        models.fetch(str(tmp_path / "whisper"), len)
