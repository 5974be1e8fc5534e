"""Spoken answers to the program's own questions: heard twice, in two ways, and clear only where both say the same."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from notesparse.errors import InputError
from notesparse.lazy import dataclass
from notesparse.listening.heard import RATE, Recording
from notesparse.listening.pauses import utterances
from notesparse.listening.sphinx import is_silence, plain

if TYPE_CHECKING:
    from notesparse.spoken.answers import Answered
    from notesparse.spoken.compiled import Spoken

LONGEST = 5.0
"""Seconds of speech beyond which it is talk and no answer: the longest of the grammar take about three."""
MARGIN = 0.25
"""Seconds kept around the speech: where the first sound of a single word was cut off, alpha was heard as delta."""
COMMON = 600
"""So many common words stand beside those of the answers in the free pass; what is no answer has words to go to."""


@dataclass(frozen=True, slots=True)
class Said:
    """What was heard. `answer` is there only where it is clear; else `why` says what is the matter. `words` are only to
    be shown: the answer that it would be, or nothing."""

    words: tuple[str, ...]
    answer: Answered | None
    why: str = ""


def loop(words: Sequence[str]) -> str:
    """The text of a finite-state grammar in which any of the words may follow any other: it knows no answers."""
    arcs = [f"TRANSITION 0 1 {1 / len(words):.8f} {word}" for word in words]
    head = ["FSG_BEGIN loop", "NUM_STATES 2", "START_STATE 0", "FINAL_STATE 1"]
    return "\n".join([*head, *arcs, "TRANSITION 1 0 0.9", "FSG_END", ""])


class Ear:
    """Three passes over the same sound. The grammar of answers makes an answer of anything, talk and wind too; so the
    trade's language model, or a loop of words without order, has to come to the same answer by itself, and neither may
    find that there are no words at all."""

    def __init__(self) -> None:
        from notesparse.language.ordinary import common_words
        from notesparse.spoken.compiled import compiled

        language = compiled()
        often = common_words()
        with tempfile.TemporaryDirectory(prefix="notesparse-") as name:
            folder = Path(name)
            dictionary = language.dictionary(folder)
            known = _words_of(dictionary)
            common = [w for w in sorted(often, key=lambda w: (-often[w], w)) if w in known]
            free = folder / "loop.fsg"
            free.write_text(loop(sorted((set(common[:COMMON]) | language.answers.words) & known)), encoding="utf-8")
            self._answers = _decoder(dictionary, fsg=str(language.answers_fsg(folder)), bestpath=False)
            self._trigram = _decoder(dictionary, lm=str(_model(language, folder)))
            self._free = _decoder(dictionary, fsg=str(free), bestpath=False)

    def hear(self, recording: Recording) -> Said:
        """What was said in a recording of one answer."""
        from notesparse.spoken.answers import answer_of

        parts = utterances(recording)
        if not parts:
            return Said((), None, "nothing was heard")
        start, end = parts[0][0], parts[-1][1]
        if end - start > LONGEST:
            return Said((), None, "that was too long for an answer")
        samples = recording.cut(max(0.0, start - MARGIN), min(recording.seconds, end + MARGIN))
        said = _heard(self._answers, samples)
        answer = answer_of(said)
        if answer is None:
            return Said((), None, "that was not clear")
        others = [_heard(self._trigram, samples), _heard(self._free, samples)]
        if all(others) and any(answer_of(other) == answer for other in others):
            return Said(said, answer)
        return Said(said, None, "that was not clear")


def _model(language: Spoken, folder: Path) -> Path:
    """The language model; from the cache, where it can be written, as it is large."""
    from notesparse.language.cache import cache_folder

    try:
        return language.arpa(cache_folder())
    except OSError:
        return language.arpa(folder)


def _words_of(dictionary: Path) -> set[str]:
    return {plain(line.split(None, 1)[0]) for line in dictionary.read_text(encoding="utf-8").splitlines() if line}


def _decoder(dictionary: Path, **settings: str | bool) -> Any:
    try:
        import pocketsphinx
    except ImportError:
        raise InputError('Listening needs more libraries: python -m pip install "notesparse[voice]"') from None
    return pocketsphinx.Decoder(
        hmm=pocketsphinx.get_model_path("en-us/en-us"),
        dict=str(dictionary),
        samprate=RATE,
        loglevel="FATAL",
        **settings,
    )


def _heard(decoder: Any, samples: bytes) -> tuple[str, ...]:
    decoder.start_utt()
    decoder.process_raw(samples, full_utt=True)
    decoder.end_utt()
    best = decoder.hyp()
    return tuple(plain(w) for w in best.hypstr.split() if not is_silence(w)) if best is not None else ()


def recordings(folder: str) -> Iterator[Recording]:
    """The sound files of a folder in the order of their names, one answer each. Raises `InputError` at once where there
    are none."""
    from notesparse.listening.audio import ENDINGS, load

    if not Path(folder).is_dir():
        raise InputError(f"{folder}: there is no such folder of recordings.")
    found = sorted(p for p in Path(folder).iterdir() if p.is_file() and p.suffix.casefold() in ENDINGS)
    if not found:
        raise InputError(f"{folder}: there are no sound files in this folder.")
    return (load(str(path)) for path in found)
