"""Line ends in the middle of talk that runs on from plant to plant: `ONE BLOOM DOWN`, and on the next line `LOW PLANT 2 ...`.

Where labels count on in the middle of lines, a line is not what a plant is told in, and its end says nothing where the
next line begins with words of the stem that no plant, field or place is headed by.
"""

from __future__ import annotations

import re

from notesparse.language.cues import cue_page
from notesparse.lazy import pattern

_LISTED = cue_page("text/running")
_COMMON = cue_page("shared")

_FEWEST_LINES = 3
_FEWEST = 2  # lines with a label in the middle that counts on
_WIDE = pattern(r"\S {3,}\S|\t|\.{3,} *(?:pl|#|no)", re.I)
_ORDER = {word: n for n, word in enumerate(list(_LISTED.ordered("order")), start=1)}
_NUMBER = rf"(?:\d{{1,2}}|{'|'.join(_ORDER)})"
_LABEL = pattern(rf"(?:\b(?:pl|plt|plants?|p)\.? *#?|#)({_NUMBER})\b", re.I)
_LIKE = pattern(r"\b(?:same|as|like|than|of|on)\W*$", re.I)
_STEM = _LISTED.words("stem")
_HEADS = (
    _COMMON.words("low") | _COMMON.words("top") | _COMMON.words("upper_or_lower")
)  # alone, a place in the field as well
_NOT_FIRST = _LISTED.words("not_first")
_ORGAN_ENDS = _LISTED.words("organ_ends")
_UNFINISHED = _LISTED.words("unfinished")
_COUNTED = _LISTED.words("counted")
_WORD = pattern(r"[\w/]+")
_FIGURE = pattern(r"\d+(?:st|nd|rd|th)?|\d+/\d+", re.I)
_ENDS = (".", ";", ":", "!", "?")
_MOST_WORDS = 8
_SHORT = 2  # words of a last line that are no sentence of their own


def running_on(lines: list[str]) -> set[int]:
    """The lines whose end says nothing, by their place in the list."""
    out: set[int] = set()
    a = 0
    while a < len(lines):
        b = a
        while b < len(lines) and lines[b].strip():
            b += 1
        if b - a >= _FEWEST_LINES:
            out |= _of_paragraph(lines, a, b)
        a = b + 1
    return out


def _labels(line: str) -> list[tuple[int, int]]:
    """Where plants are named anew in a line, and their numbers."""
    found = [m for m in _LABEL.finditer(line) if not _LIKE.search(line[: m.start()])]
    return [(m.start(), _ORDER.get(m[1].lower()) or int(m[1])) for m in found]


def _of_paragraph(lines: list[str], a: int, b: int) -> set[int]:
    if any(_WIDE.search(line.strip()) for line in lines[a:b]):
        return set()  # columns
    labels = {k: _labels(lines[k]) for k in range(a, b)}
    first = next((k for k in range(a, b) if labels[k]), b)
    if all(_named_last(lines[k], labels[k]) if labels[k] else not _counts(lines[k]) for k in range(first, b)):
        return set()  # 12 tf, no bloom - plant 1: each line is of the plant at its own end
    counting: list[int] = []  # lines with a label that counts on, and words of the stem before it
    middle: set[int] = set()  # lines with a label in the middle that counts on
    last = 0
    for k in range(first, b):
        for at, n in labels[k]:
            inside = bool(lines[k][:at].strip())
            if inside and n == last + 1 and last > 0:
                middle.add(k)
            if inside and (at, n) == labels[k][0] and n == last + 1 and k > first and _of_the_stem(lines, k, at):
                counting.append(k)
            last = n
    if len(middle) < _FEWEST:
        return set()
    if all(_words(lines[k])[0] in {"no", "none"} for k in counting):
        counting = []  # no pods p3 10 tf: of which of the two?
    out = {k - 1 for k in counting}
    for k in range(first + 1, b):
        headed = bool(labels[k]) and not lines[k][: labels[k][0][0]].strip()
        if not headed and _goes_on(lines, k, bool(labels[k]), k == b - 1, len(counting) >= _FEWEST):
            out.add(k - 1)
    return {k for k in out if not lines[k].rstrip().endswith(_ENDS)}


def _counts(text: str) -> bool:
    return bool(set(_words(text)) & _COUNTED)


def _named_last(line: str, labels: list[tuple[int, int]]) -> bool:
    """Whether a line ends with the one plant that it names, behind what is counted."""
    if len(labels) != 1 or not _counts(line[: labels[0][0]]):
        return False
    ending = _LABEL.match(line, labels[0][0])
    return ending is not None and not line[ending.end() :].strip(" .)];,")


def _words(line: str) -> list[str]:
    return [w.lower() for w in _WORD.findall(line)]


def _of_the_stem(lines: list[str], k: int, at: int) -> bool:
    """Whether all the words before the label at `at` are of the stem and what it bears."""
    words, before = _words(lines[k][:at]), _words(lines[k - 1])
    if not 0 < len(words) <= _MOST_WORDS or not all(w in _STEM or _FIGURE.fullmatch(w) for w in words):
        return False
    return not (len(words) == 1 and words[0] in _HEADS) or before[-1:] == [] or before[-1] in _ORGAN_ENDS


def _goes_on(lines: list[str], k: int, labelled: bool, at_end: bool, often: bool) -> bool:
    """Whether the sentence of the line before goes on in line k."""
    words, before = _words(lines[k]), _words(lines[k - 1])
    if not words or not before:
        return False
    own = [m.end() for m in _LABEL.finditer(lines[k - 1].rstrip())][-1:] == [len(lines[k - 1].rstrip())]
    number = not own and (_FIGURE.fullmatch(before[-1]) is not None or before[-1] in _ORDER)
    each = before[-1] in {"plant", "plants"} and before[-2:-1] in (["a"], ["per"], ["each"], ["every"])
    if (before[-1] in _UNFINISHED and not each) or (number and words[0] in _COUNTED):
        return True
    stem = words[0] in _STEM and words[0] not in _NOT_FIRST
    return often and stem and not labelled and (not at_end or len(words) <= _SHORT)
