"""`p.1`, `P.12`: a plant's letter, a stop and its number in one run, as `p1` is."""

from __future__ import annotations

from dataclasses import replace

from notesparse.span import Span
from notesparse.text.scan import Piece

_BEHIND = frozenset("/-\"'°%")  # p.5/16/74 is a day, p.5" a length
_MOST = 99  # plants


def dotted(pieces: list[Piece]) -> list[Piece]:
    """The pieces, with the stop a part of the letter; the same list where no plant is written so."""
    stops = {i + 1 for i, p in enumerate(pieces) if p.text == "p" and _numbered(pieces, i)}
    if not stops:
        return pieces
    out = [
        replace(p, span=Span(p.span.start, pieces[i + 1].span.end)) if i + 1 in stops else p
        for i, p in enumerate(pieces)
    ]
    return [p for i, p in enumerate(out) if i not in stops]


def _numbered(pieces: list[Piece], i: int) -> bool:
    if i + 2 >= len(pieces) or (i and pieces[i].glued and pieces[i - 1].form in {"word", "int"}):
        return False
    stop, number = pieces[i + 1], pieces[i + 2]
    if stop.text != "." or number.form != "int" or not (stop.glued and number.glued):
        return False
    behind = pieces[i + 3] if i + 3 < len(pieces) else None
    goes_on = behind is not None and behind.glued and (behind.text in _BEHIND or behind.form in {"word", "int"})
    return 1 <= int(number.text) <= _MOST and not goes_on
