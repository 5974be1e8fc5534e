"""Where there is speech: a recording cut at its pauses."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.errors import InputError
from notesparse.listening.heard import RATE, Recording

PAUSE = 0.45
"""Seconds of silence that end an utterance (measured: it found exactly the forty notes of a long recording)."""
PAD = 0.2
"""Seconds kept before and after an utterance, so that soft sounds at its ends are not lost."""
LONGEST = 24.0
"""Seconds of one utterance: the recogniser sees 30, and the padding and its own cut want room."""
SPEECH = 0.4
"""Probability of speech from which a stretch counts: a little under the usual 0.5, as what is no speech is refused
later with a word, and what is thrown away here is lost without one."""


def utterances(recording: Recording) -> list[tuple[float, float]]:
    """Start and end, in seconds, of each stretch of speech, in order, none longer than `LONGEST` and its padding."""
    try:
        found = _by_silero(recording)
    except ImportError:
        found = _by_frames(recording)
    return [part for start, end in found for part in _capped(recording, start, end)]


def _by_silero(recording: Recording) -> list[tuple[float, float]]:
    """By the Silero detector that comes with faster-whisper."""
    import numpy
    from faster_whisper.vad import VadOptions, get_speech_timestamps

    sound = numpy.frombuffer(recording.samples, numpy.int16).astype(numpy.float32) / 32768.0
    options = VadOptions(
        threshold=SPEECH,
        min_speech_duration_ms=100,
        min_silence_duration_ms=round(PAUSE * 1000),
        speech_pad_ms=round(PAD * 1000),
    )
    return [(s["start"] / RATE, s["end"] / RATE) for s in get_speech_timestamps(sound, options)]


def _by_frames(recording: Recording) -> list[tuple[float, float]]:
    """By the detector inside pocketsphinx, frame by frame."""
    try:
        from pocketsphinx import Vad
    except ImportError:
        raise InputError('Listening needs more libraries: python -m pip install "notesparse[voice]"') from None
    detector = Vad(Vad.STRICT, RATE, 0.03)
    size = detector.frame_bytes
    flags = [
        detector.is_speech(recording.samples[at : at + size])
        for at in range(0, len(recording.samples) - size + 1, size)
    ]
    return islands(flags, detector.frame_length, recording.seconds)


def islands(flags: Sequence[bool], frame: float, seconds: float) -> list[tuple[float, float]]:
    """Runs of speech frames (each `frame` seconds long), joined over gaps shorter than `PAUSE`, padded."""
    smooth = _majority(flags, 9)
    runs: list[list[float]] = []
    for at, speech in enumerate(smooth):
        if not speech:
            continue
        start, end = at * frame, (at + 1) * frame
        if runs and start - runs[-1][1] < PAUSE:
            runs[-1][1] = end
        else:
            runs.append([start, end])
    return [(max(0.0, a - PAD), min(seconds, b + PAD)) for a, b in runs if b - a >= 0.1]


def _majority(flags: Sequence[bool], width: int) -> list[bool]:
    """Each flag by the majority of those around it, so that one crackle is no word and one soft frame no pause."""
    half = width // 2
    sums = [0]
    for flag in flags:
        sums.append(sums[-1] + bool(flag))
    out = []
    for at in range(len(flags)):
        a, b = max(0, at - half), min(len(flags), at + half + 1)
        out.append(2 * (sums[b] - sums[a]) > b - a)
    return out


def _capped(recording: Recording, start: float, end: float) -> list[tuple[float, float]]:
    """A long stretch cut at its quietest places."""
    if end - start <= LONGEST:
        return [(start, end)]
    import numpy

    sound = numpy.frombuffer(recording.cut(start, end), numpy.int16).astype(numpy.float32)
    step = RATE // 50
    loud = numpy.convolve((sound[: len(sound) // step * step].reshape(-1, step) ** 2).mean(axis=1), numpy.ones(7), "same")
    first, last = int(0.5 * LONGEST * 50), min(int(LONGEST * 50), len(loud))
    cut = start + (first + int(loud[first:last].argmin())) / 50
    return [(start, cut), *_capped(recording, cut, end)]
