"""Where `grammar/` is: beside the package in a checkout, inside it in a wheel."""

from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import Any


def grammar_folder() -> Any:
    """The folder that holds the `.lark` parts and `words/` (a path, or a resource inside a zipped wheel)."""
    inside = files("notesparse") / "grammar"
    if inside.is_dir():
        return inside
    return Path(__file__).resolve().parents[2] / "grammar"


def cue_files() -> Iterator[tuple[str, Any]]:
    """The pages of `grammar/cues` by name, `walking/claims` or `shared`, in order."""
    top = grammar_folder() / "cues"
    if not top.is_dir():
        return iter(())
    found = [("", top), *((f"{room.name}/", room) for room in top.iterdir() if room.is_dir())]
    pages = [(before + file.name[:-5], file) for before, room in found for file in room.iterdir()]
    return iter(sorted((page for page in pages if page[1].name.endswith(".toml")), key=lambda page: page[0]))
