"""What the stage of a field usually brings up on a day: windows of `operations.toml`, with cautions that nothing leaves out.

A window opens and ends by the plants that it hangs on: half of the field, its first plants, or its last. Where the stage
rests on open questions, on hedged or stated words alone, or on so few plants that its interval holds both answers, the window
says that it is to be checked. Nothing here recommends a treatment.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date as Date
from datetime import timedelta
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from notesparse.errors import RecordError
from notesparse.lazy import dataclass
from notesparse.season.consistency import doubts, in_doubt
from notesparse.season.forecast import Window, forecast
from notesparse.season.look import Field, Seen
from notesparse.season.standing import window_dict
from notesparse.staging.scale import R_CODES, rank

WHOSE = {"field": "half of the plants", "first": "the first plants", "last": "the last plants"}


@dataclass(frozen=True, slots=True)
class Operation:
    """One thing that a stage brings up; `after` are days behind the stage `opens` (first, last likely)."""

    name: str
    opens: str
    until: str | None
    plants: str  # field, first, last
    look: str
    cautions: tuple[str, ...]
    source: str
    after: tuple[int, int] | None = None
    ranges: tuple[str, ...] = ()

    @property
    def begins(self) -> str:
        """`R6`, or `7 to 10 days after R6`."""
        return self.opens if self.after is None else f"{self.after[0]} to {self.after[1]} days after {self.opens}"


@dataclass(frozen=True, slots=True)
class Upcoming:
    """An operation for one field on one day: `state` is open or coming; `opens` and `ends` are the windows of its stages, if they are
    known.

    `check` says why the window is not to be relied on; empty: nothing speaks against it.
    """

    operation: Operation
    state: str
    stage: str | None  # of the plants that decide, as last seen
    seen: str | None  # the day of that visit
    opens: Window | None
    ends: Window | None
    check: tuple[str, ...]


@lru_cache(maxsize=1)
def cautions() -> Mapping[str, str]:
    """What each caution key says."""
    return MappingProxyType(dict(_data()["cautions"]))


@lru_cache(maxsize=1)
def operations() -> tuple[Operation, ...]:
    """All operations, checked: known stages, known cautions, known plants, and NOTREC on every one."""
    out = []
    for entry in _data()["operation"]:
        op = Operation(
            entry["name"],
            entry["opens"],
            entry.get("until"),
            entry["plants"],
            entry["look"],
            tuple(entry["cautions"]),
            entry["source"],
            tuple(entry["after"]) if "after" in entry else None,
            tuple(entry.get("ranges", ())),
        )
        if unknown := [key for key in op.cautions if key not in cautions()]:
            raise RecordError(f"operations.toml: {op.name}: no caution is called {unknown[0]}")
        if op.plants not in WHOSE:
            raise RecordError(
                f"operations.toml: {op.name}: plants is {op.plants!r}, and should be one of {', '.join(WHOSE)}"
            )
        if "NOTREC" not in op.cautions:
            raise RecordError(f"operations.toml: {op.name}: the caution NOTREC is missing")
        for stage in filter(None, (op.opens, op.until)):
            rank(stage)  # a code that is none is a fault of the file
        out.append(op)
    return tuple(out)


def _data() -> dict[str, Any]:
    return tomllib.loads((files("notesparse") / "season" / "operations.toml").read_text(encoding="utf-8"))


def upcoming(field: Field, on: Date, ahead: int = 21) -> list[Upcoming]:
    """What is open on a day, and what may open within `ahead` days; the open ones first."""
    visits = [v for v in field.staged if v.day and v.day <= on]
    if not visits:
        return []
    known = Field(field.id, field.name, tuple(visits))
    windows = forecast(known, most=8)
    disputed = _disputed(known, visits[-1])
    out = []
    for op in operations():
        one = _one(op, visits, windows, on, ahead, disputed)
        if one is not None:
            out.append(one)
    return sorted(out, key=lambda u: (u.state != "open", u.opens.first if u.opens else on))


def _disputed(field: Field, last: Seen) -> list[str]:
    """The visits that the last one does not go with: all that hangs on its stage is then to be checked."""
    found = [d for d in doubts(field) if last.id in in_doubt([d])]
    others = sorted({str((d.first if d.second.id == last.id else d.second).date) for d in found if d.kind != "days"})
    out = [f"the visit of {last.date} does not go with that of {other}" for other in others]
    return [*out, *("the day of planting does not go with this stage" for d in found if d.kind == "days")]


def _one(
    op: Operation, visits: Sequence[Seen], windows: Sequence[Window], on: Date, ahead: int, disputed: Sequence[str]
) -> Upcoming | None:
    stands = _standing(op, visits)
    shown = stands[1] or stands[0]
    opens = next((w for w in windows if w.stage == op.opens), None)
    ends = next((w for w in windows if w.stage == op.until), None) if op.until else None
    last = visits[-1]
    check = [*disputed, *_check(op, last)]
    if _at(stands, op.until) if op.until else False:
        return None
    if ends is not None and ends.last < on:
        return None  # most likely over, though nobody was there to see it
    if _at(stands, op.opens):
        if op.after is not None:
            began = next((v.day for v in visits if _at(_standing(op, [v]), op.opens)), None)
            if began is not None and began + timedelta(days=op.after[0]) > on:
                first, end = (began + timedelta(days=d) for d in op.after)
                told = f"{op.opens} seen {began}, {op.after[0]} to {op.after[1]} days on"
                later = Window(op.opens, first, first, end, told, op.source)
                return Upcoming(op, "coming", shown, last.date, later, ends, tuple(check))
        if ends is not None and ends.first <= on:
            check.append(f"{op.until} may have begun since {ends.first}")
        return Upcoming(op, "open", shown, last.date, opens, ends, tuple(check))
    if opens is None and op.plants == "last" and _at(_standing(replace(op, plants="field"), visits), op.opens):
        # half of the field is there and its last plants are not: it comes, and no published interval says when
        check.append(f"the last plants were not at {op.opens} on {last.date}: look")
        return Upcoming(op, "coming", shown, last.date, None, ends, tuple(check))
    if opens is not None and op.after is not None:
        first, likely, end = opens.first, opens.likely, opens.last
        days = [timedelta(days=d) for d in (op.after[0], sum(op.after) // 2, op.after[1])]
        opens = replace(opens, first=first + days[0], likely=likely + days[1], last=end + days[2])
    if opens is None or opens.first > on + timedelta(days=ahead):
        return None
    if opens.first <= on:
        check.append(f"{'it' if op.after else op.opens} may have begun since {opens.first}: look")
    return Upcoming(op, "coming", shown, last.date, opens, ends, tuple(check))


def _standing(op: Operation, visits: Sequence[Seen]) -> tuple[str | None, str | None]:
    """V and R of the plants that decide, each by the last visit that tells of it."""
    v = r = None
    for seen in visits:
        pair = {"field": (seen.v, seen.r), "first": seen.most, "last": seen.least}[op.plants]
        v = pair[0] or seen.v or v
        r = next((code for code in (pair[1], seen.r) if code in R_CODES or code == "none"), r)
    return v, r


def _at(stands: tuple[str | None, str | None], stage: str | None) -> bool:
    """Whether plants that stand at (V, R) have reached a stage; every R stage is beyond the V stages that open windows."""
    if stage is None:
        return False
    v, r = stands
    if stage.startswith("R"):
        return r in R_CODES and rank(str(r)) >= rank(stage)
    if r in R_CODES:
        return True
    return v is not None and (rank(v) >= rank(stage))


def _check(op: Operation, last: Seen) -> list[str]:
    out = []
    if last.open_moving:
        out.append("a question that can change this stage is open")
    basis = last.basis_r if op.opens.startswith("R") else last.basis_v
    if basis == "stated":
        out.append("the stage was stated, and no plant was counted")
    interval = last.interval_r if op.opens.startswith("R") else last.interval_v
    at_the_edge = op.opens in (last.v, last.r)  # a stage further on, and the question is settled
    if op.plants == "field" and at_the_edge and interval is not None and interval[0] < 50 < interval[1]:
        out.append(f"{last.plants} plants leave open whether half are there")
    if last.assumed and basis == "plants":
        out.append("the stage rests on what the note leaves unsaid")
    return out


def to_dict(name: str, on: Date, found: Sequence[Upcoming]) -> dict[str, Any]:
    """What a day brings up for a field as a JSON object; the cautions are always in it."""
    return {
        "field": name,
        "on": on.isoformat(),
        "upcoming": [
            {
                "name": u.operation.name,
                "state": u.state,
                "opens_at": u.operation.opens,
                "until": u.operation.until,
                "plants": WHOSE[u.operation.plants],
                "stage": u.stage,
                "seen": u.seen,
                "opens": window_dict(u.opens) if u.opens else None,
                "ends": window_dict(u.ends) if u.ends else None,
                "check": list(u.check),
                "look_at": u.operation.look,
                "published_ranges": list(u.operation.ranges),
                "cautions": [cautions()[key] for key in u.operation.cautions],
                "source": u.operation.source,
            }
            for u in found
        ],
        "advice": "none: label, local rules and a licensed adviser decide",
    }
