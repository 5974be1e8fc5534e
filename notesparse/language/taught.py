"""The user's own word file: the same form as `grammar/words`, changed word by word, all else in it as it was."""

from __future__ import annotations

from typing import Any

from notesparse.errors import VocabularyError
from notesparse.language.vocabulary import Sense, Vocabulary, pieces_of, senses_of, vocabulary
from notesparse.lazy import dataclass

NOTHING = ("nothing", "filler")
"""What a word is taught as that carries nothing."""

_HEAD = """\
# Words that you taught notesparse (notesparse teach, notesparse unteach). Same form as the files of grammar/words.
"""


@dataclass(frozen=True, slots=True)
class Taught:
    """One taught spelling with its kind and meaning."""

    say: str
    kind: str
    means: Any


def taught_in(text: str) -> list[Taught]:
    """All that a word file teaches. Raises `VocabularyError` where it is no TOML."""
    import tomllib

    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise VocabularyError(f"words.toml: not TOML: {fault}") from fault
    return [
        Taught(say, entry.get("kind", ""), entry.get("means", say))
        for entry in data.get("word", ())
        for say in entry.get("say", ())
    ]


def meanings(words: Vocabulary, meaning: str) -> list[Sense]:
    """What `meaning` may stand for: the senses of that spelling, one for each kind and meaning."""
    if meaning.casefold() in NOTHING:
        return [("FILLER", "filler", meaning, False, None)]
    found: dict[tuple[str, str], Sense] = {}
    for sense in senses_of(words, meaning):
        if not sense[3]:
            found.setdefault((sense[0], str(sense[1])), sense)
    return list(found.values())


def with_word(text: str, say: str, kind: str, means: Any) -> str:
    """The file with one spelling more. Raises `VocabularyError` where the word cannot be taught."""
    import tomlkit

    _check(say)
    doc: Any = tomlkit.parse(text or _HEAD)
    if "word" not in doc:
        doc["word"] = tomlkit.aot()
    entry = tomlkit.table()
    entry.trivia.indent = "\n"
    entry.add("kind", kind)
    entry.add("means", means)
    entry.add("say", [say])
    entry.add("near", False)  # only as it is spelled: nobody has looked at what lies near it
    entry.add("source", "taught")
    doc["word"].append(entry)
    out: str = tomlkit.dumps(doc)
    try:
        vocabulary(out)  # refused here, before anything is written
    except VocabularyError as fault:
        known = [s for s in senses_of(vocabulary(), say) if not s[3]]
        if known:
            told = ", ".join(sorted({f"{s[1]} ({s[0]})" for s in known}))
            raise VocabularyError(f"“{say}” is read as {told} already.\n{fault}") from None
        raise
    return out


def _check(say: str) -> None:
    pieces = pieces_of(say)
    if not pieces or not any(c.isalpha() for c in say):
        raise VocabularyError(
            f"“{say}” has no letter in it, and cannot be taught: figures and marks are read as they are."
        )
    if len(pieces) == 1 and len(say.strip()) == 1:
        raise VocabularyError(f"“{say}” is a single letter, and cannot be taught: it would be read wherever it stands.")
    if len(pieces) > 8:
        raise VocabularyError(f"“{say}” is too long to be taught; teach the words that are new in it.")


def without_word(text: str, say: str) -> str:
    """The file without a spelling; all else in it as it was. Raises `VocabularyError` where it was never taught."""
    import tomlkit

    doc: Any = tomlkit.parse(text)
    wanted = pieces_of(say)
    gone = False
    entries = doc.get("word", [])
    for at in reversed(range(len(entries))):
        kept = [s for s in entries[at].get("say", []) if pieces_of(s) != wanted]
        if len(kept) == len(entries[at].get("say", [])):
            continue
        gone = True
        if kept:
            entries[at]["say"] = kept
        else:
            del entries[at]
    if not gone:
        raise VocabularyError(f"“{say}” was never taught.")
    if "word" in doc and not len(doc["word"]):
        del doc["word"]
    out: str = tomlkit.dumps(doc)
    return out
