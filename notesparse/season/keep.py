"""Keeping notes in the season log: a note that is there unchanged changes nothing, a changed one replaces its own rows."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import field
from itertools import islice
from typing import Any

from notesparse.lazy import dataclass
from notesparse.outcome import Outcome
from notesparse.record.compare import differences
from notesparse.record.lines import to_dict
from notesparse.record.rows import visit_rows
from notesparse.season import fieldnames
from notesparse.season.log import writing


@dataclass(frozen=True, slots=True)
class Kept:
    """What became of one note: `how` is added, changed, unchanged or a copy; `what` says what changed, in lines."""

    name: str
    how: str
    what: tuple[str, ...] = ()


@dataclass(slots=True)
class Undone:
    """What the last step was, and the notes that stand as they stood before it."""

    what: str
    notes: list[str] = field(default_factory=list)


def keep_all(
    log: sqlite3.Connection, outcomes: Iterable[Outcome], program: str, at_once: int = 1, dry_run: bool = False
) -> Iterator[Kept]:
    """Keeps notes as one step that can be undone, `at_once` of them in one transaction; what is given back of a note is
    given when it is on the disk."""
    step: int | None = None
    waiting = iter(outcomes)
    while batch := list(islice(waiting, at_once)):
        if dry_run:
            yield from (_compared(log, one, record := to_dict(one), _line(record)) for one in batch)
            continue
        with writing(log):
            done = []
            for outcome in batch:
                kept, step = _keep(log, outcome, program, step)
                done.append(kept)
        yield from done


def keep(log: sqlite3.Connection, outcome: Outcome, program: str) -> Kept:
    """Keeps one note; it is on the disk when this returns."""
    return next(keep_all(log, [outcome], program))


def _keep(log: sqlite3.Connection, outcome: Outcome, program: str, step: int | None) -> tuple[Kept, int | None]:
    record = to_dict(outcome)
    line = _line(record)
    kept = _compared(log, outcome, record, line)
    if kept.how in ("unchanged", "copy"):
        return kept, step
    step = new_step(log, "keep") if step is None else step
    _forget(log, outcome.note.source)
    rows = [list(visit_rows(outcome, at)) for at in range(len(outcome.visits))]
    rule = outcome.visits[0].field_stage.counting_rule if outcome.visits else ""
    version = log.execute(
        "INSERT INTO versions (name, step, sha256, text, record, rows, program, counting_rule) VALUES (?,?,?,?,?,?,?,?)",
        (outcome.note.source, step, outcome.note.sha256, outcome.note.text, line, json.dumps(rows), program, rule),
    ).lastrowid
    assert version is not None
    _put(log, version, record, step, rows)
    return kept, step


def _line(record: dict[str, Any]) -> str:
    return json.dumps(record, ensure_ascii=True, allow_nan=False)


def new_step(log: sqlite3.Connection, what: str) -> int:
    """A step that can be undone as one."""
    made = log.execute("INSERT INTO steps (what) VALUES (?)", (what,)).lastrowid
    assert made is not None
    return made


def _standing(log: sqlite3.Connection, name: str) -> sqlite3.Row | None:
    row: sqlite3.Row | None = log.execute(
        "SELECT * FROM versions WHERE name = ? ORDER BY id DESC LIMIT 1", (name,)
    ).fetchone()
    return row if row is not None and row["record"] else None


def _compared(log: sqlite3.Connection, outcome: Outcome, record: dict[str, Any], line: str) -> Kept:
    name = outcome.note.source
    before = _standing(log, name)
    if before is None:
        twin = log.execute(
            "SELECT name FROM versions v WHERE sha256 = ? AND sha256 <> '' AND name <> ? AND record <> '' "
            "AND id = (SELECT max(id) FROM versions w WHERE w.name = v.name)",
            (outcome.note.sha256, name),
        ).fetchone()
        if twin is not None:
            return Kept(name, "copy", (f"the same note is kept as {twin[0]}",))
        return Kept(name, "added", tuple(_told(visit) for visit in record["visits"]))
    if before["record"] == line:
        return Kept(name, "unchanged")
    return Kept(
        name, "changed", tuple(differences(json.loads(before["record"]), record) or ["how sure the values are"])
    )


def _told(visit: dict[str, Any]) -> str:
    stage = visit["field_stage"]
    codes = ", ".join(code for code in (stage["v"], stage["r"]) if code)
    return f"{visit['field'] or 'no field named'} {visit['date'] or 'no day'}: {codes or 'no stage'}"


def _forget(log: sqlite3.Connection, name: str) -> None:
    """The rows of the version that stood; the version itself stays, for undo."""
    for table in ("visits", "questions", "assumptions"):
        log.execute(f"DELETE FROM {table} WHERE version IN (SELECT id FROM versions WHERE name = ?)", (name,))


_VISIT = (
    *("version", "number", "field", "called", "date", "planted", "emerged", "variety", "maturity_group"),
    *("row_spacing_in", "v", "r", "basis_v", "basis_r", "plants", "share_v", "share_r", "low_v", "high_v"),
    *("low_r", "high_r", "least_v", "least_r", "median_v", "median_r", "most_v", "most_r", "mean_v"),
    *("counting_rule", "open_questions", "open_moving", "assumed"),
)


def _put(
    log: sqlite3.Connection, version: int, record: dict[str, Any], step: int, rows: Sequence[Sequence[dict[str, Any]]]
) -> None:
    visits: list[int] = []
    for number, visit in enumerate(record["visits"]):
        name = visit["field"]
        found = fieldnames.called(log, name, step) if name else None
        values = (version, number, found, name, *_of_visit(visit, number, record))
        marks = ",".join("?" * len(_VISIT))
        made = log.execute(f"INSERT INTO visits ({', '.join(_VISIT)}) VALUES ({marks})", values).lastrowid
        assert made is not None
        visits.append(made)
    for q in record["questions"]:
        log.execute(
            "INSERT INTO questions (version, visit, plant, rule, quote, ask, choices, answer, start, end, moves_field) "
            "VALUES (?,?,?,?,?,?,?,?,?,?,?)",
            (
                *(version, q["visit"], q["plant"], q["rule"], q["quote"], q["ask"], json.dumps(q["choices"])),
                *(None if q["answer"] is None else json.dumps(q["answer"]), *q["span"], int(q["moves_field"])),
            ),
        )
    for a in record["assumptions"]:
        log.execute(
            "INSERT INTO assumptions (version, rule, text, start, end) VALUES (?,?,?,?,?)",
            (version, a["rule"], a["text"], *a["span"]),
        )
    for visit_id, its_rows in zip(visits, rows, strict=True):
        for row in its_rows:
            log.execute(
                f"INSERT INTO observations (visit, {', '.join(_ROW)}) VALUES ({','.join('?' * (len(_ROW) + 1))})",
                (visit_id, *(row[key] for key in _ROW)),
            )


_ROW = ("stop", "plant", "variable", "value", "value_low", "value_high", "unit", "status", "start", "end", "words")


def _of_visit(visit: dict[str, Any], number: int, record: dict[str, Any]) -> tuple[Any, ...]:
    s = visit["field_stage"]
    still = [q for q in record["questions"] if q["visit"] == number and q["answer"] is None]
    intervals = [pair or [None, None] for pair in (s["interval_v_percent"], s["interval_r_percent"])]
    pairs = [s[which][letter] for which in ("least", "median", "most") for letter in ("v", "r")]
    return (
        *(visit[key] for key in ("date", "planted", "emerged", "variety", "maturity_group", "row_spacing_in")),
        *(s["v"], s["r"], s["basis_v"], s["basis_r"], len(visit["plants"])),
        *(s["reached_v_percent"], s["reached_r_percent"], *intervals[0], *intervals[1], *pairs, s["mean_v"]),
        *(s["counting_rule"], len(still), sum(q["moves_field"] for q in still), len(record["assumptions"])),
    )


def undo(log: sqlite3.Connection) -> Undone | None:
    """Takes back the last keep or join; None where there is none. What stood before stands again."""
    with writing(log):
        last = log.execute("SELECT id, what FROM steps ORDER BY id DESC LIMIT 1").fetchone()
        if last is None:
            return None
        out = Undone(last["what"])
        if last["what"] == "join":
            _unjoin(log, last["id"], out)
        for (name,) in log.execute("SELECT name FROM versions WHERE step = ? ORDER BY id", (last["id"],)).fetchall():
            _forget(log, name)
            log.execute("DELETE FROM versions WHERE step = ? AND name = ?", (last["id"], name))
            before = _standing(log, name)
            if before is not None:
                _put(log, before["id"], json.loads(before["record"]), before["step"], json.loads(before["rows"]))
            out.notes.append(name)
        log.execute(
            "DELETE FROM names WHERE step = ? AND NOT EXISTS (SELECT 1 FROM visits v WHERE v.field = names.field)",
            (last["id"],),
        )
        log.execute("DELETE FROM fields WHERE NOT EXISTS (SELECT 1 FROM names n WHERE n.field = fields.id)")
        log.execute("UPDATE names SET step = (SELECT min(id) FROM steps) WHERE step = ?", (last["id"],))
        log.execute("DELETE FROM steps WHERE id = ?", (last["id"],))
    return out


def _unjoin(log: sqlite3.Connection, step: int, out: Undone) -> None:
    """The names that were joined are a field of their own again, and their visits go back to it."""
    names = [row[0] for row in log.execute("SELECT folded FROM names WHERE step = ?", (step,))]
    if not names:  # a join that joined nothing: logs of old may hold one
        return
    visits = [
        v for v in log.execute("SELECT id, called FROM visits WHERE called IS NOT NULL") if _of(v["called"], names)
    ]
    shown = visits[0]["called"] if visits else names[0]
    made = log.execute("INSERT INTO fields (name) VALUES (?)", (fieldnames.shown(shown),)).lastrowid
    log.executemany("UPDATE names SET field = ? WHERE folded = ?", [(made, name) for name in names])
    log.executemany("UPDATE visits SET field = ? WHERE id = ?", [(made, v["id"]) for v in visits])
    out.notes += names


def _of(called: str, names: Sequence[str]) -> bool:
    return fieldnames.folded(called) in names
