"""A note's text with other words in the place of some, and spans of the one text in the other."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from notesparse.span import Span

NOT_KNOWN = "[illegible]"
"""Stands for words of which nothing is known: the reading takes it for a stretch that nobody can read (guide 4.21), and
joins nothing across it."""


class Words(Protocol):
    """A text that is read in the place of another one. `words` has what is said at spans of that one (None: nothing is
    known), `back` gives a span of `text` as a span of it, and `there` the other way. Spans are in characters."""

    text: str

    @property
    def words(self) -> Mapping[Span, str | None]: ...

    def back(self, span: Span) -> Span: ...

    def there(self, span: Span) -> Span: ...


class Behind:
    """A text that is read in the place of another one, which itself stands for the note's own."""

    def __init__(self, first: Words, then: Words) -> None:
        self.first, self.then = first, then
        self.text = then.text

    @property
    def words(self) -> Mapping[Span, str | None]:
        return self.first.words

    def back(self, span: Span) -> Span:
        return self.first.back(self.then.back(span))

    def there(self, span: Span) -> Span:
        return self.then.there(self.first.there(span))


class Instead:
    """`text` is the note's text with other words at some spans, which do not overlap; None: nothing is known of them.

    `back` gives a span of that text as a span of the note's own, `there` the other way. What touches replaced words
    covers them whole.
    """

    def __init__(self, own: str, words: Mapping[Span, str | None]) -> None:
        self.own, self.words = own, dict(sorted(words.items()))
        self._there: list[tuple[Span, Span]] = []  # (in the note, in the text that is read)
        parts: list[str] = []
        at = length = 0
        for span, said in self.words.items():
            new = NOT_KNOWN if said is None else said
            parts += [own[at : span.start], new]
            length += span.start - at
            self._there.append((span, Span(length, length + len(new))))
            at, length = span.end, length + len(new)
        self.text = "".join([*parts, own[at:]])
        self._back = [(new, old) for old, new in self._there]

    def back(self, span: Span) -> Span:
        return _moved(span, self._back)

    def there(self, span: Span) -> Span:
        return _moved(span, self._there)


def _moved(span: Span, pairs: list[tuple[Span, Span]]) -> Span:
    start, end = _edge(span.start, pairs, first=True), _edge(span.end, pairs, first=False)
    return Span(start, end) if span.start < span.end else Span(start, start)


def _edge(at: int, pairs: list[tuple[Span, Span]], first: bool) -> int:
    """Where an edge of a span comes to stand: inside replaced words it goes to their own edge."""
    shift = 0
    for here, there in pairs:
        if at < here.start or (at == here.start and not first):
            break
        if at < here.end:
            return there.start if first else there.end
        shift = there.end - here.end
    return at + shift
