"""Sentences that say at their end that they are not of this field: `Greenhouse soybeans are R2, not this field.`; and clauses
of what is printed on seed: `seed lots R12 & V3-A are in the shed` (guide 4.23)."""

from __future__ import annotations

import re

from notesparse.language.cues import cue_page
from notesparse.lazy import pattern
from notesparse.text.lattice import Lattice

_LISTED = cue_page("walking/elsewhere")
_COMMON = cue_page("shared")

_OURS = _COMMON.words("mine")
_THIS = _LISTED.words("this")
_FIELD = _LISTED.words("field")
_PARTS = _LISTED.words("parts")
_OF = _LISTED.words("of")


def elsewhere(lattice: Lattice) -> dict[int, int]:
    """Such sentences, without the mark that ends them: first piece -> end."""
    if "not" not in lattice.said or not lattice.said & (_OURS | _FIELD):
        return {}
    at, n = lattice.at, len(lattice.pieces)
    out: dict[int, int] = {}
    for i in range(2, n - 1):
        end = _end(lattice, i) if at(i) == "not" and at(i - 1) in _PARTS else 0
        if end and (end == n or lattice.opens(end + 1)):
            first = next(k for k in range(i - 1, -1, -1) if lattice.opens(k))
            if first < i - 1:
                out[first] = end
    return out


def printed(lattice: Lattice) -> dict[int, int]:
    """Such clauses, without the mark that ends them: first piece -> end."""
    if not lattice.said & (_BATCHES | _LOTS):
        return {}
    at, n = lattice.at, len(lattice.pieces)
    out: dict[int, int] = {}
    for i in range(n - 1):
        lot = at(i) in _LOTS and at(i - 1) in _OF_SEED
        if not (lot or at(i) in _BATCHES) or not _CODE.match(lattice.text[lattice.pieces[i + 1].span.start :]):
            continue
        first = i - lot
        first -= at(first - 1) == "the"
        if lattice.opens(first) or at(first - 1) in {",", "-"}:
            ends = (k for k in range(i + 2, n) if at(k) in {",", ";"} or lattice.opens(k + 1))
            out[first] = next(ends, n)
    return out


_CODE = pattern(r"[rv]-?\d", re.IGNORECASE)
_BATCHES = _LISTED.words("batches")
_LOTS = _LISTED.words("lots")
_OF_SEED = _LISTED.words("of_seed")


def _end(lattice: Lattice, no: int) -> int:
    """Where `not ours`, `not this field`, `not of our ground` ends that begins at piece `no`; 0 where none does."""
    i = no + 1 + (lattice.at(no + 1) in _OF)
    if lattice.at(i) in _OURS:
        end = i + 1
    elif lattice.at(i) in _THIS and lattice.at(i + 1) in _FIELD:
        end = i + 2
    else:
        return 0
    return end + (lattice.at(end) == ")")
