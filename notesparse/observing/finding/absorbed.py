"""Words that carry no value (`not bad`, `here and there`, `that I noticed`) belong to the finding beside them."""

from __future__ import annotations

from collections.abc import Callable

from notesparse.language.cues import cue_page
from notesparse.observing.finding.units import LOOSE, longest, number, text_at
from notesparse.observing.finding.whereabouts import PREPOSITIONS
from notesparse.text.lattice import Edge, Lattice

_LISTED = cue_page("finding/absorbed")

DEGREE = _LISTED.words("degree")
_BREAK = _LISTED.words("break")
_PRONOUNS = _LISTED.words("pronouns")
_OPENS_ASIDE = _LISTED.words("opens_aside")
_A_LITTLE = _LISTED.words("a_little")
_OPENS_AFTER_COMMA = _LISTED.words("opens_after_comma")

Stop = Callable[[int], bool]
Head = Callable[[int], Edge | None]


_FOR_RUN = _LISTED.words("for_run")
_FOR_RUN_2 = _LISTED.words("for_run_2")
_FOR_RUN_3 = _LISTED.words("for_run_3")


def run(
    lattice: Lattice, j: int, stop: Stop, head: Head, *, comma: bool, kind: str, clause_from: int
) -> tuple[int, bool] | None:
    """The end of the words from piece j that may be passed, and whether they tell something of the finding.

    None: the words belong to something else, and the finding ends before them."""
    pieces = lattice.pieces
    k = j
    while (
        k < len(pieces)
        and not stop(k)
        and not (pieces[k].form == "mark" and pieces[k].text in ",():-")
        and head(k) is None
        and number(lattice, k) is None
    ):
        if k > j and _place_begins(lattice, k):
            break
        k += 1
    text = text_at(lattice, j)
    at_end = k >= len(pieces) or pieces[k].form in {"nl", "mark"} or _place_begins(lattice, k)
    words = [pieces[x].text for x in range(j, k) if pieces[x].form == "word"]
    fillers = [
        lattice.filler[x]
        or text_at(lattice, x) in LOOSE
        or bool(longest(lattice, x, "HEDGE", "ONLY", "YET", "STILL", "HAS", "AND", "BUT", sound=False))
        for x in range(j, k)
    ]
    short = _clause_length(lattice, clause_from) <= 40
    opens = text in _OPENS_AFTER_COMMA or (text == "a" and text_at(lattice, j + 1) in _A_LITTLE)
    if comma and not opens and not (k < len(pieces) and not at_end and all(fillers)):
        return None
    if text in _FOR_RUN:
        after = j + 1
        ahead = _finding_ahead(lattice, after, stop, head)
        return (
            (after, False)
            if ahead
            else (k, True)
            if len(words) <= 3 and at_end and set(words[1:]) <= DEGREE and len(words) > 1
            else None
        )
    if text == "after" and _finding_ahead(lattice, j + 1, stop, head, reach=2):
        return j + 1, False  # stand 88k after the hail
    if (
        kind == "other"
        and k < len(pieces)
        and number(lattice, k) is not None
        and len(words) <= 4
        and not set(words) & _FOR_RUN_2
    ):
        return k, True  # tested a few at 19
    if at_end and all(w in DEGREE or f for w, f in zip(words, fillers, strict=False)) and len(words) <= 7:
        return k, any(w in DEGREE for w in words)
    if (
        lattice.filler[j]
        or text in DEGREE
        or longest(lattice, j, "HEDGE", "STILL", "HAS", "YET", "ONLY", "SOMEW", "LOTS", sound=False)
    ):
        if not at_end or not short or len(words) <= 1:
            if text not in _FOR_RUN_3 or _finding_ahead(lattice, j + 1, stop, head, reach=3):
                return j + 1, text in DEGREE
            return None
        if text in {"nothing", "none", "not"} and len(words) <= 6 and not set(words) & _PRONOUNS:
            return k, True  # nothing to get excited about
        if text not in _OPENS_ASIDE | _BREAK:
            return j + 1, text in DEGREE
        if text == "a" and words[1:2] == ["few"] and words[2:] in (["leaves"], ["lvs"], ["plants"], ["spots"]):
            return k, True  # frogeye a few leaves, N slope
    limit = 8 if kind == "other" else 7 if text in _OPENS_ASIDE else 5
    if (
        at_end
        and short
        and len(words) <= limit
        and (text in _OPENS_ASIDE or (not set(words) & (_BREAK - {"the", "a", "and"}) and text not in _BREAK))
    ):
        return k, True
    near = 0
    for x in range(j, min(k, j + 3)):
        if text_at(lattice, x) in _BREAK or stop(x):
            break
        near += 1
    if (
        not at_end
        and near
        and (k - j) <= 3
        and k < len(pieces)
        and (head(k) is not None or number(lattice, k) is not None)
        and not set(words) & _BREAK
    ):
        return k, True
    if not short and near == 1 and _finding_ahead(lattice, j + 1, stop, head, reach=4):
        return j + 1, True
    return None


_BEHIND_PLACE_BEGINS = _LISTED.words("behind_place_begins")


def _place_begins(lattice: Lattice, k: int) -> bool:
    if longest(lattice, k, "WHEREWORD", sound=False) is not None:
        return True
    return (text_at(lattice, k) in PREPOSITIONS and text_at(lattice, k + 1) in _BEHIND_PLACE_BEGINS) or (
        text_at(lattice, k) in {"the", "a"} and longest(lattice, k + 1, "WHEREWORD", sound=False) is not None
    )


def _clause_length(lattice: Lattice, start: int) -> int:
    k = start
    while k < len(lattice.pieces) and not (
        lattice.pieces[k].form == "nl" or (lattice.pieces[k].text in ".;!" and lattice.soft[k] is None)
    ):
        k += 1
    return k - start


def _finding_ahead(lattice: Lattice, j: int, stop: Stop, head: Head, reach: int = 5) -> bool:
    """A word or number of a finding within a few pieces."""
    for k in range(j, min(j + reach, len(lattice.pieces))):
        if (
            head(k) is not None
            or longest(lattice, k, "SOILWORD", "SOILSTATE", "BODYHIGH", "WHEREWORD", sound=False) is not None
        ):
            return True
        if stop(k):
            return False
    return False
