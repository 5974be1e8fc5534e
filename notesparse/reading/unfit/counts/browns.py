"""Brown pods: so many plants that have them, the water in the grain, or another brown thing."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.reading.unfit.counts.nouns import comma_inside
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/counts/browns")
_COMMON = cue_page("shared")
_FOR_OF_PLANTS_WITH = _COMMON.words("having_or_with")


def of_plants_with(lattice: Lattice, p: Phrase) -> bool:
    """`sixty percent have a brown pod`: so many plants, and no share of the pods of one."""
    inside = [text(lattice, x) for x in range(p.start, p.end)]
    has = next((i for i, word in enumerate(inside) if word in _FOR_OF_PLANTS_WITH), None)
    return has is not None and not {"pod", "pods"} & set(inside[:has])


def none_brown_pods(lattice: Lattice, p: Phrase) -> bool:
    """`none brown, pods full 2nd node dn`: the pods behind the comma are of what follows."""
    i, last = p.path[-1]
    return last.kind == "POD" and i > p.start and lattice.pieces[i - 1].form == "mark"


_NO_PODS = _COMMON.words("leaf") | _COMMON.words("stem") | _LISTED.words("of_the_plant")
_BEFORE_BROWN = _COMMON.words("being") | _COMMON.words("looking") | _LISTED.words("before_brown")
_ON_THE_STEM = _LISTED.words("on_the_stem")
_FAR = 6  # words between the leaves and their colour


def of_leaves(lattice: Lattice, p: Phrase) -> bool:
    """`leaves all brown`, `stems are about 60% brown`, `half the leaves brown`: no pods (guide 4.14)."""
    if any(e.kind in {"POD", "PODG"} for _, e in p.path):
        return False
    if text(lattice, p.end) in _NO_PODS:
        return True
    i, first = p.start - 1, max(-1, p.start - 1 - _FAR)
    while i > first and (text(lattice, i) in _BEFORE_BROWN or kinds(lattice, i) & {"INT", "PCT", "FRAC"}):
        i -= 1
    if text(lattice, i) not in _NO_PODS:
        return False
    before = next((text(lattice, x) for x in range(i - 1, -1, -1) if text(lattice, x) not in {"main", "the"}), "")
    pods_too = before in {"&", "and"} and "POD" in kinds(lattice, i - 2)  # pods and leaves all brown
    return before not in _ON_THE_STEM and not pods_too


def share_of_leaves(lattice: Lattice, p: Phrase) -> bool:
    """`leaves 40% | brown, one brown pod`, `half the | leaves are brown`: the share is that of the leaves."""
    if "BROWN" in kinds(lattice, p.end):
        return of_leaves(lattice, p)
    i = p.end
    while text(lattice, i) in {"main", "of", "the"}:
        i += 1
    if text(lattice, i) not in _NO_PODS:
        return False
    i += 1
    while text(lattice, i) in _BEFORE_BROWN:
        i += 1
    return "BROWN" in kinds(lattice, i) and "POD" not in kinds(lattice, i + 1)


_MADE_BROWN = frozenset({"browned", "tanned"})
_OF_A_LEAF = _COMMON.words("leaf") | _COMMON.words("stem") | _LISTED.words("of_a_leaf")
_BEHIND_BROWN_KIND = _LISTED.words("behind_brown_kind")


def brown_kind(lattice: Lattice, p: Phrase) -> bool:
    """`stink bugs, mostly the brown kind`, `frost browned the leaf edges`: no pods."""
    if text(lattice, p.end) in _BEHIND_BROWN_KIND:
        return True
    the = text(lattice, p.end) in {"the", "some", "all"}
    return text(lattice, p.end - 1) in _MADE_BROWN and text(lattice, p.end + the) in _OF_A_LEAF


_BEHIND_OF_MOISTURE = _COMMON.words("moisture") | {"water"}


def of_moisture(lattice: Lattice, p: Phrase) -> bool:
    """`pods brown, 13% moisture`: of the grain, and no share of pods."""
    last = p.path[-1][1].kind in {"PCT", "INT", "DEC"}
    behind = text(lattice, p.end) in _BEHIND_OF_MOISTURE
    return last and (behind or "OTHERFIND" in kinds(lattice, p.end))


def to_a_colour(lattice: Lattice, p: Phrase) -> bool:
    """`down the lane to Gray South`, `gone to brown`: no two pods; heard for a number it stands beside a pod."""
    (_, first), (_, last) = p.path[0], p.path[-1]
    return first.kind == "INTSOUND" and last.kind != "POD" and not kinds(lattice, p.end) & {"POD"}


def brown_on_one(lattice: Lattice, p: Phrase) -> bool:
    """`90 percent of the pods brown on one`: plant one, and no one brown pod."""
    on = any(text(lattice, i) == "on" for i in range(p.start + 1, p.end))
    return on and text(lattice, p.start - 1) in {"pod", "pods"} and text(lattice, p.end - 1) == "one"


def brown_and_more(lattice: Lattice, p: Phrase) -> bool:
    """`6 of 8 had a brown pod, 1 of 8 was brown all over`: another share begins at the comma."""
    return text(lattice, p.start - 1) in {"a", "one", "1"} and comma_inside(lattice, p)


def all_pods_brown(lattice: Lattice, p: Phrase) -> bool:
    """`all pods brown   9 of 20`: so many plants with all of them brown, and no share of the pods."""
    return text(lattice, p.start - 1) in {"all", "every"} and "POD" in kinds(lattice, p.start)


def brown_on_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`95% of pods brown on 7 of 10`: plants, and no pods."""
    brown = next((e.end for _, e in p.path if e.kind == "BROWN"), p.end)
    return any(text(lattice, i) == "on" for i in range(brown, p.end))


def brown_pods_on(lattice: Lattice, p: Phrase) -> bool:
    """`brown pods on 7`: so many plants; `tan pods on the plant` are its own."""
    on = (i for i in range(p.start, p.end) if text(lattice, i) == "on")
    return any("INT" in kinds(lattice, i + 1) and text(lattice, i + 1) not in {"one", "this"} for i in on)


def every_pod_of_them(lattice: Lattice, p: Phrase) -> bool:
    """`looked at ten plants every pod is brown on seven`: every belongs to the pod."""
    every = p.path[-1][1].kind == "EVERYW" and text(lattice, p.end - 1) in {"every", "each"}
    return every and bool(kinds(lattice, p.end) & {"POD", "FLOWER", "SEED", "BEAN", "LEAF", "NODE"})
