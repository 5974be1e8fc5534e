"""Where a finding was seen: fixed places, and `by the tile intake` in the scout's own words (guide 4.20)."""

from __future__ import annotations

from collections.abc import Callable

from notesparse.language.cues import cue_page
from notesparse.language.lists import name_words
from notesparse.observing.finding.units import amount, longest, number, share, text_at
from notesparse.text.lattice import Lattice

_LISTED = cue_page("finding/whereabouts")
_COMMON = cue_page("shared")

PREPOSITIONS = _LISTED.words("prepositions")
_PLAIN = _COMMON.words("at_in_on")  # left out before a fixed place: on the end rows -> end rows
_ARTICLES = _LISTED.words("articles")
_OBJECTS = _LISTED.words("objects")
_ENDS = _LISTED.words("ends")
_COMPASS = _LISTED.words("compass")
_OUTER = _LISTED.words("outer")
_NUMBERED = _LISTED.words("numbered")
_STEM = ("TOP", "LOW", "UPTOP", "MIDPLANT", "NEARTOP")
Stop = Callable[[int], bool]


_FOR_PLACE = _LISTED.words("for_place")
_FOR_PLACE_2 = _LISTED.words("for_place_2")
_BEHIND_PLACE = _LISTED.words("behind_place")
_HOLES = _COMMON.words("hole")
_FOR_PLACE_3 = _LISTED.words("for_place_3")
_BEHIND_PLACE_2 = _LISTED.words("behind_place_2")


def place(lattice: Lattice, i: int, stop: Stop, *, after_value: bool) -> tuple[int, str] | None:
    """The end and the words of a place that begins at piece i; `stop` tells where other things begin."""
    k = i
    lead = ""
    if text_at(lattice, k) in PREPOSITIONS | {"out", "back"}:
        lead = text_at(lattice, k)
        k += 1
        if lead in _FOR_PLACE and text_at(lattice, k) in _FOR_PLACE_2:
            k += 1
    while text_at(lattice, k) in _ARTICLES:
        k += 1
    whole = longest(lattice, i, "WHEREWORD", sound=False)
    fixed = longest(lattice, k, "WHEREWORD", sound=False)
    outer = _outer(lattice, k)
    if fixed is not None and text_at(lattice, k) == "in" and fixed.end == k + 1:
        fixed = None
    ends = [e for e in (whole.end if whole else 0, fixed.end if fixed else 0, outer or 0) if e]
    if ends:
        end = max(ends)
        start = (
            i
            if (lead and lead not in _PLAIN)
            or (whole is not None and whole.end == end and text_at(lattice, i) not in _ARTICLES)
            else k
        )
        more = _more(lattice, end, stop)
        return more, _words(lattice, start, more)
    beyond = _side_of_a_landmark(lattice, k)
    if beyond is not None and not stop(k):
        return beyond, _words(lattice, k if lead in _PLAIN else i, beyond)
    lie = _lie_of_the_land(lattice, k)
    if lie is not None and not stop(k) and (lead or (after_value and _set_off(lattice, k, lie))):
        return lie, _words(lattice, k if lead in _PLAIN else i, lie)
    if lead and k < len(lattice.pieces) and text_at(lattice, k) in _COMPASS and not stop(k):
        end = k + 1 + (text_at(lattice, k + 1) in _HOLES)  # in the sw hole
        return end, _words(lattice, k if lead in _PLAIN else i, end)
    if text_at(lattice, k) in _COMPASS and text_at(lattice, k + 1) in _BEHIND_PLACE:
        return k + 2, _words(lattice, k, k + 2)
    bare = bare_place(lattice, i) if after_value else None
    if bare is not None:
        return bare, _words(lattice, i, bare)
    if k > i and text_at(lattice, k) in _FOR_PLACE_3:
        return k + 1, _words(lattice, k, k + 1)
    edge = longest(lattice, i, *_STEM, sound=False)
    if (
        edge is not None
        and (after_value or edge.kind != "TOP")
        and longest(lattice, edge.end, "NODE", "NODES", sound=False) is None
    ):
        end = edge.end
        if text_at(lattice, end) in _BEHIND_PLACE_2:
            end += 1
        return end, _words(lattice, i, end)
    if lead:
        return _free(lattice, i, k, lead, stop)
    return None


_HEIGHTS = _LISTED.words("heights")


def _side_of_a_landmark(lattice: Lattice, k: int) -> int | None:
    """`sw of the pivot`, `north of the barn`: where such words end."""
    if text_at(lattice, k) not in _COMPASS or text_at(lattice, k + 1) != "of":
        return None
    at = k + 2 + (text_at(lattice, k + 2) in _ARTICLES)
    noun = longest(lattice, at, "FIELDNOUN", sound=False) if at < len(lattice.pieces) else None
    return noun.end if noun is not None else None


def _lie_of_the_land(lattice: Lattice, k: int) -> int | None:
    """`N slope`, `south hill`, `creek bottom`: where such words end; what they are of is no name. A `ridge` alone is one too
    behind a comma, at the end of its clause."""
    if text_at(lattice, k) in _HEIGHTS and text_at(lattice, k - 1) == "," and _ends(lattice, k + 1):
        return k + 1
    if text_at(lattice, k + 1) not in name_words().terrain:
        return None
    side = text_at(lattice, k) in _COMPASS
    return k + 2 if side or any(e.kind == "FIELDNOUN" and e.end == k + 1 for e in lattice.edges[k]) else None


def lies_at(lattice: Lattice, k: int) -> int | None:
    """Where `N slope`, `south hill` ends that begins at piece k, with a side of the field."""
    return _lie_of_the_land(lattice, k) if text_at(lattice, k) in _COMPASS else None


def side_of(words: str) -> bool:
    """Whether these words tell a side of the field: `west side`, `the north end`."""
    said = words.casefold().split()
    return bool(said) and any(word in _COMPASS for word in said[:3])


def _set_off(lattice: Lattice, k: int, end: int) -> bool:
    """With piece `end` the clause is over, and a mark stands before a place that begins with no side: `Aphids, creek bottom`."""
    begins = text_at(lattice, k) in _COMPASS or text_at(lattice, k - 1) in {",", ":", "-", "(", ".", ";"}
    return begins and (_ends(lattice, end) or text_at(lattice, end) == ")")


_BARE = _LISTED.words("bare")
_BARE_PAIRS = frozenset(_LISTED.rows("bare_pairs"))


def bare_place(lattice: Lattice, i: int) -> int | None:
    """`15% outside and 5% inside`, `25% underneath`: a word of place with nothing behind it that it is a place of."""
    end = i + 2 if (text_at(lattice, i), text_at(lattice, i + 1)) in _BARE_PAIRS else i + 1
    if end == i + 1 and text_at(lattice, i) not in _BARE:
        return None
    over = end >= len(lattice.pieces) or lattice.pieces[end].form in {"mark", "nl"} or text_at(lattice, end) == "and"
    return end if over else None


_BEHIND_OUTER = _LISTED.words("behind_outer")
_BEHIND_OUTER_2 = _LISTED.words("behind_outer_2")


def _outer(lattice: Lattice, k: int) -> int | None:
    """`outside 12 rows`, `first four rows`."""
    if text_at(lattice, k) not in _OUTER:
        return None
    many = amount(lattice, k + 1)
    end = many.end if many is not None else k + 2 if text_at(lattice, k + 1) in _BEHIND_OUTER else None
    if end is not None and text_at(lattice, end) in _BEHIND_OUTER_2:
        return end + 1
    return None


def _more(lattice: Lattice, end: int, stop: Stop) -> int:
    """`in the skip by the fence`: a second place that follows at once."""
    if text_at(lattice, end) in PREPOSITIONS and not stop(end) and text_at(lattice, end + 1) in _ARTICLES:
        again = place(lattice, end, stop, after_value=False)
        if again is not None:
            return again[0]
    return end


_FOR_FREE = _LISTED.words("for_free")
_BEHIND_FREE = _LISTED.words("behind_free")
_FOR_FREE_2 = _LISTED.words("for_free_2")


def _free(lattice: Lattice, i: int, k: int, lead: str, stop: Stop) -> tuple[int, str] | None:
    pieces = lattice.pieces
    if text_at(lattice, k) in _OBJECTS or k >= len(pieces):
        return None
    if longest(lattice, k, "MONTH", "WEEKDAY", "DMY", sound=False) is not None or (
        pieces[k].form == "int" and text_at(lattice, k + 1) == "/"
    ):
        return None  # hail on July 8
    seed_leaf = longest(lattice, k, "COT", "UNI", sound=False) if lead in _UP_OR_DOWN else None
    if seed_leaf is not None and _over(lattice, seed_leaf.end):
        return seed_leaf.end, _words(lattice, i, seed_leaf.end)  # cut off below the cotyledons, dead
    if lead in {"over", "on", "across"}:
        part = share(lattice, k + 1 if text_at(lattice, k) in _FOR_FREE else k)
        untold = longest(lattice, k, "LESSHALF", sound=False)
        if part is not None or untold is not None:
            end = untold.end if untold is not None else part.end if part is not None else k
            while text_at(lattice, end) in _BEHIND_FREE and not stop(end):
                end += 1
            return end, _words(lattice, i, end)
    some = _some_of(lattice, k) if lead in _FOR_FREE_2 else None
    if some is not None and (lead != "in" or text_at(lattice, some - 1) in _LOOKED_AT or _ends(lattice, some)):
        return some, _words(lattice, i, some)
    spots = _so_many_spots(lattice, k) if lead in _FOR_FREE_2 | {"at"} else None
    if spots is not None:
        return spots, _words(lattice, i, spots)
    words = 0
    j = k
    while j < len(pieces) and words < 4:
        p = pieces[j]
        if p.form != "word" and not (p.form == "mark" and p.text == "-" and p.glued):
            break
        if (
            stop(j)
            or p.text in _ENDS
            or p.text in PREPOSITIONS
            or (p.text in _ARTICLES and words)
            or (p.text == "stand" and words and _told_of(lattice, j))
            or (words and _measured(lattice, j))
            or longest(lattice, j, "INSECT", "DISEASE", "WEED", "DEFOL", sound=False) is not None
        ):
            break
        if number(lattice, j) is not None and text_at(lattice, j + 1) not in _BEHIND_PLACE:
            break  # tree side is none: no three
        j += 1
        words += p.form == "word"
        if p.text in _NUMBERED and number(lattice, j) is not None and not stop(j):
            j = number(lattice, j).end  # type: ignore[union-attr]
            break
    if not words:
        return None
    end = _more(lattice, j, stop)
    return end, _words(lattice, i, end)


_UP_OR_DOWN = _LISTED.words("up_or_down")


def _over(lattice: Lattice, k: int) -> bool:
    return _ends(lattice, k) or text_at(lattice, k) in {"and", "by", "&"}


_ROUGH = _LISTED.words("rough")
_WHERE_ONE_SITS = _LISTED.words("where_one_sits")


def _told_of(lattice: Lattice, k: int) -> bool:
    """`by the grain bin | stand is about one thirty`: how thick the plants stand is told, and no `deer stand` is meant."""
    said = text_at(lattice, k + 1) in _ROUGH or number(lattice, k + 1) is not None
    return said and text_at(lattice, k - 1) not in _WHERE_ONE_SITS


_GAUGE_TELLS = _LISTED.words("gauge_tells")


def _measured(lattice: Lattice, k: int) -> bool:
    """`along the old fence | gauge had one point three inches`: how much it rained is told, and no place of a gauge."""
    rain = longest(lattice, k, "WEATHER", sound=False)
    if rain is None:
        return False
    at = rain.end + (text_at(lattice, rain.end) in _GAUGE_TELLS)
    return text_at(lattice, at - 1) in _GAUGE_TELLS and number(lattice, at) is not None


_SPOTS = _LISTED.words("spots")


def _so_many_spots(lattice: Lattice, k: int) -> int | None:
    """`in three places`, `at two different spots`: where such words end."""
    many = number(lattice, k)
    at = many.end + (text_at(lattice, many.end) == "different") if many is not None else k
    return at + 1 if at > k and text_at(lattice, at) in _SPOTS else None


_LOOKED_AT = _LISTED.words("looked_at")


def _some_of(lattice: Lattice, k: int) -> int | None:
    """`on 8 of 10`, `in 4 of the 20 stems`: where some of those that were looked at end."""
    few = number(lattice, k)
    if few is None or text_at(lattice, few.end) not in {"of", "/"}:
        return None
    at = few.end + 1 + (text_at(lattice, few.end + 1) in {"the", "my", "our"})
    of = number(lattice, at)
    return of.end + (text_at(lattice, of.end) in _LOOKED_AT) if of is not None else None


def _ends(lattice: Lattice, k: int) -> bool:
    return k >= len(lattice.pieces) or lattice.pieces[k].form == "nl" or text_at(lattice, k) in {",", ";", "."}


def looked_at(lattice: Lattice, k: int) -> int | None:
    """`dectes 4 of 20 plants`: where the plants that had it end; the noun is said, or nothing comes behind."""
    end = _some_of(lattice, k)
    said = end is not None and (text_at(lattice, end - 1) in _LOOKED_AT or _ends(lattice, end))
    return end if said and text_at(lattice, k + 1) == "of" else None


def _words(lattice: Lattice, start: int, end: int) -> str:
    return lattice.written(start, end)
