"""A page to hand over: a visit, a day, a field or the season as one HTML file that needs nothing else."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from importlib.resources import files
from typing import Any

from notesparse.errors import InputError
from notesparse.lazy import dataclass
from notesparse.record.caution import CAUTION
from notesparse.record.status import open_keys
from notesparse.season.forecast import Tried
from notesparse.season.look import NoteKept, Seen
from notesparse.season.standing import Standing
from notesparse.season.upcoming import WHOSE, Upcoming, cautions
from notesparse.views.marked_note import marked_note
from notesparse.views.plant_picture import plant_picture, stages
from notesparse.views.season import backtest, before, short, span
from notesparse.views.season_chart import describe, season_chart
from notesparse.views.wording import FILL, day, many, number, percent, places, size

_PICTURES = 5  # plants drawn of one visit; the table has them all


@dataclass(frozen=True, slots=True)
class Visited:
    """One visit for a page: the kept visit, and the note that it came from."""

    seen: Seen
    note: NoteKept

    @property
    def visit(self) -> Mapping[str, Any]:
        """The visit as the record has it."""
        visit: Mapping[str, Any] = self.note.record["visits"][self.seen.number]
        return visit

    def open_keys(self, plant: Mapping[str, Any]) -> frozenset[str]:
        """The values of one of its plants that a question waits for."""
        return open_keys(self.note.record, self.seen.number, plant)

    @property
    def questions(self) -> list[Mapping[str, Any]]:
        """The open questions of the visit, each with its number in the note."""
        still = [q for q in self.note.record["questions"] if q["answer"] is None]
        return [{**q, "number": n} for n, q in enumerate(still, 1) if q["visit"] == self.seen.number]


@dataclass(frozen=True, slots=True)
class Part:
    """A field's part of a report: where it stands, what comes up, the visits that are shown whole."""

    stands: Standing
    upcoming: Sequence[Upcoming]
    visits: Sequence[Visited]
    chart: bool = True


def report(
    title: str,
    parts: Sequence[Part],
    tried: Sequence[Tried] = (),
    overview: bool = False,
    step: Callable[[int, str], object] = lambda done, name: None,
) -> Iterator[str]:
    """The HTML of a report, piece by piece; `step` hears which part is being made.

    Raises `InputError` where the library for it is missing.
    """

    def watched() -> Iterator[Part]:
        for done, part in enumerate(parts, 1):
            step(done, part.stands.name)
            yield part

    try:
        from jinja2 import Environment, StrictUndefined
        from markupsafe import Markup
    except ImportError:
        raise InputError('Reports need two more libraries: python -m pip install "notesparse[report]"') from None
    page = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    page.filters |= {"day": day, "short": short, "percent": percent, "many": many, "number": number}
    page.globals |= {
        "span": span,
        "before": before,
        "caution": CAUTION,
        "says": cautions(),
        "whose": WHOSE,
        "always_checked": always_checked,
        "facts": lambda v, plant: plant_facts(plant, v.open_keys(plant)),
        "stages": lambda v, plant: stages(plant, v.open_keys(plant)),
        "picture": lambda v, plant: Markup(plant_picture(plant, still_open=v.open_keys(plant))),
        "marked": lambda v: Markup(marked_note(v.note.text, v.note.record)),
        "chart": lambda stands: Markup(season_chart(stands)) if _drawable(stands) else "",
        "describe": describe,
        "pictures": _PICTURES,
        "backtest": " ".join(line for line in backtest(tried, 10_000) if line),
    }
    source = (files("notesparse") / "views" / "report.html").read_text(encoding="utf-8")
    return page.from_string(source).generate(title=title, parts=parts, watched=watched(), overview=overview)


def _drawable(stands: Sequence[Standing]) -> bool:
    return any(s.v or s.r for s in stands)


def always_checked(found: Sequence[Upcoming]) -> list[str]:
    """What is to be checked of everything that comes up, to be said once."""
    return [check for check in found[0].check if all(check in u.check for u in found)] if len(found) > 1 else []


_CELLS = {
    "leaves": ("trifoliates", "nodes", "top_leaf", "unifoliates", "emerged"),
    "flowers": ("flowers", "flowers_from_top"),
    "pods": ("pods", "pods_from_top", "pod_mm", "pods_full_length"),
    "seeds": ("seeds", "seeds_from_top", "seed_mm", "seed_fill"),
    "ripe": ("mature_pods", "mature_pods_percent"),
}
"""The values that a cell of the table of plants tells of."""


def plant_facts(plant: Mapping[str, Any], still_open: Collection[str] = ()) -> dict[str, str]:
    """What was seen on a plant, for a table: leaves, flowers, pods, seeds, ripe.

    `still_open` are the values that a question waits for: their cells end in `?`.
    """
    said = _said(plant)
    return {cell: f"{text} ?".strip() if set(_CELLS[cell]) & set(still_open) else text for cell, text in said.items()}


def _said(plant: Mapping[str, Any]) -> dict[str, str]:
    leaves = [f"{plant['trifoliates']} trif." if plant["trifoliates"] is not None else ""]
    leaves += [f"{plant['nodes']} nodes" if plant["nodes"] is not None and "nodes" not in plant["derived"] else ""]
    leaves += [f"top leaf {plant['top_leaf']}" if plant["top_leaf"] else ""]
    leaves += [f"unifoliates {plant['unifoliates']}" if plant["unifoliates"] and not plant["trifoliates"] else ""]
    pods = (size(plant["pod_mm"]) if plant["pod_mm"] is not None else "") or (
        "full length" if plant["pods_full_length"] else ""
    )
    fill = FILL.get(plant["seed_fill"] or "", "")
    ripe = {"one": "a ripe pod", "none": "no ripe pod"}.get(plant["mature_pods"] or "", "")
    if plant["mature_pods_percent"] is not None:
        ripe = f"{percent(plant['mature_pods_percent'])} ripe"
    return {
        "leaves": ", ".join(part for part in leaves if part),
        "flowers": _organ(plant, "flowers"),
        "pods": _organ(plant, "pods", pods),
        "seeds": _organ(plant, "seeds", size(plant["seed_mm"]) if plant["seed_mm"] is not None else fill),
        "ripe": ripe,
    }


def _organ(plant: Mapping[str, Any], organ: str, more: str = "") -> str:
    if plant[organ] is None:
        return ""
    if plant[organ] is False:
        return "none"
    where = plant[f"{organ}_from_top"]
    told = places(where if isinstance(where, str) else tuple(where)) if where is not None else ""
    return ": ".join(part for part in (f"node {told}" if told[:1].isdigit() else told, more) if part) or "yes"
