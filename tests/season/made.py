"""Notes made up for the season's tests."""

from __future__ import annotations

import hashlib

from notesparse.flow import read
from notesparse.outcome import Outcome


def outcome(text: str, name: str = "a.txt", date: str | None = None) -> Outcome:
    """A note of some text, as if it had been read from a file."""
    return read(text, source=name, sha256=hashlib.sha256(text.encode()).hexdigest(), date=date)
