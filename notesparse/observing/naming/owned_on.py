"""Names that go on behind their owner, and names that took in who talks: `Aunt Ruth's side 7.`, `schmidt's other 12 -`,
`Cousin Dale's half R one`, `elm lot number two first plant`; and `over at Uncle Ned's | I pulled six`.

Without this a field would have its owner's name alone, which may be that of another field of the same owner.
"""

from __future__ import annotations

from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.observing.naming.names import Name
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.surroundings import Surroundings, kinds, noun_at, strength, upper

_COMMON = cue_page("shared")
_LISTED = cue_page("naming/owned_on")

_MOST = 3  # words and figures behind the owner
_MAY = frozenset({"FIELDNOUN", "COMPASS", "LETTER", "INT", "LOW", "TOP", "WHEREWORD", "LONG", "REST"})
_WHICH = _LISTED.words("which")
_PARTS = _COMMON.words("part_of_a_field") | {"other", "rest"}
_WHO = _LISTED.words("who")
_TOLD = frozenset({"stage", "ratio", "percent", "label", "planted", "trif"})


def owned_on(s: Surroundings, chosen: list[Name]) -> list[Name]:
    """The names up to where they end."""
    starts = {name.start for name in chosen}
    out = []
    for name in chosen:
        end = name.end
        if end - name.start > 1 and s.text(end - 1) in _WHO:
            end -= 1
        elif s.text(end - 1) == "'s" or (s.text(end) == "'s" and s.pieces[end].glued):
            longer = _longer(s, end + (s.text(end - 1) != "'s"))
            end = longer if longer and not starts & set(range(name.start + 1, longer)) else end
        elif _figures_left(s, name) or _title_left(s, name):
            end += 1
        else:
            end = _number_said(s, name)
        if end != name.end:
            name = replace(name, end=end, text=s.lattice.written(name.start, end))
        out.append(name)
    return out


def _title_left(s: Surroundings, name: Name) -> bool:
    """`Oak | Stub 7/13`, `7/28 Deer | Stand`: a word of the trade with a capital that ends the title of a page."""
    end = name.end
    if name.cue not in {"note", "date"} or s.text(end) not in s.words.ends_a_title or not upper(s, end) or s.shouted:
        return False
    over = end + 1 >= s.n or s.pieces[end + 1].form == "nl" or s.text(end + 1) in {":", "-"}
    return over or strength(s, end + 1)[1] == "date"


_SAYS_NUMBER = _COMMON.words("number") | {"no"}


def _number_said(s: Surroundings, name: Name) -> int:
    """`elm lot | number two | first plant has`: the number of the field, where it is no plant's as a plant is named right
    behind it."""
    end = name.end
    if s.text(end) not in _SAYS_NUMBER or name.cue == "again" or not noun_at(s, end - 1):
        return end
    at = end + 1 + (s.text(end + 1) == "." and s.text(end) == "no")
    after = max((e.end for e in s.lattice.edges[at] if e.kind == "INT"), default=0) if at < s.n else 0
    behind = after + (s.text(after) in {",", ".", ":", "-"})
    return after if after and strength(s, behind)[1] == "label" else end


def _figures_left(s: Surroundings, name: Name) -> bool:
    """`Bakken's far | 22:`: the figures of the name, before a mark or what is told."""
    owned = "'s" in {s.text(x) for x in range(name.start + 1, name.end)}
    figure = name.end < s.n and s.pieces[name.end].form == "int" and s.pieces[name.end].gap < _MOST - 1
    return owned and figure and (s.text(name.end + 1) in {":", "."} or strength(s, name.end + 1)[1] == "label")


def _longer(s: Surroundings, at: int) -> int:
    """Where what is owned ends, before a mark, a gap or what is told; 0 where that is not so."""
    end = at
    while end < min(at + _MOST, s.n) and _holds(s, end) and not (end > at and _over(s, end)):
        end += 1
    if end == at or not _over(s, end):
        return 0
    words = [s.text(x) for x in range(at, end)]
    if words[-1] in _PARTS and not (words == ["half"] and _once(s, at) and strength(s, end)[1] == "stage"):
        return 0  # Ruth's north end
    return end


def _holds(s: Surroundings, i: int) -> bool:
    p = s.pieces[i]
    if p.form not in {"word", "int"} or p.gap >= _MOST - 1:
        return False
    if s.text(i) in _WHICH:
        return True
    meant = kinds(s, i)
    return meant <= _MAY and bool(meant) if meant else p.form == "word" and odd(s.lattice, i)


def _over(s: Surroundings, i: int) -> bool:
    """The head is over at piece i."""
    if i >= s.n or s.pieces[i].form == "nl" or s.pieces[i].gap >= _MOST - 1:
        return True
    loose = i + 1 >= s.n or not s.pieces[i + 1].glued
    return (s.text(i) in {".", ":", "-", ","} and loose) or strength(s, i)[1] in _TOLD


def _once(s: Surroundings, at: int) -> bool:
    """No other half is told of."""
    return sum(s.text(x) == "half" for x in range(max(0, at - 1), min(s.n, at + 2 * _MOST + _MOST))) == 1
