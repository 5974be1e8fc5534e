"""The facts of one plant with their words, as they are being settled."""

from __future__ import annotations

from typing import Any

from notesparse.facts import PlantFacts
from notesparse.span import Span


class Settled:
    """The facts of one plant with their words."""

    def __init__(self) -> None:
        self.values: dict[str, Any] = {}
        self.spans: dict[str, Span] = {}
        self.derived: list[str] = []
        self.inches: set[str] = set()
        self.stands: frozenset[str] = frozenset()  # scales (v, r) of which the stated stage stands, as was answered

    def put(self, key: str, value: Any, span: Span, derived: bool = False) -> None:
        self.values[key] = value
        self.spans[key] = span
        if derived and key not in self.derived:
            self.derived.append(key)

    def copy(self) -> Settled:
        """The same facts, to try an answer on."""
        out = Settled()
        out.values, out.spans, out.derived = dict(self.values), dict(self.spans), list(self.derived)
        out.inches, out.stands = set(self.inches), self.stands
        return out

    def facts(self) -> PlantFacts:
        return PlantFacts(**self.values, inch_lengths=frozenset(self.inches))
