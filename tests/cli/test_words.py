"""`notesparse words` as it is typed."""

from __future__ import annotations

import json
from pathlib import Path

from notesparse.spoken.card import card
from tests.cli.conftest import Run


def test_the_card_as_text_page_and_json(run: Run, desk: Path) -> None:
    shown = run("words").stdout
    said = [e.say for topic in card() for e in topic.examples]
    assert all(say in shown for say in said)
    assert run("words", "-o", "card.html").exit_code == 0
    assert (desk / "card.html").read_text(encoding="utf-8").startswith("<!doctype html>")
    topics = json.loads(run("words", "--json").stdout)
    assert [e["say"] for topic in topics for e in topic["examples"]] == said


def test_a_word_with_its_spellings_and_its_examples(run: Run) -> None:
    got = run("words", "pin", "pods")
    assert got.exit_code == 0 and "tiny pods" in got.stdout
    found = json.loads(run("words", "trifs", "--json").stdout)
    assert "trifoliate" in {e["means"] for e in found}
    assert "plant 1, no pods" in run("words", "pods").stdout


def test_a_taught_word_is_found(run: Run) -> None:
    assert run("words", "dinglies").exit_code == 1
    assert run("teach", "dinglies", "unifoliates").exit_code == 0
    assert "Your own words" in run("words", "dinglies").stdout


def test_an_unknown_word_says_what_is_near(run: Run) -> None:
    got = run("words", "trifoliatte")
    assert got.exit_code == 1
    assert "No word like 'trifoliatte' is known. Near it are: trifoliate" in got.stderr + str(got.exception or "")


def test_the_page_is_the_card_alone(run: Run) -> None:
    assert run("words", "pods", "--html").exit_code == 2
