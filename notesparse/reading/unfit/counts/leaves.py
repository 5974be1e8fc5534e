"""Counts of leaves and nodes: told by another count, misheard, or of other things."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/counts/leaves")
_COMMON = cue_page("shared")


def sets_of(lattice: Lattice, p: Phrase) -> bool:
    """`two sets of pods`: no leaves."""
    return text(lattice, p.end - 1) == "sets" and text(lattice, p.end) == "of"


_BEHIND_AWAY_FROM = _LISTED.words("behind_away_from")


def away_from(lattice: Lattice, p: Phrase) -> bool:
    """`about 2 nodes from R3`: no count of nodes."""
    if text(lattice, p.end) == "away":
        return True
    return text(lattice, p.end) in _BEHIND_AWAY_FROM and bool(
        kinds(lattice, p.end + 1) & {"R", "V", "FROM", "OF", "STAGENAME", "FLOWER"}
    )


_FOR_OTHER_HAS = _LISTED.words("for_other_has")


def other_has(lattice: Lattice, p: Phrase) -> bool:
    """`The other has 11`: what the other one has, and no eleven others."""
    return any(text(lattice, i) in _FOR_OTHER_HAS for i in range(p.start, p.end))


_BEHIND_ONE_OF_ANOTHER_THING = _LISTED.words("behind_one_of_another_thing")


def one_of_another_thing(lattice: Lattice, p: Phrase) -> bool:
    """`3 with one brown pod`, `2nd node down on 3 and the one below that on 4`: no leaf."""
    if text(lattice, p.start - 1) == "on" or text(lattice, p.end) in _BEHIND_ONE_OF_ANOTHER_THING:
        return True
    return bool(kinds(lattice, p.end) & {"BROWN", "GREENW", "POD", "FLOWER", "SEED", "BEAN"})


def flat_things(lattice: Lattice, p: Phrase) -> bool:
    """`2 flat tires this wk`: flat things with a name that is none of the plant's."""
    nxt = lattice.pieces[p.end] if p.end < len(lattice.pieces) else None
    if nxt is None or nxt.form != "word" or lattice.known[p.end] or lattice.filler[p.end]:
        return False
    return text(lattice, p.end - 1) in _BEFORE_A_NOUN and nxt.text.endswith("s")


_BEFORE_A_NOUN = frozenset({"flat", "open"})


def out_of_a_quarter(lattice: Lattice, p: Phrase) -> bool:
    """`wind 25 out of the nw`: no leaves that are out."""
    owned = any(text(lattice, i) in {"'s", "s"} for i in range(p.start, p.end))  # plant two's are flat open
    return owned or (text(lattice, p.end - 1) == "out" and text(lattice, p.end) == "of")


def heard_plus(lattice: Lattice, p: Phrase) -> bool:
    """`be nine and are one` is V9 and R1, and no leaf more; nor in `swept twenty five and got one stink bug`."""
    caught = kinds(lattice, p.end) & {"INSECT", "WEED", "DISEASE"} or text(lattice, p.start - 1) in {"swept", "sweeps"}
    coded = lattice.pieces[p.start].glued and text(lattice, p.start - 1) in {"r", "v"}  # R4 and that one
    if (caught or coded) and not any(e.kind == "ROLLED" for _, e in p.path):
        return True
    return any(lattice.pieces[i].text in {"are", "our", "r"} for i in range(p.start + 1, p.end))


def not_counted_in(lattice: Lattice, p: Phrase) -> bool:
    """`six trifs not counting the rolled one`: beside those that were counted."""
    at = next(i for i, e in p.path if e.kind == "COUNTING")
    return text(lattice, at - 1) in {"not", "without", "w/o"}


def of_the_top(lattice: Lattice, p: Phrase) -> bool:
    """`top two nodes three have them lower`: the nodes have their number before them."""
    noun = bool(kinds(lattice, p.start) & {"NODES", "NODE"})
    return noun and "INT" in kinds(lattice, p.start - 1) and "TOP" in kinds(lattice, p.start - 2)


def no_near_count(lattice: Lattice, p: Phrase) -> bool:
    """`nine maybe ten trifs`, `nine trifs, maybe eight` is one count; `4 about 10 trifs`, `10 trifs maybe 2` are not."""
    nums = [int(e.means) for _, e in p.path if e.kind in {"INT", "INTSOUND"}]
    return len(nums) != 2 or not 1 <= abs(nums[1] - nums[0]) <= 2


def misheard_twice(lattice: Lattice, p: Phrase) -> bool:
    """`windshield notes then walked three`: nodes and ten only if both were misheard, which is too much to take."""
    return len(p.path) == 2 and all(e.how == "sound" for _, e in p.path)


def stop_inside(lattice: Lattice, p: Phrase) -> bool:
    """`pods third node; 2 and 4 are behind`: another sentence begins at the mark."""
    return any(text(lattice, i) == ";" for i in range(p.start, p.end))


_BEHIND_HIGHER_UP = _LISTED.words("behind_higher_up")


def higher_up(lattice: Lattice, p: Phrase) -> bool:
    """`one node higher than that`: a place, told by another, and no count."""
    return text(lattice, p.end) in _BEHIND_HIGHER_UP


_GAINED = _LISTED.words("gained")
_MUCH = _LISTED.words("much")


def gained(lattice: Lattice, p: Phrase) -> bool:
    """`gained two trifs since last week`, `lost three nodes to hail`: how many more or fewer, and no count of all."""
    i = p.start - 1
    while text(lattice, i) in _MUCH:
        i -= 1
    return text(lattice, i) in _GAINED or (
        text(lattice, i) == "on" and text(lattice, i - 1) in {"put", "puts", "putting"}
    )


_BEHIND_A_DIFFERENCE = _COMMON.words("fewer_or_more")


def a_difference(lattice: Lattice, p: Phrase) -> bool:
    """`same as 4 but two trifs short`: so many fewer than another has, and no count."""
    ended = p.end + 1 >= len(lattice.pieces) or lattice.pieces[p.end + 1].form in {"mark", "nl"}
    ended = ended or text(lattice, p.end + 1) == "than"  # one tf more than p1
    return text(lattice, p.end) in _BEHIND_A_DIFFERENCE and ended


_NEXT = frozenset(
    {"PLANT", "PLETTER", "FLOWER", "BLOOMING", "POD", "SEED", "R", "V", "NO", "NONE", "NOT", "AND", "BUT", "WITH"}
    | {"STOP", "INT", "HAS", "TRIF", "OPEN", "COUNTING", "ON"}
)
_FOR_NO_NUMBER_HEARD = _LISTED.words("for_no_number_heard")


def no_number_heard(lattice: Lattice, p: Phrase) -> bool:
    """`trifs for the five`, `too many trifs to count`, `nodes too close to tell`: the word, and no number; it is one
    where the clause ends with it or the next statement begins."""
    at, last = p.path[-1]
    if last.kind != "INTSOUND" or text(lattice, at) not in _FOR_NO_NUMBER_HEARD or last.end != p.end:
        return False
    if p.end >= len(lattice.pieces) or lattice.pieces[p.end].form in {"mark", "nl"}:
        return False
    return not kinds(lattice, p.end) & _NEXT
