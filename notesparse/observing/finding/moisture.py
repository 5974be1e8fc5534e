"""Soil moisture told in words: `dry dirt 3" down`, `moist at 12, dry at 24` (guide 4.20)."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import ground_words
from notesparse.observing.finding.units import Amount, length, longest, number, text_at, tidy
from notesparse.observing.finding.whereabouts import Stop
from notesparse.text.lattice import Lattice

_LISTED = cue_page("finding/moisture")
_COMMON = cue_page("shared")


def ground(lattice: Lattice, i: int, stop: Stop, *, fresh: bool) -> tuple[int, str | None] | None:
    """(end, the words of the state): None where piece i is no word for soil; words None where no state follows.

    A state with no word for soil counts only at the head of a clause (`fresh`)."""
    k = i
    soils = sorted((e for e in lattice.edges[k] if e.kind == "SOILWORD"), key=lambda e: e.end)
    soil = next((e for e in soils if longest(lattice, e.end, "SOILSTATE", sound=False)), soils[-1] if soils else None)
    if soil is not None:
        state_there = longest(lattice, k, "SOILSTATE", sound=False)
        if state_there is None or state_there.end <= soil.end:
            k = soil.end
            while (
                k < len(lattice.pieces)
                and not stop(k)
                and text_at(lattice, k) in ground_words().between
                and k < soil.end + 5
            ):
                if longest(lattice, k, "SOILSTATE", sound=False):
                    break
                k += 1
    state = longest(lattice, k, "SOILSTATE", sound=soil is not None)
    if state is None:
        deep = _depth(lattice, soil.end, stop) if soil is not None and text_at(lattice, soil.end - 1) in _HELD else 0
        if soil is not None and any(length(lattice, j) is not None for j in range(soil.end, deep)):
            return deep, lattice.original(i, deep)  # moisture at 3 in
        return None if soil is None else (soil.end, None)
    if soil is None and not (_measured(lattice, state.end, stop) or (fresh and _opens(lattice, k))):
        return None
    start = k
    end, cuts = _states(lattice, k, stop)
    strange = end < len(lattice.pieces) and lattice.pieces[end].form == "word" and not lattice.known[end]
    if soil is None and strange and text_at(lattice, end - 1) != ".":
        return None  # wet hole; but moist at 3in. truck is stuck
    parts = [lattice.original(a, b) for a, b in _around(start, end, cuts)]
    return end, " ".join(" ".join(parts).split())


_HELD = _COMMON.words("moisture")
_OF_THE_GRAIN = _COMMON.words("moisture") | {"grain"}
_BETWEEN = _LISTED.words("between")
_MOST_BETWEEN = 4
_DRIEST, _WETTEST = 8, 35  # percent, of beans near harvest (common practice, no source)


def of_the_grain(lattice: Lattice, i: int) -> Amount | None:
    """`Grain 14.1`, `moist. 13.8`, `moisture on the hand sample was 13.1`: the moisture of the grain, where a number with a
    decimal and no length stands behind."""
    if text_at(lattice, i) not in _OF_THE_GRAIN:
        return None
    k = start = _of_the_sample(lattice, i + 1)
    while text_at(lattice, k) in _BETWEEN and k < start + _MOST_BETWEEN:
        k += 1
    said = longest(lattice, k, "DEC", sound=False)
    if said is None or not _DRIEST <= float(said.means) <= _WETTEST or length(lattice, k) is not None:
        return None
    mark = longest(lattice, said.end, "PCT", sound=False)
    return Amount(mark.end if mark else said.end, tidy(said.means), "%" if mark else None)


_ON = _LISTED.words("on")
_SAMPLES = _LISTED.words("samples")
_SAMPLED = _SAMPLES | _LISTED.words("sampled")
_LONGEST_SAMPLE = 8


def _of_the_sample(lattice: Lattice, i: int) -> int:
    """`on the hand sample`, `off the few beans I shelled came in`: what was tested, from piece i; where it ends."""
    if text_at(lattice, i) not in _ON:
        return i
    k = i + 1
    while text_at(lattice, k) in _SAMPLED and k < i + _LONGEST_SAMPLE:
        k += 1
    return k if any(text_at(lattice, x) in _SAMPLES for x in range(i, k)) else i


_FOR_ON_THE_METER = _LISTED.words("for_on_the_meter")
_FOR_ON_THE_METER_2 = _LISTED.words("for_on_the_meter_2")
_FOR_ON_THE_METER_3 = _LISTED.words("for_on_the_meter_3")


def on_the_meter(lattice: Lattice, k: int) -> int | None:
    """`on the tester`, `on my moisture meter`, `in the tester`: where it ends."""
    start = k
    if text_at(lattice, k) in {"%", "percent", "pct"}:
        k += 1
    if text_at(lattice, k) not in _FOR_ON_THE_METER:
        return None
    k += 1 + (text_at(lattice, k) == "w" and text_at(lattice, k + 1) == "/")
    while text_at(lattice, k) in _FOR_ON_THE_METER_2 and k < start + 7:
        k += 1
    return k + 1 if text_at(lattice, k) in _FOR_ON_THE_METER_3 else None


def _measured(lattice: Lattice, k: int, stop: Stop) -> bool:
    """A depth with its unit and its direction follows the state: `dry2in down` stands anywhere."""
    end = _depth(lattice, k, stop)
    return (
        end > k
        and any(length(lattice, j) is not None for j in range(k, end))
        and text_at(lattice, end - 1) in ground_words().behind_a_depth
    )


def _opens(lattice: Lattice, k: int) -> bool:
    """Whether a clause begins at piece k, or before `it was`, `it's still`."""
    j = k - 1
    while j >= 0 and lattice.pieces[j].text in ground_words().before_a_state:
        j -= 1
    return (
        j < 0
        or lattice.pieces[j].form == "nl"
        or (
            lattice.pieces[j].form == "mark"
            and (lattice.pieces[j].text in ".,;:-!(" or not lattice.pieces[j].text.isascii())
        )
    )


def _states(lattice: Lattice, k: int, stop: Stop) -> tuple[int, list[tuple[int, int]]]:
    """The end of `dry to 4 in., moist below`, and the words for soil inside it, which are left out."""
    cuts: list[tuple[int, int]] = []
    state = longest(lattice, k, "SOILSTATE")
    end = state.end if state is not None else k
    while True:
        soil = longest(lattice, end, "SOILWORD", sound=False)
        if soil is not None and not stop(end):
            cuts.append((end, soil.end))
            end = soil.end
        end = _depth(lattice, end, stop)
        j = end
        while text_at(lattice, j) in {",", "and", "but", "then"} and j < end + 2:
            j += 1
        more = longest(lattice, j, "SOILSTATE", sound=False) if j > end and j < len(lattice.pieces) else None
        if more is None or stop(j):
            return end, cuts
        end = more.end


_BEHIND_DEPTH = _LISTED.words("behind_depth")


def _depth(lattice: Lattice, k: int, stop: Stop) -> int:
    """`to 4 in.`, `3" down`, `half an inch down`, `at 24`, `an inch wide`."""
    j = k
    while text_at(lattice, j) in ground_words().before_a_depth and j < k + 3 and not stop(j):
        j += 1
    said = length(lattice, j)
    end = said.end if said is not None else None
    if end is None and j > k:
        bare = number(lattice, j)
        end = (
            bare.end
            if bare is not None
            and (
                bare.end >= len(lattice.pieces)
                or lattice.pieces[bare.end].form in {"mark", "nl"}
                or text_at(lattice, bare.end) in _BEHIND_DEPTH
            )
            else None
        )
    if end is None:
        end = k
    while (
        text_at(lattice, end) in ground_words().behind_a_depth
        and (end > k or text_at(lattice, end) in {"underneath", "below", "down"})
        and not stop(end)
    ):
        end += 1
        if text_at(lattice, end) == "there":
            end += 1
    return _covered(lattice, end, stop)


_OVER = _LISTED.words("over")
_BEFORE_COVERED = _COMMON.words("underneath")


def _covered(lattice: Lattice, k: int, stop: Stop) -> int:
    """`(moist) below the mulch`, `under 1 in. of dust`: where it ends; piece k where nothing of the kind stands there."""
    j = k - (text_at(lattice, k - 1) in _BEFORE_COVERED)
    if text_at(lattice, j) not in _BEFORE_COVERED or stop(j):
        return k
    j += 1
    deep = length(lattice, j)
    if deep is not None:
        j = deep.end
        j += text_at(lattice, j) == "." and lattice.soft[j] is not None
        j += text_at(lattice, j) == "of"
    j += text_at(lattice, j) == "the"
    return j + 1 if text_at(lattice, j) in _OVER else k


def _around(start: int, end: int, cuts: list[tuple[int, int]]) -> list[tuple[int, int]]:
    out = []
    at = start
    for a, b in cuts:
        if a > at:
            out.append((at, a))
        at = b
    if end > at:
        out.append((at, end))
    return out
