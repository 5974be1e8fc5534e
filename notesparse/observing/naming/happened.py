"""Words that tell what happened to something, and name no field: `gravel's washed out at the culvert`, `Pump started back
up 7-30`, `the growing point is good`.

Without this such a saying would begin a visit of its own, and take the plants behind it from their field.
"""

from __future__ import annotations

from notesparse.observing.naming.surroundings import Surroundings, noun_at, title, upper

_CAME_OVER = frozenset({"DAMAGE", "WEATHER"})
_RAN = frozenset(
    "started stopped quit ran broke died came went got blew fell shut kicked failed plugged leaked tore took wore".split()
)
_MET = _RAN | frozenset("nicked clipped hit pounded hammered beat caught grazed shredded stung missed".split())
_ON_A_PLANT = frozenset(
    {("growing", "point"), ("growing", "tip"), ("main", "stem"), ("lowest", "pods"), ("top", "leaf")}
)


def happened(s: Surroundings, i: int, j: int) -> bool:
    """Pieces [i, j) are what something happened to, or a part of a plant."""
    if j - i == 2 and (s.text(i), s.text(i + 1)) in _ON_A_PLANT and not title(s, i, j):
        return True
    behind = j + (s.text(j) == "'s")
    came = behind < s.n and any(e.kind in _CAME_OVER and e.how == "exact" for e in s.lattice.edges[behind])
    if s.text(behind - 1) == "'s" and came and not noun_at(s, behind):
        return True
    met = any(e.kind in _CAME_OVER and e.how == "exact" for e in s.lattice.edges[i]) and s.text(j - 1) in _MET
    if j - i > 1 and met and not upper(s, j - 1) and s.text(j) in {"it", "them", "us", "the", "some", "everything"}:
        return True  # Hail nicked it
    one = j == i + 1 and j < s.n and s.pieces[j].form == "word" and s.text(j) in _RAN
    return one and not (s.cased and upper(s, j))
