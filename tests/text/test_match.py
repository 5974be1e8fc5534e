"""A word to the trade words that it may be: nearness by length, words that are never repaired, damaged figures."""

from __future__ import annotations

import pytest

from notesparse.language.vocabulary import Vocabulary, load_words, vocabulary
from notesparse.text.match import allowed_edits, damaged_figure, damaged_words, is_abbreviation, near

TINY = load_words(
    {
        "a.toml": """
never = ["flow", "modes", "seek"]
[[word]]
kind = "NODE"
say = ["node", "nodes"]
[[word]]
kind = "TRIF"
say = ["trifoliate", "trifoliates"]
[[word]]
kind = "UNROLLED"
say = ["unrolled"]
[[word]]
kind = "TOUCH"
say = ["touching"]
[[word]]
kind = "FLOWER"
say = ["flower"]
[[word]]
kind = "EXACT"
near = false
say = ["brown"]
[[word]]
kind = "POD"
say = ["pods"]
[[word]]
kind = "POT"
say = ["pots"]
""",
    }
)


def kinds(word: str, words: Vocabulary = TINY) -> set[str]:
    return {s[0] for s, _ in near(word, words)}


@pytest.mark.parametrize(("letters", "edits"), [(1, 0), (3, 0), (4, 1), (7, 1), (8, 2), (9, 2), (10, 3), (14, 3)])
def test_edits_by_length(letters: int, edits: int) -> None:
    assert allowed_edits("x" * letters) == edits


@pytest.mark.parametrize(
    ("word", "kind"),
    [
        ("noeds", "NODE"),
        ("nodess", "NODE"),
        ("flowr", "FLOWER"),
        ("flwoer", "FLOWER"),
        ("trifolaites", "TRIF"),
        ("trifolitate", "TRIF"),
        ("trofoliats", "TRIF"),
        ("unroled", "UNROLLED"),
        ("uunrolled", "UNROLLED"),
        ("touchng", "TOUCH"),
        ("tuoching", "TOUCH"),
        ("ttouchin", "TOUCH"),
    ],
)
def test_slips_are_read(word: str, kind: str) -> None:
    assert kinds(word) == {kind}


@pytest.mark.parametrize(
    "word",
    [
        "mode",
        "xlower",
        "glower",
        "nid",
        "nds",
        "flour",
        "trifle",
        "browm",
        "brwon",
        "tractor",
        "nodding",
        "12",
        "n0de",
        "node's",
        "flow",
        "modes",
        "seek",
    ],
)
def test_what_is_too_far_or_out_of_reach(word: str) -> None:
    assert kinds(word) == set()


def test_a_longer_word_may_have_another_first_letter() -> None:
    assert kinds("rifoliates") == {"TRIF"}
    assert kinds("lower") == set()


def test_a_tie_gives_both() -> None:
    assert kinds("pohs") == set()  # four letters, another consonant: another word
    assert {s[0] for s, _ in near("podts", TINY)} == {"POD", "POT"}


def test_nearness_is_a_share() -> None:
    ((_, nearness),) = near("trifoliats", TINY)[:1]
    assert nearness == pytest.approx(1 - 1 / 10)


def test_the_never_list_of_the_real_words_is_kept() -> None:
    words = vocabulary()
    assert [w for w in sorted(words.never) if near(w, words)] == []


@pytest.mark.parametrize(
    "word", "flow strips seek cotton county counter behind better blood brother called cover crops".split()
)
def test_ordinary_words_are_left_alone(word: str) -> None:
    words = vocabulary()
    if word not in words.singles:
        assert near(word, words) == []


@pytest.mark.parametrize(
    ("run", "figure"),
    [
        ("l2", 12),
        ("1O", 10),
        ("9S", 95),
        ("l00", 100),
        ("l", 1),
        ("|", 1),
        ("ll", 11),
        ("lO", 10),
        ("I2", 12),
        ("1l", 11),
        ("2B", 28),
        ("1Z", 12),
        ("O5", 5),
        ("lo", 10),
    ],
)
def test_damaged_figures(run: str, figure: int) -> None:
    assert damaged_figure(run) == figure


@pytest.mark.parametrize(
    "run", ["12", "", "30s", "I", "O", "oo", "il", "so", "5i", "lolol", "R3", "V5", "is", "SB", "1x", "12345", "7z"]
)
def test_no_damaged_figures(run: str) -> None:
    assert damaged_figure(run) is None


@pytest.mark.parametrize(
    ("run", "word"),
    [
        ("p0ds", "pods"),
        ("trifol1ate", "trifoliate"),
        ("b1oom", "bloom"),
        ("nocle", "node"),
        ("stern", "stem"),
        ("5eed", "seed"),
        ("bl00m", "bloom"),
    ],
)
def test_damaged_words(run: str, word: str) -> None:
    assert word in damaged_words(run)


@pytest.mark.parametrize("run", ["tf", "pod", "12"])
def test_short_runs_are_no_damaged_words(run: str) -> None:
    assert [w for w in damaged_words(run) if w != run] == [] or run.isdigit()


def test_abbreviations() -> None:
    assert is_abbreviation("pl") and is_abbreviation("jul") and not is_abbreviation("pods")
