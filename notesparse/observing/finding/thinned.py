"""What has become of a stand: `stand's down to 92,000`, `stand went from 140,000 to 110,000`, `stand was 140,000, now 95,000`,
`was 8 to the foot and is now 6`."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.finding.units import number, plants_in, text_at
from notesparse.text.lattice import Lattice

_LISTED = cue_page("finding/thinned")

_OPENS = _LISTED.words("opens")
_BETWEEN = _LISTED.words("between") | _OPENS
_LEAST = 1000  # plants an acre


def thinned(lattice: Lattice, j: int) -> int | None:
    """Where the number begins that the stand has now, behind such words from piece j on."""
    k = j
    if text_at(lattice, k) == "and":  # and is now 6
        k += 1
        k += text_at(lattice, k) in {"is", "are"}
    if text_at(lattice, k) not in _OPENS:
        return None
    plainly = k > j and text_at(lattice, k) == "now"
    while text_at(lattice, k) in _BETWEEN:
        k += 1
    if text_at(lattice, k) == "from":
        was = number(lattice, k + 1)
        if was is None:
            return None
        k = was.end
        while text_at(lattice, k) in {"down", "up"}:
            k += 1
    k += text_at(lattice, k) == "to"
    now = number(lattice, k)
    told = now is not None and isinstance(now.value, int) and now.value >= _LEAST
    if now is not None and not told:
        told = text_at(lattice, now.end) in {"thousand", "k", "per"} or plants_in(lattice, now.end) is not None
        told = told or (plainly and (now.end >= len(lattice.pieces) or text_at(lattice, now.end) in {".", ",", ";"}))
    return k if told else None
