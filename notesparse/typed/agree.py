"""Two readings of one page word by word: what both read, and where they differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from notesparse.lazy import dataclass
from notesparse.typed.layout import letter_width
from notesparse.typed.recognise import Word
from notesparse.typed.strips import Strips

SURE = 60
"""A word that only the second reading has is taken from this confidence on: below, it is a speck."""

UNSURE = 50.0
"""How sure a word is at most where the other reading has something else there that cannot be put in its place."""

PARTED = 1.5
"""Letters: a gap as wide as this is one between columns."""

_STRAIGHT = str.maketrans({"’": "'", "‘": "'", "“": '"', "”": '"', "—": "-", "–": "-"})


@dataclass(frozen=True, slots=True)
class Seen:
    """A word of the page as it is taken. `other` is what the other reading has in its place: None, the same; empty,
    nothing."""

    word: Word
    other: str | None = None


def agree(rows: Sequence[Sequence[Word]], closed: Strips, second: Sequence[Word]) -> list[list[Seen]]:
    """The words of each row, from left to right. `second` is what was read in the closed-up page of these rows."""
    letter = letter_width([w for row in rows for w in row])
    found: list[list[Word]] = [[] for _ in rows]
    for word in second:
        place = closed.place(word)
        if place is not None:
            number, left, right = place
            level = rows[number][0]
            found[number].append(
                replace(
                    word, left=round(left), right=max(round(left) + 1, round(right)), top=level.top, bottom=level.bottom
                )
            )
    return [_row(row, sorted(other, key=lambda w: w.left), letter) for row, other in zip(rows, found, strict=True)]


def _row(first: Sequence[Word], second: Sequence[Word], letter: float) -> list[Seen]:
    out: list[Seen] = []
    for ours, theirs in _clusters(first, second):
        if not theirs:
            out += [Seen(w, "") for w in ours]
        elif not ours:
            kept = [w for w in theirs if w.sure >= SURE and any(c.isalnum() for c in w.text)]
            out += [Seen(w, "") for w in kept]
        else:
            out += _one_of(ours, theirs, letter)
    return sorted(out, key=lambda s: s.word.left)


def _one_of(ours: list[Word], theirs: list[Word], letter: float) -> list[Seen]:
    """The same stretch of a line read twice: the surer reading, with the other one beside it."""
    a, b = _text(ours), _text(theirs)
    if len(ours) == len(theirs) > 1:
        return [seen for x, y in zip(ours, theirs, strict=True) for seen in _one_of([x], [y], letter)]
    if plain(a) == plain(b):
        return [Seen(_surer(x, y)) for x, y in zip(ours, theirs, strict=True)]
    if plain(a).replace(" ", "") == plain(b).replace(" ", ""):  # only the blanks differ: they can be measured
        return [Seen(w) for w in max(ours, theirs, key=lambda words: _spaced(words, letter))]
    if len(ours) != len(theirs) and (_parted(ours, letter) or _parted(theirs, letter)):
        return _cells(*((ours, b) if _parted(ours, letter) else (theirs, a)))
    best, other = (ours, b) if _sure(ours) >= _sure(theirs) else (theirs, a)
    return [Seen(best[0] if len(best) == 1 else _joined(best), other)]


def _parted(words: Sequence[Word], letter: float) -> bool:
    """Whether between two of the words there is a gap as between columns."""
    return any(b.left - a.right > PARTED * letter for a, b in pairwise(words))


def _cells(words: Sequence[Word], other: str) -> list[Seen]:
    """Words that stand in columns apart, and that the other reading ran together: each for itself, no surer than the
    other reading lets it be."""
    alike = _bare(_text(words)) == _bare(other)
    return [Seen(w if alike else replace(w, sure=min(w.sure, UNSURE))) for w in words]


def _bare(text: str) -> str:
    return "".join(c for c in text if c.isalnum()).casefold()


def plain(text: str) -> str:
    """A reading with what says nothing evened out: quotation marks, and the full stop or comma behind a word."""
    return text.translate(_STRAIGHT).rstrip(".,;:")


def _surer(x: Word, y: Word) -> Word:
    """The word once it was read the same twice: as sure as the surer reading."""
    return replace(x, sure=max(x.sure, y.sure))


def _spaced(words: Sequence[Word], letter: float) -> float:
    """How well blanks between words fit the page: a gap wide as a letter between two words, none within one."""
    width = sum(abs((w.right - w.left) - letter * len(w.text)) for w in words)
    return -width / letter


def _text(words: Sequence[Word]) -> str:
    return " ".join(w.text for w in words)


def _sure(words: Sequence[Word]) -> float:
    return min(w.sure for w in words)


def _joined(words: Sequence[Word]) -> Word:
    return Word(
        _text(words),
        words[0].left,
        min(w.top for w in words),
        words[-1].right,
        max(w.bottom for w in words),
        _sure(words),
    )


def _clusters(first: Sequence[Word], second: Sequence[Word]) -> list[tuple[list[Word], list[Word]]]:
    """Words of both readings that lie over each other, as small groups in the order of the line."""
    groups: list[tuple[list[Word], list[Word]]] = []
    for which, word in sorted(
        [*((0, w) for w in first), *((1, w) for w in second)], key=lambda p: (p[1].left + p[1].right, p[0])
    ):
        over = [g for g in groups if any(_over(word, w) for w in (g[1] if which == 0 else g[0]))]
        if not over:
            groups.append(([word], []) if which == 0 else ([], [word]))
            continue
        home = over[0]
        for other in over[1:]:
            home[0].extend(other[0])
            home[1].extend(other[1])
            groups.remove(other)
        home[which].append(word)
    for group in groups:
        group[0].sort(key=lambda w: w.left)
        group[1].sort(key=lambda w: w.left)
    return groups


def _over(a: Word, b: Word) -> bool:
    common = min(a.right, b.right) - max(a.left, b.left)
    return common > 0.35 * min(a.right - a.left, b.right - b.left)
