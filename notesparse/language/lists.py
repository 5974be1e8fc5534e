"""`grammar/lists/*.toml`: plain lists of ordinary words that code asks for by name, as frozen objects.

A file is the page of one class below. Its keys are the class's fields, each a list of words or a table from a word to
what it stands for; nothing may be missing, empty, doubled or over.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import fields
from functools import lru_cache
from types import MappingProxyType
from typing import Any, TypeVar

from notesparse.errors import VocabularyError
from notesparse.language.cache import known_pages
from notesparse.language.checked import checked_table, checked_words, line_of_key
from notesparse.language.folder import grammar_folder
from notesparse.lazy import dataclass


@dataclass(frozen=True, slots=True)
class NameWords:
    """`names.toml`: ordinary words that tell whether a field's name may begin, go on or end at a word."""

    never_first: frozenset[str]
    never_last: frozenset[str]
    tools: frozenset[str]
    never_inside: frozenset[str]
    happened: frozenset[str]
    inside: frozenset[str]
    before_a_noun: frozenset[str]
    relations: frozenset[str]
    compass: frozenset[str]
    the_crop: frozenset[str]
    of_the_form: frozenset[str]
    asking_for_a_name: frozenset[str]
    number_signs: frozenset[str]
    standing: frozenset[str]
    weakly_going: frozenset[str]
    moving: frozenset[str]
    ways: frozenset[str]
    arriving: frozenset[str]
    lagging: frozenset[str]
    lag_verbs: frozenset[str]
    hums: frozenset[str]
    terrain: frozenset[str]
    opens_a_head: frozenset[str]
    turn_first: frozenset[str]
    turn_on: frozenset[str]
    of_a_count: frozenset[str]
    ends_a_title: frozenset[str]
    greetings: frozenset[str]
    greeted: frozenset[str]
    given: frozenset[str]


@dataclass(frozen=True, slots=True)
class OddNameWords:
    """`odd-names.toml`: what a word that means nothing in the trade must not be, to be a field's name."""

    not_first: frozenset[str]
    done: frozenset[str]
    last_of_an_animal: frozenset[str]
    behind_a_name: frozenset[str]


@dataclass(frozen=True, slots=True)
class GroundWords:
    """`ground.toml`: small words around the state of the soil and its depth."""

    before_a_depth: frozenset[str]
    behind_a_depth: frozenset[str]
    between: frozenset[str]
    before_a_state: frozenset[str]


@dataclass(frozen=True, slots=True)
class SameAgainWords:
    """`same-again.toml`: what may stand behind `same as`."""

    the_last: frozenset[str]
    sounds: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class NumberSlips:
    """`number-slips.toml`: number words as they are misspelled, and what they are."""

    numbers: Mapping[str, str]
    ordinals: Mapping[str, int]
    parts: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class ClaimWords:
    """`claims.toml`: whose stage it is that somebody calls a field or a plant."""

    people: frozenset[str]
    calling: frozenset[str]
    object: frozenset[str]
    between: frozenset[str]
    refusing: frozenset[str]
    own: frozenset[str]


Page = TypeVar("Page", NameWords, OddNameWords, GroundWords, SameAgainWords, NumberSlips, ClaimWords)


def load_list(page: type[Page], text: str, name: str) -> Page:
    """One page of lists from its TOML text. Raises VocabularyError with file and, where there is one, line."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:  # a word given twice in a table is one of these
        raise VocabularyError(f"{name}: not TOML: {fault}") from fault
    shapes = {field.name: str(field.type) for field in fields(page)}
    for key in data:
        if key not in shapes:
            raise VocabularyError(f"{name}:{line_of_key(text, key)}: a list {key!r} that nothing asks for")
    for key in shapes:
        if key not in data:
            raise VocabularyError(f"{name}: the list {key!r} is missing")
    made: dict[str, Any] = {}
    for key, shape in shapes.items():
        if shape.startswith("frozenset"):
            made[key] = frozenset(checked_words(data[key], text, name, key))
        else:
            made[key] = MappingProxyType(
                checked_table(data[key], text, name, key, str if shape.endswith("str]") else int)
            )
    return page(**made)


_PAGES: dict[str, type[Any]] = {
    "names.toml": NameWords,
    "odd-names.toml": OddNameWords,
    "ground.toml": GroundWords,
    "same-again.toml": SameAgainWords,
    "number-slips.toml": NumberSlips,
    "claims.toml": ClaimWords,
}


@lru_cache(maxsize=1)
def _kept() -> dict[str, dict[str, Any]]:
    return known_pages("lists", lambda: {name: _as_plain(page, name) for name, page in _PAGES.items()})


def _as_plain(page: type[Any], name: str) -> dict[str, Any]:
    made = load_list(page, (grammar_folder() / "lists" / name).read_text(encoding="utf-8"), name)
    lists = {field.name: getattr(made, field.name) for field in fields(page)}
    return {key: words if isinstance(words, frozenset) else dict(words) for key, words in lists.items()}


def _read(page: type[Page], name: str) -> Page:
    lists: dict[str, Any] = {}
    for key, words in _kept()[name].items():
        lists[key] = MappingProxyType(words) if isinstance(words, dict) else words
    return page(**lists)


@lru_cache(maxsize=1)
def name_words() -> NameWords:
    return _read(NameWords, "names.toml")


@lru_cache(maxsize=1)
def odd_name_words() -> OddNameWords:
    return _read(OddNameWords, "odd-names.toml")


@lru_cache(maxsize=1)
def ground_words() -> GroundWords:
    return _read(GroundWords, "ground.toml")


@lru_cache(maxsize=1)
def same_again_words() -> SameAgainWords:
    return _read(SameAgainWords, "same-again.toml")


@lru_cache(maxsize=1)
def number_slips() -> NumberSlips:
    return _read(NumberSlips, "number-slips.toml")


@lru_cache(maxsize=1)
def claim_words() -> ClaimWords:
    return _read(ClaimWords, "claims.toml")
