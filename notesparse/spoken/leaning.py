"""Whether words are of the trade: which words it calls its own, and how far a sentence leans to it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import log
from typing import Protocol

from notesparse.spoken.order import order
from notesparse.spoken.spellings import meanings

ORDINARY = 50.0  # per million: a word said so often is the trade's own only if it stands for something by itself
UNHEARD = 0.5  # per million: a word that is not among the common ones
A_MILLIONTH = 1e-6


class Model(Protocol):
    """A language model; logarithms are natural."""

    def score(self, words: Sequence[str]) -> float: ...


def trade_words(common: Mapping[str, float]) -> frozenset[str]:
    """Words that something of a record hangs on: those that stand for a kind by themselves, and the unusual ones of
    longer spellings; none of the kinds that carry nothing (`light` in `order.toml`)."""
    alone: set[str] = set()
    inside: set[str] = set()
    for kind, some in meanings().items():
        if kind not in order().light:
            for words in (words for m in some for words in m.say):
                (alone if len(words) == 1 else inside).update(words)
    return frozenset(alone | {w for w in inside if common.get(w, 0.0) < ORDINARY})


def lean(words: Sequence[str], trigram: Model, common: Mapping[str, float]) -> float:
    """How far a sentence leans to the trade, a word on average: the natural log of how much likelier the words are by
    the trade's model than one by one in ordinary talk. Above nothing: of the trade. `common` is per million."""
    if not words:
        return 0.0
    ordinary = sum(log(max(common.get(w, UNHEARD), UNHEARD) * A_MILLIONTH) for w in words)
    return (trigram.score(words) - ordinary) / len(words)
