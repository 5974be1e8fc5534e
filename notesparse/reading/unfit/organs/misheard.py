"""Ponds, bins, booms and names of people: words that only sound like flowers, pods and seeds."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/organs/misheard")
_COMMON = cue_page("shared")


def heard_apart(lattice: Lattice, p: Phrase) -> bool:
    """`pigweed 1 in. hot n windy`: another sentence, and no pod that was misheard."""
    return any(text(lattice, i) == "." and lattice.soft[i] is None for i in range(p.start, p.end)) or any(
        e.kind == "PODG" and e.cost > 0 and text(lattice, at - 1) == "." for at, e in p.path
    )


def by_the_pond(lattice: Lattice, p: Phrase) -> bool:
    """`cocklebur 12 in. by the pond`, `a clump at the pond, 20 ft across`: the pond, and no pod that was misheard."""
    if any(e.kind == "FOOT" for _, e in p.path):
        return True  # no pod is measured in feet
    heard = any(e.how == "sound" and text(lattice, at) == "pond" for at, e in p.path)
    before = {text(lattice, p.start - 1), text(lattice, p.start - 2)} if text(lattice, p.start - 1) == "the" else set()
    return heard and bool(({text(lattice, x) for x in range(p.start, p.end)} | before) & _BESIDE)


_FAR_BEFORE = 12  # pieces


def bins_alone(lattice: Lattice, p: Phrase) -> bool:
    """`bins 1/8` at the head of a sentence, with nothing of a plant before: bins, and no beans that were misheard."""
    if text(lattice, p.start) != "bins" or (p.start and text(lattice, p.start - 1) not in {".", ";", "\n"}):
        return False
    near = range(max(0, p.start - _FAR_BEFORE), p.start)
    return not any(kinds(lattice, i) & {"POD", "PODG", "PLANT", "PLETTER", "TRIF", "FLOWER"} for i in near)


def by_the_bins(lattice: Lattice, p: Phrase) -> bool:
    """`foxtail 6 in. by the bins`, `down by the feed ground`: a place, and no seed that was misheard."""
    for at, e in p.path:
        if e.kind == "SEEDG":
            led = at - (text(lattice, at - 1) == "the")
            return text(lattice, led - 1) in _BESIDE
    return False


_BESIDE = _LISTED.words("beside")
_OF_A_SPRAYER = _LISTED.words("of_a_sprayer")
_BEFORE_BOOM_OF_A_SPRAYER = _COMMON.words("our") | {"spray", "sprayer"}


def boom_of_a_sprayer(lattice: Lattice, p: Phrase) -> bool:
    """`where the boom missed`: no bloom misheard."""
    if not any(text(lattice, i) in {"boom", "booms"} for i in range(p.start, p.end)):
        return False
    article = text(lattice, p.start - 1) in _BEFORE_BOOM_OF_A_SPRAYER
    return article or text(lattice, p.end) in _OF_A_SPRAYER


_SPEAKS = _LISTED.words("speaks")
_DOES = _LISTED.words("does")
_SUCH_AS_THIS = _LISTED.words("such_as_this")
_TO_SOMEBODY = _LISTED.words("to_somebody")
_ALONG = _LISTED.words("along")
_US = _LISTED.words("us")


def somebody_called_bud(lattice: Lattice, p: Phrase) -> bool:
    """`Bud wants the sprayer back`, `told Bud about it`, `Bud and I`: a name, and no bud on a plant."""
    if p.end != p.start + 1 or text(lattice, p.start) != "bud":
        return False
    before, behind, next_but_one = (text(lattice, i) for i in (p.start - 1, p.end, p.end + 1))
    if behind in _SPEAKS | {"'s"} or before in _TO_SOMEBODY:
        return True
    if (behind in _DOES and next_but_one in _SUCH_AS_THIS) or (behind == "and" and next_but_one in _US):
        return True
    earlier = {text(lattice, i) for i in range(max(0, p.start - 4), p.start - 1)}
    return (before == "with" and bool(earlier & _ALONG)) or (before == "and" and text(lattice, p.start - 2) in _US)


def somebody_speaks(lattice: Lattice, p: Phrase) -> bool:
    """`Dusty says hi`, `Flowers called about the rent`: a name in a capital, and who has it says or wants something."""
    if p.end != p.start + 1 or text(lattice, p.end) not in _SPEAKS:
        return False
    return lattice.original(p.start, p.end).istitle()
