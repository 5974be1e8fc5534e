"""Each question: the line as it was written, a mark under the words, the sentence, and what each answer would make."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from notesparse.outcome import Choice, Outcome, Question, letter_of
from notesparse.views.cells import WIDTH, fit, fold, line_of, rows_of, safe, width_of
from notesparse.views.paint import Paint, plain
from notesparse.views.wording import made, stage

_SCALES = {"plant": ("v_stage", "r_stage"), "field": ("field_v", "field_r")}
_STAGE_KEYS = frozenset(key for keys in _SCALES.values() for key in keys)
_INDENT = "   "
_GAP = "   "


def questions(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """All the open questions of a note, those that can move the field's stage first, as they come."""
    lines: list[str] = []
    waiting = sum(q.answer is None for q in outcome.questions)
    for number, question in enumerate(outcome.questions, 1):
        if question.answer is not None:
            continue
        if lines:
            lines.append("")
        lines += one_question(outcome, question, number, width, paint, waiting)
    return lines


def one_question(
    outcome: Outcome, question: Question, number: int, width: int, paint: Paint = plain, total: int | None = None
) -> list[str]:
    """One question, `number` of `total`; without a total it goes without a number."""
    of = f" {number} of {total}" if total is not None and total > 1 else f" {number}" if total is not None else ""
    lines = [paint("asked", f"Question{of}") + _about(outcome, question), ""]
    lines += _pointed(outcome.note.text, question, width, paint)
    lines += ["", *fold(question.ask, width, _INDENT), "", *_choices(question, width)]
    return lines


def _about(outcome: Outcome, question: Question) -> str:
    about = []
    if len(outcome.visits) > 1 and question.visit < len(outcome.visits):
        about.append(safe(outcome.visits[question.visit].field or f"visit {question.visit + 1}"))
    if question.plant is not None:
        about.append(f"plant {safe(question.plant)}")
    if len(outcome.note.text.splitlines()) > 1:
        about.append(f"line {line_of(outcome.note.text, question.span[0])}")
    return f"   {', '.join(about)}" if about else ""


def _pointed(text: str, question: Question, width: int, paint: Paint) -> list[str]:
    """The rows of the note that hold the words, with ^ under every one of their characters."""
    start, end = question.span
    lines: list[str] = []
    for row in rows_of(text, width - len(_INDENT)):
        first, last = row.span
        if not (first < end and start < last):
            continue
        under = "".join(("^" if start <= cell.offset < end else " ") * cell.width for cell in row.cells)
        lines += [(_INDENT + row.text).rstrip(), _INDENT + paint("asked", under.rstrip())]
    return lines


def _choices(question: Question, width: int) -> list[str]:
    told = [safe(choice.reading) for choice in question.choices]
    made_by = makes(question)
    tags = [_tag(question, at) for at in range(len(told))]
    letters = [letter_of(at) for at in range(len(told))]
    head = len(_INDENT) + max(map(len, letters)) + 2
    reading = max(map(width_of, told), default=0)
    effect = max(map(width_of, made_by), default=0)
    tag = max(map(width_of, tags), default=0)
    lines: list[str] = []
    if head + reading + len(_GAP) + effect + len(_GAP) + tag <= width:
        for letter, words, result, mark in zip(letters, told, made_by, tags, strict=True):
            row = f"{_INDENT}{letter}  {fit(words, reading)}{_GAP}{fit(result, effect)}{_GAP}{mark}"
            lines.append(row.rstrip())
    else:
        for letter, words, result, mark in zip(letters, told, made_by, tags, strict=True):
            hang = " " * head
            lines += fold(f"{words} ({mark})" if mark else words, width, f"{_INDENT}{letter}  ", hang)
            lines += fold(result, width, hang + "  ") if result else []
    alike = shared(question)
    return [*lines, *(["", *fold(alike, width, _INDENT)] if alike else [])]


def _tag(question: Question, at: int) -> str:
    if question.answer is not None:
        return "answered" if question.answer == at else ""
    return "recorded for now" if at == question.taken else ""


def makes(question: Question) -> list[str]:
    """What each answer makes, in words: the values, then the stages, and of these only what the answers differ in."""
    differ = _differing(question)
    return [_one(choice, differ) for choice in question.choices]


def _differing(question: Question) -> set[str]:
    keys = {key for choice in question.choices for key in choice.makes}
    return {key for key in keys if len({repr(choice.makes.get(key)) for choice in question.choices}) > 1}


def _one(choice: Choice, differ: set[str]) -> str:
    values = [
        safe(made(key, value))
        for key, value in choice.makes.items()
        if key not in _STAGE_KEYS and key in differ and not _said(choice.reading, value)
    ]
    stages = []
    for whose, keys in _SCALES.items():
        found = [_code(key, choice.makes[key]) for key in keys if key in differ and key in choice.makes]
        if found:
            stages.append(f"{whose} {', '.join(found)}")
    return "; ".join(filter(None, (", ".join(values), ", ".join(stages))))


def _code(key: str, value: Any) -> str:
    return stage(value) if value is not None else f"{'V' if 'v' in key else 'R'} not known"


def _said(reading: str, value: Any) -> bool:
    """Whether the answer's own words hold the value already (``11``), so that saying it again would tell nothing."""
    return isinstance(value, (str, int, float)) and str(value) in re.findall(r"[\w.-]+", reading)


def shared(question: Question) -> str:
    """What stays as it is whichever answer is given."""
    differ = _differing(question)
    first: Mapping[str, Any] = question.choices[0].makes if question.choices else {}
    kept: list[str] = []
    for whose, keys in _SCALES.items():
        found = [stage(first[key]) for key in keys if key not in differ and first.get(key) is not None]
        if found and not any(key in differ for key in keys):
            kept.append(f"the {whose} {'stays ' if not kept else ''}at {', '.join(found)}")
    return f"Whichever it is, {' and '.join(kept)}." if kept else ""
