"""A log of a few made-up notes."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable

import pytest

from notesparse.season.keep import keep
from tests.season.made import outcome


@pytest.fixture
def kept(log: sqlite3.Connection) -> Callable[..., sqlite3.Connection]:
    """``kept("Low Ladder 7/1 p1 V6", ...)``: a log of these notes."""

    def go(*texts: str) -> sqlite3.Connection:
        for n, text in enumerate(texts):
            keep(log, outcome(text, f"{n}.txt", "2026-10-30"), "test")  # typed up at the end of the season
        return log

    return go
