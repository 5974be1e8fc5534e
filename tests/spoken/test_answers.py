"""Spoken answers: the automaton is small and sharp, and every answer there is says what it says."""

from __future__ import annotations

from fractions import Fraction

import pytest
from num2words import num2words

from notesparse.errors import GrammarError
from notesparse.spoken.answers import Answered, answer_automaton, answer_of, answer_rows
from notesparse.spoken.automaton import Automaton, automaton

SAYS = {
    "zero": Answered("number", Fraction(0)),
    "eleven": Answered("number", Fraction(11)),
    "one hundred and twenty": Answered("number", Fraction(120)),
    "a hundred five": Answered("number", Fraction(105)),
    "two point five": Answered("number", Fraction(5, 2)),
    "point seven five": Answered("number", Fraction(3, 4)),
    "point oh five": Answered("number", Fraction(1, 20)),
    "half": Answered("number", Fraction(1, 2)),
    "three sixteenths": Answered("number", Fraction(3, 16)),
    "one and a half": Answered("number", Fraction(3, 2)),
    "two and three quarters": Answered("number", Fraction(11, 4)),
    "three sixteenths inch": Answered("length", Fraction(3, 16), "in"),
    "three quarters of an inch": Answered("length", Fraction(3, 4), "in"),
    "three sixteenths of an inch": Answered("length", Fraction(3, 16), "in"),
    "an eighth of an inch": Answered("length", Fraction(1, 8), "in"),
    "a quarter of an inch": Answered("length", Fraction(1, 4), "in"),
    "half of an inch": Answered("length", Fraction(1, 2), "in"),
    "a quarter inch": Answered("length", Fraction(1, 4), "in"),
    "half an inch": Answered("length", Fraction(1, 2), "in"),
    "an inch": Answered("length", Fraction(1), "in"),
    "an inch and a half": Answered("length", Fraction(3, 2), "in"),
    "an inch and three quarters": Answered("length", Fraction(7, 4), "in"),
    "an inch and an eighth": Answered("length", Fraction(9, 8), "in"),
    "five millimeters": Answered("length", Fraction(5), "mm"),
    "one point five centimeters": Answered("length", Fraction(3, 2), "cm"),
    "two feet": Answered("length", Fraction(2), "ft"),
    "v five": Answered("stage", "V5"),
    "v twenty one": Answered("stage", "V21"),
    "v c": Answered("stage", "VC"),
    "v e": Answered("stage", "VE"),
    "stage r three": Answered("stage", "R3"),
    "r five point five": Answered("stage", "R5.5"),
    "yes": Answered("yes"),
    "nope": Answered("no"),
    "a": Answered("letter", "a"),
    "bravo": Answered("letter", "b"),
    "letter n": Answered("letter", "n"),
    "november": Answered("letter", "n"),
    "skip it": Answered("skip"),
    "go back": Answered("back"),
    "undo": Answered("undo"),
    "stop": Answered("stop"),
    "not known": Answered("unknown"),
    "i don't know": Answered("unknown"),
}
NONE = [
    "",
    "five trifs",
    "twenty eleven",
    "five five",
    "r nine point",
    "an",
    "three half",
    "letter o",
    "yes no",
    "hundred",
]


@pytest.mark.parametrize("said", SAYS)
def test_an_answer_says(said: str) -> None:
    assert answer_of(said.split()) == SAYS[said]
    assert answer_of(said.upper().split()) == SAYS[said]


@pytest.mark.parametrize("said", NONE)
def test_what_is_no_answer(said: str) -> None:
    assert answer_of(said.split()) is None


def test_every_whole_number_to_120_is_an_answer() -> None:
    for n in range(121):
        said = num2words(n).replace("-", " ")
        assert answer_of(said.split()) == Answered("number", Fraction(n)), said
        assert answer_of(said.replace(" and ", " ").split()) == Answered("number", Fraction(n)), said


def test_every_answer_has_its_value() -> None:
    for words, kind in answer_rows():
        said = answer_of(words)
        assert said is not None and said.kind == kind
        assert (said.value is not None) == (kind in {"number", "length", "stage", "letter"}), words
        assert (said.unit is not None) == (kind == "length")
        if kind in {"number", "length"}:
            assert 0 <= said.value < 121


def test_all_letters_a_to_n_both_ways() -> None:
    letters = [w[0] for w, kind in answer_rows() if kind == "letter" and len(w) == 1]
    assert sorted(letters) == sorted(
        [
            *"abcdefghijklmn",
            *"alpha bravo charlie delta echo foxtrot golf hotel india juliet kilo lima mike november".split(),
        ]
    )


def rows_of(a: Automaton) -> set[tuple[tuple[str, ...], str]]:
    out, to_see = set(), [(0, ())]
    while to_see:
        state, words = to_see.pop()
        if state in a.ends:
            out.add((words, a.ends[state]))
        to_see += [(then, (*words, word)) for word, then in a.arcs[state].items()]
    return out


def test_the_automaton_accepts_the_rows_and_no_other() -> None:
    assert rows_of(answer_automaton()) == set(answer_rows())


def test_it_is_the_smallest() -> None:
    """No two states may be followed by the same: partition refinement (Moore) from the ends must not join any."""
    a = answer_automaton()
    block = [a.ends.get(i, "") for i in range(len(a.arcs))]
    while True:
        finer = [(block[i], tuple(sorted((w, block[t]) for w, t in a.arcs[i].items()))) for i in range(len(a.arcs))]
        numbers = {key: n for n, key in enumerate(dict.fromkeys(finer))}
        if len(numbers) == len(set(block)):
            break
        block = [numbers[key] for key in finer]
    assert len(set(block)) == len(a.arcs)
    reached = {0} | {t for ways in a.arcs for t in ways.values()}
    assert reached == set(range(len(a.arcs)))


def test_a_small_one_by_hand() -> None:
    a = automaton([(("a", "c"), "x"), (("b", "c"), "x"), (("b",), "y")])
    assert len(a.arcs) == 4
    assert (a.accepts(["a", "c"]), a.accepts(["b"]), a.accepts(["a"]), a.accepts(["c"])) == ("x", "y", None, None)


def test_a_row_that_is_two_things_is_refused() -> None:
    with pytest.raises(GrammarError, match="“a b” is x and y"):
        automaton([(("a", "b"), "x"), (("a", "b"), "y")])


def test_the_text_for_a_recogniser() -> None:
    a = automaton([(("yes",), "yes"), (("yes", "sir"), "yes")])
    assert a.fsg("t").splitlines() == [
        "FSG_BEGIN t",
        "NUM_STATES 4",
        "START_STATE 0",
        "FINAL_STATE 3",
        "TRANSITION 0 1 0.500000 yes",
        "TRANSITION 0 3 0.500000 yes",
        "TRANSITION 1 3 1.000000 sir",
        "FSG_END",
    ]
