"""Whole notes, changed so that a reader would understand the same: the same stages, or somebody is told."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from notesparse import read

GOLDEN = Path(__file__).parents[1] / "golden"
NOTES = sorted(GOLDEN.glob("*.txt"))
BESIDE = {"a": "s", "e": "w", "i": "o", "n": "m", "o": "p", "r": "e", "s": "a", "t": "y", "u": "y", "l": "k", "d": "s"}


def one_slip(text: str, chance: random.Random) -> str:
    """In every place of one long word in small letters: a letter twice, two changed over, or the key beside."""
    words = sorted(set(re.findall(r"(?<!\w)[a-z]{7,}(?!\w)", text)))
    if not words:
        return text
    word = chance.choice(words)
    at = chance.randrange(1, len(word) - 1)
    slips = [word[:at] + word[at] + word[at:], word[:at] + word[at + 1] + word[at] + word[at + 2 :]]
    if word[at] in BESIDE:
        slips.append(word[:at] + BESIDE[word[at]] + word[at + 1 :])
    return re.sub(rf"(?<!\w){word}(?!\w)", chance.choice(slips), text)


def talk_around(text: str, chance: random.Random) -> str:
    before = chance.choice(["Hey boss, me again.", "Long day, truck got stuck twice.", "Its me, battery is low."])
    behind = chance.choice(
        ["Call me when you get this.", "Heading to lunch.", "Let me know if you need anything else."]
    )
    return f"{before}\n{text.rstrip()}\n{behind}\n"


def small_letters(text: str, chance: random.Random) -> str:
    return text.lower()


def stages(record: dict[str, Any]) -> list[Any]:
    return [
        (
            [(p["plant"].casefold(), p["v_stage"], p["r_stage"]) for p in v["plants"]],
            v["field_stage"]["v"],
            v["field_stage"]["r"],
        )
        for v in record["visits"]
    ]


def told(record: dict[str, Any]) -> int:
    """Characters that somebody is asked or told of; a slip inside a remark that was unread before adds at most one."""
    spans = [x["span"] for x in [*record["questions"], *record["unread"]] if x["span"]]
    return len({at for start, end in spans for at in range(start, end)})


@pytest.mark.parametrize("change", [one_slip, talk_around, small_letters], ids=lambda change: change.__name__)
@pytest.mark.parametrize("path", NOTES, ids=lambda path: path.stem)
def test_the_same_stages_or_somebody_is_told(path: Path, change: Callable[[str, random.Random], str]) -> None:
    day = path.name[:10]
    text = path.read_text(encoding="utf-8-sig")
    changed = change(text, random.Random(path.name))
    was, now = (json.loads(read(note, date=day).to_json()) for note in (text, changed))
    assert stages(now) == stages(was) or told(now) > told(was) + 1
