"""When a field is likely to reach its next stages: published intervals, and the field's own node rate where it has one.

How the days are combined. The day on which the last R stage began lies between two visits, and not longer ago than that
stage lasts; the next stage follows by its published interval. Over several steps the likely days add up, and the distances
to the first and the last likely day add up as independent ones do (root of the sum of squares). Before flower, R1 comes
from the planting day, and from the V stage with the node rate; where both tell, the narrower common window stands.
The node rate is the field's own (slope of its V numbers) and the published one, each weighted by how sure it is.
Temperature, hail, frost and flood are not taken into account.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date as Date
from datetime import timedelta
from math import sqrt

from notesparse.lazy import dataclass
from notesparse.season.consistency import doubts, in_doubt
from notesparse.season.intervals import Step, intervals, next_r
from notesparse.season.look import Field, Seen
from notesparse.staging.plausible import QUANTITIES
from notesparse.staging.scale import R_CODES, rank, v_code, v_number

_COUNT_ERROR = 0.5  # nodes: how far a field's V stage may be from the truth on one visit (half a stage)


@dataclass(frozen=True, slots=True)
class Window:
    """The days on which a stage is likely to begin. `rests_on` says by what; `source` is what was published."""

    stage: str
    first: Date
    likely: Date
    last: Date
    rests_on: str
    source: str

    @property
    def days(self) -> int:
        """How wide the window is."""
        return (self.last - self.first).days


@dataclass(frozen=True, slots=True)
class NodeRate:
    """New nodes a day: the rate used, one standard deviation, and the field's own rate where two visits give one."""

    used: float
    spread: float
    own: float | None
    visits: int


@dataclass(frozen=True, slots=True)
class Tried:
    """A past stage forecast from the visits before it: the window, the two visits that it began between, and by how many
    days the window missed (0: it did not)."""

    field: str
    stage: str
    window: Window
    after: Date
    by: Date
    missed: int


def reached(visits: Sequence[Seen], letter: str) -> Seen | None:
    """The last visit with a stage on a scale (`none` is no R stage)."""
    staged = [v for v in visits if (v.v if letter == "v" else v.r if v.r in R_CODES else None)]
    return staged[-1] if staged else None


def forecast(field: Field, most: int = 3) -> list[Window]:
    """The windows of the next stages, `most` R stages ahead, and the next V stages before R5."""
    visits = field.staged
    if not visits:
        return _from_planting(field)
    last_r = reached(visits, "r")
    out: list[Window] = []
    if last_r is not None:
        out += _r_ahead(visits, last_r, most)
    else:
        window = _first_flower(field, visits)
        out += [window] if window is not None else []
    if last_r is None or rank(str(last_r.r)) < rank("R5"):
        out += _v_ahead(visits)
    return sorted(out, key=lambda w: (w.likely, w.stage))


def node_rate(visits: Sequence[Seen]) -> NodeRate:
    """The field's node rate: least squares over its V numbers up to R5, weighed with the published rate.

    Visits whose V does not go with that of the visit before or after are left out: which of the two is wrong is not known.
    """
    published = intervals().nodes
    doubted = in_doubt([d for d in doubts(Field(None, "", tuple(visits))) if d.kind == "nodes"])
    points = [
        (v.day.toordinal(), v_number(v.v))
        for v in visits
        if v.day
        and v.v
        and v.id not in doubted
        and v_number(v.v) >= 1
        and (v.r not in R_CODES or rank(v.r or "") < rank("R5"))
    ]
    days = {day for day, _ in points}
    if len(days) < 2:
        return NodeRate(published.mean, published.spread, None, len(points))
    middle = sum(day for day, _ in points) / len(points)
    spread_of_days = sum((day - middle) ** 2 for day, _ in points)
    mean_v = sum(v for _, v in points) / len(points)
    own = sum((day - middle) * (v - mean_v) for day, v in points) / spread_of_days
    error = _COUNT_ERROR / sqrt(spread_of_days)
    weight, prior = 1 / error**2, 1 / published.spread**2
    used = (own * weight + published.mean * prior) / (weight + prior)
    used = min(max(used, published.low), QUANTITIES["nodes_a_day"].ask or used)
    return NodeRate(round(used, 3), round(sqrt(1 / (weight + prior)), 3), round(own, 3), len(points))


def _r_ahead(visits: Sequence[Seen], last: Seen, most: int) -> list[Window]:
    stage = str(last.r)
    begun = _entered(visits, stage)
    if begun is None or last.day is None:
        return []
    low_day, high_day = begun
    out: list[Window] = []
    likely = low_day + (high_day - low_day) / 2
    down = up = (high_day - low_day).days / 2
    while (after := next_r(stage)) is not None and len(out) < most:
        step = intervals().between(stage, after)
        if step is None:
            break
        likely += timedelta(days=step.mean)
        down, up = sqrt(down**2 + (step.mean - step.low) ** 2), sqrt(up**2 + (step.high - step.mean) ** 2)
        # no stage begins before it was looked for, nor sooner behind the one before it than that one lasts
        soonest = out[-1].first + timedelta(days=max(round(step.low), 1)) if out else last.day + timedelta(days=1)
        first = max(likely - timedelta(days=round(down)), soonest)
        end = max(likely + timedelta(days=round(up)), first)
        told = f"{stage} began between {low_day} and {high_day}" if not out else f"{out[-1].stage} as above"
        out.append(Window(after, first, min(max(likely, first), end), end, told, step.source))
        stage = after
    return out


def _entered(visits: Sequence[Seen], stage: str) -> tuple[Date, Date] | None:
    """First and last day on which the field can have reached a stage that it was seen at."""
    seen = [v for v in visits if v.r in R_CODES]
    at = [v for v in seen if rank(str(v.r)) >= rank(stage)]
    if not at or at[0].day is None or seen[-1].day is None:
        return None
    high = at[0].day
    before = [
        v.day
        for v in visits
        if v.day and v.day < high and (v.r is None or v.r not in R_CODES or rank(v.r) < rank(stage))
    ]
    after = next_r(stage)
    step = intervals().between(stage, after) if after else None
    lasts = timedelta(days=step.high if step else 30)
    low = max(high - lasts, seen[-1].day - lasts)
    told = [day for day in before if any(v.day == day and v.r is not None for v in visits)]
    if told:
        low = max(low, max(told) + timedelta(days=1))
    return min(low, high), high


def _first_flower(field: Field, visits: Sequence[Seen]) -> Window | None:
    last = visits[-1].day
    if last is None:
        return None
    found: list[Window] = []
    planted = field.first("planted")
    if planted is not None:
        step = intervals().steps["planted-R1"]
        found.append(_from_day("R1", Date.fromisoformat(planted), step, last, f"planted {planted}"))
    last_v = reached(visits, "v")
    if last_v is not None and last_v.day is not None and v_number(str(last_v.v)) >= 2:
        rate, step = node_rate(visits), intervals().v_at_r1
        number = v_number(str(last_v.v))
        fast, slow = rate.used + rate.spread, max(rate.used - rate.spread, intervals().nodes.low)
        days = [(step.low - number) / fast, (step.mean - number) / rate.used, (step.high - number) / slow]
        first, likely, end = (last_v.day + timedelta(days=max(round(d), 1)) for d in days)
        told = f"{last_v.v} on {last_v.date}, {rate.used:.2f} nodes a day"
        found.append(
            Window("R1", max(first, last + timedelta(days=1)), max(likely, first), max(end, first), told, step.source)
        )
    if len(found) == 2:
        one, two = found
        first, end = max(one.first, two.first), min(one.last, two.last)
        if first <= end:
            likely = one.likely + (two.likely - one.likely) / 2
            return Window(
                "R1",
                first,
                min(max(likely, first), end),
                end,
                f"{one.rests_on}; {two.rests_on}",
                f"{one.source}; {two.source}",
            )
        return min(found, key=lambda w: w.days)
    return found[0] if found else None


def _from_day(stage: str, day: Date, step: Step, seen: Date | None, told: str) -> Window:
    first, likely, end = (day + timedelta(days=d) for d in (step.low, step.mean, step.high))
    if seen is not None:
        first = max(first, seen + timedelta(days=1))
    end = max(end, first)
    return Window(stage, first, min(max(likely, first), end), end, told, step.source)


def _v_ahead(visits: Sequence[Seen]) -> list[Window]:
    last = reached(visits, "v")
    if last is None or last.day is None:
        return []
    out = []
    code = str(last.v)
    if code in ("VE", "VC"):
        after = "VC" if code == "VE" else "V1"
        step = intervals().steps[f"{code}-{after}"]
        return [_from_day(after, last.day, step, last.day, f"{code} on {last.date}")]
    rate = node_rate(visits)
    number = v_number(code)
    for more in (1, 2):
        fast, slow = rate.used + rate.spread, max(rate.used - rate.spread, intervals().nodes.low)
        low = max((more - _COUNT_ERROR) / fast, 1)
        first, likely, end = (
            last.day + timedelta(days=round(d)) for d in (low, more / rate.used, (more + _COUNT_ERROR) / slow)
        )
        told = f"{code} on {last.date}, {rate.used:.2f} nodes a day"
        out.append(
            Window(v_code(number + more), first, max(likely, first), max(end, first), told, intervals().nodes.source)
        )
    return out


def _from_planting(field: Field) -> list[Window]:
    planted = field.first("planted")
    if planted is None:
        return []
    day = Date.fromisoformat(planted)
    up = _from_day("VE", day, intervals().steps["planted-VE"], None, f"planted {planted}")
    return [up, _from_day("R1", day, intervals().steps["planted-R1"], None, f"planted {planted}")]


def backtest(fields: Sequence[Field]) -> list[Tried]:
    """Each past R stage, forecast from the visits before it."""
    out: list[Tried] = []
    for field in fields:
        visits = field.staged
        for i in range(1, len(visits)):
            now = visits[i]
            if now.r not in R_CODES or now.day is None:
                continue
            before = Field(field.id, field.name, visits[:i])
            last = reached(before.visits, "r")
            if last is not None and rank(str(now.r)) <= rank(str(last.r)):
                continue
            after = visits[i - 1].day
            windows = [w for w in forecast(before, most=8) if w.stage == now.r]
            if windows and after is not None:
                w = windows[0]
                missed = max((after - w.last).days, 0) or -max((w.first - now.day).days, 0)
                out.append(Tried(field.name, str(now.r), w, after, now.day, missed))
    return out


def next_visit(field: Field) -> tuple[Date, Date, str] | None:
    """First and last day to come back, and why: by the last stage, sooner where the next one is near."""
    visits = field.dated
    if not visits:
        return None
    last, day = visits[-1], visits[-1].day
    if day is None:
        return None
    stage = _visit_stage(field)
    low, high = intervals().visits[stage]
    soon = [w for w in forecast(field, most=1) if w.stage in R_CODES]
    why = f"by the last stage, {intervals().visit_source}"
    if last.interval_r and last.interval_r[0] < 50 < last.interval_r[1] and last.plants and stage.startswith("R"):
        why = f"few plants leave the stage open (interval {last.interval_r[0]:.0f} to {last.interval_r[1]:.0f} %)"
    if soon and day < soon[0].first < day + timedelta(days=low):
        return (
            soon[0].first,
            max(soon[0].first, day + timedelta(days=low)),
            f"{soon[0].stage} may begin {soon[0].first}",
        )
    return day + timedelta(days=low), day + timedelta(days=high), why


def _visit_stage(field: Field) -> str:
    last_r, last_v = reached(field.visits, "r"), reached(field.visits, "v")
    known = intervals().visits
    if last_r is not None:
        at = R_CODES.index(str(last_r.r))
        return next(R_CODES[i] for i in range(at, -1, -1) if R_CODES[i] in known)
    if last_v is not None:
        number = v_number(str(last_v.v))
        return "V6" if number >= 6 else "V3" if number >= 3 else "VE"
    return "planted"
