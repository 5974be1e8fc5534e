"""The program as a process of its own: streams, pipes, encodings of the surroundings, what it loads."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.cli.conftest import CLEAR, Program, surroundings

READ = [sys.executable, "-m", "notesparse", "read"]


def test_data_on_standard_output_and_nothing_else(program: Program) -> None:
    done = program("read", "--json", "2026-07-14_creek.txt", "gone.txt")
    assert done.returncode == 1
    assert json.loads(done.stdout)["note_date"] == "2026-07-14"
    assert done.stderr == b"gone.txt: there is no such file or folder.\n"


@pytest.mark.parametrize(
    "env", [{"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}, {"PYTHONIOENCODING": "cp1252"}]
)
def test_no_terminal_is_too_plain(env: dict[str, str], program: Program, desk: Path) -> None:
    (desk / "odd.txt").write_text("plant 1 nine trifs, ½ in, \u8c46 \U0001f331", encoding="utf-8")
    done = program("read", "odd.txt", env=env)
    assert done.returncode == 0, done.stderr
    assert b"\\u8c46" in done.stdout  # what cannot be shown is spelt out
    assert program("read", "--json", "odd.txt", env=env).stdout.isascii()


def test_line_ends_are_those_of_every_system(program: Program) -> None:
    for words in (["--csv"], ["--json"], []):
        assert b"\r" not in program("read", *words, "2026-07-14_creek.txt").stdout


def test_a_closed_pipe_is_met_quietly(desk: Path) -> None:
    for n in range(400):
        (desk / f"n{n:03}.txt").write_text(CLEAR * 3, encoding="utf-8")
    with subprocess.Popen(
        [*READ, "--json", "."], cwd=desk, env=surroundings(), stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None and process.stderr is not None
        assert process.stdout.readline().startswith(b"{")
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait(60) == 1


@pytest.mark.skipif(os.name == "nt", reason="signals of another kind")
@pytest.mark.parametrize("jobs", ["1", "2"])
def test_ctrl_c_leaves_at_once_and_leaves_no_half_file(jobs: str, desk: Path, request: pytest.FixtureRequest) -> None:
    before = signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell starts its background jobs deaf to it
    request.addfinalizer(lambda: signal.signal(signal.SIGINT, before))
    for n in range(3000):
        (desk / f"n{n:04}.txt").write_text(CLEAR * 5, encoding="utf-8")
    with subprocess.Popen(
        [*READ, "--json", "-o", "out.json", "--jobs", jobs, "."], cwd=desk, env=surroundings(), stderr=subprocess.PIPE
    ) as process:
        parts: list[Path] = []
        while not parts and process.poll() is None:
            time.sleep(0.02)
            parts = list(desk.glob(".out.json.*.part"))
        time.sleep(0.3)
        process.send_signal(signal.SIGINT)
        assert process.stderr is not None
        told = process.stderr.read()
        # an interpreter that was stopped inside a piece of code of its own (a dataclass being made) ends by the signal
        # itself, for which a shell shows 130 too
        assert process.wait(60) in {130, -signal.SIGINT}, told
    assert b"Stopped" in told
    assert b"Traceback" not in told
    assert not (desk / "out.json").exists()
    assert list(desk.glob(".out.json.*")) == []


def test_reading_one_note_loads_nothing_that_is_slow(desk: Path) -> None:
    code = (
        "import sys\n"
        "sys.argv = ['notesparse', 'read', '--json', '2026-07-14_creek.txt']\n"
        "from notesparse.cli.app import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "print(*sorted({name.split('.')[0] for name in sys.modules}), file=sys.stderr)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=desk, env=surroundings(), capture_output=True, encoding="utf-8", check=True
    )
    loaded = set(done.stderr.split())
    assert "notesparse" in loaded
    assert not loaded & {"pandas", "numpy", "rich", "pydantic", "concurrent", "jsonschema", "scipy"}


def test_help_loads_no_grammar(desk: Path) -> None:
    code = "import sys, notesparse.cli.app; print(*sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=desk, env=surroundings(), capture_output=True, encoding="utf-8", check=True
    )
    assert not set(done.stdout.split()) & {"lark", "rapidfuzz", "pandas", "notesparse.flow", "notesparse.views"}


@pytest.mark.skipif(os.name == "nt", reason="a terminal of another kind")
def test_at_a_terminal_read_alone_shows_help_and_does_not_wait(desk: Path) -> None:
    import pty

    ours, theirs = pty.openpty()
    try:
        done = subprocess.run(
            READ, cwd=desk, env=surroundings(), stdin=theirs, capture_output=True, timeout=60, check=False
        )
    finally:
        os.close(ours)
        os.close(theirs)
    assert done.returncode == 2
    assert b"Usage:" in done.stderr


def test_the_program_from_python() -> None:
    import datetime

    import notesparse

    by_text = notesparse.read(CLEAR, date="2026-07-14")
    by_date = notesparse.read(CLEAR, date=datetime.date(2026, 7, 14))
    assert by_text.to_json() == by_date.to_json()
    assert by_text.note.date == "2026-07-14"
    assert notesparse.read(CLEAR, counting_rule="open-nodes").visits[0].plants[0].v.stage == "V10"
    with pytest.raises(notesparse.InputError, match="no date"):
        notesparse.read(CLEAR, date="14.7.")
    with pytest.raises(notesparse.InputError, match="no counting rule"):
        notesparse.read(CLEAR, counting_rule="mine")
    with pytest.raises(AttributeError, match="nothing_of_ours"):
        _ = notesparse.nothing_of_ours
    assert all(getattr(notesparse, name) is not None for name in notesparse.__all__)
    assert set(notesparse.__all__) <= set(dir(notesparse))
