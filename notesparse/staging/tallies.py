"""Tallies (so many plants of so many) to the stage that they show the field to have reached (guide 4.16, 6.2)."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from notesparse.facts import Tally
from notesparse.lazy import dataclass
from notesparse.staging.limits import LIMITS
from notesparse.staging.scale import NONE, rank, whole_stage

STAGE_OF: Mapping[str, str] = {"flowers": "R1", "pods": "R3", "seeds": "R5", "mature_pods": "R7"}
_ALL = 100.0
_ROUNDING = 0.5  # percents of a list may be rounded, and add up to a little more than all


@dataclass(frozen=True, slots=True)
class Share:
    """A share of plants in percent, known to lie from `low` to `high`."""

    low: float
    high: float

    @property
    def known(self) -> float | None:
        """The share to 0.1, or None where it is not known exactly."""
        return round(self.low, 1) if self.low == self.high else None

    @property
    def rest(self) -> Share:
        """The share of the other plants."""
        return Share(_ALL - self.high, _ALL - self.low)


UNKNOWN = Share(0.0, _ALL)


@dataclass(frozen=True, slots=True)
class TalliedStage:
    """What tallies show: a stage (``"none"``: more than half without a flower), and the share that has reached it.

    Of ``"none"`` it is the share without an open flower. `missed` is the lowest stage that less than half have reached.
    """

    stage: str | None
    percent: float | None
    missed: str | None


def stage_of(what: str) -> str | None:
    """The stage that a tally of `what` speaks of: a stage, ``"none"``, flowers, pods, seeds or mature pods."""
    return NONE if what == NONE else STAGE_OF.get(what) or whole_stage(what)


def share_of(tally: Tally) -> Share:
    """The share of one tally. What can be no share (12 of 10, a percent that its own count denies) is unknown."""
    half = LIMITS.field_percent
    counted = _ALL * tally.count / tally.of if tally.count is not None and tally.of else None
    percent = tally.percent if counted is None else counted
    if percent is None:
        if tally.more_than_half is None:
            return UNKNOWN
        over, under = math.nextafter(half, _ALL), math.nextafter(half, 0.0)
        return Share(over, _ALL) if tally.more_than_half else Share(0.0, under)
    at_odds = counted is not None and tally.percent is not None and abs(counted - tally.percent) > 1
    return UNKNOWN if at_odds or not 0 <= percent <= _ALL else Share(percent, percent)


def tallied_stage(tallies: Sequence[Tally], letter: str) -> TalliedStage:
    """The highest stage of scale `letter` ("V" or "R") that at least half of the tallied plants have reached."""
    ours = [tally for tally in tallies if _on_scale(tally, letter)]
    listed = _pooled(_one_sample([tally for tally in ours if tally.exclusive]))
    alone = _pooled([tally for tally in ours if not tally.exclusive])
    listed = _rest_filled(listed)
    if sum(share.low for share in listed.values()) > _ALL + _ROUNDING:  # more than all: no list of classes after all
        listed, alone = {}, {**listed, **alone}
    without = listed.pop(NONE, None)
    if NONE in alone:  # 4 of 10 with no flower are 6 of 10 at R1
        alone.setdefault("R1", alone[NONE].rest)
        del alone[NONE]
    reached = {stage: _beyond(listed, stage) for stage in listed} | alone
    # a plant of a later tally need not be among those of an earlier one: past bloom it has no flower
    at_most = {
        stage: Share(share.low, _sum([_beyond(listed, stage), _beyond(alone, stage)]).high)
        for stage, share in reached.items()
    }

    half = LIMITS.field_percent
    missed = min((stage for stage in at_most if at_most[stage].high < half), key=rank, default=None)
    best = max((stage for stage in reached if reached[stage].low >= half), key=rank, default=None)
    if best is not None:
        return TalliedStage(best, reached[best].known, missed)
    if without is not None and without.low > half:
        return TalliedStage(NONE, without.known, "R1")
    if missed == "R1":
        return TalliedStage(NONE, at_most["R1"].rest.known, "R1")
    return TalliedStage(None, None, missed)


def _on_scale(tally: Tally, letter: str) -> bool:
    stage = stage_of(tally.what)
    return stage is not None and (stage[0] == letter or (stage == NONE and letter == "R"))


def _one_sample(listed: list[Tally]) -> list[Tally]:
    """Classes of one list are of one sample: *8 of 10 at R2, the other two R1* is two of ten."""
    sizes = {tally.of for tally in listed if tally.of}
    if len(sizes) != 1:
        return listed
    (size,) = sizes
    return [replace(tally, of=size) if tally.count is not None else tally for tally in listed]


def _pooled(tallies: Sequence[Tally]) -> dict[str, Share]:
    """One share a stage: counts of several stops are added up; of bare percents the lower one serves (guide 2.3)."""
    groups: dict[str, list[Tally]] = {}
    for tally in tallies:
        groups.setdefault(stage_of(tally.what) or tally.what, []).append(tally)
    shares: dict[str, Share] = {}
    for stage, group in groups.items():
        shares[stage] = min((share_of(tally) for tally in group), key=lambda share: (share.low, share.high))
        if len(group) > 1 and all(tally.count is not None and tally.of for tally in group):
            count, of = sum(tally.count or 0 for tally in group), sum(tally.of or 0 for tally in group)
            shares[stage] = share_of(Tally(stage, count, of))
    return shares


def _rest_filled(listed: dict[str, Share]) -> dict[str, Share]:
    """In a list of classes, one with no number (*the rest R1*) is what the others leave."""
    open_ones = [stage for stage, share in listed.items() if share.known is None]
    left = _ALL - sum(share.low for share in listed.values())
    if len(open_ones) != 1 or listed[open_ones[0]] != UNKNOWN or len(listed) == 1 or left < 0:
        return listed
    return {**listed, open_ones[0]: Share(left, left)}


def _beyond(shares: Mapping[str, Share], stage: str) -> Share:
    """The shares at `stage` and later, added up."""
    return _sum(share for other, share in shares.items() if rank(other) >= rank(stage))


def _sum(shares: Iterable[Share]) -> Share:
    items = list(shares)
    return Share(min(_ALL, math.fsum(s.low for s in items)), min(_ALL, math.fsum(s.high for s in items)))
