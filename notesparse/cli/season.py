"""`notesparse keep`, `notesparse season`, `notesparse upcoming`: the season log, filled and looked at."""

from __future__ import annotations

import csv
import datetime
import json
import sys
from typing import TYPE_CHECKING, Annotated, Any

import typer

from notesparse.cli.options import (
    Answers,
    Color,
    Date,
    DayFirst,
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

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Iterator, Sequence

    from notesparse.options import Options
    from notesparse.outcome import Outcome
    from notesparse.season.keep import Kept
    from notesparse.season.look import Field

_MANY = 20  # more notes than this are worth a line of progress
_AT_ONCE = 25  # notes that are written in one go; what is shown as kept is on the disk

Season = Annotated[
    str | None,
    typer.Option("--season", metavar="FILE", help="The season log; else the one of the settings (season)."),
]
On = Annotated[
    str | None,
    typer.Option("--on", metavar="YYYY-MM-DD", help="As of this day; else that of the last visit in the log."),
]
Output = Annotated[str | None, typer.Option("--output", "-o", metavar="FILE", help="Write here, whole or not at all.")]
FieldName = Annotated[str | None, typer.Argument(metavar="[FIELD]", help="One field; none: all of them.")]


def season_file(named: str | None) -> str:
    """The season log that is meant. Raises `InputError` where none is named and no setting names one."""
    from notesparse.settings.layers import in_force

    path = named or in_force()["season"].value
    if not path:
        raise InputError(
            "Which season log? Name it with --season season-2026.db, or once and for all: "
            "notesparse settings set season season-2026.db"
        )
    return str(path)


def day_of(on: str | None) -> datetime.date | None:
    """The day of `--on`."""
    return datetime.date.fromisoformat(iso_date(on)) if on else None


def keep(
    notes: Annotated[list[str], typer.Argument(metavar="NOTE...", help="Files, folders or quoted patterns.")],
    season: Season = None,
    dry_run: Annotated[
        bool, typer.Option("--dry-run", "-n", help="Say what would change, and change nothing.")
    ] = False,
    date: Date = None,
    counting_rule: Rule = None,
    day_first: DayFirst = None,
    strict_top: StrictTop = None,
    scout: Scout = None,
    sets: Set = None,
    no_taught: Untaught = False,
    answers: Answers = None,
    no_answers: NoAnswers = False,
    color: Color = None,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Only what changed, and no progress.")] = False,
) -> None:
    """Keep notes in the season log: read them and put what they say into one file.

    A note that is there unchanged changes nothing; one that was changed, or answered since, replaces what it said, and
    the changes are shown. What is shown as added or changed is on the disk. notesparse log undo takes the last keep back.

    \b
    Examples:
      notesparse keep notes/ --season season-2026.db
      notesparse keep notes/2026-08-*.txt --season season-2026.db --dry-run
    """
    from notesparse.cli.colour import paint_for
    from notesparse.record.gather import gather
    from notesparse.season.fieldnames import look_alike
    from notesparse.views import season as view

    found, missing = gather(notes)
    if "-" in found:
        raise InputError("A note on standard input has no name to keep it by; give a file.")
    said = Said(progress=len(found) > _MANY and not quiet and sys.stderr.isatty())
    for fault in missing:
        said.say("fault", str(fault))
    options = options_of(counting_rule, day_first, strict_top, scout, sets, no_taught)
    kept = answers_of(answers, no_answers)
    paint = paint_for(color, sys.stdout)
    log = _opened(season_file(season), dry_run)
    counts = {"added": 0, "changed": 0, "unchanged": 0, "copy": 0}
    for one in _kept(log, found, iso_date(date) if date else None, options, kept, dry_run, said):
        counts[one.how] += 1
        said.step(sum(counts.values()), len(found), one.name)
        if one.how != "unchanged" and not (quiet and one.how == "added"):
            said.clear()
            print("\n".join(view.kept(one, paint)), flush=True)
    said.close()
    would = "would be " if dry_run else ""
    print(
        f"{counts['added']} {would}added, {counts['changed']} {would}changed, {counts['unchanged']} unchanged"
        + (f", {counts['copy']} kept before under another name" if counts["copy"] else "")
        + "."
    )
    lines = [] if dry_run else view.names(look_alike(log), paint=paint)
    if lines:
        print("\n".join(lines))
    if said.failed:
        raise typer.Exit(1)


def _opened(path: str, dry_run: bool) -> sqlite3.Connection:
    """The log; where a dry run has none yet, an empty one that is nowhere."""
    import os

    from notesparse.season.log import connect

    return connect(":memory:" if dry_run and not os.path.exists(path) else path, create=True)


def _kept(
    log: sqlite3.Connection,
    found: Sequence[str],
    date: str | None,
    options: Options,
    answers: str | None,
    dry_run: bool,
    said: Said,
) -> Iterator[Kept]:
    """What became of each note, once it is on the disk."""
    from notesparse import __version__
    from notesparse.answers.reading import read_answered
    from notesparse.record.store import load
    from notesparse.season.keep import keep_all

    def outcomes() -> Iterator[Outcome]:
        for path in found:
            try:
                yield read_answered(load(path), date, options, answers)
            except InputError as fault:
                said.say("fault", str(fault))

    yield from keep_all(log, outcomes(), __version__, _AT_ONCE, dry_run)


def season(
    field: FieldName = None,
    season: Season = None,
    on: On = None,
    stage: Annotated[str | None, typer.Option("--stage", metavar="STAGE", help="Only fields at this stage.")] = None,
    settle: Annotated[bool, typer.Option("--open", help="Only fields with something to settle.")] = False,
    due: Annotated[bool, typer.Option("--due", help="Only fields that are due for a visit.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="As JSON.")] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="As a table, one visit a row.")] = False,
    output: Output = None,
    color: Color = None,
) -> None:
    """Look at the season: all fields with their stages, or the visits of one field and what is next.

    Shown are the stage, what changed, when to go back, when the next stage is likely, what does not go together, and how
    the forecasts did on the stages that are past.

    \b
    Examples:
      notesparse season --season season-2026.db
      notesparse season "Wagon Gate" --on 2026-08-10
      notesparse season --due --on 2026-08-10
      notesparse season --csv -o season.csv
    """
    if as_json and as_csv:
        raise typer.BadParameter("choose --json or --csv, not both")
    from notesparse.cli.colour import paint_for
    from notesparse.cli.out import opened
    from notesparse.season.fieldnames import look_alike
    from notesparse.season.forecast import backtest
    from notesparse.season.log import connect
    from notesparse.season.standing import VISIT_KEYS, last_day, standing, to_dict, upto, visit_dict, wanted
    from notesparse.views import season as view

    log = connect(season_file(season))
    found = fields_of(log, field)
    day = day_of(on) or last_day(found) or datetime.date.min
    stands = [s for s in (standing(f, day) for f in found) if s.visits and wanted(s, stage, settle, due)]
    paint = paint_for(color, sys.stdout) if output is None else paint_for(False, sys.stdout)
    tried = backtest([upto(f, day) for f in found if f.id is not None])
    with opened(output) as out:
        if as_json:
            whole: Any = [to_dict(s) for s in stands]
            out.write(
                json.dumps(whole[0] if field is not None and whole else whole, indent=2, ensure_ascii=False) + "\n"
            )
        elif as_csv or (output or "").lower().endswith(".csv"):
            rows = csv.writer(out, lineterminator="\n")
            rows.writerow(("field", *VISIT_KEYS))
            for s in stands:
                rows.writerows((s.name, *visit_dict(seen, s.in_doubt.get(seen.id, ())).values()) for seen in s.visits)
        elif field is not None and stands:
            out.write("\n".join(view.timeline(stands[0], tried, paint=paint)) + "\n")
        else:
            out.write("\n".join(view.overview(stands, look_alike(log), tried, day, paint=paint)) + "\n")


def upcoming(
    field: FieldName = None,
    season: Season = None,
    on: On = None,
    ahead: Annotated[int, typer.Option("--ahead", metavar="DAYS", min=0, max=120, help="Look so far ahead.")] = 21,
    as_json: Annotated[bool, typer.Option("--json", help="As JSON.")] = False,
    output: Output = None,
    color: Color = None,
) -> None:
    """Show what the stage of a field usually brings up: what to look at on the plant, and the cautions that belong to it.

    It recommends nothing. Label, local rules and a licensed adviser decide.

    \b
    Examples:
      notesparse upcoming "Wagon Gate" --season season-2026.db --on 2026-07-30
      notesparse upcoming --json
    """
    from notesparse.cli.colour import paint_for
    from notesparse.cli.out import opened
    from notesparse.season.log import connect
    from notesparse.season.standing import last_day
    from notesparse.season.upcoming import cautions, to_dict
    from notesparse.season.upcoming import upcoming as what_comes
    from notesparse.views import season as view

    log = connect(season_file(season))
    found = [f for f in fields_of(log, field) if f.id is not None]
    day = day_of(on) or last_day(found) or datetime.date.min
    paint = paint_for(color, sys.stdout) if output is None else paint_for(False, sys.stdout)
    told = [(f.name, what_comes(f, day, ahead)) for f in found]
    with opened(output) as out:
        if as_json:
            out.write(
                json.dumps([to_dict(name, day, found) for name, found in told], indent=2, ensure_ascii=False) + "\n"
            )
            return
        pages = ["\n".join(view.upcoming(name, found, cautions(), day, paint=paint)) for name, found in told]
        out.write("\n\n".join(pages) + "\n")


def fields_of(log: sqlite3.Connection, name: str | None) -> list[Field]:
    """All fields of a log, or the named one. Raises `InputError` with near names where there is none."""
    import difflib

    from notesparse.season.look import fields

    found = fields(log, name)
    if name is not None and not found:
        known = [f.name for f in fields(log)]
        near = difflib.get_close_matches(name, known, 3, 0.5)
        hint = f"Did you mean {' or '.join(near)}?" if near else f"There are {', '.join(known) or 'none yet'}."
        raise InputError(f"No field {name!r} in this log. {hint}")
    return found
