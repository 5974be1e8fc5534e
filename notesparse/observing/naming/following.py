"""What stands behind a name: a name is something that an observation, a date or a line's end follows."""

from __future__ import annotations

from bisect import bisect_left

from notesparse.language.cues import cue_page
from notesparse.observing.naming.candidate import Candidate
from notesparse.observing.naming.oddnames import ends_as_talk, odd
from notesparse.observing.naming.surroundings import (
    NAMEY,
    THE_CROP,
    Surroundings,
    acres_in_words,
    capital,
    first_plant,
    going_on,
    kinds,
    noun_at,
    pass_fillers,
    said_before,
    starts,
    strength,
    title,
)
from notesparse.observing.naming.worth import MAY_BE_NAMED, SPANS_OF_TIME

_COMMON = cue_page("shared")
_LISTED = cue_page("naming/following")

_SURE = frozenset({"date", "label", "stage", "stop", "sampled"})  # rules that begin what is said of a field
_TOLD_OF_A_FIELD = frozenset({"ratio", "percent", "podshare", "lots", "call", "average", "sampled", "notvisited"})
_GOES_WITH = _LISTED.words("goes_with")
BEYOND = _COMMON.words("lying")
_NAMED_AFTER = MAY_BE_NAMED | NAMEY | {"LETTER", "INT", "BROWN", "GREEN"}
_BEFORE_A_NOUN = frozenset({"SOILWORD", "SOILSTATE", "MIL", "MM", "OTHERCROP", "INSECT", "OTHERFIND"})
_MEALS = _COMMON.words("meals")
_UNTIL = _COMMON.words("until")
_THEN = _LISTED.words("then")
OF_THE_HEAD = frozenset({"date", "planted", "emerged", "rows", "maturity", "variety"})  # rules of a visit's head
_OF_A_FIELD_IN_A_LIST = _SURE | _TOLD_OF_A_FIELD | {"group"}
_VAGUE = frozenset({"past", "moisture", "where", "findhead", "state", "place", "length", "height"})


def follow(s: Surroundings, c: Candidate) -> float | None:
    """What the words behind a name add to it; None where no name stands before such words."""
    if c.site == "go" and "only" in {s.text(c.j), s.text(c.j + 1)} and not title(s, c.i, c.j):
        return None  # walked the flat ground only
    if c.site == "field" and c.title and s.cased and s.text(c.j) == "," and (c.nouns or odd(s.lattice, c.i)):
        return 0.5  # field is Anvil, seven acres of it drowned
    if _a_stop_first(s, c) or (c.site == "go" and _begins_with_a_spot(s, c)):
        return None
    after = pass_fillers(s, c.j)
    if s.text(after) == "." and after == c.j and s.lattice.soft[after] is not None and noun_at(s, c.j - 1):
        after = pass_fillers(s, after + 1)  # graveyard rd.
    if s.text(after) == "." and after == c.j and s.text(after + 1) == ":" and s.pieces[after + 1].glued:
        after = pass_fillers(s, after + 1)  # Bakken E.:
    if c.site in {"anew", "daily", "midway"}:
        return 0.6 if c.site == "midway" and _taken_there(s, c.j) else _before_the_first(s, c, after)
    if s.text(c.j) in {"now", "next", "nxt"} and s.text(c.j + 1) in {".", ",", ":", "-"}:
        after = pass_fillers(s, c.j + 1, ":,-")  # Redwing now. Plant 1 is R2
    if (
        c.site == "go"
        and said_before(s, c.i)
        and (after >= s.n or s.pieces[after].form == "nl" or s.text(c.j) in {",", ".", "and"})
    ):
        return 0.8  # R2 at Schultz, R3 at Miller's
    if s.text(c.j) in _THEY and strength(s, c.j + 1)[1] == "planted":
        after = c.j + 1  # home eighty these went in may sixth
    after = _past_the_meal(s, c.j) or after
    after = _past_the_hour(s, c, past_the_lag(s, c.j) or _past_the_call(s, c.j) or after)
    after = _past_the_way(s, c.j) or after
    if s.text(c.j) in BEYOND and s.text(c.j + 1) in {"that", "it", "there"}:
        after = pass_fillers(s, c.j + 2 + (s.text(c.j + 2) == "one"))  # stubble patch beyond that one is six of eight
    if after >= s.n:
        return 0.4 if c.site in {"field", "go"} or (c.nouns and c.site != "sentence") else -2.0
    if s.pieces[after].form == "nl" or s.text(after) == ";" or (s.text(after) == "." and s.lattice.soft[after] is None):
        return _before_an_end(s, c, after)
    begun, rule = starts(s, after)
    if c.lone and s.text(c.j) in {"now", "next"} and not s.lattice.known[c.i] and _counts_anew(s, c.i, after):
        return 2.0
    glued_mark = any(s.pieces[x].text in ":-" for x in range(c.j, after))
    if c.site == "sentence" and s.several and _heads_a_sentence(s, c, begun, rule):
        return max(begun, 1.0)
    if begun <= 0.3:
        return _before_nothing(s, c)
    if _too_weak(s, c, begun, glued_mark) or _wrong_beginning(s, c, rule):
        return None
    return begun + (0.4 if glued_mark else 0.0) + (1.2 if _another_share(s, c, after) else 0.0)


_TOOK = _COMMON.words("looked") | _COMMON.words("pulled")


def _taken_there(s: Surroundings, i: int) -> bool:
    """`pulled ten there`, `looked at 8 plants there` at piece i: of what stands before it, so that it is a field."""
    at = i + ("i" == s.text(i) or s.text(i) == "we")
    if s.text(at) not in _TOOK:
        return False
    at += 1 + (s.text(at + 1) == "at")
    end = max((e.end for e in s.lattice.edges[at] if e.kind == "INT"), default=0) if at < s.n else 0
    return bool(end) and s.text(end + (s.text(end) in {"plants", "of"})) == "there"


def _past_the_way(s: Surroundings, at: int) -> int | None:
    """`across the road, plants one and two`, `next door, R2` at piece `at`: behind where the field lies."""
    way = at < s.n and (
        s.text(at) in BEYOND | {"over", "down", "up"} or (s.text(at), s.text(at + 1)) == ("next", "door")
    )
    ends = [e.end for e in s.lattice.edges[at] if e.kind in {"OTHERFIELD", "NEIGHBOR"}] if way else []
    end = max(ends, default=0)
    return pass_fillers(s, end + 1, ":,-") if end and s.text(end) in {",", ":", "-"} else None


def _another_share(s: Surroundings, c: Candidate, after: int) -> bool:
    """`oak hill 4 of 10 blooming. tamarack 6 of 10 blooming`: an odd word alone before a second share."""
    if c.site != "sentence" or c.words != 1 or after != c.j or s.lattice.known[c.i] or s.lattice.filler[c.i]:
        return False
    return (
        s.pieces[c.i].form == "word"
        and len(s.text(c.i)) > 3
        and _shared(s, c.j)
        and any(_shared(s, x) for x in range(c.i))
    )


def _shared(s: Surroundings, at: int) -> bool:
    return any(p.form == "n_of_m" for p in s.phrases[at])


def _a_stop_first(s: Surroundings, c: Candidate) -> bool:
    """`north corner first plant one`: where in the field the walk begins."""
    ends = [
        e.end
        for x in range(max(0, c.i - 2), c.i + 1)
        for e in s.lattice.edges[x]
        if e.kind == "WHEREWORD" and c.i < e.end and c.j - 1 <= e.end <= c.j and e.end - x > 1
    ]
    return any(s.text(end) == "first" and (not _first_plant_of(s, end) or first_plant(s, end + 1)) for end in ends)


_BEHIND_FIRST_PLANT_OF = _COMMON.words("plant") | {"one"}


def _first_plant_of(s: Surroundings, at: int) -> bool:
    return s.text(at + 1) in _BEHIND_FIRST_PLANT_OF


def _heads_a_sentence(s: Surroundings, c: Candidate, begun: float, rule: str | None) -> bool:
    """`hog wallow about forty percent at R5`: where the note goes from field to field, two words or more that mean
    nothing, at the head of a sentence, before a share or a stage."""
    told = begun >= 1.0 and rule in {"stage", "ratio", "percent", "sampled", "group", "lots"}
    return told and 1 < c.words <= 4 and _like_a_name(s, c)


def _like_a_name(s: Surroundings, c: Candidate) -> bool:
    """Words that mean nothing here, or that fields are named after; at least one of the former, or a noun of places."""
    strange = [odd(s.lattice, x) and not ends_as_talk(s.text(x)) for x in range(c.i, c.j)]
    return (any(strange) or bool(c.nouns)) and all(strange[x - c.i] or _may_be_named(s, x) for x in range(c.i, c.j))


_THEY = _LISTED.words("they")
_DIFFERS = _LISTED.words("differs")
_TIMES = _MEALS | _LISTED.words("times")


_FOR_PAST_THE_MEAL = _COMMON.words("about_an_hour") | {"this"}


def _past_the_meal(s: Surroundings, at: int) -> int | None:
    """`the Anders farm before lunch.`, `jorgensens this am.`, `Pickle patch after the hail.` at piece `at`: where the
    sentence ends behind the time."""
    weather = at + 1 + (s.text(at + 1) == "the")
    if s.text(at) in {"after", "since"} and weather < s.n and kinds(s, weather) & {"WEATHER", "DAMAGE"}:
        ends = weather + 1 >= s.n or s.pieces[weather + 1].form == "nl" or s.text(weather + 1) in {".", ",", ":"}
        return weather + 1 if ends else None
    if s.text(at) == "for":  # North block for the thesis, June thirtieth.
        comma = next((x for x in range(at + 2, min(at + 5, s.n)) if s.text(x) == ","), None)
        return comma + 1 if comma is not None and starts(s, comma + 1)[1] == "date" else None
    if s.text(at) not in _FOR_PAST_THE_MEAL or s.text(at + 1) not in _TIMES:
        return None
    return at + 2 if s.text(at + 2) in {".", ","} or at + 2 >= s.n or s.pieces[at + 2].form == "nl" else None


def past_the_lag(s: Surroundings, at: int) -> int | None:
    """`is behind, two of ten blooming`, `is a few days ahead, R4` at piece `at`: behind how the field differs; None where
    it does not."""
    if s.text(at) not in s.words.lag_verbs:
        return None
    end = at + 1
    while end < s.n and s.text(end) in s.words.lagging:
        end += 1
    return end if end < s.n and _DIFFERS & {s.text(x) for x in range(at + 1, end)} else None


_FOR_PAST_THE_CALL = _LISTED.words("for_past_the_call")
_BEHIND_PAST_THE_CALL = _LISTED.words("behind_past_the_call")


def _past_the_call(s: Surroundings, at: int) -> int | None:
    """`I would put at full pod`, `I'd call R3` at piece `at`: behind who calls it so."""
    if s.text(at) not in _FOR_PAST_THE_CALL:
        return None
    end = at + 1
    while s.text(end) in _CALLED:
        end += 1
    called = {s.text(x) for x in range(at, end)} & _BEHIND_PAST_THE_CALL
    return end if called and strength(s, end)[1] == "stage" else None


_CALLED = _LISTED.words("called")


def _past_the_hour(s: Surroundings, c: Candidate, after: int) -> int:
    """`got to dry fork about eight.`: behind the time of day that ends the sentence."""
    if s.text(c.j) not in {"about", "around", "at"} or after >= s.n or s.pieces[after].form not in {"word", "int"}:
        return after
    ends = [e.end for e in s.lattice.edges[after] if e.kind == "INT" and e.means <= 12]
    return max(ends) if ends and (max(ends) >= s.n or s.text(max(ends)) in {".", ","}) else after


def _before_an_end(s: Surroundings, c: Candidate, after: int) -> float | None:
    """The line or the sentence is over behind the name."""
    nl = s.pieces[after].form == "nl"
    at = after + 1
    while at < s.n and s.pieces[at].form == "nl":
        at += 1
    first, at = at, pass_fillers(s, at)  # the row of a plant that is called a
    begun = 2.0 if nl and s.lines[at] in s.table_lines else strength(s, at)[0]
    if c.site == "go" and c.bonus <= 0.5 and not c.title:
        return None
    led = (
        c.i > 0 and s.text(c.i - 1) in {"is", "at", "'s"} and c.words > 1 and first_plant(s, first)
    )  # first is turkey roost.
    if c.site == "sentence" and c.words <= 3 and (led or _counts_anew(s, c.i, first)) and _like_a_name(s, c):
        return 2.0  # now turkey roost. plant one
    on_a_line = nl and c.site == "line" and all(odd(s.lattice, x) for x in range(c.i, c.j))
    if (c.lone or on_a_line) and not s.lattice.known[c.i] and (_counts_anew(s, c.i, first) or _counts_anew(s, c.i, at)):
        return 2.0  # Redwing. Plant 1 ..., after another plant 1
    if begun >= 1.0:
        if c.site == "sentence" and not c.shows:
            return None
        follows = 0.9
    elif c.site == "sentence" and c.nouns and capital(s, c.i) and not nl and _early(s, c.i) and _alone(s, c.i):
        follows = 0.6
    elif c.site == "date" and (c.title or (c.nouns and c.words > 1 and capital(s, c.i))) and _early(s, c.i):
        follows = 0.6  # 20 June, Sawpit. There's ...
    elif (c.site == "note" and c.shows) or c.at_home:
        follows = 0.3
    else:
        return None
    return None if not (c.shows or c.site in {"field", "note"}) and begun < 1.5 else follows


def _counts_anew(s: Surroundings, i: int, at: int) -> bool:
    """Plant 1 begins at piece `at`, and there was a plant 1 before piece i."""
    return first_plant(s, at) and s.firsts[0] < i


_BEFORE_BEFORE_THE_FIRST = _LISTED.words("before_before_the_first")


def _behind_an_amount(s: Surroundings, i: int) -> bool:
    """`the gauge said point six mill creek july ninth`: how much it rained ends at piece i."""
    ends = any(e.kind == "DEC" and e.end == i for x in (i - 2, i - 1) if x >= 0 for e in s.lattice.edges[x])
    return ends and any(e.means == "rain gauge" for x in range(max(0, i - 5), i) for e in s.lattice.edges[x])


def _before_the_first(s: Surroundings, c: Candidate, at: int) -> float | None:
    """Plant 1 stands at piece `at`, or behind values of the head there."""
    before = s.text(c.i - 1) if c.i else ""
    staged = any(p.rule == "stage" and p.end == c.i for x in range(max(0, c.i - 3), c.i) for p in s.phrases[x])
    goes_on = c.i and (
        kinds(s, c.i - 1) & {"INT", "ORD"} or (odd(s.lattice, c.i - 1) and before not in _TIMES | SPANS_OF_TIME)
    )
    if c.i and noun_at(s, c.i) and kinds(s, c.i - 1) & _BEFORE_A_NOUN and not staged:
        return None  # sand | ridge
    goes_on = goes_on and not (going_on(s, c.i - 1) or _behind_an_amount(s, c.i))
    announced = before == "the" and c.i > 1 and s.text(c.i - 2) in _THEN
    after_and = before == "the" and c.i > 1 and s.text(c.i - 2) == "and" and s.several
    announced = announced or (after_and and s.text(c.j) == "has" and strength(s, c.j + 1)[1] == "ratio")
    if (before in _GOES_WITH and not announced) or (goes_on and not staged):
        return None  # hotter than a two dollar pistol: the words go on from what stands before them
    if c.i and any(e.kind == "FIELDNOUN" and e.end >= c.j for e in s.lattice.edges[c.i - 1]):
        return None  # quick one pump | house
    if before in _UNTIL and s.text(c.i) in _TIMES:
        return None  # an hour before dark pump house
    if kinds(s, c.i) & {"INT", "ORD"} and before in _BEFORE_BEFORE_THE_FIRST:
        return None  # are three turkey roost: R3
    near = range(max(0, c.i - 6), c.j)
    if any(p.rule in OF_THE_HEAD and p.start < c.j and p.end > c.i for x in near for p in s.phrases[x]):
        return None  # emerged may twenty | second north end
    if c.site == "midway" and _in_a_row(s, c):
        return 1.6
    spot = any(e.kind == "WHEREWORD" and e.end == c.j for x in range(c.i, c.j) for e in s.lattice.edges[x])
    if spot and not (odd(s.lattice, c.i) and noun_at(s, c.j - 1) and c.words > 1):  # catfish pond
        return None
    if c.site == "midway" and _begins_with_a_spot(s, c):
        return None  # palmer in the end rows mudcat lane is V three
    strange = [odd(s.lattice, x) and not ends_as_talk(s.text(x)) for x in range(c.i, c.j)]
    if not (c.nouns or any(strange) or acres_in_words(s, c.j - 1)) or not all(
        strange[x - c.i] or _may_be_named(s, x) for x in range(c.i, c.j)
    ):
        return None
    at = c.j if first_plant(s, c.j) else _past_a_spot(s, c.j, at)
    at += s.text(at) in {"next", "now"} and first_plant(s, at + 1)  # mays bottom next plant one
    if c.site == "midway":
        begun, rule = strength(s, at)
        named = any(strange) and (c.nouns or (s.several and not s.cased and rule in {"stage", "ratio"}))
        named = named or (
            _told_of(s, c, rule) and (noun_at(s, c.j - 1) or acres_in_words(s, c.j - 1) or _has_a_sister(s, c))
        )
        if not named or rule not in _OF_A_FIELD_IN_A_LIST - {"label", "date"}:
            return None
        a_row = c.words > 1 and s.text(c.j - 1) == "row" and rule in {"stage", "ratio"}
        sure = 1.5 if a_row else 1.0 if s.text(c.j) == "overall" else 0.9 if acres_in_words(s, c.j - 1) else 0.0
        return begun + sure
    if c.site == "daily":
        at += s.text(c.j) in THE_CROP and at == c.j  # pump house beans july sixth
        return 2.0 if c.nouns and starts(s, at)[1] == "date" else None
    while not first_plant(s, at) and at < s.n:
        ends = [p.end for p in s.phrases[at] if p.rule in OF_THE_HEAD]
        if not ends:
            return None
        at = pass_fillers(s, max(ends))
    if not first_plant(s, at):
        return None
    in_turn = s.several and not s.cased and c.words > 1 and any(strange)  # mulberry row seven of ten tin cup plant one
    return 2.0 if c.nouns or anew(s, at) or in_turn else None


_TWO = 2  # words
_IS = _COMMON.words("being_or_having")
_PARTS = _LISTED.words("parts")


def _told_of(s: Surroundings, c: Candidate, rule: str | None) -> bool:
    """`gumbo forty had eight of ten at V five`: two words or more, and a verb between them and what is said."""
    if c.words < _TWO or s.text(c.j - 1) in _PARTS:
        return False
    if s.text(c.j) == "overall":  # powder house overall R two
        return noun_at(s, c.j - 1) and strength(s, c.j + 1)[1] == "stage"
    return s.text(c.j) in _IS and rule in {"stage", "ratio"}


_MAY_BE = frozenset({"FIELDNOUN", "COMPASS", "WHEREWORD", "LETTER", "LOW", "TOP"})


_BEHIND_IN_A_ROW = _LISTED.words("behind_in_a_row")


def _in_a_row(s: Surroundings, c: Candidate) -> bool:
    """`catfish is V three old gin is V three airstrip is V two`: field by field, each with its stage."""
    if not s.several or s.text(c.j) not in {"is", "was"} or s.text(c.j - 1) in _PARTS or s.text(c.i - 1) == "the":
        return False
    told = strength(s, c.j + 1 + (s.text(c.j + 1) in _BEHIND_IN_A_ROW))[1]
    staged = [p for x in range(max(0, c.i - 3), c.i) for p in s.phrases[x] if p.rule == "stage" and p.end == c.i]
    if told != "stage" or not any(s.text(p.start - 1) in {"is", "was", "just"} for p in staged):
        return False
    words = [{e.kind for e in s.lattice.edges[x] if e.how == "exact" and e.end <= c.j} for x in range(c.i, c.j)]
    return all(not kinds - _MAY_BE for kinds in words) and not any(s.lattice.filler[x] for x in range(c.i, c.j))


def _has_a_sister(s: Surroundings, c: Candidate) -> bool:
    """`north airstrip ... south airstrip is V four`: told apart by the direction."""
    if c.words != 2 or s.text(c.i) not in s.words.compass or s.text(c.j - 1) in _PARTS:
        return False
    return any(
        s.text(x) == s.text(c.j - 1) and s.text(x - 1) in s.words.compass and s.text(x - 1) != s.text(c.i)
        for x in range(1, c.i)
    )


_BEFORE_BEGINS_WITH_A_SPOT = _COMMON.words("beside") | {"the"}


def _begins_with_a_spot(s: Surroundings, c: Candidate) -> bool:
    """A place in the field, announced as one, stands before the rest of the words."""
    before = s.text(c.i - 1) if c.i else ""
    return before in _BEFORE_BEGINS_WITH_A_SPOT and any(
        e.kind == "WHEREWORD" and c.i + 1 < e.end < c.j - 1 for e in s.lattice.edges[c.i]
    )


_FOR_PAST_A_SPOT = _COMMON.words("over_there")


def _past_a_spot(s: Surroundings, end: int, at: int) -> int:
    """Behind `out by the tower`, `across the creek`, which say where a field lies; `at` where none is said."""
    k = end + (s.text(end) == "field")
    while s.text(k) in _FOR_PAST_A_SPOT:
        k += 1
    if s.text(k) in BEYOND and s.text(k + 1) == "the":
        return pass_fillers(s, k + 3)
    return pass_fillers(s, k) if s.text(end) == "field" else at


def _may_be_named(s: Surroundings, i: int) -> bool:
    """A word of the trade that fields are named after as well: turkey roost, cane creek, sand ridge before its noun."""
    own = {e.kind for e in s.lattice.edges[i] if e.how == "exact"}
    if own == {"WHEREWORD"} and acres_in_words(s, i + 1):
        return True  # gumbo forty
    if s.text(i) == "row" and i and odd(s.lattice, i - 1):
        return True  # mulberry row
    return bool(own & NAMEY) or own <= _NAMED_AFTER or (noun_at(s, i + 1) and own <= _NAMED_AFTER | _BEFORE_A_NOUN)


def anew(s: Surroundings, at: int) -> bool:
    """Whether the plants of a note are counted from one again at a piece."""
    k = bisect_left(s.firsts, at)
    return first_plant(s, at) and k > 0 and at > _label_end(s, s.firsts[k - 1])


def _label_end(s: Surroundings, at: int) -> int:
    return max((p.end for p in s.phrases[at] if p.rule == "label"), default=at)


_FOR_BEFORE_NOTHING = _LISTED.words("for_before_nothing")


_TO_A_LENGTH = _COMMON.words("towards_a_length")
_PARTS_OF_IT = _COMMON.words("part_of_a_field")


def _so_many_plants(s: Surroundings, c: Candidate) -> bool:
    """`mill lot ten plants`: the plants that were looked at, and neither plants to the yard nor weeds."""
    ends = [p.end for p in s.phrases[c.j] if p.form == "n_plants"] if c.j < s.n else []
    weeds = any("WEED" in kinds(s, x) for x in range(c.i, c.j))
    part = s.text(c.j - 1) in _PARTS_OF_IT
    return bool(ends) and s.text(max(ends)) not in _TO_A_LENGTH and not weeds and not part


def _before_nothing(s: Surroundings, c: Candidate) -> float | None:
    """Words that begin nothing stand behind the name."""
    if c.site == "note" and c.title and c.words > 1 and s.text(c.j) == "," and _walked_that_day(s, c.j + 1):
        return 1.0
    if s.several and c.site == "sentence" and s.text(c.j) in _FOR_BEFORE_NOTHING and title(s, c.i, c.j):
        near = range(c.j + 1, min(c.j + 4, s.n))
        if any(s.text(x) == "did" or any(e.kind == "SAMPLED" for e in s.lattice.edges[x]) for x in near):
            return 1.6  # Calico I only pulled the one; Turkey Pen only did one plant
    if c.j < s.n and s.pieces[c.j].text in ",:(-|" and c.shows and c.site in {"note", "line", "date", "field", "go"}:
        return 0.3
    if s.several and c.site == "sentence" and s.text(c.j) == "," and c.title and c.nouns and c.words > 1:
        return 0.3  # Red Gate, a half inch of rain Sunday night, field is R3
    if _an_aside(s, c):
        return 1.0
    if _judged(s, c):
        return 1.6
    if c.at_home:
        return 0.0
    if c.site == "note" and c.nouns and c.words > 1 and _so_many_plants(s, c):
        return 0.4  # mill lot ten plants, six of the ten blooming
    if c.site == "note" and c.title:
        if c.words >= 2:
            return -0.3
        if c.nouns:
            return 0.0
    return None


_LOOKS = _COMMON.words("being") | _COMMON.words("looking") | {"stays", "still"}


def _judged(s: Surroundings, c: Candidate) -> bool:
    """`Top Forty is the furthest along. Plant 1`: how the field does, and behind that sentence its first plant."""
    named = title(s, c.i, c.j) or (bool(c.nouns) and capital(s, c.i))
    if c.site == "go" or not named or s.text(c.j) not in _LOOKS or not (c.words > 1 or c.nouns):
        return False
    for x in range(c.j + 1, min(c.j + _FAR, s.n)):
        if s.pieces[x].form == "nl" or s.text(x) in {".", ":", ";", "!"}:
            return first_plant(s, x + 1)
        if strength(s, x)[1] in _SURE | {"ratio"}:
            return False
    return False


_ASIDE = _LISTED.words("aside")
_FAR = 24  # words


def _an_aside(s: Surroundings, c: Candidate) -> bool:
    """`I'm on Ridge Ninety with the drone kid, plant one is at twelve nodes`: talk between the name and its plant 1."""
    if c.site not in {"go", "note", "anew"} or c.bonus < 0.9 or s.text(c.j) not in _ASIDE:
        return False
    if not (c.nouns or any(odd(s.lattice, x) for x in range(c.i, c.j))):
        return False
    for x in range(c.j + 1, min(c.j + _FAR, s.n)):
        if first_plant(s, x):
            return True
        if s.pieces[x].form == "nl" or any(e.kind == "GOCUE" and e.end > x + 1 for e in s.lattice.edges[x]):
            return False
    return False


_FOR_WALKED_THAT_DAY = _COMMON.words("looked") | _COMMON.words("pulled") | {"scouted", "walked"}


def _walked_that_day(s: Surroundings, at: int) -> bool:
    """`pulled these monday`, `walked it 9/21`: what was done in the field, and the day."""
    if s.text(at) not in _FOR_WALKED_THAT_DAY:
        return False
    for x in range(at + 1, min(at + 5, s.n)):
        if s.pieces[x].form in {"mark", "nl"}:
            return False
        if any(p.rule == "date" for p in s.phrases[x]):
            return True
    return False


def _too_weak(s: Surroundings, c: Candidate, begun: float, glued_mark: bool) -> bool:
    """Unknown words at the note's head before a weak beginning: no name."""
    return (
        c.site == "note"
        and not c.nouns
        and not glued_mark
        and c.j < s.n
        and (s.pieces[c.j].text not in ",:.-" or (c.words == 1 and not capital(s, c.i)))
        and begun < 1.5
        and (c.words == 1 or not c.title)
    )


def _share_before(s: Surroundings, i: int) -> bool:
    """`at blue heron six of ten blooming at the tannery three out of ten`: so the field before was named, and its share
    told."""
    if s.text(i - 1) != "the" or s.text(i - 2) != "at":
        return False
    shares = [x for x in range(i) if any(p.form == "n_of_m" for p in s.phrases[x])]
    return any(s.text(at) == "at" for x in shares for at in range(max(0, x - _NAME_AND_AT), x))


_NAME_AND_AT = 5  # pieces from `at` over a name to what is told of it


def _wrong_beginning(s: Surroundings, c: Candidate, rule: str | None) -> bool:
    """What begins behind the words is nothing that is said of a field first."""
    if c.site == "go" and c.bonus <= 0.5 and not c.title and rule not in _SURE | {"planted"}:
        told_before = rule == "ratio" and c.words == 1 and _share_before(s, c.i)
        led = s.text(c.i - 1) == "at" and s.text(c.i - 2) in {"then", "next", "now"}
        told_before = told_before or (
            led and c.words > 1 and rule in _TOLD_OF_A_FIELD
        )  # then at county line ninety percent
        return not (told_before or (c.nouns and c.words > 1 and rule in _TOLD_OF_A_FIELD))
    if (
        c.site == "sentence"
        and c.title
        and c.words > 1
        and s.text(c.j) == ":"
        and rule in _OF_A_FIELD_IN_A_LIST | {"trif", "nodes"}
    ):
        return False  # Burn Pile: 9 trifs, 9 trifs
    if s.several and title(s, c.i, c.j) and c.site in {"sentence", "comma", "line"} and rule in _OF_A_FIELD_IN_A_LIST:
        return False
    if c.lone and rule not in _SURE | {"ratio", "percent"}:
        return True
    if c.shows:
        return False
    return (c.site in {"sentence", "comma", "date"} and rule not in _SURE | {"ratio"}) or rule in _VAGUE


def _early(s: Surroundings, i: int) -> bool:
    """Within the first sentences of the note: where a name may stand alone."""
    return s.sentences[i] <= 2


def _alone(s: Surroundings, i: int) -> bool:
    return i == 0 or s.pieces[i - 1].text == "." or s.pieces[i - 1].form == "nl"
