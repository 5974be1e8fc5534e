"""A word to the trade words that it may be: damaged letters, and nearness by edit distance.

Tuned by word length (measured): OSA edits 1 for 4 to 7 letters, 2 for 8 and 9, 3 from 10 on; the same first letter
below 8 letters; never for the ordinary words of `never.toml`.
"""

from __future__ import annotations

import re
import string
from functools import lru_cache

from notesparse.language.cues import cue_page
from notesparse.language.vocabulary import Sense, Vocabulary
from notesparse.text import numbers

_LISTED = cue_page("text/match")

_ABBREVIATIONS = _LISTED.words("abbreviations")

_FIGURES = {"l": "1", "I": "1", "|": "1", "i": "1", "O": "0", "o": "0", "S": "5", "B": "8", "Z": "2", "z": "2"}
_LETTERS = {"1": ("l", "i"), "0": ("o",), "5": ("s",), "3": ("e",), "8": ("b",), "4": ("a",)}
_SLIPS = (
    ("cl", "d"),
    ("rn", "m"),
    ("n", "ri"),
    ("ii", "u"),
    ("vv", "w"),
    ("li", "h"),
    ("c", "e"),
    ("l", "t"),
    ("h", "b"),
)


def is_abbreviation(word: str) -> bool:
    return word in _ABBREVIATIONS


def damaged_figure(run: str) -> int | None:
    """`l2` -> 12, `1O` -> 10, `9S` -> 95, `l00` -> 100, `l` -> 1; None if it is no damaged figure."""
    if not 1 <= len(run) <= 4 or run.isdigit():
        return None
    if run in {"l", "|"}:
        return 1
    if len(run) == 1:
        return None
    plain = "".join(_FIGURES.get(c, c) for c in run)
    if not plain.isdigit():
        return None
    digits = sum(c.isdigit() for c in run)
    if digits == 0 and run not in {"ll", "lO", "IO", "lo"}:
        return None
    if run[-1] in "iozs" and run[-1].islower() and run[-1] not in {"o"}:
        return None  # 30s are rows
    return int(plain)


_LONG_RUN = 7  # letters and a figure, of which one letter may be any


def letters_for_figures(run: str) -> list[str]:
    """`p1ant`: plant, piant."""
    forms = [""]
    for c in run:
        forms = [f + x for f in forms for x in _LETTERS.get(c, (c,))][:16]
    return forms


def damaged_words(run: str) -> list[str]:
    """Words that a damaged run may have been, likeliest first."""
    low = run.lower()
    out: list[str] = []
    if any(c.isdigit() for c in low):
        forms = letters_for_figures(low)
        out += forms
        if len(low) > 4:
            for form in forms:
                for a, b in _SLIPS:
                    if a in form:
                        out.append(form.replace(a, b, 1))
        inside = [i for i, c in enumerate(low) if c.isdigit() and 0 < i < len(low) - 1]
        if len(low) >= _LONG_RUN and len(inside) == 1:  # tri1oliates: any letter
            out += [low[: inside[0]] + c + low[inside[0] + 1 :] for c in string.ascii_lowercase]
    elif len(low) >= 4:
        if "I" in run[1:] and run[0].islower():
            out.append(run.replace("I", "l").lower())  # fIat, fuII
        for a, b in _SLIPS[:5]:
            if a in low:
                out.append(low.replace(a, b, 1))
    return out


_FOR_IS_PLANT = _LISTED.words("for_is_plant")


def is_plant(word: str) -> bool:
    """plnat, plabt, plaint, palnt: one slip away from the word; a number stands beside it, so an ordinary word is no
    rival."""
    from rapidfuzz.distance import OSA

    if not 4 <= len(word) <= 7 or word[0] not in "plo" or word in _FOR_IS_PLANT:
        return False
    return OSA.distance(word, "plant", score_cutoff=1) <= 1 or (
        len(word) > 5 and OSA.distance(word, "plants", score_cutoff=1) <= 1
    )


@lru_cache(maxsize=4096)
def slip_of(word: str, choices: frozenset[str], letters_stay: bool = False) -> bool:
    """Whether an odd word of six letters and more is one slip away from one of these with the same first letter and
    the same end; `letters_stay`: only its letters may have changed places (juyl, but no marsh for march)."""
    from rapidfuzz.distance import OSA

    if len(word) < (4 if letters_stay else 6) or word in choices:
        return False
    return any(
        word[0] == w[0]
        and (sorted(word) == sorted(w) if letters_stay else word[-2:] == w[-2:] or sorted(word[-3:]) == sorted(w[-3:]))
        and OSA.distance(word, w, score_cutoff=1) <= 1
        for w in choices
    )


@lru_cache(maxsize=8192)
def one_off(word: str, other: str) -> bool:
    """Whether an odd word is one slip away from a word of four letters and more that begins with the same letter."""
    from rapidfuzz.distance import OSA

    return len(other) >= 4 and word[0] == other[0] and OSA.distance(word, other, score_cutoff=1) <= 1


def is_planted(word: str) -> bool:
    """panted, plnated, driled: one slip away from the word; a date stands behind it."""
    from rapidfuzz.distance import OSA

    return (
        6 <= len(word) <= 10
        and word[-1] == "d"
        and any(
            word[0] == w[0] and word != w and OSA.distance(word, w, score_cutoff=1) <= 1
            for w in ("planted", "drilled", "replanted")
        )
    )


@lru_cache(maxsize=4096)
def number_slip(word: str) -> str | None:
    """The number word one edit away with the same first letter (`tenty` is twenty); None where none or several are."""
    from rapidfuzz.distance import OSA

    if len(word) < 4 or numbers.is_said_number(word):
        return None
    near = [w for w in numbers.long_words() if w[0] == word[0] and OSA.distance(word, w, score_cutoff=1) <= 1]
    places = {numbers.ordinal(w) for w in near}
    if len(near) > 1 and len(places) == 1 and None not in places:
        return next((w for w in near if w in numbers.ORDINALS), near[0])  # secnod: second, and secnd is second too
    alike = [w for w in near if w[-2:] == word[-2:]] if len(near) > 1 else near
    return alike[0] if len(alike) == 1 else None


def allowed_edits(word: str) -> int:
    n = len(word)
    return 0 if n < 4 else 1 if n <= 7 else 2 if n <= 9 else 3


@lru_cache(maxsize=8192)
def _nearest(word: str, choices: tuple[str, ...], edits: int) -> tuple[tuple[str, int], ...]:
    from rapidfuzz.distance import OSA

    best: list[tuple[str, int]] = []
    least = edits
    for choice in choices:
        if abs(len(choice) - len(word)) > least:
            continue
        d = OSA.distance(word, choice, score_cutoff=least)
        if d <= least:
            if d < least:
                best, least = [], d
            best.append((choice, d))
    return tuple(best)


_MOST_SHOWN = 4  # words of a hint


def near_words(word: str, words: Vocabulary) -> list[str]:
    """Trade words near to a word that is none, for a sentence that says so."""
    return sorted({sense[2] for sense, _ in near(word.casefold(), words)})[:_MOST_SHOWN]


def near(word: str, words: Vocabulary) -> list[tuple[Sense, float]]:
    """Senses of the trade words nearest to an unknown word, with their nearness (0 to 1); ties give several."""
    if word in words.never or not word.isalpha():
        return []
    edits = allowed_edits(word)
    if not edits:
        return []
    choices = words.near.get(word[0], ())
    found = _nearest(word, choices, edits)
    if not found and len(word) >= 8:
        rest = tuple(w for first, ws in sorted(words.near.items()) if first != word[0] for w in ws if len(w) >= 8)
        found = _nearest(word, rest, edits)
    out: list[tuple[Sense, float]] = []
    seen: set[tuple[str, str]] = set()
    for choice, d in found:
        if (
            d == 1
            and min(len(word), len(choice)) <= 4
            and re.sub(r"[aeiou]", "", word) != re.sub(r"[aeiou]", "", choice)
            and sorted(word) != sorted(choice)
            and len(word) == len(choice)
        ):
            continue  # a four-letter word with another consonant is another word (pond, pods)
        for s in words.singles[choice]:
            if (s[0], str(s[1])) not in seen:
                seen.add((s[0], str(s[1])))
                out.append((s, 1 - d / max(len(word), len(choice))))
    return out
