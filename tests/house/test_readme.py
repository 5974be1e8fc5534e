"""The README cannot lie: its commands run, and what it shows is what they print."""

from __future__ import annotations

import doctest
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
README = ROOT / "README.md"
PAGE = README.read_text(encoding="utf-8")
WIDTH = "100"  # columns of the terminal in which the examples were made

BLOCK = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
COMMAND = re.compile(r"^\$ (.+)\n((?:(?!\$ ).*\n)*)", re.MULTILINE)
GAP = "..."  # a line of its own: some lines of the output are left out here


def blocks(kind: str) -> list[str]:
    """The fenced blocks of one kind."""
    return [text for found, text in BLOCK.findall(PAGE) if found == kind]


SHOWN = [(command, output.rstrip("\n")) for block in blocks("console") for command, output in COMMAND.findall(block)]


class Desk:
    """A folder as the reader of the README has it. The commands are run there from the first on, as a reader would: one
    may need what those before it have written, also where the tests are spread over several processes."""

    def __init__(self, place: Path) -> None:
        self.place = place
        self.done: list[subprocess.CompletedProcess[str]] = []

    def printed(self, command: str) -> subprocess.CompletedProcess[str]:
        """What a command of the README prints, once those before it have run."""
        at = [shown for shown, _ in SHOWN].index(command)
        while len(self.done) <= at:
            self.done.append(run(SHOWN[len(self.done)][0], self.place))
        return self.done[at]


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """The demo notes, and the table that the README prints."""
    place = tmp_path_factory.mktemp("desk")
    (place / "demo_notes").symlink_to(ROOT / "demo_notes", target_is_directory=True)
    for text in blocks("csv"):
        (place / "facts.csv").write_text(text, encoding="utf-8")
    return Desk(place)


def run(command: str, where: Path) -> subprocess.CompletedProcess[str]:
    """Run one `notesparse ...` line of the README."""
    words = shlex.split(command)
    assert words[0] == "notesparse"
    kept = {
        name: os.environ[name] for name in ("PATH", "SYSTEMROOT", "HOME", "NOTESPARSE_CONFIG") if name in os.environ
    }
    return subprocess.run(
        [sys.executable, "-m", "notesparse", *words[1:]],
        cwd=where,
        env=kept | {"PYTHONPATH": str(ROOT), "COLUMNS": WIDTH, "NO_COLOR": "1", "TERM": "dumb", "PYTHONUTF8": "1"},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        check=False,
    )


def plain(text: str) -> list[str]:
    """Lines without blanks at their ends."""
    return [line.rstrip() for line in text.rstrip("\n").split("\n")]


def agrees(shown: list[str], printed: list[str]) -> bool:
    """Whether the output shown is the output printed, but for one gap."""
    if GAP not in shown:
        return shown == printed
    at = shown.index(GAP)
    head, tail = shown[:at], shown[at + 1 :]
    room = len(printed) >= len(head) + len(tail)
    return room and printed[:at] == head and printed[len(printed) - len(tail) :] == tail


def renewed(shown: list[str], printed: list[str]) -> list[str]:
    """The output to show instead, with the gap where it was."""
    if GAP not in shown or len(printed) < len(shown):
        return printed
    at = shown.index(GAP)
    return [*printed[:at], GAP, *printed[len(printed) - (len(shown) - at - 1) :]]


@pytest.mark.parametrize(("command", "shown"), SHOWN, ids=[command for command, _ in SHOWN])
def test_the_output_shown_is_what_the_command_prints(command: str, shown: str, desk: Desk, update: bool) -> None:
    done = desk.printed(command)
    assert done.returncode == 0, done.stdout
    printed = plain(done.stdout)
    if update:
        old, new = f"$ {command}\n{shown}", "\n".join([f"$ {command}", *renewed(plain(shown), printed)])
        README.write_text(README.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
        return
    if not agrees(plain(shown), printed):
        assert plain(shown) == printed


def test_examples_are_shown() -> None:
    assert {command.split()[1] for command, _ in SHOWN} >= {"read", "stage", "explain"}
    assert all(shown.strip() for _, shown in SHOWN)


def test_a_gap_stands_for_lines_and_for_nothing_else() -> None:
    assert agrees(["a", GAP, "d"], ["a", "b", "c", "d"])
    assert agrees(["a"], ["a"])
    assert not agrees(["a", GAP, "d"], ["a", "b", "c"])
    assert not agrees(["a", GAP, "a"], ["a"])
    assert not agrees(["a"], ["a", "b"])
    assert renewed(["a", GAP, "d"], ["x", "b", "c", "y"]) == ["x", GAP, "y"]


def test_python_examples() -> None:
    examples = blocks("python")
    assert examples
    for number, text in enumerate(examples):
        test = doctest.DocTestParser().get_doctest(text, {}, f"README python block {number}", str(README), 0)
        assert test.examples
        failed, _ = doctest.DocTestRunner(verbose=False, optionflags=doctest.ELLIPSIS).run(test)
        assert failed == 0


SAID = re.findall(r"^\| `([^`]+)` \| (asked|assumed|left aside)\b", PAGE, re.MULTILINE)


@pytest.mark.parametrize(("note", "verdict"), SAID, ids=[note for note, _ in SAID])
def test_what_is_said_to_happen_happens(note: str, verdict: str, note_date: str) -> None:
    from notesparse import read

    outcome = read(note, date=note_date)
    assert bool(outcome.questions) == (verdict == "asked")
    assert bool(outcome.unread) == (verdict == "left aside")
    if verdict == "assumed":
        assert outcome.assumptions


def test_each_verdict_has_its_examples() -> None:
    assert {verdict for _, verdict in SAID} == {"asked", "assumed", "left aside"}


def test_a_word_read_as_another_is_shown_with_both(note_date: str) -> None:
    from notesparse import read

    repairs = read("plant 3 eleven trips, flours third no down", date=note_date).repairs
    assert {repair.words for repair in repairs} >= {"trips", "flours"}
    shown = next(shown for command, shown in SHOWN if "flours" in command)
    assert all(repair.read_as in shown for repair in repairs)


def test_the_first_paragraph_states_the_job() -> None:
    paragraph = PAGE.split("\n\n")[1]
    for word in ("soybean", "scout", "dictated", "texted", "pencilled", "offline"):
        assert word in paragraph, word
    for word in ("record", "growth stage", "asked", "not understood"):
        assert word in paragraph, word


def test_the_two_commands_are_the_real_ones() -> None:
    """The first installs and reads the demo notes; the second runs the tests, as the pipeline does."""
    first, second = blocks("sh")[0].strip().splitlines()
    assert "-m venv" in first and " install " in first
    assert first.endswith("notesparse read demo_notes")
    pytest_words = second[second.rindex("-m pytest") :]
    assert pytest_words in (ROOT / ".ci/run").read_text(encoding="utf-8")
    assert '".[test]"' in second


def test_the_demo_notes_are_read(desk: Desk) -> None:
    done = run("notesparse read demo_notes", desk.place)
    assert done.returncode == 0, done.stdout
    for note in (ROOT / "demo_notes").iterdir():
        assert note.name in done.stdout or note.stem in done.stdout


def commands() -> list[str]:
    """The names of all commands that the program has."""
    import typer

    from notesparse.cli.app import app

    group: Any = typer.main.get_command(app)
    return sorted(name for name in group.list_commands(None) if not group.get_command(None, name).hidden)


def test_every_command_has_a_line() -> None:
    lines = re.findall(r"^\| `notesparse ([a-z-]+)\b", PAGE, re.MULTILINE)
    assert sorted(lines) == commands()


def test_the_exit_statuses_are_named() -> None:
    rows = re.findall(r"^\| (\d+) \|", PAGE, re.MULTILINE)
    assert {"0", "1", "2"} <= set(rows)


def test_the_cautions_stand() -> None:
    for word in ("label", "local rules", "licensed adviser", "Fehr and Caviness", "Special Report 80"):
        assert word in PAGE, word


def test_one_sentence_a_line() -> None:
    """Text outside blocks and tables: a line holds one sentence, so that a change shows as one line."""
    lines = [line for line in BLOCK.sub("", PAGE).splitlines() if not line.startswith(("|", "#", "<!--"))]
    assert [line for line in lines if re.search(r"[a-z)`]\. [A-Z]", line)] == []
