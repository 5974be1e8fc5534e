"""All, both, others, none: no group of plants."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_COMMON = cue_page("shared")
_GROUPS = frozenset({"ALLOF", "ANYOF", "REST", "OTHER"})
_MOST_LABELLED = 30  # no more plants are told of by a bare number
_FOR_EACH_HAS_ONE = _COMMON.words("having") | {"each", "every"}


def each_has_one(lattice: Lattice, p: Phrase) -> bool:
    """`each of them has one tan pod`, `every one had two flowers`: a count of what they have, and none of the plants."""
    words = {text(lattice, i) for i in range(p.start, p.end)}
    return p.path[-1][1].kind == "INT" and bool(words & _FOR_EACH_HAS_ONE)


def not_others(lattice: Lattice, p: Phrase) -> bool:
    """`the other side`, `other 2`: only `others`, `the others` are the rest of the plants."""
    return text(lattice, p.end - 1) != "others"


def not_there_either(lattice: Lattice, p: Phrase) -> bool:
    """`and no brown pods there either`: of this plant too, and not of two."""
    if text(lattice, p.start) != "either" or p.end != p.start + 1 or text(lattice, p.start - 1) in {"on", "in", "of"}:
        return False
    ends = p.end >= len(lattice.pieces) or lattice.pieces[p.end].form in {"mark", "nl"}
    return ends or text(lattice, p.start - 1) == "there"


def both_of_what(lattice: Lattice, p: Phrase) -> bool:
    """`1 and 3 both 6 trifs`: two plants, and not `8 and 9 both sides`, `12 and 11 both`."""
    if p.path[-1][1].kind != "BOTHW" or p.path[0][1].kind == "PLANT":
        return False
    nums = [int(e.means) for _, e in p.path if e.kind == "INT"]
    says = kinds(lattice, p.end) | kinds(lattice, p.end + 1) | kinds(lattice, p.end + 2)
    told = says & {"INT", "FLOWER", "POD", "SEED", "BEAN", "R", "V", "TRIF", "HAS", "NO", "BROWN"}
    return text(lattice, p.end - 1) != "both" or nums != sorted(nums) or nums[-1] > _MOST_LABELLED or not told


def cut_short(lattice: Lattice, p: Phrase) -> bool:
    """`all right this is the twenty seventh of june`: no twenty plants."""
    at = p.path[-1][0]
    ordinal = any(e.kind == "ORD" and e.end > p.end for e in lattice.edges[at])
    return ordinal or text(lattice, p.start + 1) == "right"


def of_rows(lattice: Lattice, p: Phrase) -> bool:
    """`out of the first ten rows`: so many rows, and no plants."""
    return text(lattice, p.end) in {"rows", "row"}


def none_of_its_pods(lattice: Lattice, p: Phrase) -> bool:
    """`none of 20 pods brown`, `p1 none of 30`: of one plant's pods, and of no plants."""
    if p.path[0][1].kind != "NONE":
        return False
    end = p.start - (text(lattice, p.start - 1) in {":", ")", "-", "="})
    near = range(max(0, end - 2), end)
    labelled = any(e.end == end and e.kind in {"INT", "BARE"} for x in near for e in lattice.edges[x])
    labelled = labelled or any(e.kind == "BARE" and e.end == p.start for x in near for e in lattice.edges[x])
    return labelled or bool(kinds(lattice, p.end) & {"POD", "SEED", "BEAN", "NODES", "NODE", "TRIF"})


def on_the_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`no bloom on the three`: of plants, where the sentence is over; and `on the three top nodes` of none."""
    if p.path[0][1].kind != "ONTHE" or any(e.kind == "STILLTHERE" for _, e in p.path):
        return False
    ends = p.end >= len(lattice.pieces) or lattice.pieces[p.end].form in {"mark", "nl"}
    whole = p.path[1][0] == p.path[0][1].end  # on the first two
    before = p.start - 1 - (text(lattice, p.start - 1) in {"anywhere", "yet", "showing"})
    return not (ends and whole and kinds(lattice, before) & {"FLOWER", "POD", "SEED", "BEAN", "BROWN", "OPEN"})


def that_is_all(lattice: Lattice, p: Phrase) -> bool:
    """`and that's all the time I got`: of no plants."""
    before = [text(lattice, p.start - 2), text(lattice, p.start - 1)]
    return before[1] in {"that's", "thats"} or before in (["that", "'s"], ["that", "is"])


def all_in_all(lattice: Lattice, p: Phrase) -> bool:
    """`R3 all in all`: on the whole, and not all of them."""
    around = [text(lattice, p.start + x) for x in (-2, -1, 0, 1, 2)]
    return text(lattice, p.start) == "all" and (
        around[2:] == ["all", "in", "all"] or around[:3] == ["all", "in", "all"]
    )


def on_all_of_them(lattice: Lattice, p: Phrase) -> bool:
    """`no brown pods on any`: the word belongs to the group that is named behind."""
    return p.end - p.start > 1 and text(lattice, p.end - 1) == "on" and bool(_GROUPS & kinds(lattice, p.end - 1))


def either_or(lattice: Lattice, p: Phrase) -> bool:
    """`either V6 or V7`: two stages of one plant; `no blooms either`: that one too; `in all the field`. Not all plants."""
    if (
        text(lattice, p.start) == "either"
        and "INT" in kinds(lattice, p.start + 1)
        and text(lattice, p.start + 2) == "or"
    ):
        return True  # it's either nine or ten
    if text(lattice, p.start) == "either" and kinds(lattice, p.start - 1) & {"FLOWER", "POD", "SEED", "BEAN"}:
        return any(kinds(lattice, x) & {"NO", "NONE", "NOT"} for x in range(max(0, p.start - 3), p.start))
    if text(lattice, p.end) == "field" or (text(lattice, p.end) == "the" and text(lattice, p.end + 1) == "field"):
        return True
    return text(lattice, p.end - 1) == "either" and bool(kinds(lattice, p.end) & {"V", "VSOUND", "R", "INT"})
