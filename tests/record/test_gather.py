"""Files, folders, quoted patterns and - : which notes are meant, in which order."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesparse.record.gather import gather


@pytest.fixture
def farm(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("b.txt", "a.note", "C.MD", "photo.jpg", ".hidden.txt", "sub/d.txt", ".git/e.txt", "odd[1].txt"):
        path = tmp_path / "notes" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("pl 1", encoding="utf-8")
    (tmp_path / "empty").mkdir()
    monkeypatch.chdir(tmp_path)
    return tmp_path


def names(*asked: str) -> list[str]:
    found, missing = gather(asked)
    assert missing == []
    return [Path(path).as_posix() for path in found]


def faults(*asked: str) -> list[str]:
    return [str(fault) for fault in gather(asked)[1]]


def test_a_folder_gives_its_notes_sorted_and_no_hidden_ones(farm: Path) -> None:
    assert names("notes") == ["notes/C.MD", "notes/a.note", "notes/b.txt", "notes/odd[1].txt", "notes/sub/d.txt"]


def test_the_order_given_is_kept_and_each_note_comes_once(farm: Path) -> None:
    assert names("notes/sub/d.txt", "-", "notes/b.txt", "notes/../notes/b.txt", "-") == [
        "notes/sub/d.txt", "-", "notes/b.txt",
    ]  # fmt: skip


def test_a_named_file_is_read_whatever_its_ending(farm: Path) -> None:
    assert names("notes/photo.jpg") == ["notes/photo.jpg"]


@pytest.mark.parametrize(
    ("pattern", "found"),
    [
        ("notes/*.txt", ["notes/b.txt", "notes/odd[1].txt"]),
        ("notes/?.*", ["notes/C.MD", "notes/a.note", "notes/b.txt"]),
        ("notes/**/d.txt", ["notes/sub/d.txt"]),
        ("notes/s*", ["notes/sub/d.txt"]),
        ("notes/odd[1].txt", ["notes/odd[1].txt"]),  # the file of that very name
    ],
)
def test_patterns_that_the_shell_left_alone(pattern: str, found: list[str], farm: Path) -> None:
    assert names(pattern) == found


def test_what_is_not_there_is_said_and_the_rest_is_found(farm: Path) -> None:
    found, missing = gather(["notes/b.txt", "gone.txt", "*.xyz", "empty", "plant 3 eleven trifs"])
    assert found == ["notes/b.txt"]
    assert [str(fault) for fault in missing] == [
        "gone.txt: there is no such file or folder.",
        "*.xyz: no note fits this pattern.",
        "empty: there is no note in this folder; a note ends in .txt, .note, .md.",
        '"plant 3 eleven trifs": there is no such file. To read these words themselves: notesparse explain "..."',
    ]


def test_odd_names_do_no_harm(farm: Path) -> None:
    assert faults("a\0b") == ["'a\\x00b': this is no file name."]
    long = faults("eleven trifs " * 30)[0]
    assert len(long) < 140
