"""The card says nothing that the program does not read as it says, and its words are those of the grammar."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from notesparse.errors import VocabularyError
from notesparse.flow import read
from notesparse.language.cache import known_words
from notesparse.language.card import read_card
from notesparse.observing.shown import wording
from notesparse.reading.parse import phrases_at
from notesparse.spoken.card import Example, card, fill
from notesparse.text.lattice import Lattice
from notesparse.text.scan import scan
from notesparse.views import words as view
from tests.conftest import NOTE_DATE

EXAMPLES = [example for topic in card() for example in topic.examples]


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda e: e.say)
def test_every_example_is_read_as_it_stands(example: Example) -> None:
    outcome = read(example.say, date=NOTE_DATE)
    assert (outcome.questions, outcome.unread, outcome.repairs) == ((), (), ())
    seen = [
        *(v.plants or v.tallies or v.findings or v.stated for v in outcome.visits),
        *(v.spans for v in outcome.visits),
    ]
    assert any(seen), "nothing was taken from it"
    plants = [plant for visit in outcome.visits for plant in visit.plants]
    got = {key: getattr(plants[-1].facts, key) for key in example.facts}
    assert {key: list(v) if isinstance(v, tuple) else v for key, v in got.items()} == dict(example.facts)


@pytest.mark.parametrize("example", [e for e in EXAMPLES if e.drawn], ids=lambda e: e.say)
def test_what_was_drawn_is_read_as_the_form_it_was_drawn_from(example: Example) -> None:
    words = known_words()
    pieces = scan(example.say)
    lattice = Lattice(example.say, pieces, words)
    outcome = read(example.say, date=NOTE_DATE)
    chosen = {(step.span.start, step.span.end): step.phrase for step in outcome.steps}
    tallies = [(t.span.start, t.span.end) for visit in outcome.visits for t in visit.tallies]
    behind = 0
    for drawn in example.drawn:
        start = example.say.index(drawn.words, behind)
        behind = start + len(drawn.words)
        at = next(i for i, p in enumerate(pieces) if p.span.start == start)
        whole = [p for p in phrases_at(lattice, at) if pieces[p.end - 1].span.end == behind]
        assert drawn.form in {f"{p.rule}/{p.form}" for p in whole}
        if (start, behind) in chosen or not drawn.form.startswith("ratio/"):
            assert chosen.get((start, behind)) == wording(drawn.form.partition("/")[2])
        else:  # the share that a tally begins with has no step of its own
            assert any(a == start and behind <= b for a, b in tallies)


def test_most_of_the_card_is_drawn() -> None:
    assert sum(bool(e.drawn) for e in EXAMPLES) >= 0.7 * len(EXAMPLES)
    assert len({e.say for e in EXAMPLES}) == len(EXAMPLES)


def test_the_card_is_the_same_in_every_run() -> None:
    code = "from notesparse.spoken.card import card; print(card())"
    root = Path(__file__).resolve().parents[2]
    for seed in ("0", "1"):
        env = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(root)}
        said = subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True).stdout
        assert said.strip() == str(card())


def test_a_line_changes_no_other() -> None:
    one = "[[topic]]\ntitle = 'Leaves'\nlines = [{}['plant 1, {{trif/trif_n}}', 'V#1', {{ trifoliates = '#1' }}]]\n"
    (alone,) = fill(read_card(one.format("")))
    (second,) = fill(read_card(one.format("['plant 1, {pods/pod_no: NO POD}', 'none', {}], ")))
    assert second.examples[1] == alone.examples[0]
    (twice,) = fill(read_card(one.format("['plant 1, {trif/trif_n}', 'V', {}], ")))
    assert twice.examples[0].say != twice.examples[1].say


def test_numbers_stand_where_they_are_called() -> None:
    text = (
        "[[topic]]\ntitle = 'x'\nlines = [['{podshare/count_brown: 10..10 OF 40..40 POD BROWN}, "
        "{length/len_unit: 3..3 INCH}', "
        "'#1/#2, #1-1', { a = '#1/#2', b = 'to #3', c = ['#1-1'], d = '#3 in', e = '#3 mm', f = 'rolled', g = 2 }]]\n"
    )
    (topic,) = fill(read_card(text))
    (example,) = topic.examples
    assert (example.say, example.gives) == ("10 of 40 pods brown, 3 inch", "25, 9")
    wanted = {"a": 25.0, "b": [1, 2, 3], "c": [9], "d": 76.2, "e": 3.0, "f": "rolled", "g": 2}
    assert example.facts == wanted


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("['plant 1, {trif/odd}', 'x', {}]", "'trif/odd' is no form that is said"),
        ("['plant 1, {trif/trif_n: INT ODD}', 'x', {}]", "'ODD' is no part, phrase, form or kind"),
        ("['plant 1, {trif/trif_n}', 'V#2', {}]", "draws 1 numbers, so there is no #2"),
        ("['plant 1, no pods', 'none', { a = '#1' }]", "draws 0 numbers, so there is no #1"),
        ("['{pods/pod_no: NO POD}', 'x', {}], ['{pods/pod_no: NO POD}', 'y', {}]", "finds no words that are not on"),
    ],
)
def test_a_line_that_cannot_be_drawn_is_refused(line: str, says: str) -> None:
    with pytest.raises(VocabularyError, match=says):
        fill(read_card(f"[[topic]]\ntitle = 'x'\nlines = [{line}]\n"))


def test_every_stage_has_a_topic() -> None:
    titles = " ".join(topic.title for topic in card())
    for stage in ("V", "R1", "R2", "R3", "R4", "R5", "R6", "R7", "R8"):
        assert stage in titles


def test_the_card_fits_one_page_of_text() -> None:
    lines = view.card(card())
    assert len(lines) <= 60  # US letter at six lines an inch, with margins
    assert max(map(len, lines)) <= 78


def test_the_page_needs_nothing_from_elsewhere_and_holds_every_example() -> None:
    page = view.card_page(card())
    assert "http" not in page and "<script" not in page and "src=" not in page
    for example in EXAMPLES:
        assert example.say in page
