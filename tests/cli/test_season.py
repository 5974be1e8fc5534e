"""`keep`, `season`, `upcoming`, `log`, `draw`, `export` as they are typed."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run

NOTES = {
    "2026-07-01_low.txt": "Low Ladder, planted May 6\np1 8 trifs, no flowers\np2 9 trifs, no flowers\n",
    "2026-07-10_low.txt": "Low Ladder\np1 10 trifs, flowers third node down\np2 ten or eleven trifs, flowers top node\n",
    "2026-07-10_mill.txt": "Mill Forty\np1 9 trifs, no flowers\n",
}


@pytest.fixture
def season(run: Run, desk: Path) -> Path:
    (desk / "notes").mkdir()
    for name, text in NOTES.items():
        (desk / "notes" / name).write_text(text, encoding="utf-8")
    done = run("keep", "notes", "--season", "s.db")
    assert done.exit_code == 0, done.output
    assert done.stdout.count("added ") == 3 and done.stdout.endswith("3 added, 0 changed, 0 unchanged.\n")
    run("settings", "set", "season", "s.db")
    return desk / "s.db"


def test_keeping_again_says_what_changed(run: Run, season: Path, desk: Path) -> None:
    again = run("keep", "notes")
    assert again.stdout == "0 added, 0 changed, 3 unchanged.\n"
    (desk / "notes" / "2026-07-01_low.txt").write_text(NOTES["2026-07-01_low.txt"].replace("8", "7"), encoding="utf-8")
    tried = run("keep", "notes", "--dry-run")
    assert "0 would be added, 1 would be changed, 2 unchanged" in tried.stdout
    assert "0 added, 1 changed, 2 unchanged" in run("keep", "notes").stdout
    assert run("log", "undo").exit_code == 0
    assert "0 added, 1 changed" in run("keep", "notes").stdout


def test_all_fields_and_one(run: Run, season: Path) -> None:
    shown = run("season").stdout
    assert "2 fields as of 10 Jul 2026" in shown and "Low Ladder" in shown and "Mill Forty" in shown
    assert "Go back" in run("season", "low ladder").stdout
    whole = json.loads(run("season", "--json").stdout)
    low = next(f for f in whole if f["field"] == "Low Ladder")
    assert (low["r"], low["open_questions"], len(low["visits"])) == ("R2", 1, 2)
    assert low["next_visit"]["first"] > "2026-07-10"
    rows = list(csv.DictReader(io.StringIO(run("season", "--csv").stdout)))
    assert [(r["field"], r["date"]) for r in rows] == [
        ("Low Ladder", "2026-07-01"),
        ("Low Ladder", "2026-07-10"),
        ("Mill Forty", "2026-07-10"),
    ]


def test_a_day_in_the_past_knows_nothing_of_later_visits(run: Run, season: Path) -> None:
    low = json.loads(run("season", "Low Ladder", "--json", "--on", "2026-07-05").stdout)
    assert (low["v"], low["r"], len(low["visits"])) == ("V9", "none", 1)


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (("--stage", "r2"), ["Low Ladder"]),
        (("--stage", "none"), ["Mill Forty"]),
        (("--open",), ["Low Ladder"]),
        (("--due", "--on", "2026-07-10"), []),
        (("--due", "--on", "2026-07-30"), ["Low Ladder", "Mill Forty"]),
    ],
)
def test_filters(run: Run, season: Path, words: tuple[str, ...], expected: list[str]) -> None:
    found = [f["field"] for f in json.loads(run("season", "--json", *words).stdout)]
    assert found == expected


def test_what_comes_up_has_cautions(run: Run, season: Path) -> None:
    shown = run("upcoming", "Low Ladder", "--on", "2026-07-12").stdout
    assert "aphid counts" in shown and "LABEL" in shown and "No treatment is advised here" in shown
    told = json.loads(run("upcoming", "--json", "--on", "2026-07-12").stdout)
    assert [f["field"] for f in told] == ["Low Ladder", "Mill Forty"]
    assert all(entry["cautions"] for f in told for entry in f["upcoming"])


def test_names_are_joined_on_request(run: Run, season: Path, desk: Path) -> None:
    (desk / "notes" / "2026-07-18_low.txt").write_text("Low Laddr\np1 12 trifs\n", encoding="utf-8")
    kept = run("keep", "notes").stdout
    assert 'notesparse log join "low laddr" "low ladder"' in kept
    assert run("log", "join", "low laddr", "low ladder").exit_code == 0
    assert len(json.loads(run("season", "Low Ladder", "--json").stdout)["visits"]) == 3
    assert "notesparse log join" not in run("season").stdout


def test_copies_and_checks(run: Run, season: Path, desk: Path) -> None:
    assert run("log", "check").stdout == f"{season} is sound.\n"
    assert run("log", "backup", "copy.db").exit_code == 0
    assert run("season", "--season", "copy.db", "--json").stdout == run("season", "--json").stdout
    assert run("log", "backup", "copy.db").exit_code == 1


def test_the_log_of_the_settings_is_found_from_another_folder(
    run: Run, season: Path, desk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    here = run("season", "--json").stdout
    (desk / "notes" / "deep").mkdir()
    monkeypatch.chdir(desk / "notes" / "deep")
    assert run("season", "--json").stdout == here


def test_drawings_and_tables_are_written(run: Run, season: Path, desk: Path) -> None:
    pytest.importorskip("matplotlib")
    assert run("draw", "season", "-o", "all.svg").exit_code == 0
    assert run("draw", "plants", "notes/2026-07-10_low.txt", "--plant", "2", "-o", "p.svg").exit_code == 0
    assert "<svg" in (desk / "all.svg").read_text(encoding="utf-8")
    assert "open flower" in (desk / "p.svg").read_text(encoding="utf-8")
    done = run("export", "out")
    assert done.exit_code == 0 and (desk / "out" / "datapackage.json").exists()
    assert run("export", "x.csv", "--as", "excel").exit_code == 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("season", "Low Laddr"), "Did you mean Low Ladder?"),
        (("season", "--season", "none.db"), "there is no such season log"),
        (("season", "--json", "--csv"), "not both"),
        (("season", "--on", "tomorrow"), "is no date"),
        (("keep", "none.txt"), "none.txt"),
        (("keep", "-"), "has no name to keep it by"),
        (("log", "join", "low ladder", "nowhere"), "No field is called 'nowhere'"),
        (("log", "join", "low ladder", "Low Ladder"), "are one field already"),
        (("log", "part", "low ladder", "Low Ladder"), "nothing was changed"),
        (("report", "Low Ladder"), "-o"),
        (("report", "-o", "season.md"), "ends in .html or .pdf"),
        (("export", "tables.csv"), "name a folder"),
        (("draw", "plants", "notes/2026-07-10_low.txt", "--plant", "9"), "no such plant"),
    ],
)
def test_what_cannot_be_done_is_said(run: Run, season: Path, words: tuple[str, ...], says: str) -> None:
    done = run(*words)
    assert done.exit_code in {1, 2}
    assert says in done.output + str(done.exception or "")


def test_without_a_log_it_says_how_to_name_one(run: Run) -> None:
    done = run("season")
    assert done.exit_code == 1 and "notesparse settings set season" in done.output + str(done.exception or "")
