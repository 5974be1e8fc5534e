"""A desk with a few invented notes, and two ways to run the program: in this process, and as a program of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from notesparse.cli.app import app

ROOT = Path(__file__).resolve().parents[2]

CLEAR = "Creek bottom\nplant 1 nine trifs, flowers top two nodes\nplant 2 ten trifs, flowers third node down\n"
ASKS = "West 40\nplant 1 ten or eleven trifs\n"

Run = Callable[..., Result]
Program = Callable[..., "subprocess.CompletedProcess[bytes]"]


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Two notes and a table in the working folder; no setting of the surroundings that could change a test."""
    for name in ("NO_COLOR", "FORCE_COLOR", "TERM", "COLUMNS"):
        monkeypatch.delenv(name, raising=False)
    notes = {"2026-07-14_creek.txt": CLEAR, "2026-07-15_west.txt": ASKS}
    for name, text in notes.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    (tmp_path / "facts.csv").write_text("plant,trifoliates,flowers_from_top\n1,11,1;2\n2,12,3\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def run(desk: Path) -> Run:
    """``run("read", "x.txt", input=...)`` through the runner; standard output and standard error are kept apart."""

    def go(*words: str, **keywords: object) -> Result:
        return CliRunner().invoke(app, list(words), **keywords)  # type: ignore[arg-type]

    return go


def surroundings(**more: str) -> dict[str, str]:
    """A clean environment for a program of its own."""
    kept = {
        name: os.environ[name]
        for name in ("PATH", "SYSTEMROOT", "HOME", "TMPDIR", "NOTESPARSE_CONFIG")
        if name in os.environ
    }
    return kept | {"PYTHONPATH": str(ROOT)} | more


@pytest.fixture
def program(desk: Path) -> Program:
    """The program as a process, its output as bytes."""

    def go(*words: str, env: dict[str, str] | None = None, **keywords: object) -> subprocess.CompletedProcess[bytes]:
        return subprocess.run(  # type: ignore[call-overload,no-any-return]
            [sys.executable, "-X", "warn_default_encoding", "-W", "error::EncodingWarning", "-m", "notesparse", *words],
            cwd=desk,
            env=surroundings(**(env or {})),
            capture_output=True,
            check=False,
            **({"stdin": subprocess.DEVNULL} | keywords if "input" not in keywords else keywords),
        )

    return go
