"""Names of our own modules."""

from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
FILES = sorted((ROOT / "notesparse").rglob("*.py"))


def named(tree: ast.Module) -> list[str]:
    """What a module names at its top level, once for each time."""
    out: list[str] = []
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            out.append(node.name)
        targets = node.targets if isinstance(node, ast.Assign) else []
        out += [t.id for t in targets if isinstance(t, ast.Name)]
    return out


@pytest.mark.parametrize("file", FILES, ids=lambda f: str(f.relative_to(ROOT)))
def test_no_name_is_given_twice_in_a_module(file: Path) -> None:
    """A second list of words under the name of a first would change the rule that uses the first, with no error."""
    twice = [name for name, n in Counter(named(ast.parse(file.read_text(encoding="utf-8")))).items() if n > 1]
    assert twice == []
