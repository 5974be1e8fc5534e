"""The page in this process, and as a program with a real browser before it."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
ARGS = [
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync"),
]


@pytest.fixture
def desk(tmp_path: Path) -> Any:
    pytest.importorskip("starlette")
    from notesparse.web.desk import Desk

    return Desk(str(tmp_path / "s.db"), str(tmp_path / "notes"))


@pytest.fixture
def client(desk: Any) -> Iterator[Any]:
    """A client of the page, as a browser on the same computer sends its requests."""
    pytest.importorskip("httpx2")
    from starlette.testclient import TestClient

    from notesparse.web.app import make_app

    with TestClient(make_app(desk), base_url="http://127.0.0.1:8765") as made:
        made.desk = desk
        yield made


class Served:
    """The page as a program of its own; `stop` kills it, `start` brings it back on the same port."""

    def __init__(self, place: Path) -> None:
        self.place = place
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.url = f"http://127.0.0.1:{self.port}/"
        self.start()

    def start(self) -> None:
        words = ["page", "--season", "s.db", "--port", str(self.port), "--no-browser"]
        kept = {k: v for k, v in os.environ.items() if k in {"PATH", "HOME", "NOTESPARSE_CONFIG"}}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "notesparse", *words],
            cwd=self.place,
            env=kept | {"PYTHONPATH": str(ROOT)},
            stderr=subprocess.DEVNULL,
        )
        for _ in range(200):
            try:
                with urllib.request.urlopen(self.url + "help", timeout=5):
                    return
            except OSError:
                time.sleep(0.1)
        raise AssertionError("the page did not start")

    def stop(self) -> None:
        self.process.kill()
        self.process.wait()


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    pytest.importorskip("uvicorn")
    made = Served(tmp_path)
    yield made
    made.stop()


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    """A browser. The tests that want one are left out where there is none."""
    sync = pytest.importorskip("playwright.sync_api")
    if CHROMIUM is None:
        pytest.skip("no Chromium on this computer")
    with sync.sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=ARGS)
        yield browser
        browser.close()
