"""Heads of a numbered list of fields, whatever their words mean: `1. Lark: V8`, and under it `2. Last Stand: V9`; and the
whole of a line behind `field:` (guide 4.7, 4.19)."""

from __future__ import annotations

from dataclasses import replace

from notesparse.observing.naming.names import Name
from notesparse.observing.naming.surroundings import Surroundings, behind_its_number, title, upper

_MARKS = frozenset({":", "-", "–"})
_LONGEST = 4


def numbered_heads(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names, and the heads of the other lines of their list."""
    marks = {s.text(name.end) for name in chosen if name.seen and behind_its_number(s, name.start)} & _MARKS
    if not marks:
        return chosen
    out = list(chosen)
    for i in range(2, s.n):
        end = _head(s, i, marks) if behind_its_number(s, i) else None
        if end is None or any(x.start < end and i < x.end for x in out):
            continue
        out.append(Name(i, end, s.lattice.written(i, end), "head", True, i))
    return sorted(out, key=lambda name: name.start)


def _head(s: Surroundings, i: int, marks: set[str]) -> int | None:
    end = i
    while end < s.n and end - i < _LONGEST and s.pieces[end].form in {"word", "int"}:
        end += 1
    plain = end > i and s.pieces[i].form == "word" and upper(s, i) and title(s, i, end)
    return end if plain and s.text(end) in marks and s.text(i) not in {"plant", "plants", "stop"} else None


def whole_lines(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`Field: Milo Tank`: all words with capitals up to the end of the line are the name."""
    out: list[Name] = []
    for name in chosen:
        end = name.end
        while end < s.n and end - name.start < _LONGEST and s.pieces[end].form == "word" and upper(s, end):
            end += 1
        labelled = name.cue == "field" and ":" in {s.text(x) for x in range(name.cue_start, name.start)}
        ends = end >= s.n or s.pieces[end].form == "nl"
        if labelled and ends and end > name.end and not s.shouted and upper(s, name.start):
            name = replace(name, end=end, text=s.lattice.written(name.start, end))
        out.append(name)
    return out
