"""The microphone: one answer at a time, from when it is asked for until the pause behind it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from notesparse.errors import InputError
from notesparse.listening.heard import RATE, Recording

FRAME = 480
"""Samples of one look: 30 ms, which the detector of speech knows."""
WAIT = 5.0
"""Seconds without any speech after which it is left."""
QUIET = 0.8
"""Seconds of silence after speech that end an answer: longer than the pause inside "three quarters"."""
LONGEST = 8.0
"""Seconds of one answer, whatever is heard."""


def answers() -> Iterator[Recording]:
    """What is said, one recording each time it is asked for. Raises `InputError` at once where there is no way to."""
    library = _library()
    try:
        from pocketsphinx import Vad
    except ImportError:
        raise InputError('Listening needs more libraries: python -m pip install "notesparse[voice]"') from None
    try:
        library.check_input_settings(channels=1, dtype="int16", samplerate=RATE)
    except (library.PortAudioError, ValueError) as fault:
        raise InputError(_no_microphone(fault)) from None
    return _spoken(library, Vad(Vad.STRICT, RATE, FRAME / RATE))


def _library() -> Any:
    try:
        import sounddevice
    except ImportError:
        raise InputError(
            'Answers by voice need one more library: python -m pip install "notesparse[voice]". Or record them, and '
            "give the folder with --recordings."
        ) from None
    except OSError:  # the library is there, and the system's part of it is not
        raise InputError(
            "Answers by voice need PortAudio, which this computer does not have (on Debian and Ubuntu: apt install "
            "libportaudio2). Or record them, and give the folder with --recordings."
        ) from None
    return sounddevice


def _no_microphone(fault: Exception) -> str:
    told = str(fault).splitlines()[0] if str(fault) else type(fault).__name__
    return (
        f"There is no microphone that can be used ({told}). Plug one in, or allow its use in the settings of the "
        "computer; or record the answers, and give the folder with --recordings."
    )


def _spoken(library: Any, detector: Any) -> Iterator[Recording]:
    while True:
        frames: list[bytes] = []
        speech: list[bool] = []
        try:
            with library.RawInputStream(samplerate=RATE, channels=1, dtype="int16", blocksize=FRAME) as stream:
                while not ended(speech):
                    frames.append(bytes(stream.read(FRAME)[0]))
                    speech.append(bool(detector.is_speech(frames[-1])))
        except library.PortAudioError as fault:
            raise InputError(_no_microphone(fault)) from None
        yield Recording("microphone", "", b"".join(frames))


def ended(speech: list[bool]) -> bool:
    """Whether an answer is over, by what of its frames was speech."""
    wait, quiet, longest = (round(seconds * RATE / FRAME) for seconds in (WAIT, QUIET, LONGEST))
    if len(speech) >= longest:
        return True
    if sum(speech) < 3:  # a click is no speech
        return len(speech) >= wait
    return not any(speech[-quiet:])
