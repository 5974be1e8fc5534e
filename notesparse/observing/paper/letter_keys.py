"""Keys that explain letters line by line, with no = between: `key to the letters:   g   every pod green` (guide 4.21).

Only letters that stand behind the numbers of plants (`1 g   2 b   3 t`) are explained so, and each line of the key tells
one of them. Pairs that nobody explains are unread: `8 b   9 t` counts nothing.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from notesparse.language.columns import squeeze
from notesparse.language.cues import cue_page
from notesparse.observing.paper.keys import OPENERS, Sign, organ_named, told
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_LISTED = cue_page("paper/letter_keys")

_FEWEST = 3  # pairs
_OPENING = OPENERS | _LISTED.words("opening")
_BETWEEN = frozenset({",", ";", ":", "-", ".", ")", "=", "#"})
_LINKS = _LISTED.words("links")
_MOST_LETTERS = 2


def letters_paired(lattice: Lattice, line: Line) -> set[str]:
    """The letters of a line that is pairs of a number and a letter from end to end, the numbers counting up."""
    pieces = lattice.pieces
    own = [i for i in range(line.start, line.end) if pieces[i].text not in _BETWEEN]
    numbers, letters = own[::2], own[1::2]
    if len(numbers) != len(letters) or len(letters) < _FEWEST:
        return set()
    if any(pieces[i].form != "int" for i in numbers) or any(not _a_letter(lattice, i) for i in letters):
        return set()
    counted = [int(pieces[i].text) for i in numbers]
    if any(b != a + 1 for a, b in itertools.pairwise(counted)):
        return set()
    said = [pieces[i].text for i in letters]
    return set(said) if len(set(said)) < len(said) else set()


def _a_letter(lattice: Lattice, i: int) -> bool:
    word = lattice.pieces[i].text
    return lattice.pieces[i].form == "word" and word.isalpha() and len(word) <= _MOST_LETTERS


def letter_key(lattice: Lattice, lines: Sequence[Line]) -> list[tuple[Line, int, Sign | None]]:
    """The lines of such a key: each with the piece where it begins, and the sign that it explains (None: it only opens the key)."""
    paired = {n.number: letters_paired(lattice, n) for n in lines}
    letters = {x for found in paired.values() for x in found}
    out: list[tuple[Line, int, Sign | None]] = []
    opened: Line | None = None
    organ: str | None = None
    for line in lines:
        if line.blank or paired[line.number]:
            continue
        start = _behind_opener(lattice, line)
        if start == line.end:
            opened = line
            continue
        sign = _explained(lattice, start, line.end, letters, organ)
        if sign is None:
            opened = None
            continue
        if opened is not None:
            out.append((opened, opened.start, None))
            opened = None
        organ = sign.organ
        out.append((line, line.start, sign))
    told_of = {s.text for _, _, s in out if s is not None}
    return out if len(told_of) >= _MOST_LETTERS and len(told_of) == sum(s is not None for _, _, s in out) else []


def _behind_opener(lattice: Lattice, line: Line) -> int:
    """Where a line goes on behind `key to the letters:`; its start where it does not open a key."""
    k = line.start
    while k < line.end and lattice.pieces[k].text in _OPENING:
        k += 1
    said = {lattice.pieces[i].text for i in range(line.start, k)}
    if k > line.start and said & (OPENERS | {"letter", "letters"}) and (k == line.end or lattice.pieces[k].text == ":"):
        return min(k + 1, line.end)
    return line.start


def _explained(lattice: Lattice, a: int, b: int, letters: set[str], organ: str | None) -> Sign | None:
    """`g   every pod green`, `g - every pod green`: the letter, and words of the trade."""
    pieces = lattice.pieces
    if a + 1 >= b or pieces[a].text not in letters or not _a_letter(lattice, a) or pieces[a + 1].glued:
        return None
    k = a + 1
    while k < b and pieces[k].text in _LINKS:
        k += 1
    linked = k > a + 1 or pieces[k].gap > 1
    while b > k and pieces[b - 1].text in ".;,":
        b -= 1
    if k >= b or not linked or not told(lattice, k, b) or pieces[k].form != "word":
        return None
    return Sign(squeeze(lattice.original(a, a + 1)), (a, a + 1), (k, b), None, organ=organ_named(lattice, k, b, organ))
