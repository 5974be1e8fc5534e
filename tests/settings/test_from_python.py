"""Settings given from Python: all of them are `Options`, and a setting that is none is refused by name."""

from __future__ import annotations

from typing import Any

import pytest

from notesparse import InputError, Options, read

NOTE = "p1 11 trifs, top one still rolled"


def test_a_habit_that_is_known_is_not_asked() -> None:
    assert [q.rule for q in read(NOTE).questions] == ["4.8"]
    counted = read(NOTE, options=Options(rolled_tip="counted"))
    assert [q.rule for q in counted.questions] == []
    assert [p.v.stage for p in counted.visits[0].plants] == ["V10"]


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"options": Options(node_start="x")}, "There is no node start 'x'; there are ask, unifoliate, cotyledon."),
        ({"options": Options(rolled_tip="x")}, "There is no rolled tip 'x'; there are ask, counted, not-counted."),
        ({"options": Options(bare_length="x")}, "There is no bare length 'x'; there are ask, mm, 16ths."),
        (
            {"counting_rule": "x"},
            "There is no counting rule 'x'; there are open-trifoliates, open-nodes, developed-trifoliates.",
        ),
        (
            {"options": Options(), "day_first": True},
            "counting_rule, day_first and strict_top are in `options`: give them there only.",
        ),
    ],
)
def test_what_is_refused(given: dict[str, Any], said: str) -> None:
    with pytest.raises(InputError) as fault:
        read(NOTE, **given)
    assert str(fault.value) == said
