"""Words beside words: what is the same, what sounds alike, what is put right, what is doubtful, what is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from notesparse.listening import agree, gate
from notesparse.listening.alike import Side, beside, folded
from notesparse.listening.alone import doubtful, unlikely
from notesparse.listening.heard import Change, Hearing
from notesparse.listening.repair import repaired
from notesparse.listening.rerank import in_the_sound, taken
from notesparse.listening.sounds import apart, by_letters, sounds
from notesparse.listening.trade import Trade, key, keys
from tests.listening.conftest import Few, hearing, needs_pocketsphinx


def test_plurals_spellings_and_are_three_are_the_same() -> None:
    assert folded("trifs leaves nodes are three".split()) == folded("trifoliate leaf node r three".split())
    assert folded(["are", "flowers"]) != folded(["r", "flowers"])


def test_words_stand_beside_words() -> None:
    sides = beside("plant three for ten trifs".split(), "plant three ten trif down".split())
    assert sides == [Side(0, 2, 0, 2, True), Side(2, 3, 2, 2, False), Side(3, 5, 2, 4, True), Side(5, 5, 4, 5, False)]
    assert beside([], ["a"]) == [Side(0, 0, 0, 1, False)]


def test_nothing_is_lost_between_the_sides() -> None:
    one, other = "a b c d e f".split(), "b x d d g f h".split()
    sides = beside(one, other)
    assert [i for s in sides for i in range(s.a, s.b)] == list(range(len(one)))
    assert [i for s in sides for i in range(s.c, s.d)] == list(range(len(other)))


def test_sounds_of_words_that_no_dictionary_has() -> None:
    assert by_letters("tripholias")[:5] == ("T", "R", "IH", "F", "OW")
    assert sounds("xqzzt")


def test_near_phones_cost_less() -> None:
    assert apart(("P", "AA", "T"), ("P", "AA", "T")) == 0
    assert apart(("P", "AA", "T"), ("P", "AA", "D")) < apart(("P", "AA", "T"), ("P", "AA", "M"))


def test_the_language_model_chooses_among_hearings(trade: Trade) -> None:
    good, bad = hearing("plant three eleven trifs"), hearing("plan three eleven trips")
    assert taken([replace(bad, score=-1.0), replace(good, score=-1.5)], trade.trigram).says == good.says
    assert taken([replace(bad, score=-1.0), replace(good, score=-99.0)], trade.trigram).says == bad.says


def test_what_takes_no_time_was_not_said() -> None:
    """Whisper says a sentence twice in wind: the words of the second time have no sound of their own."""
    once = hearing("next plant eight nodes")
    again = hearing("next plant eight nodes next plant eight nodes")
    end = once.words[-1].end
    twice = Hearing(
        (
            *tuple(replace(w, start=end, end=end) if w.token > 3 else w for w in again.words[:-1]),
            replace(again.words[-1], start=end, end=end + 0.4),
        ),
        again.tokens,
    )
    assert in_the_sound(twice).says == once.says
    assert in_the_sound(again) == again


def test_one_quick_word_is_no_sign_of_that() -> None:
    quick = hearing("plant three eleven trifs")
    at = quick.words[1].start
    words = (quick.words[0], replace(quick.words[1], end=at), *quick.words[2:])
    assert in_the_sound(replace(quick, words=words)).says == quick.says


@needs_pocketsphinx
def test_misheard_words_are_put_right_and_the_change_is_kept(trade: Trade) -> None:
    mended, changes = repaired(hearing("Plant three, eleven trips, top leaf enrolled."), trade)
    assert mended.says == tuple("plant three eleven trifs top leaf unrolled".split())
    assert mended.tokens == ("Plant", "three,", "eleven", "trifs,", "top", "leaf", "unrolled.")
    assert [(c.heard, c.taken) for c in changes] == [(("trips",), ("trifs",)), (("enrolled",), ("unrolled",))]
    assert changes[1].start == pytest.approx(2.0)


@needs_pocketsphinx
@pytest.mark.parametrize(
    "text", ["hollow stump august fourth", "eight trifs", "three eleven", "plant three eleven trifs"]
)
def test_names_and_numbers_stay_as_they_were_heard(trade: Trade, text: str) -> None:
    mended, changes = repaired(hearing(text), trade)
    assert (mended.says, changes) == (tuple(text.split()), ())


def test_two_recognisers_that_differ_make_a_doubt(trade: Trade) -> None:
    found = agree.unsure(hearing("fifteen trifs"), hearing("fifty trifs"), (), trade)
    assert [(u.first, u.last, u.others) for u in found] == [(0, 1, (("fifty",),))]


def test_a_lost_word_is_a_doubt_of_the_word_beside_it(trade: Trade) -> None:
    found = agree.unsure(hearing("plant trifs"), hearing("plant three trifs"), (), trade)
    assert [(u.first, u.last, u.others) for u in found] == [(1, 2, (("three", "trifs"),))]
    found = agree.unsure(hearing("eleven trifs"), hearing("eleven trifs unrolled"), (), trade)
    assert [(u.first, u.last, u.others) for u in found] == [(1, 2, (("trifs", "unrolled"),))]


def test_a_word_that_only_one_has_may_be_nothing(trade: Trade) -> None:
    found = agree.unsure(hearing("plant three eleven trifs"), hearing("plant three trifs"), (), trade)
    assert [(u.first, u.last, u.others) for u in found] == [(2, 3, ((),))]


def test_plurals_and_small_words_are_no_doubt(trade: Trade) -> None:
    assert agree.unsure(hearing("the pods on third nodes"), hearing("a pod at the third node"), (), trade) == []


def test_to_between_two_numbers_is_one(trade: Trade) -> None:
    assert agree.unsure(hearing("three to eleven trifs"), hearing("three eleven trifs"), (), trade)
    assert not keys("went to town".split(), 1, 2, trade)


def test_a_repair_that_is_more_than_spelling_is_a_doubt(trade: Trade) -> None:
    mended = hearing("eleven trifs")
    more, spelling = (Change((w,), ("trifs",), 1 / 3, 2 / 3) for w in ("trips", "trif"))
    assert agree.unsure(mended, mended, (more,), trade)[0].others == (("trips",),)
    assert agree.unsure(mended, mended, (spelling,), trade) == []


def test_unsure_words_are_a_doubt_only_where_both_are(trade: Trade) -> None:
    low, high = hearing("eleven trifs", sure=0.2), hearing("eleven trifs", sure=0.99)
    assert agree.unsure(low, high, (), trade) == []
    assert [(u.first, u.others) for u in agree.unsure(low, low, (), trade)] == [(0, ()), (1, ())]


def test_doubts_that_overlap_are_one(trade: Trade) -> None:
    mended = hearing("eleven trifs")
    found = agree.unsure(mended, hearing("seven tips"), (Change(("trips",), ("trifs",), 1 / 3, 2 / 3),), trade)
    assert [(u.first, u.last) for u in found] == [(0, 2)]
    assert set(found[0].others) == {("seven", "tips"), ("eleven", "trips")}


def test_alone_the_small_recogniser_doubts_what_it_is_not_sure_of(trade: Trade) -> None:
    best = hearing("eleven trifs", sure=0.95)
    assert doubtful(best, [best.says], trade) == []
    assert [u.others for u in doubtful(best, [("seven", "trifs")], trade)] == [(("seven",),)]
    assert len(doubtful(hearing("eleven trifs", sure=0.7), [], trade)) >= 1


def test_alone_a_word_between_two_doubtful_ones_is_doubtful_too(trade: Trade) -> None:
    best = hearing("plant three eleven trifs")
    words = tuple(replace(w, sure=0.5) if w.say in ("plant", "eleven") else w for w in best.words)
    best = replace(best, words=words)
    assert [(u.first, u.last) for u in doubtful(best, [], trade)] == [(0, 1), (1, 2), (2, 3)]


def test_a_small_word_that_may_be_a_number_is_asked(trade: Trade) -> None:
    said = "flowers at the top to nodes"  # the model knows: flowers at the top two nodes
    for found in (agree.unsure(hearing(said), hearing(said), (), trade), doubtful(hearing(said), [], trade)):
        assert [(u.first, u.last, u.others) for u in found] == [(4, 5, (("two",),))]
    assert agree.sounding("flowers at the top two nodes".split(), trade) == []


def test_a_small_word_where_no_number_fits_is_not_asked() -> None:
    said = "pods up to the third node"
    trade = Trade(Few(said), frozenset(said.split()), {})
    assert agree.sounding(said.split(), trade) == []


def test_no_weight_is_perhaps_no_wait() -> None:
    trade = Trade(Few("seven no wait eight", "seed weight"), frozenset({"seed", "weight", "wait"}), {})
    assert [u.others for u in agree.sounding("seven no weight eight".split(), trade)] == [(("wait",),)]
    assert agree.sounding("seed weight".split(), trade) == []


def test_a_no_that_may_be_none_is_asked() -> None:
    trade = Trade(Few("unifoliates are unrolled", "flowers aren't open"), frozenset({"unifoliates", "unrolled"}), {})
    assert [u.others for u in agree.sounding("unifoliates aren't unrolled".split(), trade)] == [(("are",),)]
    assert agree.sounding("flowers aren't open".split(), trade) == []


def test_alone_what_stands_where_it_hardly_ever_does_is_asked(trade: Trade) -> None:
    said = "plant three eleven trifs".split()
    assert unlikely(said, trade) == []
    assert unlikely([], trade) == []
    rare = Trade(Rarer("plant three eleven trifs"), trade.vocabulary, {})
    assert [u.first for u in unlikely("plant three trifs eleven".split(), rare)] == [1, 2, 3]
    assert [u.first for u in unlikely("plant three of uh".split(), rare)] == []  # they carry nothing


class Rarer(Few):
    def step(self, context: tuple[str, str], word: str) -> float:
        return 2 * super().step(context, word)


def test_other_talk_is_refused(trade: Trade) -> None:
    talk = hearing("the meeting is moved to thursday bring the agenda")
    assert gate.refused(talk, talk, (), trade) == "most of its words are none of a soybean note"


def test_a_note_is_taken(trade: Trade) -> None:
    note = hearing("plant three eleven trifs top leaf unrolled")
    assert gate.refused(note, note, (), trade) is None


def test_much_doubt_is_refused_and_half_only_where_the_recogniser_is_unsure(trade: Trade) -> None:
    sure, unsure = (hearing("plant three eleven trifs top leaf unrolled", sure=s) for s in (0.9, 0.4))
    all_other = agree.unsure(sure, None, (), trade)
    assert gate.refused(sure, sure, all_other, trade) == "most of the words that matter were not heard clearly"
    other = hearing("plant ten seven trifs top of rolled")
    half = agree.unsure(sure, other, (), trade)
    assert 0.5 < gate.share_doubtful(sure, half, trade) <= 0.75
    assert gate.refused(sure, sure, half, trade) is None
    assert gate.refused(unsure, unsure, half, trade) is not None


def test_no_words_are_refused(trade: Trade) -> None:
    nothing = Hearing((), ())
    assert gate.refused(nothing, nothing, (), trade) == "no words were heard"
    assert gate.share_doubtful(nothing, (), trade) == 0.0


def test_key_words(trade: Trade) -> None:
    assert [w for w in "the plant has eleven r of um trifs".split() if key(w, trade)] == [
        "plant",
        "eleven",
        "r",
        "trifs",
    ]
