"""Words with one slip of the finger, put right before they are looked up: a letter twice (`unrolleed`), two letters
changed over (`platns`), a letter lost (`numbr`), the key beside the right one (`plqnts`); or with one fault of spelling:
an e too many before its ending (`averageing`), a vowel for another (`avarage`).

What is put right is a word that nobody knows, in small letters or at the head of a line or a sentence. What it becomes
has the same first letter, and is a word of the word files or one that a module looks for, of six letters and more, or
one of the short words that are written most (`hlaf`, `nodr`). The user's own letters stay where the note is shown.
"""

from __future__ import annotations

import string
from dataclasses import replace
from functools import lru_cache

from notesparse.language.cues import cue_page, cue_words
from notesparse.language.vocabulary import Vocabulary
from notesparse.text import numbers
from notesparse.text.scan import Piece

_LISTED = cue_page("text/slips")

_KEYS = _LISTED.table("keys", str)
_LETTERS = string.ascii_lowercase
_ORDINARY = _LISTED.words("ordinary")
_SHORT = _LISTED.words("short")
_SHORTEST, _LONGEST = 4, 20  # letters, as written
_LONG = 6  # letters: one slip in such a word, and it is still known


def slips_put_right(text: str, pieces: list[Piece], words: Vocabulary) -> list[Piece]:
    """The pieces, with such words as they were meant; the same list where there are none."""
    meant = {i: word for i, p in enumerate(pieces) if (word := _meant(text, pieces, i, words)) is not None}
    if not meant:
        return pieces
    return [replace(p, text=meant[i], slip=True) if i in meant else p for i, p in enumerate(pieces)]


def _meant(text: str, pieces: list[Piece], i: int, words: Vocabulary) -> str | None:
    p = pieces[i]
    if p.form != "word" or not _SHORTEST <= len(p.text) <= _LONGEST or p.text in words.parts or p.text in words.never:
        return None
    if not (p.text.isalpha() and p.text.isascii()):
        return None
    meant = word_meant(p.text, words.parts)
    if meant is None or text[p.span.start].islower():
        return meant
    first = i == 0 or pieces[i - 1].form in {"nl", "mark"}
    return meant if first and len(meant) >= _LONG else None  # Doun 60% podded


@lru_cache(maxsize=8192)
def word_meant(word: str, known: frozenset[str]) -> str | None:
    """The one word that this may be a slip of; None where it is known itself, or several are as near."""
    cues = cue_words()
    if word in cues or numbers.is_said_number(word):
        return None
    for forms in (
        _once(word),
        _changed_back(word),
        _with_one_more(word),
        _beside(word),
        _without_its_e(word),
        _another_vowel(word),
    ):
        long = {w for w in forms if len(w) >= _LONG} - _ORDINARY
        found = {w for w in long if w in known or w in cues or numbers.is_said_number(w)} | _SHORT.intersection(forms)
        if found:
            return found.pop() if len(found) == 1 else None
    return None


def _once(word: str) -> list[str]:
    """`unrolleed`: without one of two letters that are the same."""
    return [word[:i] + word[i + 1 :] for i in range(1, len(word)) if word[i] == word[i - 1]]


def _changed_back(word: str) -> list[str]:
    """`platns`: two neighbours changed over, past the first letter."""
    pairs = [i for i in range(1, len(word) - 1) if word[i] != word[i + 1]]
    return [word[:i] + word[i + 1] + word[i] + word[i + 2 :] for i in pairs]


def _with_one_more(word: str) -> list[str]:
    """`numbr`: with a letter between the first and the last."""
    return [word[:i] + c + word[i:] for i in range(1, len(word)) for c in _LETTERS]


def _beside(word: str) -> list[str]:
    """`plqnts`: with the key beside one that was struck."""
    return [word[:i] + c + word[i + 1 :] for i in range(1, len(word)) for c in _KEYS[word[i]]]


def _without_its_e(word: str) -> list[str]:
    """`averageing`, `mostley`: an e too many before the ending."""
    return [word.removesuffix(end) + end.replace("e", "", 1) for end in ("eing", "ley") if word.endswith(end)]


_VOWELS = "aeiou"
_LONG_ENOUGH = 7  # letters, for one of them to be a vowel for another


def _another_vowel(word: str) -> list[str]:
    """`avarage`, `avereging`: a vowel for another."""
    if len(word) < _LONG_ENOUGH:
        return []
    at = [i for i in range(1, len(word)) if word[i] in _VOWELS]
    return [word[:i] + c + word[i + 1 :] for i in at for c in _VOWELS if c != word[i]]
