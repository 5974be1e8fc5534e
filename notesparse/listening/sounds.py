"""How alike two words sound: phones, and an edit distance that knows which phones are near."""

from __future__ import annotations

import re
from functools import lru_cache

from notesparse.spoken.pronouncing import phones

Phones = tuple[str, ...]

# Groups of phones that recognisers and ears take for one another: voiced and voiceless pairs, nasals, liquids, and
# vowels that stand beside one another. The weights are my own, set by hand on a few misheard words.
_NEAR: tuple[frozenset[str], ...] = tuple(
    frozenset(group.split())
    for group in (
        "P B", "T D", "K G", "F V", "TH DH F", "S Z", "SH ZH CH JH", "M N NG", "L R", "W HH", "Y IY",
        "IY IH EY", "IH EH AH", "EH AE", "AE AH AA", "AA AO AH", "AO OW", "UH UW OW", "AH UH ER", "AY AE", "AW AA OW",
        "OY OW", "ER R",
    )
)  # fmt: skip
_VOWELS = frozenset("AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW".split())


@lru_cache(maxsize=20_000)
def swap(a: str, b: str) -> float:
    """0 for the same phone, 1 for a vowel against a consonant, between for those that are near."""
    if a == b:
        return 0.0
    if any(a in group and b in group for group in _NEAR):
        return 0.35
    return 0.7 if (a in _VOWELS) == (b in _VOWELS) else 1.0


def apart(one: Phones, other: Phones) -> float:
    """How many phones two pronunciations differ by: 0 the same; a near phone is a third of one, a missing one 0.7."""
    row = [0.7 * j for j in range(len(other) + 1)]
    for i, phone in enumerate(one, 1):
        before, row[0] = row[0], 0.7 * i
        for j, against in enumerate(other, 1):
            before, row[j] = row[j], min(before + swap(phone, against), row[j] + 0.7, row[j - 1] + 0.7)
    return row[-1]


_CLASSES: tuple[frozenset[str], ...] = tuple(
    frozenset(group.split())
    for group in ("P B", "T D TH DH F V", "K G", "S Z SH ZH CH JH", "M N NG", "L R", "W HH")
)
"""Consonants that are near to others of their class only (R is near to ER too); vowels, ER and Y are left out."""
LIGHTEST = tuple(0.35 if "R" in group else 0.7 for group in _CLASSES)
"""What a phone of the class costs at least, where the other pronunciation has none of it."""


def outline(said: Phones) -> tuple[int, ...]:
    """How many phones of each class: a cheap look at two pronunciations tells how much they differ at least."""
    return tuple(sum(phone in group for phone in said) for group in _CLASSES)


@lru_cache(maxsize=20_000)
def sounds(word: str) -> tuple[Phones, ...]:
    """The pronunciations of a word: from the dictionary, else by its letters."""
    return tuple(phones(word)) or (by_letters(word),)


@lru_cache(maxsize=50_000)
def of_words(words: tuple[str, ...]) -> tuple[Phones, ...]:
    """Pronunciations of one or two words said together (the first four)."""
    out: list[Phones] = [()]
    for word in words:
        out = [before + here for before in out for here in sounds(word)]
    return tuple(out[:4])


# English spelling to phones, roughly: enough to find the trade word that a made-up spelling ("tripholias") stands for.
_LETTERS = tuple(
    (letters, tuple(said.split()))
    for letters, said in (
        ("tion", "SH AH N"), ("sh", "SH"), ("ch", "CH"), ("th", "TH"), ("ph", "F"), ("ck", "K"), ("ee", "IY"),
        ("ea", "IY"), ("oo", "UW"), ("ou", "AW"), ("ow", "OW"), ("ai", "EY"), ("ay", "EY"), ("oa", "OW"), ("oi", "OY"),
        ("er", "ER"), ("ir", "ER"), ("ur", "ER"), ("ar", "AA R"), ("or", "AO R"), ("au", "AO"), ("aw", "AO"),
        ("qu", "K W"), ("ng", "NG"), ("wh", "W"), ("kn", "N"), ("a", "AE"), ("b", "B"), ("c", "K"), ("d", "D"),
        ("e", "EH"), ("f", "F"), ("g", "G"), ("h", "HH"), ("i", "IH"), ("j", "JH"), ("k", "K"), ("l", "L"), ("m", "M"),
        ("n", "N"), ("o", "OW"), ("p", "P"), ("q", "K"), ("r", "R"), ("s", "S"), ("t", "T"), ("u", "AH"), ("v", "V"),
        ("w", "W"), ("x", "K S"), ("y", "IY"), ("z", "Z"),
    )
)  # fmt: skip


def by_letters(word: str) -> Phones:
    """Phones of a word that no dictionary has."""
    word = re.sub(r"(.)\1", r"\1", word.lower()) if len(word) > 3 else word.lower()
    if len(word) > 3 and word.endswith("e"):
        word = word[:-1]
    out: list[str] = []
    at = 0
    while at < len(word):
        for letters, said in _LETTERS:
            if word.startswith(letters, at):
                out += said
                at += len(letters)
                break
        else:
            at += 1
    return tuple(out)
