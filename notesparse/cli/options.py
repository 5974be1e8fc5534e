"""Options that two or more commands share, so that they have one name and one meaning everywhere."""

from __future__ import annotations

import datetime
import os
from enum import StrEnum
from typing import Annotated

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
    CountingRule,
    typer.Option(
        "--counting-rule",
        metavar="RULE",
        help="How V is numbered: open-trifoliates, open-nodes, developed-trifoliates.",
    ),
]
DayFirst = Annotated[bool, typer.Option("--day-first", help="Read 7/8 as the seventh of August.")]
StrictTop = Annotated[
    bool, typer.Option("--strict-top", help="Do not count the node of the topmost open leaf as the top node.")
]
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


def options_of(rule: CountingRule, day_first: bool, strict_top: bool) -> Options:
    return Options(rule.value, day_first, strict_top)
