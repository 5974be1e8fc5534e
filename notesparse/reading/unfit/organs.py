"""Flowers, pods, seeds and leaves: what looks like one seen and is none."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.reading.unfit.heads import not_said_of_beans
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/organs")
_COMMON = cue_page("shared")

_WHERE = _COMMON.words("beside")
_BEHIND_FILLED = 3  # words
_ROUNDS = _LISTED.words("rounds")


def looked_for(lattice: Lattice, p: Phrase) -> bool:
    """`Bloom check, 10 plants to a field`, `pod run`: what somebody went out to look for, and nothing seen yet."""
    last = text(lattice, p.end - 1)
    return p.end == p.start + 1 and not last.endswith("s") and text(lattice, p.end) in _ROUNDS


_LAND = _LISTED.words("land")
_FOR_CLEAR_OF_THE_GROUND = _LISTED.words("for_clear_of_the_ground")


def clear_of_the_ground(lattice: Lattice, p: Phrase) -> bool:
    """`the lowest pods are well clear of the dirt`: how high they hang, for the combine."""
    lowest = text(lattice, p.start - 1) in {"lowest", "bottom"}
    behind = {text(lattice, i) for i in range(p.end, p.end + _REACH)}
    return lowest and bool(behind & {"clear", "off"}) and bool(behind & _FOR_CLEAR_OF_THE_GROUND)


def of_a_bean_field(lattice: Lattice, p: Phrase) -> bool:
    """`two bean quarters`, `his bean fields`: what grows there, and no seed."""
    return text(lattice, p.end - 1) in {"bean", "soybean"} and text(lattice, p.end) in _LAND


def partly_filled(lattice: Lattice, p: Phrase) -> bool:
    """`beans partly fill the cavity`: some of it, and not nearly all."""
    return any(e.kind == "ALMOST" and text(lattice, at) == "partly" for at, e in p.path)


_FOR_NO_NODE_UP = _COMMON.words("being") | _COMMON.words("having") | _COMMON.words("with") | {"it"}


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


_BEHIND_SOWN = _COMMON.words("planted") | {"dug"}
_BEHIND_SOWN_2 = _LISTED.words("behind_sown_2")


def sown(lattice: Lattice, p: Phrase) -> bool:
    """`Dug ten seeds: 7 still in the crook`, `Seed was 1.5 inches deep`: what was sown."""
    dug = any(e.kind == "SAMPLED" for e in lattice.edges[max(0, p.start - 2)]) and kinds(lattice, p.start - 1) & {"INT"}
    deep = any(text(lattice, i) in {"deep", "depth"} for i in range(p.end, min(p.end + 6, len(lattice.pieces))))
    behind = [text(lattice, p.end), text(lattice, p.end + 1)]  # maggots in some of the seed I dug
    up = behind[1] in _BEHIND_SOWN or behind[0] in _BEHIND_SOWN_2
    return bool(dug) or deep or up


def but_something_else(lattice: Lattice, p: Phrase) -> bool:
    """`no seed but there's a pod an inch long`, `can't feel seed, found pods`: behind the `but` stands what was found
    instead, and no seed."""
    if (
        len(p.path) < _DENIED_AND_SEEN
        or not any(e.kind in {"NO", "NOT"} for _, e in p.path)
        or p.path[-1][1].kind != "SEE"
    ):
        return False
    for i in range(p.end, min(p.end + _FOUND_INSTEAD, len(lattice.pieces))):
        if lattice.pieces[i].form in {"mark", "nl"}:
            return False
        if kinds(lattice, i) & {"POD", "FLOWER", "BUD", "BROWN", "FLAT", "PIN"}:
            return True
    return text(lattice, p.path[-1][0]) == "there" and text(lattice, p.end) in _IS


_DENIED_AND_SEEN = 3  # words of the phrase: no, seed, there
_FOUND_INSTEAD = 6  # pieces
_IS = _COMMON.words("being") | {"s"}


def gone_of_all(lattice: Lattice, p: Phrase) -> bool:
    """`cotyledons have dropped off already`, at the head of what is said of no plant."""
    lost = any(text(lattice, i) in _LOST for i in range(p.end, min(p.end + 4, len(lattice.pieces))))
    before = text(lattice, p.start - 1)
    return (
        lost
        and (p.start == 0 or before in {".", ",", ";", "and"})
        and not any(kinds(lattice, i) & {"PLANT", "PLETTER", "HASH"} for i in range(max(0, p.start - 12), p.start))
    )


def there_is_one(lattice: Lattice, p: Phrase) -> bool:
    """`no pods, no there's one at the 4th node down`: no node one."""
    return any(text(lattice, i) in {"there", "theres"} for i in range(p.start, p.end))


_BEFORE_EATEN_THERE = _LISTED.words("before_eaten_there")


def eaten_there(lattice: Lattice, p: Phrase) -> bool:
    """`slug trails on the seed leaves`: where something was found."""
    i = p.start - (text(lattice, p.start - 1) in {"the", "their", "some"})
    if text(lattice, i - 1) not in _BEFORE_EATEN_THERE:
        return False
    found = {"INSECT", "DISEASE", "DAMAGE", "DEFOL", "WEED"}
    return any(kinds(lattice, x) & found for x in range(max(0, i - 7), i - 1))


_LOST = _LISTED.words("lost")
_FOR_BEFORE_A_NODE = _COMMON.words("at") | {"the"}


def before_a_node(lattice: Lattice, p: Phrase) -> bool:
    """`1/4 at the top node, 3/4 third node down`: a size at its place, and no date."""
    i = p.end
    while text(lattice, i) in _FOR_BEFORE_A_NODE:
        i += 1
    if kinds(lattice, i) & {"TOPSOUND", "UPTOP", "TIP"}:
        return True
    return bool(kinds(lattice, i) & {"TOP", "ORD"} and kinds(lattice, i + 1) & {"NODE", "NODES", "DOWN"})


_OF_AN_INCH = frozenset({"2", "4", "8", "16"})


def second_size(lattice: Lattice, p: Phrase) -> bool:
    """`seed 1/8 at the second node, 1/4 at the fourth down`: another size at its place, and no share."""
    if text(lattice, p.end - 1) not in _OF_AN_INCH or not before_a_node(lattice, p):
        return False
    i, sized, first = p.start - 1, False, max(0, p.start - _FAR)
    while i >= first and lattice.pieces[i].form != "nl" and text(lattice, i) not in {".", ";"}:
        sized = sized or (text(lattice, i) == "/" and text(lattice, i + 1) in _OF_AN_INCH)
        if kinds(lattice, i) & {"POD", "SEED", "BEAN"}:
            return sized
        i -= 1
    return False


def out_of(lattice: Lattice, p: Phrase) -> bool:
    """`two blooming out of 20`, `third one isn't out of the ground yet`: the out is of what stands behind it."""
    return text(lattice, p.end - 1) == "out" and text(lattice, p.end) == "of"


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


_GAUGES = _LISTED.words("gauges")


def in_the_gauge(lattice: Lattice, p: Phrase) -> bool:
    """`0.4 in the gauge`, `point nine in my rain gauge`: rain, and no length of a pod, and no stop."""
    i = p.end + (text(lattice, p.end) == "in")
    if text(lattice, i) not in {"the", "my", "our"}:
        return False
    return text(lattice, i + 1 + (text(lattice, i + 1) == "rain")) in _GAUGES


def half_of_it(lattice: Lattice, p: Phrase) -> bool:
    """`pods half brown`: read with its pods."""
    return p.path[0][1].kind == "POD" and any(text(lattice, i) in {"half", "1/2"} for i in range(p.start, p.end))


_FOR_SEED_IN_IT = _LISTED.words("for_seed_in_it")


def seed_in_it(lattice: Lattice, p: Phrase) -> bool:
    """`beans in pods 1/8 inch`: how long the beans are is said where the walk is, which knows their length."""
    i = p.start - 1
    while text(lattice, i) in _FOR_SEED_IN_IT:
        i -= 1
    return text(lattice, i) == "in" and bool(kinds(lattice, i - 1) & {"SEED", "BEAN"})


_WHOSE = _LISTED.words("whose")


def a_part_of(lattice: Lattice, p: Phrase) -> bool:
    """`one brown pod about a third of the leaves`, `R6 and a third R5`, `half the pods`: a part of something, and no
    length."""
    if text(lattice, p.start - 1) in {"r", "v"} and lattice.pieces[p.start].glued:
        return True
    if p.path[-1][1].kind != "FRAC":
        return False
    of_them = text(lattice, p.end) in _WHOSE and bool(kinds(lattice, p.end + 1) & {"FLOWER", "LEAF", "POD"})
    return of_them or text(lattice, p.end) == "of"


def flat_and_no_pod(lattice: Lattice, p: Phrase) -> bool:
    """`top flat` is the top leaf; `top pods flat` names the pods."""
    return len(p.path) == 2 and p.path[1][1].kind == "FLAT" and p.end - p.start == 2


def not_the_top_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`pods up top flat`: the place of pods, and no leaf."""
    return text(lattice, p.start - 1) == "up" and bool(kinds(lattice, p.start - 2) & {"POD", "SEED", "BEAN", "FLOWER"})


_MORE = _LISTED.words("more")
_NOTHING = _LISTED.words("nothing")


def none_of_more(lattice: Lattice, p: Phrase) -> bool:
    """`podding, nothing further along`: there is no more than that; nor behind a share, where what follows is not known
    (`4 of 10 blooming, nothing spectacular`)."""
    at, last = p.path[-1]
    if len(p.path) == 1 or last.kind != "NONE" or text(lattice, at) not in _NOTHING:
        return False
    if text(lattice, p.end) in _MORE:
        return True
    shared = text(lattice, p.start - 2) in {"/", "of"} and "INT" in kinds(lattice, p.start - 1)
    behind = lattice.pieces[p.end] if p.end < len(lattice.pieces) else None
    if not shared or behind is None or behind.form != "word":
        return False
    return not lattice.known[p.end] or (text(lattice, at) == "nothing" and text(lattice, at - 1) == ",")


def none_then_comma(lattice: Lattice, p: Phrase) -> bool:
    """`nothing on the first, blooms on the other two`: the comma parts them."""
    first, last = p.path[0], p.path[-1]
    if first[1].kind not in {"NONE", "NO", "NOT"}:
        return False
    word = first[1].end == first[0] + 1 and text(lattice, first[0]) not in {"without", "w/o"}
    least = first[1].end + (first[1].kind != "NONE" and word)  # none, bloom at the top node; can't feel any, pod 1 in.
    return last[0] > least and any(text(lattice, x) == "," for x in range(first[1].end, last[0]))


_FOR_IT_HAS_NONE = _LISTED.words("for_it_has_none")


def it_has_none(lattice: Lattice, p: Phrase) -> bool:
    """`all but the last have a flower, it has none`: said of another plant."""
    between = [text(lattice, x) for x in range(p.start, p.end)]
    return "," in between[:-1] and bool(_FOR_IT_HAS_NONE & set(between[between.index(",") :]))


_BEHIND_AND_NO_OTHER = _LISTED.words("behind_and_no_other")


def and_no_other(lattice: Lattice, p: Phrase) -> bool:
    """`blooming and no pods`: the no is of what stands behind it."""
    last, edge = p.path[-1] if p.path else (0, None)
    if edge is None or edge.kind != "NO" or len(p.path) < 2:
        return False
    joined = {text(lattice, x) for x in range(p.path[-2][1].end, last)} & _BEHIND_AND_NO_OTHER
    return bool(joined) and p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "word"


def colon(lattice: Lattice, p: Phrase) -> bool:
    """`nd:9 fl:n`: a count, and no place."""
    return text(lattice, p.path[0][1].end) in {":", "="} and p.path[0][1].kind == "NODE"


def no_colon(lattice: Lattice, p: Phrase) -> bool:
    return not colon(lattice, p)


_BEHIND_THOSE_NODES = _LISTED.words("behind_those_nodes")


def those_nodes(lattice: Lattice, p: Phrase) -> bool:
    """`same four nodes`, `the four nodes above it have blooms`: nodes told of, and no count of all."""
    before, behind = text(lattice, p.start - 1), text(lattice, p.end)
    return before in {"same", "those", "these"} or (before == "the" and behind in _BEHIND_THOSE_NODES)


def on_so_many_nodes(lattice: Lattice, p: Phrase) -> bool:
    """`blooms on three nodes`, `pods on nodes 3 thru 6`, `two nodes blooming`: nodes that bear something, and no count of
    all."""
    few = all(e.means <= _FEW_NODES for _, e in p.path if e.kind == "INT")
    bearing = few and text(lattice, p.end) in _BEARING
    return text(lattice, p.start - 1) in {"on", "across"} or (bearing and _borne_at(lattice, p.end))


_FEW_NODES = 4
_WITH = _LISTED.words("with")
_BEARING = _WITH | _COMMON.words("blooming") | {"bearing"}


def _borne_at(lattice: Lattice, i: int) -> bool:
    """A word for what nodes bear stands at piece i, or behind `in`, `with open`, `of`."""
    i += text(lattice, i) in _WITH
    i += text(lattice, i) == "open"
    return text(lattice, i) == "bearing" or bool(kinds(lattice, i) & {"FLOWER", "POD", "SEED", "BLOOMING"})


def notes_of_a_day(lattice: Lattice, p: Phrase) -> bool:
    """`8/9 notes. combine head needs ...` at the head of a line: what was noted that day, and no nodes."""
    pieces = lattice.pieces
    begins = p.start == 0 or pieces[p.start - 1].form == "nl"
    parted = any(text(lattice, x) in {"/", "-"} for x in range(p.start, p.end))
    ends = p.end >= len(pieces) or pieces[p.end].form in {"mark", "nl"}
    return begins and parted and ends and text(lattice, p.end - 1) == "notes" and pieces[p.start].form == "int"


_FOR_PLACE_ON_THE_LEAF = _LISTED.words("for_place_on_the_leaf")


def place_on_the_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`a flower on the third trif`: where it is, and no count of leaves."""
    i = p.start - 1
    while text(lattice, i) in {"the", "that", "this"}:
        i -= 1
    return text(lattice, i) in _FOR_PLACE_ON_THE_LEAF


def share_behind(lattice: Lattice, p: Phrase) -> bool:
    """`1st trif   10 of 10`: so many plants have it, and no count of leaves."""
    return "INT" in kinds(lattice, p.end) and bool(kinds(lattice, p.end + 1) & {"OF", "OUTOF", "SLASH"})


_BEFORE_COME_TO = _LISTED.words("before_come_to")


def come_to(lattice: Lattice, p: Phrase) -> bool:
    """`the first pod you come to from the top`: no second node."""
    return text(lattice, p.start) == "to" and text(lattice, p.start - 1) in _BEFORE_COME_TO


def heard_as_a_stage(lattice: Lattice, p: Phrase) -> bool:
    """`flowers at the top node are two`: R2, and no node 2."""
    return any(text(lattice, x) in {"are", "our", "or"} for x in range(p.start + 1, p.end - 1))


_OF_TRADE = _LISTED.words("of_trade")


def of_the_trade(lattice: Lattice, p: Phrase) -> bool:
    """`paid the seed bill`, `the seed guy says`: seed that is bought; `beans there are 30 inch rows`: the crop; and none in
    a pod."""
    if text(lattice, p.end) in {"there", "here"} and text(lattice, p.end + 1) in {"are", "were", "is"}:
        return text(lattice, p.end - 1) == "beans"
    return text(lattice, p.end - 1) in {"seed", "bean"} and text(lattice, p.end) in _OF_TRADE


_NO_PODS = _COMMON.words("leaf") | _COMMON.words("stem") | {"canopy", "leaf"}
_BEHIND_GREEN_BEANS = _COMMON.words("stem")
_FOR_GREEN_BEANS = _LISTED.words("for_green_beans")


def green_beans(lattice: Lattice, p: Phrase) -> bool:
    """`green beans filling the pod`, `loopers, green ones`, `stems are still a bit green`: no pods that are green."""
    if kinds(lattice, p.end) & {"SEED", "BEAN"} or text(lattice, p.end) in _BEHIND_GREEN_BEANS:
        return True
    if text(lattice, p.end) in {"one", "ones"} and any(
        e.kind in {"INSECT", "WEED"} for x in range(max(0, p.start - 4), p.start) for e in lattice.edges[x]
    ):
        return True
    before = [text(lattice, x) for x in range(max(0, p.start - 5), p.start)]
    stems = max((i for i, w in enumerate(before) if w in _NO_PODS), default=-1)
    between = set(before[stems:]) - ({"and"} if before[-2:-1] == ["good"] else set())  # leaves are good and green
    return stems >= 0 and not _FOR_GREEN_BEANS & between


_FOR_GREEN_SEED = _LISTED.words("for_green_seed")


def green_seed(lattice: Lattice, p: Phrase) -> bool:
    """`seed full & still green`, `beans inside are green`: the colour of the seed, and not that of the pods."""
    inside = False
    for i in range(p.start - 1, max(-1, p.start - _REACH), -1):
        here = kinds(lattice, i)
        if "SEED" in here or ("BEAN" in here and inside):
            return True
        word = text(lattice, i)
        inside = inside or word == "inside"
        if not (inside or word in _COPULA | _HOW | _FOR_GREEN_SEED):
            return False
    return False


def none_of(lattice: Lattice, p: Phrase) -> bool:
    """`flowers on none of them`."""
    at, last = p.path[-1] if p.path else (0, None)
    return (
        last is not None
        and last.kind == "NONE"
        and any(e.kind == "NONEOF" and e.end > p.end for e in lattice.edges[at])
    )


_FOR_HAS_ONE_NONE_ON = _COMMON.words("having") | _COMMON.words("with")


def has_one_none_on(lattice: Lattice, p: Phrase) -> bool:
    """`p2 has a bloom, none on the others`: there is one, and the `none` is of other plants."""
    last = p.path[-1][1].kind
    has = bool({text(lattice, x) for x in range(p.start - 3, p.start)} & _FOR_HAS_ONE_NONE_ON)
    comma = any(text(lattice, x) == "," for x in range(p.start, p.end))
    on = text(lattice, p.end) in {"on", "in"}
    behind = p.end + 1 + (text(lattice, p.end + 1) in {"the", "any", "either"})
    return (
        last == "NONE"
        and has
        and comma
        and on
        and bool(_OTHER_PLANTS & (kinds(lattice, p.end + 1) | kinds(lattice, behind)))
    )


_OTHER_PLANTS = frozenset({"OTHER", "REST", "PLANT", "PLETTER", "HASH", "INT", "ORD"})


def none_in_the_beans(lattice: Lattice, p: Phrase) -> bool:
    """`hoppers in the grass, none in the beans`."""
    at, last = p.path[-1]
    return last.kind == "BEAN" and any(text(lattice, x) in {"in", "the"} for x in range(p.start, at))


def comma_inside(lattice: Lattice, p: Phrase) -> bool:
    """`up top, couple down low`."""
    return p.form.startswith("top_") and any(
        text(lattice, a) in {",", ";"}
        for (_, e), (b, _) in zip(p.path, p.path[1:], strict=False)
        for a in range(e.end, b)
    )


_BEFORE_ON_THE_LEAF = _COMMON.words("at") | {"of"}


def on_the_leaf(lattice: Lattice, p: Phrase) -> bool:
    return text(lattice, p.path[-1][0] - 1) in _BEFORE_ON_THE_LEAF


def node_of(lattice: Lattice, p: Phrase) -> bool:
    """`node 11 of 14`, and no `bloom in the top 2 nodes 11 of 20`."""
    if "INT" in kinds(lattice, p.start - 2) and "TOP" in kinds(lattice, p.start - 3):
        return False
    return bool(kinds(lattice, p.start - 1) & {"NODE", "NODES"})


def left_elsewhere(lattice: Lattice, p: Phrase) -> bool:
    return p.path[-1][1].kind == "LEFT" and p.path[-1][0] > p.path[-2][1].end


_FOR_SEED_OF_WEIGHT = _LISTED.words("for_seed_of_weight")


def seed_of_weight(lattice: Lattice, p: Phrase) -> bool:
    """`4 beans per sq ft`: on the ground, and none in a pod."""
    after = [text(lattice, p.end + x) for x in range(4)]
    area = bool(_FOR_SEED_OF_WEIGHT & set(after))
    return after[0] == "per" or (after[0] in {"to", "a", "in", "/"} and area)


def out_of_brackets(lattice: Lattice, p: Phrase) -> bool:
    """`9 tri (had 7) bloom top 2`: what stands in brackets goes with nothing behind them."""
    if p.end - p.start < 3:
        return False
    close = next((x for x in range(p.start + 1, p.end - 1) if text(lattice, x) == ")"), None)
    if close is None or any(text(lattice, x) == "(" for x in range(p.start, close)):
        return False
    before = [text(lattice, x) for x in range(max(0, p.start - 6), p.start)]
    return "(" in before and ")" not in before[before.index("(") :]


_SACKS = _LISTED.words("sacks")


def in_sacks(lattice: Lattice, p: Phrase) -> bool:
    """`3 sacks of seed left`, `two units of seed`: for the planter, and none in a pod."""
    at = next((x for x in range(p.start, p.end) if kinds(lattice, x) & {"SEED", "BEAN"}), p.start)
    before = text(lattice, at - 2) if text(lattice, at - 1) == "of" else text(lattice, at - 1)
    return before in _SACKS


_BEHIND_COMING_ALONG = _LISTED.words("behind_coming_along")


def coming_along(lattice: Lattice, p: Phrase) -> bool:
    """`beans are coming along`, `beans coming on strong`: the crop, and no seed in a pod."""
    behind = _BEHIND_COMING_ALONG
    return text(lattice, p.end - 1) == "coming" and text(lattice, p.end) in behind


_BEFORE_OF_A_MOTOR = _COMMON.words("our")


def of_a_motor(lattice: Lattice, p: Phrase) -> bool:
    """`drove the V6 out here`: no six leaves that are out."""
    return (
        lattice.pieces[p.start].glued
        and text(lattice, p.start - 1) == "v"
        and text(lattice, p.start - 2) in _BEFORE_OF_A_MOTOR
    )


_MARKET = _LISTED.words("market")
_BOUGHT = _LISTED.words("bought")
_FOR_PRICED = _LISTED.words("for_priced")


def priced(lattice: Lattice, p: Phrase) -> bool:
    """`Beans 4.55 at elev.`, `sold beans at 11.15`: what they bring, and no seed of a plant."""
    if kinds(lattice, p.end) & {"MM", "CM", "INCH"}:
        return False
    at = next((x for x in range(p.start, p.end + 4) if lattice_form(lattice, x) in {"int", "dec"}), None)
    if at is None or kinds(lattice, at + 1) & {"MM", "CM", "INCH"}:
        return False
    if any(lattice_form(lattice, x) == "nl" or text(lattice, x) in {",", ";", "."} for x in range(p.start, at)):
        return False
    if not any(kinds(lattice, x) & {"BEAN", "SEED"} for x in range(max(0, p.start - 3), at)):
        return False
    figure = text(lattice, at)
    in_cents = "." in figure and len(figure.split(".")[1]) == 2 and float("0" + figure) >= 1
    head = p.start - 1
    while text(lattice, head) in _FOR_PRICED:
        head -= 1
    alone = lattice_form(lattice, head) == "nl" or text(lattice, head) in {".", ";"} or head < p.start - 1
    placed = kinds(lattice, at + 1) & {"TOP", "NODE", "NODES", "ORD", "IN"}
    if in_cents and lattice_form(lattice, at) == "dec" and alone and not placed:
        return True
    before = {text(lattice, x) for x in range(max(0, p.start - 3), p.start)}
    behind: set[str] = set()
    for x in range(at + 1, at + 5):
        if lattice_form(lattice, x) in {"nl", "mark"}:
            break
        behind.add(text(lattice, x))
    return bool(behind & _MARKET) or bool(before & _BOUGHT) or text(lattice, at - 1) == "$"


def lattice_form(lattice: Lattice, i: int) -> str:
    return lattice.pieces[i].form if 0 <= i < len(lattice.pieces) else "nl"


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


def not_yet_open(lattice: Lattice, p: Phrase) -> bool:
    """`the third not yet unrolled`: rolled, and not almost open (guide 4.8)."""
    return any(e.kind == "ALMOST" and text(lattice, at) == "not" and text(lattice, at + 1) == "yet" for at, e in p.path)


def cuts_a_finding(lattice: Lattice, p: Phrase) -> bool:
    """`no brown stem rot`, `pod shatter`: the last word begins the name of a disease, an animal or a weed."""
    return any(
        e.kind in {"DISEASE", "INSECT", "WEED"} and e.how == "exact" and e.end > p.end for e in lattice.edges[p.end - 1]
    )


_BEHIND_TRIPS_SOMEWHERE = _LISTED.words("behind_trips_somewhere")


def trips_somewhere(lattice: Lattice, p: Phrase) -> bool:
    """`three trips to town`."""
    said = any(e.kind == "TRIPS" and text(lattice, at) in {"trips", "trip"} for at, e in p.path)
    if said and p.form == "trif_ord_bare" and text(lattice, p.end - 1) == "trip":
        return _the_nth_visit(lattice, p)
    last, edge = p.path[-1] if p.path else (0, None)
    if said and edge is not None and edge.kind == "INTSOUND" and text(lattice, last) == "to":
        return p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "word"
    return said and text(lattice, p.end) in _BEHIND_TRIPS_SOMEWHERE


def _the_nth_visit(lattice: Lattice, p: Phrase) -> bool:
    """`third trip here`, `2nd trip this year`: behind no plant, or with the place or time of a visit."""
    if text(lattice, p.end) in _OF_A_VISIT:
        return True
    if text(lattice, p.start - 1) in {"one", "next", "last"}:
        return False
    return not any(kinds(lattice, i) & _A_PLANT for i in range(max(0, p.start - _NEAR_A_PLANT), p.start))


_OF_A_VISIT = _LISTED.words("of_a_visit")
_A_PLANT = frozenset({"PLANT", "PLETTER", "HASH"})
_NEAR_A_PLANT = 6  # pieces


_FOR_ORDINAL_OF_A_NODE = _COMMON.words("ordinal_tails")


def ordinal_of_a_node(lattice: Lattice, p: Phrase) -> bool:
    """`@ 4th nd frm top`: the ordinal belongs to the words behind it."""
    return text(lattice, p.end - 1)[-2:] in _FOR_ORDINAL_OF_A_NODE and bool(kinds(lattice, p.end) & {"NODE", "NODES"})


def short_for_seeds(lattice: Lattice, p: Phrase) -> bool:
    """`sds touching`."""
    return p.end == p.start + 1 and text(lattice, p.start) == "sds" and said_of_seeds(lattice, p.end)


def somebodys(lattice: Lattice, p: Phrase) -> bool:
    """`past Whistler's`: a word that is only near one of a weed or an animal, with a capital, and something is its own."""
    owned = text(lattice, p.end) == "'s" and p.end < len(lattice.pieces) and lattice.pieces[p.end].glued
    near = p.end == p.start + 1 and p.path[0][1].cost > 0
    return owned and near and lattice.original(p.start, p.end)[:1].isupper()


def disease_shows(lattice: Lattice, p: Phrase) -> bool:
    said = "sds" in {text(lattice, p.start), text(lattice, p.start - 1)}
    return said and p.path[-1][1].kind == "SEE" and text(lattice, p.end) in _WHERE


_BEFORE_SEED_STARTS = _COMMON.words("pod") | _COMMON.words("seed") | {"just", "only"}


def seed_starts(lattice: Lattice, p: Phrase) -> bool:
    """`seed just starting in the top four`, and no field that is gone to."""
    return text(lattice, p.start).startswith("start") and text(lattice, p.start - 1) in _BEFORE_SEED_STARTS


def unis_as_a_place(lattice: Lattice, p: Phrase) -> bool:
    """`cut off below the unis`, `the uni node`: where something is, and nothing of these leaves."""
    i = p.start - 1
    while i > 0 and text(lattice, i) in {"the", "its", "their"}:
        i -= 1
    return text(lattice, i) in _AWAY_FROM or bool(kinds(lattice, p.end) & {"NODE", "NODES"})


_AWAY_FROM = _LISTED.words("away_from")
_FOR_WHERE_ON_THE_LEAF = _LISTED.words("for_where_on_the_leaf")
_FOR_WHERE_ON_THE_LEAF_2 = _LISTED.words("for_where_on_the_leaf_2")


def where_on_the_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`thrips on the unis`."""
    i = p.start - 1
    while text(lattice, i) in _FOR_WHERE_ON_THE_LEAF:
        i -= 1
    return text(lattice, i) in _FOR_WHERE_ON_THE_LEAF_2


_FOR_COUNTED_IN = _LISTED.words("for_counted_in")


def counted_in(lattice: Lattice, p: Phrase) -> bool:
    """`12 nodes not counting the uni`, `nodes w/o the unifoliate one`: how they were counted, and no leaf that was seen."""
    if kinds(lattice, p.end) & {"NODE"} and text(lattice, p.end + 1) in {"=", "is", "as", "counted"}:
        return True  # (uni node = 1st)
    i = p.start - 1
    while text(lattice, i) in {"the", "a"}:
        i -= 1
    if text(lattice, i) == "o" and text(lattice, i - 1) == "/":
        return True  # w/o the unifoliate
    left_out = text(lattice, i) == "counting" and text(lattice, i - 1) == "not"
    out = text(lattice, i) in _FOR_COUNTED_IN or left_out
    return out or lattice.original(p.start, p.end).lower().startswith(("w/o", "without"))


_FOR_OF_THE_LEAVES = _LISTED.words("for_of_the_leaves")


def of_the_leaves(lattice: Lattice, p: Phrase) -> bool:
    """`Leaves are still all green`, `rows are a hand from touching`: no pods, and no seed."""
    i, first = p.start - 1, max(0, p.start - _REACH)
    goes_on = "rest" in {text(lattice, p.start), text(lattice, p.start + 1)}  # of the leaves are yellow, the rest green
    while i >= first and (lattice.pieces[i].form == "word" or (goes_on and text(lattice, i) == ",")):
        here = kinds(lattice, i)
        if here & {"POD", "SEED", "BEAN", "BROWN"} or text(lattice, i) in _FOR_OF_THE_LEAVES:
            return False
        if text(lattice, i) in _SUBJECTS:
            return True
        i -= 1
    return False


_SUBJECTS = _LISTED.words("subjects")
_REACH = 9  # pieces between the subject and what is said of it


_COPULA = _COMMON.words("being") | _COMMON.words("looking")
_HOW = _LISTED.words("how")
_OF_BEANS = frozenset(
    {"POD", "PODG", "SEED", "SEEDG", "BEAN", "PLANT", "PLETTER", "INT", "ORD", "ONE", "LOW", "TOP", "UPTOP"}
)
_OF_BEANS |= {"NODE", "NODES", "ALLPL", "EVERYW", "TIP", "MOST", "HALF", "PIN", "FLAT", "LEAF"}
_PRONOUNS = _LISTED.words("pronouns")
_FOR_FILLED_ON_PAPER = _LISTED.words("for_filled_on_paper")
_FOR_FILLED_ON_PAPER_2 = _LISTED.words("for_filled_on_paper_2")


def filled_on_paper(lattice: Lattice, p: Phrase) -> bool:
    """`filled this out on the hood`, `filled out the card`: a form, and no seed."""
    if text(lattice, p.start) not in {"filled", "fill"}:
        return False
    words = [text(lattice, i) for i in range(p.start + 1, p.end + _BEHIND_FILLED)]
    form = set(words) & _FOR_FILLED_ON_PAPER
    return bool(form) or ("out" in words[1:3] and words[0] in _FOR_FILLED_ON_PAPER_2)


def picture_behind_a_share(lattice: Lattice, p: Phrase) -> bool:
    """`3/10 blooming ❌`: the picture is of what the scout thinks of it, as the share is told."""
    last = text(lattice, p.end - 1)
    shared = text(lattice, p.start - 2) in {"/", "of"} and {"INT"} <= kinds(lattice, p.start - 1)
    return shared and not last.isascii() and p.end - p.start > 1


def of_something_else(lattice: Lattice, p: Phrase) -> bool:
    """`tank is half full`, `bins are full`, `the boots are tight`: said of what is named before it, and of no seed."""
    i = p.start - 1
    while text(lattice, i) in _HOW:
        i -= 1
    if text(lattice, i) not in _COPULA:
        return False
    i -= 1
    subject = lattice.pieces[i] if i >= 0 else None
    if subject is None or subject.form != "word" or subject.text in _PRONOUNS:
        return False
    near = (
        e for x in (i - 1, i) if x >= 0 for e in lattice.edges[x] if e.end == i + 1 and not e.how.startswith("near")
    )
    return not any(e.kind in _OF_BEANS for e in near)


_BEFORE_GREEN_OF_A_THING = _LISTED.words("before_green_of_a_thing")


def green_of_a_thing(lattice: Lattice, p: Phrase) -> bool:
    """`keys in the green box`, `a green truck came by`: the color of what is named behind it, and of no pod; and `half brown,
    the green ones are up top`: of some of them."""
    if text(lattice, p.end) == "ones" and text(lattice, p.start - 1) == "the":
        return True
    if text(lattice, p.start - 1) not in _BEFORE_GREEN_OF_A_THING:
        return False
    thing = lattice.pieces[p.end] if p.end < len(lattice.pieces) else None
    if thing is None or thing.form != "word" or lattice.filler[p.end]:
        return False
    return not any(e.kind in _OF_BEANS and not e.how.startswith("near") for e in lattice.edges[p.end])


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


_SO_MUCH = _LISTED.words("so_much")
_OF_LAND = _LISTED.words("of_land")


def so_much_land(lattice: Lattice, p: Phrase) -> bool:
    """`in the low pocket, half an acre or so`: how much of the field, and no length of a pod."""
    if text(lattice, p.start - 1) in {"the", "this", "that"}:
        return False  # this is the half acre we call ...
    i = p.end
    while text(lattice, i) in _OF_LAND:
        i += 1
    return text(lattice, i) in _SO_MUCH and "ANINCH" not in kinds(lattice, p.end - 1)


_BESIDE = _LISTED.words("beside")
_FOR_THE_ONE_THIRD_DOWN = _COMMON.words("parts_in_words")


def the_one_third_down(lattice: Lattice, p: Phrase) -> bool:
    """`seed in the one third from the top`: the pod that hangs there, and no third of an inch."""
    last = p.path[-1][1]
    spoken = last.kind == "FRAC" and text(lattice, last.end - 1) in _FOR_THE_ONE_THIRD_DOWN
    return spoken and text(lattice, p.end) in {"from", "down"}


def of_the_crop(lattice: Lattice, p: Phrase) -> bool:
    """`bean is a 2.9`: a maturity group."""
    return p.path[0][1].kind == "BEAN" and p.path[-1][1].kind == "DEC" and not not_said_of_beans(lattice, p)


def inch_behind(lattice: Lattice, p: Phrase) -> bool:
    """`beans are an eighth of an inch`: the length goes on."""
    return (
        text(lattice, p.end) == "of"
        and text(lattice, p.end + 1) in {"an", "a"}
        and "ANINCH" in kinds(lattice, p.end + 1)
    )


def full_bloom(lattice: Lattice, p: Phrase) -> bool:
    """`beans are in full bloom`: nothing is said of seed."""
    return text(lattice, p.end - 1) == "full" and "FLOWER" in kinds(lattice, p.end)


def answer(lattice: Lattice, p: Phrase) -> bool:
    """`fl=n pod=y`: the n is of the flowers."""
    return p.start > 0 and text(lattice, p.start) == "n" and text(lattice, p.start - 1) == "="


_OWNING = _COMMON.words("having") | {"'", ","}


def ordinal_apart(lattice: Lattice, p: Phrase) -> bool:
    """`11 on the third, trifoliates`; `third's got the first trifoliate open`: the third is a plant, and no leaf."""
    return any(text(lattice, x) in _OWNING for x in range(p.start, p.path[1][0] if len(p.path) > 1 else p.end))


_EDGES = _LISTED.words("edges")


def their_edges(lattice: Lattice, p: Phrase) -> bool:
    """`their edges still touch`: edges of the leaves that were named before, and no third leaf."""
    return text(lattice, p.start) == "their" and text(lattice, p.start + 1) in _EDGES


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


def of_an_animal(lattice: Lattice, p: Phrase) -> bool:
    """`not a bean leaf beetle`: the last word begins the name of an animal."""
    last = p.path[-1][0]
    return any(e.kind in {"INSECT", "DISEASE"} and e.how == "exact" and e.end > p.end for e in lattice.edges[last])


_BEHIND_NONE_UP = _LISTED.words("behind_none_up")


def none_up(lattice: Lattice, p: Phrase) -> bool:
    """`no beans up yet`: soybeans that have not come up, and no seed."""
    _, last = p.path[-1]
    return last.kind == "BEAN" and text(lattice, p.end) in _BEHIND_NONE_UP


def seeds_in_them(lattice: Lattice, p: Phrase) -> bool:
    """`seeds just starting in the top pods, 1/8 inch`: the length behind the comma is no pod's."""
    before = range(max(0, p.start - 7), p.start)
    inside = any(text(lattice, x) == "in" for x in range(max(0, p.start - 3), p.start))
    comma = any(text(lattice, x) == "," for x in range(p.start, p.end))
    return inside and comma and any(kinds(lattice, x) & {"SEED", "BEAN"} for x in before)


def no_for_node(lattice: Lattice, p: Phrase) -> bool:
    """`a flower at no two from the top`: heard for node two, and no negation."""
    at, last = p.path[-1]
    if last.kind != "NO" or last.end != p.end or text(lattice, at) != "no":
        return False
    return text(lattice, at - 1) in {"at", "on", "by"} and bool(kinds(lattice, p.end) & {"INT", "INTSOUND", "ORD"})


_OF_A_SPRAYER = _LISTED.words("of_a_sprayer")
_BEFORE_BOOM_OF_A_SPRAYER = _COMMON.words("our") | {"spray", "sprayer"}


def boom_of_a_sprayer(lattice: Lattice, p: Phrase) -> bool:
    """`where the boom missed`: no bloom misheard."""
    if not any(text(lattice, i) in {"boom", "booms"} for i in range(p.start, p.end)):
        return False
    article = text(lattice, p.start - 1) in _BEFORE_BOOM_OF_A_SPRAYER
    return article or text(lattice, p.end) in _OF_A_SPRAYER


def of_the_first(lattice: Lattice, p: Phrase) -> bool:
    """`The first has a flower`: a plant, and no first flower."""
    the_first = text(lattice, p.start - 1) == "the" and text(lattice, p.start) == "first"
    return the_first and text(lattice, p.start + 1) in {"has", "had", "got"}


_KNOCKED = _LISTED.words("knocked")
_BEHIND_OFF_THE_PLANT = _LISTED.words("behind_off_the_plant")
_FOR_OFF_THE_PLANT = _LISTED.words("for_off_the_plant")
_BEHIND_OFF_THE_PLANT_2 = _LISTED.words("behind_off_the_plant_2")


def off_the_plant(lattice: Lattice, p: Phrase) -> bool:
    """`about 6 pods I knocked off`, `pods knocked on the ground`: on no plant any more."""
    at = p.end + (text(lattice, p.end) in _BEHIND_OFF_THE_PLANT)
    at += text(lattice, at) in _FOR_OFF_THE_PLANT
    return text(lattice, at) in _KNOCKED and text(lattice, at + 1) in _BEHIND_OFF_THE_PLANT_2


_BEFORE_SOME_THAT_DO = frozenset(_LISTED.phrases("before_some_that_do"))


def some_that_do(lattice: Lattice, p: Phrase) -> bool:
    """`a few blooming`, `some podded`, `a few in bloom`: so many plants, and not so many flowers of one."""
    some = p.path[0][1]
    one = lattice.original(p.start, some.end).lower() in _BEFORE_SOME_THAT_DO
    does = lattice.pieces[p.end - 1].text.endswith(("ing", "ed")) or text(lattice, p.end - 2) == "in"
    return some.kind == "SOMEW" and not one and does


_BEHIND_NOT_OF_ALL = _COMMON.words("all") | _COMMON.words("each")


def not_of_all(lattice: Lattice, p: Phrase) -> bool:
    """`not all blooming`, `not every plant is blooming`: some are."""
    return any(
        e.kind == "NOT" and {x.text for x in lattice.pieces[e.end : p.end]} & _BEHIND_NOT_OF_ALL for _, e in p.path
    )


_FOR_NONE_OF_A_SHARE = _LISTED.words("for_none_of_a_share")


def none_of_a_share(lattice: Lattice, p: Phrase) -> bool:
    """`8 of 12 blooming, none in the top two`: the none is of the place behind it, and does not turn the share."""
    at, last = p.path[-1]
    if len(p.path) < 2 or last.kind not in {"NONE", "NO"} or text(lattice, at - 1) not in {",", "but", ";", "-"}:
        return False
    i = p.end
    while text(lattice, i) in _FOR_NONE_OF_A_SHARE:
        i += 1
    shared = range(max(0, p.start - 7), p.start)
    return bool(kinds(lattice, i) & {"TOP", "TOPSOUND", "UPTOP"} or "UPTOP" in kinds(lattice, p.end)) and any(
        kinds(lattice, x) & {"OF", "OUTOF", "PCT", "HALF", "MOST"} for x in shared
    )


def none_just_another(lattice: Lattice, p: Phrase) -> bool:
    """`plant two has none, just a bloom`: the none is of what was spoken of before."""
    first, last = p.path[0], p.path[-1]
    between = {text(lattice, x) for x in range(first[1].end, last[0])}
    return first[1].kind == "NONE" and bool(between & {"just", "only", "but"})


_NOUNS = frozenset({"INSECT", "DISEASE", "WEED", "DAMAGE", "DEFOL"})


def no_of_what_follows(lattice: Lattice, p: Phrase) -> bool:
    """`four of ten blooming no frog eye`: the no is of what stands behind it."""
    last = p.path[-1][1].kind in {"NO", "NOSOUND"} and text(lattice, p.end - 1) == "no"
    if not last or len(p.path) < 2:
        return False
    return bool(kinds(lattice, p.end) & _NOUNS) or _noun_behind_no(lattice, p)


_GOES_WITH_NO = _LISTED.words("goes_with_no")


def _noun_behind_no(lattice: Lattice, p: Phrase) -> bool:
    """`blooming, no trouble seeing them`: behind a comma, the no of a word that is none of the trade."""
    if text(lattice, p.end - 2) != "," or p.end >= len(lattice.pieces) or p.path[0][1].kind == "HUNT":
        return False
    behind = lattice.pieces[p.end]
    return behind.form == "word" and not lattice.known[p.end] and behind.text not in _GOES_WITH_NO


def between_two_values(lattice: Lattice, p: Phrase) -> bool:
    """`pod 31  seed 4`: the number of the word before it, and not so many seeds; the next number is that of the seed."""
    at, edge = p.path[0]
    if edge.kind != "INT" or not p.start or lattice.pieces[at].form != "int":
        return False
    named = kinds(lattice, p.start - 1) & {"POD", "SEED", "FLOWER"}
    singular = text(lattice, p.end - 1) in {"seed", "pod", "bean"}
    return bool(named) and singular and p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "int"


_BEHIND_NONE_SO_LONG = _COMMON.words("bigger")


def none_so_long(lattice: Lattice, p: Phrase) -> bool:
    """`has pods, none over 3/16`, `pods none more than 3 mm`: pods, and a size that none of them passes."""
    last = p.path[-1][1]
    if last.kind not in {"NO", "NONE"} or last.end != p.end:
        return False
    compared = text(lattice, p.end) in _BEHIND_NONE_SO_LONG
    return (compared and text(lattice, p.end + 1) in {"than", "then"}) or text(lattice, p.end) in {
        "over",
        "above",
        "past",
    }


NONE_OF_IT = (
    none_so_long,
    none_of_more,
    picture_behind_a_share,
    it_has_none,
    has_one_none_on,
    no_of_what_follows,
    none_then_comma,
    none_just_another,
    and_no_other,
    no_for_node,
    none_of_a_share,
    not_of_all,
)
"""What tells that a no is not one of flowers or pods."""

_LONGEST = _LISTED.words("longest")
_FAR = 26  # pieces back to the pods of which one is the longest


def is_longest(lattice: Lattice, p: Phrase) -> bool:
    """`longest`, `the biggest ones`, with no noun: of what was spoken of before."""
    return any(
        e.kind == "POD" and text(lattice, at) in _LONGEST and text(lattice, e.end - 1) in _LONGEST | {"ones", "one"}
        for at, e in p.path
    )


def longest_of_no_pods(lattice: Lattice, p: Phrase) -> bool:
    """`longest in top 4 is 3/8` is of pods only where these were spoken of last."""
    one = any(e.kind == "POD" and text(lattice, at) == "longest" and e.end == at + 2 for at, e in p.path)
    if not is_longest(lattice, p) or one:
        return False
    if kinds(lattice, p.end) & {"WEED", "INSECT", "DISEASE", "SEED", "BEAN", "FLOWER", "LEAF", "TRIF", "PLANT"}:
        return True
    for i in range(p.start - 1, max(-1, p.start - _FAR), -1):
        if lattice.pieces[i].form == "nl" or text(lattice, i) in {".", ";"}:
            return True
        here = kinds(lattice, i)
        if "POD" in here:
            return False
        if here & {"SEED", "BEAN", "WEED", "INSECT", "FLOWER", "TRIF"}:
            return True
    return True


def half_of_them_brown(lattice: Lattice, p: Phrase) -> bool:
    """`pods half brown`: a share, and no half inch."""
    return text(lattice, p.end - 1) == "half" and bool(kinds(lattice, p.end) & {"BROWN", "TURNING"})


def no_inch(lattice: Lattice, p: Phrase) -> bool:
    """`pods half an inch, pods ...`, `2 of the inch pods`: only the word itself, of which no part or number was told."""
    before = kinds(lattice, p.start - 1 - (text(lattice, p.start - 1) == "-"))
    return text(lattice, p.start) != "inch" or p.end != p.start + 2 or bool(before & {"INT", "FRAC", "DEC", "ORD"})


_BEHIND_OF_A_KIND = _LISTED.words("behind_of_a_kind")


def of_a_kind(lattice: Lattice, p: Phrase) -> bool:
    """`a purple bloom variety`: what is sown there, and nothing seen."""
    return text(lattice, p.end) in _BEHIND_OF_A_KIND


def part_of_a_length(lattice: Lattice, p: Phrase) -> bool:
    """`an inch less an eighth, third node down`: an eighth of an inch, and no eighth node."""
    return text(lattice, p.start - 1) in {"a", "an", "one"}


_TAKEN = _COMMON.words("looked") | _COMMON.words("pulled")
_BEHIND_THAT_WAS_PULLED = _LISTED.words("behind_that_was_pulled")


def that_was_pulled(lattice: Lattice, p: Phrase) -> bool:
    """`the one bean I pulled has 6 trifs`: a plant; `10 beans pulled, 6 with pods`: plants."""
    crop = any(e.kind == "BEAN" for _, e in p.path) and p.path[-1][1].kind != "POD"
    if crop and "SAMPLED" in kinds(lattice, p.end) and text(lattice, p.end) not in _BEHIND_THAT_WAS_PULLED:
        return True
    return text(lattice, p.end) in {"i", "we"} and text(lattice, p.end + 1) in _TAKEN


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
