"""The words that were not understood: kept as they are, with the line they stand in and the reason."""

from __future__ import annotations

from notesparse.outcome import Outcome
from notesparse.views.cells import WIDTH, fold, line_of, safe
from notesparse.views.paint import Paint, plain


def unread(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """One entry for each stretch of words, in the order of the note."""
    text = outcome.note.text
    several = len(text.splitlines()) > 1
    lines: list[str] = []
    for part in outcome.unread:
        where = f"line {line_of(text, part.span[0])}: " if several else ""
        why = f" ({part.why})" if part.why else ""
        first, *rest = fold(f'{where}"{safe(part.quote)}"{why}', width, "   ", "     ")
        lines += [first, *rest]
    return [paint("unread", line) for line in lines]
