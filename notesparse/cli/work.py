"""Reading many notes: one after another, or over several processes; the results come in the order of the notes."""

from __future__ import annotations

import signal
import traceback
from collections import deque
from collections.abc import Iterator, Sequence

from notesparse.errors import InputError
from notesparse.lazy import dataclass
from notesparse.options import Options
from notesparse.outcome import Outcome
from notesparse.record.store import NoteFile, load


@dataclass(frozen=True, slots=True)
class Job:
    """One note to read, and what to make of it: a page, a json line, or csv rows."""

    note: NoteFile | str  # a note, or the path of one
    form: str
    date: str | None
    options: Options
    colour: bool = False
    debug: bool = False
    answers: str | None = None  # a file of answers; None: those beside the note

    @property
    def name(self) -> str:
        return self.note if isinstance(self.note, str) else self.note.source


@dataclass(frozen=True, slots=True)
class Done:
    """What became of a job: its text, or the sentence that says why there is none."""

    name: str
    text: str = ""
    questions: int = 0
    guessed: str | None = None
    fault: str | None = None


def work(jobs: Sequence[Job], processes: int) -> Iterator[Done]:
    """Does all jobs, in order. With several processes only a few notes are ahead at a time, so memory stays flat."""
    if processes <= 1 or len(jobs) <= 1:
        for job in jobs:
            yield do(job)
        return
    from concurrent.futures import Future, ProcessPoolExecutor

    pool = ProcessPoolExecutor(min(processes, len(jobs)), initializer=_leave_interrupts_to_the_parent)
    ahead: deque[Future[Done]] = deque()
    try:
        for job in jobs:
            ahead.append(pool.submit(do, job))
            if len(ahead) > 8 * processes:
                yield ahead.popleft().result()
        while ahead:
            yield ahead.popleft().result()
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def do(job: Job) -> Done:
    """Reads one note. A fault of the note's file, or of the program on this one note, is a sentence in the result."""
    from notesparse.answers.reading import read_answered

    try:
        note = load(job.note) if isinstance(job.note, str) else job.note
        outcome = read_answered(note, job.date, job.options, job.answers)
        text = as_text(outcome, job.form, job.colour)
    except InputError as fault:
        return Done(job.name, fault=str(fault))
    except (ArithmeticError, AttributeError, LookupError, RecursionError, TypeError, ValueError) as fault:
        # One note that the program stumbles over must not cost the others.
        where = traceback.format_exc() if job.debug else f"{type(fault).__name__}: {fault}"
        return Done(job.name, fault=f"{job.name}: the program itself failed on this note, please report it ({where})")
    return Done(job.name, text, sum(q.answer is None for q in outcome.questions), note.guessed)


def as_text(outcome: Outcome, form: str, colour: bool) -> str:
    """The record of one note as it is printed: a json line, csv rows without their head, or a page."""
    if form == "json":
        return outcome.to_json() + "\n"
    if form == "csv":
        from notesparse.record.rows import to_csv

        return to_csv([outcome], header=False)
    from notesparse.cli.colour import coloured
    from notesparse.views.page import page
    from notesparse.views.paint import plain

    return page(outcome, paint=coloured if colour else plain, caution=False)


def _leave_interrupts_to_the_parent() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)
