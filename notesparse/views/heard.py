"""What a note was made from, where it was heard or read from a picture: its source, what was refused, and doubts that
could not be asked about."""

from __future__ import annotations

from notesparse.outcome import Doubt, Outcome
from notesparse.views.cells import WIDTH, fold, safe
from notesparse.views.paint import Paint, plain


def source_line(outcome: Outcome) -> str:
    """One line: the recording or picture, by what it was recognised, and how much of it was refused."""
    heard = outcome.heard
    if heard is None:
        return ""
    refused = sum(u.refused is not None for u in heard.utterances)
    told = [f"from {safe(heard.source)} by {safe(heard.model)}"]
    told += [f"{refused} of {len(heard.utterances)} stretches refused"] * bool(refused)
    told += ["the note was changed since"] * heard.changed
    return "; ".join(told)


def refused(outcome: Outcome, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """The stretches of the recording from which nothing was taken, with the reason."""
    lines: list[str] = []
    for one in outcome.heard.utterances if outcome.heard is not None else ():
        if one.refused is not None:
            said = f"{clock(one.start)}-{clock(one.end)}: {safe(one.refused)}"
            lines += [paint("unread", line) for line in fold(said, width, "   ", "     ")]
    return lines


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


def clock(seconds: float) -> str:
    """A time in a recording: ``0:12.4``, ``1:02:03.0``."""
    tenths = round(seconds * 10)
    minutes, rest = divmod(tenths, 600)
    hours, minutes = divmod(minutes, 60)
    head = f"{hours}:{minutes:02d}" if hours else str(minutes)
    return f"{head}:{rest // 10:02d}.{rest % 10}"
