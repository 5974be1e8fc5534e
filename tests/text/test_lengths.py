"""Fractions and lengths as the lattice reads them, and as millimetres of a pod."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest

from notesparse import read
from notesparse.language.vocabulary import vocabulary
from notesparse.text.lattice import Lattice
from notesparse.text.scan import scan


def whole_edges(text: str) -> set[tuple[str, object]]:
    """(kind, value) of the edges that span all pieces of the text."""
    pieces = scan(text)
    lattice = Lattice(text, pieces, vocabulary())
    return {
        (e.kind, e.means) for e in lattice.edges[0] if e.end == len(pieces) and e.kind in {"INT", "DEC", "FRAC", "ORD"}
    }


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1/4", "1/4"),
        ("¼", "1/4"),
        ("a quarter", "1/4"),
        ("quarter", "1/4"),
        ("one quarter", "1/4"),
        ("three quarters", "3/4"),
        ("three-quarters", "3/4"),
        ("3/4", "3/4"),
        ("¾", "3/4"),
        ("3/16", "3/16"),
        ("3/16ths", "3/16"),
        ("3-16s", "3/16"),
        ("3 16ths", "3/16"),
        ("3⁄16", "3/16"),
        ("3.16s", "3/16"),
        ("three sixteenths", "3/16"),
        ("three-sixteenths", "3/16"),
        ("five eighths", "5/8"),
        ("half", "1/2"),
        ("a half", "1/2"),
        ("one half", "1/2"),
        ("½", "1/2"),
        ("an eighth", "1/8"),
        ("⅛", "1/8"),
        ("7/8", "7/8"),
        ("15/16", "15/16"),
        ("one and a half", "3/2"),
        ("1 1/2", "3/2"),
        ("1-1/2", "3/2"),
        ("1½", "3/2"),
        ("two and three quarters", "11/4"),
        ("22 and a half", "45/2"),
        ("22 1/2", "45/2"),
        ("22½", "45/2"),
        ("22-1/2", "45/2"),
        ("one and a quarter", "5/4"),
        ("1¼", "5/4"),
        ("3/l6", "3/16"),
        ("l/2", "1/2"),
    ],
)
def test_fractions(text: str, value: str) -> None:
    assert ("FRAC", Fraction(value)) in whole_edges(text)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        (".75", "3/4"),
        ("0.75", "3/4"),
        ("2.5", "5/2"),
        ("point seven five", "3/4"),
        ("zero point five", "1/2"),
        ("one point two five", "5/4"),
    ],
)
def test_decimals(text: str, value: str) -> None:
    assert ("DEC", Fraction(value)) in whole_edges(text)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12", 12),
        ("twelve", 12),
        ("a dozen", 12),
        ("two dozen", 24),
        ("half a dozen", 6),
        ("a couple", 2),
        ("couple", 2),
        ("a pair", 2),
        ("twenty one", 21),
        ("twenty-one", 21),
        ("112,000", 112000),
        ("140k", 140000),
        ("140 thousand", 140000),
        ("thirty four hundred", 3400),
        ("one hundred and twenty", 120),
        ("l2", 12),
        ("tweleve", 12),
    ],
)
def test_whole_numbers(text: str, value: int) -> None:
    assert ("INT", value) in whole_edges(text)


@pytest.mark.parametrize(
    ("text", "value"), [("3rd", 3), ("third", 3), ("21st", 21), ("twenty first", 21), ("11th", 11), ("eleventh", 11)]
)
def test_ordinals(text: str, value: int) -> None:
    assert ("ORD", value) in whole_edges(text)


@pytest.mark.parametrize("text", ["two three", "ten to twelve", "three and four", "7/14", "1-2", "three eleven"])
def test_two_numbers_are_no_one_number(text: str) -> None:
    assert whole_edges(text) == set()


def pod_mm(text: str) -> object:
    record = json.loads(read(f"plant 1 pods {text}", date="2026-07-14").to_json())
    (plant,) = record["visits"][0]["plants"]
    return plant["pod_mm"]


@pytest.mark.parametrize(
    ("text", "mm"),
    [  # the shapes that general quantity readers get wrong
        ("2 and a half inches", 63.5),
        ("2 1/2 in", 63.5),
        ("2½ in", 63.5),
        ('2-1/2"', 63.5),
        ('2.5"', 63.5),
        ("half an inch", 12.7),
        ("two and three quarters inches", 69.85),
        ('1 3/4"', 44.45),
        ("half inch", 12.7),
        ("a half inch", 12.7),
        ('1/2"', 12.7),
        ("1/2 in.", 12.7),
        ("0.5 inches", 12.7),
        ("three quarters of an inch", 19.05),
        ("an inch and a half", 38.1),
        ("inch and a quarter", 31.75),
        ("15 mm", 15),
        ("1.5 cm", 15),
        ("one and a half cm", 15),
        ("15mil", 15),
        ("3/16", 4.7625),
        ("half a centimeter", 5),
        ("two centimeters", 20),
    ],
)
def test_lengths_of_pods(text: str, mm: float) -> None:
    got = pod_mm(text)
    assert isinstance(got, float | int), got
    assert got == pytest.approx(mm, abs=0.06)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ('1/2-3/4"', 12.7, 19.05),
        ("10-15 mm", 10, 15),
        ("1/2 to 3/4 inch", 12.7, 19.05),
        ("1 to 1.5 cm", 10, 15),
        ("ten to fifteen mm", 10, 15),
    ],
)
def test_ranges_of_lengths(text: str, low: float, high: float) -> None:
    assert pod_mm(text) == pytest.approx([low, high], abs=0.06)


@pytest.mark.parametrize("sixteenths", range(1, 16))
def test_every_sixteenth_of_an_inch(sixteenths: int) -> None:
    size = Fraction(sixteenths, 16)
    assert pod_mm(f"{size.numerator}/{size.denominator} in") == pytest.approx(float(size * Fraction("25.4")), abs=0.06)


@pytest.mark.parametrize("mm", range(3, 70))
def test_every_length_in_millimetres(mm: int) -> None:
    assert pod_mm(f"{mm} mm") == mm
