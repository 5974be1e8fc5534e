"""Visits that do not go together (reading guide, section 8): each kind is asked, names both visits, and quotes their words."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable

import pytest

from notesparse.season.consistency import doubts
from notesparse.season.look import fields

Kept = Callable[..., sqlite3.Connection]

CASES = [
    # kind, first note, second note, what the question quotes of each
    ("back", "Low Ladder 8/20 p1 seed 1/8 in top four", "Low Ladder 8/30 p1 flowers top node", ("R5", "R2")),
    ("back", "Low Ladder 7/10 p1 flowers top two nodes", "Low Ladder 7/20 p1 11 trifs, no flowers", ("R2", "no open")),
    ("fast", "Low Ladder 7/10 p1 flowers top node", "Low Ladder 7/14 p1 beans touching top four", ("R2", "R6")),
    ("slow", "Low Ladder 7/1 p1 flowers top node", "Low Ladder 7/31 p1 flowers top node", ("R2", "30 days")),
    ("nodes", "Low Ladder 7/1 p1 6 trifs", "Low Ladder 7/8 p1 16 trifs", ("V6", "V16", "“6 trifs”", "“16 trifs”")),
    ("nodes", "Low Ladder 7/1 p1 12 trifs", "Low Ladder 7/8 p1 7 trifs", ("V12", "V7")),
    (
        "planted",
        "Low Ladder 7/1, planted 5/4, p1 6 trifs",
        "Low Ladder 7/8, planted 5/14, p1 8 trifs",
        ("05-04", "05-14"),
    ),
    ("days", "Low Ladder 6/1, planted 5/20, p1 1 trif", "Low Ladder 6/10 p1 flowers top node", ("R2", "21 days")),
]


@pytest.mark.parametrize(("kind", "first", "second", "quotes"), CASES)
def test_what_does_not_go_together_is_asked(
    kept: Kept, kind: str, first: str, second: str, quotes: tuple[str, ...]
) -> None:
    found = [d for d in doubts(fields(kept(first, second))[0]) if d.kind == kind]
    assert len(found) == 1, [d.ask for d in doubts(fields(kept(first, second))[0])]
    assert found[0].ask.endswith("?") and found[0].source
    for quote in quotes:
        assert quote in found[0].ask


@pytest.mark.parametrize(
    "texts",
    [
        ("Low Ladder 7/1 p1 6 trifs", "Low Ladder 7/8 p1 8 trifs", "Low Ladder 7/20 p1 flowers top node, 11 trifs"),
        ("Low Ladder 7/1 p1 flowers top node", "Low Ladder 7/12 p1 pods 1/4 in top four"),
        ("Low Ladder 7/1 p1 12 trifs", "Low Ladder 7/2 p1 11 trifs"),  # one node less: another plant
        ("Low Ladder 7/1 p1 6 trifs", "Mill Forty 7/2 p1 16 trifs"),  # another field
        ("Low Ladder 7/1 p1 6 trifs", "Low Ladder 7/1 p1 7 trifs"),  # two notes of one day
    ],
)
def test_a_plausible_season_asks_nothing(kept: Kept, texts: tuple[str, ...]) -> None:
    assert [d.ask for f in fields(kept(*texts)) for d in doubts(f)] == []


def test_a_mixed_counting_rule_is_asked(log: sqlite3.Connection) -> None:
    from notesparse.flow import read
    from notesparse.options import Options
    from notesparse.season.keep import keep

    keep(log, read("Low Ladder 7/1 p1 6 trifs", source="a", date="2026-07-01"), "test")
    keep(log, read("Low Ladder 7/8 p1 8 trifs", source="b", date="2026-07-08", options=Options("open-nodes")), "test")
    found = doubts(fields(log)[0])
    assert [d.kind for d in found] == ["rule"]
    assert "open-trifoliates" in found[0].ask and "open-nodes" in found[0].ask


def test_the_misread_of_the_demo_season_is_caught_and_nothing_else(demo: sqlite3.Connection) -> None:
    """On 5 August `six` was heard as `sixteen` in the replanted Barn Lot."""
    found = {(f.name, d.kind, d.first.date, d.second.date) for f in fields(demo) for d in doubts(f)}
    assert found == {
        ("Barn Lot", "nodes", "2026-07-15", "2026-08-05"),
        ("Barn Lot", "nodes", "2026-08-05", "2026-08-12"),
    }


def test_the_words_that_are_quoted_are_of_a_plant_at_the_stage(kept: Kept) -> None:
    """Plant 1 is R1 and plants 2 and 3 are R2: the field's R2 rests on the words of plant 2."""
    log = kept(
        "Low Ladder 7/10 p1 flowers 5th node down. p2 flowers top node. p3 flowers top node",
        "Low Ladder 7/20 p1 11 trifs, no flowers",
    )
    (doubt,) = [d for d in doubts(fields(log)[0]) if d.kind == "back"]
    assert "R2 on" in doubt.ask and "top node" in doubt.ask and "5th node" not in doubt.ask


def test_a_field_that_goes_back_is_asked_about_once(kept: Kept) -> None:
    log = kept("Low Ladder 7/15 p1 beans touching top four", "Low Ladder 7/30 p1 flowers top node")
    assert [d.kind for d in doubts(fields(log)[0])] == ["back"]


def test_one_stage_back_on_few_plants_is_chance(kept: Kept) -> None:
    """R2 on 2 of 4 plants, 95 % interval 15 to 85 %: three days later R1 says nothing against it."""
    high, low = "flowers top node", "flowers 5th node down"
    log = kept(
        f"Low Ladder 7/3 p1 {high}. p2 {high}. p3 {low}. p4 {low}", f"Low Ladder 7/6 p1 {low}. p2 {low}. p3 {low}"
    )
    seen = fields(log)[0].visits
    assert [v.r for v in seen] == ["R2", "R1"]
    assert doubts(fields(log)[0]) == []
