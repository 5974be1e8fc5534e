"""Whole notes with their agreed readings: no note may be read worse than the figures kept in golden/figures.json.

`pytest tests/test_golden.py --update` writes the figures of now; read the difference before you commit it.
"""

from __future__ import annotations

import json
from collections import Counter
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

import pytest

from notesparse import read
from tests.golden.judge import Judge

FOLDER = Path(__file__).with_name("golden")
FIGURES = FOLDER / "figures.json"
NOTES = sorted(f.name.removesuffix(".gold.json") for f in FOLDER.glob("*.gold.json"))
FAULTS = ("silent", "told", "invented", "stage silent", "nuisance", "unasked", "vanished")


@lru_cache(maxsize=1)
def kept() -> dict[str, Any]:
    return json.loads(FIGURES.read_text(encoding="utf-8")) if FIGURES.exists() else {"all": {}, "notes": {}}


@cache
def judged(name: str) -> Judge:
    text = (FOLDER / f"{name}.txt").read_bytes().decode("utf-8")
    gold = json.loads((FOLDER / f"{name}.gold.json").read_text(encoding="utf-8"))
    record = json.loads(read(text, date=name[:10], source=f"{name}.txt").to_json())
    return Judge(text, gold, record)


def totals() -> Counter[str]:
    return sum((judged(name).count for name in NOTES), Counter())


def test_update(update: bool) -> None:
    """Not a test of the program: writes the figures where that is asked for."""
    if not update:
        pytest.skip("figures are written with --update")
    figures = {
        "all": dict(sorted(totals().items())),
        "notes": {n: dict(sorted(judged(n).count.items())) for n in NOTES},
    }
    FIGURES.write_text(json.dumps(figures, indent=1) + "\n", encoding="utf-8")
    before = kept()["all"]
    print("\n".join(f"{k}: {before.get(k, 0)} -> {v}" for k, v in figures["all"].items() if v != before.get(k, 0)))
    kept.cache_clear()


@pytest.mark.parametrize("name", NOTES)
def test_no_note_is_read_worse(name: str) -> None:
    now, before = judged(name).count, Counter(kept()["notes"].get(name, {}))
    worse = [f"{what}: {before[what]} -> {now[what]}" for what in FAULTS if what != "told" and now[what] > before[what]]
    if now["right"] < before["right"]:
        worse.append(f"right: {before['right']} -> {now['right']}")
    assert worse == [], "\n".join(judged(name).cases)


@pytest.mark.parametrize("what", FAULTS)
def test_ceilings_over_all(what: str) -> None:
    assert totals()[what] <= kept()["all"].get(what, 0)


def test_most_facts_are_right_and_next_to_none_silently_wrong() -> None:
    now = totals()
    facts = now["right"] + now["told"] + now["silent"]
    assert facts > 900
    assert now["right"] >= 0.95 * facts
    assert now["silent"] <= 0.01 * facts


def test_every_note_has_its_agreed_reading_and_figures() -> None:
    assert NOTES
    assert {f.stem for f in FOLDER.glob("*.txt")} == set(NOTES) == set(kept()["notes"])
