"""From characters to pieces: spans in the user's own text, whatever its characters are."""

from __future__ import annotations

from itertools import pairwise

import pytest

from notesparse.text.scan import Piece, scan


def forms(text: str) -> list[tuple[str, str]]:
    return [(p.text, p.form) for p in scan(text)]


def slices(text: str) -> list[str]:
    return [p.span.of(text) for p in scan(text)]


def _in_order(text: str, pieces: list[Piece]) -> None:
    for p, q in pairwise(pieces):  # one character may give several pieces (½ is 1, / and 2)
        assert p.span.end <= q.span.start or p.span.end - 1 == q.span.start
        assert p.span <= q.span
    for p in pieces:
        assert 0 <= p.span.start < p.span.end <= len(text)


@pytest.mark.parametrize(
    "text",
    [
        "plant 3 eleven trifs, flowers top two nodes",
        'P3: 11 TF; 3/16" pods',
        "a\r\nb\rc\nd",
        "½ inch pods",
        "pods 3⁄16”",
        "zero\u200bwidth",
        "emoji 🌱 pods 🫘🏽",
        "ﬁeld 6",
        "café bean\u0301s",
        "R\u00a03",
        "\ufeffR3",
        "١٢ trifs",
        "V５ Ｒ３",
        "ÅNGSTRÖM",
        "tab\there",
        "İstanbul",
        "straße",
        "ǅ",
        "\u2028x\u2029y",
        "㎜ 5㎜",
        "5㎝",
        "①②",
        "\ud800 half",
        "a\u0000b",
        "…",
        "10–11",
    ],
)
def test_spans_lie_in_order_and_slice_back(text: str) -> None:
    pieces = scan(text)
    _in_order(text, pieces)
    for p in pieces:
        if p.text.isascii() and p.span.of(text).isascii():
            assert p.span.of(text).lower() == p.text
    covered = {i for p in pieces for i in range(*p.span)}
    lost = [c for i, c in enumerate(text) if i not in covered and not c.isspace() and c.isalnum()]
    assert lost == []


def test_words_figures_and_marks() -> None:
    assert forms('P3: 11 TF, 3/16" pods') == [
        ("p", "word"),
        ("3", "int"),
        (":", "mark"),
        ("11", "int"),
        ("tf", "word"),
        (",", "mark"),
        ("3", "int"),
        ("/", "mark"),
        ("16", "int"),
        ('"', "mark"),
        ("pods", "word"),
    ]


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("½", ["1", "/", "2"]),
        ("1½", ["1", "1", "/", "2"]),
        ("3⁄16", ["3", "/", "16"]),
        ("ﬁeld", ["field"]),
        ("Ｒ３", ["r", "3"]),
        ("V５", ["v", "5"]),
        ("“same”", ['"', "same", '"']),
        ("10–11", ["10", "-", "11"]),
        ("10—11", ["10", "-", "11"]),
        ("3″", ["3", '"']),
        ("don’t", ["don't"]),
        ("㎜", ["mm"]),
        ("①", ["1"]),
    ],
)
def test_the_plain_form(text: str, plain: list[str]) -> None:
    assert [p.text for p in scan(text)] == plain


def test_half_signs_keep_their_one_character() -> None:
    text = "pods ½ inch"
    pieces = [p for p in scan(text) if p.text in {"1", "/", "2"}]
    assert {p.span for p in pieces} == {(5, 6)}


@pytest.mark.parametrize("nothing", ["\u200b", "\u200d", "\ufeff", "\u00ad", "\u2060", "\u0301"])
def test_what_cannot_be_seen_parts_no_word(nothing: str) -> None:
    text = f"po{nothing}ds"
    (piece,) = scan(text)
    assert piece.text == "pods"
    assert piece.span == (0, 5)


def test_emoji_are_marks() -> None:
    text = "🌱 pods 🫘🏽"
    assert [p.text for p in scan(text) if p.form == "word"] == ["pods"]
    assert slices(text)[0] == "🌱"


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends(end: str) -> None:
    text = f"p1 R3{end}p2 R4"
    pieces = scan(text)
    assert [p.form for p in pieces].count("nl") == 1
    assert next(p for p in pieces if p.form == "nl").span.of(text) == end
    second = [p for p in pieces if p.text == "p"][1]
    assert second.column == 0


def test_columns_and_gaps() -> None:
    pieces = scan("pl  tf\n1   11\n2\t12")
    assert [(p.text, p.column, p.gap) for p in pieces if p.form != "nl"] == [
        ("pl", 0, 0),
        ("tf", 4, 2),
        ("1", 0, 0),
        ("11", 4, 3),
        ("2", 0, 0),
        ("12", 2, 4),
    ]


@pytest.mark.parametrize(
    ("text", "form"),
    [
        ("7/14/26", "dmy"),
        ("7-14-2026", "dmy"),
        ("2026-07-14", "dmy"),
        ("22.viii.2013", "dmy"),
        ("112,000", "big"),
        (".75", "dec"),
        ("0.75", "dec"),
        ("12", "int"),
        ("trif's", "word"),
    ],
)
def test_single_pieces(text: str, form: str) -> None:
    assert scan(text)[0].form == form


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("R71", ["r", "7", "1"]),
        ("R65", ["r", "6", "5"]),
        ("plant's", ["plant", "'s"]),
        ("they're", ["they", "'re"]),
        ("pl'd", ["pl'd"]),
        ("let's", ["let's"]),
        ("12tf", ["12", "tf"]),
        ("5R3", ["5", "r", "3"]),
        ("V10", ["v", "10"]),
        ("1.2.3", ["1", ".", "2", ".", "3"]),
        ("pear12", ["pear", "12"]),
    ],
)
def test_what_is_cut(text: str, plain: list[str]) -> None:
    assert [p.text for p in scan(text)] == plain


def test_nothing() -> None:
    assert scan("") == []
    assert scan(" \t ") == []
