"""The screens of going through questions: one question, what an answer made, and the closing line."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.facts import PLANT_KEYS
from notesparse.outcome import Outcome, Question
from notesparse.views.answered import said
from notesparse.views.cells import WIDTH, fold, safe
from notesparse.views.paint import Paint, plain
from notesparse.views.questions import one_question
from notesparse.views.wording import made, many, stage

KEYS = (
    ("o", "something else"),
    ("s", "skip"),
    ("p", "back"),
    ("u", "undo"),
    ("q", "stop"),
    ("?", "help"),
)

HELP = """\
   Press the letter of the answer. It is kept at once, beside the note.
   o  something else: type the value yourself
   s  skip this question; it stays open
   p  back to the question before
   u  undo the last answer
   q  stop; all that was answered is kept (Ctrl-C does the same)
"""


def screen(
    outcome: Outcome, question: Question, left: int, width: int = WIDTH, paint: Paint = plain, other: bool = True
) -> str:
    """One question with its choices and the keys; `left` questions are open, this one among them."""
    number = next((i for i, q in enumerate(outcome.questions, 1) if q is question), 1)
    lines = [paint("quiet", f"{safe(outcome.note.source)}   {many(left, 'question')} open")]
    lines += one_question(outcome, question, number, width, paint, total=None)
    if question.answer is not None:
        lines += ["", *fold(f"Answered before: {said(question)}.", width, "   ")]
    shown = "   ".join(f"{key} {what}" for key, what in KEYS if other or key != "o")
    return "\n".join([*lines, "", paint("quiet", "   " + shown), ""])


def effect(before: Outcome, after: Outcome, question: Question) -> str:
    """One line on what an answer made of the plant and of the field."""
    told = []
    if question.visit < len(after.visits):
        visit = after.visits[question.visit]
        plant = next((p for p in visit.plants if p.label == question.plant and p.stop == question.stop), None)
        if plant is not None:
            codes = [stage(s.stage) for s in (plant.v, plant.r) if s.stage is not None]
            told += [f"plant {safe(plant.label)} {', '.join(codes)}"] if codes else []
        codes = [stage(code) for code in (visit.field_stage.v, visit.field_stage.r) if code is not None]
        told += [f"field {', '.join(codes)}"] if codes else []
    new = _open(after) - _open(before)
    opened = f"; {many(new + 1, 'new question')} from it" if new >= 0 else ""
    return f"   {said(question)}: {'; '.join(told) or 'kept'}{opened}"


def _open(outcome: Outcome) -> int:
    return sum(q.answer is None for q in outcome.questions)


def closing(answered: int, left: int, skipped: int, files: Sequence[str]) -> str:
    """What was done, and where it is kept."""
    kept = f", kept in {', '.join(safe(f) for f in files)}" if files else ""
    still = f"; {many(left, 'question')} still open" if left else "; no question is open"
    passed = f" ({skipped} skipped)" if skipped else ""
    return f"{many(answered, 'answer')} given{kept}{still}{passed}."


def values(outcome: Outcome, width: int = WIDTH) -> tuple[list[str], list[tuple[int, str | None, str | None, str]]]:
    """All values of the record, numbered from 1; and for each its visit, plant, stop and key."""
    lines: list[str] = []
    items: list[tuple[int, str | None, str | None, str]] = []
    for k, visit in enumerate(outcome.visits):
        if k or len(outcome.visits) > 1:
            lines.append(f"   {safe(visit.field or f'visit {k + 1}')}")
        for key in ("field", "date", "planted", "emerged", "variety", "maturity_group", "row_spacing_in"):
            value = getattr(visit, key)
            if value is not None:
                items.append((k, None, None, key))
                lines.append(f"   {len(items):>3}  {key.replace('_', ' ')} {safe(str(value))}")
        for plant in visit.plants:
            at = f" at {safe(plant.stop)}" if plant.stop else ""
            for key in PLANT_KEYS:
                value = getattr(plant.facts, key)
                if value is None:
                    continue
                items.append((k, plant.label, plant.stop, key))
                how = f" ({plant.told[key]})" if key in plant.told else ""
                lines += fold(
                    f"plant {safe(plant.label)}{at}: {safe(made(key, value))}{how}",
                    width,
                    f"   {len(items):>3}  ",
                    " " * 8,
                )
    return lines, items
