"""Stages: what looks like one stated and is none."""

from __future__ import annotations

import re

from notesparse.language.cues import cue_page
from notesparse.lazy import pattern
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/stages")
_COMMON = cue_page("shared")

_BEFORE_A_STAGE = _LISTED.words("before_a_stage")
_HOW = _LISTED.words("how")
_TIMED = _LISTED.words("timed")
_BEFORE_ON_THE_SO_MANY = _LISTED.words("before_on_the_so_many")


def on_the_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`no blooms anywhere on the three`: so many plants, and no stage."""
    only = any(text(lattice, i) == "only" for i in range(p.start, p.end))  # plant 1 is the only one with flowers
    return only or text(lattice, p.start - 1) in _BEFORE_ON_THE_SO_MANY


def the_first_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`not a bloom on the first four`: plants, and no V4."""
    return any("ORD" in kinds(lattice, i) for i in range(p.start + 1, p.end - 1))


_SAYS_WHICH = _COMMON.words("opens_a_clause")


def the_one_that(lattice: Lattice, p: Phrase) -> bool:
    """`the one i opened had seed`: a plant or a pod, and no V1."""
    return text(lattice, p.end - 1) in {"one", "1"} and text(lattice, p.end) in _SAYS_WHICH


_BEFORE_THE_FIRST_ONE = _COMMON.words("nth") | {"last", "one"}


def the_first_one(lattice: Lattice, p: Phrase) -> bool:
    """`except the first one R1`: a plant and its stage, and no V1."""
    return text(lattice, p.start) == "the" and text(lattice, p.start + 1) in _BEFORE_THE_FIRST_ONE


_STAGE = _COMMON.words("stage")
_SO_MANY = _LISTED.words("so_many")


def of_so_many_plants(lattice: Lattice, p: Phrase) -> bool:
    """`R stage, 4 plants each`, `V stage of 6 plants`: what the figures below are, and how many were looked at."""
    headed = any(text(lattice, i) in _STAGE for i in range(p.start, p.end))
    return headed and text(lattice, p.end) in _SO_MANY


_BEFORE_NO_STAGE_HEARD = _LISTED.words("before_no_stage_heard")
_BEHIND_NO_STAGE_HEARD = _LISTED.words("behind_no_stage_heard")


def no_stage_heard(lattice: Lattice, p: Phrase) -> bool:
    """`we are seven days past`, `there are three more`: heard as R7 it would be no stage."""
    if text(lattice, p.end) in _TIMED:
        return True  # R3 spray, R3 fungicide
    if len(p.path) > 1 and p.path[0][1].kind == "RSOUND" and p.path[1][0] > p.path[0][1].end:
        return True  # trifs are at 8
    first = p.path[0][1]
    if several(lattice, p):
        return True
    if text(lattice, p.start) not in {"are", "our", "or"} or first.kind not in {"R", "RSOUND"}:
        return False
    if text(lattice, p.start) == "or" and text(lattice, p.start - 1) == "?":
        return True  # R2 ?? or 1
    if text(lattice, p.start) == "or" and _as_seen(lattice, p):
        return False
    if text(lattice, p.start) == "or" and p.start and text(lattice, p.start - 1) not in _BEFORE_A_STAGE:
        return lattice.pieces[p.start - 1].form in {"word", "int"}  # a bud or two, one or two V5s
    noun = p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "word" and not lattice.known[p.end]
    if noun and not lattice.filler[p.end] and p.start and not lattice.known[p.start - 1]:
        return True  # boots are two sizes too big
    return text(lattice, p.start - 1) in _BEFORE_NO_STAGE_HEARD or (
        text(lattice, p.end) in _BEHIND_NO_STAGE_HEARD
        and not (text(lattice, p.end) == "other" and "INT" in kinds(lattice, p.end + 1))  # our three, other two R2
    )


_SEEN_AT = {"brown": ("7", "8"), "mature": ("7", "8"), "tan": ("7", "8"), "touching": ("6",)}


def _as_seen(lattice: Lattice, p: Phrase) -> bool:
    """`all the pods brown or eight.`: behind what is seen at that stage, at the end of the clause: R8; and no number
    beside another, `seven pods brown or eight`."""
    stages = _SEEN_AT.get(text(lattice, p.start - 1), ())
    number = next((str(e.means) for _, e in p.path if e.kind in {"INT", "INTSOUND"}), "")
    ends = (
        p.end >= len(lattice.pieces) or lattice.pieces[p.end].form in {"mark", "nl"} or text(lattice, p.end) == "plant"
    )
    if number not in stages or not ends:
        return False
    near = (e for i in range(max(0, p.start - 4), p.start) for e in lattice.edges[i] if e.kind == "INT")
    return not any(abs(int(e.means) - int(number)) == 1 for e in near)


_BEHIND_A_NAME_OF_LETTERS = _LISTED.words("behind_a_name_of_letters")


def a_name_of_letters(lattice: Lattice, p: Phrase) -> bool:
    """`R2D2`: letters and figures that go on."""
    after = p.end
    pieces = lattice.pieces
    return (
        after + 1 < len(pieces)
        and pieces[after].glued
        and pieces[after].form == "word"
        and len(pieces[after].text) == 1
        and pieces[after].text not in _BEHIND_A_NAME_OF_LETTERS
        and pieces[after + 1].glued
        and pieces[after + 1].form == "int"
    )


_TIRE = pattern(
    r"[a-z]{0,2}\d{2,3}(?:\.\d{1,2}r\d\d|/\d{2,3}r\d\d(?:\.5)?|r\d\d(?:\.5|(?=s))|r\d\d(?=\W+(?:tires?|rims?|rubber|steers?|drives?)\b))s?(?![\w/])",
    re.IGNORECASE,
)
_LONGEST_SIZE = 10  # characters before the r of a tire's size


def of_a_tire(lattice: Lattice, p: Phrase) -> bool:
    """`11R22s`, `320/90R46`, `18.4R38`: the size of a tire."""
    at = lattice.pieces[p.start]
    if not at.glued or at.text != "r":
        return False
    head = re.search(r"[\w./]*$", lattice.text[max(0, at.span.start - _LONGEST_SIZE) : at.span.start])
    return head is not None and _TIRE.match(lattice.text, at.span.start - len(head.group())) is not None


_ROADS = _COMMON.words("road")
_BESIDE_A_ROAD = _LISTED.words("beside_a_road")
_BEFORE_OF_A_ROAD = _LISTED.words("before_of_a_road")


def of_a_road(lattice: Lattice, p: Phrase) -> bool:
    """`the R2 Road gate is open`, `drove out V5 road`: how the road is called; `R3 road side` is a place at it."""
    if text(lattice, p.end) not in _ROADS or not lattice.pieces[p.end - 1].glued:
        return False
    called = text(lattice, p.start - 1) in _BEFORE_OF_A_ROAD or lattice.original(p.end, p.end + 1).istitle()
    return called and text(lattice, p.end + 1) not in _BESIDE_A_ROAD


_BEHIND_BEFORE_YOU_KNOW = _LISTED.words("behind_before_you_know")


def before_you_know(lattice: Lattice, p: Phrase) -> bool:
    """`be R1 before you know it`: it is not there yet."""
    return text(lattice, p.start - 1) == "be" and text(lattice, p.end) in _BEHIND_BEFORE_YOU_KNOW


_WHAT_COMES = _LISTED.words("what_comes")


def before(lattice: Lattice, p: Phrase) -> bool:
    """`b4 sat`, `b4 it rains`, `b4 supper`: before something, and no V4; what no word file knows is no more of a stage."""
    if lattice.original(p.start, p.end) not in {"b4", "B4"}:
        return False
    word = p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "word"
    strange = word and not any(e.how == "exact" for e in lattice.edges[p.end])
    soon = bool(kinds(lattice, p.end) & {"WEEKDAY", "MONTH", "WEATHER"}) or text(lattice, p.end) in _WHAT_COMES
    return soon or (strange and lattice.original(p.start, p.end).islower())


def parted(lattice: Lattice, p: Phrase) -> bool:
    """`B = one brown pod`: a sign and its meaning, and no V1."""
    heard = any(e.kind == "VSOUND" for _, e in p.path)
    return heard and any(text(lattice, i) in {"=", ":"} for i in range(p.start, p.end))


_TO_ANOTHER = _LISTED.words("to_another")
_COUNTED = frozenset({"TRIF", "TRIPS", "NODES"})


def plant_of_a_range(lattice: Lattice, p: Phrase) -> bool:
    """`b 9 or 10 trifs`: a plant and the range of its leaves, and no V9."""
    first = p.path[0][1]
    if first.kind != "VSOUND" or text(lattice, p.start) != "b" or lattice.glued(first.end):
        return False
    at = next((i + 1 for i in (p.end, p.end - 2) if text(lattice, i) in _TO_ANOTHER), None)
    if at is None or at >= len(lattice.edges):
        return False
    return any(e.kind == "INT" and kinds(lattice, e.end) & _COUNTED for e in lattice.edges[at])


def behind_a_star(lattice: Lattice, p: Phrase) -> bool:
    """`*B one tan pod`: plant B put right, and no V1."""
    return p.path[0][1].kind == "VSOUND" and text(lattice, p.start) == "b" and text(lattice, p.start - 1) == "*"


_BEHIND_AN_ENGINE = _LISTED.words("behind_an_engine")


def an_engine(lattice: Lattice, p: Phrase) -> bool:
    """`V10 generator is making a racket`: a word that is not known goes with it, and something is said of that; `took
    the V8, 12 mpg`, `V8 is running rough`, `V6 on the relift is running hot`."""
    at = p.end
    if _driven(lattice, p) or _machine_trouble(lattice, p):
        return True
    if at + 1 >= len(lattice.pieces) or lattice.known[at] or lattice.filler[at] or lattice.pieces[at].form != "word":
        return False
    return lattice.original(at, at + 1).islower() and text(lattice, at + 1) in _BEHIND_AN_ENGINE


_DRIVE = _LISTED.words("drive")
_MOTOR = _LISTED.words("motor")
_FOR_DRIVEN = _COMMON.words("our") | {"old", "that"}
_BEHIND_DRIVEN = _COMMON.words("being") | {"needs"}
_BEHIND_DRIVEN_2 = _LISTED.words("behind_driven_2")


def _driven(lattice: Lattice, p: Phrase) -> bool:
    i = p.start - 1
    owned = text(lattice, i) in _FOR_DRIVEN
    while text(lattice, i) in _FOR_DRIVEN:
        i -= 1
    if owned and text(lattice, i) in _DRIVE:
        return True
    end = p.end
    while end < len(lattice.pieces) and lattice.pieces[end].form != "nl" and text(lattice, end) not in {".", ";"}:
        end += 1
    if text(lattice, p.end) in {"engine", "motor"}:
        return True  # the pump house has a V8 engine
    if text(lattice, i) == "a" and text(lattice, i - 1) in {"has", "off"} and text(lattice, p.end) in {"in", "under"}:
        return True  # the well runs off a V8 in the shed
    if text(lattice, p.end) in _BEHIND_DRIVEN and text(lattice, p.end + 1) in _BEHIND_DRIVEN_2:
        return True
    return owned and bool(_MOTOR & {text(lattice, x) for x in range(p.end, end)})


_MACHINE = _LISTED.words("machine")
_TROUBLE = _LISTED.words("trouble")
_HOW_IT_RUNS = _LISTED.words("how_it_runs")
_FAR_TO_TROUBLE = 9  # pieces


def _machine_trouble(lattice: Lattice, p: Phrase) -> bool:
    """`V6 on the relift is running hot`, `V8 in the truck quit`: where the engine is, and what is wrong with it."""
    if text(lattice, p.end) not in {"in", "on"}:
        return False
    machine = False
    for i in range(p.end + 1, min(p.end + _FAR_TO_TROUBLE, len(lattice.pieces))):
        word = text(lattice, i)
        if lattice.pieces[i].form in {"mark", "nl"} and word not in {"'", "'s"}:
            return False
        machine = machine or word in _MACHINE
        if machine and (word in _TROUBLE or (word in _HOW_IT_RUNS and text(lattice, i - 1) in {"runnin", "running"})):
            return True
    return False


def several(lattice: Lattice, p: Phrase) -> bool:
    """`one or two V5s`: some plants, and no statement."""
    return text(lattice, p.end) == "s" and lattice.pieces[p.end].glued


def heard_as_numbers(lattice: Lattice, p: Phrase) -> bool:
    """`and so are 2 and 3`: plants; `pods on plant 1 are 3/8`: a part of an inch; and no stages."""
    if text(lattice, p.start) not in {"are", "our"}:
        return False
    part = any(e.kind == "FRAC" and e.end == p.end for e in lattice.edges[p.start + 1])
    return part or any(text(lattice, i) == "and" for i in range(p.start, p.end))


_ROW = 24  # pieces back to the words of the count


def heard_in_a_row(lattice: Lattice, p: Phrase) -> bool:
    """`Trifs are two on plant 1, are three on plant 2`: the count again; `so are 2 and 3`: plants; and no stage."""
    if text(lattice, p.start) == "are" and text(lattice, p.start - 1) == "so" and text(lattice, p.end) == "and":
        return True
    if text(lattice, p.start) not in {"are", "our"} or text(lattice, p.end) != "on":
        return False
    i, first = p.start - 1, max(0, p.start - _ROW)
    while i > first and lattice.pieces[i].form != "nl" and text(lattice, i) != ".":
        if text(lattice, i) in {"are", "is"} and kinds(lattice, i - 1) & {"TRIF", "NODES", "NODE"}:
            return True
        i -= 1
    return False


def end_of_a_range(lattice: Lattice, p: Phrase) -> bool:
    """`V7-V8, R1`: V8 is the end of a range; `V9 R1-R2`: so is R1 its beginning."""
    if text(lattice, p.end) in {"-", "–", "to", "/"} and "R" in kinds(lattice, p.end + 1):
        return True
    return text(lattice, p.start - 1) in {"-", "–", "to"} and any(
        e.kind == "V" for i in range(max(0, p.start - 3), p.start - 1) for e in lattice.edges[i]
    )


def questioned(lattice: Lattice, p: Phrase) -> bool:
    return "QUERY" in kinds(lattice, p.end)


_BEHIND_HOW_IT_CAME_UP = _LISTED.words("behind_how_it_came_up")
_FOR_HOW_IT_CAME_UP = _LISTED.words("for_how_it_came_up")


def how_it_came_up(lattice: Lattice, p: Phrase) -> bool:
    """`emergence about 80%`, `emergence good`, `emergence check`: no stage."""
    if text(lattice, p.start) != "emergence" or p.end > p.start + 1:
        return False
    if text(lattice, p.end) in _BEHIND_HOW_IT_CAME_UP:
        return True
    i = p.end
    while text(lattice, i) in _FOR_HOW_IT_CAME_UP:
        i += 1
    return "INT" in kinds(lattice, i) or text(lattice, i) in _HOW


_BECAUSE_OF = _LISTED.words("because_of")


def because(lattice: Lattice, p: Phrase) -> bool:
    """`again bc I doubted myself`: because, and no VC."""
    return p.end == p.start + 1 and text(lattice, p.start) == "bc" and text(lattice, p.end) in _BECAUSE_OF


_FOR_HALF_OF_THE_NEXT = _LISTED.words("for_half_of_the_next")


def half_of_the_next(lattice: Lattice, p: Phrase) -> bool:
    """`half R4, half at R3`: the half is that of what comes next."""
    at = p.end
    while text(lattice, at) in _FOR_HALF_OF_THE_NEXT:
        at += 1
    return any(text(lattice, i) == "," for i in range(p.start, p.end)) or bool(
        kinds(lattice, at) & {"R", "V", "STAGENAME"}
    )


_BEHIND_HALF_OF_OTHERS = _COMMON.words("being_or_having") | {"of", "the"}


def half_of_others(lattice: Lattice, p: Phrase) -> bool:
    """`half of them are R3 half are R2`."""
    return text(lattice, p.end) in _BEHIND_HALF_OF_OTHERS


_BEHIND_OTHERS_THAT_ARE = _LISTED.words("behind_others_that_are")


def others_that_are(lattice: Lattice, p: Phrase) -> bool:
    """`6 were R6 and 8 were R5`, `two are R4 and 3 at R5`: so many others, and no range of stages."""
    joined = [i for i in range(p.start, p.end) if text(lattice, i) in {"and", "or"}]
    last = p.path[-1][0]
    if not joined or kinds(lattice, last - 1) & {"R", "V"}:
        return False
    if kinds(lattice, p.end) & {"R", "V"} and "INT" in kinds(lattice, p.end + 1):
        return True  # seven R3 and four R2
    return text(lattice, p.end) in _BEHIND_OTHERS_THAT_ARE


def half_a_length(lattice: Lattice, p: Phrase) -> bool:
    """`V5 1/2 in. pods`: the half is of a length; `V5 1/2`, and nothing behind it, is of the stage."""
    return bool(kinds(lattice, p.end) & {"INCH", "MM", "CM", "POD", "SEED", "LONG", "PODG", "FOOT"})


def half_a_size(lattice: Lattice, p: Phrase) -> bool:
    """`R4 1/2 in pod 2nd node down`: the half is the size of a pod; `R5 1/2 seed in the top pods` is of the stage."""
    return half_a_length(lattice, p) and "SEED" not in kinds(lattice, p.end)


def written_as_a_name(lattice: Lattice, p: Phrase) -> bool:
    """`Bee Tree: pods ...`: heard as V3 it would have no capital on the number."""
    at, last = p.path[-1]
    word = lattice.original(at, at + 1)
    heard = last.kind == "INTSOUND" or last.how == "sound" or "FIELDNOUN" in kinds(lattice, at)
    return heard and word[:1].isupper() and not word.isupper()


def a_code_with_a_dash(lattice: Lattice, p: Phrase) -> bool:
    """`PANEL B-5    R6`: B heard for V has no dash behind it."""
    first = p.path[0][1]
    return first.kind == "VSOUND" and text(lattice, first.end) == "-"


_BACK_TO_ALL = 6  # pieces from `bar` back to the word for all


_FOR_BAR_SO_MANY = _COMMON.words("all_or_each")


def bar_so_many(lattice: Lattice, p: Phrase) -> bool:
    """`all 8 R4 bar one`: but one, and no R1; `plant 2 bar seven` is R7."""
    before = {text(lattice, i) for i in range(max(0, p.start - _BACK_TO_ALL), p.start)}
    return text(lattice, p.start) == "bar" and bool(before & _FOR_BAR_SO_MANY)


PRINTED = _LISTED.words("printed")


def of_what_is_printed(lattice: Lattice, p: Phrase) -> bool:
    """`dad's R5 calendar on the wall`, `the R3 booklet is in the truck`: a stage to read of, that nothing is at."""
    return text(lattice, p.end) in PRINTED


_BY_NUMBER = _LISTED.words("by_number")
_WAYS = _COMMON.words("road") | _COMMON.words("landmark")
_KEEPERS = _LISTED.words("keepers")
_ALONG_IT = _LISTED.words("along_it")
_NO_GROWTH = _LISTED.words("no_growth")
_CODE = pattern(r"[rv]-?\d+", re.IGNORECASE)
_STILL = _LISTED.words("still")
_BEFORE_NUMBER_OF_A_ROAD = _LISTED.words("before_number_of_a_road")
_BEFORE_NUMBER_OF_A_ROAD_2 = _LISTED.words("before_number_of_a_road_2")
_BEFORE_NUMBER_OF_A_ROAD_3 = _LISTED.words("before_number_of_a_road_3")


def number_of_a_road(lattice: Lattice, p: Phrase) -> bool:
    """`Route R7 is closed`, `took County Road R2 to the field`, `Gate R4 was open`: the number of a way, of a gate or of a
    piece of land, and no stage; `Bluff Road R2` and `by the gate R4` are said of the beans there."""
    way = text(lattice, p.start - 1)
    if way not in _BY_NUMBER and way not in _WAYS:
        return False
    if not _CODE.fullmatch(lattice.original(p.start, p.end)):
        return False
    before = text(lattice, p.start - 2)
    opens = p.start < 2 or lattice.pieces[p.start - 2].form in {"mark", "nl"}
    if before in _KEEPERS:
        return text(lattice, p.start - 3) not in _BEFORE_NUMBER_OF_A_ROAD
    at = p.end
    while text(lattice, at) in _STILL:
        at += 1
    if at > p.end and text(lattice, at) in _NO_GROWTH:
        return True
    if way in {"route", "rte"}:
        return True
    if way in _BY_NUMBER:
        return opens or before in _ALONG_IT | _BEFORE_NUMBER_OF_A_ROAD_2
    return before in _ALONG_IT and text(lattice, p.start - 3) not in _BEFORE_NUMBER_OF_A_ROAD_3


_OURS = _COMMON.words("mine")


def not_ours(lattice: Lattice, p: Phrase) -> bool:
    """`isn't ours, R4`: whose beans these are, and no stage that is not reached."""
    return p.path[0][1].kind == "NOT" and text(lattice, p.path[0][1].end) in _OURS
