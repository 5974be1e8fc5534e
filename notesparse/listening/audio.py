"""Sound files of the usual kinds, as one channel of 16-bit samples at 16,000 a second."""

from __future__ import annotations

import hashlib
import os
import wave

from notesparse.errors import InputError
from notesparse.listening.heard import RATE, Recording

LONGEST = 2 * 3600.0
"""The most seconds of one recording: a long walk. Two hours are 230 MB of samples."""
LARGEST = 4_000_000_000
"""The most bytes of one file."""
SHORTEST = 0.2
"""Less than this many seconds holds no word."""

ENDINGS: tuple[str, ...] = (
    ".wav", ".mp3", ".m4a", ".aac", ".ogg", ".oga", ".opus", ".flac", ".amr", ".3gp", ".mp4", ".webm", ".aif", ".aiff",
    ".wma", ".caf", ".mov", ".mkv", ".mka",
)  # fmt: skip
"""The file names that count as recordings in a folder."""


def load(path: str) -> Recording:
    """The sound of a file. Raises `InputError`, in one sentence that names the file, where there is none to hear."""
    try:
        if os.path.isdir(path):
            raise InputError(f"{path}: is a folder, not a recording.")
        size = os.path.getsize(path)
        if size == 0:
            raise InputError(f"{path}: there is nothing in this file, it is empty.")
        if size > LARGEST:
            raise InputError(f"{path}: larger than {LARGEST // 1_000_000_000} GB, too large for a recording; cut it.")
        with open(path, "rb") as file:
            digest = hashlib.file_digest(file, "sha256").hexdigest()
            file.seek(0)
            head = file.read(12)
    except FileNotFoundError:
        raise InputError(f"{path}: there is no such file.") from None
    except PermissionError:
        raise InputError(f"{path}: this file may not be read; check its permissions.") from None
    except (OSError, ValueError) as fault:  # ValueError: a name with a NUL in it
        raise InputError(f"{path}: cannot be read ({getattr(fault, 'strerror', None) or fault}).") from None
    samples = _simple(path) if head[:4] == b"RIFF" and head[8:12] == b"WAVE" else None
    if samples is None:
        samples = _decoded(path)
    if len(samples) / 2 / RATE < SHORTEST:
        raise InputError(f"{path}: there is no sound in this file, or less than {SHORTEST} seconds of it.")
    if not any(samples):
        raise InputError(f"{path}: there is nothing but silence in this file; was the microphone on?")
    return Recording(os.path.basename(path), digest, samples)


def _simple(path: str) -> bytes | None:
    """The samples of a WAV file that is already as wanted; it needs no library. None: another kind."""
    try:
        with wave.open(path, "rb") as file:
            if (file.getnchannels(), file.getsampwidth(), file.getframerate()) != (1, 2, RATE):
                return None
            _not_too_long(path, file.getnframes() / RATE)
            samples = file.readframes(file.getnframes())
    except (wave.Error, EOFError):
        return None
    return samples[: len(samples) // 2 * 2]


def _decoded(path: str) -> bytes:
    """The samples of any container that PyAV can open."""
    try:
        import av
    except ImportError:
        raise InputError(
            f"{path}: without PyAV only WAV files of one channel with 16 bits at {RATE} a second can be heard; "
            'for the others: python -m pip install "notesparse[voice]"'
        ) from None
    parts: list[bytes] = []
    samples = 0
    try:
        with av.open(path, mode="r", metadata_errors="ignore") as container:
            if not container.streams.audio:
                raise InputError(f"{path}: there is no sound in this file.")
            even = av.AudioResampler(format="s16", layout="mono", rate=RATE)
            for frame in _frames(container):
                for piece in even.resample(frame):
                    parts.append(bytes(piece.planes[0])[: 2 * piece.samples])
                    samples += piece.samples
                _not_too_long(path, samples / RATE)
            for piece in even.resample(None):
                parts.append(bytes(piece.planes[0])[: 2 * piece.samples])
    except (av.error.FFmpegError, ValueError, EOFError) as fault:
        if not samples:
            raise InputError(
                f"{path}: is no sound file, or a kind that is not known here ({type(fault).__name__})."
            ) from None
        raise InputError(
            f"{path}: is damaged after {samples / RATE:.1f} seconds; save it again, or cut it before that place."
        ) from None
    return b"".join(parts)


def _frames(container: object):  # type: ignore[no-untyped-def]
    """The frames of the first sound track."""
    yield from container.decode(audio=0)  # type: ignore[attr-defined]


def _not_too_long(path: str, seconds: float) -> None:
    if seconds > LONGEST:
        raise InputError(f"{path}: longer than {LONGEST / 3600:.0f} hours, too long for a note; cut it into walks.")
