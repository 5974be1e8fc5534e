"""Doubts as they can be asked about: inside the note, of at least a word, each stretch once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from notesparse.lazy import pattern
from notesparse.outcome import Doubt
from notesparse.span import Span

_WORD = pattern(r"\S+")
_BLANKS = pattern(r"[^\S\r\n]+")  # line ends stay: they part what is said


def fitting(doubts: Iterable[Doubt], text: str) -> tuple[list[Doubt], list[Doubt]]:
    """(those that can be asked about, in the order of the note; those that lie outside of it).

    A doubt of no width (another hearing has a word more) takes in the word behind it, else the one before it. Doubts
    that overlap become one, about the words of both.
    """
    inside: list[Doubt] = []
    outside: list[Doubt] = []
    for doubt in doubts:
        found = _widened(replace(doubt, span=Span(*doubt.span)), text)
        if found is None:
            outside.append(doubt)
        else:
            inside.append(found)
    inside.sort(key=lambda d: d.span)
    out: list[Doubt] = []
    for doubt in inside:
        if out and out[-1].span.overlaps(doubt.span):
            out[-1] = _joined(out[-1], doubt, text)
        else:
            out.append(doubt)
    return [replace(d, others=_others(d, text)) for d in out], outside


def _widened(doubt: Doubt, text: str) -> Doubt | None:
    start, end = doubt.span
    if not 0 <= start <= end <= len(text):
        return None
    even = tuple(" ".join(other.split()) for other in doubt.others)
    if doubt.span.of(text).strip():
        return replace(doubt, others=even)
    spaced = replace(doubt, others=tuple(f" {other} " for other in even))
    word = _WORD.search(text, end)
    if word is not None:
        return _stretched(spaced, Span(start, word.end()), text)
    before = list(_WORD.finditer(text, 0, start))
    return _stretched(spaced, Span(before[-1].start(), end), text) if before else None


def _stretched(doubt: Doubt, span: Span, text: str) -> Doubt:
    """The doubt about more words: the words added are the same in every hearing."""
    left, right = text[span.start : doubt.span.start], text[doubt.span.end : span.end]
    return replace(doubt, span=span, others=tuple(left + other + right for other in doubt.others))


def _joined(one: Doubt, two: Doubt, text: str) -> Doubt:
    span = one.span.cover(two.span)
    wide, more = (_stretched(d, span, text) for d in (one, two))
    where = ", ".join(dict.fromkeys(w for w in (one.where, two.where) if w))
    return replace(wide, others=(*wide.others, *more.others), where=where)


def _others(doubt: Doubt, text: str) -> tuple[str, ...]:
    """The other hearings, each once, blanks evened out, without what stands in the note anyway."""
    words = (_BLANKS.sub(" ", other).strip(" ") for other in doubt.others)
    return tuple(dict.fromkeys(w for w in words if w.split() != doubt.span.of(text).split()))
