"""Figures as they are said, and said figures read as the same number."""

from __future__ import annotations

from fractions import Fraction

import pytest
from num2words import num2words

from notesparse.spoken import numerals
from notesparse.spoken.numerals import spell
from notesparse.text.numbers import words_to_number

SAYS = {
    "V5": "v five",
    "R3": "r three",
    "R5.5": "r five point five",
    '3/16"': "three sixteenths inch",
    "3/16ths inch": "three sixteenths inch",
    "2.5": "two point five",
    ".75 in.": "point seven five inch",
    "1/2 inch": "half inch",
    "1/4": "quarter",
    "3/4": "three quarters",
    "1/8": "one eighth",
    "1 1/4": "one and a quarter",
    "1¼": "one and a quarter",
    "½": "half",
    "2 3/8": "two and three eighths",
    "11tf": "eleven trifs",
    "plant 3: 12 nodes, no fl": "plant three twelve nodes no flowers",
    "95%": "ninety five percent",
    "20-25%": "twenty to twenty five percent",
    "3rd node down": "third node down",
    "21st": "twenty first",
    "7/14": "seven fourteen",
    "7/14/26": "seven fourteen twenty six",
    "2026-07-14": "twenty twenty six seven fourteen",
    "in 2005": "in two thousand five",
    "1998": "nineteen ninety eight",
    "112,000": "one hundred twelve thousand",
    "9:05": "nine oh five",
    "9:00": "nine o'clock",
    "5mm pods": "five millimeters pods",
    "don’t": "don't",
    "plant #4": "plant number four",
    "3 in 10": "three in ten",
    "3 in the top": "three in the top",
    "1.5 in pods": "one point five inch pods",
    "0": "zero",
    "": "",
    "...": "",
}


@pytest.mark.parametrize("written", SAYS)
def test_said(written: str) -> None:
    assert " ".join(spell(written)) == SAYS[written]


def test_spelling_out_twice_changes_nothing() -> None:
    for said in SAYS.values():
        assert " ".join(spell(said)) == said


@pytest.mark.parametrize("n", [*range(0, 131), 200, 999, 1000, 1001, 12_345, 112_000, 999_999])
def test_whole_numbers(n: int) -> None:
    said = num2words(n).replace("-", " ").replace(" and ", " ").replace(",", "")
    assert " ".join(numerals.whole(n)) == said
    assert words_to_number(tuple(numerals.whole(n))) == n


@pytest.mark.parametrize("n", range(1, 101))
def test_ordinals(n: int) -> None:
    assert " ".join(numerals.ordinal(n)) == num2words(n, to="ordinal").replace("-", " ").replace(" and ", " ")


@pytest.mark.parametrize("text", ["2.5", "0.3", ".75", "11.0", "5.05"])
def test_decimals(text: str) -> None:
    assert words_to_number(tuple(numerals.decimal(text))) == Fraction(text)
