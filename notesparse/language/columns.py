"""`grammar/words/columns.toml`: the words of column heads and the signs of cells, as one frozen object."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from typing import Any

from notesparse.errors import VocabularyError
from notesparse.language.cache import known_pages
from notesparse.language.folder import grammar_folder
from notesparse.lazy import dataclass, pattern

_WORDS = pattern(r"[^\W_]+(?:'[^\W_]+)*|=")
_STRAIGHT = str.maketrans("’‘`", "'''")
_TOKENS = pattern(r"[^\W\d_]+(?:'[^\W\d_]+)*|\d+|[%#\"&+]")


@dataclass(frozen=True, slots=True)
class HeadWord:
    """What a word of a head says: `kind` is head, or what it adds (unit, by_node, measure, count, percent, of, and,
    all, plain)."""

    kind: str
    means: str


@dataclass(frozen=True, slots=True)
class ColumnWords:
    heads: dict[tuple[str, ...], tuple[HeadWord, ...]]
    cells: dict[str, str]  # the cell with its blanks taken out, in lower case -> what it says
    longest: dict[str, int]  # the first word or mark of a head -> how long the longest head that begins so is
    visits: dict[tuple[str, ...], str]  # heads of columns that open visits or tell of one: field, date, planted
    looked: dict[str, str]  # words for what was found on looking: seen, none, look, unsure, plain

    def cell(self, text: str) -> str | None:
        """What a cell of these words says: one that is spelled out, or words for having looked (`saw one`, `looked, none there`)."""
        return self.cells.get(squeeze(text)) or self._looked(text)

    def _looked(self, text: str) -> str | None:
        words = _WORDS.findall(text.casefold().translate(_STRAIGHT))
        kinds = [self.looked.get(w, "") for w in words]
        if not kinds or "" in kinds:
            return None
        denied = [k for k, kind in enumerate(kinds) if kind == "none"]
        if "unsure" in kinds:
            return "nothing" if denied else None
        if denied:
            not_looked = denied == [denied[0]] and kinds[denied[0] + 1 : denied[0] + 2] == ["look"]
            return "nothing" if not_looked else "no"
        return "yes" if "seen" in kinds else None


def head_tokens(text: str) -> tuple[str, ...]:
    """A head cut into the words and marks that count."""
    return tuple(_TOKENS.findall(text.casefold()))


def load_columns(text: str, name: str = "columns.toml") -> ColumnWords:
    """The column words of one TOML text. Raises VocabularyError where a spelling is given two meanings of a kind."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise VocabularyError(f"{name}: not TOML: {fault}") from fault
    heads: dict[tuple[str, ...], list[HeadWord]] = {}
    for section in ("head", "mark"):
        for entry in data.get(section, ()):
            word = HeadWord(entry.get("kind", "head"), entry["means"])
            for said in entry["say"]:
                tokens = head_tokens(said)
                if not tokens:
                    raise VocabularyError(f"{name}: an empty spelling in the entry for {word.means!r}")
                known = heads.setdefault(tokens, [])
                if any(k.kind == word.kind and k.means != word.means for k in known):
                    raise VocabularyError(f"{name}: “{said}” has two meanings as {word.kind}")
                if word not in known:
                    known.append(word)
    cells: dict[str, str] = {}
    for entry in data.get("cell", ()):
        for said in entry["say"]:
            key = squeeze(said)
            if cells.setdefault(key, entry["means"]) != entry["means"]:
                raise VocabularyError(f"{name}: the cell “{said}” means both {cells[key]} and {entry['means']}")
    longest: dict[str, int] = {}
    for tokens in heads:
        longest[tokens[0]] = max(len(tokens), longest.get(tokens[0], 0))
    visits: dict[tuple[str, ...], str] = {}
    for entry in data.get("visit", ()):
        for said in entry["say"]:
            if visits.setdefault(head_tokens(said), entry["means"]) != entry["means"]:
                raise VocabularyError(f"{name}: the head “{said}” means both a field and a day")
    looked = {said: entry["means"] for entry in data.get("looked", ()) for said in entry["say"]}
    return ColumnWords({k: tuple(v) for k, v in heads.items()}, cells, longest, visits, looked)


_PLAIN_MARKS = str.maketrans("“”„‟″’‘´`–—−", '"""""\'\'\'\'---')


def squeeze(text: str) -> str:
    """A cell in lower case with no blanks and straight quotes."""
    return "".join(text.casefold().split()).translate(_PLAIN_MARKS)


def _as_plain(words: ColumnWords) -> dict[str, Any]:
    heads = {tokens: tuple((w.kind, w.means) for w in found) for tokens, found in words.heads.items()}
    return {
        "heads": heads,
        "cells": words.cells,
        "longest": words.longest,
        "visits": words.visits,
        "looked": words.looked,
    }


def _read_columns() -> dict[str, Any]:
    return _as_plain(load_columns((grammar_folder() / "words" / "columns.toml").read_text(encoding="utf-8")))


@lru_cache(maxsize=1)
def column_words() -> ColumnWords:
    """The words of `grammar/words/columns.toml`, loaded once."""
    plain = known_pages("columns", _read_columns)
    heads = {tokens: tuple(HeadWord(*word) for word in found) for tokens, found in plain.pop("heads").items()}
    return ColumnWords(heads, **plain)
