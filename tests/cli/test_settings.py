"""`notesparse settings`, `teach` and `unteach` as they are typed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run


def test_settings_say_where_each_value_comes_from(run: Run, desk: Path) -> None:
    (desk / "notesparse.toml").write_text("day_first = true\n", encoding="utf-8")
    got = run("settings", "--json", "--set", "counting_rule=open-nodes")
    assert got.exit_code == 0
    now = json.loads(got.stdout)
    assert now["counting_rule"] == {"value": "open-nodes", "where": "--counting-rule"}
    assert now["day_first"] == {"value": True, "where": f"{desk / 'notesparse.toml'}:1"}
    assert now["node_start"]["where"] == "built-in"
    shown = run("settings").stdout
    for name in now:
        assert name in shown


def test_a_set_value_is_used_and_unset_again(run: Run) -> None:
    asked = run("read", "-", "--json", input="p1 five trifs, top one still rolled\n")
    assert [q["rule"] for q in json.loads(asked.stdout)["questions"]] == ["4.8"]
    assert run("settings", "set", "rolled-tip", "counted", "--scout", "dana").exit_code == 0
    still = run("read", "-", "--json", input="p1 five trifs, top one still rolled\n")
    assert json.loads(still.stdout)["questions"]
    mine = run("read", "-", "--json", "--scout", "dana", input="p1 five trifs, top one still rolled\n")
    record = json.loads(mine.stdout)
    assert record["questions"] == [] and record["visits"][0]["plants"][0]["trifoliates"] == 4
    assert run("settings", "unset", "rolled-tip", "--scout", "dana").exit_code == 0
    again = run("read", "-", "--json", "--scout", "dana", input="p1 five trifs, top one still rolled\n")
    assert json.loads(again.stdout)["questions"]


def test_a_dry_run_writes_nothing(run: Run) -> None:
    got = run("settings", "set", "counting_rule", "open-nodes", "--dry-run")
    assert got.exit_code == 0 and "would be open-nodes" in got.stdout
    assert json.loads(run("settings", "--json").stdout)["counting_rule"]["where"] == "built-in"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("settings", "set", "counting_rul", "open-nodes"), "did you mean counting_rule?"),
        (("settings", "set", "counting_rule", "nodes"), "should be open-trifoliates or open-nodes"),
        (("settings", "set", "season", "x.db", "--scout", "dana"), "no habit of a scout"),
        (("read", "2026-07-14_creek.txt", "--set", "counting_rule"), "NAME=VALUE"),
        (("read", "2026-07-14_creek.txt", "--set", "colour=red"), "no setting 'colour'"),
    ],
)
def test_what_is_no_setting_is_refused(run: Run, words: tuple[str, ...], says: str) -> None:
    got = run(*words)
    assert got.exit_code in {1, 2}
    assert says in got.stderr + str(got.exception or "")


def unread(run: Run, text: str, *more: str) -> list[str]:
    got = run("read", "-", "--json", *more, input=text)
    return [text[a:b] for a, b in (u["span"] for u in json.loads(got.stdout)["unread"])]


SAYS = "p1 has the dinglies open and 3 trifs\n"


def test_a_taught_word_is_read_until_it_is_untaught(run: Run) -> None:
    assert any("dinglies" in part for part in unread(run, SAYS))
    got = run("teach", "dinglies", "unifoliates")
    assert got.exit_code == 0, got.stderr
    assert not any("dinglies" in part for part in unread(run, SAYS))
    assert any("dinglies" in part for part in unread(run, SAYS, "--no-taught"))
    assert [w["say"] for w in json.loads(run("teach", "--json").stdout)] == ["dinglies"]
    assert run("unteach", "dinglies").exit_code == 0
    assert any("dinglies" in part for part in unread(run, SAYS))
    assert json.loads(run("teach", "--json").stdout) == []


def test_a_dry_run_of_teaching_shows_which_notes_change(run: Run, desk: Path) -> None:
    (desk / "mine.txt").write_text(SAYS, encoding="utf-8")
    got = run("teach", "dinglies", "unifoliates", "--dry-run", "--notes", "mine.txt", "--notes", "2026-07-14_creek.txt")
    assert got.exit_code == 0
    assert "mine.txt" in got.stdout and "creek" not in got.stdout
    assert "1 of 2 notes read differently." in got.stdout
    assert json.loads(run("teach", "--json").stdout) == []


@pytest.mark.parametrize(
    ("word", "meaning", "says"),
    [
        ("pods", "flowers", "pods"),  # it has a meaning already
        ("dinglies", "zorblax", "no word that notesparse knows"),
        ("7", "flowers", "7"),
        ("", "flowers", ""),
    ],
)
def test_what_cannot_be_taught_is_refused(run: Run, word: str, meaning: str, says: str) -> None:
    got = run("teach", word, meaning)
    assert got.exit_code in {1, 2}
    assert says in got.stderr + str(got.exception or "")
    assert json.loads(run("teach", "--json").stdout) == []


def test_a_word_that_was_never_taught_cannot_be_untaught(run: Run) -> None:
    got = run("unteach", "dinglies")
    assert got.exit_code == 1
    assert "dinglies" in got.stderr + str(got.exception or "")


def test_a_broken_list_of_words_is_named_with_its_line(run: Run, desk: Path) -> None:
    (desk / "words.toml").write_text('[[word]]\nkind = "FLOWER"\nmeans = "flower"\nsay = ["pods"]\n', encoding="utf-8")
    got = run("read", "2026-07-14_creek.txt", "--set", f"words={desk / 'words.toml'}")
    assert got.exit_code == 1
    assert "words.toml" in got.stderr + str(got.exception or "")
