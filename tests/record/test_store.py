"""Note files: every encoding that a phone, a PC or an old recorder leaves, and files written whole or not at all."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

import pytest

from notesparse.errors import InputError
from notesparse.record.store import LARGEST, date_in_name, from_bytes, load, write_whole

NOTE = "pl 3 rows 22½ in, café “top” node\r\nlast\rline"


@pytest.mark.parametrize(
    ("data", "guessed"),
    [
        (NOTE.encode("utf-8"), None),
        (NOTE.encode("utf-8-sig"), None),
        (NOTE.encode("utf-16"), None),
        (b"\xfe\xff" + NOTE.encode("utf-16-be"), None),
        (NOTE.encode("utf-32"), None),
        (NOTE.encode("cp1252"), "cp1252"),
    ],
    ids=["utf-8", "utf-8 with mark", "utf-16", "utf-16 big end first", "utf-32", "cp1252"],
)
def test_the_text_is_the_same_in_every_encoding(data: bytes, guessed: str | None, tmp_path: Path) -> None:
    path = tmp_path / "2026-07-14_a.txt"
    path.write_bytes(data)
    note = load(str(path))
    assert note.text == NOTE  # no mark in it, and the line ends as they were
    assert note.guessed == guessed
    assert note.sha256 == hashlib.sha256(data).hexdigest()
    assert note.date == "2026-07-14"
    assert note.source == str(path)


def test_bytes_that_cp1252_does_not_know_are_latin_1() -> None:
    note = from_bytes(b"pl 3 \x81 22\xbd in", "a")
    assert (note.text, note.guessed) == ("pl 3 \x81 22½ in", "latin-1")


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
def test_line_ends_are_kept(ends: str) -> None:
    assert from_bytes(f"a{ends}b{ends}".encode(), "a").text == f"a{ends}b{ends}"


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "there is no note in it, the file is empty"),
        (b" \r\n\t ", "there is no note in it"),
        (b"\xef\xbb\xbf", "there is no note in it"),
        (b"pl 3\x00 11 trifs", "not plain text; save the note as plain text in UTF-8"),
        ("pl 3".encode("utf-16-le"), "not plain text"),
        (b"\x01\x02\x03\x04abc", "not plain text"),
        (b"\xff\xfeabc", "begins as UTF-16 text and goes on as something else"),
        (b"%PDF-1.7 ...", "is a PDF; save it as plain text"),
        (b"PK\x03\x04...", "word processor's or spreadsheet's file; save it as plain text"),
        (b"{\\rtf1 pl 3}", "is a formatted document"),
        (b"\xff\xd8\xff\xe0 JFIF", "is a picture"),
        (b"a" * (LARGEST + 1), "larger than 10 MB"),
    ],
    ids="empty blank only-a-mark nul utf-16-unmarked controls half-utf-16 pdf zip rtf jpeg large".split(),
)
def test_what_is_no_note_is_named_with_what_to_do(data: bytes, says: str) -> None:
    with pytest.raises(InputError, match=r"^west\.txt: ") as fault:
        from_bytes(data, "west.txt")
    assert says in str(fault.value)


def test_the_largest_note_is_still_read() -> None:
    assert len(from_bytes(b"a" * LARGEST, "a").text) == LARGEST


def test_a_note_may_hold_a_few_odd_characters() -> None:
    assert "\x1b" in from_bytes(b"pl 3 \x1b[31m eleven trifs, flowers top two nodes \x07 and more", "a").text


@pytest.mark.parametrize(("name", "says"), [("gone.txt", "there is no such file"), (".", "is a folder")])
def test_what_cannot_be_opened_is_named(name: str, says: str, tmp_path: Path) -> None:
    with pytest.raises(InputError, match=says):
        load(str(tmp_path / name))


@pytest.mark.parametrize(
    ("name", "date"),
    [
        ("2026-07-14_creek.txt", "2026-07-14"),
        ("some/folder/2026-07-14.txt", "2026-07-14"),
        ("2026-07-14creek.txt", "2026-07-14"),
        ("2026-07-140.txt", None),
        ("2026-02-30_creek.txt", None),
        ("creek_2026-07-14.txt", None),
        ("2026-07-14_folder/creek.txt", None),
        ("-", None),
    ],
)
def test_the_date_is_the_one_that_the_name_begins_with(name: str, date: str | None) -> None:
    assert date_in_name(name) == date


def test_a_file_is_there_whole(tmp_path: Path) -> None:
    path = tmp_path / "out.jsonl"
    with write_whole(str(path)) as file:
        file.write("½ one\n")
        assert not path.exists()
    assert path.read_bytes() == "½ one\n".encode()
    assert os.listdir(tmp_path) == ["out.jsonl"]


@pytest.mark.parametrize("fault", [RuntimeError, KeyboardInterrupt])
def test_or_not_at_all(fault: type[BaseException], tmp_path: Path) -> None:
    path = tmp_path / "out.csv"
    path.write_text("old", encoding="utf-8")
    with pytest.raises(fault), write_whole(str(path)) as file:
        file.write("new")
        raise fault
    assert path.read_text(encoding="utf-8") == "old"
    assert os.listdir(tmp_path) == ["out.csv"]


def test_permissions_are_those_of_the_file_before(tmp_path: Path) -> None:
    if os.name == "nt":
        pytest.skip("permissions of another kind")
    path, new = tmp_path / "out.csv", tmp_path / "new.csv"
    path.write_text("old", encoding="utf-8")
    path.chmod(0o640)
    for each in (path, new):
        with write_whole(str(each)) as file:
            file.write("new")
    assert path.stat().st_mode & 0o777 == 0o640
    assert new.stat().st_mode & 0o400


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real.csv").write_text("old", encoding="utf-8")
    (tmp_path / "link.csv").symlink_to(tmp_path / "real.csv")
    with write_whole(str(tmp_path / "link.csv")) as file:
        file.write("new")
    assert (tmp_path / "link.csv").is_symlink()
    assert (tmp_path / "real.csv").read_text(encoding="utf-8") == "new"


@pytest.mark.parametrize(("name", "says"), [("no/out.csv", "there is no folder"), (".", "is a folder")])
def test_where_nothing_can_be_written_is_said(name: str, says: str, tmp_path: Path) -> None:
    with pytest.raises(InputError, match=says), write_whole(str(tmp_path / name)):
        pytest.fail("there is nothing to write to")


def test_what_is_no_regular_file_is_written_to_and_not_replaced() -> None:
    with write_whole(os.devnull) as file:
        file.write("away")
    assert not Path(os.devnull).is_file()
