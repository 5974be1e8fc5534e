"""Numbers in words: every number below ten thousand, shapes that are two numbers, and a second opinion."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest
from num2words import num2words
from text_to_num import text2num

from notesparse.text.numbers import is_number_word, ordinal, part, words_to_number


def british(n: int) -> tuple[str, ...]:
    """one hundred and twenty-one, as separate words"""
    return tuple(num2words(n).replace("-", " ").replace(",", "").split())


def american(n: int) -> tuple[str, ...]:
    """one hundred twenty one"""
    return tuple(w for w in british(n) if w != "and")


def test_every_number_below_ten_thousand() -> None:
    wrong = [
        (n, said, got)
        for n in range(10_000)
        for said in {british(n), american(n)}
        if (got := words_to_number(said)) != n
    ]
    assert wrong == []


def test_numbers_below_a_million() -> None:
    dice = random.Random(1977)
    for n in (dice.randrange(10_000, 1_000_000) for _ in range(2_000)):
        assert words_to_number(american(n)) == n
        assert words_to_number(british(n)) == n


def test_a_second_opinion() -> None:
    """text2num reads the same number wherever it reads the words as one number at all."""
    dice = random.Random(54)
    for n in (dice.randrange(100_000) for _ in range(1_500)):
        assert text2num(" ".join(american(n)), "en") == words_to_number(american(n))


def test_two_numbers_side_by_side_are_not_added_up() -> None:
    """Two numbers from 1 to 99 in words are one number only where they are the words of one: twenty two."""
    wrong = []
    for a in range(1, 100):
        for b in range(1, 100):
            said = american(a) + american(b)
            got = words_to_number(said)
            one = a + b if a % 10 == 0 and a >= 20 and b < 10 else None
            if got != one:
                wrong.append((said, got))
    assert wrong == []


@pytest.mark.parametrize(
    "said",
    [
        "two three",
        "eleven twelve",
        "three eleven",
        "twenty two three",
        "seven two five",
        "ten two",
        "three and four",
        "two hundred three hundred",
        "three eleven trifs",
        "ten ten",
        "ten to twelve",
        "four to five",
        "three or four",
        "zero five",
        "five zero",
        "hundred hundred",
        "and",
        "point",
        "two and",
        "and two",
        "twenty twenty",
        "thirty eleven",
        "one two",
        "nine nine",
        "",
        "pods",
        "twenty pods",
        "hundred thousand two thousand",
    ],
)
def test_what_is_not_one_number_is_refused(said: str) -> None:
    assert words_to_number(tuple(said.split())) is None


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("point seven five", "0.75"),
        ("zero point five", "0.5"),
        ("one point two five", "1.25"),
        ("oh point five", "0.5"),
        ("point five", "0.5"),
        ("two point four", "2.4"),
        ("three point one six", "3.16"),
        ("point oh five", "0.05"),
        ("five point zero", "5"),
        ("twelve point five", "12.5"),
        ("point one eight seven five", "0.1875"),
        ("hundred", "100"),
        ("hundred and twenty", "120"),
        ("hundred forty thousand", "140000"),
        ("one hundred and one", "101"),
        ("twenty two", "22"),
        ("nought", "0"),
        ("zero", "0"),
        ("fourty", "40"),
        ("ninty five", "95"),
        ("tweleve", "12"),
        ("one hundred twelve thousand", "112000"),
        ("two point twelve", "2.12"),
    ],
)
def test_shapes_that_are_one_number(said: str, value: str) -> None:
    assert words_to_number(tuple(said.split())) == Fraction(value)


def test_no_ordinary_word_is_a_number_word() -> None:
    assert not any(map(is_number_word, "and point oh to for ate won a an pods half quarter dozen couple".split()))


@pytest.mark.parametrize("n", range(1, 21))
def test_ordinals(n: int) -> None:
    assert ordinal(num2words(n, to="ordinal")) == n


@pytest.mark.parametrize(
    ("word", "low"),
    [
        ("half", 2),
        ("halves", 2),
        ("third", 3),
        ("quarter", 4),
        ("fourths", 4),
        ("eighth", 8),
        ("eighths", 8),
        ("sixteenths", 16),
    ],
)
def test_parts(word: str, low: int) -> None:
    assert part(word) == low
