"""What is otherwise in the record for each hearing of the same words: what a question about them has to tell."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from notesparse.facts import PLANT_KEYS
from notesparse.lazy import dataclass
from notesparse.outcome import Outcome, Visit

_HEAD = ("field", "date", "planted", "emerged", "variety", "maturity_group", "row_spacing_in")
_Visit = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Differing:
    """`makes` holds for each outcome the values in which they are not all alike, with the stages of plant and field."""

    visit: int
    plant: str | None
    stop: str | None
    key: str | None  # the fact, where it is about one
    keys: tuple[tuple[int, str, str | None, str], ...]  # (visit, plant, stop, key) of all facts that differ
    makes: tuple[Mapping[str, Any], ...]
    moves_field: bool


def differing(outcomes: Sequence[Outcome]) -> Differing | None:
    """What differs between records of the same note; None where nothing does. Spans and remarks are left aside."""
    noted = [[_noted(visit) for visit in outcome.visits] for outcome in outcomes]
    open_still = [_open(outcome) for outcome in outcomes]
    if _alike([[_values(visit) for visit in visits] for visits in noted]) and _alike(open_still):
        return None
    count = max(map(len, noted))
    rows = [[visits[k] if k < len(visits) else _NOTHING for visits in noted] for k in range(count)]
    changed = [k for k, row in enumerate(rows) if not _alike([_values(visit) for visit in row])]
    k = changed[0] if changed else 0
    row = rows[k] if rows else [_NOTHING] * len(outcomes)
    plants = _differing_plants(row)
    heads = [key for key in row[0]["head"] if not _alike([visit["head"][key] for visit in row])]
    of_one = len(plants) == 1 and not heads and all(plants[0] in visit["plants"] for visit in row)
    makes: list[dict[str, Any]] = [{} for _ in outcomes]
    facts: list[str] = []
    if of_one:
        facts = _facts(plants[0], row)
        _put(makes, facts, [visit["plants"][plants[0]] for visit in row])
    _put(makes, heads, [visit["head"] for visit in row])
    if plants and not of_one:
        for made, visit in zip(makes, row, strict=True):
            made["plants"] = {_called(name): _told(name, visit, row) for name in plants}
    for kind in ("tallies", "stated_parts", "findings"):
        if not _alike([visit[kind] for visit in row]):
            for made, visit in zip(makes, row, strict=True):
                made[kind] = [one for one in visit[kind] if not all(one in other[kind] for other in row)]
    if len(changed) > 1 or not _alike([len(visits) for visits in noted]):
        for made, visits in zip(makes, noted, strict=True):
            made["visits"] = [_visit_line(visit) for visit in visits]
    if any(_alike([one, two]) for i, one in enumerate(makes) for two in makes[:i]):
        for made, asked in zip(makes, open_still, strict=True):
            made["then_asked"] = [ask for ask, _ in asked]
    for made, visit in zip(makes, row, strict=True):
        if of_one:
            made |= {key: visit["plants"][plants[0]][key] for key in ("v_stage", "r_stage")}
        made |= {"field_v": visit["field"][0], "field_r": visit["field"][1]}
    return Differing(
        k,
        plants[0][1] if of_one else None,
        plants[0][0] if of_one else None,
        facts[0] if len(facts) == 1 else None,
        tuple((j, p[1], p[0], key) for j, r in enumerate(rows) for p in _differing_plants(r) for key in _facts(p, r)),
        tuple(makes),
        any(not _alike([visit["field"] for visit in r]) for r in rows),
    )


_NOTHING: _Visit = {
    "head": dict.fromkeys((*_HEAD, "stated_v", "stated_r")),
    "plants": {},
    "derived": {},
    "stated_parts": [],
    "tallies": [],
    "findings": [],
    "field": (None, None),
}


def _values(visit: _Visit) -> _Visit:
    """What is recorded; from what it follows is no matter."""
    return {key: value for key, value in visit.items() if key != "derived"}


def _noted(visit: Visit) -> _Visit:
    """A visit without its spans, as plain values."""
    head = {key: plain(getattr(visit, key)) for key in _HEAD}
    whole = [s.stated for s in visit.stated if s.where is None]
    head["stated_v"] = plain(next((s.v for s in whole if s.v is not None), None))
    head["stated_r"] = plain(next((s.r for s in whole if s.r is not None), None))
    plants: dict[tuple[str | None, str, int], dict[str, Any]] = {}
    derived: dict[tuple[str | None, str, int], tuple[str, ...]] = {}
    for p in visit.plants:
        nth = 0
        while (p.stop, p.label, nth) in plants:
            nth += 1
        facts = {key: plain(getattr(p.facts, key)) for key in PLANT_KEYS}
        plants[p.stop, p.label, nth] = {**facts, "v_stage": p.v.stage, "r_stage": p.r.stage}
        derived[p.stop, p.label, nth] = p.derived
    return {
        "head": head,
        "plants": plants,
        "derived": derived,
        "stated_parts": [
            {"v": plain(s.stated.v), "r": plain(s.stated.r), "where": s.where}
            for s in visit.stated
            if s.where is not None
        ],
        "tallies": [
            {"what": t.tally.what, "count": plain(t.tally.count), "of": plain(t.tally.of)}
            | {"percent": plain(t.tally.percent), "more_than_half": t.tally.more_than_half}
            for t in visit.tallies
        ],
        "findings": [
            {"kind": f.kind, "name": f.name, "value": plain(f.value), "unit": f.unit, "where": f.where}
            for f in visit.findings
        ],
        "field": (visit.field_stage.v, visit.field_stage.r),
    }


def _open(outcome: Outcome) -> list[tuple[str, Any]]:
    """What is asked anyway, and what its answers would make."""
    return sorted((q.ask, [plain(dict(c.makes)) for c in q.choices]) for q in outcome.questions if q.answer is None)


def plain(value: Any) -> Any:
    """A value as a record holds it: lists, no tuples; noise of 1e-5 is gone."""
    if isinstance(value, float):
        return int(value) if value.is_integer() else round(value, 4)
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, (set, frozenset)):
        return sorted(value)
    return [plain(item) for item in value] if isinstance(value, (tuple, list)) else value


def _alike(values: Sequence[Any]) -> bool:
    return all(value == values[0] and repr(value) == repr(values[0]) for value in values[1:])


def _differing_plants(row: Sequence[_Visit]) -> list[tuple[str | None, str, int]]:
    names = dict.fromkeys(name for visit in row for name in visit["plants"])
    return [name for name in names if not _alike([visit["plants"].get(name) for visit in row])]


def _facts(name: tuple[str | None, str, int], row: Sequence[_Visit]) -> list[str]:
    """The facts that differ; those that only follow from others are not told, if others are."""
    found = [(visit["plants"].get(name, {}), visit["derived"].get(name, ())) for visit in row]
    keys = [key for key in PLANT_KEYS if not _alike([facts.get(key) for facts, _ in found])]
    own = [k for k in keys if any(facts.get(k) is not None and k not in derived for facts, derived in found)]
    return own or keys


def _put(makes: Sequence[dict[str, Any]], keys: Sequence[str], values: Sequence[Mapping[str, Any]]) -> None:
    for made, held in zip(makes, values, strict=True):
        made |= {key: held[key] for key in keys}


def _called(name: tuple[str | None, str, int]) -> str:
    stop, label, nth = name
    return (f"{stop} / {label}" if stop else label) + (f" ({nth + 1})" if nth else "")


def _told(name: tuple[str | None, str, int], visit: _Visit, row: Sequence[_Visit]) -> Mapping[str, Any] | None:
    """What differs of one plant, the stages with it; None: there is no such plant."""
    facts = visit["plants"].get(name)
    if facts is None:
        return None
    everywhere = all(name in other["plants"] for other in row)
    derived = visit["derived"][name]
    keys = [key for key in PLANT_KEYS if facts[key] is not None and key not in derived]
    keys = _facts(name, row) if everywhere else keys
    return {key: facts[key] for key in (*keys, "v_stage", "r_stage")}


def _visit_line(visit: _Visit) -> str:
    stages = ", ".join(stage for stage in visit["field"] if stage is not None)
    named = " ".join(filter(None, (visit["head"]["field"] or "field not named", visit["head"]["date"])))
    return f"{named}: {stages or 'no stage'}"
