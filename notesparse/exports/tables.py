"""The season as plain tables: fields, visits, observations, questions, variables; each row made as it is asked for."""

from __future__ import annotations

import json
import sqlite3
import tomllib
from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from importlib.resources import files
from typing import Any

from notesparse.lazy import dataclass
from notesparse.record.columns import VARIABLES, Column
from notesparse.season.consistency import doubts, in_doubt
from notesparse.season.look import fields
from notesparse.staging.bbch import field_bbch
from notesparse.staging.scale import R_CODES

Rows = Callable[[sqlite3.Connection], Iterator[tuple[Any, ...]]]


@dataclass(frozen=True, slots=True)
class Table:
    """One table: its columns in order, its key, and the columns that point into other tables."""

    name: str
    meaning: str
    columns: tuple[Column, ...]
    key: str
    points: Mapping[str, str]  # column -> table
    rows: Rows
    patterns: Mapping[str, str]  # column -> regular expression of its values


STAGE = f"(none|VE|VC|V[1-9][0-9]?|{'|'.join(R_CODES)})"  # in brackets: readers wrap it in ^ and $ without a group


def _col(name: str, type_: str, meaning: str, empty: bool = True, allowed: tuple[str, ...] = ()) -> Column:
    return Column(name, type_, meaning, empty, allowed)


def _fields(log: sqlite3.Connection) -> Iterator[tuple[Any, ...]]:
    firsts = ("planted", "emerged", "variety", "maturity_group", "row_spacing_in")
    for row in log.execute("SELECT id, name FROM fields ORDER BY name COLLATE NOCASE"):
        values = [
            log.execute(
                f"SELECT {key} FROM visits WHERE field = ? AND {key} IS NOT NULL ORDER BY date LIMIT 1", (row["id"],)
            ).fetchone()
            for key in firsts
        ]
        yield (field_id(row["id"]), row["name"], *(value[0] if value else None for value in values))


def field_id(number: int | None) -> str | None:
    """The id of a field in the tables."""
    return f"f{number}" if number is not None else None


def _visit_id(sha256: str, number: int) -> str:
    return f"{sha256[:12]}-{number}"


def _visits(log: sqlite3.Connection) -> Iterator[tuple[Any, ...]]:
    doubted: dict[int, list[str]] = {}
    for field in fields(log):
        doubted |= in_doubt(doubts(field))
    for v in log.execute(
        "SELECT v.*, n.name AS note, n.sha256 FROM visits v JOIN versions n ON n.id = v.version ORDER BY n.name, v.number"
    ):
        rule = v["counting_rule"]
        yield (
            _visit_id(v["sha256"], v["number"]),
            field_id(v["field"]),
            v["called"],
            v["date"],
            v["v"],
            v["r"],
            field_bbch(v["v"], v["r"], rule),
            v["plants"],
            *(v[key] for key in ("share_v", "low_v", "high_v", "share_r", "low_r", "high_r")),
            *(v[key] for key in ("least_v", "median_v", "most_v", "least_r", "median_r", "most_r")),
            v["basis_v"],
            v["basis_r"],
            rule,
            " | ".join(doubted.get(v["id"], ())) or None,
            v["note"],
            v["sha256"],
        )


def _observations(log: sqlite3.Connection) -> Iterator[tuple[Any, ...]]:
    number, visit = 0, None
    for o in log.execute(
        "SELECT o.*, v.number, v.field, v.date, v.counting_rule, n.sha256 FROM observations o JOIN visits v ON v.id = o.visit "
        "JOIN versions n ON n.id = v.version ORDER BY n.name, v.number, o.id"
    ):
        number = number + 1 if visit == o["visit"] else 1
        visit = o["visit"]
        here = _visit_id(o["sha256"], o["number"])
        method = {"v_stage": o["counting_rule"], "field_v_stage": o["counting_rule"]}.get(o["variable"])
        if o["variable"] in ("r_stage", "field_r_stage"):
            method = "fehr-caviness-1977"
        yield (
            f"{here}-{number}",
            here,
            field_id(o["field"]),
            o["stop"],
            o["plant"],
            o["date"],
            o["variable"],
            o["value"],
            _number(o["value"]),
            o["value_low"],
            o["value_high"],
            o["unit"],
            method,
            o["status"],
            o["start"],
            o["end"],
            o["words"],
        )


def _number(value: str | None) -> float | None:
    try:
        return float(value) if value else None
    except ValueError:
        return None


def _questions(log: sqlite3.Connection) -> Iterator[tuple[Any, ...]]:
    number, last = 0, None
    for q in log.execute(
        "SELECT q.*, n.sha256 FROM questions q JOIN versions n ON n.id = q.version ORDER BY n.name, q.id"
    ):
        number = number + 1 if last == q["version"] else 1
        last = q["version"]
        choices = json.loads(q["choices"])
        answer = json.loads(q["answer"]) if q["answer"] else None
        yield (
            f"{q['sha256'][:12]}-q{number}",
            _visit_id(q["sha256"], q["visit"]),
            q["plant"],
            q["quote"],
            q["ask"],
            " | ".join(choice["reading"] for choice in choices),
            _answered(answer, choices),
            q["start"],
            q["end"],
            bool(q["moves_field"]),
        )


def _answered(answer: Any, choices: list[Any]) -> str | None:
    """An answer in words: the choice it took, or the values that were told."""
    if answer is None:
        return None
    if isinstance(answer, int) and 0 <= answer < len(choices):
        return str(choices[answer]["reading"])
    return answer if isinstance(answer, str) else json.dumps(answer, ensure_ascii=False)


@lru_cache(maxsize=1)
def crosswalk() -> Mapping[str, Mapping[str, str]]:
    """Our variables beside those of open vocabularies, as `crosswalk.toml` has them."""
    data = tomllib.loads((files("notesparse") / "exports" / "crosswalk.toml").read_text(encoding="utf-8"))
    known = {variable.name for variable in VARIABLES}
    strange = set(data["variable"]) - known
    if strange:
        raise ValueError(f"crosswalk.toml: {sorted(strange)}: no such variable")
    return dict(data["variable"])


def _variables(log: sqlite3.Connection) -> Iterator[tuple[Any, ...]]:
    base = {variable.name: variable for variable in VARIABLES}
    used = [row[0] for row in log.execute("SELECT DISTINCT variable FROM observations ORDER BY variable")]
    for name in dict.fromkeys([*base, *used]):
        kind = name.split(":", 1)[0]
        known = base.get(name) or base.get("tally" if kind == "tally" else "finding")
        told = crosswalk().get(name, {})
        assert known is not None
        yield (
            name,
            name if name in base else name.split(":", 1)[-1],
            told.get("trait", kind if name not in base else None),
            told.get("method"),
            known.meaning,
            known.unit or None,
            told.get("icasa"),
            told.get("co_336_near"),
        )


TABLES: tuple[Table, ...] = (
    Table(
        "fields",
        "The fields of the season.",
        (
            _col("field_id", "string", "the field's id in these tables", False),
            _col("field_name", "string", "its name; ICASA FL_NAME", False),
            _col("planted", "date", "planting day; ICASA PDATE"),
            _col("emerged", "date", "emergence day; ICASA EDATE"),
            _col("variety", "string", "variety as written; ICASA GENO_NAME"),
            _col("maturity_group", "number", "relative maturity group"),
            _col("row_spacing_in", "number", "row spacing in inches; ICASA PLRS is in cm"),
        ),
        "field_id",
        {},
        _fields,
        {},
    ),
    Table(
        "visits",
        "One visit to one field on one day.",
        (
            _col("visit_id", "string", "first characters of the note's SHA-256, and the number of the visit", False),
            _col("field_id", "string", "the field; empty where none is named"),
            _col("field_as_called", "string", "the field's name in this note"),
            _col("date", "date", "the day, ISO 8601; ICASA DATE, Darwin Core eventDate"),
            _col("stage_v", "string", "V stage of the field; ICASA GSTD"),
            _col("stage_r", "string", "R stage of the field (none: no open flower); ICASA GSTD"),
            _col("bbch", "integer", "published BBCH code beside the stage, approximate; ICASA GSTBD"),
            _col("plants_seen", "integer", "plants that were described", False),
            _col("share_v_percent", "number", "plants that have reached stage_v"),
            _col("share_v_low", "number", "lower end of its 95 % interval (Wilson), percent"),
            _col("share_v_high", "number", "upper end"),
            _col("share_r_percent", "number", "plants that have reached stage_r"),
            _col("share_r_low", "number", "lower end of its 95 % interval (Wilson), percent"),
            _col("share_r_high", "number", "upper end"),
            *(
                _col(f"{which}_{s}", "string", f"{which} advanced plant, {s.upper()}")
                for s in "vr"
                for which in ("least", "median", "most")
            ),
            _col("basis_v", "string", "what stage_v rests on"),
            _col("basis_r", "string", "what stage_r rests on"),
            _col("counting_rule", "string", "how V is numbered"),
            _col("doubts", "string", "why this visit does not go with another one, parted by |"),
            _col("note_file", "string", "the note", False),
            _col("note_sha256", "string", "SHA-256 of its bytes", False),
        ),
        "visit_id",
        {"field_id": "fields"},
        _visits,
        {"stage_v": STAGE, "stage_r": STAGE},
    ),
    Table(
        "observations",
        "One observed value a row, with its words and how sure it is.",
        (
            _col("observation_id", "string", "Darwin Core measurementID", False),
            _col("visit_id", "string", "the visit", False),
            _col("field_id", "string", "the field"),
            _col("stop", "string", "the place in the field, as written"),
            _col("plant", "string", "the plant's label as written; empty: the whole field"),
            _col("date", "date", "the day"),
            _col("variable", "string", "Darwin Core measurementType", False),
            _col("value", "string", "Darwin Core measurementValue"),
            _col("value_number", "number", "the value where it is a number"),
            _col("value_low", "number", "low end of a range"),
            _col("value_high", "number", "high end of a range"),
            _col("unit", "string", "UCUM code"),
            _col("method", "string", "how the value was worked out, where it was"),
            _col(
                "status",
                "string",
                "read, assumed, open (a question waits), derived, confirmed or corrected by a person",
                False,
                ("read", "assumed", "open", "derived", "confirmed", "corrected"),
            ),
            _col("source_start", "integer", "where the words begin, in code points of the note"),
            _col("source_end", "integer", "where they end"),
            _col("source_text", "string", "the words as written"),
        ),
        "observation_id",
        {"visit_id": "visits", "field_id": "fields", "variable": "variables"},
        _observations,
        {},
    ),
    Table(
        "questions",
        "What was asked of the person who saw the plants.",
        (
            _col("question_id", "string", "the question's id in these tables", False),
            _col("visit_id", "string", "the visit", False),
            _col("plant", "string", "the plant"),
            _col("words", "string", "the words asked about", False),
            _col("asked", "string", "the question", False),
            _col("choices", "string", "the choices, parted by |"),
            _col("answer", "string", "the answer; empty: open"),
            _col("source_start", "integer", "where the words begin"),
            _col("source_end", "integer", "where they end"),
            _col("can_change_field_stage", "boolean", "whether the field's stage hangs on it", False),
        ),
        "question_id",
        {},
        _questions,
        {},
    ),
    Table(
        "variables",
        "What an observation may be about, beside the names of open vocabularies.",
        (
            _col("variable", "string", "MIAPPE variableId", False),
            _col("name", "string", "MIAPPE variableName", False),
            _col("trait", "string", "MIAPPE traitName"),
            _col("method", "string", "MIAPPE methodName"),
            _col("meaning", "string", "what it means", False),
            _col("unit", "string", "UCUM code"),
            _col("icasa", "string", "ICASA code"),
            _col("co_336", "string", "Crop Ontology CO_336, where one is near"),
        ),
        "variable",
        {},
        _variables,
        {},
    ),
)
