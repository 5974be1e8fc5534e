"""A part of a field that was named before, told by its name: `Sawmill lane end rows have velvetleaf` behind `Sawmill lane R3`."""

from __future__ import annotations

from dataclasses import replace

from notesparse.observing.naming.names import Name
from notesparse.observing.naming.surroundings import Surroundings

_FOUND = frozenset({"INSECT", "DISEASE", "WEED", "DAMAGE", "DEFOL", "LEAFTURN", "LEAFDROP"})
_TOLD = frozenset({"stage", "label", "ratio", "percent", "trif", "nodes", "flowers", "pods", "seeds", "sampled"})
_REACH = 5  # pieces up to what was found


def parts_again(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names without the part of the field behind them, where it is only told what was found there."""
    out: list[Name] = []
    for name in chosen:
        whole = next((x for x in out if _a_part_of(s, name, x)), None)
        if whole is not None:
            name = replace(name, end=name.start + whole.end - whole.start, text=whole.text, cue="again")
        out.append(name)
    return out


def _a_part_of(s: Surroundings, name: Name, whole: Name) -> bool:
    end = name.start + whole.end - whole.start
    if end >= name.end or name.start < whole.end:
        return False
    if [s.text(x) for x in range(name.start, end)] != [s.text(x) for x in range(whole.start, whole.end)]:
        return False
    part = any(e.kind == "WHEREWORD" and e.end == name.end for e in s.lattice.edges[end])
    return part and _only_found_there(s, name.end)


def _only_found_there(s: Surroundings, at: int) -> bool:
    """A bug, a weed or a disease stands close behind piece `at`, and nothing is told of plants before it."""
    for x in range(at, min(at + _REACH, s.n)):
        if s.pieces[x].form == "nl" or any(p.rule in _TOLD for p in s.phrases[x]):
            return False
        if any(e.kind in _FOUND and e.how == "exact" for e in s.lattice.edges[x]):
            return True
    return False
