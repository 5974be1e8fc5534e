"""Which value is in force: each layer goes over the one below it, and says where it stands."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesparse.errors import InputError
from notesparse.settings.file import user_file
from notesparse.settings.layers import in_force, keep, options_in_force
from notesparse.settings.table import SETTINGS


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def rule(**flags: object) -> tuple[object, str]:
    now = in_force(flags)["counting_rule"]
    return now.value, now.where


def test_each_layer_goes_over_the_one_below(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert rule() == ("open-trifoliates", "built-in")
    keep("counting_rule", "open-nodes")
    assert rule() == ("open-nodes", f"{user_file()}:1")
    (here / "notesparse.toml").write_text('# ours\ncounting_rule = "developed-trifoliates"\n', encoding="utf-8")
    assert rule() == ("developed-trifoliates", f"{here / 'notesparse.toml'}:2")
    monkeypatch.setenv("NOTESPARSE_COUNTING_RULE", "open-nodes")
    assert rule() == ("open-nodes", "NOTESPARSE_COUNTING_RULE")
    assert rule(counting_rule="open-trifoliates") == ("open-trifoliates", "--counting-rule")


def test_the_project_file_is_found_from_a_folder_below(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (here / "notesparse.toml").write_text("day_first = true\n", encoding="utf-8")
    below = here / "july" / "north"
    below.mkdir(parents=True)
    monkeypatch.chdir(below)
    assert options_in_force().day_first


def test_a_scout_goes_over_everybody_in_the_same_file() -> None:
    keep("rolled_tip", "not-counted")
    keep("rolled_tip", "counted", scout="dana")
    assert in_force()["rolled_tip"].value == "not-counted"
    assert in_force({"scout": "dana"})["rolled_tip"].value == "counted"
    assert in_force({"scout": "lee"})["rolled_tip"].value == "not-counted"


def test_what_is_unset_falls_back() -> None:
    keep("bare_length", "mm")
    keep("bare_length", None)
    assert in_force()["bare_length"].where == "built-in"


@pytest.mark.parametrize("one", SETTINGS, ids=lambda one: one.name)
def test_every_built_in_value_is_one_that_may_be(one: object) -> None:
    value = one.built_in  # type: ignore[attr-defined]
    assert value == "" or one.read(value) == value  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('counting_rule = "nodes"\n', "notesparse.toml:1: counting_rule is 'nodes'"),
        ('# x\ncountin_rule = "open-nodes"\n', "notesparse.toml:2: "),
        ("day_first = [1]\n", "notesparse.toml:1: day_first"),
        ("day_first =\n", "notesparse.toml"),
        ('[habits.dana]\nseason = "x.db"\n', "season"),
    ],
)
def test_a_wrong_file_is_refused_with_its_line(here: Path, text: str, says: str) -> None:
    (here / "notesparse.toml").write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as fault:
        in_force()
    assert says in str(fault.value)


def test_keeping_leaves_comments_and_other_values_alone(here: Path) -> None:
    path = here / "notesparse.toml"
    path.write_text(
        '# our farm\nday_first = true  # as at home\n\n[habits.lee]\nbare_length = "mm"\n', encoding="utf-8"
    )
    keep("counting_rule", "open-nodes", project=True)
    keep("counting_rule", None, project=True)
    assert path.read_text(encoding="utf-8") == (
        '# our farm\nday_first = true  # as at home\n\n[habits.lee]\nbare_length = "mm"\n'
    )


def test_words_of_the_environment_that_are_no_value_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NOTESPARSE_DAY_FIRST", "maybe")
    with pytest.raises(InputError, match="NOTESPARSE_DAY_FIRST is 'maybe', and should be yes or no"):
        in_force()
