"""Words of old paper with a figure for a letter, put together again: `p1anted`, `be1ow`, `Soi1 moist`, `STONE B0AT`.

A run of letters and figures is one word if the letters that its figures stand for make a word that is known; a nought
between letters is an o in any case. What begins with a figure stays as it is: `1and 2`, `0n`. Before a whole date
`p1.` is the short word for planted: `p1. 5/16/74`. So is a word that nobody knows, with two letters for one of a word
of the trade: `fielcl`, `frorn`, `nocle`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from notesparse.language.cues import cue_page
from notesparse.language.vocabulary import Vocabulary
from notesparse.lazy import pattern
from notesparse.span import Span
from notesparse.text import match, numbers
from notesparse.text.scan import Piece

_LISTED = cue_page("text/mended")

_FIGURES = frozenset("015")
_ASKED_FOR = _LISTED.words("asked_for")
_SHORTEST = 4  # letters and figures; what is shorter may be anything
_NOUGHT_BETWEEN = 3  # pieces: letters, 0, letters
_YEAR_TOO = r"[\dlio]{1,2}([-/.])[\dlio]{1,2}\1(?:[\dlio]{4}|[\dlio]{2})"
_WHOLE_DATE = pattern(_YEAR_TOO)
_DATE = pattern(_YEAR_TOO + r"|[\dlio]{1,2}-[\dlio]{1,2}")
_MOST = 6  # pieces of a date


def mended(pieces: list[Piece], words: Vocabulary) -> list[Piece]:
    """The pieces, with such runs as one word each; the same list where there are none."""
    out: list[Piece] = []
    done = 0
    for i, p in enumerate(pieces):
        if p.form == "word" and ("rn" in p.text or "cl" in p.text) and not p.glued:
            known = _two_for_one(p.text, words)
            if known is not None:
                out += [*pieces[done:i], replace(p, text=known, mended=True)]
                done = i + 1
            continue
        if p.form != "int" or not p.glued or i - 1 < done or pieces[i - 1].form != "word":
            continue
        if not _FIGURES.issuperset(p.text) or (pieces[i - 1].glued and _in_a_run(pieces, i - 2)):
            continue
        end = i + 1
        while end < len(pieces) and pieces[end].glued and pieces[end].form in {"word", "int"}:
            if pieces[end].text.startswith("'"):
                break  # gr0und's dry
            end += 1
        word = "pl" if _planted(pieces, i - 1) else _word(pieces[i - 1 : end], words)
        if word is not None:
            first = pieces[i - 1]
            whole = replace(first, text=word, span=Span(first.span.start, pieces[end - 1].span.end), mended=True)
            out += [*pieces[done : i - 1], whole]
            done = end
    return [*out, *pieces[done:]] if done else pieces


def _in_a_run(pieces: Sequence[Piece], i: int) -> bool:
    """`plant5R1`: letters that stand behind a figure or a stroke begin nothing."""
    return i >= 0 and pieces[i].form != "nl" and pieces[i].text not in {"(", '"', ".", ",", "/"}


def _word(run: Sequence[Piece], words: Vocabulary) -> str | None:
    """The word that the run was, if it was one."""
    if any(p.form == "int" and not _FIGURES.issuperset(p.text) for p in run):
        return None
    written = "".join(p.text for p in run)
    if len(written) < _SHORTEST or (run[-1].form == "int" and _known(run[0].text, words)):
        return None  # tri11, B10
    found = next((w for w in match.damaged_words(written) if w in words.singles), None)
    if found is None:
        found = next((w for w in match.letters_for_figures(written) if _known(w, words)), None)
    nought = len(run) == _NOUGHT_BETWEEN and run[1].text == "0" and run[2].form == "word"
    return found or (written.replace("0", "o") if nought else None)


def _planted(pieces: Sequence[Piece], i: int) -> bool:
    """`rows 40 in.   p1. 5/16/74`, `p1. May 16`: before a date; at the head of a line, where `p1` may be a plant, before
    a whole one."""
    if pieces[i].text != "p" or pieces[i + 1].text != "1" or i + _DAY_BEHIND >= len(pieces):
        return False
    inside = i > 0 and pieces[i - 1].form != "nl"
    k = i + 2 + (pieces[i + 2].text == ".")
    if k >= len(pieces) or pieces[k].glued:
        return False
    if pieces[k].text in _MONTHS:
        return inside and k + 1 < len(pieces) and pieces[k + 1].form == "int"
    day = pieces[k].text
    for p in pieces[k + 1 : k + _MOST]:
        if not p.glued or p.form == "nl":
            break
        day += p.text
    return (_DATE if inside else _WHOLE_DATE).fullmatch(day.rstrip(",;")) is not None


_DAY_BEHIND = 2  # pieces
_MONTHS = _LISTED.words("months")


def _two_for_one(written: str, words: Vocabulary) -> str | None:
    """`frorn` is from, `seclary` nothing: the trade's word for a word that is none, past its first letter."""
    if len(written) < _SHORTEST or _known(written, words):
        return None
    first, rest = written[0], written[1:]
    for word in (rest.replace("rn", "m"), rest.replace("cl", "d"), rest.replace("rn", "m").replace("cl", "d")):
        whole = first + word
        if word != rest and (_known(whole, words) or whole in _ASKED_FOR):
            return whole
    return None


def _known(word: str, words: Vocabulary) -> bool:
    known = word in words.singles or word in words.trie or word in words.never
    return known or numbers.is_number_word(word) or numbers.ordinal(word) is not None  # e1even, twe1fth
