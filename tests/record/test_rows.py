"""The tidy rows, their statuses and units; and the data frame."""

from __future__ import annotations

import csv
import dataclasses
import io

import pytest

from notesparse.facts import PLANT_KEYS, Tally
from notesparse.outcome import Finding, TallyRecord
from notesparse.record.columns import COLUMNS, UNIT_OF, VARIABLES, ucum
from notesparse.record.rows import NAMES, to_csv, to_rows
from notesparse.record.table import FRAME_COLUMNS, to_frame
from notesparse.span import Span
from tests.record import made


def row(variable: str, plant: str | None = None) -> dict[str, object]:
    found = [r for r in to_rows(made.creek()) if r["variable"] == variable and r["plant"] == plant]
    assert len(found) == 1, (variable, plant, found)
    return dict(found[0])


def test_one_value_a_row_with_its_words() -> None:
    assert row("pod_mm", "2") == {
        "source": "2026-07-14_creek-bottom.txt",
        "sha256": made.SHA,
        "field": "Creek bottom",
        "date": "2026-07-14",
        "stop": None,
        "plant": "2",
        "variable": "pod_mm",
        "value": "4.7625",
        "value_low": None,
        "value_high": None,
        "unit": "mm",
        "status": "assumed",
        "start": made.CREEK.index("3/16"),
        "end": made.CREEK.index("3/16") + 4,
        "words": "3/16",
    }


@pytest.mark.parametrize(
    ("variable", "plant", "status", "value"),
    [
        ("trifoliates", "1", "read", "9"),
        ("trifoliates", "2", "open", "10"),
        ("nodes", "1", "derived", "10"),
        ("flowers", "3", "assumed", "true"),
        ("flowers_from_top", "3", "assumed", "1 2"),
        ("v_stage", "1", "derived", "V9"),
        ("v_stage", "2", "open", "V10"),
        ("r_stage", "2", "derived", "R3"),  # both answers give R3
        ("row_spacing_in", None, "read", "30"),
        ("tally:flowers", None, "read", "60"),
        ("stated_r", None, "read", "R2"),
        ("insect:stink bug", None, "read", "3"),
        ("field_v_stage", None, "open", "V10"),
    ],
)
def test_how_sure_each_value_is(variable: str, plant: str | None, status: str, value: str) -> None:
    found = row(variable, plant)
    assert (found["status"], found["value"]) == (status, value)


def test_an_answer_closes_the_value() -> None:
    outcome = made.creek()
    answered = dataclasses.replace(outcome.questions[0], answer=0)
    closed = dataclasses.replace(outcome, questions=(answered,))
    statuses = {r["status"] for r in to_rows(closed)}
    assert statuses == {"read", "assumed", "derived"}


def test_a_range_has_two_ends_and_no_value() -> None:
    finding = Finding("weed", "pigweed", [4, 6.5], "inches", "fence row", Span(0, 4))
    tally = TallyRecord(Tally("R3", more_than_half=True), Span(0, 4))
    rows = list(to_rows(made.outcome("pigweed", made.visit(findings=(finding,), tallies=(tally,)))))
    weed = next(r for r in rows if r["variable"] == "weed:pigweed")
    assert (weed["value"], weed["value_low"], weed["value_high"], weed["unit"]) == (None, 4, 6.5, "[in_i]")
    assert weed["stop"] == "fence row"
    share = next(r for r in rows if r["variable"] == "tally:R3")
    assert (share["value"], share["unit"]) == ("more than half", "")


def test_csv_can_be_read_back() -> None:
    outcome = made.outcome('a "quoted", note\r\nline two', made.visit(field='Smith, "east"', variety="-x"))
    text = to_csv([outcome, made.creek()])
    back = list(csv.DictReader(io.StringIO(text, newline="")))
    assert "\r" not in text.replace(outcome.note.text, "")
    assert back[0]["field"] == 'Smith, "east"'
    assert len(back) == len(list(to_rows(outcome))) + len(list(to_rows(made.creek())))
    assert to_csv([]) == ",".join(NAMES) + "\n"
    assert to_csv([made.creek()], header=False).startswith("2026-07-14_creek-bottom.txt,")


def test_every_column_is_described_and_every_cell_allowed() -> None:
    rows = list(to_rows(made.creek()))
    for column in COLUMNS:
        assert column.meaning
        cells = [r[column.name] for r in rows]
        assert column.may_be_empty or None not in cells
        assert not column.allowed or set(cells) <= set(column.allowed)


def test_every_plant_key_has_a_variable() -> None:
    assert set(PLANT_KEYS) <= set(UNIT_OF)
    assert len(UNIT_OF) == len(VARIABLES)


@pytest.mark.parametrize(
    ("unit", "code"),
    [("%", "%"), ("inches", "[in_i]"), ("per 25 sweeps", "{per_25_sweeps}"), (None, ""), ("a{b}c", "{a_b_c}")],
)
def test_units_are_legal_codes(unit: str | None, code: str) -> None:
    assert ucum(unit) == code


def test_the_frame_has_one_plant_a_row() -> None:
    frame = to_frame([made.creek(), made.bare()])
    assert list(frame.columns) == list(FRAME_COLUMNS)
    assert list(frame["plant"]) == ["1", "2", "3"]
    assert list(frame["v_stage"]) == ["V9", "V10", "V12"]
    assert list(frame["questions"]) == [0, 1, 0]
    assert frame["flowers_from_top"][2] == [1, 2]
    assert list(to_frame([]).columns) == list(FRAME_COLUMNS)
    assert len(made.creek().to_frame()) == 3
