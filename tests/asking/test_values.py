"""What typed words say of a fact: lengths in millimetres, each end of a range by its own unit."""

from __future__ import annotations

import pytest

from notesparse.asking.values import Refused, from_words

INCH = 25.4  # mm, exact: NIST Special Publication 811, appendix B

LENGTHS = [
    ("3/4", 0.75 * INCH),  # a bare fraction is inches: reading guide 4.6
    ("0.5", 0.5 * INCH),
    ("1 1/2 in", 1.5 * INCH),
    ("12 mm", 12.0),
    ("1.5 cm", 15.0),
    ("5 to 8 mm", [5.0, 8.0]),
    ("1/4 to 3/8 in", [0.25 * INCH, 0.375 * INCH]),
    ("1 cm to 12 mm", [10.0, 12.0]),
    ("1/4 in to 10 mm", [0.25 * INCH, 10.0]),
]


@pytest.mark.parametrize(("words", "mm"), LENGTHS)
def test_a_typed_length(words: str, mm: object) -> None:
    assert from_words("pod_mm", words) == pytest.approx(mm)


@pytest.mark.parametrize("words", ["1/4-", "12 mm to 1 cm", "3/0", "5 furlongs", "1 to 2 to 3 mm"])
def test_what_is_no_length_is_refused(words: str) -> None:
    with pytest.raises(Refused, match="pod_mm"):
        from_words("pod_mm", words)
