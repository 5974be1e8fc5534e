"""`grammar/card.toml`: what a scout can say, by topic, with what becomes of it; and the word files entry by entry."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from notesparse.errors import VocabularyError
from notesparse.language.folder import grammar_folder
from notesparse.language.vocabulary import IDLE
from notesparse.lazy import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """What can be said, what the record takes from it, and facts that the last plant then has. `{pods/pod_len: ...}` in
    it is a form of the grammar whose words are still to be drawn (`spoken/card.py`), `#1` a number of them."""

    say: str
    gives: str
    facts: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Matter:
    """Lines of one topic."""

    title: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """Spellings of one meaning: `say` as they are written, `sounds` as they are misheard."""

    topic: str  # the first line of the word file
    kind: str
    means: str
    say: tuple[str, ...]
    sounds: tuple[str, ...]


@lru_cache(maxsize=1)
def lines() -> tuple[Matter, ...]:
    """The topics of the card as they stand in the file, in order. Raises `VocabularyError` where that has another
    shape."""
    text = (grammar_folder() / "card.toml").read_text(encoding="utf-8")
    return read_card(text)


def read_card(text: str) -> tuple[Matter, ...]:
    """The lines of a file's text. Raises `VocabularyError` naming the file and the topic or line that is wrong."""
    try:
        topics = tomllib.loads(text)["topic"]
        out = tuple(Matter(t["title"], tuple(_line(t["title"], line) for line in t["lines"])) for t in topics)
    except tomllib.TOMLDecodeError as fault:
        raise VocabularyError(f"card.toml: {fault}") from None
    except (KeyError, TypeError):
        raise VocabularyError("card.toml: expected [[topic]] with a title and lines of [say, gives, facts]") from None
    said = [line.say for matter in out for line in matter.lines if "{" not in line.say]
    for say in said:
        if said.count(say) > 1:
            raise VocabularyError(f"card.toml: {say!r} is there twice")
    return out


def _line(title: str, line: Any) -> Line:
    if (
        not isinstance(line, list)
        or [type(part) for part in line] != [str, str, dict]
        or not line[0].strip()
        or not line[1].strip()
    ):
        raise VocabularyError(f"card.toml, under {title!r}: {line!r} is not [say, gives, facts]")
    return Line(*line)


@lru_cache(maxsize=2)
def entries(taught: str = "") -> tuple[Entry, ...]:
    """All words, file by file; spellings of one meaning together. `taught` is the text of the user's word file."""
    folder = grammar_folder() / "words"
    texts = sorted((f.name, f.read_text(encoding="utf-8")) for f in folder.iterdir() if f.name.endswith(".toml"))
    out: dict[tuple[str, str, str], tuple[list[str], list[str]]] = {}
    for name, text in [*texts, ("words.toml", taught)]:
        topic = "Your own words" if name == "words.toml" else text.split("\n", 1)[0].lstrip("# ").rstrip(".,")
        for word in tomllib.loads(text).get("word", ()):
            if word["kind"] not in IDLE:
                plain, heard = out.setdefault((topic, word["kind"], str(word["means"])), ([], []))
                (heard if word.get("sound") else plain).extend(word["say"])
    return tuple(Entry(*key, tuple(plain), tuple(heard)) for key, (plain, heard) in out.items())


def find(query: str, among: tuple[Entry, ...]) -> list[Entry]:
    """The entries of a word: those that are spelled or called so, else those in which it is a part of a spelling."""
    asked = " ".join(query.casefold().split())

    def says(e: Entry) -> tuple[str, ...]:
        return tuple(s.casefold() for s in (*e.say, *e.sounds, e.means, e.kind))

    whole = [e for e in among if asked in says(e)]
    return whole or [e for e in among if any(f" {asked}" in f" {s}" for s in says(e))]
