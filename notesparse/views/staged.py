"""A table of counted plants with its stages, shown like the plants of a note: field by field, day by day."""

from __future__ import annotations

from collections.abc import Iterable

from notesparse.outcome import Note, Outcome, PlantRecord, Visit
from notesparse.record.caution import CAUTION
from notesparse.record.facts_table import FactsRow
from notesparse.staging.field import field_stage, stage_plant
from notesparse.views.cells import WIDTH
from notesparse.views.field import field, title
from notesparse.views.page import headed, joined
from notesparse.views.paint import Paint, plain
from notesparse.views.plants import plants


def staged(
    rows: Iterable[FactsRow], rule: str, strict_top: bool = False, width: int = WIDTH, paint: Paint = plain
) -> str:
    """The rows as text for a person. Rows of one field and day are staged together, in order of appearance."""
    groups: dict[tuple[str, str], list[FactsRow]] = {}
    for row in rows:
        groups.setdefault((row.cells.get("field", "").strip(), row.cells.get("date", "").strip()), []).append(row)
    visits = tuple(_visit(name, day, group, rule, strict_top) for (name, day), group in groups.items())
    table = Outcome(Note(""), visits, (), (), (), ())
    blocks: list[list[str]] = []
    for at, visit in enumerate(visits):
        head = [*title(visit, paint), ""] if visit.field or visit.date else []
        blocks.append([*head, *field(table, at, width, paint)])
        blocks.append(headed("Plants", plants(table, at, width, paint), paint))
    return joined([*blocks, [paint("quiet", CAUTION)]])


def _visit(name: str, day: str, rows: list[FactsRow], rule: str, strict_top: bool) -> Visit:
    done = [stage_plant(row.facts, rule, strict_top) for row in rows]
    return Visit(
        field=name or None,
        date=day or None,
        planted=None,
        emerged=None,
        variety=None,
        maturity_group=None,
        row_spacing_in=None,
        plants=tuple(
            PlantRecord(
                row.cells.get("plant", "").strip() or str(number),
                row.cells.get("stop", "").strip() or None,
                row.facts,
                plant.v,
                plant.r,
                {},
            )
            for number, (row, plant) in enumerate(zip(rows, done, strict=True), 1)
        ),
        tallies=(),
        stated=(),
        findings=(),
        field_stage=field_stage(done, (), None, rule),
    )
