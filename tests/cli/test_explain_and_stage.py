"""`notesparse explain` and `notesparse stage`, and what all commands have in common."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from notesparse import __version__
from tests.cli.conftest import Run


@pytest.mark.parametrize("words", [["plant 1 nine trifs"], ["plant", "1", "nine", "trifs"]])
def test_explain_reads_the_words_themselves(words: list[str], run: Run) -> None:
    done = run("explain", *words)
    assert done.exit_code == 0
    assert "Phrase by phrase" in done.stdout
    assert "9 trifoliate" in done.stdout
    assert "9 unrolled trifoliates" in done.stdout


def test_explain_reads_a_file_and_standard_input(run: Run) -> None:
    assert "flowers top two nodes" in run("explain", "2026-07-14_creek.txt").stdout
    assert "nine trifs" in run("explain", "-", input="plant 1 nine trifs").stdout


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("creek.txt", "creek.txt: there is no such file."),
        (" ", "There is no note in these words."),
        (".", "is a folder"),
    ],
)
def test_explain_refuses_what_is_no_note(words: str, says: str, run: Run) -> None:
    done = run("explain", words)
    assert done.exit_code == 1
    assert says in done.stderr


def test_explain_takes_the_options_of_read(run: Run) -> None:
    done = run("explain", "plant 1 nine trifs", "--counting-rule", "open-nodes", "--date", "2026-07-14", "--no-color")
    assert "V10" in done.stdout
    assert run("explain", "plant 1", "--date", "soon").exit_code == 2


def test_stage_shows_a_table(run: Run) -> None:
    done = run("stage", "facts.csv")
    assert done.exit_code == 0
    assert "   1         11  1-2      V11  R2  trifoliates, flowers" in done.stdout.splitlines()
    assert "V12   reached by 1 of 2 plants, 50 %" in done.stdout


def test_stage_takes_field_by_field(run: Run, desk: Path) -> None:
    (desk / "two.csv").write_text("field,plant,trifoliates\nEast,1,5\nWest,1,7\nEast,2,5\n", encoding="utf-8")
    text = run("stage", "two.csv").stdout
    assert text.index("East, no date") < text.index("V5    reached by 2 of 2") < text.index("West, no date")


def test_stage_gives_csv_on_standard_output_or_in_a_file(run: Run, desk: Path) -> None:
    done = run("stage", "facts.csv", "--csv")
    rows = list(csv.DictReader(io.StringIO(done.stdout)))
    assert [(row["plant"], row["v_stage"], row["r_stage"]) for row in rows] == [("1", "V11", "R2"), ("2", "V12", "R1")]
    assert run("stage", "facts.csv", "-o", "staged.csv").exit_code == 0
    assert (desk / "staged.csv").read_text(encoding="utf-8") == done.stdout
    assert run("stage", "-", "--csv", input=(desk / "facts.csv").read_text(encoding="utf-8")).stdout == done.stdout


def test_stage_takes_the_counting_rule(run: Run) -> None:
    done = run("stage", "facts.csv", "--counting-rule", "open-nodes")
    assert "V12" in done.stdout and "(rule open-nodes)" in done.stdout


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ("plant,leaves\n1,5\n", "column 2 'leaves'"),
        ("plant,trifoliates\n1,many\n", "line 2"),
        ("", "there is no table in it"),
    ],
)
def test_stage_names_the_file_and_the_fault(table: str, says: str, run: Run, desk: Path) -> None:
    (desk / "wrong.csv").write_text(table, encoding="utf-8")
    done = run("stage", "wrong.csv")
    assert (done.exit_code, done.stdout) == (1, "")
    assert done.stderr.startswith("wrong.csv")
    assert says in done.stderr
    assert "Traceback" not in done.stderr


def test_stage_does_not_write_over_its_own_table(run: Run) -> None:
    assert run("stage", "facts.csv", "-o", "facts.csv").exit_code == 1


@pytest.mark.parametrize("command", [[], ["read"], ["explain"], ["stage"]])
@pytest.mark.parametrize("flag", ["-h", "--help"])
def test_help_everywhere_fits_the_screen(command: list[str], flag: str, run: Run) -> None:
    done = run(*command, flag)
    assert done.exit_code == 0
    assert "Usage:" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80
    assert not command or "Examples:" in done.stdout


def test_help_names_the_exit_statuses(run: Run) -> None:
    text = run("read", "-h").stdout
    assert "Exit status: 0 all notes were read" in text
    assert "2 the command line was wrong" in text


def test_no_command_is_help_and_2(run: Run) -> None:
    done = run()
    assert done.exit_code == 2
    assert "Usage:" in done.output


def test_version(run: Run) -> None:
    done = run("--version")
    assert (done.exit_code, done.stdout) == (0, f"notesparse {__version__}\n")
