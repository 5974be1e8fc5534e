"""R of one plant, rules 5.3 to 5.6 and 4.15."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesparse.facts import PlantFacts as P
from notesparse.staging.reproductive import below_r, r_stage
from notesparse.staging.scale import rank

POD_IN, SEED_IN = frozenset({"pod_mm"}), frozenset({"seed_mm"})
INCH = 25.4


@pytest.mark.parametrize(
    ("facts", "stage"),
    [
        # flowers
        (P(flowers=True), "R1"),
        (P(flowers=True, flowers_from_top=(1,)), "R2"),
        (P(flowers=True, flowers_from_top=(2, 3)), "R2"),
        (P(flowers_from_top=(2,)), "R2"),
        (P(flowers=True, flowers_from_top=(3,)), "R1"),
        (P(flowers=True, flowers_from_top=(3, 4)), "R1"),
        (P(flowers=True, flowers_from_top="lower"), "R1"),
        (P(flowers=True, flowers_from_top=()), "R1"),
        (P(flowers=False), "none"),
        (P(flowers=False, pods=False), "none"),
        (P(flowers=False, pods_from_top=()), "none"),
        (P(flowers=False, pods=False, seeds=False, mature_pods="none"), "none"),
        # pods: inches against 3/16 and 3/4 in, metric against 5 and 20 mm
        (P(pods=True, pod_mm=5, pods_from_top=(4,)), "R3"),
        (P(pods=True, pod_mm=4.9, pods_from_top=(4,)), "R1"),
        (P(pods=True, pod_mm=3 / 16 * INCH, pods_from_top=(3,), inch_lengths=POD_IN), "R3"),
        (P(pods=True, pod_mm=4.76, pods_from_top=(3,), inch_lengths=POD_IN), "R3"),
        (P(pods=True, pod_mm=4.76, pods_from_top=(3,)), "R1"),
        (P(pods=True, pod_mm=19.05, inch_lengths=POD_IN), "R4"),
        (P(pods=True, pod_mm=19.05), "R3"),
        (P(pods=True, pod_mm=20), "R4"),
        (P(pods=True, pod_mm=19.9), "R3"),
        (P(pod_mm=8), "R3"),
        (P(pods=True, pod_mm=(4.0, 6.0)), "R3"),  # rests on the upper end
        (P(pods=True, pod_mm=(0, 4.7)), "R1"),
        (P(pods=True, pod_mm=(0, 4.7), flowers=True, flowers_from_top=(1,)), "R2"),
        (P(pods=True), "R3"),
        (P(pods_from_top=(2,)), "R3"),
        (P(pods=True, pods_from_top=(4, 5)), "R3"),
        (P(pods=True, pods_from_top=(5,)), "R1"),
        (P(pods=True, pods_from_top="lower"), "R1"),
        (P(pods=True, pods_from_top="lower", pod_mm=30), "R1"),
        (P(pods=True, pods_from_top=()), "R1"),
        (P(pods=True, pods_from_top="lower", flowers=True, flowers_from_top=(1, 2)), "R2"),
        (P(pods=True, pods_full_length=True), "R4"),
        (P(pods_full_length=True, pods_from_top=(2,)), "R4"),
        (P(pods=True, pods_full_length=False), "R3"),
        (P(flowers=False, pods=True, pods_from_top=(2,)), "R3"),  # past bloom says nothing against later stages
        (P(flowers=True, flowers_from_top=(1,), pods=False), "R2"),
        # seeds
        (P(seeds=True), "R5"),
        (P(seeds=True, seeds_from_top=(4,)), "R5"),
        (P(seeds=True, seed_fill="partial"), "R5"),
        (P(seed_fill="partial"), "R5"),
        (P(seed_fill="full"), "R6"),
        (P(seeds=True, seed_fill="full", seeds_from_top=(1, 2)), "R6"),
        (P(seeds=True, seed_mm=3), "R5"),
        (P(seed_mm=3), "R5"),
        (P(seeds_from_top=(2,)), "R5"),
        (P(seeds=True, seed_mm=3.175, inch_lengths=SEED_IN), "R5"),
        (P(seeds=True, seed_mm=3.0, pods=True, pod_mm=25, inch_lengths=SEED_IN), "R4"),
        (P(seeds=True, seed_mm=INCH / 16, pods=True, pod_mm=INCH, inch_lengths=POD_IN | SEED_IN), "R4"),
        (P(seeds=True, seed_mm=1.6, pods=True, pod_mm=12), "R3"),
        (P(seeds=True, seed_mm=1.6), "R3"),
        (P(seeds=True, seed_mm=1.6, pods=True, pod_mm=4), "R1"),
        (P(seeds=True, seeds_from_top="lower"), "R1"),
        (P(seeds=True, seed_fill="full", seeds_from_top="lower", pods=True, pod_mm=22), "R4"),
        (P(seeds=True, seed_fill="full", pods_from_top="lower"), "R1"),  # the seeds are where the pods are
        (P(seeds=True, pods_from_top=()), "R1"),
        (P(seeds=True, pods_from_top=(3,), pods=True), "R5"),
        (P(seeds=True, seeds_from_top=(6,), flowers=False), "R1"),
        (P(seeds=False, pods=True, pod_mm=25), "R4"),
        # colour
        (P(mature_pods="one"), "R7"),
        (P(mature_pods_percent=1), "R7"),
        (P(mature_pods_percent=94.9), "R7"),
        (P(mature_pods_percent=95), "R8"),
        (P(mature_pods="one", mature_pods_percent=97), "R8"),
        (P(mature_pods="none", seeds=True, seed_fill="full"), "R6"),
        (P(mature_pods="one", pods_from_top="lower", flowers=False), "R7"),  # the whole main stem is looked at
        (P(mature_pods="one", seeds=True, seed_fill="partial"), "R7"),
    ],
)
def test_evidence(facts: P, stage: str) -> None:
    staged = r_stage(facts)
    assert (staged.stage, staged.basis) == (stage, "seen")
    assert staged.decided_by and all(getattr(facts, key) is not None for key in staged.decided_by)
    assert staged.why.endswith("before R1" if stage == "none" else stage)


@pytest.mark.parametrize(
    ("facts", "stage", "basis"),
    [
        (P(stated_r="R3"), "R3", "stated"),
        (P(stated_r="R2.5"), "R2", "stated"),
        (P(stated_r="late R4"), "R4", "stated"),
        (P(flowers=True, stated_r="R2"), "R2", "stated"),  # the place was not named
        (P(flowers=True, stated_r="R1"), "R1", "seen"),
        (P(flowers=True, flowers_from_top=(5,), stated_r="R2"), "R1", "seen"),
        (P(flowers=True, flowers_from_top=(5,), stated_r="R3"), "R1", "seen"),
        (P(flowers=True, flowers_from_top=(1, 2), stated_r="R1"), "R2", "seen"),
        (P(pods=True, stated_r="R4"), "R4", "stated"),  # no size named
        (P(pods=True, stated_r="R2"), "R3", "seen"),
        (P(pods=True, pod_mm=6, stated_r="R5"), "R3", "seen"),
        (P(pods=True, pod_mm=3, stated_r="R5"), "R1", "seen"),
        (P(pods=True, pod_mm=3, stated_r="R2"), "R2", "stated"),
        (P(pods=True, pod_mm=25, stated_r="R5"), "R5", "stated"),  # nothing is said of seed
        (P(pods=True, pod_mm=25, seeds=False, stated_r="R5"), "R4", "seen"),
        (P(pods=True, pods_from_top="lower", stated_r="R3"), "R1", "seen"),
        (P(pods=True, pods_full_length=True, stated_r="R6"), "R6", "stated"),
        (P(seeds=True, seed_fill="partial", stated_r="R6"), "R5", "seen"),
        (P(seeds=True, seed_fill="partial", stated_r="R5.5"), "R5", "seen"),
        (P(seeds=True, stated_r="R6"), "R6", "stated"),  # nothing is said of the fill
        (P(seeds=True, seeds_from_top="lower", stated_r="R5"), "R1", "seen"),
        (P(seeds=True, seed_mm=1.6, stated_r="R5"), "R3", "seen"),
        (P(seeds=True, seed_fill="full", stated_r="R7"), "R7", "stated"),
        (P(seeds=True, seed_fill="full", mature_pods="none", stated_r="R7"), "R6", "seen"),
        (P(seeds=True, seed_fill="full", mature_pods_percent=0, stated_r="R7"), "R6", "seen"),
        (P(mature_pods="one", stated_r="R8"), "R8", "stated"),
        (P(mature_pods_percent=60, stated_r="R8"), "R7", "seen"),
        (P(flowers=False, stated_r="R1"), "none", "seen"),
        (P(flowers=False, stated_r="R2"), "none", "seen"),
        (P(flowers=False, stated_r="R3"), "R3", "stated"),  # past bloom
        (P(flowers=False, stated_r="R4"), "R4", "stated"),
        (P(flowers=False, pods=False, stated_r="R4"), "none", "seen"),
        (P(pods=False, stated_r="R2"), "R2", "stated"),
        (P(mature_pods="none", stated_r="R6"), "R6", "stated"),
        (P(flowers=True, stated_r=("R2", "R3")), "R1", "seen"),
        (P(flowers=True, stated_r="V5"), "R1", "seen"),
    ],
)
def test_stated_beside_evidence(facts: P, stage: str, basis: str) -> None:
    staged = r_stage(facts)
    assert (staged.stage, staged.basis) == (stage, basis)
    assert ("stated_r" in staged.decided_by) is (basis == "stated")


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        (P(), "nothing said"),
        (P(trifoliates=9), "nothing said"),
        (P(flowers_from_top=()), "nothing said"),
        (P(pods=False), "no pods: below R3"),
        (P(pods_from_top=()), "no pod on the four uppermost nodes: below R3"),
        (P(seeds=False), "no seed: below R5"),
        (P(mature_pods="none"), "no mature pod: below R7"),
        (P(mature_pods_percent=0), "no mature pod: below R7"),
        (P(flowers=False, mature_pods="none"), "below R7"),  # before bloom, or long past it
        (P(flowers=False, seeds=False), "below R5"),
        (P(pod_mm=0), "below R3"),
        (P(stated_r=("R2", "R3")), "range"),
        (P(stated_r="V5"), "no R stage"),
        (P(stated_r="ripe"), "no R stage"),
        (P(pods=False, stated_r="R3"), "stated R3, and yet no pods"),
        (P(mature_pods="none", stated_r="R7"), "stated R7, and yet no mature pod"),
    ],
)
def test_no_evidence_of_a_stage(facts: P, words: str) -> None:
    staged = r_stage(facts)
    assert (staged.stage, staged.basis) == (None, None)
    assert words in staged.why


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        (P(seeds=True, pods=False), "no pods, and yet a seed"),
        (P(seeds=True, pods=False, seed_fill="full", stated_r="R6"), "no pods, and yet a seed"),
        (P(pods=False, pods_from_top=(2,)), "no pods, and yet a place of one"),
        (P(pods=False, pod_mm=6), "no pods, and yet a length of one"),
        (P(pods=False, pods_full_length=True), "no pods, and yet full length pods"),
        (P(pods=False, seed_mm=4), "no pods, and yet a seed"),
        (P(pods=False, mature_pods="one"), "no pods, and yet a mature pod"),
        (P(flowers=False, flowers_from_top=(1,)), "no open flower, and yet a place"),
        (P(seeds=False, seeds_from_top=(2,)), "no seed, and yet"),
        (P(seeds=False, seed_mm=4), "no seed, and yet"),
        (P(seeds=False, seed_fill="partial"), "no seed, and yet"),
        (P(seeds=False, mature_pods="one"), "no seed, and yet a mature pod"),
        (P(mature_pods="none", mature_pods_percent=10), "no mature pod, and yet"),
        (P(mature_pods="one", mature_pods_percent=0), "no mature pod, and yet"),
        (P(emerged=False, flowers=True), "not up, and yet a flower"),
        (P(emerged=False, flowers_from_top=(1,)), "not up, and yet a flower"),
        (P(emerged=False, seeds=True), "not up, and yet a seed"),
        (P(unifoliates="rolled", pods=True), "unifoliate leaves still rolled, and yet a pod"),
        (P(unifoliates="rolled", mature_pods_percent=5), "unifoliate leaves still rolled, and yet mature pods"),
        (P(pods_from_top="lower", seeds_from_top=(2,)), "seed on the uppermost nodes, and yet no pod there"),
        (P(pods_from_top=(), seeds_from_top=(2,)), "seed on the uppermost nodes, and yet no pod there"),
        (P(seeds=True, seed_fill="full", seed_mm=2), "fills the pod, and yet"),
        (P(pods=True, pods_full_length=True, pod_mm=10), "full length pods, and yet 10 mm (< 20 mm)"),
        (P(seeds=True, pods=True, pod_mm=4), "seed seen, and yet the pod is 4 mm (< 5 mm)"),
        (P(seeds=True, seed_mm=9, pods=True, pod_mm=8), "seed of 9 mm in a pod of 8 mm"),
        (P(flowers=True, flowers_from_top=(14,), trifoliates=5), "node 14 from the top, on a stem of 6 nodes"),
        (P(flowers=True, flowers_from_top=(14,), nodes=6), "node 14 from the top, on a stem of 6 nodes"),
        (P(pods=True, pod_mm=110), "110 pod length in mm is beyond 100"),
        (P(seeds=True, seed_mm=(15, 21)), "21 seed length in mm is beyond 20"),
        (P(pods=True, pod_mm=-3), "under 0"),
        (P(mature_pods_percent=120), "beyond 100"),
        (P(seeds=True, seed_fill="half"), "'half'"),
        (P(mature_pods="some"), "'some'"),
        (P(pods=True, pods_from_top="top"), "'top'"),
        (P(flowers=True, flowers_from_top=(0, 3)), "node 0"),
    ],
)
def test_contradictions_leave_no_stage(facts: P, words: str) -> None:
    staged = r_stage(facts)
    assert (staged.stage, staged.basis) == (None, None)
    assert words in staged.why and staged.why.endswith("to be asked") and staged.clash
    assert staged.decided_by


@pytest.mark.parametrize(
    ("facts", "loose", "strict"),
    [
        (P(flowers=True, flowers_from_top=(1,)), "R2", "R1"),
        (P(flowers=True, flowers_from_top=(2,)), "R2", "R2"),
        (P(flowers=True, flowers_from_top=(3,)), "R1", "R2"),
        (P(flowers=True, flowers_from_top=(4,)), "R1", "R1"),
        (P(pods=True, pod_mm=8, pods_from_top=(1,)), "R3", "R1"),
        (P(pods=True, pod_mm=8, pods_from_top=(5,)), "R1", "R3"),
        (P(pods=True, pod_mm=8, pods_from_top=(6,)), "R1", "R1"),
        (P(seeds=True, seeds_from_top=(1,)), "R5", "R1"),
        (P(seeds=True, seeds_from_top=(5,)), "R1", "R5"),
        (P(seeds=True), "R5", "R5"),
        (P(mature_pods="one"), "R7", "R7"),
    ],
)
def test_uppermost_nodes_counted_strictly(facts: P, loose: str, strict: str) -> None:
    """Rule 5.3: the node of the topmost unrolled leaf is passed over."""
    assert (r_stage(facts).stage, r_stage(facts, strict_top=True).stage) == (loose, strict)


def test_trifoliates_measure_the_stem() -> None:
    assert r_stage(P(flowers=True, flowers_from_top=(9,), trifoliates=2)).stage is None


def test_the_longer_of_nodes_and_leaves_measures_the_stem() -> None:
    assert r_stage(P(flowers=True, flowers_from_top=(9,), trifoliates=2, nodes=8)).stage == "R1"


@pytest.mark.parametrize(
    ("facts", "why"),
    [
        (
            P(pods=True, pod_mm=6.35, pods_from_top=(3,), inch_lengths=POD_IN),
            "pod 6.35 mm (>= 3/16 in) at node 3 from the top: R3",
        ),
        (P(pod_mm=(8, 10)), "pod 8 to 10 mm (>= 5 mm) with no place named (top four nodes assumed): R3"),
        (P(flowers=True, flowers_from_top=(2, 1)), "open flower at nodes 1, 2 from the top: R2"),
        (P(flowers=True, flowers_from_top=()), "open flower on none of the top two nodes: R1"),
        (P(seeds=True, seed_mm=3, seeds_from_top=(1,)), "seed 3 mm (>= 3 mm) at node 1 from the top: R5"),
        (
            P(pods=True, pods_from_top="lower"),
            "pods low on the stem only, so it has flowered (assumed at least R1): R1",
        ),
        (P(mature_pods_percent=60), "60 % of the pods mature (< 95 %): R7"),
        (P(flowers=True, stated_r="R2"), "stated R2; the rest only says at least R1: open flower, place not named"),
        (P(flowers=False), "no open flower, and nothing later seen: before R1"),
    ],
)
def test_sentences(facts: P, why: str) -> None:
    assert r_stage(facts).why == why


def test_strict_counting_is_said() -> None:
    staged = r_stage(P(flowers_from_top=(3,)), strict_top=True)
    assert staged.why == "open flower at node 3 from the top, counted strictly: R2"


@pytest.mark.parametrize(
    ("facts", "below"),
    [
        (P(pods=False), "R3"),
        (P(pods_from_top=()), "R3"),
        (P(seeds=False), "R5"),
        (P(mature_pods="none"), "R7"),
        (P(pods=False, mature_pods="none"), "R3"),
        (P(), None),
        (P(flowers=True), None),  # a plant with a stage needs none
        (P(pods=False, seeds=True), None),  # contradictory: says nothing
    ],
)
def test_below_r(facts: P, below: str | None) -> None:
    assert below_r(facts) == below


PLACES = st.none() | st.just("lower") | st.lists(st.integers(1, 12), max_size=4).map(tuple)
YES_NO = st.none() | st.booleans()
ANY = st.builds(
    P,
    trifoliates=st.none() | st.integers(0, 20), emerged=YES_NO, flowers=YES_NO, flowers_from_top=PLACES, pods=YES_NO,
    pods_from_top=PLACES, pod_mm=st.none() | st.floats(0, 70), pods_full_length=YES_NO, seeds=YES_NO,
    seeds_from_top=PLACES, seed_mm=st.none() | st.floats(0, 12), seed_fill=st.sampled_from([None, "partial", "full"]),
    mature_pods=st.sampled_from([None, "one", "none"]), mature_pods_percent=st.none() | st.floats(0, 100),
    stated_r=st.none() | st.integers(1, 8).map("R{}".format), inch_lengths=st.sampled_from([frozenset(), POD_IN]),
)  # fmt: skip


@given(ANY, st.booleans())
def test_any_facts_give_a_stage_or_a_reason(facts: P, strict: bool) -> None:
    staged = r_stage(facts, strict)
    assert staged.why
    assert (staged.stage is None) == (staged.basis is None)
    if staged.basis == "stated":
        assert staged.stage == facts.stated_r


@given(ANY, st.floats(0, 30))
def test_a_longer_pod_is_never_an_earlier_stage(facts: P, more: float) -> None:
    if facts.pod_mm is None or isinstance(facts.pod_mm, tuple):
        return
    fields = {name: getattr(facts, name) for name in P.__slots__}
    first, second = r_stage(facts), r_stage(P(**{**fields, "stated_r": None, "pod_mm": facts.pod_mm + more}))
    if first.basis == "seen" and first.stage is not None and second.stage is not None:
        assert rank(second.stage) >= rank(first.stage)
