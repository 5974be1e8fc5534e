"""The large recogniser: Whisper by CTranslate2, stretch by stretch, with a vocabulary prompt and five hearings each."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from typing import Any

from notesparse.errors import InputError
from notesparse.listening.heard import RATE, Hearing, Word

PROMPT = (
    "Soybean notes: plant, trifoliates, trifs, top leaf rolled, unrolled, unifoliates, cotyledons, nodes, third node "
    "down, V5, R3, pods, seed, flowers, inch, sixteenths, canopy, defoliation, waterhemp, aphids."
)
"""Words of the trade, set before every stretch: measured, it takes a third to a half of the errors away."""
NAMES = 12
"""So many of the farm's own field names are set beside them; it takes a good deal more than the whole is."""
HEARINGS = 5
LONGEST_ANSWER = 120
"""Most tokens of one stretch. A person speaks three words a second, and noise makes the recogniser loop."""
A_SECOND = 9
"""Most tokens for each second of sound, for the same reason."""
FRAMES = 3000
"""Most frames of 10 ms that the recogniser can see: 30 seconds."""
BEHIND = 500
"""Frames of silence that it sees behind a stretch. It was trained on 30 seconds; with one second it repeats itself, and
with all of them three quarters of the work is done on silence."""


class Whisper:
    """One loaded model. `spell` turns written words into spoken ones ("3/16" -> three sixteenths); `names` are those of
    the farm's fields."""

    def __init__(self, folder: str, spell: Callable[[str], Sequence[str]], names: Sequence[str] = ()) -> None:
        os.environ["HF_HUB_OFFLINE"] = "1"  # whatever is missing stays missing: nothing is fetched
        try:
            from faster_whisper import WhisperModel
            from faster_whisper.tokenizer import Tokenizer
        except ImportError:
            raise InputError('This model needs more libraries: python -m pip install "notesparse[voice]"') from None
        try:
            self._model: Any = WhisperModel(folder, device="cpu", compute_type="int8", cpu_threads=2)
        except (RuntimeError, ValueError, OSError, KeyError, TypeError) as fault:
            raise InputError(f"{folder}: this model cannot be loaded ({_first_line(fault)}).") from None
        many = self._model.model.is_multilingual
        self._tokenizer: Any = Tokenizer(
            self._model.hf_tokenizer, many, task="transcribe" if many else None, language="en" if many else None
        )
        self._spell = spell
        self._prompt = f" {PROMPT} Fields: {', '.join(names[:NAMES])}." if names else f" {PROMPT}"

    def hear(self, samples: bytes, start: float = 0.0) -> list[Hearing]:
        """Up to five hearings of a stretch, the recogniser's own favourite first; `start` is where it begins."""
        import numpy
        from faster_whisper.audio import pad_or_trim

        model, tokenizer = self._model, self._tokenizer
        seconds = len(samples) / 2 / RATE
        sound = numpy.frombuffer(samples, numpy.int16).astype(numpy.float32) / 32768.0
        window = min(FRAMES, round(100 * seconds) + BEHIND)
        seen = model.encode(pad_or_trim(model.feature_extractor(sound), window))
        prompt = model.get_prompt(tokenizer, tokenizer.encode(self._prompt), without_timestamps=True)
        made = model.model.generate(
            seen,
            [prompt],
            beam_size=HEARINGS,
            num_hypotheses=HEARINGS,
            return_scores=True,
            max_length=len(prompt) + min(LONGEST_ANSWER, 8 + round(A_SECOND * seconds)),
            suppress_blank=True,
        )[0]
        hearings: dict[tuple[str, ...], Hearing] = {}
        for tokens, score in zip(made.sequences_ids, made.scores, strict=True):
            text = [t for t in tokens if t < tokenizer.eot]
            if not text:
                continue
            frames = max(1, min(window, round(seconds * model.frames_per_second)))
            found = model.find_alignment(tokenizer, [text], seen, frames)[0]
            hearing = self._hearing(found, start, seconds, score * len(tokens))
            hearings.setdefault(hearing.says, hearing)
        return [h for h in hearings.values() if h.words]

    def _hearing(self, found: list[dict[str, Any]], start: float, seconds: float, score: float) -> Hearing:
        """Words with times in the recording. What is aligned past the end of the sound was made up, and is dropped."""
        tokens: list[str] = []
        words: list[Word] = []
        for token, a, b, sure in joined(found):
            if a >= seconds - 0.02 and b - a < 0.02:
                continue
            says = self._spell(token)
            for at, say in enumerate(says):
                step = (b - a) / len(says)
                words.append(Word(say, start + a + at * step, start + a + (at + 1) * step, sure, len(tokens)))
            tokens.append(token)
        return Hearing(tuple(words), tuple(tokens), score)


def joined(found: Sequence[dict[str, Any]]) -> list[tuple[str, float, float, float]]:
    """Pieces of writing as they stand between blanks ("3" and "/16" are one), with times and the lowest confidence."""
    out: list[tuple[str, float, float, float]] = []
    for piece in found:
        text, a, b, sure = piece["word"], float(piece["start"]), float(piece["end"]), float(piece["probability"])
        if not text.strip():
            continue
        if out and not text[:1].isspace():
            before, first, _, least = out[-1]
            out[-1] = (before + text.rstrip(), first, b, min(least, sure) if any(c.isalnum() for c in text) else least)
        else:
            out.append((text.strip(), a, b, sure))
    return out


def _first_line(fault: BaseException) -> str:
    return (str(fault).strip().splitlines() or [type(fault).__name__])[0]
