"""`notesparse confirm` in a real terminal: keys, a narrow window, Ctrl-C in the middle, a killed process."""

from __future__ import annotations

import json
import signal
import sys
from pathlib import Path
from typing import Any

import pytest

from notesparse.answers.file import read_entries
from tests.cli.conftest import Run, surroundings

pexpect = pytest.importorskip("pexpect")
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="a pseudo-terminal is needed")

THREE = "Low Ladder\np1 ten or eleven trifs\np2 nine or ten trifs\np3 three quarter inch pods top four\n"
KEYS = "u undo   q stop   ? help"


@pytest.fixture
def note(desk: Path) -> Path:
    path = desk / "2026-07-20_low.txt"
    path.write_text(THREE, encoding="utf-8")
    return path


def start(note: Path, *words: str, size: tuple[int, int] = (24, 80)) -> Any:
    env = surroundings(TERM="xterm", NO_COLOR="1", PYTHONUTF8="1")
    words = ("-m", "notesparse", "confirm", note.name, *words)
    terminal = pexpect.spawn(
        sys.executable,
        list(words),
        cwd=str(note.parent),
        env=env,
        dimensions=size,
        encoding="utf-8",
        timeout=60,
        preexec_fn=_hear_ctrl_c,
    )
    terminal.delaybeforesend = 0.4  # a key that comes before the first read of keys is dropped with the line's echo
    return terminal


def _hear_ctrl_c() -> None:
    """A shell starts what it runs in the background deaf to Ctrl-C, tests among it, and their children inherit that."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


def kept(note: Path) -> list[Any]:
    return [e.reading if e.reading is not None else dict(e.values) for e in read_entries(str(answers_of(note)))]


def answers_of(note: Path) -> Path:
    return note.with_name("2026-07-20_low.answers.toml")


def test_a_note_is_settled_by_keys_alone(note: Path) -> None:
    t = start(note)
    t.expect_exact(KEYS)
    t.send("b")
    t.expect_exact(KEYS)  # plant 3 alone tells of R, so it can change the field's stage: it comes before plant 2
    t.send("o")
    t.expect("pod length: a length")
    t.sendline("long")
    t.expect_exact("'long' is no value of pod_mm")
    t.sendline("1/2 in")
    t.expect_exact("field V11, R3")
    t.expect_exact(KEYS)
    t.send("a")
    t.expect_exact("That was the last question")
    t.send("\r")
    t.expect_exact("3 answers given, kept in 2026-07-20_low.answers.toml; no question is open.")
    t.expect(pexpect.EOF)
    t.close()
    assert t.exitstatus == 0
    assert kept(note) == ["11", {"pod_mm": 12.7}, "9"]
    assert note.read_text(encoding="utf-8") == THREE
    again = start(note)
    again.expect_exact("0 answers given; no question is open.")


def test_skip_back_undo_help_and_stop(note: Path) -> None:
    t = start(note)
    t.expect_exact(KEYS)
    t.send("p")
    t.expect_exact("There is no question before this one.")
    t.send("u")
    t.expect_exact("There is nothing to undo.")
    t.send("?")
    t.expect_exact("Press the letter of the answer.")
    t.send("z")
    t.expect_exact("'z' is none of the keys")
    t.send("s")
    t.expect_exact("skipped")
    t.expect_exact(KEYS)
    t.send("b")
    t.expect_exact(KEYS)
    t.send("p")
    t.expect_exact("Answered before: pods of 3/4 in.")
    t.expect_exact(KEYS)
    t.send("a")
    t.expect_exact(KEYS)
    t.send("u")
    t.expect_exact("undone")
    t.expect_exact(KEYS)
    t.send("q")
    t.expect_exact("1 answer given")
    t.expect(pexpect.EOF)
    assert kept(note) == ["pods of 3/4 in"]  # undo of the second thought brought the first back


def test_ctrl_c_keeps_what_was_answered(note: Path) -> None:
    t = start(note)
    t.expect_exact(KEYS)
    t.send("b")
    t.expect_exact(KEYS)
    t.sendintr()
    t.expect_exact("1 answer given, kept in 2026-07-20_low.answers.toml; 2 questions still open.")
    t.expect(pexpect.EOF)
    t.close()
    assert (t.exitstatus, t.signalstatus) == (0, None)
    assert kept(note) == ["11"]


def test_ctrl_c_while_typing_keeps_what_was_answered(note: Path) -> None:
    t = start(note)
    t.expect_exact(KEYS)
    t.send("b")
    t.expect_exact(KEYS)
    t.send("o")
    t.expect_exact("> ")
    t.send("12")
    t.sendintr()
    t.expect_exact("1 answer given")
    t.expect(pexpect.EOF)
    assert kept(note) == ["11"]


def test_a_killed_process_loses_nothing(note: Path) -> None:
    t = start(note)
    t.expect_exact(KEYS)
    t.send("b")
    t.expect_exact("field V")  # the line that says what the answer made comes after the file is written
    t.kill(signal.SIGKILL)
    t.wait()
    assert kept(note) == ["11"]
    t = start(note)
    t.expect_exact("2 questions open")
    t.expect_exact(KEYS)
    t.send("q")
    t.expect(pexpect.EOF)


def test_a_window_that_changes_its_size(note: Path) -> None:
    t = start(note, size=(24, 80))
    t.expect_exact(KEYS)
    t.setwinsize(10, 46)
    t.send("b")
    t.expect_exact("? help")
    t.send("s")
    t.expect_exact("? help")
    lines = t.before.splitlines()
    assert max(len(line.rstrip()) for line in lines if "undo" not in line) <= 46
    t.send("q")
    t.expect(pexpect.EOF)
    assert kept(note) == ["11"]


def test_every_value_can_be_put_right(note: Path) -> None:
    t = start(note, "--all")
    for key in "bbb":
        t.expect_exact(KEYS)
        t.send(key)
    t.expect_exact("That was the last question")
    t.send("\r")
    t.expect_exact("field Low Ladder")
    t.expect_exact("plant 1: 11 trifoliates (confirmed)")
    t.expect_exact("Enter to go on > ")
    t.sendline("77")
    t.expect_exact("'77' is none of the numbers.")
    t.expect_exact("Enter to go on > ")
    t.sendline("3")
    t.expect_exact("trifoliates: a whole number")
    t.sendline("8")
    t.expect_exact("plant 1: 8 trifoliates (corrected)")
    t.sendline("")
    t.expect(pexpect.EOF)
    assert kept(note)[-1] == {"trifoliates": 8}


ROLLED = "Low Ladder\np1 five trifs, top one still rolled\np2 six trifs, top one still rolled\np3 ten or nine trifs\n"


@pytest.mark.parametrize(
    ("words", "key", "says"),
    [
        (("--scout", "dana"), "s", "rolled_tip not-counted, kept in"),
        ((), "a", "rolled_tip not-counted, kept in"),
        ((), "n", ""),
    ],
)
def test_a_habit_is_asked_once(note: Path, run: Run, words: tuple[str, ...], key: str, says: str) -> None:
    note.write_text(ROLLED, encoding="utf-8")
    t = start(note, *words)
    t.expect("include the top leaf")
    t.expect_exact(KEYS)
    t.send("b")
    t.expect("Does that hold for")
    t.send(key)
    if says:
        t.expect_exact(says)
    t.expect("Has plant 3")  # plant 2 is not asked any more
    t.expect_exact(KEYS)
    t.send("q")
    t.expect(pexpect.EOF)
    record = json.loads(run("read", note.name, "--json", *words).stdout)
    assert [p["trifoliates"] for p in record["visits"][0]["plants"][:2]] == [5, 6]
    assert [q["rule"] for q in record["questions"] if q["answer"] is None] == ["4.2"]
    other = json.loads(run("read", "-", "--json", input=ROLLED).stdout)  # a note of somebody else
    assert (sum("top leaf" in q["ask"] for q in other["questions"]) == 0) == (key == "a")


def test_a_word_is_taught_on_the_way(note: Path, run: Run) -> None:
    note.write_text("Low Ladder\np1 dinglies open, no trifs\n", encoding="utf-8")
    t = start(note, "--teach")
    t.expect_exact("was not understood")
    t.sendline("zorblax")
    t.expect_exact("no word that notesparse knows")
    t.expect(pexpect.EOF)
    t = start(note, "--teach")
    t.expect_exact("was not understood")
    t.sendline("unifoliates")
    t.expect_exact("is read as unifoliates")
    t.expect(pexpect.EOF)
    record = json.loads(run("read", note.name, "--json").stdout)
    assert record["unread"] == [] and record["visits"][0]["plants"][0]["v_stage"] == "VC"


def test_without_a_terminal_the_other_way_is_told(note: Path, run: Run) -> None:
    done = run("confirm", note.name)
    assert done.exit_code == 1
    assert "notesparse questions NOTE... --csv -o sheet.csv" in done.stderr


def test_the_sheet_goes_out_and_in(note: Path, run: Run, desk: Path) -> None:
    assert run("questions", note.name).stdout.endswith("3 questions open, in 1 of 1 note.\n")
    assert run("questions", note.name, "--csv", "-o", "sheet.csv").exit_code == 0
    text = (desk / "sheet.csv").read_text(encoding="utf-8")
    lines = text.splitlines(keepends=True)
    lines[1] = lines[1].replace('""\n', '"b"\n')
    lines[2] = lines[2].replace('""\n', '"twelve of them"\n')
    (desk / "sheet.csv").write_text("".join(lines), encoding="utf-8")
    tried = run("answer", "sheet.csv", "--dry-run")
    assert (tried.exit_code, tried.stdout) == (1, "1 answer would be kept, 0 unchanged, 1 row not taken.\n")
    assert not answers_of(note).exists()
    done = run("answer", "sheet.csv")
    assert (done.exit_code, done.stdout) == (1, "1 answer kept, 0 unchanged, 1 row not taken.\n")
    assert done.stderr.startswith("sheet.csv: row 3: 'twelve of them' is none of the choices")
    assert len(kept(note)) == 1
    assert run("questions", note.name, "--json").stdout.count("\n") == 2
    assert "Settled by the person who saw it" in run("read", note.name).stdout
    assert "Settled by" not in run("read", note.name, "--no-answers").stdout
    assert '"answer": 1' in run("read", note.name, "--json").stdout


def test_a_broken_answers_file_is_told_of_and_no_note_read_without_it(note: Path, run: Run) -> None:
    answers_of(note).write_text("[[answer]]\n", encoding="utf-8")
    done = run("read", note.name, "2026-07-14_creek.txt", "--json")
    assert done.exit_code == 1
    assert done.stderr.startswith("2026-07-20_low.answers.toml:1: `sets` is missing")
    assert done.stdout.count("\n") == 1  # the other note was read
