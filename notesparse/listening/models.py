"""Folders that hold a Whisper model for CTranslate2: what must be in one, and getting one where that is asked for."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable
from pathlib import Path

from notesparse.errors import InputError

WANTED = "base.en"
"""What is fetched where no other name is given. 145 MB; the smaller tiny.en is measurably worse."""

_VOCABULARY = ("vocabulary.json", "vocabulary.txt", "tokenizer.json")


def checked(folder: str) -> str:
    """`folder`, if it holds what a model needs; else `InputError` says what is missing."""
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
    return folder


def fingerprint(folder: str) -> str:
    """SHA-256 of the weights, so that a record says by which model it was heard."""
    with open(Path(folder) / "model.bin", "rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def fetch(name: str, into: str, load: Callable[[str], object]) -> str:
    """Gets a model from the recogniser library's own source, and looks whether it is whole: the files are there, and
    `load` can load it. The one place of the program that reaches out, and only when it is told to."""
    try:
        from faster_whisper import download_model
    except ImportError:
        raise InputError('Models are for faster-whisper: python -m pip install "notesparse[voice]"') from None
    offline = os.environ.pop("HF_HUB_OFFLINE", None)
    try:
        download_model(name, output_dir=into)
    except Exception as fault:
        why = (str(fault).strip().splitlines() or [type(fault).__name__])[0]
        raise InputError(f"The model {name} could not be fetched: {why}") from None
    finally:
        if offline is not None:
            os.environ["HF_HUB_OFFLINE"] = offline
    load(checked(into))
    return into
