"""Every word that can be said has a sound, or is declared as written only."""

from __future__ import annotations

import pytest

from notesparse.errors import VocabularyError
from notesparse.language.card import entries
from notesparse.spoken import pronouncing
from notesparse.spoken.compiled import compiled
from notesparse.spoken.pronouncing import missing, phones, read_pronunciations, spoken_words
from notesparse.spoken.spellings import spelled_words
from notesparse.spoken.written import read_written, written

pytest.importorskip("pocketsphinx", reason="CMUdict comes with it")


def test_no_word_is_without_a_sound() -> None:
    silent = missing()
    assert silent == [], (
        f"{len(silent)} words of grammar/words have no pronunciation: {' '.join(silent[:20])}. Give each a line in "
        "grammar/spoken/pronunciations.toml, or name it in `only` of grammar/spoken/written.toml if nobody says it so."
    )


def test_every_word_of_the_model_and_of_the_answers_has_a_sound() -> None:
    spoken = compiled()
    assert sorted(w for w in spoken.trigram.words | spoken.answers.words if not phones(w)) == []


def test_what_is_declared_as_written_is_still_in_the_words() -> None:
    assert sorted(w for w in written().only if w not in spelled_words() and len(w) > 1) == []


def test_what_is_declared_as_misheard_is_still_in_the_words() -> None:
    said = {(e.kind, spelling) for e in entries() for spelling in e.say}
    assert [
        (k, w)
        for table in (written().misheard, written().letters)
        for k, some in table.items()
        for w in some
        if (k, w) not in said
    ] == []


def test_no_short_form_is_spoken() -> None:
    assert spoken_words() & {"tf", "nd", "fl", "pd", "sds", "mm", "w", "trifoliats"} == set()
    assert {"trifs", "trifoliates", "nodes", "flowers", "waterhemp", "cotyledons", "v", "r"} <= spoken_words()


def test_a_new_word_without_a_sound_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pronouncing, "spelled_words", lambda: frozenset({"pods", "xyzzywort", "tf"}))
    assert missing() == ["xyzzywort"]


@pytest.mark.parametrize(
    ("word", "ways"),
    [
        ("v", ["V IY"]),
        ("vee", ["V IY"]),
        ("trifs", ["T R AY F S", "T R IH F S"]),
        ("frogeye", ["F R AO G AY", "F R AA G AY"]),
        ("waterhemps", ["W AO T ER HH EH M P S"]),
        ("nobody's-word", []),
    ],
)
def test_how_a_word_sounds(word: str, ways: list[str]) -> None:
    assert set(ways) >= {" ".join(way) for way in phones(word)} if ways else phones(word) == []
    assert bool(phones(word)) == bool(ways)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("x", "p.toml: not TOML"),
        ("[sounds]\na = 'AH'", "expected the tables"),
        ("[phones]\na = 'AX'", "no phone of the model"),
        ("[phones]\nA = 'AH'", "small letters"),
        ("[phones]\na = 'AH'\n[like]\na = 'b'", "there once"),
        ("[like]\na = 'B'", "words in small letters"),
    ],
)
def test_a_page_that_is_refused(text: str, message: str) -> None:
    with pytest.raises(VocabularyError, match=message):
        read_pronunciations(text, "p.toml")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("x", "not TOML"),
        ("only = 'a'", "expected `only`"),
        ("only = 'a B'\n[said]\n[misheard]\n[letters]", "small letters"),
        ("only = 'a a'\n[said]\n[misheard]\n[letters]", "twice"),
        ("only = 'a'\n[misheard]\n[letters]\n[said]\nb = ''", "stand for words"),
    ],
)
def test_a_list_that_is_refused(text: str, message: str) -> None:
    with pytest.raises(VocabularyError, match=message):
        read_written(text, "w.toml")
