"""Names on damaged paper: `HlCKORY POlNT` is HICKORY POINT, `KETTLE B0TTOM` KETTLE BOTTOM, `Kett1e Hil1` Kettle Hill
(guide 4.21)."""

from __future__ import annotations

import re

from notesparse.lazy import pattern

_CAPITALS = str.maketrans("l015", "IOIS")
_WORD = pattern(r"(?=[A-Z015]*l|[A-Zl]+[015][A-Zl]{2})[A-Z015l]+(?![a-z\d])")
_SMALL = pattern(
    r"(?<![\w'])(?=\w{4})(?:[A-Z][a-z]*|[a-z]+)"
    r"(?:[01](?:[a-z]{2,}|[e-z])|(?:(?<=l)|(?<=ai)|(?<=ea)|(?<=oo))1|(?<=[a-z]{3})0)(?!\w)"
)
_FEWEST = 3  # capitals that are whole


def mended(text: str) -> str:
    """The name with letters for those and the figures that stand for them inside its words; `T14`, `A1`, `Plot1a` stay."""
    if not any(c in "l015" for c in text):
        return text
    return _SMALL.sub(lambda m: m[0].replace("1", "l").replace("0", "o"), _WORD.sub(_capitals, text))


def _capitals(m: re.Match[str]) -> str:
    at = m.start()
    inside = at and (m.string[at - 1].isalnum() or m.string[at - 1] == "'")
    whole = sum(c.isalpha() and c != "l" for c in m[0])
    return m[0] if inside or whole < min(_FEWEST, len(m[0]) - 1) else m[0].translate(_CAPITALS)


def in_case(word: str, written: str) -> str:
    """The word in the case of what is written: `Mi1l` is Mill, `mi1l` mill, `Briclge` Bridge."""
    if len(word) != len(written):
        return word.upper() if written.isupper() else word.capitalize() if written[0].isupper() else word
    small = any(c.islower() for c in written)
    return "".join(
        a if b.islower() or (b.isdigit() and small) else a.upper() for a, b in zip(word, written, strict=True)
    )
