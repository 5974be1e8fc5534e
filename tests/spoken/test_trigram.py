"""The language model: it sums to one, likes what was said, and is read back from its file."""

from __future__ import annotations

from math import exp, log

import pytest

from notesparse.spoken.trigram import COMMON_SHARE, END, START, UNKNOWN, UNKNOWN_WORDS, Trigram, kneser_ney

SAID = [s.split() for s in ("plant five ten trifs", "plant six ten trifs", "plant five no pods", "no pods")]
COMMON = {"the": 60.0, "dog": 40.0, "plant": 10.0}


@pytest.fixture(scope="module")
def model() -> Trigram:
    return kneser_ney(SAID, COMMON, ["flowers"])


CONTEXTS = [
    (START, START),
    (START, "plant"),
    ("plant", "five"),
    ("ten", "trifs"),
    ("the", "dog"),
    ("five", "the"),
    ("never", "heard"),
    ("never", "plant"),
]


@pytest.mark.parametrize("context", CONTEXTS)
def test_all_words_behind_a_context_sum_to_one(model: Trigram, context: tuple[str, str]) -> None:
    assert sum(exp(model.step(context, w)) for w in model.ones if w != START) == pytest.approx(1)


def test_one_by_hand() -> None:
    """Three sentences: a b, a c, a c. What the discounts are is worked out here."""
    model = kneser_ney([["a", "b"], ["a", "c"], ["a", "c"]], {}, share=0.0001)
    # pairs by how many words stand before them (at the beginning, how often): <s> a 3; a b, a c, b </s>, c </s> 1 each
    d2 = 4 / 4  # n1 = 4, n2 = 0
    ones = {"a": 1, "b": 1, "c": 1, END: 2}
    p1 = (1 - 0.0001) * ones["b"] / 5
    p2 = (1 - d2) / 2 + d2 * 2 / 2 * p1
    d3 = 2 / (2 + 2 * 2)  # threes: <s> a b and a b </s> once, <s> a c and a c </s> twice
    assert model.step(("x", "a"), "b") == pytest.approx(log(p2))
    assert model.step((START, "a"), "b") == pytest.approx(log((1 - d3) / 3 + d3 * 2 / 3 * p2))


def test_what_was_said_is_likelier_than_what_sounds_like_it(model: Trigram) -> None:
    assert model.score("plant five ten trifs".split()) > model.score("plan five ten trips".split()) + 5


def test_a_word_nobody_knows_costs_and_does_not_fail(model: Trigram) -> None:
    known, strange = model.step((START, "plant"), "the"), model.step((START, "plant"), "xyzzy")
    assert strange < known < 0
    assert strange == pytest.approx(model.step((START, "plant"), UNKNOWN) - log(UNKNOWN_WORDS))


def test_a_word_that_has_to_be_there_is_there(model: Trigram) -> None:
    assert "flowers" in model.words
    assert {START, END, UNKNOWN} & model.words == set()


def test_common_words_get_their_share() -> None:
    model = kneser_ney(SAID, {"the": 60.0, "dog": 40.0})
    assert sum(exp(model.ones[w][0]) for w in ("the", "dog", UNKNOWN)) == pytest.approx(COMMON_SHARE)


def test_a_sentence_is_the_sum_of_its_steps(model: Trigram) -> None:
    words = "plant five no pods".split()
    row = [START, START, *words, END]
    steps = sum(model.step((a, b), c) for a, b, c in zip(row, row[1:], row[2:], strict=False))
    assert model.score(words) == pytest.approx(steps)


def test_the_file_says_the_same(model: Trigram, tmp_path) -> None:
    """Read back by the rules of the ARPA form, not by our own code."""
    path = tmp_path / "a.arpa"
    model.write_arpa(path)
    ngrams: dict[tuple[str, ...], tuple[float, float]] = {}
    counts: dict[int, int] = {}
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.startswith("ngram "):
            n, count = line[6:].split("=")
            counts[int(n)] = int(count)
        elif "\t" in line:
            p, words, *back = line.split("\t")
            ngrams[tuple(words.split())] = (float(p), float(back[0]) if back else 0.0)
    assert counts == {n: sum(len(g) == n for g in ngrams) for n in (1, 2, 3)}

    def p(row: tuple[str, ...]) -> float:
        if row in ngrams:
            return ngrams[row][0]
        return ngrams.get(row[:-1], (0.0, 0.0))[1] + p(row[1:])

    for context in CONTEXTS[:6]:
        for word in ("plant", "trifs", "the", END):
            if context != (START, START):
                assert p((*context, word)) * log(10) == pytest.approx(model.step(context, word), abs=1e-3)
