"""What else the scout recorded on a visit: insects, disease, weeds, stand, soil, damage, weather."""

from __future__ import annotations

from notesparse.outcome import Finding, Visit
from notesparse.views.cells import WIDTH, safe
from notesparse.views.grid import grid
from notesparse.views.paint import Paint, plain
from notesparse.views.wording import number


def findings(visit: Visit, width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """One line a finding, in the order of the note."""
    rows = [[f.kind, safe(f.name or ""), _amount(f), safe(f.where or "")] for f in visit.findings]
    return grid(("", "", "", ""), rows, width=width, paint=paint) if rows else []


def _amount(finding: Finding) -> str:
    value, unit = finding.value, safe(finding.unit or "")
    if value is None:
        return unit
    if value == 0 and finding.kind in ("insect", "disease", "weed", "damage", "defoliation"):
        return "none found"
    if isinstance(value, list):
        told = ", ".join(number(item) for item in value)
    else:
        told = number(value)
    if unit in ("%", "percent"):
        return f"{told} %"
    return f"{told} {unit}".rstrip()
