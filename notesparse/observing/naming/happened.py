"""Words that tell what happened to something, and name no field: `gravel's washed out at the culvert`, `Pump started back
up 7-30`, `the growing point is good`, `Hail 6-12.`

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
    if j == i + 1 and i and _came_on_a_day(s, i):
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


def _came_on_a_day(s: Surroundings, i: int) -> bool:
    """`Hail 6-12.`, `Frost 5-28, stand thinned`: below the head of the note, a day and no year behind what came over the field."""
    figures = s.text(i + 2) in {"-", "/"} and s.pieces[i + 1].form == "int"
    if not figures and not any(
        e.kind == "MONTH" and e.how == "exact" for e in (s.lattice.edges[i + 1] if i + 1 < s.n else ())
    ):
        return False
    return any(e.kind in _CAME_OVER and e.how == "exact" and e.end == i + 1 for e in s.lattice.edges[i])
