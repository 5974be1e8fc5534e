"""The season as it was kept, read back: fields with their visits in order."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Sequence
from datetime import date as Date
from typing import Any

from notesparse.lazy import dataclass
from notesparse.staging.scale import R_CODES, rank


@dataclass(frozen=True, slots=True)
class Words:
    """Words of a note that a value rests on."""

    variable: str
    words: str
    plant: str | None


@dataclass(frozen=True, slots=True)
class Seen:
    """One visit as it was kept. Shares and intervals are percent; `words` are some of those that its stages rest on."""

    id: int
    note: str
    number: int
    called: str | None
    date: str | None
    planted: str | None
    emerged: str | None
    variety: str | None
    maturity_group: float | None
    row_spacing_in: float | None
    v: str | None
    r: str | None
    basis_v: str | None
    basis_r: str | None
    plants: int
    share_v: float | None
    share_r: float | None
    interval_v: tuple[float, float] | None
    interval_r: tuple[float, float] | None
    least: tuple[str | None, str | None]  # (v, r)
    median: tuple[str | None, str | None]
    most: tuple[str | None, str | None]
    mean_v: float | None
    counting_rule: str
    open_questions: int
    open_moving: int
    assumed: int
    words: tuple[Words, ...] = ()

    @property
    def day(self) -> Date | None:
        """The visit's day as a date."""
        return Date.fromisoformat(self.date) if self.date else None


@dataclass(frozen=True, slots=True)
class Field:
    """A field with its visits, oldest first; those without a day come last."""

    id: int | None
    name: str
    visits: tuple[Seen, ...]

    def first(self, key: str) -> Any:
        """The first value of a visit's head that any visit of the season gives."""
        return next((getattr(v, key) for v in self.visits if getattr(v, key) is not None), None)

    @property
    def dated(self) -> tuple[Seen, ...]:
        """The visits that have a day."""
        return tuple(v for v in self.visits if v.date)

    @property
    def staged(self) -> tuple[Seen, ...]:
        """The visits that have a day and a stage."""
        return tuple(v for v in self.dated if v.v or (v.r and v.r != "none"))


_V_WORDS = ("stated_v", "trifoliates", "nodes", "unifoliates", "emerged", "tally:v")
_R_WORDS = (
    ("R7", ("mature_pods", "mature_pods_percent", "tally:R8", "tally:R7", "stated_r")),
    ("R5", ("seed_fill", "seed_mm", "seeds_from_top", "seeds", "tally:R6", "tally:R5", "stated_r")),
    ("R3", ("pod_mm", "pods_full_length", "pods_from_top", "pods", "tally:R4", "tally:R3", "stated_r")),
    ("R1", ("flowers_from_top", "flowers", "tally:R2", "tally:R1", "stated_r")),
)
"""The variables whose words tell best why a stage was reached, for each stage from the latest down."""


def fields(log: sqlite3.Connection, name: str | None = None) -> list[Field]:
    """All fields, by name; the visits that name no field come last as a field without id. `name` gives that one alone."""
    from notesparse.season.fieldnames import known

    wanted = known(log, name) if name is not None else None
    if name is not None and wanted is None:
        return []
    rows = log.execute("SELECT id, name FROM fields ORDER BY name COLLATE NOCASE").fetchall()
    out = [Field(row["id"], row["name"], tuple(_visits(log, row["id"]))) for row in rows if wanted in (None, row["id"])]
    if wanted is None:
        stray = tuple(_visits(log, None))
        out += [Field(None, "no field named", stray)] if stray else []
    return [f for f in out if f.visits]


def _visits(log: sqlite3.Connection, field: int | None) -> Iterator[Seen]:
    where = "v.field = ?" if field is not None else "v.field IS NULL"
    rows = log.execute(
        f"SELECT v.*, n.name AS note FROM visits v JOIN versions n ON n.id = v.version WHERE {where} "
        "ORDER BY v.date IS NULL, v.date, n.name, v.number",
        (field,) if field is not None else (),
    ).fetchall()
    for row in rows:
        yield Seen(
            row["id"],
            row["note"],
            row["number"],
            row["called"],
            row["date"],
            row["planted"],
            row["emerged"],
            row["variety"],
            row["maturity_group"],
            row["row_spacing_in"],
            row["v"],
            row["r"],
            row["basis_v"],
            row["basis_r"],
            row["plants"],
            row["share_v"],
            row["share_r"],
            _pair(row["low_v"], row["high_v"]),
            _pair(row["low_r"], row["high_r"]),
            (row["least_v"], row["least_r"]),
            (row["median_v"], row["median_r"]),
            (row["most_v"], row["most_r"]),
            row["mean_v"],
            row["counting_rule"],
            row["open_questions"],
            row["open_moving"],
            row["assumed"],
            tuple(_words(log, row["id"], row["v"], row["r"])),
        )


def _pair(low: float | None, high: float | None) -> tuple[float, float] | None:
    return (low, high) if low is not None and high is not None else None


def _words(log: sqlite3.Connection, visit: int, v: str | None, r: str | None) -> Iterator[Words]:
    """The words of each scale, the most telling variable's first ones: of a plant that is at the stage, if there is one."""
    rows = log.execute(
        "SELECT variable, value, words, plant, stop FROM observations WHERE visit = ? ORDER BY id", (visit,)
    ).fetchall()
    flowers = _R_WORDS[-1][1]
    told = next((names for stage, names in _R_WORDS if r in R_CODES and rank(str(r)) >= rank(stage)), flowers)
    for letter, code, variables in (("v", v, _V_WORDS), ("r", r, told)):
        at = {
            (row["plant"], row["stop"]) for row in rows if row["variable"] == f"{letter}_stage" and row["value"] == code
        }
        said = [row for row in rows if row["words"] is not None]
        there = [row for row in said if (row["plant"], row["stop"]) in at]
        found = _first_of(variables, there) or _first_of(variables, said)
        if found is not None:
            yield Words(letter, found["words"], found["plant"])


def _first_of(variables: Sequence[str], rows: Sequence[sqlite3.Row]) -> sqlite3.Row | None:
    by_variable = (row for v in variables for row in rows if row["variable"].casefold().startswith(v.casefold()))
    return next(by_variable, None)


@dataclass(frozen=True, slots=True)
class NoteKept:
    """A note as it stands in the log."""

    name: str
    sha256: str
    text: str
    record: dict[str, Any]
    program: str
    counting_rule: str


_STANDS = "SELECT v.* FROM versions v WHERE v.id = (SELECT max(id) FROM versions w WHERE w.name = v.name)"


def notes(log: sqlite3.Connection) -> Iterator[NoteKept]:
    """The notes that stand, by name, one after the other."""
    yield from (_note(row) for row in log.execute(f"{_STANDS} ORDER BY v.name"))


def note_of(log: sqlite3.Connection, name: str) -> NoteKept:
    """The note of a name as it stands. Raises `KeyError` where there is none."""
    row = log.execute(f"{_STANDS} AND v.name = ?", (name,)).fetchone()
    if row is None:
        raise KeyError(name)
    return _note(row)


def _note(row: sqlite3.Row) -> NoteKept:
    return NoteKept(
        row["name"], row["sha256"], row["text"], json.loads(row["record"]), row["program"], row["counting_rule"]
    )
