"""The whole print-out of one note: the stage first, then what the scout has to settle, then how it was read."""

from __future__ import annotations

from notesparse.outcome import Outcome
from notesparse.record.caution import CAUTION
from notesparse.views.answered import answered, unapplied
from notesparse.views.assumptions import assumptions, corrected
from notesparse.views.cells import WIDTH, safe
from notesparse.views.field import field, title
from notesparse.views.findings import findings
from notesparse.views.heard import heard, not_asked
from notesparse.views.note_marks import note_marks
from notesparse.views.paint import Paint, plain
from notesparse.views.plants import plants
from notesparse.views.questions import questions
from notesparse.views.unread import unread
from notesparse.views.wording import many


def page(outcome: Outcome, width: int = WIDTH, paint: Paint = plain, caution: bool = True) -> str:
    """All that a note gave, as text for a person; it ends with a line end."""
    blocks = [_first(outcome, paint), heard(outcome, width, paint)]
    for at, visit in enumerate(outcome.visits):
        blocks.append([*title(visit, paint), "", *field(outcome, at, width, paint)])
        blocks.append(headed("Plants", plants(outcome, at, width, paint), paint))
        blocks.append(headed("Also recorded", findings(visit, width, paint), paint))
    if not outcome.visits:
        blocks.append(["No visit to a soybean field was found in this note."])
    asked = questions(outcome, width, paint)
    blocks.append(headed(f"To settle: {many(_open(outcome), 'question')}", ["", *asked] if asked else [], paint))
    blocks.append(headed("Settled by the person who saw it", answered(outcome, width, paint), paint))
    blocks.append(headed("Answers that no longer fit, and change nothing", unapplied(outcome, width, paint), paint))
    blocks.append(headed("Doubtful, and not asked about", not_asked(outcome, width, paint), paint))
    blocks.append(headed("The note as it was read", note_marks(outcome, width, paint), paint))
    blocks.append(headed("Taken in the usual sense", assumptions(outcome, width, paint), paint))
    blocks.append(headed("Put right in the note", corrected(outcome, width, paint), paint))
    blocks.append(headed("Not understood, and not in the record", unread(outcome, width, paint), paint))
    if caution:
        blocks.append([paint("quiet", CAUTION)])
    return joined(blocks)


def _first(outcome: Outcome, paint: Paint) -> list[str]:
    """Whose page this is, and at once what is still open: a stage must not look surer than it is."""
    lines = [] if outcome.note.source == "-" else [paint("quiet", safe(outcome.note.source))]
    still = []
    if _open(outcome):
        still.append(paint("asked", f"{many(_open(outcome), 'question')} to settle"))
    if outcome.unread:
        places = f"{many(len(outcome.unread), 'place')} not understood"
        still.append(paint("unread", places))
    return [*lines, *([", ".join(still)] if still else [])]


def _open(outcome: Outcome) -> int:
    return sum(question.answer is None for question in outcome.questions)


def joined(blocks: list[list[str]]) -> str:
    """The blocks that have lines, an empty line between them."""
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def headed(heading: str, lines: list[str], paint: Paint) -> list[str]:
    """A block with its heading; none where there are no lines."""
    return [paint("title", heading), *lines] if lines else []
