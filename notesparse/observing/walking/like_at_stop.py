"""A plant that is like one of another stop: `2   as hilltop 2`, `same as north end 1`, `like stop 1 plant 2`, `same
as pl 1 at stop 2` (guide 4.18).

Without it the number would be a count, or the plant would be like the one before it. Where the note tells of no such plant
it is asked which one is meant.
"""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing import revise
from notesparse.observing.fold import EVIDENCE
from notesparse.observing.walking.by_place import number_at
from notesparse.observing.walking.counted import cut
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import phrases_at

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/like_at_stop")

_LIKE = _LISTED.rows("like")
_FIRST = frozenset(words[0] for words in _LIKE)
_AT = _LISTED.words("at")
_A_PLANT = frozenset({"PLANT", "PLETTER", "HASH", "NUMBERW", "NODOT"})
_BEHIND = _COMMON.words("except") | {"only"}


def like_at_stop(w: Listener, i: int) -> int | None:
    """Where the words end that say that the plant is like one of another stop, if they begin at piece i."""
    ctx, at = w.ctx, w.ctx.lattice.at
    if at(i) not in _FIRST:
        return None
    led = next((i + len(x) for x in _LIKE if all(at(i + n) == word for n, word in enumerate(x))), None)
    if led is None or not ctx.explicit or not ctx.plants or any(not p.empty for p in ctx.plants):
        return None
    while at(led) in _AT:
        led += 1
    if led >= len(ctx.use):
        return None
    named = _place_then_number(w, led) or _number_then_stop(w, led)
    if named is None or not (w.ends_at(named[2]) or at(named[2]) in _BEHIND):
        return None
    label, name, end = named
    span = ctx.span(i, end)
    stops = {name, name.split(" ", 1)[-1].strip()}  # north end, stop 1
    there = [p for p in ctx.living() if p.label == label and (p.stop or "").casefold() in stops]
    source = next((p for p in there if not p.empty and all(p is not q for q in ctx.plants)), None)
    for plant in ctx.plants:
        if source is not None:
            revise.copy_facts(source, plant, span)
        else:
            ctx.same_targets.append((plant, f"“{ctx.lattice.original(led, end)}”", span))
    ctx.mark(i, end, EVIDENCE)
    cut(w, end)
    return end


def _place_then_number(w: Listener, led: int) -> tuple[str, str, int] | None:
    """`stop 1 plant 2`, `north end 1`: the plant's label, the place as written, and where they end."""
    place = max((p.end for p in phrases_at(w.ctx.lattice, led) if p.rule in {"where", "stop"}), default=None)
    got = _number(w, place) if place is not None else None
    return (got[0], w.ctx.lattice.original(led, place).casefold(), got[1]) if place is not None and got else None


def _number_then_stop(w: Listener, led: int) -> tuple[str, str, int] | None:
    """`pl 1 at stop 2`, `pl 1 stop 2`, `pl 1 st. 2`: the same the other way round."""
    got = _number(w, led)
    if got is None:
        return None
    at = w.ctx.lattice.at
    led_on = at(got[1]) in _AT
    k = got[1] + (led_on or at(got[1]) == ",")
    if k >= len(w.ctx.use):
        return None
    stop = max((p for p in phrases_at(w.ctx.lattice, k) if p.rule == "stop"), key=lambda p: p.end, default=None)
    if stop is not None:
        name, end = str(stop.path[1][1].means).casefold(), stop.end
    elif at(k) in _SHORT and (number := number_at(w, k + 1 + (at(k + 1) == "."))) is not None:
        name, end = str(number.means), number.end
    else:
        return None
    if not led_on and not _left_behind(w, got[0], name):
        return None  # same as plant 1, stop 3: the next stop
    return got[0], name, end


_SHORT = _LISTED.words("short")


def _left_behind(w: Listener, label: str, name: str) -> bool:
    """The note told of the plant at that stop, and has left the stop."""
    ctx = w.ctx
    at_stop = (p for p in ctx.living() if p.label == label and (p.stop or "").casefold() == name)
    return (ctx.stop or "").casefold() != name and any(not p.empty for p in at_stop)


def _number(w: Listener, i: int) -> tuple[str, int] | None:
    """The number of a plant at piece i, with or without a word for it, and where it ends."""
    edges, at = w.ctx.lattice.edges, w.ctx.lattice.at
    i += at(i) in {",", "'"}
    while i < len(edges) and any(e.kind in _A_PLANT and e.how == "exact" for e in edges[i]):
        i = max(e.end for e in edges[i] if e.kind in _A_PLANT and e.how == "exact")
    numbers = [e for e in edges[i] if e.kind == "INT" and e.cost < 0.6] if i < len(edges) else []
    last = max(numbers, key=lambda e: e.end, default=None)
    return (str(last.means), last.end) if last is not None else None
