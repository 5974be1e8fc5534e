"""Where `grammar/` is: beside the package in a checkout, inside it in a wheel."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import Any


def grammar_folder() -> Any:
    """The folder that holds the `.lark` parts and `words/` (a path, or a resource inside a zipped wheel)."""
    inside = files("notesparse") / "grammar"
    if inside.is_dir():
        return inside
    return Path(__file__).resolve().parents[2] / "grammar"
