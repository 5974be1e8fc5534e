"""Long words with one slip are put right, and nothing else is."""

from __future__ import annotations

import pytest

from notesparse import read
from notesparse.language.vocabulary import vocabulary
from notesparse.text.mended import mended
from notesparse.text.scan import scan
from notesparse.text.slips import slips_put_right, word_meant

WORDS = vocabulary()


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("unrolleed", "unrolled"),
        ("platns", "plants"),
        ("numbr", "number"),
        ("plqnts", "plants"),
        ("sixteenhts", "sixteenths"),
        ("quatrer", "quarter"),
        ("caivty", "cavity"),
        ("avveraging", "averaging"),
        ("averageing", "averaging"),
        ("mostley", "mostly"),
        ("avarage", "average"),
        ("avereging", "averaging"),
        ("pointed", None),  # an ordinary word, a vowel from painted
        ("thirten", None),  # a slip that is listed
        ("plaster", None),  # another word, two letters away
        ("planner", None),  # an ordinary word, a key beside planned
        ("couts", None),  # counts, courts
        ("wtear", None),  # water is too short to be sure
        ("qlants", None),  # the first letter is another
    ],
)
def test_one_slip_in_a_long_word(written: str, meant: str | None) -> None:
    assert word_meant(written, WORDS.parts) == meant


def test_no_word_of_the_word_files_is_put_right() -> None:
    spelled = " ".join(sorted(w for w in WORDS.parts if w.isalpha()))
    pieces = mended(scan(spelled), WORDS)
    assert slips_put_right(spelled, pieces, WORDS) is pieces


def test_the_users_own_letters_stay() -> None:
    repairs = read("p1 9 trifs unrolleed, pods quatrer inch top node", date="2026-08-20").repairs
    assert [(repair.words, repair.how) for repair in repairs] == [("unrolleed", "near"), ("quatrer", "near")]


def test_a_line_of_letters_without_end_is_left_alone() -> None:
    line = "x" * 100_000
    assert slips_put_right(line, scan(line), WORDS)[0].text == line
