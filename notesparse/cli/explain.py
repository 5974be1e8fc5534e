"""`notesparse explain`: how one note was read, phrase by phrase."""

from __future__ import annotations

import hashlib
import os
import sys
from typing import TYPE_CHECKING, Annotated

import typer

from notesparse.cli.options import Color, Date, DayFirst, Rule, Scout, Set, StrictTop, Untaught, iso_date, options_of
from notesparse.errors import InputError

if TYPE_CHECKING:
    from notesparse.record.store import NoteFile


def explain(
    note: Annotated[
        list[str], typer.Argument(metavar="NOTE", help="The words of a note, a note's file, or - for standard input.")
    ],
    date: Date = None,
    counting_rule: Rule = None,
    day_first: DayFirst = None,
    strict_top: StrictTop = None,
    scout: Scout = None,
    sets: Set = None,
    no_taught: Untaught = False,
    color: Color = None,
) -> None:
    """Show how a note was read: every phrase, every mended word, the reason behind each stage.

    \b
    Examples:
      notesparse explain "plant 3 eleven trips, flours top two nodes"
      notesparse explain 2026-07-14_creek-bottom.txt
    """
    from notesparse.answers.reading import read_answered
    from notesparse.cli.colour import paint_for
    from notesparse.cli.out import opened
    from notesparse.views import explain as view

    given = _note(" ".join(note))
    options = options_of(counting_rule, day_first, strict_top, scout, sets, no_taught)
    outcome = read_answered(given, iso_date(date) if date else None, options)
    with opened(None) as out:
        out.write(view.explain(outcome, paint=paint_for(color, sys.stdout)))


def _note(words: str) -> NoteFile:
    """A file of that name if there is one, else the words themselves."""
    from notesparse.cli.typed import typed
    from notesparse.record.gather import ENDINGS
    from notesparse.record.store import PICTURES, NoteFile, load

    if words == "-":
        return typed()
    if os.path.exists(words):
        return load(words)
    if " " not in words and words.lower().endswith((*ENDINGS, *PICTURES)):  # a name mistyped, and no note
        raise InputError(f"{words}: there is no such file.")
    if not words.strip():
        raise InputError("There is no note in these words.")
    return NoteFile(words, "-", hashlib.sha256(words.encode("utf-8", "surrogatepass")).hexdigest(), None)
