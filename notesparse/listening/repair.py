"""Misheard words replaced by words of the trade that sound like them, where the trade's language model asks for it.

A beam goes over the words from left to right. At each place it keeps the word, or takes one domain word for one or two
heard ones, or two for one. What sounds less alike costs more; a change must win more in the language model than it
costs. Every change is kept, and `agree` asks about those that are more than spelling.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from notesparse.listening.alike import folded
from notesparse.listening.heard import Change, Hearing, Word
from notesparse.listening.sounds import Phones, apart, of_words, sounds
from notesparse.listening.trade import Trade

BEAM = 24
FARTHEST = 0.42
"""Words farther apart than this (`sounds.apart`) are never taken for one another."""
ALPHA = 14.0
"""What a distance of 1 costs, in natural logarithms of the language model."""
CHANGE = 2.0
"""What any change costs."""
WEIGHT = 0.8
"""Of the language model beside that."""
CHOICES = 8
"""Domain words that are tried for one stretch."""


@dataclass(frozen=True, slots=True)
class _Path:
    worth: float
    says: tuple[str, ...]
    made: tuple[tuple[int, int, tuple[str, ...]], ...]  # (first, last, words) of each change


def repaired(hearing: Hearing, trade: Trade) -> tuple[Hearing, tuple[Change, ...]]:
    """`hearing` with the changes that pay, and those changes."""
    says = hearing.says
    at: list[list[_Path]] = [[] for _ in range(len(says) + 1)]
    at[0] = [_Path(0.0, (), ())]
    for i in range(len(says)):
        beam = sorted(at[i], key=lambda p: -p.worth)[:BEAM]
        for path in beam:
            at[i + 1].append(_grown(path, (says[i],), 0.0, None, trade))
            for width in (1, 2):
                if i + width > len(says):
                    continue
                old = says[i : i + width]
                for words, far in _alternatives(old, trade):
                    if folded(words) == folded(old) and far > 0 and width == len(words):
                        continue
                    at[i + width].append(_grown(path, words, CHANGE + ALPHA * far, (i, i + width, words), trade))
    best = max(at[-1], key=lambda p: p.worth + WEIGHT * _step(p.says, "</s>", trade))
    return _applied(hearing, best.made)


def _grown(
    path: _Path, words: tuple[str, ...], cost: float, change: tuple[int, int, tuple[str, ...]] | None, trade: Trade
) -> _Path:
    worth, says = path.worth - cost, path.says
    for word in words:
        worth += WEIGHT * _step(says, word, trade)
        says = (*says, word)
    return _Path(worth, says, path.made if change is None else (*path.made, change))


def _step(says: tuple[str, ...], word: str, trade: Trade) -> float:
    context = ("<s>", "<s>", *says)[-2:]
    return trade.trigram.step((context[0], context[1]), word)


def _alternatives(old: tuple[str, ...], trade: Trade) -> Iterable[tuple[tuple[str, ...], float]]:
    return _near(old, trade.vocabulary)


@lru_cache(maxsize=20_000)
def _near(old: tuple[str, ...], vocabulary: frozenset[str]) -> tuple[tuple[tuple[str, ...], float], ...]:
    """The domain words (one, or two where one word was heard) that sound most like `old`, with how far they are."""
    found: list[tuple[float, tuple[str, ...]]] = []
    here = of_words(old)
    for word, said in _listed(vocabulary):
        if (word,) == old:
            continue
        far = min((apart(p, q) for p in here for q in said if _comparable(p, q)), default=1.0)
        if far <= FARTHEST:
            found.append((far, (word,)))
    return tuple((words, far) for far, words in sorted(found)[:CHOICES])


def _comparable(one: Phones, other: Phones) -> bool:
    """Lengths so different are too far apart anyway: not worth measuring."""
    return 0.7 * abs(len(one) - len(other)) <= FARTHEST * max(len(one), len(other))


@lru_cache(maxsize=4)
def _listed(vocabulary: frozenset[str]) -> tuple[tuple[str, tuple[Phones, ...]], ...]:
    return tuple((word, sounds(word)) for word in sorted(vocabulary))


def _applied(hearing: Hearing, made: tuple[tuple[int, int, tuple[str, ...]], ...]) -> tuple[Hearing, tuple[Change, ...]]:
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
