"""What a note was heard from: how, what was refused, what was put right by its sound; or read from a picture of a typed
page. And the doubts that were not asked about."""

from __future__ import annotations

from notesparse.outcome import Doubt, Outcome
from notesparse.views.cells import WIDTH, fold, safe
from notesparse.views.paint import Paint, plain
from notesparse.views.wording import many


def heard(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """How a note was heard, or read from a picture: what stands under `heard` or `typed` in its record."""
    told = outcome.heard
    if told is None:
        return _typed(outcome, width, paint)
    refused, utterances = told["refused"], told["utterances"]
    counts = f"{many(len(utterances), 'piece')} of speech"
    if refused:
        counts += f", {len(refused)} not understood"
    length = f" ({_clock(told['seconds'])})" if "seconds" in told else ""
    by = told.get("by") or told.get("model")
    by_whom = f" by {safe(by)}" if by else ""
    first = f"Heard from {safe(told['source'])}{length}{by_whom}: {counts}"
    lines = [*(paint("quiet", line) for line in fold(first, width, "", "   "))]
    if told.get("weak"):
        lines += [
            paint("asked", line) for line in fold("This is the weak way of listening: check it.", width, "", "   ")
        ]
    if told["changed"]:
        said = "The note was changed since: what is doubtful was found again by the words around it."
        lines += [paint("quiet", line) for line in fold(said, width, "", "   ")]
    for one in refused:
        place = f"{_clock(one['start'])}-{_clock(one['end'])}"
        said = f"{place} not understood: {safe(one['why'])}"
        lines += [paint("unread", line) for line in fold(said, width, "   ", "     ")]
    for utterance in utterances:
        for change in utterance.get("repairs", ()) if utterance["refused"] is None else ():
            said = f'{_clock(change["start"])} "{safe(change["heard"])}" put right as "{safe(change["taken"])}"'
            lines += [paint("taken-back", line) for line in fold(said, width, "   ", "     ")]
    return lines


def _typed(outcome: Outcome, width: int, paint: Paint) -> list[str]:
    told = outcome.note.typed
    if told is None:
        return []
    counts = [many(told["pages"], "page")]
    if abs(told["angle"]) >= 0.05:
        counts.append(f"put straight by {abs(told['angle']):.1f} degrees")
    if told["doubts"]:
        counts.append(f"{many(len(told['doubts']), 'place')} not read clearly")
    said = f"Read from a typed page by {safe(told['engine'])}: {', '.join(counts)}"
    return [paint("quiet", line) for line in fold(said, width, "", "   ")]


def not_asked(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """The doubts that were not asked about, though they might matter."""
    lines: list[str] = []
    for one in outcome.unapplied:
        doubt = one.given
        if isinstance(doubt, Doubt):
            words = " ".join(doubt.span.of(outcome.note.text).split())
            others = ", ".join(f"“{' '.join(other.split())}”" for other in doubt.others)
            named = [f"“{words}”" if words else "", f"or {others}" if others else ""]
            named.append(f"({doubt.where})" if doubt.where else "")
            said = safe(f"{' '.join(filter(None, named))}: {one.why}")
            lines += [paint("unread", line) for line in fold(said, width, "   ", "     ")]
    return lines


def _clock(seconds: float) -> str:
    tenths = round(seconds * 10)
    return f"{tenths // 600}:{tenths % 600 // 10:02d}.{tenths % 10}"
