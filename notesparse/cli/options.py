"""Options that two or more commands share, so that they have one name and one meaning everywhere."""

from __future__ import annotations

import datetime
import os
from collections.abc import Sequence
from enum import StrEnum
from typing import Annotated, Any

import typer

from notesparse.errors import InputError
from notesparse.options import Options


class CountingRule(StrEnum):
    """The ways of numbering V (reading guide, section 7)."""

    open_trifoliates = "open-trifoliates"
    open_nodes = "open-nodes"
    developed_trifoliates = "developed-trifoliates"


def iso_date(text: str) -> str:
    """An ISO date as given on the command line; anything else is a usage error."""
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError:
        raise typer.BadParameter(f"{text!r} is no date; write it as 2026-07-14.") from None


Date = Annotated[
    str | None,
    typer.Option("--date", metavar="YYYY-MM-DD", help="The note's own date; else the one its file name begins with."),
]
Rule = Annotated[
    CountingRule | None,
    typer.Option(
        "--counting-rule",
        metavar="RULE",
        help="How V is numbered: open-trifoliates, open-nodes, developed-trifoliates.",
    ),
]
DayFirst = Annotated[
    bool | None,
    typer.Option(
        "--day-first/--month-first", help="Read 7/8 as the seventh of August, or as July 8.", show_default=False
    ),
]
StrictTop = Annotated[
    bool | None,
    typer.Option(
        "--strict-top/--loose-top",
        help="Whether the node of the topmost open leaf is left out when nodes are counted from the top.",
        show_default=False,
    ),
]
Scout = Annotated[str | None, typer.Option("--scout", metavar="NAME", help="Read by the habits of this scout.")]
Set = Annotated[
    list[str] | None,
    typer.Option("--set", metavar="NAME=VALUE", help="Any setting, for this run (see notesparse settings)."),
]
Untaught = Annotated[bool, typer.Option("--no-taught", help="Read without the words that you taught.")]
Answers = Annotated[
    str | None,
    typer.Option("--answers", metavar="FILE", help="Take answers from this file, not from those beside the notes."),
]
NoAnswers = Annotated[bool, typer.Option("--no-answers", help="Read the notes without any answers.")]
Color = Annotated[
    bool | None,
    typer.Option("--color/--no-color", help="Colour, or none; by default only on a terminal.", show_default=False),
]
Debug = Annotated[bool, typer.Option("--debug", help="Show where in the program a fault arose.")]


def answers_of(file: str | None, none: bool) -> str | None:
    """The answers file to read with: None for those beside the notes, the empty text for none at all."""
    if file is not None and none:
        raise typer.BadParameter("choose --answers or --no-answers, not both")
    if file is not None and not os.path.exists(file):
        raise InputError(f"{file}: there is no such file of answers.")
    return "" if none else file


def flags_of(
    rule: CountingRule | None = None,
    day_first: bool | None = None,
    strict_top: bool | None = None,
    scout: str | None = None,
    sets: Sequence[str] | None = None,
) -> dict[str, Any]:
    """What the command line says of the settings."""
    from notesparse.settings.file import nearest
    from notesparse.settings.table import setting

    flags: dict[str, Any] = {
        "counting_rule": rule.value if rule is not None else None,
        "day_first": day_first,
        "strict_top": strict_top,
        "scout": scout,
    }
    for one in sets or ():
        name, equals, value = one.partition("=")
        if not equals:
            raise typer.BadParameter(f"--set wants NAME=VALUE, and got {one!r}.")
        known = setting(name.strip(), nearest)
        try:
            flags[known.name] = known.read(value.strip())
        except ValueError:
            raise typer.BadParameter(f"{known.name} is {value.strip()!r}, and should be {known.may_be}.") from None
    return flags


def options_of(
    rule: CountingRule | None = None,
    day_first: bool | None = None,
    strict_top: bool | None = None,
    scout: str | None = None,
    sets: Sequence[str] | None = None,
    no_taught: bool = False,
) -> Options:
    """The options to read with: flags over environment over project file over user file over built-in."""
    from notesparse.settings.file import read_text
    from notesparse.settings.layers import options_in_force, taught_file

    flags = flags_of(rule, day_first, strict_top, scout, sets)
    words = "" if no_taught else read_text(taught_file(flags))
    if words:
        _checked(words, taught_file(flags))
    return options_in_force(flags, words)


def _checked(words: str, path: str) -> None:
    """A broken file of taught words is told of before any note is read."""
    from notesparse.errors import VocabularyError
    from notesparse.language.cache import known_words

    try:
        known_words(words)
    except VocabularyError as fault:
        said = str(fault).replace("words.toml", path, 1)
        raise InputError(f"{said}\nMend that file, or read without it: --no-taught.") from None
