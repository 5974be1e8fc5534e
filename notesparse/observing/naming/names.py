"""The name of a field as it stands in a note."""

from __future__ import annotations

from notesparse.lazy import dataclass


@dataclass(frozen=True, slots=True)
class Name:
    """A field name at pieces [start, end). `seen` is False where the field was not looked at; `cue` is its place."""

    start: int
    end: int
    text: str
    cue: str  # note, line, sentence, comma, field, fieldno, go, skip, date, again, was, anew, daily, midway, turn, together, pair, same
    seen: bool = True
    cue_start: int = 0
