"""Ripe pods that hail, disease or something else has spoilt, or that are told not to count: no normal pods (guide 5.3)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.walking.eaten_pods import eaten
from notesparse.observing.walking.listening import Listener
from notesparse.reading.parse import Phrase

_LISTED = cue_page("walking/hurt_pods")


_HURT = _LISTED.words("hurt")
RIPE = frozenset({"brown", "n_brown", "pods_brown"})
_NOT_OF_PODS = frozenset(
    {
        "chlorosis", "compaction", "crusting", "cupping", "hopper burn", "iron chlorosis", "leaf damage", "lodging",
        "potash deficiency", "regrowth", "seed not sprouted", "shatter", "skip row", "stunting", "tracked", "washout",
        "webbing", "yellow flash",
    }
)  # fmt: skip
_ITS = _LISTED.words("its")
NOT_SO = _LISTED.words("not_so")


def hurt_here(w: Listener, k: int) -> bool:
    """Hail or disease in the same clause, before the next plant or the next thing seen, or that it does not count."""
    own = w.segments[k].phrase
    if _told_not_to_count(w, k) or (own is not None and own.form in RIPE and eaten(w, own.end)):
        return True
    for step in (-1, 1):
        j, seen = k + step, 0
        while 0 <= j < len(w.segments) and seen < 9:
            s = w.segments[j]
            seen += 1
            if s.phrase is None:
                at = w.ctx.lattice.at
                but = at(s.start + 1) == "but" and at(s.start + 2) in _ITS  # one brown pod, but it's rotted
                comma = at(s.start) == "," and not but and at(s.start + 1) != "both"  # two brown pods, both hail cut
                if w.hard_end(s.start) or (comma and not _hurt_at(w, s.start + 1)):
                    break
                if _hurt_at(w, s.start):
                    return True
            elif s.phrase.rule == "findhead" and _takes_pods(s.phrase):
                return True
            elif s.phrase.form == "pod_yes" and w.ctx.lattice.at(s.phrase.start - 1) in {"that", "this"}:
                pass  # one brown pod but that pod is moldy
            elif s.phrase.rule in {"label", "pods", "seeds", "flowers", "podshare"}:
                break
            j += step
    return False


def _takes_pods(ph: Phrase) -> bool:
    """Hail or a disease may have turned a pod; `half the pods brown and some lodging` is ripe all the same."""
    head = ph.path[0][1]
    return head.kind == "DISEASE" or (head.kind == "DAMAGE" and head.means not in _NOT_OF_PODS)


_FAR_TO_SAY = 14  # segments
_OTHER_ONE = frozenset({"label", "pods", "seeds", "flowers", "podshare", "stop"})


def _told_not_to_count(w: Listener, k: int) -> bool:
    """`two brown pods, both split by the stones, don't count`: behind the pods, up to the end of the sentence or to what
    is said of something else."""
    at = w.ctx.lattice.at
    for s in w.segments[k + 1 : k + 1 + _FAR_TO_SAY]:
        if s.phrase is None and w.hard_end(s.start):
            return False
        that_pod = s.phrase is not None and s.phrase.form == "pod_yes" and at(s.start - 1) in {"that", "this"}
        if s.phrase is not None and s.phrase.rule in _OTHER_ONE and not that_pod:
            return False
        if any(_left_out_at(w, i) for i in range(s.start, s.end)):
            return True
    return False


def _left_out_at(w: Listener, i: int) -> bool:
    """`don't count`, `not counting it`, `ignore that`, `disregard`, `leaving it out`."""
    at = w.ctx.lattice.at
    if at(i) in _LEFT_OUT:
        return True
    if at(i) in {"leave", "leaving", "left"} and "out" in {at(i + 1), at(i + 2)}:
        return True
    if at(i) not in NOT_SO or not {"count", "counting", "counted"} & {at(i + 1), at(i + 2)}:
        return False
    end = i + 2 + (at(i + 2) in {"count", "counting", "counted"})
    return w.ends_at(end) or at(end) in _THAT_POD  # and not: can't count on it, didn't count nodes


_THAT_POD = _LISTED.words("that_pod")
_LEFT_OUT = _LISTED.words("left_out")


def _hurt_at(w: Listener, i: int) -> bool:
    """`rotted`, and `doesn't count`, `not counting it`."""
    pieces = w.ctx.lattice.pieces
    words = [p.text for p in pieces[i : i + 3]]
    uncounted = words[:1] and words[0] in NOT_SO and {"count", "counting"} & set(words) and words[-1] != "the"
    return bool(uncounted) or (words[:1] != [] and words[0] in _HURT)
