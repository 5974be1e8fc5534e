"""The season under ICASA names: a summary of each field and a time series of its visits.

Names and units: ICASA Data Dictionary (White et al. 2013, doi 10.1016/j.compag.2013.04.003; snapshot of 29 January 2026).
R2AT of that dictionary is a peanut stage, so that soybean R2 is not written. A date of a stage is the day of the first visit
that found the field at it, and empty where the field was first seen beyond it.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from datetime import date as Date
from typing import Any

from notesparse.exports.tables import Table, field_id
from notesparse.record.columns import Column
from notesparse.season.consistency import doubts, in_doubt
from notesparse.season.look import Field, fields
from notesparse.staging.bbch import field_bbch

_DATED = ("R1", "R3", "R4", "R5", "R6", "R7", "R8")  # not R2: R2AT is the peg stage of peanut
_CROP = "SBN"
_CM = 2.54


def _summary(log: sqlite3.Connection) -> Iterator[tuple[Any, ...]]:
    for field in _named(log):
        spacing = field.first("row_spacing_in")
        first_seen: dict[str, str] = {}
        for seen in field.dated:
            if seen.r:
                first_seen.setdefault(seen.r, str(seen.date))
        yield (
            field_id(field.id),
            field.name,
            _CROP,
            field.first("variety"),
            field.first("planted"),
            field.first("emerged"),
            round(spacing * _CM, 1) if spacing is not None else None,
            *(first_seen.get(stage) for stage in _DATED),
        )


def _series(log: sqlite3.Connection) -> Iterator[tuple[Any, ...]]:
    for field in _named(log):
        doubted = in_doubt(doubts(field))
        planted = field.first("planted")
        for seen in field.dated:
            code = seen.r if seen.r and seen.r != "none" else seen.v
            since = (seen.day - Date.fromisoformat(planted)).days if planted and seen.day else None
            yield (
                f"{field_id(field.id)}-{seen.date}-{seen.id}",
                field_id(field.id),
                seen.date,
                since,
                code,
                field_bbch(seen.v, seen.r, seen.counting_rule),
                " | ".join((seen.note, *doubted.get(seen.id, ()))),
            )


def _named(log: sqlite3.Connection) -> list[Field]:
    return [field for field in fields(log) if field.id is not None]


TABLES: tuple[Table, ...] = (
    Table(
        "icasa_summary",
        "One row a field and season, columns by ICASA code.",
        (
            Column("FIELD_ID", "string", "field_id", False),
            Column("FL_NAME", "string", "field_name", False),
            Column("CRID", "string", "crop_id: SBN, soybean", False, (_CROP,)),
            Column("GENO_NAME", "string", "genotype_name, as written"),
            Column("PDATE", "date", "planting_date"),
            Column("EDATE", "date", "emergence_date"),
            Column("PLRS", "number", "row_spacing, cm"),
            *(Column(f"{stage}AT", "date", f"first visit that found the field at {stage}") for stage in _DATED),
        ),
        "FIELD_ID",
        {},
        _summary,
        {},
    ),
    Table(
        "icasa_timeseries",
        "One row a visit, columns by ICASA code.",
        (
            Column("ROW_ID", "string", "the row's id in this table", False),
            Column("FIELD_ID", "string", "field_id", False),
            Column("DATE", "date", "date_of_measurement", False),
            Column("DAP", "integer", "days_after_planting"),
            Column("GSTD", "string", "growth_stage: R where there is one, else V"),
            Column("GSTBD", "integer", "growth_stage_BBCH, approximate, where it is published"),
            Column(
                "OBS_NOTE", "string", "the note's file, and why the visit does not go with another one, parted by |"
            ),
        ),
        "ROW_ID",
        {"FIELD_ID": "icasa_summary"},
        _series,
        {},
    ),
)
