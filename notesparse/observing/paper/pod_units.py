"""In what the bare lengths of pods are told, once for the page (guide 4.6, 4.21).

`pods written as mm @ node, node 1 = topmost` over `1.  12 tf   pod 8 @ 3`: the figures behind the pods of the rows are
millimetres, and what stands behind an @ is a node counted from the top.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.paper.heads import Column
from notesparse.observing.paper.row_labels import read_label
from notesparse.reading.phrase import Phrase
from notesparse.text.columns import Cell, Line
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/pod_units")

_UNITS = {
    "mm": (1.0, False),
    "millimeters": (1.0, False),
    "millimetres": (1.0, False),
    "cm": (10.0, False),
    "centimeters": (10.0, False),
    "16ths": (25.4 / 16, True),
    "sixteenths": (25.4 / 16, True),
    "8ths": (25.4 / 8, True),
    "eighths": (25.4 / 8, True),
}
_LEGEND_UNITS = {"mm": _UNITS["mm"], "cm": _UNITS["cm"], "16": _UNITS["16ths"], "8": _UNITS["8ths"]}
_SAYS = _LISTED.words("says")
_TOP = _COMMON.words("top") | {"down"}
_BOTTOM = _COMMON.words("low") | {"ground", "up"}


@dataclass(frozen=True, slots=True)
class PodUnit:
    """The line [start, end) that says so; millimetres in the unit, whether it is one of inches, how an @ counts nodes."""

    number: int
    start: int
    end: int
    mm: float
    inches: bool
    at_node: str | None
    place: Phrase | None = None  # where on the plant they all were


def find_pod_unit(
    lattice: Lattice, lines: Sequence[Line], taken: set[int], legends: Sequence[tuple[int, Column, Cell]] = ()
) -> PodUnit | None:
    """The one line of a page that says in what its pods were measured, or the one of its legends that no table took; None
    where two say so, or no pod is bare."""
    found = [x for line in lines if line.number not in taken and (x := _unit_line(lattice, line)) is not None]
    found = found or [x for n, c, cell in legends if n not in taken and (x := _of_a_legend(n, c, cell)) is not None]
    if len(found) != 1 or not any(_bare_pod(lattice, i) for i in range(len(lattice.pieces) - 1)):
        return None
    return found[0]


def _of_a_legend(number: int, legend: Column, cell: Cell) -> PodUnit | None:
    """`Pods in 16ths, longest one on top four nodes` behind the name of the field and the day."""
    unit = _LEGEND_UNITS.get(legend.unit or "")
    if legend.what != ["pods"] or unit is None or legend.by_node or legend.codes:
        return None
    return PodUnit(number, cell.start, cell.end, *unit, None, legend.place)


def _unit_line(lattice: Lattice, line: Line) -> PodUnit | None:
    if line.blank or read_label(lattice, line.start, line.end) is not None:
        return None
    pod, units = False, []
    k = line.start
    while k < line.end:
        text = lattice.at(k)
        parts = text + lattice.at(k + 1)  # 16 ths
        if parts in _UNITS and text.isdigit():
            units.append(parts)
            k += 2
            continue
        if text in _UNITS:
            units.append(text)
        elif any(e.kind == "POD" and e.how == "exact" for e in lattice.edges[k]):
            pod = True
        elif not (lattice.pieces[k].form == "mark" or text in _SAYS or _the_first_node(lattice, k)):
            return None
        k += 1
    if not pod or len(units) != 1:
        return None
    mm, inches = _UNITS[units[0]]
    return PodUnit(line.number, line.start, line.end, mm, inches, _direction(lattice, line))


def _the_first_node(lattice: Lattice, i: int) -> bool:
    """The 1 of `node 1 = topmost`, `top = 1`."""
    return lattice.at(i) == "1" and bool({lattice.at(i - 1), lattice.at(i + 1)} & {"=", "is", "node"})


def _direction(lattice: Lattice, line: Line) -> str | None:
    """How the node behind an @ is counted, where the line says so."""
    texts = {lattice.at(i) for i in range(line.start, line.end)}
    if not texts & {"@", "at"} or not texts & {"node", "nodes"}:
        return None
    ways = {"down": bool(texts & _TOP), "up": bool(texts & _BOTTOM)}
    said = [way for way, found in ways.items() if found]
    return said[0] if len(said) == 1 else None


def _bare_pod(lattice: Lattice, i: int) -> bool:
    """`pod 8`, with no unit behind the figure."""
    if not any(e.kind == "POD" and e.how == "exact" and e.end == i + 1 for e in lattice.edges[i]):
        return False
    behind = lattice.edges[i + 2] if i + 2 < len(lattice.pieces) else ()
    return lattice.pieces[i + 1].form == "int" and not any(e.kind in {"MM", "CM", "INCH", "SLASH"} for e in behind)
