"""What word is likely behind two others: an interpolated Kneser-Ney trigram over sentences, with common words mixed in.

Source: Kneser and Ney 1995, "Improved backing-off for m-gram language modeling", in the interpolated form of Chen and
Goodman 1999, with one discount an order, n1 / (n1 + 2 n2). The ARPA file is the one that recognisers read.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from math import log
from pathlib import Path
from typing import TypeVar

from notesparse.lazy import dataclass

START, END, UNKNOWN = "<s>", "</s>", "<UNK>"
COMMON_SHARE = 0.02  # of the words said one by one: measured best of what was tried, shared page of the voice study
UNKNOWN_SHARE = 0.1  # of the common words' share: for all words that the model does not have
UNKNOWN_WORDS = 20_000  # among so many words that share is spread when a sentence is scored
_NEVER = -99.0  # log10, as ARPA files write it: START is never said

Context = TypeVar("Context")

Entry = tuple[float, float]
"""Natural logs: of the probability, and of the weight of backing off from here."""


@dataclass(frozen=True, slots=True)
class Trigram:
    """Probabilities of words behind their context, as natural logs."""

    ones: dict[str, Entry]
    twos: dict[tuple[str, str], Entry]
    threes: dict[tuple[str, str, str], float]

    @property
    def words(self) -> frozenset[str]:
        """Every word that the model has, but for the marks of beginning, end and unknown."""
        return frozenset(self.ones) - {START, END, UNKNOWN}

    def step(self, context: tuple[str, str], word: str) -> float:
        """Natural log of the probability of a word behind two others; at the beginning these are `<s>`, `<s>`."""
        known = word if word in self.ones else UNKNOWN
        unknown = 0.0 if known == word else -log(UNKNOWN_WORDS)
        first, second = (w if w in self.ones else UNKNOWN for w in context)
        three = self.threes.get((first, second, known))
        if three is not None:
            return three + unknown
        back = self.twos.get((first, second), (0.0, 0.0))[1]
        two = self.twos.get((second, known))
        if two is not None:
            return back + two[0] + unknown
        return back + self.ones[second][1] + self.ones[known][0] + unknown

    def score(self, words: Sequence[str]) -> float:
        """Natural log of the probability of a whole sentence, its end with it."""
        context, total = (START, START), 0.0
        for word in (*words, END):
            total += self.step(context, word)
            context = (context[1], word)
        return total

    def write_arpa(self, path: Path) -> None:
        """The model as an ARPA file (log10)."""
        ten = log(10)
        lines = ["\\data\\"]
        lines += [f"ngram {n}={len(some)}" for n, some in ((1, self.ones), (2, self.twos), (3, self.threes))]
        lines.append("\n\\1-grams:")
        for word, (p, back) in sorted(self.ones.items()):
            lines.append(f"{_NEVER if word == START else p / ten:.5f}\t{word}\t{back / ten:.5f}")
        lines.append("\n\\2-grams:")
        lines += [f"{p / ten:.5f}\t{a} {b}\t{back / ten:.5f}" for (a, b), (p, back) in sorted(self.twos.items())]
        lines.append("\n\\3-grams:")
        lines += [f"{p / ten:.5f}\t{a} {b} {c}" for (a, b, c), p in sorted(self.threes.items())]
        path.write_text("\n".join([*lines, "\n\\end\\", ""]), encoding="utf-8")


def _discount(counts: Iterable[int]) -> float:
    many = Counter(counts)
    return many[1] / (many[1] + 2 * many[2]) if many[1] else 0.5


def kneser_ney(
    said: Iterable[Sequence[str]], common: Mapping[str, float], words: Iterable[str] = (), share: float = COMMON_SHARE
) -> Trigram:
    """The model of sentences. `common` are ordinary words with how often they are said; `words` have to be in the model
    even if no sentence says them; `share` is what common words and unknown ones get of the words said one by one."""
    c3: Counter[tuple[str, str, str]] = Counter()
    c2: Counter[tuple[str, str]] = Counter()
    for sentence in said:
        row = (START, *sentence, END)
        c2[row[0], row[1]] += 1
        c3.update(zip(row, row[1:], row[2:], strict=False))
    n2: Counter[tuple[str, str]] = Counter((b, c) for _, b, c in c3)  # behind how many words a pair stands
    n2.update(c2)  # at the beginning nothing stands before it: there its count serves
    n1: Counter[str] = Counter(b for _, b in n2)
    for word in words:
        n1[word] += 0 if n1[word] else 1
    ones = _ones(n1, common, share)

    d2, d3 = _discount(n2.values()), _discount(c3.values())
    total2, kinds2 = _behind(n2)
    total3, kinds3 = _behind({((a, b), c): n for (a, b, c), n in c3.items()})
    back1 = {a: d2 * kinds2[a] / total2[a] for a in total2}
    back2 = {pair: d3 * kinds3[pair] / total3[pair] for pair in total3}
    p2 = {(a, b): (n - d2) / total2[a] + back1[a] * ones[b] for (a, b), n in n2.items()}
    p3 = {(a, b, c): (n - d3) / total3[a, b] + back2[a, b] * p2[b, c] for (a, b, c), n in c3.items()}
    return Trigram(
        {w: (log(p) if p else _NEVER * log(10), log(back1.get(w, 1.0))) for w, p in {START: 0.0, **ones}.items()},
        {pair: (log(p), log(back2.get(pair, 1.0))) for pair, p in p2.items()},
        {three: log(p) for three, p in p3.items()},
    )


def _ones(n1: Mapping[str, int], common: Mapping[str, float], share: float) -> dict[str, float]:
    total, often = sum(n1.values()), sum(common.values())
    unknown = share * UNKNOWN_SHARE
    ones = {w: (1 - share) * n / total for w, n in n1.items()}
    for word, n in common.items():
        ones[word] = ones.get(word, 0.0) + (share - unknown) * n / often
    ones[UNKNOWN] = unknown if common else share
    return ones


def _behind(counts: Mapping[tuple[Context, str], int]) -> tuple[Counter[Context], Counter[Context]]:
    """For each context how much stands behind it, and how many different words."""
    total: Counter[Context] = Counter()
    kinds: Counter[Context] = Counter()
    for (context, _), n in counts.items():
        total[context] += n
        kinds[context] += 1
    return total, kinds
