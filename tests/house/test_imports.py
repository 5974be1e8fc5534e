"""The architecture as one table: which room may import which. No clock, no network, no stray print."""

from __future__ import annotations

import ast
import importlib
import subprocess
import sys
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "notesparse"
FILES = sorted(path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py"))

# Room (a folder, or a module at the top of the package) -> the rooms whose modules it may import when it is loaded.
MAY_IMPORT: dict[str, set[str]] = {
    "lazy": set(),
    "errors": set(),
    "span": set(),
    "facts": {"lazy"},
    "options": {"lazy"},
    "outcome": {"lazy", "facts", "span"},
    "staging": {"lazy", "facts", "errors"},
    "language": {"lazy", "errors", "span"},
    "text": {"lazy", "language", "span", "outcome", "errors"},
    "spoken": {"lazy", "language", "text", "errors"},
    "reading": {"lazy", "text", "language", "span", "outcome", "errors", "facts"},
    "observing": {"lazy", "reading", "text", "staging", "language", "outcome", "facts", "span"},
    "asking": {"lazy", "staging", "language", "facts", "outcome", "span"},
    "doubts": {"lazy", "observing", "outcome", "facts", "span"},
    "concluding": {"observing", "asking", "doubts", "outcome", "options", "facts", "span"},
    "flow": {
        "text", "reading", "observing", "concluding", "doubts", "language", "outcome", "options", "span",
    },
    "api": {"flow", "outcome", "options", "errors"},
    "typed": {"lazy", "language", "outcome", "span", "errors"},
    "record": {"lazy", "typed", "outcome", "facts", "span", "errors", "staging"},
    "answers": {"lazy", "__init__", "flow", "asking", "record", "outcome", "options", "span", "errors"},
    "settings": {"lazy", "options", "record", "errors"},
    "season": {"lazy", "record", "staging", "outcome", "errors"},
    "exports": {"lazy", "season", "record", "staging", "errors"},
    "confirming": {"lazy", "answers", "record", "outcome", "options", "span"},
    "views": {"lazy", "record", "staging", "season", "outcome", "facts", "span", "errors"},
    "listening": {"lazy", "spoken", "language", "record", "outcome", "span", "errors"},
    "web": {
        "lazy",
        "answers", "asking", "confirming", "season", "record", "views", "staging", "spoken", "language", "outcome", "options",
        "span", "errors", "__init__",
    },
    "cli": {
        "lazy",
        "web", "listening", "spoken",
        "__init__", "api", "flow", "text", "record", "answers", "confirming", "settings", "season", "exports", "views", "staging",
        "asking",
        "language", "outcome", "options", "facts", "span", "errors",
    },
    "__init__": set(),
    "__main__": {"cli"},
}  # fmt: skip

# Imports inside a function: a convenience of the nouns that reaches further down the stream, on first use only.
LATE: dict[str, set[str]] = {
    "__init__": {"api", "errors", "facts", "options", "outcome", "record", "span"},
    "outcome": {"record"},
}

# Third-party library -> the files (or folders) that are its only doors.
DOORS: dict[str, tuple[str, ...]] = {
    "lark": ("language/grammar.py",),
    "rapidfuzz": ("text/match.py", "season/fieldnames.py"),
    "word2number": ("text/numbers.py",),
    "pandas": ("record/",),
    "typer": ("cli/",),
    "tomlkit": ("answers/file.py", "settings/file.py", "language/taught.py"),
    "filelock": ("record/store.py",),
    "platformdirs": ("settings/file.py",),
    "matplotlib": ("views/season_chart.py",),
    "starlette": ("web/",),
    "uvicorn": ("web/serve.py",),
    "segno": ("web/serve.py",),
    "jinja2": ("views/report.py",),
    "markupsafe": ("views/report.py",),
    "weasyprint": ("cli/report.py",),
    "xlsxwriter": ("exports/binary.py",),
    "pyarrow": ("exports/binary.py",),
    "pytesseract": ("typed/recognise.py",),
    "PIL": ("typed/",),
    "numpy": ("typed/", "listening/"),
    "scipy": ("typed/",),
    "pocketsphinx": ("listening/", "spoken/pronouncing.py"),
    "faster_whisper": ("listening/",),
    "av": ("listening/audio.py",),
    "sounddevice": ("listening/microphone.py",),
}

NO_CLOCK = {"time"}
NO_CHANCE = {"random", "secrets", "uuid"}
NO_NETWORK = {"socket", "ssl", "http", "urllib", "ftplib", "smtplib", "asyncio", "webbrowser", "xmlrpc"}
CLOCK_CALLS = {"today", "now", "utcnow"}
SERVED = {
    "web/serve.py": {"secrets", "socket", "webbrowser"}
}  # the one file that opens a port, and makes a secret address


def room_of(file: str) -> str:
    """``staging/scale.py`` is in ``staging``; ``flow.py`` is a room of its own."""
    return file.split("/")[0].removesuffix(".py")


def imported(tree: ast.AST) -> Iterator[tuple[str, bool]]:
    """Every imported module as a dotted name, and whether the import waits inside a function (or is for types only)."""

    def walk(node: ast.AST, late: bool) -> Iterator[tuple[str, bool]]:
        for child in ast.iter_child_nodes(node):
            if isinstance(child, ast.Import):
                for alias in child.names:
                    yield alias.name, late
            elif isinstance(child, ast.ImportFrom):
                base = "." * child.level + (child.module or "")
                if base == "notesparse":
                    for alias in child.names:
                        yield f"notesparse.{alias.name}", late
                else:
                    yield base, late
            types_only = isinstance(child, ast.If) and "TYPE_CHECKING" in ast.dump(child.test)
            inside = isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef)
            yield from walk(child, late or inside or types_only)

    yield from walk(tree, False)


def finished_at_the_start(node: ast.AST) -> bool:
    """A standard class of named values, or a pattern."""
    if isinstance(node, ast.ImportFrom):
        return node.module == "dataclasses" and any(alias.name == "dataclass" for alias in node.names)
    return isinstance(node, ast.Attribute) and ast.unparse(node) in {"re.compile", "dataclasses.dataclass"}


def breaches(file: str, source: str) -> list[str]:
    """What `source`, standing in `file`, does against the tables above."""
    room, tree, found = room_of(file), ast.parse(source), []
    for name, late in imported(tree):
        top, *below = name.split(".")
        if name.startswith("."):
            found.append(f"{file} imports relatively ({name}); say where from in full")
        elif top == "notesparse":
            target = below[0] if below and not below[0].startswith("__") else "__init__"  # notesparse.__version__
            allowed = MAY_IMPORT[room] | (LATE.get(room, set()) if late else set())
            if target != room and target not in allowed:
                found.append(f"{file} imports {name}, which {room} may not")
        elif top in (NO_CLOCK | NO_CHANCE | NO_NETWORK) - SERVED.get(file, set()):
            found.append(f"{file} imports {top}: no clock, no chance, no network")
        elif top not in sys.stdlib_module_names:
            doors = DOORS.get(top, ())
            if not any(file == door or (door.endswith("/") and file.startswith(door)) for door in doors):
                found.append(f"{file} imports {top}, whose only doors are {doors}")
    for node in ast.walk(tree):
        if room != "lazy" and finished_at_the_start(node):
            found.append(f"{file} makes at the start what notesparse.lazy makes on its first use")
        if isinstance(node, ast.Attribute) and node.attr in CLOCK_CALLS:
            found.append(f"{file}:{node.lineno} asks the clock (.{node.attr})")
        if room != "cli" and isinstance(node, ast.Call):
            called = ast.unparse(node.func)
            if called in {"print", "input", "sys.exit", "exit", "sys.stdout.write", "sys.stderr.write"}:
                found.append(f"{file}:{node.lineno} calls {called}; only cli speaks and leaves")
    return found


@pytest.mark.parametrize("file", FILES)
def test_file_keeps_to_its_room(file: str) -> None:
    assert room_of(file) in MAY_IMPORT, f"{file} is in no room of the table"
    assert breaches(file, (PACKAGE / file).read_text(encoding="utf-8")) == []


def test_every_room_of_the_table_stands() -> None:
    assert set(MAY_IMPORT) == {room_of(file) for file in FILES}


def test_the_flow_is_one_way() -> None:
    order = list(TopologicalSorter(MAY_IMPORT).static_order())  # raises CycleError
    assert order.index("text") < order.index("reading") < order.index("observing") < order.index("flow")


def test_the_package_and_staging_load_without_any_library() -> None:
    said = subprocess.run(
        [sys.executable, "-c", "import sys, notesparse, notesparse.staging; print(*sys.modules)"],
        cwd=ROOT, capture_output=True, text=True, check=True,
    ).stdout.split()  # fmt: skip
    assert "notesparse.staging" in said
    assert not {name.split(".")[0] for name in said} & set(DOORS)


@pytest.mark.parametrize(
    ("file", "source"),
    [
        ("staging/scale.py", "from notesparse.reading import parse"),
        ("staging/scale.py", "from notesparse import text"),
        ("staging/scale.py", "from . import limits"),
        ("outcome.py", "from notesparse.record.lines import to_line"),
        ("text/scan.py", "def f():\n    from notesparse.observing.walking.walk import walk"),
        ("text/scan.py", "import rapidfuzz"),
        ("views/table.py", "import pandas"),
        ("record/table.py", "import yaml"),
        ("observing/dates.py", "import datetime\nday = datetime.date.today()"),
        ("observing/dates.py", "from datetime import datetime\nf = datetime.now"),
        ("text/scan.py", "import re\n_WORD = re.compile('a')"),
        ("text/scan.py", "from dataclasses import dataclass, field"),
        ("cli/app.py", "import time"),
        ("cli/app.py", "import urllib.request"),
        ("views/table.py", "print('x')"),
        ("flow.py", "import sys\nsys.exit(1)"),
    ],
)
def test_a_breach_is_seen(file: str, source: str) -> None:
    assert len(breaches(file, source)) == 1


@pytest.mark.parametrize(
    ("file", "source"),
    [
        ("outcome.py", "def f():\n    from notesparse.record.lines import to_line"),
        ("text/match.py", "def f():\n    from rapidfuzz.distance import OSA"),
        ("record/table.py", "import pandas"),
        ("cli/read.py", "print('x')"),
        ("staging/scale.py", "from notesparse.staging.limits import LIMITS\nfrom notesparse.facts import Stage"),
    ],
)
def test_what_is_allowed_is_no_breach(file: str, source: str) -> None:
    assert breaches(file, source) == []


@pytest.mark.parametrize("path", sorted((ROOT / "tests" / "bench").glob("*.py")), ids=lambda p: p.name)
def test_every_benchmark_can_be_imported(path: Path) -> None:
    """No test runs the benchmarks, so what breaks one is seen here."""
    if not path.stem.startswith(("__init__", "test_")):
        importlib.import_module(f"tests.bench.{path.stem}")
