"""Facts of one plant to its V stage, by a named counting rule (reading guide, 5.2 and 7)."""

from __future__ import annotations

from notesparse.facts import PlantFacts, Staged
from notesparse.staging.limits import COUNTING_RULES, DEFAULT_RULE, LIMITS
from notesparse.staging.plausible import verdict
from notesparse.staging.scale import is_range, rank, said, v_code, v_number, whole_stage
from notesparse.staging.sound import first_reproductive, impossible


def v_stage(facts: PlantFacts, rule: str = DEFAULT_RULE) -> Staged:
    """The V stage of one plant.

    `rule` is one of `limits.COUNTING_RULES`; another one is a ValueError. A count decides; without one, unifoliate
    leaves and emergence set a floor, which a stated stage may exceed; a stated stage stands where nothing is counted.
    """
    if rule not in LIMITS.counting:
        raise ValueError(f"no counting rule {rule!r}: {', '.join(COUNTING_RULES)}")
    fault = impossible(facts, vegetative=True)
    if fault is not None:
        return Staged(None, None, fault.keys, fault.why)
    if not_up(facts):
        return Staged(None, None, ("emerged",), "not up: below VE")
    key, trifoliates = open_trifoliates(facts)
    later = first_reproductive(facts)
    if facts.emerged is False:
        further = later or ("unifoliates" if facts.unifoliates == "unrolled" else key)
        return _clash(("emerged", further), "not up, and yet said to be further on")
    if facts.unifoliates == "rolled" and later is not None:
        return _clash(("unifoliates", later), "unifoliate leaves rolled, and yet flowers or pods")
    if trifoliates is not None:
        return _counted(facts, key, trifoliates, rule)
    return _uncounted(facts, rule)


def open_trifoliates(facts: PlantFacts) -> tuple[str, int | None]:
    """The key that was counted, and the unrolled trifoliates; -1 where not even the unifoliate node is there yet."""
    if facts.trifoliates is not None:
        return "trifoliates", facts.trifoliates
    if facts.nodes is not None:
        return "nodes", facts.nodes - LIMITS.unifoliate_nodes
    return "", None


def not_up(facts: PlantFacts) -> bool:
    """Whether the plant is said not to be up, and nothing speaks against it: it counts as below VE for the field."""
    count = open_trifoliates(facts)[1]
    leaves = facts.unifoliates == "unrolled" or (count is not None and count > 0)
    return facts.emerged is False and not leaves and first_reproductive(facts) is None


def _counted(facts: PlantFacts, key: str, trifoliates: int, rule: str) -> Staged:
    leaves = f"{trifoliates} unrolled trifoliate{'' if trifoliates == 1 else 's'}"
    if key == "nodes" and trifoliates < 0:
        leaves = "no node yet"
        if facts.unifoliates == "unrolled":
            return _clash((key, "unifoliates"), f"{leaves}, and yet unifoliate leaves unrolled")
        return Staged("VE", "counted", (key,), f"up, {leaves}: VE")
    if key == "nodes":
        leaves = f"{facts.nodes} nodes, the unifoliate node being the first (assumed), so {leaves}"
    if facts.unifoliates == "rolled":
        if trifoliates > 0:
            return _clash((key, "unifoliates"), f"{leaves}, and yet unifoliate leaves rolled")
        return Staged("VE", "counted", ("unifoliates", key), "up, unifoliate leaves still rolled: VE")
    stage = v_code(trifoliates + LIMITS.counting[rule].add)
    return Staged(stage, "counted", (key,), f"{leaves}: {stage}{_by(rule)}")


def _clash(keys: tuple[str, ...], why: str) -> Staged:
    return Staged(None, None, keys, f"{why}: to be asked", clash=True)


def _uncounted(facts: PlantFacts, rule: str) -> Staged:
    """Without a count: emergence and unifoliate leaves only say "at least", so a stated stage beyond them stands."""
    floor = _floor(facts, rule)
    stated = facts.stated_v
    if stated is None:
        return floor
    whole = None if is_range(stated) else whole_stage(said(stated))
    if whole is None or whole[0] != "V":
        what = "is a range, so no one stage" if is_range(stated) else "is no V stage"
        return floor if floor.stage else Staged(None, None, ("stated_v",), f"stated {said(stated)} {what}")
    if verdict("v_number", v_number(whole)) == "refuse":
        return Staged(None, None, ("stated_v",), f"stated {said(stated)}: no plant has so many leaves")
    beyond = floor.stage is None or (facts.unifoliates != "rolled" and rank(whole) > rank(floor.stage))
    return Staged(whole, "stated", ("stated_v",), f"stated {said(stated)}, no leaves counted") if beyond else floor


def _floor(facts: PlantFacts, rule: str) -> Staged:
    if first_reproductive(facts) is not None:  # a plant in flower is past what these two can tell
        return Staged(None, None, (), "no leaves counted and no V stage stated")
    if facts.unifoliates == "rolled":
        return Staged("VE", "counted", ("unifoliates",), "up, unifoliate leaves still rolled: VE")
    if facts.unifoliates == "unrolled":
        stage = v_code(LIMITS.counting[rule].add)
        why = f"unifoliate leaves unrolled, no trifoliate named: {stage}{_by(rule)}"
        return Staged(stage, "counted", ("unifoliates",), why)
    if facts.emerged:
        return Staged("VE", "counted", ("emerged",), "up, no leaf named: VE")
    return Staged(None, None, (), "no leaves counted and no V stage stated")


def _by(rule: str) -> str:
    return "" if rule == DEFAULT_RULE else f" by the rule {rule}"
