"""`grammar/cues/`: lists of ordinary words that one module looks for, a page for each module, checked and compiled.

A page holds lists of words and tables from a word to what it stands for:

- `before_a_stage = ["at", "is"]`: a set of words, sorted;
- `[roman]` with `in_order = ["i", "ii"]`: words whose order counts;
- `[soon]` with `phrases = ["any day", "not far"]`: phrases of several words, in the order in which they are tried;
- `[being_or_having]` with `all_of = ["being", "having"]`: the words of several lists of the page, which are families of words;
- `[many]` with `two = 2`: a table, of words, whole numbers, numbers or truth values.

All pages lie together in one file of the user's cache folder, as modules ask for them when they are loaded.
"""

from __future__ import annotations

import tomllib
from functools import cache
from itertools import pairwise
from types import MappingProxyType
from typing import Any, TypeVar, cast

from notesparse.errors import VocabularyError
from notesparse.language.cache import known_pages
from notesparse.language.checked import MEANT, checked_table, checked_words, line_of_key, line_of_word
from notesparse.language.folder import cue_files

Value = TypeVar("Value", str, int, float, bool)
Page = dict[str, Any]
"""Key -> frozenset (words), tuple (in order), list (phrases) or dict (a table): what the cache can keep as it is."""

_SHAPES: dict[type, str] = {
    frozenset: "a list of words",
    tuple: "a list in order",
    list: "a list of phrases",
    dict: "a table",
}


class CuePage:
    """The lists of one module, each asked for by its key and its shape."""

    __slots__ = ("_lists", "_name")

    def __init__(self, name: str, lists: Page) -> None:
        self._name = name
        self._lists = lists

    def words(self, key: str) -> frozenset[str]:
        return cast(frozenset[str], self._asked(key, frozenset))

    def ordered(self, key: str) -> tuple[str, ...]:
        return cast(tuple[str, ...], self._asked(key, tuple))

    def phrases(self, key: str) -> tuple[str, ...]:
        """Phrases as they are written, with one blank between words."""
        return tuple(self._asked(key, list))

    def rows(self, key: str) -> tuple[tuple[str, ...], ...]:
        """Phrases as rows of words."""
        return tuple(tuple(phrase.split()) for phrase in self._asked(key, list))

    def table(self, key: str, kind: type[Value]) -> MappingProxyType[str, Value]:
        table: dict[str, Value] = self._asked(key, dict)
        if any(type(means) is not kind for means in table.values()):
            raise VocabularyError(f"{self._name}.toml: every word of {key!r} has to mean {MEANT[kind]}")
        return MappingProxyType(table)

    def _asked(self, key: str, shape: type) -> Any:
        if key not in self._lists:
            raise VocabularyError(f"{self._name}.toml: the list {key!r} is missing")
        if type(self._lists[key]) is not shape:
            raise VocabularyError(f"{self._name}.toml: {key!r} has to be {_SHAPES[shape]}")
        return self._lists[key]


@cache
def cue_page(name: str) -> CuePage:
    """The page of a module, by the page's name: `walking/claims`."""
    pages = _known_cues()
    if name not in pages:
        raise VocabularyError(f"{name}.toml: there is no such page in grammar/cues")
    return CuePage(name, pages[name])


@cache
def _known_cues() -> dict[str, Page]:
    return known_pages("cues", read_cues)


@cache
def cue_words() -> frozenset[str]:
    """Every word that a module looks for, of all pages."""
    lists = (words for page in _known_cues().values() for words in page.values())
    return frozenset(word for words in lists for phrase in words for word in phrase.split())


def read_cues() -> dict[str, Page]:
    """Every page of `grammar/cues`, read and checked."""
    return {name: load_cues(file.read_text(encoding="utf-8"), f"{name}.toml") for name, file in cue_files()}


def load_cues(text: str, name: str) -> Page:
    """One page from its TOML text. Raises VocabularyError with file, line and word."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:  # a list given twice, or a word twice in a table, is one of these
        raise VocabularyError(f"{name}: not TOML: {fault}") from fault
    page: Page = {}
    for key, value in data.items():
        if isinstance(value, list):
            page[key] = _sorted_words(value, text, name, key)
        elif isinstance(value, dict) and set(value) == {"in_order"}:
            page[key] = tuple(checked_words(value["in_order"], text, name, key))
        elif isinstance(value, dict) and set(value) == {"all_of"}:
            page[key] = _all_of(value["all_of"], page, text, name, key)
        elif isinstance(value, dict) and set(value) == {"phrases"}:
            page[key] = checked_words(value["phrases"], text, name, key, phrases=True)
        elif isinstance(value, dict):
            page[key] = checked_table(value, text, name, key)
        else:
            raise VocabularyError(f"{name}:{line_of_key(text, key)}: {key!r} has to be a list of words or a table")
    return page


def _all_of(value: Any, page: Page, text: str, name: str, key: str) -> frozenset[str]:
    lists = [page.get(one) for one in checked_words(value, text, name, key)]
    if not all(isinstance(one, frozenset) for one in lists):
        raise VocabularyError(f"{name}:{line_of_key(text, key)}: {key!r} has to name lists of words that stand above")
    return frozenset().union(*cast(list[frozenset[str]], lists))


def _sorted_words(value: list[Any], text: str, name: str, key: str) -> frozenset[str]:
    words = checked_words(value, text, name, key)
    for before, word in pairwise(words):
        if word < before:
            line = line_of_word(text, word, key)
            raise VocabularyError(f"{name}:{line}: “{word}” in {key!r} has to stand before “{before}”")
    return frozenset(words)
