"""A no or a none that is not of these flowers, pods or seeds."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/organs/denials")
_COMMON = cue_page("shared")


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


def there_is_one(lattice: Lattice, p: Phrase) -> bool:
    """`no pods, no there's one at the 4th node down`: no node one."""
    return any(text(lattice, i) in {"there", "theres"} for i in range(p.start, p.end))


_BEHIND_NOT_ONE = _LISTED.words("behind_not_one")


def not_one_there(lattice: Lattice, p: Phrase) -> bool:
    """`blooms on a limb, not one on the main stem`, `not a single one up top`: there is none, and no number or node one."""
    if text(lattice, p.end - 1) != "one" or text(lattice, p.end) not in _BEHIND_NOT_ONE:
        return False
    return text(lattice, p.end) != "in" or text(lattice, p.end + 1) in {"the", "its"}  # not one in bloom


def did_not(lattice: Lattice, p: Phrase) -> bool:
    """`R3 and I did not find any aphids`: no way to another field."""
    return text(lattice, p.end) in {"not", "n't"} and text(lattice, p.end - 1) == "did"


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


def none_of(lattice: Lattice, p: Phrase) -> bool:
    """`flowers on none of them`."""
    at, last = p.path[-1] if p.path else (0, None)
    return (
        last is not None
        and last.kind == "NONE"
        and any(e.kind == "NONEOF" and e.end > p.end for e in lattice.edges[at])
    )


_FOR_HAS_ONE_NONE_ON = _COMMON.words("having_or_with")


def has_one_none_on(lattice: Lattice, p: Phrase) -> bool:
    """`p2 has a bloom, none on the others`, `p2 blooms, none on p3`: there is one, and the `none` is of other plants."""
    last = p.path[-1][1].kind
    if last != "NONE" and not (last == "NO" and text(lattice, p.end - 1) == "one"):
        return False
    has = bool({text(lattice, x) for x in range(p.start - 3, p.start)} & _FOR_HAS_ONE_NONE_ON) or _of_a_plant(
        lattice, p
    )
    comma = any(text(lattice, x) == "," for x in range(p.start, p.end))
    on = text(lattice, p.end) in {"on", "in"}
    behind = p.end + 1 + (text(lattice, p.end + 1) in {"the", "any", "either"})
    return has and comma and on and bool(_OTHER_PLANTS & (kinds(lattice, p.end + 1) | kinds(lattice, behind)))


_BEFORE_IT = 8  # pieces


def _of_a_plant(lattice: Lattice, p: Phrase) -> bool:
    """The clause before names a plant: `p2 8 trifs blooms`."""
    for i in range(p.start - 1, max(p.start - _BEFORE_IT, -1), -1):
        if lattice.pieces[i].form == "nl" or text(lattice, i) in {".", ";"}:
            return False
        if kinds(lattice, i) & {"PLANT", "PLETTER", "HASH"}:
            return True
    return False


_OTHER_PLANTS = frozenset({"OTHER", "REST", "PLANT", "PLETTER", "HASH", "INT", "ORD"})


def none_in_the_beans(lattice: Lattice, p: Phrase) -> bool:
    """`hoppers in the grass, none in the beans`."""
    at, last = p.path[-1]
    return last.kind == "BEAN" and any(text(lattice, x) in {"in", "the"} for x in range(p.start, at))


def picture_behind_a_share(lattice: Lattice, p: Phrase) -> bool:
    """`3/10 blooming ❌`: the picture is of what the scout thinks of it, as the share is told."""
    last = text(lattice, p.end - 1)
    shared = text(lattice, p.start - 2) in {"/", "of"} and {"INT"} <= kinds(lattice, p.start - 1)
    return shared and not last.isascii() and p.end - p.start > 1


def answer(lattice: Lattice, p: Phrase) -> bool:
    """`fl=n pod=y`: the n is of the flowers."""
    return p.start > 0 and text(lattice, p.start) == "n" and text(lattice, p.start - 1) == "="


_BEHIND_NONE_UP = _LISTED.words("behind_none_up")


def none_up(lattice: Lattice, p: Phrase) -> bool:
    """`no beans up yet`: soybeans that have not come up, and no seed."""
    _, last = p.path[-1]
    return last.kind == "BEAN" and text(lattice, p.end) in _BEHIND_NONE_UP


def no_for_node(lattice: Lattice, p: Phrase) -> bool:
    """`a flower at no two from the top`: heard for node two, and no negation."""
    at, last = p.path[-1]
    if last.kind != "NO" or last.end != p.end or text(lattice, at) != "no":
        return False
    return text(lattice, at - 1) in {"at", "on", "by"} and bool(kinds(lattice, p.end) & {"INT", "INTSOUND", "ORD"})


_BEHIND_NOT_OF_ALL = _COMMON.words("all_or_each")


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
