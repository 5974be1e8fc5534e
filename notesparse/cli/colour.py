"""Whether there is to be colour, and which. The views read as well without it."""

from __future__ import annotations

import os
from typing import TextIO

from notesparse.views.paint import Paint, plain

_CODES = {
    "title": "1",
    "stage": "1",
    "read": "36",
    "asked": "1;33",
    "unread": "35",
    "taken-back": "2;9",
    "quiet": "2",
}


def paint_for(wanted: bool | None, stream: TextIO) -> Paint:
    """Colours if asked for; unasked only on a terminal, and not with NO_COLOR or a terminal that says it is dumb."""
    if wanted is None:
        wanted = not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb" and stream.isatty()
    return coloured if wanted else plain


def coloured(part: str, text: str) -> str:
    """The text in the colour of its part."""
    code = _CODES.get(part)
    return f"\x1b[{code}m{text}\x1b[0m" if code and text else text
