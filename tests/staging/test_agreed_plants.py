"""All plants and fields of the agreed readings: their facts give the agreed stages (cases/agreed_*.csv)."""

from __future__ import annotations

import csv
from collections import defaultdict
from pathlib import Path

import pytest

from notesparse.facts import Stated, Tally
from notesparse.record.facts_table import read_facts
from notesparse.staging.field import PlantStage, field_stage, stage_plant
from notesparse.staging.scale import read_stage

CASES = Path(__file__).with_name("cases")


def rows_of(name: str) -> list[dict[str, str]]:
    with (CASES / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def staged() -> list[tuple[dict[str, str], PlantStage]]:
    rows = rows_of("agreed_plants.csv")
    keys = [key for key in rows[0] if key not in ("visit", "v", "r")]
    table = [",".join(keys), *(",".join(row[key] for key in keys) for row in rows)]
    return [(row, stage_plant(read.facts)) for row, read in zip(rows, read_facts(table), strict=True)]


PLANTS = staged()
FIELDS = rows_of("agreed_fields.csv")


def tally(text: str) -> Tally:
    what, share = text.split()
    if share == "most":
        return Tally(what, more_than_half=True)
    return Tally(what, percent=None if share == "?" else float(share))


@pytest.mark.parametrize(("row", "plant"), PLANTS, ids=[f"{row['visit']}/{row['plant']}" for row, _ in PLANTS])
def test_plant(row: dict[str, str], plant: PlantStage) -> None:
    assert (plant.v.stage or "", plant.r.stage or "") == (row["v"], row["r"]), (plant.v.why, plant.r.why)


@pytest.mark.parametrize("row", FIELDS, ids=[row["visit"] for row in FIELDS])
def test_field(row: dict[str, str]) -> None:
    plants = defaultdict(list)
    for plant_row, plant in PLANTS:
        plants[plant_row["visit"]].append(plant)
    tallies = [tally(text) for text in row["tallies"].split("; ") if text]
    stated = Stated(read_stage(row["stated_v"]), read_stage(row["stated_r"]))
    field = field_stage(plants[row["visit"]], tallies, stated)
    assert (field.v or "", field.r or "") == (row["v"], row["r"])


def test_nothing_was_lost_on_the_way() -> None:
    assert (len(PLANTS), len(FIELDS)) == (407, 119)
    assert (sum(bool(row["v"]) for row in FIELDS), sum(bool(row["r"]) for row in FIELDS)) == (63, 102)
