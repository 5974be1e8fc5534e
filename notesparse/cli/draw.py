"""`notesparse draw`: the season as a chart, plants as pictures."""

from __future__ import annotations

from typing import Annotated

import typer

from notesparse.cli.options import Date, options_of
from notesparse.cli.season import FieldName, On, Output, Season, day_of, fields_of, season_file
from notesparse.errors import InputError

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Draw the season as a chart, or plants, as SVG.")


@app.command(short_help="V and R by date, for one field or all.")
def season(field: FieldName = None, season: Season = None, on: On = None, output: Output = None) -> None:
    """Draw V and R by date: one field with the range of its plants and its forecast, or all fields.

    \b
    Examples:
      notesparse draw season --season season-2026.db -o season.svg
      notesparse draw season "Wagon Gate" -o wagon-gate.svg
    """
    from notesparse.cli.out import opened
    from notesparse.season.log import connect
    from notesparse.season.standing import standing
    from notesparse.views.season_chart import season_chart

    found = [f for f in fields_of(connect(season_file(season)), field) if f.id is not None]
    chart = season_chart([standing(f, day_of(on)) for f in found])
    with opened(output) as out:
        out.write(chart.rstrip("\n") + "\n")


@app.command(short_help="The main stem of each plant of a note, with what was seen.")
def plants(
    note: Annotated[str, typer.Argument(metavar="NOTE", help="A note's file.")],
    plant: Annotated[str | None, typer.Option("--plant", metavar="LABEL", help="This plant alone.")] = None,
    date: Date = None,
    output: Output = None,
) -> None:
    """Draw the main stem of each plant of a note, node by node, with what was seen at each.

    \b
    Example:
      notesparse draw plants demo_notes/2026-08-05_willow-draw.txt -o plants.svg
    """
    from notesparse.answers.reading import read_answered
    from notesparse.cli.out import opened
    from notesparse.record.lines import to_dict
    from notesparse.record.status import open_keys
    from notesparse.record.store import load
    from notesparse.views.plant_picture import beside, plant_picture

    record = to_dict(read_answered(load(note), date, options_of()))
    found = [
        (p, open_keys(record, at, p))
        for at, visit in enumerate(record["visits"])
        for p in visit["plants"]
        if plant in (None, p["plant"])
    ]
    if not found:
        raise InputError(f"{note}: no {'such plant' if plant else 'plant'} is described in it.")
    with opened(output) as out:
        out.write(beside([plant_picture(p, still_open=waits) for p, waits in found]) + "\n")
