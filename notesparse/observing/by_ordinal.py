"""Plants that are counted by ordinals with no word for a plant: `First had nine trifs, the second ten with a bloom. The
last, twelve` (guide 4.7). They are plants only where they begin with the first, count up one by one, each at the head of
a clause and before what is seen on a plant; `the last` is the one behind those told of."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.text import numbers
from notesparse.text.lattice import Lattice

_LISTED = cue_page("observing/by_ordinal")
_COMMON = cue_page("shared")

Run = list[tuple[int, int, tuple[str, ...]]]

_ONE = _COMMON.words("plant") | {"one", "stalk"}
_HAS = _LISTED.words("has")
_DENIES = _COMMON.words("does_not") | _COMMON.words("is_not") | {"does"}
_BEFORE = _COMMON.words("and") | _COMMON.words("but") | {"(", "-", ".", ":", ";"}
_SEEN = frozenset(
    "TRIF TRIPS FLOWER POD SEED BEAN BUD NO NOT NONE NOTHINGOPEN R V SAME SAMEAS LIKE DITTO STAGENAME BROWN UNI COT NODES".split()
)
_UNITS = frozenset({"TRIF", "TRIPS", "NODES", "INCH", "MM", "CM", "FLOWER", "POD", "SEED", "BEAN"})
_SIZES = frozenset({"FRAC", "DEC", "ANINCH", "AMETRIC"})
_MOST = 20
_NEAR = 3  # small words between the ordinal and what is seen
_SENTENCE = 10  # pieces in which it is said that one was left out


def in_turn(lattice: Lattice) -> Run:
    """The plants, as (start, end, labels); none where no plant is told of in this way that a series has not."""
    out: Run = []
    new = False
    for i in range(len(lattice.pieces)):
        got = _ordinal(lattice, i)
        if got is None or not (_clause_begins(lattice, i) or (out and _goes_on(lattice, i))):
            continue
        nth, own = got
        if lattice.at(own) in _DENIES:
            break  # the third doesn't: told by itself
        last = nth == 0
        if (nth != (len(out) + 1) and not (last and out)) or _of_a_leaf(lattice, own):
            continue
        end = own + (lattice.at(own) in _ONE)
        counted = bool(out) and (not last or lattice.at(i - 1) == "the") and _bare_count(lattice, end)
        if not (counted or _seen(lattice, end) or (out and _skipped(lattice, end))):
            continue
        if not out and _of_fields(lattice, i):
            return []
        new = new or last or counted or (end == own and (len(out) == 0 or lattice.at(i - 1) == "the"))
        out.append((i, end, (str(len(out) + 1),)))
        if last:
            break
    return out if new and len(out) > 1 else []


_BEHIND_ORDINAL = _COMMON.words("ordinal_tails")


def _ordinal(lattice: Lattice, i: int) -> tuple[int, int] | None:
    """Which one is named at piece i, 0 for the last, and where its name ends; None where none is named."""
    p = lattice.piece(i)
    if p is None:
        return None
    if p.form == "int" and not p.glued and lattice.at(i + 1) in _BEHIND_ORDINAL and lattice.glued(i + 1):
        return (int(p.text), i + 2) if 1 <= int(p.text) <= _MOST else None
    if p.form != "word" or (p.glued and i and lattice.pieces[i - 1].form != "nl"):
        return None
    if p.text == "last":
        return 0, i + 1
    nth = numbers.ordinal(p.text)
    return (nth, i + 1) if nth is not None and 1 <= nth <= _MOST else None


def _clause_begins(lattice: Lattice, i: int) -> bool:
    i -= bool(i) and lattice.at(i - 1) == "the"
    return not i or lattice.pieces[i - 1].form == "nl" or lattice.at(i - 1) in _BEFORE


def _of_a_leaf(lattice: Lattice, i: int) -> bool:
    """`first trifoliolate still rolled`, `first and second trifoliolates open`: which leaf, and no plant; `first trifs 9` is
    one."""
    ends = [e.end for e in lattice.edges[i] if e.kind == "TRIF"] if i < len(lattice.pieces) else []
    return bool(ends) and "INT" not in _kinds(lattice, max(ends) + (lattice.at(max(ends)) in {":", ","}))


_BEHIND_GOES_ON = _LISTED.words("behind_goes_on")


def _goes_on(lattice: Lattice, i: int) -> bool:
    """`the first has ten trifs the second ten the third eleven`: with no mark between, right behind a count."""
    if lattice.at(i - 1) != "the" or lattice.at(i + 1) in _BEHIND_GOES_ON:
        return False
    return bool(_kinds(lattice, i - 2) & _COUNT_ENDS)


_COUNT_ENDS = frozenset({"TRIF", "TRIPS", "NODES", "INT"})


def _kinds(lattice: Lattice, i: int) -> set[str]:
    return {e.kind for e in lattice.edges[i] if e.how != "sound"} if i < len(lattice.pieces) else set()


_FOR_SEEN = _LISTED.words("for_seen")


def _seen(lattice: Lattice, i: int) -> bool:
    """Behind a verb or a comma something of a plant stands at piece i: a count with its noun, a size, an organ, a stage."""
    for _ in range(_NEAR):
        if lattice.at(i) not in _HAS | _FOR_SEEN and not _hesitates(lattice, i):
            break
        i += 1
    if _kinds(lattice, i) & (_SEEN | _SIZES):
        return True
    return any(
        e.kind == "INT" and _kinds(lattice, e.end) & _UNITS
        for e in (lattice.edges[i] if i < len(lattice.pieces) else ())
    )


_BEHIND_BARE_COUNT = _LISTED.words("behind_bare_count")


def _bare_count(lattice: Lattice, i: int) -> bool:
    """`the second ten with a bloom`, `the third eleven`: a number alone up to the end of the clause or to what more there
    is, of what the plant before was counted in."""
    i += lattice.at(i) in {"had", "has", "got"}
    if lattice.at(i) == ",":
        i += 1 + _hesitates(lattice, i + 1)
        i += lattice.at(i) == ","
    if i >= len(lattice.pieces):
        return False
    ends = [e.end for e in lattice.edges[i] if e.kind == "INT" and e.how == "number"]
    after = max(ends, default=0)
    return bool(ends) and (
        after >= len(lattice.pieces)
        or lattice.pieces[after].form == "nl"
        or lattice.at(after) in _BEHIND_BARE_COUNT
        or (lattice.at(after) == "the" and _ordinal(lattice, after + 1) is not None)
    )


def _skipped(lattice: Lattice, i: int) -> bool:
    """`third, all busted up, skip that one`: in the same sentence it is left out."""
    for k in range(i, min(i + _SENTENCE, len(lattice.pieces))):
        if lattice.pieces[k].form == "nl" or lattice.at(k) in {".", ";"}:
            return False
        if any(e.kind == "SKIPIT" for e in lattice.edges[k]):
            return True
    return False


def _hesitates(lattice: Lattice, i: int) -> bool:
    """`third, uh, ten`: a word of no meaning behind a comma, before a comma or what there is."""
    return lattice.at(i) in _UH and lattice.at(i - 1) == ","


_UH = _LISTED.words("uh")
_FOR_OF_FIELDS = _LISTED.words("for_of_fields")


def _of_fields(lattice: Lattice, i: int) -> bool:
    """`Two fields today. First had R3, the second R4`."""
    return any(lattice.at(x) in _FOR_OF_FIELDS for x in range(i))
