"""Plants told on several lines each, the first with the label: `Plant 1: 9 trifs` over `bloom at the top node` over `Plant
2: 10 trifs` over `no bloom` (guide 4.7)."""

from __future__ import annotations

from notesparse.observing.walking.listening import OWN, Listener

_FEWEST = 2  # plants


def going_on(w: Listener) -> frozenset[int]:
    """The line ends behind which the plant above is still told of: under every plant of the note stands such a line."""
    if w.spread is None:
        w.spread = _find(w)
    return w.spread


def _find(w: Listener) -> frozenset[int]:
    pieces = w.ctx.lattice.pieces
    under: list[list[int]] = []  # of each plant, the line ends before the lines that go on with it
    over = True  # the lines of the plant have ended
    for s in w.segments:
        if s.start and pieces[s.start - 1].form != "nl":
            continue
        if s.start in w.names or (s.phrase is None and pieces[s.start].form == "nl"):
            over = True
        elif s.phrase is not None and s.phrase.rule == "label":
            under.append([])
            over = False
        elif not over and s.phrase is not None and s.phrase.rule in OWN:
            under[-1].append(s.start - 1)
        else:
            over = True
    if len(under) < _FEWEST or not all(under[:-1]):
        return frozenset()
    fewest = min(len(lines) for lines in under[:-1])
    return frozenset(i for lines in [*under[:-1], under[-1][:fewest]] for i in lines)
