"""Fields that go by a number: `field 6`, `field no. 12B`, `field twenty two`."""

from __future__ import annotations

from notesparse.observing.naming.names import Name
from notesparse.observing.naming.surroundings import Surroundings


def number_end(s: Surroundings, i: int) -> int | None:
    """Where the number of a field at piece i ends: figures, or words (field twenty two)."""
    if i >= s.n:
        return None
    p = s.pieces[i]
    if p.form == "int":
        return i + 1
    ends = [e.end for e in s.lattice.edges[i] if e.kind == "INT" and e.how == "number" and p.form == "word"]
    if not ends:
        return None
    end = max(ends)
    if p.text in {"one", "a", "couple"} and not (end >= s.n or s.pieces[end].form in {"nl", "mark"}):
        return None
    return end


def numbered(s: Surroundings, at: int, cue_start: int) -> Name:
    """The name of a field whose word for a field is at piece `at`, with a number behind it."""
    pieces, own = s.pieces, s.lattice.original
    first_int = at + 1
    end = number_end(s, first_int)
    while end is None:
        first_int += 1
        end = number_end(s, first_int)
    if end < s.n and pieces[end].glued and pieces[end].form == "word" and len(pieces[end].text) == 1:
        end += 1  # field 12B
    first = at if pieces[at + 1].text != ":" else at + 2
    text = own(first, end)
    if pieces[at + 1].text in s.words.number_signs:
        text = own(first_int, end)
    return Name(first, end, text, "fieldno", True, cue_start)
