"""What listening knows of the trade: the language model, the vocabulary, and which words carry a value."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Protocol

from notesparse.lazy import dataclass
from notesparse.spoken.leaning import lean


class Model(Protocol):
    """A language model over spoken words; logarithms are natural."""

    def score(self, words: Sequence[str]) -> float: ...

    def step(self, context: tuple[str, str], word: str) -> float: ...


@dataclass(frozen=True, slots=True)
class Trade:
    """The compiled language as listening needs it; tests bring a small one of their own."""

    trigram: Model
    vocabulary: frozenset[str]
    common: Mapping[str, float]  # ordinary words, per million words of talk

    def knows(self, word: str) -> bool:
        return word in self.vocabulary or word in NUMBERS or word.removesuffix("s") in self.vocabulary

    def lean(self, says: Sequence[str]) -> float:
        """How far the words lean to the trade: above nothing they are likelier of a note than of ordinary talk."""
        return lean(says, self.trigram, self.common)


NUMBERS = frozenset(
    """
    zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen
    eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred thousand dozen couple half third
    quarter fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth sixteenth first
    second thirds quarters fifths sixths sevenths eighths ninths tenths sixteenths halves thirty-second twentieth point
    oh none no single both
    """.split()
)
"""Words of amount: a wrong one makes a wrong record."""

STAGES = frozenset({"r", "v"})
"""The letters of the stages."""

SMALL = frozenset(
    """
    a an the of uh um er ah oh and is are was were be on at in with it its that this there here so ok okay well i we see
    looks like got has have had some just about to for from by as
    """.split()
)
"""Words that carry no value of their own: recognisers differ in them all the time, and nothing hangs on it."""


BETWEEN = frozenset({"to", "through", "thru", "or", "and", "over", "by", "of", "minus", "plus"})
"""Small words that make one amount of the two they stand between: `three to eleven` is not `three, eleven`."""


def key(word: str, trade: Trade) -> bool:
    """Whether a record can hang on this word: amounts, stage letters, and the words of the trade."""
    if word in NUMBERS or word in STAGES:
        return True
    return word not in SMALL and trade.knows(word)


def keys(says: Sequence[str], first: int, last: int, trade: Trade) -> bool:
    """Whether a record can hang on one of the words `[first, last)` where they stand."""
    for at in range(first, last):
        if key(says[at], trade):
            return True
        if says[at] in BETWEEN and 0 < at < len(says) - 1 and says[at - 1] in NUMBERS and says[at + 1] in NUMBERS:
            return True
    return False
