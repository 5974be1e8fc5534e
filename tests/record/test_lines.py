"""The JSON record: the contract's keys in the contract's order, plain numbers, one line, always the same."""

from __future__ import annotations

import dataclasses
import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from notesparse.errors import RecordError
from notesparse.facts import PLANT_KEYS, Stated, Tally
from notesparse.outcome import Outcome, StatedRecord, TallyRecord
from notesparse.record.lines import plain, to_dict, to_line
from notesparse.span import Span
from tests.record import made

SCHEMA = json.loads(
    (Path(__file__).parents[2] / "notesparse" / "record" / "record.schema.json").read_text(encoding="utf-8")
)
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)
OUTCOMES = [made.creek(), made.bare(), made.nothing()]

# The keys of the record contract, in its order. Keys may be added after them; none may go or change its name.
NOTE = ["source", "sha256", "note_date", "visits", "questions", "assumptions", "corrected", "unread"]
VISIT = [
    "field", "date", "planted", "emerged", "variety", "maturity_group", "row_spacing_in", "plants", "tallies", "stated",
    "findings", "field_stage",
]  # fmt: skip
PLANT = ["plant", "stop", *PLANT_KEYS, "v_stage", "r_stage", "v_basis", "r_basis", "spans", "derived"]
FIELD_STAGE = [
    "v", "r", "basis_v", "basis_r", "plants", "staged_v", "staged_r", "reached_v_percent", "reached_r_percent",
    "interval_v_percent", "interval_r_percent", "least", "most", "counting_rule",
]  # fmt: skip
QUESTION = ["id", "rule", "span", "quote", "visit", "plant", "ask", "choices", "taken", "answer"]


def record() -> dict[str, Any]:
    return json.loads(to_line(made.creek()))


def test_the_keys_of_the_contract_come_first_and_in_order() -> None:
    read = record()
    visit = read["visits"][0]
    assert list(read)[: len(NOTE)] == NOTE
    assert list(visit)[: len(VISIT)] == VISIT
    assert list(visit["plants"][0])[: len(PLANT)] == PLANT
    assert list(visit["field_stage"])[: len(FIELD_STAGE)] == FIELD_STAGE
    assert list(read["questions"][0])[: len(QUESTION)] == QUESTION
    assert list(visit["tallies"][0])[:5] == ["what", "count", "of", "percent", "span"]
    assert list(visit["findings"][0]) == ["kind", "name", "value", "unit", "where", "span"]
    assert read["schema_version"] == 1


@pytest.mark.parametrize("outcome", OUTCOMES, ids=["creek", "bare", "nothing"])
def test_the_record_fits_its_schema(outcome: Outcome) -> None:
    VALIDATOR.check_schema(SCHEMA)
    assert [error.message for error in VALIDATOR.iter_errors(json.loads(to_line(outcome)))] == []


def keys_of(value: Any, at: str = "") -> set[str]:
    """All the paths to keys in a record, lists left out."""
    if isinstance(value, dict):
        return {f"{at}.{k}" for k in value} | {p for k, v in value.items() for p in keys_of(v, f"{at}.{k}")}
    return {p for item in value for p in keys_of(item, at)} if isinstance(value, list) else set()


@pytest.mark.parametrize(
    ("gone", "place"),
    [(key, ()) for key in NOTE]
    + [(key, ("visits", 0)) for key in VISIT]
    + [(key, ("visits", 0, "plants", 0)) for key in PLANT]
    + [(key, ("visits", 0, "field_stage")) for key in FIELD_STAGE]
    + [(key, ("questions", 0)) for key in QUESTION],
)
def test_the_schema_misses_every_key_of_the_contract(gone: str, place: tuple[str | int, ...]) -> None:
    read = record()
    part = read
    for step in place:
        part = part[step]
    del part[gone]
    assert any(gone in error.message for error in VALIDATOR.iter_errors(read))


def test_the_schema_allows_keys_to_be_added() -> None:
    read = record()
    read["new"] = read["visits"][0]["new"] = read["visits"][0]["plants"][0]["new"] = 1
    assert VALIDATOR.is_valid(read)


@pytest.mark.parametrize(
    ("place", "wrong"),
    [
        (("visits", 0, "plants", 0, "v_stage"), "V0"),
        (("visits", 0, "plants", 0, "r_stage"), "R9"),
        (("visits", 0, "plants", 0, "top_leaf"), "open"),
        (("visits", 0, "date"), "7/14"),
        (("visits", 0, "plants", 0, "flowers_from_top"), [0]),
        (("visits", 0, "findings", 0, "kind"), "bug"),
        (("questions", 0, "span"), [3]),
    ],
)
def test_the_schema_refuses_wrong_values(place: tuple[str | int, ...], wrong: Any) -> None:
    read = record()
    part = read
    for step in place[:-1]:
        part = part[step]
    part[place[-1]] = wrong
    assert not VALIDATOR.is_valid(read)


def test_the_schema_describes_every_key_that_is_printed() -> None:
    described = {name for part in (SCHEMA, *SCHEMA["$defs"].values()) for name in part.get("properties", {})}
    printed = {path.rsplit(".", 1)[1] for path in keys_of(record()) if ".spans." not in path and ".makes." not in path}
    assert printed <= described


def test_numbers_have_no_needless_decimals() -> None:
    first = record()["visits"][0]
    assert '"row_spacing_in": 30,' in to_line(made.creek())
    assert first["plants"][1]["pod_mm"] == 4.7625
    assert first["field_stage"]["reached_v_percent"] == 66.6667
    assert plain(6.35) == 6.35
    assert str(plain(11.0)) == "11"
    assert plain((15.0, 20.5)) == [15, 20.5]
    assert plain(frozenset({"b", "a"})) == ["a", "b"]
    assert plain(True) is True


def test_no_place_is_an_empty_list() -> None:
    outcome = made.creek()
    visit = outcome.visits[0]
    plant = visit.plants[1]
    none_up_top = dataclasses.replace(plant, facts=dataclasses.replace(plant.facts, pods_from_top=()))
    changed = dataclasses.replace(outcome, visits=(dataclasses.replace(visit, plants=(none_up_top,)),))
    assert to_dict(changed)["visits"][0]["plants"][0]["pods_from_top"] == []
    assert VALIDATOR.is_valid(to_dict(changed))


def test_a_tally_without_a_percentage_gets_one() -> None:
    assert record()["visits"][0]["tallies"][0]["percent"] == 60
    most = made.visit(tallies=(TallyRecord(Tally("R3", more_than_half=True), Span(0, 4)),))
    tally = to_dict(made.outcome("most at R3", most))["visits"][0]["tallies"][0]
    assert (tally["percent"], tally["more_than_half"]) == (None, True)


def test_what_cannot_be_written_is_refused() -> None:
    with pytest.raises(RecordError, match="bytes"):
        plain(b"x")
    with pytest.raises(ValueError, match="JSON"):
        to_line(made.outcome("x", made.visit(maturity_group=float("nan"))))


def statement(v: object, r: object, start: int, where: str | None = None) -> StatedRecord:
    return StatedRecord(Stated(v, r), Span(start, start + 2), where)  # type: ignore[arg-type]


def test_the_whole_field_statement_is_one_and_its_parts_are_kept() -> None:
    visit = made.visit(
        stated=(
            statement("V7", None, 0),
            statement(None, ("R2", "R3"), 10),
            statement(None, "R1", 20),
            statement("V5", None, 30, "behind the pond"),
        )
    )
    read = to_dict(made.outcome("x" * 40, visit))["visits"][0]
    assert read["stated"] == {"v": "V7", "r": ["R2", "R3"], "span": [0, 12]}
    assert [(part["v"], part["r"], part["where"]) for part in read["stated_parts"]] == [
        (None, "R1", None),
        ("V5", None, "behind the pond"),
    ]
    assert to_dict(made.bare())["visits"][0]["stated"] is None


def test_the_line_is_one_line_of_ascii_and_always_the_same() -> None:
    text = "caf\u00e9 \u2028 \U0001f331 \x85"
    line = to_line(made.outcome(text, made.visit(field=text)))
    assert line.isascii()
    assert len(line.splitlines()) == 1
    assert json.loads(line)["visits"][0]["field"] == text
    assert to_line(made.creek()) == to_line(made.creek()) == made.creek().to_json()


def test_spans_come_in_the_order_of_the_keys() -> None:
    spans = record()["visits"][0]["plants"][1]["spans"]
    assert list(spans) == ["trifoliates", "pods", "pods_from_top", "pod_mm"]
    start, end = spans["pod_mm"]
    assert made.CREEK[start:end] == "3/16"
