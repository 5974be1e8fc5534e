"""Reading a note with what is kept beside it: the answers, and the doubts of a note that was heard."""

from __future__ import annotations

from collections.abc import MutableMapping
from dataclasses import replace

from notesparse import flow
from notesparse.answers.entry import fit
from notesparse.answers.file import entries_beside, read_entries
from notesparse.answers.heard import Beside, fit_heard, heard_beside, of_another, with_heard
from notesparse.options import Options
from notesparse.outcome import Outcome
from notesparse.record.store import NoteFile

NO_ANSWERS = ""
"""In the place of an answers file: read the note without any."""


def read_answered(
    note: NoteFile,
    date: str | None = None,
    options: Options | None = None,
    answers: str | None = None,
    heard: Beside | None = None,
    before: MutableMapping[str, Outcome] | None = None,
) -> Outcome:
    """The outcome of a note with its answers: those beside it, or those of the file `answers`; and with the doubts
    beside it, where it was made from a recording. `heard` is in the place of what lies beside it: a recording that was
    heard just now. `before` is as in `flow.read`.

    Raises `InputError` where a file beside it is broken: an answer or a doubt is never left out in silence.
    """
    if answers is None:
        entries = entries_beside(note.source) if note.source != "-" else []
    else:
        entries = read_entries(answers) if answers != NO_ANSWERS else []
    other: str | None = None
    fitting = fit(entries, note.text, note.source, note.sha256)
    beside = heard
    if beside is None and note.source != "-":
        beside = heard_beside(note.source)
    if beside is not None and not beside.is_of(note.source, note.text, note.sha256):
        other, beside = beside.note, None
    fitted = fit_heard(beside, note.text, note.sha256) if beside is not None else None
    outcome = flow.read(
        note.text,
        source=note.source,
        sha256=note.sha256,
        date=date or note.date,
        options=options,
        answers=fitting.answers,
        by_hand=fitting.by_hand,
        doubts=(*note.doubts, *(fitted.doubts if fitted is not None else ())),
        before=before,
    )
    if fitted is not None:
        outcome = with_heard(outcome, fitted)
    if other is not None:
        outcome = replace(outcome, unapplied=(of_another(note.source, other), *outcome.unapplied))
    if note.typed is not None:
        outcome = replace(outcome, note=replace(outcome.note, typed=note.typed))
    if fitting.misfits:
        outcome = replace(outcome, unapplied=(*fitting.misfits, *outcome.unapplied))
    return outcome
