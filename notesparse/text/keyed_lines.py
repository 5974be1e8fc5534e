"""Forms whose keys stand on lines of their own, each with its value on the line below: `FLOWERS` over `none`.

Such a line end is no more than a blank; without it flowers would be seen where the form says that there are none.
"""

from __future__ import annotations

import re

from notesparse.lazy import pattern

_KEY = pattern(
    r"\s*(?:field|farm|date|variety|plant|stop|stage|growth stage|stand|trifs?|trifoliates?|tf|nodes?"
    r"|flowers?|blooms?|flowering|pods?|seeds?|brown pods?)\s*:?\s*",
    re.I,
)
_HEAD = pattern(r"\s*(?:field|farm|date|variety)\s*:?\s*", re.I)
_ORGAN = pattern(r"\s*(?:flowers?|blooms?|flowering|pods?|seeds?|brown pods?)\s*:?\s*", re.I)
_ANSWER = pattern(r"\s*(?:none(?: yet)?|no|yes|nil|not yet|0)\s*\.?\s*", re.I)
_WIDE = pattern(r"\S {3,}\S|\t")
_FEWEST = 2  # keys with a value below
_LONGEST = 30  # characters of a value


def keys_over_values(lines: list[str]) -> set[int]:
    """The lines that are keys of such a form."""
    keys = [k for k in range(len(lines) - 1) if _KEY.fullmatch(lines[k]) and _has_value(lines, k)]
    sure = {
        k
        for k in range(len(lines) - 1)
        if (_ORGAN.fullmatch(lines[k]) and _ANSWER.fullmatch(lines[k + 1]))
        or (_HEAD.fullmatch(lines[k]) and _value(lines[k + 1]))
    }
    return sure | set(keys) if len(sure | set(keys)) >= _FEWEST else sure


def _has_value(lines: list[str], k: int) -> bool:
    """One short line that is no key stands below, and then a key, or nothing."""
    behind = lines[k + 2] if k + 2 < len(lines) else ""
    return (not behind.strip() or _KEY.fullmatch(behind) is not None) and _value(lines[k + 1])


def _value(line: str) -> bool:
    return 0 < len(line.strip()) <= _LONGEST and not _KEY.fullmatch(line) and not _WIDE.search(line)
