"""What all tests share: the one date they know, `--update`, and a repeatable hypothesis."""

from __future__ import annotations

import os
import shutil
import sqlite3
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

NOTE_DATE = "2026-07-14"
"""The date of every note that a test makes up; nothing in the project asks what day it is."""

settings.register_profile("steady", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update",
        action="store_true",
        help="write what the program gives now into the kept outputs; read the difference before you commit it",
    )


@pytest.fixture(autouse=True)
def nobodys_settings(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """No test reads or writes the settings, the taught words or the environment of whoever runs it."""
    for name in [name for name in os.environ if name.startswith("NOTESPARSE_") and name != "NOTESPARSE_NO_CACHE"]:
        monkeypatch.delenv(name)
    monkeypatch.setenv("NOTESPARSE_CONFIG", str(tmp_path_factory.mktemp("config")))


@pytest.fixture
def note_date() -> str:
    """ISO date of a made-up note."""
    return NOTE_DATE


@pytest.fixture
def update(request: pytest.FixtureRequest) -> bool:
    """Whether kept outputs are to be rewritten."""
    return bool(request.config.getoption("--update"))


@pytest.fixture
def log(tmp_path: Path) -> sqlite3.Connection:
    """An empty season log."""
    from notesparse.season.log import connect

    return connect(str(tmp_path / "season.db"), create=True)


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The log of the demo season, made once."""
    from notesparse.flow import read
    from notesparse.record.store import load
    from notesparse.season.keep import keep_all
    from notesparse.season.log import connect

    path = tmp_path_factory.mktemp("season") / "season-2026.db"
    made = connect(str(path), create=True)
    notes = [load(str(f)) for f in sorted((Path(__file__).resolve().parents[1] / "demo_notes").iterdir())]
    outcomes = (read(n.text, source=Path(n.source).name, sha256=n.sha256, date=n.date) for n in notes)
    assert {k.how for k in keep_all(made, outcomes, "test", at_once=10)} == {"added"}
    made.close()
    return path


@pytest.fixture
def demo(demo_file: Path, tmp_path: Path) -> sqlite3.Connection:
    """The demo season, to be changed at will."""
    from notesparse.season.log import connect

    return connect(shutil.copy(demo_file, tmp_path / "demo.db"))
