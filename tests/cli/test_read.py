"""`notesparse read`: what goes where, and with which exit status."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from types import SimpleNamespace

import jsonschema
import pytest

from notesparse.cli import colour, out, work
from notesparse.cli.options import CountingRule
from notesparse.cli.say import Said
from notesparse.errors import GrammarError
from notesparse.options import COUNTING_RULES
from notesparse.record.caution import CAUTION
from notesparse.views.cells import width_of
from tests.cli.conftest import CLEAR, ROOT, Run


def records(text: str) -> list[dict[str, object]]:
    return [json.loads(line) for line in text.splitlines()]


def test_a_page_for_a_person(run: Run) -> None:
    done = run("read", "2026-07-14_creek.txt")
    assert done.exit_code == 0
    assert done.stderr == ""
    assert done.stdout.startswith("2026-07-14_creek.txt\n\nCreek bottom, 14 Jul 2026\n")
    assert done.stdout.endswith(f"{CAUTION}\n")
    assert "\x1b" not in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 78


def test_several_pages_have_a_line_between_and_one_caution(run: Run) -> None:
    done = run("read", "2026-07-14_creek.txt", "2026-07-15_west.txt")
    assert done.stdout.count("\n" + "-" * 78 + "\n") == 1
    assert done.stdout.count(CAUTION) == 1
    assert done.exit_code == 0  # a question is no fault


def test_json_is_one_line_a_note_in_the_order_given(run: Run) -> None:
    done = run("read", "--json", "2026-07-15_west.txt", "2026-07-14_creek.txt")
    found = records(done.stdout)
    assert [record["source"] for record in found] == ["2026-07-15_west.txt", "2026-07-14_creek.txt"]
    assert [record["note_date"] for record in found] == ["2026-07-15", "2026-07-14"]
    assert found[0]["questions"] and not found[1]["questions"]
    schema = json.loads(run("read", "--schema").stdout)
    for record in found:
        jsonschema.validate(record, schema)


def test_csv_has_one_head_and_rows_of_every_note(run: Run) -> None:
    done = run("read", "--csv", ".")
    rows = list(csv.DictReader(io.StringIO(done.stdout, newline="")))
    assert {row["source"] for row in rows} == {"./2026-07-14_creek.txt", "./2026-07-15_west.txt"}
    assert done.stdout.count("source,sha256") == 1
    assert "\r" not in done.stdout


def test_every_demo_note_gives_a_record_by_the_schema_and_a_page_that_fits(run: Run) -> None:
    demo = str(ROOT / "demo_notes")
    schema = jsonschema.Draft202012Validator(json.loads(run("read", "--schema").stdout))
    found = records(run("read", "--json", demo).stdout)
    assert len(found) == len(list((ROOT / "demo_notes").glob("*.txt"))) > 20
    assert [error.message for record in found for error in schema.iter_errors(record)] == []
    lines = [line for line in run("read", demo).stdout.splitlines() if demo not in line]
    assert max(map(width_of, lines)) <= 78
    explained = run("explain", str(next((ROOT / "demo_notes").glob("*.txt")))).stdout
    assert max(map(width_of, explained.splitlines())) <= 78


def test_the_note_on_standard_input(run: Run) -> None:
    for words in (["-"], []):  # piped in, with or without the dash
        done = run("read", "--json", *words, "--date", "2026-08-01", input=CLEAR)
        (record,) = records(done.stdout)
        assert (record["source"], record["note_date"]) == ("-", "2026-08-01")


def test_nothing_given_at_a_terminal_is_short_help_and_no_hang(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("notesparse.cli.read.sys", SimpleNamespace(stdin=SimpleNamespace(isatty=lambda: True)))
    done = run("read")
    assert done.exit_code == 2
    assert done.stdout == ""
    assert "Examples:" in done.stderr


def test_a_date_given_goes_before_that_of_the_file_name(run: Run) -> None:
    (record,) = records(run("read", "--json", "--date", "2026-07-20", "2026-07-14_creek.txt").stdout)
    assert record["note_date"] == "2026-07-20"


@pytest.mark.parametrize(
    ("rule", "stage"), [("open-trifoliates", "V9"), ("open-nodes", "V10"), ("developed-trifoliates", "V8")]
)
def test_the_counting_rule_reaches_the_reading(rule: str, stage: str, run: Run) -> None:
    (record,) = records(run("read", "--json", "--counting-rule", rule, "2026-07-14_creek.txt").stdout)
    visit = record["visits"][0]  # type: ignore[index]
    assert visit["plants"][0]["v_stage"] == stage
    assert visit["field_stage"]["counting_rule"] == rule


def test_all_options_reach_the_reading(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    seen = []

    def look(job: work.Job) -> work.Done:
        seen.append(job.options)
        return work.Done(job.name)

    monkeypatch.setattr(work, "do", look)
    run("read", "--day-first", "--strict-top", "--counting-rule", "open-nodes", "2026-07-14_creek.txt")
    assert [(o.day_first, o.strict_top, o.counting_rule) for o in seen] == [(True, True, "open-nodes")]


def test_the_rules_to_choose_from_are_those_that_there_are() -> None:
    assert tuple(rule.value for rule in CountingRule) == COUNTING_RULES


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["read", "--jsn", "a.txt"], "--json"),
        (["raed", "a.txt"], "Did you mean 'read'?"),
        (["read", "--json", "--csv", "a.txt"], "choose --json or --csv, not both"),
        (["read", "--date", "7/14", "a.txt"], "'7/14' is no date; write it as 2026-07-14."),
        (["read", "--date", "2026-02-30", "a.txt"], "is no date"),
        (["read", "--counting-rule", "mine", "a.txt"], "open-nodes"),
        (["read", "--jobs", "0", "a.txt"], "--jobs"),
        (["explain"], "NOTE"),
    ],
)
def test_a_wrong_command_line_is_2_and_names_a_way_out(words: list[str], says: str, run: Run) -> None:
    done = run(*words)
    assert done.exit_code == 2
    assert done.stdout == ""
    assert says in done.stderr


def test_a_bad_input_is_named_and_the_others_are_read(run: Run, desk: Path) -> None:
    (desk / "bad.txt").write_bytes(b"pl 1\x00\x00")
    (desk / "none.txt").write_bytes(b"")
    done = run("read", "--json", "bad.txt", "2026-07-14_creek.txt", "gone.txt", "none.txt", "2026-07-15_west.txt")
    assert done.exit_code == 1
    assert [record["source"] for record in records(done.stdout)] == ["2026-07-14_creek.txt", "2026-07-15_west.txt"]
    assert done.stderr.splitlines() == [
        "gone.txt: there is no such file or folder.",
        "bad.txt: is not plain text; save the note as plain text in UTF-8 and give that.",
        "none.txt: there is no note in it, the file is empty.",
    ]


def test_many_faults_are_cut_short(run: Run) -> None:
    done = run("read", *(f"gone{n}.txt" for n in range(30)))
    assert len(done.stderr.splitlines()) == 11
    assert done.stderr.endswith("... and 20 more like these.\n")
    assert done.exit_code == 1
    assert done.stdout == ""


def test_a_guessed_encoding_is_said_and_no_fault(run: Run, desk: Path) -> None:
    (desk / "old.txt").write_bytes("plant 1 nine trifs, rows 22½ in".encode("cp1252"))
    done = run("read", "--json", "old.txt")
    assert done.exit_code == 0
    assert done.stderr == "old.txt: not UTF-8, so taken as cp1252; look at fractions and accents.\n"


def test_a_note_that_the_program_stumbles_over_does_not_cost_the_others(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    from notesparse import flow

    reads = flow.read

    def stumble(text: str, **keywords: object) -> object:
        if "West" in text:
            raise IndexError("list index out of range")
        return reads(text, **keywords)  # type: ignore[arg-type]

    monkeypatch.setattr(flow, "read", stumble)
    done = run("read", "--json", "2026-07-15_west.txt", "2026-07-14_creek.txt")
    assert done.exit_code == 1
    assert len(records(done.stdout)) == 1
    assert "2026-07-15_west.txt: the program itself failed on this note" in done.stderr
    assert "Traceback" not in done.stderr
    assert "Traceback" in run("read", "--debug", "2026-07-15_west.txt").stderr


def test_a_fault_of_our_own_files_is_one_sentence(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    from notesparse import flow

    def broken(text: str, **keywords: object) -> object:
        raise GrammarError("stem.lark: no rule of that name.")

    monkeypatch.setattr(flow, "read", broken)
    done = run("read", "2026-07-14_creek.txt")
    assert (done.exit_code, done.stdout, done.stderr) == (1, "", "stem.lark: no rule of that name.\n")


def test_output_to_a_file_says_what_was_done(run: Run, desk: Path) -> None:
    done = run("read", "--json", "-o", "out.json", "2026-07-14_creek.txt", "2026-07-15_west.txt")
    assert (done.exit_code, done.stdout) == (0, "")
    assert done.stderr == "2 notes read, 1 question open; written to out.json.\n"
    assert len(records((desk / "out.json").read_text(encoding="utf-8"))) == 2
    assert run("read", "-q", "--json", "-o", "out.json", "2026-07-14_creek.txt").stderr == ""
    assert len(records((desk / "out.json").read_text(encoding="utf-8"))) == 1


@pytest.mark.parametrize(
    ("name", "begins"), [("o.csv", "source,"), ("o.jsonl", "{"), ("o.out", "2026-07-14_creek.txt\n")]
)
def test_the_name_of_the_file_tells_the_form(name: str, begins: str, run: Run, desk: Path) -> None:
    assert run("read", "-o", name, "2026-07-14_creek.txt").exit_code == 0
    assert (desk / name).read_text(encoding="utf-8").startswith(begins)


def test_a_note_is_not_written_over(run: Run, desk: Path) -> None:
    done = run("read", "2026-07-14_creek.txt", "-o", "2026-07-14_creek.txt", "--force")
    assert done.exit_code == 1
    assert "is what is to be read" in done.stderr
    done = run("read", "2026-07-14_creek.txt", "-o", "2026-07-15_west.txt")
    assert done.exit_code == 1
    assert "--force to replace it" in done.stderr
    assert (desk / "2026-07-14_creek.txt").read_text(encoding="utf-8") == CLEAR
    assert run("read", "2026-07-14_creek.txt", "-o", "2026-07-15_west.txt", "--force").exit_code == 0


def test_a_file_is_whole_or_as_it_was(run: Run, desk: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (desk / "out.json").write_text("before", encoding="utf-8")

    def stop(*_: object) -> object:
        raise KeyboardInterrupt

    monkeypatch.setattr(out, "work", stop)
    done = run("read", "--json", "-o", "out.json", "2026-07-14_creek.txt")
    assert done.exit_code == 130
    assert "Stopped" in done.stderr
    assert (desk / "out.json").read_text(encoding="utf-8") == "before"
    assert sorted(path.name for path in desk.iterdir()) == [
        "2026-07-14_creek.txt",
        "2026-07-15_west.txt",
        "facts.csv",
        "out.json",
    ]


def test_where_no_note_can_be_read_nothing_is_written(run: Run, desk: Path) -> None:
    (desk / "bad.txt").write_bytes(b"\0\0\0")
    done = run("read", "bad.txt", "gone.txt", "-o", "out.csv")
    assert done.exit_code == 1
    assert done.stderr.endswith("No note could be read, so out.csv was not written.\n")
    assert not list(desk.glob("*out.csv*"))


def test_dash_as_output_is_standard_output(run: Run) -> None:
    assert run("read", "--json", "-o", "-", "2026-07-14_creek.txt").stdout.startswith("{")


@pytest.mark.parametrize(
    ("words", "env", "terminal", "painted"),
    [
        ([], {}, True, True),
        ([], {}, False, False),
        ([], {"NO_COLOR": "1"}, True, False),
        ([], {"NO_COLOR": ""}, True, True),
        ([], {"TERM": "dumb"}, True, False),
        (["--no-color"], {}, True, False),
        (["--color"], {"NO_COLOR": "1", "TERM": "dumb"}, False, True),
        (["--color", "--json"], {}, True, False),
        (["--color", "-o", "out.page"], {}, True, False),
    ],
)
def test_colour_only_where_it_is_wanted(
    words: list[str],
    env: dict[str, str],
    terminal: bool,
    painted: bool,
    run: Run,
    desk: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked = colour.paint_for
    monkeypatch.setattr(colour, "paint_for", lambda wanted, _: asked(wanted, SimpleNamespace(isatty=lambda: terminal)))  # type: ignore[arg-type]
    done = run("read", "2026-07-14_creek.txt", *words, env=env)
    text = (desk / "out.page").read_text(encoding="utf-8") if "-o" in words else done.stdout
    assert ("\x1b[" in text) == painted


def test_colour_changes_nothing_but_colour(run: Run) -> None:
    import re

    bare = run("read", "2026-07-15_west.txt", "--no-color").stdout
    painted = run("read", "2026-07-15_west.txt", "--color").stdout
    assert painted != bare
    assert re.sub(r"\x1b\[[0-9;]*m", "", painted) == bare


def test_progress_is_one_line_that_goes_away(capsys: pytest.CaptureFixture[str]) -> None:
    said = Said(progress=True)
    said.step(1, 2, "a long name of a note.txt")
    said.step(2, 2, "b.txt")
    said.say("fault", "b.txt: broken.")
    said.close()
    told = capsys.readouterr().err
    assert told.startswith("\r  1 of 2  a long name of a note.txt\r  2 of 2  b.txt")
    shown = [line.split("\r")[-1] for line in told.split("\n")]
    assert shown == ["b.txt: broken.", ""]
    assert said.failed == 1
    quiet = Said()
    quiet.step(1, 2, "a.txt")
    assert capsys.readouterr().err == ""


def test_several_processes_give_the_same_in_the_same_order(run: Run, desk: Path) -> None:
    for n in range(30):
        (desk / f"n{n:02}.txt").write_text(f"plant {n + 1} nine trifs", encoding="utf-8")
    (desk / "n15.txt").write_bytes(b"\x00\x00\x00")
    alone, together = run("read", "--json", "."), run("read", "--json", "--jobs", "2", ".")
    assert alone.stdout == together.stdout
    assert alone.stderr == together.stderr
    assert alone.exit_code == together.exit_code == 1
    assert len(alone.stdout.splitlines()) == 31
