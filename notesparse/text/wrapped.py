"""Line ends that the edge of the paper made, and no sentence: prose written to the margin, and rows that go on below.

`pods full length at the third node from` and on the next line `top, no beans`; `pl 4: pod 1 1/2 in.,` and under it,
set in, `seed 3/16`. Such a line end is no more than a blank.
"""

from __future__ import annotations

import re

from notesparse.lazy import pattern
from notesparse.text.keyed_lines import keys_over_values
from notesparse.text.running import running_on

_NARROWEST = 45  # characters: shorter lines are broken by the writer
_FEWEST = 2  # line ends in a row that the margin made
_SENTENCE = pattern(r"[a-z0-9)\"]\. +[A-Z]")
_WIDE = pattern(r"[^\s.] {2,}\S|\t| {4,}\S")
_ENDS = (".", ";", ":", "!", "?")
_LABEL = pattern(r"\s*(?:(?:pl|plt|plant|p|no|#)\.? *#?\d{1,3}|\d{1,3} ?[).:-]|[A-Za-z][).:])(?=\D)", re.I)
_MARKED = pattern(r"( *)(?:(?:pl|plt|plant|p|no)?\.? *#?\d{1,3}[).:]?|[A-Za-z][).:])[ -]+(?=\S)", re.I)
_BARE = pattern(r"( *)(\d{1,2}|[A-Za-z]) {2,}(?=\S)")
_BULLET = pattern(r"\s*[-*•] ")  # begins another item, whatever stands above
_FIRST_PLANT = pattern(r"(?<![A-Za-z\d])(?:pl|plt|plant|p|#)\.? *#?1(?!\d)", re.I)
_HEAD = 50  # characters
_HEADED = pattern(r"\s*[A-Z][\w'.]*(?: [\w'.#]+){0,4}(?: [-–] |: )")  # Cabin - p1 9 tf
_SET_IN = 2  # blanks more than the row above
_SLACK = 6  # characters right of the words of the row above
_UNFINISHED = pattern(r"\S+ .*(?:(?<= )the|(?<= )an|(?<= )of|(?<= )from|(?<= )than|(?<= )per)", re.I)


def paper_edges(text: str) -> set[int]:
    """Where the line ends stand that say nothing, as offsets."""
    if "\n" not in text:
        return set()
    lines: list[tuple[int, str]] = []
    at = 0
    for line in text.split("\n"):
        lines.append((at, line.rstrip()))
        at += len(line) + 1
    ends = [start - 1 - (text[start - 2 : start - 1] == "\r") for start, _ in lines[1:]]
    words = [line for _, line in lines]
    nothing = _margins(words) | _below(words) | _unfinished(words) | running_on(words) | keys_over_values(words)
    return {ends[k] for k in nothing if _BULLET.match(words[k + 1]) is None}


def _margins(lines: list[str]) -> set[int]:
    """The lines of prose that were broken where the next word had no room."""
    out: set[int] = set()
    k = 0
    while k < len(lines):
        last = k
        while last < len(lines) and lines[last]:
            last += 1
        out |= _of_paragraph(lines, k, last)
        k = last + 1
    return out


def _of_paragraph(lines: list[str], a: int, b: int) -> set[int]:
    if b - a <= _FEWEST:
        return set()
    width = max(len(x) for x in lines[a:b])
    if width < _NARROWEST:
        return set()
    full = [len(lines[k]) + 1 + len(lines[k + 1].split()[0]) > width for k in range(a, b - 1)]
    out: set[int] = set()
    k = a
    while k < b - 1:
        end = k
        while end < b - 1 and full[end - a]:
            end += 1
        if end - k >= _FEWEST and _prose(lines[k : end + 1]):
            out |= {n for n in range(k, end) if not lines[n].endswith(_ENDS)}
        k = end + 1
    return out


def _prose(run: list[str]) -> bool:
    """Sentences that end within the lines, no columns, and not plant by plant."""
    labelled = sum(_LABEL.match(x) is not None for x in run)
    return (
        not any(_WIDE.search(x.strip()) for x in run)
        and any(_SENTENCE.search(x) for x in run)
        and any(not x.endswith((*_ENDS, ",")) for x in run[:-1])
        and 2 * labelled < len(run)
        and sum(_FIRST_PLANT.search(x[:_HEAD]) is not None for x in run) < _FEWEST  # field by field
        and sum(_HEADED.match(x) is not None for x in run) < _FEWEST
    )


def _below(lines: list[str]) -> set[int]:
    """The rows that go on in a line set in under them."""
    out: set[int] = set()
    row: re.Match[str] | None = None  # the label of the row that the lines are under
    for k in range(1, len(lines)):
        before, here = lines[k - 1], lines[k]
        if not here or not before:
            row = None
            continue
        if k - 2 not in out or row is None:
            row = _row(lines, k - 1)
        inset = len(here) - len(here.lstrip())
        if row is None or not here[inset].isalpha() or _row(lines, k) is not None or _WIDE.search(here.strip()):
            continue
        if row.re.pattern == _BARE.pattern and k - 2 not in out and _WIDE.search(before[row.end() - 1 :]):
            continue  # 1    9    top, cells of a table: what is set in under them is a remark
        if inset >= len(row[1]) + _SET_IN and inset <= row.end() + (_SLACK if row.re.pattern == _MARKED.pattern else 1):
            out.add(k - 1)
    return out


def _row(lines: list[str], k: int) -> re.Match[str] | None:
    """The label at the head of a row of words; a bare one has to count on from a row before or to one behind."""
    found = _MARKED.match(lines[k])
    if found is not None and not found[0].strip(" -").isdigit():
        return found
    bare = _BARE.match(lines[k])
    if bare is None:
        return None
    beside = [_BARE.match(x) for x in (*lines[max(0, k - 3) : k], *lines[k + 1 : k + 4])]
    return bare if any(x is not None and _next_to(x[2], bare[2]) for x in beside) else None


def _next_to(a: str, b: str) -> bool:
    if a.isdigit() and b.isdigit():
        return abs(int(a) - int(b)) == 1
    return a.isalpha() and b.isalpha() and abs(ord(a.casefold()) - ord(b.casefold())) == 1


def _unfinished(lines: list[str]) -> set[int]:
    """`third node from`: a word that no line ends with, unless the sentence goes on."""
    return {k for k in range(len(lines) - 1) if lines[k + 1] and _UNFINISHED.fullmatch(lines[k].strip())}
