"""Words of the trade that nobody could read beside what was read of a plant are asked about (guide 1.4)."""

from __future__ import annotations

import pytest

from notesparse.flow import read


@pytest.mark.parametrize(
    ("note", "key"),
    [
        ("Plant 1 nine trifs, no flowers.\nPlant 2 same as plant 1 but a trif short.", "trifoliates"),
        ("Plant 1 nine trifs, no flowers.\nPlant 2 same as 1 but two trifs short.", "trifoliates"),
        ("Plant 1. No bean in the top pod, the pod on the node below that does, about an eighth of an inch.", "seeds"),
        ("Plant 1 5 trifs, hail took the two below them, scars still there.", "trifoliates"),
    ],
)
def test_what_is_left_over_beside_a_count_is_asked_about(note: str, key: str) -> None:
    got = read(note, date="2026-07-14")
    assert [(q.rule, q.key) for q in got.questions] == [("1.4", key)]


@pytest.mark.parametrize(
    "note",
    [
        "Plant 1 nine trifs, no flowers. The trif I stepped on was next door.",
        "Plant 1 bloom third node down, none above it.",
        "Plant 1 nine trifs and the gate code is 4410",
    ],
)
def test_other_talk_is_not(note: str) -> None:
    assert not read(note, date="2026-07-14").questions
