"""The sheet: every question a row; a filled-in sheet gives the answers, and a round trip changes nothing."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from notesparse import read
from notesparse.answers.entry import fit, values_of_choice
from notesparse.answers.sheet import entry_for, from_sheet, to_sheet
from notesparse.errors import InputError
from notesparse.outcome import Outcome

NOTE = "=Low Ladder\np1 ten or eleven trifs\np2 three quarter inch pods top four\n"
GOLDEN = Path(__file__).resolve().parents[1] / "golden"


def outcome() -> Outcome:
    return read(NOTE, date="2026-07-14", source="-note.txt")


def filled(text: str, answers: dict[str, str]) -> str:
    rows = list(csv.DictReader(io.StringIO(text)))
    for row in rows:
        row["answer"] = answers.get(row["plant"], "")
    out = io.StringIO()
    sheet = csv.DictWriter(out, list(rows[0]), lineterminator="\r\n")
    sheet.writeheader()
    sheet.writerows(rows)
    return out.getvalue()


def test_a_sheet_shows_choices_and_shields_formulas() -> None:
    rows = list(csv.DictReader(io.StringIO(to_sheet([outcome()]))))
    assert [(row["plant"], row["a"], row["b"], row["answer"]) for row in rows if row["plant"] == "1"] == [
        ("1", "10", "11", "")
    ]
    assert {row["note"] for row in rows} == {"'-note.txt"}


@pytest.mark.parametrize(
    ("typed", "values", "reading"),
    [
        ("b", {"trifoliates": 11}, "11"),
        ("B)", {"trifoliates": 11}, "11"),
        ("10", {"trifoliates": 10}, "10"),
        ("12", {"trifoliates": 12}, None),
        ("not known", {"trifoliates": None}, None),
    ],
)
def test_what_an_answer_cell_may_say(typed: str, values: dict[str, object], reading: str | None) -> None:
    whole = outcome()
    row = from_sheet(filled(to_sheet([whole]), {"1": typed}), "s.csv")[0]
    kept = entry_for(row, whole)
    assert kept is not None
    assert (dict(kept.values), kept.reading, kept.plant) == (values, reading, "1")
    assert len(fit([kept], NOTE, "-note.txt", whole.note.sha256).answers) == 1


def test_a_semicolon_sheet_is_read_too() -> None:
    text = filled(to_sheet([outcome()]), {"1": "a"})
    rows = list(csv.reader(io.StringIO(text)))
    out = io.StringIO()
    csv.writer(out, delimiter=";").writerows(rows)
    assert [row.answer for row in from_sheet(out.getvalue(), "s.csv")] == ["a"]


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ("many", "row 2: 'many' is none of the choices, and 'many' is no value of trifoliates: a whole number of "),
        ("77", "row 2: '77' is none of the choices, and 77 is no value of trifoliates"),
    ],
)
def test_an_answer_that_is_none_is_refused_with_its_row(typed: str, message: str) -> None:
    whole = outcome()
    rows = [row for row in from_sheet(filled(to_sheet([whole]), {"1": typed}), "s.csv") if row.plant == "1"]
    with pytest.raises(InputError) as fault:
        entry_for(rows[0], whole)
    assert str(fault.value).startswith(message.replace("row 2", f"row {rows[0].number}"))


def test_a_sheet_of_another_version_of_the_note_is_refused() -> None:
    row = from_sheet(filled(to_sheet([outcome()]), {"1": "a"}), "s.csv")[0]
    with pytest.raises(InputError, match="has changed since the sheet was written"):
        entry_for(row, read(NOTE + " ", date="2026-07-14", source="-note.txt"))


def test_a_sheet_without_its_columns_is_refused() -> None:
    with pytest.raises(InputError, match="the column 'start' is missing"):
        from_sheet("note,answer\na.txt,b\n", "s.csv")


def test_a_round_trip_changes_nothing() -> None:
    """Every question of the golden notes, answered by its last choice: out on a sheet, in again, the same answers."""
    asked = 0
    for path in sorted(GOLDEN.glob("*.txt")):
        text = path.read_bytes().decode("utf-8")
        whole = read(text, date=path.name[:10], source=path.name)
        answers = [q.chosen(len(q.choices) - 1) for q in whole.questions]
        done = read(text, date=path.name[:10], source=path.name, answers=answers)
        rows = from_sheet(to_sheet([done]), "s.csv") if done.questions else []
        for row in rows:
            asked += 1
            assert entry_for(row, done) is None  # that very answer stands already
        for question in whole.questions:
            again = [r for r in from_sheet(to_sheet([done]), "s.csv") if r.start == question.span.start]
            for row in again:
                kept = entry_for(row, whole) if row.rule == question.rule and (row.plant == question.plant) else None
                if kept is not None:
                    assert dict(kept.values) == values_of_choice(question, len(question.choices) - 1)
    assert asked > 30
