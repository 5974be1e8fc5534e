"""Lists and tables of words in our TOML files, checked: every refusal with file, line and word."""

from __future__ import annotations

import re
import sys
from typing import Any

from notesparse.errors import VocabularyError

MEANT: dict[type, str] = {str: "a word", int: "a whole number", float: "a number", bool: "true or false"}


def checked_words(value: Any, text: str, name: str, key: str, *, phrases: bool = False) -> list[str]:
    """The words of a list, each the same object wherever it stands, so that it is kept and loaded once."""
    if not isinstance(value, list) or not all(isinstance(word, str) for word in value):
        raise VocabularyError(f"{name}:{line_of_key(text, key)}: {key!r} has to be a list of words")
    if not value:
        raise VocabularyError(f"{name}:{line_of_key(text, key)}: the list {key!r} is empty")
    seen: set[str] = set()
    for word in value:
        _check(word, text, name, key, phrases=phrases)
        if word in seen:
            line = line_of_word(text, word, key, last=True)
            raise VocabularyError(f"{name}:{line}: “{word}” is twice in {key!r}")
        seen.add(word)
    return [sys.intern(word) for word in value]


def checked_table(value: Any, text: str, name: str, key: str, kind: type | None = None) -> dict[str, Any]:
    """The words of a table with what they mean, all of one kind: the one that is asked, or that of the first."""
    if not isinstance(value, dict):
        raise VocabularyError(f"{name}:{line_of_key(text, key)}: {key!r} has to be a table")
    if not value:
        raise VocabularyError(f"{name}:{line_of_key(text, key)}: the table {key!r} is empty")
    kind = kind or type(next(iter(value.values())))
    for word, means in value.items():
        _check(word, text, name, key, phrases=False)
        if kind not in MEANT or type(means) is not kind or means == "":
            what = MEANT.get(kind, "a word or a number")
            raise VocabularyError(f"{name}:{line_of_word(text, word, key)}: “{word}” in {key!r} has to mean {what}")
    return {sys.intern(word): means for word, means in value.items()}


def _check(word: str, text: str, name: str, key: str, *, phrases: bool) -> None:
    plain = word.casefold().split()
    if not plain or word != (" " if phrases else "").join(plain):
        what = "words in small letters with one blank between them" if phrases else "one word in small letters"
        raise VocabularyError(f"{name}:{line_of_word(text, word, key)}: “{word}” in {key!r} has to be {what}")


def _key_at(text: str, key: str) -> int:
    found = re.search(rf"^\s*(?:\[+\s*)?{re.escape(key)}\s*[=\].]", text, re.MULTILINE)
    return found.end() if found else 0


def line_of_key(text: str, key: str) -> int:
    """The line where a list begins."""
    return text.count("\n", 0, _key_at(text, key)) + 1


def line_of_word(text: str, word: str, key: str, *, last: bool = False) -> int:
    """The line where a word of a list stands; with `last` where it stands again."""
    places = [m.start(1) for m in re.finditer(rf"[\"'\s]({re.escape(word)})[\"'\s=]", text[_key_at(text, key) :])]
    at = places[min(1, len(places) - 1) if last else 0] if places else 0
    return text.count("\n", 0, _key_at(text, key) + at) + 1
