"""What stands behind a name: a name is something that an observation, a date or a line's end follows."""

from __future__ import annotations

from notesparse.observing.naming.candidate import Candidate
from notesparse.observing.naming.oddnames import ends_as_talk, odd
from notesparse.observing.naming.surroundings import (
    Surroundings,
    capital,
    kinds,
    noun_at,
    pass_fillers,
    said_before,
    starts,
    strength,
)

_SURE = frozenset({"date", "label", "stage", "stop", "sampled"})  # rules that begin what is said of a field
_TOLD_OF_A_FIELD = frozenset({"ratio", "percent", "lots", "call", "average", "sampled", "notvisited"})
_GOES_WITH = frozenset(
    {"a", "an", "the", "my", "our", "his", "her", "their", "your", "of", "in", "on", "by", "with", "no"}
)
OF_THE_HEAD = frozenset({"date", "planted", "emerged", "rows", "maturity", "variety"})  # rules of a visit's head
_VAGUE = frozenset({"past", "moisture", "where", "findhead", "state", "place", "length", "height"})


def follow(s: Surroundings, c: Candidate) -> float | None:
    """What the words behind a name add to it; None where no name stands before such words."""
    after = pass_fillers(s, c.j)
    if s.text(after) == "." and after == c.j and s.lattice.soft[after] is not None and noun_at(s, c.j - 1):
        after = pass_fillers(s, after + 1)  # graveyard rd.
    if c.site == "anew":
        return _before_the_first(s, c, after)
    if s.text(c.j) in {"now", "next", "nxt"} and s.text(c.j + 1) in {".", ",", ":", "-"}:
        after = pass_fillers(s, c.j + 1, ":,-")  # Redwing now. Plant 1 is R2
    if (
        c.site == "go"
        and said_before(s, c.i)
        and (after >= s.n or s.pieces[after].form == "nl" or s.text(c.j) in {",", ".", "and"})
    ):
        return 0.8  # R2 at Schultz, R3 at Miller's
    if after >= s.n:
        return 0.4 if c.site in {"field", "go"} or (c.nouns and c.site != "sentence") else -2.0
    if s.pieces[after].form == "nl" or (s.pieces[after].text in ".;" and s.lattice.soft[after] is None):
        return _before_an_end(s, c, after)
    begun, rule = starts(s, after)
    if c.lone and s.text(c.j) in {"now", "next"} and not s.lattice.known[c.i] and _counts_anew(s, c.i, after):
        return 2.0
    glued_mark = any(s.pieces[x].text in ":-" for x in range(c.j, after))
    if begun <= 0.3:
        return _before_nothing(s, c)
    if _too_weak(s, c, begun, glued_mark) or _wrong_beginning(c, rule):
        return None
    return begun + (0.4 if glued_mark else 0.0)


def _before_an_end(s: Surroundings, c: Candidate, after: int) -> float | None:
    """The line or the sentence is over behind the name."""
    nl = s.pieces[after].form == "nl"
    at = after + 1
    while at < s.n and s.pieces[at].form == "nl":
        at += 1
    first, at = at, pass_fillers(s, at)  # the row of a plant that is called a
    begun = 2.0 if nl and s.lines[at] in s.table_lines else strength(s, at)[0]
    if c.site == "go" and c.bonus <= 0.5 and not c.title:
        return None
    on_a_line = nl and c.site == "line" and all(odd(s.lattice, x) for x in range(c.i, c.j))
    if (c.lone or on_a_line) and not s.lattice.known[c.i] and (_counts_anew(s, c.i, first) or _counts_anew(s, c.i, at)):
        return 2.0  # Redwing. Plant 1 ..., after another plant 1
    if begun >= 1.0:
        if c.site == "sentence" and not c.shows:
            return None
        follows = 0.9
    elif c.site == "sentence" and c.nouns and capital(s, c.i) and not nl and _early(s, c.i) and _alone(s, c.i):
        follows = 0.6
    elif c.site == "date" and c.title and _early(s, c.i):
        follows = 0.6  # 20 June, Sawpit. There's ...
    elif (c.site == "note" and c.shows) or c.at_home:
        follows = 0.3
    else:
        return None
    return None if not (c.shows or c.site in {"field", "note"}) and begun < 1.5 else follows


def _counts_anew(s: Surroundings, i: int, at: int) -> bool:
    """Plant 1 begins at piece `at`, and there was a plant 1 before piece i."""
    return _first_plant(s, at) and any(_first_plant(s, x) for x in range(i))


def _before_the_first(s: Surroundings, c: Candidate, at: int) -> float | None:
    """Plant 1 stands at piece `at`, or behind values of the head there."""
    before = s.text(c.i - 1) if c.i else ""
    if before in _GOES_WITH or (c.i and (kinds(s, c.i - 1) & {"INT", "ORD"} or odd(s.lattice, c.i - 1))):
        return None  # hotter than a two dollar pistol: the words go on from what stands before them
    if not c.shows and not all(odd(s.lattice, x) and not ends_as_talk(s.text(x)) for x in range(c.i, c.j)):
        return None
    while ends := [p.end for p in s.phrases[at] if p.rule in OF_THE_HEAD] if at < s.n else []:
        at = pass_fillers(s, max(ends))
    return 2.0 if _first_plant(s, at) else None


def anew(s: Surroundings) -> list[int]:
    """Where the plants of a note are counted from one again."""
    first = [x for x in range(s.n) if _first_plant(s, x)]
    return [x for x, before in zip(first[1:], first, strict=False) if x > _label_end(s, before)]


def _label_end(s: Surroundings, at: int) -> int:
    return max((p.end for p in s.phrases[at] if p.rule == "label"), default=at)


def _first_plant(s: Surroundings, at: int) -> bool:
    if at >= s.n:
        return False
    if at in s.bare:
        return s.text(at) in {"1", "a"}
    if s.lines[at] in s.table_lines and s.pieces[at - 1].form == "nl":
        return s.text(at) in {"1", "a"} or "PLANT" in kinds(s, at)
    return any(
        p.form in {"plant_n", "plant_ord"}
        and p.path
        and any(e.means == 1 for _, e in p.path if e.kind in {"INT", "ORD"})
        for p in s.phrases[at]
    )


def _before_nothing(s: Surroundings, c: Candidate) -> float | None:
    """Words that begin nothing stand behind the name."""
    if c.j < s.n and s.pieces[c.j].text in ",:(-|" and c.shows and c.site in {"note", "line", "date", "field", "go"}:
        return 0.3
    if c.at_home:
        return 0.0
    if c.site == "note" and c.title:
        if c.words >= 2:
            return -0.3
        if c.nouns:
            return 0.0
    return None


def _too_weak(s: Surroundings, c: Candidate, begun: float, glued_mark: bool) -> bool:
    """Unknown words at the note's head before a weak beginning: no name."""
    return (
        c.site == "note"
        and not c.nouns
        and not glued_mark
        and c.j < s.n
        and (s.pieces[c.j].text not in ",:.-" or (c.words == 1 and not capital(s, c.i)))
        and begun < 1.5
        and (c.words == 1 or not c.title)
    )


def _wrong_beginning(c: Candidate, rule: str | None) -> bool:
    """What begins behind the words is nothing that is said of a field first."""
    if c.site == "go" and c.bonus <= 0.5 and not c.title and rule not in _SURE | {"planted"}:
        return not (c.nouns and c.words > 1 and rule in _TOLD_OF_A_FIELD)
    if c.lone and rule not in _SURE | {"ratio", "percent"}:
        return True
    if c.shows:
        return False
    return (c.site in {"sentence", "comma", "date"} and rule not in _SURE | {"ratio"}) or rule in _VAGUE


def _early(s: Surroundings, i: int) -> bool:
    """Within the first sentences of the note: where a name may stand alone."""
    return s.sentences[i] <= 2


def _alone(s: Surroundings, i: int) -> bool:
    return i == 0 or s.pieces[i - 1].text == "." or s.pieces[i - 1].form == "nl"
