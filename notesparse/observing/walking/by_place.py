"""Plants told by where they stand in the row: `the first two`, `next 2`, `the last`, `the other three`, `the first two and
the last`, `the fourth` (guide 4.7).

The labels of the row are given in order; those that were told of before are the ones that `next` and `other` go by.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.observing.walking.listening import Listener
from notesparse.text.lattice import Edge

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/by_place")

_IN_SHORT = _LISTED.table("in_short", str)
_WHICH = frozenset({*_LISTED.words("which"), *_IN_SHORT})
_NOUN = _LISTED.words("noun")
_SAYS = _LISTED.words("says")
_HAVE = _LISTED.words("have")
SO_MANY = _LISTED.table("so_many", int)
_PAIR = 2
_SURE = 0.9  # cost of a number
_JOIN = _COMMON.words("and") | {"n"}
_NOT_PLANTS = frozenset(
    {"NODE", "NODES", "TRIF", "POD", "SEED", "BEAN", "FLOWER", "LEAF", "INCH", "FOOT", "ROWS", "PCT", "WEEKDAY"}
)


def places(
    w: Listener, i: int, row: Sequence[str], told: Sequence[str] = (), *, led: bool = False
) -> tuple[list[str], int] | None:
    """The plants of the row that are named so at piece i, and where the words end; `led`: a word stands before that is
    followed by plants (on, except)."""
    got = _one(w, i, row, told, joined=led)
    if got is None:
        return None
    found, end = list(got[0]), got[1]
    while w.ctx.lattice.at(end) in _JOIN:
        at = end
        while w.ctx.lattice.at(at) in _JOIN:
            at += 1
        more = _one(w, at, row, [*told, *found], joined=True)
        if more is None or set(more[0]) & set(found):
            break
        found += more[0]
        end = more[1]
    return (sorted(found, key=list(row).index), end) if 0 < len(found) <= len(row) else None


def told_last(w: Listener) -> list[str]:
    """The labels by which `next` and `other` go: of the plants that are spoken of, or of those told of by their places."""
    ctx = w.ctx
    return [*w.turn, *(p.label for p in ctx.plants if ctx.explicit)]


_BEFORE = _LISTED.words("before")


def some_placed(w: Listener, start: int, end: int, row: Sequence[str]) -> bool:
    """In these pieces some plants of the row, and not all of them, are told by where they stand."""
    told: list[str] = []
    for i in range(start, end):
        led = w.ctx.lattice.at(i - 1) in _BEFORE
        got = places(w, i, row, told, led=led) if led or w.begins(i) else None
        if got is not None and len(got[0]) < len(row):
            return True
    return False


def _one(w: Listener, i: int, row: Sequence[str], told: Sequence[str], *, joined: bool) -> tuple[list[str], int] | None:
    """`the first two`, `next one`, `the fourth plant`."""
    at = w.ctx.lattice.at
    end = i + (at(i) == "the")
    if at(end) in _WHICH:
        return _by_word(w, end, row, told, joined=joined or end > i)
    if joined and at(i) == "one" and len(row) == _PAIR and not told:
        return [row[0]], i + 1  # two plants, six trifs on one and seven on the other
    nth = number_at(w, end, "ORD")
    if nth is None or not 0 < int(nth.means) <= len(row):
        return None
    stop = nth.end + (at(nth.end) in _NOUN)
    alone = (end > i and (joined or at(nth.end) in _SAYS)) or at(nth.end) in {"same", "has", "had"}
    alone = alone or (at(nth.end), at(nth.end + 1)) == ("the", "same")
    of_plants = stop > nth.end or (alone and not _of_something(w, stop))
    return ([row[int(nth.means) - 1]], stop) if of_plants else None


def _by_word(
    w: Listener, at: int, row: Sequence[str], told: Sequence[str], *, joined: bool
) -> tuple[list[str], int] | None:
    """The word stands at piece `at`; a lone `first` wants its noun, or a `the` before it."""
    text = w.ctx.lattice.at
    which, end = _IN_SHORT.get(text(at), text(at)), at + 1
    number = number_at(w, end) if text(end) != "one" else None
    many = int(number.means) if number is not None else SO_MANY.get(text(end), 0)
    end = number.end if number is not None else end + (text(end) in SO_MANY)
    noun = end
    while text(end) in _NOUN:
        end += 1
    if noun == end and _of_something(w, end):
        return None
    one = not many
    if one and noun == end and not (joined and (w.ends_at(end) or text(end) in _SAYS | _HAVE)):
        return None  # the last field, the other side
    many = many or (len([x for x in row if x not in told]) if text(noun) == "ones" or which == "remaining" else 1)
    return _taken(which, many, row, told, end)


def _taken(which: str, many: int, row: Sequence[str], told: Sequence[str], end: int) -> tuple[list[str], int] | None:
    if many >= len(row) + (which in {"other", "remaining"}):
        return None
    if which == "first":
        return list(row[:many]), end
    if which == "last":
        return list(row[-many:]), end
    left = [x for x in row if x not in told]
    if which == "next":
        last = max((list(row).index(x) for x in told if x in row), default=-1)
        after = list(row[last + 1 : last + 1 + many])
        return (after, end) if told and len(after) == many else None
    return (left, end) if told and len(left) == many else None


_FOR_OF_SOMETHING = _COMMON.words("blooming")


def _of_something(w: Listener, i: int) -> bool:
    """`the first two nodes`, `last two rows`: of no plants."""
    if i >= len(w.ctx.use):
        return False
    kinds = {e.kind for e in w.ctx.lattice.edges[i] if e.cost < 1}
    return bool(kinds & _NOT_PLANTS) and w.ctx.lattice.at(i) not in _FOR_OF_SOMETHING


def number_at(w: Listener, i: int, kind: str = "INT") -> Edge | None:
    """The longest number, or ordinal, at piece i that is surely one."""
    found = [e for e in w.ctx.lattice.edges[i] if e.kind == kind and e.cost < _SURE] if i < len(w.ctx.use) else []
    return max(found, key=lambda e: e.end, default=None)
