"""Heads of a numbered list of fields, whatever their words mean: `1. Lark: V8`, and under it `2. Last Stand: V9`; and the
whole of a line behind `field:` (guide 4.7, 4.19)."""

from __future__ import annotations

from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.surroundings import Surroundings, behind_its_number, title, upper

_LISTED = cue_page("naming/numbered_heads")

_MARKS = frozenset({":", "-", "–"})
_LONGEST = 4
_ASKS = frozenset({":", "?"})
_PARTS = _LISTED.words("parts")
_NO_NAMES = _LISTED.words("no_names")


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
    """`Field: Milo Tank`, `field? Stadium side`: all words with capitals up to the end of the line are the name."""
    out = _row_over_all(s, chosen)
    for name in chosen:
        end = name.end
        while end < s.n and end - name.start < _LONGEST and s.pieces[end].form == "word" and upper(s, end):
            end += 1
        labelled = name.cue == "field" and bool(_ASKS & {s.text(x) for x in range(name.cue_start, name.start)})
        end = _with_its_part(s, name, labelled, end, chosen)
        ends = end >= s.n or s.pieces[end].form == "nl"
        if (
            (labelled or s.text(end - 1) in _PARTS)
            and ends
            and end > name.end
            and not s.shouted
            and upper(s, name.start)
        ):
            name = replace(name, end=end, text=s.lattice.written(name.start, end))
        out.append(name)
    return out


def _with_its_part(s: Surroundings, name: Name, labelled: bool, end: int, chosen: list[Name]) -> int:
    """`Orchard row` on a line of its own: one word, and what it is, where no field goes by that word alone."""
    if s.text(end) not in _PARTS or end != name.start + 1 or (end + 1 < s.n and s.pieces[end + 1].form != "nl"):
        return end
    alone = labelled or name.start == 0 or s.pieces[name.start - 1].form == "nl"
    again = any(x.start != name.start and s.text(x.start) == s.text(name.start) for x in chosen)
    return end + 1 if alone and not again else end


def _row_over_all(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """`lilac row`, the first line of a note: a word of no trade, and no row of a planter."""
    if s.n < 3 or s.text(1) != "row" or s.pieces[2].form != "nl" or any(x.start < 2 for x in chosen):
        return []
    if s.text(0) in _NO_NAMES or not odd(s.lattice, 0):
        return []
    return [Name(0, 2, s.lattice.written(0, 2), "line", True, 0)]
