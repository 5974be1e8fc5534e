"""Plants that are described in print, with the stage that the source gives (cases/published.csv)."""

from __future__ import annotations

import csv
from itertools import pairwise
from pathlib import Path

import pytest

from notesparse.facts import PlantFacts
from notesparse.record.facts_table import read_facts
from notesparse.staging.field import field_stage, stage_plant
from notesparse.staging.plausible import verdict
from notesparse.staging.reproductive import r_stage
from notesparse.staging.scale import rank, whole_stage
from notesparse.staging.vegetative import open_trifoliates, v_stage

CASES = Path(__file__).with_name("cases") / "published.csv"
ABOUT = ("case", "says", "source", "rule", "t", "v", "r")
NOT_A_STAGE = {26}  # a share of broken stems: nothing that is staged


def cases() -> list[tuple[dict[str, str], PlantFacts]]:
    with CASES.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    keys = [key for key in rows[0] if key not in ABOUT]
    table = [",".join(keys), *(",".join(row[key] for key in keys) for row in rows)]
    return list(zip(rows, (row.facts for row in read_facts(table)), strict=True))


ROWS = cases()


@pytest.mark.parametrize(("row", "facts"), ROWS, ids=[f"{row['case']}: {row['says'][:40]}" for row, _ in ROWS])
def test_published_plant(row: dict[str, str], facts: PlantFacts) -> None:
    assert row["source"] and (row["v"], row["r"]) != ("*", "*")
    if row["t"] != "*":
        assert open_trifoliates(facts)[1] == int(row["t"])
    if row["v"] != "*":
        assert v_stage(facts, row["rule"]).stage == row["v"], row["source"]
    if row["r"] != "*":
        assert r_stage(facts).stage == row["r"], row["source"]


def test_every_published_case_has_a_row() -> None:
    assert {int(row["case"]) for row, _ in ROWS} == set(range(1, 35)) - NOT_A_STAGE


def facts_of(case: int) -> list[PlantFacts]:
    return [facts for row, facts in ROWS if int(row["case"]) == case]


def test_case_16_most_plants_make_the_field() -> None:
    """K-State diary, 11 June: the field is at V1 with most of its plants."""
    plants = [stage_plant(facts_of(16)[0])] * 6 + [stage_plant(PlantFacts(trifoliates=0))] * 4
    assert field_stage(plants).v == "V1"


def test_case_23_one_mature_plant_leaves_the_row_below_r7() -> None:
    """K-State diary, 14 September: the only such plant in the row."""
    mature, green = facts_of(23)
    row = field_stage([stage_plant(mature)] + [stage_plant(green)] * 19)
    assert (row.r, row.most[1], row.reached_r_percent) == ("R6", "R7", 100.0)


def test_case_24_the_field_follows_when_all_plants_are_there() -> None:
    """K-State diary: one plant on 19 September, all of them on the 24th."""
    ripe, turning = stage_plant(facts_of(24)[0]), stage_plant(PlantFacts(mature_pods_percent=50))
    assert field_stage([ripe] + [turning] * 9).r == "R7"
    assert field_stage([ripe] * 10).r == "R8"


def test_case_33_five_fields_of_one_day_are_in_the_order_of_planting() -> None:
    """Field notes of 26 August 2017: earlier planted, further on; none out of proportion."""
    stages = [whole_stage(str(facts.stated_r)) for facts in facts_of(33)]
    ranks = [rank(stage) for stage in stages if stage]
    assert stages == ["R6", "R5", "R5", "R5", "R4"]
    assert [verdict("r_stages_back", later - earlier) for earlier, later in pairwise(ranks)] == ["fine"] * 4
