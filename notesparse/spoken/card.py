"""The card of `notesparse words`: the lines of `grammar/card.toml`, the words of their forms drawn from the sampler."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import lru_cache
from typing import Any
from zlib import crc32

from notesparse.errors import VocabularyError
from notesparse.language.card import Line, Matter, lines
from notesparse.lazy import dataclass, pattern
from notesparse.spoken.draw import Draw
from notesparse.spoken.order import read_items
from notesparse.spoken.sampler import Token, plain_spelling, row_of, short_rows, small_numbers

_FORM = pattern(r"\{([^{}]*)\}")
_NUMBER = pattern(r"#(\d)([+-]\d+)?")
_SHARE = pattern(r"#(\d)/#(\d)")
_TRIES = 200
_SIZES = (Fraction(3, 16), Fraction(1, 4), Fraction(3, 8))  # inches: a pod of R3 and a seed of R5 can be so long
_PLACES = (2, 4)  # among the four uppermost nodes, which decide
_TENTHS = ((1, 4), (1, 9))
_NAMED = frozenset({"R", "V"})  # letters that are written in one with their number
_ENDS = {1: "st", 2: "nd", 3: "rd"}

Value = int | Fraction


@dataclass(frozen=True, slots=True)
class Drawn:
    """Words that were drawn, and the phrase and form of the grammar that they are: `pods/pod_len`."""

    form: str
    words: str


@dataclass(frozen=True, slots=True)
class Example:
    """What can be said, what the record takes from it, facts that the last plant then has, and what of it was drawn."""

    say: str
    gives: str
    facts: Mapping[str, Any]
    drawn: tuple[Drawn, ...]


@dataclass(frozen=True, slots=True)
class Topic:
    """Examples of one matter."""

    title: str
    examples: tuple[Example, ...]


@lru_cache(maxsize=1)
def card() -> tuple[Topic, ...]:
    """The topics of the card, in order: the same words in every run. Raises `VocabularyError` where the file names a
    form or a number that is not there."""
    return fill(lines())


def fill(matters: Sequence[Matter]) -> tuple[Topic, ...]:
    """The card of these lines. What a line draws follows from its own text, so that no line changes another."""
    seen: set[str] = set()
    topics = []
    for matter in matters:
        examples = []
        for line in matter.lines:
            examples.append(_example(line, seen))
            seen.add(examples[-1].say)
        topics.append(Topic(matter.title, tuple(examples)))
    return tuple(topics)


def _example(line: Line, seen: set[str]) -> Example:
    """The line with the first words drawn that are on the card nowhere else, and say no number twice."""
    draw = Draw(crc32(line.say.encode()))
    for _ in range(_TRIES):
        values: list[Value] = []
        drawn: list[Drawn] = []

        def words(found: re.Match[str], values: list[Value] = values, drawn: list[Drawn] = drawn) -> str:
            form, _, row = found[1].partition(":")
            said, more = _written(_tokens(form.strip(), row, draw), draw)
            values += more
            drawn.append(Drawn(form.strip(), said))
            return said

        say = _FORM.sub(words, line.say)
        if say not in seen and len(set(values)) == len(values):
            facts = {key: _fact(value, values, line.say) for key, value in line.facts.items()}
            return Example(say, _counted(line.gives, values, line.say), facts, tuple(drawn))
    raise VocabularyError(f"card.toml: {line.say!r} finds no words that are not on the card")


def _tokens(form: str, row: str, draw: Draw) -> list[Token]:
    """What is to be spelled: the row that is named, else one of the shortest of the form."""
    kinds = short_rows(form)
    if not kinds:
        raise VocabularyError(f"card.toml: {form!r} is no form that is said")
    tokens = row_of(read_items(row, "card.toml"), draw) if row.strip() else [(k, "", 0, 0) for k in draw.one_of(kinds)]
    return small_numbers(tokens, draw)


def _written(tokens: Sequence[Token], draw: Draw) -> tuple[str, list[Value]]:
    """The tokens as people write them, figures as figures, and the values of the numbers among them."""
    out = ""
    values: list[Value] = []
    before = ""
    for kind, word, low, _ in tokens:
        if kind == "INT":
            values.append(low)
            word = str(low)
        elif kind == "ORD":
            values.append(draw.whole(*_PLACES))
            word = f"{values[-1]}{_ENDS.get(int(values[-1]), 'th')}"
        elif kind == "FRAC":
            values.append(draw.one_of(_SIZES))
            word = str(values[-1])
        elif kind == "DEC":
            whole, tenth = (draw.whole(*ends) for ends in _TENTHS)
            values.append(Fraction(10 * whole + tenth, 10))
            word = f"{whole}.{tenth}"
        elif kind:
            word = kind if kind in _NAMED else plain_spelling(kind)
        out += word if before in _NAMED or not out else " " + word
        before = kind
    return out, values


def _value(at: str, more: str | None, values: Sequence[Value], line: str) -> Value:
    if not 0 < int(at) <= len(values):
        raise VocabularyError(f"card.toml: {line!r} draws {len(values)} numbers, so there is no #{at}")
    return values[int(at) - 1] + int(more or 0)


def _share(share: re.Match[str], values: Sequence[Value], line: str) -> float:
    part, of = (_value(at, None, values, line) for at in share.groups())
    return float(100 * Fraction(part) / Fraction(of))


def _counted(text: str, values: Sequence[Value], line: str) -> str:
    """`#1` is the first number that was drawn, `#1-1` one less, `#1/#2` a share in percent."""
    text = _SHARE.sub(lambda share: f"{_share(share, values, line):g}", text)
    return _NUMBER.sub(lambda number: str(_value(number[1], number[2], values, line)), text)


def _fact(fact: Any, values: Sequence[Value], line: str) -> Any:
    """A fact with its numbers: `#1`; `#1 in` and `#1 mm` in millimetres; `to #1` every number up to it; `#1/#2` a share
    in percent."""
    if isinstance(fact, list):
        return [_fact(part, values, line) for part in fact]
    if not isinstance(fact, str) or not (number := _NUMBER.search(fact)):
        return fact
    if share := _SHARE.search(fact):
        return _share(share, values, line)
    value = _value(number[1], number[2], values, line)
    if fact.startswith("to "):
        return list(range(1, int(value) + 1))
    if fact.endswith(" in"):
        return float(value * Fraction(254, 10))
    return float(value) if fact.endswith(" mm") else int(value)
