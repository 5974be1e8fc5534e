"""A farm's own field names and taught words: in the model, in the dictionary, and in nobody else's."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from notesparse.spoken import compiled as made
from notesparse.spoken.compiled import compiled
from notesparse.spoken.own import Own, own_sentences
from notesparse.spoken.pronouncing import dictionary_file, joined_up

TAUGHT = """
[[word]]
kind = "INSECT"
means = "thrips"
say = ["jumpers", "jumping beans"]
"""
OWN = Own(("Larkspur Knob", "West 40", "Larkspurhill"), TAUGHT)
needs_sounds = pytest.mark.skipif(dictionary_file() is None, reason="pocketsphinx is not installed")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    monkeypatch.delenv("NOTESPARSE_NO_CACHE", raising=False)
    monkeypatch.setattr(made, "cache_folder", lambda: tmp_path)
    monkeypatch.setattr(made, "SENTENCES", 2000)
    compiled.cache_clear()
    yield tmp_path
    compiled.cache_clear()


def test_names_and_words_as_they_are_said() -> None:
    assert OWN.words == frozenset("larkspur knob west forty larkspurhill jumpers jumping beans".split())
    assert Own().words == frozenset() and own_sentences(Own()) == []


def test_sentences_have_them_where_they_belong() -> None:
    said = [" ".join(words) for words in own_sentences(OWN)]
    assert len(said) > 1000
    assert all(any(word in OWN.words for word in one.split()) for one in said)
    assert any("field larkspur knob" in one for one in said)
    assert any("no jumpers" in one for one in said)
    assert not any("larkspur west" in one for one in said)  # a name is one of theirs, whole
    assert own_sentences(Own(tuple(reversed(OWN.names)), TAUGHT)) == own_sentences(OWN)


def test_they_are_likelier_and_the_rest_is_hardly_less(folder: Path) -> None:
    base, own = compiled(), compiled(OWN)
    for line in ("next field larkspur knob", "over to west forty", "four jumpers per foot"):
        assert own.trigram.score(line.split()) > base.trigram.score(line.split()) + 3
    for line in ("plant three eleven trifs top leaf unrolled", "flowers at the top two nodes"):
        assert own.trigram.score(line.split()) > base.trigram.score(line.split()) - 0.25 * len(line.split())
    assert OWN.words <= own.vocabulary and OWN.words <= own.trade
    assert "larkspurhill" not in base.vocabulary
    assert own.answers == base.answers


def test_it_is_kept_beside_the_common_one_and_the_farms_older_ones_go(folder: Path) -> None:
    base, first = compiled(), compiled(OWN)
    first.arpa(folder), first.dictionary(folder), base.arpa(folder)
    second = compiled(Own(("Wagon Gate",), TAUGHT))
    assert len({base.key, first.key, second.key}) == 3
    assert sorted(f.name for f in folder.iterdir()) == sorted(
        [f"spoken-{base.key}.compiled", f"spoken-{base.key}.arpa", f"spoken-{second.key}.compiled"]
    )
    compiled.cache_clear()
    assert compiled(Own(("Wagon Gate",), TAUGHT)) == second  # read back
    assert compiled(Own(("?",), "")).key == base.key  # nothing that can be said


@needs_sounds
def test_the_dictionary_has_them_and_what_nobody_can_say_is_told(folder: Path) -> None:
    own = compiled(Own(("Larkspurhill", "Qxzt corner")))
    words = {line.split()[0] for line in own.dictionary(folder).read_text(encoding="utf-8").splitlines()}
    assert "larkspurhill" in words and "qxzt" not in words
    assert own.unsayable() == ["qxzt"]
    assert joined_up("wagongate") and not joined_up("gate")
