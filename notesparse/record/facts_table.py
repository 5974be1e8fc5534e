"""A table of counted plants, in and out: a CSV of facts, and the same rows with their stages.

One row is one plant. The first row names the columns, in any order:

- the facts of the reading guide, section 3: trifoliates, nodes, top_leaf, emerged, unifoliates, flowers,
  flowers_from_top, pods, pods_from_top, pod_mm, pods_full_length, seeds, seeds_from_top, seed_mm, seed_fill,
  mature_pods, mature_pods_percent, stated_v, stated_r; any of them, at least one;
- ``pod_in`` and ``seed_in``: lengths in inches (``1/4``, ``1 1/4``, ``0.25``). They are held against the inch form of a
  limit (3/16 in), those in ``pod_mm`` and ``seed_mm`` against the metric form (5 mm). One of the two a row;
- plant, stop, field, date: carried along as written.

An empty cell says nothing. Yes and no: ``yes``/``no``, ``true``/``false``, ``y``/``n``. Places: nodes from the top with
blanks between (``1 2``), ``lower``, or ``none`` for none of the top nodes. A range of lengths: ``8 to 10``. A range of
stages: ``R3 to R4``. Columns v_stage, r_stage, v_basis, r_basis and why are worked out anew where a table has them.

`stage_table` is what a command line or a notebook calls; `read_facts` gives the facts themselves.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Any

from notesparse.errors import InputError
from notesparse.facts import PLANT_KEYS, Millimetres, Places, PlantFacts, Stage
from notesparse.lazy import dataclass
from notesparse.staging.field import stage_plant
from notesparse.staging.limits import COUNTING_RULES, DEFAULT_RULE, MM_PER_INCH
from notesparse.staging.scale import read_stage, whole_stage
from notesparse.staging.sound import WORDS

CARRIED: tuple[str, ...] = ("plant", "stop", "field", "date")
INCH_COLUMNS: Mapping[str, str] = {"pod_in": "pod_mm", "seed_in": "seed_mm"}
ADDED: tuple[str, ...] = ("v_stage", "r_stage", "v_basis", "r_basis", "why")
_SHOWN = 20  # faults listed in one message


@dataclass(frozen=True, slots=True)
class FactsRow:
    """One row of the table: the line of the file that it ends on, its cells as written, and the facts."""

    line: int
    cells: Mapping[str, str]
    facts: PlantFacts


def stage_table(lines: Iterable[str], rule: str = DEFAULT_RULE, strict_top: bool = False) -> Iterator[list[str]]:
    """The rows of a facts table with v_stage, r_stage, v_basis, r_basis and why added; the first one names the columns.

    `lines` are those of a CSV file, opened with ``newline=""``. The whole table is read before the first row comes out:
    a table with a fault gives an InputError that lists each one by line and column, and no rows.
    """
    if rule not in COUNTING_RULES:
        raise InputError(f"no counting rule {rule!r}: it can be {', '.join(COUNTING_RULES)}")
    columns, rows = _read(lines)
    kept = [column for column in columns if column not in ADDED]

    def staged() -> Iterator[list[str]]:
        yield [*kept, *ADDED]
        for row in rows:
            plant = stage_plant(row.facts, rule, strict_top)
            why = "; ".join((f"V: {plant.v.why}", f"R: {plant.r.why}"))
            added = (plant.v.stage, plant.r.stage, plant.v.basis, plant.r.basis, why)
            yield [*(row.cells[column] for column in kept), *(value or "" for value in added)]

    return staged()


def read_facts(lines: Iterable[str]) -> tuple[FactsRow, ...]:
    """The rows of a facts table; an InputError lists all its faults by line and column."""
    return _read(lines)[1]


def _read(lines: Iterable[str]) -> tuple[tuple[str, ...], tuple[FactsRow, ...]]:
    reader = csv.reader(lines, strict=True)
    rows: list[FactsRow] = []
    faults: list[str] = []
    columns: tuple[str, ...] | None = None
    try:
        for cells in reader:
            if not any(cell.strip() for cell in cells):
                continue
            if columns is None:
                columns = _columns(cells)
            elif len(cells) != len(columns):
                faults.append(f"line {reader.line_num}: {len(cells)} cells under {len(columns)} column names")
            else:
                row = dict(zip(columns, cells, strict=True))
                facts, wrong = _facts(row)
                faults += [f"line {reader.line_num}, {fault}" for fault in wrong]
                rows.append(FactsRow(reader.line_num, row, facts))
    except csv.Error as error:
        raise InputError(f"line {reader.line_num}: not a CSV table ({error})") from error
    if columns is None:
        raise InputError("the table is empty: its first line names the columns")
    if faults:
        more = [f"and {len(faults) - _SHOWN} more"] if len(faults) > _SHOWN else []
        raise InputError("\n".join(faults[:_SHOWN] + more))
    return columns, tuple(rows)


def _columns(head: list[str]) -> tuple[str, ...]:
    names = tuple(name.strip().lstrip("\ufeff").strip().casefold() for name in head)
    known = {*PLANT_KEYS, *INCH_COLUMNS, *CARRIED, *ADDED}
    for place, name in enumerate(names, start=1):
        if name not in known:
            told = "columns are parted by commas" if re.search("[;\t]", name) else "no such column is known"
            raise InputError(f"line 1, column {place} {name!r}: {told}; facts are {', '.join(PLANT_KEYS)}")
        if names.index(name) != place - 1:
            raise InputError(f"line 1, column {place} {name!r}: named twice")
    if not any(name in PLANT_KEYS or name in INCH_COLUMNS for name in names):
        raise InputError(f"line 1: no column holds a fact; facts are {', '.join(PLANT_KEYS)}")
    return names


def _facts(row: Mapping[str, str]) -> tuple[PlantFacts, list[str]]:
    """The facts of one row, and what is wrong with it."""
    values: dict[str, Any] = {}
    inches: set[str] = set()
    faults: list[str] = []
    for column, cell in row.items():
        words = cell.strip()
        if not words or column in CARRIED or column in ADDED:
            continue
        key = INCH_COLUMNS.get(column, column)
        try:
            value = _inches(words) if column in INCH_COLUMNS else _READERS[key](key, words)
        except ValueError as error:
            faults.append(f"column {column}: {words!r} {error}")
            continue
        if key in values:
            faults.append(f"column {column}: {key} has a length in inches and one in millimetres; leave one out")
        values[key] = value
        if column in INCH_COLUMNS:
            inches.add(key)
    return PlantFacts(**values, inch_lengths=frozenset(inches)), faults


# --- one cell ---------------------------------------------------------------------------------------------------


def _count(_: str, words: str) -> int:
    if not re.fullmatch(r"\d{1,3}(\.0+)?", words):  # a spreadsheet may write 11 as 11.0
        raise ValueError("is no whole number")
    return int(float(words))


def _yes_no(_: str, words: str) -> bool:
    said_yes = {"true": True, "yes": True, "y": True, "false": False, "no": False, "n": False}.get(words.casefold())
    if said_yes is None:
        raise ValueError("is neither yes nor no")
    return said_yes


def _word(key: str, words: str) -> str:
    if words.casefold() not in WORDS[key]:
        raise ValueError(f"can be {' or '.join(WORDS[key])}")
    return words.casefold()


def _places(_: str, words: str) -> Places:
    if words.casefold() == "lower":
        return "lower"
    if words.casefold() in {"none", "[]"}:
        return ()
    parts = re.split(r"[\s,;]+", words.strip("[] "))
    if not all(re.fullmatch(r"[1-9]\d?", part) for part in parts):
        raise ValueError("is no list of nodes from the top (as in: 1 2), lower or none")
    return tuple(sorted({int(part) for part in parts}))


def _millimetres(_: str, words: str) -> Millimetres:
    return _length(words, 1.0)


def _inches(words: str) -> Millimetres:
    return _length(words, MM_PER_INCH)


def _length(words: str, mm: float) -> Millimetres:
    """A length or a range of two, in units of `mm` millimetres."""
    ends = re.split(r"\s*(?:\bto\b|[-–,;])\s*", words.strip("[] "))
    lengths = [float(_number(end)) * mm for end in ends]
    if len(lengths) == 1:
        return lengths[0]
    if len(lengths) != 2 or lengths[0] > lengths[1]:
        raise ValueError("is no length and no range of two (as in: 8 to 10)")
    return lengths[0], lengths[1]


def _number(words: str) -> Fraction:
    found = re.fullmatch(r"(?:(\d{1,4})\s+)?(\d{1,3})/([1-9]\d{0,2})|(\d{0,4}\.\d{1,9}|\d{1,4})", words)
    if found is None:
        raise ValueError("is no length")
    whole, part, parts, decimal = found.groups()
    return Fraction(decimal) if decimal else Fraction(whole or 0) + Fraction(int(part), int(parts))


def _percent(_: str, words: str) -> float:
    found = re.fullmatch(r"(\d{1,3}(?:\.\d+)?)\s*%?", words)
    if found is None or float(found[1]) > 100:
        raise ValueError("is no percentage from 0 to 100")
    return float(found[1])


def _stage(key: str, words: str) -> Stage:
    stage = read_stage(words)
    first = None if stage is None else whole_stage(stage if isinstance(stage, str) else stage[0])
    if stage is None or first is None or first[0] != key[-1].upper():
        raise ValueError(f"is no {key[-1].upper()} stage")
    return stage


_READERS: Mapping[str, Callable[[str, str], Any]] = {
    **dict.fromkeys(("trifoliates", "nodes"), _count),
    **dict.fromkeys(("emerged", "flowers", "pods", "pods_full_length", "seeds"), _yes_no),
    **dict.fromkeys(WORDS, _word),
    **dict.fromkeys(("flowers_from_top", "pods_from_top", "seeds_from_top"), _places),
    **dict.fromkeys(("pod_mm", "seed_mm"), _millimetres),
    "mature_pods_percent": _percent,
    **dict.fromkeys(("stated_v", "stated_r"), _stage),
}
