"""Spoken notes made up from the grammar: phrases of the acceptor in the order of a walk, spelled in spoken words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import lru_cache
from math import sqrt

from notesparse.language.unroll import Step, acceptor
from notesparse.lazy import dataclass
from notesparse.spoken import numerals
from notesparse.spoken.draw import Draw, Weighted
from notesparse.spoken.order import Item, Order, Row, order
from notesparse.spoken.spellings import meanings

Token = tuple[str, str, int, int]
"""What is to be spelled: (kind, the word itself or "", lowest, highest); a plain word has the kind ""."""

FIELD = "a field's name"
"""Stands among the kinds for the name of a field, where own names are given."""
USUAL = 0.7  # of what is said for a kind that has usual ways of being said
_LONGEST = 8  # kinds in one phrase: longer lists say nothing new
_NUMBERS = frozenset({"INT", "FRAC", "DEC", "ORD", "YEAR", "LETTER"})  # kinds that are made of number words
_SHARE = frozenset({"OF", "OUTOF", "IN"})
_RISING = _SHARE | {"THRU", "TO", "OR", "AND"}
_LETTERS = frozenset({"R", "V", "PLANT", "PLETTER"})
_YEARS = (2015, 2030)
_SIXTEENTHS = (Fraction(1, 8), Fraction(3, 16), Fraction(1, 4), Fraction(5, 16), Fraction(3, 8), Fraction(1, 2))
_SIZES = (
    *((size, 4.0) for size in _SIXTEENTHS),
    (Fraction(3, 4), 8.0),
    *((Fraction(n, 16), 1.0) for n in (1, 7, 9, 11, 13, 15)),
    *((Fraction(n, 8), 2.0) for n in (5, 7)),
    *((whole + Fraction(n, 4), 1.0) for whole in (1, 2) for n in (1, 2, 3)),
)


@dataclass(frozen=True, slots=True)
class _Phrases:
    """Every phrase of the acceptor that can be spoken: phrase or form -> its rows of kinds."""

    forms: dict[str, Weighted[tuple[str, ...]]]
    phrases: dict[str, Weighted[str]]


@dataclass(frozen=True, slots=True)
class Spellings:
    """What is said for a kind: all of it, and the few ways that are usual."""

    all: Weighted[tuple[str, ...]]
    usual: tuple[tuple[str, ...], ...]

    def drawn(self, draw: Draw) -> tuple[str, ...]:
        if self.usual and draw.number() < USUAL:
            return draw.one_of(self.usual)
        return self.all.drawn(draw)


@lru_cache(maxsize=1)
def spellings() -> dict[str, Spellings]:
    """Token kind -> what is said for it. A meaning weighs the root of its spellings, so that many ways of saying one
    thing do not drown the others."""
    said: dict[str, Spellings] = {}
    for kind, some in meanings().items():
        rows = [(words, sqrt(len(m.say)) / len(m.say)) for m in some for words in m.say]
        said[kind] = Spellings(Weighted(rows), order().usual.get(kind, ()))
    return said


def spoken_kinds() -> frozenset[str]:
    """The kinds that have a spoken form."""
    return frozenset(spellings()) | _NUMBERS


def _paths(step: Step, kinds: tuple[str, ...]) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    for phrase, form in step.get("", ()):
        yield phrase, form, kinds
    if len(kinds) < _LONGEST:
        for kind, then in step.items():
            if kind and kind in spoken_kinds():
                yield from _paths(then, (*kinds, kind))


@lru_cache(maxsize=1)
def _phrases() -> _Phrases:
    rows: dict[str, dict[str, list[tuple[str, ...]]]] = {}
    for phrase, form, kinds in _paths(acceptor(), ()):
        if f"{phrase}/{form}" in order().unsaid:
            continue
        rows.setdefault(phrase, {}).setdefault(form, []).append(kinds)
    forms = {
        f"{phrase}/{form}": Weighted([(kinds, 0.5 ** (len(kinds) - min(map(len, some)))) for kinds in some])
        for phrase, inside in rows.items()
        for form, some in inside.items()
    }
    phrases = {
        phrase: Weighted([(f"{phrase}/{form}", sqrt(len(some))) for form, some in inside.items()])
        for phrase, inside in rows.items()
    }
    return _Phrases(forms, phrases)


@lru_cache(maxsize=1)
def _tables() -> tuple[Weighted[Row], dict[str, Weighted[Row]]]:
    o = order()
    parts = {part: Weighted([(row, row[1]) for row in rows]) for part, rows in o.parts.items()}
    return Weighted([(row, row[1]) for row in o.breaths]), parts


def _tokens(items: tuple[Item, ...], draw: Draw, parts: dict[str, Weighted[Row]], named: bool) -> Iterator[Token]:
    for item in items:
        if item.maybe and draw.number() < 0.5:
            continue
        if item.sort == "part" and item.what == "name" and named:
            yield FIELD, "", 0, 0
        elif item.sort == "part":
            yield from _tokens(parts[item.what].drawn(draw)[0], draw, parts, named)
        elif item.sort in {"phrase", "form"}:
            form = _phrases().phrases[item.what].drawn(draw) if item.sort == "phrase" else item.what
            for kind in _phrases().forms[form].drawn(draw):
                yield kind, "", 0, 0
        elif item.sort == "number":
            yield "INT", "", item.low, item.high
        elif item.sort == "name":
            yield "", draw.one_of(order().names), 0, 0
        else:
            yield ("", item.what, 0, 0) if item.sort == "word" else (item.what, "", 0, 0)


def _range(kinds: list[str], i: int, o: Order) -> tuple[int, int]:
    """Between what the whole number at i lies, by the kinds beside it."""
    before = kinds[i - 1] if i else ""
    behind = kinds[i + 1] if i + 1 < len(kinds) else ""
    if i > 2 and kinds[i - 3] == "R" and before in _RISING:
        before = "R"
    return o.numbers.get(f"{before} INT") or o.numbers.get(f"INT {behind}") or o.numbers["INT"]


def _whole_numbers(tokens: list[Token], draw: Draw) -> dict[int, int]:
    """Place among the tokens -> whole number. The second of two that belong together (six of ten, three to five) is
    not the smaller."""
    kinds = [kind for kind, _, _, _ in tokens]
    out: dict[int, int] = {}
    top: dict[int, int] = {}
    for i, (kind, _, low, high) in enumerate(tokens):
        if kind == "INT":
            if not high:
                low, high = _range(kinds, i, order())
            k = i - 1 if i and kinds[i - 1] not in _LETTERS else i - 2
            if k > 0 and kinds[k] in _RISING and k - 1 in out and out[k - 1] < max(high, top[k - 1]):
                low, high = out[k - 1], high if kinds[k] in _SHARE else top[k - 1]
                low, high = low, max(low, high)
            out[i], top[i] = draw.whole(low, high), high
    return out


def _said(token: Token, kinds: list[str], i: int, numbers: dict[int, int], draw: Draw) -> tuple[str, ...] | list[str]:
    kind, word, _, _ = token
    if not kind:
        return (word,)
    if kind == "INT":
        return numerals.whole(numbers[i])
    if kind == "ORD":
        return numerals.ordinal(draw.whole(1, 31 if "MONTH" in kinds[max(i - 2, 0) : i + 3] else 20))
    if kind == "DEC":
        r = "R" in kinds[max(i - 3, 0) : i]
        whole, tenth = (draw.whole(1, 7), 5) if r else (draw.whole(0, 5), draw.whole(1, 9))
        return numerals.decimal(f"{whole or ''}.{tenth}")
    if kind == "FRAC" and "R" in kinds[max(i - 2, 0) : i]:
        return ("and", "a", "half") if draw.number() < 0.5 else ("half",)
    if kind == "FRAC":
        return _fraction(_SIZE.drawn(draw), draw)
    if kind == "YEAR":
        return numerals.year(draw.whole(*_YEARS))
    if kind == "LETTER":
        return (draw.one_of("abcdef"),)
    return spellings()[kind].drawn(draw)


_SIZE = Weighted(_SIZES)


def _fraction(size: Fraction, draw: Draw) -> list[str]:
    """A size in one of the ways that people say it."""
    said = numerals.fraction(size)
    if said in (["half"], ["quarter"]) and draw.number() < 0.4:
        return [draw.one_of(("a", "one")) if said == ["quarter"] else "a", *said]
    if said == ["one", "eighth"] and draw.number() < 0.3:
        return ["an", "eighth"]
    if said == ["three", "quarters"] and draw.number() < 0.5:
        return ["three", "quarter"]
    return said


def sentence(
    draw: Draw, instead: Mapping[str, tuple[tuple[str, ...], ...]] | None = None, came_up: list[str] | None = None
) -> list[str]:
    """One breath of a walk, word by word. `instead` are the only ways of saying a kind, or a `FIELD`; the kinds of them
    that came up are put into the list."""
    breaths, parts = _tables()
    own = instead or {}
    tokens = list(_tokens(breaths.drawn(draw)[0], draw, parts, FIELD in own))
    if came_up is not None:
        came_up += [kind for kind, _, _, _ in tokens if kind in own]
    return _spelled(tokens, draw, own)


def _spelled(tokens: list[Token], draw: Draw, instead: Mapping[str, tuple[tuple[str, ...], ...]]) -> list[str]:
    kinds = [kind for kind, _, _, _ in tokens]
    numbers = _whole_numbers(tokens, draw)
    said = (
        draw.one_of(instead[kind]) if kind in instead else _said(token, kinds, i, numbers, draw)
        for i, (token, kind) in enumerate(zip(tokens, kinds, strict=True))
    )
    return [word for words in said for word in words]


def sentences(seed: int, count: int) -> list[list[str]]:
    """So many breaths, the same for the same seed: spoken words in small letters, figures spelled out."""
    draw = Draw(seed)
    out: list[list[str]] = []
    while len(out) < count:
        if words := sentence(draw):
            out.append(words)
    return out


def phrases(seed: int, count: int) -> list[tuple[str, list[str]]]:
    """So many single phrases of the acceptor, with the phrase that each is meant as: every form as often as another."""
    draw = Draw(seed)
    out: list[tuple[str, list[str]]] = []
    forms = sorted(_phrases().forms)
    for _ in range(count):
        form = draw.one_of(forms)
        tokens = [(kind, "", 0, 0) for kind in _phrases().forms[form].drawn(draw)]
        out.append((form, _spelled(tokens, draw, {})))
    return out


_FEW = (2, 12)
"""Whole numbers of an example, where its row names no others: plain to see, and more than one of what is counted."""


def short_rows(form: str) -> list[tuple[str, ...]]:
    """The shortest rows of kinds of a form; none if nothing that is said is of that form."""
    rows = _phrases().forms[form].things if form in _phrases().forms else []
    return [kinds for kinds in rows if len(kinds) == min(map(len, rows))]


def row_of(items: tuple[Item, ...], draw: Draw) -> list[Token]:
    """What is to be spelled for a row of `order.toml`'s notation."""
    return list(_tokens(items, draw, _tables()[1], False))


def small_numbers(tokens: list[Token], draw: Draw) -> list[Token]:
    """The tokens with each whole number drawn, as its lowest and highest; a small one where the row leaves it open."""
    kinds = [kind for kind, _, _, _ in tokens]
    bound = list(tokens)
    for i, (kind, word, _, high) in enumerate(tokens):
        if kind == "INT" and not high:
            least, most = _range(kinds, i, order())
            low = max(least, _FEW[0])
            bound[i] = (kind, word, low, max(low, min(most, _FEW[1])))
    drawn = _whole_numbers(bound, draw)
    for i, n in drawn.items():
        kind, word, low, high = bound[i]
        bound[i] = (kind, word, low, high) if low == high else (kind, word, n, n)  # a number that is named stays
    return bound


_SIGNS = frozenset({"MM", "CM"})  # units that are written by their sign


def plain_spelling(kind: str) -> str:
    """How a kind is written in an example: the first of its usual ways of being said; else the first spelling of its
    first meaning, in the plural where the word file has that."""
    if kind in _SIGNS:
        return kind.lower()
    if usual := order().usual.get(kind):
        return " ".join(usual[0])
    said = [" ".join(words) for words in meanings()[kind][0].say]
    return said[0] + "s" if said[0] + "s" in said else said[0]


def every_spelling() -> list[list[str]]:
    """Every way of saying every kind, once, so that the model has heard each."""
    return [list(words) for some in meanings().values() for m in some for words in m.say]
