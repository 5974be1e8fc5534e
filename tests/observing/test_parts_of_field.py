"""Stages that hold for a part of the field only (guide 4.15): never taken for the whole."""

from __future__ import annotations

import pytest

from notesparse import read


@pytest.mark.parametrize(
    ("note", "parts"),
    [
        ("beans at R5 in the low ground and R4 on the hill", {"R5": "the low ground", "R4": "on the hill"}),
        ("R4 on the hill and R5 in the low ground", {"R4": "on the hill", "R5": "the low ground"}),
        ("R5 in the bottom, R4 on the hill", {"R5": "in the bottom", "R4": "on the hill"}),
        ("V8 in the north half and V7 in the south half", {"V8": "north half", "V7": "south half"}),
        ("north half V8 south half V7", {"V8": "north half", "V7": "south half"}),
        ("Shop: south end R3, north end R2", {"R3": "south end", "R2": "north end"}),
        ("Shop south end R3 north end still R2", {"R3": "south end", "R2": "north end"}),
        ("Shop R3, south end R2", {"R3": None, "R2": "south end"}),
        ("R3 overall, R4 in the sand", {"R3": None, "R4": "in the sand"}),
        ("R2 on the knobs, rest of it R3", {"R2": "knobs", "R3": None}),
    ],
)
def test_a_stage_of_a_part(note: str, parts: dict[str, str | None]) -> None:
    (visit,) = read(note).visits
    assert {s.stated.v or s.stated.r: s.where for s in visit.stated} == parts
    whole = [stage for stage, where in parts.items() if where is None]
    assert [visit.field_stage.r or visit.field_stage.v] == (whole or [None])
