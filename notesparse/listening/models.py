"""Folders that hold a Whisper model for CTranslate2: what must be in one, and getting one where that is asked for."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable
from pathlib import Path

from notesparse.errors import InputError

WANTED = "base"
"""What is fetched: the model that was measured (145 MB); the smaller tiny.en is measurably worse."""

_VOCABULARY = ("vocabulary.json", "vocabulary.txt", "tokenizer.json")

PRINTS = "fetched.json"
"""Beside the files of a model that was fetched: the SHA-256 of each, as it came."""
_READ = (".bin", ".json", ".txt")  # the endings of what the library reads of a folder


def checked(folder: str) -> str:
    """`folder`, if it holds what a model needs, and that as it came where it was fetched; else `InputError` says what
    is missing or changed."""
    path = Path(folder)
    if not path.is_dir():
        raise InputError(f"{folder}: there is no such folder; --model wants the folder of a Whisper model.")
    missing = [name for name in ("model.bin", "config.json") if not (path / name).is_file()]
    if not any((path / name).is_file() for name in _VOCABULARY[:2]):
        missing.append("vocabulary.json (or .txt)")
    if not (path / "tokenizer.json").is_file():  # without it the library would look for one in the network
        missing.append("tokenizer.json")
    if missing:
        raise InputError(
            f"{folder}: is no Whisper model for CTranslate2; it has no {', '.join(missing)}. "
            "Such a folder holds model.bin, config.json, tokenizer.json and a vocabulary."
        )
    if (path / PRINTS).exists():
        _as_fetched(path)
    return folder


def fingerprint(folder: str) -> str:
    """SHA-256 of the weights, so that a record says by which model it was heard."""
    return _print_of(Path(folder) / "model.bin")


def _print_of(path: Path) -> str:
    with open(path, "rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _files(folder: Path) -> list[str]:
    return sorted(f.name for f in folder.iterdir() if f.is_file() and f.suffix in _READ and f.name != PRINTS)


def _write_prints(folder: Path) -> None:
    prints = {name: _print_of(folder / name) for name in _files(folder)}
    text = json.dumps({"model": WANTED, "sha256": prints}, indent=2) + "\n"
    (folder / PRINTS).write_text(text, encoding="utf-8")


def _as_fetched(folder: Path) -> None:
    """Raises `InputError` unless the files are those that were fetched. This finds what was damaged or exchanged by
    mistake; who changes a file and its print beside it is not found out."""
    again = "Take the folder away, and fetch the model again with --fetch-model."
    try:
        prints = json.loads((folder / PRINTS).read_text(encoding="utf-8"))["sha256"]
        wanted = {str(name): str(value) for name, value in prints.items()}
        there = {name: _print_of(folder / name) for name in _files(folder)}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        raise InputError(f"{folder}: {PRINTS} cannot be read, so the model cannot be checked. {again}") from None
    for name in sorted(wanted.keys() | there.keys()):
        if name not in there:
            raise InputError(f"{folder}: {name} was fetched and is gone. {again}")
        if name not in wanted:
            raise InputError(f"{folder}: {name} was not there when the model was fetched. {again}")
        if wanted[name] != there[name]:
            raise InputError(f"{folder}: {name} is not as it was fetched: its SHA-256 is another. {again}")


def fetched_place() -> str:
    """Where a model that was fetched lies, and is found again."""
    from notesparse.language.cache import cache_folder

    return str(cache_folder() / f"whisper-{WANTED}")


def fetch(into: str, load: Callable[[str], object]) -> str:
    """Gets the model from the recogniser library's own source into the folder `into`, whole or not at all: its files
    are there, and `load` can load it. What came is written beside it, file by file (`PRINTS`).
    The one place of the program that reaches out, and only when it is told to."""
    try:
        from faster_whisper import download_model
    except ImportError:
        raise InputError('Models are for faster-whisper: python -m pip install "notesparse[voice]"') from None
    if os.path.isdir(into) and os.listdir(into):
        raise InputError(f"{into}: there is something already; name another folder with --model, or take it away.")
    part = into.rstrip("/\\") + ".part"
    offline = os.environ.pop("HF_HUB_OFFLINE", None)
    try:
        os.makedirs(part, exist_ok=True)  # what an earlier try has got is used again
        download_model(WANTED, output_dir=part)
    except Exception as fault:  # the library, and what it is made of, fail in many ways
        why = (str(fault).strip().splitlines() or [type(fault).__name__])[0]
        raise InputError(f"The model {WANTED} could not be fetched: {why}") from None
    finally:
        if offline is not None:
            os.environ["HF_HUB_OFFLINE"] = offline
    Path(part, PRINTS).unlink(missing_ok=True)
    load(checked(part))
    _write_prints(Path(part))
    if os.path.isdir(into):
        os.rmdir(into)
    os.replace(part, into)
    return into
