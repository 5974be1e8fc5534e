"""What a word of denial or doubt beside flowers, pods or a share asks, and that every answer makes a difference."""

from __future__ import annotations

import pytest

from notesparse import read

DATE = "2026-07-20"


def makes(text: str) -> list[dict[str, object]]:
    """What each choice of the one question makes of the record."""
    asked = [q for q in read(text, date=DATE).questions if q.rule == "2.3"]
    assert len(asked) == 1
    return [dict(choice.makes) for choice in asked[0].choices]


@pytest.mark.parametrize(
    ("text", "key", "values"),
    [
        ("plant 1 flowers i did not see", "flowers", [True, False]),
        ("plant 1 the flowers just haven't", "r_stage", ["R1", "none"]),
        ("plant 1 hardly flowering", "flowers", [True, False]),
        ("plant 1 flowers hardly", "flowers", [True, False]),
        ("plant 1 no flowers above node 6", "flowers", [False, None]),
        ("plant 1 nearly every pod brown", "mature_pods_percent", [100, None]),
        ("plant 1 hardly a brown pod on it", "mature_pods", ["one", None]),
        ("Mill Creek 8 of 10 blooming not far off", "field_r", ["R1", "none"]),
        ("Mill Creek 80% blooming not far off", "field_r", ["R1", "none"]),
    ],
)
def test_each_answer_makes_a_difference(text: str, key: str, values: list[object]) -> None:
    assert [made.get(key) for made in makes(text)] == values


@pytest.mark.parametrize(
    "text",
    [
        "plant 1 flowers at top, not many",
        "plant 1 flower on the third node down and nothing above that",
        "don't let that fool you only four of the twelve plants have a brown pod on them",
        "plant 1 flowers at the top. no aphids",
        "plant 1 pods full\nno bugs",
    ],
)
def test_a_no_of_something_else_is_not_asked_about(text: str) -> None:
    assert [q.text for q in read(text, date=DATE).questions] == []
