"""`notesparse log`: the season log itself: joined names, undo, a copy, a check."""

from __future__ import annotations

from typing import Annotated

import typer

from notesparse.cli.season import Season, season_file
from notesparse.errors import InputError

app = typer.Typer(
    no_args_is_help=True, rich_markup_mode=None, help="Tend the season log: join field names, undo, copy, check."
)
Name = Annotated[str, typer.Argument(metavar="NAME", help="A field's name, as it stands in notes.")]


@app.command(short_help="Two names are one field.")
def join(
    name: Name,
    field: Annotated[str, typer.Argument(metavar="FIELD", help="The field that it is.")],
    season: Season = None,
) -> None:
    """Let a name stand for a field from now on; the visits under that name go to the field.

    \b
    Example:
      notesparse log join hazel "Hazel Piece" --season season-2026.db
    """
    from notesparse.season import fieldnames
    from notesparse.season.keep import new_step
    from notesparse.season.log import connect, writing

    log = connect(season_file(season))
    for one in (name, field):
        if fieldnames.known(log, one) is None:
            raise InputError(f"No field is called {one!r} in this log.")
    if fieldnames.known(log, name) == fieldnames.known(log, field):
        raise InputError(f"“{name}” and “{field}” are one field already; nothing was changed.")
    with writing(log):
        moved = fieldnames.join(log, name, field, new_step(log, "join"))
    print(f"“{name}” is {fieldnames.shown(field)}; {moved} visit{'s' if moved != 1 else ''} moved.")


@app.command(short_help="Two names are two fields.")
def part(
    name: Name, field: Annotated[str, typer.Argument(metavar="FIELD", help="The other field.")], season: Season = None
) -> None:
    """Keep two names apart that look alike, and never ask again.

    \b
    Example:
      notesparse log part "Mill Forty" "Hill Forty"
    """
    from notesparse.season import fieldnames
    from notesparse.season.log import connect, writing

    log = connect(season_file(season))
    field_of = fieldnames.known(log, name)
    if field_of is not None and field_of == fieldnames.known(log, field):
        raise InputError(
            f"“{name}” and “{field}” are one field in this log; nothing was changed. "
            "If they were joined by mistake, `notesparse log undo` takes the last step back."
        )
    with writing(log):
        fieldnames.part(log, name, field)
    print(f"“{name}” and “{field}” are two fields.")


@app.command(short_help="Take the last keep or join back.")
def undo(season: Season = None) -> None:
    """Take the last keep or join back: what stood before it stands again. Names that were parted stay parted.

    \b
    Example:
      notesparse log undo --season season-2026.db
    """
    from notesparse.season.keep import undo as take_back
    from notesparse.season.log import connect

    done = take_back(connect(season_file(season)))
    if done is None:
        raise InputError("Nothing is left to undo.")
    print(f"Taken back: {done.what} of {', '.join(done.notes) or 'nothing'}.")
    if done.what == "keep" and done.notes:
        print("To have the notes in the log again, keep them again.")


@app.command(short_help="Copy the log into a new file.")
def backup(file: Annotated[str, typer.Argument(metavar="FILE", help="A new file.")], season: Season = None) -> None:
    """Copy the whole log into a new file, also while others write to it.

    \b
    Example:
      notesparse log backup copy.db --season season-2026.db
    """
    from notesparse.season.log import backup as copy
    from notesparse.season.log import connect

    copy(connect(season_file(season)), file)
    print(f"Copied to {file}.")


@app.command(short_help="Check that the log is sound.")
def check(season: Season = None) -> None:
    """Check that the file is sound and complete. Exit status 1 where it is not.

    \b
    Example:
      notesparse log check --season season-2026.db
    """
    from notesparse.season.log import connect, faults

    path = season_file(season)
    found = faults(connect(path))
    for fault in found:
        print(fault)
    if found:
        raise typer.Exit(1)
    print(f"{path} is sound.")
