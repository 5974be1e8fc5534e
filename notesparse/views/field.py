"""The stage of the field: how sure it is, what it rests on, and how it compares with what the scout calls it."""

from __future__ import annotations

from notesparse.facts import FieldStage, Stage
from notesparse.outcome import Outcome, Visit
from notesparse.record.lines import whole_field
from notesparse.staging.field import few_plants
from notesparse.staging.scale import agrees, said
from notesparse.views.cells import WIDTH, fold, safe
from notesparse.views.paint import Paint, plain
from notesparse.views.wording import RULES, TALLIED, day, many, number, percent, stage, tallied

_INDENT = "   "


def title(visit: Visit, paint: Paint = plain) -> list[str]:
    """The name of the field and the day, and under it what the head of the visit says."""
    name = safe(visit.field) if visit.field else "Field not named"
    lines = [paint("title", f"{name}, {day(visit.date)}" if visit.date else f"{name}, no date")]
    head = []
    if visit.planted:
        head.append(f"planted {day(visit.planted)}")
    if visit.emerged:
        head.append(f"up {day(visit.emerged)}")
    if visit.variety:
        head.append(f"variety {safe(visit.variety)}")
    if visit.maturity_group is not None:
        head.append(f"maturity group {number(float(visit.maturity_group))}")
    if visit.row_spacing_in is not None:
        head.append(f"{number(float(visit.row_spacing_in))}-inch rows")
    return lines + (fold(", ".join(head), WIDTH) if head else [])


def field(outcome: Outcome, at: int, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """The stage of visit `at` (from 0) of a note."""
    visit = outcome.visits[at]
    found = visit.field_stage
    lines = [
        *_scale("V", found.v, _why_v(visit, found), width, paint),
        *_scale("R", found.r, _why_r(visit, found), width, paint),
    ]
    remarks = [*_order(found), *_few(found), *_tallies(visit), *_called(visit, found)]
    if found.v is not None:
        remarks.append(f"{RULES.get(found.counting_rule, '')} (rule {found.counting_rule}).".lstrip())
    remarks += _waiting(outcome, at)
    if remarks:
        lines.append("")
    for remark in remarks:
        lines += fold(remark, width, _INDENT, _INDENT + "  ")
    return lines


def _scale(letter: str, code: str | None, why: str, width: int, paint: Paint) -> list[str]:
    shown = code if code not in (None, "none") else f"{letter} -"
    hang = " " * (len(_INDENT) + 6)
    first, *rest = fold(why, width, hang)
    return [_INDENT + paint("stage", f"{shown:<6}") + first[len(hang) :], *rest]


def _why_v(visit: Visit, found: FieldStage) -> str:
    if found.v is None:
        return _unknown(visit, "v", "no leaves counted and no V stage stated")
    return _why(found.v, found.basis_v, found.reached_v_percent, found.interval_v_percent, found.staged_v, found.plants)


def _why_r(visit: Visit, found: FieldStage) -> str:
    if found.r is None:
        return _unknown(visit, "r", "nothing said of flowers, pods, seeds or ripe pods")
    if found.r == "none":
        return f"no open flower yet: {_share(found.reached_r_percent, found.staged_r)}"
    return _why(found.r, found.basis_r, found.reached_r_percent, found.interval_r_percent, found.staged_r, found.plants)


def _why(
    code: str,
    basis: str | None,
    reached: float | None,
    interval: tuple[float, float] | None,
    staged: int,
    plants: int,
) -> str:
    if basis == "stated":
        return "as you stated it; nothing in the note can check it"
    if basis == "tallies":
        return f"by your tally: {percent(reached)} of the plants" if reached is not None else "by your tally"
    text = f"reached by {_share(reached, staged)}"
    if interval is not None:
        text += f", 95 % interval {round(interval[0])} to {round(interval[1])} %"
    silent = plants - staged
    if silent > 0:
        text += f"; {many(silent, 'plant')} left out, nothing to tell {code[0]} by"
    return text


def _share(reached: float | None, staged: int) -> str:
    if reached is None:
        return "most plants"
    if not staged:
        return f"{percent(reached)} of the plants"
    return f"{round(reached * staged / 100)} of {many(staged, 'plant')}, {percent(reached)}"


def _unknown(visit: Visit, scale: str, reason: str) -> str:
    """Why there is no stage: nothing said, or a range, or questions in the way."""
    stated = _stated(visit, scale)
    if stated is not None and not isinstance(stated, str):
        return f"between the two: you called it {said(stated)}"
    told = any((p.v if scale == "v" else p.r).decided_by for p in visit.plants)
    if told:
        return "not known yet: what the note says cannot be settled"
    if any(t.tally.what[:1].casefold() == scale or (scale == "r" and t.tally.what in TALLIED) for t in visit.tallies):
        return "not known: less than half of the plants in the tally"
    return f"not known: {reason}"


def _stated(visit: Visit, scale: str) -> Stage | None:
    values = [getattr(record.stated, scale) for record in whole_field(visit.stated)]
    return next((value for value in values if value is not None), None)


def _order(found: FieldStage) -> list[str]:
    """From the least advanced plant to the most, each scale for itself: some decisions hang on the first ones there."""
    told = []
    for at in (0, 1):
        least, middle, most = found.least[at], found.median[at], found.most[at]
        if least != most and most is not None:
            told.append(f"from {_low(least, at)} to {stage(most)}, the middle one {_low(middle, at)}")
    if not told:
        return []
    text = f"The plants run {'; '.join(told)}."
    if found.mean_v is not None and found.least[0] != found.most[0]:
        text += f" Average of the V numbers {number(float(found.mean_v), 1)}: not the field's stage."
    return [text]


def _low(code: str | None, at: int) -> str:
    if code is None:
        return "not up" if at == 0 else "not known"
    return stage(code)


def _few(found: FieldStage) -> list[str]:
    if not few_plants(found):
        return []
    return [f"{many(found.plants, 'plant').capitalize()} only: fewer than ten say little about a whole field."]


def _tallies(visit: Visit) -> list[str]:
    return [f"You tallied {tallied(record.tally)}." for record in visit.tallies]


def _called(visit: Visit, found: FieldStage) -> list[str]:
    """The scout's own word beside what was computed; where it stands alone, the scale's line says so already."""
    told = []
    for scale, code, basis in (("v", found.v, found.basis_v), ("r", found.r, found.basis_r)):
        stated = _stated(visit, scale)
        if stated is None or basis == "stated" or code is None:
            continue
        verdict = "which agrees" if agrees(stated, code) else f"which differs from {stage(code)}"
        told.append(f"You called it {said(stated)}, {verdict}.")
    for record in visit.stated:
        if record.where is not None:
            stages = [said(s) for s in (record.stated.v, record.stated.r) if s is not None]
            told.append(f"A part of the field, {safe(record.where)}: you called it {', '.join(stages)}.")
    return told


def _waiting(outcome: Outcome, at: int) -> list[str]:
    moving = [
        str(number_)
        for number_, question in enumerate(outcome.questions, 1)
        if question.visit == at and question.answer is None and question.moves_field
    ]
    if not moving:
        return []
    return [f"This may still change: see question{'s' if len(moving) > 1 else ''} {', '.join(moving)}."]
