"""Fields that go by their well: `Well 12 6/5 V9/R2. Well 14 6/5 V8`, where the word is talk as well: `Well, 12 of them`."""

from __future__ import annotations

from notesparse.observing.naming.names import Name
from notesparse.observing.naming.placing import left_out_behind, not_visited
from notesparse.observing.naming.surroundings import Surroundings, strength

_WELL = "well"
_LEAST = 2  # wells of a list


def by_wells(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names, and fields that go by their well: `Well 12: V9`, `Well 12 6/5 V9/R2. Well 14 6/5 V8`."""
    sites = [i for i in range(s.n - 1) if s.text(i) == _WELL and _heads_a_well(s, i)]
    numbers = {s.text(i + 1) for i in sites}
    out = list(chosen)
    for i in sites:
        over = [x for x in out if x.start < i + 2 and i < x.end]
        surely = s.text(i + 2) == ":" or strength(s, i + 2)[1] == "date"
        if not (surely or len(numbers) >= _LEAST) or any(x.end > i + 2 or x.start < i for x in over):
            continue
        seen = not not_visited(s, i + 2) and left_out_behind(s, i + 2) is None
        out = [x for x in out if x not in over]
        out.append(Name(i, i + 2, s.lattice.written(i, i + 2), "head", seen, i))
    return sorted(out, key=lambda name: name.start)


def _heads_a_well(s: Surroundings, i: int) -> bool:
    """A number in figures behind the word at the head of a line, a sentence or an item, and no count of leaves."""
    opens = i == 0 or s.pieces[i - 1].form == "nl" or s.text(i - 1) in {".", ";", ","}
    if not opens or s.pieces[i + 1].form != "int" or s.pieces[i + 1].glued:
        return False
    behind = i + 2
    told = s.text(behind) == ":" or strength(s, behind)[1] in {"date", "stage", "planted"}
    return told or not_visited(s, behind) or left_out_behind(s, behind) is not None
