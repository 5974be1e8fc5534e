"""Which words of a page are doubtful, and what else each may be."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache

from notesparse.language.cache import known_words
from notesparse.lazy import pattern
from notesparse.outcome import Doubt
from notesparse.span import Span
from notesparse.typed.agree import Seen, plain

SURE = 90
"""Confidence under which a word that stands for a number or a stage is doubtful. Measured on typed pages of notes: it
catches seven of eight wrong figures, and doubts one right one in twelve."""

_LOOKS = dict(zip("lIi|!Oo@SsBZz", "1111100055822", strict=True))
_FIGURE = pattern(
    r"[#(]?(?:(?:p|pl|plt|v|r)-?)?\d{1,3}(?:[./-]\d{1,3})?(?:st|nd|rd|th|t|tf|tfs|n|nd|nds|in|mm|cm|\"|%)?[).,:;]?",
    re.IGNORECASE,
)
_ORDINAL = pattern(r"([^\W\d_]{1,2})(st|nd|rd|th)[).,:;]?")
_MORE_LOOKS = _LOOKS | dict(zip("aAqgbGT", "4499667", strict=True))
"""In an ordinal more letters stand for figures: `ath` was 4th, and no word."""
_RUN_TOGETHER = pattern(r"(\d)([1-9]|1[1-5])/(2|4|8|16)(?!\d)")
"""`1 1/4` with the gap lost: more than a whole, as nobody writes a fraction. Or it is a day."""
_STROKE = pattern(r"[/|\\](\d{1,3})|(\d{1,3})[/|\\]")
"""A figure with a stroke at its side: perhaps a line of the table, perhaps the rest of a fraction."""
_ALONE = {"q": ("9", "0"), "Q": ("0",), "D": ("0",), "g": ("9",)}
"""Letters that stand for nothing by themselves, and the figures they may be: 0 was read as `q`."""
_NUMBERED = pattern(r"([^\W\d_]{1,4})\d{1,2}[).,:;]?")
_LETTERS = 8
"""Longer words are no figure in disguise."""


def doubts_of(words: Sequence[tuple[Span, Seen]], lines: Sequence[int], name: str) -> Iterator[Doubt]:
    """The doubts of one page, in the order of its words. `lines` are their lines, from 0; `name` is the page's."""
    series = {m[1].casefold() for _, seen in words if (m := _NUMBERED.fullmatch(seen.word.text))}
    for (span, seen), line in zip(words, lines, strict=True):
        others = _others(seen, series)
        if others is not None:
            yield Doubt(span, others, f"line {line + 1} of {name}", "typed")


def _others(seen: Seen, series: set[str]) -> tuple[str, ...] | None:
    """What else a word may be; None where it is not doubtful."""
    text, other, sure = seen.word.text, seen.other, seen.word.sure
    found = [*_disguised(text, sure, series), *_ordinal(text), *_run_together(text), *_ALONE.get(text, ())]
    if stroke := _STROKE.fullmatch(text):
        found.append(stroke[1] or stroke[2])
    if other is not None and plain(other) != plain(text):
        if counts(text) or counts(other) or (other and _known(other)) or (_known(text) and sure < SURE):
            found.insert(0, other)
    if found:
        return tuple(dict.fromkeys(found))
    return () if counts(text) and sure < SURE else None


def counts(text: str) -> bool:
    """Whether a word stands for a number, a stage, or a mark that stands for the same as above."""
    if any(c.isdigit() for c in text):
        return True
    bare = plain(text).strip("()[]'\"").casefold()
    return bare in _number_words() or (bool(text) and not any(c.isalnum() for c in text))


@cache
def _number_words() -> frozenset[str]:
    from notesparse.language.vocabulary import pieces_of

    said = (
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred half quarter "
        "eighth eighths sixteenth sixteenths first second third fourth fifth sixth seventh eighth ninth tenth "
        "top all none no not nil"
    )
    return frozenset(piece for word in said.split() for piece in pieces_of(word))


def _known(text: str) -> bool:
    return plain(text).casefold().strip("()[]'\"") in known_words().singles


def _run_together(text: str) -> Iterator[str]:
    """A whole number and a fraction that were read as one figure."""
    found = _RUN_TOGETHER.match(text)
    if found is not None and int(found[2]) < int(found[3]) < int(found[1] + found[2]):
        yield f"{found[1]} {text[1:]}"


def _ordinal(text: str) -> Iterator[str]:
    """What an ordinal was whose figure was read as letters."""
    found = _ORDINAL.fullmatch(text)
    if found is not None and all(c in _MORE_LOOKS for c in found[1]) and not _known(text):
        yield "".join(_MORE_LOOKS[c] for c in found[1]) + text[found.end(1) :]


def _disguised(text: str, sure: float, series: set[str]) -> Iterator[str]:
    """A word of letters that looks like a figure: `pi` for `p1`, `ist` for `1st`."""
    if not text or len(text) > _LETTERS or not any(c in _LOOKS for c in text):
        return
    for at, letter in enumerate(text):
        if letter not in _LOOKS:
            continue
        for end in range(at + 1, len(text) + 1):
            if all(c in _LOOKS or c.isdigit() for c in text[at:end]):
                figure = text[:at] + "".join(_LOOKS.get(c, c) for c in text[at:end]) + text[end:]
                if (
                    figure != text
                    and _FIGURE.fullmatch(figure)
                    and (not _known(text) or text[:at].casefold() in series or sure < SURE)
                ):
                    yield figure
                    return
