"""Top, low, so far down: no place on the stem, or one that is told by another."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/organs/stem")
_COMMON = cue_page("shared")
_FOR_NO_NODE_UP = _COMMON.words("being_or_having") | _COMMON.words("with") | {"it"}


def no_node_up(lattice: Lattice, p: Phrase) -> bool:
    """`third one is up`: a plant that is up, and no node."""
    if any(
        text(lattice, x) == "up" and text(lattice, x - 1) in {"first", "next", "last"}
        for x in range(p.start + 1, p.end)
    ):
        return True  # july third first up is swede hill
    return any(text(lattice, x) in _FOR_NO_NODE_UP for x in range(p.start, p.end))


def below_a_node(lattice: Lattice, p: Phrase) -> bool:
    """`only below node 4`: below a node that is named."""
    i = p.end
    if text(lattice, p.end - 1) != "below":
        i = p.end - 1 if kinds(lattice, p.end - 1) & {"NODE", "NODES"} and text(lattice, p.end - 2) == "below" else -1
    if i < 0:
        return False
    while text(lattice, i) == "the":
        i += 1
    return bool(kinds(lattice, i) & {"NODE", "NODES", "TOP", "INT", "ORD"})


def below_the_top(lattice: Lattice, p: Phrase) -> bool:
    """`a bloom below the top node`: below it, how far is not said, and not at it."""
    before = text(lattice, p.start - 1)
    if before in {"the", "that"}:
        before = text(lattice, p.start - 2)
    return before in _BELOW


_BELOW = _COMMON.words("underneath")
_FOR_NOT_UP_TOP = _LISTED.words("for_not_up_top")
_FOR_NOT_UP_TOP_2 = _LISTED.words("for_not_up_top_2")


def not_up_top(lattice: Lattice, p: Phrase) -> bool:
    """`touching down low, not up top`, `two up at the very top`, `not up to V9 yet`: a place or a size, and no
    emergence."""
    here = text(lattice, p.end)
    placed = here in _FOR_NOT_UP_TOP and any(
        kinds(lattice, i) & {"TOP", "NODE", "NODES"} for i in range(p.end + 1, p.end + 4)
    )
    return placed or here in _FOR_NOT_UP_TOP_2


def down_at_a_node(lattice: Lattice, p: Phrase) -> bool:
    """`one down at the fifth node`, `one down on node 9`: the node is told behind."""
    i = p.end + (text(lattice, p.end) in {"at", "on", "in"})
    i += text(lattice, i) == "the"
    return i > p.end and text(lattice, p.start) in {"one", "1"} and bool(kinds(lattice, i) & {"NODE", "NODES", "ORD"})


_NODES = 28  # more than any stem has
_LEFT = _LISTED.words("left")
_FOR_SO_MANY_DONE = _LISTED.words("for_so_many_done")


def so_many_done(lattice: Lattice, p: Phrase) -> bool:
    """`thirty one down nine to go`, `that's four down, two left`: fields or hours of work, and no node."""
    around = [*(e for _, e in p.path), *(e for e in (lattice.edges[p.start - 1] if p.start else ()) if e.end > p.start)]
    if any(e.kind == "INT" and int(e.means) > _NODES for e in around):
        return True
    if text(lattice, p.end - 1) != "down":
        return False
    i = p.end + (text(lattice, p.end) in {",", ".", ";", "-"})
    i += text(lattice, i) in _FOR_SO_MANY_DONE
    for e in lattice.edges[i] if i < len(lattice.pieces) else ():
        if e.kind == "INT" and (
            text(lattice, e.end) in _LEFT or (text(lattice, e.end), text(lattice, e.end + 1)) == ("to", "go")
        ):
            return True
    return False


_GONE = _LISTED.words("gone")
_LEADS = _LISTED.words("leads")
_BEHIND_TOP_IS_GONE = _LISTED.words("behind_top_is_gone")


def top_is_gone(lattice: Lattice, p: Phrase) -> bool:
    """`the mower took the top off`, `top of the plant is gone`: what the plant lost, and no place on it."""
    if text(lattice, p.start - 1) in _LEADS or text(lattice, p.start) in _LEADS:
        return False
    i = p.end + (text(lattice, p.end) in _BEHIND_TOP_IS_GONE)
    return text(lattice, i) in _GONE


_BEHIND_THE_NEXT_ONE = _LISTED.words("behind_the_next_one")


def the_next_one(lattice: Lattice, p: Phrase) -> bool:
    """`top two nodes bare, next one down`: below those, and not the second node."""
    if text(lattice, p.end) in _BEHIND_THE_NEXT_ONE and text(lattice, p.end - 1) == "down":
        return True  # three had one down low
    return text(lattice, p.start - 1) == "next"


_BEFORE_COME_TO = _LISTED.words("before_come_to")


def come_to(lattice: Lattice, p: Phrase) -> bool:
    """`the first pod you come to from the top`: no second node."""
    return text(lattice, p.start) == "to" and text(lattice, p.start - 1) in _BEFORE_COME_TO


def comma_inside(lattice: Lattice, p: Phrase) -> bool:
    """`up top, couple down low`."""
    return p.form.startswith("top_") and any(
        text(lattice, a) in {",", ";"}
        for (_, e), (b, _) in zip(p.path, p.path[1:], strict=False)
        for a in range(e.end, b)
    )


_BEFORE_SEED_STARTS = _COMMON.words("pod") | _COMMON.words("seed") | {"just", "only"}


def seed_starts(lattice: Lattice, p: Phrase) -> bool:
    """`seed just starting in the top four`, and no field that is gone to."""
    return text(lattice, p.start).startswith("start") and text(lattice, p.start - 1) in _BEFORE_SEED_STARTS


def of_a_title(lattice: Lattice, p: Phrase) -> bool:
    """`podded. Low Bridge can't get in`: two words with capitals behind a stop name something, and no place on the stem."""
    if p.end != p.start + 1 or text(lattice, p.start - 1) not in {".", ";"} or p.end >= len(lattice.pieces):
        return False
    first, second = (lattice.original(i, i + 1) for i in (p.start, p.end))
    return first[:1].isupper() and second[:1].isupper() and not second.isupper() and not first.isupper()


def low_ground(lattice: Lattice, p: Phrase) -> bool:
    """`the creek is over the low crossing`: a place in the field, and none on the plant."""
    if p.end != p.start + 1 or text(lattice, p.start) not in {"low", "lower"} or text(lattice, p.start - 1) != "the":
        return False
    i = p.end
    if i >= len(lattice.pieces) or lattice.pieces[i].form != "word" or lattice.filler[i] or text(lattice, i) in _ONES:
        return False
    return not lattice.edges[i] or "FIELDNOUN" in kinds(lattice, i)


_ONES = _COMMON.words("node") | _COMMON.words("pod") | {"one", "ones"}
_FOR_LOW_ON_THE_PLANT = _COMMON.words("low") | _COMMON.words("top") | _COMMON.words("upper_or_lower")


def low_on_the_plant(lattice: Lattice, p: Phrase) -> bool:
    """`beans only in the low ones`, `seed just in the bottom pods`: on the plant, and no place in the field."""
    said = text(lattice, p.end - 1) in _FOR_LOW_ON_THE_PLANT
    return said and text(lattice, p.end) in _ONES


def part_of_a_length(lattice: Lattice, p: Phrase) -> bool:
    """`an inch less an eighth, third node down`: an eighth of an inch, and no eighth node."""
    return text(lattice, p.start - 1) in {"a", "an", "one"}
