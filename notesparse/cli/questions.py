"""`notesparse questions`: what is open in some notes, to look at or to fill in. `notesparse answer`: a sheet back in."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from notesparse.cli.options import (
    Answers,
    Color,
    Date,
    DayFirst,
    Rule,
    Scout,
    Set,
    StrictTop,
    Untaught,
    answers_of,
    iso_date,
    options_of,
)
from notesparse.errors import InputError

if TYPE_CHECKING:
    from notesparse.options import Options
    from notesparse.outcome import Outcome


def questions(
    notes: Annotated[list[str], typer.Argument(metavar="NOTE...", help="Files, folders or quoted patterns.")],
    as_csv: Annotated[bool, typer.Option("--csv", help="A sheet to fill in: one question a row.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="One question a line.")] = False,
    output: Annotated[
        str | None, typer.Option("--output", "-o", metavar="FILE", help="Write here, whole or not at all.")
    ] = None,
    force: Annotated[bool, typer.Option("--force", help="Let -o replace a file that could be a note.")] = False,
    answers: Answers = None,
    date: Date = None,
    counting_rule: Rule = None,
    day_first: DayFirst = None,
    strict_top: StrictTop = None,
    scout: Scout = None,
    sets: Set = None,
    no_taught: Untaught = False,
    color: Color = None,
) -> None:
    """List the questions that are open in notes, or write them to a sheet.

    Fill in the sheet's last column, answer (the letter of a choice, its words, or another value), and take it in with
    notesparse answer.

    \b
    Examples:
      notesparse questions notes/
      notesparse questions notes/ --csv -o sheet.csv
    """
    if as_csv and as_json:
        raise typer.BadParameter("choose --json or --csv, not both")
    from notesparse.answers.sheet import to_sheet
    from notesparse.cli.colour import paint_for
    from notesparse.cli.out import form_of, guard, opened
    from notesparse.record.gather import gather
    from notesparse.record.lines import question_line
    from notesparse.views.cells import safe
    from notesparse.views.paint import plain
    from notesparse.views.questions import questions as view

    found, faults = gather(notes)
    guard(output, found, force)
    options = options_of(counting_rule, day_first, strict_top, scout, sets, no_taught)
    kept, day = answers_of(answers, False), iso_date(date) if date else None
    outcomes: list[Outcome] = []
    for path in found:
        try:
            outcomes.append(_read(path, day, options, kept))
        except InputError as fault:
            faults.append(fault)
    for one in faults:
        print(one, file=sys.stderr)
    form = "csv" if as_csv else "json" if as_json else form_of(output)
    paint = plain if output not in (None, "-") else paint_for(color, sys.stdout)
    with opened(output) as out:
        if form == "csv":
            out.write(to_sheet(outcomes))
        elif form == "json":
            out.writelines(question_line(o, q) + "\n" for o in outcomes for q in o.questions if q.answer is None)
        else:
            for o in outcomes:
                if any(q.answer is None for q in o.questions):
                    out.write("\n".join([paint("quiet", safe(o.note.source)), "", *view(o, paint=paint), "", ""]))
            out.write(_count(outcomes) + "\n")
    if faults:
        raise typer.Exit(1)


def _count(outcomes: list[Outcome]) -> str:
    from notesparse.views.wording import many

    open_ones = sum(q.answer is None for o in outcomes for q in o.questions)
    with_open = sum(any(q.answer is None for q in o.questions) for o in outcomes)
    if not open_ones:
        return f"No question is open in {many(len(outcomes), 'note')}."
    return f"{many(open_ones, 'question')} open, in {with_open} of {many(len(outcomes), 'note')}."


def _read(path: str, date: str | None, options: Options, answers: str | None) -> Outcome:
    from notesparse.answers.reading import read_answered
    from notesparse.cli.typed import typed
    from notesparse.record.store import load

    return read_answered(typed() if path == "-" else load(path), date, options, answers)


def answer(
    sheet: Annotated[str, typer.Argument(metavar="SHEET.csv", help="A sheet of notesparse questions, filled in.")],
    dry_run: Annotated[bool, typer.Option("--dry-run", "-n", help="Say what would be kept, and keep nothing.")] = False,
    answers: Annotated[
        str | None, typer.Option("--answers", metavar="FILE", help="Keep the answers in this file.")
    ] = None,
    date: Date = None,
    counting_rule: Rule = None,
    day_first: DayFirst = None,
    strict_top: StrictTop = None,
    scout: Scout = None,
    sets: Set = None,
    no_taught: Untaught = False,
) -> None:
    """Take the answers of a filled-in sheet; each is kept beside its note.

    The notes are looked for as the sheet names them, from the working folder or from the sheet's own folder.
    A row that fits no question any more is told of; the others are kept.

    \b
    Examples:
      notesparse answer sheet.csv --dry-run
      notesparse answer sheet.csv
    """
    from notesparse.answers.entry import same_matter
    from notesparse.answers.file import change, entries_beside, place_for, read_entries
    from notesparse.answers.sheet import entry_for, from_sheet
    from notesparse.record.store import load
    from notesparse.views.wording import many

    rows = from_sheet(load(sheet, "sheet").text, sheet)
    options, day = (
        options_of(counting_rule, day_first, strict_top, scout, sets, no_taught),
        iso_date(date) if date else None,
    )
    kept = same = 0
    faults: list[str] = []
    for row in rows:
        try:
            path = _found(row.note, sheet)
            outcome = _read(path, day, options, answers if answers and os.path.exists(answers) else None)
            entry = entry_for(row, outcome)
        except InputError as fault:
            faults.append(str(fault))
            continue
        if entry is None:
            same += 1
            continue
        kept += 1
        if not dry_run:
            place = answers or place_for(path)
            before = read_entries(place) if answers else entries_beside(path)
            change(place, [entry], [e for e in before if same_matter(e, entry)])
    for text in faults:
        print(f"{sheet}: {text}", file=sys.stderr)
    would = "would be kept" if dry_run else "kept"
    print(f"{many(kept, 'answer')} {would}, {same} unchanged, {many(len(faults), 'row')} not taken.")
    if faults:
        raise typer.Exit(1)


def _found(note: str, sheet: str) -> str:
    """The note that a sheet names: as it is, or beside the sheet."""
    for path in (note, str(Path(sheet).parent / note), str(Path(sheet).parent / Path(note).name)):
        if os.path.isfile(path):
            return path
    raise InputError(f"{note}: there is no such note here, nor beside the sheet.")
