"""The card says nothing that the program does not read as it says."""

from __future__ import annotations

import pytest

from notesparse.errors import VocabularyError
from notesparse.flow import read
from notesparse.language.card import Example, card, entries, find, read_card
from notesparse.views import words as view
from tests.conftest import NOTE_DATE

EXAMPLES = [example for topic in card() for example in topic.examples]


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda e: e.say)
def test_every_example_is_read_as_it_stands(example: Example) -> None:
    outcome = read(example.say, date=NOTE_DATE)
    assert (outcome.questions, outcome.unread, outcome.repairs) == ((), (), ())
    seen = [
        *(v.plants or v.tallies or v.findings or v.stated for v in outcome.visits),
        *(v.spans for v in outcome.visits),
    ]
    assert any(seen), "nothing was taken from it"
    plants = [plant for visit in outcome.visits for plant in visit.plants]
    got = {key: getattr(plants[-1].facts, key) for key in example.facts}
    assert {key: list(v) if isinstance(v, tuple) else v for key, v in got.items()} == dict(example.facts)


def test_every_stage_has_a_topic() -> None:
    titles = " ".join(topic.title for topic in card())
    for stage in ("V", "R1", "R2", "R3", "R4", "R5", "R6", "R7", "R8"):
        assert stage in titles


def test_the_card_fits_one_page_of_text() -> None:
    lines = view.card(card())
    assert len(lines) <= 60  # US letter at six lines an inch, with margins
    assert max(map(len, lines)) <= 78


def test_the_page_needs_nothing_from_elsewhere_and_holds_every_example() -> None:
    page = view.card_page(card())
    assert "http" not in page and "<script" not in page and "src=" not in page
    for example in EXAMPLES:
        assert example.say in page


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[[topic]]\ntitle = 'x'\n", "expected [[topic]]"),
        ("topic = 3\n", "expected [[topic]]"),
        ("[[topic]\n", "card.toml: "),
        ("[[topic]]\ntitle = 'Pods'\nlines = [['no pods', 'none']]\n", "under 'Pods': ['no pods', 'none']"),
        ("[[topic]]\ntitle = 'Pods'\nlines = [['', 'none', {}]]\n", "under 'Pods'"),
        ("[[topic]]\ntitle = 'Pods'\nlines = [['a', 'none', {}], ['a', 'some', {}]]\n", "'a' is there twice"),
    ],
)
def test_a_card_of_another_shape_is_refused(text: str, says: str) -> None:
    with pytest.raises(VocabularyError) as fault:
        read_card(text)
    assert says in str(fault.value)


def test_a_word_is_found_by_its_spelling_its_mishearing_and_its_meaning() -> None:
    for query in ("trifs", "triffs", "trifoliate", "Trifs"):
        assert "trifoliate" in {e.means for e in find(query, entries())}, query
    assert find("no such word at all", entries()) == []
    assert any("frogeye" in e.means for e in find("froge", entries())), "a beginning will do"


def test_taught_words_are_among_them() -> None:
    taught = '[[word]]\nkind = "UNIF"\nmeans = "unifoliate"\nsay = ["dinglies"]\n'
    assert [e.topic for e in find("dinglies", entries(taught))] == ["Your own words"]
