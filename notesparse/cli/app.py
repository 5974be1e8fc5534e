"""The commands together: how a fault becomes a sentence, and how the program ends.

Exit status: 0 done; 1 some input failed; 2 a wrong command line; 130 stopped with Ctrl-C.
"""

from __future__ import annotations

import sys
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from notesparse import __version__
from notesparse.cli.confirm import confirm
from notesparse.cli.draw import app as draw
from notesparse.cli.explain import explain
from notesparse.cli.export import export
from notesparse.cli.listen import listen
from notesparse.cli.log import app as log
from notesparse.cli.page import page
from notesparse.cli.questions import answer, questions
from notesparse.cli.read import read
from notesparse.cli.report import report
from notesparse.cli.season import keep, season, upcoming
from notesparse.cli.settings import app as settings
from notesparse.cli.stage import stage
from notesparse.cli.teach import teach, unteach
from notesparse.cli.words import words
from notesparse.errors import NotesparseError


class Commands(TyperGroup):
    """The commands, run so that an expected fault is one sentence on standard error and no traceback."""

    def invoke(self, ctx: Any) -> Any:
        try:
            return super().invoke(ctx)
        except NotesparseError as fault:
            print(fault, file=sys.stderr)
            raise typer.Exit(1) from None
        except KeyboardInterrupt:
            print("\nStopped; no file was left half written.", file=sys.stderr)
            raise typer.Exit(130) from None


app = typer.Typer(
    cls=Commands,
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
)
app.command(short_help="Read notes into pages, JSON lines or CSV rows.")(read)
app.command(short_help="Listen to recordings of spoken notes.")(listen)
app.command(short_help="Answer the open questions, one key an answer.")(confirm)
app.command(short_help="List the open questions, or write a sheet of them.")(questions)
app.command(short_help="Take the answers of a filled-in sheet.")(answer)
app.command(short_help="Show how one note was read, and why.")(explain)
app.command(short_help="Keep notes in the season log.")(keep)
app.command(short_help="Look at the season: all fields, or one.")(season)
app.command(short_help="Show what the stage of a field usually brings up.")(upcoming)
app.command(short_help="Make a page to hand over.")(report)
app.command(short_help="Write the season for a spreadsheet, a model or a database.")(export)
app.command(short_help="Open the page in a browser.")(page)
app.command(short_help="Show what can be said: a card to print, or one word.")(words)
app.command(short_help="Teach a word that was not understood.")(teach)
app.command(short_help="Take a taught word back.")(unteach)
app.command("untaught", hidden=True)(unteach)
app.add_typer(draw, name="draw")
app.add_typer(log, name="log")
app.add_typer(settings, name="settings")
app.command(short_help="Stage plants from a table of facts.")(stage)


def _version(asked: bool) -> None:
    if asked:
        typer.echo(f"notesparse {__version__}")
        raise typer.Exit


@app.callback(epilog="Nothing leaves this computer. The program stages plants; it recommends no treatment.")
def notesparse(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version and stop.")
    ] = False,
) -> None:
    """Read a crop scout's soybean notes into a checkable record with growth stages.

    \b
    Begin with:
      notesparse read NOTE.txt
    """


def main() -> None:
    """The entry point. What a stream cannot show is written with a backslash instead of failing."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace", newline="\n")
    app()
