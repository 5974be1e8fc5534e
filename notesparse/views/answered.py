"""What was answered and what was set by hand; and the answers that fit the note no more."""

from __future__ import annotations

from notesparse.outcome import INNER_KEYS, Answer, Doubt, Outcome, Question
from notesparse.views.cells import WIDTH, fold, line_of, safe
from notesparse.views.paint import Paint, plain
from notesparse.views.wording import made


def answered(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """One entry for each answered question: what was asked about, and what the answer was."""
    lines: list[str] = []
    for question in outcome.questions:
        if question.answer is None:
            continue
        where = f"line {line_of(outcome.note.text, question.span[0])}: " if _several(outcome) else ""
        lines += fold(f'{where}"{safe(question.quote)}"', width, "   ", "     ")
        lines += [paint("quiet", line) for line in fold(said(question), width, "     ")]
    return lines


def said(question: Question) -> str:
    """The answer to a question in words."""
    if isinstance(question.answer, int):
        return safe(question.choices[question.answer].reading)
    return safe(str(question.answer))


def unapplied(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """One entry for each answer that changes nothing, with the reason."""
    lines: list[str] = []
    for one in outcome.unapplied:
        given = one.given
        if isinstance(given, Doubt):
            continue  # no answer: told of where the note's source is (views/heard.py)
        values = given.values if isinstance(given, Answer) else {given.key: given.value}
        told = ", ".join(made(key, value) for key, value in values.items() if key not in INNER_KEYS)
        whose = f"plant {given.plant}: " if given.plant is not None else ""
        lines += [paint("unread", line) for line in fold(f"{safe(whose + told)} ({one.why})", width, "   ", "     ")]
    return lines


def _several(outcome: Outcome) -> bool:
    return len(outcome.note.text.splitlines()) > 1
