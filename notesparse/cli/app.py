"""The commands together: how a fault becomes a sentence, and how the program ends.

Exit status: 0 done; 1 some input failed; 2 a wrong command line; 130 stopped with Ctrl-C.
"""

from __future__ import annotations

import gc
import sys
from importlib import import_module
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from notesparse import __version__
from notesparse.errors import NotesparseError

COMMANDS = {
    "read": ("read", "Read notes into pages, JSON lines or CSV rows."),
    "listen": ("listen", "Listen to recordings of spoken notes."),
    "confirm": ("confirm", "Answer the open questions, one key an answer."),
    "questions": ("questions", "List the open questions, or write a sheet of them."),
    "answer": ("questions", "Take the answers of a filled-in sheet."),
    "explain": ("explain", "Show how one note was read, and why."),
    "keep": ("season", "Keep notes in the season log."),
    "season": ("season", "Look at the season: all fields, or one."),
    "upcoming": ("season", "Show what the stage of a field usually brings up."),
    "report": ("report", "Make a page to hand over."),
    "export": ("export", "Write the season for a spreadsheet, a model or a database."),
    "page": ("page", "Open the page in a browser."),
    "words": ("words", "Show what can be said: a card to print, or one word."),
    "teach": ("teach", "Teach a word that was not understood."),
    "unteach": ("teach", "Take a taught word back."),
    "untaught": ("teach", None),
    "stage": ("stage", "Stage plants from a table of facts."),
    "draw": ("draw", None),
    "log": ("log", None),
    "settings": ("settings", None),
}
"""Each command with its module and its line in the help. A group of commands brings its own line."""
SELDOM = 200_000  # objects made before the next look
GROUPS = ("draw", "log", "settings")
OLD_NAMES = {"untaught": "unteach"}


class Commands(TyperGroup):
    """The commands, each imported and built where it is called or listed, and run so that an expected fault is one
    sentence on standard error and no traceback."""

    def list_commands(self, ctx: Any) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        for name in [cmd_name] if cmd_name in COMMANDS else COMMANDS:
            if name not in self.commands:
                self.add_command(built(name), name)
        return super().get_command(ctx, cmd_name)

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


def built(name: str) -> Any:
    """A command with its arguments and options."""
    room, line = COMMANDS[name]
    module, alone = import_module(f"notesparse.cli.{room}"), typer.Typer(rich_markup_mode=None)
    if name in GROUPS:
        alone.add_typer(module.app, name=name)
    else:
        function = getattr(module, OLD_NAMES.get(name, name))
        alone.command(name, short_help=line, hidden=name in OLD_NAMES)(function)
    return typer.main.get_group(alone).commands[name]


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
    """The entry point. What a stream cannot show is written with a backslash instead of failing.

    Nearly all that comes to life at the start lives to the end, so it is seldom looked through for what is dead.
    """
    gc.set_threshold(SELDOM)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace", newline="\n")
    try:
        app()
    finally:
        gc.freeze()
