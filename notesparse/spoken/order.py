"""`grammar/spoken/order.toml`: in what order a walk is talked, checked, as one frozen object."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from typing import Any

from notesparse.errors import VocabularyError
from notesparse.language.cues import cue_page
from notesparse.language.folder import grammar_folder
from notesparse.language.grammar import declared_kinds, grammar_rules
from notesparse.lazy import dataclass, pattern

_LISTED = cue_page("spoken/order")

NAME = "spoken/order.toml"
_BETWEEN = pattern(r"(\d+)\.\.(\d+)")


@dataclass(frozen=True, slots=True)
class Item:
    """One thing that is said: `what` is a phrase, a kind, a part, a word or a number, by `sort`."""

    sort: str  # "phrase", "form", "kind", "part", "word", "number", "name"
    what: str
    maybe: bool  # only half the time
    low: int = 0
    high: int = 0


Row = tuple[tuple[Item, ...], float]
"""What is said, and how often."""


@dataclass(frozen=True, slots=True)
class Order:
    """The page of `order.toml`."""

    names: tuple[str, ...]
    unsaid: frozenset[str]  # forms of phrases that need figures or marks
    light: frozenset[str]  # kinds whose words carry nothing of a record
    breaths: tuple[Row, ...]
    parts: dict[str, tuple[Row, ...]]
    usual: dict[str, tuple[tuple[str, ...], ...]]
    numbers: dict[str, tuple[int, int]]


_FOR_READ_ORDER = _LISTED.words("for_read_order")


def read_order(text: str, name: str = NAME) -> Order:
    """The page of a file's text. Raises `VocabularyError` naming file and what is wrong."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise VocabularyError(f"{name}: not TOML: {fault}") from fault
    if odd := sorted(set(data) ^ _FOR_READ_ORDER):
        expected = "names, unsaid, light, breath, parts, usual and numbers"
        raise VocabularyError(f"{name}: {odd[0]!r} is missing or over; expected {expected}")
    parts: dict[str, Any] = data["parts"]
    rows = {p: tuple(_row(what, often, parts, name) for what, often in table.items()) for p, table in parts.items()}
    breaths = tuple(_breath(b, parts, name) for b in data["breath"])
    used = {item.what for items, _ in (*breaths, *(r for some in rows.values() for r in some)) for item in items}
    if idle := sorted(set(parts) - used):
        raise VocabularyError(f"{name}: the part {idle[0]!r} is in no breath")
    light = frozenset(data["light"].split())
    for kind in (*data["usual"], *sorted(light)):
        if kind not in declared_kinds():
            raise VocabularyError(f"{name}: the kind {kind} is not declared in terminals.lark")
    usual = {kind: tuple(tuple(s.split()) for s in some) for kind, some in data["usual"].items()}
    numbers = {where: (low, high) for where, (low, high) in data["numbers"].items()}
    for form in data["unsaid"].split():
        _item(form, {}, name)
    unsaid = frozenset(data["unsaid"].split())
    return Order(tuple(dict.fromkeys(data["names"].split())), unsaid, light, breaths, rows, usual, numbers)


def _breath(breath: dict[str, Any], parts: dict[str, Any], name: str) -> Row:
    for word in breath["parts"]:
        if word.removesuffix("?") not in parts:
            raise VocabularyError(f"{name}: the breath {breath['parts']} names a part {word!r} that is not there")
    items = tuple(Item("part", word.removesuffix("?"), word.endswith("?")) for word in breath["parts"])
    return items, _often(breath["often"], breath["parts"], name)


def _often(often: Any, what: Any, name: str) -> float:
    if not isinstance(often, int | float) or often <= 0:
        raise VocabularyError(f"{name}: how often {what!r} is said has to be a number above nothing")
    return float(often)


def _row(what: str, often: float, parts: dict[str, Any], name: str) -> Row:
    return tuple(_item(word, parts, name) for word in what.split()), _often(often, what, name)


def read_items(row: str, name: str) -> tuple[Item, ...]:
    """A row of kinds, words and numbers in the notation of this file, for another file. Raises `VocabularyError`."""
    return tuple(_item(word, {}, name) for word in row.split())


def _item(word: str, parts: dict[str, Any], name: str) -> Item:
    plain = word.removesuffix("?")
    maybe = plain != word
    if found := _BETWEEN.fullmatch(plain):
        return Item("number", "INT", maybe, int(found[1]), int(found[2]))
    if plain.startswith("="):
        return Item("word", plain[1:], maybe)
    if plain == "NAME":
        return Item("name", plain, maybe)
    if plain in declared_kinds():
        return Item("kind", plain, maybe)
    rules = grammar_rules()
    phrase, _, form = plain.partition("/")
    if phrase in rules and not form:
        return Item("phrase", phrase, maybe)
    if phrase in rules and any(alias == form for _, alias in rules[phrase]):
        return Item("form", plain, maybe)
    if plain in parts:
        return Item("part", plain, maybe)
    raise VocabularyError(f"{name}: {plain!r} is no part, phrase, form or kind")


@lru_cache(maxsize=1)
def order() -> Order:
    """The real page."""
    return read_order((grammar_folder() / "spoken" / "order.toml").read_text(encoding="utf-8"))
