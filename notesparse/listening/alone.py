"""The weak way: the small recogniser alone. It doubts itself far more, as nobody else does.

Six things make a word doubtful: a posterior under `SURE`, another word in the same place in one of its own other
hearings, another word when it listens again with its language model held back (`FREER`), another word that sounds
just like it, that it hardly ever stands behind the two before it, or that it is a no, as half a word of nodes is one. And a word between two doubtful ones is doubtful
too, as what leads to it and from it was guessed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from notesparse.lazy import dataclass
from notesparse.listening import agree, gate
from notesparse.listening.heard import Hearing, Unsure, Utterance
from notesparse.listening.sphinx import Sphinx
from notesparse.listening.trade import Trade, key

SURE = 0.9
LIMITS = gate.Limits(least=1.7, near=2.5, sure=0.65)
"""As in `gate`, but for words that this recogniser could hardly hear otherwise: it knows few that are not of the trade.
Measured with machine voices: by the limits for both and a leaning of 1.2 it took nine of 96 clean recordings of other
talk, by these none, and of 132 clean notes four fewer."""
MOST = 3
"""So many of its own other hearings are looked at."""
UNLIKELY = -9.0
"""Natural logarithm of a key word's probability behind the two before it, below which it is doubted, with the one
before it: on the 24 made-up notes that asks about 3 in 100 more and leaves nothing of 510 silently wrong, where 1 of 549
was."""
FREER = 3.0
"""Weight of the language model the second time (6.5 is the recogniser's own)."""


@dataclass(frozen=True, slots=True)
class Alone:
    small: Sphinx
    freer: Sphinx
    trade: Trade
    weak: bool = True

    @staticmethod
    def of(small: Callable[..., Sphinx], trade: Trade) -> Alone:
        return Alone(small(), small(lw=FREER), trade)

    def hear(self, samples: bytes, start: float, end: float) -> Utterance:
        hearings = self.small.hear(samples, start)
        if not hearings:
            return Utterance(start, end, Hearing((), ()), refused="no words were heard")
        best, others = hearings[0], [h.says for h in hearings[1 : MOST + 1]]
        again = self.freer.hear(samples, start)
        second = again[0].says if again else ()
        doubts = doubtful(best, [second, *others], self.trade)
        why = gate.refused(best, best, doubts, self.trade, LIMITS)
        return Utterance(start, end, best, (), tuple(doubts), why, second)


def doubtful(best: Hearing, others: Sequence[Sequence[str]], trade: Trade) -> list[Unsure]:
    """The doubts of the small recogniser about its own best hearing."""
    found = [u for other in others for u in agree.differing(best.says, other, trade)]
    found += [*agree.sounding(best.says, trade), *unlikely(best.says, trade)]
    for i, word in enumerate(best.words):
        if (word.sure < SURE and key(word.say, trade)) or word.say == "no":
            found.append(Unsure(i, i + 1, (), agree.UNCLEAR))
    inside = {i for u in found for i in range(u.first, u.last)}
    for i, word in enumerate(best.words):
        if i not in inside and {i - 1, i + 1} <= inside and key(word.say, trade):
            found.append(Unsure(i, i + 1, (), agree.UNCLEAR))
    return agree.joined(found, best.says)


def unlikely(says: Sequence[str], trade: Trade) -> list[Unsure]:
    """Key words where the trade's language model expects others, and those before them: a long word that it does not know
    is heard as a row of short ones, each for itself as clear as any."""
    row = ("<s>", "<s>", *says)
    odd = [at for at, word in enumerate(says) if trade.trigram.step((row[at], row[at + 1]), word) < UNLIKELY]
    odd = [at for at in odd if key(says[at], trade)]
    both = sorted({*odd, *(at - 1 for at in odd if at and key(says[at - 1], trade))})
    return [Unsure(at, at + 1, (), agree.UNCLEAR) for at in both]
