"""The fixed top level, what may lie in `grammar/` and `demo_notes/`, and words that must not stand in the project."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "notesparse", "grammar", "tests", "demo_notes"}
MADE = re.compile(r"\..*|venv|build|dist|__pycache__|.*\.egg-info")  # left by tools, and not kept

MACHINE_PATH = re.compile(r"(?<![\w.<~/])/(?:home|root|work|tmp|Users|mnt|var|opt|srv)/\w|\b[A-Z]:\\\w")
LOCAL_HOST = re.compile(
    r"https?://(?!127\.0\.0\.1|192\.0\.2\.)(?:\d|localhost|[\w-]+(?:[:/]|$))"
)  # but loopback, RFC 5737
VAGUE_NAMES = {"utils", "util", "helpers", "helper", "common", "misc"}


def kept_files() -> list[Path]:
    """Every file of the project that a person wrote, with the dot files."""
    tops = [ROOT / name for name in sorted(TOP)] + [ROOT / ".ci", ROOT / ".gitignore"]
    files = [f for top in tops for f in ([top] if top.is_file() else sorted(top.rglob("*"))) if f.is_file()]
    files = [
        f for f in files if f.suffix != ".png" and not f.name.endswith(".min.js")
    ]  # made, or as they were published
    return [f for f in files if not any(MADE.fullmatch(part) for part in f.relative_to(ROOT).parts[1:])]


def test_only_the_fixed_names_stand_at_the_top() -> None:
    assert {path.name for path in ROOT.iterdir() if not MADE.fullmatch(path.name)} == TOP


def test_grammar_holds_no_code() -> None:
    """A .py file there would make an editable install impossible (see pyproject.toml)."""
    suffixes = {path.suffix for path in (ROOT / "grammar").rglob("*") if path.is_file()}
    assert suffixes <= {".lark", ".toml", ".md"}
    assert {".lark", ".toml"} <= suffixes


def test_no_module_has_a_vague_name() -> None:
    assert [path for path in (ROOT / "notesparse").rglob("*.py") if path.stem in VAGUE_NAMES] == []


def test_no_path_or_host_of_one_machine() -> None:
    found = []
    for path in kept_files():
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            if MACHINE_PATH.search(line) or LOCAL_HOST.search(line):
                found.append(f"{path.relative_to(ROOT)}:{number}: {line.strip()[:100]}")
    assert found == []


@pytest.mark.parametrize("path", [("home", "ann", "notes"), ("tmp", "x"), ("Users", "ann")])
def test_a_machine_path_is_seen(path: tuple[str, ...]) -> None:
    assert MACHINE_PATH.search("see /" + "/".join(path))


def test_a_local_host_is_seen() -> None:
    assert LOCAL_HOST.search("http" + "://localhost:8080/x")
    assert LOCAL_HOST.search("http" + "://10.0.0.7/x")
    assert not LOCAL_HOST.search("http" + "://127.0.0.1:8765/")
    assert not LOCAL_HOST.search("https" + "://www.iana.org/x")


def test_demo_notes_are_dated_notes_of_one_season() -> None:
    notes = sorted((ROOT / "demo_notes").iterdir())
    assert len(notes) >= 18
    assert len({note.read_bytes() for note in notes}) == len(notes)
    for note in notes:
        name = re.fullmatch(r"(\d{4}-\d\d-\d\d)_[a-z-]+\.txt", note.name)
        assert name, note.name
        assert date.fromisoformat(name[1]).year == 2026
        assert note.read_text(encoding="utf-8").strip()
