"""Layouts of paper: keys without =, leaders, rows that say themselves, and blocks that nobody can tell (guide 4.21)."""

from __future__ import annotations

from typing import Any

import pytest

from notesparse.flow import read
from notesparse.outcome import Outcome

HEAD = "Elm Slough   7-20-04\n"


def outcome(table: str) -> Outcome:
    return read(HEAD + table, date="2004-07-20")


def column(table: str, key: str) -> dict[str, Any]:
    """The values of one fact by plant, those that a rule derives left out."""
    return {
        p.label: None if key in p.derived else getattr(p.facts, key) for v in outcome(table).visits for p in v.plants
    }


NODE_KEY = 'plt   fl    tf\n 1    +3    9\n 2    -     8\n 3    "     "\n+ open bloom, the figure is its node counting down from the top;  - none'
FIGURES = "1  7tf  no fl\n2  8tf  fl 3\nfl 1, 2, 3 = node down from the top with an open flower"
LETTERS = "p1 t10 f1\np2 t11 f0\n[p plant, t open trifoliates, f highest node with a flower counted down from the tip, f0 no flower]"
SENTENCES = (
    "No | Pod cm | Seed\n1  | 1.2    | -\n2  | 2.4    | +\nPod = biggest on the top four nodes.  Seed: + felt, - none"
)
SEEN = "     nodes   fl, top 2   fl, lower   pd\n1    12      ✓           ✓\n2    13      ✓           ✓           ✓\n3    11                  ✓\n✓ seen      blank, did not look"
DASHES = "plt   fl   tf   nd\n 1    y    9    10\n 3    -    8    9"
STROKES = "pl 1: 8 / 9 / + / -\npl 2: 7 / 8 / - / -\n(tf / nodes / bloom / pods)"
DITTOS = '1   15t   pd 3/4   sd no\n2   -"-   pd 1     -"-\nt = trifoliates open'
NOUNS = 'Plant 1    11 trif.     top node in flower\n      2    12           no flower\n      3    "            "'

FILLED = (
    "Plant no.  _1_     Trifoliates, main stem: __15__    Nodes: ____\n"
    "Open flowers (Y/N): _N_\nPods on upper four nodes (Y/N): _Y_   longest: _1 1/2 in._\n"
    "Seed felt (Y/N): _Y_    size: ______    touching (Y/N): _N_\n"
)
COMMAS = "plant,A,B,C\ntrifoliolates unrolled,6,6,5\nnext leaf,tight,,rolled\nopen flower,no,yes,no"
CODED = "Row of plants:  U = unifols only, 1 = one trif, 2 = two trifs\nU 1 1 2"
STARS = (
    "Trifoliates on main stem.  * = open bloom, no star = none\n\n"
    "            Gate        Slough\nplt 1       9           8*\nplt 2       9*          9"
)
YOUNG = "( + yes   o not yet )\nplt   up   unifol. flat   1st trif. open\n 1    +        +             o\n 2    +        o\n 3    +        +             +"
BRANCHES = '      Main stem            Branches\nPl    tf    pods           pods\n1     14    -              1/4"\n2     13    3/8"           1/8"'
TWO_LEGENDS = '8-16-87    Top 4 nodes only, longest pod and biggest seed, inches\n\nplt  pod      seed\n1    1"       -\n2    3/4"     1/8"'

READ = [
    (FILLED, "trifoliates", {"1": 15}),
    (FILLED, "nodes", {"1": None}),
    (FILLED, "pod_mm", {"1": 38.1}),
    (FILLED, "seed_fill", {"1": "partial"}),
    (COMMAS, "trifoliates", {"A": 6, "B": 6, "C": 5}),
    (COMMAS, "top_leaf", {"A": "rolled", "B": None, "C": "rolled"}),
    (CODED, "trifoliates", {"1": None, "2": 1, "3": 1, "4": 2}),
    (YOUNG, "trifoliates", {"1": 0, "2": None, "3": 1}),
    (YOUNG, "unifoliates", {"1": "unrolled", "2": "rolled", "3": "unrolled"}),
    (BRANCHES, "pod_mm", {"1": None, "2": 9.525}),
    (TWO_LEGENDS, "pods_from_top", {"1": (1, 2, 3, 4), "2": (1, 2, 3, 4)}),
    ("pl.       1       2\ntf/nd     9/10    8/9\nbloom     x       -", "nodes", {"1": 10, "2": 9}),
    (
        "R6 - plants 1,2,4\nR5 - plants 3\nR7 - plant 5",
        "stated_r",
        {"1": "R6", "2": "R6", "3": "R5", "4": "R6", "5": "R7"},
    ),
    ("Sample   Plt ht (in)   Nodes\n1          26          12\n2          24          11", "nodes", {"1": 12, "2": 11}),
    ("Pods:    total   brown\n A        52      0\n B        44      44", "mature_pods_percent", {"A": None, "B": 100}),
    ("plant     1    2\nbiggest bean   1/8     3/16\nnode           3       2", "nodes", {"1": None, "2": None}),
    ("Plt 1:  tf=13  fl=1,2  pd=none\nPlt 2:  tf=12  fl: -  pd: -", "pods", {"1": False, "2": False}),
    (NODE_KEY, "flowers_from_top", {"1": (3,), "2": None, "3": None}),
    (NODE_KEY, "flowers", {"1": True, "2": False, "3": False}),
    (FIGURES, "flowers_from_top", {"1": None, "2": (3,)}),
    (LETTERS, "flowers_from_top", {"1": (1,), "2": None}),
    (LETTERS, "flowers", {"1": True, "2": False}),
    (SENTENCES, "pods_from_top", {"1": (1, 2, 3, 4), "2": (1, 2, 3, 4)}),
    (SENTENCES, "seeds", {"1": False, "2": True}),
    (SEEN, "nodes", {"1": 12, "2": 13, "3": 11}),
    (SEEN, "pods", {"1": None, "2": True, "3": None}),
    (DASHES, "trifoliates", {"1": 9, "3": 8}),
    (STROKES, "trifoliates", {"1": 8, "2": 7}),
    (STROKES, "flowers", {"1": True, "2": False}),
    (DITTOS, "trifoliates", {"1": 15, "2": 15}),
    (DITTOS, "seeds", {"1": False, "2": False}),
    (NOUNS, "trifoliates", {"1": 11, "2": 12, "3": 12}),
    (
        "Plant    Pods full?    Seed mm\n1        yes           8\n2        no            6",
        "seed_fill",
        {"1": "full", "2": "partial"},
    ),
    (
        "plant        A     B\nopen trif.   6     7\ntop leaf     roll  open",
        "top_leaf",
        {"A": "rolled", "B": "unrolled"},
    ),
    ("PLANT . . . . 1 . . 2 . . 3\nBLOOM . . . . + . . + . . -", "flowers", {"1": True, "2": True, "3": False}),
]


@pytest.mark.parametrize(("table", "key", "want"), READ)
def test_what_is_read(table: str, key: str, want: dict[str, Any]) -> None:
    assert column(table, key) == want


UNREAD = [
    # a block of which a layout explains only a part, and heads with no table
    "Pl.  Seed length at nodes from top, mm\n        1     2     3     4\n1      2.0   4.0   5.0   6.0\n2      -     3.0   3.5   4.0",
    "Flowers:\n  top node      x    -    x    -    x    -\n  2nd node      x    x    x    -    x    -",
    "Field       Date    Pl 1    Pl 2    Pl 3\nGravel      7/10    8 R1    8 R1    9 R2",
    "pl 1: 8 / 9 / + / -\npl 2: 7 / 8 / - / -",
]


@pytest.mark.parametrize("table", UNREAD)
def test_what_stays_unread(table: str) -> None:
    result = outcome(table)
    assert not any(v.plants or v.tallies for v in result.visits)
    assert result.unread


def test_a_mark_for_the_same_again_that_nobody_can_place_is_unread() -> None:
    result = outcome('tf 9, in bloom   -"-')
    assert any(result.note.text[u.span.start : u.span.end] == '-"-' for u in result.unread)


def test_classes_of_stems_and_of_flowers_add_up_each_for_itself() -> None:
    (visit,) = outcome("V10 .. 2\nV11 .. 5\nV12 .. 3\nno bloom 1\nR1 3\nR2 6").visits
    assert [round(t.tally.percent or 0) for t in visit.tallies] == [20, 50, 30, 30, 60]


def test_short_leaders_on_a_page_of_leaders() -> None:
    (visit,) = read("FIELD ........ Osier Three\nROWS ......... 15 in.\nMAT. GROUP ... 2.8", date="2004-07-20").visits
    assert (visit.field, visit.maturity_group, visit.row_spacing_in) == ("Osier Three", 2.8, 15)


def test_days_over_columns_are_visits() -> None:
    note = (
        "Quarry Lot   planted May 22\nNo. of trifoliates open\n          6/14    6/21\ntag A     1       3\ntag B     2"
    )
    visits = read(note, date="1993-07-06").visits
    assert [str(v.date) for v in visits] == ["1993-06-14", "1993-06-21"]
    assert [[p.facts.trifoliates for p in v.plants] for v in visits] == [[1, 2], [3]]


def test_a_mark_behind_figures_and_none_behind_the_others() -> None:
    (visit,) = outcome(STARS).visits
    got = {(p.stop, p.label): (p.facts.trifoliates, p.facts.flowers) for p in visit.plants}
    assert got == {
        ("Gate", "1"): (9, False),
        ("Slough", "1"): (8, True),
        ("Gate", "2"): (9, True),
        ("Slough", "2"): (9, False),
    }


def test_figures_under_stage_codes_are_counts_of_plants() -> None:
    (visit,) = outcome("        V4    V5    V6\n        ||    |||||   |||\ntotal    2     5      3").visits
    assert not visit.plants
    assert [round(t.tally.percent or 0) for t in visit.tallies] == [20, 50, 30]


def test_flowers_on_plants_of_two_trifoliates_are_asked_about() -> None:
    assert any(q.rule == "8" for q in outcome("plt   tf   fl\n1     2    y\n2     1    y").questions)


def test_a_place_before_its_plants_whose_labels_begin_again() -> None:
    (visit,) = outcome(
        "sand hill      a   11 tf    no pods\n"
        "               b   same\n"
        "by the tower   a   13 tf    no pods\n"
        "               b   12 tf    no pods"
    ).visits
    assert [(p.stop, p.label, p.facts.trifoliates) for p in visit.plants] == [
        ("sand hill", "a", 11),
        ("sand hill", "b", 11),
        ("by the tower", "a", 13),
        ("by the tower", "b", 12),
    ]


@pytest.mark.parametrize("line", ["4.  9 tf  fl top node", "4.  no pods   fl top node"])
def test_a_plant_under_a_table_is_no_legend_of_it(line: str) -> None:
    plants = outcome(f"plant    trifol   flower\n1    9    top node\n2    8    none\n\n{line}").visits[0].plants
    assert [(p.facts.flowers, p.facts.flowers_from_top) for p in plants] == [(True, (1,)), (False, None), (True, (1,))]


ACROSS = (
    "Trifs unrolled.   r after the figure: next leaf still rolled\n\n"
    "plt        1    2    3\n"
    "road side  4r   5    4\n"
    "hill       5    5r   6"
)


def test_plants_across_and_places_down() -> None:
    result = outcome(ACROSS)
    (visit,) = result.visits
    got = [(p.stop, p.label, p.facts.trifoliates, p.facts.top_leaf) for p in visit.plants]
    assert got == [
        ("road side", "1", 4, "rolled"),
        ("road side", "2", 5, None),
        ("road side", "3", 4, None),
        ("hill", "1", 5, None),
        ("hill", "2", 5, "rolled"),
        ("hill", "3", 6, None),
    ]
    assert not result.unread


def test_the_same_plants_in_order_at_each_place() -> None:
    result = outcome(
        "trifs, plants 1, 2 in order at each stop\n\n  NW   7, 8   |   NE   8, 9\n  SW   6, 7   |   SE   8, 7"
    )
    got = [(p.stop, p.label, p.facts.trifoliates) for v in result.visits for p in v.plants]
    assert got[:4] == [("NW", "1", 7), ("NW", "2", 8), ("NE", "1", 8), ("NE", "2", 9)]
    assert got[4:] == [("SW", "1", 6), ("SW", "2", 7), ("SE", "1", 8), ("SE", "2", 7)]
