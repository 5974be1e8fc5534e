"""Which notes are meant: files, folders, patterns and ``-``, in the order given."""

from __future__ import annotations

import glob
import os
from collections.abc import Sequence
from pathlib import Path

from notesparse.errors import InputError

ENDINGS: tuple[str, ...] = (".txt", ".note", ".md")
"""The file names that count as notes in a folder."""


def gather(
    asked: Sequence[str], endings: tuple[str, ...] = ENDINGS, what: str = "note"
) -> tuple[list[str], list[InputError]]:
    """The notes behind `asked` (or files of another kind: `endings`, `what`), each once, and what could not be found.

    A folder gives its .txt, .note and .md files and those of its subfolders, sorted, hidden ones left out. A pattern
    (``*``, ``?``, ``[...]``) gives the files it fits, sorted, if no file has that very name. ``-`` is standard input.
    """
    found: dict[str, str] = {}
    missing: list[InputError] = []
    for name in asked:
        try:
            paths = _expand(name, missing, endings, what)
        except InputError as fault:
            missing.append(fault)
            continue
        for path in paths:
            found.setdefault(path if path == "-" else os.path.normcase(os.path.abspath(path)), path)
    return list(found.values()), missing


def _expand(name: str, missing: list[InputError], endings: tuple[str, ...], what: str) -> list[str]:
    if name == "-":
        return [name]
    if "\0" in name:
        raise InputError(f"{name!r}: this is no file name.")
    if os.path.isdir(name):
        notes = _folder(name, missing, endings)
        if not notes:
            raise InputError(f"{name}: there is no {what} in this folder; a {what} ends in {', '.join(endings)}.")
        return notes
    if os.path.exists(name):
        return [name]
    if glob.has_magic(name):
        return _pattern(name, missing, endings, what)
    if what == "note" and (" " in name or "\n" in name):  # no file, and it has the look of a note
        raise InputError(
            f'{_short(name)}: there is no such file. To read these words themselves: notesparse explain "..."'
        )
    raise InputError(f"{name}: there is no such file or folder.")


def _folder(name: str, missing: list[InputError], endings: tuple[str, ...]) -> list[str]:
    def closed(fault: OSError) -> None:
        missing.append(InputError(f"{fault.filename}: this folder cannot be opened ({fault.strerror})."))

    notes = []
    for folder, inner, files in os.walk(name, onerror=closed):
        inner[:] = [d for d in inner if not d.startswith(".")]
        notes += [os.path.join(folder, f) for f in files if _fits(f, endings)]
    return sorted(notes)


def _pattern(name: str, missing: list[InputError], endings: tuple[str, ...], what: str) -> list[str]:
    files: list[str] = []
    for path in glob.glob(name, recursive=True):
        files += _folder(path, missing, endings) if os.path.isdir(path) else [path]
    if not files:
        raise InputError(f"{name}: no {what} fits this pattern.")
    return sorted(files)


def _fits(file_name: str, endings: tuple[str, ...]) -> bool:
    return not file_name.startswith(".") and Path(file_name).suffix.lower() in endings


_LONGEST_SHOWN = 40  # characters


def _short(words: str) -> str:
    line = " ".join(words.split())
    return f'"{line}"' if len(line) <= _LONGEST_SHOWN else f'"{line[: _LONGEST_SHOWN - 3]}..."'
