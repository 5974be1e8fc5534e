"""Settings files: TOML, read with the line of each value, written whole or not at all, comments kept."""

from __future__ import annotations

import difflib
import os
import re
import tomllib
from pathlib import Path
from typing import Any

from notesparse.errors import InputError
from notesparse.lazy import dataclass
from notesparse.record.store import load, locked, write_whole
from notesparse.settings.table import BY_NAME, Setting

PROJECT = "notesparse.toml"
USER = "settings.toml"


@dataclass(frozen=True, slots=True)
class Given:
    """A value that a file gives, with its place: `settings.toml:3`."""

    value: Any
    where: str


def user_file() -> str:
    """The user's own settings: NOTESPARSE_CONFIG (a folder, or a file), else the system's place for them."""
    named = os.environ.get("NOTESPARSE_CONFIG")
    if named:
        return named if named.endswith(".toml") else str(Path(named) / USER)
    from platformdirs import user_config_path

    return str(user_config_path("notesparse", appauthor=False) / USER)


def project_file() -> str | None:
    """The project's settings: `notesparse.toml` in the working folder or the nearest folder above it that has one."""
    here = Path(os.getcwd()).resolve()
    return next((str(folder / PROJECT) for folder in (here, *here.parents) if (folder / PROJECT).is_file()), None)


def nearest(name: str, among: tuple[str, ...] = tuple(BY_NAME)) -> str | None:
    """The nearest of some names; None where none is near."""
    found = difflib.get_close_matches(name.replace("-", "_"), among, 1, 0.6)
    return found[0] if found else None


def read_text(path: str, what: str = "list of words") -> str:
    """The text of a file of ours; empty where there is no such file, or nothing in it."""
    return load(path, what).text if os.path.exists(path) and os.path.getsize(path) else ""


def read_settings(path: str) -> dict[tuple[str | None, str], Given]:
    """(scout, name) -> value, scout None for everybody. Raises `InputError` with file, line and what was expected."""
    if not os.path.exists(path):
        return {}
    text = read_text(path, "settings")
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise InputError(f"{path}: is no TOML ({fault}); mend that place.") from None
    out: dict[tuple[str | None, str], Given] = {}
    for name, value in data.items():
        if name == "habits" and isinstance(value, dict):
            for scout, habits in value.items():
                if not isinstance(habits, dict):
                    raise InputError(f"{path}: habits.{scout} should be a table, begun with [habits.{scout}].")
                for habit, said in habits.items():
                    out[scout, habit] = _given(path, text, habit, said, scout)
        else:
            out[None, name] = _given(path, text, name, value, None)
    return out


def _given(path: str, text: str, name: str, value: Any, scout: str | None) -> Given:
    where = f"{path}:{_line(text, name, scout)}"
    known = BY_NAME.get(name)
    if known is None or (scout is not None and not known.habit):
        near = nearest(name)
        raise InputError(f"{where}: there is no setting {name!r}" + (f"; did you mean {near}?" if near else "."))
    try:
        return Given(known.read(value), where)
    except ValueError:
        raise InputError(f"{where}: {name} is {value!r}, and should be {known.may_be}.") from None


def _line(text: str, name: str, scout: str | None) -> int:
    """The line that sets a name, under the heading of its scout."""
    inside = None
    for number, line in enumerate(text.splitlines(), 1):
        heading = re.match(r"\s*\[\s*habits\s*\.\s*(.+?)\s*\]", line)
        if heading:
            inside = heading[1].strip("\"'")
        if inside == scout and re.match(rf"\s*[\"']?{re.escape(name)}[\"']?\s*=", line):
            return number
    return 1


def put(path: str, setting: Setting, value: Any, scout: str | None = None) -> None:
    """Sets a value in a file (None: takes it out); all else in the file stays as it is."""
    import tomlkit

    Path(path).parent.mkdir(parents=True, exist_ok=True)
    with locked(path):
        read_settings(path)  # a broken file is told of, not written over
        text = read_text(path, "settings")
        doc: Any = tomlkit.parse(text)
        place = doc
        if scout is not None:
            place = doc.setdefault("habits", tomlkit.table(is_super_table=True))
            place = place.setdefault(scout, tomlkit.table())
        if value is None:
            place.pop(setting.name, None)
        elif scout is None and setting.name not in doc and _first_table(doc) is not None:
            _before_tables(doc, setting.name, value)
        else:
            place[setting.name] = value
        with write_whole(path) as file:
            file.write(tomlkit.dumps(doc))


def _first_table(doc: Any) -> str | None:
    return next((key for key, value in doc.items() if isinstance(value, dict)), None)


def _before_tables(doc: Any, name: str, value: Any) -> None:
    """A value for everybody stands before the tables: behind one it would belong to it."""
    tables = {key: doc.pop(key) for key in [key for key, value in doc.items() if isinstance(value, dict)]}
    doc[name] = value
    for key, table in tables.items():
        doc[key] = table
