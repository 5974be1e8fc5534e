"""The note as it was written, with marks under the words: what was read, what is asked, what was not understood."""

from __future__ import annotations

from notesparse.outcome import Outcome
from notesparse.views.cells import WIDTH, Row, rows_of
from notesparse.views.paint import Paint, plain

READ, TAKEN_BACK, UNREAD, ASKED = "'", "-", "x", "?"

_PARTS = {READ: "read", TAKEN_BACK: "taken-back", UNREAD: "unread", ASKED: "asked"}


def note_marks(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """The lines of the note, numbered where there are several, each with its marks, and a legend of the marks used."""
    marks, labels = _marks(outcome)
    rows = rows_of(outcome.note.text, width - 6)
    numbered = any(row.line > 1 for row in rows)
    lines: list[str] = []
    for row in rows:
        number = f"{row.line:>4}  " if numbered and row.first else " " * (6 if numbered else 3)
        shown = paint("quiet", number) if number.strip() else number
        lines.append((shown + _painted(row, marks, paint)).rstrip())
        under = _under(row, marks, labels)
        if under.strip():
            lines.append(" " * len(number) + _painted_marks(under, paint).rstrip())
    return [*lines, "", *(" " * (6 if numbered else 3) + line for line in _legend(marks, paint))]


def _marks(outcome: Outcome) -> tuple[list[str], dict[int, str]]:
    """One mark for each code point, and where a question's mark begins, its number."""
    marks = [" "] * len(outcome.note.text)
    labels: dict[int, str] = {}
    layers = (
        (READ, outcome.evidence),
        (TAKEN_BACK, [c.span for c in outcome.corrected]),
        (UNREAD, [u.span for u in outcome.unread]),
        (ASKED, [q.span for q in outcome.questions if q.answer is None]),
    )
    for mark, spans in layers:
        for start, end in spans:
            marks[start:end] = [mark] * (min(end, len(marks)) - start)
    for number, question in enumerate(outcome.questions, 1):  # the open ones come first
        if question.answer is not None:
            break
        labels[question.span[0]] = f"{labels[question.span[0]]},{number}" if question.span[0] in labels else str(number)
    return marks, labels


def _under(row: Row, marks: list[str], labels: dict[int, str]) -> str:
    """The marks under one row. A question's number stands in its own marks, and only where they have room for it."""
    under = "".join(marks[cell.offset] * cell.width for cell in row.cells)
    column = 0
    for cell in row.cells:
        label = labels.get(cell.offset)
        if label and under[column : column + len(label)] == ASKED * len(label):
            under = under[:column] + label + under[column + len(label) :]
        column += cell.width
    return under


def _painted(row: Row, marks: list[str], paint: Paint) -> str:
    """The words, each run of one mark painted as one."""
    pieces: list[tuple[str, str]] = []
    for cell in row.cells:
        mark = marks[cell.offset]
        if pieces and pieces[-1][0] == mark:
            pieces[-1] = (mark, pieces[-1][1] + cell.shown)
        else:
            pieces.append((mark, cell.shown))
    return "".join(paint(_PARTS[mark], words) if mark in _PARTS else words for mark, words in pieces)


def _painted_marks(under: str, paint: Paint) -> str:
    runs: list[tuple[str, str]] = []
    for mark in under:
        part = " " if mark == " " else _PARTS.get(mark, "asked")
        if runs and runs[-1][0] == part:
            runs[-1] = (part, runs[-1][1] + mark)
        else:
            runs.append((part, mark))
    return "".join(marks if part == " " else paint(part, marks) for part, marks in runs)


def _legend(marks: list[str], paint: Paint) -> list[str]:
    says = (
        (READ, "''' read"),
        (ASKED, "1?? question 1"),
        (UNREAD, "xxx not understood"),
        (TAKEN_BACK, "--- taken back"),
    )
    used = [(mark, text) for mark, text in says if mark in marks]
    quiet = paint("quiet", "no mark: nothing to record")
    if len(used) > 2:  # too much for one line
        return ["   ".join(paint(_PARTS[mark], text) for mark, text in used), quiet]
    return ["   ".join([*(paint(_PARTS[mark], text) for mark, text in used), quiet])]
