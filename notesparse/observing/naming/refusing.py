"""What the words of a stretch must not be, to be a name: a stage, a count, an animal, a way of talking."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import claim_words
from notesparse.observing.naming.candidate import Candidate
from notesparse.observing.naming.happened import happened
from notesparse.observing.naming.oddnames import second_crop
from notesparse.observing.naming.surroundings import (
    OF_FIGURES,
    Surroundings,
    acres_in_words,
    found_before,
    going_on,
    kinds,
    noun_at,
    pass_fillers,
    place_in_turn,
    said_before,
    strength,
    title,
    upper,
)
from notesparse.observing.naming.two_parts import one_of_two_parts
from notesparse.observing.naming.worth import before_its_number
from notesparse.reading.weights import phrase_cost

_LISTED = cue_page("naming/refusing")
_COMMON = cue_page("shared")

FOUND = frozenset({"INSECT", "DISEASE", "WEED", "DAMAGE", "DEFOL", "STANDWORD", "SOILWORD", "WEATHER"})
_COUNTED = frozenset({"stage", "trif", "nodes", "label", "flowers", "pods", "emergence"})
_PARTS = _LISTED.words("parts")
_SPOTS = _LISTED.words("spots")
_ON_THE_WAY = _LISTED.words("on_the_way")
_ERRANDS = _LISTED.words("errands")
_HOLES = _COMMON.words("hole")
_WENT = _LISTED.words("went")
_ON = _LISTED.words("on")
_AT = _ON | {"at"}
_CLOCK = _LISTED.words("clock")
_HEADERS = frozenset({"GROUP", "VARIETY", "ROWS", "ROWWORD", "PLANTED", "EMERGED"})
_TALK = frozenset({"sentence", "comma"})


_FOR_REFUSED = _LISTED.words("for_refused")


def refused(s: Surroundings, c: Candidate) -> bool:
    return (
        _said_of_a_plant(s, c)
        or _cut_header(s, c)
        or _a_day(s, c)
        or _a_spot(s, c)
        or _a_tower(s, c)
        or _talk(s, c)
        or _weeds_in_a_patch(s, c)
        or _about_nothing(s, c)
        or _where_found(s, c)
        or _not_solid(s, c)
        or _a_finding(s, c)
        or _counted_finding(s, c)
        or _some_of_it(s, c)
        or place_then_name(s, c.i, c.j)
        or _cut_finding(s, c)
        or _misspelled_number(s, c)
        or _misspelled_finding(s, c)
        or _cut_saying(s, c)
        or _took_place(s, c)
        or _an_occasion(s, c)
        or _of_the_note(s, c)
        or _in_the_gauge(s, c)
        or any(going_on(s, x) for x in range(c.i, c.j))
        or _another_crop(s, c)
        or _somebody(s, c)
        or _a_branch(s, c)
        or _cut_title(s, c)
        or _cut_before_a_noun(s, c)
        or before_its_number(s, c.j)
        or _so_many_trips(s, c)
        or _over_the_beans(s, c)
        or _as_high_as(s, c)
        or (place_in_turn(s, c.i, c.j) and s.text(c.j) in _FOR_REFUSED)
        or _of_a_stop(s, c)
        or _strokes(s, c)
        or tested(s, c.i, c.j)
        or (c.site != "field" and happened(s, c.i, c.j))
        or put_in_the_ground(s, c.i)
        or (c.site == "go" and one_of_two_parts(s, c.i, c.j))
        or (c.site != "field" and (_on_the_way(s, c) or _so_far_off(s, c)))
    )


_FAR = _LISTED.words("far")


def _so_far_off(s: Surroundings, c: Candidate) -> bool:
    """`MY BROTHERS BEANS TWO COUNTIES SOUTH`: how far off other beans stand; `Two Mile Creek` is a name."""
    if c.j != c.i + 3 or s.text(c.i + 1) not in _FAR or "INT" not in kinds(s, c.i):
        return False
    return bool(kinds(s, c.i + 2) & {"COMPASS", "DOWN", "UP"}) or s.text(c.i + 2) in _AWAY


_AWAY = _LISTED.words("away")
_PACED = _LISTED.words("paced")
_DRIVEN = _LISTED.words("driven")
_THE = _COMMON.words("our")


def _on_the_way(s: Surroundings, c: Candidate) -> bool:
    """`walked south 40 yards`, `walked west 40-50 steps`, `on the four wheeler`: how far somebody went, or in what."""
    if title(s, c.i, c.j):
        return False
    far = s.text(c.j - 1) in _PACED and c.j - 2 > c.i and s.pieces[c.j - 2].form == "int"
    return far or (s.text(c.j - 1) in _DRIVEN and s.text(c.i - 1) in _THE)


_WORDS_OF_PLANTING = 4  # went in the ground


def put_in_the_ground(s: Surroundings, i: int) -> bool:
    """`in the | ground 5/6`: the last word of when it was planted, before the day."""
    return any(
        p.rule == "planted" and p.path[0][1].end > i
        for x in range(max(0, i - _WORDS_OF_PLANTING), i)
        for p in s.phrases[x]
    )


_MOISTURE = range(8, 30)  # percent of water in the grain


def tested(s: Surroundings, a: int, b: int) -> bool:
    """`Test 13.8.`, `Grain 14.1`: a lone word, and the moisture of the grain behind it."""
    if b != a + 1 or b >= s.n or s.pieces[b].form != "dec":
        return False
    over = b + 1 >= s.n or s.pieces[b + 1].form in {"nl", "mark"}
    return over and int(s.text(b).partition(".")[0] or 0) in _MOISTURE


def _strokes(s: Surroundings, c: Candidate) -> bool:
    """`IIIII IIIII II`: what was counted with strokes."""
    return all(set(s.text(x)) == {"i"} for x in range(c.i, c.j)) and any(len(s.text(x)) > 1 for x in range(c.i, c.j))


_HELD = _COMMON.words("land") | _COMMON.words("field") | {"half"}


def where_a_stop_is(s: Surroundings, i: int, j: int) -> bool:
    """`stop one at the big oak`, `stop 2 by the pump`: pieces [i, j) are no field."""
    at = i - 2
    if s.text(i - 1) != "the" or s.text(at) not in _AT or at < 2 or title(s, i, j):
        return False
    return "INT" in kinds(s, at - 1) and "STOP" in kinds(s, at - 2) and s.text(j - 1) not in _HELD


def _of_a_stop(s: Surroundings, c: Candidate) -> bool:
    """`STOP 2, pond dam`, `Stop 1, lane end     1.  4 tri`, `stop one at the well`: where the stop is."""
    if c.site == "go" and where_a_stop_is(s, c.i, c.j):
        return True
    numbered = c.i > 2 and s.text(c.i - 1) == "," and "INT" in kinds(s, c.i - 2) and "STOP" in kinds(s, c.i - 3)
    return numbered and (c.site == "comma" or (c.site == "anew" and not title(s, c.i, c.j)))


def _cut_title(s: Surroundings, c: Candidate) -> bool:
    """`now Long | Row` on a line: the next capital belongs to the name."""
    last = c.j + 1 >= s.n or s.pieces[min(c.j + 1, s.n - 1)].form == "nl"
    if c.site not in {"go", "line"} or not last or c.j >= s.n or s.pieces[c.j].form != "word":
        return False
    return upper(s, c.j) and upper(s, c.j - 1) and not s.shouted and not s.phrases[c.j]


_ON_THE_BODY = _LISTED.words("on_the_body")


def _as_high_as(s: Surroundings, c: Candidate) -> bool:
    """`Knee to mid thigh.`, `waist high`: how tall something stands."""
    return c.j - c.i == 1 and s.text(c.i) in _ON_THE_BODY and s.text(c.j) in {"to", "-", "high", "deep"}


_OF_LAND = _LISTED.words("of_land")


def _cut_before_a_noun(s: Surroundings, c: Candidate) -> bool:
    """`Vineyard | strip no weeds`: the noun of land that stands next belongs to the name."""
    return c.j < s.n and s.text(c.j) in _OF_LAND and "FIELDNOUN" in kinds(s, c.j) and not s.pieces[c.j].form == "nl"


def _so_many_trips(s: Surroundings, c: Candidate) -> bool:
    """`thirteen trips on plant one` behind the day: so many trifoliates of a plant, as dictation hears them."""
    ends = [e.end for e in s.lattice.edges[c.i] if e.kind == "INT" and e.end < c.j]
    return any(kinds(s, end) & {"TRIF", "TRIPS"} for end in ends) and c.site != "field" and not title(s, c.i, c.j)


def _a_branch(s: Surroundings, c: Candidate) -> bool:
    """`Side branch has 5 trifs`."""
    return any(e.kind == "BRANCH" and e.end == c.j and c.j - c.i > 1 for e in s.lattice.edges[c.i])


def _somebody(s: Surroundings, c: Candidate) -> bool:
    """`agronomist has it R4`, `my son planted it`: who says or did so, and no field."""
    talk = c.j < s.n and s.pieces[c.j].form == "word" and "FIELD" not in kinds(s, c.j)
    talk = talk or (c.site == "note" and s.text(c.j) in {".", "!"})  # it's Grandpa.
    return c.j - c.i == 1 and s.text(c.i) in claim_words().people and talk


_BORNE = frozenset({"POD", "SEED", "BEAN", "FLOWER"})


def _said_of_a_plant(s: Surroundings, c: Candidate) -> bool:
    """A stage, a count, a label or a value of the header: R3, B4, drilled 5/4, third plant, R4 on the hill."""
    if any(
        p.rule == "stage" and p.form in {"r1", "v1"} and p.end < c.j and s.text(p.end) in _AT for p in s.phrases[c.i]
    ):
        return True
    if s.text(c.i - 1) == "at" and _a_share_at(s, c):
        return True
    if c.site != "field" and any(
        p.rule == "stage" and p.form in {"r1", "v1"} and p.end == c.j for x in range(c.i + 1, c.j) for p in s.phrases[x]
    ):
        return True  # Heron R3 7/10
    if any(p.form == "top_n" and p.end == c.j for p in s.phrases[c.i]) and kinds(s, pass_fillers(s, c.j, ":")) & _BORNE:
        return True  # Top 4: pods 1 1/2"
    if s.text(c.i - 1) == "@" and any(p.form in {"top_n", "top_1"} and p.end >= c.j for p in s.phrases[c.i]):
        return c.i > 1 and bool(kinds(s, c.i - 2) & _BORNE)  # FL@TOP2
    if any(e.kind == "FLAT" and e.end > c.j for e in s.lattice.edges[c.i]) and kinds(s, c.j) & _BORNE:
        return True  # Flat pods two nodes below
    if not c.nouns:
        if any(p.rule == "place" and c.i + 1 < p.end <= c.j for p in s.phrases[c.i]) and not title(s, c.i, c.j):
            return True  # pods in the top four run 1/2 to 3/4
        if any(e.kind in {"R", "V"} for e in s.lattice.edges[c.i]) and any(p.rule == "stage" for p in s.phrases[c.i]):
            return True
        if any(p.end == c.j and p.rule in _COUNTED and phrase_cost(p) < 1.8 for p in s.phrases[c.i]):
            return True
    if any(
        p.form == "plant_n" and p.end <= c.j and s.pieces[x + 1].glued
        for x in range(c.i + 1, c.j - 1)
        for p in s.phrases[x]
    ):
        return True  # N end p1 n p2 both
    if any(p.rule == "planted" and p.end > c.j for x in range(c.i + 1, c.j) for p in s.phrases[x]):
        return True  # double crop drilled june eighteenth
    return any(
        p.end >= c.j
        and (
            p.rule in {"planted", "emerged"}
            or p.form == "plant_ord"
            or (p.rule == "rows" and p.path[0][1].kind == "ROWWORD")
        )
        and phrase_cost(p) < 1.8
        for p in s.phrases[c.i]
    )


def _a_share_at(s: Surroundings, c: Candidate) -> bool:
    """`8 of 10 at R1 Goat island 2 of 10 blooming`: so many are at the stage, and the name begins behind it."""
    stage = any(p.rule == "stage" and p.form in {"r1", "v1"} and p.end < c.j for p in s.phrases[c.i])
    at = c.i - 1
    return stage and any(
        p.rule in {"ratio", "percent"} and p.end == at for x in range(max(0, at - 6), at) for p in s.phrases[x]
    )


def _a_tower(s: Surroundings, c: Candidate) -> bool:
    """`started at tower 2`: a place at the pivot."""
    return c.site == "go" and s.text(c.i) == "tower" and "INT" in kinds(s, c.i + 1)


def _cut_header(s: Surroundings, c: Candidate) -> bool:
    """`MAT.` of MAT. GROUP: words of the header that go on behind the name; `Dry Fork | var lot 18`, `the Brandt | twenty
    inch rows`: words of the header that begin inside it."""
    if any(e.kind in _HEADERS and e.how == "exact" and e.end > c.j for e in s.lattice.edges[c.i]):
        return True
    inside = [p for x in range(c.i + 1, c.j) for p in s.phrases[x]]
    return any(p.rule == "variety" or (p.rule == "rows" and p.end > c.j) for p in inside)


def _a_day(s: Surroundings, c: Candidate) -> bool:
    """`chapel field twenty seventh of may`: the day of the note."""
    return any(
        p.rule == "date" and p.end == c.j and c.words > 2 and any(e.kind == "ORD" for _, e in p.path)
        for p in s.phrases[c.i]
    )


def _a_spot(s: Surroundings, c: Candidate) -> bool:
    """`on the hill V8`, `at the road end`: a part of the field, and no name; leaves that drop."""
    if c.site == "date" and sum(len(s.text(x)) for x in range(c.i, c.j) if s.pieces[x].form == "word") < 3:
        return True  # a year: O8, 9O
    if title(s, c.i, c.j) and c.words > 1:
        return False
    if c.words == 1 and s.text(c.i) in _PARTS and not upper(s, c.i) and c.site != "field":
        return True  # south side p1 6 trif
    if c.words > 1 and "COMPASS" in kinds(s, c.i) and s.text(c.j - 1) in _HOLES and c.site != "field":
        return True  # water standing in the sw hole
    if any(e.kind in {"LEAFDROP", "LEAFTURN"} and e.how == "exact" for e in s.lattice.edges[c.i]):
        return True
    if c.site in {"go", "comma", "sentence"} and c.words > 1 and s.pieces[c.j - 1].text in _PARTS:
        return True
    at = c.i + (s.text(c.i) == "the")
    led = s.text(c.i - 1) == "the" or at > c.i or s.text(c.i - 1) in _WENT
    if c.j == at + 1 and s.text(at) in _ERRANDS and led and not title(s, at, c.j) and c.site != "field":
        return True  # headed to the shop
    if s.text(at) in _SPOTS and (at > c.i or s.text(c.i - 1) == "the"):
        behind = {e.kind for e in s.lattice.edges[at + 1]} if c.j > at + 1 else set()
        if (c.j == at + 1 and at > c.i) or behind & {"PLANT", "PLETTER", "HASH", "ORD"}:
            return True  # way down at the bottom
    before = [s.text(x) for x in (c.i - 2, c.i - 1) if x >= 0]
    if c.words > 1 or c.site == "field" or len(before) < 2 or before[1] != "the":
        return False
    return before[0] in _ON or (before[0] == "at" and s.text(c.i) in _SPOTS)


_LANDMARKS = _COMMON.words("road") | _COMMON.words("landmark")


def _where_found(s: Surroundings, c: Candidate) -> bool:
    """`slugs bad in the cover crop strip`: behind a finding of the same sentence, where it was seen."""
    at = c.i - (s.text(c.i - 1) == "the")
    if c.site == "go" and c.words == 1 and s.text(c.i) in _LANDMARKS and at < c.i and found_before(s, at - 1):
        return True  # beetles one to the foot here at the lane
    if c.site != "go" or s.text(at - 1) not in _AT or s.text(at - 2) in _ON_THE_WAY or title(s, c.i, c.j):
        return False
    return found_before(s, at - 1) and strength(s, pass_fillers(s, c.j))[1] not in {"label", "date", "planted", "stage"}


_CAME = _LISTED.words("came")
_LEFT_BEHIND = _LISTED.words("left_behind")
_STRETCHES = _LISTED.words("stretches")
_CLUMPS = _LISTED.words("clumps")
_BESIDE = _COMMON.words("beside")


def _weeds_in_a_patch(s: Surroundings, c: Candidate) -> bool:
    """`Thistle patch by the well`, `Foxtail near the gate`, `Patch of pigweed at the road`: weeds and where they stand, behind
    plants of a field."""
    if c.site == "field":
        return False
    if s.text(c.i) in _CLUMPS and c.words == 1 and s.text(c.j) == "of" and "WEED" in kinds(s, c.j + 1):
        return True
    weed = max((e.end for e in s.lattice.edges[c.i] if e.kind == "WEED" and e.how == "exact"), default=c.j)
    rest = range(weed, c.j)
    small = all(not upper(s, x) and s.text(x) in _CLUMPS | _BESIDE for x in rest)
    behind = s.text(c.j - 1) in _BESIDE or s.text(c.j) in _BESIDE
    return bool(rest) and small and behind and weed < c.j


_OVER = _LISTED.words("over_the_beans")
_STANDING = _LISTED.words("standing_beans")


def _over_the_beans(s: Surroundings, c: Candidate) -> bool:
    """`Foxtail over the canopy.`, `Pigweed is above the beans`: a weed, and how high it stands."""
    at = c.j + (s.text(c.j) in {"is", "are", "'s"})
    if s.text(at) not in _OVER or s.text(at + 1 + (s.text(at + 1) == "the")) not in _STANDING or c.site == "field":
        return False
    return any(e.kind == "WEED" and e.end == c.j for e in s.lattice.edges[c.i])


_FOR_TALK = _LISTED.words("for_talk")
_BEFORE_TALK = _LISTED.words("before_talk")
_FOR_TALK_2 = _COMMON.words("change")
_FOR_TALK_3 = _LISTED.words("for_talk_3")


_MILES_AN_HOUR = _LISTED.words("miles_an_hour")


def _talk(s: Surroundings, c: Candidate) -> bool:
    """Words that are how people talk, and no name."""
    i, j, last = c.i, c.j, s.pieces[c.j - 1]
    ends = {e.end for e in s.lattice.edges[i] if e.kind in {"INSECT", "DISEASE", "WEED"} and e.how == "exact"}
    if any(end < j and s.text(end) in s.words.of_a_count for end in ends) and c.site != "field":
        return True  # aphid ct Linden sq
    if "rest" in {s.text(i), s.text(i + 1)} and s.text(i) in {"the", "rest"} and j <= i + 2 and not c.title:
        return True  # The rest have nine
    if s.text(i) in {"r", "v"} and s.text(i - 1) in {"a", "an"} and "INT" in kinds(s, i + 1):
        return True  # so that's an R five field
    if len(s.text(i)) == 1 and s.text(i + 1) == "'s" and c.site != "field":
        return True  # B's flower is on the top node
    if c.words == 1 and kinds(s, i) & {"LEAF", "POD", "FLOWER"} and c.site != "field":
        return True  # Leaves 3/4 off
    if c.words == 1 and s.text(i - 1) == "it" and s.cased and not s.lattice.original(i, j)[:1].isupper():
        return True  # it hit Fri the 28th: a verb
    came = {s.text(x) for x in range(i + 1, j)} & _CAME
    if came and kinds(s, i) & {"WEATHER", "DAMAGE"} and not title(s, i, j):
        return True  # Wind blew through
    if s.text(j) in _MILES_AN_HOUR and last.form == "int":
        return True  # WIND 8 MPH OUT OF THE WEST
    whose = i + (s.text(i) == "the")
    if any(e.kind == "NEIGHBOR" and e.how == "exact" and e.end > j for e in s.lattice.edges[whose]):
        return True  # THE RENTER'S BEANS OVER THE ROAD ARE R3
    if any(e.kind == "FRAC" and (e.end == j or s.text(e.end) == "of") for e in s.lattice.edges[i]):
        return True  # two thirds are R6
    if s.text(j) == "of" and s.text(i) in _FOR_TALK and last.text in _STRETCHES:
        return True  # One patch of waterhemp
    if s.text(j) == "in" and "gauge" in {s.text(x) for x in range(j + 1, j + 4)}:
        return True  # point nine in the rain gauge
    if any(s.text(x) == "point" and kinds(s, x - 1) & {"INT"} and kinds(s, x + 1) & {"INT"} for x in range(i + 1, j)):
        return True  # thirteen point two
    if c.site == "sentence" and s.text(j) in {"showing", "visible"}:
        return True  # Cultipacker ridges showing
    if c.words == 1 and s.text(i) in {"fields", "flds"} and s.text(i - 1) in _BEFORE_TALK:
        return True  # Both fields, rows 30"
    if c.words == 1 and s.text(i) in {"fields", "flds"} and j < s.n and any(p.rule == "stage" for p in s.phrases[j]):
        return True  # fields R6 id say
    if c.words == 1 and s.text(i) in _FOR_TALK_2 and kinds(s, j) & {"PLANT", "PLETTER"}:
        return True  # change plant one to R3
    if c.words == 2 and kinds(s, i) & {"DAMAGE", "INSECT"} and last.text in _LEFT_BEHIND:
        return True  # Deer tracks.
    if s.text(i + 1) == "of" and kinds(s, i) & {"DAMAGE", "WEATHER"} and kinds(s, i + 2) & {"MONTH", "THE"}:
        return True  # Hail of July 8 took about 10%
    if c.words == 2 and c.site != "field" and second_crop(s.lattice, i):
        return True
    if c.words == 1 and s.text(i) in _FOR_TALK_3:
        return True  # Fungicide at R3
    if c.words == 1 and s.text(i) in OF_FIGURES and s.text(j) == ":":
        return True  # Range: 12 to 15 nodes
    if s.text(i) in {"quarter", "half"} and j == i + 1 and s.text(j) in _CLOCK:
        return True  # got here at quarter to ten
    if s.text(i) in {"quarter", "half", "third"} and s.text(i + 1) == "of" and not c.title:
        return True  # a quarter of the 40
    if s.text(i) == "row" and j == i + 2 and len(last.text) == 1:
        return True  # Row B: a place in the field
    if c.site in _TALK and not title(s, i, j) and any(s.pieces[x].text in s.words.relations for x in range(i + 1, j)):
        return True  # combination on the gate
    if (
        c.site == "line"
        and s.cased
        and not title(s, i, j)
        and any(s.pieces[x].text == "along" for x in range(i + 1, j))
    ):
        return True  # Wild cane along the slough
    if c.words == 1 and not c.nouns and len(last.text) <= 2 and last.form == "word" and c.site != "field":
        return True
    if last.text in s.words.never_last and c.words > 1 and not (noun_at(s, j - 1) and noun_at(s, j - 2)):
        return True
    two_nouns = noun_at(s, j - 1) and noun_at(s, j - 2)  # cedar post
    if (
        last.text in s.words.tools
        and c.words > 1
        and not two_nouns
        and not (c.site in {"note", "date"} and title(s, i, j))
    ):
        return True
    if called_otherwise(s, j):
        return True  # the four acres they call Polecat
    if last.text == "'s" and s.text(j) in s.words.happened:
        return True  # sprayer's been here
    if c.words > 1 and s.text(j) == "'s" and s.text(j + 1).endswith("ing"):
        return True  # Pivot nine water's running
    if last.text == "'s" and s.text(j).endswith("ing") and c.site != "field":
        return True  # Tractor's blocking the lane
    if last.text == "'s" and s.text(j + (s.text(j) in {"hand", "moisture", "grain"})).startswith("tester"):
        return True  # Dad's moisture tester says 15.5
    return (
        c.words > 2
        and not c.nouns
        and s.cased
        and c.site in {"note", "line", "sentence"}
        and not title(s, i, j)  # Truck broke down.
    )


_CALLERS = _COMMON.words("somebody")
_CALL = _COMMON.words("call")
_BEHIND_CALLED_OTHERWISE = _LISTED.words("behind_called_otherwise")


def called_otherwise(s: Surroundings, i: int) -> bool:
    """`(the half acre) we call Scale House`: at piece i begins what the land is called, and that is its name."""
    at = i + (s.text(i) == "that")
    at += s.text(at) in {"the", "my", "our"}
    k = at + 1 + (s.text(at + 1) in {"always", "all", "used"})
    return s.text(at) in _CALLERS and s.text(k) in _CALL and s.text(k + 1) not in _BEHIND_CALLED_OTHERWISE


def _about_nothing(s: Surroundings, c: Candidate) -> bool:
    """The note is over behind the words, so that nothing is said of them."""
    return (
        c.site not in {"field", "fieldno"}
        and not (c.site == "go" and (said_before(s, c.i) or _told_of_what_was_seen(s, c)))
        and all(s.pieces[x].form in {"mark", "nl"} for x in range(c.j, s.n))
    )


_FOR_TOLD_OF_WHAT_WAS_SEEN = _COMMON.words("being") | {"thats"}


def _told_of_what_was_seen(s: Surroundings, c: Candidate) -> bool:
    """`That was Levee Sixty.`: the name of what was told before."""
    at = c.i - 1 - (s.text(c.i - 1) == "the")
    was = s.text(at) in _FOR_TOLD_OF_WHAT_WAS_SEEN
    return was and any(p.rule in _COUNTED for x in range(at) for p in s.phrases[x])


def _not_solid(s: Surroundings, c: Candidate) -> bool:
    """In the middle of talk, trade words in small letters with no noun of places."""
    i, j = c.i, c.j
    if c.site not in {"go", "comma", "sentence"}:
        return False
    if any(("FIELDNOUN" in kinds(s, x) and "INT" not in kinds(s, x)) or not s.lattice.known[x] for x in range(i, j)):
        return False
    if c.site == "go" and s.text(i + 1) == "'s" and not any(e.how == "exact" for e in s.lattice.edges[i]):
        return False  # over to hulda's: only near a word of ours
    if c.nouns and c.words >= 2 and ("COMPASS" in kinds(s, i) or s.pieces[i].text in s.words.before_a_noun):
        return False
    if (
        c.site == "go"
        and c.nouns
        and c.words >= 2
        and s.text(i - (s.text(i) != "the")) == "the"
        and acres_in_words(s, j - 1)
    ):
        return False  # went over to the long eighty
    if c.site == "go" and c.bonus > 0.5 and i >= 2 and s.pieces[i - 1].text == "at":
        return False
    if c.site == "go" and s.text(i) == "the" and any(e.kind == "INT" and e.end == j for e in s.lattice.edges[i + 1]):
        return s.text(j) not in {".", ","}  # next, the forty seven.
    return not title(s, i, j)


_FOR_A_FINDING = _LISTED.words("for_a_finding")
_OUT_HERE = _LISTED.words("out_here")


_A_BIT = frozenset({"a", "some"})


def _a_finding(s: Surroundings, c: Candidate) -> bool:
    """An animal, a weed, a disease (stink bug) or a part of the field."""
    i, j, edges = c.i, c.j, s.lattice.edges[c.i]
    if any(e.kind in {"WEED", "DAMAGE"} and e.how == "exact" and e.end > j for e in edges) and c.site != "field":
        return True  # Iron | chlorosis
    if c.site not in {"field", "go"} and any(
        e.kind in {"INSECT", "DISEASE"}
        and e.how == "exact"
        and (e.end > j or (e.end == j and c.words > 1 and c.site == "line"))
        for e in edges
    ):
        return True
    if (
        c.words > 1
        and c.site in {"sentence", "comma", "go"}
        and any(e.end == j and e.kind in {"WEED", "INSECT", "DISEASE", "DAMAGE", "OTHERFIND", "WEATHER"} for e in edges)
    ):
        return True
    if c.words > 1 and c.site != "field" and any(e.kind == "OTHERFIND" and e.end == j for e in edges):
        return True  # grain moisture is 14 percent
    if c.words == 1 and not title(s, i, j) and any(e.kind in {"DAMAGE", "WEATHER"} and e.how == "exact" for e in edges):
        return True  # hail 7/15 took a third of the leaves
    if c.words == 1 and s.text(j) in _OUT_HERE and {"WEATHER", "SOILSTATE"} & {e.kind for e in edges}:
        return True  # Windy here today
    if c.words == 1 and any(e.kind in {"DAMAGE", "WEATHER"} and e.how == "exact" for e in edges):
        if any(p.rule == "date" and p.form in {"yesterday", "days_ago", "weekday"} for p in s.phrases[j]):
            return True  # Hail last night at Mullein Bottom
        if any(e.kind == "DAMAGE" and e.end == j for e in edges) and s.text(j) in _A_BIT:
            return True  # Lodged some in the sags
    if (
        c.words == 1
        and c.site != "field"
        and any(e.kind == "WEATHER" and e.how == "exact" and e.end == j for e in edges)
    ):
        behind = range(j, min(j + 3, s.n))
        if s.text(j) in {",", "&", "and"} and any("WEATHER" in {e.kind for e in s.lattice.edges[x]} for x in behind):
            return True  # 7-20-04     Hot, S wind
    if any(e.kind in {"DAMAGE", "WEATHER"} and e.how == "exact" and s.text(e.end) in _ON for e in edges if e.end < j):
        return not title(s, i, j)  # Crusted on the clay point.
    heads_a_line = c.site == "line" and upper(s, i) and j < s.n and any(p.rule == "stage" for p in s.phrases[j])
    if c.words == 1 and s.text(i) in _FOR_A_FINDING and not heads_a_line:
        return True  # leaf drop? started, bottoms only
    if c.site != "field" and an_animal_cut_short(s, i, j):
        return True
    if c.words == 1 and c.site in _TALK and not upper(s, i) and "BRANCH" in kinds(s, i) and "HAS" in kinds(s, j):
        return True  # no pods on the main stem, branch has one
    if c.words == 1 and c.site != "field" and any(e.kind == "DEFOL" and e.how in {"exact", "sound"} for e in edges):
        return True  # August 6th. Deforestation ten percent up top
    if _dated_event(s, c):
        return True
    if i and any(e.kind == "WEED" and e.how == "exact" and e.end > i for e in s.lattice.edges[i - 1]):
        return True  # Morning glory: no glory behind a greeting
    if c.site == "line" and upper(s, i) and "FIELDNOUN" in kinds(s, i) and j == i + 2 and s.pieces[i + 1].form == "int":
        return False  # TOWER 5, at a line's head
    in_the = c.site == "go" and s.text(i - 1) == "the" and s.text(i - 2) in {"in", "on"} and not title(s, i, j)
    return any(e.kind == "WHEREWORD" and e.end == j for e in edges) and (
        c.site not in {"field", "go", "note"} or in_the or s.pieces[i].text in s.words.compass
    )


def _dated_event(s: Surroundings, c: Candidate) -> bool:
    """`The hail of June 18 got the Anvil`: what came over the field on a day, and no name."""
    return (
        s.text(c.j) in {"of", "on", "from"}
        and c.j + 1 < s.n
        and any(p.rule == "date" for p in s.phrases[c.j + 1])
        and any(
            e.kind in {"DAMAGE", "WEATHER"} and e.how == "exact" and e.end == c.j
            for x in range(c.i, c.j)
            for e in s.lattice.edges[x]
        )
    )


def an_animal_cut_short(s: Surroundings, i: int, j: int) -> bool:
    """`Jap. beetles heavy on the fence side`: a word and its dot, which an animal follows."""
    return j == i + 1 and j + 1 < s.n and s.text(j) == "." and s.pieces[j].glued and "INSECT" in kinds(s, j + 1)


def _counted_finding(s: Surroundings, c: Candidate) -> bool:
    """A misspelled animal with its count (aphdis 150 per plnat), or an animal by the sweep (SB 3/25sw)."""
    i, j = c.i, c.j
    if (
        c.site != "field"
        and any(e.how.startswith("near") and e.kind in FOUND for x in range(i, j) for e in s.lattice.edges[x])
        and any(s.pieces[x].form == "int" and s.text(x + 1) in {"per", "/"} for x in range(i, j))
    ):
        return True
    return (
        s.text(j) == "/"
        and s.pieces[j - 1].form == "int"
        and any(kinds(s, x) & {"SWEEP", "FOOT"} for x in range(j + 1, min(j + 4, s.n)))
    )


def place_then_name(s: Surroundings, i: int, j: int) -> bool:
    """`10% in the upper canopy Creamery field 4 of 10`, `in the top two nodes Brick yard R3`: where something was found, in
    small letters, and behind it the next name."""
    if not s.cased or upper(s, i):
        return False
    ends = {e.end for e in s.lattice.edges[i] if e.kind == "WHEREWORD" and e.how == "exact"}
    ends |= {p.end for p in s.phrases[i] if p.rule == "place"}
    return any(end < j and upper(s, end) for end in ends)


_SOME = _LISTED.words("some_of_it")


def _some_of_it(s: Surroundings, c: Candidate) -> bool:
    """`Velvetleaf, a few.`, `Foxtail: some on the end rows`: a weed, an animal or a disease, and how much of it, with nothing
    of the beans behind it."""
    if c.site == "field" or s.text(c.j) not in {",", ":", "-"}:
        return False
    if not any(
        e.kind in {"WEED", "INSECT", "DISEASE"} and e.how == "exact" and e.end == c.j for e in s.lattice.edges[c.i]
    ):
        return False
    at = c.j + 1 + (s.text(c.j + 1) in {"a", "not"})
    if s.text(at) not in _SOME:
        return False
    while at < s.n and s.pieces[at].form != "nl" and s.text(at) not in {".", ";"}:
        if strength(s, at)[1] in _COUNTED:
            return False
        at += 1
    return True


def _cut_finding(s: Surroundings, c: Candidate) -> bool:
    """A finding that the words' end cuts (Osprey Bend stink | bugs), or that they hold (The waterhemp by the lane)."""
    i, j, edges = c.i, c.j, s.lattice.edges
    if any(e.how == "exact" and e.kind in FOUND and e.end > j for x in range(i + 1, j) for e in edges[x]):
        return True
    return (c.site in _TALK or (s.pieces[i].text == "the" and c.site != "field")) and any(
        e.kind in {"WEED", "INSECT", "DISEASE"} and e.how == "exact" and not upper(s, x)
        for x in range(i, j)
        for e in edges[x]
    )


def _misspelled_number(s: Surroundings, c: Candidate) -> bool:
    """`thrteen nodes`, `twenty twwenty six`: nothing but numbers, and one of them misspelled."""
    words = [x for x in range(c.i, c.j) if s.pieces[x].form in {"word", "int"}]
    numbers = [[e for e in s.lattice.edges[x] if e.kind in {"INT", "ORD", "YEAR"}] for x in words]
    return c.site != "field" and all(numbers) and any(e.how.startswith("near") for es in numbers for e in es)


def _misspelled_finding(s: Surroundings, c: Candidate) -> bool:
    """`The waetrhemp along the lane`: a misspelled weed or animal, and where it stands."""
    return c.site != "field" and any(
        e.how.startswith("near")
        and e.kind in {"WEED", "INSECT", "DISEASE"}
        and len(s.text(x)) >= 7
        and any(w.kind == "WHEREWORD" and w.end <= c.j for w in s.lattice.edges[e.end])
        for x in range(c.i, c.j - 1)
        for e in s.lattice.edges[x]
        if e.end < c.j
    )


_BEFORE_TOOK_PLACE = _LISTED.words("before_took_place")


def _took_place(s: Surroundings, c: Candidate) -> bool:
    """`The inspection took place on June 16`: when something was, and no field."""
    return s.text(c.i) == "place" and s.text(c.i - 1) in _BEFORE_TOOK_PLACE


_OF_A_NOTE = _LISTED.words("of_a_note")


def _of_the_note(s: Surroundings, c: Candidate) -> bool:
    """`chopped corn half the night so this is short`: what the note itself is like."""
    if s.text(c.i) not in _OF_A_NOTE or upper(s, c.i) or s.text(c.i - 1) in {"field", ":", "="}:
        return False
    return c.words == 1 or (c.words == 2 and s.text(c.j - 1) == "one")


_FAR_FROM_THE_GAUGE = 3  # pieces


def _in_the_gauge(s: Surroundings, c: Candidate) -> bool:
    """`gauge said point eight plant one ...`: how much it rained."""
    if not any(e.kind == "DEC" for x in range(c.i, c.j) for e in s.lattice.edges[x]):
        return False
    near = range(max(0, c.i - _FAR_FROM_THE_GAUGE), c.j)
    return any(e.kind == "WEATHER" and e.means == "rain gauge" for x in near for e in s.lattice.edges[x])


OCCASIONS = _LISTED.words("occasions")
_PARTIES = _LISTED.words("parties")


def _an_occasion(s: Surroundings, c: Candidate) -> bool:
    """`Orchard Plot, class trip 9/23`, `crew visit, R5`: on what occasion somebody looked, and no field."""
    if c.site in {"field", "fieldno"}:
        return s.text(c.i - 1) == "field" and s.text(c.i) in OCCASIONS and c.words == 1  # field trip 9/23
    if s.text(c.i - 1) == "'s" and s.text(c.i - 2) in {"today", "yesterday"}:
        return True  # yesterday's loop.
    last = c.j - (s.text(c.j - 1) in OCCASIONS)
    told = last < c.j or s.text(c.j) in OCCASIONS
    return told and all(s.text(x) in _PARTIES for x in range(c.i, last))


_FOR_CUT_SAYING = _COMMON.words("being")


def _cut_saying(s: Surroundings, c: Candidate) -> bool:
    """`Bottom leaves are yellowing`, `Beginning pod overall`, `Careless weed belt high`, `Deforestation 12 percent`: the
    words begin what is said, and no name."""
    if s.text(c.i) == "hole" and c.j == c.i + 1 and s.text(c.j) in {"field", "fld"}:
        return not upper(s, c.i)  # i'd put the hole field at R3
    if c.site in {"field", "fieldno", "go", "skip"}:
        return False
    if any(e.how == "exact" and e.kind in {"STAGENAME", "WEED"} and e.end > c.j for e in s.lattice.edges[c.i]):
        return True
    if s.text(c.j) in _FOR_CUT_SAYING and any(
        e.how == "exact" and e.kind == "WEED" and e.end == c.j and c.words > 1 for e in s.lattice.edges[c.i]
    ):
        return True  # Lambs quarter is ankle high
    last = kinds(s, c.j - 1)
    if last & {"LOW", "TOP", "UPTOP"} and c.j < s.n and kinds(s, c.j) & {"LEAF", "NODE", "NODES", "POD", "FLOWER"}:
        return True
    if c.words > 1 or not s.lattice.edges[c.i]:
        return False
    told = s.cased and upper(s, c.i) and strength(s, c.j)[1] in {"trif", "nodes"}  # Hale 12 nodes
    found = not told and any(e.kind in FOUND and e.how == "sound" and e.end == c.j for e in s.lattice.edges[c.i])
    return found and c.j < s.n and bool(kinds(s, c.j) & {"INT", "PCT", "FRAC", "HALF", "LOTS"})


def _another_crop(s: Surroundings, c: Candidate) -> bool:
    """`The corn on the hill over there is V14`: another crop, in small letters, with no noun of places behind it."""
    return c.site not in {"field", "fieldno"} and any(
        e.kind == "OTHERCROP" and e.how == "exact" and not upper(s, x) and "FIELDNOUN" not in kinds(s, e.end)
        for x in range(c.i, c.j - 1)
        for e in s.lattice.edges[x]
        if e.end < c.j
    )
