"""Words under a table that are said of all its plants: `no bloom yet` on the next line."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.observing.paper.grids.page import Page
from notesparse.observing.paper.row_labels import follows
from notesparse.observing.paper.table import Table, pieces_of
from notesparse.reading.parse import Phrase, phrases_at
from notesparse.text.columns import Line
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_LISTED = cue_page("paper/said_of_all")

_OF_ALL = frozenset({"fl_no", "fl_buds", "fl_past", "pod_no", "seed_no", "no_brown", "pods_green"})
_OF_ALL_NAMED = frozenset({"top_rolled", "top_unrolled", "top_open"})  # of all only where they are named
_COUNTED = frozenset({"trif", "nodes"})
_EACH = _COMMON.words("each")
_OF_PLANTS = frozenset(
    {"PLANT", "INT", "INTSOUND", "ORD", "POD", "SEED", "BEAN", "FLOWER", "TRIF", "NODES", "NODE", "R", "V"}
)
_FOUND = frozenset({"SOILWORD", "SOILSTATE", "INSECT", "WEED", "DISEASE", "STANDWORD", "WEATHER", "DAMAGE"})
_EXCEPT = _LISTED.words("except")


def said_of_all(page: Page, tables: list[Table]) -> list[Table]:
    """`no bloom yet` on the line under a table or list: it is said of the plants above, and not of one more."""
    out: list[Table] = []
    lattice, lines = page.lattice, page.lines
    taken = pieces_of(tables)
    ends = {t.end for t in tables if t.grid is not None and len(t.grid.rows) > 1}
    for k, line in enumerate(lines):
        above = next((x for x in reversed(lines[max(0, k - 2) : k]) if not x.blank), None)
        if line.blank or above is None or taken & set(range(line.start, line.end)):
            continue
        if above.end not in ends and not _under_rows(page, above):
            continue
        for ph in phrases_at(lattice, line.start):
            named = max(
                (g.end for g in _phrases(lattice, ph.end, line.end) if g.form == "group_all"), default=None
            )  # next leaf rolled on all of them
            each = next((i + 1 for i in range(ph.end, line.end) if lattice.pieces[i].text in _EACH), None)
            counted = ph.rule in _COUNTED and (each is not None or named is not None)  # 14 tri each
            named = each if counted and named is None else named
            rest = range(named if named is not None else ph.end, line.end)
            stop = next((i for i in rest if lattice.pieces[i].text == "." and lattice.soft[i] is None), line.end)
            comma = _remark_behind(lattice, rest, line.end)
            stop = comma if comma is not None and comma < stop else stop
            rest = range(rest.start, stop)
            if (counted or ph.form in _OF_ALL or (ph.form in _OF_ALL_NAMED and named is not None)) and all(
                lattice.pieces[i].text in ".,;!" or lattice.filler[i] for i in rest
            ):
                whole = stop + 1 >= line.end
                out.append(Table(line.start, line.end if whole else stop, *((k, k) if whole else (1, 0)), of_all=True))
                break
    return out


def _remark_behind(lattice: Lattice, rest: range, end: int) -> int | None:
    """The comma in `no seed yet, beetles light`, `no bloom; soil moist at 3 in.`: what stands behind it names no plant, and
    is no exception."""
    comma = next((i for i in rest if lattice.pieces[i].text in ",;"), None)
    if comma is None or comma + 1 >= end:
        return None
    found = any(e.kind in _FOUND and e.how == "exact" for e in lattice.edges[comma + 1])
    behind = {e.kind for i in range(comma + 1, end) for e in lattice.edges[i]} & (
        _OF_PLANTS - {"INT"} if found else _OF_PLANTS
    )
    words = {lattice.pieces[i].text for i in range(comma + 1, end)} & _EXCEPT
    return None if behind or words else comma


def _under_rows(page: Page, above: Line) -> bool:
    """Whether a line is the last of several that begin with the labels of plants, which count on."""
    before = next((x for x in reversed(page.lines[: above.number]) if not x.blank), None)
    behind = next((x for x in page.lines[above.number + 1 :] if not x.blank and page.labelled(x) is not None), None)
    counts_on = _counts_on(page, above, behind)  # the words stand between two rows, and may be of the first
    return before is not None and _counts_on(page, before, above) and not counts_on


def _counts_on(page: Page, first: Line, second: Line | None) -> bool:
    """Whether the label of one line is the next after that of the other."""
    last, here = page.labelled(first), page.labelled(second) if second is not None else None
    if here is None or last is None or len(here[0]) != 1 or len(last[0]) != 1:
        return False
    return follows(last[0][0], here[0][0])


def _phrases(lattice: Lattice, at: int, end: int) -> list[Phrase]:
    return [p for p in phrases_at(lattice, at) if p.end <= end] if at < end else []
