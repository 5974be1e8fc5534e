"""Shares, numbers and corrections: what looks like one and is none."""

from __future__ import annotations

import itertools

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice
from notesparse.text.spoken import DOING

_LISTED = cue_page("unfit/counts")
_COMMON = cue_page("shared")

_SHARED = frozenset({"FLOWER", "R", "PLANT", "HAS", "AT", "STAGENAME", "EMERGED"})
_WIDE = 2  # blanks of a gap
_STROKE = 3  # pieces of 8/1
_UNITS = frozenset({"MM", "CM", "INCH", "TRIF", "TRIPS", "NODE", "NODES"})


def the_others(lattice: Lattice, p: Phrase) -> bool:
    """`14 of 20 have a tan pod, the other six are green`: so many plants, and no six green pods."""
    return bool(kinds(lattice, p.start - 1) & {"OTHER", "REST"}) or text(lattice, p.start - 1) in {"other", "remaining"}


def in_order(lattice: Lattice, p: Phrase) -> bool:
    """`plants 1, 2, 3 in order`: no inches."""
    return text(lattice, p.end - 1) == "in" and p.end > p.start + 1 and text(lattice, p.end) == "order"


def same_order(lattice: Lattice, p: Phrase) -> bool:
    """`flowers, same order: no no top`: how values are listed, and no plant as the one before."""
    return text(lattice, p.end) == "order"


_BEFORE_NO_DOING = _COMMON.words("pod") | _COMMON.words("seed")
_BEHIND_NO_DOING = _COMMON.words("being") | _COMMON.words("having")
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
    staged = opens and any(e.kind in {"R", "V"} for e in lattice.edges[i + (text(lattice, i) == "at")])
    return text(lattice, i) not in DOING and not in_bloom_at(lattice, i) and not borne and not staged


def number_of_another(lattice: Lattice, p: Phrase) -> bool:
    """`[smudge] tri           1 bloom`: the number behind a gap counts what stands behind it."""
    at, last = p.path[-1]
    behind = kinds(lattice, last.end) & {"FLOWER", "POD", "SEED", "NODE", "NODES", "TRIF", "BEAN"}
    return last.kind == "INT" and lattice.pieces[at].gap >= _WIDE and bool(behind)


def of_its_pods(lattice: Lattice, p: Phrase) -> bool:
    """`a quarter of the 40 pods`: of pods, and not of plants."""
    return bool(kinds(lattice, p.end) & {"POD", "SEED", "BEAN", "NODE", "NODES", "TRIF", "LEAF"})


_BEHIND_IN_BLOOM_AT = _COMMON.words("flower") | {"full"}


def in_bloom_at(lattice: Lattice, i: int) -> bool:
    """`in bloom` at piece i."""
    return text(lattice, i) == "in" and text(lattice, i + 1) in _BEHIND_IN_BLOOM_AT


def cuts_a_number(lattice: Lattice, p: Phrase) -> bool:
    """`eleven of the twenty | two are brown`: the number goes on behind the phrase."""
    last = p.path[-1]
    start = last[0]
    return last[1].kind == "INT" and any(
        e.kind == "INT" and e.how == "number" and e.end > p.end and isinstance(e.means, int) and e.means < 100
        for e in lattice.edges[start]
    )


def on_a_part(lattice: Lattice, p: Phrase) -> bool:
    """`pods on two thirds`, `seed on 1/3`: a part of the plants, and no size."""
    frac = next((i for i, e in p.path if e.kind == "FRAC"), p.start)
    return text(lattice, frac - 1) == "on" and frac > p.start


def share_podded(lattice: Lattice, p: Phrase) -> bool:
    """`two thirds podded`: a share, and no length."""
    return p.path[0][1].kind == "FRAC" and text(lattice, p.path[-1][0]) in {"podded", "podding"}


def key_of_the_next(lattice: Lattice, p: Phrase) -> bool:
    """`3 tf9`: the leaf word is written to the count behind it, and the number before it is no count."""
    pieces, last = lattice.pieces, p.end - 1
    return (
        p.end < len(pieces)
        and p.end == p.start + 2
        and pieces[p.end].glued
        and pieces[p.end].form == pieces[p.start].form
        and text(lattice, p.end).isdigit()
        and not pieces[last].glued
    )


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


def sets_of(lattice: Lattice, p: Phrase) -> bool:
    """`two sets of pods`: no leaves."""
    return text(lattice, p.end - 1) == "sets" and text(lattice, p.end) == "of"


def on_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`pods on two`, `flowers? yes on all ten`: on two plants or nodes, and no length or number of pods."""
    return any(text(lattice, i) == "on" for i in range(p.start + 1, p.path[-1][0]))


_MEANS_NODES = _LISTED.words("means_nodes")


def on_a_plant(lattice: Lattice, p: Phrase) -> bool:
    """`at 4th node from top on 2`, `no pods on 1 or 2`: the figures are plants, and no top two and no lengths."""
    return any(text(lattice, i) == "on" for i in range(p.start + 1, p.end))


def as_long_as_that(lattice: Lattice, p: Phrase) -> bool:
    """`pods 8 top node`: the top node is one, and the figure before it is of the pods."""
    (_, first), (_, last) = p.path[0], p.path[-1]
    one = last.kind == "NODE" and text(lattice, p.end - 1) not in _MEANS_NODES
    of_organs = bool(kinds(lattice, p.start - 1) & {"POD", "SEED", "BEAN"})
    return one and of_organs and first.kind in {"INT", "INTSOUND"} and int(first.means) > 1


def and_between(lattice: Lattice, p: Phrase) -> bool:
    """`from the top and one at the fifth`: the number is of what follows."""
    return any(text(lattice, i) in {"and", "&"} for i in range(p.start + 1, p.path[-1][0]))


def of_the_key_before(lattice: Lattice, p: Phrase) -> bool:
    """`fl=3 pod=no`: the figure is of what stands before it."""
    return text(lattice, p.start - 1) == "=" and text(lattice, p.end) == "=" and lattice.pieces[p.start].form == "int"


_BEHIND_AWAY_FROM = _LISTED.words("behind_away_from")


def away_from(lattice: Lattice, p: Phrase) -> bool:
    """`about 2 nodes from R3`: no count of nodes."""
    if text(lattice, p.end) == "away":
        return True
    return text(lattice, p.end) in _BEHIND_AWAY_FROM and bool(
        kinds(lattice, p.end + 1) & {"R", "V", "FROM", "OF", "STAGENAME", "FLOWER"}
    )


def comma_inside(lattice: Lattice, p: Phrase) -> bool:
    """`on node 4 of 6 plants, the rest had`: another sentence begins at the comma."""
    return any(text(lattice, i) == "," for i in range(p.start, p.end))


def size_on_some(lattice: Lattice, p: Phrase) -> bool:
    """`all have pods, half inch on 1 and 2`: the size behind the comma is that of some of them."""
    behind = text(lattice, p.end) == "on" and "INT" in kinds(lattice, p.end + 1)
    return behind and comma_inside(lattice, p)


def size_of_the_pod(lattice: Lattice, p: Phrase) -> bool:
    """`pod 30, seed 6`: the number behind the pod is its length, and no count of seeds."""
    return comma_inside(lattice, p) and "POD" in kinds(lattice, p.start - 1)


_UP_TOP = _COMMON.words("node") | _COMMON.words("top") | {"upper"}


def in_bloom(lattice: Lattice, p: Phrase) -> bool:
    """`2/3 in bloom`: no inches, and no date."""
    at = p.end - (lattice.pieces[p.end - 1].text == "in")
    return in_bloom_at(lattice, at)


def of_nodes(lattice: Lattice, p: Phrase) -> bool:
    """`pods on 3 of 4 top nodes`, `3 of the top 4`: so many nodes, and no plants."""
    return text(lattice, p.end) in _UP_TOP


def of_something(lattice: Lattice, p: Phrase) -> bool:
    """`pods on 3 of the top 4 nodes`: no length, and no number of pods."""
    return text(lattice, p.end) in {"of", "outta"} and bool(kinds(lattice, p.end) & {"OF", "OUTOF"})


def has_its_number(lattice: Lattice, p: Phrase) -> bool:
    """`the top 2 nodes, two had them lower`: the noun has its number before it, and another sentence begins."""
    first, last = p.path[0][1], p.path[-1][0]
    if any(e.kind == "OPEN" for _, e in p.path) and p.start and kinds(lattice, p.start - 1) & {"INT"}:
        return True  # five trifoliates open three's only got four
    if p.start == 0 or first.end >= p.end or not any(text(lattice, i) == "," for i in range(first.end, last)):
        return False
    return lattice.pieces[p.start - 1].form == "int" or bool(kinds(lattice, p.start - 1) & {"INT", "ORD", "TOP"})


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
    if i == 0 or lattice.pieces[i - 1].form != "word":
        return False
    large = lattice.original(i - 1, i)[:1].isupper() and not kinds(lattice, i - 1) & _SEEN_OF_PLANTS
    return large or not lattice.known[i - 1] or "FIELDNOUN" in kinds(lattice, i - 1)


_SEEN_OF_PLANTS = frozenset({"FLOWER", "POD", "SEED", "BEAN", "BROWN", "TOUCHING", "TRIF", "R", "V", "STAGENAME"})


_FOR_HAD_SOMETHING = _COMMON.words("having") | _COMMON.words("with")


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
    return text(lattice, p.start - 1) in _BEFORE_FIRST_SO_MANY and text(lattice, p.end - 1).endswith(("ing", "ed"))


_BEHIND_WITHOUT_THEM = _LISTED.words("behind_without_them")


def without_them(lattice: Lattice, p: Phrase) -> bool:
    """`3 with pods, 2 without`: plants, and no size of pods."""
    return text(lattice, p.end) in _BEHIND_WITHOUT_THEM


_FOR_TOLD_OF = _COMMON.words("being") | _COMMON.words("with")


def _told_of(lattice: Lattice, i: int) -> bool:
    return (
        bool(kinds(lattice, i) & {"R", "FLOWER", "POD", "SEED", "STAGENAME", "HAS", "AT", "BROWN"})
        or text(lattice, i) in _FOR_TOLD_OF
    )


def sweeps(lattice: Lattice, p: Phrase) -> bool:
    """`3/25sw`."""
    return "SWEEP" in kinds(lattice, p.end)


def of_a_numbered_plant(lattice: Lattice, p: Phrase) -> bool:
    """`Tern Island 9/26 plant 3 brown`, `9/26 pl A 9 trifs`: a date, and the plant."""
    if not any(e.kind == "PLANT" for _, e in p.path[-1:]):
        return False
    label = text(lattice, p.end)
    lettered = len(label) == 1 and label.isalpha() and not text(lattice, p.end - 1).endswith("s")
    return "INT" in kinds(lattice, p.end) or (lettered and bool(kinds(lattice, p.end + 1) & _OF_A_PLANT))


_OF_A_PLANT = frozenset({"INT", "R", "V", "FLOWER", "POD", "COLON", "DASH"})


_FOR_DAY_AND_PLANT = _COMMON.words("plant") | {"p"}


def day_and_plant(lattice: Lattice, p: Phrase) -> bool:
    """`6/8 pl 1 - two tri`: a day, and the label of a plant."""
    pieces = lattice.pieces
    return (
        text(lattice, p.start + 1) == "/"
        and text(lattice, p.end - 1) in _FOR_DAY_AND_PLANT
        and p.end < len(pieces)
        and pieces[p.end].form == "int"
    )


def day_before_a_gap(lattice: Lattice, p: Phrase) -> bool:
    """`July 2   trifoliates`, `8/1   trif`: the day, and what is counted over the lines below."""
    pieces, i = lattice.pieces, p.start
    if i + 1 >= p.end or pieces[i].form != "int":
        return False
    if text(lattice, i + 1) == "/":
        return i + _STROKE < p.end and pieces[i + _STROKE].gap >= _WIDE
    if not i or pieces[i + 1].gap < _WIDE:
        return False
    return "MONTH" in kinds(lattice, i - 1) and (
        i == 1 or pieces[i - 2].form in {"nl", "mark"} or pieces[i - 1].gap > 1
    )


def day_of_each_line(lattice: Lattice, p: Phrase) -> bool:
    """`Coon Run 6/8 7 of 10 R3`, and on the next line `Gooseneck 6/8 pods 1 in`: the day, and no length of pods."""
    if text(lattice, p.start + 1) != "/":
        return False
    figures = [text(lattice, p.start + x) for x in range(3)]
    lines = 0
    for i in range(len(lattice.pieces) - 2):
        if [text(lattice, i + x) for x in range(3)] != figures:
            continue
        head = i
        while head and lattice.pieces[head - 1].form == "word":
            head -= 1
        lines += head < i and (head == 0 or lattice.pieces[head - 1].form == "nl")
    return lines > 1


_FOR_INSIDE_AN_ORDINAL = _COMMON.words("ordinal_tails")


def inside_an_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`2nd 9`: the end of an ordinal is no word for a node."""
    first = lattice.pieces[p.start]
    return (
        first.text in _FOR_INSIDE_AN_ORDINAL
        and first.glued
        and bool(p.start)
        and lattice.pieces[p.start - 1].form == "int"
    )


def end_of_labels(lattice: Lattice, p: Phrase) -> bool:
    """`plants 1, 3, 5 fl`: the last number of a list of plants counts no flowers."""
    i, many = p.start, 0
    while i > 1 and text(lattice, i - 1) in {",", "and", "&"} and lattice.pieces[i - 2].form == "int":
        i -= 2
        many += 1
    return many > 0 and i > 0 and bool(kinds(lattice, i - 1) & {"PLANT", "PLETTER"})


def over_a_mark(lattice: Lattice, p: Phrase) -> bool:
    """`R2; 2,4 R1`, `on 1,3,5 (9 trifs each)`, `1 2 3 = 9 9 10 trifs`: no list of counts goes over such a mark, or
    begins in a stage."""
    first = lattice.pieces[p.start]
    inside = first.glued and p.start > 0 and lattice.pieces[p.start - 1].text in {"r", "v"}
    return inside or any(
        text(lattice, x) in {";", "("}
        or (text(lattice, x) in {"=", ":"} and "INT" in kinds(lattice, x - 1) and "INT" in kinds(lattice, x + 1))
        for x in range(p.start, p.end)
        if not _of_the_clock(lattice, x)
    )


def _of_the_clock(lattice: Lattice, i: int) -> bool:
    """`6:45`: hours and minutes at the colon of piece i."""
    minutes = lattice.pieces[i + 1] if i + 1 < len(lattice.pieces) else None
    return text(lattice, i) == ":" and minutes is not None and minutes.glued and len(minutes.text) == 2


def of_a_stage(lattice: Lattice, p: Phrase) -> bool:
    """`R eight thirteen one moisture`: the first number is that of a stage."""
    return bool(kinds(lattice, p.start - 1) & {"R", "V"}) and text(lattice, p.start - 1) in {"r", "v"}


_FOR_OTHER_HAS = _LISTED.words("for_other_has")


def other_has(lattice: Lattice, p: Phrase) -> bool:
    """`The other has 11`: what the other one has, and no eleven others."""
    return any(text(lattice, i) in _FOR_OTHER_HAS for i in range(p.start, p.end))


def no_commas_between(lattice: Lattice, p: Phrase) -> bool:
    """`13 nodes, 13, 12, 14` goes on over commas; `9 trifs 2 10 trifs` does not."""
    return any(at > p.start + 1 and e.kind == "INT" and text(lattice, at - 1) not in {",", "and"} for at, e in p.path)


def behind_a_number(lattice: Lattice, p: Phrase) -> bool:
    """`13 | nodes, 13, 12`: the first figure stands before the noun."""
    first = p.path[0][1]
    return p.start > 0 and lattice.pieces[p.start - 1].form == "int" and text(lattice, first.end) == ","


_FOR_OF_PLANTS_WITH = _COMMON.words("having") | _COMMON.words("with")


def of_plants_with(lattice: Lattice, p: Phrase) -> bool:
    """`sixty percent have a brown pod`: so many plants, and no share of the pods of one."""
    inside = [text(lattice, x) for x in range(p.start, p.end)]
    has = next((i for i, word in enumerate(inside) if word in _FOR_OF_PLANTS_WITH), None)
    return has is not None and not {"pod", "pods"} & set(inside[:has])


def cuts_a_share(lattice: Lattice, p: Phrase) -> bool:
    """`trifs 9 10 9, 3/5 blooming`: a list does not take the first number of a share, nor a count its second."""
    out = text(lattice, p.end) == "out"
    behind = text(lattice, p.end + out) in {"/", "of"} and text(lattice, p.end + out + 1).isdigit()
    behind = behind or (p.form not in _COUNTS and bool(kinds(lattice, p.end) & {"PCT"}))
    behind = behind or (p.form == "sampled" and text(lattice, p.end) == "of")  # the ten flags seven of the ten are up
    before = text(lattice, p.start - 1) == "/" and text(lattice, p.start - 2).isdigit()
    return behind or (before and p.form in _COUNTS)


def plants_and_their_count(lattice: Lattice, p: Phrase) -> bool:
    """`plants 3 4 5 11 trifs`: plants, and what they have."""
    numbers = [int(e.means) for _, e in p.path if e.kind == "INT"]
    rising = all(b == a + 1 for a, b in itertools.pairwise(numbers[:-1]))
    return len(numbers) > 2 and rising and text(lattice, p.start - 1) in {"plants", "plts"}


def last_apart(lattice: Lattice, p: Phrase) -> bool:
    """`trifs 9 10 9 9 8, 3 blooming`: what stands behind the only comma of a row, before a word, is of that word."""
    marks = [x for x in range(p.start, p.end) if text(lattice, x) == ","]
    if len(marks) != 1 or marks[0] != p.end - 2 or p.end - p.start < 5:
        return False
    return p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "word"


_COUNTS = frozenset({"fl_count", "pod_count", "seed_count"})


def range_of_plants(lattice: Lattice, p: Phrase) -> bool:
    """`1-5 9 trifs`: plants one to five, and what they have."""
    return (
        p.start + 3 < p.end
        and text(lattice, p.start) == "1"
        and text(lattice, p.start + 1) == "-"
        and (lattice.pieces[p.start + 1].glued)
    )


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


def none_brown_pods(lattice: Lattice, p: Phrase) -> bool:
    """`none brown, pods full 2nd node dn`: the pods behind the comma are of what follows."""
    i, last = p.path[-1]
    return last.kind == "POD" and i > p.start and lattice.pieces[i - 1].form == "mark"


_BEFORE_HEARD_STAGE = _LISTED.words("before_heard_stage")


def heard_stage(lattice: Lattice, p: Phrase) -> bool:
    """`be ten are three no wait | are two`: the stage is put right, and no count."""
    return text(lattice, p.path[-1][0] - 1) in _BEFORE_HEARD_STAGE


def heard_as_v(lattice: Lattice, p: Phrase) -> bool:
    """`plant four be | ten flours`: V10 and flowers."""
    return text(lattice, p.start - 1) in {"be", "bee", "vee"} and p.path[0][1].kind == "INT"


_BEHIND_BROWN_KIND = _LISTED.words("behind_brown_kind")


def brown_kind(lattice: Lattice, p: Phrase) -> bool:
    """`stink bugs, mostly the brown kind`: no pods."""
    return text(lattice, p.end) in _BEHIND_BROWN_KIND


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


def of_the_top(lattice: Lattice, p: Phrase) -> bool:
    """`top two nodes three have them lower`: the nodes have their number before them."""
    noun = bool(kinds(lattice, p.start) & {"NODES", "NODE"})
    return noun and "INT" in kinds(lattice, p.start - 1) and "TOP" in kinds(lattice, p.start - 2)


_BEHIND_ONE_IN_FIVE = _COMMON.words("being") | _COMMON.words("having")


def one_in_five(lattice: Lattice, p: Phrase) -> bool:
    """`one in five is blooming`: a share of the plants, and no inch."""
    return (
        text(lattice, p.end - 1) == "in"
        and "INT" in kinds(lattice, p.end)
        and "ORD" not in kinds(lattice, p.end)
        and (text(lattice, p.end + 1) in _BEHIND_ONE_IN_FIVE)
    )


def word_behind_a_comma(lattice: Lattice, p: Phrase) -> bool:
    """`tan pod, one`: how many, and no length."""
    return any(
        e.kind == "INT" and lattice.pieces[at].form == "word" and text(lattice, at - 1) == "," for at, e in p.path
    )


def before_unit(lattice: Lattice, p: Phrase) -> bool:
    """`make that 12 mm`."""
    return (
        any(e.kind in _UNITS and e.how == "exact" for e in lattice.edges[p.end])
        if p.end < len(lattice.edges)
        else False
    )


def half_inch(lattice: Lattice, p: Phrase) -> bool:
    """`half an inch` is no share of the plants."""
    return bool(kinds(lattice, p.end) & {"INCH", "ANINCH"}) or (
        text(lattice, p.end) in {"a", "an"} and "INCH" in kinds(lattice, p.end + 1)
    )


_PARTS = _LISTED.words("parts")


def part_of_an_inch(lattice: Lattice, p: Phrase) -> bool:
    """`pods in 16ths of an inch`: how they were measured, and no inch; `beans 1/4 in. long`: the unit of the figure."""
    first = p.path[0][1]
    near = range(max(0, p.start - 3), p.start)
    if (
        text(lattice, p.start) in {"in", "inch"}
        and first.kind in {"INCH", "ANINCH"}
        and any(e.kind in {"FRAC", "DEC", "INT"} and e.end == p.start for k in near for e in lattice.edges[k])
    ):
        return True
    at = p.start - 1
    while text(lattice, at) in {"of", "an", "a"}:
        at -= 1
    return text(lattice, at) in _PARTS


def measured_in_parts(lattice: Lattice, p: Phrase) -> bool:
    """`pods in 16ths`, `pods measured in eighths`: how they were measured, and no pods."""
    i = p.end + (text(lattice, p.end) in {"measured", "are", "were"})
    return text(lattice, i) == "in" and bool(_PARTS & {text(lattice, i + 1), text(lattice, i + 2)})


_BEHIND_HALF_OF_THE_PODS = _LISTED.words("behind_half_of_the_pods")


def half_of_the_pods(lattice: Lattice, p: Phrase) -> bool:
    """`the other two about half the pods`: no share of the plants."""
    at = p.end + (text(lattice, p.end) == "of")
    at += text(lattice, at) in {"the", "their", "its"}
    said = at > p.end or text(lattice, p.end - 1) in {"the", "their", "its"}
    return said and text(lattice, at) == "pods" and text(lattice, at + 1) not in _BEHIND_HALF_OF_THE_PODS


_FOR_TOLD_BETWEEN = _COMMON.words("being") | _COMMON.words("having")


def told_between(lattice: Lattice, p: Phrase) -> bool:
    """`plants one through three are nine eight and nine`: the numbers after the verb are others."""
    return any(
        text(lattice, x) in _FOR_TOLD_BETWEEN or (text(lattice, x) == ":" and not lattice.pieces[x + 1].glued)
        for x in range(p.start, p.end - 1)
    )


def decimal(lattice: Lattice, p: Phrase) -> bool:
    """`rain gauge had point eight`: a figure, and no stop."""
    return text(lattice, p.start) == "point" and p.start > 0 and lattice.pieces[p.start - 1].form in {"word", "int"}


_NOUNS = frozenset({"TRIF", "NODES", "POD", "SEED", "FLOWER"})
_NO_HEAD = _LISTED.words("no_head")


def of_the_noun_before(lattice: Lattice, p: Phrase) -> bool:
    """`pod 14   fl top`, `pod 14 tf 12`, `nd 13 fl top two`: the number is of the noun before it, and no 14 flowers."""
    if p.start == 0 or lattice.pieces[p.start].form != "int":
        return False
    before = {e.kind for e in lattice.edges[p.start - 1] if e.how == "exact" and e.end == p.start} & _NOUNS
    if not before or lattice.pieces[p.start].gap >= _WIDE or text(lattice, p.start - 2) in _NO_HEAD:
        return False
    counted = p.start > 1 and lattice.pieces[p.start - 2].form in {"int", "dec"}
    heads = counted and (p.start == 2 or lattice.pieces[p.start - 3].form == "nl")  # 1 pod 14 tf 12
    labelled = counted and any(
        e.kind in {"PLANT", "PLETTER"} and e.end == p.start - 2 for e in lattice.edges[max(0, p.start - 3)]
    )
    apart = heads and lattice.pieces[p.start - 1].gap >= _WIDE
    if counted and not (heads or labelled):
        return False  # 12 tf 14 pods
    behind = p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "int"
    behind = behind and not kinds(lattice, p.end + 1) & _NOUNS
    if behind and before & {"POD", "SEED"} and p.form in {"trif_n", "nodes_n"}:
        return True
    if heads and not apart:
        return False  # 12 nodes 11 trifs
    return "NODES" in before or lattice.pieces[p.path[-1][0]].gap >= _WIDE


def noun_of_next(lattice: Lattice, p: Phrase) -> bool:
    """`fl=1,2  pd=none`, `15    Nodes: 16`: behind a gap, a noun with a mark behind it is the head of what follows."""
    if len(p.path) < 2 or text(lattice, p.end) not in {":", "="}:
        return False
    at, last = p.path[-1]
    return (
        last.end == p.end
        and lattice.pieces[at].gap >= _WIDE
        and p.path[0][1].kind in {"INT", "DEC", "FRAC"}
        and p.path[0][0] < at
    )


def brown_and_more(lattice: Lattice, p: Phrase) -> bool:
    """`6 of 8 had a brown pod, 1 of 8 was brown all over`: another share begins at the comma."""
    return text(lattice, p.start - 1) in {"a", "one", "1"} and comma_inside(lattice, p)


_BEHIND_SO_MANY_WERE = _COMMON.words("being")


def so_many_were(lattice: Lattice, p: Phrase) -> bool:
    """`8 of 10 podded, 2 were brown`: the number begins the next saying, and is no length."""
    return text(lattice, p.end) in _BEHIND_SO_MANY_WERE and comma_inside(lattice, p)


def no_near_count(lattice: Lattice, p: Phrase) -> bool:
    """`nine maybe ten trifs`, `nine trifs, maybe eight` is one count; `4 about 10 trifs`, `10 trifs maybe 2` are not."""
    nums = [int(e.means) for _, e in p.path if e.kind in {"INT", "INTSOUND"}]
    return len(nums) != 2 or not 1 <= abs(nums[1] - nums[0]) <= 2


_BEFORE_ONE_OF_A_ROW = _LISTED.words("before_one_of_a_row")


def one_of_a_row(lattice: Lattice, p: Phrase) -> bool:
    """`first one seed an eighth, next one pods`: the first one, and what it bears."""
    before = lattice.pieces[p.start - 1].text if p.start else ""
    ordinal = any(e.kind == "ORD" for e in lattice.edges[p.start - 1]) if p.start else False
    return text(lattice, p.start) == "one" and (ordinal or before in _BEFORE_ONE_OF_A_ROW)


def misheard_twice(lattice: Lattice, p: Phrase) -> bool:
    """`windshield notes then walked three`: nodes and ten only if both were misheard, which is too much to take."""
    return len(p.path) == 2 and all(e.how == "sound" for _, e in p.path)


_BORNE = frozenset({"FLOWER", "POD", "SEED", "BROWN"})


def of_no_sample(lattice: Lattice, p: Phrase) -> bool:
    """`of ten, 8 were blooming`: so many of so many where it opens the sentence and is parted by a comma, or where
    they were pulled or looked at."""
    if any(e.kind in {"SAMPLED", "PLANTED"} for _, e in p.path):
        return False
    opens = p.start == 0 or lattice.pieces[p.start - 1].form in {"nl", "mark"}
    parted = any(text(lattice, i) == "," for i in range(p.start, p.end))
    counted = any(text(lattice, i) in {":", "="} for i in range(p.start, p.end))  # in bloom out of 25: 14
    if counted and p.end < len(lattice.pieces) and lattice.pieces[p.end].form not in {"nl", "mark"}:
        return True
    if counted and (
        opens or any(e.end == p.start for i in range(p.start) for e in lattice.edges[i] if e.kind in _BORNE)
    ):
        return False
    whole = next((int(e.means) for _, e in p.path if e.kind == "INT"), 0)
    return not (opens and parted and whole >= 3)


_PARTS_OF_AN_INCH = frozenset({"2", "4", "8", "16", "32"})
_BACK_TO_THE_LONGEST = 10  # pieces


def size_of_the_longest(lattice: Lattice, p: Phrase) -> bool:
    """`the longest, third node down, is 13/16`: a length, and no share of plants."""
    if text(lattice, p.end - 1) not in _PARTS_OF_AN_INCH or text(lattice, p.start - 1) not in {"is", "was", "'s", ":"}:
        return False
    before = range(max(0, p.start - _BACK_TO_THE_LONGEST), p.start)
    return any(text(lattice, i) in {"longest", "biggest", "largest"} for i in before)


_AGAIN = _LISTED.words("again")


def a_no_to_a_question(lattice: Lattice, p: Phrase) -> bool:
    """`bugs? nope`: an answer, and no correction, where nothing new follows."""
    if text(lattice, p.start) not in {"nope", "nah"} or text(lattice, p.start - 1) not in {"?", ":", "=", "-"}:
        return False
    return p.end >= len(lattice.pieces) or lattice.pieces[p.end].form in {"mark", "nl"}


_FOR_COUNTED_AGAIN_ONLY = _LISTED.words("for_counted_again_only")


def counted_again_only(lattice: Lattice, p: Phrase) -> bool:
    """`p3 12 trifs, recounted`: put right only where another number follows."""
    if not {text(lattice, p.end - 1), text(lattice, p.start)} & _AGAIN or len(p.path) > 1:
        return False
    i = p.end
    while text(lattice, i) in _FOR_COUNTED_AGAIN_ONLY:
        i += 1
    return not kinds(lattice, i) & {"INT", "FRAC", "DEC", "ANINCH"}


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


def stop_inside(lattice: Lattice, p: Phrase) -> bool:
    """`pods third node; 2 and 4 are behind`: another sentence begins at the mark."""
    return any(text(lattice, i) == ";" for i in range(p.start, p.end))


def every_pod_of_them(lattice: Lattice, p: Phrase) -> bool:
    """`looked at ten plants every pod is brown on seven`: every belongs to the pod."""
    every = p.path[-1][1].kind == "EVERYW" and text(lattice, p.end - 1) in {"every", "each"}
    return every and bool(kinds(lattice, p.end) & {"POD", "FLOWER", "SEED", "BEAN", "LEAF", "NODE"})


def left_of_all(lattice: Lattice, p: Phrase) -> bool:
    """`all but | two of the twelve`, `all but | 2 in bloom`: those that have it not."""
    return text(lattice, p.start - 1) in {"but", "except"} and "EVERYW" in kinds(lattice, p.start - 2)


def label_and_beans(lattice: Lattice, p: Phrase) -> bool:
    """`plant 1 beans in the pods`, `1 beans in the pods` on a line: of the plant that the number names."""
    if p.path[-1][1].kind != "POD":
        return False
    opens = p.start == 0 or lattice.pieces[p.start - 1].form == "nl"
    return (opens and lattice.pieces[p.start].form == "int") or bool(
        kinds(lattice, p.start - 1) & {"PLANT", "PLETTER", "NUMBERW", "HASH", "NODOT"}
    )


def seeds_of_plants(lattice: Lattice, p: Phrase) -> bool:
    """`of 50 seeds flagged, 41 are up`: seed in the ground, where coming up is told of; else it is seed in pods."""
    seed = any(e.kind == "SEED" for _, e in p.path)
    return seed and not any("EMERGED" in kinds(lattice, i) for i in range(p.end, p.end + 4))


_IS = _COMMON.words("being") | _COMMON.words("having")
_IT_WAS = _COMMON.words("being") | (_COMMON.words("having") | _COMMON.words("with"))


def puts_a_plant_right(lattice: Lattice, p: Phrase) -> bool:
    """`Wait, 2 was 11`, `no wait, 1 has a bloom`: the number behind the cue is a plant's, and the new value stands behind."""
    if text(lattice, p.end) not in _IT_WAS:
        return False
    told = kinds(lattice, p.end + 1) & {"INT", "DEC", "FRAC", "R", "V"}
    return bool(told) or (text(lattice, p.end + 1) in {"a", "an", "some"} and bool(kinds(lattice, p.end + 2)))


def names_plants(lattice: Lattice, p: Phrase) -> bool:
    """`no sorry, three is the eleven`, `correction, 4 and 5 are R2`: plants, and no count put right."""
    if text(lattice, p.end) in _IS and text(lattice, p.end + 1) == "the":
        return True
    two = text(lattice, p.end) in {"and", "&"} and "INT" in kinds(lattice, p.end + 1)
    return two and any(text(lattice, e.end) in _IS for e in lattice.edges[p.end + 1] if e.kind == "INT")


def now_it_is(lattice: Lattice, p: Phrase) -> bool:
    """`now it's six`: heard for nodes only behind its number."""
    return text(lattice, p.start) == "now" and p.path[0][1].kind in {"NODE", "NODES"}


def behind_a_range(lattice: Lattice, p: Phrase) -> bool:
    """`plants 1-5: 5, 6, 5 trifs`: the first figure is the end of a range."""
    i = p.start - 1
    return text(lattice, i) in {"-", "–"} and lattice.pieces[i].glued and lattice.pieces[p.start].glued


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


def all_got_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`they've all got five trifoliates`: so many leaves, and not so many plants."""
    got = any(text(lattice, x) in {"got", "have", "had"} for x in range(p.start, p.end))
    return got and bool(kinds(lattice, p.end) & {"TRIF", "TRIPS", "NODES"})


def and_another_number(lattice: Lattice, p: Phrase) -> bool:
    """`of the four, 2 and 4 have pods`: two of the plants by their numbers, and no two of four."""
    return text(lattice, p.end) in {"and", "&"} and bool(kinds(lattice, p.end + 1) & {"INT"})


def letter_at_a_figure(lattice: Lattice, p: Phrase) -> bool:
    """`p1 N3 seed touching`: the letter stands at its figure and apart from what is before it, and is no `and`."""
    pieces = lattice.pieces
    return any(
        e.kind == "AND" and pieces[i].text == "n" and not pieces[i].glued and pieces[e.end].glued
        for i, e in p.path[:-1]
        if e.end < len(pieces)
    )
