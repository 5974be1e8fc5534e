"""Keys without an equals sign: `+ open bloom, the figure is its node counting down;  - none`, `[t open trifs, f ...]`.

Such a line stands among tables and holds figures and names of things: prose would read one more plant out of it.
It is taken for a key only where every part of it begins with a sign, and what it says of a sign agrees with what that
sign says anyway; all else is left to others (guide 4.21).
"""

from __future__ import annotations

from dataclasses import dataclass, field

from notesparse.language.columns import column_words, squeeze
from notesparse.observing.paper.heads import ORGANS, Column, read_heads
from notesparse.observing.paper.keys import Sign
from notesparse.text.columns import WIDE, Line
from notesparse.text.lattice import Lattice

_LONGEST_MEANING = 16  # pieces
_LONGEST_NO = 4  # pieces of what a sign for nothing is told to be
_MOST_UNKNOWN = 2  # words of a letter's meaning
_FEWEST = 2
_NEGATIVE = frozenset({"NO", "NONE", "NOT", "NOTHING"})
_TOLD = frozenset({"yes", "no", "x", "nothing"})
_WORDS = frozenset({"blank", "x", "o"})  # signs that are words
_OPENERS = frozenset({"key", "legend", "code", "codes", "signs", "marks"})


@dataclass(slots=True)
class PlainKey:
    """What one line explains: letters for things (`signs`), and what it adds to columns (`legends`)."""

    line: int
    start: int
    end: int
    signs: list[Sign] = field(default_factory=list)
    legends: list[Column] = field(default_factory=list)


def read_plain_key(lattice: Lattice, line: Line) -> PlainKey | None:
    """The key on this line, if it is one from end to end."""
    if line.blank:
        return None
    pieces = lattice.pieces
    a, b = line.start, line.end
    while b > a and pieces[b - 1].text in ")].":
        b -= 1
    bracketed = pieces[a].text in "[("
    while a < b and (
        pieces[a].text in "[(" or pieces[a].text in _OPENERS or (a > line.start and pieces[a].text == ":")
    ):
        bracketed, a = True, a + 1
    if b - a < 2:
        return None
    return _marks(lattice, line, a, b) or (_letters(lattice, line, a, b) if bracketed else None)


def _marks(lattice: Lattice, line: Line, a: int, b: int) -> PlainKey | None:
    """`+ felt, - none`: marks that stand in cells, each with what it says."""
    out = PlainKey(line.number, line.start, line.end)
    starts = [k for k in range(a, b) if _sign(lattice, line, k, a, b) is not None]
    if not starts or not _prelude(lattice, a, starts[0], out):
        return None
    of = out.legends.pop() if starts[0] > a else None  # the thing that the signs are of
    seen: set[str] = set()
    for k, end in zip(starts, [*starts[1:], b], strict=True):
        sign = _sign(lattice, line, k, a, b)
        negative = _negative(lattice, k + 1, end)
        if sign is None or end - k > _LONGEST_MEANING or lattice.pieces[k].text in seen:
            return None
        if negative != (sign in {"no", "nothing"}) and not (sign == "nothing"):
            return None  # it turns the sign round: not understood here
        if sign == "no" and end - k - 1 > _LONGEST_NO:
            return None
        seen.add(lattice.pieces[k].text)
        if of is not None and sign == "yes" and not _plain(lattice, k + 1, end):
            out.legends.append(Column(of.what[:1], codes={lattice.pieces[k].text: (k + 1, end)}))
        got = read_heads(lattice, [range(k + 1, end)])
        organs = [w for c in got for w in c.what if w in ORGANS]
        counted = {c.by_node for c in got if c.by_node in {"down", "up"}}
        if len(organs) == len(counted) == 1:  # the figure is its node counting down
            out.legends.append(Column(organs, by_node=counted.pop()))
    return out if len(seen) >= _FEWEST else None


def _sign(lattice: Lattice, line: Line, k: int, a: int, b: int) -> str | None:
    """What the sign at piece k says, where it begins a part of a key."""
    pieces = lattice.pieces
    p = pieces[k]
    if p.form == "word" and p.text not in _WORDS:
        return None
    if k > a and not (p.gap >= WIDE or (p.gap and pieces[k - 1].text in ",;:.")):
        return None
    told = column_words().cells.get(squeeze(lattice.original(k, k + 1)))
    nxt = pieces[k + 1] if k + 1 < b else None
    if told not in _TOLD or nxt is None or not (nxt.text in {",", ":"} or (nxt.form == "word" and not nxt.glued)):
        return None
    return told


def _prelude(lattice: Lattice, a: int, b: int, out: PlainKey) -> bool:
    """What stands before the first sign: nothing, `Seed:`, or a legend and then that."""
    pieces = lattice.pieces
    if a == b:
        return True
    if pieces[b - 1].text != ":":
        return False
    s = b - 1
    while s > a and pieces[s - 1].form == "word":
        s -= 1
    named = read_heads(lattice, [range(s, b - 1)])
    if len(named) != 1 or not named[0].known or named[0].unknown:
        return False
    while s > a and pieces[s - 1].text in ".,;":
        s -= 1
    if s == a:
        out.legends.append(named[0])
        return True
    texts = [p.text for p in pieces[a:s]]
    if texts.count("=") != 1:
        return False
    at = a + texts.index("=")
    got = read_heads(lattice, [range(a, at), range(at + 1, s)])
    if len(got) != 1 or not got[0].known or got[0].unknown or got[0].label:
        return False
    out.legends += [got[0], named[0]]
    return True


def _plain(lattice: Lattice, a: int, b: int) -> bool:
    """`yes`, `seen`, `there`: no more than the sign says itself."""
    texts = {p.text for p in lattice.pieces[a:b] if p.form == "word"}
    return texts <= {"yes", "seen", "there", "present", "some", "found"}


def _negative(lattice: Lattice, a: int, b: int) -> bool:
    return any(
        e.kind in _NEGATIVE and e.how == "exact" for i in range(a, b) for e in lattice.edges[i]
    ) or column_words().cells.get(squeeze(lattice.original(a, b))) in {"no", "nothing"}


def _letters(lattice: Lattice, line: Line, a: int, b: int) -> PlainKey | None:
    """`p plant, t open trifoliates, f highest node with a flower, f0 no flower`: letters that stand before figures."""
    pieces = lattice.pieces
    out = PlainKey(line.number, line.start, line.end)
    parts: list[tuple[int, int]] = []
    first = a
    for k in range(a, b + 1):
        if k == b or pieces[k].text in ",;":
            parts.append((first, k))
            first = k + 1
    for s, end in parts:
        if end - s < 2 or pieces[s].form != "word" or len(pieces[s].text) != 1 or end - s > _LONGEST_MEANING:
            return None
        if pieces[s + 1].glued:  # f0 no flower: what the figure says anyway
            if pieces[s + 1].text != "0" or not _negative(lattice, s + 2, end):
                return None
            continue
        got = read_heads(lattice, [range(s + 1, end)])
        if len(got) != 1 or not got[0].known or len(got[0].unknown) > _MOST_UNKNOWN:
            return None
        if got[0].unknown and got[0].by_node is None:
            return None
        got[0].unknown = []
        if not got[0].label:
            out.signs.append(Sign(pieces[s].text, (s, s + 1), (s + 1, end), got[0]))
    used = [s for s in out.signs if _before_figures(lattice, s.text, line)]
    return out if len(used) >= _FEWEST and len(used) == len(out.signs) else None


def _before_figures(lattice: Lattice, letter: str, line: Line) -> bool:
    """Whether a letter stands before a figure outside its key."""
    pieces = lattice.pieces
    return any(
        pieces[i].text == letter and pieces[i + 1].form == "int" and pieces[i + 1].glued
        for i in range(len(pieces) - 1)
        if not line.start <= i < line.end
    )


__all__ = ["PlainKey", "read_plain_key"]
