"""Heads of lines that are laid out alike: what one of them is no name of, the others are no names of either."""

from __future__ import annotations

from notesparse.observing.naming.names import Name
from notesparse.observing.naming.surroundings import Surroundings, noun_in

_HEAD = 3  # words of the head of a line
_FIELD = frozenset({"field", "fld", "farm"})


def but_heads(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names without the heads of a form (`Field: Grange corner`, and under it `Crop stage: V8`, `Weeds: ...`), and
    without parts of a field that are told in the same way as others (`North end: ...`, and under it `Middle: ...`)."""
    labelled = [name for name in chosen if _labelled(s, name)]
    kept: list[Name] = []
    for name in chosen:
        colon = _colon(s, name)
        if colon is not None and name.cue in {"line", "sentence", "note"} and (kept or labelled):
            of_a_form = bool(labelled) and not noun_in(s, name.start, name.end)
            if of_a_form or (kept and colon == name.end and _a_part(s, name) and _parts_beside(s, name)):
                continue
        kept.append(name)
    return kept


def _labelled(s: Surroundings, name: Name) -> bool:
    """`Field: Grange corner`: behind a head that says so."""
    head = {s.text(x) for x in range(name.cue_start, name.start)}
    return ":" in head and bool(head & _FIELD)


def _colon(s: Surroundings, name: Name) -> int | None:
    """Where the head of the line ends that the name begins; None where it begins none."""
    if name.start and s.pieces[name.start - 1].form != "nl":
        return None
    return next(
        (x for x in range(name.end, min(name.end + _HEAD, s.n)) if s.text(x) == ":" and _all_words(s, name.start, x)),
        None,
    )


def _all_words(s: Surroundings, start: int, end: int) -> bool:
    return all(s.pieces[x].form == "word" for x in range(start, end))


def _a_part(s: Surroundings, name: Name) -> bool:
    """`Middle`, `the draw`: where in a field things are."""
    return name.end - name.start <= 2 and s.text(name.end - 1) in s.words.terrain


def _parts_beside(s: Surroundings, name: Name) -> bool:
    """The line above or below begins with a part of a field and a colon."""
    lines: dict[int, int] = {}
    for x in range(s.n):
        if s.pieces[x].form != "nl":
            lines.setdefault(s.lines[x], x)
    here = s.lines[name.start]
    for line in (here - 1, here + 1):
        at = lines.get(line)
        if at is None:
            continue
        ends = [e.end for e in s.lattice.edges[at] if e.kind == "WHEREWORD" and e.how == "exact"]
        if any(s.text(end) == ":" for end in ends):
            return True
    return False
