"""`notesparse page`: the page in a browser, on this computer or for a telephone beside it."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from notesparse.cli.options import Scout, Set, options_of
from notesparse.errors import InputError


def page(
    season: Annotated[
        str | None,
        typer.Option("--season", metavar="FILE", help="The season log; else that of the settings, else season.db."),
    ] = None,
    notes: Annotated[
        str | None, typer.Option("--notes", metavar="FOLDER", help="Where notes are kept; else beside the season log.")
    ] = None,
    port: Annotated[int, typer.Option("--port", min=0, max=65535, help="The port; 0: any free one.")] = 8765,
    browser: Annotated[bool, typer.Option("--browser/--no-browser", help="Open the browser.")] = True,
    lan: Annotated[
        bool, typer.Option("--lan", help="For telephones in the same network, by a secret address. Read the warning.")
    ] = False,
    scout: Scout = None,
    sets: Set = None,
) -> None:
    """Open the page: write or dictate a note, see what was understood, settle what is asked, look at the season.

    It runs on this computer alone, and fetches nothing from anywhere. Notes are files in one folder, with the same answers
    files and the same season log as the other commands. Ctrl-C stops it.

    \b
    Examples:
      notesparse page
      notesparse page --season season-2026.db --port 9000
      notesparse page --lan
    """
    from notesparse.settings.layers import in_force

    try:
        from notesparse.web.desk import Desk
        from notesparse.web.serve import serve
    except ImportError as fault:
        raise InputError(
            f'The page needs more libraries ({fault.name}): python -m pip install "notesparse[web]"'
        ) from None
    log = season or str(in_force()["season"].value or "season.db")
    folder = notes or str(Path(log).with_suffix("")) + "-notes"
    desk = Desk(log, folder, options_of(None, None, None, scout, sets))
    typer.echo(f"Notes are kept in {folder}, the season in {log}.", err=True)
    serve(desk, port, lan, browser, lambda line: typer.echo(line, err=True))
