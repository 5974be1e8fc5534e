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
LIKE = (
    "No.1  9 trifol.  fl. at 5th & 6th node dn only\nNo.2  9 trifol.  none\nNo.3  like No.1 but 10 trifol.\nNo.4  do."
)
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


COUNTED = "T=14 N=15 F=past P=7/8 t4 S=0\nT=13 N=14 F=gone P=3/4 t4 S=felt\nT tri, N nodes, F flowers, P pod in., t4 top 4, S seed"
KEYED = "1  t13 n14 b2 p-\n2  t12 n13 b1 p-\n3  tl3 n14 b- p3/16(4)\n4  t13 n14 b- p1/4(2)\nt trifs, n nodes, b uppermost bloom (node from tip), p biggest pod (node from tip)"
ROMAN = "Plant:         i      ii     iii\nTrifoliates:   10     11     9\nFlower:        +      +      0\n node (tip=1): 2      1      -"
WHERE = "              plt 1    plt 2\npods (16ths)   2        3\n  where        3rd dn   top"
TAIL = "trifs 11 12 10 11 12\nbloom T T L 0 T        (T top2, L lower, 0 none)\npods - - - - 3mm"
ITEMS = "1. V1O R2  2. V9 R1  3. do.  4. V11 R3  5. same as 2"
SENTENCES = 'Pl A: pods .9" top 4, no sd. B same. C same but sd felt 2 dn. D pods .5". E like C.'
MARKED = 'Pl. 1. R6, 13 nds.\n" 2. R5, sd 1/8\n" 3. ditto\n" 4. R6'
TOLD = '1. tri 14  nd 15  pod 1 1/4" @ 2 dn  sd 1/16\n2. tri 13  nd 14  pod 1" @ 3 dn   sd -\n3. tri 14  nd "   pod 7/8  @ 1 dn  sd -\n4. as 3, pod 1"'
BEHIND = 'Plt.   Seed           Pod\n 1     full, t4       -\n 2     1/8", t4       3/16 (4th)\n 3     do.            1/4, 2nd dn'
ON_NODE = (
    "plant   no of pods   longest   on node\n   1        14       1 in.     3 dn\n   2        11       3/4       4 dn"
)
EACH = "         Plt A    Plt B    Plt C\nsd mm    8        9        I0\nfills?   n        y        y\n14 tri each."
LEGENDS = "Plt   Tri   Blm   Pod\n  1   13    T     1/8\n  2   12    L     3/16\n(blm T = top two, L = low. pod, in., best one of top 4)"

MORE = [
    (COUNTED, "trifoliates", {"1": 14, "2": 13}),
    (COUNTED, "pods_from_top", {"1": (1, 2, 3, 4), "2": (1, 2, 3, 4)}),
    (KEYED, "trifoliates", {"1": 13, "2": 12, "4": 13}),
    (KEYED, "pods_from_top", {"1": None, "2": None, "4": (2,)}),
    (ROMAN, "flowers_from_top", {"i": (2,), "ii": (1,), "iii": None}),
    (ROMAN, "nodes", {"i": None, "ii": None, "iii": None}),
    (WHERE, "pods_from_top", {"1": (3,), "2": (1, 2, 3, 4)}),
    (TAIL, "flowers_from_top", {"1": (1, 2), "2": (1, 2), "3": "lower", "4": None, "5": (1, 2)}),
    (TAIL, "pod_mm", {"1": None, "2": None, "3": None, "4": None, "5": 3}),
    (ITEMS, "stated_v", {"1": "V10", "2": "V9", "3": "V9", "4": "V11", "5": "V9"}),
    (SENTENCES, "pod_mm", {"A": 22.86, "B": 22.86, "C": 22.86, "D": 12.7, "E": 22.86}),
    (SENTENCES, "seeds_from_top", {"A": None, "B": None, "C": (2,), "D": None, "E": (2,)}),
    (MARKED, "stated_r", {"1": "R6", "2": "R5", "3": "R5", "4": "R6"}),
    (TOLD, "trifoliates", {"1": 14, "2": 13, "3": 14, "4": 14}),
    (TOLD, "pods_from_top", {"1": (2,), "2": (3,), "3": (1,), "4": (1,)}),
    (BEHIND, "seeds_from_top", {"1": (1, 2, 3, 4), "2": (1, 2, 3, 4), "3": (1, 2, 3, 4)}),
    (BEHIND, "pods_from_top", {"1": None, "2": (4,), "3": (2,)}),
    (BEHIND, "trifoliates", {"1": None, "2": None, "3": None}),
    (ON_NODE, "pods_from_top", {"1": (3,), "2": (4,)}),
    (ON_NODE, "nodes", {"1": None, "2": None}),
    (EACH, "trifoliates", {"A": 14, "B": 14, "C": 14}),
    (EACH, "seed_fill", {"A": "partial", "B": "full", "C": "full"}),
    (LEGENDS, "flowers_from_top", {"1": (1, 2), "2": "lower"}),
    (LEGENDS, "pods_from_top", {"1": (1, 2, 3, 4), "2": (1, 2, 3, 4)}),
    ("%brn: 10, 0, 5O, 95, l0 (plts 1-5)", "mature_pods_percent", {"1": 10, "2": 0, "3": 50, "4": 95, "5": 10}),
    (
        "PLANT   1    2    3\nTRI     12   13   12\nBLOOM   T2   T2   LOW",
        "flowers_from_top",
        {"1": (1, 2), "2": (1, 2), "3": "lower"},
    ),
    ("1 - six trif, 7th folded\n2 - seven\n3 - six", "trifoliates", {"1": 6, "2": 7, "3": 6}),
]


@pytest.mark.parametrize(("page", "key", "want"), MORE)
def test_what_is_read_of_layouts(page: str, key: str, want: dict[str, Any]) -> None:
    assert column(page, key) == want


NETS = [
    "unif.     u u u u u u u u\ntrif 1    o o o r r o o o",
    "plt 2  13 / 14 / gone / 5/8 2nd / no\nplt 3  12 / 13 / low / 1/2 3rd / no",
    "pods/plt, longest, seed\nA  38, 1 3/4, touching\nB  41, 1 1/2, almost\nC  29, 1 1/2, not",
]


@pytest.mark.parametrize("page", NETS)
def test_what_nobody_can_tell_stays_unread(page: str) -> None:
    result = outcome(page)
    assert not any(v.plants or v.tallies for v in result.visits)
    assert result.unread


def test_a_cell_under_a_word_that_names_nothing_is_no_part_of_the_cell_beside_it() -> None:
    page = "pl    % pods mature   lvs\n1     1O              on\n2     60              half off"
    assert column(page, "mature_pods_percent") == {"1": 10, "2": 60}
    assert column(page, "pod_mm") == {"1": None, "2": None}


def test_a_class_with_no_plants_says_nothing_of_the_plants_above() -> None:
    page = "pod color   plts\ngreen       1,3\nfirst brn   2,6\nall brn     -"
    assert column(page, "mature_pods_percent") == {"1": None, "3": None, "2": None, "6": None}


def test_a_drill_has_a_spacing() -> None:
    (visit,) = outcome("drilled 7.5\nplant 1 2 tri").visits
    assert (visit.row_spacing_in, visit.planted) == (7.5, None)


@pytest.mark.parametrize(
    "page", ["plt  pod  fl\n1    1 1/2,  y\n2    1,", "fl: t = ", "1 - 6 tri\n2 - 7\n3 - 6", "T = "]
)
def test_a_page_that_breaks_off_is_read(page: str) -> None:
    assert outcome(page) is not None


def test_a_row_of_a_damaged_label_and_a_damaged_count_is_no_head() -> None:
    page = "plant I     1O tri.     bloom top 2\nplant 2     ll tri.     no bloom\nplant 3     9 tri.      no bloom"
    assert column(page, "trifoliates") == {"1": 10, "2": 11, "3": 9}


def test_stops_between_the_head_of_a_table_and_its_rows() -> None:
    page = "No.   Trif.   Bloom\nStop 1, lane side\n 1     10     2nd fr. top\n 2      9     top node\nStop 2, far side\n 4      9     none"
    assert column(page, "trifoliates") == {"1": 10, "2": 9, "4": 9}
    assert column(page, "flowers") == {"1": True, "2": True, "4": False}


BEHIND_THE_VALUES = (
    "     #1   #2   #3\ntf   14   13   15\nfl   -    x    -     (x = top two)\npd   22   9    25    mm, top 4"
)


def test_words_behind_the_values_of_a_line_are_of_no_plant() -> None:
    assert column(BEHIND_THE_VALUES, "flowers") == {"1": False, "2": True, "3": False}
    assert column(BEHIND_THE_VALUES, "pods_from_top") == dict.fromkeys("123", (1, 2, 3, 4))


def test_half_under_a_leaf_is_no_length() -> None:
    page = " PLT    TRIFS    NEXT\n  1       6      tight\n  2       6      half"
    assert column(page, "pod_mm") == {"1": None, "2": None}
    assert column(page, "top_leaf") == {"1": "rolled", "2": None}


def test_a_line_of_letters_in_brackets_is_a_key() -> None:
    result = outcome("Pod full of bean (F), half (H), flat (-) at top four nodes:\nplt 1   - H F F\nplt 2   - - H F")
    assert not any(v.plants for v in result.visits)


def test_bare_figures_behind_a_count_are_no_labels() -> None:
    labels = set(column("12 tri, fl top 2. 11, fl low. 12, fl top 2. 13, no fl.", "flowers"))
    assert not labels & {"11", "12", "13"}


@pytest.mark.parametrize("word", ["STN.", "Stn", "STOP"])
def test_a_station_is_a_stop(word: str) -> None:
    got = outcome(f"{word} 1\n1. 7 tri\n2. 8 tri\n{word} 2\n1. 9 tri\n2. 8 tri")
    assert [(p.stop, p.label, p.facts.trifoliates) for v in got.visits for p in v.plants] == [
        ("1", "1", 7),
        ("1", "2", 8),
        ("2", "1", 9),
        ("2", "2", 8),
    ]
