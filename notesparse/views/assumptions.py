"""What the note leaves unsaid and the trade's usual meaning fills in; and what the note itself takes back."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.outcome import Assumption, Correction, Outcome
from notesparse.views.cells import WIDTH, fold, line_of, safe
from notesparse.views.paint import Paint, plain

_MOST_WORDS = 3


def assumptions(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """Each assumption once, with the words that it was made for."""
    return _remarks(outcome, outcome.assumptions, width, paint)


def corrected(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """Each thing that the note replaces or takes back."""
    return _remarks(outcome, outcome.corrected, width, paint)


def _remarks(outcome: Outcome, remarks: Sequence[Assumption | Correction], width: int, paint: Paint) -> list[str]:
    text = outcome.note.text
    several = len(text.splitlines()) > 1
    grouped: dict[str, list[str]] = {}
    for remark in remarks:
        words = f'"{safe(text[remark.span[0] : remark.span[1]])}"'
        if several:
            words += f" on line {line_of(text, remark.span[0])}"
        grouped.setdefault(remark.text, []).append(words)
    lines: list[str] = []
    for said, where in grouped.items():
        sentence = said[:1].upper() + said[1:].rstrip(".")
        lines += fold(f"{sentence}.", width, "   ", "     ")
        shown = where[:_MOST_WORDS]
        more = f" and {len(where) - len(shown)} more" if len(where) > len(shown) else ""
        lines += [paint("quiet", line) for line in fold(", ".join(shown) + more, width, "     ")]
    return lines
