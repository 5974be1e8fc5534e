"""Struck-out words and figures of old paper as they are typed: `xx13xx 12`, `~~13~~ 12`, `[struck: 12] 11` (guide 4.21)."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.text.scan import Piece

_COMMON = cue_page("shared")

_LONGEST = 10  # pieces of one strike
_STRUCK = _COMMON.words("struck")


def struck_out(pieces: Sequence[Piece]) -> dict[int, int]:
    """Where each struck stretch begins -> where it ends (pieces, half open)."""
    out: dict[int, int] = {}
    i = 0
    while i < len(pieces):
        end = _strike(pieces, i)
        if end is None:
            i += 1
        else:
            out[i] = end
            i = end
    return out


def _strike(pieces: Sequence[Piece], i: int) -> int | None:
    p = pieces[i]
    if p.text == "~" and i + 2 < len(pieces) and pieces[i + 1].text == "~" and pieces[i + 1].glued:
        for k in range(i + 3, min(i + _LONGEST, len(pieces))):
            if pieces[k].form == "nl":
                return None
            if pieces[k].text == "~" and pieces[k - 1].text == "~" and pieces[k].glued:
                return k + 1
        return None
    if p.text in "[(" and i + 1 < len(pieces) and pieces[i + 1].text in _STRUCK:
        return _bracketed(pieces, i)
    if p.form != "word" or not p.text.startswith("xx"):
        return None
    if len(p.text) > 4 and p.text.endswith("xx"):
        return i + 1
    if len(p.text) == 2 and not (i + 1 < len(pieces) and pieces[i + 1].glued):
        return None
    for k in range(i + 1, min(i + _LONGEST, len(pieces))):
        q = pieces[k]
        if q.form == "nl":
            return None
        if q.form == "word" and q.text.endswith("xx") and (len(q.text) > 2 or q.glued):
            return k + 1
    return None


def _bracketed(pieces: Sequence[Piece], i: int) -> int | None:
    """`[struck: 12]`, `[crossed out 12]` in front of what was written instead."""
    for k in range(i + 2, min(i + _LONGEST, len(pieces))):
        if pieces[k].form == "nl":
            return None
        if pieces[k].text in "])":
            return k + 1 if any(q.form != "mark" and q.text != "out" for q in pieces[i + 2 : k]) else None
    return None
