"""The season as a Data Package (version 2.0): CSV files and their description in datapackage.json."""

from __future__ import annotations

import csv
import json
import os
import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from notesparse.errors import InputError
from notesparse.exports.tables import TABLES, Table
from notesparse.record.caution import CAUTION
from notesparse.record.columns import FORMULA_HEADS, Column
from notesparse.record.store import write_whole

_PROFILE = "https://datapackage.org/profiles/2.0/"


def write_package(log: sqlite3.Connection, folder: str, title: str, spreadsheet_safe: bool = False) -> list[str]:
    """Writes all tables and their description into a folder; the paths that were written, the description last."""
    return write_tables(TABLES, log, folder, title, spreadsheet_safe)


def write_tables(
    tables: Sequence[Table], log: sqlite3.Connection, folder: str, title: str, spreadsheet_safe: bool = False
) -> list[str]:
    """Writes tables as CSV into a folder, each whole or not at all, and then the description of all of them."""
    place = Path(folder)
    if place.exists() and not place.is_dir():
        raise InputError(f"{folder}: is a file; name a folder for the tables.")
    try:
        place.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise InputError(f"{folder}: cannot be made ({fault.strerror}).") from None
    written = []
    for table in tables:
        path = os.path.join(folder, f"{table.name}.csv")
        with write_whole(path) as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(column.name for column in table.columns)
            writer.writerows(_cells(row, spreadsheet_safe) for row in table.rows(log))
        written.append(path)
    path = os.path.join(folder, "datapackage.json")
    with write_whole(path) as file:
        json.dump(descriptor(tables, title), file, indent=2, ensure_ascii=False)
        file.write("\n")
    return [*written, path]


def _cells(row: Iterable[Any], spreadsheet_safe: bool) -> Iterator[Any]:
    for value in row:
        if isinstance(value, bool):
            yield "true" if value else "false"
        elif spreadsheet_safe and isinstance(value, str) and value.startswith(FORMULA_HEADS):
            yield f"'{value}"
        else:
            yield value


def descriptor(tables: Sequence[Table], title: str) -> dict[str, Any]:
    """The `datapackage.json` of some tables."""
    return {
        "$schema": f"{_PROFILE}datapackage.json",
        "name": "soybean-season",
        "title": title,
        "description": f"Soybean growth stages (Fehr and Caviness 1977) as scouts' notes tell them. {CAUTION}",
        "resources": [_resource(table, {t.name: t.key for t in tables}) for table in tables],
    }


def _resource(table: Table, keys: Mapping[str, str]) -> dict[str, Any]:
    schema: dict[str, Any] = {
        "$schema": f"{_PROFILE}tableschema.json",
        "fields": [_field(column, table.patterns) for column in table.columns],
        "missingValues": [""],
        "primaryKey": [table.key],
    }
    if table.points:
        schema["foreignKeys"] = [
            {"fields": [column], "reference": {"resource": other, "fields": [keys[other]]}}
            for column, other in table.points.items()
        ]
    return {
        "$schema": f"{_PROFILE}dataresource.json",
        "name": table.name,
        "type": "table",
        "path": f"{table.name}.csv",
        "description": table.meaning,
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "schema": schema,
    }


def _field(column: Column, patterns: Mapping[str, str]) -> dict[str, Any]:
    out: dict[str, Any] = {"name": column.name, "type": column.type, "description": column.meaning}
    constraints: dict[str, Any] = {}
    if not column.may_be_empty:
        constraints["required"] = True
    if column.allowed:
        constraints["enum"] = list(column.allowed)
    if column.name in patterns:
        constraints["pattern"] = patterns[column.name]
    return out | ({"constraints": constraints} if constraints else {})
