"""Misheard words replaced by words of the trade that sound like them, where the trade's language model asks for it.

A beam goes over the words from left to right. At each place it keeps the word, or takes one domain word for one or two
heard ones, or two for one. What sounds less alike costs more; a change must win more in the language model than it
costs. Every change is kept, and `agree` asks about those that are more than spelling.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from notesparse.lazy import dataclass
from notesparse.listening.alike import folded
from notesparse.listening.heard import Change, Hearing, Word
from notesparse.listening.sounds import LIGHTEST, Phones, apart, of_words, outline, sounds
from notesparse.listening.trade import NUMBERS, STAGES, Trade

BEAM = 24
FARTHEST = 0.34
"""Words farther apart than this, by the length of the longer, are never taken for one another."""
MERGED = 2.0
"""Phones by which two heard words may differ from the one that is taken for both."""
PHONE = 3.0
"""What a whole phone of difference costs, in natural logarithms of the language model."""
CHANGE = 2.0
"""What any change costs."""
WEIGHT = 0.8
"""Of the language model beside that."""
FLOOR = -10.0
"""A word that the model does not know, a name, is no worse than this: it need not be one of the trade."""
FITS = -4.0
"""A known word at least so likely, before another such, needs no second look."""
CHOICES = 8
"""Domain words that are tried for one stretch."""


_Made = tuple[int, int, tuple[str, ...]]
"""A change: words `[first, last)`, and what is taken for them."""


@dataclass(frozen=True, slots=True)
class _Path:
    worth: float
    says: tuple[str, ...]
    made: tuple[_Made, ...]


def repaired(hearing: Hearing, trade: Trade) -> tuple[Hearing, tuple[Change, ...]]:
    """`hearing` with the changes that pay, and those changes."""
    says = hearing.says
    at: list[list[_Path]] = [[] for _ in range(len(says) + 1)]
    at[0] = [_Path(0.0, (), ())]
    for i in range(len(says)):
        beam = sorted(at[i], key=lambda p: -p.worth)[:BEAM]
        fits = all(_step(says[:k], says[k], trade) > FITS and trade.knows(says[k]) for k in (i, i + 1) if k < len(says))
        widths = () if fits else (1, 2)
        near = [
            (i + width, *choice)
            for width in widths
            if i + width <= len(says)
            for choice in _alternatives(says[i : i + width], trade)
        ]
        for path in beam:
            at[i + 1].append(_grown(path, (says[i],), 0.0, None, trade))
            for end, words, far in near:
                at[end].append(_grown(path, words, CHANGE + PHONE * far, (i, end, words), trade))
    best = max(at[-1], key=lambda p: p.worth + WEIGHT * _step(p.says, "</s>", trade))
    return _applied(hearing, best.made)


def _grown(path: _Path, words: tuple[str, ...], cost: float, change: _Made | None, trade: Trade) -> _Path:
    worth, says = path.worth - cost, path.says
    for word in words:
        worth += WEIGHT * _step(says, word, trade)
        says = (*says, word)
    return _Path(worth, says, path.made if change is None else (*path.made, change))


def _step(says: tuple[str, ...], word: str, trade: Trade) -> float:
    context = ("<s>", "<s>", *says)[-2:]
    return max(FLOOR, trade.trigram.step((context[0], context[1]), word))


def _alternatives(old: tuple[str, ...], trade: Trade) -> tuple[tuple[tuple[str, ...], float], ...]:
    """The domain words that one or two heard words may stand for, each with how many phones they differ.

    Two words are one only where one of them is no word of the trade: nothing is thrown away for a smoother sentence."""
    if len(old) == 2 and (all(trade.knows(w) for w in old) or any(w in NUMBERS or w in STAGES for w in old)):
        return ()
    return _near(old, trade.vocabulary)


@lru_cache(maxsize=20_000)
def _near(old: tuple[str, ...], vocabulary: frozenset[str]) -> tuple[tuple[tuple[str, ...], float], ...]:
    """The domain words that sound most like `old`, the nearest first."""
    import numpy

    words, ways, shapes, lengths = _listed(vocabulary)
    spelled = folded(old)
    most = MERGED if len(old) > 1 else 99.0
    found: dict[str, float] = {}
    for p in of_words(old):
        limits = numpy.minimum(most, FARTHEST * numpy.maximum(lengths, len(p)))
        more = shapes - numpy.array(outline(p))
        least = numpy.maximum(more.clip(0) @ LIGHTEST, (-more).clip(0) @ LIGHTEST)
        near = (0.7 * abs(lengths - len(p)) <= limits) & (least <= limits)
        for at in numpy.flatnonzero(near):
            far = apart(p, ways[at])
            if far <= limits[at] and far < found.get(words[at], 99.0):
                found[words[at]] = far
    ranked = sorted((far, word) for word, far in found.items() if folded((word,))[0] not in spelled)
    return tuple(((word,), far) for far, word in ranked[:CHOICES])


@lru_cache(maxsize=4)
def _listed(vocabulary: frozenset[str]) -> tuple[list[str], list[Phones], Any, Any]:
    """Every pronunciation of the vocabulary: its word, its phones, their outlines as rows, and how many they are."""
    import numpy

    both = [(word, said) for word in sorted(vocabulary) for said in sounds(word)]
    shapes = numpy.array([outline(said) for _, said in both]).reshape(len(both), -1)
    return [w for w, _ in both], [said for _, said in both], shapes, numpy.array([len(said) for _, said in both])


def _applied(hearing: Hearing, made: tuple[_Made, ...]) -> tuple[Hearing, tuple[Change, ...]]:
    """The hearing with its words changed. A token is written anew, in words, where a word of it was changed."""
    if not made:
        return hearing, ()
    old = hearing.words
    words: list[Word] = []
    changes: list[Change] = []
    tokens: list[str] = []
    i = 0
    by_start = {first: (last, says) for first, last, says in made}
    touched = {old[k].token for first, last, _ in made for k in range(first, last)}
    numbered: dict[int, int] = {}

    def put(say: str, start: float, end: float, sure: float, token: int, whole: bool) -> None:
        if whole:
            if token not in numbered:
                numbered[token] = len(tokens)
                tokens.append(hearing.tokens[token])
            words.append(Word(say, start, end, sure, numbered[token]))
        else:
            tokens.append(say)
            words.append(Word(say, start, end, sure, len(tokens) - 1))

    while i < len(old):
        if i in by_start:
            last, says = by_start[i]
            start, end = old[i].start, old[last - 1].end
            step = (end - start) / len(says)
            sure = min(w.sure for w in old[i:last])
            for n, say in enumerate(says):
                put(say, start + n * step, start + (n + 1) * step, sure, -1, False)
            changes.append(Change(tuple(w.say for w in old[i:last]), says, start, end))
            i = last
        else:
            word = old[i]
            last = i + 1
            put(word.say, word.start, word.end, word.sure, word.token, word.token not in touched)
        before = old[last - 1].token
        if before in touched and (last == len(old) or old[last].token != before):
            tokens[-1] += _mark(hearing.tokens[before])
        i = last
    return Hearing(tuple(words), tuple(tokens), hearing.score), tuple(changes)


def _mark(token: str) -> str:
    """The punctuation at the end of a token, which stays where its words are changed."""
    return token[-1] if token[-1:] in ".,;:?!" else ""
