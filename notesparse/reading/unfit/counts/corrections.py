"""Words that put a figure right, and do not here."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/counts/corrections")
_COMMON = cue_page("shared")
_BEFORE_HEARD_STAGE = _LISTED.words("before_heard_stage")


def heard_stage(lattice: Lattice, p: Phrase) -> bool:
    """`be ten are three no wait | are two`: the stage is put right, and no count."""
    return text(lattice, p.path[-1][0] - 1) in _BEFORE_HEARD_STAGE


_AGAIN = _LISTED.words("again")


def a_no_to_a_question(lattice: Lattice, p: Phrase) -> bool:
    """`bugs? nope`: an answer, and no correction, where nothing new follows."""
    if text(lattice, p.start) not in {"nope", "nah"} or text(lattice, p.start - 1) not in {"?", ":", "=", "-"}:
        return False
    return p.end >= len(lattice.pieces) or lattice.pieces[p.end].form in {"mark", "nl"}


_FOR_COUNTED_AGAIN_ONLY = _LISTED.words("for_counted_again_only")


def counted_again_only(lattice: Lattice, p: Phrase) -> bool:
    """`p3 12 trifs, recounted`: put right only where another number follows."""
    if not {text(lattice, p.end - 1), text(lattice, p.start)} & _AGAIN or len(p.path) > 1:
        return False
    i = p.end
    while text(lattice, i) in _FOR_COUNTED_AGAIN_ONLY:
        i += 1
    return not kinds(lattice, i) & {"INT", "FRAC", "DEC", "ANINCH"}


_IS = _COMMON.words("being_or_having")
_IT_WAS = _COMMON.words("being_or_having") | _COMMON.words("with")


def puts_a_plant_right(lattice: Lattice, p: Phrase) -> bool:
    """`Wait, 2 was 11`, `no wait, 1 has a bloom`: the number behind the cue is a plant's, and the new value stands behind."""
    if text(lattice, p.end) not in _IT_WAS:
        return False
    told = kinds(lattice, p.end + 1) & {"INT", "DEC", "FRAC", "R", "V"}
    return bool(told) or (text(lattice, p.end + 1) in {"a", "an", "some"} and bool(kinds(lattice, p.end + 2)))


def names_plants(lattice: Lattice, p: Phrase) -> bool:
    """`no sorry, three is the eleven`, `correction, 4 and 5 are R2`: plants, and no count put right."""
    if text(lattice, p.end) in _IS and text(lattice, p.end + 1) == "the":
        return True
    two = text(lattice, p.end) in {"and", "&"} and "INT" in kinds(lattice, p.end + 1)
    return two and any(text(lattice, e.end) in _IS for e in lattice.edges[p.end + 1] if e.kind == "INT")


_ORGANS = frozenset({"FLOWER", "POD", "SEED"})


def sees_an_organ(lattice: Lattice, p: Phrase) -> bool:
    """`no pods, no wait | one pod on the 4th dn`: what was denied is there after all, and no count of leaves is put right;
    `eleven trifs, no wait ten | flowers top two` is one."""
    organ = kinds(lattice, p.end) & _ORGANS
    named = p.start - 1 - (text(lattice, p.start - 1) in {",", ".", "-", ";"})
    return bool(organ) and bool(kinds(lattice, named) & organ)


def not_one_of_them(lattice: Lattice, p: Phrase) -> bool:
    """`p3 8, not one of them blooming`: there is none, and no figure is put right."""
    behind = lattice.pieces[p.end] if p.end < len(lattice.pieces) else None
    return text(lattice, p.end - 1) == "one" and behind is not None and behind.form == "word"
