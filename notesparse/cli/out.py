"""Where results go: standard output, or a file that is there whole or not at all."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TextIO

from notesparse.cli.say import Said
from notesparse.cli.work import Done, Job, work
from notesparse.errors import InputError
from notesparse.lazy import dataclass

_BETWEEN = "-" * 78 + "\n\n"
"""Stands between the pages of two notes."""


@dataclass(slots=True)
class Tally:
    """What was done: the notes read, and the questions that are open in them."""

    notes: int = 0
    questions: int = 0


def guard(output: str | None, notes: Sequence[str], force: bool) -> None:
    """Raises `InputError` where a slip of the hand (``-o note.txt``) would cost a note."""
    from notesparse.record.gather import ENDINGS
    from notesparse.record.store import PICTURES

    if output is None or output == "-" or not os.path.isfile(output):
        return
    if any(path != "-" and os.path.exists(path) and os.path.samefile(path, output) for path in notes):
        raise InputError(f"{output}: is what is to be read; give -o another name.")
    if Path(output).suffix.lower() in (*ENDINGS, *PICTURES) and not force:
        raise InputError(f"{output}: is there already and could be a note; another name, or --force to replace it.")


def form_of(output: str | None) -> str:
    """What the name of the output file asks for, where no option says it: csv, json, or a page."""
    ending = Path(output or "").suffix.lower()
    return {".csv": "csv", ".json": "json", ".jsonl": "json"}.get(ending, "page")


@contextmanager
def opened(output: str | None) -> Iterator[TextIO]:
    """The stream to write to. Standard output is flushed here, where a closed pipe is still met quietly."""
    if output is None or output == "-":
        yield sys.stdout
        sys.stdout.flush()
        return
    from notesparse.record.store import write_whole

    with write_whole(output) as file:
        yield file


def write_all(jobs: Sequence[Job], processes: int, form: str, out: TextIO, said: Said) -> Tally:
    """Does the jobs and writes each result as it comes, in order."""

    def stepping() -> Iterator[Done]:
        for number, done in enumerate(work(jobs, processes), 1):
            said.step(number, len(jobs), done.name)
            yield done

    return write_each(stepping(), form, bool(jobs) and jobs[0].colour, out, said)


def write_each(results: Iterable[Done], form: str, colour: bool, out: TextIO, said: Said) -> Tally:
    """Writes each result as it comes."""
    tally = Tally()
    if form == "csv":
        from notesparse.record.columns import COLUMNS

        out.write(",".join(column.name for column in COLUMNS) + "\n")
    for done in results:
        if done.fault:
            said.say("fault", done.fault)
            continue
        if done.guessed:
            said.say(
                "guessed", f"{_named(done.name)}: not UTF-8, so taken as {done.guessed}; look at fractions and accents."
            )
        out.write(f"{_BETWEEN if tally.notes else ''}{done.text}\n" if form == "page" else done.text)
        tally.notes += 1
        tally.questions += done.questions
    if form == "page" and tally.notes:
        from notesparse.cli.colour import coloured
        from notesparse.record.caution import CAUTION
        from notesparse.views.paint import plain

        out.write((coloured if colour else plain)("quiet", CAUTION) + "\n")
    return tally


def _named(source: str) -> str:
    return "standard input" if source == "-" else source


def closing(output: str | None, tally: Tally) -> str | None:
    """One line on what was done, where the output does not show it: to a file, or of many notes on a terminal."""
    to_file = output is not None and output != "-"
    if not (to_file or (tally.notes > 1 and sys.stderr.isatty())):
        return None
    from notesparse.views.wording import many

    done = f"{many(tally.notes, 'note')} read, {many(tally.questions, 'question')} open"
    return f"{done}; written to {output}." if to_file else f"{done}."
