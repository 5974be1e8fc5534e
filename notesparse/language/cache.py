"""The compiled language, kept between runs: words, acceptor and lists, each in a file of the user's cache folder.

Its name holds the hash of every grammar file, so an edited word is seen at once; a cache that cannot be read or written is
done without. `NOTESPARSE_NO_CACHE=1` switches it off.
"""

from __future__ import annotations

import gc
import hashlib
import marshal
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path
from typing import Any, cast

from notesparse.language.folder import cue_files, grammar_folder
from notesparse.language.unroll import Step, acceptor
from notesparse.language.vocabulary import Vocabulary, vocabulary

FORM = 10  # raised whenever the shape of what is kept changes
FIRST = 4  # letters by which a table of words is cut


def cache_folder() -> Path:
    """Where caches of this user belong on this system."""
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local") / "notesparse"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches" / "notesparse"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "notesparse"


@lru_cache(maxsize=1)
def _grammar_hash() -> bytes:
    """Hash of the grammar's files, and of the shape of the cache."""
    digest = hashlib.sha256(f"{FORM} {sys.version_info[:2]}".encode())
    folder = grammar_folder()
    for room in (folder, folder / "words", folder / "lists"):
        for part in sorted(room.iterdir(), key=lambda f: f.name):
            if part.name.endswith((".lark", ".toml")):
                digest.update(part.name.encode())
                digest.update(part.read_bytes())
    for name, part in cue_files():
        digest.update(name.encode())
        digest.update(part.read_bytes())
    return digest.digest()


@lru_cache(maxsize=4)
def known_words(taught: str = "") -> Vocabulary:
    """The checked vocabulary; `taught` is the text of the user's own word file."""
    kept = _kept("taught" if taught else "words", taught, lambda: _parts(taught))
    trie, near, singles, never, glued, parts, kinds = kept
    return Vocabulary(Folded(trie), near, singles, never, Folded(glued), parts, kinds)


@lru_cache(maxsize=1)
def known_phrases() -> Step:
    """The acceptor of phrases: its root."""
    return cast(Step, _kept("phrases", "", acceptor))


def known_pages(kind: str, read: Callable[[], dict[str, Any]]) -> dict[str, Any]:
    """Pages of words (`cues`, `lists`, `columns`) as plain dicts, tuples and sets; `read` reads and checks them where they
    are not kept yet."""
    return cast(dict[str, Any], _kept(kind, "", read))


def _parts(taught: str) -> tuple[Any, ...]:
    words = vocabulary(taught)
    trie, glued = fold(words.trie), fold(words.glued)
    return (trie, words.near, words.singles, words.never, glued, words.parts, words.kinds)


def fold(table: dict[str, Any]) -> dict[str, bytes]:
    """A table of words, cut by their first letters, each part in one piece."""
    parts: dict[str, dict[str, Any]] = {}
    for word, value in table.items():
        parts.setdefault(word[:FIRST], {})[word] = value
    return {first: marshal.dumps(part) for first, part in parts.items()}


class Folded(dict[str, Any]):
    """A table of words as it was kept: a part of it comes to life when a word is looked up that begins as its words do.
    What is not asked for takes no time at the start. It is looked up with `get` and `in`, and never walked."""

    __slots__ = ("_parts",)

    def __init__(self, parts: dict[str, bytes]) -> None:
        self._parts = parts

    def get(self, word: str, default: Any = None) -> Any:
        part = self._parts.get(word[:FIRST])
        if part is not None:
            self.update(marshal.loads(part))
            self._parts.pop(word[:FIRST], None)
        return super().get(word, default)

    def __contains__(self, word: object) -> bool:
        return self.get(str(word)) is not None

    def __missing__(self, word: str) -> Any:
        found = self.get(word)
        if found is None:
            raise KeyError(word)
        return found

    def _never(self, *_: Any) -> Any:
        raise TypeError("a kept table of words is looked up, and never walked: what was not asked for is not in it yet")

    __iter__ = __len__ = keys = values = items = _never


def _kept(kind: str, taught: str, make: Callable[[], Any]) -> Any:
    """What was kept under the hash of the grammar, or else what is made now, and kept."""
    if os.environ.get("NOTESPARSE_NO_CACHE"):
        return make()
    try:
        key = hashlib.sha256(_grammar_hash() + taught.encode("utf-8", "surrogatepass")).hexdigest()
        path = cache_folder() / f"{kind}-{key[:24]}.compiled"
        with _no_collection():
            return marshal.loads(path.read_bytes())
    except (OSError, EOFError, ValueError, TypeError):
        pass
    made = make()
    _keep(path, made, kind)
    return made


@contextmanager
def _no_collection() -> Iterator[None]:
    """While so many objects come to life at once, looking for dead ones takes three times as long as loading."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()


def _keep(path: Path, made: Any, kind: str) -> None:
    """Write whole or not at all, and throw away the caches of older grammars."""
    import tempfile

    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent)
        with os.fdopen(handle, "wb") as file:
            marshal.dump(made, file)
        os.replace(name, path)
        for old in path.parent.glob(f"{kind}-*.compiled"):
            if old != path:
                old.unlink(missing_ok=True)
    except (OSError, ValueError):
        pass
