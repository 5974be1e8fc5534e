"""The whole print-out of one note: the stage first, then what the scout has to settle, then how it was read."""

from __future__ import annotations

from notesparse.outcome import Outcome
from notesparse.views.assumptions import assumptions, corrected
from notesparse.views.cells import WIDTH, safe
from notesparse.views.field import field, title
from notesparse.views.findings import findings
from notesparse.views.note_marks import note_marks
from notesparse.views.paint import Paint, plain
from notesparse.views.plants import plants
from notesparse.views.questions import questions
from notesparse.views.unread import unread
from notesparse.views.wording import many

CAUTION = "No treatment is advised here: label, local rules, licensed adviser decide."
"""Stood once at the end of a print-out, since many a label hangs on the stage."""


def page(outcome: Outcome, width: int = WIDTH, paint: Paint = plain, caution: bool = True) -> str:
    """All that a note gave, as text for a person; it ends with a line end."""
    blocks = []
    if outcome.note.source != "-":
        blocks.append([paint("quiet", safe(outcome.note.source))])
    for at, visit in enumerate(outcome.visits):
        blocks.append([*title(visit, paint), "", *field(outcome, at, width, paint)])
        blocks.append(headed("Plants", plants(outcome, at, width, paint), paint))
        blocks.append(headed("Also recorded", findings(visit, width, paint), paint))
    if not outcome.visits:
        blocks.append(["No visit to a soybean field was found in this note."])
    open_ones = sum(question.answer is None for question in outcome.questions)
    to_settle = f"To settle: {many(open_ones, 'question')}" if open_ones else "Settled"
    asked = questions(outcome, width, paint)
    blocks.append(headed(to_settle, ["", *asked] if asked else [], paint))
    blocks.append(headed("The note as it was read", note_marks(outcome, width, paint), paint))
    blocks.append(headed("Taken in the usual sense", assumptions(outcome, width, paint), paint))
    blocks.append(headed("Put right in the note", corrected(outcome, width, paint), paint))
    blocks.append(headed("Not understood, and not in the record", unread(outcome, width, paint), paint))
    if caution:
        blocks.append([paint("quiet", CAUTION)])
    return joined(blocks)


def joined(blocks: list[list[str]]) -> str:
    """The blocks that have lines, an empty line between them."""
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def headed(heading: str, lines: list[str], paint: Paint) -> list[str]:
    """A block with its heading; none where there are no lines."""
    return [paint("title", heading), *lines] if lines else []
