"""The tables as one Excel workbook, or as Parquet files."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import Any

from notesparse.errors import InputError
from notesparse.exports.tables import TABLES, Table
from notesparse.record.caution import CAUTION
from notesparse.record.store import swapped


def write_excel(log: sqlite3.Connection, path: str) -> None:
    """One sheet a table, text as text: a cell that begins with = is no formula. Raises `InputError` without the library."""
    try:
        import xlsxwriter
    except ImportError:
        raise InputError('Excel files need one more library: python -m pip install "notesparse[excel]"') from None
    options = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    with swapped(path) as made:
        book = xlsxwriter.Workbook(str(made), {**options, "constant_memory": True, "in_memory": False})
        bold = book.add_format({"bold": True})
        for table in TABLES:
            sheet = book.add_worksheet(table.name)
            sheet.freeze_panes(1, 0)
            for at, column in enumerate(table.columns):
                sheet.write_string(0, at, column.name, bold)
                sheet.set_column(at, at, max(10, min(len(column.name) + 2, 24)))
            for line, row in enumerate(table.rows(log), 1):
                _write(sheet, line, row)
        about = book.add_worksheet("about")
        for line, (name, meaning) in enumerate(
            [("", CAUTION), *((f"{t.name}.{c.name}", c.meaning) for t in TABLES for c in t.columns)]
        ):
            about.write_string(line, 0, name)
            about.write_string(line, 1, meaning)
        book.close()


def _write(sheet: Any, line: int, row: tuple[Any, ...]) -> None:
    for at, value in enumerate(row):
        if isinstance(value, bool):
            sheet.write_boolean(line, at, value)
        elif isinstance(value, (int, float)):
            sheet.write_number(line, at, value)
        elif value is not None:
            sheet.write_string(line, at, str(value)[:32_767])  # the most that a cell holds


def write_parquet(log: sqlite3.Connection, folder: str) -> list[str]:
    """One file a table, with types. Raises `InputError` without the library."""
    try:
        import pyarrow
        import pyarrow.parquet as parquet
    except ImportError:
        raise InputError('Parquet files need one more library: python -m pip install "notesparse[parquet]"') from None
    types = {
        "string": pyarrow.string(),
        "date": pyarrow.date32(),
        "number": pyarrow.float64(),
        "integer": pyarrow.int64(),
        "boolean": pyarrow.bool_(),
    }
    Path(folder).mkdir(parents=True, exist_ok=True)
    written = []
    for table in TABLES:
        schema = pyarrow.schema([(c.name, types[c.type]) for c in table.columns])
        path = str(Path(folder) / f"{table.name}.parquet")
        with swapped(path) as made, parquet.ParquetWriter(str(made), schema) as out:
            for rows in _batches(table, log):
                columns = [
                    pyarrow.array([_typed(row[at], c.type) for row in rows], types[c.type])
                    for at, c in enumerate(table.columns)
                ]
                out.write_table(pyarrow.Table.from_arrays(columns, schema=schema))
        written.append(path)
    return written


_BATCH = 5000  # rows


def _batches(table: Table, log: sqlite3.Connection) -> Any:
    from itertools import islice

    rows = table.rows(log)
    while batch := list(islice(rows, _BATCH)):
        yield batch


def _typed(value: Any, type_: str) -> Any:
    if value is None or type_ != "date":
        return value
    from datetime import date

    return date.fromisoformat(value)
