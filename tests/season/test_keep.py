"""Keeping: the same note twice, a changed one, undo, copies, a dry run, several writers, a killed process."""

from __future__ import annotations

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

import pytest

from notesparse.errors import InputError
from notesparse.flow import read
from notesparse.season.keep import keep, keep_all, undo
from notesparse.season.log import backup, connect, faults
from notesparse.season.look import fields, note_of, notes
from tests.season.made import outcome

ROOT = Path(__file__).resolve().parents[2]
ONE = "Low Ladder 7/1\np1 8 trifs, no flowers\np2 9 trifs, flower third node down\n"


def rows(log: sqlite3.Connection) -> dict[str, list[tuple[object, ...]]]:
    """All that the log holds of notes, without the numbers of its own that may differ."""
    return {
        "visits": [tuple(r)[2:] for r in log.execute("SELECT * FROM visits ORDER BY id")],
        "observations": [tuple(r)[2:] for r in log.execute("SELECT * FROM observations ORDER BY id")],
        "questions": [tuple(r)[2:] for r in log.execute("SELECT * FROM questions ORDER BY id")],
    }


def test_the_same_note_twice_changes_nothing(log: sqlite3.Connection) -> None:
    assert keep(log, outcome(ONE), "test").how == "added"
    before = rows(log), log.total_changes
    assert keep(log, outcome(ONE), "test").how == "unchanged"
    assert (rows(log), log.total_changes) == before


def test_a_changed_note_replaces_its_own_rows_and_says_what_changed(log: sqlite3.Connection) -> None:
    keep(log, outcome(ONE), "test")
    keep(log, outcome("Mill Forty 7/1 p1 V6", "b.txt"), "test")
    changed = keep(log, outcome(ONE.replace("8 trifs", "7 trifs")), "test")
    assert changed.how == "changed"
    assert any("8" in line and "7" in line for line in changed.what)
    values = [r[0] for r in log.execute("SELECT value FROM observations WHERE variable = 'trifoliates' ORDER BY id")]
    assert sorted(values) == ["7", "9"]
    assert [f.name for f in fields(log)] == ["Low Ladder", "Mill Forty"]


def test_an_answer_given_since_replaces_the_open_question(log: sqlite3.Connection) -> None:
    text = "Low Ladder 7/1 p1 ten or eleven trifs"
    asked = outcome(text)
    keep(log, asked, "test")
    assert fields(log)[0].visits[0].open_questions == 1
    answered = read(text, source="a.txt", sha256=asked.note.sha256, answers=[asked.questions[0].chosen(1)])
    assert keep(log, answered, "test").how == "changed"
    seen = fields(log)[0].visits[0]
    assert (seen.open_questions, seen.v) == (0, "V11")


def test_undo_brings_back_what_stood(log: sqlite3.Connection) -> None:
    keep(log, outcome(ONE), "test")
    before = rows(log)
    keep(log, outcome(ONE.replace("9 trifs", "10 trifs")), "test")
    done = undo(log)
    assert done is not None and done.notes == ["a.txt"]
    assert rows(log) == before
    assert undo(log) is not None
    assert fields(log) == [] and undo(log) is None


def test_one_keep_of_many_notes_is_undone_as_one(log: sqlite3.Connection) -> None:
    list(keep_all(log, [outcome(f"Low Ladder 7/{n} p1 V{n}", f"{n}.txt") for n in range(1, 6)], "test", at_once=2))
    assert len(fields(log)[0].visits) == 5
    done = undo(log)
    assert done is not None and len(done.notes) == 5
    assert fields(log) == []


def test_the_same_note_under_another_name_is_not_kept_twice(log: sqlite3.Connection) -> None:
    keep(log, outcome(ONE, "a.txt"), "test")
    copy = keep(log, outcome(ONE, "copy of a.txt"), "test")
    assert copy.how == "copy" and "a.txt" in copy.what[0]
    assert len(list(notes(log))) == 1


def test_a_dry_run_says_what_would_change(log: sqlite3.Connection) -> None:
    keep(log, outcome(ONE), "test")
    before = rows(log)
    told = list(keep_all(log, [outcome(ONE.replace("8", "7")), outcome("x p1 V6", "b.txt")], "test", dry_run=True))
    assert [k.how for k in told] == ["changed", "added"]
    assert rows(log) == before


def test_the_note_stands_in_the_log_as_it_was_written(log: sqlite3.Connection) -> None:
    text = "Low Ladder 7/1\r\n\tp1 ½ inch pods ✿\r\n"
    keep(log, outcome(text), "test")
    assert note_of(log, "a.txt").text == text
    for start, end, words in log.execute("SELECT start, end, words FROM observations WHERE words IS NOT NULL"):
        assert text[start:end] == words


def test_several_writers_lose_nothing(tmp_path: Path) -> None:
    path = str(tmp_path / "season.db")
    writers = []
    for who in range(3):
        folder = tmp_path / str(who)
        folder.mkdir()
        for n in range(8):
            (folder / f"{n}.txt").write_text(f"Field {who} 7/{n + 1} p1 V{n + 1}", encoding="utf-8")
        command = [sys.executable, "-m", "notesparse", "keep", str(folder), "--season", path]
        writers.append(subprocess.Popen(command, stdout=subprocess.DEVNULL, cwd=ROOT))
    assert [one.wait(120) for one in writers] == [0, 0, 0]
    log = connect(path)
    assert len(list(notes(log))) == 24
    assert faults(log) == []


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is wanted")
def test_killed_at_random_nothing_that_was_shown_as_kept_is_lost(tmp_path: Path) -> None:
    """NOTESPARSE_KILLS=50 for the long loop; what stands in the output was acknowledged."""
    notes_of_season = tmp_path / "notes"
    notes_of_season.mkdir()
    for n in range(120):
        text = f"Field {n % 7} {6 + n // 40}/{n % 28 + 1} p1 {n % 15 + 1} trifs, note {n}\n"
        (notes_of_season / f"{n:03}.txt").write_text(text, encoding="utf-8")
    dice = random.Random(4)
    for turn in range(int(os.environ.get("NOTESPARSE_KILLS", "4"))):
        path = tmp_path / f"season-{turn}.db"
        shown = tmp_path / f"shown-{turn}.txt"
        command = [sys.executable, "-m", "notesparse", "keep", str(notes_of_season), "--season", str(path)]
        with open(shown, "w", encoding="utf-8") as out:
            keeping = subprocess.Popen(command, stdout=out, stderr=subprocess.DEVNULL, cwd=ROOT)
            time.sleep(0.6 + dice.random() * 1.2)
            keeping.send_signal(signal.SIGKILL)
            keeping.wait()
        lines = shown.read_text(encoding="utf-8").splitlines()
        acknowledged = {Path(line.split(None, 1)[1]).name for line in lines if line.startswith("added ")}
        if not path.exists():
            assert not acknowledged
            continue
        log = connect(str(path), create=True)
        standing = {Path(note.name).name for note in notes(log)}
        assert acknowledged <= standing
        assert faults(log) == []
        again = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=True)
        assert f"{120 - len(standing)} added, 0 changed, {len(standing)} unchanged." in again.stdout


def test_a_backup_is_the_same_log_and_replaces_no_file(log: sqlite3.Connection, tmp_path: Path) -> None:
    keep(log, outcome(ONE), "test")
    backup(log, str(tmp_path / "copy.db"))
    assert rows(connect(str(tmp_path / "copy.db"))) == rows(log)
    with pytest.raises(InputError, match="is there already"):
        backup(log, str(tmp_path / "copy.db"))


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda p: p.write_text("Low Ladder 7/1 p1 V6\n" * 90, encoding="utf-8"), "is no season log"),
        (lambda p: sqlite3.connect(p).execute("CREATE TABLE t (a)").connection.commit(), "and no season log"),
        (lambda p: p.mkdir(), "is no place for a file"),
    ],
)
def test_what_is_no_season_log_is_refused_and_left_alone(tmp_path: Path, make: object, says: str) -> None:
    path = tmp_path / "x.db"
    make(path)  # type: ignore[operator]
    before = path.read_bytes() if path.is_file() else b""
    with pytest.raises(InputError, match=says):
        connect(str(path), create=True)
    assert (path.read_bytes() if path.is_file() else b"") == before


def test_a_log_of_a_later_version_is_refused(log: sqlite3.Connection, tmp_path: Path) -> None:
    log.execute("PRAGMA user_version = 99")
    with pytest.raises(InputError, match="use a newer notesparse"):
        connect(str(tmp_path / "season.db"))


def test_a_missing_log_says_how_to_begin_one(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="notesparse keep NOTE"):
        connect(str(tmp_path / "none.db"))


def test_check_finds_what_is_missing(log: sqlite3.Connection) -> None:
    keep(log, outcome(ONE), "test")
    assert faults(log) == []
    log.execute("DELETE FROM visits")
    assert faults(log) == ["the visits of a.txt are missing"]
