"""Questions as a sheet for a spreadsheet, and the filled-in sheet back as answers.

One question a row. Whoever saw the plants fills in the column `answer`: the letter of a choice, its words, or another
value as it would be typed. All other columns find the question again and are left as they are.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from typing import Any

from notesparse.answers.entry import Entry, entry_of, values_of_choice
from notesparse.asking.given import values_of
from notesparse.asking.values import Refused, from_words, other_keys
from notesparse.errors import InputError
from notesparse.lazy import dataclass
from notesparse.outcome import LETTERS, Outcome, Question, letter_of
from notesparse.record.columns import FORMULA_HEADS

_FIRST = ("note", "sha256", "line", "words", "start", "plant", "rule", "moves_field", "question")
_LAST = ("taken_meanwhile", "answer")


@dataclass(frozen=True, slots=True)
class Row:
    """One filled-in row: its number in the sheet (the head is 1), what finds the question, and the answer as typed."""

    number: int
    note: str
    sha256: str
    start: int
    rule: str
    words: str
    plant: str | None
    answer: str


def to_sheet(outcomes: Iterable[Outcome]) -> str:
    """All questions of some notes as CSV, the open ones with an empty `answer`."""
    rows = [(outcome, question) for outcome in outcomes for question in outcome.questions]
    most = max((len(question.choices) for _, question in rows), default=2)
    out = io.StringIO()
    sheet = csv.writer(out, lineterminator="\n", quoting=csv.QUOTE_ALL)
    letters = [letter_of(at) for at in range(most)]
    sheet.writerow([*_FIRST, *letters, *_LAST])
    for outcome, q in rows:
        text = outcome.note.text
        choices = [choice.reading for choice in q.choices] + [""] * (most - len(q.choices))
        first = [
            outcome.note.source,
            outcome.note.sha256,
            text.count("\n", 0, q.span.start) + 1,
            q.quote,
            q.span.start,
            q.plant or "",
            q.rule,
            "yes" if q.moves_field else "no",
            q.ask,
        ]
        sheet.writerow([_shielded(cell) for cell in [*first, *choices, letters[q.taken], _answer(q, letters)]])
    return out.getvalue()


def _answer(q: Question, letters: Sequence[str]) -> str:
    if isinstance(q.answer, int):
        return letters[q.answer]
    return "" if q.answer is None else q.answer


def _shielded(cell: Any) -> Any:
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(FORMULA_HEADS) else cell


def _bare(cell: str) -> str:
    return cell[1:] if cell[:1] == "'" and cell[1:].startswith(FORMULA_HEADS) else cell


def from_sheet(text: str, name: str) -> list[Row]:
    """The rows of a filled-in sheet that have an answer. Raises `InputError` with the row."""
    lines = text.splitlines()
    delimiter = ";" if lines and lines[0].count(";") > lines[0].count(",") else ","
    reader = csv.DictReader(io.StringIO(text, newline=""), delimiter=delimiter)
    missing = [
        column for column in ("note", "start", "rule", "words", "answer") if column not in (reader.fieldnames or [])
    ]
    if missing:
        raise InputError(
            f"{name}: the column {missing[0]!r} is missing; write the sheet anew with notesparse questions --csv."
        )
    out: list[Row] = []
    for number, row in enumerate(reader, 2):
        cells = {
            key: _bare(value or "")
            for key, value in row.items()
            if isinstance(key, str) and not isinstance(value, list)
        }
        answer = cells["answer"].strip()
        if not answer:
            continue
        if not cells["start"].isdigit():
            raise InputError(f"{name}: row {number}: `start` should be a whole number, and is {cells['start']!r}.")
        out.append(
            Row(
                number,
                cells["note"],
                cells.get("sha256", ""),
                int(cells["start"]),
                cells["rule"],
                cells["words"],
                cells.get("plant") or None,
                answer,
            )
        )
    return out


def entry_for(row: Row, outcome: Outcome) -> Entry | None:
    """The entry that a row makes for its note; None where that very answer stands already. Raises `InputError`."""
    fits = [
        q
        for q in outcome.questions
        if q.span.start == row.start
        and q.rule == row.rule
        and _same(q.quote, row.words)
        and _same(q.plant or "", row.plant or "")
    ]
    if row.sha256 and row.sha256 != outcome.note.sha256:
        raise InputError(f"row {row.number}: {row.note} has changed since the sheet was written; write a new sheet.")
    if not fits:
        raise InputError(f'row {row.number}: {row.note} has no question about "{row.words}" at that place.')
    q = fits[0]
    values, reading = _chosen(row, q)
    if q.answer is not None and _stands(q, values):
        return None
    return entry_of(outcome, q, values, reading)


def _same(one: str, two: str) -> bool:
    return one.split() == two.split()


def _stands(q: Question, values: dict[str, Any]) -> bool:
    return isinstance(q.answer, int) and values_of(values_of_choice(q, q.answer)) == values_of(values)


def _chosen(row: Row, q: Question) -> tuple[dict[str, Any], str | None]:
    """The values that the cell stands for: a choice's letter, a choice's words, or a value."""
    typed = row.answer
    letter = typed.casefold().rstrip(".)")
    if len(letter) == 1 and letter in LETTERS[: len(q.choices)]:
        at = LETTERS.index(letter)
        return values_of_choice(q, at), q.choices[at].reading
    for at, choice in enumerate(q.choices):
        if _same(choice.reading.casefold(), typed.casefold()):
            return values_of_choice(q, at), choice.reading
    keys = other_keys(q)
    if len(keys) != 1:
        raise InputError(f"row {row.number}: {typed!r} is none of the choices of this question.")
    try:
        return {keys[0]: from_words(keys[0], typed)}, None
    except Refused as fault:
        raise InputError(f"row {row.number}: {typed!r} is none of the choices, and {fault}") from None
