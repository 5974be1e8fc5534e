"""Whether a stretch of words is a name, and how surely: what the words are, and what follows them."""

from __future__ import annotations

from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.observing.naming.candidate import Candidate
from notesparse.observing.naming.following import follow
from notesparse.observing.naming.refusing import FOUND, refused
from notesparse.observing.naming.surroundings import (
    Surroundings,
    acres_in_words,
    capital,
    kinds,
    pass_fillers,
    strength,
    title,
)
from notesparse.observing.naming.worth import ACRES
from notesparse.reading.unfit.stages import PRINTED

_THEM = cue_page("shared").words("them")
_SEEN_THERE = frozenset({"trif", "nodes", "stage"})
_OF_THE_CROP = frozenset({"TOP", "LOW", "POD", "SEED", "NODE", "NODES", "PLANT", "FLOWER", "INT", "ORD", "LAST"})


def judge(s: Surroundings, c: Candidate) -> float | None:
    """How surely the words are a name; None where they are none."""
    if refused(s, c):
        return None
    if not c.lone:
        c = replace(c, title=title(s, c.i, c.j))
    elif _ordinary(s, c):
        return None
    if _cuts_a_lot(s, c):
        return None
    if _a_number(s, c) or _owned(s, c) or _cuts_a_day(s, c) or _cuts_its_acres(s, c) or _cuts_a_stage(s, c):
        return None
    if _the_whole_line(s, c) or _a_side_of_acres(s, c):
        return _SURE
    acres = _the_acres(s, c)
    if acres:
        c = replace(c, worth=c.worth + 1.0, nouns=1)
    cut = [e for e in s.lattice.edges[c.j - 1] if e.end > c.j and e.kind in {"ORD", "INT", "DEC", "FRAC"}]
    if cut and not acres and s.text(c.j) != "first":  # kettle forty first ok
        c = replace(c, worth=c.worth - 1.5)  # the name would cut a number in two
    if s.pieces[c.i].text == "the" and any(e.kind == "INT" and e.end == c.j for e in s.lattice.edges[c.i + 1]):
        c = replace(c, worth=c.worth + 1.0, nouns=1)  # the 40, the forty seven
    follows = follow(s, c)
    if follows is None:
        return None
    written = 0.8 if c.title else 0.4 if capital(s, c.i) else 0.0
    return c.worth + c.bonus + written - 0.25 * max(0, c.words - 3) + follows


_SURE = 9.0


def _the_whole_line(s: Surroundings, c: Candidate) -> bool:
    """`Field: Whistle Stop 20` on a line of its own: all that stands there is the name, if it is written as one."""
    over = c.j >= s.n or s.pieces[c.j].form == "nl"
    words = [x for x in range(c.i, c.j) if s.pieces[x].form == "word"]
    told = s.text(c.i - 1) in {":", "="} and over and len(words) > 1
    return c.site == "field" and told and s.cased and all(capital(s, x) for x in words)


def _cuts_its_acres(s: Surroundings, c: Candidate) -> bool:
    """`Elm | forty, % brown`, `Bell tower | 40, hail`: the acres before a mark belong to the name."""
    acres = acres_in_words(s, c.j) or s.text(c.j) in ACRES
    near = c.j < s.n and s.pieces[c.j].gap <= 1 and s.pieces[c.j].form in {"word", "int"}
    return near and acres and s.text(c.j + 1) in {",", ":"} and capital(s, c.i) and s.cased and bool(c.nouns)


def _cuts_a_stage(s: Surroundings, c: Candidate) -> bool:
    """`Ned's R | 3 booklet`, `Ned's R3 | booklet`: the name would take in a stage, or a part of one."""
    if s.text(c.j - 1) in {"r", "v"}:
        return c.j < s.n and s.pieces[c.j].glued and s.pieces[c.j].form == "int"
    return s.text(c.j) in PRINTED and s.text(c.j - 2) in {"r", "v"} and s.pieces[c.j - 1].form == "int"


def _cuts_a_lot(s: Surroundings, c: Candidate) -> bool:
    """`flint hill | whole lot of em bloomin`: so many of the plants, and no lot."""
    if s.text(c.j) != "of" or s.text(c.j + 1) not in _THEM:
        return False
    return any(e.kind == "LOTS" and e.end > c.j for x in range(c.i + 1, c.j) for e in s.lattice.edges[x])


def _cuts_a_day(s: Surroundings, c: Candidate) -> bool:
    """`airstrip forty twenty | first of august`: the name would cut a day with its month in two."""
    return any(
        p.rule == "date" and c.i < p.start < c.j < p.end and "MONTH" in {e.kind for _, e in p.path}
        for x in range(c.i + 1, c.j)
        for p in s.phrases[x]
    )


def _the_acres(s: Surroundings, c: Candidate) -> bool:
    """`the heron forty`, `the north hundred`: led by the, and a word between."""
    led = "the" in {s.text(c.i), s.text(c.i - 1)}
    first = c.i + (s.text(c.i) == "the")
    where = s.cased and capital(s, c.i) and bool(kinds(s, c.i) & {"LOW", "TOP", "UPTOP"})
    if where and c.j == c.i + 2 and s.text(c.j - 1) in ACRES:
        return True  # Low 40
    return led and acres_in_words(s, c.j - 1) and c.j - 1 > first and not _OF_THE_CROP & kinds(s, c.j - 2)


def _a_side_of_acres(s: Surroundings, c: Candidate) -> bool:
    """`Looked at west 40 this am. R2`: where somebody went, and nothing behind the acres that they could count."""
    if c.site != "go" or c.j != c.i + 2 or s.text(c.j - 1) not in ACRES or s.text(c.i) not in s.words.compass:
        return False
    day = [p.end for p in s.phrases[c.j] if p.rule in {"date", "filler"}] if c.j < s.n else []
    behind = max(day, default=c.j)
    return any(
        x >= s.n or s.pieces[x].form == "nl" or s.text(x) in {".", ",", ";", ":"}
        for x in (behind, pass_fillers(s, behind))
    )


def _ordinary(s: Surroundings, c: Candidate) -> bool:
    """A lone word at a sentence's beginning that is no name: in small letters, or a word that means something."""
    if s.cased and not capital(s, c.i):
        return True
    told = s.cased and capital(s, c.i) and strength(s, c.j)[1] in _SEEN_THERE  # Hale 12 nodes
    return s.lattice.filler[c.i] or any(
        (e.how == "exact" and e.kind not in {"LETTER", "FIELDNOUN"})
        or (e.how == "sound" and e.kind in FOUND and not told)
        for e in s.lattice.edges[c.i]
    )


def _a_number(s: Surroundings, c: Candidate) -> bool:
    """Nothing but a number, an ordinal (the 13th), or a number with what it counts behind it."""
    i, j = c.i, c.j
    if s.cased and s.text(i - 1) == "the" and j - i > 1 and title(s, i, j):
        return False  # doing the Thirty Seven first
    only = all(s.pieces[x].form == "int" or "INT" in kinds(s, x) for x in range(i, j) if s.text(x) not in {"the", "'s"})
    if only and s.pieces[i].text != "the":
        return True
    if s.text(j - 1) == "thousand" and any(e.kind == "INT" and e.end == j for e in s.lattice.edges[i]):
        return True  # stand's down to ninety two thousand
    glued = s.pieces[j - 1].glued
    if (
        any(e.kind == "ORD" and e.end == j for e in s.lattice.edges[j - 2 if glued else j - 1])
        and j - i <= 2 + glued
        and not c.nouns
        and c.site != "field"
    ):
        return True  # the 13th
    return (
        bool(kinds(s, j - 1) & {"INT", "ORD"})
        and j < s.n
        and (
            bool(kinds(s, j) & {"TRIF", "TRIPS", "NODES", "PCT", "SAMPLED", "OF", "OUTOF"})
            or s.pieces[j].text in {"plants", "plts"}
            or any(e.kind == "OUTOF" for e in s.lattice.edges[j])  # Cold Spring | 5 out of 10 plts
        )
    )


def _owned(s: Surroundings, c: Candidate) -> bool:
    """Somebody's, and not surely a name."""
    return s.text(c.j) == "'s" and not (c.nouns or (c.title and c.words >= 2))
