"""Fields that go by a code: `T-14`, `12-3W`, `22-B`, `J7`, `14B`."""

from __future__ import annotations

from collections.abc import Iterator

from notesparse.lazy import pattern
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.placing import Scored, not_visited
from notesparse.observing.naming.surroundings import Surroundings, pass_fillers, strength

_SCORE = 6.0
_CODE = pattern(
    r"(?=.*[a-z])(?=.*\d)([a-z]{1,3}-?\d{1,3}[a-z]?(-\d{1,3}[a-z]{0,2})?|\d{1,3}[a-z]{0,2}-\d{1,3}[a-z]{1,2}|\d{2,3}-[a-z])"
)
_NEVER = pattern(r"(r|v|vr|mg|rm|p|pl|plt)-?\d.*|\d+-\d+(in|mm|cm|th|st|nd|rd|tf|ft|x)")
"""Stages, groups, plants, lengths."""
_COUNTS = pattern(r"(t|tf|tr|n|nd)-?\d+")
"""What may be a count of leaves or nodes: a field's code only behind words that lead to a field, and alone there."""
_CUE_REACH = 6  # pieces that a cue is long at most
_HEAD = frozenset({"date", "planted", "emerged", "rows", "maturity", "variety"})
_TOLD = frozenset({"label", "ratio", "percent", "sampled", "group", "stage", "trif"})


def coded(s: Surroundings) -> Iterator[Scored]:
    """Codes at the head of the note or of a line before the rest of a head, and behind words that lead to a field."""
    for i in range(s.n):
        end = _end(s, i)
        if end is None or (s.pieces[i].glued and s.pieces[i - 1].form != "nl"):
            continue
        text = s.lattice.original(i, end)
        behind = pass_fillers(s, end)
        begun, rule = strength(s, behind)
        over = end >= s.n or s.pieces[end].form in {"mark", "nl"} or rule in _HEAD
        plain = not _COUNTS.fullmatch(text.casefold())
        cue = next((x for x in range(max(0, i - _CUE_REACH), i) if _leads(s, x, i)), None)
        opens = i == 0 or s.pieces[i - 1].form == "nl"
        if cue is not None and (over or (plain and begun >= 1.0)):
            yield _SCORE, Name(i, end, text, "go", not not_visited(s, behind), cue)
        elif opens and plain and rule in _HEAD:
            yield _SCORE, Name(i, end, text, "note", True, i)
        elif opens and plain and "-" in text and rule in _TOLD:
            yield _SCORE, Name(i, end, text, "line", not not_visited(s, behind), i)


def _end(s: Surroundings, i: int) -> int | None:
    """Where the code that begins at piece i ends."""
    end = s.lattice.run_end(i, marks="-")
    text = s.lattice.original(i, end).casefold()
    return end if end > i + 1 and _CODE.fullmatch(text) and not _NEVER.fullmatch(text) else None


def _leads(s: Surroundings, x: int, i: int) -> bool:
    """The words at piece x lead to a field that is named at piece i."""
    return any(e.kind in {"GOCUE", "FIELDCUE"} and e.end == i and e.end - x > 1 for e in s.lattice.edges[x])
