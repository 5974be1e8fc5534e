"""The recognisers together: what a stretch of sound is heard as, by the two of them or by the small one alone."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Protocol

from notesparse.lazy import dataclass
from notesparse.listening import agree, gate
from notesparse.listening.heard import Hearing, Recording, Utterance
from notesparse.listening.pauses import faint, utterances
from notesparse.listening.repair import repaired
from notesparse.listening.rerank import in_the_sound, taken
from notesparse.listening.sphinx import Sphinx
from notesparse.listening.trade import Trade
from notesparse.spoken.own import Own


class Recogniser(Protocol):
    """Anything that hears: the best hearing first, the others after it."""

    def hear(self, samples: bytes, start: float = 0.0) -> list[Hearing]: ...


class Ears(Protocol):
    """What turns a stretch of a recording into an utterance."""

    @property
    def weak(self) -> bool: ...

    @property
    def trade(self) -> Trade: ...

    def hear(self, samples: bytes, start: float, end: float) -> Utterance: ...


@dataclass(frozen=True, slots=True)
class Both:
    """The large recogniser hears, the small one is the doubt: it is of another kind, and so errs elsewhere."""

    large: Recogniser
    small: Recogniser
    trade: Trade
    weak: bool = False

    def hear(self, samples: bytes, start: float, end: float) -> Utterance:
        hearings = [h for h in map(in_the_sound, self.large.hear(samples, start)) if h.words]
        if not hearings:
            return Utterance(start, end, Hearing((), ()), refused="no words were heard")
        chosen = taken(hearings, self.trade.trigram)
        mended, changes = repaired(chosen, self.trade)
        others = self.small.hear(samples, start)
        second = others[0] if others else None
        doubts = agree.unsure(mended, second, changes, self.trade)
        why = gate.refused(chosen, mended, doubts, self.trade)
        return Utterance(start, end, mended, changes, tuple(doubts), why, second.says if second else ())


def spoken_language(own: Own | None = None) -> tuple[Trade, Callable[..., Sphinx], Callable[[str], list[str]]]:
    """The trade's compiled language, with a farm's own words, what makes a small recogniser of it, and how written
    words are said."""
    from notesparse.language.cache import cache_folder
    from notesparse.spoken.compiled import compiled
    from notesparse.spoken.numerals import spell

    language = compiled(own) if own is not None else compiled()

    def small(**settings: float | bool | str) -> Sphinx:
        try:
            model, words = language.arpa(cache_folder()), language.dictionary(cache_folder())
            return Sphinx(model, words, **settings)
        except OSError:  # a cache that cannot be written is done without
            with tempfile.TemporaryDirectory(prefix="notesparse-") as folder:
                return Sphinx(language.arpa(Path(folder)), language.dictionary(Path(folder)), **settings)

    return Trade(language.trigram, language.vocabulary, language.common), small, spell


TOO_FAINT = "perhaps speech, too faint or too noisy to be heard"


def heard(recording: Recording, ears: Ears, step: Callable[[float], None]) -> Iterator[Utterance]:
    """The utterances of a recording, in order, with the stretches that may be speech and cannot be heard.

    `step` is told how many seconds are done."""
    clear = utterances(recording)
    for start, end, faintly in sorted([*((*c, False) for c in clear), *((*f, True) for f in faint(recording, clear))]):
        if faintly:
            yield Utterance(start, end, Hearing((), ()), refused=TOO_FAINT)
        else:
            yield ears.hear(recording.cut(start, end), start, end)
        step(end)
