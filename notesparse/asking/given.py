"""Answers that were given, held against the questions as they arise."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from notesparse.asking.weigh import plain
from notesparse.lazy import dataclass
from notesparse.outcome import Answer
from notesparse.span import Span


@dataclass(frozen=True, slots=True)
class Found:
    """The answer to a question: which choice it is (or the words of another value), and the values that hold."""

    answer: int | str
    values: Mapping[str, Any]


class Given:
    """The answers of one note that have not found their question yet."""

    def __init__(self, answers: Sequence[Answer], back: Callable[[Span], Span]) -> None:
        self.left: list[Answer] = list(answers)
        self._back = back  # a span of the text that is read, as one of the note's own text

    def take(
        self, rule: str, span: Span, plant: str | None, choices: Sequence[tuple[str, Mapping[str, Any]]]
    ) -> Found | None:
        """The answer to the question about these words, which is then used up; None where there is none."""
        fitting = [a for a in self.left if a.span == self._back(span) and a.rule == rule]
        if not fitting:
            return None
        answer = next((a for a in fitting if a.plant == plant), None)
        if answer is None and len(fitting) == 1 and _offers(choices, fitting[0]) is not None:
            answer = fitting[0]  # the plant goes by another name since another question was answered
        if answer is None:
            return None
        self.left.remove(answer)
        at = _offers(choices, answer)
        if at is not None:
            return Found(at, choices[at][1])
        return Found(_said(answer.values), answer.values)


def _offers(choices: Sequence[tuple[str, Mapping[str, Any]]], answer: Answer) -> int | None:
    """The choice that has the answer's values; of several the one with its words."""
    same = [i for i, (_, changes) in enumerate(choices) if values_of(changes) == values_of(answer.values)]
    named = [i for i in same if choices[i][0] == answer.reading]
    return next(iter(named or same), None)


def values_of(changes: Mapping[str, Any]) -> dict[str, Any]:
    """What an answer sets, as it is kept: plain values, in the order of their names."""
    return {key: _settled(plain(value)) for key, value in sorted(changes.items())}


def _settled(value: Any) -> Any:
    if isinstance(value, (set, frozenset)):
        return sorted(value)
    if isinstance(value, float):
        return int(value) if value.is_integer() else round(value, 4)
    return [_settled(item) for item in value] if isinstance(value, list) else value


def _said(values: Mapping[str, Any]) -> str:
    return ", ".join(f"{key} {value}" for key, value in values_of(values).items())
