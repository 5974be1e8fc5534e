"""Pictures in a note: a flower may stand for the word."""

from __future__ import annotations

from notesparse.text.net import Edge, Net

_PICTURED = frozenset("🌸🌼🌺🌷💐🌹🏵💮🪻🌻")
_COUNTED = frozenset({"NO", "NONE", "NOT", "TRIF", "TRIPS", "NODES", "NODE", "ALMOST", "BARE"})
_PLACED = frozenset({"TOP", "UPTOP", "LOW", "ORD", "ALLTHEWAY", "TIP", "NONE"})
_OF_A_PLANT = frozenset({"PLANT", "PLETTER", "TRIF", "NODES", "LETTER", "INT"})


def pictures(net: Net) -> None:
    """A picture of a flower is the word where a place, a count or a `no` stands beside it; elsewhere it only adorns."""
    for i, p in enumerate(net.pieces):
        if p.text in _PICTURED and not (i and net.at(i - 1) in _PICTURED) and _is_the_word(net, i):
            net.edges[i] = [Edge(i + 1, "FLOWER", "flower", 0.0, "exact")]
            net.known[i], net.soft[i] = True, None


def _is_the_word(net: Net, i: int) -> bool:
    pieces, edges = net.pieces, net.edges
    line = range(_line_start(net, i), i)
    if any(e.kind == "FLOWER" and pieces[k].text not in _PICTURED for k in line for e in edges[k]):
        return False
    k = i + 1
    while net.at(k) in _PICTURED:
        k += 1
    behind = {e.kind for e in edges[k]} if k < len(pieces) else set()
    if "FLOWER" in behind:
        return False
    before = {e.kind for e in edges[i - 1]} if i and pieces[i - 1].form != "nl" else set()
    return bool(before & _COUNTED) or (
        bool(behind & _PLACED) and any(e.kind in _OF_A_PLANT for j in line for e in edges[j])
    )


def _line_start(net: Net, i: int) -> int:
    """Where the words of a line, or behind a comma, begin."""
    for k in range(i, -1, -1):
        if net.pieces[k].form == "nl" or net.pieces[k].text in ",;":
            return k + 1
    return 0
