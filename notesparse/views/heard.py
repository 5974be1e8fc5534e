"""What a note was heard from: how, what was refused, and what was put right by its sound."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from notesparse.views.cells import WIDTH, fold, safe
from notesparse.views.paint import Paint, plain
from notesparse.views.wording import many


def heard(told: Mapping[str, Any], width: int = WIDTH, paint: Paint = plain) -> str:
    """A block of lines with an empty one at its end; `told` is what stands under `heard` in the record."""
    refused, utterances = told["refused"], told["utterances"]
    counts = f"{many(len(utterances), 'piece')} of speech"
    if refused:
        counts += f", {len(refused)} not understood"
    first = f"Heard from {safe(told['source'])} ({_clock(told['seconds'])}) by {told['by']}: {counts}"
    lines = [*(paint("quiet", line) for line in fold(first, width, "", "   "))]
    if told["weak"]:
        lines += [paint("asked", line) for line in fold("This is the weak way of listening: check it.", width, "", "   ")]
    for one in refused:
        place = f"{_clock(one['start'])}-{_clock(one['end'])}"
        lines += [paint("unread", line) for line in fold(f"{place} not understood: {one['why']}", width, "   ", "     ")]
    for utterance in utterances:
        for change in utterance["repairs"] if utterance["refused"] is None else ():
            said = f"{_clock(change['start'])} \"{safe(change['heard'])}\" put right as \"{safe(change['taken'])}\""
            lines += [paint("taken-back", line) for line in fold(said, width, "   ", "     ")]
    return "\n".join(lines) + "\n\n"


def _clock(seconds: float) -> str:
    tenths = round(seconds * 10)
    return f"{tenths // 600}:{tenths % 600 // 10:02d}.{tenths % 10}"
