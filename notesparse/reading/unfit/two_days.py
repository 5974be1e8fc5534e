"""A day before and a day behind a word for planting or coming up: which of them is whose."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Edge, Lattice

_LISTED = cue_page("unfit/two_days")

_LONG_DAY = 6  # pieces of a day and of the small words behind it
_TO_THE_PLANTS = _LISTED.words("to_the_plants")
_SOWN = _LISTED.words("sown")
_IN_A_DAY = frozenset({"MONTH", "INT", "ORD", "SLASH", "OF"})
_LAST_MONTH = 12
_Day = tuple[int, int, bool]  # month, day, and whether the month can only be this one


def day_of_the_walk(lattice: Lattice, p: Phrase) -> bool:
    """`june fifth it came up may twenty third`: of two days around the word, the earlier one is that of the plants."""
    own = _month_and_day(p.path)
    if own is None:
        return False
    if p.path[-1][1].kind in {"EMERGED", "PLANTED"}:
        _, other = _day_from(lattice, p.end)
        return other is not None and _before(other, own)
    for at in range(p.start - 2, max(-1, p.start - _LONG_DAY), -1):
        end, other = _day_from(lattice, at)
        if (
            other is not None
            and end <= p.start
            and all(text(lattice, i) in _TO_THE_PLANTS for i in range(end, p.start))
        ):
            sown = any("PLANTED" in kinds(lattice, i) or text(lattice, i) in _SOWN for i in range(max(0, at - 3), at))
            return not sown and _before(other, own)
    return False


def _before(a: _Day, b: _Day) -> bool:
    return (a[2] or b[2]) and a[:2] < b[:2]


def _month_and_day(path: tuple[tuple[int, Edge], ...]) -> _Day | None:
    month = next((int(e.means) for _, e in path if e.kind == "MONTH"), None)
    numbers = [int(e.means) for _, e in path if e.kind in {"INT", "ORD"}]
    if month is not None:
        return (month, numbers[0], True) if len(numbers) == 1 else None
    slashed = any(e.kind == "SLASH" for _, e in path) and len(numbers) == 2 and numbers[0] <= _LAST_MONTH
    return (numbers[0], numbers[1], numbers[1] > _LAST_MONTH) if slashed else None


def _day_from(lattice: Lattice, i: int) -> tuple[int, _Day | None]:
    """The day that begins at piece i, and where it ends."""
    path: list[tuple[int, Edge]] = []
    day: _Day | None = None
    while day is None and len(path) < 3 and i < len(lattice.pieces):
        here = [e for e in lattice.edges[i] if e.kind in _IN_A_DAY]
        if not here:
            break
        edge = max(here, key=lambda e: e.end)
        path.append((i, edge))
        i = edge.end
        day = _month_and_day(tuple(path))
    return i, day


_SHORT = 3  # letters of pl and plt, which are a plant too


def planted_what(lattice: Lattice, p: Phrase) -> bool:
    """`June 5 planted to a 2.9`: the day of the visit; only where nothing more is said of the planting is it that day."""
    if p.path[-1][1].kind != "PLANTED":
        return False
    whole = {e.kind for _, e in p.path} & {"MONTH", "SLASH", "DASH", "DMY"}
    if not whole or len(text(lattice, p.path[-1][0])) <= _SHORT:
        return True  # 1st pl. 12 trif.
    over = p.end >= len(lattice.pieces) or lattice.pieces[p.end].form in {"nl", "mark"}
    return not (over or "EMERGED" in kinds(lattice, p.end))
