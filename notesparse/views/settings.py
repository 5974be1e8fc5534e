"""The settings in force, with what each means and where its value comes from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from notesparse.views.cells import WIDTH, safe
from notesparse.views.grid import grid
from notesparse.views.paint import Paint, plain


def settings(rows: Sequence[tuple[str, Any, str, str]], width: int = WIDTH, paint: Paint = plain) -> list[str]:
    """Rows of (name, value, where it comes from, what it means)."""
    cells = [(name, _said(value), safe(where), meaning) for name, value, where, meaning in rows]
    return grid(("setting", "value", "from", "means"), cells, width=width, paint=paint)


def _said(value: Any) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else safe(str(value)) or "-"
