"""`grammar/spoken/written.toml`: spellings that are written and never said so, and what is said for some of them."""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from notesparse.errors import VocabularyError
from notesparse.language.cues import cue_page
from notesparse.language.folder import grammar_folder
from notesparse.lazy import dataclass

_LISTED = cue_page("spoken/written")

NAME = "spoken/written.toml"


@dataclass(frozen=True, slots=True)
class Written:
    """Words that nobody says as they are spelled."""

    only: frozenset[str]  # misspellings and short forms, one word each, in small letters
    said: Mapping[str, str]  # a short form or sign -> the words that are said for it
    misheard: Mapping[str, frozenset[str]]  # kind -> spellings that are other words, taken for it
    letters: Mapping[str, frozenset[str]]  # kind -> spellings whose single letters are said by their names


_FOR_READ_WRITTEN = _LISTED.words("for_read_written")


def read_written(text: str, name: str = NAME) -> Written:
    """The page of a file's text. Raises `VocabularyError` naming file and word."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise VocabularyError(f"{name}: not TOML: {fault}") from fault
    if odd := sorted(set(data) ^ _FOR_READ_WRITTEN):
        raise VocabularyError(f"{name}: expected `only`, `said`, `misheard` and `letters`, no less or more: {odd[0]!r}")
    only, said = data["only"].split(), data["said"]
    for word, often in Counter(only).items():
        if word != word.casefold():
            raise VocabularyError(f"{name}: “{word}” has to be in small letters")
        if often > 1:
            raise VocabularyError(f"{name}: “{word}” is twice in `only`")
    for word, words in said.items():
        if not isinstance(words, str) or not words.strip():
            raise VocabularyError(f"{name}: “{word}” in `said` has to stand for words")
    return Written(frozenset(only), MappingProxyType(dict(said)), _sets(data["misheard"]), _sets(data["letters"]))


def _sets(table: Mapping[str, list[str]]) -> Mapping[str, frozenset[str]]:
    return MappingProxyType({kind: frozenset(some) for kind, some in table.items()})


@lru_cache(maxsize=1)
def written() -> Written:
    """The real page."""
    return read_written((grammar_folder() / "spoken" / "written.toml").read_text(encoding="utf-8"))
