"""Which node was counted as the first: `10 nodes counting the cotyledon node`, `w/o the unifoliate` (guide 4.9, 7.2)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import leaves
from notesparse.observing.fold import EVIDENCE, numbers_of
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/node_start")

_IN = _COMMON.words("counting_in") | _COMMON.words("with") | {"from", "starting"}
_OUT = _LISTED.words("out")
_SMALL = _LISTED.words("small")
_BEHIND = _LISTED.words("behind")
_SAID_BEHIND = _LISTED.words("said_behind")
_OF_THE_LEAF = frozenset({"OPEN", "ROLLED", "STILL", "ALMOST", "UP"})
_FAR = 8  # pieces between the count and the node that is named


def nodes_from(w: Listener, ph: Phrase) -> bool | None:
    """Take a count of nodes whose first node is named behind it, as nodes from the unifoliate node; None: none is."""
    ctx = w.ctx
    found = _first_node(w, ph) if ph.form == "nodes_n" else None
    if found is None:
        return None
    shift, end = found
    shift += ctx.node_start == "cotyledon"  # by this setting a count begins one node lower
    span = ctx.span(ph.start, end)
    used = leaves.count(ctx, "nodes", numbers_of(ph)[0] + shift, span) is not None
    if used:
        ctx.mark(ph.start, end, EVIDENCE)
        w.resume_at = end
        if shift:
            told = "the cotyledon node was counted: one less" if shift < 0 else "the unifoliate node was not: one more"
            ctx.assume("7.2", span, f"nodes are recorded from the unifoliate node; here {told}")
    return used


def _first_node(w: Listener, ph: Phrase) -> tuple[int, int] | None:
    """How many nodes to add, and where the words about it end."""
    at, edges = w.ctx.lattice.at, w.ctx.lattice.edges
    i, words = ph.end, set[str]()
    last = min(len(edges), ph.end + _FAR)
    while i < last and not _named(w, i):
        if at(i) not in _IN | _OUT | _SMALL:
            return None
        words.add(at(i))
        i += 1
    if i >= last:
        return None
    kind, end = _named(w, i)[-1]
    behind_it = {e.kind for e in edges[end] if e.end == end + 1} if end < len(edges) else set()
    if behind_it & _OF_THE_LEAF - ({"OPEN"} if "left" in words else set()):
        return None  # 3 nodes with the unifoliates open
    behind = set[str]()
    while at(end) in _BEHIND:
        behind.add(at(end))
        end += 1
    told = words & (_IN | _OUT) or behind & _SAID_BEHIND
    if not told:
        return None
    out = bool(words & _OUT) or "not" in behind or "excluded" in behind
    if kind == "COT":
        return (0 if out else -1), end
    return (1 if out or "plus" in words else 0), end


def _named(w: Listener, i: int) -> list[tuple[str, int]]:
    """Cotyledons or unifoliates at piece i, and where the word ends; the longest last."""
    return sorted(((e.kind, e.end) for e in w.ctx.lattice.edges[i] if e.kind in {"COT", "UNI"}), key=lambda x: x[1])
