"""The tidy table: its columns, and the variables that may stand in it with their UCUM unit codes (UCUM 2.2)."""

from __future__ import annotations

import re

from notesparse.lazy import dataclass

FORMULA_HEADS = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet may take for a formula at the head of a text."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its name, the type and the meaning of its cells, and whether a cell may be empty."""

    name: str
    type: str  # string, number, integer, date
    meaning: str
    may_be_empty: bool = True
    allowed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Variable:
    """What a row may be about, with the UCUM code of its unit ("" where it has none)."""

    name: str
    unit: str
    meaning: str


COLUMNS: tuple[Column, ...] = (
    Column("source", "string", "the note's file as given, or -", may_be_empty=False),
    Column("sha256", "string", "SHA-256 of the note's bytes"),
    Column("field", "string", "the field's name, as written"),
    Column("date", "date", "the day of the visit, ISO 8601"),
    Column("stop", "string", "the place in the field, as written"),
    Column("plant", "string", "the plant's label as written; empty: the whole field"),
    Column("variable", "string", "what the row is about", may_be_empty=False),
    Column("value", "string", "the value as text; empty where only a range or words are given"),
    Column("value_low", "number", "the low end of a range"),
    Column("value_high", "number", "the high end of a range"),
    Column("unit", "string", "UCUM code of the unit"),
    Column(
        "status",
        "string",
        "read: in so many words; assumed: the usual meaning; open: a question waits; derived: by a rule; "
        "confirmed: answered by a person; corrected: set by one",
        may_be_empty=False,
        allowed=("read", "assumed", "open", "derived", "confirmed", "corrected"),
    ),
    Column("start", "integer", "where the words begin, in code points of the note"),
    Column("end", "integer", "where they end (exclusive)"),
    Column("words", "string", "the words themselves"),
)

VARIABLES: tuple[Variable, ...] = (
    Variable("planted", "", "planting date, ISO 8601"),
    Variable("emerged_on", "", "emergence date of the field, ISO 8601"),
    Variable("variety", "", "variety, as written"),
    Variable("maturity_group", "", "relative maturity group"),
    Variable("row_spacing_in", "[in_i]", "row spacing"),
    Variable("trifoliates", "{trifoliate}", "unrolled trifoliate leaves on the main stem, scars included"),
    Variable("nodes", "{node}", "main-stem nodes, the unifoliate node being the first"),
    Variable("top_leaf", "", "uppermost leaf: unrolled or rolled"),
    Variable("emerged", "", "cotyledons above the soil: true or false"),
    Variable("unifoliates", "", "unifoliate leaves: unrolled or rolled"),
    Variable("flowers", "", "an open flower on the main stem: true or false"),
    Variable("flowers_from_top", "", "nodes with an open flower, counted from the top"),
    Variable("pods", "", "a pod on the main stem: true or false"),
    Variable("pods_from_top", "", "nodes with a pod, counted from the top"),
    Variable("pod_mm", "mm", "length of the longest pod"),
    Variable("pods_full_length", "", "pods said to be full length: true or false"),
    Variable("seeds", "", "seeds in a pod: true or false"),
    Variable("seeds_from_top", "", "nodes with seeds in a pod, counted from the top"),
    Variable("seed_mm", "mm", "length of the largest seed"),
    Variable("seed_fill", "", "seeds apart (partial) or touching (full)"),
    Variable("mature_pods", "", "a pod of mature colour: one or none"),
    Variable("mature_pods_percent", "%", "share of pods of mature colour"),
    Variable("stated_v", "", "V stage that the scout states"),
    Variable("stated_r", "", "R stage that the scout states"),
    Variable("v_stage", "", "V stage by the counting rule named in the record"),
    Variable("r_stage", "", "R stage, Fehr and Caviness 1977"),
    Variable("tally", "%", "share of plants; the variable is named tally:<what>"),
    Variable("finding", "", "anything else; the variable is named <kind>:<name>"),
    Variable("field_v_stage", "", "V stage of the field"),
    Variable("field_r_stage", "", "R stage of the field"),
)

UNIT_OF: dict[str, str] = {variable.name: variable.unit for variable in VARIABLES}

_UCUM = {
    "%": "%",
    "percent": "%",
    "mm": "mm",
    "cm": "cm",
    "m": "m",
    "in": "[in_i]",
    "inch": "[in_i]",
    "inches": "[in_i]",
    "ft": "[ft_i]",
    "feet": "[ft_i]",
    "foot": "[ft_i]",
    "degf": "[degF]",
    "degc": "Cel",
    "mph": "[mi_i]/h",
    "days": "d",
}


def ucum(unit: str | None) -> str:
    """The UCUM code of a unit as a note gives it; one that has no code becomes an annotation: {per_25_sweeps}."""
    if not unit:
        return ""
    known = _UCUM.get(unit.strip().casefold())
    return known if known is not None else "{" + re.sub(r"[^!-z|~]+", "_", unit.strip()) + "}"
