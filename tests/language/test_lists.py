"""The lists of `grammar/lists`: the real ones load and are tidy; each refusal has its exact message."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from notesparse.errors import VocabularyError
from notesparse.language import lists

FOLDER = Path(__file__).resolve().parents[2] / "grammar" / "lists"
FILES = sorted(FOLDER.glob("*.toml"))
READERS = {
    "ground.toml": lists.ground_words,
    "names.toml": lists.name_words,
    "claims.toml": lists.claim_words,
    "number-slips.toml": lists.number_slips,
    "odd-names.toml": lists.odd_name_words,
    "same-again.toml": lists.same_again_words,
}

SOUND = """# What may stand behind `same as`.
the_last = [
    "it", "last",
]

[sounds]
to = "2"
"""


def refusal(text: str, page: type = lists.SameAgainWords) -> str:
    with pytest.raises(VocabularyError) as caught:
        lists.load_list(page, text, "a.toml")
    return str(caught.value)


def test_every_file_has_its_reader() -> None:
    assert [file.name for file in FILES] == sorted(READERS)


@pytest.mark.parametrize("name", sorted(READERS))
def test_every_file_loads(name: str) -> None:
    assert READERS[name]()


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.stem)
def test_every_file_says_what_belongs_in_it_and_where_it_is_from(file: Path) -> None:
    head = file.read_text(encoding="utf-8").split("\n\n")[0]
    assert all(line.startswith("# ") for line in head.splitlines())
    assert all(f"# {part}" in head for part in ("What belongs here:", "What does not:", "Source:"))


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.stem)
def test_every_list_is_sorted(file: Path) -> None:
    data = tomllib.loads(file.read_text(encoding="utf-8"))
    assert [key for key, words in data.items() if isinstance(words, list) and words != sorted(words)] == []


def test_a_sound_file_loads() -> None:
    page = lists.load_list(lists.SameAgainWords, SOUND, "a.toml")
    assert page.the_last == {"it", "last"}
    assert page.sounds == {"to": "2"}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (SOUND + "\n[more]\na = 1\n", "a.toml:9: a list 'more' that nothing asks for"),
        (SOUND.split("[sounds]")[0], "a.toml: the list 'sounds' is missing"),
        (SOUND.replace('"it", "last",', ""), "a.toml:2: the list 'the_last' is empty"),
        (SOUND.replace('to = "2"', ""), "a.toml:6: the table 'sounds' is empty"),
        (SOUND.replace('"it", ', '"last",\n    "it", '), "a.toml:4: “last” is twice in 'the_last'"),
        (SOUND.replace('"it"', '"It"'), "a.toml:3: “It” in 'the_last' has to be one word in small letters"),
        (SOUND.replace('"it"', '"it is"'), "a.toml:3: “it is” in 'the_last' has to be one word in small letters"),
        (SOUND.replace('"it"', "1"), "a.toml:2: 'the_last' has to be a list of words"),
        (SOUND.replace('"2"', "2"), "a.toml:7: “to” in 'sounds' has to mean a word"),
        (SOUND.replace("[sounds]\nto", "sounds"), "a.toml:6: 'sounds' has to be a table"),
        (SOUND + "to = '3'\n", "a.toml: not TOML: Cannot overwrite a value (at line 8, column 9)"),
    ],
    ids=lambda value: value[-30:] if value.startswith("a.toml") else "",
)
def test_what_is_refused(text: str, said: str) -> None:
    assert refusal(text) == said


def test_a_place_has_to_be_a_whole_number() -> None:
    text = '[numbers]\nfourty = "forty"\n[ordinals]\nfrist = true\n[parts]\nquater = 4\n'
    assert refusal(text, lists.NumberSlips) == "a.toml:4: “frist” in 'ordinals' has to mean a whole number"
