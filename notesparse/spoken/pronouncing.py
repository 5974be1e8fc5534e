"""How words sound, in phones: CMUdict as pocketsphinx brings it, and `grammar/spoken/pronunciations.toml`.

A word that neither has may be a plural or another form of one that has: those rules are the English ones.
"""

from __future__ import annotations

import importlib.util
import re
import tomllib
from functools import lru_cache
from itertools import product
from pathlib import Path

from notesparse.errors import VocabularyError
from notesparse.language.folder import grammar_folder
from notesparse.spoken.spellings import meanings, spelled_words
from notesparse.spoken.written import written

Phones = tuple[str, ...]

PHONES = frozenset(
    "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH".split()
)  # the set of the en-us model: its mdef file lists them
_HISS = frozenset("S Z SH ZH CH JH".split())
_DEAF = frozenset("P T K F TH".split())
NAME = "spoken/pronunciations.toml"


def dictionary_file() -> Path | None:
    """CMUdict as the pocketsphinx package brings it, or nothing where that package is not installed."""
    found = importlib.util.find_spec("pocketsphinx")
    if found is None or not found.submodule_search_locations:
        return None
    path = Path(found.submodule_search_locations[0]) / "model" / "en-us" / "cmudict-en-us.dict"
    return path if path.is_file() else None


@lru_cache(maxsize=1)
def _cmudict() -> dict[str, list[Phones]]:
    path = dictionary_file()
    out: dict[str, list[Phones]] = {}
    for line in path.read_text(encoding="utf-8").splitlines() if path else ():
        word, *phones = line.split()
        out.setdefault(re.sub(r"\(\d+\)$", "", word), []).append(tuple(phones))
    return out


def read_pronunciations(text: str, name: str = NAME) -> dict[str, tuple[str, ...]]:
    """Word -> its ways of being said. Raises `VocabularyError` naming file and word."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise VocabularyError(f"{name}: not TOML: {fault}") from fault
    out: dict[str, tuple[str, ...]] = {}
    for table, entries in data.items():
        if table not in {"phones", "like"} or not isinstance(entries, dict):
            raise VocabularyError(f"{name}: expected the tables [phones] and [like], not {table!r}")
        for word, said in entries.items():
            ways = [said] if isinstance(said, str) else said
            if word != word.casefold() or word in out:
                raise VocabularyError(f"{name}: “{word}” has to be in small letters, and there once")
            for way in ways:
                if table == "phones" and (not way or set(way.split()) - PHONES):
                    raise VocabularyError(f"{name}: “{word}”: {way!r} holds what is no phone of the model")
                if table == "like" and way != way.casefold():
                    raise VocabularyError(f"{name}: “{word}”: {way!r} has to be words in small letters")
            out[word] = tuple(ways)
    return out


@lru_cache(maxsize=1)
def _own() -> dict[str, tuple[str, ...]]:
    return read_pronunciations((grammar_folder() / "spoken" / "pronunciations.toml").read_text(encoding="utf-8"))


@lru_cache(maxsize=8192)
def phones(word: str) -> list[Phones]:
    """Every way of saying a word, ours first, each a tuple of phones; empty for a word that nobody has said yet."""
    ways = _listed(word) or _formed(word)
    return list(dict.fromkeys(ways))


def _listed(word: str) -> list[Phones]:
    ways: list[Phones] = []
    for way in _own().get(word, ()):
        if way.isupper():
            ways.append(tuple(way.split()))
        else:  # said like other words, one behind the other
            parts = [phones(part) for part in way.split()]
            ways += [tuple(p for part in choice for p in part) for choice in product(*parts)]
    return [*ways, *_cmudict().get(word, ())]


def _formed(word: str) -> list[Phones]:
    """Plurals and possessives of a listed word, and its forms in -ed and -ing."""
    for tail, bases in (
        ("'s", (word[:-2],)),
        ("ies", (word[:-3] + "y",)),
        ("es", (word[:-1], word[:-2])),
        ("s", (word[:-1],)),
    ):
        if word.endswith(tail) and len(word) > len(tail) + 1:
            for base in bases:
                if ways := _listed(base):
                    return [(*way, *_s(way[-1])) for way in ways]
    for tail, add in (("ing", _ing), ("ed", _ed)):
        stem = word[: -len(tail)]
        if word.endswith(tail) and len(stem) > 2:
            for base in (stem, stem + "e", stem[:-1] if stem[-1] == stem[-2] else ""):
                if base and (ways := _listed(base)):
                    return [(*way, *add(way[-1])) for way in ways]
    return []


def joined_up(word: str) -> list[Phones]:
    """Every way of saying a word as two listed ones joined: `wagongate`; none where it is not two words."""
    for at in range(len(word) - 3, 2, -1):
        if (first := phones(word[:at])) and (second := phones(word[at:])):
            return [(*a, *b) for a in first for b in second]
    return []


def _s(last: str) -> Phones:
    return ("IH", "Z") if last in _HISS else ("S",) if last in _DEAF else ("Z",)


def _ed(last: str) -> Phones:
    return ("IH", "D") if last in {"T", "D"} else ("T",) if last in _DEAF | {"S", "SH", "CH"} else ("D",)


def _ing(last: str) -> Phones:
    return ("IH", "NG")


def spoken_words() -> frozenset[str]:
    """Every word that is said for some kind of token."""
    return frozenset(w for some in meanings().values() for m in some for words in m.say for w in words)


def missing() -> list[str]:
    """Words of the vocabulary that have no pronunciation and are not declared as written only: has to be empty."""
    return sorted(w for w in spelled_words() - written().only if not phones(w))
