"""The pages of `grammar/cues`: the real ones load and say where they are from; each refusal has its exact message."""

from __future__ import annotations

from pathlib import Path
from types import MappingProxyType

import pytest

from notesparse.errors import VocabularyError
from notesparse.language import cache, columns, cues, lists
from notesparse.language.folder import cue_files

GRAMMAR = Path(__file__).resolve().parents[2] / "grammar"
FOLDER = GRAMMAR / "cues"
FILES = sorted(FOLDER.rglob("*.toml"))

SOUND = """# Words that `walking/made_up.py` looks for.
having = ["'s", ",", "had", "has"]

[roman]
in_order = ["i", "v", "ii"]

[soon]
phrases = ["soon", "any day"]

[many]
two = 2
"""


def refusal(text: str) -> str:
    with pytest.raises(VocabularyError) as caught:
        cues.load_cues(text, "a.toml")
    return str(caught.value)


def page(text: str = SOUND) -> cues.CuePage:
    return cues.CuePage("a", cues.load_cues(text, "a.toml"))


def test_all_pages_are_found_and_load() -> None:
    names = [name for name, _ in cue_files()]
    assert names == sorted(path.relative_to(FOLDER).as_posix().removesuffix(".toml") for path in FILES)
    assert list(cues.read_cues()) == names


@pytest.mark.parametrize("file", FILES, ids=lambda f: f"{f.parent.name}/{f.stem}")
def test_every_page_says_what_it_is_and_where_it_is_from(file: Path) -> None:
    head = file.read_text(encoding="utf-8").split("\n\n")[0].splitlines()
    assert all(line.startswith("# ") for line in head)
    assert head[0].startswith("# Words that ") and head[-1].startswith("# Source: ")
    assert max(map(len, file.read_text(encoding="utf-8").splitlines())) <= 120


def test_a_family_is_the_words_of_its_lists() -> None:
    text = 'being = ["are", "is"]\nhaving = ["had"]\n[is_or_has]\nall_of = ["being", "having"]\n'
    assert page(text).words("is_or_has") == {"are", "is", "had"}


def test_a_family_names_lists_that_are_there() -> None:
    text = 'being = ["are", "is"]\n[is_or_has]\nall_of = ["being", "having"]\n'
    assert refusal(text) == "a.toml:2: 'is_or_has' has to name lists of words that stand above"


def test_each_shape_is_given_as_it_is_asked_for() -> None:
    assert page().words("having") == {"'s", ",", "had", "has"}
    assert page().ordered("roman") == ("i", "v", "ii")
    assert page().phrases("soon") == ("soon", "any day")
    assert page().rows("soon") == (("soon",), ("any", "day"))
    assert page().table("many", int) == {"two": 2}


def test_what_is_given_cannot_be_changed() -> None:
    assert isinstance(page().words("having"), frozenset)
    assert isinstance(page().table("many", int), MappingProxyType)


@pytest.mark.parametrize(
    ("how", "key", "said"),
    [
        ("words", "has", "a.toml: the list 'has' is missing"),
        ("words", "roman", "a.toml: 'roman' has to be a list of words"),
        ("ordered", "having", "a.toml: 'having' has to be a list in order"),
        ("phrases", "many", "a.toml: 'many' has to be a list of phrases"),
        ("rows", "having", "a.toml: 'having' has to be a list of phrases"),
    ],
)
def test_what_is_asked_for_in_vain(how: str, key: str, said: str) -> None:
    with pytest.raises(VocabularyError) as caught:
        getattr(page(), how)(key)
    assert str(caught.value) == said


@pytest.mark.parametrize(
    ("key", "kind", "said"),
    [
        ("having", int, "a.toml: 'having' has to be a table"),
        ("many", str, "a.toml: every word of 'many' has to mean a word"),
        ("many", bool, "a.toml: every word of 'many' has to mean true or false"),
    ],
)
def test_a_table_asked_for_in_vain(key: str, kind: type, said: str) -> None:
    with pytest.raises(VocabularyError) as caught:
        page().table(key, kind)
    assert str(caught.value) == said


def test_a_page_asked_for_in_vain() -> None:
    with pytest.raises(VocabularyError, match=r"walking/nowhere.toml: there is no such page in grammar/cues"):
        cues.cue_page("walking/nowhere")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (SOUND.replace('"had", "has"', '"has", "had"'), "a.toml:2: “had” in 'having' has to stand before “has”"),
        (SOUND.replace('"had", ', '"had",\n "had", '), "a.toml:3: “had” is twice in 'having'"),
        (SOUND.replace('"any day"', '"any day", "soon"'), "a.toml:8: “soon” is twice in 'soon'"),
        (SOUND.replace('["i", "v", "ii"]', "[]"), "a.toml:4: the list 'roman' is empty"),
        (SOUND.replace("two = 2", ""), "a.toml:10: the table 'many' is empty"),
        (SOUND.replace('"had"', '"Had"'), "a.toml:2: “Had” in 'having' has to be one word in small letters"),
        (SOUND.replace('"had"', '"had a"'), "a.toml:2: “had a” in 'having' has to be one word in small letters"),
        (SOUND.replace('"had"', '""'), "a.toml:2: “” in 'having' has to be one word in small letters"),
        (
            SOUND.replace('"any day"', '"any  day"'),
            "a.toml:8: “any  day” in 'soon' has to be words in small letters with one blank between them",
        ),
        (SOUND.replace('"had"', "1"), "a.toml:2: 'having' has to be a list of words"),
        (SOUND.replace('["i", "v", "ii"]', '"i"'), "a.toml:4: 'roman' has to be a list of words"),
        (SOUND.replace("two = 2", 'two = 2\nthree = "3"'), "a.toml:12: “three” in 'many' has to mean a whole number"),
        (SOUND.replace("two = 2", "two = [2]"), "a.toml:11: “two” in 'many' has to mean a word or a number"),
        (SOUND.replace("two = 2", 'two = ""'), "a.toml:11: “two” in 'many' has to mean a word"),
        ('having = "has"\n', "a.toml:1: 'having' has to be a list of words or a table"),
        (SOUND + "two = 3\n", "a.toml: not TOML: Cannot overwrite a value (at line 12, column 8)"),
    ],
    ids=lambda value: value[-30:] if value.startswith("a.toml") else "",
)
def test_what_is_refused(text: str, said: str) -> None:
    assert refusal(text) == said


def test_the_cache_is_made_anew_when_a_page_changes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "words").mkdir()
    (tmp_path / "lists").mkdir()
    (tmp_path / "cues" / "walking").mkdir(parents=True)
    (tmp_path / "cues" / "walking" / "made_up.toml").write_text(SOUND, encoding="utf-8")
    monkeypatch.setattr(cache, "grammar_folder", lambda: tmp_path)
    monkeypatch.setattr("notesparse.language.folder.grammar_folder", lambda: tmp_path)
    before = cache._grammar_hash.__wrapped__()
    assert cache._grammar_hash.__wrapped__() == before
    (tmp_path / "cues" / "walking" / "made_up.toml").write_text(SOUND.replace("had", "hat"), encoding="utf-8")
    assert cache._grammar_hash.__wrapped__() != before
    (tmp_path / "cues" / "walking" / "made_up.toml").rename(tmp_path / "cues" / "made_up.toml")
    (tmp_path / "cues" / "made_up.toml").write_text(SOUND, encoding="utf-8")
    assert (moved := cache._grammar_hash.__wrapped__()) != before
    (tmp_path / "lists" / "names.toml").write_text(SOUND, encoding="utf-8")
    assert cache._grammar_hash.__wrapped__() != moved


def test_what_is_kept_is_what_was_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path))
    monkeypatch.delenv("NOTESPARSE_NO_CACHE", raising=False)
    monkeypatch.setattr(cache, "cache_folder", lambda: tmp_path)
    made = cache.known_pages("cues", cues.read_cues)
    assert [path.name[:5] for path in tmp_path.iterdir()] == ["cues-"]
    assert cache.known_pages("cues", lambda: {}) == made == cues.read_cues()
    columns.column_words.cache_clear()
    lists.name_words.cache_clear()
    lists._kept.cache_clear()
    for kind in ("written", "kept"):
        assert columns.column_words() == columns.load_columns(
            (GRAMMAR / "words" / "columns.toml").read_text("utf-8")
        ), kind
        assert lists.name_words() == lists.load_list(
            lists.NameWords, (GRAMMAR / "lists" / "names.toml").read_text("utf-8"), "names.toml"
        ), kind
        columns.column_words.cache_clear()
        lists.name_words.cache_clear()
        lists._kept.cache_clear()
    assert sorted(path.name.split("-")[0] for path in tmp_path.iterdir()) == ["columns", "cues", "lists"]
