"""Spoken answers to the program's own questions: `grammar/spoken/answers.lark` as an automaton, and what each says."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from notesparse.language.cues import cue_page
from notesparse.language.folder import grammar_folder
from notesparse.language.grammar import compiled_rules
from notesparse.language.unroll import sequences
from notesparse.lazy import dataclass
from notesparse.spoken.automaton import Automaton, automaton
from notesparse.text.numbers import words_to_number

_LISTED = cue_page("spoken/answers")

_PARTS = _LISTED.table("parts", int)
_UNITS = _LISTED.table("units", str)


@dataclass(frozen=True, slots=True)
class Answered:
    """What was said to a question. `kind` is number, length, stage, yes, no, letter, skip, back, undo, stop or unknown;
    `value` is a Fraction for a number, a stage as `V5`, `VC` or `R5.5`, a small letter, for a length a Fraction of
    `unit`."""

    kind: str
    value: Fraction | str | None = None
    unit: str | None = None  # in, mm, cm or ft


@lru_cache(maxsize=1)
def answer_rows() -> tuple[tuple[tuple[str, ...], str], ...]:
    """Every answer that there is, word by word, with its kind."""
    text = (grammar_folder() / "spoken" / "answers.lark").read_text(encoding="utf-8")
    rules, spelled = compiled_rules(text, "answer", "grammar/spoken/answers.lark")
    rows: dict[tuple[tuple[str, ...], str], None] = {}
    memo: dict[str, list[tuple[str, ...]]] = {}
    for expansion, kind in rules["answer"]:
        for row in sequences({**rules, "answer": [(expansion, kind)]}, "answer", memo):
            rows[tuple(spelled[name] for name in row), str(kind)] = None
        memo.pop("answer")
    return tuple(rows)


def answer_automaton() -> Automaton:
    """The smallest automaton of all answers, made anew."""
    return automaton(answer_rows())


def answer_of(words: Sequence[str]) -> Answered | None:
    """What a recognised row of words says, or nothing if it is no answer."""
    from notesparse.spoken.compiled import compiled

    said = tuple(w.casefold() for w in words)
    kind = compiled().answers.accepts(said)
    if kind is None:
        return None
    if kind == "number":
        return Answered(kind, amount(said))
    if kind == "length":
        return Answered(kind, *_length(said))
    if kind == "stage":
        at = next(i for i, w in enumerate(said) if w in {"v", "r"})
        if said[-1] in {"e", "c"}:
            return Answered(kind, f"V{said[-1].upper()}")
        number = amount(said[at + 1 :])
        shown = str(number) if number.denominator == 1 else f"{float(number):g}"
        return Answered(kind, f"{said[at].upper()}{shown}")
    if kind == "letter":
        return Answered(kind, said[-1] if len(said[-1]) == 1 else said[-1][0])
    return Answered(kind)


def amount(said: Sequence[str]) -> Fraction:
    """How much number words are; a whole number, a decimal, a fraction, or a whole number and a fraction."""
    words = list(said)
    if words == ["none"]:
        return Fraction(0)
    low = _PARTS.get(words[-1])
    if low is not None:
        before = words[:-1]
        top = Fraction(1)
        if before and before[-1] not in {"a", "an"}:
            top = words_to_number((before[-1],)) or Fraction(1)
        whole = before[:-1]
        return (amount(whole[:-1]) if whole and whole[-1] == "and" else Fraction(0)) + top / low
    if words[0] == "a":
        words[0] = "one"
    found = words_to_number(tuple(words))
    if found is None:
        raise ValueError(f"no number: {' '.join(said)}")
    return found


def _length(said: Sequence[str]) -> tuple[Fraction, str]:
    """Half an inch, three quarters of an inch, an inch and a half, two point five centimeters."""
    words = list(said)
    if words[:2] == ["an", "inch"]:
        return Fraction(1) + (amount(words[3:]) if len(words) > 2 else 0), "in"
    unit = _UNITS[words.pop()]
    if words[-1] == "an":
        words.pop()
    if words[-1] == "of":
        words.pop()
    return amount(words), unit
