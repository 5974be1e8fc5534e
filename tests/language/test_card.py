"""The file of the card, and the word files entry by entry."""

from __future__ import annotations

import pytest

from notesparse.errors import VocabularyError
from notesparse.language.card import entries, find, lines, read_card


def test_the_real_file_is_read() -> None:
    assert len(lines()) == 10 and all(line.gives for matter in lines() for line in matter.lines)


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
