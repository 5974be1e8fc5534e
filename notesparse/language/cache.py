"""The compiled language, kept between runs: words and acceptor in one file of the user's cache folder.

Its name is the hash of every grammar file, so an edited word is seen at once; a cache that cannot be read or written is
done without. `NOTESPARSE_NO_CACHE=1` switches it off.
"""

from __future__ import annotations

import hashlib
import marshal
import os
import sys
import tempfile
from functools import lru_cache
from pathlib import Path

from notesparse.language.folder import grammar_folder
from notesparse.language.unroll import Step
from notesparse.language.vocabulary import Vocabulary

FORM = 4  # raised whenever the shape of what is kept changes


def cache_folder() -> Path:
    """Where caches of this user belong on this system."""
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local") / "notesparse"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches" / "notesparse"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "notesparse"


def grammar_hash(taught: str = "") -> str:
    """Hash of the grammar's files, of the user's own words, and of the shape of the cache."""
    digest = hashlib.sha256(f"{FORM} {sys.version_info[:2]}".encode())
    folder = grammar_folder()
    for part in sorted([*folder.iterdir(), *(folder / "words").iterdir()], key=lambda f: f.name):
        if part.name.endswith((".lark", ".toml")):
            digest.update(part.name.encode())
            digest.update(part.read_bytes())
    digest.update(taught.encode("utf-8", "surrogatepass"))
    return digest.hexdigest()[:24]


@lru_cache(maxsize=4)
def compiled(taught: str = "") -> tuple[Vocabulary, Step]:
    """The checked vocabulary and the acceptor of phrases; `taught` is the text of the user's own word file."""
    if os.environ.get("NOTESPARSE_NO_CACHE"):
        return _build(taught)
    kind = "taught" if taught else "language"
    try:
        path = cache_folder() / f"{kind}-{grammar_hash(taught)}.compiled"
        kept = marshal.loads(path.read_bytes())
        trie, near, singles, never, glued, kinds, root = kept
        return Vocabulary(trie, near, singles, never, glued, kinds), root
    except (OSError, EOFError, ValueError, TypeError):
        pass
    made = _build(taught)
    _keep(path, made, kind)
    return made


def _build(taught: str) -> tuple[Vocabulary, Step]:
    from notesparse.language.unroll import acceptor
    from notesparse.language.vocabulary import vocabulary

    return vocabulary(taught), acceptor()


def _keep(path: Path, made: tuple[Vocabulary, Step], kind: str) -> None:
    """Write whole or not at all, and throw away the caches of older grammars."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent)
        with os.fdopen(handle, "wb") as file:
            words, root = made
            marshal.dump((words.trie, words.near, words.singles, words.never, words.glued, words.kinds, root), file)
        os.replace(name, path)
        for old in path.parent.glob(f"{kind}-*.compiled"):
            if old != path:
                old.unlink(missing_ok=True)
    except (OSError, ValueError):
        pass
