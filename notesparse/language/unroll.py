"""The phrase grammar as an acceptor.

The grammar of phrases is finite (no rule contains itself), so it is unrolled into states that step by token kinds. One
walk of them finds every phrase that begins at a token, with all its readings; LALR would have to refuse or hide the
ambiguous ones, and Earley was measured 170 times slower.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import product
from typing import Any

from notesparse.errors import GrammarError

REPEATS = 12  # `x+` is unrolled this often: a longer list is read as two


Step = dict[str, Any]
"""A state of the acceptor: token kind to next state; the key "" lists (phrase, form) of the rules complete here."""

Rules = dict[str, list[tuple[tuple[tuple[str, bool], ...], str]]]


def sequences(
    rules: Rules, name: str, memo: dict[str, list[tuple[str, ...]]], inside: tuple[str, ...] = ()
) -> list[tuple[str, ...]]:
    """All token-kind sequences of a rule; raises GrammarError on a rule that contains itself (but for `x+`)."""
    if name in memo:
        return memo[name]
    if name in inside:
        raise GrammarError(f"rule {name} contains itself: phrases must be finite")
    found: dict[tuple[str, ...], None] = {}
    plain: list[tuple[tuple[str, bool], ...]] = []
    again: list[tuple[tuple[str, bool], ...]] = []
    for expansion, _ in rules[name]:
        (again if any(s == name for s, _ in expansion) else plain).append(expansion)
    for expansion in plain:
        for seq in _expand(rules, expansion, memo, (*inside, name)):
            found[seq] = None
    if again:  # the loop that Lark makes of `x+`
        once = list(found)
        grown = once
        for _ in range(REPEATS - 1):
            grown = [a + b for a in grown for b in once][:200]
            for seq in grown:
                found[seq] = None
    memo[name] = list(found)
    return memo[name]


def _expand(
    rules: Rules,
    expansion: tuple[tuple[str, bool], ...],
    memo: dict[str, list[tuple[str, ...]]],
    inside: tuple[str, ...],
) -> list[tuple[str, ...]]:
    options = [[(s,)] if terminal else sequences(rules, s, memo, inside) for s, terminal in expansion]
    return [tuple(x for part in choice for x in part) for choice in product(*options)]


def unroll(rules: Rules) -> Step:
    """The acceptor of all phrases."""
    root: Step = {}
    memo: dict[str, list[tuple[str, ...]]] = {}
    for expansion, _ in rules["phrase"]:
        phrase = expansion[0][0]
        for inner, alias in rules[phrase]:
            for seq in _expand(rules, inner, memo, (phrase,)):
                step = root
                for kind in map(str, seq):
                    step = step.setdefault(kind, {})
                ends = step.setdefault("", [])
                if (str(phrase), str(alias)) not in ends:
                    ends.append((str(phrase), str(alias)))
    return _shared(root, {})


def _shared(step: Step, known: dict[Any, Step]) -> Step:
    """The same state, with all states below it that lead to the same ends as one: a fiftieth of the states is left."""
    short = {kind: below if kind == "" else _shared(below, known) for kind, below in step.items()}
    key = tuple((kind, tuple(below) if kind == "" else id(below)) for kind, below in short.items())
    return known.setdefault(key, short)


@lru_cache(maxsize=1)
def acceptor() -> Step:
    """The acceptor of `grammar/*.lark`, unrolled once."""
    from notesparse.language.grammar import grammar_rules

    return unroll(grammar_rules())
