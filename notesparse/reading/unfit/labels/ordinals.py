"""First, third, the 14th: no plant, or a plant and no day."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import edges_at, kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/labels/ordinals")
_COMMON = cue_page("shared")


def behind_an_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`second plant nine trifs ... third plant eight`: where plants are told by ordinals, eight is no label."""
    if "MONTH" in kinds(lattice, p.start - 2) | kinds(lattice, p.start - 3):
        return False  # quail run september third plant one, behind a plant two of another field
    before = [
        int(e.means)
        for e in [*edges_at(lattice, p.start - 1), *edges_at(lattice, p.start - 2)]
        if e.kind == "ORD" and e.end == p.start
    ]
    if not before or text(lattice, p.start) not in {"plant", "plt", "one"}:
        return False
    wanted = before[0] - 1
    if any(
        e.kind == "ORD" and int(e.means) == before[0] + 1 and "INT" in kinds(lattice, e.end)
        for at in range(p.end, min(p.end + 8, len(lattice.pieces)))
        for e in lattice.edges[at]
    ):
        return True  # 1st plant 8, 2nd 9
    if any(
        e.kind == "INT" and int(e.means) == wanted and text(lattice, at) == "plant"
        for at in range(p.start - 1)
        for e in edges_at(lattice, at + 1)
    ):
        return True  # plant one nine trifs second plant seven
    return any(
        e.kind == "ORD" and int(e.means) == wanted and text(lattice, e.end) in {"plant", "plt", "one"}
        for at in range(p.start - 1)
        for e in lattice.edges[at]
    )


def far_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`hatchet forty first plant`: the first plant, and no forty-first."""
    return any(
        e.kind == "ORD"
        and int(e.means) > 20
        and e.end > at + 1
        and int(e.means) % 10
        and lattice.pieces[at].form == "word"
        for at, e in p.path
    )


_SAID_OF_ONE = _LISTED.words("said_of_one")
_BEFORE_IT = _COMMON.words("and") | _COMMON.words("but") | {"-", ".", ";"}
_WHO_SAW = _LISTED.words("who_saw")
_A_FEW = 4  # plants in a row that ordinals may tell of


def on_that_day(lattice: Lattice, p: Phrase) -> bool:
    """`On the 14th half of these were blooming`, `On the 3rd we walked it`: a day at the head of a sentence, and no plant."""
    pieces, i = lattice.pieces, p.start - 1
    if text(lattice, i) != "on" or pieces[p.start + 1].form != "int":
        return False
    i -= text(lattice, i - 1) == "back"
    opens = i == 0 or pieces[i - 1].form == "nl" or text(lattice, i - 1) in {".", ";"}
    return opens and (int(p.path[1][1].means) > _A_FEW or text(lattice, p.end) in _WHO_SAW)


def of_the_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`the third plant is 11`: it has eleven of what was named, and is no plant 11."""
    ordinal = any(
        e.kind == "ORD" and e.end == p.start for i in (p.start - 1, p.start - 2) if i >= 0 for e in lattice.edges[i]
    )
    return ordinal and any(text(lattice, i) in {"is", "was"} for i in range(p.start + 1, p.end - 1))


def nobody_told_of(lattice: Lattice, p: Phrase) -> bool:
    """`The first has a flower, the second doesn't`: a plant, at the head of a clause, before what one has or has not."""
    before = text(lattice, p.start - 1)
    heads = before in _BEFORE_IT or (p.start > 0 and lattice.pieces[p.start - 1].form == "nl")
    if before == "on" and (p.start == 1 or text(lattice, p.start - 2) in _BEFORE_IT):
        return not _told_on_it(lattice, p.end)
    return not heads or text(lattice, p.end) not in _SAID_OF_ONE


_ON_IT = _LISTED.words("on_it")


def _told_on_it(lattice: Lattice, i: int) -> bool:
    """`on the first the longest pod was 11 mm, on the second it was 22, on the third 25 mm`: what was seen on one."""
    sized = "FRAC" in kinds(lattice, i) or ("INT" in kinds(lattice, i) and kinds(lattice, i + 1) & {"MM", "CM", "INCH"})
    return text(lattice, i) in _ON_IT | _SAID_OF_ONE or bool(sized)


_THEY = _LISTED.words("they")


def of_the_next_plant(lattice: Lattice, p: Phrase) -> bool:
    """`the third is rolled like a cigar second plant two`: the number is the next plant's; `on the second they're still
    folded`: leaves of the second plant."""
    words = {text(lattice, x) for x in range(p.start, p.end)}
    if text(lattice, p.start - 1) == "the" and text(lattice, p.start - 2) == "on" and words & _THEY:
        return True
    return p.path[-1][1].kind == "ORD" and bool(kinds(lattice, p.end) & {"PLANT", "PLETTER"})


def end_of_a_day(lattice: Lattice, p: Phrase) -> bool:
    """`july twenty first uh four plants`, `july twenty fourth plant one`: the day, and no first four, no fourth plant."""
    return text(lattice, p.start - 1) in {"twenty", "thirty"} or (
        text(lattice, p.start) in {"the", "first"}
        and text(lattice, p.start - 2) in {"twenty", "thirty"}
        and p.start > 1
        and "ORD" not in kinds(lattice, p.start - 1)  # august thirty first, first one
    )


_BEHIND_NO_PLANTS = _LISTED.words("behind_no_plants")
_BEHIND_NO_PLANTS_2 = _COMMON.words("blooming") | _COMMON.words("being")


def no_plants(lattice: Lattice, p: Phrase) -> bool:
    """`first three plants`, `last two V5`: so many plants, and no leaves or nodes."""
    if (
        (p.path[0][1].kind == "ORD" and p.path[0][1].means != 1)
        or not 2 <= int(p.path[1][1].means) <= 40
        or p.path[1][1].kind == "INTSOUND"
    ):
        return True
    denied = text(lattice, p.end) in _BEHIND_NO_PLANTS
    if denied and kinds(lattice, p.end + 1) & {"FLOWER", "POD", "SEED"}:
        return text(lattice, p.start - 1) == "on"  # first four not blooming
    if text(lattice, p.end) in _BEHIND_NO_PLANTS_2:
        return False
    if "on" in {text(lattice, p.start - 1), text(lattice, p.start - 2)}:
        return text(lattice, p.start - 1) not in {"on", "the"}  # not a bloom on the first four
    return not (p.path[-1][1].kind in {"PLANT", "ONE"} or kinds(lattice, p.end) & {"R", "V", "HAS", "STAGENAME"})


def parted(lattice: Lattice, p: Phrase) -> bool:
    """`the eighteenth, first plant`."""
    return p.path[1][0] > p.path[0][1].end
