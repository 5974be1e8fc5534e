"""Facts of one plant to its R stage (reading guide, 5.3 to 5.6).

The evidence gives two things: a stage that is reached at least, and the lowest stage that is ruled out. The first is
the plant's stage. A stated stage stands only where it lies between the two (4.15), or where there is no evidence.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from notesparse.facts import Millimetres, Places, PlantFacts, Staged
from notesparse.lazy import dataclass
from notesparse.staging.limits import LIMITS, LengthLimit
from notesparse.staging.scale import NONE, is_range, rank, said, whole_stage
from notesparse.staging.sound import (
    Fault,
    contradiction,
    first_of_pods,
    first_of_seeds,
    impossible,
    longest,
)

_COTYLEDON_AND_TIP = 2  # nodes that a scout may number beyond the count: the cotyledons', and one with a rolled leaf


class Sign(NamedTuple):
    """One piece of evidence: the stage that it reaches, or rules out."""

    stage: str
    keys: tuple[str, ...]
    why: str


@dataclass(frozen=True, slots=True)
class Bounds:
    """What the evidence alone says: `least` is reached (None: nothing is known), `below` is not (None: open above)."""

    least: Sign | None
    below: Sign | None
    fault: Fault | None = None


def r_stage(facts: PlantFacts, strict_top: bool = False) -> Staged:
    """The R stage of one plant; ``"none"`` where it is said to have no open flower and nothing later is seen.

    `strict_top` passes over the node of the topmost unrolled leaf: the two and four uppermost nodes are then those from
    the second on.
    """
    bounds = r_bounds(facts, strict_top)
    if bounds.fault is not None:
        return Staged(None, None, bounds.fault.keys, f"{bounds.fault.why}: to be asked", clash=True)
    least, below = bounds.least, bounds.below
    whole = _whole_r(facts)
    if least is None:
        return _stated_alone(facts, whole, below)
    if whole is not None and _only_a_floor(whole, least, below):
        why = f"stated {said(facts.stated_r or whole)}; the rest only says at least {least.stage}: {least.why}"
        return Staged(whole, "stated", ("stated_r", *least.keys), why)
    return Staged(least.stage, "seen", least.keys, f"{least.why}: {_named(least.stage)}")


def r_bounds(facts: PlantFacts, strict_top: bool = False) -> Bounds:
    """What the evidence of one plant says of its R stage, stated stages left aside."""
    fault = impossible(facts, vegetative=False) or contradiction(facts)
    fault = fault or _off_the_stem(facts) or _out_of_step(facts, strict_top)
    if fault is not None:
        return Bounds(None, None, fault)
    least = max(_reached(facts, strict_top), key=lambda sign: rank(sign.stage), default=None)
    if least is None and _before_flower(facts):
        least = Sign(NONE, ("flowers",), "no open flower, and nothing later seen")
    floor = rank(least.stage) if least is not None else 0
    above = [sign for sign in _ruled_out(facts, strict_top, least) if rank(sign.stage) > floor]
    return Bounds(least, min(above, key=lambda sign: rank(sign.stage), default=None))


def below_r(facts: PlantFacts) -> str | None:
    """The lowest R stage that a plant without an R stage is said not to have reached (guide 6.1), or None."""
    bounds = r_bounds(facts)
    return bounds.below.stage if bounds.below is not None and bounds.least is None else None


# --- what is reached ----------------------------------------------------------------------------------------


def _reached(facts: PlantFacts, strict: bool) -> Iterator[Sign]:
    yield from _by_flowers(facts, strict)
    yield from _by_pods(facts, strict)
    yield from _by_seeds(facts, strict)
    yield from _by_colour(facts)


def _by_flowers(facts: PlantFacts, strict: bool) -> Iterator[Sign]:
    places = facts.flowers_from_top
    if not (facts.flowers or places):
        return
    keys = tuple(key for key in ("flowers", "flowers_from_top") if getattr(facts, key))
    if places is None:
        yield Sign("R1", keys, "open flower, place not named")
    elif _at_top(places, LIMITS.flower_nodes, strict):
        yield Sign("R2", ("flowers_from_top",), f"open flower {_where(places, LIMITS.flower_nodes, strict)}")
    else:
        yield Sign("R1", keys, f"open flower {_where(places, LIMITS.flower_nodes, strict)}")


def _by_pods(facts: PlantFacts, strict: bool) -> Iterator[Sign]:
    if not _has_pods(facts):
        return
    places = _pod_places(facts)
    where = _where(places, LIMITS.pod_nodes, strict)
    keys = (_pod_key(facts),)
    if not _at_top(places, LIMITS.pod_nodes, strict):
        yield Sign("R1", keys, f"pods {where}, so it has flowered (assumed at least R1)")
        return
    size, inches = facts.pod_mm, "pod_mm" in facts.inch_lengths
    if facts.pods_full_length:
        yield Sign("R4", ("pods_full_length", *_placed(facts, "pods_from_top")), f"full length pod {where}")
    elif size is None:
        yield Sign("R3", keys, f"pods {where}, no size named (assumed at least 5 mm)")
    else:
        stage, limit = "R1", LIMITS.pod_r3
        for reached, larger in (("R3", LIMITS.pod_r3), ("R4", LIMITS.pod_r4)):
            if larger.reached(longest(size), inches):
                stage, limit = reached, larger
        held = _held(size, limit, inches)
        grown = "" if stage != "R1" else ", so it has flowered (assumed at least R1)"
        yield Sign(stage, ("pod_mm", *_placed(facts, "pods_from_top")), f"pod {held} {where}{grown}")


def _by_seeds(facts: PlantFacts, strict: bool) -> Iterator[Sign]:
    if not _has_seeds(facts) or not _at_top(_seed_places(facts), LIMITS.pod_nodes, strict):
        return
    where = _where(_seed_places(facts), LIMITS.pod_nodes, strict)
    placed = _placed(facts, "seeds_from_top")
    if facts.seed_fill == "full":
        yield Sign("R6", ("seed_fill", *placed), f"seed that fills the pod cavity {where}")
    elif facts.seed_mm is None:
        key = "seeds" if facts.seeds else "seeds_from_top" if facts.seeds_from_top else "seed_fill"
        yield Sign("R5", (key, *(k for k in placed if k != key)), f"seed seen or felt {where}")
    elif not _small_seed(facts):
        held = _held(facts.seed_mm, LIMITS.seed_r5, "seed_mm" in facts.inch_lengths)
        yield Sign("R5", ("seed_mm", *placed), f"seed {held} {where}")


def _by_colour(facts: PlantFacts) -> Iterator[Sign]:
    percent, limit = facts.mature_pods_percent, LIMITS.mature_r8_percent
    if percent:
        stage, sign = ("R8", ">=") if percent >= limit else ("R7", "<")
        yield Sign(stage, ("mature_pods_percent",), f"{percent:g} % of the pods mature ({sign} {limit:g} %)")
    elif facts.mature_pods == "one":
        yield Sign("R7", ("mature_pods",), "a normal pod of mature colour on the main stem")


def _before_flower(facts: PlantFacts) -> bool:
    """No open flower, and the words do not look past flowering either.

    "No seed yet" or "no mature pod", with not a word on whether there are pods, may be a plant that is done flowering.
    """
    if facts.flowers is not False:
        return False
    if facts.pods is False or facts.pods_from_top == ():
        return True
    late = (facts.seeds, facts.seeds_from_top, facts.mature_pods, facts.mature_pods_percent)
    return all(fact is None for fact in late)


# --- what is ruled out --------------------------------------------------------------------------------------


def _ruled_out(facts: PlantFacts, strict: bool, least: Sign | None) -> Iterator[Sign]:
    at_r1 = least is not None and least.stage == "R1"
    if at_r1 and facts.flowers_from_top is not None:  # places are named, and none of them is at the top
        yield Sign("R2", ("flowers_from_top",), "no open flower on the two uppermost nodes")
    if facts.pods is False:
        yield Sign("R3", ("pods",), "no pods")
    elif facts.pods_from_top is not None and not _at_top(facts.pods_from_top, LIMITS.pod_nodes, strict):
        yield Sign("R3", ("pods_from_top",), "no pod on the four uppermost nodes")
    elif facts.pod_mm is not None and not facts.pods_full_length:
        inches = "pod_mm" in facts.inch_lengths
        for stage, limit in (("R3", LIMITS.pod_r3), ("R4", LIMITS.pod_r4)):
            if not limit.reached(longest(facts.pod_mm), inches):
                yield Sign(stage, ("pod_mm",), f"longest pod {_held(facts.pod_mm, limit, inches)}")
    if facts.seeds is False:
        yield Sign("R5", ("seeds",), "no seed")
    elif _seed_places(facts) is not None and not _at_top(_seed_places(facts), LIMITS.pod_nodes, strict):
        yield Sign("R5", ("seeds_from_top",), "no seed on the four uppermost nodes")
    elif _small_seed(facts):
        yield Sign("R5", ("seed_mm",), "largest seed under 3 mm (1/8 in)")
    if facts.seed_fill == "partial":
        yield Sign("R6", ("seed_fill",), "seeds do not fill the pod cavity")
    if facts.mature_pods == "none" or facts.mature_pods_percent == 0:
        yield Sign("R7", ("mature_pods" if facts.mature_pods else "mature_pods_percent",), "no mature pod")
    elif facts.mature_pods_percent is not None and facts.mature_pods_percent < LIMITS.mature_r8_percent:
        yield Sign("R8", ("mature_pods_percent",), f"{facts.mature_pods_percent:g} % of the pods mature")


# --- what a stated stage adds -------------------------------------------------------------------------------


def _whole_r(facts: PlantFacts) -> str | None:
    if facts.stated_r is None or is_range(facts.stated_r):
        return None
    whole = whole_stage(said(facts.stated_r))
    return whole if whole is not None and whole[0] == "R" else None


def _stated_alone(facts: PlantFacts, whole: str | None, below: Sign | None) -> Staged:
    """The stage of a plant with no evidence of one: the stated stage, unless what is not there speaks against it."""
    if facts.stated_r is None:
        if below is None:
            return Staged(None, None, (), "nothing said of flowers, pods, seeds or mature pods")
        return Staged(None, None, below.keys, f"{below.why}: below {below.stage}, and no more is said")
    stated = said(facts.stated_r)
    if whole is None:
        what = "is a range, so no one stage" if is_range(facts.stated_r) else "is no R stage"
        return Staged(None, None, ("stated_r",), f"stated {stated} {what}")
    if below is not None and rank(whole) >= rank(below.stage):
        return Staged(
            None, None, ("stated_r", *below.keys), f"stated {stated}, and yet {below.why}: to be asked", clash=True
        )
    return Staged(whole, "stated", ("stated_r",), f"stated {stated}")


def _only_a_floor(whole: str, least: Sign, below: Sign | None) -> bool:
    """Whether the evidence leaves room for a higher stated stage."""
    if below is not None and rank(whole) >= rank(below.stage):
        return False
    if least.stage == NONE:  # past bloom there is no open flower either, but R1 and R2 are stages of open flowers
        return rank(whole) >= rank("R3")
    return rank(whole) > rank(least.stage)


# --- places and lengths -------------------------------------------------------------------------------------


def _at_top(places: Places | None, nodes: int, strict: bool) -> bool:
    """Whether `places` touch the uppermost nodes; an unnamed place is taken to be there (assumed)."""
    if places is None:
        return True
    return not isinstance(places, str) and bool(_within(places, nodes, strict))


def _within(places: tuple[int, ...], nodes: int, strict: bool) -> list[int]:
    skip = LIMITS.strict_skip if strict else 0
    return sorted(place for place in set(places) if skip < place <= skip + nodes)


def _where(places: Places | None, nodes: int, strict: bool) -> str:
    if places is None:
        return f"with no place named (top {_NUMBER[nodes]} nodes assumed)"
    if isinstance(places, str):
        return "low on the stem only"
    if not places:
        return f"on none of the top {_NUMBER[nodes]} nodes"
    shown = _within(places, nodes, strict) or sorted(set(places))
    counted = ", counted strictly" if strict else ""
    return f"at node{'' if len(shown) == 1 else 's'} {', '.join(map(str, shown))} from the top{counted}"


_NUMBER = {2: "two", 4: "four"}


def _placed(facts: PlantFacts, key: str) -> tuple[str, ...]:
    return (key,) if getattr(facts, key) is not None else ()


def _has_seeds(facts: PlantFacts) -> bool:
    return bool(facts.seeds) or first_of_seeds(facts) is not None


def _has_pods(facts: PlantFacts) -> bool:
    return bool(facts.pods) or first_of_pods(facts) is not None or _has_seeds(facts)


def _pod_key(facts: PlantFacts) -> str:
    """The key that tells of a pod: of its place, of itself, or of a seed in it."""
    if facts.pods_from_top is not None:
        return "pods_from_top"
    return "pods" if facts.pods else first_of_pods(facts) or first_of_seeds(facts) or "seeds"


def _seed_places(facts: PlantFacts) -> Places | None:
    """Where seeds are: as named, else where the pods are."""
    return facts.seeds_from_top if facts.seeds_from_top is not None else facts.pods_from_top


def _pod_places(facts: PlantFacts) -> Places | None:
    """Where pods are: as named; where only seeds were spoken of, the seeds' places."""
    if facts.pods_from_top is not None or facts.pods or first_of_pods(facts) is not None:
        return facts.pods_from_top
    return facts.seeds_from_top


def _small_seed(facts: PlantFacts) -> bool:
    size = facts.seed_mm
    return size is not None and not LIMITS.seed_r5.reached(longest(size), "seed_mm" in facts.inch_lengths)


def _held(length: Millimetres, limit: LengthLimit, inches: bool) -> str:
    """A length beside the limit that it is held against: ``6.35 mm (>= 3/16 in)``."""
    sign = ">=" if limit.reached(longest(length), inches) else "<"
    return f"{_mm(length)} ({sign} {limit.said(inches)})"


def _mm(length: Millimetres) -> str:
    if isinstance(length, tuple):
        return f"{round(min(length), 2):g} to {round(max(length), 2):g} mm"
    return f"{round(length, 2):g} mm"


def _named(stage: str) -> str:
    return "before R1" if stage == NONE else stage


# --- evidence that does not fit together --------------------------------------------------------------------


def _off_the_stem(facts: PlantFacts) -> Fault | None:
    """A place further down than the plant has nodes."""
    leaves = facts.trifoliates
    nodes = facts.nodes if leaves is None else leaves + LIMITS.unifoliate_nodes
    if nodes is None:
        return None
    if facts.nodes is not None:
        nodes = max(nodes, facts.nodes)
    for key in ("flowers_from_top", "pods_from_top", "seeds_from_top"):
        places: Places | None = getattr(facts, key)
        if isinstance(places, tuple) and places and max(places) > nodes + _COTYLEDON_AND_TIP:
            return Fault((key,), f"node {max(places)} from the top, on a stem of {nodes} nodes")
    return None


def _out_of_step(facts: PlantFacts, strict: bool) -> Fault | None:
    """Pods and seeds of the uppermost nodes that cannot be so on one plant."""
    at_top = _at_top(_pod_places(facts), LIMITS.pod_nodes, strict)
    seeds_at_top = _has_seeds(facts) and _at_top(_seed_places(facts), LIMITS.pod_nodes, strict)
    if seeds_at_top and facts.pods_from_top is not None and not at_top:
        return Fault(("pods_from_top", "seeds_from_top"), "seed on the uppermost nodes, and yet no pod there")
    if seeds_at_top and facts.seed_fill == "full" and _small_seed(facts):
        return Fault(("seed_fill", "seed_mm"), "seed that fills the pod, and yet is under 3 mm (1/8 in)")
    if not at_top or facts.pod_mm is None:
        return None
    inches, pod = "pod_mm" in facts.inch_lengths, longest(facts.pod_mm)
    if facts.pods_full_length and not LIMITS.pod_r4.reached(pod, inches):
        held = _held(facts.pod_mm, LIMITS.pod_r4, inches)
        return Fault(("pods_full_length", "pod_mm"), f"full length pods, and yet {held}")
    if seeds_at_top:
        if not LIMITS.pod_r3.reached(pod, inches) and not _small_seed(facts):
            held = _held(facts.pod_mm, LIMITS.pod_r3, inches)
            return Fault(("seeds", "pod_mm"), f"seed seen, and yet the pod is {held}")
        if facts.seed_mm is not None and longest(facts.seed_mm) > pod:
            return Fault(("seed_mm", "pod_mm"), f"seed of {_mm(facts.seed_mm)} in a pod of {_mm(facts.pod_mm)}")
    return None
