"""Ordinary words, with how often each is said: `grammar/spoken/common-words.toml`, kept compiled."""

from __future__ import annotations

import tomllib
from functools import lru_cache

from notesparse.language.cache import known_pages
from notesparse.language.folder import grammar_folder


@lru_cache(maxsize=1)
def common_words() -> dict[str, float]:
    """Word -> times per million words."""
    return known_pages("common", _read)


def _read() -> dict[str, float]:
    text = (grammar_folder() / "spoken" / "common-words.toml").read_text(encoding="utf-8")
    return {word: float(often) for word, often in tomllib.loads(text)["per_million"].items()}
