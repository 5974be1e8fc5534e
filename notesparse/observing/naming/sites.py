"""The places of a note where the name of a field may stand, told by what stands before them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from typing import NamedTuple

from notesparse.language.cues import cue_page
from notesparse.lazy import dataclass
from notesparse.observing.naming.following import BEYOND, OF_THE_HEAD
from notesparse.observing.naming.growing import LONGEST
from notesparse.observing.naming.numbered import number_end
from notesparse.observing.naming.oddnames import odd
from notesparse.observing.naming.surroundings import (
    THE_CROP,
    Surroundings,
    found_before,
    kinds,
    noun_at,
    pass_fillers,
    strength,
    title,
    upper,
)
from notesparse.observing.naming.worth import ACRES, HOURS
from notesparse.reading.weights import phrase_cost
from notesparse.text.lattice import Edge

_LISTED = cue_page("naming/sites")
_COMMON = cue_page("shared")

_COUNTS = frozenset({"trif", "nodes", "flowers", "pods", "seeds", "height", "length", "percent", "ratio", "rows"})
_ELSEWHERE = frozenset({"OTHERCROP", "NEIGHBOR", "OTHERFIELD"})
_ANNOUNCING = _LISTED.words("announcing")
_HUMS = _LISTED.words("hums")
_NO_NAME = _LISTED.words("no_name")
_OPENS_TALK = _LISTED.words("opens_talk")
_ALONE_WEAKLY = _LISTED.words("alone_weakly")
_PARTED = ":-,–=|."
_MEANING_TO = _LISTED.words("meaning_to")
_SAID = frozenset({"stage", "trif", "nodes", "ratio", "percent", "flowers", "pods", "seeds", "state", "place", "where"})
_PARTS = _COMMON.words("part_of_a_field") | {"spot", "spots"}
_SURELY = 1.8
_HEAD_REACH = 8  # so many words has a value of the head at most
_AT_A_HEAD = {"note": 1.5, "line": 0.6, "sentence": 0.0}


class Site(NamedTuple):
    """A name may begin at piece `at`; what announces it begins at `cue_start`."""

    at: int
    kind: str  # note, line, sentence, date, comma, field, fieldword, fieldtalk, fieldno, go, skip, anew, daily, midway
    bonus: float
    cue_start: int


_OF_A_LETTER = _LISTED.words("of_a_letter")
_TURNS = _LISTED.words("turns")
_OPENS_A_NOTE = _LISTED.words("opens_a_note")
_OF_WHO_TALKS = _LISTED.words("of_who_talks")
_ENDS_TALK = frozenset({".", "!", "?"})


@dataclass(slots=True)
class _Reading:
    """How far the look-out for sites has come."""

    sites: list[Site] = field(default_factory=list)
    fresh: bool = True  # at a line's or sentence's beginning
    kind: str = "note"
    blocked: bool = False  # after another crop's or a neighbour's name, to the end of the sentence
    head: int = 0  # where the words of this clause begin, after fillers

    def begin(self, kind: str) -> None:
        self.fresh, self.kind, self.blocked = True, kind, False

    def add(self, at: int, kind: str, bonus: float, cue_start: int) -> None:
        self.sites.append(Site(at, kind, bonus, cue_start))


_BEANS_STAND = _COMMON.words("at_in_on")


def find_sites(s: Surroundings) -> list[Site]:
    """All sites, in order."""
    r = _Reading()
    for i, p in enumerate(s.pieces):
        if p.form == "nl":
            r.begin("note" if _only_a_date(s, i) or _only_talked(s, i) else "line")
        elif (
            p.text in {")", "."}
            and i
            and s.pieces[i - 1].form == "int"
            and i - 1 not in s.bare
            and _opens_line(s, i - 1)
        ):
            r.begin("line")  # 1) Stave Mill 70% podded
        elif p.text in ".;!?" and p.form == "mark" and (p.text == ";" or s.lattice.soft[i] is None):
            r.begin("note" if _only_talked(s, i) else "sentence")
        else:
            if not p.text.isascii() and p.form == "mark":
                r.begin(r.kind if r.fresh else "sentence")  # a picture parts what is said
                continue
            _at_piece(s, r, i)
    first_day = next((i for i in range(s.n) if _a_day(s, i)), None)
    if first_day is not None:  # kinda windy out here uh pelican flat july twenty second plant one
        r.sites += [site._replace(kind="daily") for site in _before_anew(s, first_day)]
    r.sites += [site for i in s.firsts for site in _before_anew(s, i)]
    sites = r.sites + _in_running_talk(s)
    addressed = _addressed(s)
    for i in (i for i in range(1, s.n - 2) if s.text(i) == "re" and s.text(i + 1) == ":" and s.lines[i] in addressed):
        sites.append(Site(i + 2, "go", 0.9, i))  # To: J.R.   Re: Gypsum Hill
    people = [x for x in sites if s.lines[x.at] in addressed and s.text(x.cue_start) != "re"]
    return [x for x in sites if s.text(x.at - 1) not in _MEANING_TO and x not in people]  # gonna spray


def _addressed(s: Surroundings) -> set[int]:
    """The lines `From: Tess`, `To: Roland`, `Marv,` at the head of a letter: people, and no fields."""
    heads = (i for i in range(s.n - 1) if s.text(i) in _OF_A_LETTER and s.text(i + 1) == ":")
    out = {s.lines[i] for i in heads if i == 0 or s.pieces[i - 1].form == "nl"}
    if [p.form for p in s.pieces[:4]] == ["word", "mark", "nl", "nl"] and s.text(1) == ",":
        out.add(0)  # Marv, and a line left free
    return out


_LONGEST_TALK = 14  # pieces
_GREETED_BY_NAME = 3  # pieces
_SAID_OF_A_FIELD = 1.0


def _only_talked(s: Surroundings, end: int) -> bool:
    """`Hi! Stony Knoll update`, `Alright, recording.` over `Ferry Landing`: nobody is more than greeted, or talked to, up to
    the stop or the line end at `end`, and no field can have been named."""
    if s.text(0) not in s.words.greetings | _OPENS_A_NOTE or end > _LONGEST_TALK:
        return False
    if not _ENDS_TALK & {s.text(end - 1), s.text(end)}:
        return False
    return all(_talk_at(s, x, end) for x in range(1, end))


def _talk_at(s: Surroundings, x: int, end: int) -> bool:
    """Piece x is no capital in the middle, no noun of places, and begins nothing that is said of a field."""
    if (upper(s, x) and end > _GREETED_BY_NAME and s.text(x) not in _OF_WHO_TALKS) or noun_at(s, x):
        return False
    begun, rule = strength(s, x)
    return begun < _SAID_OF_A_FIELD or rule == "findhead"


def _opens_line(s: Surroundings, i: int) -> bool:
    return i == 0 or s.pieces[i - 1].form == "nl"


_FOR_IN_RUNNING_TALK = _LISTED.words("for_in_running_talk")


def _in_running_talk(s: Surroundings) -> list[Site]:
    """Behind something that was said of a field or a plant, with no stop between (flint hill averaging four trifs coal
    dock is between R five and R six)."""
    ends = {p.end for here in s.phrases for p in here if p.rule in _SAID and phrase_cost(p) < _SURELY}
    ends |= {x + 1 for x in ends if x < s.n and "LEAF" in kinds(s, x)}  # brown spot on the lower leaves | catfish pond
    sites = []
    for end in sorted(ends):
        at = end
        while at < s.n and at < end + 2 and s.text(at) in _FOR_IN_RUNNING_TALK:
            at += 1
        if at < s.n and s.pieces[at].form == "word":
            sites.append(Site(at, "midway", -1.0, at))
    return sites


def _before_anew(s: Surroundings, i: int) -> list[Site]:
    """The plants are counted from one again at piece i, with no stop before: what stands there names another field
    (plant three just buds tanglewood plant one). A date or a planting may stand between."""
    end = i
    while begun := [x for x in range(max(0, end - _HEAD_REACH), end) if _head_ends(s, x, end)]:
        end = begun[0]
    while end and s.lattice.filler[end - 1] and not s.lattice.known[end - 1]:
        end -= 1
    end -= end > 1 and s.text(end - 1) in THE_CROP  # pump house beans july sixth
    if end and s.text(end - 1) in {"next", "now"}:
        end -= 1  # mays bottom next plant one
    if end > 3 and s.text(end - 3) in BEYOND and s.text(end - 2) == "the":
        end -= 3  # the sand ridge across the creek plant one
    if end and s.text(end - 1) in {"field", "out"}:
        end -= 1
    start = end
    while start and end - start < LONGEST and s.pieces[start - 1].form in {"word", "int"}:
        start -= 1
    cues = [e.end for x in range(start, end) for e in s.lattice.edges[x] if e.kind == "GOCUE" and x + 1 < e.end < end]
    start = max([start, *cues])  # last place fiddler bend plant one: behind the words of going
    if any(p.rule == "stop" for x in range(max(0, start - 2), end) for p in s.phrases[x]):
        return []  # stop two by the pump plant one: counted anew for the stop
    if end - start == 1 and s.text(start - 1) == "the" and found_before(s, start - 2):
        return []  # washed out at the culvert plant one
    return [Site(x, "anew", -1.0, x) for x in range(start, end)]


def _head_ends(s: Surroundings, x: int, end: int) -> bool:
    """A value of the head stands at pieces [x, end)."""
    return any(p.rule in OF_THE_HEAD and p.end == end for p in s.phrases[x])


def _before_field(s: Surroundings, r: _Reading, i: int) -> None:
    """`it's the hog lot field`, `for lower chute field`, `Kite field`: the words back to what announces them."""
    if i and s.text(i - 1) in _PARTS:
        return  # in the sandy part field's R seven
    if s.text(i - 1) == "tip" and s.text(i - 2) in {"the", "very"}:
        return  # pods full clear to the tip field's R6
    for start in range(max(0, i - 3), i):
        before = s.text(start - 1) if start else ""
        opens = start == 0 or s.pieces[start - 1].form in {"nl", "mark"} or before in _ANNOUNCING
        opens = opens or before in _OPENS_TALK  # that was airport field okay lake field is v six
        if opens and all(s.pieces[x].form == "word" and s.pieces[x].text not in _NO_NAME for x in range(start, i)):
            while start < i and s.text(start) in _HUMS:
                start += 1  # uh field's R7; okay kite field
            if start < i:
                r.add(start, "before", 1.0, start)
            return


def _a_day(s: Surroundings, i: int) -> bool:
    """A full date begins at piece i that is no planting day."""
    before = {e.kind for x in range(max(0, i - 3), i) for e in s.lattice.edges[x]}
    return not before & {"PLANTED", "EMERGED", "PASTCUE"} and any(
        ph.rule == "date" and ph.form not in {"ord_day", "weekday", "today", "yesterday", "md"} for ph in s.phrases[i]
    )


def _only_a_date(s: Surroundings, end: int) -> bool:
    """Only a date stands before the line end at piece `end`: the head of the note goes on."""
    at = pass_fillers(s, 0)
    return (
        any(ph.rule == "date" and pass_fillers(s, ph.end, _PARTED) == end for ph in s.phrases[at])
        if at < end
        else False
    )


def _at_piece(s: Surroundings, r: _Reading, i: int) -> None:
    p, edges = s.pieces[i], s.lattice.edges[i]
    cues = {e.kind: e for e in sorted(edges, key=lambda e: e.end)}  # the longest of each kind
    led = max((e.end for e in edges if e.kind == "GOCUE"), default=0)  # across the road at pivot nine
    elsewhere = {e.kind: e.end for e in edges if e.kind in _ELSEWHERE and e.end > led and not _crop_before(s, i)}
    if elsewhere:
        of_a_crop, r.blocked = r.blocked and s.text(max(elsewhere.values())) == "is", True  # corn next door is tasseled
        if "OTHERCROP" not in elsewhere and not of_a_crop:
            _next_door(s, r, i, max(elsewhere.values()))
    cue_end = cues["FIELDCUE"].end if "FIELDCUE" in cues else 0
    covered = any(e.kind in {"OVERALL", "CALLING", "SKIPIT"} and e.end >= cue_end for e in edges)
    if p.text == ",":
        r.head = i + 1
    if not s.lines[i] and not s.sentences[i] and i and _a_day(s, i):
        _behind_a_date(s, r, i, 0.2)  # from the road friday june twenty six quail hollow the beans look good
    if not s.lines[i] and i and p.gap >= 3 and p.form == "word" and not s.shouted:
        r.add(i, "date", 0.6, i)  # CARD 14      Weir Bottom
    if p.text == "@" and p.form == "mark" and i + 1 < s.n and r.fresh:
        r.add(i + 1, "go", 0.9, i)  # @ stoney creek
    elif p.text == "@" and p.form == "mark" and upper(s, i + 1) and not (s.shouted or r.blocked):
        r.add(i + 1, "go", 0.9, i)  # 20 plants @ Cattail N
    if p.text == "on" and s.cased and title(s, i + 1, min(i + 3, s.n)) and _only_the_way(s, i) and not r.blocked:
        r.add(i + 1, "go", 0.9, i)  # South of the tracks on Long Hollow
    if p.text == "field" and p.form == "word":
        _before_field(s, r, i)
        _the_field_of(s, r, i)
    if p.text in {"thats", "that"} and not r.blocked:
        at = i + 1 + (p.text == "that" and s.text(i + 1) in {"'s", "is"})
        at += at > i + (p.text == "that") and s.text(at) == "the"  # thats the Twelve Acre
        if at < s.n and at > i + (p.text == "that") and (upper(s, at) or noun_at(s, at + 1)) and s.text(at) != "i":
            r.add(at, "go", 0.9, i)  # thats Gin Lot
    if p.text in _WERE and told_behind_it(s.text, i) and not r.blocked:
        at = to_the_place(s.text, i + 1) or s.n
        if at < s.n and s.pieces[at].form == "word":
            r.add(at, "go", 2.5, i)  # those two were at hales piece
    if r.fresh and p.text == "now" and i + 2 < s.n and upper(s, i + 1) and upper(s, i + 2):
        r.add(i + 1, "go", 2.5, i)  # now Long Row
    if r.fresh and p.text in THE_CROP and s.text(i + 1) in _BEANS_STAND:
        r.add(i + 2 + (s.text(i + 2) == "the"), "go", 0.3, i)  # corn's tall. beans on sugar ditch plant one
    if r.fresh:
        _at_a_head(s, r, i)
    if "FIELDCUE" in cues and not _talked_over(s, i, cue_end):
        _behind_a_field_cue(s, r, i, cues["FIELDCUE"])
    if covered and p.text in {"field", "fld"} and _a_form_with_an_odd_word(s, i):
        r.add(i + 2, "field", 2.5, i)  # FIELD = Teakettle
        covered = False
    not_visited = cues.get("NOTVISITED") if not covered else None
    if not_visited is not None:
        r.blocked = True
    if "GOCUE" in cues:
        _behind_a_going(s, r, i, cues["GOCUE"])
    arrived = _arrived(s, i)
    if arrived is not None and arrived > (cues["GOCUE"].end if "GOCUE" in cues else 0) and not r.blocked:
        past = _past_the_road(s, arrived)
        r.add(arrived + (s.text(arrived) == "the") if past is None else past, "go", 0.9, i)
    over = _over_the_road(s, i) if arrived is None and not r.blocked else None
    if over is not None:
        r.add(over, "go", 0.9, i)  # Okay, over the road to Ferris West
    if covered:
        _not_the_whole_field(s, r, i)
    if not_visited is not None and s.text(not_visited.end) == "then":
        r.blocked = False  # dugout twenty i never got to then the sandy eighty
    elif not_visited is not None:
        r.add(pass_fillers(s, not_visited.end), "skip", 4.5, i)
    if p.text == "," and not r.blocked and i + 1 < s.n:
        r.add(i + 1, "comma", -0.3, i + 1)
        for end in {ph.end for ph in s.phrases[i + 1] if ph.rule == "date"}:
            r.add(end, "comma", 0.3, end)  # R2, today Tanner Hill most 8tf
        if s.text(i + 1) in {"and", "&", "then"} and i + 2 < s.n:
            r.add(i + 2, "comma", -0.3, i + 1)  # R2, and Lost Boot R1
    if p.text == ":" and i - r.head <= 4 and i + 1 < s.n and upper(s, i + 1) and not r.blocked:
        r.add(i + 1, "comma", -0.3, i + 1)  # ok the list: Bluff Road V5


def _crop_before(s: Surroundings, i: int) -> bool:
    """`behind the wheat`, `after rye`: the crop that stood there before."""
    return any(e.kind == "OTHERFIND" and e.end > i for k in range(max(0, i - 4), i) for e in s.lattice.edges[k])


_FOR_TOLD_BEHIND_IT = _LISTED.words("for_told_behind_it")


def told_behind_it(text: Callable[[int], str], i: int) -> bool:
    """`all of that was`, `those two were` up to the verb at piece i: what stands behind is where it was."""
    k = i - 1
    while k >= 0 and text(k) in _SO_MANY:
        k -= 1
    if text(i) in {"is", "are", "'s"}:  # all of this is, these are all
        every = "all" in {text(x) for x in (k - 2, k - 1, i + 1)}
        return every and text(k) in _FOR_TOLD_BEHIND_IT
    return text(k) in {"that", "those", "these"} or (
        text(k) == "this" and "all" in {text(k - 1), text(k - 2), text(i + 1)}
    )


_FOR_TO_THE_PLACE = _COMMON.words("over_there")


def to_the_place(text: Callable[[int], str], i: int) -> int | None:
    """`at`, `up at`, `all from` at piece i: where the name begins behind them."""
    i += text(i) == "all"
    i += text(i) in _FOR_TO_THE_PLACE
    return i + 1 + (text(i + 1) == "the") if text(i) in {"at", "from"} else None


_WERE = _COMMON.words("being")
_SO_MANY = _LISTED.words("so_many")
_BEHIND_NEXT_DOOR = _LISTED.words("behind_next_door")


def _next_door(s: Surroundings, r: _Reading, i: int, end: int) -> None:
    """`Next door in Grindstone, plant one`, `Across the blacktop, Dairy Lane, that one's R1`: the way to a field that is
    named at once."""
    if s.text(end) in _BEHIND_NEXT_DOOR or (s.text(end) == "," and upper(s, end + 1) and s.text(end + 1) != "the"):
        at = end + 1 + (s.text(end + 1) == "the")
        if at < s.n and s.pieces[at].form == "word":
            r.add(at, "go", 0.9, i)


_WAYS = frozenset({"COMPASS", "FIELDNOUN", "WHEREWORD", "LOW", "TOP"})


_FOR_ONLY_THE_WAY = _LISTED.words("for_only_the_way")


def _only_the_way(s: Surroundings, at: int) -> bool:
    """The sentence up to piece `at` tells where a field lies, and nothing else."""
    i, told = at - 1, False
    while i >= 0 and s.pieces[i].form == "word":
        way = bool(kinds(s, i) & _WAYS) or s.text(i) in s.words.compass
        told = told or way
        if not (way or s.lattice.filler[i] or s.text(i) in _FOR_ONLY_THE_WAY):
            return False
        i -= 1
    return told


_FOR_THE_FIELD_OF = _LISTED.words("for_the_field_of")


def _the_field_of(s: Surroundings, r: _Reading, i: int) -> None:
    """`in the field of Grey Heron`, `from the field Two Willows`: written with a capital."""
    if not s.cased or s.text(i - 1) != "the" or r.blocked:
        return
    k = i + 1
    while s.text(k) in _FOR_THE_FIELD_OF:
        k += 1
    if k + 1 < s.n and upper(s, k) and not kinds(s, k) & {"R", "V", "PLANT", "MONTH", "WEEKDAY"}:
        r.add(k, "field", 2.5, i)


def _at_a_head(s: Surroundings, r: _Reading, i: int) -> None:
    """At the beginning of the note, a line or a sentence, and behind a date there."""
    r.fresh = False
    k = i if i in s.bare else pass_fillers(s, i, ":-,–=()#^")
    r.head = k
    if k >= s.n or s.pieces[k].form == "nl":
        return
    bonus = _AT_A_HEAD[r.kind]
    r.add(k, r.kind, bonus, i)
    counted = _past_a_count(s, k)
    if counted is not None:
        r.add(counted, r.kind, bonus, i)  # aphid ct Linden sq 8/1
    if k != i and not r.blocked and (s.pieces[i].text == "the" or _begins_a_name(s, i, k)):
        r.add(i, r.kind, bonus, i)  # the Gable; Little Bend
    _behind_a_date(s, r, k, 1.0)


def _past_a_count(s: Surroundings, i: int) -> int | None:
    """`aphid ct`, `sds rating` at piece i: what the page is about; behind these words."""
    ends = [e.end for e in s.lattice.edges[i] if e.kind in {"INSECT", "DISEASE", "WEED"} and e.how == "exact"]
    end = max(ends, default=s.n)
    return end + 1 if s.text(end) in s.words.of_a_count and end + 1 < s.n and s.pieces[end + 1].form == "word" else None


def _begins_a_name(s: Surroundings, i: int, k: int) -> bool:
    """`Little Bend`, `First Bottom`: a word that mostly carries nothing, before the rest of a name."""
    if k != i + 1:
        return False
    hour = s.text(i) in HOURS and s.cased and title(s, i, k + 1)  # Noon Branch
    return (
        s.text(i) == "little"
        or (hour and (noun_at(s, k) or s.text(k) in ACRES))
        or (s.text(i) in {"first", "second", "third"} and noun_at(s, k) and s.text(k) not in {"field", "stop", "fld"})
    )


def _behind_a_date(s: Surroundings, r: _Reading, k: int, bonus: float) -> None:
    """`Jun 4, '84   Culvert Forty`, `9/8/20 | Quarry Bottom`: the name is the next thing on the line."""
    for ph in s.phrases[k]:
        if ph.rule != "date" or ph.form in {"ord_day", "weekday"}:
            continue
        d = pass_fillers(s, ph.end, _PARTED)
        year = d
        while s.text(year) in {"'", ","}:
            year += 1
        if year > d and year < s.n and s.pieces[year].form == "int" and len(s.text(year)) in {2, 4}:
            d = pass_fillers(s, year + 1, _PARTED)
        if d < s.n and not _NO_NAME_BEHIND & {s.text(x) for x in range(ph.end, d + 1)}:
            r.add(d, "date", bonus, d)


_NO_NAME_BEHIND = _LISTED.words("no_name_behind")


def _talked_over(s: Surroundings, i: int, cue_end: int) -> bool:
    """A word for the whole field, or for calling a field a stage, goes over the cue at piece i."""
    return any(
        e.kind in {"OVERALL", "CALLING"}
        for k in range(max(0, i - 4), i + 1)
        for e in s.lattice.edges[k]
        if e.end > i and e.end >= cue_end
    )


_NEXT_CELL = 3  # blanks before the next cell of a page


def _an_edge_of_it(s: Surroundings, i: int) -> bool:
    """`3 per 25 sweeps, field edge`: at piece i begins a place in the field, which is no name, in small letters."""
    part = any(e.kind == "WHEREWORD" and e.end == i + 2 for e in s.lattice.edges[i])
    return part and s.text(i) == "field" and not upper(s, i + 1) and s.text(i - 1) == ","


def _behind_a_field_cue(s: Surroundings, r: _Reading, i: int, cue: Edge) -> None:
    """`field: Nine Mile`, `field 6`, `field looks rough`."""
    if _an_edge_of_it(s, i):
        return
    k = pass_fillers(s, cue.end, ":-?=|," if cue.end - i > 1 else ":-?=|")  # next field, paddock nine
    at_int = cue.end
    while at_int < min(s.n, cue.end + 2) and s.pieces[at_int].text in s.words.number_signs:
        if s.text(at_int) == "." and at_int + 1 < s.n and s.pieces[at_int + 1].form == "word":
            break  # out of the Sluice field. Eleven trifs on each
        at_int += 1
    past = number_end(s, at_int)
    if past is not None and past < s.n and s.pieces[at_int].gap >= _NEXT_CELL and "MONTH" in kinds(s, past):
        past = None  # Brick Yard field      27 July 2005
    called = s.pieces[cue.end - 1].text == "called"
    if past is not None and cue.means == "field" and s.pieces[i].text in {"field", "fld"} and not called:
        counted = _counts(s, at_int, past) or _of_a_piece(s, past)
        if not counted and (not i or s.pieces[i - 1].text != "the"):
            r.add(i, "fieldno", 3.0, i)  # field 6, and not `middle of the field: 13 nodes`
        words = s.pieces[at_int].form == "word" and len(s.text(at_int)) > 1
        if (words or _of_a_piece(s, past)) and (past < s.n and s.pieces[past].form == "word"):
            r.add(k, "field", 2.5, i)  # field: Nine Mile
    elif s.pieces[cue.end - 1].text in s.words.asking_for_a_name and not (
        cue.end < s.n and (s.pieces[cue.end].text in ":?=" or cue.end - i >= 2)
    ):
        if k < s.n:
            r.add(k, "fieldword" if i <= r.head else "fieldtalk", 1.0, i)
    elif k < s.n:
        r.add(k, "field", 2.5, i)


def _a_form_with_an_odd_word(s: Surroundings, i: int) -> bool:
    if i + 2 >= s.n or s.pieces[i + 1].text not in {"=", ":", "?"}:
        return False
    titled = s.cased and i + 3 < s.n and s.pieces[i + 3].form == "word" and title(s, i + 2, i + 4)
    return odd(s.lattice, i + 2) or (titled and not kinds(s, i + 2) & {"R", "V", "STAGENAME"})


def _of_a_piece(s: Surroundings, past: int) -> bool:
    """`field 80 acre piece`: the size in a name, and no number of the field."""
    return s.text(past) in {"acre", "acres", "ac"} and noun_at(s, past + 1)


def _counts(s: Surroundings, at: int, past: int) -> bool:
    """Whether the number at pieces [at, past) counts what stands behind it."""
    return any(
        len(q.path) > 1
        and q.path[1][0] == past
        and q.rule in _COUNTS
        and not (q.form == "n_plants" and q.end < s.n and s.pieces[q.end].form == "int")
        for q in s.phrases[at]
    )


def _behind_a_going(s: Surroundings, r: _Reading, i: int, cue: Edge) -> None:
    """`went to the Gable`, `now at Nine Mile`."""
    text = s.pieces[i].text
    if r.blocked and not (cue.end - i >= 2 and text not in s.words.standing) and not _our_beans_at(s, i):
        return
    if "ORD" in kinds(s, i) and "MONTH" in kinds(s, i - 1):
        return  # august third stop one by the silo
    if s.text(cue.end) == "," and text in _TURNS and (not i or s.pieces[i - 1].form in {"mark", "nl"}):
        r.add(cue.end + 1, "go", 0.9, i)  # Next, the forty seven.
    if _a_finding_ends(s, i, cue.end):
        return  # washed out at the culvert
    past = _past_the_road(s, cue.end)
    if past is not None:
        r.add(past, "go", 0.9, i)
        return
    weak = text in s.words.weakly_going or (cue.end - i == 1 and text in _ALONE_WEAKLY)
    strong = 0.3 if weak else 0.9
    if s.text(cue.end) == "the" or _next_one(s, cue.end):
        r.add(cue.end + 1, "go", strong, i)
    if not _next_one(s, cue.end):
        r.add(cue.end, "go", strong, i)


def _next_one(s: Surroundings, i: int) -> bool:
    """`Next one cave spring six of ten podding`: the word at piece i is of the turn, and not of the name, unless written so
    (`Next One Horse Bend`)."""
    return s.text(i) == "one" and s.text(i - 1) == "next" and not upper(s, i)


_FOR_OUR_BEANS_AT = _COMMON.words("over_there") | {"here"}


def _our_beans_at(s: Surroundings, i: int) -> bool:
    """`the sorghum has eight leaves anyhow the beans here at possum trot`: behind another crop it is our beans again."""
    at = i - 1
    while at > 0 and s.text(at) in _FOR_OUR_BEANS_AT:
        at -= 1
    return s.text(at) in {"beans", "soybeans"} and s.text(at - 1) in {"the", "our", "my"}


def _a_finding_ends(s: Surroundings, i: int, end: int) -> bool:
    """The last word of a finding is taken for one of going (washed out | at), and small letters follow."""
    near = (e for x in range(max(0, i - 3), i) for e in s.lattice.edges[x])
    small = not (s.cased and upper(s, end + (s.text(end) == "the")))
    if small and s.text(i) == "standing" and "water" in {s.text(i - 1), s.text(end)}:
        return True  # water standing in the sw hole, the road is standing in water
    cut = any(e.kind == "DAMAGE" and e.how == "exact" and e.end in {i, i + 1} for e in near)
    at = end + (s.text(end) == "the")
    return cut and s.text(at - 1) == "the" and not (s.cased and at < s.n and upper(s, at))


_ROADS = _COMMON.words("road") | _COMMON.words("landmark")
_ROAD_REACH = 3


_BEHIND_PAST_THE_ROAD = _LISTED.words("behind_past_the_road")


def _past_the_road(s: Surroundings, at: int) -> int | None:
    """`came around by the county road to coffin corner`, `starting at the lane in Coulee North`: behind the way that leads
    there; None where what stands there leads to no name."""
    if s.text(at) != "the":
        return None
    road = next((x for x in range(at + 1, min(at + 1 + _ROAD_REACH, s.n)) if s.text(x) in _ROADS), None)
    if road is None or s.text(road + 1) not in _BEHIND_PAST_THE_ROAD:
        return None
    to = road + 2 + (s.text(road + 2) == "the")
    if to + 1 >= s.n or s.pieces[to].form != "word" or s.lattice.filler[to]:
        return None
    return to if (s.cased and title(s, to, to + 2)) or not s.lattice.known[to] or noun_at(s, to + 1) else None


def _arrived(s: Surroundings, i: int) -> int | None:
    """Where `drove on around to` or `went back across to`, that begins at piece i, is over; None if nothing such begins."""
    if s.text(i) not in s.words.moving:
        return None
    k = i + 1
    while k < i + 7:
        if s.text(k) == "the" and s.text(k - 1) in _OVER:
            k += 2  # walked across the road to Gristmill, crossed the road into Gristmill
        elif s.text(k) in s.words.ways:
            k += 1
        else:
            break
    return k + 1 if s.text(k) in s.words.arriving and (k > i + 1 or s.text(k) == "by") else None


_EDGES = _ROADS | _LISTED.words("edges")


def _over_the_road(s: Surroundings, i: int) -> int | None:
    """`over the road to Elm West`, `back up the hill to Birch Hollow`, at piece i: where what is arrived at begins; no verb
    says that somebody went, so it has to look like a name."""
    at = i
    head = i - (s.text(i - 1) == ",") if i else 0
    head -= head > 0 and s.text(head - 1) in _OPENS_TALK | _HUMS
    if head and s.pieces[head - 1].form != "nl" and s.text(head - 1) not in {".", ";"}:
        return None  # weeds spread, down the ditch to Highway 9
    while s.text(at) in s.words.ways and at < i + 3:
        at += 1
    if at == i or s.text(at) != "the" or s.text(at + 1) not in _EDGES or s.text(at + 2) not in s.words.arriving:
        return None
    to = at + 3 + (s.text(at + 3) == "the")
    if to + 1 >= s.n or s.pieces[to].form != "word" or s.lattice.filler[to]:
        return None
    return to if title(s, to, to + 1) else None


_OVER = _LISTED.words("over")


def _not_the_whole_field(s: Surroundings, r: _Reading, i: int) -> None:
    """A word for the whole field stands at piece i: no name begins there, or is announced from there."""
    r.sites = [site for site in r.sites if site.at != i and site.cue_start != i]
    if s.pieces[i].text in {"field", "fld"} and i + 2 < s.n and s.pieces[i + 1].text in {"is", "'s", "was"}:
        r.add(pass_fillers(s, i + 2), "fieldtalk", 1.0, i)
