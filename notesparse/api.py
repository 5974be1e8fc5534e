"""Reading a note from Python: one call with plain arguments."""

from __future__ import annotations

import datetime
import hashlib
from collections.abc import Sequence

from notesparse.errors import InputError
from notesparse.options import CHOICES, Options
from notesparse.outcome import Answer, Doubt, Outcome


def read(
    text: str,
    date: datetime.date | str | None = None,
    source: str = "-",
    counting_rule: str = "open-trifoliates",
    day_first: bool = False,
    strict_top: bool = False,
    answers: Sequence[Answer] = (),
    doubts: Sequence[Doubt] = (),
    options: Options | None = None,
) -> Outcome:
    """Read the note `text` into its visits, plants, tallies, findings, stages, questions, and what was not understood.

    `date` is the note's own date (a date, or ISO text), which serves where the text gives none; `source` is the name
    that the record keeps for the note. `answers` are those of the person who saw the plants: `question.chosen(1)`, or
    `question.told({"trifoliates": 12})`, of a question of the same note. `doubts` are words of the note that
    a recogniser was not sure of. `counting_rule`, `day_first` and `strict_top` are those of `Options`; `options` gives all
    settings at once, the habits of the scout and taught words too, and then these three are not given as well.

    In the outcome lengths are millimetres, shares percent (0 to 100), row spacing inches, dates ISO text; nodes are
    counted from the top, the top node being 1, and spans are half-open offsets in code points of `text`.
    Stages are those of Fehr and Caviness (1977); see `notesparse.staging`.

    Nothing that stands in the note raises: it is asked, assumed or unread in the outcome. `InputError` is raised for
    a setting that there is not, or that is given twice, and for a `date` that is none.
    """
    plain = Options(counting_rule, day_first, strict_top)
    if options is not None and plain != Options():
        raise InputError("counting_rule, day_first and strict_top are in `options`: give them there only.")
    chosen = options or plain
    _check(chosen)
    from notesparse.flow import read as read_note  # the grammar is built on the first note

    return read_note(
        text,
        source=source,
        sha256=hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest(),
        date=_iso(date),
        options=chosen,
        answers=answers,
        doubts=doubts,
    )


def _check(options: Options) -> None:
    for name, allowed in CHOICES.items():
        value = getattr(options, name)
        if value not in allowed:
            raise InputError(f"There is no {name.replace('_', ' ')} {value!r}; there are {', '.join(allowed)}.")


def _iso(date: datetime.date | str | None) -> str | None:
    if date is None:
        return None
    if isinstance(date, datetime.datetime):
        return date.date().isoformat()
    if isinstance(date, datetime.date):
        return date.isoformat()
    try:
        return datetime.date.fromisoformat(date).isoformat()
    except ValueError:
        raise InputError(f"{date!r} is no date; write it as 2026-07-14.") from None
