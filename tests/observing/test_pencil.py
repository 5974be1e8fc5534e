"""Pencil shorthand and typed-up pages: keys with codes, damaged figures, the same again, names in capitals (guide 4.21)."""

from __future__ import annotations

from typing import Any

import pytest

from notesparse.flow import read
from notesparse.outcome import Outcome

HEAD = "Elm Slough   7-20-04\n"


def outcome(page: str, date: str = "2004-07-20", head: str = HEAD) -> Outcome:
    return read(head + page, date=date)


def column(page: str, key: str) -> dict[str, Any]:
    """The values of one fact by plant, those that a rule derives left out."""
    return {
        p.label: None if key in p.derived else getattr(p.facts, key) for v in outcome(page).visits for p in v.plants
    }


BRACKETED = (
    "t = trifs out   n = nodes   bl = bloom (- none, l low, t top two)\n"
    "pl    t    n    bl\n1     9    10   -\n2     10   11   l\n3     lO   11   t\n4     do.  do.  do."
)
DASHED = "legend: T - trifs, F - fl (h top 2, x none)\npl   T    F\n1    11   h\n2    12   x"
OF_TOTAL = 'pt.     pods brown / total\n1       38 / 40\n2       12 / 3O\n3       O / 25\n4       all\n5       "'
SHARE = "pl   pods   brown   %\n1    40     38      95\n2    36     9       25"
LIKE = "No.1  9 trifol.  fl. at 5th & 6th node dn only\nNo.2  9 trifol.  none\nNo.3  like No.1 but 10 trifol.\nNo.4  do."
LETTERS = "a  unifs open\nb  2 tri\nc-d  as b\ne  as a"
CORNER = "TANNERY    tri   pod, cm (top 4)   fl\n1          13    0.5               y\n2          12    -                 y\n3          like 1"

READ = [
    (BRACKETED, "flowers_from_top", {"1": None, "2": "lower", "3": (1, 2), "4": (1, 2)}),
    (BRACKETED, "flowers", {"1": False, "2": True, "3": True, "4": True}),
    (DASHED, "trifoliates", {"1": 11, "2": 12}),
    (DASHED, "flowers", {"1": True, "2": False}),
    (OF_TOTAL, "mature_pods_percent", {"1": 95, "2": 40, "3": 0, "4": 100, "5": 100}),
    (SHARE, "mature_pods_percent", {"1": 95, "2": 25}),
    (LIKE, "trifoliates", {"1": 9, "2": 9, "3": 10, "4": 10}),
    (LIKE, "flowers_from_top", {"1": (5, 6), "2": None, "3": (5, 6), "4": (5, 6)}),
    (LETTERS, "trifoliates", {"a": None, "b": 2, "c": 2, "d": 2, "e": None}),
    (LETTERS, "unifoliates", {"a": "unrolled", "b": None, "c": None, "d": None, "e": "unrolled"}),
    ("1  VC\n2  not up\n3-4  as 1", "stated_v", {"1": "VC", "2": None, "3": "VC", "4": "VC"}),
    ("plt  tri  pod (in)\n1    14   1 l/2\n2    13   O.8", "pod_mm", {"1": 38.1, "2": 20.32}),
    ("plant 1 unif. still shut", "unifoliates", {"1": "rolled"}),
    ("plant 1 14 tri, grn sds, not touching, top 4", "seed_fill", {"1": "partial"}),
]


@pytest.mark.parametrize(("page", "key", "want"), READ)
def test_what_is_read(page: str, key: str, want: dict[str, Any]) -> None:
    assert column(page, key) == want


NAMES = [
    ("DUG WELL   5/28/04\n1   3 tri\n2   4 tri", "DUG WELL"),
    ("MULBERRY LANE NO. 2     7/21/98     Pl. May 12\n1  3 tri\n2  4 tri", "MULBERRY LANE NO. 2"),
    ("Sept. 20, 1999     QUARRY FORTY      Gr. II.4\n1  3 tri\n2  4 tri", "QUARRY FORTY"),
    ("11 July 1999, Chapel Hill Sq.\n1  V9\n2  V10", "Chapel Hill Sq."),
]


@pytest.mark.parametrize(("page", "want"), NAMES)
def test_names_at_the_head(page: str, want: str) -> None:
    (visit,) = outcome(page, head="").visits
    assert visit.field == want


def test_a_name_over_the_labels_of_a_table_and_one_over_its_next_rows() -> None:
    page = f"20/7/11\n\n{CORNER}\n\nGRAVEYARD RD.\n1          11    .6                y\n2          12    .5                n"
    visits = outcome(page, "2011-07-20", "").visits
    assert [(v.field, str(v.date)) for v in visits] == [("TANNERY", "2011-07-20"), ("GRAVEYARD RD.", "2011-07-20")]
    assert [[p.facts.pod_mm for p in v.plants] for v in visits] == [[5, None, 5], [6, 5]]


@pytest.mark.parametrize(("written", "want"), [("MG I.9", 1.9), ("MG 3.l", 3.1)])
def test_a_damaged_decimal_is_read_whole(written: str, want: float) -> None:
    (visit,) = outcome(f"{written}\nplant 1 9 tri").visits
    assert visit.maturity_group == want


def test_where_one_date_has_the_day_first_the_others_have_it_too() -> None:
    (visit,) = outcome("TERRACE 22/7/06   planted 12/5/06\nplant 1 9 tri", "2006-07-22", "").visits
    assert (str(visit.date), str(visit.planted)) == ("2006-07-22", "2006-05-12")


def test_the_date_of_the_note_tells_which_figure_is_the_day() -> None:
    (visit,) = outcome("TERRACE 10.6.05   planted 8.5.05\nplant 1 2 tri", "2005-06-10", "").visits
    assert (str(visit.date), str(visit.planted)) == ("2005-06-10", "2005-05-08")


def test_plants_shortened_with_a_dot_are_counted_as_a_stand() -> None:
    (visit,) = outcome("plant 1 2 tri\n22 plts. in 3 ft").visits
    assert [(f.kind, f.value) for f in visit.findings] == [("stand", 22)]


def test_rows_under_heads_that_are_not_all_known_are_no_list_of_plants() -> None:
    result = outcome("pl   pods   brown   qq\n1    40     38      95\n2    36     9       25\n3    40     1       2")
    assert all(len(v.plants) <= 3 for v in result.visits)
    assert result.unread
