"""What was heard as files: the note `NAME.txt` and beside it `NAME.heard.json`, from which reading goes on."""

from __future__ import annotations

import hashlib
import json
import os
from pathlib import Path
from typing import Any

from notesparse.errors import InputError
from notesparse.listening.note import Heard
from notesparse.record.store import NoteFile, date_in_name, write_whole

BESIDE = ".heard.json"


def note_file(heard: Heard, source: str) -> NoteFile:
    """The note as the reader wants it. Its hash is that of the bytes that `keep` writes."""
    digest = hashlib.sha256(heard.text.encode("utf-8")).hexdigest()
    return NoteFile(heard.text, source, digest, date_in_name(heard.recording.name))


def lying_beside(heard: Heard, note: NoteFile) -> dict[str, Any]:
    """What lies beside the note; with its name, its hash and the text, so that doubts are found again in a note
    that is changed later."""
    return {"note": Path(note.source).name, "note_sha256": note.sha256, **heard.as_dict(), "text": heard.text}


def keep(heard: Heard, folder: str, force: bool) -> NoteFile:
    """Writes both files into `folder`, whole or not at all. Raises `InputError` where another note has that name."""
    path = Path(folder) / (Path(heard.recording.name).stem + ".txt")
    if path.exists() and not force and _text_of(path) != heard.text:
        raise InputError(f"{path}: is there already, and is another note; move it away, or --force to replace it.")
    note = note_file(heard, os.fspath(path))
    beside = lying_beside(heard, note)
    with write_whole(os.fspath(path.with_suffix(BESIDE))) as file, write_whole(os.fspath(path)) as text:
        file.write(json.dumps(beside, ensure_ascii=False, indent=1) + "\n")
        text.write(heard.text)
    return note


def _text_of(path: Path) -> str | None:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return None
