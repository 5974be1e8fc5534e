"""Shares that are none of the plants: of pods, an inch, a day, or a share told elsewhere."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice
from notesparse.text.spoken import DOING

_LISTED = cue_page("unfit/counts/shares")
_COMMON = cue_page("shared")
_SHARED = frozenset({"FLOWER", "R", "PLANT", "HAS", "AT", "STAGENAME", "EMERGED"})


def the_others(lattice: Lattice, p: Phrase) -> bool:
    """`14 of 20 have a tan pod, the other six are green`: so many plants, and no six green pods."""
    return bool(kinds(lattice, p.start - 1) & {"OTHER", "REST"}) or text(lattice, p.start - 1) in {"other", "remaining"}


_BEFORE_NO_DOING = _COMMON.words("pod") | _COMMON.words("seed")
_BEHIND_NO_DOING = _COMMON.words("being_or_having")
_FOR_NO_DOING = _LISTED.words("for_no_doing")


def no_doing(lattice: Lattice, p: Phrase) -> bool:
    """`two thirds podded` is a share of the plants; `three quarter inch`, `a third` are none."""
    if lattice.pieces[p.start].form != "word" or text(lattice, p.start - 1) in _BEFORE_NO_DOING:
        return True
    i = p.end + (text(lattice, p.end) in _BEHIND_NO_DOING)
    i += i > p.end and text(lattice, i) in _FOR_NO_DOING
    if i >= len(lattice.edges):
        return True
    borne = i > p.end and bool({e.kind for e in lattice.edges[i]} & {"FLOWER", "POD", "OPEN"})
    opens = p.start == 0 or lattice.pieces[p.start - 1].form in {"nl", "mark"} or text(lattice, p.start - 1) == "and"
    staged = opens and bool(lattice.kinds(i + (text(lattice, i) == "at")) & {"R", "V"})
    return text(lattice, i) not in DOING and not in_bloom_at(lattice, i) and not borne and not staged


def of_its_pods(lattice: Lattice, p: Phrase) -> bool:
    """`a quarter of the 40 pods`: of pods, and not of plants."""
    return bool(kinds(lattice, p.end) & {"POD", "SEED", "BEAN", "NODE", "NODES", "TRIF", "LEAF"})


_BEHIND_IN_BLOOM_AT = _COMMON.words("flower") | {"full"}


def in_bloom_at(lattice: Lattice, i: int) -> bool:
    """`in bloom` at piece i."""
    return text(lattice, i) == "in" and text(lattice, i + 1) in _BEHIND_IN_BLOOM_AT


def on_a_part(lattice: Lattice, p: Phrase) -> bool:
    """`pods on two thirds`, `seed on 1/3`: a part of the plants, and no size."""
    frac = next((i for i, e in p.path if e.kind == "FRAC"), p.start)
    return text(lattice, frac - 1) == "on" and frac > p.start


def share_podded(lattice: Lattice, p: Phrase) -> bool:
    """`two thirds podded`: a share, and no length."""
    return p.path[0][1].kind == "FRAC" and text(lattice, p.path[-1][0]) in {"podded", "podding"}


def but_no_plants(lattice: Lattice, p: Phrase) -> bool:
    """`all but two nodes`, `all but 3 pods`: no plants."""
    i = p.end
    if in_bloom_at(lattice, i):
        return False
    if kinds(lattice, i) & {"TRIF", "NODE", "NODES", "POD", "SEED", "BROWN", "INCH", "TOP"}:
        return text(lattice, i) not in {"podded", "podding"}
    listed = text(lattice, i) in {"and", "&", ","} and bool(kinds(lattice, i + 1) & {"INT", "INTSOUND"})
    return listed and any(e.kind == "ALLPL" for _, e in p.path)  # all of them except three and seven


def the_odd_one(lattice: Lattice, p: Phrase) -> bool:
    """`the odd | one in bloom`: how many is not said."""
    return text(lattice, p.start - 1) in {"odd", "occasional"}


def in_bloom(lattice: Lattice, p: Phrase) -> bool:
    """`2/3 in bloom`: no inches, and no date."""
    at = p.end - (lattice.pieces[p.end - 1].text == "in")
    return in_bloom_at(lattice, at)


def one_of_shares(lattice: Lattice, p: Phrase) -> bool:
    """`5/5 R3. 3/5 with seed`: shares of the same number of plants, and no date."""
    nums = [(at, e) for at, e in p.path if e.kind == "INT"]
    if len(nums) != 2 or text(lattice, nums[0][1].end) != "/" or not 2 <= int(nums[1][1].means) <= 31:
        return False
    of = int(nums[1][1].means)
    if int(nums[0][1].means) > of or not _told_of(lattice, p.end):
        return False
    pieces = lattice.pieces
    return any(
        pieces[x].text == "/"
        and text(lattice, x + 1) == str(of)
        and text(lattice, x - 1).isdigit()
        and int(text(lattice, x - 1)) <= of
        and not (_behind_a_name(lattice, p.start) and _behind_a_name(lattice, x - 1))  # Home 8/31 R6, Church 8/31 R5
        and _told_of(lattice, x + 2)
        for x in range(1, len(pieces))
        if not p.start <= x < p.end
    )


def _behind_a_name(lattice: Lattice, i: int) -> bool:
    """Before piece i stands a word for a field, or one that means nothing here."""
    if i > 1 and lattice.pieces[i - 1].form == "int" and lattice.pieces[i - 1].glued:
        i -= 1  # NW12
        return lattice.pieces[i - 1].form == "word" and text(lattice, i - 1) not in {"v", "r", "p"}
    if i > 1 and lattice.pieces[i - 1].form == "int" and _at_the_head(lattice, i - 2):
        i -= 1  # Sawmill 3 8/14
    if i == 0 or lattice.pieces[i - 1].form != "word":
        return False
    large = lattice.original(i - 1, i)[:1].isupper() and not kinds(lattice, i - 1) & _SEEN_OF_PLANTS
    return large or not lattice.known[i - 1] or "FIELDNOUN" in kinds(lattice, i - 1)


def _at_the_head(lattice: Lattice, i: int) -> bool:
    """Piece i is the first word of a line or a sentence, or the second one of a title."""
    opens = i == 0 or lattice.pieces[i - 1].form == "nl" or text(lattice, i - 1) in {".", ";"}
    return opens or (lattice.original(i - 1, i)[:1].isupper() and _at_the_head(lattice, i - 1))


_SEEN_OF_PLANTS = frozenset({"FLOWER", "POD", "SEED", "BEAN", "BROWN", "TOUCHING", "TRIF", "R", "V", "STAGENAME"})
_FOR_HAD_SOMETHING = _COMMON.words("having_or_with")


def had_something(lattice: Lattice, p: Phrase) -> bool:
    """`3/5 w pods`: a share of the plants, and no date."""
    nums = [int(e.means) for _, e in p.path if e.kind == "INT"]
    if len(nums) != 2 or nums[0] > nums[1] or text(lattice, p.path[0][1].end) != "/":
        return False
    i = p.end
    if text(lattice, i) not in _FOR_HAD_SOMETHING:
        return False
    i += 1
    while text(lattice, i) in {"/", "a", "an", "some"}:
        i += 1
    return bool(kinds(lattice, i) & {"POD", "FLOWER", "SEED", "BROWN", "TRIF"})


_FOR_FIRST_SO_MANY = _COMMON.words("flower")
_BEFORE_FIRST_SO_MANY = _LISTED.words("before_first_so_many")


def first_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`first two blooming`: so many plants; `p4 10 flower node 7`: ten leaves, and a flower."""
    n = next((e.means for _, e in p.path if e.kind == "INT"), 1)
    one = text(lattice, p.end - 1) in _FOR_FIRST_SO_MANY
    if one and int(n) > 3 and "NODE" in kinds(lattice, p.end):
        return True
    return text(lattice, p.start - 1) in _BEFORE_FIRST_SO_MANY and text(lattice, p.end - 1).endswith(
        ("ing", "in", "ed")
    )


_FOR_TOLD_OF = _COMMON.words("being") | _COMMON.words("with")


def _told_of(lattice: Lattice, i: int) -> bool:
    return (
        bool(kinds(lattice, i) & {"R", "FLOWER", "POD", "SEED", "STAGENAME", "HAS", "AT", "BROWN"})
        or text(lattice, i) in _FOR_TOLD_OF
    )


def sweeps(lattice: Lattice, p: Phrase) -> bool:
    """`3/25sw`."""
    return "SWEEP" in kinds(lattice, p.end)


_FOR_NOT_SHARED = _COMMON.words("being") | _COMMON.words("showing") | _COMMON.words("with") | _COMMON.words("blooming")


def not_shared(lattice: Lattice, p: Phrase) -> bool:
    """Only before what may be told of a share of plants: 6 in 10 flowering, 3 in 10 have pods; or one plant in ten."""
    i = p.end
    if any(e.kind == "PLANT" for _, e in p.path):
        return False
    if i >= len(lattice.pieces):
        return True
    return not (
        any(e.kind in _SHARED and e.how == "exact" for e in lattice.edges[i]) or text(lattice, i) in _FOR_NOT_SHARED
    )


def asked_how_many(lattice: Lattice, p: Phrase) -> bool:
    """`w/ a brown pod? 4`: so many plants, and none of them told."""
    return text(lattice, p.end) == "?" and "INT" in kinds(lattice, p.end + 1)


_BEHIND_ONE_IN_FIVE = _COMMON.words("being_or_having")


def one_in_five(lattice: Lattice, p: Phrase) -> bool:
    """`one in five is blooming`: a share of the plants, and no inch."""
    return (
        text(lattice, p.end - 1) == "in"
        and "INT" in kinds(lattice, p.end)
        and "ORD" not in kinds(lattice, p.end)
        and (text(lattice, p.end + 1) in _BEHIND_ONE_IN_FIVE)
    )


def half_inch(lattice: Lattice, p: Phrase) -> bool:
    """`half an inch` is no share of the plants."""
    return bool(kinds(lattice, p.end) & {"INCH", "ANINCH"}) or (
        text(lattice, p.end) in {"a", "an"} and "INCH" in kinds(lattice, p.end + 1)
    )


_BEHIND_HALF_OF_THE_PODS = _LISTED.words("behind_half_of_the_pods")


def half_of_the_pods(lattice: Lattice, p: Phrase) -> bool:
    """`the other two about half the pods`: no share of the plants."""
    at = p.end + (text(lattice, p.end) == "of")
    at += text(lattice, at) in {"the", "their", "its"}
    said = at > p.end or text(lattice, p.end - 1) in {"the", "their", "its"}
    return said and text(lattice, at) == "pods" and text(lattice, at + 1) not in _BEHIND_HALF_OF_THE_PODS


_PARTS_OF_AN_INCH = frozenset({"2", "4", "8", "16", "32"})
_BACK_TO_THE_LONGEST = 10  # pieces


def size_of_the_longest(lattice: Lattice, p: Phrase) -> bool:
    """`the longest, third node down, is 13/16`: a length, and no share of plants."""
    if text(lattice, p.end - 1) not in _PARTS_OF_AN_INCH or text(lattice, p.start - 1) not in {"is", "was", "'s", ":"}:
        return False
    before = range(max(0, p.start - _BACK_TO_THE_LONGEST), p.start)
    return any(text(lattice, i) in {"longest", "biggest", "largest"} for i in before)
