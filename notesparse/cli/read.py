"""`notesparse read`: notes to pages for a person, JSON lines, or tidy CSV rows."""

# No `from __future__ import annotations` here: the options would be kept as text, and compiled one by one at every start.
import sys
from typing import Annotated

import typer

from notesparse.cli.options import (
    Answers,
    Color,
    Date,
    DayFirst,
    Debug,
    NoAnswers,
    Rule,
    Scout,
    Set,
    StrictTop,
    Untaught,
    answers_of,
    iso_date,
    options_of,
)
from notesparse.cli.say import Said
from notesparse.errors import InputError

_MANY = 20
"""More notes than this are worth a line of progress."""


def read(
    context: typer.Context,
    notes: Annotated[
        list[str] | None,
        typer.Argument(metavar="NOTE...", help="Files, folders, quoted patterns, or - for standard input."),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="One JSON record a line, one line a note.")] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="Tidy rows, one observed value a row.")] = False,
    output: Annotated[
        str | None, typer.Option("--output", "-o", metavar="FILE", help="Write here, whole or not at all.")
    ] = None,
    force: Annotated[bool, typer.Option("--force", help="Let -o replace a file that could be a note.")] = False,
    date: Date = None,
    counting_rule: Rule = None,
    day_first: DayFirst = None,
    strict_top: StrictTop = None,
    scout: Scout = None,
    sets: Set = None,
    no_taught: Untaught = False,
    answers: Answers = None,
    no_answers: NoAnswers = False,
    jobs: Annotated[int, typer.Option("--jobs", "-j", metavar="N", min=1, max=64, help="Processes to read with.")] = 1,
    color: Color = None,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="No progress and no closing line.")] = False,
    schema: Annotated[bool, typer.Option("--schema", help="Print the JSON Schema of --json and stop.")] = False,
    debug: Debug = False,
) -> None:
    """Read notes: what was seen, the stages, what is asked, what was not understood.

    \b
    Examples:
      notesparse read 2026-07-14_creek-bottom.txt
      notesparse read notes/ --json -o season.jsonl
      notesparse read "notes/2026-07-*.txt" --csv
      cat note.txt | notesparse read - --date 2026-07-14

    Answers that are kept beside a note (see notesparse confirm) are applied.
    A folder gives its .txt, .note and .md files, those of its subfolders too.
    A picture of a typed page (.png, .jpg, .tif ...) is read as a note.

    \b
    Exit status: 0 all notes were read (with or without questions),
    1 some input could not be read, 2 the command line was wrong.
    """
    if schema:
        print_schema()
        return
    if as_json and as_csv:
        raise typer.BadParameter("choose --json or --csv, not both")
    if not notes and sys.stdin.isatty():
        typer.echo(context.get_help(), err=True)
        raise typer.Exit(2)
    from notesparse.cli.colour import coloured, paint_for
    from notesparse.cli.out import closing, form_of, guard, opened, write_all
    from notesparse.cli.typed import typed
    from notesparse.cli.work import Job
    from notesparse.record.gather import gather

    found, missing = gather(notes or ["-"])
    guard(output, found, force)
    unseen = output is not None or not sys.stdout.isatty()
    said = Said(progress=len(found) > _MANY and unseen and not quiet and sys.stderr.isatty())
    form = "json" if as_json else "csv" if as_csv else form_of(output)
    colour = form == "page" and output in (None, "-") and paint_for(color, sys.stdout) is coloured
    day, options = (
        iso_date(date) if date else None,
        options_of(counting_rule, day_first, strict_top, scout, sets, no_taught),
    )
    for fault in missing:
        said.say("fault", str(fault))
    kept = answers_of(answers, no_answers)
    todo = []
    for path in found:
        try:
            todo.append(Job(typed() if path == "-" else path, form, day, options, colour, debug, kept))
        except InputError as fault:
            said.say("fault", str(fault))
    with opened(output) as out:
        tally = write_all(todo, jobs, form, out, said)
        said.close()
        if not tally.notes and output not in (None, "-"):
            raise InputError(f"No note could be read, so {output} was not written.")
    line = closing(output, tally)
    if line and not quiet:
        typer.echo(line, err=True)
    if said.failed:
        raise typer.Exit(1)


def print_schema() -> None:
    """The published JSON Schema of the record."""
    from importlib.resources import files

    typer.echo((files("notesparse") / "record" / "record.schema.json").read_text("utf-8"), nl=False)
