"""So many plants of each number or stage: `trifs 7 8 9` over `plants 4 11 5`, or a line for each (guide 4.16).

Every class is a tally of plants, never a plant: a figure under the plants is a count.
"""

from __future__ import annotations

from collections.abc import Sequence

from notesparse.facts import PlantFacts
from notesparse.lazy import dataclass
from notesparse.observing.draft import TallyDraft
from notesparse.observing.fold import EVIDENCE, Context
from notesparse.observing.paper.heads import Column, read_heads
from notesparse.observing.paper.ticks import count_ticks
from notesparse.observing.stages import read_stage
from notesparse.reading.parse import phrases_at
from notesparse.staging.vegetative import v_stage
from notesparse.text.columns import Cell, Line, cut
from notesparse.text.lattice import Lattice

_THINGS = {"trifoliates", "nodes", "stage", "v", "r"}
_FEWEST_CODES = 3
_MOST_STROKES = 4  # lines of strokes under the codes
_MOST = 60  # plants of a class
_RIPE_SHARE = 95  # percent: guide 5.3, R8


@dataclass(frozen=True, slots=True)
class Count:
    """One class: its value at pieces [start, end) under `thing`, and how many plants (`of` where the note says it)."""

    start: int
    end: int
    thing: str
    plants: int
    of: int | None = None


@dataclass(frozen=True, slots=True)
class Counts:
    """A table of classes on lines [first, last]."""

    first: int
    last: int
    classes: tuple[Count, ...]


def find_counts(lattice: Lattice, lines: Sequence[Line]) -> list[Counts]:
    """All tables of classes of a note."""
    out: list[Counts] = []
    k = 0
    while k < len(lines):
        got = (
            None
            if lines[k].blank
            else (
                _across(lattice, lines, k)
                or _under_codes(lattice, lines, k)
                or _down(lattice, lines, k)
                or _ripe(lattice, lines, k)
            )
        )
        if got is None:
            k += 1
            continue
        out.append(got)
        k = got.last + 1
    return out


def _across(lattice: Lattice, lines: Sequence[Line], at: int) -> Counts | None:
    """`trifs   7   8   9`, and under it `plants   4   11   5`."""
    below = next((x for x in lines[at + 1 : at + 3] if not x.blank), None)
    if below is None:
        return None
    top, bottom = _line(lattice, lines[at]), _line(lattice, below)
    if top is None or bottom is None or not _is_thing(top[0]) or not _is_plants(bottom[0]):
        return None
    values, counts = top[1], bottom[1]
    if len(values) != len(counts) or len(values) < 2:
        return None
    return _counts(lattice, at, below.number, top[0].what[0], list(zip(values, counts, strict=True)))


def _under_codes(lattice: Lattice, lines: Sequence[Line], at: int) -> Counts | None:
    """`V4   V5   V6` over strokes, and under them `total   2   7   3`, or strokes or figures alone."""
    codes = list(lines[at].cells)
    if len(codes) < _FEWEST_CODES or not all(_stage_of(lattice, c) is not None for c in codes):
        return None
    found: tuple[int, list[Cell]] | None = None
    k = at + 1
    while k < len(lines) and k <= at + _MOST_STROKES and not lines[k].blank:
        cells = list(lines[k].cells)
        if len(cells) == len(codes) + 1 and _words(lattice, cells[0]):
            cells = cells[1:]
        if len(cells) == len(codes) and all(lattice.pieces[c.start].form == "int" for c in cells):
            found = k, cells
            break
        if not all(count_ticks(lattice.original(c.start, c.end)) for c in cells):
            break
        k += 1
    if found is None or any(_figure(lattice, c) is None for c in found[1]) or _row_of_many(lattice, lines, found[0]):
        return None
    rows = [(a, b) for a, b in zip(codes, found[1], strict=True) if _figure(lattice, b)]
    return _counts(lattice, at, found[0], "stage", rows) if rows else None


def _row_of_many(lattice: Lattice, lines: Sequence[Line], at: int) -> bool:
    """`Mill Road   6   3   1` over `Hill Cut   3   6   1`: rows of several fields or places, and none is the sum of all."""
    own, below = lines[at].cells, lines[at + 1].cells if at + 1 < len(lines) else ()
    return (
        len(own) == len(below)
        and _words(lattice, own[0])
        and _words(lattice, below[0])
        and all(_figure(lattice, c) is not None for c in below[1:])
    )


def _words(lattice: Lattice, c: Cell) -> bool:
    return all(lattice.pieces[i].form == "word" or lattice.pieces[i].text in ".:" for i in range(c.start, c.end))


def _line(lattice: Lattice, line: Line) -> tuple[Column, list[Cell]] | None:
    """A head and figures behind it."""
    last = lattice.pieces[line.end - 1]
    if last.form != "int" and last.text[0] not in "|/i":
        return None  # figures, strokes and stages end with one
    for b in range(line.start + 1, min(line.start + 7, line.end)):
        a = b
        while a < line.end and lattice.pieces[a].text in {":", "=", ".", "-"}:
            a += 1
        if a == line.end or lattice.pieces[a].form not in {"int", "word"} or lattice.pieces[a].glued:
            continue
        got = read_heads(lattice, [range(line.start, b)])
        if len(got) != 1 or not got[0].known or got[0].unknown:
            continue
        cells = cut(lattice.pieces, a, line.end, 1)
        if all(_figure(lattice, c) is not None or _stage_of(lattice, c) is not None for c in cells):
            return got[0], cells
    return None


def _down(lattice: Lattice, lines: Sequence[Line], at: int) -> Counts | None:
    """`trifs   plants`, and under it a line for each number with its count."""
    if len(lines[at].cells) != 2:
        return None
    heads = [read_heads(lattice, [range(c.start, c.end)]) for c in lines[at].cells]
    if any(len(h) != 1 or h[0].unknown for h in heads):
        return None
    thing, plants = heads[0][0], heads[1][0]
    if not _is_thing(thing) or not _is_plants(plants):
        return None
    rows: list[tuple[Cell, Cell]] = []
    k = at + 1
    while k < len(lines) and len(lines[k].cells) == 2 and _figure(lattice, lines[k].cells[1]) is not None:
        rows.append((lines[k].cells[0], lines[k].cells[1]))
        k += 1
    if len(rows) < 2:
        return None
    order = [_figure(lattice, c) for _, c in rows]
    if order == list(range(1, len(rows) + 1)):
        return None  # labels in order, perhaps
    return _counts(lattice, at, k - 1, thing.what[0], rows)


def _ripe(lattice: Lattice, lines: Sequence[Line], at: int) -> Counts | None:
    """`95% or better of pods brown   4 of 10`, `all pods brown   4 of 10`, `at least one brown pod   9 of 10`: shares of
    plants, one a line."""
    found: list[Count] = []
    k = at
    while k < len(lines) and not lines[k].blank:
        got = _ripe_line(lattice, lines[k])
        if got is None:
            break
        found.append(got)
        k += 1
    return Counts(at, k - 1, tuple(found)) if len(found) >= 2 else None


def _ripe_line(lattice: Lattice, line: Line) -> Count | None:
    if len(line.cells) != 2:
        return None
    words, share = line.cells
    ratio = _ratio(lattice, share)
    kinds = {e.kind for i in range(words.start, words.end) for e in lattice.edges[i] if e.how == "exact"}
    if ratio is None or "BROWN" not in kinds or kinds & {"NO", "NONE", "NOT", "GREEN"}:
        return None
    percent = [
        int(lattice.pieces[i].text)
        for i in range(words.start, words.end - 1)
        if lattice.pieces[i].form == "int" and any(e.kind == "PCT" for e in lattice.edges[i + 1])
    ]
    ripe = bool(percent and percent[0] >= _RIPE_SHARE)
    ripe = ripe or (not percent and lattice.at(words.start) in {"all", "every"})
    if percent and not ripe:
        return None
    return Count(words.start, share.end, "R8" if ripe else "R7", *ratio)


def _ratio(lattice: Lattice, c: Cell) -> tuple[int, int] | None:
    """`4 of 10`, `4/10`."""
    pieces = lattice.pieces
    if c.end - c.start != 3 or pieces[c.start].form != "int" or pieces[c.end - 1].form != "int":
        return None
    n, of = int(pieces[c.start].text), int(pieces[c.end - 1].text)
    return (n, of) if pieces[c.start + 1].text in {"of", "/"} and n <= of else None


def _is_thing(c: Column) -> bool:
    return len(c.what) == 1 and c.what[0] in _THINGS


def _is_plants(c: Column) -> bool:
    return c.label and (c.plural or c.count)


def _figure(lattice: Lattice, c: Cell) -> int | None:
    if c.end == c.start + 1 and lattice.pieces[c.start].form == "int":
        return int(lattice.pieces[c.start].text)
    return count_ticks(lattice.original(c.start, c.end)) if lattice.pieces[c.start].text[0] in "|/i" else None


def _stage_of(lattice: Lattice, c: Cell) -> str | None:
    for ph in phrases_at(lattice, c.start):
        if ph.rule == "stage" and ph.end == c.end:
            value = read_stage(ph)
            code = next(iter(value.values())) if value else None
            return code if isinstance(code, str) else None
    return None


def _counts(lattice: Lattice, first: int, last: int, thing: str, rows: Sequence[tuple[Cell, Cell]]) -> Counts | None:
    out: list[Count] = []
    for value, count in rows:
        n, stage, plants = _figure(lattice, value), _stage_of(lattice, value), _figure(lattice, count)
        if plants is None or plants > _MOST or (n is None and stage is None):
            return None
        what = stage if stage is not None else f"{thing[0].upper()}{n}" if thing in {"v", "r"} else f"{thing} {n}"
        out.append(Count(value.start, value.end, what, plants))
    return Counts(first, last, tuple(out))


def read_counts(ctx: Context, counts: Counts, start: int, end: int) -> None:
    """The classes as an exclusive list of tallies; V stands for a count of leaves by the note's counting rule."""
    visit = ctx.here()
    ctx.leave_plants()
    ctx.mark(start, end, EVIDENCE)
    total = sum(c.plants for c in counts.classes)
    of = ctx.sample if ctx.sample is not None and ctx.sample >= total else total
    for c in counts.classes:
        key, _, n = c.thing.partition(" ")
        stage: str | None = c.thing
        if n:
            facts = PlantFacts(trifoliates=int(n)) if key == "trifoliates" else PlantFacts(nodes=int(n))
            stage = v_stage(facts, ctx.counting_rule).stage
        if stage is not None:
            span = ctx.span(c.start, c.end)
            visit.tallies.append(TallyDraft(stage, c.plants, c.of or of, None, span, exclusive=c.of is None))
