"""The real files of `grammar/`: they load, every part is used, and no list has gone stale."""

from __future__ import annotations

import ast
import tomllib
from pathlib import Path

import pytest

from notesparse.language import grammar, vocabulary
from notesparse.language.columns import column_words
from notesparse.language.folder import grammar_folder
from notesparse.language.unroll import acceptor
from notesparse.text.numbers import is_number_word, ordinal, part

ROOT = Path(__file__).resolve().parents[2]
WORDS = sorted((ROOT / "grammar" / "words").glob("*.toml"))
MADE_BY_CODE = {"ATMARK", "BARE", "DEC", "DITTOMARK", "DMY", "FRAC", "INT", "LETTER", "NODEFIG", "ORD", "YEAR"}
"""Kinds that the text pass makes of figures and marks: no word file spells them."""


def test_the_vocabulary_loads() -> None:
    words = vocabulary.vocabulary()
    assert len(words.singles) > 2000
    assert len(words.trie) > 1500


def test_the_column_words_load() -> None:
    assert column_words().heads


def test_the_folder_is_that_of_the_checkout() -> None:
    assert Path(str(grammar_folder())) == ROOT / "grammar"


def test_no_code_lies_in_the_grammar() -> None:
    assert list((ROOT / "grammar").rglob("*.py")) == []


@pytest.mark.parametrize("file", WORDS, ids=lambda f: f.stem)
def test_every_word_file_says_what_belongs_in_it(file: Path) -> None:
    assert file.read_text(encoding="utf-8").startswith("# ")


@pytest.mark.parametrize("file", WORDS, ids=lambda f: f.stem)
def test_every_word_file_holds_something(file: Path) -> None:
    assert tomllib.loads(file.read_text(encoding="utf-8"))


def test_every_part_gives_rules_that_a_phrase_reaches() -> None:
    rules = grammar.grammar_rules()
    reached, to_see = set(), ["phrase"]
    while to_see:
        name = to_see.pop()
        if name not in reached:
            reached.add(name)
            to_see += [s for symbols, _ in rules[name] for s, terminal in symbols if not terminal]
    assert reached == set(rules)
    for name, text in grammar.grammar_parts().items():
        if name == "terminals.lark":
            continue
        own = [line.split(":")[0].strip(" ?!") for line in text.splitlines() if line[:1].isalpha() or line[:1] == "_"]
        assert own, name
        assert all(rule in reached for rule in own), name


def test_no_part_imports_another() -> None:
    assert [name for name, text in grammar.grammar_parts().items() if "%import" in text] == []


def test_only_one_part_declares_kinds() -> None:
    assert [name for name, text in grammar.grammar_parts().items() if "%declare" in text] == ["terminals.lark"]


def test_no_kind_is_declared_twice() -> None:
    kinds = [
        k
        for line in grammar.grammar_parts()["terminals.lark"].splitlines()
        if line.startswith("%declare")
        for k in line.split()[1:]
    ]
    assert sorted(kinds) == sorted(set(kinds))


def test_every_kind_of_a_rule_can_be_made() -> None:
    """A rule over a kind that neither a word nor the text pass makes is dead."""
    assert grammar.kinds_in_rules() - vocabulary.vocabulary().kinds == MADE_BY_CODE


def _kinds_named_in_code() -> set[str]:
    named = set()
    for file in (ROOT / "notesparse").rglob("*.py"):
        if file.name == "vocabulary.py":
            continue
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                named.update(node.value.split())
    return named & grammar.declared_kinds()


def test_the_kinds_read_by_code_are_read_by_code() -> None:
    assert vocabulary.READ_BY_CODE <= _kinds_named_in_code()
    assert not vocabulary.READ_BY_CODE & grammar.kinds_in_rules()


def test_the_idle_kinds_are_still_declared_and_still_idle() -> None:
    """When terminals.lark drops one, `IDLE` must drop it too; when a rule or the code takes one up, likewise."""
    busy = grammar.kinds_in_rules() | _kinds_named_in_code()
    assert grammar.declared_kinds() - busy == vocabulary.IDLE


def _lists(key: str) -> list[dict]:
    return tomllib.loads((ROOT / "grammar/words/ambiguous.toml").read_text(encoding="utf-8")).get(key, [])


def test_the_twins_are_listed() -> None:
    """Whoever writes ambiguous.toml anew must keep the list, or the loader no longer looks for twins."""
    assert _lists("twins")


def test_no_twins_are_listed_that_are_none() -> None:
    words = vocabulary.vocabulary()
    near = {letter: list(some) for letter, some in words.near.items()}
    found = {frozenset(pair) for pair in vocabulary.near_twins(near, {k: list(v) for k, v in words.singles.items()})}
    assert [e["say"] for e in _lists("twins") if frozenset(e["say"]) not in found] == []


def _kinds_of(say: str) -> set[str]:
    node = vocabulary.vocabulary().trie
    for piece in vocabulary.pieces_of(say):
        node = node.get(piece, {})
    return {s[0] for s in node.get("", ())}


def test_no_ambiguity_is_listed_that_is_none() -> None:
    stale = [e["say"] for e in _lists("ambiguous") if len(_kinds_of(e["say"])) < 2]
    assert stale == []


def test_the_never_list_is_sorted_and_holds_no_trade_word_twice() -> None:
    never = tomllib.loads((ROOT / "grammar/words/never.toml").read_text(encoding="utf-8"))["never"]
    assert never == sorted(set(never))


def test_no_number_word_is_within_reach_of_nearness() -> None:
    near = {w for some in vocabulary.vocabulary().near.values() for w in some}
    assert sorted(w for w in near if is_number_word(w)) == []


def test_words_for_parts_and_ordinals_agree() -> None:
    assert part("quarter") == 4 and part("eighths") == 8 and part("sixteenths") == 16
    assert ordinal("third") == 3 and ordinal("twentieth") == 20 and ordinal("pod") is None


def test_the_acceptor_is_of_a_size_to_keep() -> None:
    """States that lead to the same ends are one: without that there are fifty times as many, which load slowly."""
    states: set[int] = set()
    to_see = [acceptor()]
    while to_see:
        step = to_see.pop()
        if id(step) not in states:
            states.add(id(step))
            to_see += [s for kind, s in step.items() if kind]
    assert len(states) < 3_000
