"""Two visits to one field that do not go together: each is a question that names both, with their words.

Rests on the reading guide, section 8, and on the published intervals. A season is looked at field by field.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from notesparse.lazy import dataclass
from notesparse.season.intervals import intervals
from notesparse.season.look import Field, Seen
from notesparse.staging.plausible import QUANTITIES
from notesparse.staging.scale import R_CODES, rank, v_number


@dataclass(frozen=True, slots=True)
class Doubt:
    """A question about two visits of a field (or about one and its planting day). `source` is what it rests on."""

    field: str
    kind: str  # back, fast, slow, nodes, rule, planted, days
    first: Seen
    second: Seen
    ask: str
    source: str


def doubts(field: Field) -> list[Doubt]:
    """All that does not go together in the season of one field, in the order of its visits."""
    dated = field.dated
    out = [*_r_ladder(field, dated), *_v_ladder(field, dated), *_rules(field, dated), *_planting(field, dated)]
    return sorted(out, key=lambda d: (d.second.date or "", d.first.date or "", d.kind))


def in_doubt(found: Sequence[Doubt]) -> dict[int, list[str]]:
    """The questions that a visit raises together with another one, by the visit's id: which of the two is wrong is not
    known, so both bear them. Nothing is said of planting days and counting rules."""
    out: dict[int, list[str]] = {}
    for d in found:
        if d.kind in ("back", "fast", "slow", "nodes"):
            for seen in (d.first, d.second):
                out.setdefault(seen.id, []).append(d.ask)
        elif d.kind == "days":
            out.setdefault(d.second.id, []).append(d.ask)
    return out


def _told(seen: Seen, letter: str, stage: str) -> str:
    """`R6 on 2026-09-08 (“beans touching top four”)`."""
    words = next((w for w in seen.words if w.variable == letter), None)
    quoted = f" (“{' '.join(words.words.split())}”)" if words is not None else ""
    return f"{stage} on {seen.date}{quoted}"


def _r(seen: Seen) -> str | None:
    return seen.r if seen.r in R_CODES else None


def _r_ladder(field: Field, visits: Sequence[Seen]) -> Iterator[Doubt]:
    staged = [v for v in visits if v.r is not None]
    for one, two in pairwise(staged):
        assert one.day and two.day
        days = (two.day - one.day).days
        first, second = _r(one), _r(two)
        if first is not None and rank(two.r or "none") < rank(first):
            if days == 0 or _by_chance(one, two, first, second):
                continue
            source = QUANTITIES["r_stages_back"].source
            after = two.r if second else "no open flower"
            yield _doubt(field, "back", one, two, "r", first, str(after), "A field does not go back", source)
            continue
        if first is None or second is None:
            continue
        low, high, sources = _passage(first, second)
        if second != first and days < low:
            why = f"{days} days lie between, and by published intervals at least {low:g} should"
            yield _doubt(field, "fast", one, two, "r", first, second, why, "; ".join(sources))
        step = intervals().between(first, R_CODES[R_CODES.index(first) + 1]) if first != "R8" else None
        if second == first and step is not None and days > step.high:
            why = f"{days} days at {first}, and it lasts {step.high:g} at most by what is published"
            yield _doubt(field, "slow", one, two, "r", first, second, why, step.source)
        elif second != first and days > high:
            why = f"{days} days lie between, and by published intervals at most {high:g} should"
            yield _doubt(field, "slow", one, two, "r", first, second, why, "; ".join(sources))


def _by_chance(one: Seen, two: Seen, first: str, second: str | None) -> bool:
    """One stage back, where either visit's plants leave open whether half of the field were at the later stage."""
    if second is None or rank(first) - rank(second) > 1:
        return False
    spans = [seen.interval_r for seen in (one, two) if seen.interval_r is not None and seen.share_r != 100]
    return any(low < 50 < high for low, high in spans)


def _passage(first: str, second: str) -> tuple[float, float, list[str]]:
    """Least and most days between being seen at one stage and at a later one: the first may be about to end, the second
    just begun, or the other way round."""
    a, b = R_CODES.index(first), R_CODES.index(second)
    steps = [intervals().between(R_CODES[i], R_CODES[i + 1]) for i in range(a, b + 1) if i + 1 < len(R_CODES)]
    known = [step for step in steps if step is not None]
    inner = known[1 : b - a]
    return sum(s.low for s in inner), sum(s.high for s in known), list(dict.fromkeys(s.source for s in known))


def _v_ladder(field: Field, visits: Sequence[Seen]) -> Iterator[Doubt]:
    staged = [v for v in visits if v.v is not None and v.v not in ("VE",)]
    for one, two in pairwise(staged):
        assert one.day and two.day and one.v and two.v
        days = (two.day - one.day).days
        if one.counting_rule != two.counting_rule:
            continue  # said by itself
        gain = v_number(two.v) - v_number(one.v)
        most, lost = QUANTITIES["nodes_a_day"], QUANTITIES["nodes_lost"]
        if days > 0 and most.ask is not None and gain > most.ask * days:
            why = f"{gain} new nodes in {days} days, and a soybean makes {most.ask:g} a day at most"
            yield _doubt(field, "nodes", one, two, "v", one.v, two.v, why, most.source)
        elif days >= 0 and lost.ask is not None and -gain > lost.ask:
            yield _doubt(field, "nodes", one, two, "v", one.v, two.v, f"{-gain} nodes fewer", lost.source)


def _rules(field: Field, visits: Sequence[Seen]) -> Iterator[Doubt]:
    counted = [v for v in visits if v.v is not None and v.basis_v == "plants"]
    for one, two in pairwise(counted):
        if one.counting_rule != two.counting_rule:
            ask = (
                f"{field.name}: V was counted by {one.counting_rule} on {one.date} and by {two.counting_rule} on "
                f"{two.date}. Which rule holds for this field?"
            )
            yield Doubt(
                field.name, "rule", one, two, ask, "reading guide, section 7: records that mix rules are worthless"
            )


def _planting(field: Field, visits: Sequence[Seen]) -> Iterator[Doubt]:
    told = [v for v in visits if v.planted is not None]
    for one, two in pairwise(told):
        if one.planted != two.planted:
            ask = f"{field.name}: planted {one.planted} by the note of {one.date}, {two.planted} by that of {two.date}. Which is right?"
            yield Doubt(
                field.name, "planted", one, two, ask, "one field is planted once a season: common practice, no source"
            )
    if not told:
        return
    from datetime import date

    planted = date.fromisoformat(str(told[0].planted))
    flowering = [v for v in visits if _r(v) is not None]
    limit = QUANTITIES["days_planting_to_r1"]
    if flowering and flowering[0].day is not None:
        days = (flowering[0].day - planted).days
        before = [v for v in visits if v.day and flowering[0].day and v.day < flowering[0].day and v.r == "none"]
        early = limit.ask_below is not None and days < limit.ask_below
        late = _r(flowering[0]) == "R1" and limit.ask is not None and days > limit.ask
        if early or late or days < 0:
            stage = str(flowering[0].r)
            ask = (
                f"{field.name}: {_told(flowering[0], 'r', stage)}, {days} days after planting ({told[0].planted}). "
                "Are the day and the stage right?"
            )
            yield Doubt(field.name, "days", (before or told)[0], flowering[0], ask, limit.source)


def _doubt(
    field: Field, kind: str, one: Seen, two: Seen, letter: str, first: str, second: str, why: str, source: str
) -> Doubt:
    ask = f"{field.name}: {_told(one, letter, first)}, then {_told(two, letter, second)}. {why}. Which is right?"
    return Doubt(field.name, kind, one, two, ask, source)
