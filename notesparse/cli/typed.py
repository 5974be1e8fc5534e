"""What comes on standard input."""

from __future__ import annotations

import sys

from notesparse.record.store import LARGEST, NoteFile, from_bytes


def typed(what: str = "note") -> NoteFile:
    """What is piped in, or typed at the terminal. Raises `InputError` where it is no `what`."""
    if sys.stdin.isatty():
        print(f"Type the {what}; end it with Ctrl-D (Ctrl-Z and Enter on Windows).", file=sys.stderr)
    return from_bytes(sys.stdin.buffer.read(LARGEST + 1), "-", what=what)
