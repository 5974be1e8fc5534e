"""The spoken language, whole: made of the grammar once, and kept between runs in one file of the user's cache folder.

Its name is the hash of everything under `grammar/` and of this room's code, so an edited word is heard at once; a cache
that cannot be read or written is done without. `NOTESPARSE_NO_CACHE=1` switches it off.
With the names and words of a farm (`own.py`) it is another one, kept in a file of its own.
"""

from __future__ import annotations

import hashlib
import marshal
import os
import sys
import tempfile
from collections.abc import Iterator, Sequence
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from notesparse.language.cache import cache_folder
from notesparse.language.cues import cue_page
from notesparse.language.folder import grammar_folder
from notesparse.language.ordinary import common_words
from notesparse.lazy import dataclass
from notesparse.spoken.automaton import Automaton
from notesparse.spoken.leaning import lean, trade_words
from notesparse.spoken.own import Own, own_sentences
from notesparse.spoken.pronouncing import joined_up, phones, spoken_words
from notesparse.spoken.trigram import Trigram, kneser_ney
from notesparse.text.numbers import ORDINALS, TEENS, TENS, UNITS

_LISTED = cue_page("spoken/compiled")

FORM = 3  # raised whenever the shape of what is kept changes
SENTENCES = 30_000  # made up for the model
SHORT = 3  # words of the answers that the model knows by themselves: half an inch
SEED = 6
NONE_OWN = Own()
_NUMBER_WORDS = frozenset([*UNITS, *TEENS, *TENS, *ORDINALS, *list(_LISTED.ordered("number_words"))])
_NUMBER_WORDS |= frozenset("half halves quarter quarters third thirds eighth eighths sixteenth sixteenths v r".split())


@dataclass(frozen=True, slots=True)
class Spoken:
    """What the program knows of how notes are spoken."""

    vocabulary: frozenset[str]  # every word that the grammar can say, in small letters; half of ordinary talk is in it
    trade: frozenset[str]  # the words of it that a record hangs on, amounts and stage letters with them
    trigram: Trigram
    answers: Automaton
    common: dict[str, float]  # ordinary words, per million words of talk
    key: str  # of the grammar that all of it was made of
    own: Own = NONE_OWN  # a farm's own names and words, which are in all the others but the answers

    def lean(self, words: Sequence[str]) -> float:
        """How far a sentence leans to the trade: above nothing it is likelier a note than ordinary talk."""
        return lean(words, self.trigram, self.common)

    def arpa(self, folder: Path) -> Path:
        """The language model as a file for a recogniser; written where it is not there yet."""
        path = folder / f"spoken-{self.key}.arpa"
        return path if path.is_file() else _whole(path, self.trigram.write_arpa)

    def dictionary(self, folder: Path) -> Path:
        """The pronunciations of every word of the model and of the answers; words without one are left out."""
        path = folder / f"spoken-{self.key}.dict"
        return path if path.is_file() else _whole(path, self._write_dictionary)

    def answers_fsg(self, folder: Path) -> Path:
        """The answers as a file for a recogniser."""
        path = folder / f"answers-{self.key}.fsg"
        return path if path.is_file() else _whole(path, self.answers.write_fsg)

    def unsayable(self) -> list[str]:
        """The farm's own words of which no pronunciation is known: a recogniser by sounds cannot hear them."""
        return sorted(word for word in self.own.words if not self._ways(word))

    def _ways(self, word: str) -> list[tuple[str, ...]]:
        return phones(word) or (joined_up(word) if word in self.own.words else [])

    def _write_dictionary(self, path: Path) -> None:
        lines = []
        for word in sorted(self.trigram.words | self.answers.words):
            for n, way in enumerate(self._ways(word), 1):
                lines.append(f"{word if n == 1 else f'{word}({n})'} {' '.join(way)}\n")
        path.write_text("".join(lines), encoding="utf-8")


def _contents(folder: Any) -> Iterator[tuple[str, bytes]]:
    for part in sorted(folder.iterdir(), key=lambda f: str(f.name)):
        if part.is_dir():
            yield from ((f"{part.name}/{name}", data) for name, data in _contents(part))
        elif part.name.endswith((".lark", ".toml", ".py")):
            yield part.name, part.read_bytes()


def spoken_hash() -> str:
    """Hash of everything that the spoken language is made of."""
    digest = hashlib.sha256(f"{FORM} {sys.version_info[:2]} {SENTENCES} {SEED}".encode())
    for folder in (grammar_folder(), files("notesparse") / "spoken"):
        for name, data in _contents(folder):
            digest.update(name.encode())
            digest.update(hashlib.sha256(data).digest())
    return digest.hexdigest()[:24]


@lru_cache(maxsize=2)
def compiled(own: Own = NONE_OWN) -> Spoken:
    """The spoken language, from the cache or made anew (seconds)."""
    key = spoken_hash() + (f"-own-{own.key}" if own.key else "")
    if os.environ.get("NOTESPARSE_NO_CACHE"):
        return build(key, own)
    path = cache_folder() / f"spoken-{key}.compiled"
    try:
        words, trade, ones, twos, threes, arcs, ends, common = marshal.loads(path.read_bytes())
        model = Trigram(ones, twos, threes)
        return Spoken(frozenset(words), frozenset(trade), model, Automaton(arcs, ends), common, key, own)
    except (OSError, EOFError, ValueError, TypeError):
        pass
    made = build(key, own)
    _keep(path, made)
    return made


def build(key: str, own: Own = NONE_OWN) -> Spoken:
    """Made anew from the grammar."""
    from notesparse.spoken.answers import answer_automaton, answer_rows
    from notesparse.spoken.sampler import every_spelling, sentences

    vocabulary = spoken_words() | _NUMBER_WORDS | own.words
    answers = answer_automaton()
    alone = [list(row) for row, _ in answer_rows() if len(row) <= SHORT]  # with nothing before or behind them
    said = [*sentences(SEED, SENTENCES), *every_spelling(), *alone, *own_sentences(own)]
    common = common_words()
    model = kneser_ney(said, common, sorted(vocabulary | answers.words))
    trade = trade_words(common) | _NUMBER_WORDS | own.words
    return Spoken(vocabulary, trade, model, answers, common, key, own)


def _whole(path: Path, write: Any) -> Path:
    """Write whole or not at all."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent)
    os.close(handle)
    try:
        write(Path(name))
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    return path


def _keep(path: Path, made: Spoken) -> None:
    """Write whole or not at all, and throw away the caches of older grammars; of a farm's older words too, with the
    files made of them."""
    t, a = made.trigram, made.answers
    words, trade = sorted(made.vocabulary), sorted(made.trade)
    kept = marshal.dumps((words, trade, t.ones, t.twos, t.threes, a.arcs, a.ends, made.common))
    try:
        _whole(path, lambda to: to.write_bytes(kept))
        for old in path.parent.glob("spoken-*"):
            if made.key in old.name or ("-own-" in old.name) != bool(made.own.key):
                continue
            if made.own.key or old.suffix == ".compiled":
                old.unlink(missing_ok=True)
    except OSError:
        pass
