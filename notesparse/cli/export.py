"""`notesparse export`: the season for a spreadsheet, a model or a database."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import Annotated

import typer

from notesparse.cli.season import Season, season_file
from notesparse.errors import InputError


class Form(StrEnum):
    """What the season is written as."""

    package = "package"
    icasa = "icasa"
    excel = "excel"
    parquet = "parquet"


def export(
    place: Annotated[str, typer.Argument(metavar="PLACE", help="A folder; for excel, a file.")],
    form: Annotated[
        Form, typer.Option("--as", metavar="FORM", help="package, icasa, excel or parquet.")
    ] = Form.package,
    season: Season = None,
    spreadsheet_safe: Annotated[
        bool,
        typer.Option("--spreadsheet-safe", help="In CSV, put ' before texts that a spreadsheet takes for a formula."),
    ] = False,
) -> None:
    """Write the season as tables that other programs read.

    \b
    package   CSV files with a description (Data Package 2.0), typed and keyed
    icasa     a summary and a time series under ICASA names (CSV, described)
    excel     one workbook, a sheet a table
    parquet   a file a table

    \b
    Examples:
      notesparse export season-2026/ --season season-2026.db
      notesparse export season-2026.xlsx --as excel
      notesparse export icasa/ --as icasa
    """
    from notesparse.exports import binary, icasa
    from notesparse.exports.package import write_package, write_tables
    from notesparse.season.log import connect

    if form is not Form.excel and re.search(r"\.(csv|json|xlsx?|parquet|zip)$", place, re.IGNORECASE):
        raise InputError(f"{place}: {form} writes several files; name a folder for them.")
    path = season_file(season)
    log = connect(path)
    title = f"Soybean season of {path.replace(chr(92), '/').rsplit('/', 1)[-1]}"
    if form is Form.excel:
        if not place.lower().endswith(".xlsx"):
            raise InputError(f"{place}: an Excel file ends in .xlsx.")
        binary.write_excel(log, place)
        written = [place]
    elif form is Form.parquet:
        written = binary.write_parquet(log, place)
    elif form is Form.icasa:
        written = write_tables(icasa.TABLES, log, place, title, spreadsheet_safe)
    else:
        written = write_package(log, place, title, spreadsheet_safe)
    for one in written:
        print(one)
