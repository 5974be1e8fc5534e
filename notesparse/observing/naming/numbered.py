"""Fields that go by a number: `field 6`, `field no. 12B`, `field twenty two`."""

from __future__ import annotations

from datetime import date

from notesparse.language.cues import cue_page
from notesparse.observing.dates import century
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.surroundings import NAMEY, Surroundings, strength
from notesparse.reading.phrase import Phrase
from notesparse.text.lattice import Lattice

_LISTED = cue_page("naming/numbered")


def number_end(s: Surroundings, i: int) -> int | None:
    """Where the number of a field at piece i ends: figures, or words (field twenty two)."""
    if i >= s.n:
        return None
    p = s.pieces[i]
    if p.form == "int" or _a_letter(s, i):
        return i + 1
    ends = [e.end for e in s.lattice.edges[i] if e.kind == "INT" and e.how == "number" and p.form == "word"]
    if not ends:
        return None
    end = max(ends)
    if p.text in {"one", "a", "couple"} and not (end >= s.n or s.pieces[end].form in {"nl", "mark"}):
        return None
    return end


_BEFORE_A_LETTER = _LISTED.words("before_a_letter")
_NO_LETTERS = _LISTED.words("no_letters")
_TOLD = frozenset({"label", "stage", "ratio", "percent", "date", "planted"})


def _a_letter(s: Surroundings, i: int) -> bool:
    """`Field A` at the head of a line or a clause, with what is told behind it or on the next line: fields by letters."""
    p, word = s.pieces[i], i - 1
    if p.form != "word" or len(p.text) > 1 or p.text in _NO_LETTERS or s.text(word) not in {"field", "fld"}:
        return False
    before = s.pieces[word - 1] if word > 0 else None
    opens = before is None or before.form in {"nl", "mark"} or before.text in _BEFORE_A_LETTER
    behind = i + 1 >= s.n or s.pieces[i + 1].form == "nl" or s.text(i + 1) in {":", ".", "-", ",", "is", "'s"}
    return opens and (behind or strength(s, i + 1)[1] in _TOLD)


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


_NEXT_CELL = 3  # blanks before the next cell of a page


def no_years(lattice: Lattice, phrases: list[list[Phrase]], day: str | None) -> list[list[Phrase]]:
    """The phrases without the dates whose day is the number of a field: of `Canal 3 July 14`, written in 2026, the day is
    the 14th of July; in 2014 it is the third. With no date of the note (`day`, ISO), the number is taken for the field's.
    """
    written = date.fromisoformat(day) if day is not None else None
    return [[p for p in here if not _of_a_name(lattice, phrases, p, written)] for here in phrases]


def _of_a_name(lattice: Lattice, phrases: list[list[Phrase]], p: Phrase, written: date | None) -> bool:
    if p.form not in {"day_month_year", "day_month"} or not p.start or len(p.path) < 2:
        return False
    (at, number), before = p.path[0], lattice.pieces[p.start - 1]
    of_a_name = before.form == "word" and (not lattice.known[p.start - 1] or _a_noun(lattice, p.start - 1))
    of_a_name = of_a_name or (p.start == 1 and any(e.kind == "WHEREWORD" for e in lattice.edges[0]))  # terrace 7
    if (
        not of_a_name
        or number.kind != "INT"
        or lattice.pieces[at].form != "int"
        or lattice.pieces[at].gap >= _NEXT_CELL
    ):
        return False
    month = p.path[1][0]
    whole = max((x.end for x in phrases[month] if x.form == "month_day"), default=0)
    if month + 1 >= len(lattice.pieces) or not whole:
        return False
    behind = lattice.pieces[month + 1]
    digits = behind.text
    if behind.form == "word":
        return any(e.kind == "ORD" and e.end == whole for e in lattice.edges[month + 1]) and not _of_a_plant(
            lattice, whole
        )
    year = next((century(int(e.means), written) for e in lattice.edges[month + 1] if e.kind == "YEAR"), None)
    if len(digits) > 2 or digits.startswith("0"):
        return False
    return year is None or written is None or year != written.year


def _of_a_plant(lattice: Lattice, i: int) -> bool:
    """`Dunkirk 9 July | first plant 8 trifs`: the ordinal before piece i is a plant's; `okafor 9 july twentieth | plant one 12
    trifs` is a day."""
    edges = [*lattice.edges, []]
    plants = [e.end for e in edges[min(i, len(edges) - 1)] if e.kind == "PLANT" and e.end < len(lattice.pieces)]
    labels = [e.end for end in plants for e in edges[end] if e.kind == "INT" and e.end < len(lattice.pieces)]
    counted = any(e.kind in {"TRIF", "NODES"} for end in labels for e in edges[end])
    return bool(plants) and (not labels or counted)


def _a_noun(lattice: Lattice, i: int) -> bool:
    return any(e.kind in NAMEY for e in lattice.edges[i])
