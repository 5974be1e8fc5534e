"""The map in DEVELOPERS.md against the tree: every file is on it, and nothing on it is gone."""

from __future__ import annotations

import ast
import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
SUFFIXES = {".py", ".toml", ".json", ".lark", ".typed", ".md", ".sql", ".html", ".css", ".js"}


def chapter(title: str) -> str:
    """The text of one second-level chapter."""
    found = re.search(rf"^## {re.escape(title)}\n(.*?)(?=^## |\Z)", PAGE, re.MULTILINE | re.DOTALL)
    assert found, f"DEVELOPERS.md has no chapter “{title}”"
    return found[1]


def on_the_map() -> set[str]:
    """Paths from the top of the project: a heading of the map is a folder, and each row begins with a file."""
    found, folder = set(), ""
    for line in chapter("The rooms").splitlines():
        if heading := re.match(r"### `([\w/]+/)`", line):
            folder = heading[1]
        elif row := re.match(r"\| `([\w./-]+)` \|", line):
            found.add(folder + row[1])
    return found


def in_the_tree() -> set[str]:
    """What the map has to show: all files of the package and the grammar but empty `__init__.py`, and but the pages of
    `grammar/cues`, which have the names of their modules (test_cues.py)."""
    files = [path for top in ("notesparse", "grammar") for path in (ROOT / top).rglob("*")]
    return {
        path.relative_to(ROOT).as_posix()
        for path in files
        if path.is_file()
        and path.suffix in SUFFIXES
        and not path.is_relative_to(ROOT / "grammar" / "cues")
        and not any(part.startswith((".", "__pycache__")) for part in path.relative_to(ROOT).parts)
        and not (path.name == "__init__.py" and not path.read_bytes())
    }


def test_every_file_is_on_the_map() -> None:
    assert sorted(in_the_tree() - on_the_map()) == []


def test_nothing_on_the_map_is_gone() -> None:
    assert sorted(on_the_map() - in_the_tree()) == []


def test_the_folders_of_the_tests_are_named() -> None:
    tests = [path.relative_to(ROOT / "tests") for path in (ROOT / "tests").rglob("*") if path.is_file()]
    folders = {path.parts[0] for path in tests if len(path.parts) > 1 and "__pycache__" not in path.parts}
    named = set(re.findall(r"^\| `tests/(\w+)/` \|", chapter("The tests"), re.MULTILINE))
    assert named == folders


def _table_in_force() -> dict[str, set[str]]:
    """`MAY_IMPORT` as test_imports.py has it."""
    tree = ast.parse((ROOT / "tests/house/test_imports.py").read_text(encoding="utf-8"))
    values = [
        node.value
        for node in tree.body
        if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name) and node.target.id == "MAY_IMPORT"
    ]
    assert len(values) == 1 and values[0] is not None
    return ast.literal_eval(values[0])


def test_the_import_table_shown_is_the_one_tested() -> None:
    rows = re.findall(r"^\| `(\w+)` \| (.*?) \|$", chapter("Which room may import which"), re.MULTILINE)
    assert {room: set(re.findall(r"`(\w+)`", cell)) for room, cell in rows} == _table_in_force()
