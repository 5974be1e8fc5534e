"""From words with their places to text and doubts: no recogniser needed."""

from __future__ import annotations

import pytest

from notesparse.outcome import Doubt
from notesparse.span import Span
from notesparse.typed.agree import Seen, agree
from notesparse.typed.doubtful import counts, doubts_of
from notesparse.typed.layout import lay_out, rows_of
from notesparse.typed.legible import why_refused
from notesparse.typed.recognise import Word
from notesparse.typed.strips import Cut, Strip, Strips

WIDE, HIGH, PITCH = 20, 30, 50


def words(text: str, sure: float = 96, lean: float = 0.0) -> list[Word]:
    """The words of a page typed on a grid of 20 by 50 pixels; a line sinks by `lean` pixels a pixel."""
    out = []
    for row, line in enumerate(text.splitlines()):
        at = 0
        for word in line.split():
            at = line.index(word, at)
            x = at * WIDE
            y = row * PITCH + round(lean * x)
            out.append(Word(word, x, y, x + len(word) * WIDE - 4, y + HIGH, sure))
            at += len(word)
    return out


def text_of(text: str, lean: float = 0.0) -> str:
    return lay_out(rows_of(words(text, lean=lean))).text


PAGE = "Creek      7/14\n\nplant    tf     nd\n1        11     12\n2               11\n"


@pytest.mark.parametrize("lean", [0.0, 0.03, -0.03])
def test_columns_stand_where_they_stood(lean: float) -> None:
    assert text_of(PAGE, lean) == PAGE


FULL = """\
Creek bottom. Plant 1 has 11 trifs, flowers at the top
nodes, and no pods yet. Plant 2 has 10 trifs, no flowers
"""


def test_prose_that_is_broken_by_the_paper_goes_on() -> None:
    assert text_of(FULL) == FULL.replace("top\nnodes", "top nodes")


@pytest.mark.parametrize(
    "page",
    [
        FULL.replace("nodes,", "Nodes,"),
        FULL.replace("nodes,", "2 nodes,"),
        FULL.replace(" the top\n", "\n"),  # not full: the next word would have found its place
        FULL.replace("at the top\n", "at     top\n"),
        "pl 1 flowers\nsame\n",
    ],
)
def test_other_breaks_stand(page: str) -> None:
    assert text_of(page).count("\n") == 2


def test_the_line_of_a_word_is_that_of_the_page() -> None:
    laid = lay_out(rows_of(words(FULL)))
    assert laid.lines[-1] == 1 and laid.text.count("\n") == 1


def test_spans_and_lines_are_those_of_the_words() -> None:
    rows = rows_of(words(PAGE))
    laid = lay_out(rows)
    assert [s.of(laid.text) for s in laid.spans] == [w.text for row in rows for w in row]
    assert laid.lines == (0, 0, 2, 2, 2, 3, 3, 3, 4, 4)


def doubt(text: str, sure: float, other: str | None = None, beside: str = "") -> tuple[str, ...] | None:
    """The other readings of a word; None where it is not doubted."""
    all_words = [*beside.split(), text]
    seen = [(Span(9 * i, 9 * i + len(w)), Seen(Word(w, 0, 0, 9, 9, 96))) for i, w in enumerate(all_words[:-1])]
    last = (Span(900, 900 + len(text)), Seen(Word(text, 0, 0, 9, 9, sure), other))
    found = list(doubts_of([*seen, last], [0] * len(all_words), "page.png"))
    mine = [d for d in found if d.span == last[0]]
    return mine[0].others if mine else None


@pytest.mark.parametrize(
    ("text", "sure", "other", "others"),
    [
        ("11", 96, None, None),
        ("11", 89.9, None, ()),  # only unsure
        ("1/4", 60, None, ()),
        ("eleven", 80, None, ()),
        ("R3", 70, None, ()),
        ('"', 50, None, ()),  # the same as above
        ("no", 85, None, ()),
        ("trifs", 40, None, None),  # stands for no number
        ("12", 96, "72", ("72",)),
        ("12", 96, "12,", None),  # a comma says nothing
        (".25", 96, "25", ("25",)),  # a point says much
        ("node", 96, "nobe", None),
        ("nobe", 96, "node", ("node",)),
        ("10", 96, "", ("",)),  # the second reading found nothing there
        ("pi", 96, None, ("p1",)),
        ("ist", 96, None, ("1st",)),
        ("ath", 96, None, ("4th",)),
        ("3/", 96, None, ("3",)),
        ("|12", 96, None, ("112", "12")),
        ("q", 96, None, ("9", "0")),
        ("11/4", 96, None, ("1 1/4",)),
        ("13/16", 96, None, None),
        ("23/4", 96, None, ("2 3/4",)),
        ("15/4", 96, None, None),  # five quarters are none: it is a day, or what it says
        ("with", 96, None, None),
        ("at", 96, None, None),
        ("lin", 96, None, ("1in",)),
        ("9S", 96, None, ("95",)),
        ("is", 96, None, None),
    ],
)
def test_what_is_doubted(text: str, sure: float, other: str | None, others: tuple[str, ...] | None) -> None:
    assert doubt(text, sure, other) == others


def test_a_label_in_disguise_is_seen_by_its_series() -> None:
    assert doubt("pl", 96) is None
    assert doubt("pl", 96, beside="p2 p3") == ("p1",)


def test_where_a_doubt_stands() -> None:
    (found,) = doubts_of([(Span(3, 5), Seen(Word("11", 0, 0, 9, 9, 10)))], [6], "page 2 of walk.tif")
    assert found == Doubt(Span(3, 5), (), "line 7 of page 2 of walk.tif", "typed")


def test_what_counts() -> None:
    assert all(map(counts, ("4", "p1", "1st", "ten", "Half", "-", '"', "None")))
    assert not any(map(counts, ("pods", "flowers", "")))


def second(first: str, again: str, sure: float = 96) -> list[Seen]:
    """What is taken where a line was read a second time, in the same places."""
    rows = rows_of(words(first))
    strips = Strips(None, (Strip(-10, 40, (Cut(0, 0.0, 4000),)),))  # type: ignore[arg-type]
    return agree(rows, strips, words(again, sure))[0]


def test_two_readings_that_agree_are_as_sure_as_the_surer() -> None:
    assert [(s.word.sure, s.other) for s in second("12 pods", "12 pods", 98)] == [(98, None), (98, None)]


def test_where_two_readings_differ_the_surer_is_taken_and_the_other_kept() -> None:
    assert [(s.word.text, s.other) for s in second("12 pods", "72 pods", 98)] == [("72", "12"), ("pods", None)]
    assert [(s.word.text, s.other) for s in second("12 pods", "72 pods", 40)] == [("12", "72"), ("pods", None)]


def test_a_word_that_only_one_reading_has() -> None:
    assert [(s.word.text, s.other) for s in second("12     pods", "       pods")] == [("12", ""), ("pods", None)]
    assert [(s.word.text, s.other) for s in second("       pods", "12     pods")] == [("12", ""), ("pods", None)]


def test_a_blank_is_measured() -> None:
    """Run together by one reading: the width of the gap tells."""
    strips = Strips(None, (Strip(-10, 40, (Cut(0, 0.0, 4000),)),))  # type: ignore[arg-type]
    rows = rows_of(words("6     9"))
    joined = Word("69", 0, 0, 7 * WIDE - 4, HIGH, 99)
    assert [s.word.text for s in agree(rows, strips, [joined])[0]] == ["6", "9"]


def test_two_columns_run_together_by_one_reading_stay_apart() -> None:
    strips = Strips(None, (Strip(-10, 40, (Cut(0, 0.0, 4000),)),))  # type: ignore[arg-type]
    rows = rows_of(words("1     11"))
    for text, sure in (("1°11", 96), ("1711", 50)):
        (one, two) = agree(rows, strips, [Word(text, 0, 0, 8 * WIDE - 4, HIGH, 99)])[0]
        assert (one.word.text, two.word.text, one.word.sure, two.word.sure) == ("1", "11", sure, sure)


def test_refusal_is_by_the_share_of_unsure_words() -> None:
    good, bad = words("plant one has eleven trifs"), words("unsure of these", 40)
    mixed = good + bad  # three of eight
    assert why_refused(22, 0.0, mixed) is None  # a second reading may be surer
    assert why_refused(22, 0.0, mixed, good) is None
    assert "written by hand" in str(why_refused(22, 0.0, mixed, mixed))
    assert "written by hand" in str(why_refused(22, 0.0, bad))
    assert "only 9 pixels high" in str(why_refused(9, 0.0, bad))
    assert "no writing" in str(why_refused(None, None, []))
    assert "no writing" in str(why_refused(22, 0.0, words("- = -")))


def test_letters_that_do_not_stand_on_one_line_are_handwriting() -> None:
    good, mixed = words("plant one has eleven trifs"), words("plant one has eleven trifs") + words("so", 40)
    assert "do not stand on one line" in str(why_refused(22, 0.2, good, good))
    assert why_refused(22, 0.07, good, good) is None  # a worn typewriter
    assert why_refused(22, 0.07, mixed, mixed) is not None
    assert why_refused(22, 0.03, mixed, mixed) is None
