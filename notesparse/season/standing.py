"""Where a field stands on a day: its last stages, what changed, what is next, when to go back, what is doubtful."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date as Date
from typing import Any

from notesparse.lazy import dataclass
from notesparse.season.consistency import Doubt, doubts, in_doubt
from notesparse.season.forecast import NodeRate, Window, forecast, next_visit, node_rate, reached
from notesparse.season.look import Field, Seen
from notesparse.staging.scale import R_CODES


@dataclass(frozen=True, slots=True)
class Before:
    """The stages of the visit before the last one, on the scales that the last one tells of; `days` lie between."""

    v: str | None
    r: str | None
    days: int


@dataclass(frozen=True, slots=True)
class Standing:
    """One field on one day; `visits` are those up to that day, `v` and `r` the last that tell of each scale."""

    name: str
    on: Date
    visits: tuple[Seen, ...]
    v: Seen | None
    r: Seen | None
    before: Before | None
    rate: NodeRate
    windows: tuple[Window, ...]
    come_back: tuple[Date, Date, str] | None
    overdue: int  # days after the last day to come back; 0: not overdue
    doubts: tuple[Doubt, ...]
    open_questions: int

    @property
    def last(self) -> Seen | None:
        """The last visit that has a day."""
        dated = [seen for seen in self.visits if seen.date]
        return dated[-1] if dated else None

    @property
    def in_doubt(self) -> dict[int, list[str]]:
        """The questions that a visit raises together with another one, by the visit's id."""
        return in_doubt(self.doubts)

    @property
    def r_shown(self) -> str | None:
        """The R stage, `none` where plants were looked at and had no open flower, None where nothing was said."""
        if self.r is not None:
            return self.r.r
        return next((seen.r for seen in reversed(self.visits) if seen.r), None)

    @property
    def next_stage(self) -> Window | None:
        """The next R stage; the next V stage where no R stage can be told."""
        later = [w for w in self.windows if w.stage in R_CODES]
        return later[0] if later else self.windows[0] if self.windows else None


def standing(field: Field, on: Date | None = None) -> Standing:
    """Where a field stands on a day; without a day, on that of its last visit."""
    known = upto(field, on) if on is not None else field
    dated = known.dated
    day = on or (dated[-1].day if dated else None) or Date.min
    staged = known.staged
    v, r = reached(staged, "v"), reached(staged, "r")
    come_back = next_visit(known) if dated and not _harvested(r) else None
    overdue = max((day - come_back[1]).days, 0) if come_back else 0
    return Standing(
        known.name,
        day,
        known.visits,
        v,
        r,
        _before(dated),
        node_rate(staged),
        tuple(forecast(known)),
        come_back,
        overdue,
        tuple(doubts(known)),
        sum(seen.open_questions for seen in known.visits),
    )


def upto(field: Field, on: Date) -> Field:
    """A field as it was known on a day; visits without a day stay."""
    return Field(field.id, field.name, tuple(v for v in field.visits if v.day is None or v.day <= on))


def _harvested(r: Seen | None) -> bool:
    """R8 in all that was seen: nothing is left to come back for but the harvest itself."""
    return r is not None and r.r == "R8" and r.least[1] == "R8"


def _before(dated: Sequence[Seen]) -> Before | None:
    """What the visits before the last one told of the scales that the last one tells of."""
    if len(dated) < 2 or dated[-1].day is None:
        return None
    found: dict[str, Seen | None] = {}
    for letter in ("v", "r"):
        told = [seen for seen in dated[:-1] if getattr(seen, letter) is not None]
        found[letter] = told[-1] if told and getattr(dated[-1], letter) is not None else None
    then = [seen.day for seen in found.values() if seen is not None and seen.day]
    if not then:
        return None
    v, r = found["v"], found["r"]
    return Before(v.v if v else None, r.r if r else None, (dated[-1].day - max(then)).days)


def last_day(fields: Sequence[Field]) -> Date | None:
    """The day of the last visit that was kept."""
    days = [seen.day for field in fields for seen in field.visits if seen.day]
    return max(days) if days else None


def wanted(stands: Standing, stage: str | None = None, settle: bool = False, due: bool = False) -> bool:
    """Whether a field passes the filters: at a stage, with something to settle, due for a visit."""
    at = {str(code).casefold() for code in ((stands.v and stands.v.v), stands.r_shown)}
    if stage is not None and stage.casefold() not in at:
        return False
    if settle and not (stands.open_questions or stands.doubts):
        return False
    return not due or (stands.come_back is not None and stands.come_back[0] <= stands.on)


def to_dict(stands: Standing) -> dict[str, Any]:
    """A field as a JSON object; days are ISO 8601, shares percent."""
    return {
        "field": stands.name,
        "on": stands.on.isoformat(),
        "v": stands.v.v if stands.v else None,
        "v_seen": stands.v.date if stands.v else None,
        "r": stands.r_shown,
        "r_seen": stands.r.date if stands.r else None,
        "before": {"v": stands.before.v, "r": stands.before.r, "days": stands.before.days} if stands.before else None,
        "nodes_a_day": {
            "used": stands.rate.used,
            "spread": stands.rate.spread,
            "own": stands.rate.own,
            "visits": stands.rate.visits,
        },
        "next_stages": [window_dict(w) for w in stands.windows],
        "next_visit": {
            "first": stands.come_back[0].isoformat(),
            "last": stands.come_back[1].isoformat(),
            "why": stands.come_back[2],
        }
        if stands.come_back
        else None,
        "overdue_days": stands.overdue,
        "open_questions": stands.open_questions,
        "doubts": [
            {"kind": d.kind, "ask": d.ask, "first": d.first.note, "second": d.second.note, "source": d.source}
            for d in stands.doubts
        ],
        "visits": [visit_dict(seen, stands.in_doubt.get(seen.id, ())) for seen in stands.visits],
    }


def window_dict(w: Window) -> dict[str, Any]:
    """A forecast as a JSON object."""
    return {
        "stage": w.stage,
        "first": w.first.isoformat(),
        "likely": w.likely.isoformat(),
        "last": w.last.isoformat(),
        "rests_on": w.rests_on,
        "source": w.source,
    }


VISIT_KEYS = (
    *("note", "date", "v", "r", "basis_v", "basis_r", "plants", "share_v", "share_r", "low_v", "high_v", "low_r"),
    *("high_r", "least_v", "median_v", "most_v", "least_r", "median_r", "most_r", "counting_rule", "open_questions"),
    "doubts",
)


def visit_dict(seen: Seen, doubts: Sequence[str] = ()) -> dict[str, Any]:
    """A visit as a flat object with the keys of `VISIT_KEYS`; shares and intervals are percent, `doubts` a count."""
    values: dict[str, Any] = {
        key: getattr(seen, key)
        for key in (
            *("note", "date", "v", "r", "basis_v", "basis_r", "plants", "share_v", "share_r", "counting_rule"),
            "open_questions",
        )
    }
    values["doubts"] = len(doubts)
    for at, letter in enumerate("vr"):
        low, high = getattr(seen, f"interval_{letter}") or (None, None)
        values |= {f"low_{letter}": low, f"high_{letter}": high}
        values |= {f"{which}_{letter}": getattr(seen, which)[at] for which in ("least", "median", "most")}
    return {key: values[key] for key in VISIT_KEYS}
