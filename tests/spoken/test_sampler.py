"""What is made up is what the program reads: phrase by phrase, breath by breath, and the card as it is spoken."""

from __future__ import annotations

import json
import re
from collections import Counter

import pytest

from notesparse import read
from notesparse.errors import VocabularyError
from notesparse.language.cache import known_words
from notesparse.reading.parse import phrases_at
from notesparse.spoken.card import card
from notesparse.spoken.compiled import compiled
from notesparse.spoken.draw import Draw, Weighted
from notesparse.spoken.numerals import spell
from notesparse.spoken.order import order, read_order
from notesparse.spoken.pronouncing import spoken_words
from notesparse.spoken.sampler import every_spelling, phrases, sentences
from notesparse.text.lattice import Lattice
from notesparse.text.scan import scan

NOTE_DATE = "2026-07-14"
NEEDS_MORE = {
    "group/group_n": "`on the nineteen` needs plants before it",
    "group/group_all": "`either` alone is half of either or",
    "label/last_n": "a share of plants: needs the others before it",
    "label/next_n": "likewise",
    "label/plant_the_ord": "the plant is told of before, and what it has stands behind it",
    "label/plant_list": "the same plant twice",
    "label/plant_letter": "`plants b` is no label",
    "label/plant_n": "`bean six` needs a bean before it",
    "correct/cue": "`counted again` puts right only where a number follows",
    "correct/cue_ord": "`no fourteenth` may be a node",
    "length/len_range": "the units of the two ends",
    "maturity/group_digits": "a group and its tenth are single digits",
    "trif/trif_nr": "`trifoliates count of` needs its figures on one line",
    "goto/goto": "`next one is` goes to a field only where a name stands behind it",
    "nodes/nodes_more": "goes on over commas",
    "trif/trif_more": "likewise",
    "place/top_n": "so many nodes are no top of a plant",
    "place/lower": "`way down below nodes` names no node",
    "place/ord_up": "`seventh no up`: of the words for none only no is heard as a node",
    "pods/pod_int": "`pods on twenty` is a number of plants",
    "pods/pod_int_range": "`pods on nine or eleven` are plants or nodes",
    "pods/pod_len": "no pod is measured in feet",
    "pods/pod_inch": "`inches pods` is no size",
    "stage/v_half": "a stage and a sixteenth is none",
    "pods/pod_frac": "`podding` with a size is read only beside a plant",
    "podshare/share_brown": "`sixty percent with brown pods` are plants",
    "podshare/frac_brown": "shares in sixteenths are none",
    "ratio/n_in_m": "needs what is counted behind it",
    "flowers/fl_yes": "`the odd flowering` are plants",
    "pods/pod_yes": "`some podding` are plants",
    "ratio/n_of_m": "more than there are is no share",
    "ratio/of_m_n": "likewise",
    "rows/rows": "rows closer or wider than rows are",
    "flowers/fl_no": "`not blooming all the way` is not all of it",
    "topleaf/n_plus_rolled": "`are not with` may be heard for a stage",
    "same/same_also": "`likewise` needs a plant before it",
    "same/same_last": "`do` alone is talk",
    "same/list_same": "`do` behind two numbers is talk",
    "same/range_same": "a range that does not rise, and a do behind no label",
    "same/same_row": "`ditto 1` needs a row of its own",
    "same/same_row_letter": "`ditto A` likewise",
    "same/same_n": "`same as last one plant five` points at two plants",
    "stage/r_range": "a range that goes back",
    "stage/v_range": "a range of one stage",
    "stage/the_v_r": "`the one r three`: the one is a plant, not V1",
}
"""Forms of which some made-up values are no such phrase, with the reason."""


@pytest.fixture(scope="module")
def tried() -> tuple[Counter[str], dict[str, list[str]]]:
    words = known_words()
    count: Counter[str] = Counter()
    unread: dict[str, list[str]] = {}
    for form, said in phrases(seed=5, count=3000):
        text = " ".join(said)
        pieces = scan(text)
        whole = {f"{p.rule}/{p.form}" for p in phrases_at(Lattice(text, pieces, words), 0) if p.end == len(pieces)}
        count[form] += 1
        if form not in whole:
            unread.setdefault(form, []).append(text)
    return count, unread


def test_what_is_made_up_is_a_phrase_of_its_own_form(tried) -> None:
    _, unread = tried
    assert {form: texts for form, texts in unread.items() if form not in NEEDS_MORE} == {}


def test_few_are_none(tried) -> None:
    count, unread = tried
    assert len(count) > 200
    shares = {"ratio/n_of_m", "ratio/of_m_n"}  # of two numbers by chance every other one is more than there are
    commas = {"nodes/nodes_more", "trif/trif_more"}  # which nobody speaks
    by_themselves = {
        "correct/cue",
        "label/plant_the_ord",
        "pods/pod_inch",
        "stage/v_half",
        "same/same_row",
    }  # a recount without its number, inches, other fractions, a row without its line
    left_out = shares | commas | by_themselves
    assert sum(len(texts) for form, texts in unread.items() if form not in left_out) < 0.03 * count.total()


def test_breaths_are_read() -> None:
    """Words alone on the page have no plant, no place and no noun, so some stay unread; most do not."""
    words = unread = 0
    for said in sentences(seed=7, count=400):
        text = " ".join(said)
        words += len(said)
        unread += sum(len(u.span.of(text).split()) for u in read(text, date=NOTE_DATE).unread)
    assert unread < 0.15 * words


def test_the_same_seed_says_the_same() -> None:
    assert sentences(3, 50) == sentences(3, 50)
    assert sentences(3, 50) != sentences(4, 50)
    assert sentences(3, 50)[:20] == sentences(3, 20)


def test_only_words_that_are_said() -> None:
    for said in [*sentences(8, 3000), *every_spelling()]:
        assert said
        assert all(re.fullmatch(r"[a-z']+", w) for w in said), said


def test_every_made_up_word_is_in_the_model_and_the_trade_in_the_vocabulary() -> None:
    spoken = compiled()
    made = {w for said in sentences(9, 2000) for w in said}
    assert made <= spoken.trigram.words
    assert spoken_words() <= spoken.vocabulary <= spoken.trigram.words


def test_no_number_is_drowned() -> None:
    """Digits and the words of the trade that every note holds are said often; no hundreds in their place."""
    words = Counter(w for said in sentences(10, 4000) for w in said)
    for digit in "one two three four five six seven eight nine ten eleven twelve".split():
        assert words[digit] > 150, digit
    assert words["hundred"] < words["nine"] / 4
    for word in "plant trifs trifoliates flowers pods seed node nodes top inch r v no".split():
        assert words[word] > 100, word


@pytest.mark.parametrize("example", [e for t in card() for e in t.examples], ids=lambda e: e.say)
def test_the_card_comes_through_as_it_is_said(example) -> None:
    said = spell(example.say)
    assert [w for w in said if w not in compiled().vocabulary] == []
    record = json.loads(read(" ".join(said), date=NOTE_DATE).to_json())
    assert (record["unread"], record["questions"]) == ([], [])
    plants = [p for visit in record["visits"] for p in visit["plants"]]
    assert {key: plants[-1][key] for key in example.facts} == dict(example.facts)


def test_the_usual_ways_of_saying_are_ways_of_saying() -> None:
    from notesparse.spoken.spellings import meanings

    for kind, usual in order().usual.items():
        said = {words for m in meanings()[kind] for words in m.say}
        assert [words for words in usual if words not in said] == []


def test_drawing() -> None:
    draw = Draw(1)
    numbers = [draw.number() for _ in range(4000)]
    assert 0 <= min(numbers) and max(numbers) < 1 and abs(sum(numbers) / 4000 - 0.5) < 0.02
    assert {draw.whole(2, 4) for _ in range(100)} == {2, 3, 4}
    many = Counter(Weighted([("a", 3.0), ("b", 1.0)]).drawn(draw) for _ in range(4000))
    assert 0.7 < many["a"] / 4000 < 0.8


SOUND = {
    "names": 'names = "mill"',
    "unsaid": 'unsaid = ""',
    "light": 'light = "FILLER"',
    "breath": '[[breath]]\noften = 1\nparts = ["a"]',
    "parts": "[parts.a]\n'FLOWER' = 1",
    "usual": "[usual]",
    "numbers": "[numbers]\nINT = [1, 20]",
}


def test_a_small_order_is_read() -> None:
    assert read_order("\n".join(SOUND.values())).names == ("mill",)


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"usual": "[odd]"}, "'odd' is missing or over|'usual' is missing or over"),
        ({"names": "names"}, "not TOML"),
        ({"parts": "[parts.a]\n'FLOWERS' = 1"}, "'FLOWERS' is no part, phrase, form or kind"),
        ({"parts": "[parts.a]\n'FLOWER' = 0"}, "a number above nothing"),
        ({"parts": "[parts.a]\n'trif/odd' = 1"}, "'trif/odd' is no part"),
        ({"parts": "[parts.a]\n'FLOWER' = 1\n[parts.b]\n'POD' = 1"}, "the part 'b' is in no breath"),
        ({"breath": '[[breath]]\noften = 1\nparts = ["c"]'}, "a part 'c' that is not there"),
        ({"usual": "[usual]\nODD = ['a']"}, "ODD is not declared"),
        ({"unsaid": 'unsaid = "trif/odd"'}, "'trif/odd' is no part"),
    ],
)
def test_an_order_that_is_refused(changed: dict[str, str], message: str) -> None:
    with pytest.raises(VocabularyError, match=message):
        read_order("\n".join((SOUND | changed).values()))
