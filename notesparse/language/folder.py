"""Where `grammar/` is: beside the package in a checkout, inside it in a wheel."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any


def grammar_folder() -> Any:
    """The folder that holds the `.lark` parts and `words/` (a path, or a resource inside a zipped wheel)."""
    package = Path(__file__).resolve().parents[1]
    for grammar in (package / "grammar", package.parent / "grammar"):
        if grammar.is_dir():
            return grammar
    from importlib.resources import files

    return files("notesparse") / "grammar"


def cue_files() -> Iterator[tuple[str, Any]]:
    """The pages of `grammar/cues` by name, `walking/claims` or `shared`, in order."""
    top = grammar_folder() / "cues"
    if not top.is_dir():
        return iter(())
    return iter(sorted(_pages(top, ""), key=lambda page: page[0]))


def _pages(room: Any, before: str) -> Iterator[tuple[str, Any]]:
    """The pages of one folder and of the folders in it."""
    for found in room.iterdir():
        if found.is_dir():
            yield from _pages(found, f"{before}{found.name}/")
        elif found.name.endswith(".toml"):
            yield before + found.name.removesuffix(".toml"), found
