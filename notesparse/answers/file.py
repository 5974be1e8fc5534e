"""Answers files: TOML, one table an answer, written whole or not at all, by several people at once."""

from __future__ import annotations

import os
import tomllib
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

from notesparse.answers.entry import NOT_KNOWN, Entry
from notesparse.errors import InputError
from notesparse.record.store import load, locked, write_whole

ENDING = ".answers.toml"
OF_FOLDER = "answers.toml"
FORM = 1

_HEAD = """\
# Answers of the person who saw the plants. notesparse reads this file beside the notes, which it never changes.
# Each table is one answer; it may be edited, or taken out to be asked again. "not known" leaves a value open.
"""
_TEXTS = {
    "answer": ("note", "sha256", "rule", "line", "words", "asked"),
    "value": ("note", "sha256"),
}
_OPTIONAL = {
    "answer": {"plant": str, "number": int, "nth": int, "answer": str},
    "value": {"plant": str, "stop": str, "visit": int, "field": str},
}


def beside(note: str) -> list[str]:
    """The answers files that a note has: its own, and that of its folder. Its own is the first, there or not."""
    path = Path(note)
    stem = path.name[: -len(path.suffix)] if path.suffix else path.name
    return [str(path.with_name(stem + ENDING)), str(path.with_name(OF_FOLDER))]


def place_for(note: str) -> str:
    """The file that a new answer goes to: that of the folder where there is one and none of the note's own."""
    own, folder = beside(note)
    return folder if os.path.exists(folder) and not os.path.exists(own) else own


def entries_beside(note: str) -> list[Entry]:
    """All that is kept for a note, and perhaps for others, in the files beside it."""
    return [entry for path in beside(note) if os.path.exists(path) for entry in read_entries(path)]


def read_entries(path: str) -> list[Entry]:
    """The entries of a file; none where there is no such file. Raises `InputError` with file and line."""
    if not os.path.exists(path):
        return []
    text = load(path, "list of answers").text if os.path.getsize(path) else ""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise InputError(f"{path}: is no TOML ({fault}); mend that place, or take the file away.") from None
    if data.get("form", FORM) != FORM:
        raise InputError(f"{path}: is of form {data['form']!r}, and this version knows form {FORM} only.")
    if odd := sorted(set(data) - {"form", "answer", "value"}):
        raise InputError(f"{path}: {odd[0]!r} means nothing here; there are [[answer]] and [[value]].")
    out: list[Entry] = []
    for kind in ("answer", "value"):
        tables = data.get(kind, [])
        if not isinstance(tables, list):
            raise InputError(f"{path}: {kind} must be a list of tables, each begun with [[{kind}]].")
        lines = _headings(text, kind)
        for at, table in enumerate(tables):
            out.append(_entry(kind, table, f"{path}:{lines[at] if at < len(lines) else 1}"))
    return out


def _headings(text: str, kind: str) -> list[int]:
    return [n for n, line in enumerate(text.splitlines(), 1) if line.split("#")[0].strip() == f"[[{kind}]]"]


def _entry(kind: str, table: Any, where: str) -> Entry:
    if not isinstance(table, dict):
        raise InputError(f"{where}: expected a table here.")
    sets = table.get("sets")
    if not isinstance(sets, dict) or (not sets and kind == "value"):
        raise InputError(f"{where}: `sets` is missing: what the answer sets, as sets = {{ trifoliates = 11 }}.")
    if kind == "value" and len(sets) != 1:
        raise InputError(f"{where}: a value set by hand sets one thing, and this sets {len(sets)}.")
    for name in _TEXTS[kind]:
        if not isinstance(table.get(name), str):
            raise InputError(f"{where}: {name!r} is missing, or is no text.")
    known = {"sets", "was", *_TEXTS[kind], *_OPTIONAL[kind]}
    if odd := sorted(set(table) - known):
        raise InputError(f"{where}: {odd[0]!r} means nothing in an {kind}; known are {', '.join(sorted(known))}.")
    for name, sort in _OPTIONAL[kind].items():
        if name in table and (not isinstance(table[name], sort) or isinstance(table[name], bool)):
            raise InputError(f"{where}: {name!r} should be {'a text' if sort is str else 'a whole number'}.")
    values = {key: _open(value) for key, value in sets.items()}
    if kind == "value":
        return Entry(
            kind,
            table["note"],
            table["sha256"],
            values,
            table.get("plant"),
            visit=table.get("visit", 1),
            field_name=table.get("field"),
            stop=table.get("stop"),
            was=_open(table.get("was")),
            where=where,
        )
    return Entry(
        kind,
        table["note"],
        table["sha256"],
        values,
        table.get("plant"),
        rule=table["rule"],
        line=table["line"],
        number=table.get("number", 0),
        words=table["words"],
        nth=table.get("nth", 1),
        asked=table["asked"],
        reading=table.get("answer"),
        where=where,
    )


def _open(value: Any) -> Any:
    return None if value == NOT_KNOWN else value


def _shut(value: Any) -> Any:
    return NOT_KNOWN if value is None else value


def change(path: str, add: Sequence[Entry] = (), take_out: Iterable[Entry] = ()) -> list[Entry]:
    """Adds and takes out entries; what another person has put there meanwhile stays. Gives what was really taken out.

    Comments and the order of the file stay as they are.
    """
    gone: list[Entry] = []
    with locked(path):
        before = read_entries(path)
        wanted = list(take_out)

        def keeps(entry: Entry) -> bool:
            if entry in wanted:
                gone.append(entry)
                return entry in add  # replaced by itself: it stays where it is
            return True

        new = [entry for entry in add if entry not in before]
        if new or any(entry in wanted for entry in before):
            _write(path, keeps, new)
    return gone


def _write(path: str, keeps: Callable[[Entry], bool], new: Sequence[Entry]) -> None:
    import tomlkit

    text = load(path, "list of answers").text if os.path.exists(path) and os.path.getsize(path) else _HEAD
    doc = tomlkit.parse(text)
    doc.setdefault("form", FORM)
    for kind in ("answer", "value"):
        tables = doc.get(kind)
        if tables is not None:
            for at in reversed(range(len(tables))):
                if not keeps(_entry(kind, tables[at].unwrap(), path)):
                    del tables[at]
            if not len(tables):
                del doc[kind]
        for entry in (e for e in new if e.kind == kind):
            if kind not in doc:
                doc[kind] = tomlkit.aot()
            doc[kind].append(_table(entry))
    with write_whole(path) as file:
        file.write(tomlkit.dumps(doc))


def _table(e: Entry) -> Any:
    import tomlkit

    table = tomlkit.table()
    table.trivia.indent = "\n"
    told: dict[str, Any] = {"note": e.note, "sha256": e.sha256}
    if e.kind == "answer":
        told |= {"number": e.number, "line": e.line, "words": e.words}
        told |= {"nth": e.nth} if e.nth != 1 else {}
        told |= {"plant": e.plant} if e.plant is not None else {}
        told |= {"rule": e.rule, "asked": e.asked}
        told |= {"answer": e.reading} if e.reading is not None else {}
    else:
        told |= {"visit": e.visit}
        told |= {"field": e.field_name} if e.field_name is not None else {}
        told |= {"plant": e.plant} if e.plant is not None else {}
        told |= {"stop": e.stop} if e.stop is not None else {}
        told |= {"was": _shut(e.was)}
    for key, value in told.items():
        table.add(key, value)
    sets = tomlkit.inline_table()
    for key, value in e.values.items():
        sets.append(key, _shut(value))
    table.add("sets", sets)
    return table
