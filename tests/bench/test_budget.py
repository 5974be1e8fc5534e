"""Time and memory, with generous limits: run by name, `pytest tests/bench --dist=no`."""

from __future__ import annotations

from typing import Any

import pytest

from tests.bench.made import notes, record
from tests.bench.report import cold_start, growth, peak, speed

pytestmark = pytest.mark.bench


@pytest.mark.parametrize("words", [15, 60, 400])
def test_notes(benchmark: Any, words: int) -> None:
    texts = notes(words)
    benchmark.extra_info["notes"] = len(texts)
    benchmark.extra_info["characters"] = sum(map(len, texts))
    benchmark(lambda: [record(t) for t in texts])


@pytest.mark.parametrize(("words", "most"), [(15, 150), (60, 120), (400, 150)])
def test_a_reading_costs_so_many_bare_parses(words: int, most: float) -> None:
    assert speed(words)["ratio"] < most


@pytest.mark.parametrize(
    "kind",
    [
        "walk",
        "breath",
        "chat",
        "pages",
        "labels again",
    ],
)
def test_time_a_character_does_not_grow(kind: str) -> None:
    small, large = growth(kind, (1_000, 20_000))
    assert large < 1.5 * small


def test_memory() -> None:
    language, page = peak(20_000)
    assert language < 60
    assert page < 40


def test_cold_start() -> None:
    read, libraries = cold_start(5)
    assert read < 5 * libraries
    assert read < 1.0
