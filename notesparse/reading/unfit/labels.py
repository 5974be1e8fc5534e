"""Labels and groups of plants: what looks like a label and is none."""

from __future__ import annotations

from itertools import pairwise

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.reading.unfit.heads import before_count, no_page
from notesparse.text.lattice import Edge, Lattice

_LISTED = cue_page("unfit/labels")
_COMMON = cue_page("shared")

_MANY = _COMMON.words("plants")
_GROUPS = frozenset({"ALLOF", "ANYOF", "REST", "OTHER"})
_MOST_LABELLED = 30  # no more plants are told of by a bare number
_LABEL_AT_MOST = 4  # pieces of a label at the head of a row


def label_cut(lattice: Lattice, p: Phrase) -> bool:
    """`cut off dead plant four four trifs`: the plant is the next one; `ten plants down one row`: how they were taken."""
    if text(lattice, p.end - 1) == "down" and "row" in {text(lattice, p.end), text(lattice, p.end + 1)}:
        return True
    return p.end > p.start + 1 and text(lattice, p.end - 1) == "plant" and "INT" in kinds(lattice, p.end)


def loose_dash(lattice: Lattice, p: Phrase) -> bool:
    """`4 - 7 trifs`: a dash with blanks is no range of plants, and no date. `p1 - p4` is one."""
    pieces = lattice.pieces
    if sum(e.kind == "PLANT" for _, e in p.path) > 1:
        return False
    return any(
        e.kind == "DASH" and not (pieces[at].glued and at + 1 < len(pieces) and pieces[at + 1].glued)
        for at, e in p.path
    )


def behind_an_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`second plant nine trifs ... third plant eight`: where plants are told by ordinals, eight is no label."""
    before = [
        int(e.means)
        for e in [*_edges_at(lattice, p.start - 1), *_edges_at(lattice, p.start - 2)]
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
    return any(
        e.kind == "ORD" and int(e.means) == wanted and text(lattice, e.end) in {"plant", "plt", "one"}
        for at in range(p.start - 1)
        for e in lattice.edges[at]
    )


_BEHIND_ONE_MORE_LEAF = _LISTED.words("behind_one_more_leaf")
_BEHIND_ONE_MORE_LEAF_2 = _LISTED.words("behind_one_more_leaf_2")


def one_more_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`one more trif`: a count told by another, and no next plant."""
    leaf = bool(kinds(lattice, p.end) & {"TRIF", "TRIPS", "NODE", "NODES"})
    hidden = text(lattice, p.end) in _BEHIND_ONE_MORE_LEAF
    there_is = text(lattice, p.start - 1) in {"there's", "theres", "missed"} or (
        text(lattice, p.start - 1) in {"is", "'s"} and text(lattice, p.start - 2) == "there"
    )
    added = text(lattice, p.start - 1) in {"plus", "+", "with"} and text(lattice, p.end) in _BEHIND_ONE_MORE_LEAF_2
    if added or (text(lattice, p.end) == "on" and text(lattice, p.end + 1) == "top"):
        return text(lattice, p.end - 1) in {"more", "another"}  # six trifs plus one more on top
    counted = text(lattice, p.start) == "one" and _behind_a_label(lattice, p.start)  # P2 one more
    return text(lattice, p.end - 1) in {"more", "another"} and (leaf or counted or (hidden and there_is))


_BEFORE_BEHIND_A_LABEL = _COMMON.words("being") | _COMMON.words("having") | _COMMON.words("with") | {"-", ":", "at"}


def _behind_a_label(lattice: Lattice, i: int) -> bool:
    """Right before piece i, or before a `has`, stands a plant's label."""
    i -= text(lattice, i - 1) in _BEFORE_BEHIND_A_LABEL
    bare = any(e.kind == "BARE" and e.end == i for k in range(max(0, i - 3), i) for e in lattice.edges[k])
    figure = any(e.kind == "INT" and e.end == i for e in lattice.edges[i - 1]) if i > 1 else False
    marks = {"PLANT", "PLETTER", "HASH", "NUMBERW", "NODOT"}
    return bare or (figure and bool((kinds(lattice, i - 2) | kinds(lattice, i - 3)) & marks))


def words_between(lattice: Lattice, p: Phrase) -> bool:
    """`same as the first only the pod's lower`: the organ stands right behind the same, or it is another saying."""
    (_, same), (organ, _) = p.path[:2]
    return any(text(lattice, i) != "the" for i in range(same.end, organ))


def the_first_third(lattice: Lattice, p: Phrase) -> bool:
    """`same pod as the first | third plant`: two ordinals, and the second is the next plant."""
    at = next((i for i, e in p.path if e.kind == "ORD"), 0)
    return bool(kinds(lattice, at - 1) & {"ORD"})


def another_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`another three were blooming`: more plants of those that were counted, and not the next one."""
    ends = [e.end for e in lattice.edges[p.end] if e.kind == "INT"] if p.end < len(lattice.pieces) else []
    return text(lattice, p.start) == "another" and bool(ends) and text(lattice, max(ends)) in _ARE


_ARE = _LISTED.words("are")


def do_of_talk(lattice: Lattice, p: Phrase) -> bool:
    """`what do you think`: a `do` with no point is the same again only between a label and the end of what is said."""
    bare = any(text(lattice, i) == "do" and text(lattice, i + 1) != "." for i in range(p.start, p.end))
    return bare and not_behind_a_label(lattice, p)


def not_behind_a_label(lattice: Lattice, p: Phrase) -> bool:
    """`4-7  as 2`: like plant 2, where it stands between a label and the end of what is said of its plant."""
    pieces = lattice.pieces
    behind = any(
        e.kind == "BARE" and e.end == p.start for k in range(max(0, p.start - 8), p.start) for e in lattice.edges[k]
    )
    i = p.start - 1 - (p.start > 1 and pieces[p.start - 1].text in {".", ":", "-"})  # pl 4 as 3, Plant 4. As 3.
    mark = 1 + (i > 1 and pieces[i - 1].text == ".")  # Pl. 4 as 3
    behind = behind or (
        i > 0
        and pieces[i].form == "int"
        and any(e.kind in {"PLANT", "PLETTER", "HASH", "NODOT", "NUMBERW"} for e in lattice.edges[i - mark])
    )
    ended = p.end >= len(pieces) or pieces[p.end].form == "nl" or pieces[p.end].text in {".", ",", ";", "but", "except"}
    return not (behind and ended)


def other_way_round(lattice: Lattice, p: Phrase) -> bool:
    """`plant two is the other way round`: it differs, and no next plant is named."""
    return text(lattice, p.end) == "way"


def in_a_row_of_labels(lattice: Lattice, p: Phrase) -> bool:
    """`flowers on 1 and 2 not 3 and 4`: plants that have them, and plants that have none; no figure is put right."""
    joined = text(lattice, p.start - 1) in {"and", "&", ","} and bool(kinds(lattice, p.start - 2) & {"INT"})
    on = text(lattice, p.start - 1) == "on" and text(lattice, p.end) in {"and", "or", "&"}
    return (joined and any(text(lattice, x) == "on" for x in range(max(0, p.start - 8), p.start))) or on


_NAMES_ONE = frozenset({"PLANT", "PLETTER", "HASH", "NODOT", "NUMBERW"})
_AFTER_ALSO = _LISTED.words("after_also")
_FOR_ALSO_OF_NO_PLANT = _LISTED.words("for_also_of_no_plant")


def also_of_no_plant(lattice: Lattice, p: Phrase) -> bool:
    """`p2 also`, `plant two likewise`: the same as the plant before, where nothing but the label stands before it and no
    more is told behind it; anywhere else (`p2 also has pods`, `five as well`) it is only a word of talk."""
    i = p.start - 1
    while i >= 0 and text(lattice, i) in _FOR_ALSO_OF_NO_PLANT:
        i -= 1
    first = next((k for k in range(max(0, i - 3), i + 1) if kinds(lattice, k) & _NAMES_ONE), None)
    number = i > 0 and bool(kinds(lattice, i) & {"INT", "LETTER", "ORD"})
    number = number and not kinds(lattice, i - 1) & {"INT"}  # plant two five as well
    number = number and not (first is not None and kinds(lattice, first - 1) & {"ORD"})  # fourth plant 8 as well
    labelled = (first is not None and first < i and number) or any(
        e.kind == "BARE" and i < e.end <= p.start for k in range(max(0, i - 8), i + 1) for e in lattice.edges[k]
    )
    ended = p.end >= len(lattice.pieces) or lattice.pieces[p.end].form == "nl" or text(lattice, p.end) in _AFTER_ALSO
    labelled = labelled or _an_ordinal_heads(lattice, i)  # Third, likewise
    return not labelled or not (ended or bool(kinds(lattice, p.end) & {"PLANT", "PLETTER", "HASH"}))


def _an_ordinal_heads(lattice: Lattice, i: int) -> bool:
    """The ordinal at piece i stands at the head of a sentence or a line."""
    k = i - 1 - (text(lattice, i - 1) in {"the", "and", "then"})
    head = k < 0 or lattice.pieces[k].form == "nl" or text(lattice, k) in {".", ";"}
    return i >= 0 and head and "ORD" in kinds(lattice, i)


_FOR_EACH_HAS_ONE = _COMMON.words("having") | {"each", "every"}


def each_has_one(lattice: Lattice, p: Phrase) -> bool:
    """`each of them has one tan pod`, `every one had two flowers`: a count of what they have, and none of the plants."""
    words = {text(lattice, i) for i in range(p.start, p.end)}
    return p.path[-1][1].kind == "INT" and bool(words & _FOR_EACH_HAS_ONE)


def not_others(lattice: Lattice, p: Phrase) -> bool:
    """`the other side`, `other 2`: only `others`, `the others` are the rest of the plants."""
    return text(lattice, p.end - 1) != "others"


_FOR_VERB_BETWEEN = _LISTED.words("for_verb_between")


def verb_between(lattice: Lattice, p: Phrase) -> bool:
    """`on the six plants I got 8, 8, 9 and 9 trifs`: counts, and no labels."""
    if p.path[0][1].kind not in {"PLANT", "PLANTSND"}:
        return False
    first = next((at for at, e in p.path if e.kind in {"INT", "INTSOUND"}), p.start)
    return any(text(lattice, x) in _FOR_VERB_BETWEEN for x in range(p.path[0][1].end, first))


def more_than_are_walked(lattice: Lattice, p: Phrase) -> bool:
    """`stand is 118k plants`: a stand, and no plants that were looked at."""
    return any(e.kind == "INT" and int(e.means) >= _A_STAND for _, e in p.path)


_A_STAND = 1000


def on_plants(lattice: Lattice, p: Phrase) -> bool:
    """`trifs on 1-5: 8 8 9 9 10`: plants, and no day."""
    before = kinds(lattice, p.start - 2) if p.start >= 2 else set()
    return text(lattice, p.start - 1) in {"on", "for"} and bool(
        before & {"TRIF", "TRIPS", "NODES", "FLOWER", "POD", "SEED"}
    )


def so_many_at_once(lattice: Lattice, p: Phrase) -> bool:
    """`next one eleven`: the next plant, and no eleven plants."""
    if any("HAS" in kinds(lattice, x) or text(lattice, x) in {"is", "was"} for x in range(p.start, p.path[-1][0])):
        return True  # the next had 9
    return any(text(lattice, x) == "one" for x in range(p.start, p.path[-1][0])) or (
        any(e.kind == "INT" and int(e.means) > 10 for _, e in p.path)
    )


_PLURAL = _COMMON.words("plants") | {"pts"}
_BEHIND_NOT_ALL_COMMAS = (
    _COMMON.words("being")
    | _COMMON.words("having")
    | _COMMON.words("all")
    | _COMMON.words("each")
    | {":", "at", "same"}
)


def not_all_commas(lattice: Lattice, p: Phrase) -> bool:
    """`plant one, two, three all have nine trifs`, and no `plant 1 12 13`."""
    pieces = [at for at, e in p.path if e.kind in {"INT", "INTSOUND"}]
    ends = [e.end for _, e in p.path if e.kind in {"INT", "INTSOUND"}]
    apart = all(text(lattice, end) == "," and nxt == end + 1 for end, nxt in zip(ends, pieces[1:], strict=False))
    values = [int(e.means) for _, e in p.path if e.kind in {"INT", "INTSOUND"}]
    one_by_one = all(b == a + 1 for a, b in pairwise(values)) and ends[:-1] == pieces[1:]
    apart = apart or (one_by_one and text(lattice, p.start) in {"plants", "plts"})  # plants 3 4 5
    counted = kinds(lattice, p.end) & {
        "TRIF",
        "TRIPS",
        "NODES",
        "NODE",
        "INCH",
        "MM",
        "CM",
        "PCT",
        "OF",
        "OUTOF",
        "SLASH",
    }
    plural = text(lattice, p.start) in _PLURAL or (
        len(text(lattice, p.start)) <= 2 and lattice.pieces[p.start + 1].glued and values[0] < 10
    )
    if apart and plural and not counted and all(a < b for a, b in pairwise(values)):
        return False  # plants 1, 3, 5 fl; p4,5 8tf
    return not apart or text(lattice, p.end) not in _BEHIND_NOT_ALL_COMMAS


def said_of_one(lattice: Lattice, p: Phrase) -> bool:
    """`next one eleven, same on the flowers`: a count, and no plant eleven."""
    return text(lattice, p.start - 1) == "one" or text(lattice, p.end) in {"on", "for"}


def count_of_a_label(lattice: Lattice, p: Phrase) -> bool:
    """`no.2, 8 do.`, `p2 8 ditto`: eight of what the plant before has, behind a label; no plant eight."""
    i = p.start - (text(lattice, p.start - 1) == ",")
    counted = len(p.path) == 2 and p.path[0][1].kind == "INT" and p.path[1][1].kind == "DITTO"
    return counted and _behind_a_label(lattice, i)


_FOR_SAME_PLACE = _LISTED.words("for_same_place")


def same_place(lattice: Lattice, p: Phrase) -> bool:
    """`half inch, same four nodes`, `same node`, `same spot`: where on the plant, and no plant like the last."""
    i = p.end + ("INT" in kinds(lattice, p.end))
    return text(lattice, i) in _FOR_SAME_PLACE


def before_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`same as the first`: which plant it is like is said behind it."""
    i = p.end
    while text(lattice, i) in {"the", "on"}:
        i += 1
    said = {text(lattice, x) for x in range(p.start, p.end)}
    return bool(said & {"as", "like"}) and "ORD" in kinds(lattice, i)


def like_count(lattice: Lattice, p: Phrase) -> bool:
    """`like thirty percent`, `like 1/4 in`, `like 2 leafhoppers`: about so much, and no plant."""
    return p.path[0][1].kind == "LIKE" and (
        before_count(lattice, p)
        or bool(kinds(lattice, p.end) & {"INSECT", "WEED", "DISEASE"})
        or (text(lattice, p.end) == "/" and lattice.pieces[p.end].glued)
    )


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


def apart_from_plant(lattice: Lattice, p: Phrase) -> bool:
    """`tf 8, plt 2: ...`: the number is of what stands before it, and a label follows."""
    at, end = p.path[-1][0], p.path[-1][1].end
    marked = kinds(lattice, end) & {"HASH", "NODOT"} or kinds(lattice, at) & {"NUMBERW"}  # 95, plant # 3
    while kinds(lattice, end) & {"HASH", "NODOT", "NUMBERW"}:
        end += 1
    if "INT" not in kinds(lattice, end):
        return False
    return bool(marked) or (text(lattice, at - 1) in {",", ";"} and text(lattice, at) not in _MANY)


_BEHIND_NEXT_PLANT = _LISTED.words("behind_next_plant")


def next_plant(lattice: Lattice, p: Phrase) -> bool:
    """`next one is the same way`: where no name stands behind it, the next plant."""
    at = p.start + (text(lattice, p.start) == "the")
    return (
        text(lattice, at) in {"next", "last"}
        and text(lattice, at + 1) in {"one", "plant"}
        and text(lattice, at + 2) not in _BEHIND_NEXT_PLANT
    )


_BEHIND_SOME_OF_THEM = _COMMON.words("them")


def some_of_them(lattice: Lattice, p: Phrase) -> bool:
    """`ten plants pulled seven of them flowering`: seven are a share of the ten."""
    return text(lattice, p.end) == "of" and text(lattice, p.end + 1) in _BEHIND_SOME_OF_THEM


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


def label_behind(lattice: Lattice, p: Phrase) -> bool:
    """`are two plant three`, `6/9 pl 5/16`: the plant is the next one, or a planting."""
    at, end = p.path[-1][0], p.path[-1][1].end
    if text(lattice, at) in _MANY:  # bottom eighty plants 1 and 2
        listed = "INT" in kinds(lattice, end) and text(lattice, end + 1) in {"and", "&", "thru", "through", "-"}
        return listed and text(lattice, end) in {"1", "one"} and "INT" in kinds(lattice, end + 2)
    if not kinds(lattice, end) & {"INT", "INTSOUND"}:
        return False
    return text(lattice, at) in {"plant", "bean"} or text(lattice, end + 1) in {"/", "-"}


_FOR_OF_THE_LABEL = _COMMON.words("being") | {":", "at"}


def of_the_label(lattice: Lattice, p: Phrase) -> bool:
    """`plt 2: tf x 9`: the number of the plant."""
    if p.path[0][1].kind != "INT" or not p.start:
        return False
    if text(lattice, p.start - 1) == "p" and lattice.pieces[p.start].glued:
        return True  # p1 trifs was 8
    labelled = bool(kinds(lattice, p.start - 1) & {"PLANT", "PLETTER", "HASH"})
    if labelled and p.path[0][1].means == 1 and p.end == p.start + 2 and text(lattice, p.start + 1).endswith("s"):
        return True  # plant one trifs too curled to see
    said = p.end
    while text(lattice, said) in _FOR_OF_THE_LABEL:
        said += 1
    if said > p.end and "INT" in kinds(lattice, said) and labelled:
        return True  # plant three trifs are at nine
    return text(lattice, p.path[0][1].end) == ":" and labelled


def past_the_first(lattice: Lattice, p: Phrase) -> bool:
    """`the same as the first, and the fourth plant had 8`: like the first, and then another plant."""
    at = next((e.end for _, e in p.path if e.kind in {"SAMEAS", "LIKE"}), None)
    last = max((i for i, _ in p.path), default=0)
    if at is None:
        return False
    if p.path[-1][1].kind == "PLANT" and kinds(lattice, p.end) & {"INT", "INTSOUND"}:
        return True  # like the first plant four five trips
    taken = {i for i, e in p.path if e.kind == "ORD"}
    named = max(taken, default=last)  # like the first the fifth one five trips
    return any("ORD" in kinds(lattice, x) and x not in taken for x in range(at, named)) or any(
        "ORD" in kinds(lattice, x) for x in range(at, last) if text(lattice, x + 1) in {",", "."}
    )


def ditto_and_next(lattice: Lattice, p: Phrase) -> bool:
    """`plant two ditto plant three ...`: the next plant; `plant five ditto plant four`: the one that it is like."""
    if p.path[0][1].kind != "DITTO":
        return False
    named = next((int(e.means) for _, e in p.path if e.kind in {"INT", "INTSOUND"}), 0)
    for i in range(p.start - 1, max(0, p.start - 40), -1):
        here = next((int(e.means) for e in lattice.edges[i] if e.kind == "INT" and isinstance(e.means, int)), None)
        numbered = kinds(lattice, i - 1) & {"PLANT", "PLETTER", "HASH", "NUMBERW"}
        if here is not None and (numbered or (text(lattice, i - 1) == "." and "NODOT" in kinds(lattice, i - 2))):
            return here <= named
        bare = next((e.means[-1] for e in lattice.edges[i] if e.kind == "BARE"), "")
        if bare.isdigit():
            return int(bare) <= named  # Fourth: ditto number 1
    return True


def ditto_then_an_ordinal(lattice: Lattice, p: Phrase) -> bool:
    """`second ditto, third 10 trifs`: the next plant; `third: ditto the first.`: the one that it is like."""
    if p.path[0][1].kind != "DITTO":
        return False
    at = next((i for i, e in p.path if e.kind == "ORD"), p.end)
    together = all(text(lattice, i) == "the" for i in range(p.path[0][1].end, at))
    ends = p.end >= len(lattice.pieces) or lattice.pieces[p.end].form == "nl" or text(lattice, p.end) in _AFTER_ALSO
    return not (together and ends)


_THEY = _LISTED.words("they")


def of_the_next_plant(lattice: Lattice, p: Phrase) -> bool:
    """`the third is rolled like a cigar second plant two`: the number is the next plant's; `on the second they're still
    folded`: leaves of the second plant."""
    words = {text(lattice, x) for x in range(p.start, p.end)}
    if text(lattice, p.start - 1) == "the" and text(lattice, p.start - 2) == "on" and words & _THEY:
        return True
    return p.path[-1][1].kind == "ORD" and bool(kinds(lattice, p.end) & {"PLANT", "PLETTER"})


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


_BEHIND_SKIPPED_A_LEAF = _COMMON.words("the_or_a")


def skipped_a_leaf(lattice: Lattice, p: Phrase) -> bool:
    """`wait, I skipped a leaf, make that twelve`: no field that was skipped."""
    if text(lattice, p.start) not in {"skipped", "skip", "missed"} or p.end != p.start + 1:
        return False
    at = p.end + (text(lattice, p.end) in _BEHIND_SKIPPED_A_LEAF)
    return bool(kinds(lattice, at) & {"LEAF", "TRIF", "NODE", "NODES"})


_OF_A_PLANT = frozenset({"EMERGED", "NOTUP", "TRIF", "UNI", "COT", "FLOWER", "POD", "SEED", "NODES", "ROLLED"})


_NTH = _COMMON.words("nth")


def _staged(lattice: Lattice, i: int) -> bool:
    """A stage stands at piece i."""
    code = bool(kinds(lattice, i) & {"R", "V"}) and any(e.kind == "INT" for e in lattice.edges[i + 1 : i + 2][0])
    return code or "STAGENAME" in kinds(lattice, i)


def of_a_plant(lattice: Lattice, p: Phrase) -> bool:
    """`first one is up`: a plant, and no way to a field."""
    words = {text(lattice, x) for x in range(p.start, p.end)}
    if "one" in words and kinds(lattice, p.end) & {"SAMEAS", "SAME"}:
        return True  # the fourth one is the same as plant two
    one = "one" in words and text(lattice, p.end - 1) in {"is", "'s", "was"}
    if one and text(lattice, p.start) in _NTH and _staged(lattice, p.end):
        return True  # first one is V3
    return one and bool(kinds(lattice, p.end) & _OF_A_PLANT) and "FIELDNOUN" not in kinds(lattice, p.end + 1)


def of_a_stage(lattice: Lattice, p: Phrase) -> bool:
    """`plant three R5 same as one`: the number of a stage, and no plant."""
    return text(lattice, p.start - 1) in {"r", "v"}


def next_node(lattice: Lattice, p: Phrase) -> bool:
    """`top two nodes bare, next one down has a bloom`: the next node, and no plant."""
    i = p.end - 1 if text(lattice, p.end - 1) in {"down", "up"} else p.end
    i += text(lattice, i) in {"one", "node"}
    if text(lattice, i) not in {"down", "up", "below"}:
        return False
    k = p.start - 1
    while k >= 0 and lattice.pieces[k].form != "nl" and text(lattice, k) not in {".", ";"}:
        if kinds(lattice, k) & {"NODE", "NODES"}:
            return True
        k -= 1
    return False


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


def ditto_of_no_row(lattice: Lattice, p: Phrase) -> bool:
    """`D  ditto A`, `3  do. 1` alone on its line behind a label: another plant; `ditto a pod`, `ditto 12 trifs` are not."""
    if p.path[0][1].kind != "DITTO":
        return False
    k, steps = p.start, 0
    while k > 0 and lattice.pieces[k - 1].form != "nl":
        k, steps = k - 1, steps + 1
    alone = (
        p.end >= len(lattice.pieces) or lattice.pieces[p.end].form == "nl" or text(lattice, p.end) in {".", ",", ";"}
    )
    return not (1 <= steps <= _LABEL_AT_MOST and alone)


def on_all_of_them(lattice: Lattice, p: Phrase) -> bool:
    """`no brown pods on any`: the word belongs to the group that is named behind."""
    return p.end - p.start > 1 and text(lattice, p.end - 1) == "on" and bool(_GROUPS & kinds(lattice, p.end - 1))


def plan_for_plant(lattice: Lattice, p: Phrase) -> bool:
    """`plan to nine trifs`: heard for plant two, and no plan."""
    if [text(lattice, x) for x in range(p.start, p.end)] != ["plan", "to"]:
        return False
    return (
        any(
            e.kind == "INT" and kinds(lattice, e.end) & {"TRIF", "TRIPS", "NODE", "NODES"} for e in lattice.edges[p.end]
        )
        if p.end < len(lattice.edges)
        else False
    )


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


def listed(lattice: Lattice, p: Phrase) -> bool:
    """`plants, 4 R3`; `1 plant: 4 trifs`: what is counted stands behind the mark."""
    before = p.start - 1
    return any(
        text(lattice, at) == "," or (text(lattice, at) == ":" and before >= 0 and lattice.pieces[before].form == "int")
        for at in range(p.start, p.path[-1][0])
    )


def so_many_plants(lattice: Lattice, p: Phrase) -> bool:
    """`split 10 plants: 4 R3, 6 R2`; `plants 3 of 10`."""
    i = p.start
    if text(lattice, i) not in _MANY:
        return False
    if kinds(lattice, p.end) & {"OF", "OUTOF"}:
        return True
    counted = any(e.kind == "INT" and e.end == i for j in range(max(0, i - 3), i) for e in lattice.edges[j])
    if text(lattice, i + 1) in {"1", "one"}:
        return False  # bottom eighty plants 1 and 2
    return counted and text(lattice, i - 2) not in {"/", "-"}


_SAMPLE = _LISTED.words("sample")
_FEWEST_PODS = 5  # that are counted


def sample_of_pods(lattice: Lattice, p: Phrase) -> bool:
    """`hand sample 20 pods, 14 brown`: so many pods, and no plant 20; `sample 3 pods 1/4 in.`, `sample 5 ... sample 6 pods` are
    plants."""
    if text(lattice, p.start) not in _SAMPLE or not kinds(lattice, p.end) & {"POD"}:
        return False
    many = next((int(e.means) for _, e in p.path if e.kind == "INT"), 0)
    behind = p.end + 1
    over = behind >= len(lattice.pieces) or lattice.pieces[behind].form in {"mark", "nl"}
    alone = sum(x.text in _SAMPLE for x in lattice.pieces) == 1
    return many >= _FEWEST_PODS and over and alone


def of_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`plant three, and thirty of forty tan`: the last number is a share, and no plant."""
    return bool(kinds(lattice, p.end) & {"OF", "OUTOF"}) and any(
        e.kind == "INT" for x in lattice.edges[p.end] if x.kind in {"OF", "OUTOF"} for e in _edges_at(lattice, x.end)
    )


def _edges_at(lattice: Lattice, i: int) -> list[Edge]:
    return lattice.edges[i] if 0 <= i < len(lattice.edges) else []


_BEFORE_SO_TALL = _LISTED.words("before_so_tall")


def so_tall(lattice: Lattice, p: Phrase) -> bool:
    """`height of plants 24 in.`, `plants 30" tall`: how tall they are, and no plant 24."""
    if not kinds(lattice, p.end) & {"INCH", "CM", "FOOT"}:
        return False
    of = {text(lattice, i) for i in range(max(0, p.start - 3), p.start)} & _BEFORE_SO_TALL
    return text(lattice, p.start) in _MANY or bool(of) or text(lattice, p.end + 1) in {"tall", "high"}


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


def letters_of_many(lattice: Lattice, p: Phrase) -> bool:
    return text(lattice, p.start) in _MANY


def numbers_of_one(lattice: Lattice, p: Phrase) -> bool:
    """`here are the numbers 8`: only of several plants are there `numbers 1, 2 and 6`."""
    return text(lattice, p.start) == "numbers" or text(lattice, p.start + 1) == "numbers"


_I_DO = _LISTED.words("i_do")


def i_who_talks(lattice: Lattice, p: Phrase) -> bool:
    """`second plant I get nine trifs`: who counts, and no plant I."""
    return text(lattice, p.end - 1) == "i" and text(lattice, p.end) in _I_DO


_BEFORE_OF_A_SPLIT = _LISTED.words("before_of_a_split")


def of_a_split(lattice: Lattice, p: Phrase) -> bool:
    """`a hail-split one`, `a split one`: how the pod is, and no plants that were split open."""
    split = lattice.at(p.start) == "split" and lattice.pieces[p.end - 1].text == "one"
    return split and lattice.at(p.start - 1) in _BEFORE_OF_A_SPLIT


def no_sample(lattice: Lattice, p: Phrase) -> bool:
    """`I pulled`; `the plant I pulled had seven`; `3 4 sampled`."""
    if any(e.how == "figure" for _, e in p.path):
        return True
    by_hand = "pulled" in {text(lattice, p.start), text(lattice, p.start + 1)} and p.path[-1][1].kind == "INT"
    if by_hand and "WEED" in kinds(lattice, p.end):
        return True  # pulled 20 waterhemp by hand
    first = p.path[0][1]
    if first.kind == "SAMPLED" and text(lattice, first.end) == "," and kinds(lattice, p.start - 1) & {"PLANT", "INT"}:
        return True  # 15 plants looked at, 9 have ...
    if first.kind == "SAMPLED":
        return any("HAS" in kinds(lattice, x) for x in range(first.end, p.path[-1][0]))
    return first.kind == "INT" and "INT" in kinds(lattice, p.end)


def bean_by_number(lattice: Lattice, p: Phrase) -> bool:
    """`bn2 .22`: a bean with its number at it is a plant, and no seed."""
    k = p.start + 1
    figure = lattice.pieces[k] if k < len(lattice.pieces) else None
    return text(lattice, p.start) in {"bn", "bean"} and figure is not None and figure.form == "int" and figure.glued


_WHO_LOOKS = _LISTED.words("who_looks")


def dug_to_look(lattice: Lattice, p: Phrase) -> bool:
    """`dug up a plant, 6 nodes`: no damage."""
    return own_digging(lattice, p.start, p.end)


_BEHIND_OWN_DIGGING = _LISTED.words("behind_own_digging")


def own_digging(lattice: Lattice, start: int, end: int) -> bool:
    """`dug up a plant`, `I dug up two plants`: the scout's own sample."""
    if text(lattice, start) != "dug":
        return False
    i = start - 1
    while text(lattice, i) in _WHO_LOOKS:
        i -= 1
    if i >= 0 and lattice.pieces[i].form not in {"mark", "nl"}:
        return False  # coons dug up plants
    a = end + (text(lattice, end) in _BEHIND_OWN_DIGGING)
    many = next((e.end for e in lattice.edges[a] if e.kind == "INT"), a) if a < len(lattice.edges) else a
    return many > end and bool(kinds(lattice, many) & {"PLANT", "PLANTSND"} or text(lattice, many) == "roots")


def no_bean_label(lattice: Lattice, p: Phrase) -> bool:
    """`Bean three, seed an eighth`: a plant; `beans 3` are not."""
    if p.path[0][1].kind != "BEAN" or len(p.path) > 2:
        return False
    before = lattice.pieces[p.start - 1] if p.start else None
    begins = before is None or before.form in {"nl", "mark"}
    glued = lattice.pieces[p.start + 1].glued and not text(lattice, p.start).endswith("s")  # bn1 .25 pod
    told = text(lattice, p.start) == "bean" and text(lattice, p.end) in {",", ":", "has", "had"}
    return not (begins and (glued or told))


_WHOSE = _LISTED.words("whose")
_BEHIND_A_THRESHOLD = _COMMON.words("being") | {":", "=", "for", "to"}


def a_threshold(lattice: Lattice, p: Phrase) -> bool:
    """`our number is 20 so we hold off`, `the number to spray is 250`: from how many on something is done, and no plant."""
    first = p.path[0][1]
    if first.kind != "NUMBERW" or text(lattice, p.start - 1) not in _WHOSE:
        return False
    return text(lattice, first.end) in _BEHIND_A_THRESHOLD


def page(lattice: Lattice, p: Phrase) -> bool:
    """`MG 3.1      p. 2`: a page's number."""
    return text(lattice, p.start) == "p" and text(lattice, p.start + 1) == "." and not no_page(lattice, p)


_SAMPLED_OF = _LISTED.words("sampled_of")
_GONE = _LISTED.words("gone")
_SHORTLY = 5  # pieces behind the numbers


def sent_in(lattice: Lattice, p: Phrase) -> bool:
    """`Tissue samples 1 thru 4 sent in`, `samples 1 and 2 to the lab`: what went to a laboratory, and no plants."""
    if not text(lattice, p.start).startswith(("sample", "specimen")):
        return False
    behind: list[str] = []
    for i in range(p.end, min(p.end + _SHORTLY, len(lattice.pieces))):
        if lattice.pieces[i].form == "nl" or text(lattice, i) in {".", ",", ";", ":"}:
            break
        behind.append(text(lattice, i))
    return text(lattice, p.start - 1) in _SAMPLED_OF or bool(_GONE & set(behind))


_COUNTED_BEHIND = frozenset({"PLANT", "TRIF", "TRIPS", "NODE", "NODES", "INCH", "MM", "FOOT", "PCT"})


def like_an_article(lattice: Lattice, p: Phrase) -> bool:
    """`rolled up like a cigar`: what it looks like, and no plant a."""
    if lattice.original(p.end - 1, p.end) != "a" or p.end >= len(lattice.pieces):
        return False
    nxt = lattice.pieces[p.end]
    figure = nxt.form == "int" and text(lattice, p.end - 2) != "as"  # plant c same as a 14 trifs
    return figure or (nxt.form == "word" and not lattice.known[p.end])


def a_letter_behind(lattice: Lattice, p: Phrase) -> bool:
    """`plant C: same as A but 14 mm`: the letter is the plant that it is like, and no small word."""
    letter = text(lattice, p.end) if p.end < len(lattice.pieces) else ""
    if len(letter) != 1 or "LETTER" not in kinds(lattice, p.end):
        return False
    if text(lattice, p.end - 1) not in {"as", "like"} and not lattice.original(p.end, p.end + 1).isupper():
        return False
    named = any(
        text(lattice, i) == letter and ("BARE" in kinds(lattice, i) or kinds(lattice, i - 1) & {"PLANT", "PLETTER"})
        for i in range(1, p.start)
    )
    return named and not like_an_article(lattice, Phrase(p.start, p.end + 1, p.rule, p.form, p.path, 0.0))


_FOR_LIKE_A_LENGTH = _LISTED.words("for_like_a_length")


def like_a_length(lattice: Lattice, p: Phrase) -> bool:
    """`they're like an eighth of an inch`, `like a quarter inch`: how long, and no plant eight."""
    if not any(e.kind in {"LIKE", "SAMEAS"} and text(lattice, at) == "like" for at, e in p.path):
        return False
    behind = [text(lattice, x) for x in range(p.end, min(p.end + 4, len(lattice.pieces)))]
    units = _FOR_LIKE_A_LENGTH
    return (
        bool(units & set(behind[:1]))
        or (behind[:1] == ["of"] and bool(units & set(behind)))
        or (text(lattice, p.end - 1) in {"a", "an"} and bool(units & set(behind[:2])))
    )


def like_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`looks like six plants to the foot`: a count, and no plant six."""
    named = {e.kind for _, e in p.path} & {"PLANT", "PLETTER", "HASH", "NUMBERW", "NODOT"}
    next_plant = text(lattice, p.end) == "plant" and "INT" in kinds(lattice, p.end + 1)  # same as one | plant four
    return not named and not next_plant and bool(kinds(lattice, p.end) & _COUNTED_BEHIND)


def as_well(lattice: Lattice, p: Phrase) -> bool:
    """`third node down as well plant three`: as well is also."""
    return any(e.kind == "AS" and text(lattice, at + 1) == "well" for at, e in p.path)


def letter_behind_a_label(lattice: Lattice, p: Phrase) -> bool:
    """`3  P 45  bloom`, `#3  n9`: the row has its label, and the letter behind it is a sign of what the figure is; `3  p1` is
    the first plant of stop 3."""
    at = next((i for i in range(p.start, p.end) if text(lattice, i) in {"p", "n"}), p.end)
    if at == p.end:
        return False
    if lattice.original(at, at + 1) == "n" and not (at + 1 < p.end and lattice.pieces[at + 1].glued):
        return False  # pl 1 n 2 flowering
    numbers = [text(lattice, i) for i in range(at, p.end) if lattice.pieces[i].form == "int"]
    head = at
    while head and lattice.pieces[head - 1].form != "nl":
        head -= 1
    before = [
        text(lattice, i) for i in range(head, at) if text(lattice, i) not in {"#", ".", ")", ":", "plant", "pl", "plt"}
    ]
    return len(before) == 1 and before[0].isdigit() and bool(numbers) and numbers[0] not in {"1", before[0]}


def nought(lattice: Lattice, p: Phrase) -> bool:
    """`P0 Miller`, `p0 ten trifs`: no plant goes by nought."""
    return text(lattice, p.end - 1) == "0" and "PLETTER" in {e.kind for _, e in p.path}
