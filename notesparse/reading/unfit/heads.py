"""Dates, rows, pages and groups in the head of a note: what looks like one and is none."""

from __future__ import annotations

import itertools

from notesparse.language.cues import cue_page
from notesparse.reading.phrase import Phrase
from notesparse.reading.unfit.beside import kinds, text
from notesparse.text.lattice import Lattice

_LISTED = cue_page("unfit/heads")
_COMMON = cue_page("shared")

_COUNTED = frozenset(
    {"PCT", "TRIF", "TRIPS", "NODE", "NODES", "INCH", "MM", "CM", "FOOT", "OF", "OUTOF", "POD", "SEED", "FLOWER"}
)
_UNITS = frozenset({"MM", "CM", "INCH", "TRIF", "TRIPS", "NODE", "NODES"})


def before_count(lattice: Lattice, p: Phrase) -> bool:
    """`pl 1 3 mm pods`: a day with a unit behind it is none."""
    return bool(kinds(lattice, p.end) & _COUNTED)


def no_two_digits(lattice: Lattice, p: Phrase) -> bool:
    """`group two nine` is 2.9; `group 3 15 inch rows` and `group 12 4` are not said so."""
    return any(e.kind == "INT" and not 0 <= int(e.means) <= 9 for _, e in p.path)


_TO_MATURITY = _LISTED.words("to_maturity")


def no_group(lattice: Lattice, p: Phrase) -> bool:
    """`full maturity, 12.4`: the stage, and the moisture of the grain; groups go up to 9.9 (or 99 without the point)."""
    said = next((at for at, e in p.path if e.kind == "GROUP"), p.start)
    word = text(lattice, said)
    if word == "maturity" and text(lattice, said + 1) != "group" and text(lattice, said - 1) in _TO_MATURITY:
        return True
    comma = any(text(lattice, x) == "," for x in range(p.start, p.end))
    return any(
        (e.kind == "DEC" and float(e.means) >= 10) or (comma and e.kind == "INT" and int(e.means) >= 10)
        for _, e in p.path
    )


_PEOPLE_DO = _LISTED.words("people_do")
_WE_ARE = _LISTED.words("we_are")


def group_of_people(lattice: Lattice, p: Phrase) -> bool:
    """`group 3 forgot the clipboard`, `we're group 2`: who did the walking, and no maturity group."""
    if p.path[0][1].kind != "GROUP" or text(lattice, p.start) not in {"group", "grp", "team"}:
        return False
    return text(lattice, p.end) in _PEOPLE_DO or text(lattice, p.start - 1) in _WE_ARE


_OTHER_UPS = _LISTED.words("other_ups")


def another_up(lattice: Lattice, p: Phrase) -> bool:
    """`july third first up is swede hill`, `trucks are lined up`: no plants that are up."""
    ups = [x for x in range(p.start, p.end) if text(lattice, x) == "up"]
    return any(text(lattice, x - 1) in _OTHER_UPS for x in ups)


_FOR_UP_THERE = _COMMON.words("up_there")


def up_there(lattice: Lattice, p: Phrase) -> bool:
    """`biggest up there 3/8`: a place, and no day of emergence."""
    inside = {text(lattice, x) for x in range(p.start, p.end)}
    if text(lattice, p.start) == "up" and text(lattice, p.start + 1) == ",":
        return True  # 6th one rolled up, third 6 trifs
    if another_up(lattice, p) or text(lattice, p.start - 1) == "from":
        return True  # first node from up and also in the third
    return bool(inside & _FOR_UP_THERE)


def month_of_the_next(lattice: Lattice, p: Phrase) -> bool:
    """`levee nine september sixth`: the month has its day behind it; `whistle stop 24 jul`: the figure is the day."""
    if "STOP" in {e.kind for _, e in p.path}:
        return "MONTH" in kinds(lattice, p.end)
    spoken = lattice.pieces[p.start].form == "word"
    dated = {e.kind for _, e in p.path} >= {"ORD", "OF"}  # the twentieth of august, first one is ...
    return spoken and not dated and "ORD" in kinds(lattice, p.end)


_LONGEST_MONTH = 31
_COUNTS_PLANTS = _COMMON.words("plants") | {"stalks", "stems"}


def count_behind_the_month(lattice: Lattice, p: Phrase) -> bool:
    """`Plum Thicket 10 sept. 6 of 10 plants`: the figure before the month is its day, and the one behind it counts."""
    month = next((at for at, e in p.path if e.kind == "MONTH"), p.start)
    before = [e for e in lattice.edges[month - 1] if e.kind in {"INT", "ORD"} and e.end == month] if month else []
    if not any(1 <= int(e.means) <= _LONGEST_MONTH for e in before) or text(lattice, p.end - 1) == "th":
        return False
    k = p.end + (text(lattice, p.end) == "out")
    if text(lattice, k) in {"of", "/"}:
        return "INT" in kinds(lattice, k + 1)
    return text(lattice, p.end) in _COUNTS_PLANTS


_ROWS_OF = _LISTED.words("rows_of")


def rows_into_the_field(lattice: Lattice, p: Phrase) -> bool:
    """`cupping on e side 40 rows in, drift`: how far, and no inches."""
    behind = lattice.pieces[p.end + 1] if p.end + 1 < len(lattice.pieces) else None
    over = behind is None or behind.form in {"mark", "nl"} or behind.text in {"from", "on", "and"}
    return text(lattice, p.end - 1) in {"rows", "row"} and text(lattice, p.end) == "in" and over


def rows_walked(lattice: Lattice, p: Phrase) -> bool:
    """`went in 40 rows`, `on the west 20 rows`: so many rows, and no spacing."""
    counted = {e.kind for _, e in p.path} == {"INT", "ROWS"} and p.path[0][1].kind == "INT"
    before = p.start - 1 - (text(lattice, p.start - 1) in {"in", "about", "over"})
    return counted and text(lattice, before) in _ROWS_OF


_BEFORE_OF_THEM = _LISTED.words("before_of_them")


def of_them(lattice: Lattice, p: Phrase) -> bool:
    """`quick run of em for wednesday`: of them, and no emergence."""
    return text(lattice, p.start) == "em" and (
        text(lattice, p.start - 1) in _BEFORE_OF_THEM or text(lattice, p.start + 1) in {"for", "on", "this"}
    )


def of_the_pod(lattice: Lattice, p: Phrase) -> bool:
    """`seeds filling 3/4 of the pod`: no date."""
    return text(lattice, p.end) == "of" and bool({"pod", "cavity"} & {text(lattice, p.end + x) for x in (1, 2)})


def pods_and_no_day(lattice: Lattice, p: Phrase) -> bool:
    """`1  13 tf  pd 3/16`, `Pl 5 - one pod tan`: a label, leaves or flowers stand before it, or a dash in it."""
    if text(lattice, p.start) not in {"pd", "pl", "p"}:
        return False
    if any(e.kind == "INT" and lattice.pieces[at].form != "int" and e.how != "figure" for at, e in p.path):
        return True
    if text(lattice, p.start) == "pl" and any(e.kind in {"DMY", "MONTH"} for _, e in p.path):
        return False  # 12 plants, pl. 5/3/00: a whole day, which no plant is followed by
    i = p.start - 1
    while (
        i >= 0 and lattice.pieces[i].form != "nl" and not (text(lattice, i) in {".", ";"} and lattice.soft[i] is None)
    ):
        if text(lattice, i) in {"plants", "plts"} and _counted_plants(lattice, i):
            i -= 1  # five flagged plants, pl. 5/3
            continue
        if kinds(lattice, i) & {"BARE", "PLANT", "PLETTER", "TRIF", "FLOWER", "NODE", "NODES", "SEED"}:
            return True
        i -= 1
    begins = i + 1 < p.start and lattice.pieces[i + 1].form == "int" and i + 2 == p.start
    return text(lattice, p.start) == "pd" and begins


def _counted_plants(lattice: Lattice, i: int) -> bool:
    """`12 plants`, `five flagged plants`: so many of them, and no labels behind."""
    before = any(kinds(lattice, k) & {"INT"} for k in (i - 1, i - 2) if k >= 0)
    return before and i + 1 < len(lattice.pieces) and lattice.pieces[i + 1].form != "int"


def row_of_plants(lattice: Lattice, p: Phrase) -> bool:
    """`Plt 3   3 trif.` on one line and `Plt 4   4 tnf.` on the next: a plant, and no planting on the fourth of April."""
    word, i = text(lattice, p.start), p.start - 1
    if word not in {"plt", "pl", "p"} or (i >= 0 and lattice.pieces[i].form != "nl"):
        return False
    heads = [x + 1 for x in range(max(0, i)) if lattice.pieces[x].form == "nl"]
    return any(text(lattice, x) == word and lattice.pieces[x + 1].form == "int" for x in heads if x + 1 < p.start)


def plant_and_value(lattice: Lattice, p: Phrase) -> bool:
    """`pl 1 - 22`: a plant, a dash and its value; a day is written with the dash stuck to it."""
    loose = any(text(lattice, x) == "-" and not lattice.pieces[x].glued for x in range(p.start, p.end))
    return text(lattice, p.start) in {"pl", "plt", "p"} and loose


_FIRST_SOWN, _LAST_SOWN = 3, 8
"""Months in which beans are sown, north of the equator (common practice, no source)."""


def labels_and_no_day(lattice: Lattice, p: Phrase) -> bool:
    """`plt1-5 V6`: figures stuck to a short word for plant are its labels."""
    at = p.start + 1
    piece = lattice.pieces[at] if at < p.end else None
    if text(lattice, p.start) not in {"plt", "pl", "p"} or piece is None:
        return False
    named = any(e.kind == "MONTH" for _, e in p.path)
    months = [int(e.means) for _, e in p.path if e.kind == "INT" and not named][:1]
    in_season = all(_FIRST_SOWN <= m <= _LAST_SOWN for m in months)
    counted = _leaves_behind(lattice, p.end) and not named  # pl 6-9 two tri
    return (piece.glued and piece.form == "int") or not in_season or counted  # pl 1-3 pods 1 in.


def _leaves_behind(lattice: Lattice, i: int) -> bool:
    """A count of leaves begins at piece i: `two tri`."""
    ends = [e.end for e in lattice.edges[i] if e.kind == "INT"] if i < len(lattice.pieces) else []
    return any(kinds(lattice, end) & {"TRIF", "NODES"} for end in ends)


def no_page(lattice: Lattice, p: Phrase) -> bool:
    """`p. 2` at a line's end, or on a line of its own; elsewhere it may be a plant."""
    i, j = p.start, p.end
    pieces = lattice.pieces
    ends = j >= len(pieces) or pieces[j].form in {"nl", "mark"} or pieces[j].gap >= 3
    begins = i == 0 or pieces[i - 1].form == "nl"
    if text(lattice, i) != "p":
        return not (ends or begins)
    return not (ends and (pieces[i].gap >= 3 or begins)) or text(lattice, i + 1) != "."


_BEHIND_TEN_FOUR = _LISTED.words("behind_ten_four")


def ten_four(lattice: Lattice, p: Phrase) -> bool:
    """`10-4 on that`."""
    said = "".join(text(lattice, x) for x in range(p.start, p.end))
    return said == "10-4" and text(lattice, p.end) in _BEHIND_TEN_FOUR


def words_between(lattice: Lattice, p: Phrase) -> bool:
    """`the last day of April I've got twelve nodes`: no April 12."""
    inside = set(range(p.start, p.end)) - {x for at, e in p.path for x in range(at, e.end)}
    return any(lattice.pieces[x].form == "word" and text(lattice, x) not in {"the", "of", "on"} for x in inside)


def in_rows(lattice: Lattice, p: Phrase) -> bool:
    """`27 jul 30s`: the rows are thirties, and no July 30."""
    return text(lattice, p.end) == "s" and lattice.pieces[p.end].glued and text(lattice, p.end - 1).isdigit()


def a_bullet(lattice: Lattice, p: Phrase) -> bool:
    """`* plants 1-3: 8 trifs` over `* plant 4: 9`: a mark at the head of each line, and no correction."""
    others = itertools.chain(range(p.end, len(lattice.pieces)), range(p.start - 1, -1, -1))  # the next line first
    return _bullet_at(lattice, p.start) and any(_bullet_at(lattice, i) for i in others)


def _bullet_at(lattice: Lattice, i: int) -> bool:
    pieces = lattice.pieces
    heads = pieces[i].text == "*" and (i == 0 or pieces[i - 1].form == "nl")
    return heads and i + 1 < len(pieces) and not pieces[i + 1].glued


def apart(lattice: Lattice, p: Phrase) -> bool:
    """`4Jul26`, `4-Jul-26` are dates; the same with blanks are not."""
    return any(not lattice.pieces[x].glued for x in range(p.start + 1, p.end))


def drilled_on_a_day(lattice: Lattice, p: Phrase) -> bool:
    """`15 in. drilled May 20`: the word says when the beans were sown."""
    if text(lattice, p.end - 1) != "drilled" or p.end >= len(lattice.pieces):
        return False
    day = text(lattice, p.end + 1) in {"/", "-", "."} and lattice.pieces[p.end].form == "int"
    return (
        day
        or "MONTH" in kinds(lattice, p.end)
        or lattice.pieces[p.end].form in {"dmy", "dec"}
        or text(lattice, p.end) == "on"
    )


_BEFORE_IN_THE_THIRTIES = _LISTED.words("before_in_the_thirties")


def in_the_thirties(lattice: Lattice, p: Phrase) -> bool:
    """`highs in the thirties` are no rows."""
    return bool(p.path) and p.path[0][1].kind == "ROWWORD" and text(lattice, p.start - 1) in _BEFORE_IN_THE_THIRTIES


def goes_on_in_strokes(lattice: Lattice, p: Phrase) -> bool:
    """`5/5/6/5/4 trif`: counts, and no date."""
    return text(lattice, p.end) == "/" or text(lattice, p.start - 1) == "/"


_IS_OF_A_FIELD = _LISTED.words("is_of_a_field") | {"R", "V"}


def somebodys_acres(lattice: Lattice, p: Phrase) -> bool:
    """`the Kern forty's a mix`, `dahl eighty's still V6`: land by its acres, behind its name."""
    word = p.path[0][1].kind == "INT" and lattice.pieces[p.start].form == "word"
    owned = text(lattice, p.end - 1) == "'s" and text(lattice, p.end) in _IS_OF_A_FIELD
    before = p.start > 0 and lattice.pieces[p.start - 1].form == "word" and not lattice.known[p.start - 1]
    return word and owned and before


def cells_in_strokes(lattice: Lattice, p: Phrase) -> bool:
    """`5 / 10 / no pods`, `1/11/yes`: cells of a row parted by strokes, and no day; `Quail Run / 7/14 / beans` is one."""
    strokes = [x for x in range(p.start, p.end) if text(lattice, x) == "/"]
    beside = [x for x in (p.start - 1, p.end) if text(lattice, x) == "/"]
    return any(lattice.pieces[x].glued == lattice.pieces[y].glued for x in strokes for y in beside)


def rows_apart(lattice: Lattice, p: Phrase) -> bool:
    """`the east edge rows, forty mites a leaflet`; `closed on the 15s`."""
    if text(lattice, p.start - 1) == "the" and text(lattice, p.start - 2) == "on":
        return True
    first = p.path[0][1]
    said = any(e.kind == "INCH" for _, e in p.path) or text(lattice, p.end) == '"'
    if text(lattice, p.start) == "row" and first.end == p.start + 1 and not said:
        return True  # planter row 7 is short a tube
    return any(text(lattice, x) == "," for x in range(p.start, p.end))


_USUAL_ROWS = frozenset(
    {7.5, 10.0, 15.0, 20.0, 22.0, 28.0, 30.0, 32.0, 34.0, 36.0, 38.0, 40.0, 42.0}
)  # inches, common practice


def side_of_a_field(lattice: Lattice, p: Phrase) -> bool:
    """`Sec 27S 7 of 10 blooming`: a field by its number and side, behind a word that means nothing here, and no rows."""
    at, last = p.path[-1]
    if last.kind != "ROWSUFFIX" or lattice.original(at, at + 1) != "S" or not p.start or lattice.known[p.start - 1]:
        return False
    return lattice.pieces[p.start - 1].form == "word" and float(p.path[0][1].means) not in _USUAL_ROWS


_HOW_FAR_BACK = 4  # pieces from the height back to the weed


def rows_of_weeds(lattice: Lattice, p: Phrase) -> bool:
    """`ragweed 12 in. in the row`, `foxtail ten inches between the rows`: how high a weed is, and where it stands."""
    unit = next((i for i, e in p.path if e.kind == "INCH"), None)
    if unit is None or not any(text(lattice, i) in {"between", "in"} for i in range(unit + 1, p.end)):
        return False
    for i in range(p.start - 1, max(-1, p.start - _HOW_FAR_BACK - 1), -1):
        if "WEED" in kinds(lattice, i):
            return True
        if lattice.pieces[i].form in {"mark", "nl"} and text(lattice, i) != ",":
            return False
    return False


def rows_of_a_size(lattice: Lattice, p: Phrase) -> bool:
    """`two rows of 4 inch corn`, `between rows of 6 inch weeds`: how high something stands, and not how far apart the rows."""
    if not any(e.kind == "OF" for _, e in p.path):
        return False
    behind = p.end < len(lattice.pieces) and lattice.pieces[p.end].form == "word"
    return (behind and text(lattice, p.end - 1) in {"in", "inch"}) or bool(kinds(lattice, p.start - 1) & {"INT"})


def not_glued_s(lattice: Lattice, p: Phrase) -> bool:
    """`7 1/2s`: the row spacing has an s."""
    return not lattice.original(p.start, p.end).endswith("s") or float(p.path[0][1].means) not in {7.5, 10, 15}


def not_said_of_beans(lattice: Lattice, p: Phrase) -> bool:
    """`bean is a 2.9`, and no `beans .25`."""
    return text(lattice, p.path[-1][0] - 1) not in {"a", "are"} or bool(kinds(lattice, p.end) & _UNITS)


def cut_decimal(lattice: Lattice, p: Phrase) -> bool:
    """`group three point six`: the group is 3.6, and neither 3 nor 0.6."""
    first = p.path[0]
    if p.path[0][1].kind == "GROUP":
        return text(lattice, p.end) == "point" and bool(kinds(lattice, p.end) & {"DEC"})
    before = kinds(lattice, p.start - 1) & {"INT", "INTSOUND"} if p.start else set()
    return text(lattice, first[0]) == "point" and bool(before)


_FOR_GROUP_OF_THE_TOP = _LISTED.words("for_group_of_the_top")


def group_of_the_top(lattice: Lattice, p: Phrase) -> bool:
    """`flowers on both of the top two nodes`, `on all four of the top nodes`: nodes of one plant, and no plants."""
    i = p.end
    while text(lattice, i) in _FOR_GROUP_OF_THE_TOP or "INT" in kinds(lattice, i):
        i += 1
    return bool(kinds(lattice, i) & {"TOP", "TOPSOUND"})


_DEVICES = _LISTED.words("devices")


def a_device_says(lattice: Lattice, p: Phrase) -> bool:
    """`moisture tester says 14.2`, `rain gauge said six tenths`: measured, and nobody's word."""
    return text(lattice, p.start) in {"says", "said", "say"} and text(lattice, p.start - 1) in _DEVICES


_EACH = _LISTED.words("each")


def so_many_to_each(lattice: Lattice, p: Phrase) -> bool:
    """`aphids 5-10 a plant`, `2-3 per sweep`: from so many to so many, and no day."""
    if not any(text(lattice, x) == "-" for x in range(p.start, p.end)):
        return False
    return text(lattice, p.end) in _EACH or "INSECT" in kinds(lattice, p.end)


def part_of_a_section(lattice: Lattice, p: Phrase) -> bool:
    """`Petersen E 1/2`, `NW 1/4`: the half or the quarter of a section of land that lies there."""
    written = lattice.original(p.start, p.end).replace(" ", "")
    if not written.isascii():
        return True  # W½: one sign, and no month and day
    return written in {"1/2", "1/4"} and "COMPASS" in kinds(lattice, p.start - 1)


def range_of_plants(lattice: Lattice, p: Phrase) -> bool:
    """`Pls. 1-5, 10 tri.`: from the one plant to the other."""
    i = p.start - 1 - (text(lattice, p.start - 1) == ".")
    return i >= 0 and "PLANT" in kinds(lattice, i) and any(text(lattice, x) == "-" for x in range(p.start, p.end))


def written_as_a_name(lattice: Lattice, p: Phrase) -> bool:
    """`R3 here, Walt.`, `Hale 12 nodes`: a word with a capital that is like one of the trade and is none, set off at the end
    of a sentence or before a count at its head."""
    own = lattice.original(p.start, p.end)
    repaired = p.end == p.start + 1 and all(e.how != "exact" for _, e in p.path)
    if not repaired or not (own[:1].isupper() and own[1:].islower()):
        return False
    over = p.end >= len(lattice.pieces) or lattice.pieces[p.end].form == "nl" or text(lattice, p.end) in {".", "!"}
    counted = "INT" in kinds(lattice, p.end) and bool(kinds(lattice, p.end + 1) & {"TRIF", "NODES", "NODE"})
    return (text(lattice, p.start - 1) == "," and over) or (lattice.opens(p.start) and counted)


HOLDS = _LISTED.words("holds")


_FOR_HOW_FULL = _COMMON.words("being") | {"about", "at"}


def how_full(lattice: Lattice, p: Phrase) -> bool:
    """`bins 1/8`, `the tank is 3/4`: how full something is, and no day."""
    at = p.start - 1
    at -= text(lattice, at) in _FOR_HOW_FULL
    alone = at < 1 or text(lattice, at - 1) == "the" or lattice.pieces[at - 1].form in {"mark", "nl"}
    return alone and text(lattice, at) in HOLDS and text(lattice, p.end - 1) in {"2", "4", "8"}
