"""The page as a program: where it is bound, what it says, and how it stops."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.web.conftest import ROOT

pytest.importorskip("uvicorn")
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals of another kind")


Start = Callable[..., "subprocess.Popen[str]"]


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    """``start("--lan")``: the page as a program in a folder of its own, on a free port."""
    running: list[subprocess.Popen[str]] = []

    def go(*words: str) -> subprocess.Popen[str]:
        kept = {k: v for k, v in os.environ.items() if k in {"PATH", "HOME", "NOTESPARSE_CONFIG"}}
        process = subprocess.Popen(
            [sys.executable, "-m", "notesparse", "page", "--port", "0", "--no-browser", *words],
            cwd=tmp_path,
            env=kept | {"PYTHONPATH": str(ROOT)},
            stderr=subprocess.PIPE,
            text=True,
        )
        running.append(process)
        return process

    yield go
    for process in running:
        process.kill()
        process.wait()
        if process.stderr is not None:
            process.stderr.close()


def told(process: subprocess.Popen[str], until: str) -> str:
    assert process.stderr is not None
    lines = []
    for line in process.stderr:
        lines.append(line)
        if until in line:
            return "".join(lines)
    raise AssertionError("".join(lines))


def status(url: str, **headers: str) -> int:
    try:
        with urllib.request.urlopen(urllib.request.Request(url, headers=headers), timeout=20) as page:
            return int(page.status)
    except urllib.error.HTTPError as fault:
        with fault:
            return fault.code


def test_it_is_bound_to_this_computer_and_stops_with_ctrl_c(start: Start, tmp_path: Path) -> None:
    process = start()
    said = told(process, "Ctrl-C stops it")
    url = re.search(r"The page is at (\S+)", said)[1]  # type: ignore[index]
    assert url.startswith("http://127.0.0.1:") and "telephone" not in said
    assert status(url) == 200
    assert status(url, Host="192.0.2.7") == 400
    assert (tmp_path / "season.db").exists() and (tmp_path / "season-notes").is_dir()
    process.send_signal(signal.SIGINT)
    assert process.wait(30) in {0, 130}


def test_for_telephones_there_is_a_secret_address_and_a_warning(start: Start) -> None:
    process = start("--lan")
    assert process.stderr is not None
    first = process.stderr.readline() + process.stderr.readline()
    if "no network" in first:
        pytest.skip("this computer is in no network")
    said = first + told(process, "Ctrl-C stops it")
    outside = re.search(r"same network: (\S+)", said)[1]  # type: ignore[index]
    here = re.search(r"The page is at (\S+)", said)[1]  # type: ignore[index]
    assert "nothing on its way is encrypted" in said and "█" in said.replace("▄", "█").replace("▀", "█")
    secret = outside.rstrip("/").rsplit("/", 1)[1]
    assert len(secret) >= 20 and secret in here
    assert status(here) == 200
    assert status(here.replace(secret, "guessed")) == 404


def test_a_port_that_is_taken_is_told_of(start: Start) -> None:
    process = start()
    port = re.search(r":(\d+)/", told(process, "The page is at"))[1]  # type: ignore[index]
    second = start("--port", port)
    assert f"Port {port} cannot be used" in (second.stderr.read() if second.stderr else "")
    assert second.wait(30) == 1
