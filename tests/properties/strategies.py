"""Made-up notes: from the real grammar with the vocabulary's own words, from templates of known truth, and junk."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import Any

from hypothesis import strategies as st
from hypothesis.extra.lark import from_lark
from num2words import num2words

from notesparse.language.grammar import kinds_in_rules, phrase_grammar
from notesparse.language.vocabulary import Sense, vocabulary

KIND, WORD = "\x1f", "\x1e"
"""from_lark joins what it draws with nothing between; each draw brings its kind and these two marks."""


@lru_cache(maxsize=1)
def spellings() -> dict[str, tuple[str, ...]]:
    """Token kind -> every exact spelling of the vocabulary (no mis-hearings)."""
    found: dict[str, list[str]] = {}

    def walk(node: dict[str, Any]) -> None:
        senses: list[Sense] = node.get("", [])
        for kind, _, said, sound, _ in senses:
            if not sound:
                found.setdefault(kind, []).append(said)
        for piece, then in node.items():
            if piece:
                walk(then)

    walk(vocabulary().trie)
    return {kind: tuple(sorted(said)) for kind, said in found.items()}


def in_words(n: int) -> str:
    return num2words(n).replace("-", " ").replace(" and ", " ")


WHOLE = [*map(str, range(1, 24)), *map(in_words, range(1, 24)), "112,000"]
MADE = {
    "INT": WHOLE,
    "INTSOUND": ["to", "for", "too", "ate", "won"],
    "FRAC": ["1/4", "3/16", "3/4", "half", "three quarters", "1 1/4", "¾"],
    "DEC": [".75", "0.5", "2.4", "point five"],
    "ORD": ["3rd", "third", "11th", "eleventh", "twenty first"],
    "ORDSOUND": ["thrid"],
    "DMY": ["7/14/26", "2026-07-14", "22.vii.2013"],
    "LETTER": list("abcdef"),
    "BARE": ["1", "2", "3"],
    "DITTOMARK": ['"'],
    "YEAR": ["2026", "1998"],
}


def _drawn(kind: str) -> st.SearchStrategy[str]:
    words = [*spellings().get(kind, ()), *MADE.get(kind, ())] or [kind.lower()]
    return st.sampled_from(words).map(lambda w: f"{kind}{KIND}{w}{WORD}")


@lru_cache(maxsize=1)
def _grammar_phrases() -> st.SearchStrategy[str]:
    return from_lark(phrase_grammar(), start="phrase", explicit={kind: _drawn(kind) for kind in kinds_in_rules()})


@lru_cache(maxsize=1)
def grammar_phrases() -> st.SearchStrategy[list[tuple[str, str]]]:
    """A phrase that the grammar can build, as (kind, word) pairs."""
    return _grammar_phrases().map(lambda s: [tuple(x.split(KIND)) for x in s.split(WORD) if x])


def said(pairs: list[tuple[str, str]]) -> str:
    return " ".join(word for _, word in pairs)


JUNK = st.one_of(
    st.sampled_from(
        [
            "the dog ran off",
            "phone died",
            "???",
            "...",
            "12 34 56",
            "(see back)",
            "<b>",
            "=SUM(A1)",
            "🌱🌱",
            "\t\t",
            "----",
            "xx13xx",
            "~~4~~",
            "R",
            "V",
            "plant",
            '"',
            "'",
            "#",
            "/",
            "no",
            "same",
            "|",
            "ll",
            "[blot]",
            "0",
            "99999999999999999999",
            "1/0",
            "0/0",
            "..5",
            "7/14",
            "\u200b",
            "\r",
            "½",
            "make that",
            "scratch that",
            "next",
            "all of them",
        ]
    ),
    st.text(max_size=20),
)


SEPARATORS = st.sampled_from([" ", ", ", ". ", "\n", "; ", "  ", "\t", "\n\n", ""])


@lru_cache(maxsize=1)  # a strategy of this size is dear to make: once
def junk_notes() -> st.SearchStrategy[str]:
    """Phrases of the grammar in any order with junk between them."""
    phrase = grammar_phrases().map(said)
    part = st.tuples(st.one_of(phrase, phrase, JUNK), SEPARATORS).map("".join)
    return st.lists(part, min_size=1, max_size=8).map("".join)


# notes whose truth is known ------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Said:
    """What is said of a plant, and the facts that it holds."""

    text: str
    facts: dict[str, Any] = field(default_factory=dict)


def number(n: int) -> st.SearchStrategy[str]:
    return st.sampled_from([str(n), in_words(n)])


PLACES = {
    "top two nodes": [1, 2],
    "on the top two": [1, 2],
    "at the top node": [1],
    "third node down": [3],
    "3rd node from the top": [3],
    "top four nodes": [1, 2, 3, 4],
    "in the top four": [1, 2, 3, 4],
    "on the lower nodes": "lower",
}
TRIFS = ["trifs", "trifoliates", "tf", "tri foliates", "trifoliates unrolled", "open trifs"]
UNITS = {
    "in": Fraction("25.4"),
    "inch": Fraction("25.4"),
    '"': Fraction("25.4"),
    "mm": Fraction(1),
    "cm": Fraction(10),
    "millimeters": Fraction(1),
}


@st.composite
def leaves(draw: st.DrawFn) -> Said:
    n = draw(st.integers(4, 18))
    text = f"{draw(number(n))} {draw(st.sampled_from(TRIFS))}"
    facts: dict[str, Any] = {"trifoliates": n}
    if draw(st.booleans()):
        text += f", {draw(number(n + 1))} nodes"
        facts["nodes"] = n + 1
    if draw(st.booleans()):
        where, ranks = draw(st.sampled_from(sorted(PLACES.items())))
        text += f", {draw(st.sampled_from(['flowers', 'blooms', 'open flowers', 'flowering']))} {where}"
        facts |= {"flowers": True, "flowers_from_top": ranks}
    elif draw(st.booleans()):
        text += f", {draw(st.sampled_from(['no flowers', 'no flowers yet', 'no blooms', 'not flowering yet']))}"
        facts["flowers"] = False
    return Said(text, facts)


@st.composite
def lengths(draw: st.DrawFn) -> tuple[str, float]:
    """A length with its unit, and its millimetres."""
    unit = draw(st.sampled_from(sorted(UNITS)))
    if UNITS[unit] > 20:
        size = draw(
            st.sampled_from([Fraction(n, 16) for n in range(1, 16)] + [Fraction(5, 4), Fraction(3, 2), Fraction(2)])
        )
        if size < 1:
            text = f"{size.numerator}/{size.denominator}"
        else:
            text = str(float(size)) if size.denominator > 1 else str(size)
    elif UNITS[unit] == 10:
        size = Fraction(draw(st.integers(5, 60)), 10)
        text = str(float(size))
    else:
        size = Fraction(draw(st.integers(3, 60)))
        text = str(size)
    return text + ("" if unit == '"' else " ") + unit, float(size * UNITS[unit])


@st.composite
def pods(draw: st.DrawFn) -> Said:
    size, mm = draw(lengths())
    where, ranks = draw(st.sampled_from(sorted(PLACES.items())))
    shape = draw(
        st.sampled_from(
            ["pods {size} {where}", "{size} pods {where}", "pods {size}", "{size} pods", "longest pod {size} {where}"]
        )
    )
    facts: dict[str, Any] = {"pods": True, "pod_mm": mm}
    if "{where}" in shape:
        facts["pods_from_top"] = ranks
    return Said(shape.format(size=size, where=where), facts)


@st.composite
def seeds(draw: st.DrawFn) -> Said:
    fill, words = draw(
        st.sampled_from(
            [
                ("full", "seeds touching"),
                ("full", "seeds filling the cavity"),
                ("partial", "can feel seed"),
                ("partial", "seeds not touching"),
            ]
        )
    )
    where, ranks = draw(st.sampled_from(sorted(PLACES.items())))
    facts: dict[str, Any] = {"seeds": True, "seed_fill": fill}
    if draw(st.booleans()):
        return Said(f"{words} {where}", facts | {"seeds_from_top": ranks})
    return Said(words, facts)


@st.composite
def stages(draw: st.DrawFn) -> Said:
    if draw(st.booleans()):
        r = draw(st.integers(1, 8))
        return Said(
            draw(st.sampled_from([f"R{r}", f"R {r}", f"R-{r}", f"R {in_words(r)}", f"is R{r}", f"at R{r}"])),
            {"stated_r": f"R{r}"},
        )
    v = draw(st.integers(1, 18))
    return Said(
        draw(st.sampled_from([f"V{v}", f"V {v}", f"V-{v}", f"V {in_words(v)}", f"is at V{v}"])), {"stated_v": f"V{v}"}
    )


@st.composite
def maturity(draw: st.DrawFn) -> Said:
    return draw(
        st.sampled_from(
            [
                Said("one brown pod", {"mature_pods": "one"}),
                Said("no brown pods yet", {"mature_pods": "none"}),
                Said("95% of pods brown", {"mature_pods_percent": 95}),
                Said("half the pods brown", {"mature_pods_percent": 50}),
                Said("12 of 40 pods brown", {"mature_pods_percent": 30}),
            ]
        )
    )


observations = st.one_of(leaves(), pods(), seeds(), stages(), maturity())


@st.composite
def known_notes(draw: st.DrawFn, least: int = 1, most: int = 5) -> tuple[str, dict[str, dict[str, Any]]]:
    """A note of a few plants in order, and the facts of each."""
    label = draw(
        st.sampled_from(["plant {n} ", "plant {n}, ", "Plant {n}: ", "pl {n}: ", "P{n}: ", "{n}) ", "plant {w} "])
    )
    end = draw(st.sampled_from([". ", "\n", ".\n", "; "]))
    text, truth = "", {}
    for n in range(1, draw(st.integers(least, most)) + 1):
        one = draw(
            observations.filter(lambda o: label[-2] in ":,)" or not (o.text[0].isdigit() and "pod_mm" in o.facts))
        )
        text += label.format(n=n, w=in_words(n)) + one.text + end
        truth[str(n)] = one.facts
    return text, truth
