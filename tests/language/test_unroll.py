"""The acceptor against Lark's own Earley parser of the same grammar."""

from __future__ import annotations

import random
from typing import Any

import pytest
from lark import Token, Tree
from lark.exceptions import LarkError

from notesparse.errors import GrammarError
from notesparse.language.grammar import grammar_rules, phrase_grammar
from notesparse.language.unroll import Rules, Step, acceptor, sequences, unroll


def _ends(step: Step, path: tuple[str, ...] = ()) -> list[tuple[tuple[str, ...], set[tuple[str, str]]]]:
    """Every accepted sequence with its (rule, form) readings."""
    out = [(path, set(map(tuple, step[""])))] if "" in step else []
    for kind, then in step.items():
        if kind:
            out += _ends(then, (*path, kind))
    return out


def _readings(tree: Any, found: set[str]) -> set[str]:
    """Names or aliases that stand at the top of the readings of an Earley tree."""
    if isinstance(tree, Tree):
        if tree.data == "_ambig":
            for one in tree.children:
                _readings(one, found)
        elif tree.data == "phrase":
            for one in tree.children:
                _readings(one, found)
        else:
            found.add(str(tree.data))
    return found


def _earley(kinds: tuple[str, ...]) -> set[str]:
    return _readings(phrase_grammar().parse(iter([Token(k, k) for k in kinds])), set())


SHORT = [one for one in _ends(acceptor()) if len(one[0]) <= 2]
LONG = [one for one in _ends(acceptor()) if len(one[0]) > 2]
SAMPLE = random.Random(1977).sample(SHORT, min(150, len(SHORT))) + random.Random(80).sample(LONG, min(350, len(LONG)))


@pytest.mark.slow
def test_the_acceptor_accepts_what_earley_accepts_with_the_same_readings() -> None:
    wrong = []
    for kinds, forms in SAMPLE:
        try:
            read_as = _earley(kinds)
        except LarkError as fault:
            wrong.append((kinds, f"refused by Earley: {type(fault).__name__}"))
            continue
        aliases = {form for _, form in forms}
        if aliases != read_as:
            wrong.append((kinds, f"acceptor {sorted(aliases)}, Earley {sorted(read_as)}"))
    assert wrong == []


def _accepts(kinds: tuple[str, ...]) -> set[str]:
    step: Step | None = acceptor()
    for kind in kinds:
        step = step.get(kind) if step else None
    return {form for _, form in (step or {}).get("", ())}


@pytest.mark.slow
def test_neither_accepts_what_the_other_refuses() -> None:
    """Accepted sequences with one kind changed, dropped or doubled; short ones, since long lists are cut in two."""
    dice = random.Random(5)
    kinds = sorted({k for seq, _ in SAMPLE for k in seq})
    wrong = []
    for seq, _ in dice.sample([one for one in SAMPLE if len(one[0]) <= 6], 200):
        at = dice.randrange(len(seq))
        other = dice.choice(
            [
                (*seq[:at], dice.choice(kinds), *seq[at + 1 :]),
                seq[:at] + seq[at + 1 :],
                (*seq[:at], seq[at], *seq[at:]),
            ]
        )
        if not other:
            continue
        try:
            read_as = _earley(other)
        except LarkError:
            read_as = set()
        if _accepts(other) != read_as:
            wrong.append((other, _accepts(other), read_as))
    assert wrong == []


def _rules(**rules: list[list[str]]) -> Rules:
    """Lower case names are rules, capitals are kinds; the form of an alternative is its rule."""
    return {
        name: [(tuple((s, s.isupper()) for s in symbols), name) for symbols in forms] for name, forms in rules.items()
    }


def test_a_rule_that_contains_itself_is_refused() -> None:
    with pytest.raises(GrammarError, match=r"^rule a contains itself: phrases must be finite$"):
        unroll(_rules(phrase=[["a"]], a=[["b", "POD"], ["POD"]], b=[["a"]]))


def test_two_rules_that_contain_each_other_are_refused() -> None:
    with pytest.raises(GrammarError, match="contains itself"):
        sequences(_rules(a=[["b"]], b=[["c"], ["POD"]], c=[["b", "NODE"]]), "a", {})


def test_a_list_is_unrolled_to_its_limit() -> None:
    rules = _rules(phrase=[["a"]], a=[["POD", "list"]], list=[["NODE"], ["list", "NODE"]])
    found = {seq for seq, _ in _ends(unroll(rules))}
    assert found == {("POD", *["NODE"] * n) for n in range(1, 13)}


def test_choices_multiply_out() -> None:
    rules = _rules(phrase=[["a"], ["c"]], a=[["b", "b"]], b=[["X"], ["Y"]], c=[["X", "Y"]])
    found = dict(_ends(unroll(rules)))
    assert set(found) == {("X", "X"), ("X", "Y"), ("Y", "X"), ("Y", "Y")}
    assert found["X", "Y"] == {("a", "a"), ("c", "c")}


def test_the_same_reading_is_kept_once() -> None:
    rules = _rules(phrase=[["a"]], a=[["X"], ["b"]], b=[["X"]])
    assert unroll(rules)["X"][""] == [("a", "a")]


def test_every_phrase_of_the_grammar_is_in_the_acceptor() -> None:
    forms = {form for _, ends in _ends(acceptor()) for _, form in ends}
    rules = grammar_rules()
    wanted = {alias for symbols, _ in rules["phrase"] for _, alias in rules[symbols[0][0]]}
    assert forms == wanted
