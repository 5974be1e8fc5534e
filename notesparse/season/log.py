"""The season log: one SQLite file, several writers, nothing acknowledged is ever lost.

Every write is one immediate transaction, so that a note is there whole or not at all. The rollback journal is used, not
the write-ahead log: it is one file to copy, and the library's older releases have a fault in the other.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import files
from pathlib import Path

from notesparse.errors import InputError

FORM = 1
"""The form of the file, kept as SQLite's `user_version`; `_MIGRATIONS` leads from one to the next."""

_MARK = 0x6E6F7470  # "notp", kept as SQLite's `application_id`: this file is a season log
_PATIENCE = 30.0  # seconds to wait for another writer
_MIGRATIONS: dict[int, str] = {}


def connect(path: str, create: bool = False) -> sqlite3.Connection:
    """The log in a file, brought to this version's form. Raises `InputError` where it is none, or is not there."""
    if not create and not os.path.exists(path):
        raise InputError(f"{path}: there is no such season log; notesparse keep NOTE... --season {path} begins one.")
    if os.path.isdir(path) or not Path(path).resolve().parent.is_dir():
        raise InputError(f"{path}: is no place for a file.")
    try:
        log = sqlite3.connect(path, timeout=_PATIENCE, isolation_level=None)
        log.row_factory = sqlite3.Row
        log.execute("PRAGMA foreign_keys = ON")
        log.execute("PRAGMA synchronous = 2")
        _settle(log, path)
    except sqlite3.DatabaseError as fault:
        raise InputError(f"{path}: is no season log ({fault}).") from None
    return log


def _settle(log: sqlite3.Connection, path: str) -> None:
    form, mark = _pragma(log, "user_version"), _pragma(log, "application_id")
    empty = log.execute("SELECT count(*) FROM sqlite_master").fetchone()[0] == 0
    if form == FORM and mark == _MARK:
        return
    if not empty and mark != _MARK:
        raise InputError(f"{path}: is a database, and no season log.")
    if form > FORM:
        raise InputError(f"{path}: is of form {form}, and this version knows up to {FORM}; use a newer notesparse.")
    with writing(log):
        form = _pragma(log, "user_version")
        if form == FORM:  # somebody else was faster
            return
        if form == 0:
            sql = (files("notesparse") / "season" / "schema.sql").read_text(encoding="utf-8")
            for statement in _statements(sql):
                log.execute(statement)
        for step in range(max(form, 1), FORM):
            for statement in _statements(_MIGRATIONS[step]):
                log.execute(statement)
        log.execute(f"PRAGMA application_id = {_MARK}")
        log.execute(f"PRAGMA user_version = {FORM}")


def _pragma(log: sqlite3.Connection, name: str) -> int:
    return int(log.execute(f"PRAGMA {name}").fetchone()[0])


def _statements(sql: str) -> Iterator[str]:
    """One statement after the other: a script would end the transaction that it stands in."""
    bare = "\n".join(line.split("--")[0] for line in sql.splitlines())
    yield from (statement for statement in bare.split(";") if statement.strip())


@contextmanager
def writing(log: sqlite3.Connection) -> Iterator[sqlite3.Connection]:
    """One transaction that holds the only right to write; all of it stands at the end, or nothing."""
    try:
        log.execute("BEGIN IMMEDIATE")
    except sqlite3.OperationalError as fault:
        raise InputError(f"The season log cannot be written now ({fault}); try again in a moment.") from None
    try:
        yield log
    except BaseException:
        log.execute("ROLLBACK")
        raise
    log.execute("COMMIT")


def faults(log: sqlite3.Connection) -> list[str]:
    """What is wrong with the file, in sentences; nothing if it is sound."""
    found = [row[0] for row in log.execute("PRAGMA integrity_check") if row[0] != "ok"]
    found += [f"a row of {row[0]} points to nothing" for row in log.execute("PRAGMA foreign_key_check")]
    lost = log.execute(
        "SELECT v.name FROM versions v WHERE v.id = (SELECT max(id) FROM versions w WHERE w.name = v.name) "
        "AND v.record <> '' AND NOT EXISTS (SELECT 1 FROM visits t WHERE t.version = v.id) "
        "AND json_array_length(v.record, '$.visits') > 0"
    )
    return found + [f"the visits of {row[0]} are missing" for row in lost]


def backup(log: sqlite3.Connection, path: str) -> None:
    """A copy of the whole log into a new file, also while others write. Raises `InputError` where there is one."""
    if os.path.exists(path):
        raise InputError(f"{path}: is there already; name a new file for the copy.")
    made = f"{path}.part"
    try:
        with sqlite3.connect(made) as copy:
            log.backup(copy)
        copy.close()
        os.replace(made, path)
    except (OSError, sqlite3.Error) as fault:
        Path(made).unlink(missing_ok=True)
        raise InputError(f"{path}: cannot be written ({fault}).") from None
