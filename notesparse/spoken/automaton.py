"""A finite list of word rows as the smallest automaton that accepts them, and its text for a recogniser.

The rows are finite, so the smallest automaton comes of one pass from the ends: states with the same ways out are one
state (Revuz 1992, "Minimisation of acyclic deterministic automata in linear time").
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from notesparse.errors import GrammarError
from notesparse.lazy import dataclass

Node = dict[str, "Node"]


@dataclass(frozen=True, slots=True)
class Automaton:
    """States are counted from 0, the start; each has one arc a word at most. `ends`: what a row is that ends there."""

    arcs: tuple[dict[str, int], ...]
    ends: dict[int, str]

    @property
    def words(self) -> frozenset[str]:
        """Every word of the automaton."""
        return frozenset(word for ways in self.arcs for word in ways)

    def accepts(self, words: Sequence[str]) -> str | None:
        """What the row of words is, or nothing if it is none of the automaton."""
        state = 0
        for word in words:
            then = self.arcs[state].get(word)
            if then is None:
                return None
            state = then
        return self.ends.get(state)

    def fsg(self, name: str = "answers") -> str:
        """The text of a finite-state grammar for pocketsphinx. It knows one last state only, so an arc that may end is
        written twice, once to the last state; there is no empty arc. Ways out of a state are equally likely."""
        last = len(self.arcs)
        lines = []
        for state, ways in enumerate(self.arcs):
            out = [(to, word) for word, to in sorted(ways.items()) if self.arcs[to]]
            out += [(last, word) for word, to in sorted(ways.items()) if to in self.ends]
            lines += [f"TRANSITION {state} {to} {1 / len(out):.6f} {word}" for to, word in out]
        head = [f"FSG_BEGIN {name}", f"NUM_STATES {last + 1}", "START_STATE 0", f"FINAL_STATE {last}"]
        return "\n".join([*head, *lines, "FSG_END", ""])

    def write_fsg(self, path: Path, name: str = "answers") -> None:
        """`fsg` into a file."""
        path.write_text(self.fsg(name), encoding="utf-8")


def automaton(rows: Iterable[tuple[tuple[str, ...], str]]) -> Automaton:
    """The smallest automaton of rows of words, each with what it is. Raises GrammarError where a row is two things."""
    root: Node = {}
    for words, what in rows:
        node = root
        for word in words:
            node = node.setdefault(word, {})
        if node.setdefault("", {what: {}}) != {what: {}}:
            raise GrammarError(f"“{' '.join(words)}” is {next(iter(node['']))} and {what}")
    seen: dict[tuple[object, ...], int] = {}
    arcs: list[dict[str, int]] = []
    ends: list[str] = []

    def state(node: Node) -> int:
        ways = {word: state(then) for word, then in node.items() if word}
        what = next(iter(node[""])) if "" in node else ""
        key = (what, *sorted(ways.items()))
        if key not in seen:
            seen[key] = len(arcs)
            arcs.append(ways)
            ends.append(what)
        return seen[key]

    state(root)
    count = len(arcs)  # the root came last: counted from the end, it is 0
    turned = tuple({w: count - 1 - to for w, to in ways.items()} for ways in reversed(arcs))
    return Automaton(turned, {count - 1 - i: what for i, what in enumerate(ends) if what})
