"""Pods that an animal got at: `one brown pod where stink bugs got it` is no normal pod (guide 5.3)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.walking.listening import Listener

_COMMON = cue_page("shared")
_LISTED = cue_page("walking/eaten_pods")

_GOT = _LISTED.words("got")
_IT = _LISTED.words("it")
_ANIMALS = _LISTED.words("animals")
_FAR = 9  # pieces behind the pod


_FOR_EATEN = _COMMON.words("having") | {"all", "been"}


def eaten(w: Listener, end: int) -> bool:
    """Behind a pod, up to the end of its sentence: an animal, and that it got it."""
    lattice = w.ctx.lattice
    for i in range(end, min(end + _FAR, len(lattice.pieces))):
        if w.hard_end(i):
            return False
        if lattice.at(i) not in _GOT:
            continue
        k = i - 1
        while k >= end and lattice.at(k) in _FOR_EATEN:
            k -= 1
        animal = lattice.at(k) in _ANIMALS or any(
            e.kind == "INSECT" and e.end == k + 1 for x in range(max(end, k - 2), k + 1) for e in lattice.edges[x]
        )
        if k >= end and animal and (lattice.at(i + 1) in _IT or w.ends_at(i + 1) or _told_of_it(w, end, k)):
            return True
    return False


def _told_of_it(w: Listener, end: int, animal: int) -> bool:
    """`where the stink bugs fed`, `that bugs got`: of the pod, and not of the field."""
    return any(w.ctx.lattice.at(i) in {"where", "that", "which"} for i in range(end, animal))
