"""Stage codes of old paper with a letter for their figure, in cells beside others: `1  V9  RZ` over `2  V8  R1`."""

from __future__ import annotations

import re

from notesparse.lazy import pattern

_CODE = pattern(
    r"(?:^|(?<=\s\s)|(?<=\t)|(?<=[RV]\d )|(?<=[RV]\d\d ))"
    r"(?:R[lIZSB]|V[lZSB]|V[lI][0-9O]|Vl[lI])(?=\s\s|\t|\s?$| [RV]\w{1,2}\s)",
    re.MULTILINE,
)
_SURE = pattern(r"(?:^|\s)[RV]\d{1,2}(?=\s|$)", re.MULTILINE)


def codes_with_letters(text: str) -> frozenset[int]:
    """Where such codes begin: only on a page where others are written with their figures."""
    found = frozenset(m.start() for m in _CODE.finditer(text))
    return found if found and _SURE.search(text) else frozenset()
