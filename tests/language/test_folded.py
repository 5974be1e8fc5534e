"""A kept table of words gives what the table gave, and cannot be walked by mistake."""

from __future__ import annotations

import pytest

from notesparse.language.cache import Folded, fold, known_words
from notesparse.language.vocabulary import vocabulary


def test_every_word_is_found_as_before() -> None:
    whole, kept = vocabulary(), known_words()
    assert all(kept.trie.get(word) == step for word, step in whole.trie.items())
    assert all(kept.glued[word] == senses for word, senses in whole.glued.items())


def test_what_is_not_there_is_not_found() -> None:
    kept = Folded(fold({"node": 1, "nodes": 2}))
    assert kept.get("nod") is None and "nodule" not in kept and "nodes" in kept
    with pytest.raises(KeyError):
        kept["nodule"]


def test_it_is_never_walked() -> None:
    kept = Folded(fold({"node": 1}))
    for walk in (list, len, Folded.items, Folded.keys, Folded.values):
        with pytest.raises(TypeError, match="never walked"):
            walk(kept)
