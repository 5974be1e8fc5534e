"""A word that no word file spells so: letters, joined words, near spellings."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.vocabulary import Vocabulary
from notesparse.text import match, numbers
from notesparse.text.marks import organ_before
from notesparse.text.net import NEAR, Edge, Net

_LISTED = cue_page("text/words")
_COMMON = cue_page("shared")

_LETTERS = frozenset("abcdefghjklm")
_LATE_LETTERS = frozenset("nopqstuwxyz")  # v and r are codes
_PARTS = _LISTED.words("parts")
_NO_NOUN = _LISTED.words("no_noun")
_SAYS_SAME = frozenset({*_LISTED.words("says_same"), *_LETTERS})
_MONTHS = _LISTED.ordered("months")
_DAYS = (*_LISTED.ordered("days"), *_MONTHS)


def _plant_again(net: Net, i: int) -> bool:
    """`plt P1`: the word for a plant twice, and no plant P."""
    figure = net.piece(i + 1)
    return net.at(i) == "p" and figure is not None and figure.form == "int" and figure.glued


def word(net: Net, i: int, words: Vocabulary) -> None:
    """The word at piece i, beside what `spellings` found."""
    p, out = net.pieces[i], net.edges[i]
    w = p.text
    if w == "t" and _top_in_short(net, i):
        out[:] = [Edge(i + 1, "TOP", "top", 0.1, "split")]  # fl t2: on the top two
        return
    if w == "n" and p.glued and net.at(i - 1) == "=" and organ_before(net, i - 1):
        out[:] = [Edge(i + 1, "NONE", "none", 0.0, "exact")]  # fl=n
        return
    if w in _LETTERS:
        net.add(i, i + 1, "LETTER", w, 0.6 if w == "l" and after_plant(net, i) else 0.1, "exact")  # plant l is plant 1
    elif (
        w in _LATE_LETTERS
        and net.original(i, i + 1).isupper()
        and after_plant(net, i)
        and not (_whereabouts(net, i) or _plant_again(net, i))
    ):
        net.edges[i] = [Edge(i + 1, "LETTER", w, 0.0, "exact")]  # plant W, plant X
        return
    if w == "a" and p.glued and net.at(i - 1) == "#":
        net.edges[i] = [Edge(i + 1, "LETTER", w, 0.0, "exact")]  # #A 11 trifs
        net.filler[i], net.soft[i] = False, None
        return
    if w == "a" and net.at(i - 1) in {"as", "like"} and _ends_there(net, i):
        out[:] = [e for e in out if e.kind == "LETTER"]  # e  as a
        net.filler[i] = net.filler[i - 1] = False
        net.soft[i] = net.soft[i - 1] = None
    if w in {"to", "too"} and net.at(i - 1) == "are" and _heard_as_a_stage(net, i):
        out[:] = [e for e in out if e.kind == "INTSOUND"]  # bloom top node are too: R2
        net.filler[i] = net.filler[i - 1] = False
        net.soft[i] = net.soft[i - 1] = None
    if w in words.singles or numbers.is_number_word(w) or numbers.ordinal(w) is not None:
        return
    if any(e.how != "sound" for e in out) or (p.glued and i and net.pieces[i - 1].form != "nl"):
        return
    if match.is_plant(w) and _beside_a_label(net, i):
        net.add(i, i + 1, "PLANT", "plant", 0.2, "near 0.80")
        return
    for day in _DAYS:
        if match.slip_of(w, frozenset({day}), letters_stay=day in _MONTHS):
            for kind, means, *_ in words.singles.get(day, ()):
                net.add(i, i + 1, kind, means, 0.3, "near 0.80")  # moonday, juyl
            return
    if match.is_planted(w) and _before_a_day(net, i + 1, words):
        net.add(i, i + 1, "PLANTED", "planted", 0.2, "near 0.80")
        return
    behind = net.piece(i + 1)
    if behind is not None and behind.glued and behind.form == "int":
        return
    for sense in words.glued.get(w, ()):
        net.add(i, i + 1, sense[0], sense[1], 0.1, "split")
    if any(e.how == "split" for e in out):
        return
    for sense, nearness in match.near(w, words):
        if sense[0] != "FILLER":
            net.add(i, i + 1, sense[0], sense[1], NEAR + 0.5 * (1 - nearness), f"near {nearness:.2f}")


_PLACE = _LISTED.words("place")
_NEXT_ONE = _LISTED.words("next_one")


def _heard_as_a_stage(net: Net, i: int) -> bool:
    """`top node are too plant two`, `plant 3 are to.`: behind a place or one plant, where nothing is said that could be
    likewise; `plants 2 and 3 are too` and `they are too` are."""
    before, after = net.at(i - 2), net.piece(i + 1)
    ends = after is None or after.form in {"nl", "mark"} or after.text in _NEXT_ONE
    one_plant = net.at(i - 3) == "plant" and net.at(i - 4) not in {"and", "the"}
    return ends and (before in _PLACE or one_plant or (net.at(i - 3) == "top" and before in {"two", "2", "four", "4"}))


def _whereabouts(net: Net, i: int) -> bool:
    """`plant N of the road`, `plants W end`: where it stands."""
    return net.at(i + 1) in _PARTS


_BEHIND_ENDS_THERE = _LISTED.words("behind_ends_there")


def _ends_there(net: Net, i: int) -> bool:
    """`e  as a`, `As a.`, `as a but no flowers`: nothing stands behind, on the line or in the sentence, that an article
    could be of."""
    after = net.piece(i + 1)
    if after is None or after.form == "nl" or (net.original(i, i + 1) == "A" and after.text in ".,;"):
        return True
    if after.text == ".":
        return not _looks_like(net, i)
    letter = net.original(i, i + 1) == "A" and after.text in _BEHIND_ENDS_THERE
    return after.text in _NO_NOUN and (letter or net.at(i - 2) in _SAYS_SAME or net.opens(i - 1))


def _looks_like(net: Net, i: int) -> bool:
    """`rolled up like a.`, and no `Plant c. Like a.`"""
    return net.at(i - 1) == "like" and not net.opens(i - 1) and net.at(i - 2) not in _SAYS_SAME


_FOR_BEFORE_A_DAY = _LISTED.words("for_before_a_day")


def _before_a_day(net: Net, i: int, words: Vocabulary) -> bool:
    """A month, or a day and month in figures, stands here: july second, on the 5th of may, 5/30."""
    k = i
    while net.at(k) in _FOR_BEFORE_A_DAY or (k < i + 4 and _a_day(net, k)):
        k += 1
    p = net.piece(k)
    if p is None:
        return False
    month = any(s[0] == "MONTH" for s in words.singles.get(p.text, ()))
    return month or p.form == "dmy" or (net.at(k) == "/" and k > i and net.pieces[k - 1].form == "int")


_FOR_A_DAY = _COMMON.words("ordinal_tails")


def _a_day(net: Net, i: int) -> bool:
    p = net.piece(i)
    return p is not None and (p.form == "int" or p.text in _FOR_A_DAY or numbers.is_said_number(p.text))


def after_plant(net: Net, i: int) -> bool:
    """Whether a word for a plant ends just before piece i; the letter `P` is one at the head of a line."""
    i -= net.at(i - 1) == "." and net.glued(i - 1)  # pl. l
    if i > 0 and (i == 1 or net.pieces[i - 2].form == "nl") and any(e.kind == "PLETTER" for e in net.edges[i - 1]):
        return True  # P l
    return any(e.end == i and e.kind == "PLANT" for k in range(max(0, i - 4), i) for e in net.edges[k])


def _top_in_short(net: Net, i: int) -> bool:
    """`t` with a figure stuck to it, behind an organ."""
    return (
        net.glued(i + 1)
        and net.at(i + 1) in {"1", "2", "3", "4"}
        and not net.glued(i + 2)
        and any(
            e.kind in {"FLOWER", "POD", "SEED"} and e.end in {i, i - 1}
            for k in range(max(0, i - 2), i)
            for e in net.edges[k]
        )
    )


_BEFORE_BESIDE_A_LABEL = _LISTED.words("before_beside_a_label")


def _beside_a_label(net: Net, i: int) -> bool:
    """A number, a letter or an ordinal beside the word: plnat 1, first palnt."""
    behind = net.piece(i + 1)
    if behind is not None and (behind.form == "int" or behind.text == "#" or numbers.is_number_word(behind.text)):
        return True
    before = net.piece(i - 1)
    return before is not None and (numbers.ordinal(before.text) is not None or before.text in _BEFORE_BESIDE_A_LABEL)
