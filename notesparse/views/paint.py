"""Colour is an addition: a view hands each piece of text with its part to a `Paint`, and reads as well without one."""

from __future__ import annotations

from collections.abc import Callable

Paint = Callable[[str, str], str]
"""``paint(part, text)``: the text, coloured or not. Parts: title, stage, read, asked, unread, taken-back, quiet."""


def plain(part: str, text: str) -> str:
    """No colour at all."""
    return text
