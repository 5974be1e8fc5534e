"""Doubled strokes that part what is told as a line's end does: `Heron 40; 12 tf; R3 // Old Orchard; 11 tf; R2 // no bugs`.

A run of strokes behind a word or two may be a count (`no bloom //   some ////`), so the runs must be alike, with something
told on both sides of each.
"""

from __future__ import annotations

import re

from notesparse.lazy import pattern

_LINE = pattern(r"[^\r\n]+")
_RUN = pattern(r"(?<=\w)//(?=[^\W\d_])|(?<![:/|])(?://|\|{2,3})(?=[ \t])|(?<=[ \t])(?://|\|{2,3})(?=[^\s/|])")
_ANY = pattern(r"[/|]{2,}")
_FEWEST_WORDS = {"//": 2, "||": 3, "|||": 3}  # before each run: upright strokes are counted with more often


def parting_strokes(text: str) -> dict[int, int]:
    """Where such runs of strokes begin and end."""
    out: dict[int, int] = {}
    if "//" not in text and "||" not in text:
        return out
    for line in _LINE.finditer(text):
        if "//" not in line[0] and "||" not in line[0]:
            continue
        runs = list(_RUN.finditer(line[0]))
        if len({m[0] for m in runs}) == 1 and len(_ANY.findall(line[0])) == len(runs) and _told(line[0], runs):
            out |= {line.start() + m.start(): line.start() + m.end() for m in runs}
    return out


def _told(line: str, runs: list[re.Match[str]]) -> bool:
    """Words enough before each run, and something behind the last."""
    starts = [0, *(m.end() for m in runs)]
    before = [line[a : m.start()] for a, m in zip(starts, runs, strict=False)]
    behind = line[starts[-1] :]
    words = all(len(part.split()) >= _FEWEST_WORDS[runs[0][0]] for part in before)
    wide = any(part.endswith("  ") for part in before) or any(line[m.end() :].startswith("  ") for m in runs)
    return words and not wide and any(c.isalpha() for c in behind) and behind.rstrip()[-1:] not in set("/|")
