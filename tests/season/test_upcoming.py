"""What comes up: the data file against what is published, whose plants decide, and cautions that nothing leaves out."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from datetime import date

import pytest

from notesparse.season.look import fields
from notesparse.season.upcoming import cautions, operations, to_dict, upcoming

Kept = Callable[..., sqlite3.Connection]

PUBLISHED = [
    # operation, opens, holds up to and with, whose plants, where it was published
    (
        "stand count",
        "VE",
        "V2",
        "field",
        "Purdue University field guide: count at VE to VC; replant talk up to V2 or V3",
    ),
    ("weed-free period", "V1", "V4", "field", "University of Nebraska, 26 June 2009: begins V1 in 30-inch rows"),
    (
        "post-emergence herbicide limits on labels",
        "VE",
        "R2",
        "first",
        "University of Minnesota, July 2024: through R2",
    ),
    ("nodule check", "V2", "R2", "field", "farm press, 22 May 2023: V2 to V3; video text of a prairie province: R1"),
    ("leaf feeders before bloom", "VC", "V99", "field", "Iowa State University: 30 % before bloom"),
    ("tissue sample", "R1", "R3", "field", "Kansas State University: R1 to R4; never after seed fill starts"),
    ("white mold decision", "R1", "R3", "field", "Michigan State University 2015: between R1 and R3"),
    ("aphid counts", "R1", "R5", "field", "North Dakota State University 2020: R1 to R5"),
    ("foliar fungicide window", "R3", "R4", "field", "Virginia Tech: optimum R3 to R4, not after R5"),
    ("stink bugs and pod feeders", "R1", "R6", "field", "University of Tennessee 2017: stop 7 to 10 days after R6"),
    ("peak water", "R3", "R6", "field", "University of Nebraska: R3 to R6"),
    ("last irrigation", "R6", "R6", "field", "Mississippi State University 2011 and 2012: R6.5 in the top four nodes"),
    ("frost watch", "R5", "R7", "last", "Kansas State University MF-2234: 65 % at R5, 11 % at R7"),
    ("harvest aid", "R6", "R7", "last", "University of Tennessee 2023: R6.5 in the top four nodes is the earliest"),
    ("harvest readiness", "R7", "R8", "last", "University of Nebraska, 21 September 2016"),
]


@pytest.mark.parametrize(("name", "opens", "holds", "plants", "where"), PUBLISHED)
def test_the_file_says_what_is_published(name: str, opens: str, holds: str, plants: str, where: str) -> None:
    op = next(o for o in operations() if o.name == name)
    assert (op.opens, op.plants) == (opens, plants), where
    assert at(opens) <= at(holds) and (op.until is None or at(holds) < at(op.until)), where


def at(stage: str) -> tuple[str, int]:
    """V stages before R stages; VE and VC before V1."""
    from notesparse.staging.scale import rank

    return ("r" if stage.startswith("R") else "V", rank(stage))


def test_every_operation_has_a_source_something_to_look_at_and_cautions() -> None:
    for op in operations():
        assert op.source and op.look, op.name
        assert "NOTREC" in op.cautions, op.name
        assert set(op.cautions) <= set(cautions()), op.name
    chemical = {"herbicide", "fungicide", "aid", "mold", "aphid", "bugs", "feeders", "mites"}
    for op in operations():
        if chemical & set(op.name.split()):
            assert {"LABEL", "PHI", "REI", "LOCAL"} <= set(op.cautions), op.name


def test_nothing_names_a_product_or_recommends() -> None:
    """No rate, no verdict: the words of a recommendation do not stand in the file."""
    import re

    for op in operations():
        said = f"{op.name} {op.look} {' '.join(op.ranges)}".casefold()
        assert not re.search(r"\b(apply|should|recommended|oz|ounces?|pints?|quarts?|lb|gallons?|l/ha|g/ha)\b", said), (
            op.name
        )


R3 = "Low Ladder 7/27 p1 pods 1/4 in top four. p2 pods 1/4 in top four. p3 pods 5/16 in third node down"


def named(log: sqlite3.Connection, on: str) -> dict[str, str]:
    return {u.operation.name: u.state for u in upcoming(fields(log)[0], date.fromisoformat(on))}


def test_a_window_opens_with_its_stage(kept: Kept) -> None:
    before = named(kept("Low Ladder 7/10 p1 flowers top node"), "2026-07-11")
    assert before["foliar fungicide window"] == "coming"
    assert before["aphid counts"] == "open"


def test_a_window_closes_with_the_stage_that_ends_it(kept: Kept) -> None:
    at_r3 = named(kept(R3.replace("7/27", "7/27/2026")), "2026-07-28")
    assert at_r3["foliar fungicide window"] == "open"
    assert "leaf feeders before bloom" not in at_r3 and "stand count" not in at_r3


def test_first_and_last_plants_decide_where_they_must(kept: Kept) -> None:
    """One plant of ten in flower: a label limit bites on it, though the field is not at R1 (common practice, no source)."""
    texts = [f"p{n} 8 trifs, no flowers" for n in range(1, 10)]
    log = kept("Low Ladder 7/1/2026 " + ". ".join(texts) + ". p10 9 trifs, pods 1/4 in top four")
    found = {u.operation.name: u for u in upcoming(fields(log)[0], date(2026, 7, 2))}
    assert "post-emergence herbicide limits on labels" not in found, "R3 on the first plant ends it"
    assert "foliar fungicide window" not in found or found["foliar fungicide window"].state == "coming"


def test_a_stage_that_waits_for_an_answer_is_to_be_checked(kept: Kept) -> None:
    log = kept("Low Ladder 7/27/2026 p1 flowers top node, tiny pods top four. p2 flowers top node, tiny pods top four")
    seen = fields(log)[0].visits[0]
    assert seen.open_moving
    for u in upcoming(fields(log)[0], date(2026, 7, 28)):
        assert "a question that can change this stage is open" in u.check


def test_a_stated_stage_and_few_plants_are_to_be_checked(kept: Kept) -> None:
    stated = upcoming(fields(kept("Low Ladder 7/27/2026, calling it R3"))[0], date(2026, 7, 28))
    window = next(u for u in stated if u.operation.name == "foliar fungicide window")
    assert "the stage was stated, and no plant was counted" in window.check


def test_the_cautions_are_in_every_form(kept: Kept) -> None:
    from notesparse.views.season import upcoming as view

    log = kept(R3.replace("7/27", "7/27/2026"))
    found = upcoming(fields(log)[0], date(2026, 7, 28))
    told = to_dict("Low Ladder", date(2026, 7, 28), found)
    shown = " ".join(" ".join(line.split()) for line in view("Low Ladder", found, cautions(), date(2026, 7, 28)))
    for u, entry in zip(found, told["upcoming"], strict=True):
        assert entry["cautions"] == [cautions()[key] for key in u.operation.cautions]
        for key in u.operation.cautions:
            assert cautions()[key] in shown
    assert "none" in told["advice"]
    assert shown.rstrip().endswith("No treatment is advised here: label, local rules, licensed adviser decide.")


def test_a_harvest_aid_waits_days_behind_r6(kept: Kept) -> None:
    """University of Tennessee 2023: R6.5 is the earliest, so the day of R6 itself is never shown as its beginning."""
    log = kept("Low Ladder 8/1/2026 p1 16 trifs, top four: seed 1/8 in")
    field = fields(log)[0]
    found = {u.operation.name: u for u in upcoming(field, date(2026, 8, 2), ahead=60)}
    aid, water = found["harvest aid"], found["last irrigation"]
    assert aid.opens is not None and water.opens is not None
    assert (aid.opens.first - water.opens.first).days == 7
    assert aid.operation.begins == "7 to 10 days after R6"


def test_a_harvest_aid_is_not_lost_while_the_last_plants_are_behind(kept: Kept) -> None:
    full, behind = "16 trifs, seeds touching in top four", "16 trifs, top four: seed 1/4 in"
    log = kept(f"Low Ladder 8/28/2026 p1 {full}. p2 {full}. p3 {behind}")
    aid = next(u for u in upcoming(fields(log)[0], date(2026, 8, 29)) if u.operation.name == "harvest aid")
    assert aid.state == "coming" and aid.opens is None
    assert any("last plants" in why for why in aid.check)


def test_a_visit_that_does_not_go_with_another_is_to_be_checked(kept: Kept) -> None:
    log = kept(
        "Low Ladder 7/1/2026 p1 10 trifs, flower at third node down",
        "Low Ladder 7/8/2026 p1 12 trifs, seeds touching in top four",
    )
    found = upcoming(fields(log)[0], date(2026, 7, 9))
    assert found
    for one in found:
        assert "the visit of 2026-07-08 does not go with that of 2026-07-01" in one.check, one.operation.name
