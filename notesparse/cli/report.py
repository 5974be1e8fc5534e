"""`notesparse report`: a page to hand over."""

from __future__ import annotations

import datetime
import sys
from typing import TYPE_CHECKING, Annotated

import typer

from notesparse.cli.say import Said
from notesparse.cli.season import FieldName, On, Season, day_of, fields_of, season_file
from notesparse.errors import InputError

_MANY = 10  # more fields than this are worth a line of progress

if TYPE_CHECKING:
    import sqlite3

    from notesparse.season.look import Field
    from notesparse.views.report import Part


def report(
    field: FieldName = None,
    output: Annotated[str, typer.Option("--output", "-o", metavar="FILE", help="The page: .html, or .pdf.")] = "",
    season: Season = None,
    day: Annotated[
        str | None, typer.Option("--day", metavar="YYYY-MM-DD", help="Only the visits of this day, a page each.")
    ] = None,
    on: On = None,
) -> None:
    """Make a page to hand over: one HTML file that needs nothing else, and prints well.

    It has the stage and what it rests on, pictures, open questions, what the stage usually brings up with the cautions
    that belong to it, and the notes themselves with marks. It recommends nothing.

    \b
    Examples:
      notesparse report "Wagon Gate" --season season-2026.db -o wagon-gate.html
      notesparse report "Wagon Gate" --day 2026-07-27 -o visit.html
      notesparse report --day 2026-08-26 -o round.html
      notesparse report -o season.html
    """
    if not output or output == "-":
        raise typer.BadParameter("name the page with -o, as in -o season.html")
    if not output.lower().endswith((".html", ".htm", ".pdf")):
        raise InputError(f"{output}: a report ends in .html or .pdf.")
    from notesparse.record.store import write_whole
    from notesparse.season.forecast import backtest
    from notesparse.season.log import connect
    from notesparse.season.standing import last_day, upto
    from notesparse.views.report import report as page

    log = connect(season_file(season))
    found = fields_of(log, field)
    when = day_of(on) or day_of(day) or last_day(found) or datetime.date.min
    parts = [part for f in found if (part := _part(log, f, when, day, whole=field is not None)) is not None]
    if not parts:
        raise InputError(f"Nothing was visited on {day}." if day else "Nothing is kept in this log yet.")
    title = f"{parts[0].stands.name}" if field is not None else "Season" if day is None else f"Visits of {day}"
    tried = [] if day else backtest([upto(f, when) for f in found if f.id is not None])
    said = Said(progress=len(parts) > _MANY and sys.stderr.isatty())
    pieces = page(
        title, parts, tried, field is None and day is None, lambda done, name: said.step(done, len(parts), name)
    )
    if output.lower().endswith(".pdf"):
        _print("".join(pieces), output)
    else:
        with write_whole(output) as file:
            file.writelines(pieces)
    said.clear()
    typer.echo(f"{output} is written.", err=True)


def _part(log: sqlite3.Connection, field: Field, when: datetime.date, day: str | None, whole: bool) -> Part | None:
    """A field's part of the report; None where it was not visited on the day that is asked for."""
    from notesparse.season.look import note_of
    from notesparse.season.standing import standing
    from notesparse.season.upcoming import upcoming
    from notesparse.views.report import Part, Visited

    stands = standing(field, when)
    shown = [seen for seen in stands.visits if (seen.date == day if day else whole)]
    if not stands.visits or (day and not shown):
        return None
    visits = [Visited(seen, note_of(log, seen.note)) for seen in reversed(shown)]
    coming = upcoming(field, when) if field.id is not None else []
    return Part(stands, coming, visits, chart=day is None)


def _print(text: str, output: str) -> None:
    """The page as PDF. Raises `InputError` where the library for it is missing."""
    try:
        from weasyprint import HTML
    except (ImportError, OSError):
        raise InputError(
            "PDF needs one more library, weasyprint, which is not there or does not start; "
            "write .html, and print it from a browser."
        ) from None
    from notesparse.record.store import swapped

    with swapped(output) as made:
        HTML(string=text).write_pdf(str(made))
