"""V of one plant: the counting rules of guide 7 and standards 2.2, and what stands where nothing is counted."""

from __future__ import annotations

import pytest

from notesparse.facts import PlantFacts, Staged
from notesparse.staging.limits import COUNTING_RULES
from notesparse.staging.vegetative import not_up, open_trifoliates, v_stage

# unrolled trifoliates -> V by each rule, nodes with the unifoliate node as the first (guide 7; standards 2.2)
TABLE = [
    (0, "VC", "V1", "VC", 1),
    (1, "V1", "V2", "VC", 2),
    (2, "V2", "V3", "V1", 3),
    (5, "V5", "V6", "V4", 6),
    (10, "V10", "V11", "V9", 11),
    (11, "V11", "V12", "V10", 12),
    (12, "V12", "V13", "V11", 13),
    (14, "V14", "V15", "V13", 15),
]


@pytest.mark.parametrize("line", TABLE, ids=[f"t={line[0]}" for line in TABLE])
@pytest.mark.parametrize("place", [0, 1, 2], ids=COUNTING_RULES)
def test_counting_rules(line: tuple[int, str, str, str, int], place: int) -> None:
    t, *stages, nodes = line
    rule = COUNTING_RULES[place]
    for facts in (PlantFacts(trifoliates=t), PlantFacts(nodes=nodes), PlantFacts(trifoliates=t, nodes=nodes)):
        staged = v_stage(facts, rule)
        assert (staged.stage, staged.basis) == (stages[place], "counted")


@pytest.mark.parametrize("rule", COUNTING_RULES)
def test_unifoliates_folded_is_ve_by_every_rule(rule: str) -> None:
    """Standards 2.2, first line: cotyledons up, unifoliates folded, no node yet."""
    assert v_stage(PlantFacts(emerged=True, unifoliates="rolled"), rule).stage == "VE"
    assert v_stage(PlantFacts(unifoliates="rolled"), rule).stage == "VE"
    assert v_stage(PlantFacts(nodes=0), rule).stage == "VE"


@pytest.mark.parametrize(("rule", "stage"), list(zip(COUNTING_RULES, ["VC", "V1", "VC"], strict=True)))
def test_unifoliates_unrolled_alone(rule: str, stage: str) -> None:
    assert v_stage(PlantFacts(unifoliates="unrolled"), rule).stage == stage


@pytest.mark.parametrize(
    ("facts", "stage", "basis", "keys"),
    [
        (PlantFacts(emerged=True), "VE", "counted", ("emerged",)),
        (PlantFacts(unifoliates="rolled", trifoliates=0), "VE", "counted", ("unifoliates", "trifoliates")),
        (PlantFacts(unifoliates="unrolled", trifoliates=0, top_leaf="rolled"), "VC", "counted", ("trifoliates",)),
        (PlantFacts(trifoliates=6, nodes=8), "V6", "counted", ("trifoliates",)),  # asked elsewhere: the leaves stand
        (PlantFacts(trifoliates=8, stated_v="V9"), "V8", "counted", ("trifoliates",)),  # 7.1
        (PlantFacts(stated_v="V5"), "V5", "stated", ("stated_v",)),
        (PlantFacts(stated_v="V-5"), "V5", "stated", ("stated_v",)),
        (PlantFacts(stated_v="V5.4"), "V5", "stated", ("stated_v",)),
        (PlantFacts(stated_v="VC"), "VC", "stated", ("stated_v",)),
        (PlantFacts(emerged=True, stated_v="V3"), "V3", "stated", ("stated_v",)),  # being up only sets a floor
        (PlantFacts(unifoliates="unrolled", stated_v="V1"), "V1", "stated", ("stated_v",)),
        (PlantFacts(unifoliates="unrolled", stated_v="VE"), "VC", "counted", ("unifoliates",)),
        (PlantFacts(unifoliates="unrolled", stated_v=("V1", "V2")), "VC", "counted", ("unifoliates",)),
        (PlantFacts(unifoliates="rolled", stated_v="V2"), "VE", "counted", ("unifoliates",)),
        (PlantFacts(flowers=True, stated_v="V9"), "V9", "stated", ("stated_v",)),
    ],
)  # fmt: skip
def test_stage_and_basis(facts: PlantFacts, stage: str, basis: str, keys: tuple[str, ...]) -> None:
    staged = v_stage(facts)
    assert (staged.stage, staged.basis, staged.decided_by) == (stage, basis, keys)
    assert stage in staged.why or "stated" in staged.why


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        (PlantFacts(), "no leaves counted"),
        (PlantFacts(top_leaf="rolled"), "no leaves counted"),
        (PlantFacts(emerged=False), "below VE"),
        (PlantFacts(emerged=False, trifoliates=0), "below VE"),
        (PlantFacts(emerged=False, stated_v="V2"), "below VE"),
        (PlantFacts(emerged=False, trifoliates=3), "further on"),
        (PlantFacts(emerged=False, unifoliates="unrolled"), "further on"),
        (PlantFacts(emerged=False, flowers=True), "further on"),
        (PlantFacts(unifoliates="rolled", trifoliates=2), "and yet unifoliate leaves rolled"),
        (PlantFacts(unifoliates="rolled", nodes=4), "and yet unifoliate leaves rolled"),
        (PlantFacts(unifoliates="rolled", pods=True), "and yet flowers or pods"),
        (PlantFacts(unifoliates="unrolled", nodes=0), "no node yet"),
        (PlantFacts(emerged=True, flowers=True), "no leaves counted"),  # a plant in flower is no VE
        (PlantFacts(unifoliates="unrolled", pods=True), "no leaves counted"),
        (PlantFacts(stated_v=("V5", "V6")), "range"),
        (PlantFacts(stated_v="R3"), "no V stage"),
        (PlantFacts(stated_v="tall"), "no V stage"),
        (PlantFacts(stated_v="V55"), "no plant has so many leaves"),
        (PlantFacts(trifoliates=27), "beyond 26"),
        (PlantFacts(nodes=29), "beyond 28"),
        (PlantFacts(trifoliates=-1), "under 0"),
        (PlantFacts(trifoliates=4, top_leaf="half open"), "'half open'"),
        (PlantFacts(unifoliates="gone"), "'gone'"),
    ],
)
def test_no_stage(facts: PlantFacts, words: str) -> None:
    staged = v_stage(facts)
    assert (staged.stage, staged.basis) == (None, None)
    assert words in staged.why


def test_a_stage_that_is_only_asked_about_stands() -> None:
    """22 trifoliates are asked (guide 8); once confirmed they are a stage like any other."""
    assert v_stage(PlantFacts(trifoliates=22)).stage == "V22"


def test_sentences() -> None:
    assert v_stage(PlantFacts(trifoliates=1)) == Staged("V1", "counted", ("trifoliates",), "1 unrolled trifoliate: V1")
    assert v_stage(PlantFacts(nodes=12), "open-nodes").why == (
        "12 nodes, the unifoliate node being the first (assumed), so 11 unrolled trifoliates: "
        "V12 by the rule open-nodes"
    )


def test_unknown_rule_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="no counting rule 'by-eye': open-trifoliates, open-nodes"):
        v_stage(PlantFacts(trifoliates=3), "by-eye")


def test_not_up() -> None:
    assert not_up(PlantFacts(emerged=False))
    assert not_up(PlantFacts(emerged=False, nodes=1))
    assert not any(map(not_up, [PlantFacts(), PlantFacts(emerged=True), PlantFacts(emerged=False, seeds=True)]))


def test_open_trifoliates() -> None:
    assert open_trifoliates(PlantFacts(trifoliates=4, nodes=9)) == ("trifoliates", 4)
    assert open_trifoliates(PlantFacts(nodes=9)) == ("nodes", 8)
    assert open_trifoliates(PlantFacts()) == ("", None)
