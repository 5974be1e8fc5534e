"""Notes and ordinary talk are told apart by how far they lean, and by the trade's own words: not by the vocabulary."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from notesparse.language.ordinary import common_words
from notesparse.spoken.compiled import Spoken, compiled
from notesparse.spoken.numerals import spell

HEARD = Path(__file__).parents[1] / "speech" / "heard.jsonl"
TALK = """
the weather on the radio said the game is on at seven tonight
honey can you pick up some milk and eggs on your way home
i think we should paint the kitchen blue before your mother comes
the president gave a long speech about taxes and schools yesterday
turn left at the second light and park behind the bank
my phone battery is almost dead so i will call you later
did you see that movie about the two brothers in the city
he sold the old truck for nine hundred dollars to his cousin
the meeting starts at ten and we have coffee and donuts
she plays the violin in the orchestra every friday
please remember to feed the dog before you leave the house
the doctor said i need to come back in two weeks for another test
we had a great time at the beach and the kids loved the water
tell him that the printer is out of paper and call the company
""".strip().splitlines()  # invented


@pytest.fixture(scope="module")
def spoken() -> Spoken:
    return compiled()


def notes() -> list[list[str]]:
    return [spell(json.loads(line)["said"]) for line in HEARD.read_text(encoding="utf-8").splitlines()]


def test_notes_lean_to_the_trade(spoken: Spoken) -> None:
    leaning = [spoken.lean(said) for said in notes()]
    assert sum(x > 0 for x in leaning) >= 0.95 * len(leaning)


def test_talk_does_not(spoken: Spoken) -> None:
    assert [line for line in TALK if spoken.lean(line.split()) > 0] == []


def test_the_trades_own_words(spoken: Spoken) -> None:
    assert {"trifs", "pods", "node", "flowering", "waterhemp", "aphids", "inch", "seven", "v", "r"} <= spoken.trade
    assert {"the", "morning", "thanks", "about", "looks", "and", "my"} & spoken.trade == set()
    assert spoken.trade <= spoken.vocabulary


def test_nothing_said_leans_nowhere(spoken: Spoken) -> None:
    assert spoken.lean([]) == 0


def test_common_words_are_a_list_to_trust() -> None:
    words = common_words()
    assert len(words) == 5000
    assert min(words.values()) >= 1 and words["the"] > words["dog"] > words["kitchen"] > 0
    assert all(w == w.casefold() and w.replace("'", "").isalpha() for w in words)
