"""Names of fields: the same one folded, those that look alike and are asked, joins and their undo."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable

import pytest

from notesparse.season.fieldnames import alike, folded, join, known, look_alike, part
from notesparse.season.keep import new_step, undo
from notesparse.season.log import writing
from notesparse.season.look import fields

Kept = Callable[..., sqlite3.Connection]


@pytest.mark.parametrize(
    "names",
    [
        ("Wagon Gate", "wagon gate", "WAGON GATE", "the Wagon Gate", "Wagon Gate field", "Wagon-Gate"),
        ("Miller's", "millers", "Miller’s".replace("’", "'")),
    ],
)
def test_one_name_in_several_spellings(names: tuple[str, ...]) -> None:
    assert len({folded(name) for name in names}) == 1


@pytest.mark.parametrize(
    ("one", "two", "expected"),
    [
        ("hazel", "hazel piece", True),
        ("sheep hlll", "sheep hill", True),
        ("limekiln", "lime kiln", True),
        ("mill 40", "mill 80", False),
        ("north bottom", "south bottom", False),
        ("wagon gate", "barn lot", False),
        ("home east", "home west", False),
    ],
)
def test_which_names_look_alike(one: str, two: str, expected: bool) -> None:
    assert alike(one, two) is expected and alike(two, one) is expected


def two_names(kept: Kept) -> sqlite3.Connection:
    return kept("Hazel Piece 6/12 p1 V3", "Hazel 6/3 p1 V1", "Hazel Piece 6/24 p1 V6")


def test_names_that_look_alike_are_asked_and_not_joined_by_themselves(kept: Kept) -> None:
    log = two_names(kept)
    assert look_alike(log) == [("hazel", "hazel piece")]
    assert [f.name for f in fields(log)] == ["Hazel", "Hazel Piece"]


def test_a_join_moves_visits_and_holds_for_later_notes(kept: Kept) -> None:
    log = two_names(kept)
    with writing(log):
        assert join(log, "Hazel", "Hazel Piece", new_step(log, "join")) == 1
    assert [(f.name, len(f.visits)) for f in fields(log)] == [("Hazel Piece", 3)]
    assert look_alike(log) == []
    assert known(log, "hazel") == known(log, "HAZEL PIECE")


def test_a_join_is_undone(kept: Kept) -> None:
    log = two_names(kept)
    with writing(log):
        join(log, "Hazel", "Hazel Piece", new_step(log, "join"))
    done = undo(log)
    assert done is not None and done.what == "join"
    assert [(f.name, len(f.visits)) for f in fields(log)] == [("Hazel", 1), ("Hazel Piece", 2)]


def test_names_kept_apart_are_not_asked_again(kept: Kept) -> None:
    log = two_names(kept)
    with writing(log):
        part(log, "Hazel", "Hazel Piece")
    assert look_alike(log) == []
    assert len(fields(log)) == 2
