"""A note that breaks off anywhere is read as far as it goes: every phrase of the corpus, cut behind one of its last words."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from tests.properties.laws import check

PAGES = sorted((Path(__file__).parents[1] / "corpus").glob("*.toml"))
SEVENTH = 7  # phrases: one of so many is cut, so that the test takes seconds


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_a_phrase_that_breaks_off_gives_a_sound_record(page: Path) -> None:
    blocks = [block for some in tomllib.loads(page.read_text(encoding="utf-8")).values() for block in some]
    phrases = [block.get("before", "") + said + block.get("after", "") for block in blocks for said in block["say"]]
    for at, phrase in enumerate(phrases[::SEVENTH]):
        words = phrase.split(" ")
        cut = " ".join(words[: max(1, len(words) - 1 - at % 3)])
        check(cut)
        check(cut + ",")
