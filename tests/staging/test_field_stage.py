"""The field's stage (guide 6)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesparse.facts import PlantFacts, Stage, Stated, Tally
from notesparse.staging.field import PlantStage, few_plants, field_stage, stage_plant
from notesparse.staging.scale import rank

Pair = tuple[str | None, str | None]


def plants(text: str) -> list[PlantStage]:
    """Plants of stated stages, ``none`` (no flower), ``-`` (nothing said), or said to lack what a stage looks at."""
    without = {
        "none": PlantFacts(flowers=False), "-": PlantFacts(), "no-pods": PlantFacts(pods=False),
        "no-seed": PlantFacts(seeds=False), "green": PlantFacts(mature_pods="none"),
        "not-up": PlantFacts(emerged=False), "at-odds": PlantFacts(pods=False, seeds=True),
    }  # fmt: skip

    def one(word: str) -> PlantFacts:
        if word in without:
            return without[word]
        return PlantFacts(stated_v=word) if word[0] == "V" else PlantFacts(stated_r=word)

    return [stage_plant(one(word)) for word in text.split()]


@pytest.mark.parametrize(
    ("text", "v", "r"),
    [
        # constructed checks of standards 3.1 (rule of half and more: Iowa State PM 1945, Clemson, Michigan State)
        ("V4 V4 V5 V5 V5 V6 V6 V6 V6 V7", "V6", None),
        ("V3 V4 V4 V5 V5", "V4", None),
        ("none none none R1 R1 R1 R2 R2 R2 R2", None, "R1"),
        ("R2 R2 R3 R3", None, "R3"),
        ("R7 " + "R6 " * 19, None, "R6"),
        ("VC V1 V1", "V1", None),
        # plants that are said to have less
        ("none none R1", None, "none"),
        ("none none R1 R3", None, "R1"),  # at exactly half the stage of the other half stands
        ("none R2", None, "R2"),
        ("none none none R3 R3", None, "none"),
        ("none", None, "none"),
        ("no-pods R3 R3 R3 R3", None, "R3"),
        ("no-pods no-pods R3", None, None),
        ("no-pods no-pods no-pods R3 R2 R2", None, "R2"),
        ("no-pods no-pods", None, None),
        ("no-pods none R1", None, "R1"),
        ("no-pods none none R1", None, "none"),
        ("no-seed no-seed R5 R4", None, "R4"),
        ("no-seed R5", None, "R5"),
        ("green R7 R8 R8", None, "R8"),
        ("green green R7", None, None),
        ("green green R7 R6", None, "R6"),
        ("green R7 R6 R7", None, "R7"),
        # below VE
        ("VE VC VC V1 not-up VC", "VC", None),
        ("not-up not-up VE", None, None),
        ("not-up VE", "VE", None),
        ("not-up not-up V1 V1 VC", "VC", None),
        # nothing said: left out
        ("- - - V5", "V5", None),
        ("- - R1", None, "R1"),
        ("at-odds at-odds R4", None, "R4"),
        ("", None, None),
        ("-", None, None),
    ],
)
def test_plants(text: str, v: str | None, r: str | None) -> None:
    field = field_stage(plants(text))
    assert (field.v, field.r) == (v, r)
    assert (field.basis_v, field.basis_r) == ("plants" if v else None, "plants" if r else None)
    assert field.plants == len(text.split())


def test_share_interval_and_counts() -> None:
    field = field_stage(plants("R2 R2 R2 R1 none no-pods -") + plants("V5 V6 V6"), rule="open-nodes")
    assert (field.r, field.staged_r, field.reached_r_percent, field.interval_r_percent) == ("R2", 5, 60.0, (23.1, 88.2))
    assert (field.v, field.staged_v, field.reached_v_percent, field.interval_v_percent) == ("V6", 3, 66.7, (20.8, 93.9))
    assert (field.plants, field.counting_rule) == (10, "open-nodes")


def test_plants_said_to_have_no_pod_count_where_the_stage_needs_one() -> None:
    field = field_stage(plants("R3 R3 no-pods"))
    assert (field.r, field.staged_r, field.reached_r_percent) == ("R3", 3, 66.7)


def test_share_of_none_is_that_without_flower() -> None:
    field = field_stage(plants("none none none R1"))
    assert (field.r, field.reached_r_percent, field.staged_r) == ("none", 75.0, 4)
    assert field.interval_r_percent == (30.1, 95.4)


def test_no_stage_says_how_many_plants_told_something() -> None:
    field = field_stage(plants("no-pods no-pods - not-up not-up"))
    assert (field.staged_v, field.staged_r, field.reached_v_percent, field.interval_r_percent) == (2, 2, None, None)


@pytest.mark.parametrize(
    ("text", "least", "median", "most", "mean"),
    [
        ("V4 V6 V5", ("V4", None), ("V5", None), ("V6", None), 5.0),
        ("V4 V6 V5 V5", ("V4", None), ("V5", None), ("V6", None), 5.0),
        ("V9 V10", ("V9", None), ("V10", None), ("V10", None), 9.5),
        ("VE VC V1", ("VE", None), ("VC", None), ("V1", None), 0.3),
        ("VE VC", ("VE", None), ("VC", None), ("VC", None), None),
        ("not-up V1 V2", (None, None), ("V1", None), ("V2", None), 1.5),
        ("none R1 R3", (None, "none"), (None, "R1"), (None, "R3"), None),
        ("none R7 R8 no-pods", (None, "none"), (None, "R7"), (None, "R8"), None),
        ("", (None, None), (None, None), (None, None), None),
    ],
)
def test_least_median_most_and_mean(text: str, least: Pair, median: Pair, most: Pair, mean: float | None) -> None:
    field = field_stage(plants(text))
    assert (field.least, field.median, field.most, field.mean_v) == (least, median, most, mean)


def test_tallies_decide_where_no_plant_is_staged() -> None:
    field = field_stage(plants("- -"), [Tally("R1", 6, 10), Tally("VE", 8, 10)])
    assert (field.v, field.basis_v, field.reached_v_percent) == ("VE", "tallies", 80.0)
    assert (field.r, field.basis_r, field.reached_r_percent) == ("R1", "tallies", 60.0)
    assert (field.staged_r, field.interval_r_percent) == (0, None)


def test_v_and_r_each_for_itself() -> None:
    field = field_stage(plants("V5 V5 V6"), [Tally("R1", 3, 10), Tally("V9", 10, 10)])
    assert (field.v, field.basis_v, field.r, field.basis_r) == ("V5", "plants", "none", "tallies")


def test_staged_plants_go_before_tallies() -> None:
    assert field_stage(plants("R2 none"), [Tally("R3", 9, 10)]).r == "R2"
    assert field_stage(plants("none none R1"), [Tally("R3", 9, 10)]).r == "none"


def test_a_plant_that_is_not_up_is_no_staged_plant() -> None:
    assert field_stage(plants("not-up"), [Tally("VE", 8, 10)]).basis_v == "tallies"


@pytest.mark.parametrize(
    ("stated", "v", "r"),
    [
        (Stated(v="V8", r="R1"), "V8", "R1"),
        (Stated(r="R5.5"), None, "R5"),
        (Stated(r="late R4"), None, "R4"),
        (Stated(r=("R3", "R4")), None, None),
        (Stated(v=("V5", "V6"), r="R2"), None, "R2"),
        (Stated(r="V5"), None, None),
        (Stated(r="ripe"), None, None),
        (None, None, None),
    ],
)
def test_a_statement_stands_alone(stated: Stated | None, v: str | None, r: str | None) -> None:
    field = field_stage([], [], stated)
    assert (field.v, field.r) == (v, r)
    assert (field.basis_v, field.basis_r) == ("stated" if v else None, "stated" if r else None)
    assert field.reached_r_percent is None


@pytest.mark.parametrize(
    ("text", "tallies", "stated", "r"),
    [
        ("R2 R2", [], "R3", "R2"),
        ("none none", [], "R3", "none"),
        ("- -", [], "R3", "R3"),
        ("", [Tally("R1", 6, 10)], "R3", "R1"),
        ("", [Tally("R3", 3, 10)], "R3", None),  # said of 3 in 10 only
        ("", [Tally("R3", 3, 10)], "R2", "R2"),
        ("", [Tally("R1")], "R1", "R1"),
        ("no-pods no-pods", [], "R3", None),
        ("no-pods no-pods", [], "R2", "R2"),
        ("", [Tally("R3", 3, 10)], ("R2", "R3"), None),
    ],
)
def test_a_statement_replaces_nothing_computed(text: str, tallies: list[Tally], stated: Stage, r: str | None) -> None:
    assert field_stage(plants(text), tallies, Stated(r=stated)).r == r


def test_a_statement_of_v_against_plants_not_up() -> None:
    assert field_stage(plants("not-up not-up"), [], Stated(v="V1")).v is None


def test_few_plants() -> None:
    assert [few_plants(field_stage(plants("V5 " * n))) for n in (0, 1, 9, 10)] == [False, True, True, False]


def test_stage_plant_passes_rule_and_strictness_on() -> None:
    plant = stage_plant(PlantFacts(trifoliates=5, flowers_from_top=(1,)), "open-nodes", strict_top=True)
    assert (plant.v.stage, plant.r.stage) == ("V6", "R1")


STAGES = st.lists(st.sampled_from(["none", *(f"R{n}" for n in range(1, 9))]), min_size=1, max_size=15)


@given(STAGES, st.randoms(use_true_random=False))
def test_the_field_is_its_median_plant_in_any_order(stages: list[str], chance: object) -> None:
    """Ordered from most to least advanced, the plant number ceil(n / 2) (standards 3.1)."""
    shuffled = list(stages)
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    field = field_stage(plants(" ".join(shuffled)))
    expected = sorted(stages, key=rank, reverse=True)[(len(stages) + 1) // 2 - 1]
    assert (field.r, field.median[1]) == (expected, expected)
    assert field.reached_r_percent is not None and field.reached_r_percent >= 50


@given(STAGES)
def test_one_more_advanced_plant_never_sets_the_field_back(stages: list[str]) -> None:
    before, after = field_stage(plants(" ".join(stages))).r, field_stage(plants(" ".join([*stages, "R8"]))).r
    assert before is not None and after is not None and rank(after) >= rank(before)
