"""Joins the `.lark` parts of `grammar/` into one phrase grammar over token kinds.

The parts share one namespace: every terminal is declared once in `terminals.lark`, no part imports another.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache

from lark import Lark, Token
from lark.exceptions import LarkError
from lark.lexer import Lexer

from notesparse.errors import GrammarError
from notesparse.language.folder import grammar_folder


class ReadyTokens(Lexer):
    """Hands Lark the tokens that the text pass has made: Lark sees kinds, never spellings."""

    def __init__(self, conf: object) -> None:
        pass

    def lex(self, tokens: Iterable[Token]) -> Iterator[Token]:  # type: ignore[override]
        yield from tokens


def grammar_parts() -> dict[str, str]:
    """File name to text of every `.lark` part."""
    return {f.name: f.read_text(encoding="utf-8") for f in grammar_folder().iterdir() if f.name.endswith(".lark")}


@lru_cache(maxsize=1)
def declared_kinds() -> frozenset[str]:
    """Every token kind that the grammar declares: the treaty between the text pass and the grammar."""
    text = grammar_parts()["terminals.lark"]
    kinds: set[str] = set()
    for line in text.splitlines():
        if line.startswith("%declare"):
            kinds.update(re.findall(r"[A-Z_][A-Z0-9_]*", line[len("%declare") :]))
    return frozenset(kinds)


def joined_grammar() -> str:
    """All parts in one text."""
    return "\n".join(text for _, text in sorted(grammar_parts().items()))


@lru_cache(maxsize=1)
def phrase_grammar() -> Lark:
    """The grammar of phrases as a Lark object (start symbol `phrase`): the oracle of the tests."""
    try:
        return Lark(
            joined_grammar(),
            parser="earley",
            start="phrase",
            lexer=ReadyTokens,
            maybe_placeholders=False,
            ambiguity="explicit",
        )
    except LarkError as fault:
        raise GrammarError(f"grammar/*.lark do not make one grammar: {fault}") from fault


Rules = dict[str, list[tuple[tuple[tuple[str, bool], ...], str]]]
"""Rule name to its alternatives, each (symbols with whether they are terminals, its alias or name)."""


def compiled_rules(text: str, start: str, name: str) -> tuple[Rules, dict[str, str]]:
    """The rules as Lark compiles them, without making a parser of them (that would take ten times as long), and what
    each terminal that is spelled out stands for; `name` is what a refusal calls the text."""
    from lark.load_grammar import load_grammar

    try:
        grammar, _ = load_grammar(text, name, [], False)  # type: ignore[no-untyped-call]
        terminals, compiled, _ = grammar.compile([start], "*")
    except LarkError as fault:
        raise GrammarError(f"{name} do not make one grammar: {fault}") from fault
    rules: Rules = {}
    for rule in compiled:
        symbols = tuple((symbol.name, bool(symbol.is_term)) for symbol in rule.expansion)
        rules.setdefault(rule.origin.name, []).append((symbols, rule.alias or rule.origin.name))
    return rules, {str(t.name): str(t.pattern.value) for t in terminals if t.pattern is not None}


@lru_cache(maxsize=1)
def _phrase_rules() -> Rules:
    return compiled_rules(joined_grammar(), "phrase", "grammar/*.lark")[0]


def grammar_rules() -> Rules:
    """The rules of phrases."""
    return {name: list(alternatives) for name, alternatives in _phrase_rules().items()}


@lru_cache(maxsize=1)
def kinds_in_rules() -> frozenset[str]:
    """The token kinds that some rule uses."""
    forms = (symbols for alternatives in grammar_rules().values() for symbols, _ in alternatives)
    return frozenset(name for symbols in forms for name, terminal in symbols if terminal)
