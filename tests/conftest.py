"""What all tests share: the one date they know, `--update`, and a repeatable hypothesis."""

from __future__ import annotations

import os

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
