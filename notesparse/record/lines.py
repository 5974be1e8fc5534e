"""An outcome as the agreed JSON object, one line a note.

The shape is that of the record contract: every key is always there, and a key that a note says nothing of is null;
`heard` alone stands only in the record of a note that was made from a recording.
Lengths are millimetres, row spacing inches, percents 0 to 100, spans ``[start, end)`` in code points of the note.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from typing import Any

from notesparse.errors import RecordError
from notesparse.facts import PLANT_KEYS, FieldStage, Staged, Tally
from notesparse.outcome import (
    INNER_KEYS,
    Answer,
    Doubt,
    Finding,
    Outcome,
    PlantRecord,
    Question,
    StatedRecord,
    TallyRecord,
    Unapplied,
    Visit,
)

SCHEMA_VERSION = 1

_SPAN_ORDER = {key: at for at, key in enumerate(("field", "date", "plant", "stop", *PLANT_KEYS))}


def to_line(outcome: Outcome) -> str:
    """The record on one line, without a line end. Plain ASCII, so that no terminal and no reader can spoil it."""
    return json.dumps(to_dict(outcome), ensure_ascii=True, allow_nan=False)


def question_line(outcome: Outcome, question: Question) -> str:
    """One question on one line, with the note that it stands in."""
    where = {"source": outcome.note.source, "sha256": outcome.note.sha256}
    return json.dumps({**where, **_question(question)}, ensure_ascii=True, allow_nan=False)


def to_dict(outcome: Outcome) -> dict[str, Any]:
    """The record as plain lists, dicts, texts and numbers, in the order of the contract."""
    note = outcome.note
    return {
        "source": note.source,
        "sha256": note.sha256,
        "note_date": note.date,
        "visits": [_visit(visit) for visit in outcome.visits],
        "questions": [_question(question) for question in outcome.questions],
        "assumptions": [{"rule": a.rule, "span": list(a.span), "text": a.text} for a in outcome.assumptions],
        "corrected": [{"rule": c.rule, "span": list(c.span), "text": c.text} for c in outcome.corrected],
        "unread": [{"span": list(u.span), "quote": u.quote, "why": u.why} for u in outcome.unread],
        "repairs": [
            {"span": list(r.span), "words": r.words, "read_as": r.read_as, "how": r.how, "nearness": plain(r.nearness)}
            for r in outcome.repairs
        ],
        "unapplied": [_unapplied(u) for u in outcome.unapplied],
        **({"heard": plain(outcome.heard)} if outcome.heard is not None else {}),
        **({"typed": plain(note.typed)} if note.typed is not None else {}),
        "schema_version": SCHEMA_VERSION,
    }


def plain(value: Any) -> Any:
    """`value` with nothing but JSON's own kinds: tuples and sets are lists, 11.0 is 11, noise of 1e-5 is gone."""
    if value is None or isinstance(value, (str, bool, int)):
        return value
    if isinstance(value, float):
        rounded = round(value, 4)
        return int(rounded) if rounded.is_integer() else rounded
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, AbstractSet):
        return [plain(item) for item in sorted(value, key=repr)]
    if isinstance(value, Sequence) and not isinstance(value, (bytes, bytearray)):
        return [plain(item) for item in value]
    raise RecordError(f"A record can hold no {type(value).__name__}: {value!r}.")


def percent_of(tally: Tally) -> float | None:
    """The share of a tally in percent, also where only so many of so many is said."""
    if tally.percent is not None:
        return tally.percent
    if tally.count is not None and tally.of:
        return 100.0 * tally.count / tally.of
    return None


def whole_field(stated: Sequence[StatedRecord]) -> tuple[StatedRecord, ...]:
    """The statements that stand for the whole field: the first V and the first R (one statement may give both)."""
    whole = [s for s in stated if s.where is None]
    first_v = next((s for s in whole if s.stated.v is not None), None)
    first_r = next((s for s in whole if s.stated.r is not None), None)
    return tuple(s for s in whole if s is first_v or s is first_r)


def _visit(visit: Visit) -> dict[str, Any]:
    whole = whole_field(visit.stated)
    return {
        "field": visit.field,
        "date": visit.date,
        "planted": visit.planted,
        "emerged": visit.emerged,
        "variety": visit.variety,
        "maturity_group": plain(visit.maturity_group),
        "row_spacing_in": plain(visit.row_spacing_in),
        "plants": [_plant(plant) for plant in visit.plants],
        "tallies": [_tally(tally) for tally in visit.tallies],
        "stated": _stated(whole),
        "findings": [_finding(finding) for finding in visit.findings],
        "field_stage": _field_stage(visit.field_stage),
        "stated_parts": [_part(s) for s in visit.stated if all(s is not w for w in whole)],
        "spans": _spans(visit.spans),
        "told": dict(visit.told),
    }


def _plant(plant: PlantRecord) -> dict[str, Any]:
    facts = {key: plain(getattr(plant.facts, key)) for key in PLANT_KEYS}
    return {
        "plant": plant.label,
        "stop": plant.stop,
        **facts,
        "v_stage": plant.v.stage,
        "r_stage": plant.r.stage,
        "v_basis": plant.v.basis,
        "r_basis": plant.r.basis,
        "spans": _spans(plant.spans),
        "derived": sorted(plant.derived, key=_place),
        "decided_by": {"v": _keys(plant.v), "r": _keys(plant.r)},
        "told": dict(plant.told),
    }


def _keys(staged: Staged) -> list[str]:
    return list(staged.decided_by)


def _tally(record: TallyRecord) -> dict[str, Any]:
    tally = record.tally
    return {
        "what": tally.what,
        "count": plain(tally.count),
        "of": plain(tally.of),
        "percent": plain(percent_of(tally)),
        "span": list(record.span),
        "more_than_half": tally.more_than_half,
        "exclusive": tally.exclusive,
    }


def _stated(whole: Sequence[StatedRecord]) -> dict[str, Any] | None:
    if not whole:
        return None
    # Two statements far apart (V at the head, R at the end) make one value here, and its span covers both.
    return {
        "v": plain(next((s.stated.v for s in whole if s.stated.v is not None), None)),
        "r": plain(next((s.stated.r for s in whole if s.stated.r is not None), None)),
        "span": [min(s.span[0] for s in whole), max(s.span[1] for s in whole)],
    }


def _part(record: StatedRecord) -> dict[str, Any]:
    return {
        "v": plain(record.stated.v),
        "r": plain(record.stated.r),
        "where": record.where,
        "span": list(record.span),
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "kind": finding.kind,
        "name": finding.name,
        "value": plain(finding.value),
        "unit": finding.unit,
        "where": finding.where,
        "span": list(finding.span),
    }


def _field_stage(stage: FieldStage) -> dict[str, Any]:
    return {
        "v": stage.v,
        "r": stage.r,
        "basis_v": stage.basis_v,
        "basis_r": stage.basis_r,
        "plants": stage.plants,
        "staged_v": stage.staged_v,
        "staged_r": stage.staged_r,
        "reached_v_percent": plain(stage.reached_v_percent),
        "reached_r_percent": plain(stage.reached_r_percent),
        "interval_v_percent": plain(stage.interval_v_percent),
        "interval_r_percent": plain(stage.interval_r_percent),
        "least": _pair(stage.least),
        "most": _pair(stage.most),
        "counting_rule": stage.counting_rule,
        "median": _pair(stage.median),
        "mean_v": plain(stage.mean_v),
    }


def _pair(pair: tuple[str | None, str | None]) -> dict[str, str | None]:
    return {"v": pair[0], "r": pair[1]}


def _question(question: Question) -> dict[str, Any]:
    return {
        "id": question.id,
        "rule": question.rule,
        "span": list(question.span),
        "quote": question.quote,
        "visit": question.visit,
        "plant": question.plant,
        "ask": question.ask,
        "choices": [{"reading": choice.reading, "makes": plain(choice.makes)} for choice in question.choices],
        "taken": question.taken,
        "answer": question.answer,
        "moves_field": question.moves_field,
        "stop": question.stop,
        "key": question.key,
    }


def _unapplied(unapplied: Unapplied) -> dict[str, Any]:
    given = unapplied.given
    if isinstance(given, Doubt):
        span = list(given.span) if given.span.start < given.span.end else None
        return {"plant": None, "values": {"words": list(given.others)}, "span": span, "why": unapplied.why}
    values = given.values if isinstance(given, Answer) else {given.key: given.value}
    return {
        "plant": given.plant,
        "values": {key: value for key, value in plain(values).items() if key not in INNER_KEYS},
        "span": list(given.span) if isinstance(given, Answer) else None,
        "why": unapplied.why,
    }


def _place(key: str) -> tuple[int, str]:
    return _SPAN_ORDER.get(key, len(_SPAN_ORDER)), key


def _spans(spans: Mapping[str, tuple[int, int]]) -> dict[str, list[int]]:
    return {key: list(spans[key]) for key in sorted(spans, key=_place)}
