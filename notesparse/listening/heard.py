"""The nouns of listening, all frozen: words with their times, what one recogniser heard, what became of a stretch."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.lazy import dataclass

RATE = 16_000
"""Samples a second of all sound in here: what both recognisers were trained on."""


@dataclass(frozen=True, slots=True)
class Word:
    """One spoken word, lower case, digits spelled out. Times are seconds from the beginning of the recording, `sure` is
    the recogniser's own confidence, 0 to 1. `token` says which written token of the hearing it comes from."""

    say: str
    start: float
    end: float
    sure: float
    token: int


@dataclass(frozen=True, slots=True)
class Hearing:
    """One way that a recogniser heard a stretch: its spoken words, the tokens as it wrote them ("3/16", "V5,"), and its
    score (natural log, higher is better, comparable only within one list of hearings)."""

    words: tuple[Word, ...]
    tokens: tuple[str, ...]
    score: float = 0.0

    @property
    def says(self) -> tuple[str, ...]:
        return tuple(word.say for word in self.words)


@dataclass(frozen=True, slots=True)
class Change:
    """A repair: the words `heard` were replaced by `taken`, because those sound alike and belong to the trade."""

    heard: tuple[str, ...]
    taken: tuple[str, ...]
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Unsure:
    """Words `[first, last)` of a hearing that are doubtful, and how else they were heard (empty: only unsure)."""

    first: int
    last: int
    others: tuple[tuple[str, ...], ...]
    why: str


@dataclass(frozen=True, slots=True)
class Utterance:
    """What was said between two pauses. `refused` says why it was not taken for part of a note; then nothing of it is
    read, and it stands in the note as a stretch that was not understood."""

    start: float
    end: float
    hearing: Hearing
    changes: tuple[Change, ...] = ()
    unsure: tuple[Unsure, ...] = ()
    refused: str | None = None
    second: tuple[str, ...] = ()  # what the other recogniser heard


@dataclass(frozen=True, slots=True)
class Recording:
    """A sound file as both recognisers want it: one channel, 16-bit samples (machine byte order), 16,000 a second."""

    name: str
    sha256: str  # of the file's bytes
    samples: bytes

    @property
    def seconds(self) -> float:
        return len(self.samples) / 2 / RATE

    def cut(self, start: float, end: float) -> bytes:
        """The samples between two times in seconds."""
        return self.samples[2 * int(start * RATE) : 2 * int(end * RATE)]


def clock(seconds: float) -> str:
    """A place in a recording as people say it: ``1:02.4``."""
    tenths = round(seconds * 10)
    return f"{tenths // 600}:{tenths % 600 // 10:02d}.{tenths % 10}"


def stretch(start: float, end: float) -> str:
    return f"{clock(start)}-{clock(end)}"


def spoken(words: Sequence[str]) -> str:
    return " ".join(words)
