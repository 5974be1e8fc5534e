"""What a note was first written on, or is copied from: `From the back of his seed cap, Oct 2.`, `copied from a feed sack`,
`pages from his pocket book`. It carries nothing, and the words in it are no seed and no bag of a plan (guide 1.4)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.text.net import Edge, Net

_LISTED = cue_page("text/written_on")

_COPIED = _LISTED.words("copied")
_FROM = _LISTED.words("from")
_SIDES = _LISTED.words("sides")
_SMALL = _LISTED.words("small")
_OF_WHAT = _LISTED.words("of_what")
_THINGS = _LISTED.words("things")


def written_on(net: Net) -> None:
    """All that says so at the head of a line, a sentence or a bracket is filler."""
    if not net.said & _THINGS or not net.said & _FROM:
        return
    for i, p in enumerate(net.pieces):
        if (p.text in _COPIED or p.text in _FROM) and (net.opens(i) or net.at(i - 1) in {"(", "["}):
            end = _end(net, i)
            if end is not None:
                for k in range(i, end):
                    net.edges[k] = []
                    net.known[k] = net.filler[k] = True
                    net.soft[k] = 0.05
                net.edges[i] = [Edge(end, "FILLER", "", 0.0, "exact")]


def _end(net: Net, i: int) -> int | None:
    """The end of what names such a thing, with a mark, a day, a line's end or the note's end behind it."""
    at, k = net.at, i
    copied = at(k) in _COPIED
    k += copied
    copied = copied or at(k) == "from"
    if at(k) not in _FROM:
        return None
    k += 1 + (at(k) == "out" and at(k + 1) == "of")
    while at(k) in _SMALL:
        k += 1
    side = at(k) in _SIDES and at(k + 1) == "of"
    k += 2 if side else 0
    if not (copied or side):
        return None
    while at(k) in _SMALL:
        k += 1
    while at(k) in _OF_WHAT and at(k) + at(k + 1) not in _THINGS:
        k += 1
    if at(k) + at(k + 1) in _THINGS:
        k += 1
    elif at(k) not in _THINGS:
        return None
    behind = net.piece(k + 1)
    ends = behind is None or behind.form in {"dmy", "mark", "nl"} or any(e.kind == "MONTH" for e in net.edges[k + 1])
    return k + 1 if ends else None
