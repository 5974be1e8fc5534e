"""What stands at a piece and around it, as far as it tells whether a name may stand there."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Callable
from itertools import accumulate

from notesparse.language.cues import cue_page
from notesparse.language.lists import NameWords, name_words
from notesparse.lazy import dataclass
from notesparse.reading.phrase import Phrase
from notesparse.reading.weights import phrase_cost
from notesparse.text.lattice import Lattice
from notesparse.text.scan import Piece

_COMMON = cue_page("shared")
_LISTED = cue_page("naming/surroundings")

_HEADER = {"date": 2.5, "planted": 2.0, "emerged": 2.0, "maturity": 2.0, "rows": 1.8, "stop": 2.0, "variety": 1.5}
_CONTENT = {
    "label": 2.0,
    "trif": 1.5,
    "nodes": 1.2,
    "flowers": 1.2,
    "pods": 1.2,
    "seeds": 1.0,
    "stage": 1.6,
    "ratio": 1.5,
    "percent": 1.5,
    "podshare": 1.2,
    "call": 1.0,
    "average": 1.0,
    "findhead": 1.0,
    "sampled": 1.6,
    "topleaf": 1.0,
    "emergence": 0.8,
    "past": 0.6,
    "moisture": 0.8,
    "lots": 1.7,
    "state": 0.5,
    "notvisited": 2.0,
    "place": 0.3,
    "height": 0.6,
    "length": 0.2,
    "where": 0.2,
    "group": 0.5,
}
THE_CROP = _COMMON.words("soybeans")
OF_FIGURES = _LISTED.words("of_figures")
_SHORTLY = 8  # pieces
NAMEY = frozenset({"FIELDNOUN", "COMPASS"})


@dataclass(frozen=True, slots=True)
class Surroundings:
    """A note with the phrases that begin at each piece, before any is chosen."""

    lattice: Lattice
    phrases: list[list[Phrase]]
    bare: set[int]  # pieces that are plants' labels with no word for a plant
    table_lines: set[int]
    lists: frozenset[int]  # pieces where values of several plants begin
    words: NameWords
    shouted: bool  # all in capitals, so that a capital says something only at a line's head
    cased: bool  # capitals are used where sentences begin
    lines: tuple[int, ...]  # how many line ends stand before each piece
    sentences: tuple[int, ...]  # how many full stops stand before each piece
    pieces: list[Piece]
    text: Callable[[int], str]  # the word or mark at a piece; empty before the note and past its end
    n: int  # how many pieces the note has
    firsts: tuple[int, ...]  # pieces where a plant 1 is named
    begun: dict[int, tuple[float, str | None]]  # what `starts` has found, piece by piece
    several: bool = False  # the note goes from field to field: what begins with capitals is likely the next one


def surroundings(
    lattice: Lattice, phrases: list[list[Phrase]], bare: set[int], table_lines: set[int], lists: frozenset[int]
) -> Surroundings:
    text = lattice.text
    shouted = text.upper() == text and text.lower() != text
    cased = not shouted and (
        text[:1].isupper() or any(text[m.end()].isupper() for m in re.finditer(r"[.\n] *(?=[A-Za-z])", text))
    )
    lines = tuple(accumulate((p.form == "nl" for p in lattice.pieces), initial=0))
    return Surroundings(
        lattice,
        phrases,
        bare,
        table_lines,
        lists,
        name_words(),
        shouted,
        cased,
        lines,
        tuple(accumulate((p.text == "." and lattice.soft[i] is None for i, p in enumerate(lattice.pieces)), initial=0)),
        lattice.pieces,
        lattice.word,
        len(lattice.pieces),
        tuple(i for i in range(len(phrases)) if _plant_one(lattice, phrases, bare, lines[i] in table_lines, i)),
        {},
    )


def first_plant(s: Surroundings, at: int) -> bool:
    """Whether a plant 1 is named at piece `at`."""
    k = bisect_left(s.firsts, at)
    return at in s.firsts[k : k + 1]


def _plant_one(lattice: Lattice, phrases: list[list[Phrase]], bare: set[int], in_table: bool, at: int) -> bool:
    if at in bare:
        return lattice.word(at) in {"1", "a", "first"}
    if in_table and lattice.pieces[at - 1].form == "nl":
        return lattice.word(at) in {"1", "a"} or any(e.kind == "PLANT" and e.end == at + 1 for e in lattice.edges[at])
    return any(
        p.form in {"plant_n", "plant_ord"}
        and p.path
        and any(e.means == 1 for _, e in p.path if e.kind in {"INT", "INTSOUND", "ORD"})
        for p in phrases[at]
    )


def kinds(s: Surroundings, i: int) -> set[str]:
    """The kinds of the word at piece i by itself; none past the end."""
    return {e.kind for e in s.lattice.edges[i] if e.end == i + 1} if i < s.n else set()


def noun_at(s: Surroundings, i: int) -> bool:
    """Whether a noun of places stands at piece i, if there is one."""
    return i < s.n and "FIELDNOUN" in kinds(s, i)


def noun_in(s: Surroundings, i: int, j: int) -> bool:
    return any(noun_at(s, x) for x in range(i, j))


def starts(s: Surroundings, i: int) -> tuple[float, str | None]:
    """How strongly an observation or a header value begins at piece i, and its rule."""
    begun = s.begun.get(i)
    if begun is None:
        begun = s.begun[i] = _begun(s, i)
    return begun


def _begun(s: Surroundings, i: int) -> tuple[float, str | None]:
    best, rule = 0.0, None
    if i >= s.n:
        return best, rule
    if i in s.bare or i in s.lists:
        return 2.0, "label"
    if (
        i
        and s.text(i - 1) == ","
        and any(e.kind == "OUTOF" for e in s.lattice.edges[i])
        and any("INT" in kinds(s, x) for x in range(i + 1, min(i + 3, s.n)))
    ):
        return 1.5, "ratio"  # Boiler forty, out of twenty plants fourteen are at R2
    for p in s.phrases[i]:
        worth = _HEADER.get(p.rule, _CONTENT.get(p.rule, 0.0))
        if p.form in {"ord_day", "weekday", "next_one", "n_plants", "see_alone", "small_alone", "ord_down"}:
            worth *= 0.5
        if (p.form == "plant_ord" and not any(e.kind == "PLANT" for _, e in p.path)) or p.form == "bare_top":
            worth *= 0.4
        if p.form == "group_n" or (p.form == "n_plants" and s.text(p.end) in {",", ";", ":", "."}):
            worth = 1.5  # Cane Brake east all 20 blooming; Buck pasture, ten plants, seven blooming
        if p.form in {"today", "yesterday", "today_ord"}:
            worth *= 0.6
        worth -= 0.6 * max(0.0, phrase_cost(p) - 1.0)
        if worth > best:
            best, rule = worth, p.rule
    return best, rule


def behind_its_number(s: Surroundings, i: int) -> bool:
    """`5. Last Chance`, `2) Lark`: the number of a line stands right before piece i."""
    numbered = i > 1 and s.text(i - 1) in {".", ")"} and s.pieces[i - 2].form == "int"
    return numbered and (i - 2 == 0 or s.pieces[i - 3].form == "nl")


def place_in_turn(s: Surroundings, a: int, b: int) -> bool:
    """`second place I drove over to is Dry Run`: which one of the round it is, and no name."""
    return b - a == 2 and "ORD" in kinds(s, a) and s.text(b - 1) in {"place", "field", "farm"}


def strength(s: Surroundings, i: int) -> tuple[float, str | None]:
    """`starts`, where piece i may be past the end."""
    return starts(s, i) if i < s.n else (0.0, None)


def pass_fillers(s: Surroundings, i: int, marks: str = ":-,–=") -> int:
    """The next piece of the line, from i on, that carries something."""
    while i < s.n and s.pieces[i].form != "nl":
        after = _past_one(s, i, marks)
        if after == i:
            break
        i = after
    return i


def _past_one(s: Surroundings, i: int, marks: str) -> int:
    p = s.pieces[i]
    if p.text in s.words.the_crop and (i + 1 >= s.n or s.pieces[i + 1].form in {"mark", "nl"}):
        return i + 1  # Coldspring beans: the crop
    if p.text in {"maybe", "probably"}:
        return i + 1  # Brine Well maybe forty percent
    if p.text == "that" and i + 1 < s.n and s.pieces[i + 1].text == "one":
        return i + 2  # the heron forty that one's V five
    if p.form == "mark" and (p.text in marks or not p.text.isascii() or p.text in "()*>~"):
        return i + 1
    if p.text in "/|" and p.gap and i + 1 < s.n and s.pieces[i + 1].gap:
        return i + 1  # quail run / jul 14
    if kinds(s, i) & NAMEY and noun_at(s, i + 1):
        return i
    if p.text == "back" and i + 1 < s.n and (s.pieces[i + 1].form == "int" or noun_at(s, i + 1)):
        return i  # Back 30
    longer = max((e.end for e in s.lattice.edges[i] if e.kind == "FILLER"), default=0)
    if longer > i:
        return longer
    return i + 1 if s.lattice.filler[i] and starts(s, i)[0] < 1.2 else i


def acres_in_words(s: Surroundings, i: int) -> bool:
    """`gumbo forty`, `north hundred`: land is called by its size."""
    return (
        i < s.n
        and s.pieces[i].form == "word"
        and any(e.kind == "INT" and e.end == i + 1 and e.means >= 20 and not e.means % 10 for e in s.lattice.edges[i])
    )


_FOR_TITLE = _LISTED.words("for_title")


def title(s: Surroundings, i: int, j: int) -> bool:
    """Every word of pieces i to j begins with a capital, small words left out."""
    words = [
        s.lattice.original(k, k + 1)
        for k in range(i, j)
        if s.pieces[k].form == "word" and s.pieces[k].text not in _FOR_TITLE
    ]
    return bool(words) and all(w[0].isupper() for w in words) and _tells(s, i)


def upper(s: Surroundings, i: int) -> bool:
    """Piece i is there, and begins with a capital, whatever that says."""
    return i < s.n and s.lattice.original(i, i + 1)[:1].isupper()


def capital(s: Surroundings, i: int) -> bool:
    """Piece i begins with a capital that says something."""
    return upper(s, i) and _tells(s, i)


def _tells(s: Surroundings, i: int) -> bool:
    """A capital says something; in a page all in capitals only at a line's head."""
    return not s.shouted or i == 0 or s.pieces[i - 1].form == "nl"


def found_before(s: Surroundings, i: int) -> bool:
    """An animal, a disease, a weed or damage is named in the sentence shortly before piece i."""
    x = i - 1
    while (
        x >= max(0, i - _SHORTLY)
        and s.pieces[x].form != "nl"
        and not (s.text(x) in {".", ";"} and s.lattice.soft[x] is None)
    ):
        if any(p.rule == "findhead" for p in s.phrases[x]):
            return True
        x -= 1
    return False


def said_before(s: Surroundings, at: int) -> bool:
    """Something that is seen of a field stands in the clause before `at` and the name."""
    i = at - 1
    while i >= 0 and s.text(i) == "the":
        i -= 1
    if s.text(i) != "at":
        return False
    for x in range(i - 1, max(-1, i - 12), -1):
        if s.pieces[x].form == "nl" or s.text(x) in {",", ";"} or (s.text(x) == "." and s.lattice.soft[x] is None):
            return False
        begun, rule = starts(s, x)
        if begun >= 1.2 and rule in {"stage", "trif", "nodes", "flowers", "pods", "ratio"}:
            return True
    return False


_IS = _COMMON.words("being")
_POINTS = _LISTED.words("points")


def going_on(s: Surroundings, i: int) -> bool:
    """`the wind is blowing`, `phone's recording` at its last word: what goes on while the note is talked, and no name."""
    if not s.text(i).endswith("ing") or s.text(i - 1) not in _IS or upper(s, i):
        return False
    return i > 1 and s.pieces[i - 2].form == "word" and s.text(i - 2) not in _POINTS
