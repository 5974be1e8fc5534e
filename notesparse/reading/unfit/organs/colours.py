"""Green, brown, full: said of something else."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/organs/colours")
_COMMON = cue_page("shared")
_BEHIND_FILLED = 3  # words


def partly_filled(lattice: Lattice, p: Phrase) -> bool:
    """`beans partly fill the cavity`: some of it, and not nearly all."""
    return any(e.kind == "ALMOST" and text(lattice, at) == "partly" for at, e in p.path)


def half_of_it(lattice: Lattice, p: Phrase) -> bool:
    """`pods half brown`: read with its pods."""
    return p.path[0][1].kind == "POD" and any(text(lattice, i) in {"half", "1/2"} for i in range(p.start, p.end))


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
    if _behind_its_label(lattice, p):
        return False
    before = [text(lattice, x) for x in range(max(0, p.start - 5), p.start)]
    stems = max((i for i, w in enumerate(before) if w in _NO_PODS), default=-1)
    between = set(before[stems:]) - ({"and"} if before[-2:-1] == ["good"] else set())  # leaves are good and green
    return stems >= 0 and not _FOR_GREEN_BEANS & between


_OF_A_PLANT = _LISTED.words("of_a_plant")


def _behind_its_label(lattice: Lattice, p: Phrase) -> bool:
    """`one brown pod on the main stem plant three green pods`: what is green begins anew behind the label of the plant, and
    not in `leaves on plant three green`."""
    if not kinds(lattice, p.start - 1) & {"INT", "INTSOUND"} or "PLANT" not in kinds(lattice, p.start - 2):
        return False
    return text(lattice, p.start - 3) not in _OF_A_PLANT


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


_FOR_OF_THE_LEAVES = _LISTED.words("for_of_the_leaves")


def of_the_leaves(lattice: Lattice, p: Phrase) -> bool:
    """`Leaves are still all green`, `rows are a hand from touching`: no pods, and no seed."""
    if _behind_its_label(lattice, p):
        return False
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
    the green ones are up top`, `mostly brown with a few green ones`: of some of them."""
    if text(lattice, p.end) == "ones" and text(lattice, p.start - 1) == "the":
        return True
    first = p.start - (text(lattice, p.start - 1) == "still")
    yet = first < p.start or text(lattice, p.start) == "still" or text(lattice, p.end) == "ones"
    if yet and text(lattice, first - 1) in {"few", "some"}:
        return True  # mostly brown with some still green
    if text(lattice, p.start - 1) not in _BEFORE_GREEN_OF_A_THING:
        return False
    thing = lattice.pieces[p.end] if p.end < len(lattice.pieces) else None
    if thing is None or thing.form != "word" or lattice.filler[p.end]:
        return False
    return not any(e.kind in _OF_BEANS and not e.how.startswith("near") for e in lattice.edges[p.end])
