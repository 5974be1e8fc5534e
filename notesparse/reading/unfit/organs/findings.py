"""Letters and words that are of a disease, an animal or a weed."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_WHERE = _COMMON.words("beside")
_IS = _COMMON.words("being") | _COMMON.words("looking")
_BEANS = frozenset({"bean", "beans"})
_FAR_TO_IS = 7  # pieces from where they stand to the verb


def said_of_seeds(lattice: Lattice, i: int) -> bool:
    """Whether `sds` is followed by what is said of seeds: their size or filling, or that they show."""
    if kinds(lattice, i) & {"SEE"}:
        return text(lattice, i + 1) not in _WHERE
    if text(lattice, i) == ",":
        return bool(kinds(lattice, i + 1) & {"TOUCHING", "NOT", "ALMOST"})  # grn sds, not touching
    return bool(kinds(lattice, i) & {"TOUCHING", "SMALL", "INT", "FRAC", "DEC", "ALMOST", "NOT", "HALF"})


def short_for_a_disease(lattice: Lattice, p: Phrase) -> bool:
    """`sds showing on the west side`."""
    return p.end == p.start + 1 and text(lattice, p.start) == "sds" and not said_of_seeds(lattice, p.end)


def none_like_a_disease(lattice: Lattice, p: Phrase) -> bool:
    """`no white mold, no sds`: one more of the diseases that were not found."""
    i = p.end - 1
    if text(lattice, i) != "sds" or not kinds(lattice, i - 1) & {"NO"}:
        return False
    at = i - 2
    while text(lattice, at) in {",", "and", "&", ";"}:
        at -= 1
    return any(e.kind == "DISEASE" and e.end == at + 1 for x in range(max(0, at - 3), at + 1) for e in lattice.edges[x])


def written_as_a_disease(lattice: Lattice, p: Phrase) -> bool:
    """`SDS none` in capitals, in a note that is not all in capitals."""
    written = any(text(lattice, x) == "sds" and lattice.original(x, x + 1) == "SDS" for x in range(p.start, p.end))
    return written and not lattice.text.isupper()


def cuts_a_finding(lattice: Lattice, p: Phrase) -> bool:
    """`no brown stem rot`, `pod shatter`: the last word begins the name of a disease, an animal or a weed."""
    return any(
        e.kind in {"DISEASE", "INSECT", "WEED"} and e.how == "exact" and e.end > p.end for e in lattice.edges[p.end - 1]
    )


def short_for_seeds(lattice: Lattice, p: Phrase) -> bool:
    """`sds touching`."""
    return p.end == p.start + 1 and text(lattice, p.start) == "sds" and said_of_seeds(lattice, p.end)


def beans_down_there(lattice: Lattice, p: Phrase) -> bool:
    """`the beans down by the creek are R4`, `my brothers beans down south`: where beans stand, and none that lodged."""
    return down_there(lattice, p.start, p.end)


def down_there(lattice: Lattice, i: int, end: int) -> bool:
    """The same of the words from piece i to `end`."""
    if end != i + 2 or text(lattice, i) not in _BEANS or text(lattice, i + 1) != "down":
        return False
    if any(e.kind == "NEIGHBOR" and e.end == i + 1 for x in range(max(0, i - 3), i) for e in lattice.edges[x]):
        return True
    if text(lattice, end) not in _WHERE and "COMPASS" not in kinds(lattice, end):
        return False
    for x in range(end + 1, min(end + _FAR_TO_IS, len(lattice.pieces))):
        if lattice.pieces[x].form in {"mark", "nl"}:
            return False
        if text(lattice, x) in _IS:
            return True
    return False


def somebodys(lattice: Lattice, p: Phrase) -> bool:
    """`past Whistler's`: a word that is only near one of a weed or an animal, with a capital, and something is its own."""
    owned = text(lattice, p.end) == "'s" and p.end < len(lattice.pieces) and lattice.pieces[p.end].glued
    near = p.end == p.start + 1 and p.path[0][1].cost > 0
    return owned and near and lattice.original(p.start, p.end)[:1].isupper()


def disease_shows(lattice: Lattice, p: Phrase) -> bool:
    said = "sds" in {text(lattice, p.start), text(lattice, p.start - 1)}
    return said and p.path[-1][1].kind == "SEE" and text(lattice, p.end) in _WHERE


def of_an_animal(lattice: Lattice, p: Phrase) -> bool:
    """`not a bean leaf beetle`: the last word begins the name of an animal."""
    last = p.path[-1][0]
    return any(e.kind in {"INSECT", "DISEASE"} and e.how == "exact" and e.end > p.end for e in lattice.edges[last])
