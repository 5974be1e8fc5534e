"""The stage codes, their order, and stages as people write them.

A *code* is a whole stage: ``VE``, ``VC``, ``V1`` ..., ``R1`` to ``R8``, and ``none`` (said to have no open flower yet).
A *stage text* is what a scout writes: ``R5.5``, ``early R5``, ``V-5``. There is no standard for parts of a stage, so
a part counts as its whole stage and the words are kept elsewhere.
"""

from __future__ import annotations

import re

from notesparse.facts import Stage
from notesparse.lazy import pattern

NONE = "none"
R_CODES: tuple[str, ...] = tuple(f"R{n}" for n in range(1, 9))
HIGHEST_V = 99  # a limit of spelling only; what is plausible stands in plausible.toml

_PART = r"(?:early|mid|middle|late)"
_TEXT = pattern(
    rf"\s*(?:{_PART}[\s-]+)?(?P<letter>[VR])\s*-?\s*(?P<place>[EC]|\d{{1,2}})(?P<part>\.\d+)?\s*", re.IGNORECASE
)
_RANGE = pattern(r"\s+to\s+|\s*/\s*|\s*[–—]\s*|(?<=[\dEC])\s*-\s*", re.IGNORECASE)


def whole_stage(text: str) -> str | None:
    """The whole stage that `text` names (``"late R4"`` is ``"R4"``), or None where it names none."""
    found = _TEXT.fullmatch(text)
    if found is None:
        return None
    letter, place = found["letter"].upper(), found["place"].upper()
    if place in {"E", "C"}:
        return None if letter == "R" or found["part"] else f"V{place}"
    number = int(place)
    highest = HIGHEST_V if letter == "V" else len(R_CODES)
    return f"{letter}{number}" if 1 <= number <= highest else None


def read_stage(text: str) -> Stage | None:
    """A stage as stated: one text (``"early R5"``) or, from ``"R3-R4"``, ``"R3/R4"`` or ``"R3 to R4"``, a pair.

    The second end may leave out its letter (``"V5-6"``). None where it is no stage, runs backwards or mixes V and R.
    """
    if whole_stage(text) is not None:
        return text.strip()
    ends = _RANGE.split(text.strip())
    if len(ends) != 2:
        return None
    first, second = ends
    low = whole_stage(first)
    if low is not None and second[:1].isdigit():
        second = low[0] + second
    high = whole_stage(second)
    if low is None or high is None or low[0] != high[0] or rank(low) > rank(high):
        return None
    return first, second


def rank(code: str) -> int:
    """The place of a code on its own scale, upwards: VE 0, VC 1, V1 2 ...; none 0, R1 1 ... R8 8.

    ValueError for what is no code; `whole_stage` makes one of a stage as it is written."""
    if code in {"VE", NONE}:
        return 0
    if code == "VC":
        return 1
    return int(code[1:]) + (code[0] == "V")


def code_at(letter: str, place: int) -> str:
    """The code of scale `letter` ("V" or "R") at a rank: the inverse of `rank`."""
    if place == 0:
        return "VE" if letter == "V" else NONE
    if letter == "V":
        return "VC" if place == 1 else f"V{place - 1}"
    return f"R{place}"


def v_code(number: int) -> str:
    """The V stage of that number: below 1 it is VC, the unifoliate leaves being unrolled."""
    return f"V{number}" if number >= 1 else "VC"


def v_number(code: str) -> int:
    """The number in a V code. VE and VC have no open trifoliate, and count as 0 in an average."""
    return max(0, rank(code) - 1)


def is_range(stated: Stage) -> bool:
    """Whether a stated stage is a pair."""
    return not isinstance(stated, str)


def agrees(stated: Stage, computed: str) -> bool:
    """Whether a stated stage and a computed one are the same (guide 4.15): compared as whole stages.

    ``R5.5`` and ``early R5`` agree with ``R5``; a range agrees with every stage in it.
    """
    ends = [stated, stated] if isinstance(stated, str) else list(stated)
    codes = [whole_stage(end) for end in ends]
    low, high = codes[0], codes[-1]
    if low is None or high is None or computed == NONE or {low[0], high[0]} != {computed[0]}:
        return False
    return rank(low) <= rank(computed) <= rank(high)


def said(stated: Stage) -> str:
    """A stated stage in words: ``R5.5``, ``R3 to R4``."""
    return stated if isinstance(stated, str) else f"{stated[0]} to {stated[1]}"
