"""The plants of a visit as a table: what was counted and seen, the stages, and what decided them."""

from __future__ import annotations

from notesparse.outcome import Outcome, PlantRecord, Visit
from notesparse.record.status import is_open
from notesparse.views.cells import WIDTH, fold, safe
from notesparse.views.grid import grid
from notesparse.views.paint import Paint, plain
from notesparse.views.wording import FILL, KEYS, length, percent, places

_HEADS = ("plant", "leaves", "trif.", "nodes", "flowers", "pods", "seeds", "ripe", "V", "R", "decided by")
_RIGHT = frozenset({2, 3})
_NODES = 3  # the column


def plants(outcome: Outcome, at: int, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """The table of visit `at` (from 0), and a line on how to read its figures; nothing where no plant is described."""
    visit = outcome.visits[at]
    if not visit.plants:
        return []
    rows: list[list[str]] = []
    stop: str | None = None
    for plant in visit.plants:
        if plant.stop != stop and plant.stop is not None:
            rows.append([f"stop {safe(plant.stop)}" if plant.stop[:1].isdigit() else safe(plant.stop)])
        stop = plant.stop
        rows.append(_row(outcome, at, plant))
    if all("nodes" in plant.derived for plant in visit.plants if plant.facts.nodes is not None):
        for row in rows:  # worked out from the trifoliates for every plant: the column would only repeat them
            if len(row) > 1:
                row[_NODES] = ""
    lines = grid(_HEADS, rows, right=_RIGHT, width=width, paint=paint)
    how = _how(visit, rows)
    return [*lines, *(paint("quiet", line) for how_line in how for line in fold(how_line, width, "   "))]


def _row(outcome: Outcome, at: int, plant: PlantRecord) -> list[str]:
    def asked(*keys: str) -> str:
        return "?" if any(is_open(outcome, at, plant, key, plant.spans.get(key)) for key in keys) else ""

    def staged(key: str, code: str | None) -> str:
        waits = "?" if is_open(outcome, at, plant, key) else ""
        return "" if code is None and not waits else f"{'-' if code in (None, 'none') else code}{waits}"

    cells = (
        (_leaves(plant), ("top_leaf", "emerged", "unifoliates")),
        (_count(plant, "trifoliates"), ("trifoliates",)),
        (_count(plant, "nodes"), ("nodes",)),
        (_flowers(plant), ("flowers", "flowers_from_top")),
        (_pods(plant), ("pods", "pods_from_top", "pod_mm", "pods_full_length")),
        (_seeds(plant), ("seeds", "seeds_from_top", "seed_mm", "seed_fill")),
        (_ripe(plant), ("mature_pods", "mature_pods_percent")),
    )
    return [
        safe(plant.label),
        *(text + asked(*_known(plant, keys)) if text else "" for text, keys in cells),
        staged("v_stage", plant.v.stage),
        staged("r_stage", plant.r.stage),
        _decided(plant),
    ]


def _known(plant: PlantRecord, keys: tuple[str, ...]) -> list[str]:
    return [key for key in keys if getattr(plant.facts, key) is not None]


def _leaves(plant: PlantRecord) -> str:
    facts = plant.facts
    said = []
    if facts.emerged is not None and facts.unifoliates is None:
        said.append("up" if facts.emerged else "not up")
    if facts.unifoliates is not None and not facts.trifoliates:
        said.append("unif. open" if facts.unifoliates == "unrolled" else "unif. rolled")
    if facts.top_leaf is not None:
        said.append("top open" if facts.top_leaf == "unrolled" else "top rolled")
    return ", ".join(said)


def _count(plant: PlantRecord, key: str) -> str:
    value = getattr(plant.facts, key)
    if value is None:
        return ""
    return f"({value})" if key in plant.derived else str(value)


def _flowers(plant: PlantRecord) -> str:
    facts = plant.facts
    if facts.flowers is False:
        return "no"
    if facts.flowers_from_top is not None:
        return places(facts.flowers_from_top)
    return "yes" if facts.flowers else ""


def _pods(plant: PlantRecord) -> str:
    facts = plant.facts
    if facts.pods is False:
        return "no"
    said = []
    if facts.pod_mm is not None:
        said.append(length(facts.pod_mm, "pod_mm" in facts.inch_lengths))
    if facts.pods_full_length is not None:
        said.append("full length" if facts.pods_full_length else "not full")
    return _placed(facts.pods_from_top, said, facts.pods)


def _seeds(plant: PlantRecord) -> str:
    facts = plant.facts
    if facts.seeds is False:
        return "no"
    said = []
    if facts.seed_mm is not None:
        said.append(length(facts.seed_mm, "seed_mm" in facts.inch_lengths))
    if facts.seed_fill is not None:
        said.append(FILL[facts.seed_fill])
    return _placed(facts.seeds_from_top, said, facts.seeds)


def _placed(where: tuple[int, ...] | str | None, said: list[str], there: bool | None) -> str:
    what = ", ".join(said)
    if where is None:
        return what or ("yes" if there else "")
    place = places(where)
    return f"{place}: {what}" if what else place


def _ripe(plant: PlantRecord) -> str:
    if plant.facts.mature_pods_percent is not None:
        return percent(plant.facts.mature_pods_percent)
    return plant.facts.mature_pods or ""


def _decided(plant: PlantRecord) -> str:
    keys = [*plant.v.decided_by, *plant.r.decided_by]
    return ", ".join(dict.fromkeys(KEYS.get(key, key) for key in keys))


def _how(visit: Visit, rows: list[list[str]]) -> list[str]:
    """How to read the signs that the table uses, and no others."""
    full = [row for row in rows if len(row) > 1]
    signs = []
    facts = [plant.facts for plant in visit.plants]
    if any(isinstance(w, tuple) and w for f in facts for w in (f.flowers_from_top, f.pods_from_top, f.seeds_from_top)):
        signs.append("Places are nodes from the top, 1 being the top node.")
    if any("(" in row[_NODES] or "(" in row[2] for row in full):
        signs.append("In brackets: worked out by a rule.")
    if any(plant.r.stage == "none" for plant in visit.plants):
        signs.append("- under R: no open flower yet.")
    if any("?" in cell for row in full for cell in row):
        signs.append("? waits for an answer.")
    return [" ".join(signs)] if signs else []
