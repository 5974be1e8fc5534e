"""What the loader of the words refuses, each with its exact message."""

from __future__ import annotations

import pytest

from notesparse.errors import VocabularyError
from notesparse.language.columns import load_columns
from notesparse.language.vocabulary import check_kinds, load_words, near_twins

KINDS = frozenset({"POD", "SEED", "WEED", "LEAF"})


def refusal(texts: dict[str, str], declared: frozenset[str] | None = KINDS, used: frozenset[str] | None = KINDS) -> str:
    with pytest.raises(VocabularyError) as caught:
        load_words(texts, declared, used)
    return str(caught.value)


def word(kind: str, *say: str, **more: object) -> str:
    rest = "".join(f"{k} = {str(v).lower() if isinstance(v, bool) else repr(v)}\n" for k, v in more.items())
    listed = ", ".join(f'"{s}"' for s in say)
    return f'[[word]]\nkind = "{kind}"\nsay = [{listed}]\n{rest}\n'


def test_a_sound_file_loads() -> None:
    words = load_words({"a.toml": word("POD", "pod", "pods", "pod set", means="pod")}, KINDS, KINDS)
    assert words.singles["pods"] == (("POD", "pod", "pods", False, None),)
    assert words.near == {"p": ("pods",)}
    assert words.kinds == {"POD"}


def test_a_kind_that_is_not_declared() -> None:
    assert refusal({"a.toml": "# pods\n\n" + word("POT", "pod")}) == (
        "a.toml:5: kind POT of “pod” is not declared in terminals.lark"
    )


def test_a_kind_that_no_rule_reads() -> None:
    assert refusal({"a.toml": word("POD", "pod") + word("LEAF", "leaf")}, used=KINDS - {"LEAF"}) == (
        "a.toml:7: kind LEAF of “leaf” is read by no rule, so the word would never count"
    )


def test_a_declared_kind_that_nobody_uses() -> None:
    with pytest.raises(VocabularyError) as caught:
        check_kinds(
            "// kinds\n%declare POD\n%declare PODG LEAF\n",
            frozenset({"POD", "PODG", "LEAF"}),
            frozenset({"POD", "PODG"}),
        )
    assert str(caught.value) == (
        "terminals.lark:3: kind LEAF is declared, but no rule uses it; if the code reads it by itself, "
        "name it in READ_BY_CODE of language/vocabulary.py"
    )


def test_a_spelling_given_twice_in_one_file() -> None:
    text = word("POD", "pod", "pods", means="pod") + word("POD", "hull", "pods", means="pod")
    assert refusal({"a.toml": text}) == "a.toml:8: “pods” is given twice (a.toml:3)"


def test_a_spelling_given_twice_in_two_files() -> None:
    texts = {"a.toml": word("POD", "pods", means="pod"), "b.toml": "\n" + word("POD", "pods", means="pod")}
    assert refusal(texts) == "b.toml:4: “pods” is given twice (a.toml:3)"


def test_a_spelling_given_twice_in_other_case_or_spacing() -> None:
    text = word("POD", "pod set", means="pod") + word("POD", "Pod  Set", means="pod")
    assert refusal({"a.toml": text}) == "a.toml:8: “Pod  Set” is given twice (a.toml:3)"


def test_two_meanings_of_one_kind() -> None:
    text = word("WEED", "pigweed", means="pigweed") + word("WEED", "pigweed", means="palmer")
    assert refusal({"a.toml": text}) == "a.toml:8: “pigweed” is 'palmer' here and 'pigweed' in a.toml:3"


def test_two_senses_that_are_not_declared() -> None:
    texts = {"a.toml": word("POD", "full", means="full"), "b.toml": word("SEED", "full", means="full")}
    assert (
        refusal(texts) == "“full” has two senses that ambiguous.toml does not declare: a.toml:3 (POD), b.toml:3 (SEED)"
    )


def test_two_senses_that_are_declared() -> None:
    listed = '[[ambiguous]]\nsay = "full"\nkinds = ["POD", "SEED"]\n'
    texts = {"a.toml": word("POD", "full"), "b.toml": word("SEED", "full"), "ambiguous.toml": listed}
    assert len(load_words(texts, KINDS, KINDS).singles["full"]) == 2


def test_a_third_sense_beside_two_declared() -> None:
    listed = '[[ambiguous]]\nsay = "full"\nkinds = ["POD", "SEED"]\n'
    texts = {
        "a.toml": word("POD", "full"),
        "b.toml": word("SEED", "full") + word("LEAF", "full"),
        "ambiguous.toml": listed,
    }
    assert refusal(texts) == (
        "“full” has two senses that ambiguous.toml does not declare: a.toml:3 (POD), b.toml:3 (SEED), b.toml:7 (LEAF)"
    )


def test_no_kind() -> None:
    assert (
        refusal({"a.toml": '\n[[word]]\nsay = ["pod"]\n'}) == "a.toml:2: an entry without kind or say: {'say': ['pod']}"
    )


def test_no_say() -> None:
    text = word("POD", "pod") + '[[word]]\nkind = "POD"\nsay = []\n'
    assert refusal({"a.toml": text}) == "a.toml:5: an entry without kind or say: {'kind': 'POD', 'say': []}"


def test_an_empty_spelling() -> None:
    assert (
        refusal({"a.toml": word("POD", "pod", " ", means="pod")})
        == "a.toml:3: an empty spelling in the entry for 'pod'"
    )


def test_a_key_that_means_nothing() -> None:
    assert refusal({"a.toml": word("POD", "pod", nearby=False)}) == (
        "a.toml:3: the entry of “pod” has a key 'nearby' that means nothing"
    )


def test_broken_toml() -> None:
    assert (
        refusal({"a.toml": '[[word]]\nkind = "POD\n'})
        == "a.toml: not TOML: Illegal character '\\n' (at line 2, column 12)"
    )


def test_near_twins_that_are_not_listed() -> None:
    texts = {"a.toml": word("SEED", "seeds"), "b.toml": word("WEED", "weeds"), "c.toml": "twins = []"}
    assert refusal(texts) == (
        "a.toml:3: “seeds” (SEED) is one letter from “weeds” (WEED, b.toml:3), so a slip of one may be "
        "read as the other: list the two as [[twins]] in ambiguous.toml, or take one out of reach with near = false"
    )


@pytest.mark.parametrize(
    "way",
    [
        {
            "a.toml": word("SEED", "seeds"),
            "b.toml": word("WEED", "weeds"),
            "c.toml": '[[twins]]\nsay = ["weeds", "seeds"]\n',
        },
        {"a.toml": word("SEED", "seeds"), "b.toml": word("WEED", "weeds", near=False)},  # out of reach
        {
            "a.toml": word("SEED", "seeds"),
            "b.toml": word("WEED", "weeds", sound=True),
        },  # a mis-hearing is never reached by nearness
        {"a.toml": word("SEED", "seed"), "b.toml": word("WEED", "weed")},  # four letters
        {"a.toml": word("SEED", "seeds") + word("SEED", "seedz")},  # one kind
        {"a.toml": word("SEED", "seeds"), "b.toml": word("WEED", "weedy")},  # two edits
    ],
)
def test_twins_that_are_let_be(way: dict[str, str]) -> None:
    load_words({"d.toml": '[[twins]]\nsay = ["x", "y"]\n', **way}, KINDS, KINDS)


def test_without_a_list_twins_are_not_looked_for() -> None:
    load_words({"a.toml": word("SEED", "seeds"), "b.toml": word("WEED", "weeds")}, KINDS, KINDS)


@pytest.mark.parametrize(
    ("a", "b", "twins"),
    [
        ("seeds", "weeds", True),
        ("flower", "lower", True),
        ("joint", "joints", True),
        ("brwon", "brown", True),
        ("podds", "ponds", True),
        ("abcde", "badce", False),
        ("seeds", "seedy", True),
        ("seeds", "sedes", True),
        ("leafy", "lefay", True),
        ("lower", "flowers", False),
    ],
)
def test_one_edit(a: str, b: str, twins: bool) -> None:
    near = {}
    for w in (a, b):
        near.setdefault(w[0], []).append(w)
    found = near_twins(near, {a: [("SEED", a, a, False, None)], b: [("WEED", b, b, False, None)]})
    assert bool(found) is twins


def test_column_heads_with_two_meanings() -> None:
    with pytest.raises(VocabularyError) as caught:
        load_columns('[[head]]\nmeans = "pods"\nsay = ["pd"]\n[[head]]\nmeans = "plant"\nsay = ["pd"]\n')
    assert str(caught.value) == "columns.toml: “pd” has two meanings as head"


def test_a_cell_with_two_meanings() -> None:
    with pytest.raises(VocabularyError) as caught:
        load_columns('[[cell]]\nmeans = "yes"\nsay = ["x"]\n[[cell]]\nmeans = "no"\nsay = ["X"]\n')
    assert str(caught.value) == "columns.toml: the cell “X” means both yes and no"


def test_an_empty_column_head() -> None:
    with pytest.raises(VocabularyError) as caught:
        load_columns('[[head]]\nmeans = "pods"\nsay = ["."]\n')
    assert str(caught.value) == "columns.toml: an empty spelling in the entry for 'pods'"


def test_broken_columns() -> None:
    with pytest.raises(VocabularyError, match=r"^columns\.toml: not TOML: "):
        load_columns("[[head")
