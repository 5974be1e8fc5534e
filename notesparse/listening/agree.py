"""Where the two recognisers do not agree, or one is not sure: the doubtful words, each with how else it was heard."""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.listening.alike import beside, folded
from notesparse.listening.heard import Change, Hearing, Unsure
from notesparse.listening.trade import Trade, key, keys

LEAST, LEAST_SECOND = 0.35, 0.8
"""A key word of which both recognisers are less sure than this is doubtful even where they agree."""

SAME_SOUND = {"to": "two", "too": "two", "for": "four", "won": "one", "ate": "eight", "weight": "wait"}
"""Words that no recogniser can tell by their sound from a number, or from the `wait` of `no wait`."""
NOT = {"aren't": "are", "isn't": "is", "wasn't": "was", "weren't": "were", "hasn't": "has", "haven't": "have"} | {
    "don't": "do", "doesn't": "does", "didn't": "did", "can't": "can",
}  # fmt: skip
"""Words that say the contrary of others which sound much like them: `are unrolled`, `aren't unrolled`."""
AS_LIKELY, NOT_AS_LIKELY = -2.0, -4.0
"""Such another word is asked about where the language model finds the whole so much worse, or less. (On the 24 made-up
notes both together ask about 2 key words in 944 more; found on the first run of the benchmark.)"""

DIFFER = "heard otherwise too"
SOUNDS_SO = "sounds like another word"
PUT_RIGHT = "put right by its sound"
UNCLEAR = "not heard clearly"


def unsure(taken: Hearing, second: Hearing | None, changes: Sequence[Change], trade: Trade) -> list[Unsure]:
    """The doubtful stretches of `taken`, held against what the other recogniser heard, and against its own repairs."""
    says = taken.says
    other = second.says if second is not None else ()
    found = [*differing(says, other, trade), *sounding(says, trade)]
    for change in changes:
        if folded(change.heard) == folded(change.taken):
            continue
        first = next(i for i, w in enumerate(taken.words) if w.start >= change.start - 1e-6)
        found.append(Unsure(first, first + len(change.taken), (change.heard,), PUT_RIGHT))
    sure = _second_sure(says, second)
    for i, word in enumerate(taken.words):
        if word.sure < LEAST and sure[i] < LEAST_SECOND and key(word.say, trade):
            found.append(Unsure(i, i + 1, (), UNCLEAR))
    return joined(found, says)


def differing(says: Sequence[str], other: Sequence[str], trade: Trade) -> list[Unsure]:
    """Where another hearing has other words, if a key word is among them."""
    found = []
    for side in beside(says, other):
        if side.same or not (keys(says, side.a, side.b, trade) or keys(other, side.c, side.d, trade)):
            continue
        first, last, theirs = _held(says, side.a, side.b, tuple(other[side.c : side.d]))
        if first < last:
            found.append(Unsure(first, last, (theirs,), DIFFER))
    return found


def sounding(says: Sequence[str], trade: Trade) -> list[Unsure]:
    """Small words that may be numbers (`about to per square foot`), and a no that may be none. All hearings may be
    wrong in the same way there."""
    found = []
    for at, word in enumerate(says):
        for like, least in ((SAME_SOUND, AS_LIKELY), (NOT, NOT_AS_LIKELY)):
            if word in like:
                other = [*says[:at], like[word], *says[at + 1 :]]
                if trade.trigram.score(other) - trade.trigram.score(says) > least:
                    found.append(Unsure(at, at + 1, ((like[word],),), SOUNDS_SO))
    return found


def _second_sure(says: Sequence[str], second: Hearing | None) -> list[float]:
    """How sure the other recogniser is of each word that it has too."""
    sure = [0.0] * len(says)
    if second is not None:
        for side in beside(says, second.says):
            if side.same:
                for n in range(side.b - side.a):
                    sure[side.a + n] = second.words[side.c + n].sure
    return sure


def _held(says: Sequence[str], first: int, last: int, other: tuple[str, ...]) -> tuple[int, int, tuple[str, ...]]:
    """Where the other recogniser has words that this one lost, the doubt is held by the word beside them."""
    if first < last:
        return first, last, other
    if last < len(says):
        return first, last + 1, (*other, says[last])
    if first > 0:
        return first - 1, last, (says[first - 1], *other)
    return first, last, other


def joined(found: Sequence[Unsure], says: Sequence[str]) -> list[Unsure]:
    """Doubts that overlap are one, and each other hearing is filled up with the words beside it."""
    out: list[Unsure] = []
    for doubt in sorted(found, key=lambda u: (u.first, u.last)):
        if out and doubt.first < out[-1].last:
            before = out.pop()
            first, last = before.first, max(before.last, doubt.last)
            others = {_filled(u, other, first, last, says): None for u in (before, doubt) for other in u.others}
            others.pop(tuple(says[first:last]), None)
            out.append(
                Unsure(
                    first, last, tuple(others), before.why if before.why == doubt.why else f"{before.why}; {doubt.why}"
                )
            )
        else:
            out.append(doubt)
    return out


def _filled(doubt: Unsure, other: tuple[str, ...], first: int, last: int, says: Sequence[str]) -> tuple[str, ...]:
    return (*says[first : doubt.first], *other, *says[doubt.last : last])
