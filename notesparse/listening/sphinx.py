"""The small recogniser: pocketsphinx with the trade's own language model. Word times, posteriors, n-best."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from notesparse.errors import InputError
from notesparse.listening.heard import RATE, Hearing, Word

FRAME = 0.01
"""Seconds of one frame of pocketsphinx."""
MOST = 10
"""How many other hearings of a stretch are looked at."""


class Sphinx:
    """One decoder. It is not shared between threads; a stretch of sound goes in whole, so that loudness and channel are
    evened out over all of it."""

    def __init__(self, model: Path, dictionary: Path, **settings: float | bool | str) -> None:
        try:
            import pocketsphinx
        except ImportError:
            raise InputError('Listening needs more libraries: python -m pip install "notesparse[voice]"') from None
        self._decoder: Any = pocketsphinx.Decoder(
            hmm=pocketsphinx.get_model_path("en-us/en-us"),
            lm=str(model),
            dict=str(dictionary),
            samprate=RATE,
            loglevel="FATAL",
            **settings,
        )

    def hear(self, samples: bytes, start: float = 0.0) -> list[Hearing]:
        """The best hearing first, with times and posteriors, then up to `MOST` others, words only. `start` is where the
        stretch begins in its recording, in seconds. Empty where nothing was recognised."""
        decoder = self._decoder
        decoder.start_utt()
        decoder.process_raw(samples, full_utt=True)
        decoder.end_utt()
        best = decoder.hyp()
        if best is None:
            return []
        # `prob` of a segment is a posterior of 0 to 1 in pocketsphinx 5 (measured; it must not be exponentiated).
        words = [
            (plain(s.word), start + s.start_frame * FRAME, start + (s.end_frame + 1) * FRAME, min(1.0, s.prob))
            for s in decoder.seg()
            if not is_silence(s.word)
        ]
        first = Hearing(
            tuple(Word(say, a, b, sure, at) for at, (say, a, b, sure) in enumerate(words)),
            tuple(say for say, _, _, _ in words),
            float(best.score),
        )
        return [first, *self._others(first)]

    def _others(self, first: Hearing) -> list[Hearing]:
        seen = {first.says}
        others: list[Hearing] = []
        for other, _ in zip(self._decoder.nbest(), range(4 * MOST), strict=False):
            if other is None or not other.hypstr:
                continue
            says = tuple(plain(word) for word in other.hypstr.split() if not is_silence(word))
            if says and says not in seen:
                seen.add(says)
                others.append(of_words(says, float(other.score)))
            if len(others) == MOST:
                break
        return others


def of_words(says: Sequence[str], score: float = 0.0) -> Hearing:
    """A hearing of which only the words are known."""
    return Hearing(tuple(Word(say, 0.0, 0.0, 0.0, at) for at, say in enumerate(says)), tuple(says), score)


def plain(word: str) -> str:
    """The word without the number of its pronunciation: ``the(2)``."""
    return word.split("(")[0]


def is_silence(word: str) -> bool:
    return word.startswith(("<", "[", "++"))
