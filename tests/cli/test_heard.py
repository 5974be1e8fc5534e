"""A note with a file of doubts beside it, through the commands."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest

from notesparse.answers.file import read_entries
from tests.cli.conftest import Run, surroundings
from tests.doubts.test_beside import TEXT, told

NAME = "2026-07-14_walk.txt"
KEYS = "u undo   q stop   ? help"


@pytest.fixture
def walk(desk: Path) -> Path:
    path = desk / NAME
    path.write_bytes(TEXT.encode())
    path.with_name("2026-07-14_walk.heard.json").write_text(json.dumps(told()), encoding="utf-8")
    return path


def record_of(run: Run) -> dict[str, Any]:
    result = run("read", NAME, "--json")
    assert result.exit_code == 0
    found: dict[str, Any] = json.loads(result.stdout)
    return found


def test_read_asks_about_the_doubt(walk: Path, run: Run) -> None:
    record = record_of(run)
    assert [q["ask"] for q in record["questions"]] == [
        "“fifteen” was heard, or “sixteen” (0:01.4 of walk.wav): which was said?"
    ]
    assert record["heard"]["source"] == "walk.wav"
    assert "Heard from walk.wav" in run("read", NAME).stdout


@pytest.mark.parametrize("command", [["explain", NAME], ["questions", NAME]])
def test_other_commands_ask_about_it_too(command: list[str], walk: Path, run: Run) -> None:
    assert "“fifteen” was heard" in run(*command).stdout


def test_a_broken_file_beside_one_note_does_not_stop_the_others(walk: Path, run: Run) -> None:
    walk.with_name("2026-07-14_walk.heard.json").write_text("{}", encoding="utf-8")
    result = run("read", NAME, "2026-07-14_creek.txt", "--json")
    assert result.exit_code == 1
    assert "source is missing, or is no text." in result.stderr
    assert [json.loads(line)["source"] for line in result.stdout.splitlines()] == ["2026-07-14_creek.txt"]


def test_a_sheet_answers_it(walk: Path, run: Run) -> None:
    sheet = walk.with_name("sheet.csv")
    assert run("questions", NAME, "--csv", "-o", str(sheet)).exit_code == 0
    rows = sheet.read_text(encoding="utf-8").splitlines()
    assert '"heard"' in rows[1]
    assert rows[1].endswith('""')
    sheet.write_text(f'{rows[0]}\n{rows[1][:-2]}"eleven"\n', encoding="utf-8")
    assert run("answer", str(sheet)).exit_code == 0
    record = record_of(run)
    assert record["visits"][0]["plants"][0]["trifoliates"] == 11
    assert record["questions"][0]["answer"] == "eleven"


def test_it_is_kept_in_the_season(walk: Path, run: Run) -> None:
    assert run("keep", NAME, "--season", "season.db").exit_code == 0
    again = run("keep", NAME, "--season", "season.db")
    assert again.exit_code == 0
    assert "unchanged" in again.stdout + again.stderr


@pytest.mark.skipif(sys.platform == "win32", reason="a pseudo-terminal is needed")
def test_confirm_asks_which_was_said_and_keeps_the_answer(walk: Path, run: Run) -> None:
    pexpect = pytest.importorskip("pexpect")
    t = pexpect.spawn(
        sys.executable,
        ["-m", "notesparse", "confirm", NAME],
        cwd=str(walk.parent),
        env=surroundings(TERM="xterm", NO_COLOR="1", PYTHONUTF8="1"),
        dimensions=(30, 90),
        encoding="utf-8",
        timeout=20,
    )
    t.expect_exact("“fifteen” was heard, or “sixteen” (0:01.4 of walk.wav): which was said?")
    t.expect_exact(KEYS)
    t.send("b")
    t.expect_exact("“sixteen”: plant 3 V16, R2")
    t.expect_exact("That was the last question")
    t.send("u")
    t.expect_exact("recorded for now")
    t.expect_exact(KEYS)
    t.send("o")
    t.expect_exact("the words as they were said")
    t.sendline("twelve")
    t.expect_exact("twelve: plant 3 V12, R2")
    t.send("\r")
    t.expect_exact("1 answer given, kept in 2026-07-14_walk.answers.toml; no question is open.")
    t.expect(pexpect.EOF)
    t.close()
    entries = read_entries(str(walk.with_name("2026-07-14_walk.answers.toml")))
    assert [(e.rule, e.words, dict(e.values)) for e in entries] == [("heard", "fifteen", {"words": "twelve"})]
    assert walk.read_bytes() == TEXT.encode()
    record = record_of(run)
    plant = record["visits"][0]["plants"][0]
    assert (plant["trifoliates"], plant["told"]) == (12, {"trifoliates": "confirmed"})
    assert [c["text"] for c in record["corrected"]] == ["“fifteen” replaced by “twelve”"]
