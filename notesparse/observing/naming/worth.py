"""What one word is worth inside a name; None where no name holds it."""

from __future__ import annotations

from notesparse.language.cues import cue_page
from notesparse.language.lists import odd_name_words
from notesparse.observing.naming.oddnames import misspelled
from notesparse.observing.naming.surroundings import NAMEY, Surroundings, capital, kinds, noun_at, noun_in, title, upper

_COMMON = cue_page("shared")
_LISTED = cue_page("naming/worth")

NOUN, UNKNOWN, DIRECTION, NUMBERED_NOUN = 2.0, 1.0, 0.8, 0.3
_ORGANIC = frozenset(
    {"BEAN", "INCH", "MM", "CM", "POD", "SEED", "FLOWER", "TRIF", "NODE", "NODES", "SCAR", "UNI", "COT"}
)
_SAYING = frozenset(
    {
        "FLAT",
        "POD",
        "FLOWER",
        "SEED",
        "ALMOST",
        "NOT",
        "NO",
        "PLANCUE",
        "PASTCUE",
        "NEIGHBOR",
        "OTHERFIELD",
        "CORRECT",
        "TAKEBACK",
        "NOTVISITED",
        "GOCUE",
    }
)
_OPENS_A_SAYING = frozenset(
    {
        "GOCUE",
        "NEXT",
        "NO",
        "NOT",
        "NONE",
        "SAME",
        "SAMEAS",
        "ALMOST",
        "OVERALL",
        "CALLING",
        "AVERAGE",
        "MOST",
        "EARLY",
        "HEDGE",
        "ONLY",
        "STILL",
        "CORRECT",
        "TAKEBACK",
        "PASTCUE",
        "PLANCUE",
        "MIL",
        "NOTVISITED",
        "SKIPIT",
        "LOTS",
        "HALF",
        "ALLOF",
        "NONEOF",
        "REST",
        "DITTO",
        "EMERGED",
        "COT",
        "UNI",
    }
)
_FOUND = frozenset({"WEED", "INSECT", "DISEASE"})
_FOUND_THERE = frozenset({"WEATHER", "DAMAGE"})
_PATCH = _LISTED.words("patch")
_WHERE_IT_GROWS = _COMMON.words("beside") | {"all"}
MAY_BE_NAMED = frozenset({"WHEREWORD", "LOW", "TOP", "UPTOP", "LONG", "BRANCH", "TIP", "WEATHER", "DAMAGE", "WEED"})
_COLOURS = frozenset({"BROWN", "GREEN", "YELLOW"})
SPANS_OF_TIME = _LISTED.words("spans_of_time")
_COUNTED_BEHIND = SPANS_OF_TIME | _LISTED.words("counted_behind")


def word_worth(s: Surroundings, i: int, first: bool) -> float | None:
    """What the word at piece i adds to a name that it begins (`first`) or goes on."""
    p = s.pieces[i]
    if p.form == "mark":
        return _mark_worth(s, i)
    if not first and s.text(i - 1) == "field" and upper(s, i - 2) and not upper(s, i) and kinds(s, i) & _FOUND_THERE:
        return None  # that's the Shorty field hail nicked some leaves
    if p.form in {"nl", "dec", "big", "dmy"}:
        return None
    own = kinds(s, i)
    if "NODEFIG" in own or (first and p.text in s.words.of_the_form):
        return None
    if not first and p.text == "field" and _strange(s, i + 1):
        return None  # observation record field abbey meadow
    if not first and p.text == "same" and s.text(i + 1) in _DAY_OR_PART:
        return None  # the melon patch same afternoon
    if not first and p.text == "no" and s.pieces[min(i + 1, s.n - 1)].form == "word":
        return None  # Vineyard strip no weeds
    if "FIELDNOUN" in own and own & {"INT", "ORD"}:
        return NUMBERED_NOUN
    if own & NAMEY:
        return NOUN if "FIELDNOUN" in own else DIRECTION
    if (
        misspelled(s.lattice, i)
        and s.text(i + 1) != "'s"
        and ((s.cased and not capital(s, i)) or not noun_at(s, i + 1))
    ):
        return None  # Parked Hill
    if not first and p.text in odd_name_words().done and not capital(s, i):
        return None  # rotary hoed june 10
    if not first and p.text == "a" and _the_first_letter(s, i):
        return 1.0
    if _span_of_time(s, i, own) or (not first and p.text in s.words.never_inside):
        return None  # nettle bend 4 days post hail
    if p.form == "int" or p.text in {"'s", "s"}:
        return 0.0
    if not first and s.pieces[i - 1].text == "'s" and capital(s, i):
        return 0.5  # Weaver's Rest
    if first:
        if p.text == "the":
            return 0.3
        if _little_egypt(s, i):
            return 0.5
        if _never_first(s, i, own):
            return None
        settled = _first_worth(s, i, own)
        if settled is not None:
            return settled
    return _plain_worth(s, i, own, first)


def _the_first_letter(s: Surroundings, i: int) -> bool:
    """`Mill strip A 8/11`, `Test block A.`: the letter of a field, behind a noun of places and before a day or the end."""
    if s.lattice.original(i, i + 1) != "A" or "FIELDNOUN" not in kinds(s, i - 1):
        return False
    at = i + 1 + (s.text(i + 1) == ",")
    over = i + 1 >= s.n or s.pieces[i + 1].form == "nl" or s.text(i + 1) == "."
    return over or (at < s.n and any(ph.rule == "date" for ph in s.phrases[at]))


def _span_of_time(s: Surroundings, i: int, own: set[str]) -> bool:
    """`4 days`, `ten more`, `27th`: figures that say something else than a name."""
    if s.pieces[i].form == "int" and any(e.kind == "ORD" for e in s.lattice.edges[i]):
        return True
    number = s.pieces[i].form == "int" or "INT" in own
    if s.pieces[i].form == "int" and s.text(i + 1) == "s" and s.pieces[i + 1].glued:
        return True  # 15s
    return number and s.text(i + 1) in _COUNTED_BEHIND


def _mark_worth(s: Surroundings, i: int) -> float | None:
    p = s.pieces[i]
    if p.text == "." and s.lattice.soft[i] is not None and i + 1 < s.n and kinds(s, i + 1) & NAMEY:
        return 0.0
    if p.text == "." and (_cut_short(s, i) or before_its_number(s, i)):
        return 0.0
    return -0.1 if p.text == "-" and p.glued else None


_SHORT = 6  # letters of a word that is cut short


def _cut_short(s: Surroundings, i: int) -> bool:
    """`Pheas. strip:`: a dot behind a capital that means nothing, and a noun of places in small letters that ends a head."""
    before = s.cased and i > 0 and capital(s, i - 1) and _strange(s, i - 1) and len(s.text(i - 1)) <= _SHORT
    over = i + 2 < s.n and s.pieces[i + 2].text in {":", ",", "-"} and not s.pieces[i + 2].glued
    over = over or s.text(i + 2) in {":", ","}
    return before and over and noun_at(s, i + 1) and not capital(s, i + 1)


_NUMBERED_SHORT = _LISTED.words("numbered_short")


def before_its_number(s: Surroundings, i: int) -> bool:
    """`Sec. 4 South`, `Blk. 7`: the dot at piece i cuts short the word for a piece of land, and its number stands behind."""
    if s.text(i) != "." or s.text(i - 1) not in _NUMBERED_SHORT or not s.pieces[i].glued or i + 1 >= s.n:
        return False
    return s.pieces[i + 1].form == "int" and s.pieces[i + 1].gap <= 1


def _never_first(s: Surroundings, i: int, own: set[str]) -> bool:
    p = s.pieces[i]
    if "MONTH" in own and kinds(s, i + 1 if i + 1 < s.n else i) & {"ORD", "INT"}:
        return True  # this is may twenty sixth
    if (
        "OTHERCROP" in own
        and upper(s, i)
        and not s.lines[i] == 0
        and s.pieces[i - 1].form == "nl"
        and _plant_at(s, i + 1)
    ):
        return False  # Buckwheat p1 one brown pod: a field that is named so
    if _titled_line(s, i):
        return False
    if p.text in s.words.never_first or p.text in odd_name_words().done or ("PLANT" in own and not upper(s, i)):
        return True
    elsewhere = own & {"OTHERCROP", "NEIGHBOR", "OTHERFIELD"} or any(
        e.kind in {"NEIGHBOR", "OTHERFIELD"} for e in s.lattice.edges[i]
    )
    if elsewhere and not (noun_at(s, i + 1) or _strange(s, i + 1)):
        return True
    if "ORD" in own and not noun_in(s, i + 1, i + 3):
        return True
    if grows_there(s, i):
        return True
    return any(e.end > i + 1 and e.how == "exact" and e.kind in _SAYING for e in s.lattice.edges[i])  # knocking on R3


_SIZED = _COMMON.words("sized")
ACRES = frozenset({"20", "30", "40", "60", "80", "120", "160"})
"""Acres of a field, as they stand in its name (parts of a section of 640; common practice, no source)."""
HOURS = _COMMON.words("part_of_a_day")


_BEFORE_LITTLE_EGYPT = _LISTED.words("before_little_egypt")


def _little_egypt(s: Surroundings, i: int) -> bool:
    """`At Little Egypt`, `drove to little egypt`: a word of size before one that means nothing here."""
    if s.text(i) in HOURS:
        acres = s.text(i + 1) in ACRES and capital(s, i)
        return s.cased and (acres or (noun_at(s, i + 1) and title(s, i, i + 2)))  # Noon Branch, Noon 40
    told = capital(s, i) and s.cased if s.cased else s.text(i - 1) in _BEFORE_LITTLE_EGYPT
    return s.text(i) in _SIZED and told and _strange(s, i + 1) and (not s.cased or upper(s, i + 1))


def grows_there(s: Surroundings, i: int) -> bool:
    """`waterhemp patch by the pole`, in small letters: a weed, and where it is; `thistle patch` alone may be a field."""
    found = [e.end for e in s.lattice.edges[i] if e.kind in _FOUND]
    at = max(found, default=0)
    at += s.text(at) in _PATCH
    return bool(found) and s.text(at) in _WHERE_IT_GROWS and not capital(s, i)


def _titled_line(s: Surroundings, i: int) -> bool:
    """`Cut Bank - 60% of the pods brown`: a line's head of two words, each with its capital, before a dash or a colon."""
    return (
        not s.shouted
        and (i == 0 or s.pieces[i - 1].form == "nl")
        and s.text(i + 2) in {"-", "–", ":"}
        and not s.pieces[i + 2].glued
        and title(s, i, i + 2)
        and (noun_at(s, i + 1) or s.text(i + 1) in s.words.ends_a_title)
        and not any(e.how == "exact" and e.kind not in {"LETTER", "FIELDNOUN", "COMPASS"} for e in s.lattice.edges[i])
    )


def _plant_at(s: Surroundings, i: int) -> bool:
    return i < s.n and any(p.form in {"plant_n", "plant_ord"} for p in s.phrases[i])


def _strange(s: Surroundings, i: int) -> bool:
    return i < s.n and not s.lattice.known[i] and s.pieces[i].form == "word" and not s.lattice.filler[i]


def _first_worth(s: Surroundings, i: int, own: set[str]) -> float | None:
    """The worth of a first word that is settled by the word behind it."""
    if (
        s.lattice.filler[i]
        and s.pieces[i].text in s.words.before_a_noun
        and i + 1 < s.n
        and (noun_at(s, i + 1) or s.pieces[i + 1].form == "int")
    ):
        return 0.8  # back forty
    if "OTHERCROP" in own and noun_at(s, i + 1) and upper(s, i) and upper(s, i + 1):
        return 0.5  # Barley Island
    return None


_BEFORE_PLAIN_WORTH = _LISTED.words("before_plain_worth")


def _plain_worth(s: Surroundings, i: int, own: set[str], first: bool) -> float | None:
    p = s.pieces[i]
    if own & {"MONTH", "WEEKDAY", "TODAY", "YESTERDAY"} and p.text != "may":
        return None if first else -2.5
    if (
        "PLANT" in own
        and not first
        and s.cased
        and upper(s, i)
        and upper(s, i - 1)
        and s.text(i + 1) in {"field", "fld"}
    ):
        return 0.5  # Cement Plant field
    if own & {"PCT", "NUMBERW", "PLANT"} and not first:
        return None
    if p.text == "first" and not first and not capital(s, i):
        return None  # kettle forty first ok
    if any(e.kind in _ORGANIC and e.how == "exact" for e in s.lattice.edges[i]) and not (
        first
        and noun_at(s, i + 1)
        and (
            title(s, i, i + 2)
            or (s.several and capital(s, i) and s.text(i + 2) == ",")
            or s.text(i - 1) in _BEFORE_PLAIN_WORTH
        )
    ):  # Seed House; next is seed house
        return UNKNOWN if _scar_in_a_title(s, i, first) else None
    if own & {"INT", "ORD"}:
        return -0.35
    if s.lattice.filler[i] and not first and s.cased and capital(s, i) and len(p.text) > 2:
        return 0.3  # Brine Well
    if s.lattice.filler[i]:
        return -0.2 if p.text in s.words.inside and not first else None
    exact = {e.kind for e in s.lattice.edges[i] if e.end == i + 1 and e.how == "exact"} - {"LETTER"}
    return _trade_worth(s, i, exact, first) if exact else UNKNOWN  # a near word is no meaning


def _scar_in_a_title(s: Surroundings, i: int, first: bool) -> bool:
    """`Miller Stub - R2`: a capital behind a capital that means nothing, and a dash behind both; in small letters at the
    head of a line, with its day behind it (`miller stub same day`)."""
    if first or "SCAR" not in kinds(s, i) or s.pieces[i].text.endswith("s") or not _strange(s, i - 1):
        return False
    heads = i == 1 or s.pieces[i - 2].form == "nl" or (s.text(i - 2) == "." and s.lattice.soft[i - 2] is None)
    if heads and i + 1 < s.n and (_title_over(s, i + 1) or _same_day(s, i + 1)):
        return True
    return title(s, i - 1, i + 1) and (s.text(i + 1) in {"-", ":", ","} or (i == 1 and _title_over(s, i + 1)))


_DAY_OR_PART = _COMMON.words("part_of_a_day") | {"date", "day"}
_OF_A_DAY = _LISTED.words("of_a_day")


def _same_day(s: Surroundings, i: int) -> bool:
    """`same day`, `(same day)`, `the same afternoon` at piece i."""
    while s.text(i) in _OF_A_DAY:
        i += 1
    return s.text(i) == "same" and s.text(i + 1) in _DAY_OR_PART


def _title_over(s: Surroundings, i: int) -> bool:
    """The first line of the page ends at piece i, or its date begins there."""
    return i >= s.n or s.pieces[i].form == "nl" or any(p.rule == "date" for p in s.phrases[i])


def _numbered_place(s: Surroundings, i: int) -> bool:
    """A place in a field and a number, alone on a line or before a colon, and no other such number in the note."""
    heads = i == 0 or s.pieces[i - 1].form == "nl"
    alone = i + 2 >= s.n or s.pieces[i + 2].form == "nl" or s.text(i + 2) == ":"
    again = any(x != i and s.text(x) == s.text(i) and s.pieces[x + 1].form == "int" for x in range(s.n - 1))
    compound = len(s.text(i)) > _SHORT_PLACE
    return heads and compound and i + 1 < s.n and s.pieces[i + 1].form == "int" and alone and not again


_SHORT_PLACE = 6  # letters: hill 2, gate 3 and knoll 1 are stops


_BEHIND_GOES_OVER = _LISTED.words("behind_goes_over")


def _goes_over(s: Surroundings, i: int) -> bool:
    """Behind the word at piece i goes talk of something else."""
    return i + 1 < s.n and s.text(i + 1) in _BEHIND_GOES_OVER


def _trade_worth(s: Surroundings, i: int, exact: set[str], first: bool) -> float | None:
    """The worth of a word that means something in the trade."""
    if first and i + 1 < s.n and exact <= {"HALF", "FRAC"} and title(s, i, i + 2):
        return 0.2  # Half Moon
    if first and exact & _OPENS_A_SAYING:
        return None
    if first and exact <= _COLOURS and (noun_at(s, i + 1) or (_strange(s, i + 1) and title(s, i, i + 2))):
        return 0.4  # brown pond, Green Door
    large = capital(s, i)
    if first and exact == {"WHEREWORD"} and _numbered_place(s, i):
        return 1.8  # sandhill 3: p1 ..
    if first and not s.cased and exact <= MAY_BE_NAMED and noun_at(s, i + 1):
        return 0.4  # burn pile, cane creek
    if not first and exact & {"OVERALL", "CALLING", "AVERAGE", "LOTS", "MOST"}:
        return None
    if not first and exact & {"PLANCUE", "PASTCUE"} and not large and s.cased:
        return None  # Dad says R3
    if not first and exact <= MAY_BE_NAMED | _COLOURS and title(s, i - 1, i + 1) and _goes_over(s, i):
        return 0.15  # Harrow Green after supper
    return -0.2 if exact <= MAY_BE_NAMED and (large or not first) else -1.0
