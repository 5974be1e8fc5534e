"""Exports: valid by an outside reader, true to the log, safe in a spreadsheet."""

from __future__ import annotations

import csv
import json
import re
import sqlite3
from pathlib import Path

import pytest

from notesparse.exports import binary, icasa
from notesparse.exports.package import write_package, write_tables
from notesparse.exports.tables import TABLES, crosswalk
from notesparse.record.columns import VARIABLES
from notesparse.season.keep import keep
from notesparse.season.log import connect
from notesparse.season.look import fields
from tests.season.made import outcome


def read_csv(path: Path) -> list[dict[str, str]]:
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture
def package(demo: sqlite3.Connection, tmp_path: Path) -> Path:
    write_package(demo, str(tmp_path / "out"), "Demo season")
    return tmp_path / "out"


@pytest.mark.filterwarnings("ignore")  # of the outside reader's own libraries
@pytest.mark.parametrize("form", ["package", "icasa"])
def test_an_outside_reader_finds_it_valid(demo: sqlite3.Connection, tmp_path: Path, form: str) -> None:
    """frictionless checks types, required, enum, pattern, primary and foreign keys."""
    frictionless = pytest.importorskip("frictionless")
    tables = TABLES if form == "package" else icasa.TABLES
    write_tables(tables, demo, str(tmp_path / "out"), "Demo season")
    report = frictionless.validate(str(tmp_path / "out" / "datapackage.json"))
    assert report.valid, report.flatten(["rowNumber", "fieldName", "message"])[:5]


@pytest.mark.filterwarnings("ignore")
def test_the_outside_reader_can_say_no(package: Path) -> None:
    frictionless = pytest.importorskip("frictionless")
    visits = package / "visits.csv"
    visits.write_text(re.sub(r",V11,", ",V11x,", visits.read_text(encoding="utf-8"), count=1), encoding="utf-8")
    assert not frictionless.validate(str(package / "datapackage.json")).valid


def test_the_description_has_the_columns_of_the_files(package: Path) -> None:
    told = json.loads((package / "datapackage.json").read_text(encoding="utf-8"))
    assert told["$schema"] == "https://datapackage.org/profiles/2.0/datapackage.json"
    for resource in told["resources"]:
        with open(package / resource["path"], encoding="utf-8", newline="") as file:
            assert next(csv.reader(file)) == [field["name"] for field in resource["schema"]["fields"]]
        assert (
            "fieldsMatch" not in resource["schema"]
        )  # version 2.0 of the profile refuses the string that the text wants


def test_the_files_hold_what_the_log_holds(package: Path, demo: sqlite3.Connection) -> None:
    for name in ("visits", "observations", "questions", "fields"):
        assert len(read_csv(package / f"{name}.csv")) == demo.execute(f"SELECT count(*) FROM {name}").fetchone()[0]
    seen = {(v["field_id"], v["date"]): (v["stage_v"], v["stage_r"]) for v in read_csv(package / "visits.csv")}
    for field in fields(demo):
        for visit in field.visits:
            if field.id is not None:
                assert seen[f"f{field.id}", str(visit.date)] == (visit.v or "", visit.r or "")
    notes = {r["name"]: r["text"] for r in demo.execute("SELECT name, text FROM versions")}
    files = {v["visit_id"]: v["note_file"] for v in read_csv(package / "visits.csv")}
    for row in read_csv(package / "observations.csv"):
        if row["source_text"]:
            text = notes[files[row["visit_id"]]]
            assert text[int(row["source_start"]) : int(row["source_end"])] == row["source_text"]


def test_icasa_names_and_units(demo: sqlite3.Connection, tmp_path: Path) -> None:
    """ICASA Data Dictionary: PLRS in cm; R2AT is a stage of peanut and is never written; GSTBD where it is published."""
    write_tables(icasa.TABLES, demo, str(tmp_path), "x")
    summary = {row["FL_NAME"]: row for row in read_csv(tmp_path / "icasa_summary.csv")}
    assert "R2AT" not in summary["Limekiln"]
    assert summary["Limekiln"]["CRID"] == "SBN"
    assert float(summary["Limekiln"]["PLRS"]) == pytest.approx(30 * 2.54)
    assert summary["Limekiln"]["R3AT"] == "2026-08-04"
    assert summary["Willow Draw"]["R7AT"] == ""  # not seen
    assert summary["Wagon Gate"]["R4AT"] == ""  # passed between two visits: no date is made up
    series = [r for r in read_csv(tmp_path / "icasa_timeseries.csv") if r["DATE"] == "2026-08-04"]
    assert [(r["GSTD"], r["GSTBD"]) for r in series] == [("R3", "71")]
    planted = summary["Limekiln"]["PDATE"]
    assert planted == "2026-05-15" and series[0]["DAP"] == "81"


def test_the_crosswalk_names_our_variables_only() -> None:
    assert set(crosswalk()) <= {v.name for v in VARIABLES}


def test_units_are_ucum(demo: sqlite3.Connection) -> None:
    """UCUM 2.2: a unit is a known code, or a count in braces."""
    known = {"", "mm", "cm", "m", "%", "[in_i]", "[ft_i]", "[degF]", "Cel", "[mi_i]/h", "d"}
    units = {row[0] or "" for row in demo.execute("SELECT DISTINCT unit FROM observations")}
    assert all(u in known or re.fullmatch(r"\{[!-z|~]+\}", u) for u in units), units


HOSTILE = "Low Ladder 7/1/2026\np1 8 trifs\n=cmd|' /C calc'!A0 waterhemp 3 in tall\n"


@pytest.fixture
def hostile(log: sqlite3.Connection) -> sqlite3.Connection:
    keep(log, outcome("=1+1 Lane 7/1/2026\np1 8 trifs, 9 or 10 trifs", "=evil.txt"), "test")
    keep(log, outcome(HOSTILE, "@note.txt"), "test")
    log.execute("UPDATE visits SET called = '=HYPERLINK(1)'")
    return log


def test_a_spreadsheet_is_not_given_formulas_where_that_is_asked(hostile: sqlite3.Connection, tmp_path: Path) -> None:
    write_package(hostile, str(tmp_path / "plain"), "x")
    write_package(hostile, str(tmp_path / "safe"), "x", spreadsheet_safe=True)
    plain = read_csv(tmp_path / "plain" / "visits.csv")
    safe = read_csv(tmp_path / "safe" / "visits.csv")
    assert plain[0]["field_as_called"] == "=HYPERLINK(1)"  # the package is not altered
    assert safe[0]["field_as_called"] == "'=HYPERLINK(1)"
    for table in TABLES:
        for row in read_csv(tmp_path / "safe" / f"{table.name}.csv"):
            assert not any(cell.startswith(("=", "+", "@", "\t")) for cell in row.values())


def test_excel_holds_text_as_text(hostile: sqlite3.Connection, tmp_path: Path) -> None:
    openpyxl = pytest.importorskip("openpyxl")
    pytest.importorskip("xlsxwriter")
    binary.write_excel(hostile, str(tmp_path / "x.xlsx"))
    book = openpyxl.load_workbook(tmp_path / "x.xlsx")
    assert book.sheetnames == [*(t.name for t in TABLES), "about"]
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    assert [cell.coordinate for cell in cells if cell.data_type == "f"] == []
    assert any(cell.value == "=HYPERLINK(1)" for cell in cells)
    assert book["about"]["B1"].value.startswith("No treatment is advised here")


def test_parquet_is_typed_and_equal_to_the_csv(demo: sqlite3.Connection, package: Path, tmp_path: Path) -> None:
    parquet = pytest.importorskip("pyarrow.parquet")
    binary.write_parquet(demo, str(tmp_path / "p"))
    table = parquet.read_table(tmp_path / "p" / "visits.parquet")
    assert str(table.schema.field("date").type) == "date32[day]"
    assert str(table.schema.field("plants_seen").type) == "int64"
    rows = read_csv(package / "visits.csv")
    assert [r["visit_id"] for r in rows] == table["visit_id"].to_pylist()
    assert [r["date"] for r in rows] == [str(d) if d else "" for d in table["date"].to_pylist()]


def test_an_empty_log_gives_tables_with_heads_alone(tmp_path: Path) -> None:
    empty = connect(str(tmp_path / "e.db"), create=True)
    written = write_package(empty, str(tmp_path / "out"), "x")
    assert len(written) == len(TABLES) + 1
    assert read_csv(tmp_path / "out" / "visits.csv") == []


def test_visits_that_do_not_go_together_say_so(demo: sqlite3.Connection, package: Path, tmp_path: Path) -> None:
    """The demo season's misread, Barn Lot on 5 August, stands in no table like any other visit."""
    told = {(v["field_as_called"].title(), v["date"]): v["doubts"] for v in read_csv(package / "visits.csv")}
    assert "8 nodes fewer" in told["Barn Lot", "2026-08-05"]
    assert [key for key, doubts in told.items() if doubts and key[0] != "Barn Lot"] == []
    write_tables(icasa.TABLES, demo, str(tmp_path), "x")
    series = read_csv(tmp_path / "icasa_timeseries.csv")
    assert sum("8 nodes fewer" in row["OBS_NOTE"] for row in series) == 2
