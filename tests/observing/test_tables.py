"""Tables: what is read under heads, what is asked, what stays unread (guide 4.21). Small invented tables."""

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
    out = {}
    for v in outcome(table).visits:
        for p in v.plants:
            out[p.label] = None if key in p.derived else getattr(p.facts, key)
    return out


READ = [
    # heads with gaps, over two lines, with single blanks, tabs, commas, drawn lines
    ("plt   tri   nds   fl\n1     9     10    y\n2     8     9     -", "trifoliates", {"1": 9, "2": 8}),
    ("plt   tri   nds   fl\n1     9     10    y\n2     8     9     -", "flowers", {"1": True, "2": False}),
    (
        "             longest pod, mm   open fl.\nsample       (4 upper nodes)\n  1              5              y\n  2             20              n",
        "pods_from_top",
        {"1": (1, 2, 3, 4), "2": (1, 2, 3, 4)},
    ),
    ("pl tf nd fl pd\n1 9 10 y -\n2 l0 11 top2 -", "trifoliates", {"1": 9, "2": 10}),
    ("pl tf nd fl pd\n1 9 10 y -\n2 l0 11 top2 -", "flowers_from_top", {"1": None, "2": (1, 2)}),
    ("plt\ttri\tfl\tpods\n1\t9\t\t-\n2\t8\ty\t-", "flowers", {"1": None, "2": True}),
    ("plt,tf,fl\n1,9,y\n2,8,n", "flowers", {"1": True, "2": False}),
    ("| plt | tf | fl |\n|---|---|---|\n| 1 | 9 | y |\n| 2 | 8 | n |", "trifoliates", {"1": 9, "2": 8}),
    # labels: P1, letters, no column for them, none at all
    ("        tf     longest pod, in.\nP1      13      .25\nP2      12       -", "pod_mm", {"1": 6.35, "2": None}),
    ("plant   tf   fl\n a      9    y\n b      8    n", "trifoliates", {"a": 9, "b": 8}),
    (
        "Trifoliates   Stage   Blossom\n9             V9      yes\n10            V10     top node",
        "stated_v",
        {"1": "V9", "2": "V10"},
    ),
    ("plt   tri   fl\n1     9     y\n      8     n\n3     9     n", "trifoliates", {"1": 9, "2": 8, "3": 9}),
    # units and places of heads and legends
    ("pods in 16ths\nplt  tri  pod\n1    14   12\n2    13   8", "pod_mm", {"1": 19.05, "2": 12.7}),
    ("plt   pod, cm\n1     .6\n2     1.1", "pod_mm", {"1": 6.0, "2": 11.0}),
    (
        "biggest pod on top four nodes\nplt   tri   pod, mm\n1     12    8\n2     13    none",
        "pods_from_top",
        {"1": (1, 2, 3, 4), "2": ()},
    ),
    (
        "Longest pod at upper 4 nodes, cm\n\n1:  .6      3:  .9\n2:  1.1     4:  2.1",
        "pod_mm",
        {"1": 6.0, "2": 11.0, "3": 9.0, "4": 21.0},
    ),
    (
        "Key:  T = trifoliolates unrolled\n      B = highest open bloom, counting nodes down from the top\n no.   T   B\n 1     9   1\n 2     8   0",
        "flowers_from_top",
        {"1": (1,), "2": None},
    ),
    (
        "blm. code:  0 = no open bloom   1 = only below the top two nodes\nplt   trif   blm\n1     8      0\n2     9      1",
        "flowers_from_top",
        {"1": None, "2": "lower"},
    ),
    (
        'plt   pod      Pod and seed at node (from top)\n1     1 1/4"   2\n2     1"       4',
        "seeds_from_top",
        {"1": (2,), "2": (4,)},
    ),
    # cells: places, counts, shares, stages
    (
        "plt   tri   fl\n1     9     5th from top\n2     8     lower only\n3     8     3rd\n4     8     top",
        "flowers_from_top",
        {"1": (5,), "2": "lower", "3": (3,), "4": (1, 2)},
    ),
    ("plt   tri   pods\n1     12    5\n2     13    0", "pods", {"1": True, "2": False}),
    ("plt   tri   pods\n1     12    5\n2     13    0", "pod_mm", {"1": None, "2": None}),
    ("plt   % brown pods\n1     95\n2     9S\n3     l00", "mature_pods_percent", {"1": 95.0, "2": 95.0, "3": 100.0}),
    ("plt   ripe pods, of all pods\n1     38 of 40\n2     none yet", "mature_pods_percent", {"1": 95.0, "2": None}),
    (
        "plt   stage   note\n1     R6      \n2     RS      \n3     Rb      \n4     V1O     ",
        "stated_r",
        {"1": "R6", "2": "R5", "3": "R6", "4": None},
    ),
    ("no.   V    R\n1     8    2\n2     9    1", "stated_r", {"1": "R2", "2": "R1"}),
    (
        'plt   stage   note\n1     R6      pods full 2nd node dn\n2     R5      beans 1/4" at top node',
        "seeds_from_top",
        {"1": (2,), "2": (1,)},
    ),
    # the same again
    (
        'plt   tri   fl\n1     9     top 2\n2     8     "\n3     8     "',
        "flowers_from_top",
        {"1": (1, 2), "2": (1, 2), "3": (1, 2)},
    ),
    (
        "plt   seed\n1     can feel, not touching\n2     do.\n3     touching\n4     as 1",
        "seed_fill",
        {"1": "partial", "2": "partial", "3": "full", "4": "partial"},
    ),
    ("plt   tri   fl\n1     9     n/o\n2     8     ", "flowers", {"1": None, "2": None}),
    # struck out
    (
        "plt   tf   fl\n1     xx13xx 12   y\n2     ~~10~~ 11   n\n3     13->12   n",
        "trifoliates",
        {"1": 12, "2": 11, "3": 12},
    ),
    # turned, listed in order
    (
        "plant    1    2    3\ntri      6    7    6\nfl       0    0    y",
        "flowers",
        {"1": False, "2": False, "3": True},
    ),
    ("        plant 1  plant 2  plant 3\ntrifs     9       10       9", "trifoliates", {"1": 9, "2": 10, "3": 9}),
    ("tf  11  12  11  10\nnd  12  13  12  11", "nodes", {"1": 12, "2": 13, "3": 12, "4": 11}),
    (
        "Plants 1 to 4 in order.\nTrifs:  9, 9, 8, 10\nOpen bloom (node from top, x = none):  2, x, 1, 3",
        "flowers",
        {"1": True, "2": False, "3": True, "4": True},
    ),
    (
        "plants 1 thru 5, trifs 11 11 12 10 11, flowers y y n n y",
        "trifoliates",
        {"1": 11, "2": 11, "3": 12, "4": 10, "5": 11},
    ),
    # two tables side by side; the next field under the same head
    (
        "plt  tri  fl      plt  tri  fl\n1    9    y       3    8    n\n2    9    n       4    9    y",
        "trifoliates",
        {"1": 9, "2": 9, "3": 8, "4": 9},
    ),
    ("tf? 9\nfl? y\npods? n", "pods", {"1": False}),
]


@pytest.mark.parametrize(("table", "key", "want"), READ)
def test_read(table: str, key: str, want: dict[str, Any]) -> None:
    got = column(table, key)
    for label, value in want.items():
        assert got.get(label) == (pytest.approx(value) if isinstance(value, float) else value), (label, got)


def test_the_next_field_stands_under_the_same_head() -> None:
    note = '8-20-04\n\nKILLDEER FLAT\nplant     longest pod\n a        1"\n b        3/4"\n\nSANDBURR\n a        5/8"\n b        -\n'
    visits = read(note, date="2004-08-20").visits
    assert [v.field for v in visits] == ["KILLDEER FLAT", "SANDBURR"]
    assert [[p.facts.pods for p in v.plants] for v in visits] == [[True, True], [True, False]]


ASKED = [
    (
        "        tf     longest pod, in.\nP1      13      .25\nP2      12       25\nP3      14       .3",
        "25",
        {6.35, 25.0},
    ),  # a lost decimal point
    ("plt   tri   fl\n1     8-9   n\n2     9     n", "8-9", {8, 9}),
    ("plt   tri   longest pod\n1     12    5\n2     13    20", "5", {5.0, None}),
]


@pytest.mark.parametrize(("table", "quote", "values"), ASKED)
def test_asked(table: str, quote: str, values: set[Any]) -> None:
    questions = [q for q in outcome(table).questions if q.quote == quote]
    assert len(questions) == 1
    key = next(k for k in questions[0].choices[0].makes if k in {"pod_mm", "trifoliates"})
    assert values <= {c.makes[key] for c in questions[0].choices}


def test_the_same_as_nothing_is_asked() -> None:
    assert [q.rule for q in outcome('plt   tri   fl\n1     "     y\n2     8     y').questions] == ["4.18"]


def test_two_more_nodes_than_leaves_down_a_table_is_one_question() -> None:
    questions = outcome("no.   tri.   nodes\n1     9      11\n2     9      11\n3     8      10").questions
    assert [q.rule for q in questions] == ["7.2"]


UNREAD = [
    ("plt   tri      fl\n1     9        y\n2     [blot]   y", "blot"),
    ("plt   tri   ht   fl\n1     9     22   y\n2     8     23   n", "22"),
    ("plt   tri   fl\n1     9     y\n2     47    n", "47"),
    ("plants 1 to 6 tf 7 8 7 8 8", "7 8 7 8 8"),
    ("pl tf nd fl\n1 9 10 y\n2 9 10 n\n3 9", "9"),
    ("plt   tri   fl\n1     9     y\n2     8     y\navg   8.5", "8.5"),
]


@pytest.mark.parametrize(("table", "words"), UNREAD)
def test_unread_and_never_dropped(table: str, words: str) -> None:
    assert any(words in u.quote or u.quote in words for u in outcome(table).unread), outcome(table).unread


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("IIII", 4),
        ("||||| ||", 7),
        ("tttt", 5),
        ("tttt II", 7),
        ("llll", 4),
        ("||||/ |", 6),
        ("nine", None),
        ("", None),
    ],
)
def test_ticks(text: str, count: int | None) -> None:
    from notesparse.observing.paper.ticks import count_ticks

    assert count_ticks(text) == count


def test_classes_are_an_exclusive_list() -> None:
    visit = outcome("10 plts pulled\n  R2       IIII       4\n  R1       IIIII      5\n  no fl.   I          1").visits[
        0
    ]
    assert [(t.tally.what, t.tally.count, t.tally.of, t.tally.exclusive) for t in visit.tallies] == [
        ("R2", 4, 10, True),
        ("R1", 5, 10, True),
    ]


def test_strokes_and_figure_that_differ_are_asked_and_the_lower_is_taken() -> None:
    got = outcome("R3    ||||| |    7\nR2    |||        3")
    assert [q.rule for q in got.questions] == ["4.21"]
    assert got.visits[0].tallies[0].tally.count == 6


PROSE = [
    "plant 1  9 trifs  flowers top node\nplant 2  8 trifs  no flowers",
    "1   11tf   fl top nd\n2   12tf   no fl",
    "plants pods and seeds all fine\n1 thing to fix\n2 gates open",
    "R3 at 3 of 4 stops\nR2 on the hill",
]


@pytest.mark.parametrize("text", PROSE)
def test_prose_is_no_table(text: str) -> None:
    from notesparse.language.cache import known_words
    from notesparse.observing.paper.tables import find_tables
    from notesparse.text.lattice import Lattice
    from notesparse.text.scan import scan

    assert find_tables(Lattice(text, scan(text), known_words())) == []


def test_spans_are_the_cells_own_characters() -> None:
    got = outcome('plt   tri   fl\n1     9     top 2\n2     8     "')
    spans = got.visits[0].plants[1].spans
    text = got.note.text
    assert {k: text[s.start : s.end] for k, s in spans.items() if k != "nodes"} == {
        "trifoliates": "8",
        "flowers": '"',
        "flowers_from_top": '"',
    }


def test_a_row_above_a_page_number_keeps_its_head() -> None:
    got = read("Page 7\n" + HEAD + "plt   tri   fl\n1     9     y", date="2004-07-20")
    assert got.visits[0].date == "2004-07-20" and not got.unread
